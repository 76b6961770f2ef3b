//! The names of plots and varieties, and which lots came from which plot, as the rogue list needs them.

use super::{Spot, Suspect, Why};
use crate::fault::HouseFault;
use ledger::ledger::Ledger;
use record::growout::{GrowOut, Plot};
use record::id::Id;
use record::lot::Lot;
use record::season::Season;
use record::variety::Variety;
use std::collections::{BTreeSet, HashMap};

/// What suspects are named by.
pub(super) struct Ground {
    varieties: HashMap<Id<Variety>, String>,
    plots: HashMap<Id<Plot>, (Id<GrowOut>, String)>,
    grow_outs: HashMap<Id<GrowOut>, String>,
    lots: Vec<Lot>,
}

impl Ground {
    pub(super) fn read(ledger: &mut Ledger) -> Result<Self, HouseFault> {
        let varieties = ledger.varieties()?.into_iter().map(|variety| (variety.id, variety.name)).collect();
        let plots = ledger.plots()?.into_iter().map(|plot| (plot.id, (plot.grow_out, plot.label))).collect();
        let grow_outs = ledger.grow_outs()?.into_iter().map(|one| (one.id, one.name)).collect();
        Ok(Self { varieties, plots, grow_outs, lots: ledger.lots()? })
    }

    /// The grow-out of a plot.
    pub(super) fn grow_out_of(&self, plot: Id<Plot>) -> Option<Id<GrowOut>> {
        self.plots.get(&plot).map(|(grow_out, _)| *grow_out)
    }

    /// Names plants, and the lots that they concern.
    pub(super) fn suspect(
        &self,
        variety: Id<Variety>,
        season: Season,
        plants: &[(Option<Id<Plot>>, Option<u32>)],
        why: Why,
    ) -> Suspect {
        let plots: BTreeSet<Id<Plot>> = plants.iter().filter_map(|(plot, _)| *plot).collect();
        let gave =
            || self.lots.iter().filter(|lot| lot.origin.plot.is_some_and(|plot| plots.contains(&plot)));
        let parents: BTreeSet<Id<Lot>> = gave().filter_map(|lot| lot.origin.sown_from).collect();
        let spot = |(plot, plant): &(Option<Id<Plot>>, Option<u32>)| Spot {
            plot: plot.and_then(|plot| self.plots.get(&plot)).map(|(_, label)| label.clone()),
            plant: *plant,
        };
        let grow_out = plots.first().and_then(|plot| self.grow_out_of(*plot));
        let number = |lot: &Lot| lot.number.clone();
        Suspect {
            variety: self.varieties.get(&variety).cloned().unwrap_or_default(),
            season,
            grow_out: grow_out.and_then(|grow_out| self.grow_outs.get(&grow_out)).cloned(),
            spots: plants.iter().map(spot).collect(),
            why,
            gave: gave().map(number).collect(),
            grew_from: self.lots.iter().filter(|lot| parents.contains(&lot.id)).map(number).collect(),
        }
    }
}
