//! How far plots and varieties of a house differ, from the yields of its own earlier grow-outs.
//!
//! Yield a plant of every plot that was picked and whose plants were counted, grow-outs fixed, varieties and blocks
//! within grow-outs drawn: their variances by REML. Start at [`own_spread`]; too little to go by is `None`, and the
//! layout then takes its usual values and says so.

use crate::layout::report::{Source, Spread};
use record::growout::GrowOut;
use record::id::Id;
use record::mass::Grams;
use record::variety::Variety;
use statistics::mixed::terms::{Factor, Fixed, Random};
use statistics::mixed::{Going, Model, Named, fit};
use statistics::nested::Likelihood;
use std::collections::HashMap;

/// What one plot gave.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlotYield {
    /// Its grow-out.
    pub grow_out: Id<GrowOut>,
    /// Its block, where that is known.
    pub block: Option<u32>,
    /// Its variety.
    pub variety: Id<Variety>,
    /// Sound fruit a plant over the season.
    pub a_plant: Grams,
}

/// What the house's own plots say.
#[derive(Clone, Debug, PartialEq)]
pub struct OwnSpread {
    /// How plots and blocks differ, in kilograms a plant.
    pub spread: Spread,
    /// Variance between varieties over that between plots.
    pub variety_ratio: f64,
    /// Plots that it rests on.
    pub plots: usize,
}

/// Fewest plots that repeat a variety of their grow-out, from which a house's own spread is taken: with fewer the
/// spread itself is known no better than to a factor of two. Common practice, no source.
const FEWEST_REPEATS: usize = 12;
const GRAMS_PER_KILOGRAM: f64 = 1000.0;
/// Bounds of the ratio that a search is given: beyond these more varieties or fewer make no other layout.
/// Common practice, no source.
const LIKELY_RATIOS: std::ops::RangeInclusive<f64> = 0.05..=20.0;

/// Estimates the house's own spread of yield; `None` where too few plots repeat a variety, or nothing is left over.
///
/// # Shape
/// `plots`: one a plot that was picked.
#[must_use]
pub fn own_spread(plots: &[PlotYield]) -> Option<OwnSpread> {
    if repeats(plots) < FEWEST_REPEATS {
        return None;
    }
    let labels = |of: &dyn Fn(&PlotYield) -> String| plots.iter().map(of).collect::<Vec<_>>();
    let grow_out = Factor::from_labels("grow-out", &labels(&|plot| plot.grow_out.to_string()));
    let variety = Factor::from_labels("variety", &labels(&|plot| plot.variety.to_string()));
    let block = |plot: &PlotYield| format!("{}/{}", plot.grow_out, plot.block.unwrap_or(0));
    let block = Factor::from_labels("block", &labels(&block));
    let yields = plots.iter().map(|plot| plot.a_plant.get() / GRAMS_PER_KILOGRAM).collect();
    let fixed = vec![Fixed::intercept(), Fixed::of([(&grow_out).into()])];
    let random = vec![Random::of([(&variety).into()]), Random::of([(&block).into()])];
    let fitted = fit(&Model::new(yields, fixed, random), Likelihood::Restricted, &mut |_| Going::On).ok()?;
    let variance = |named: Option<&Named>| named.map_or(0.0, |named| named.component.variance);
    let residual = variance(fitted.residual.first());
    let ratio = variance(fitted.components.first()) / residual;
    let spread = Spread {
        unit: "kg a plant".to_owned(),
        plots: residual.sqrt(),
        blocks: variance(fitted.components.get(1)).sqrt(),
        source: Source::OwnGrowOuts,
    };
    let sound = 0.0 < residual && residual.is_finite() && ratio.is_finite();
    sound.then(|| OwnSpread {
        spread,
        variety_ratio: ratio.clamp(*LIKELY_RATIOS.start(), *LIKELY_RATIOS.end()),
        plots: plots.len(),
    })
}

/// Plots beyond the first of each variety in each grow-out.
fn repeats(plots: &[PlotYield]) -> usize {
    let mut groups: HashMap<(Id<GrowOut>, Id<Variety>), usize> = HashMap::new();
    for plot in plots {
        *groups.entry((plot.grow_out, plot.variety)).or_default() += 1;
    }
    groups.values().map(|count| count - 1).sum()
}
