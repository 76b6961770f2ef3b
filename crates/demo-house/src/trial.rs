//! Two trials of 2026: varieties for sauce in four replicates, on ground that is better at one end of its beds.
//!
//! The house's other grow-outs hold each variety once, so their plots tell what a variety is and not which one bears
//! more. Start at [`plant`].

use crate::chance::stream;
use crate::garden::{Place, Plant, Plot, find, shuffle};
use crate::ripening::{self, TruePick};
use crate::season::{GROW_OUTS, Garden, GrowOut};
use crate::truth::TrueVariety;

/// The variety that the others stand beside: the house has sold it longest.
pub const CHECK: &str = "Halfpenny";
/// What stands in the trials, the check among them.
const ENTRIES: [&str; 13] = [
    CHECK,
    "Weir Street",
    "Bargeman",
    "Chapel Oak",
    "Slate Wagon",
    "Lock Keeper",
    "Barn Hinge",
    "Post Mill",
    "Tinsmith",
    "Rolling Dray",
    "Crossing Sweeper",
    "School Bell",
    "Stable Lad",
];
/// The year of the trials.
pub const YEAR: i16 = 2026;
/// Beds, a replicate each; and how much more each bears, on the log scale.
const BEDS: [(&str, f64); 4] = [("Hedge", -0.09), ("Upper", 0.02), ("Lower", 0.05), ("Ditch", 0.02)];
/// How much more the first place of a bed bears than the middle, on the log scale; the last bears as much less.
const SLOPE: f64 = 0.16;
/// Plants of a plot.
const PLANTS: u32 = 6;
/// Length of a plot, and of the guard before the first, in metres.
pub const PLOT_METRES: f64 = 2.7;
/// Where the first plot begins, in metres.
pub const FIRST_METRES: f64 = 0.5;
/// Plots that were lost: a hose burst, a cow came through. Garden letter, bed, place.
const LOST: [(char, u32, u32); 4] = [('H', 1, 4), ('H', 3, 11), ('F', 2, 7), ('F', 4, 1)];

/// One plot of a trial, with the picks that were noted of it.
#[derive(Clone, Debug)]
pub struct TrialPlot {
    /// The plot; its row is its bed.
    pub plot: Plot,
    /// How much more than middling ground its own bears, on the log scale.
    pub ground: f64,
    /// Picks; none where it was lost.
    pub picks: Vec<TruePick>,
}

impl TrialPlot {
    /// The name of its bed.
    #[must_use]
    pub fn bed(&self) -> &'static str {
        let at = usize::try_from(self.plot.row).ok().and_then(|row| row.checked_sub(1));
        at.and_then(|at| BEDS.get(at)).map_or("", |(name, _)| *name)
    }

    /// The name of its grow-out.
    #[must_use]
    pub fn grow_out(&self) -> String {
        name(self.plot.grow_out.garden)
    }
}

/// The name of a garden's trial, such as `2026 Far Field Trial`.
#[must_use]
pub fn name(garden: Garden) -> String {
    match garden {
        Garden::Home => format!("{YEAR} Home Trial"),
        Garden::FarField => format!("{YEAR} Far Field Trial"),
    }
}

/// Plants both trials.
#[must_use]
pub fn plant(seed: u64, truth: &[TrueVariety]) -> Vec<TrialPlot> {
    GROW_OUTS.iter().filter(|own| own.year == YEAR).flat_map(|own| planted(seed, truth, own)).collect()
}

fn planted(seed: u64, truth: &[TrueVariety], grow_out: &GrowOut) -> Vec<TrialPlot> {
    let draws = &mut stream(seed, &["trial", &name(grow_out.garden)]);
    let mut plots = Vec::new();
    for (bed, (_, better)) in (1u32..).zip(BEDS) {
        let mut order: Vec<Place> = ENTRIES.iter().filter_map(|entry| find(truth, entry)).collect();
        shuffle(draws, &mut order);
        let middle = (order.len() as f64 + 1.0) / 2.0;
        for (position, labelled) in (1u32..).zip(order) {
            let ground = better + SLOPE * (middle - f64::from(position)) / (middle - 1.0);
            plots.push(one(seed, truth, grow_out, (bed, position, labelled), ground));
        }
    }
    plots
}

fn one(
    seed: u64,
    truth: &[TrueVariety],
    grow_out: &GrowOut,
    (bed, position, labelled): (u32, u32, Place),
    ground: f64,
) -> TrialPlot {
    let plant = |number| Plant { number, truly: labelled, off_type: false, lost: None, heavier: 0.0 };
    let plot = Plot {
        grow_out: *grow_out,
        label: format!("T{}{bed}{position:02}", grow_out.garden.letter()),
        labelled,
        block: bed,
        row: bed,
        position,
        transplanted: grow_out.day(0.0),
        plants: (1..=PLANTS).map(plant).collect(),
    };
    let is_lost = LOST.contains(&(grow_out.garden.letter(), bed, position));
    let picks = if is_lost { Vec::new() } else { ripening::picks_on(seed, truth, &plot, ground) };
    TrialPlot { plot, ground, picks }
}
