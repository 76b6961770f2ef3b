//! What a guide describes, made visible: the fruit in the middle of a class, the plant of a habit.
//!
//! For the type chart, which is drawn from the guide alone: a changed guide changes the picture. Nothing
//! here is evidence, and no call rests on it. Start at [`fruit`] and [`plant`].

use crate::ellipsoid;
use crate::guide::fruit::measure::Measure;
use crate::guide::fruit::{FruitGuide, Way};
use crate::guide::habit::{HabitGuide, LogNormal, Normal};
use crate::habit::{Habit, Stature, Stem};
use record::length::Millimetres;
use record::mass::Grams;
use record::share::Share;
use std::ops::RangeInclusive;

/// Sizes of fruit that are sold, in grams: where a class is open, its middle is sought within these.
/// Common practice, no source.
pub const SOLD: RangeInclusive<f64> = 0.5..=900.0;
/// Weight of the fruit that a shape mark is shown on, in grams. A choice of the drawing.
pub const MARKED: RangeInclusive<f64> = 150.0..=300.0;
/// Length over width of fruit that is sold. Common practice, no source.
const SHAPES: RangeInclusive<f64> = 0.65..=2.4;
/// The same where a guide says nothing of length or shape: nearly round. Source: facts of the trade, section 5,
/// cherry fruit about 0.90 to 0.92.
const ROUND_SHAPES: RangeInclusive<f64> = 0.87..=0.97;
/// The same for fruit with a neck, which is never flat. Common practice, no source.
const NECKED_SHAPES: RangeInclusive<f64> = 1.2..=2.2;
/// Neck under which a fruit counts as necked here. Source: the shipped guide's border `necked`.
const NECKED: f64 = 0.8;
/// Narrowest neck and fewest and most chambers and lobes of fruit that is sold. Common practice, no source.
const NECKS: RangeInclusive<f64> = 0.5..=1.0;
const COUNTS: RangeInclusive<f64> = 1.0..=16.0;
/// Steps in which weight and shape are walked through; a finer walk moves no line on paper.
const STEPS: (u32, u32) = (96, 48);

/// The fruit in the middle of what a guide describes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TypicalFruit {
    /// Weight.
    pub weight: Grams,
    /// Stem end to blossom end.
    pub length: Millimetres,
    /// Greatest width.
    pub width: Millimetres,
    /// Width a quarter down over greatest width, where the guide speaks of it.
    pub neck: Option<Share>,
    /// Chambers: as many as usual at its weight, within what the guide allows.
    pub locules: u32,
    /// Lobes, where the guide speaks of them.
    pub lobes: Option<u32>,
}

/// The fruit in the middle of `ways`, among fruit that weighs `within` so many grams.
///
/// Weight and shape are walked through evenly on their logarithms; of all pairs that some way allows, the
/// one nearest their mean is taken. `None` where no fruit of these weights is allowed.
///
/// # Source
/// Length and width follow from weight and shape by [`ellipsoid`].
#[must_use]
pub fn fruit(guide: &FruitGuide, ways: &[Way], within: RangeInclusive<f64>) -> Option<TypicalFruit> {
    let allowed: Vec<(Candidate, &Way)> = ways
        .iter()
        .flat_map(|way| {
            candidates(&within, &shapes(guide, way))
                .filter(|one| one.is_in(guide, way))
                .map(move |one| (one, way))
        })
        .collect();
    let (middle, way) = nearest_mean(&allowed)?;
    let usual = usual_locules(middle.weight.exp(), middle.shape.exp());
    let share = |value: f64| Share::new(value.clamp(0.0, 1.0));
    Some(TypicalFruit {
        weight: Grams::new(middle.weight.exp())?,
        length: Millimetres::new(middle.length().exp())?,
        width: Millimetres::new(middle.width().exp())?,
        neck: spoken_of(guide, way, Measure::Neck)
            .then(|| midway(guide, way, Measure::Neck, &NECKS))
            .and_then(share),
        locules: counted(guide, way, Measure::Locules, usual),
        lobes: spoken_of(guide, way, Measure::Lobes)
            .then(|| counted(guide, way, Measure::Lobes, midway(guide, way, Measure::Lobes, &COUNTS))),
    })
}

/// The shapes among which a way's fruit is sought.
fn shapes(guide: &FruitGuide, way: &Way) -> RangeInclusive<f64> {
    let is_round = !spoken_of(guide, way, Measure::Shape) && !spoken_of(guide, way, Measure::Length);
    match limits(guide, way, Measure::Neck).1 {
        neck if neck < NECKED => NECKED_SHAPES,
        _ if is_round => ROUND_SHAPES,
        _ => SHAPES,
    }
}

/// A fruit that may be allowed: logarithms of grams and of length over width.
#[derive(Clone, Copy, Debug)]
struct Candidate {
    weight: f64,
    shape: f64,
}

impl Candidate {
    fn width(self) -> f64 {
        ellipsoid::log_width(self.weight, self.shape, 0.0)
    }

    fn length(self) -> f64 {
        self.width() + self.shape
    }

    fn is_in(self, guide: &FruitGuide, way: &Way) -> bool {
        let sizes = [
            (Measure::Weight, self.weight),
            (Measure::Width, self.width()),
            (Measure::Length, self.length()),
            (Measure::Shape, self.shape),
        ];
        sizes.iter().all(|(measure, log)| {
            let (from, below) = limits(guide, way, *measure);
            let value = log.exp();
            from <= value && value < below
        })
    }
}

fn candidates(
    weights: &RangeInclusive<f64>,
    shapes: &RangeInclusive<f64>,
) -> impl Iterator<Item = Candidate> + use<> {
    let walk = |range: &RangeInclusive<f64>, steps: u32| {
        let (low, high) = (range.start().ln(), range.end().ln());
        (0..steps).map(move |step| low + (high - low) * (f64::from(step) + 0.5) / f64::from(steps))
    };
    let shapes: Vec<f64> = walk(shapes, STEPS.1).collect();
    walk(weights, STEPS.0)
        .flat_map(move |weight| shapes.clone().into_iter().map(move |shape| Candidate { weight, shape }))
}

fn nearest_mean<'a>(allowed: &[(Candidate, &'a Way)]) -> Option<(Candidate, &'a Way)> {
    let count = allowed.iter().fold(0.0, |count, _| count + 1.0);
    let mean = |of: fn(&Candidate) -> f64| allowed.iter().map(|(one, _)| of(one)).sum::<f64>() / count;
    let (weight, shape) = (mean(|one| one.weight), mean(|one| one.shape));
    let far = |one: &Candidate| (one.weight - weight).powi(2) + (one.shape - shape).powi(2);
    allowed.iter().min_by(|(one, _), (other, _)| far(one).total_cmp(&far(other))).copied()
}

/// From where and below where a way holds one measure; open ends are as far as numbers go.
fn limits(guide: &FruitGuide, way: &Way, measure: Measure) -> (f64, f64) {
    let of_measure = way.bands.iter().filter(|band| band.measure == measure);
    of_measure.fold((f64::NEG_INFINITY, f64::INFINITY), |(from, below), band| {
        let (low, high) = guide.borders_of(band);
        (low.map_or(from, |border| from.max(border.at)), high.map_or(below, |border| below.min(border.at)))
    })
}

fn spoken_of(guide: &FruitGuide, way: &Way, measure: Measure) -> bool {
    let (from, below) = limits(guide, way, measure);
    from.is_finite() || below.is_finite()
}

/// The middle of what a way leaves of `sold`.
fn midway(guide: &FruitGuide, way: &Way, measure: Measure, sold: &RangeInclusive<f64>) -> f64 {
    let (from, below) = limits(guide, way, measure);
    f64::midpoint(from.max(*sold.start()), below.min(*sold.end()))
}

/// A whole number near `usual` that a way allows: a border says "below", so its own number is out.
fn counted(guide: &FruitGuide, way: &Way, measure: Measure, usual: f64) -> u32 {
    let (from, below) = limits(guide, way, measure);
    let (least, most) = (from.max(1.0).ceil(), (below - 1.0).ceil().max(1.0).min(*COUNTS.end()));
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held between 1 and 16")]
    let count = usual.round().min(most).max(least).clamp(*COUNTS.start(), *COUNTS.end()) as u32;
    count
}

/// Chambers that are usual at a weight.
///
/// # Source
/// facts of the trade, section 5: locules grow as weight to the power 0.30, two in a 10 g cherry; long fruit
/// usually has two whatever its weight.
fn usual_locules(grams: f64, shape: f64) -> f64 {
    const LONG: f64 = 1.25;
    if LONG <= shape { 2.0 } else { 2.0 * (grams / 10.0).max(1.0).powf(0.30) }
}

/// Days after a tenth of the fruit is ripe on which a plant is shown. A choice of the drawing.
const SHOWN_AFTER_DAYS: f64 = 14.0;

/// The plant that a guide describes for a habit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TypicalPlant {
    /// Height of the grown plant.
    pub height: Millimetres,
    /// What its main stem does; of a dwarf, what it does most often.
    pub stem: Stem,
    /// Trusses on the main stem: until it ends, or until frost ends the watching.
    pub trusses: u32,
    /// Trusses on the main stem that most varieties of the habit lie between; nothing where the stem does not end.
    pub trusses_most: Option<(f64, f64)>,
    /// Leaves between the first two trusses, and between the last two.
    pub leaves_between: (f64, f64),
    /// Heights that most varieties of the habit lie between.
    pub height_most: (Millimetres, Millimetres),
    /// How often the height curve levels off before the watching ends.
    pub levels_off: Share,
    /// Days from a tenth to nine tenths of the fruit: the middle variety, and what most lie between.
    pub ripening_days: (f64, (f64, f64)),
    /// Share of the fruit that is ripe two weeks after a tenth of it was.
    pub ripe: Share,
}

/// The plant of a habit; `None` where the guide's numbers make none, such as an endless height.
#[must_use]
pub fn plant(guide: &HabitGuide, habit: Habit) -> Option<TypicalPlant> {
    let stem = stem_of(guide, habit);
    let trusses = ending(guide, stem).map_or(guide.trusses.season_reach.number, |normal| normal.mean.number);
    let (leaves, fall) = (guide.leaves.mean.of(stem).mean.number, guide.leaves.fall.of(stem).number);
    let days = guide.ripening.days.of(stem);
    let ripe = 0.1 + 0.8 * (SHOWN_AFTER_DAYS / days.median.number.max(f64::MIN_POSITIVE)).min(1.0);
    let (low, high) = most_by_ratio(height_of(guide, habit));
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held between 1 and 60")]
    let trusses = trusses.round().clamp(1.0, 60.0) as u32;
    Some(TypicalPlant {
        height: Millimetres::new(height_of(guide, habit).median.number)?,
        stem,
        trusses,
        trusses_most: ending(guide, stem).map(most),
        leaves_between: (leaves + fall / 2.0, (leaves - fall / 2.0).max(0.0)),
        height_most: (Millimetres::new(low)?, Millimetres::new(high)?),
        levels_off: Share::new(guide.height_curve.levels_off.of(stem).number)?,
        ripening_days: (days.median.number, most_by_ratio(days)),
        ripe: Share::new(ripe)?,
    })
}

/// Trusses on a stem that ends; nothing for one that does not.
fn ending(guide: &HabitGuide, stem: Stem) -> Option<&Normal> {
    match stem {
        Stem::Determinate => Some(&guide.trusses.determinate),
        Stem::SemiDeterminate => Some(&guide.trusses.semi_determinate),
        Stem::Indeterminate => None,
    }
}

/// Standard deviations on either side that hold eight varieties in ten. Source: the normal distribution's
/// 90th percentile, 1.2816.
const MOST: f64 = 1.281_6;

fn most(normal: &Normal) -> (f64, f64) {
    let (mean, reach) = (normal.mean.number, MOST * normal.sd.number);
    ((mean - reach).max(0.0), mean + reach)
}

fn most_by_ratio(log_normal: &LogNormal) -> (f64, f64) {
    let (median, ratio) = (log_normal.median.number, (MOST * log_normal.log_sd.number).exp());
    (median / ratio, median * ratio)
}

/// What the main stem of a habit does; dwarfs of every stem are sold, so theirs is the commonest.
#[must_use]
pub fn stem_of(guide: &HabitGuide, habit: Habit) -> Stem {
    let commonest = |stature: Stature| {
        let shares = guide.stem.of(stature);
        let share = |stem: &Stem| shares.of(*stem).number;
        Stem::ALL.into_iter().max_by(|one, other| share(one).total_cmp(&share(other)))
    };
    match habit {
        Habit::Determinate => Stem::Determinate,
        Habit::SemiDeterminate => Stem::SemiDeterminate,
        Habit::Indeterminate => Stem::Indeterminate,
        Habit::Dwarf => commonest(Stature::Dwarf).unwrap_or(Stem::Indeterminate),
        Habit::MicroDwarf => commonest(Stature::MicroDwarf).unwrap_or(Stem::Determinate),
    }
}

/// How high plants of a habit grow.
#[must_use]
pub fn height_of(guide: &HabitGuide, habit: Habit) -> &LogNormal {
    let heights = &guide.final_height;
    match habit {
        Habit::MicroDwarf => &heights.micro_dwarf,
        Habit::Dwarf => &heights.dwarf,
        Habit::Determinate => heights.tall.of(Stem::Determinate),
        Habit::SemiDeterminate => heights.tall.of(Stem::SemiDeterminate),
        Habit::Indeterminate => heights.tall.of(Stem::Indeterminate),
    }
}
