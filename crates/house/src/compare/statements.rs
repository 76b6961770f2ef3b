//! What trials say of each variety's yield, for the catalogue and the web pages: only what was told from the check.

use super::compared_trials;
use crate::fault::HouseFault;
use ledger::ledger::Ledger;
use record::language::{Units, counted};
use std::collections::HashMap;
use trial::compare::verdict;
use trial::traits::Trait;

/// Sentences by variety, the latest season first.
pub(crate) type Statements = HashMap<String, Vec<String>>;

/// What the trials of every season say. A season whose plots have no picks yet says nothing.
///
/// # Errors
/// What the ledger refuses.
pub(crate) fn of_yield(ledger: &mut Ledger, units: Units) -> Result<Statements, HouseFault> {
    let mut statements = Statements::new();
    for compared in compared_trials(ledger, Trait::Yield)? {
        let (found, grow_outs) = (&compared.comparison, &compared.grow_outs);
        let (Some(check), Some(first)) = (found.check.as_deref(), grow_outs.first()) else { continue };
        let trials = counted(grow_outs.len() as u64, "trial", "trials");
        for own in found.outcomes.iter().filter(|own| own.against.is_some_and(|one| one.verdict.is_told())) {
            let Some(beside) = verdict::beside(found.of, own, check, units) else { continue };
            let plots = counted(own.plots as u64, "plot", "plots");
            let words = format!("{trials} of {}, {plots}: {beside}", first.season);
            statements.entry(own.variety.clone()).or_default().push(words);
        }
    }
    Ok(statements)
}
