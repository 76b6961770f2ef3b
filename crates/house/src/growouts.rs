//! Grow-outs as they were brought in: which, and what stands in each.

use crate::fault::HouseFault;
use crate::folder::House;
use ledger::ledger::Ledger;
pub use record::growout::{GrowOut, Plot};
use std::collections::BTreeSet;

/// A grow-out with what stands in it.
#[derive(Clone, Debug, PartialEq)]
pub struct Planted {
    /// The grow-out.
    pub grow_out: GrowOut,
    /// Its plots, by the order of their stakes' labels, each with the name of its variety.
    pub plots: Vec<(Plot, String)>,
    /// How many varieties stand in it.
    pub variety_count: usize,
}

/// Every grow-out, the latest season first.
///
/// # Errors
/// What the ledger refuses.
pub fn grow_outs(house: &House) -> Result<Vec<Planted>, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let varieties = ledger.varieties()?;
    let plots = ledger.plots()?;
    let mut all: Vec<Planted> = Vec::new();
    for grow_out in ledger.grow_outs()? {
        let mut own: Vec<(Plot, String)> = Vec::new();
        for plot in plots.iter().filter(|plot| plot.grow_out == grow_out.id) {
            let holds = varieties.iter().find(|variety| variety.id == plot.variety);
            own.push((plot.clone(), holds.map(|variety| variety.name.clone()).unwrap_or_default()));
        }
        own.sort_by(|(one, _), (other, _)| one.label.cmp(&other.label));
        let variety_count = own.iter().map(|(plot, _)| plot.variety).collect::<BTreeSet<_>>().len();
        all.push(Planted { grow_out, plots: own, variety_count });
    }
    all.sort_by(|one, other| {
        let key =
            |planted: &Planted| (std::cmp::Reverse(planted.grow_out.season), planted.grow_out.name.clone());
        key(one).cmp(&key(other))
    });
    Ok(all)
}
