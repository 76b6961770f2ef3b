//! The harvest to expect as data.

use crate::commands::warmth::ClockTold;
use house::forecast::place::{Climates, Source};
use house::forecast::{self, Expected, Flowering, Harvest, Planting};
use house::warmth;
use jiff::civil::Date;
use record::language::Units;
use schemars::JsonSchema;
use serde::Serialize;

/// The harvest to expect.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Harvests {
    /// The garden's weather.
    pub(super) weather: WeatherTold,
    /// The weather of the house's own plots, where it is another.
    pub(super) homes: Vec<WeatherTold>,
    /// How warmth is counted.
    pub(super) counted_in: String,
    /// The same as data: numbers in degree-days can be used with these only.
    pub(super) clock: ClockTold,
    /// Month and day on which plants go out.
    pub(super) transplanted: String,
    /// Years that were put through.
    pub(super) years: usize,
    /// Years that break off before frost.
    pub(super) left_out: Vec<i16>,
    /// Plots behind it all.
    pub(super) plots: usize,
    /// Plots for whose season a middling one of the weather stands in.
    pub(super) plots_stood_in: usize,
    /// Weeks after transplanting in which flowers set poorly in some years.
    pub(super) poor_set: Vec<PoorSet>,
    /// Every variety, the earliest first.
    pub(super) varieties: Vec<Variety>,
    /// Days to plant out on, where one variety was asked for.
    pub(super) plantings: Vec<PlantingTold>,
    #[serde(skip)]
    pub(super) units: Units,
}

/// Weather and where it comes from.
#[derive(Debug, Serialize, JsonSchema)]
pub(in crate::commands) struct WeatherTold {
    /// The station or file.
    pub(in crate::commands) name: String,
    /// Whether it was measured, or drawn from a climate.
    pub(in crate::commands) measured: bool,
    /// First day, of what was measured.
    from: Option<String>,
    /// Last day.
    to: Option<String>,
    /// What years are drawn from, where none were measured.
    drawn_from: Option<String>,
    /// Where frosts come from, where it is not from the same days.
    frosts: Option<String>,
    /// Temperatures that were missing for a few days and are filled along a line.
    pub(in crate::commands) filled: usize,
    /// Kilometres from the garden, where both places are known.
    kilometres: Option<f64>,
    /// Degrees Celsius that its days were made warmer by for the garden's height.
    warmer_by: Option<f64>,
}

impl WeatherTold {
    /// Where its years are from.
    pub(in crate::commands) fn whence(&self) -> String {
        match (&self.from, &self.to) {
            (Some(from), Some(to)) => format!("measured, {from} to {to}"),
            _ => "years drawn from its climate".to_owned(),
        }
    }
}

/// A week in which flowers set poorly.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct PoorSet {
    /// The day it begins, in a common year.
    pub(super) week_of: String,
    /// Part of the years in which cold keeps half the flowers from setting.
    pub(super) cold: f64,
    /// Part of the years in which heat does.
    pub(super) heat: f64,
}

/// One variety.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Variety {
    /// Its name.
    pub(super) name: String,
    /// `one crop`, or `until frost`.
    pub(super) crop: &'static str,
    /// Plots that it rests on.
    pub(super) plots: usize,
    /// Their seasons.
    pub(super) seasons: usize,
    /// Part of what is believed of its weight that comes from others of its kind.
    pub(super) borrowed: f64,
    /// Days from transplanting to the first ripe fruit: early, middling, late.
    pub(super) first_days: [Option<i32>; 3],
    /// Days to the last.
    pub(super) last_days: [Option<i32>; 3],
    /// Kilograms a plant over the season, poor, middling, good: 10, 50 and 90 in 100 stay below.
    pub(super) kilograms: [f64; 3],
    /// The same in fruits of the variety's usual weight.
    pub(super) fruits: [f64; 3],
    /// Part of the seasons in which nine tenths of one crop ripen before frost.
    pub(super) finished: Option<f64>,
    /// Part of the seasons in which nothing ripens before frost.
    pub(super) nothing: f64,
    /// Its weeks.
    pub(super) weeks: Vec<WeekTold>,
    /// Season's kilograms if only the weather were not known, only the variety, only how plots and seasons differ.
    pub(super) alone: Option<[[f64; 3]; 3]>,
}

/// A week of harvest.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct WeekTold {
    /// The day it begins, in a common year.
    pub(super) week_of: String,
    /// Kilograms a plant, poor, middling, good.
    pub(super) kilograms: [f64; 3],
    /// The same in fruits of the variety's usual weight.
    pub(super) fruits: [f64; 3],
    /// Part of the seasons in which a plant has a ripe fruit that week.
    pub(super) chance: f64,
}

/// A day to plant out on.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct PlantingTold {
    /// Month and day.
    pub(super) out: String,
    /// Kilograms a plant over the season, poor, middling, good.
    pub(super) kilograms: [f64; 3],
    /// Part of the years in which frost kills the plants within six weeks.
    pub(super) killed: f64,
    /// Whether poor seasons bring as much as on the best day, within 5 in 100.
    pub(super) as_good: bool,
}

pub(super) fn told(found: &Harvest, units: Units) -> Harvests {
    let poor = |(week, own): (i32, &Flowering)| {
        let is_told = TOLD_FROM <= own.cold || TOLD_FROM <= own.heat;
        is_told.then(|| PoorSet { week_of: week_of(found.out, week), cold: own.cold, heat: own.heat })
    };
    Harvests {
        weather: weather(&found.weather),
        homes: found.homes.iter().map(weather).collect(),
        counted_in: warmth::named(&found.clock),
        clock: ClockTold::of(&found.clock),
        transplanted: month_day(found.out),
        years: found.years.len(),
        left_out: found.left_out.clone(),
        plots: found.stood_in.1,
        plots_stood_in: found.stood_in.0,
        poor_set: (0..).zip(&found.flowering).filter_map(poor).collect(),
        varieties: found.varieties.iter().map(|one| variety(one, found.out)).collect(),
        plantings: found.plantings.iter().map(planting).collect(),
        units,
    }
}

/// Part of the years from which poor set is worth telling.
pub(super) const TOLD_FROM: f64 = 0.1;

/// Part of the seasons below which a week has no ripe fruit to tell of.
const SELDOM: f64 = 0.005;

pub(in crate::commands) fn weather(found: &Climates) -> WeatherTold {
    let (from, to, filled) = match found.source {
        Source::Measured { from, to, filled } => (Some(from.to_string()), Some(to.to_string()), filled),
        Source::Drawn { .. } => (None, None, 0),
    };
    let drawn_from = match found.source {
        Source::Measured { .. } => None,
        Source::Drawn { from, .. } => Some(from.named()),
    };
    WeatherTold {
        name: found.name.clone(),
        measured: from.is_some(),
        from,
        to,
        drawn_from,
        frosts: found.frosts.told(),
        filled,
        kilometres: found.lies.map(|lies| lies.kilometres),
        warmer_by: found.lies.and_then(|lies| lies.warmer_by),
    }
}

fn variety(one: &Expected, out: (i8, i8)) -> Variety {
    let forecast = &one.forecast;
    let weeks = (0..).zip(forecast.weeks.iter().zip(&forecast.chance));
    let weeks =
        weeks.filter(|(_, (_, chance))| SELDOM <= **chance).map(|(week, (kilograms, chance))| WeekTold {
            week_of: week_of(out, week),
            kilograms: *kilograms,
            fruits: one.forecast.fruits(*kilograms),
            chance: *chance,
        });
    Variety {
        name: one.name.clone(),
        crop: match one.shape {
            forecast::Shape::Hump => "one crop",
            forecast::Shape::Stream => "until frost",
        },
        plots: one.rests_on.0,
        seasons: one.rests_on.1,
        borrowed: one.borrowed,
        first_days: forecast.first,
        last_days: forecast.last,
        kilograms: forecast.total,
        fruits: forecast.fruits(forecast.total),
        finished: forecast.finished,
        nothing: forecast.nothing,
        weeks: weeks.collect(),
        alone: one.alone,
    }
}

fn planting(found: &Planting) -> PlantingTold {
    PlantingTold {
        out: month_day(found.out),
        kilograms: found.total,
        killed: found.killed,
        as_good: found.as_good,
    }
}

fn month_day((month, day): (i8, i8)) -> String {
    format!("{month:02}-{day:02}")
}

/// The first day of a week after planting, in a common year.
fn week_of(out: (i8, i8), week: i32) -> String {
    day_after(out, 7 * week).map_or_else(String::new, |day| month_day((day.month(), day.day())))
}

pub(super) fn day_after((month, day): (i8, i8), days: i32) -> Option<Date> {
    let out = Date::new(2001, month, day).or_else(|_| Date::new(2001, month, 28)).ok()?;
    out.checked_add(jiff::Span::new().try_days(days).ok()?).ok()
}

impl WeatherTold {
    /// Where its days come from, and its frosts where they come from elsewhere.
    pub(in crate::commands) fn told(&self) -> String {
        let days = match (&self.from, &self.to) {
            (Some(from), Some(to)) => format!("{}: measured, {from} to {to}.", self.name),
            _ => format!(
                "{}: years drawn from {}, none of them measured; a station's own file tells more.",
                self.name,
                self.drawn_from.as_deref().unwrap_or("its climate")
            ),
        };
        self.frosts.as_ref().map_or_else(|| days.clone(), |frosts| format!("{days} {frosts}"))
    }

    /// Where its frosts come from, or its days where they come from these.
    pub(in crate::commands) fn frosts_told(&self) -> String {
        self.frosts.as_ref().map_or_else(|| self.told(), |frosts| format!("{}: {frosts}", self.name))
    }

    /// How it lies to the garden, where both places are known.
    pub(in crate::commands) fn height(&self) -> Option<String> {
        let height = self.warmer_by.map_or_else(
            || "heights are not known".to_owned(),
            |by| format!("its days are taken {by:+.1} °C for the garden's height"),
        );
        self.kilometres
            .map(|kilometres| format!("{} lies {kilometres:.0} km from the garden; {height}.", self.name))
    }
}
