//! The plants on walks: heights, trusses, leaves between them, first flower and first ripe fruit.
//!
//! Start at [`heights`] and [`walks`].

use crate::chance::{factor, happens, normal, stream, whole};
use crate::garden::{Plant, Plot};
use crate::ripening::first_ripe;
use crate::roll::{Build, Habit};
use crate::season::Garden;
use crate::truth::TrueVariety;
use jiff::civil::{Date, date};
use rand_chacha::ChaCha8Rng;
use record::length::Millimetres;
use record::stage::LeafCount;

/// One height as it truly was.
#[derive(Clone, Copy, Debug)]
pub struct TrueHeight {
    /// The day.
    pub day: Date,
    /// The plant's number in its plot.
    pub plant: u32,
    /// Soil to growing tip.
    pub height: Millimetres,
}

/// What a walk along one plot, or past one plant, found.
#[derive(Clone, Debug)]
pub struct Walk {
    /// The day.
    pub day: Date,
    /// The plant's number; `None` for the plot as a whole.
    pub plant: Option<u32>,
    /// First open flower.
    pub first_flower: Option<Date>,
    /// First ripe fruit.
    pub first_ripe: Option<Date>,
    /// The main stem: ended after so many trusses, or growing after so many.
    pub stem: Option<Stem>,
    /// Leaves between trusses.
    pub leaves_between: Option<LeafCount>,
    /// Plants standing.
    pub standing: Option<u32>,
    /// Off-types, and what is wrong with them.
    pub off_types: Option<(u32, String)>,
    /// Dwarf leaves seen.
    pub dwarf_leaves: bool,
}

/// The main stem on the day of a walk.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stem {
    /// Ended in a truss, the last of so many.
    Ended(u32),
    /// Still growing after so many trusses.
    Growing(u32),
}

/// Spread between plants in height, on the log scale, and of the tape. Common practice, no source.
const HEIGHT_BETWEEN_PLANTS: f64 = 0.07;
const TAPE: f64 = 0.02;
/// Days from transplanting to the first open truss, and from one truss to the next in high summer.
/// Source: phenology facts, section (b): about one truss a week.
const FIRST_TRUSS: f64 = 8.0;
const TRUSS_EVERY: f64 = 7.0;
/// Spread between plants of one variety in trusses before the stem ends. Common practice, no source.
const TRUSSES_BETWEEN_PLANTS: f64 = 0.6;
/// Spread of a walker's count of leaves between trusses. Common practice, no source.
const LEAF_COUNT: f64 = 0.22;
/// Plants walked one by one.
const PLANTS_WALKED: usize = 3;
/// Plants put to the tape.
const PLANTS_TAPED: usize = 2;

/// Draws the heights of one plot, from three weeks after planting until frost.
#[must_use]
pub fn heights(seed: u64, truth: &[TrueVariety], plot: &Plot) -> Vec<TrueHeight> {
    let every = match plot.grow_out.garden {
        Garden::Home => 11,
        Garden::FarField => 12,
    };
    let first = plot.grow_out.transplanted.saturating_add(jiff::Span::new().days(20));
    let days: Vec<Date> =
        first.series(jiff::Span::new().days(every)).take_while(|day| *day < plot.grow_out.frost).collect();
    let taped = plot.plants.iter().take(PLANTS_TAPED);
    taped.flat_map(|plant| heights_of(seed, truth, plot, plant, &days)).collect()
}

fn heights_of(
    seed: u64,
    truth: &[TrueVariety],
    plot: &Plot,
    plant: &Plant,
    days: &[Date],
) -> Vec<TrueHeight> {
    let Some(variety) = truth.get(plant.truly.0) else { return Vec::new() };
    let draws = &mut stream(seed, &["height", &plot.full_label(), &plant.number.to_string()]);
    let tall = factor(draws, HEIGHT_BETWEEN_PLANTS);
    let alive = days.iter().filter(|day| plant.lost.is_none_or(|lost| **day < lost));
    alive
        .filter_map(|day| {
            let height = height_on(variety, plot, *day) * tall * factor(draws, TAPE);
            Some(TrueHeight { day: *day, plant: plant.number, height: Millimetres::new(height)? })
        })
        .collect()
}

/// Millimetres at which plants go out.
const TRANSPLANT_HEIGHT: f64 = 160.0;

fn height_on(variety: &TrueVariety, plot: &Plot, day: Date) -> f64 {
    let days = f64::from((day - plot.transplanted).get_days()).max(0.0) * plot.grow_out.warmth;
    let full = variety.vine.height.get();
    let start = TRANSPLANT_HEIGHT.min(full * 0.5);
    let grown = match variety.entry.habit {
        Habit::Determinate => levelling(days / 42.0),
        Habit::SemiDeterminate => levelling(days / 68.0),
        Habit::Indeterminate => days / 130.0,
    };
    start + (full - start) * grown
}

/// Grows from 0 and levels off at 1; nine tenths at time 1.2.
fn levelling(time: f64) -> f64 {
    1.0 - (-1.6 * time.powf(1.8)).exp()
}

/// Trusses on the main stem `day`, were it never to end.
fn trusses_by(plot: &Plot, variety: &TrueVariety, day: Date) -> f64 {
    let days = f64::from((day - plot.transplanted).get_days()) * plot.grow_out.warmth;
    let sooner = match variety.entry.habit {
        Habit::Determinate => 0.75,
        Habit::SemiDeterminate => 1.18,
        Habit::Indeterminate => 1.0,
    };
    ((days - FIRST_TRUSS) / (TRUSS_EVERY * sooner) + 1.0).max(0.0)
}

/// The two walks that count trusses: the tenth of August and the last before frost.
fn walk_days(plot: &Plot) -> [Date; 2] {
    [date(plot.grow_out.year, 8, 10), plot.grow_out.frost.saturating_sub(jiff::Span::new().days(4))]
}

/// Draws what the walks along one plot found.
#[must_use]
pub fn walks(seed: u64, truth: &[TrueVariety], plot: &Plot) -> Vec<Walk> {
    let draws = &mut stream(seed, &["walk", &plot.full_label()]);
    let [_, last] = walk_days(plot);
    let mut walks: Vec<Walk> = plot_walk(draws, truth, plot, last).into_iter().collect();
    let standing = plot.plants.iter().filter(|plant| plant.lost.is_none());
    for plant in standing.take(PLANTS_WALKED) {
        walks.extend(plant_walks(draws, truth, plot, plant));
    }
    walks.sort_by_key(|walk| (walk.day, walk.plant));
    walks
}

fn plot_walk(draws: &mut ChaCha8Rng, truth: &[TrueVariety], plot: &Plot, day: Date) -> Option<Walk> {
    let variety = truth.get(plot.stand().0)?;
    let standing = plot.plants.iter().filter(|plant| plant.lost.is_none()).count();
    let rogues: Vec<&Plant> =
        plot.plants.iter().filter(|plant| plant.off_type && plant.lost.is_none()).collect();
    let noticed = !rogues.is_empty() && happens(draws, 0.8);
    Some(Walk {
        day,
        plant: None,
        first_flower: Some(plot.grow_out.day(FIRST_TRUSS / plot.grow_out.warmth + normal(draws, 2.0))),
        first_ripe: first_ripe(variety, plot),
        stem: None,
        leaves_between: None,
        standing: u32::try_from(standing).ok(),
        off_types: noticed.then(|| (rogues.len() as u32, what_is_wrong(truth, variety, &rogues))),
        dwarf_leaves: false,
    })
}

fn what_is_wrong(truth: &[TrueVariety], variety: &TrueVariety, rogues: &[&Plant]) -> String {
    let rogue = rogues.first().and_then(|plant| truth.get(plant.truly.0));
    let colour = rogue.map(|rogue| rogue.entry.colour).filter(|colour| *colour != variety.entry.colour);
    match colour {
        Some(colour) => format!("{} fruit", colour.name()),
        None => "fruit of another shape".to_owned(),
    }
}

fn plant_walks(draws: &mut ChaCha8Rng, truth: &[TrueVariety], plot: &Plot, plant: &Plant) -> Vec<Walk> {
    let Some(variety) = truth.get(plant.truly.0) else { return Vec::new() };
    let ends_after = variety.vine.trusses.map(|trusses| {
        let drawn = trusses + normal(draws, TRUSSES_BETWEEN_PLANTS);
        whole(draws, drawn).max(2)
    });
    let [early, last] = walk_days(plot);
    let slower = factor(draws, 0.05);
    let stem_on = |day| stem(trusses_by(plot, variety, day) / slower, ends_after);
    let leaves = variety.vine.leaves_between + normal(draws, LEAF_COUNT);
    let walk = |day: Date, leaves_between| Walk {
        day,
        plant: Some(plant.number),
        first_flower: None,
        first_ripe: None,
        stem: stem_on(day),
        leaves_between,
        standing: None,
        off_types: None,
        dwarf_leaves: variety.entry.build != Build::Standard,
    };
    let mid_walk = happens(draws, 0.5).then(|| walk(early, None));
    let counted = happens(draws, 0.85).then(|| LeafCount::new((leaves * 10.0).round() / 10.0)).flatten();
    mid_walk.into_iter().chain([walk(last, counted)]).collect()
}

fn stem(reached: f64, ends_after: Option<u32>) -> Option<Stem> {
    let reached = reached.floor() as u32;
    match ends_after {
        Some(last) if last <= reached => Some(Stem::Ended(last)),
        _ if 0 < reached => Some(Stem::Growing(reached)),
        _ => None,
    }
}
