//! Stature: how tall the grown plant stands, and whether it has a dwarf's leaves.

use crate::guide::habit::{HabitGuide, LogNormal};
use crate::habit::height_curve::levelling;
use crate::habit::normal::{density, log_mixed, share_above};
use crate::habit::patch::Patch;
use crate::habit::{Stature, Stem};

/// The tallest that a plot's plants were measured, and how sure it is that they had done growing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Tallest {
    /// Geometric mean over the plot's series of their tallest reading, in millimetres.
    pub(crate) height: f64,
    /// Chance that the plants had done growing.
    pub(crate) done: f64,
}

/// A plot's tallest readings; `None` where nobody measured.
pub(crate) fn tallest(patch: &Patch, guide: &HabitGuide) -> Option<Tallest> {
    let mut logs = Vec::new();
    let mut done = Vec::new();
    for series in &patch.heights {
        let top = series.iter().map(|reading| reading.value).fold(0.0, f64::max);
        // A reading of nothing is a plant that had not come up or had died: it says nothing of stature.
        if 0.0 < top {
            logs.push(top.ln());
            let unwatched = guide.final_height.done_growing_if_unwatched.number;
            done.push(levelling(series, guide).unwrap_or(unwatched));
        }
    }
    let count = f64::from(u32::try_from(logs.len()).ok().filter(|count| 0 < *count)?);
    let mean = |values: &[f64]| values.iter().sum::<f64>() / count;
    Some(Tallest { height: mean(&logs).exp(), done: mean(&done) })
}

/// Log-likelihood of a tallest reading for each stature and stem.
///
/// A plant that had done growing shows its height; one that had not says that it ends up taller.
pub(crate) fn height_odds(tallest: Tallest, guide: &HabitGuide) -> [[f64; 3]; 3] {
    Stature::ALL
        .map(|stature| Stem::ALL.map(|stem| one_height_odds(tallest, expected(guide, stature, stem), guide)))
}

fn one_height_odds(tallest: Tallest, expected: &LogNormal, guide: &HabitGuide) -> f64 {
    let (height, mean, sd) = (tallest.height.ln(), expected.median.number.ln(), expected.log_sd.number);
    let chance =
        tallest.done * density(height, mean, sd) + (1.0 - tallest.done) * share_above(height, mean, sd);
    // A mistaken height is as likely in any third of a logarithm's unit, as for ripening.
    log_mixed(chance, 1.0 / 3.0, guide.mistakes.off_type_rate.number)
}

/// What the guide expects of a grown plant.
pub(crate) fn expected(guide: &HabitGuide, stature: Stature, stem: Stem) -> &LogNormal {
    match stature {
        Stature::Tall => guide.final_height.tall.of(stem),
        Stature::Dwarf => &guide.final_height.dwarf,
        Stature::MicroDwarf => &guide.final_height.micro_dwarf,
    }
}

/// Log-likelihood of dwarf leaves having been noted, for each stature.
pub(crate) fn dwarf_leaf_odds(guide: &HabitGuide) -> [f64; 3] {
    Stature::ALL.map(|stature| guide.dwarf_leaves.of(stature).number.ln())
}
