//! Ripening: how the fruit of a plot comes in over the season, and what each pick took.
//!
//! A determinate plant ripens as one hump; an indeterminate one as a stream from its first truss until
//! frost; a semi-determinate one as a long hump. Start at [`picks`].

use crate::chance::{between, factor, normal, one_of, stream, whole};
use crate::garden::Plot;
use crate::roll::Habit;
use crate::season::{Garden, GrowOut};
use crate::truth::TrueVariety;
use jiff::civil::{Date, date};
use rand_chacha::ChaCha8Rng;
use record::mass::Grams;
use record::pick::{Cull, CullCause};

/// One pick as it truly was.
#[derive(Clone, Debug)]
pub struct TruePick {
    /// The day.
    pub day: Date,
    /// Sound fruit; `None` where nobody counts such small fruit.
    pub fruit_count: Option<u32>,
    /// Weight of the sound fruit.
    pub weight: Grams,
    /// What was culled.
    pub culls: Vec<Cull>,
}

/// Speed of ripening in September and after against high summer. Common practice, no source.
const AUTUMN_SPEED: f64 = 0.6;
/// Spread between plots in how much they bear, on the log scale. Source: phenology facts, section (c):
/// 28 % between single plants, so about half of that for a plot.
const BEARING_BETWEEN_PLOTS: f64 = 0.14;
/// Spread between picks about the curve. Common practice, no source.
const BETWEEN_PICKS: f64 = 0.15;

/// Spread between plots, and between picks of one, in the weight of a fruit, on the log scale. Common practice, no
/// source.
const PLOTS_HEAVIER: f64 = 0.1;
const PICKS_HEAVIER: f64 = 0.06;

/// Share of a pick that is culled. Source: phenology facts, section (c): marketable 75 to 90 %.
const CULLED: (f64, f64) = (0.0, 0.24);

/// Grams under which nobody counts the fruit of a pick. Common practice, no source.
const SMALLEST_COUNTED: f64 = 1.0;

/// Days of high summer that have passed since transplanting: a cool season's and autumn's days count less.
fn summer_days(grow_out: &GrowOut, transplanted: Date, day: Date) -> f64 {
    let autumn = date(grow_out.year, 9, 1);
    let out = f64::from((day - transplanted).get_days());
    let in_autumn = f64::from((day - autumn).get_days()).max(0.0).min(out);
    (out - in_autumn + in_autumn * AUTUMN_SPEED) * grow_out.warmth
}

/// Share of a plant's fruit that is ripe by `day`.
#[must_use]
pub fn ripe_share(variety: &TrueVariety, plot: &Plot, day: Date) -> f64 {
    let since = summer_days(&plot.grow_out, plot.transplanted, day) - variety.vine.days_to_ripe;
    let spread = variety.vine.spread_days;
    match variety.entry.habit {
        Habit::Determinate => hump(since / spread),
        Habit::SemiDeterminate => long_hump(since / spread),
        Habit::Indeterminate => running(since / spread),
    }
}

/// A logistic hump with a tenth to nine tenths in one unit of time, and 1 % ripe at time 0.
fn hump(time: f64) -> f64 {
    let steepness = 2.0 * 9.0_f64.ln();
    let middle = 99.0_f64.ln() / steepness;
    if time < 0.0 { 0.0 } else { 1.0 / (1.0 + (-steepness * (time - middle)).exp()) }
}

/// A hump with a long tail (Kumaraswamy 1.3, 1.8), a tenth to nine tenths in one unit of time.
fn long_hump(time: f64) -> f64 {
    let whole_span = 1.0 / 0.668;
    let at = (time / whole_span).clamp(0.0, 1.0);
    1.0 - (1.0 - at.powf(1.3)).powf(1.8)
}

/// A stream that soon runs steadily, a tenth to nine tenths in one unit of time.
fn running(time: f64) -> f64 {
    let whole_span = 1.0 / 0.785;
    (time / whole_span).clamp(0.0, 1.0).powf(1.1)
}

/// The days on which this garden is picked, from `day` on until frost.
fn picking_days(grow_out: &GrowOut) -> Vec<Date> {
    let every: i64 = match grow_out.garden {
        Garden::Home => 4,
        Garden::FarField => 7,
    };
    let first = grow_out.transplanted.saturating_add(jiff::Span::new().days(40));
    first.series(jiff::Span::new().days(every)).take_while(|day| *day < grow_out.frost).collect()
}

/// Draws the picks of one plot on middling ground.
#[must_use]
pub fn picks(seed: u64, truth: &[TrueVariety], plot: &Plot) -> Vec<TruePick> {
    picks_on(seed, truth, plot, 0.0)
}

/// Draws the picks of one plot whose ground bears so much more than middling ground, on the log scale.
#[must_use]
pub fn picks_on(seed: u64, truth: &[TrueVariety], plot: &Plot, ground: f64) -> Vec<TruePick> {
    let Some(variety) = truth.get(plot.stand().0) else { return Vec::new() };
    let draws = &mut stream(seed, &["picks", &plot.full_label()]);
    let standing = plot.plants.iter().filter(|plant| plant.lost.is_none()).count();
    let bearing = factor(draws, BEARING_BETWEEN_PLOTS) * ground.exp();
    let fruit = standing as f64 * variety.vine.fruit_per_plant * bearing;
    let heavier = plot.grow_out.heavier + normal(draws, PLOTS_HEAVIER);
    let mut ripe_before = 0.0;
    let mut picks = Vec::new();
    for day in picking_days(&plot.grow_out) {
        let ripe = ripe_share(variety, plot, day);
        let expected = fruit * (ripe - ripe_before) * factor(draws, BETWEEN_PICKS);
        ripe_before = ripe;
        let ripened = whole(draws, expected);
        picks.extend(one_pick(draws, variety, day, ripened, heavier));
    }
    picks
}

/// Grams of sound fruit that a plant bears on middling ground until the last day of picking, on average over what is
/// drawn: every factor is drawn about 1 on the log scale.
#[must_use]
pub fn expected_grams(variety: &TrueVariety, plot: &Plot) -> f64 {
    let last = picking_days(&plot.grow_out).last().copied().unwrap_or(plot.transplanted);
    let sound = 1.0 - f64::midpoint(CULLED.0, CULLED.1);
    let spread = |deviation: f64| (deviation * deviation / 2.0).exp();
    let fruit = variety.vine.fruit_per_plant * ripe_share(variety, plot, last) * sound;
    let each = variety.shape.weight.get() * plot.grow_out.heavier.exp() * spread(PLOTS_HEAVIER);
    fruit * each * spread(BEARING_BETWEEN_PLOTS) * spread(BETWEEN_PICKS) * spread(PICKS_HEAVIER)
}

fn one_pick(
    draws: &mut ChaCha8Rng,
    variety: &TrueVariety,
    day: Date,
    fruit: u32,
    heavier: f64,
) -> Option<TruePick> {
    let cull_share = between(draws, CULLED);
    let culled = whole(draws, f64::from(fruit) * cull_share);
    let sound = fruit.checked_sub(culled).filter(|sound| 0 < *sound)?;
    let each = variety.shape.weight.get() * heavier.exp() * factor(draws, PICKS_HEAVIER);
    let weigh = |count: u32| Grams::new(f64::from(count) * each);
    let count = |fruit: u32| Some(fruit).filter(|_| SMALLEST_COUNTED <= variety.shape.weight.get());
    let cause = one_of(draws, &CAUSES).copied().unwrap_or(CullCause::Other);
    let cull = Cull { cause, fruit_count: count(culled), weight: weigh(culled) };
    Some(TruePick {
        day,
        fruit_count: count(sound),
        weight: weigh(sound)?,
        culls: if culled == 0 { Vec::new() } else { vec![cull] },
    })
}

/// Why this house culls, most usual first.
const CAUSES: [CullCause; 6] = [
    CullCause::Cracked,
    CullCause::Catfaced,
    CullCause::BlossomEndRot,
    CullCause::Rotten,
    CullCause::Sunscald,
    CullCause::Eaten,
];

/// The first day on which a walker would have seen ripe fruit, if frost did not come first.
#[must_use]
pub fn first_ripe(variety: &TrueVariety, plot: &Plot) -> Option<Date> {
    let days = plot.transplanted.series(jiff::Span::new().days(1));
    days.take_while(|day| *day < plot.grow_out.frost).find(|day| 0.01 <= ripe_share(variety, plot, *day))
}

/// Days on which fruit of one plant came to the bench: `fruits` of them, in two or three sittings.
pub fn sampling_days(draws: &mut ChaCha8Rng, plot: &Plot, variety: &TrueVariety, fruits: u32) -> Vec<Date> {
    let days = picking_days(&plot.grow_out);
    let ripe: Vec<Date> = days.into_iter().filter(|day| is_bearing(variety, plot, *day)).collect();
    let sittings: Vec<Date> = (0..2).filter_map(|_| one_of(draws, &ripe).copied()).collect();
    let mut chosen: Vec<Date> = (0..fruits).filter_map(|_| one_of(draws, &sittings).copied()).collect();
    chosen.sort();
    chosen
}

fn is_bearing(variety: &TrueVariety, plot: &Plot, day: Date) -> bool {
    (0.05..0.98).contains(&ripe_share(variety, plot, day))
}
