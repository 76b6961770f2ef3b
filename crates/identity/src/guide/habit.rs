//! The habit guide: how often each habit is sold, and what stems, leaves, heights and picks each shows.
//!
//! Values in, none computed: [`crate::habit::HabitModel`] makes the tables that calls are reckoned from.
//! Start at [`read`].

mod raw;

use crate::guide::reading::{GuideFault, Text};
use crate::guide::uses::Uses;
use crate::guide::value::Value;
use crate::habit::{Habit, Stature, Stem};

/// One of something for each thing that a main stem may do.
#[derive(Clone, Debug, PartialEq)]
pub struct PerStem<T> {
    /// For stems that end early.
    pub determinate: T,
    /// For stems that end late.
    pub semi_determinate: T,
    /// For stems that do not end.
    pub indeterminate: T,
}

impl<T> PerStem<T> {
    /// The one for this stem.
    pub fn of(&self, stem: Stem) -> &T {
        match stem {
            Stem::Determinate => &self.determinate,
            Stem::SemiDeterminate => &self.semi_determinate,
            Stem::Indeterminate => &self.indeterminate,
        }
    }
}

/// One of something for each stature.
#[derive(Clone, Debug, PartialEq)]
pub struct PerStature<T> {
    /// For plants as tall as their stem makes them.
    pub tall: T,
    /// For dwarfs.
    pub dwarf: T,
    /// For micro-dwarfs.
    pub micro_dwarf: T,
}

impl<T> PerStature<T> {
    /// The one for this stature.
    pub fn of(&self, stature: Stature) -> &T {
        match stature {
            Stature::Tall => &self.tall,
            Stature::Dwarf => &self.dwarf,
            Stature::MicroDwarf => &self.micro_dwarf,
        }
    }
}

/// How varieties of one habit lie about their mean.
#[derive(Clone, Debug, PartialEq)]
pub struct Normal {
    /// The mean over varieties.
    pub mean: Value,
    /// The standard deviation between varieties.
    pub sd: Value,
}

/// How varieties of one habit lie about their median, on a logarithmic scale.
#[derive(Clone, Debug, PartialEq)]
pub struct LogNormal {
    /// The median over varieties.
    pub median: Value,
    /// The standard deviation of the natural logarithm.
    pub log_sd: Value,
}

/// How often notes are wrong about the variety.
#[derive(Clone, Debug, PartialEq)]
pub struct Mistakes {
    /// Chance that one plant is not true to its variety, or was miscounted.
    pub off_type_rate: Value,
    /// Chance that a whole plot is of another variety.
    pub stray_plot_rate: Value,
}

/// The exponents that temper the indirect lines.
#[derive(Clone, Debug, PartialEq)]
pub struct Trust {
    /// Leaves between trusses.
    pub leaves: Value,
    /// Whether height levels off.
    pub height_curve: Value,
    /// How long the fruit takes to ripen.
    pub ripening: Value,
    /// How tall the grown plant is.
    pub final_height: Value,
    /// A walk that counted stems or leaves and noted no dwarf.
    pub silence: Value,
    /// How alike the same line comes out in another plot of the variety.
    pub repeat: Value,
}

/// Trusses on the main stem when it ends.
#[derive(Clone, Debug, PartialEq)]
pub struct Trusses {
    /// Determinate varieties.
    pub determinate: Normal,
    /// Semi-determinate varieties.
    pub semi_determinate: Normal,
    /// Standard deviation between plants of a plot.
    pub plant_sd: Value,
    /// Standard deviation between plots of a variety.
    pub plot_sd: Value,
    /// Chance that an indeterminate plant's stem is noted as ended.
    pub indeterminate_ended_rate: Value,
    /// Trusses that a stem makes before frost.
    pub season_reach: Value,
}

/// Leaves between one truss and the next.
#[derive(Clone, Debug, PartialEq)]
pub struct Leaves {
    /// Mean number.
    pub mean: PerStem<Normal>,
    /// How many fewer at the last trusses than at the first.
    pub fall: PerStem<Value>,
    /// Standard deviation of one plant's count.
    pub plant_sd: Value,
    /// Standard deviation of one plant's fall.
    pub fall_sd: Value,
}

/// Whether height levels off.
#[derive(Clone, Debug, PartialEq)]
pub struct HeightCurve {
    /// Chance that it does before the watching ends.
    pub levels_off: PerStem<Value>,
    /// Error of one reading, in millimetres.
    pub reading_error_mm: Value,
    /// Fewest readings that a curve is fitted to.
    pub least_readings: Value,
}

/// How long the fruit takes to ripen.
#[derive(Clone, Debug, PartialEq)]
pub struct Ripening {
    /// Days from a tenth to nine tenths of the fruit.
    pub days: PerStem<LogNormal>,
    /// Fewest days of picking that a spread is worked out from.
    pub least_pick_days: Value,
    /// Share of the fullest quarter's rate from which the plants still were in bearing at the end.
    pub still_bearing_from: Value,
}

/// Height of the grown plant, in millimetres.
#[derive(Clone, Debug, PartialEq)]
pub struct FinalHeight {
    /// Full stature, by stem.
    pub tall: PerStem<LogNormal>,
    /// Dwarfs.
    pub dwarf: LogNormal,
    /// Micro-dwarfs.
    pub micro_dwarf: LogNormal,
    /// Chance that a plant measured too seldom had done growing.
    pub done_growing_if_unwatched: Value,
}

/// What a page says of a habit; a guide may say nothing of it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct HabitWords {
    /// What it is, in one sentence.
    pub what: String,
    /// What it is good for, in a sentence.
    pub good_for: String,
    /// How it is mistaken for its neighbours.
    pub mistaken_for: String,
    /// What it is good for, in words that a search knows, and where all of this comes from.
    pub uses: Uses,
}

/// What pages say of the five habits.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Told {
    /// Micro-dwarf.
    pub micro_dwarf: HabitWords,
    /// Dwarf.
    pub dwarf: HabitWords,
    /// Determinate.
    pub determinate: HabitWords,
    /// Semi-determinate.
    pub semi_determinate: HabitWords,
    /// Indeterminate.
    pub indeterminate: HabitWords,
}

impl Told {
    /// What pages say of this habit.
    #[must_use]
    pub fn of(&self, habit: Habit) -> &HabitWords {
        match habit {
            Habit::MicroDwarf => &self.micro_dwarf,
            Habit::Dwarf => &self.dwarf,
            Habit::Determinate => &self.determinate,
            Habit::SemiDeterminate => &self.semi_determinate,
            Habit::Indeterminate => &self.indeterminate,
        }
    }
}

/// The house's habit guide.
#[derive(Clone, Debug, PartialEq)]
pub struct HabitGuide {
    /// Its title.
    pub title: String,
    /// Its version, as its owner writes it.
    pub version: String,
    /// How often each stature is sold.
    pub stature: PerStature<Value>,
    /// How often each stem occurs in a stature.
    pub stem: PerStature<PerStem<Value>>,
    /// How often notes are wrong.
    pub mistakes: Mistakes,
    /// How far the indirect lines are trusted.
    pub trust: Trust,
    /// Trusses when the stem ends.
    pub trusses: Trusses,
    /// Leaves between trusses.
    pub leaves: Leaves,
    /// Whether height levels off.
    pub height_curve: HeightCurve,
    /// How long the fruit takes to ripen.
    pub ripening: Ripening,
    /// How tall the grown plant is.
    pub final_height: FinalHeight,
    /// Chance that dwarf leaves are noted.
    pub dwarf_leaves: PerStature<Value>,
    /// What pages say of each habit.
    pub told: Told,
}

/// The guide that a new house is given. It may be edited; see docs/habit-and-colour.md.
pub const SHIPPED: &str = include_str!("../../../../guides/habit.toml");

/// Reads a habit guide from its text.
///
/// # Errors
/// [`GuideFault`] with file, line, key, value and remedy.
pub fn read(file: &str, text: &str) -> Result<HabitGuide, GuideFault> {
    raw::checked(Text { file, text })
}
