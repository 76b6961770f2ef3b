//! Plant habit: does the main stem end, after how many trusses, and how tall does the plant stand?
//!
//! The trade sells five habits. Three are about the stem (determinate, semi-determinate, indeterminate);
//! dwarf and micro-dwarf are about stature, and a dwarf's stem may be any of the three. So two things are
//! called together, [`Stem`] and [`Stature`], and told as the one word that the trade uses, [`Habit`].
//!
//! Reading order: [`evidence`] (what walks and picks said) -> the lines, each on its own: `stem_fate`,
//! `leaves`, `height_curve`, `ripening`, `stature` -> `belief` (Bayes over all of them) ->
//! `settle` (what to note next). Start at [`call`].

pub mod answers;
pub mod evidence;

mod belief;
mod height_curve;
mod leaves;
mod normal;
mod patch;
mod ripening;
mod settle;
mod stature;
mod stem_fate;
mod words;

use crate::call::{Call, Step, Used, is_contested};
use crate::guide::habit::HabitGuide;
use crate::habit::belief::{Belief, PatchOdds, PatchReadings, Weights};
use crate::habit::evidence::HabitEvidence;
use crate::habit::patch::{Patch, patches};
use crate::habit::settle::Noise;
use crate::habit::stem_fate::TrussTables;
use rayon::prelude::{IntoParallelRefIterator, ParallelIterator};
use record::language::Units;
use record::share::Share;
use std::fmt;

/// What the main stem does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Stem {
    /// Ends in a truss after few trusses.
    Determinate,
    /// Ends in a truss too, but late.
    SemiDeterminate,
    /// Grows until frost or the knife ends it.
    Indeterminate,
}

/// How tall the plant stands for its stem.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Stature {
    /// As tall as its stem makes it.
    Tall,
    /// Short and sturdy, with dark crinkled leaves.
    Dwarf,
    /// Fit for a small pot.
    MicroDwarf,
}

/// A habit in the trade's words. A dwarf is called a dwarf whatever its stem does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Habit {
    /// Micro-dwarf.
    MicroDwarf,
    /// Dwarf.
    Dwarf,
    /// Determinate, of full stature.
    Determinate,
    /// Semi-determinate, of full stature.
    SemiDeterminate,
    /// Indeterminate, of full stature.
    Indeterminate,
}

impl Stem {
    /// All three, from the earliest ending to the endless.
    pub const ALL: [Self; 3] = [Self::Determinate, Self::SemiDeterminate, Self::Indeterminate];
}

impl Stature {
    /// All three, from tall to small.
    pub const ALL: [Self; 3] = [Self::Tall, Self::Dwarf, Self::MicroDwarf];
}

impl Habit {
    /// All five, from the smallest plant to the largest.
    pub const ALL: [Self; 5] =
        [Self::MicroDwarf, Self::Dwarf, Self::Determinate, Self::SemiDeterminate, Self::Indeterminate];

    /// The trade's word for a stem and a stature.
    #[must_use]
    pub fn of(stem: Stem, stature: Stature) -> Self {
        match (stature, stem) {
            (Stature::MicroDwarf, _) => Self::MicroDwarf,
            (Stature::Dwarf, _) => Self::Dwarf,
            (Stature::Tall, Stem::Determinate) => Self::Determinate,
            (Stature::Tall, Stem::SemiDeterminate) => Self::SemiDeterminate,
            (Stature::Tall, Stem::Indeterminate) => Self::Indeterminate,
        }
    }
}

impl fmt::Display for Habit {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.write_str(match self {
            Self::MicroDwarf => "micro-dwarf",
            Self::Dwarf => "dwarf",
            Self::Determinate => "determinate",
            Self::SemiDeterminate => "semi-determinate",
            Self::Indeterminate => "indeterminate",
        })
    }
}

impl fmt::Display for Stem {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        Habit::of(*self, Stature::Tall).fmt(to)
    }
}

/// What the guide says in a form that is quick to ask: made once, used for every variety.
#[derive(Clone, Debug)]
pub struct HabitModel {
    guide: HabitGuide,
    trusses: TrussTables,
    prior: Belief,
    noise: Vec<Noise>,
}

impl HabitModel {
    /// Works out the tables of one guide.
    #[must_use]
    pub fn new(guide: &HabitGuide) -> Self {
        let trusses = TrussTables::new(guide);
        let prior = Belief::prior(guide, &trusses);
        Self { guide: guide.clone(), trusses, prior, noise: settle::noise() }
    }
}

/// A habit call, and the stem's own shares beneath it.
#[derive(Clone, Debug, PartialEq)]
pub struct HabitCall {
    /// The call in the trade's words.
    pub habit: Call<Habit>,
    /// What the main stem does, whatever the stature; likeliest first. Standards that know no dwarf
    /// state are coded from this.
    pub stem: Vec<(Stem, Share)>,
}

/// Calls one variety's habit.
#[must_use]
pub fn call(evidence: &HabitEvidence, model: &HabitModel, units: Units) -> HabitCall {
    let patches = patches(evidence);
    let readings: Vec<_> = patches.iter().map(|patch| PatchReadings::new(patch, &model.guide)).collect();
    let odds: Vec<PatchOdds> = patches
        .iter()
        .zip(&readings)
        .map(|(patch, readings)| PatchOdds::new(patch, readings, model))
        .collect();
    let weights = Weights::of(&odds, &model.guide);
    let belief = Belief::of(&odds, weights, model);
    let shares = ranked(Habit::ALL, belief.habits());
    let words::Told { lines, rule } =
        words::told((&patches, &readings), &odds, weights, &shares, model, units);
    let habit = match shares.first() {
        Some((verdict, share)) if odds.iter().any(PatchOdds::speaks) => Call {
            verdict: Some(*verdict),
            between: Share::NONE,
            contested: is_contested(*share),
            rule,
            settle: settle::steps(&belief, &odds, model),
            used: used(evidence, &patches),
            lines,
            shares,
        },
        _ => Call {
            settle: settle::steps(&belief, &odds, model),
            used: used(evidence, &patches),
            lines,
            ..Call::without_evidence(&Habit::ALL, words::NOTHING_NOTED.to_owned())
        },
    };
    HabitCall { habit, stem: ranked(Stem::ALL, belief.stems()) }
}

/// What one more look at one plant would tell of its habit, each look that was not taken yet, the cheapest
/// first; nothing where the habit is settled.
#[must_use]
pub fn looks(evidence: &HabitEvidence, model: &HabitModel) -> Vec<Step> {
    let patches = patches(evidence);
    let readings = patches.iter().map(|patch| PatchReadings::new(patch, &model.guide));
    let odds: Vec<PatchOdds> = patches
        .iter()
        .zip(readings)
        .map(|(patch, readings)| PatchOdds::new(patch, &readings, model))
        .collect();
    let belief = Belief::of(&odds, Weights::of(&odds, &model.guide), model);
    settle::first_look::looks(&belief, &odds, model)
}

/// Calls many varieties on all cores, in the order given.
#[must_use]
pub fn call_all(varieties: &[&HabitEvidence], model: &HabitModel, units: Units) -> Vec<HabitCall> {
    varieties.par_iter().map(|evidence| call(evidence, model, units)).collect()
}

/// Answers with their shares, likeliest first; equals keep the order of the answers.
fn ranked<V: Copy, const N: usize>(answers: [V; N], beliefs: [f64; N]) -> Vec<(V, Share)> {
    // Rounding may leave a belief a hair above the whole.
    let share = |belief: f64| Share::new(belief.min(1.0)).unwrap_or(Share::NONE);
    let mut shares: Vec<(V, Share)> = answers.into_iter().zip(beliefs.map(share)).collect();
    shares.sort_by(|one, other| other.1.get().total_cmp(&one.1.get()));
    shares
}

fn used(evidence: &HabitEvidence, patches: &[Patch]) -> Used {
    let mut seasons: Vec<_> = patches.iter().map(|patch| patch.key.season).collect();
    seasons.dedup();
    let count = |counts: usize| u64::try_from(counts).unwrap_or(u64::MAX);
    Used {
        records: count(evidence.records()),
        fruits: 0,
        plants: count(patches.iter().map(|patch| patch.plants).sum()),
        seasons: count(seasons.len()),
        set_aside: patches.iter().map(|patch| u64::from(patch.contradicted)).sum(),
    }
}
