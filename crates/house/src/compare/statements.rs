//! What trials say of each variety's yield, for the catalogue and the web pages: only what was told from the check.

use super::{Asked, compare_in, trials_in};
use crate::fault::HouseFault;
use ledger::ledger::Ledger;
use record::language::{Units, counted};
use std::collections::HashMap;
use trial::compare::verdict::{self, Verdict};
use trial::traits::Trait;

/// Sentences by variety, the latest season first.
pub(crate) type Statements = HashMap<String, Vec<String>>;

/// What the trials of every season say. A season whose plots have no picks yet says nothing.
///
/// # Errors
/// What the ledger refuses.
pub(crate) fn of_yield(ledger: &mut Ledger, units: Units) -> Result<Statements, HouseFault> {
    let mut statements = Statements::new();
    for (season, grow_outs) in trials_in(ledger)?.into_iter().rev() {
        let gardens = counted(grow_outs.len() as u64, "trial", "trials");
        let compared = match compare_in(ledger, &Asked { grow_outs, of: Trait::Yield, check: None }) {
            Ok(compared) => compared.comparison,
            Err(HouseFault::Compare(_)) => continue,
            Err(fault) => return Err(fault),
        };
        let Some(check) = compared.check.as_deref() else { continue };
        for own in &compared.outcomes {
            let is_told =
                own.against.is_some_and(|against| !matches!(against.verdict, Verdict::NotTold { .. }));
            let Some(beside) = verdict::beside(compared.of, own, check, units).filter(|_| is_told) else {
                continue;
            };
            let plots = counted(own.plots as u64, "plot", "plots");
            let words = format!("{gardens} of {season}, {plots}: {beside}");
            statements.entry(own.variety.clone()).or_default().push(words);
        }
    }
    Ok(statements)
}
