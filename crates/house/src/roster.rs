//! What the house knows already, gathered for the intake.

use crate::fault::HouseFault;
use crate::kept;
use intake::roster::Roster;
use ledger::ledger::Ledger;

/// Gathers names, grow-outs, plots and typical weights.
///
/// # Errors
/// What the ledger refuses.
pub fn gather(ledger: &mut Ledger) -> Result<Roster, HouseFault> {
    let mut roster = Roster::new();
    let weights = kept::typical_weights(ledger)?;
    for variety in ledger.varieties()? {
        roster.add_variety(&variety, weights.get(&variety.id).copied());
    }
    for grow_out in ledger.grow_outs()? {
        roster.add_grow_out(&grow_out);
    }
    for plot in ledger.plots()? {
        roster.add_plot(&plot);
    }
    for lot in ledger.lots()? {
        roster.add_lot(&lot.number, lot.id);
    }
    Ok(roster)
}
