//! How tall the plants of a variety stand. Start at [`tallest`].

use crate::habit::evidence::{HabitEvidence, PatchKey};
use crate::over_plots::{OverPlots, median, over_plots};
use record::growout::PlantNumber;
use std::collections::BTreeMap;

/// The tallest reading of each plant, in millimetres: the median plot, and the lowest and the highest.
///
/// A plot is the median of its plants. Readings that stop early in the season make a variety look shorter than it is;
/// that cannot be seen in them. `None` where nobody measured.
#[must_use]
pub fn tallest(evidence: &HabitEvidence) -> Option<OverPlots> {
    let mut plants: BTreeMap<(PatchKey, Option<PlantNumber>), f64> = BTreeMap::new();
    for (seen, height) in &evidence.heights {
        let tallest = plants.entry((seen.patch, seen.plant)).or_insert(*height);
        *tallest = height.max(*tallest);
    }
    let mut plots: BTreeMap<PatchKey, Vec<f64>> = BTreeMap::new();
    for ((patch, _), tallest) in plants {
        plots.entry(patch).or_default().push(tallest);
    }
    over_plots(plots.into_values().filter_map(|plants| median(&plants)))
}
