//! What a plot came to: one number a plot and trait, from its picks and fruit samples.
//!
//! For [`crate::compare`]. A plot of which too little is known has no number rather than a wrong one: a plot that
//! was never picked is missing, not bare. Start at [`value`].

use record::fruit::FruitSample;
use record::language::{self, System, Units};
use record::mass::{GRAMS_PER_OUNCE, GRAMS_PER_POUND, Grams};
use record::pick::Pick;

/// What varieties are compared in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Trait {
    /// Sound fruit of a season by weight, grams a plant.
    Yield,
    /// Sound fruit of a season by number, fruits a plant.
    FruitCount,
    /// Weight of one fruit, grams: mean of the samples, else of what was counted and weighed at picking.
    FruitWeight,
    /// Part of the fruit that was culled, per cent by number.
    Culled,
    /// Soluble solids, per cent by mass (degrees Brix).
    SolubleSolids,
}

impl Trait {
    /// Every trait.
    pub const ALL: [Self; 5] =
        [Self::Yield, Self::FruitCount, Self::FruitWeight, Self::Culled, Self::SolubleSolids];

    /// What it is called.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Yield => "yield",
            Self::FruitCount => "fruit count",
            Self::FruitWeight => "fruit weight",
            Self::Culled => "culled",
            Self::SolubleSolids => "soluble solids",
        }
    }

    /// The trait of a name; blanks may be hyphens.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        let plain = name.trim().to_lowercase().replace('-', " ");
        Self::ALL.into_iter().find(|one| one.name() == plain)
    }

    /// What a number of it is a number of, after the number: `a plant`, `a fruit` or nothing.
    #[must_use]
    pub fn each(self) -> &'static str {
        match self {
            Self::Yield | Self::FruitCount => " a plant",
            Self::FruitWeight => " a fruit",
            Self::Culled | Self::SolubleSolids => "",
        }
    }

    /// How many of its own unit one step of an axis in the house's units counts, and what the axis counts: grams a
    /// pound and `lb a plant`.
    #[must_use]
    pub fn axis(self, units: Units) -> (f64, &'static str) {
        match (self, units.first) {
            (Self::Yield, System::Us) => (GRAMS_PER_POUND, "lb a plant"),
            (Self::Yield, System::Metric) => (1000.0, "kg a plant"),
            (Self::FruitWeight, System::Us) => (GRAMS_PER_OUNCE, "oz a fruit"),
            (Self::FruitWeight, System::Metric) => (1.0, "g a fruit"),
            (Self::FruitCount, _) => (1.0, "fruits a plant"),
            (Self::Culled, _) => (1.0, "% culled"),
            (Self::SolubleSolids, _) => (1.0, "% soluble solids"),
        }
    }

    /// A number of it with its unit, both ways where there are two: `1.20 kg (2.6 lb)`. A yield is told in one unit
    /// whatever its size, so that the ends of an interval can be held against each other.
    #[must_use]
    pub fn told(self, number: f64, units: Units) -> String {
        let other = units.turned();
        match self {
            Self::Yield | Self::FruitWeight => {
                format!("{} ({})", self.told_briefly(number, units), self.told_briefly(number, other))
            }
            _ => self.told_briefly(number, units),
        }
    }

    /// A number of it in the house's own units: `2.6 lb`.
    #[must_use]
    pub fn told_briefly(self, number: f64, units: Units) -> String {
        let on_axis = number / self.axis(units).0;
        match self {
            Self::Yield if units.first == System::Us && on_axis.abs() < 0.1 => format!("{on_axis:.2} lb"),
            Self::Yield if units.first == System::Us => format!("{on_axis:.1} lb"),
            Self::Yield => format!("{on_axis:.2} kg"),
            Self::FruitWeight => {
                let told = |grams| language::mass_briefly(grams, units);
                let size = Grams::new(number.abs()).map_or_else(|| format!("{number} g"), told);
                if number < 0.0 { format!("-{size}") } else { size }
            }
            Self::FruitCount => format!("{number:.1} fruits"),
            Self::Culled | Self::SolubleSolids => format!("{number:.1} %"),
        }
    }
}

/// What was noted in one plot over one season.
#[derive(Clone, Copy, Debug)]
pub struct PlotNotes<'a> {
    /// Plants that went out, where noted.
    pub plants_out: Option<u32>,
    /// Plants of these that were noted as lost.
    pub plants_lost: u32,
    /// Its picks.
    pub picks: &'a [Pick],
    /// Its fruit samples.
    pub samples: &'a [FruitSample],
}

impl PlotNotes<'_> {
    /// Plants that stood to the end. Fruit of those that were lost before counts with the rest: it was picked.
    fn plants(&self) -> Option<f64> {
        let standing = self.plants_out?.checked_sub(self.plants_lost)?;
        (0 < standing).then(|| f64::from(standing))
    }
}

/// Fruit of a plot that was counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Counted {
    /// How many were counted: sound fruit, or culls.
    pub seen: u32,
    /// On how many plants, or of how many fruits looked at; above nothing.
    pub of: u32,
}

/// The counts behind a plot's number: sound fruit on its plants, or culls of its fruit. `None` for other traits, and where
/// something was weighed and not counted.
#[must_use]
pub fn counted(of: Trait, notes: &PlotNotes<'_>) -> Option<Counted> {
    let sum = |number: fn(&Pick) -> Option<u32>| {
        notes.picks.iter().map(number).try_fold(0_u32, |sum, own| sum.checked_add(own?))
    };
    let sound = || sum(|pick| pick.fruit_count);
    let counted = match of {
        Trait::FruitCount => {
            Counted { seen: sound()?, of: notes.plants_out?.checked_sub(notes.plants_lost)? }
        }
        Trait::Culled => {
            let culls = sum(|pick| {
                pick.culls.iter().try_fold(0_u32, |sum, cull| sum.checked_add(cull.fruit_count?))
            })?;
            Counted { seen: culls, of: sound()?.checked_add(culls)? }
        }
        Trait::Yield | Trait::FruitWeight | Trait::SolubleSolids => return None,
    };
    (!notes.picks.is_empty() && 0 < counted.of).then_some(counted)
}

/// What the plot came to; `None` where too little was noted to say.
///
/// A pick that was counted and not weighed is weighed by the plot's own mean fruit, and one that was weighed and not
/// counted is counted by it; where the plot has no mean fruit either, it has no number.
#[must_use]
pub fn value(of: Trait, notes: &PlotNotes<'_>) -> Option<f64> {
    match of {
        Trait::Yield => Some(picked_weight(notes)? / notes.plants()?),
        Trait::FruitCount => Some(picked_count(notes)? / notes.plants()?),
        Trait::FruitWeight => sampled_weight(notes.samples).or_else(|| weight_at_picking(notes.picks)),
        Trait::Culled => culled(notes.picks),
        Trait::SolubleSolids => {
            sampled(notes.samples, |sample| sample.soluble_solids.map(|solids| solids.get()))
        }
    }
}

fn picked_weight(notes: &PlotNotes<'_>) -> Option<f64> {
    let mean = mean_fruit(notes);
    let weight = |pick: &Pick| match (pick.weight, pick.fruit_count) {
        (Some(weight), _) => Some(weight.get()),
        (None, Some(count)) => Some(f64::from(count) * mean?),
        (None, None) => None,
    };
    total(notes.picks, weight)
}

fn picked_count(notes: &PlotNotes<'_>) -> Option<f64> {
    let mean = mean_fruit(notes).filter(|mean| 0.0 < *mean);
    let count = |pick: &Pick| match (pick.fruit_count, pick.weight) {
        (Some(count), _) => Some(f64::from(count)),
        (None, Some(weight)) => Some(weight.get() / mean?),
        (None, None) => None,
    };
    total(notes.picks, count)
}

/// The sum over all picks; `None` without picks, or where one of them has no number.
fn total(picks: &[Pick], number: impl Fn(&Pick) -> Option<f64>) -> Option<f64> {
    let sum: f64 = picks.iter().map(number).sum::<Option<f64>>()?;
    (!picks.is_empty()).then_some(sum)
}

fn mean_fruit(notes: &PlotNotes<'_>) -> Option<f64> {
    weight_at_picking(notes.picks).or_else(|| sampled_weight(notes.samples))
}

fn weight_at_picking(picks: &[Pick]) -> Option<f64> {
    let both = picks.iter().filter_map(|pick| Some((pick.weight?.get(), f64::from(pick.fruit_count?))));
    let (weight, count) = both.fold((0.0, 0.0), |(weight, count), (own, of)| (weight + own, count + of));
    (0.0 < count).then(|| weight / count)
}

fn sampled_weight(samples: &[FruitSample]) -> Option<f64> {
    sampled(samples, |sample| sample.weight.map(Grams::get))
}

/// The mean over all fruits of the samples that have the measure.
fn sampled(samples: &[FruitSample], measure: impl Fn(&FruitSample) -> Option<f64>) -> Option<f64> {
    let each =
        samples.iter().filter_map(|sample| Some((measure(sample)?, f64::from(sample.fruit_count.get()))));
    let (sum, count) = each.fold((0.0, 0.0), |(sum, count), (own, of)| (sum + own * of, count + of));
    (0.0 < count).then(|| sum / count)
}

/// Per cent of the fruit that was culled, over picks that count both; `None` where none does.
fn culled(picks: &[Pick]) -> Option<f64> {
    let counted = picks.iter().filter_map(|pick| {
        let culled = pick.culls.iter().map(|cull| cull.fruit_count.map(f64::from)).sum::<Option<f64>>()?;
        Some((f64::from(pick.fruit_count?), culled))
    });
    let (sound, culled) = counted.fold((0.0, 0.0), |(sound, culls), (own, of)| (sound + own, culls + of));
    (0.0 < sound + culled).then(|| 100.0 * culled / (sound + culled))
}
