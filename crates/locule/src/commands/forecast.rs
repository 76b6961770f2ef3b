//! `locule forecast`: the harvest to expect in a garden.

use super::Failure;
use super::frost::said;
use super::reference::{Shape, shape};
use super::ripen::month_and_day;
use super::warmth::{ClockTold, clock};
use crate::answer::Answer;
use crate::arguments::forecast::{Forecast, RiskWord};
use crate::columns::columns;
use house::fault::HouseFault;
use house::folder::House;
use house::forecast::place::{Climates, Source};
use house::forecast::{self, Asked, Expected, Flowering, Harvest, Place, Planting, Range, Risk};
use house::warmth;
use house::weather::Said;
use jiff::civil::Date;
use record::language::{self, Units, counted};
use record::mass::Grams;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};
use std::path::PathBuf;

/// The harvest to expect.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Harvests {
    /// The garden's weather.
    weather: WeatherTold,
    /// The weather of the house's own plots, where it is another.
    homes: Vec<WeatherTold>,
    /// How warmth is counted.
    counted_in: String,
    /// The same as data: numbers in degree-days can be used with these only.
    clock: ClockTold,
    /// Month and day on which plants go out.
    transplanted: String,
    /// Years that were put through.
    years: usize,
    /// Years that break off before frost.
    left_out: Vec<i16>,
    /// Plots behind it all.
    plots: usize,
    /// Plots for whose season a middling one of the weather stands in.
    plots_stood_in: usize,
    /// Weeks after transplanting in which flowers set poorly in some years.
    poor_set: Vec<PoorSet>,
    /// Every variety, the earliest first.
    varieties: Vec<Variety>,
    /// Days to plant out on, where one variety was asked for.
    plantings: Vec<PlantingTold>,
    #[serde(skip)]
    units: Units,
}

/// Weather and where it comes from.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct WeatherTold {
    /// The station or file.
    pub(super) name: String,
    /// Whether it was measured, or drawn from a climate.
    pub(super) measured: bool,
    /// First day, of what was measured.
    from: Option<String>,
    /// Last day.
    to: Option<String>,
    /// What years are drawn from, where none were measured.
    drawn_from: Option<String>,
    /// Where frosts come from, where it is not from the same days.
    frosts: Option<String>,
    /// Temperatures that were missing for a few days and are filled along a line.
    pub(super) filled: usize,
    /// Kilometres from the garden, where both places are known.
    kilometres: Option<f64>,
    /// Degrees Celsius that its days were made warmer by for the garden's height.
    warmer_by: Option<f64>,
}

impl WeatherTold {
    /// Where its years are from.
    pub(super) fn whence(&self) -> String {
        match (&self.from, &self.to) {
            (Some(from), Some(to)) => format!("measured, {from} to {to}"),
            _ => "years drawn from its climate".to_owned(),
        }
    }
}

/// A week in which flowers set poorly.
#[derive(Debug, Serialize, JsonSchema)]
struct PoorSet {
    /// The day it begins, in a common year.
    week_of: String,
    /// Part of the years in which cold keeps half the flowers from setting.
    cold: f64,
    /// Part of the years in which heat does.
    heat: f64,
}

/// One variety.
#[derive(Debug, Serialize, JsonSchema)]
struct Variety {
    /// Its name.
    name: String,
    /// `one crop`, or `until frost`.
    crop: &'static str,
    /// Plots that it rests on.
    plots: usize,
    /// Their seasons.
    seasons: usize,
    /// Part of what is believed of its weight that comes from others of its kind.
    borrowed: f64,
    /// Days from transplanting to the first ripe fruit: early, middling, late.
    first_days: [Option<i32>; 3],
    /// Days to the last.
    last_days: [Option<i32>; 3],
    /// Kilograms a plant over the season, poor, middling, good: 10, 50 and 90 in 100 stay below.
    kilograms: [f64; 3],
    /// The same in fruits of the variety's usual weight.
    fruits: [f64; 3],
    /// Part of the seasons in which nine tenths of one crop ripen before frost.
    finished: Option<f64>,
    /// Part of the seasons in which nothing ripens before frost.
    nothing: f64,
    /// Its weeks.
    weeks: Vec<WeekTold>,
    /// Season's kilograms if only the weather were not known, only the variety, only how plots and seasons differ.
    alone: Option<[[f64; 3]; 3]>,
}

/// A week of harvest.
#[derive(Debug, Serialize, JsonSchema)]
struct WeekTold {
    /// The day it begins, in a common year.
    week_of: String,
    /// Kilograms a plant, poor, middling, good.
    kilograms: [f64; 3],
    /// The same in fruits of the variety's usual weight.
    fruits: [f64; 3],
    /// Part of the seasons in which a plant has a ripe fruit that week.
    chance: f64,
}

/// A day to plant out on.
#[derive(Debug, Serialize, JsonSchema)]
struct PlantingTold {
    /// Month and day.
    out: String,
    /// Kilograms a plant over the season, poor, middling, good.
    kilograms: [f64; 3],
    /// Part of the years in which frost kills the plants within six weeks.
    killed: f64,
    /// Whether poor seasons bring as much as on the best day, within 5 in 100.
    as_good: bool,
}

pub(crate) fn run(house: &House, typed: &Forecast) -> Result<Harvests, Failure> {
    let asked = Asked {
        varieties: typed.varieties.clone(),
        place: place(typed.garden.as_ref(), typed.weather.as_ref()),
        home: typed.home.clone(),
        said: said(typed.scale, typed.station.as_ref()),
        clock: clock(&typed.warmth)?,
        out: typed.transplant.as_deref().map(month_and_day).transpose()?,
        risk: typed.frost_risk.map(risk),
    };
    Ok(told(&forecast::forecast(house, &asked)?, house.settings.units))
}

/// Whose weather was asked for.
pub(super) fn place(garden: Option<&String>, weather: Option<&PathBuf>) -> Place {
    match garden {
        Some(garden) => Place::Garden(garden.clone()),
        None => Place::Station(weather.cloned().unwrap_or_default()),
    }
}

pub(super) fn risk(word: RiskWord) -> Risk {
    match word {
        RiskWord::One => Risk::OneInTen,
        RiskWord::Five => Risk::FiveInTen,
        RiskWord::Nine => Risk::NineInTen,
    }
}

/// The harvest of all varieties by one station, for the demo; none where the house has no picks.
pub(super) fn of_demo(house: &House, station: &str) -> Result<Option<Harvests>, Failure> {
    let place = Place::Station(station.into());
    let clock = warmth::USUAL;
    let said = Said::default();
    let asked = Asked { varieties: Vec::new(), place, home: None, said, clock, out: None, risk: None };
    match forecast::forecast(house, &asked) {
        Ok(found) => Ok(Some(told(&found, house.settings.units))),
        Err(HouseFault::NoPicks { .. }) => Ok(None),
        Err(fault) => Err(fault.into()),
    }
}

fn told(found: &Harvest, units: Units) -> Harvests {
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

/// Fruits of a poor, a middling and a good season, whole ones.
fn fruits(range: &[f64; 3]) -> String {
    range.map(|fruits| format!("{fruits:.0}")).join("/")
}

/// Part of the years from which poor set is worth telling.
const TOLD_FROM: f64 = 0.1;

/// Part of the seasons below which a week has no ripe fruit to tell of.
const SELDOM: f64 = 0.005;
/// Kilograms a plant that are not worth telling. Common practice, no source.
const NOTHING: f64 = 0.005;

pub(super) fn weather(found: &Climates) -> WeatherTold {
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

fn day_after((month, day): (i8, i8), days: i32) -> Option<Date> {
    let out = Date::new(2001, month, day).or_else(|_| Date::new(2001, month, 28)).ok()?;
    out.checked_add(jiff::Span::new().try_days(days).ok()?).ok()
}

impl WeatherTold {
    /// Where its days come from, and its frosts where they come from elsewhere.
    pub(super) fn told(&self) -> String {
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
    pub(super) fn frosts_told(&self) -> String {
        self.frosts.as_ref().map_or_else(|| self.told(), |frosts| format!("{}: {frosts}", self.name))
    }

    /// How it lies to the garden, where both places are known.
    pub(super) fn height(&self) -> Option<String> {
        let height = self.warmer_by.map_or_else(
            || "heights are not known".to_owned(),
            |by| format!("its days are taken {by:+.1} °C for the garden's height"),
        );
        self.kilometres
            .map(|kilometres| format!("{} lies {kilometres:.0} km from the garden; {height}.", self.name))
    }
}

impl Harvests {
    fn mass(&self, kilograms: f64) -> String {
        let grams = Grams::new(kilograms * 1000.0).filter(|_| NOTHING <= kilograms);
        grams.map_or_else(|| "-".to_owned(), |grams| language::mass_briefly(grams, self.units))
    }

    fn masses(&self, range: &Range) -> [String; 3] {
        range.map(|kilograms| self.mass(kilograms))
    }

    /// A day after planting, as a day of the year.
    fn day(&self, days: Option<i32>) -> String {
        let out = self
            .transplanted
            .split_once('-')
            .and_then(|(month, day)| Some((month.parse().ok()?, day.parse().ok()?)));
        let day = days.zip(out).and_then(|(days, out)| day_after(out, days));
        day.map_or_else(|| "never".to_owned(), |day| day.strftime("%-d %b").to_string())
    }
}

impl Answer for Harvests {
    const SHAPE: &'static str = "forecast/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(
            to,
            "Harvest to expect, plants out on {}, in {} of {}\n",
            self.transplanted,
            counted(self.years as u64, "year", "years"),
            self.weather.name
        )?;
        match self.varieties.as_slice() {
            [one] => self.tell_weeks(one, to)?,
            all => self.tell_all(all, to)?,
        }
        self.tell_plantings(to)?;
        self.tell_set(to)?;
        self.tell_sources(to)
    }
}

impl Harvests {
    /// Tells the earliest few, and how many more there are.
    pub(super) fn tell_earliest(&self, to: &mut dyn Write, most: usize) -> io::Result<()> {
        let few = self.varieties.get(..most.min(self.varieties.len())).unwrap_or_default();
        self.tell_all(few, to)?;
        if let Some(rest) = self.varieties.len().checked_sub(most).filter(|rest| 0 < *rest) {
            writeln!(to, "  and {rest} more: locule forecast --weather {:?}", self.weather.name)?;
        }
        Ok(())
    }

    fn tell_all(&self, all: &[Variety], to: &mut dyn Write) -> io::Result<()> {
        let heading = [
            "Variety",
            "Crop",
            "First ripe",
            "Last",
            "A plant, poor",
            "Middling",
            "Good",
            "Ripe before frost",
            "Plots",
        ];
        let rows = all.iter().map(|one| {
            let [poor, middling, good] = self.masses(&one.kilograms);
            let [_, first, _] = one.first_days;
            let [_, last, _] = one.last_days;
            let finished =
                one.finished.map_or_else(|| "-".to_owned(), |part| format!("{:.0} in 100", 100.0 * part));
            vec![
                one.name.clone(),
                one.crop.to_owned(),
                self.day(first),
                self.day(last),
                poor,
                middling,
                good,
                finished,
                one.plots.to_string(),
            ]
        });
        columns(to, &std::iter::once(heading.map(str::to_owned).to_vec()).chain(rows).collect::<Vec<_>>())
    }

    fn tell_weeks(&self, one: &Variety, to: &mut dyn Write) -> io::Result<()> {
        let heading = ["Week of", "A plant, poor", "Middling", "Good", "Fruit", "Ripe fruit in"]
            .map(str::to_owned)
            .to_vec();
        let rows = one.weeks.iter().map(|week| {
            let [poor, middling, good] = self.masses(&week.kilograms);
            vec![
                week.week_of.clone(),
                poor,
                middling,
                good,
                fruits(&week.fruits),
                format!("{:.0} years of 100", 100.0 * week.chance),
            ]
        });
        let [poor, middling, good] = self.masses(&one.kilograms);
        let total = vec!["Season".to_owned(), poor, middling, good, fruits(&one.fruits), String::new()];
        columns(to, &std::iter::once(heading).chain(rows).chain([total]).collect::<Vec<_>>())?;
        let days = |days: &[Option<i32>; 3]| days.map(|day| self.day(day)).join(", ");
        writeln!(
            to,
            "\n{} ({}): first ripe fruit on {} (early, middling, late season)",
            one.name,
            one.crop,
            days(&one.first_days)
        )?;
        writeln!(to, "and the last on {}.", days(&one.last_days))?;
        if let Some(finished) = one.finished {
            writeln!(to, "Nine tenths ripen before frost in {:.0} seasons of 100.", 100.0 * finished)?;
        }
        if 0.005 < one.nothing {
            writeln!(
                to,
                "Frost comes before anything is ripe in {:.0} seasons of 100.",
                100.0 * one.nothing
            )?;
        }
        let (plots, seasons) =
            (counted(one.plots as u64, "plot", "plots"), counted(one.seasons as u64, "season", "seasons"));
        writeln!(
            to,
            "It rests on {plots} in {seasons}; {:.0} in 100 of its weight is borrowed from varieties of its kind.",
            100.0 * one.borrowed
        )?;
        self.tell_alone(one, to)
    }

    fn tell_alone(&self, one: &Variety, to: &mut dyn Write) -> io::Result<()> {
        let Some(alone) = &one.alone else { return Ok(()) };
        writeln!(to, "\nIf nothing else were unsure, a plant would bring between poor and good seasons:")?;
        for (what, [poor, _, good]) in
            ["the weather", "what this variety is", "how plots and seasons differ"].iter().zip(alone)
        {
            writeln!(to, "  {what}: {} to {}", self.mass(*poor), self.mass(*good))?;
        }
        Ok(())
    }

    fn tell_plantings(&self, to: &mut dyn Write) -> io::Result<()> {
        if self.plantings.is_empty() {
            return Ok(());
        }
        writeln!(to, "\nPlanted out on other days:\n")?;
        let heading = ["Out", "A plant, poor", "Middling", "Good", "Killed by frost within six weeks", ""];
        let rows = self.plantings.iter().map(|planting| {
            let [poor, middling, good] = self.masses(&planting.kilograms);
            let best = if planting.as_good { "as good as the best" } else { "" };
            let killed = format!("{:.0} years of 100", 100.0 * planting.killed);
            vec![planting.out.clone(), poor, middling, good, killed, best.to_owned()]
        });
        columns(to, &std::iter::once(heading.map(str::to_owned).to_vec()).chain(rows).collect::<Vec<_>>())
    }

    fn tell_set(&self, to: &mut dyn Write) -> io::Result<()> {
        let told = |of: fn(&PoorSet) -> f64| {
            let weeks = self.poor_set.iter().filter(|week| TOLD_FROM <= of(week));
            weeks.map(|week| format!("{} ({:.0})", week.week_of, 100.0 * of(week))).collect::<Vec<_>>()
        };
        for (why, weeks) in [("cold", told(|week| week.cold)), ("heat", told(|week| week.heat))] {
            if !weeks.is_empty() {
                writeln!(
                    to,
                    "\nFlowers set poorly for {why} in the weeks of (years of 100): {}.",
                    weeks.join(", ")
                )?;
            }
        }
        Ok(())
    }

    fn tell_sources(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(
            to,
            "\nPoor: 1 season in 10 brings less; good: 1 in 10 brings more. Warmth: {}.",
            self.counted_in
        )?;
        for weather in std::iter::once(&self.weather).chain(&self.homes) {
            writeln!(to, "{}", weather.told())?;
        }
        if let Some(height) = self.weather.height() {
            writeln!(to, "{height}")?;
        }
        if 0 < self.plots_stood_in {
            writeln!(
                to,
                "Nobody has the weather of {} of {}: a middling season stands in for it.",
                counted(self.plots_stood_in as u64, "plot", "plots"),
                self.plots
            )?;
        }
        if !self.left_out.is_empty() {
            let years: Vec<String> = self.left_out.iter().map(i16::to_string).collect();
            writeln!(to, "Left out, not known from planting to frost: {}.", years.join(", "))?;
        }
        Ok(())
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Harvests>()]
}
