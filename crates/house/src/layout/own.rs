//! How far plots differ in this house, from what its earlier grow-outs gave.

use crate::fault::HouseFault;
use ledger::evidence::Whose;
use ledger::ledger::Ledger;
use record::growout::{Plot, PlotRole};
use record::id::Id;
use record::mass::Grams;
use std::collections::HashMap;
use std::ops::ControlFlow;
use trial::layout::USUAL_VARIETY_RATIO;
use trial::layout::report::Spread;
use trial::spread::{OwnSpread, PlotYield, own_spread};

/// The house's own spread of yield, or the usual one where it has too little to go by.
pub(crate) fn spread(ledger: &mut Ledger) -> Result<OwnSpread, HouseFault> {
    let own = own_spread(&yields(ledger)?);
    let usual = OwnSpread { spread: Spread::usual_yield(), variety_ratio: USUAL_VARIETY_RATIO, plots: 0 };
    Ok(own.unwrap_or(usual))
}

fn yields(ledger: &mut Ledger) -> Result<Vec<PlotYield>, HouseFault> {
    let mut sums: HashMap<Id<Plot>, f64> = HashMap::new();
    ledger.picks_by_variety(Whose::Everyones, &mut |gathered| {
        for pick in gathered.records {
            if let (Some(plot), Some(weight)) = (pick.subject.plot, pick.weight) {
                *sums.entry(plot).or_default() += weight.get();
            }
        }
        ControlFlow::Continue(())
    })?;
    let counted = ledger.plots()?.into_iter().filter(|plot| plot.layout.role != Some(PlotRole::Guard));
    Ok(counted
        .filter_map(|plot| {
            let plants = plot.plant_count.filter(|plants| 0 < *plants)?;
            let a_plant = Grams::new(sums.get(&plot.id)? / f64::from(plants))?;
            let (grow_out, block, variety) = (plot.grow_out, plot.block, plot.variety);
            Some(PlotYield { grow_out, block, variety, a_plant })
        })
        .collect())
}
