//! Every variety's picks, plot by plot, out of the ledger.

use super::PlotTold;
use crate::fault::HouseFault;
use ledger::evidence::Whose;
use ledger::ledger::Ledger;
use record::growout::{GrowOut, Plot};
use record::id::Id;
use record::mass::Grams;
use record::pick::Pick;
use record::season::Season;
use record::variety::Variety;
use ripening::curve::SHARES;
use ripening::picked::{self, Picked};
use std::collections::{BTreeMap, HashMap};
use std::ops::ControlFlow;

/// Every variety's picks, plot by plot.
pub(crate) fn everyones(ledger: &mut Ledger) -> Result<BTreeMap<Id<Variety>, Vec<PlotPicks>>, HouseFault> {
    let plots: HashMap<Id<Plot>, Plot> = ledger.plots()?.into_iter().map(|plot| (plot.id, plot)).collect();
    let gardens: HashMap<Id<GrowOut>, String> =
        ledger.grow_outs()?.into_iter().map(|grow_out| (grow_out.id, grow_out.garden)).collect();
    let mut all: BTreeMap<Id<Variety>, Vec<PlotPicks>> = BTreeMap::new();
    ledger.picks_by_variety(Whose::Everyones, &mut |picks| {
        all.insert(picks.variety, plot_by_plot(picks.records, &plots, &gardens));
        ControlFlow::Continue(())
    })?;
    Ok(all)
}

/// One plot's picks of a season, with what goes beside them.
#[derive(Clone)]
pub(crate) struct PlotPicks {
    pub(crate) season: Season,
    /// The garden that it stood in.
    pub(crate) garden: String,
    label: String,
    pub(crate) plants: Option<u32>,
    pub(crate) picked: Picked,
    sound: Option<f64>,
    fruit: Option<(Grams, Grams)>,
}

fn plot_by_plot(
    picks: &[Pick],
    plots: &HashMap<Id<Plot>, Plot>,
    gardens: &HashMap<Id<GrowOut>, String>,
) -> Vec<PlotPicks> {
    let mut by_plot: BTreeMap<(Season, Id<Plot>), Vec<&Pick>> = BTreeMap::new();
    for pick in picks {
        let Some(plot) = pick.subject.plot else { continue };
        by_plot.entry((pick.subject.season, plot)).or_default().push(pick);
    }
    let told = by_plot.into_iter().filter_map(|((season, id), mut picks)| {
        let plot = plots.get(&id)?;
        picks.sort_by_key(|pick| pick.picked_on);
        let weights = picks.iter().map(|pick| pick.weight.map(Grams::get));
        Some(PlotPicks {
            season,
            garden: gardens.get(&plot.grow_out).cloned().unwrap_or_default(),
            label: plot.label.clone(),
            plants: plot.plant_count,
            picked: Picked::of(plot.transplanted?, &picks)?,
            sound: weights.sum::<Option<f64>>(),
            fruit: picked::fruit_weight(&picks),
        })
    });
    let mut told: Vec<PlotPicks> = told.collect();
    told.sort_by(|one, other| (one.season, &one.label).cmp(&(other.season, &other.label)));
    told
}

/// Grams in a kilogram.
const GRAMS_IN_KILOGRAM: f64 = 1000.0;

impl PlotPicks {
    /// Kilograms of sound fruit a plant, where weighed and the plants are known.
    pub(crate) fn kilograms(&self) -> Option<f64> {
        Some(self.told().a_plant?.get() / GRAMS_IN_KILOGRAM)
    }

    pub(crate) fn told(&self) -> PlotTold {
        let plants = self.plants.filter(|plants| 0 < *plants).map(f64::from);
        PlotTold {
            season: self.season,
            label: self.label.clone(),
            transplanted: self.picked.transplanted(),
            picks: self.picked.taken().len(),
            first: self.picked.first(),
            taken_by: SHARES.map(|share| self.picked.taken_by(share)),
            last_pick: self.picked.last_pick(),
            a_plant: self.sound.zip(plants).and_then(|(sound, plants)| Grams::new(sound / plants)),
            fruit: self.fruit,
            warmth: None,
        }
    }
}

/// The middle day of the year on which a variety's plots went out.
pub(super) fn usual_day(plots: &[PlotPicks]) -> (i8, i8) {
    let mut days: Vec<(i8, i8)> =
        plots.iter().map(|plot| plot.picked.transplanted()).map(|day| (day.month(), day.day())).collect();
    days.sort_unstable();
    days.get(days.len() / 2).copied().unwrap_or((1, 1))
}
