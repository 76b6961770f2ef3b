//! One plot in one season: its notes sorted, told apart by plant, and resolved where they repeat.
//!
//! A stem is walked past many times, but it ends once; a plot that is noted without plant numbers every
//! week is still one plot. This file turns facts into one fate a plant, one leaf count a plant, one
//! height series a plant and one run of picks a plot. Start at [`patches`].

use crate::habit::evidence::{Amount, Fate, HabitEvidence, PatchKey, Seen, Told};
use jiff::civil::Date;
use statistics::curves::Reading;
use std::collections::BTreeMap;

/// What became of one plant's main stem.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum PlantFate {
    /// Still growing after so many trusses.
    GrowingAfter(u32),
    /// Ended after at least so many; nobody counted at the end.
    EndedBeyond(u32),
    /// Ended after so many, the last included.
    EndedAfter(u32),
}

/// Leaves between trusses over the plants of a plot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct LeafMean {
    /// The mean over plants.
    pub(crate) mean: f64,
    /// How many plants.
    pub(crate) plants: u32,
}

/// One plot in one season.
#[derive(Clone, Debug)]
pub(crate) struct Patch {
    pub(crate) key: PatchKey,
    /// One fate a plant.
    pub(crate) fates: Vec<PlantFate>,
    /// Plants noted as ended and, with more trusses, as growing: nothing is read from them.
    pub(crate) contradicted: u32,
    pub(crate) leaves: Option<LeafMean>,
    /// Leaves fewer at the last count than at the first, over plants counted on different days.
    pub(crate) leaf_fall: Option<LeafMean>,
    /// One series a plant, or one for the plot; time in days from its first reading, height in millimetres.
    pub(crate) heights: Vec<Vec<Reading>>,
    /// Day and amount, in date order; all amounts are grams or all are fruits.
    pub(crate) picks: Vec<(f64, f64)>,
    /// Whether somebody noted dwarf leaves.
    pub(crate) dwarf_leaves: bool,
    /// What was said of its plants as a whole.
    pub(crate) told: Told,
    /// Most plants counted.
    pub(crate) stand: Option<u32>,
    /// The most plants that any one kind of note tells apart.
    pub(crate) plants: usize,
}

/// Sorts evidence into plots; the same for any order of notes.
pub(crate) fn patches(evidence: &HabitEvidence) -> Vec<Patch> {
    let mut found = BTreeMap::new();
    each_patch(&evidence.stems, |key, notes| take_stems(at(&mut found, key), notes));
    each_patch(&evidence.leaves, |key, notes| take_leaves(at(&mut found, key), notes));
    each_patch(&evidence.heights, |key, notes| take_heights(at(&mut found, key), notes));
    each_patch(&evidence.picks, |key, notes| at(&mut found, key).picks = daily(notes));
    each_patch(&evidence.stands, |key, notes| {
        at(&mut found, key).stand = notes.iter().map(|(_, plants)| *plants).max();
    });
    for seen in &evidence.dwarf_leaves {
        at(&mut found, seen.patch).dwarf_leaves = true;
    }
    for (key, told) in &evidence.told {
        at(&mut found, *key).told = *told;
    }
    found.into_values().collect()
}

impl Patch {
    /// Whether somebody looked at the plants closely enough to have noted a dwarf.
    pub(crate) fn was_walked(&self) -> bool {
        !self.fates.is_empty() || self.leaves.is_some()
    }

    fn new(key: PatchKey) -> Self {
        Self {
            key,
            fates: Vec::new(),
            contradicted: 0,
            leaves: None,
            leaf_fall: None,
            heights: Vec::new(),
            picks: Vec::new(),
            dwarf_leaves: false,
            told: Told::default(),
            stand: None,
            plants: 1,
        }
    }
}

/// A fact that can be put in order, whatever it holds.
trait InOrder {
    fn order(&self, other: &Self) -> std::cmp::Ordering;
}

impl InOrder for Fate {
    fn order(&self, other: &Self) -> std::cmp::Ordering {
        self.cmp(other)
    }
}

impl InOrder for u32 {
    fn order(&self, other: &Self) -> std::cmp::Ordering {
        self.cmp(other)
    }
}

impl InOrder for f64 {
    fn order(&self, other: &Self) -> std::cmp::Ordering {
        self.total_cmp(other)
    }
}

impl InOrder for Amount {
    fn order(&self, other: &Self) -> std::cmp::Ordering {
        let grams = |amount: &Self| amount.grams.unwrap_or(-1.0);
        self.fruits.cmp(&other.fruits).then(grams(self).total_cmp(&grams(other)))
    }
}

fn each_patch<T: InOrder + Copy>(facts: &[(Seen, T)], mut take: impl FnMut(PatchKey, &[(Seen, T)])) {
    let mut sorted = facts.to_vec();
    sorted.sort_unstable_by(|one, other| one.0.cmp(&other.0).then_with(|| one.1.order(&other.1)));
    for notes in sorted.chunk_by(|one, other| one.0.patch == other.0.patch) {
        if let Some((seen, _)) = notes.first() {
            take(seen.patch, notes);
        }
    }
}

fn at(found: &mut BTreeMap<PatchKey, Patch>, key: PatchKey) -> &mut Patch {
    found.entry(key).or_insert_with(|| Patch::new(key))
}

fn by_plant<T>(notes: &[(Seen, T)]) -> impl Iterator<Item = &[(Seen, T)]> {
    notes.chunk_by(|one, other| one.0.plant == other.0.plant)
}

fn take_stems(patch: &mut Patch, notes: &[(Seen, Fate)]) {
    // Unnumbered notes sort first. Where plants are numbered, unnumbered notes speak of the same plants.
    let numbered = notes.iter().position(|(seen, _)| seen.plant.is_some());
    match numbered.and_then(|from| notes.get(from..)) {
        None => patch.fates = fullest_walk(notes),
        Some(notes) => {
            for plant in by_plant(notes) {
                match fate_of_plant(plant) {
                    Some(fate) => patch.fates.push(fate),
                    None => patch.contradicted += 1,
                }
            }
        }
    }
    // A plant watched before its first truss has shown nothing yet.
    patch.fates.retain(|fate| *fate != PlantFate::GrowingAfter(0));
    patch.plants = patch.plants.max(patch.fates.len());
}

/// One plant's fate from all that was noted of it; `None` where it is said to have ended and then to have
/// borne more trusses.
fn fate_of_plant(notes: &[(Seen, Fate)]) -> Option<PlantFate> {
    let growing = notes.iter().filter_map(|(_, fate)| match fate {
        Fate::Growing(trusses) => Some(*trusses),
        Fate::Ended | Fate::EndedAfter(_) => None,
    });
    let most_growing = growing.max();
    let ended = notes.iter().rev().find_map(|(_, fate)| match fate {
        Fate::EndedAfter(trusses) => Some(*trusses),
        Fate::Ended | Fate::Growing(_) => None,
    });
    match (ended, most_growing) {
        (Some(ended), Some(growing)) if ended < growing => None,
        (Some(ended), _) => Some(PlantFate::EndedAfter(ended)),
        (None, growing) if notes.iter().any(|(_, fate)| *fate == Fate::Ended) => {
            Some(PlantFate::EndedBeyond(growing.unwrap_or(0)))
        }
        (None, growing) => growing.map(PlantFate::GrowingAfter),
    }
}

/// Fates from the walk that noted most plants, the latest of equals: without plant numbers, other walks
/// went past the same plants.
fn fullest_walk(notes: &[(Seen, Fate)]) -> Vec<PlantFate> {
    let walks = notes.chunk_by(|one, other| one.0.on == other.0.on);
    let fullest = walks.max_by_key(|walk| walk.len()).unwrap_or(&[]);
    let fate = |fate: &Fate| match fate {
        Fate::Growing(trusses) => PlantFate::GrowingAfter(*trusses),
        Fate::Ended => PlantFate::EndedBeyond(0),
        Fate::EndedAfter(trusses) => PlantFate::EndedAfter(*trusses),
    };
    fullest.iter().map(|(_, noted)| fate(noted)).collect()
}

fn take_leaves(patch: &mut Patch, notes: &[(Seen, f64)]) {
    let means: Vec<f64> = by_plant(notes).filter_map(mean).collect();
    let falls: Vec<f64> = by_plant(notes).filter_map(fall).collect();
    patch.leaves = leaf_mean(&means);
    patch.leaf_fall = leaf_mean(&falls);
    patch.plants = patch.plants.max(means.len());
}

fn leaf_mean(plants: &[f64]) -> Option<LeafMean> {
    let count = u32::try_from(plants.len()).ok().filter(|count| 0 < *count)?;
    Some(LeafMean { mean: plants.iter().sum::<f64>() / f64::from(count), plants: count })
}

fn mean(notes: &[(Seen, f64)]) -> Option<f64> {
    leaf_mean(&notes.iter().map(|(_, value)| *value).collect::<Vec<_>>()).map(|mean| mean.mean)
}

/// How many fewer leaves the last day's count gave than the first day's.
fn fall(plant: &[(Seen, f64)]) -> Option<f64> {
    let mut days = plant.chunk_by(|one, other| one.0.on == other.0.on);
    let first = days.next()?;
    let last = days.last()?;
    // An undated count sorts first but may have been taken last.
    first.first()?.0.on?;
    Some(mean(first)? - mean(last)?)
}

fn take_heights(patch: &mut Patch, notes: &[(Seen, f64)]) {
    patch.heights = by_plant(notes).map(series).collect();
    patch.plants = patch.plants.max(patch.heights.len());
}

fn series(plant: &[(Seen, f64)]) -> Vec<Reading> {
    let start = plant.iter().find_map(|(seen, _)| seen.on);
    let days = plant.chunk_by(|one, other| one.0.on == other.0.on);
    days.filter_map(|day| {
        let on = day.first()?.0.on?;
        Some(Reading { time: days_between(start?, on), value: mean(day)? })
    })
    .collect()
}

/// What was picked each day over all plants of the plot, in the one unit that covers most picks.
fn daily(notes: &[(Seen, Amount)]) -> Vec<(f64, f64)> {
    let weighed = notes.iter().filter(|(_, amount)| amount.grams.is_some()).count();
    let counted = notes.iter().filter(|(_, amount)| amount.fruits.is_some()).count();
    let amount = |amount: &Amount| {
        if counted <= weighed { amount.grams } else { amount.fruits.map(f64::from) }
    };
    let mut days: BTreeMap<Date, f64> = BTreeMap::new();
    for (seen, picked) in notes {
        if let (Some(on), Some(amount)) = (seen.on, amount(picked)) {
            *days.entry(on).or_default() += amount;
        }
    }
    let start = days.keys().next().copied();
    let since = |on: Date| start.map_or(0.0, |start| days_between(start, on));
    days.into_iter().map(|(on, amount)| (since(on), amount)).collect()
}

/// Whole days from one date to another.
#[expect(clippy::cast_precision_loss, reason = "dates lie within 20,000 years of each other")]
fn days_between(from: Date, to: Date) -> f64 {
    to.duration_since(from).as_hours() as f64 / 24.0
}
