//! The profile of one variety: the measured traits by which a grower or cook would choose another for it.
//!
//! Start at [`Profile`]; [`traits`] makes the profiles of a list comparable.

use crate::kinds::{Kinds, Mix};
use crate::likeness::{Column, Traits, TraitsFault, Weighed};
use record::mass::Grams;
use record::share::Percent;

/// What is known of one variety; `None` where it was not measured.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Profile {
    /// Its name.
    pub name: String,
    /// Usual weight of a fruit.
    pub weight: Option<Grams>,
    /// Usual length over width.
    pub shape: Option<f64>,
    /// Usual width a quarter down over greatest width.
    pub neck: Option<f64>,
    /// Usual number of seed chambers.
    pub locules: Option<f64>,
    /// Usual number of lobes.
    pub lobes: Option<f64>,
    /// Usual soluble solids.
    pub soluble_solids: Option<Percent>,
    /// Usual days from transplanting to ripe fruit.
    pub days_to_ripe: Option<f64>,
    /// How likely each habit is.
    pub habit: Option<Mix>,
    /// How likely each fruit class is.
    pub class: Option<Mix>,
    /// How likely each colour outside is.
    pub colour: Option<Mix>,
    /// How likely each pattern is.
    pub pattern: Option<Mix>,
}

/// The names that profiles speak in.
#[derive(Clone, Debug, PartialEq)]
pub struct Words {
    /// Habits.
    pub habits: Kinds,
    /// Fruit classes, from small to large.
    pub classes: Kinds,
    /// Colours.
    pub colours: Kinds,
    /// Patterns.
    pub patterns: Kinds,
}

/// A trait by which varieties are compared. The fruit class is none: weight, shape, neck and locules make it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Trait {
    /// Weight of a fruit, by its logarithm.
    Weight,
    /// Colour outside.
    Colour,
    /// Plant habit.
    Habit,
    /// Length over width, by its logarithm.
    Shape,
    /// Days to ripe fruit.
    DaysToRipe,
    /// Locules, by their logarithm.
    Locules,
    /// How the colour is laid out.
    Pattern,
    /// Soluble solids.
    SolubleSolids,
    /// Neck over width.
    Neck,
    /// Lobes.
    Lobes,
}

impl Trait {
    /// All, as they are told.
    pub const ALL: [Self; 10] = [
        Self::Weight,
        Self::Colour,
        Self::Habit,
        Self::Shape,
        Self::DaysToRipe,
        Self::Locules,
        Self::Pattern,
        Self::SolubleSolids,
        Self::Neck,
        Self::Lobes,
    ];

    /// What it counts: buyers ask for size, colour, habit and shape before all else. Common practice, no
    /// source.
    #[must_use]
    pub fn weight(self) -> f64 {
        match self {
            Self::Weight | Self::Colour => 2.0,
            Self::Habit | Self::Shape => 1.5,
            Self::DaysToRipe | Self::Locules | Self::Pattern | Self::SolubleSolids => 1.0,
            Self::Neck | Self::Lobes => 0.5,
        }
    }

    /// The number by which it is compared: a logarithm where ratios count. `None` where it was not measured, and of
    /// traits that are told by names.
    #[must_use]
    pub fn number(self, of: &Profile) -> Option<f64> {
        match self {
            Self::Weight => log(of.weight.map(Grams::get)),
            Self::Shape => log(of.shape),
            Self::Locules => log(of.locules),
            Self::DaysToRipe => of.days_to_ripe,
            Self::SolubleSolids => of.soluble_solids.map(Percent::get),
            Self::Neck => of.neck,
            Self::Lobes => of.lobes,
            Self::Habit | Self::Colour | Self::Pattern => None,
        }
    }

    fn column(self, profiles: &[Profile], words: &Words) -> Column {
        let mixes = |of: fn(&Profile) -> &Option<Mix>, kinds: &Kinds| {
            Column::Mixes(profiles.iter().map(|profile| of(profile).clone()).collect(), kinds.apart.clone())
        };
        match self {
            Self::Habit => mixes(|profile| &profile.habit, &words.habits),
            Self::Colour => mixes(|profile| &profile.colour, &words.colours),
            Self::Pattern => mixes(|profile| &profile.pattern, &words.patterns),
            _ => Column::Numbers(profiles.iter().map(|profile| self.number(profile)).collect()),
        }
    }
}

fn log(value: Option<f64>) -> Option<f64> {
    value.filter(|value| 0.0 < *value).map(f64::ln)
}

/// The traits of a list's profiles, in the order of [`Trait::ALL`], ready to be compared.
///
/// # Errors
/// None that profiles can bring about; a [`TraitsFault`] would be a slip of this crate.
pub(crate) fn traits(profiles: &[Profile], words: &Words) -> Result<Traits, TraitsFault> {
    let weighed = |of: Trait| Weighed { column: of.column(profiles, words), weight: of.weight() };
    Traits::new(profiles.len(), Trait::ALL.into_iter().map(weighed).collect())
}
