//! What is plausible: checks that flag a record and keep it.
//!
//! Each limit is wide: it is to catch slips of the pen and swapped columns, not odd tomatoes.

use crate::subject::About;
use jiff::civil::Date;
use record::doubt::{Doubt, DoubtKind};
use record::fruit::FruitSample;
use record::length::Millimetres;
use record::mass::Grams;
use record::pick::Pick;
use std::f64::consts::PI;
use std::ops::RangeInclusive;

/// Grams that a fruit can weigh. The smallest wild fruit weigh a quarter gram (shared facts, identity,
/// section 5: 0.24 g), single ones less; the heaviest on record are near 5 kg (from memory, unverified).
const FRUIT_GRAMS: RangeInclusive<f64> = 0.05..=5000.0;
/// Millimetres that a fruit can be long or wide. Common practice, no source.
const FRUIT_MILLIMETRES: RangeInclusive<f64> = 3.0..=300.0;
/// Degrees Brix that a tomato's juice can have: the panels of the shared facts (identity, section 5) run
/// from 3.5 to 10, wild kinds higher. Common practice, no source.
const BRIX: RangeInclusive<f64> = 2.0..=16.0;
/// Per cent of dry matter: 6.5 to 10.9 in 96 cultivated accessions (shared facts, identity, section 5,
/// after Ruggieri et al. 2014), wild kinds higher. Common practice, no source.
const DRY_MATTER: RangeInclusive<f64> = 3.0..=20.0;
/// Most seed chambers; beefsteaks reach about 20. Common practice, no source.
const MOST_LOCULES: u32 = 40;
/// Most lobes. Common practice, no source.
const MOST_LOBES: u32 = 30;
/// Most fruit of one pick of one plot. Common practice, no source.
const MOST_PICKED: u32 = 20_000;
/// Grams of one pick of one plot. Common practice, no source.
const MOST_PICKED_GRAMS: f64 = 500_000.0;
/// Millimetres that a plant can be tall: strung glasshouse plants are laid down long before 8 m.
/// Common practice, no source.
const PLANT_MILLIMETRES: RangeInclusive<f64> = 10.0..=8000.0;

/// Grams in one cubic millimetre of the ellipsoid of width and length. Source: shared facts, identity,
/// section 5: weight = 1.06 x pi/6 x width^2 x length, fitted to 915 fruits, residual sd 5 %.
const ELLIPSOID_GRAMS: f64 = 1.06e-3 * PI / 6.0;
/// The residual sd of that fit, as a share.
const ELLIPSOID_SD: f64 = 0.05;
/// How many sd a weight may lie from the ellipsoid: five (25 %) allow for callipers and shapes that are
/// no ellipsoids. Common practice, no source.
const ELLIPSOID_SDS: f64 = 5.0;
/// Large ribbed fruit, on which the fit is untested, may be lighter by as much again (50 %).
const RIBBED_SDS: f64 = 10.0;
/// Grams that a kitchen scale may be out by, which is much of a currant. Common practice, no source.
const SCALE_GRAMS: f64 = 0.1;
/// How many sd it may lie from the ellipsoid of figures that were changed over, to tell that they were.
const SWAPPED_SDS: f64 = 3.0;
/// Grams from which a fruit is taken for one that may be ribbed. Common practice, no source.
const RIBBED_FROM: f64 = 200.0;

fn doubt(kind: DoubtKind, words: String) -> Doubt {
    Doubt { kind, words }
}

fn beyond(words: String) -> Doubt {
    doubt(DoubtKind::BeyondLimit, words)
}

/// Doubts about a fruit sample.
pub(crate) fn of_fruit(fruit: &FruitSample, about: &About<'_>, today: Date) -> Vec<Doubt> {
    let mut doubts = by_itself(fruit);
    doubts.extend(fruit.weight.and_then(|weight| unlike_variety(weight, about)));
    doubts.extend(of_day(fruit.sampled_on, about, today));
    doubts
}

/// Doubts about a pick.
pub(crate) fn of_pick(pick: &Pick, about: &About<'_>, today: Date) -> Vec<Doubt> {
    let mut doubts = Vec::new();
    let count = pick.fruit_count.filter(|count| MOST_PICKED < *count);
    doubts.extend(count.map(|count| beyond(format!("{count} fruit in one pick"))));
    let heavy = pick.weight.filter(|weight| MOST_PICKED_GRAMS < weight.get());
    doubts.extend(heavy.map(|weight| beyond(format!("{:.0} kg in one pick", weight.get() / 1000.0))));
    let each = pick.weight.zip(pick.fruit_count).and_then(|(weight, count)| mean_weight(weight, count));
    doubts.extend(each.and_then(|each| unlike_variety(each, about)));
    doubts.extend(of_day(Some(pick.picked_on), about, today));
    doubts
}

/// Doubts about a height.
pub(crate) fn of_height(height: Millimetres, day: Date, today: Date) -> Vec<Doubt> {
    let mut doubts = Vec::new();
    if !PLANT_MILLIMETRES.contains(&height.get()) {
        doubts.push(beyond(format!("a plant {:.2} m tall", height.get() / 1000.0)));
    }
    doubts.extend(in_future(day, today));
    doubts
}

/// Doubts about the day of ripe fruit: before the plants went out, or after today.
pub(crate) fn of_day(day: Option<Date>, about: &About<'_>, today: Date) -> Vec<Doubt> {
    let Some(day) = day else { return Vec::new() };
    let out = about.plot.and_then(|plot| plot.plot.transplanted).filter(|out| day < *out);
    let early = out.map(|out| {
        doubt(DoubtKind::BeforeTransplanting, format!("dated {day}, and the plot went out on {out}"))
    });
    early.into_iter().chain(in_future(day, today)).collect()
}

/// A doubt about a day after today.
pub(crate) fn in_future(day: Date, today: Date) -> Option<Doubt> {
    (today < day)
        .then(|| doubt(DoubtKind::InTheFuture, format!("dated {day}, after the day it was brought in")))
}

/// Doubts about a fruit of which nothing else is known.
pub(crate) fn by_itself(fruit: &FruitSample) -> Vec<Doubt> {
    let mut doubts = fruit_limits(fruit);
    doubts.extend(fruit_swaps(fruit));
    if doubts.is_empty() {
        doubts.extend(against_ellipsoid(fruit));
    }
    doubts
}

fn fruit_limits(fruit: &FruitSample) -> Vec<Doubt> {
    let mut doubts = Vec::new();
    let mut outside = |value: Option<f64>, limits: RangeInclusive<f64>, unit: &str, what: &str| {
        let value = value.filter(|value| !limits.contains(value));
        doubts.extend(
            value.map(|value| beyond(format!("{what} of {} {unit}", told(value)).trim_end().to_owned())),
        );
    };
    let count = |count: Option<u32>| count.map(f64::from);
    outside(fruit.weight.map(Grams::get), FRUIT_GRAMS, "g", "a fruit");
    outside(fruit.length.map(Millimetres::get), FRUIT_MILLIMETRES, "mm", "a length");
    outside(fruit.width.map(Millimetres::get), FRUIT_MILLIMETRES, "mm", "a width");
    outside(fruit.neck_width.map(Millimetres::get), 1.0..=*FRUIT_MILLIMETRES.end(), "mm", "a neck");
    outside(fruit.soluble_solids.map(|solids| solids.get()), BRIX, "°Brix", "juice");
    outside(fruit.dry_matter.map(|matter| matter.get()), DRY_MATTER, "%", "dry matter");
    outside(count(fruit.locules), 1.0..=f64::from(MOST_LOCULES), "", "a count of locules");
    outside(count(fruit.lobes), 0.0..=f64::from(MOST_LOBES), "", "a count of lobes");
    doubts
}

/// Columns that look swapped: the neck wider than the greatest width, or numbers that fit the ellipsoid
/// only when two of them change places.
fn fruit_swaps(fruit: &FruitSample) -> Option<Doubt> {
    let swapped = |words: String| doubt(DoubtKind::SwappedColumns, words);
    if let Some((neck, width)) = fruit.neck_width.zip(fruit.width).filter(|(neck, width)| width < neck) {
        let (neck, width) = (neck.get(), width.get());
        return Some(swapped(format!(
            "the neck ({neck:.0} mm) is wider than the greatest width ({width:.0} mm)"
        )));
    }
    let (weight, length, width) = (fruit.weight?.get(), fruit.length?.get(), fruit.width?.get());
    if fits(weight, length, width) {
        return None;
    }
    let fits_well = |weight, length, width| within(SWAPPED_SDS, weight, length, width);
    let words = match () {
        () if fits_well(weight, width, length) => "length and width fit the weight only when changed over",
        () if fits_well(length, weight, width) => "weight and length fit only when changed over",
        () if fits_well(width, length, weight) => "weight and width fit only when changed over",
        () => return None,
    };
    Some(swapped(words.to_owned()))
}

/// The weight in grams of the ellipsoid of a length and width in millimetres.
fn ellipsoid(length: f64, width: f64) -> f64 {
    ELLIPSOID_GRAMS * width * width * length
}

/// Whether a weight fits a length and width. Ribs take from the ellipsoid and never add to it.
fn fits(weight: f64, length: f64, width: f64) -> bool {
    let may_be_ribbed = RIBBED_FROM <= weight && weight < ellipsoid(length, width);
    let sds = if may_be_ribbed { RIBBED_SDS } else { ELLIPSOID_SDS };
    within(sds, weight, length, width)
}

/// Whether a weight lies within so many sd of the ellipsoid of a length and width.
fn within(sds: f64, weight: f64, length: f64, width: f64) -> bool {
    let expected = ellipsoid(length, width);
    (weight - expected).abs() <= sds * ELLIPSOID_SD * expected + SCALE_GRAMS
}

fn against_ellipsoid(fruit: &FruitSample) -> Option<Doubt> {
    let (weight, length, width) = (fruit.weight?.get(), fruit.length?.get(), fruit.width?.get());
    let expected = ellipsoid(length, width);
    let words = || {
        let (weight, expected) = (told(weight), told(expected));
        format!(
            "{weight} g, where {length:.0} mm long and {width:.0} mm wide should weigh about {expected} g"
        )
    };
    (!fits(weight, length, width)).then(|| doubt(DoubtKind::WeightAgainstSize, words()))
}

/// A figure with the digits that matter: two below 1, one below 10.
fn told(value: f64) -> String {
    match value {
        tiny if tiny < 1.0 => format!("{tiny:.2}"),
        small if small < 10.0 => format!("{small:.1}"),
        large => format!("{large:.0}"),
    }
}

fn mean_weight(weight: Grams, count: u32) -> Option<Grams> {
    (0 < count).then(|| weight.get() / f64::from(count)).and_then(Grams::new)
}

fn unlike_variety(weight: Grams, about: &About<'_>) -> Option<Doubt> {
    let typical = about.variety.typical.filter(|typical| 0.0 < typical.weight.get())?;
    let ratio = weight.get() / typical.weight.get();
    let likely = (1.0 / typical.factor..=typical.factor).contains(&ratio);
    let words = || {
        let (weight, typical, name) = (weight.get(), typical.weight.get(), &about.variety.name);
        format!("a fruit of {} g, where {name} should weigh about {} g", told(weight), told(typical))
    };
    (!likely).then(|| doubt(DoubtKind::UnlikeItsVariety, words()))
}

/// A doubt about more trusses than a stem carries.
pub(crate) fn many_trusses(trusses: u32) -> Doubt {
    beyond(format!("{trusses} trusses on one stem"))
}
