//! Stature: how tall the grown plant stands, and whether it has a dwarf's leaves.

use crate::guide::habit::{HabitGuide, LogNormal};
use crate::habit::normal::{density, log_mixed, share_above};
use crate::habit::patch::Patch;
use crate::habit::{Stature, Stem};
use record::unknown::LeavesSeen;
use statistics::curves::Reading;

/// The tallest that a plot's plants were measured, and how far their growth was followed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Tallest {
    /// Geometric mean over the plot's series of their tallest reading, in millimetres.
    pub(crate) height: f64,
    /// Chance that the plants had done growing.
    pub(crate) done: f64,
    /// Share of the series that were read often enough to see a curve.
    pub(crate) followed: f64,
}

/// Least share of its final height that a plant has reached when it has been read often enough to see a
/// curve. Own working value.
const LEAST_GROWN: f64 = 0.4;

/// A plot's tallest readings; `None` where nobody measured. `levelling` holds each series' weight of
/// levelling off, where it could be judged.
pub(crate) fn tallest(
    series: &[Vec<Reading>],
    levelling: &[Option<f64>],
    guide: &HabitGuide,
) -> Option<Tallest> {
    let mut sum = Tallest { height: 0.0, done: 0.0, followed: 0.0 };
    let mut count = 0.0;
    for (series, levelling) in series.iter().zip(levelling) {
        let top = series.iter().map(|reading| reading.value).fold(0.0, f64::max);
        // A reading of nothing is a plant that had not come up or had died: it says nothing of stature.
        if 0.0 < top {
            sum.height += top.ln();
            sum.done += levelling.unwrap_or(guide.final_height.done_growing_if_unwatched.number);
            sum.followed += if levelling.is_some() { 1.0 } else { 0.0 };
            count += 1.0;
        }
    }
    let mean = |sum: f64| sum / count;
    (0.0 < count).then(|| Tallest {
        height: mean(sum.height).exp(),
        done: mean(sum.done),
        followed: mean(sum.followed),
    })
}

/// Log-likelihood of a tallest reading for each stature and stem.
pub(crate) fn height_odds(tallest: Tallest, guide: &HabitGuide) -> [[f64; 3]; 3] {
    let odds = |stature, stem| one_height_odds(tallest, expected(guide, stature, stem), guide);
    Stature::ALL.map(|stature| Stem::ALL.map(|stem| odds(stature, stem)))
}

/// A plant that has done growing shows its height; one that was followed has most of it; of one that was
/// not, only that it ends up taller is known.
fn one_height_odds(tallest: Tallest, expected: &LogNormal, guide: &HabitGuide) -> f64 {
    let (height, mean, sd) = (tallest.height.ln(), expected.median.number.ln(), expected.log_sd.number);
    let taller = |than: f64| share_above(than, mean, sd);
    let most_of_it = -LEAST_GROWN.ln();
    let followed = (taller(height) - taller(height + most_of_it)) / most_of_it;
    let growing = tallest.followed * followed + (1.0 - tallest.followed) * taller(height);
    let chance = tallest.done * density(height, mean, sd) + (1.0 - tallest.done) * growing;
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

/// Log-likelihood of dwarf leaves having been noted, of ordinary ones having been told, or of a walk's silence about
/// them, for each stature; `None` where nobody walked or told.
pub(crate) fn dwarf_leaf_odds(patch: &Patch, guide: &HabitGuide) -> Option<[f64; 3]> {
    let noted = |stature| guide.dwarf_leaves.of(stature).number;
    let ordinary = |trust: f64| Some(Stature::ALL.map(|stature| trust * (1.0 - noted(stature)).ln()));
    match (patch.dwarf_leaves, patch.told.leaves, patch.was_walked()) {
        (true, ..) => Some(Stature::ALL.map(|stature| noted(stature).ln())),
        (false, Some(LeavesSeen::Ordinary), _) => ordinary(1.0),
        (false, _, true) => ordinary(guide.trust.silence.number),
        (false, _, false) => None,
    }
}
