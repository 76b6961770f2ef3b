//! `locule frost`: when frost comes, from a station's own days.

use super::Failure;
use super::forecast::{WeatherTold, place, weather};
use super::reference::{Shape, shape};
use super::weather::LeftOut;
use crate::answer::{Answer, Ending, Form, give};
use crate::arguments::frost::{Frost, ScaleWord};
use crate::columns::columns;
use house::folder::House;
use house::frost::{
    self, Asked, Chance, ESTIMATOR, FEWEST_FOR_ONE_IN_TEN, FrostsAt, Hemisphere, Published, TOLD, Told,
    YearOfFrosts,
};
use house::weather::{Said, Scale, ToldBy};
use jiff::civil::Date;
use record::language::{self, Units, counted};
use record::temperature::Celsius;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// When frost comes.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Frosts {
    /// The station, where the file names one.
    station: Option<String>,
    /// What its numbers were taken for by how warm its summers are, where nothing else told.
    taken_for: Option<&'static str>,
    /// First day of the file.
    from: String,
    /// Last day.
    to: String,
    /// What was taken out.
    #[serde(flatten)]
    taken_out: LeftOut,
    /// How days of a chance were worked out.
    estimator: &'static str,
    /// Frosts of each temperature, the warmest first.
    at: Vec<AtTold>,
    /// The garden's weather, or that of a station that is known without a file.
    weather: Option<WeatherTold>,
    /// The drawing of all years that was written.
    plot: Option<String>,
    #[serde(skip)]
    units: Units,
}

/// Frosts of one temperature.
#[derive(Debug, Serialize, JsonSchema)]
struct AtTold {
    /// The temperature, in degrees Celsius.
    celsius: f64,
    /// Years that were gone by.
    years: Vec<i16>,
    /// Years left out for missing nights.
    left_out: Vec<i16>,
    /// Part of the years with a frost in spring.
    with_spring_frost: f64,
    /// Part of the years with a frost in autumn.
    with_autumn_frost: f64,
    /// The last frost of spring falls on this day or later.
    last: Vec<ChanceTold>,
    /// The first frost of autumn falls on this day or earlier.
    first: Vec<ChanceTold>,
    /// So many days between the two, or more.
    season: Vec<ChanceTold>,
    /// Every year, those that are left out too.
    each_year: Vec<YearTold>,
}

/// The frosts of one year.
#[derive(Debug, Serialize, JsonSchema)]
struct YearTold {
    /// The year, of its spring.
    year: i16,
    /// Whether both halves are known; `false` where more than ten nights of one are missing.
    known: bool,
    /// The last frost of spring; none where there was none.
    last: Option<String>,
    /// The first of autumn.
    first: Option<String>,
}

/// When frost comes, as climate normals publish it.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Freezes {
    /// The station's identifier.
    station: String,
    /// Its name.
    name: String,
    /// Freezes of each temperature, the warmest first.
    at: Vec<PublishedTold>,
    /// The garden's weather, or that of the station; none where a file was read.
    weather: Option<WeatherTold>,
    #[serde(skip)]
    units: Units,
}

/// Published freezes of one temperature.
#[derive(Debug, Serialize, JsonSchema)]
struct PublishedTold {
    /// The temperature, in degrees Fahrenheit.
    fahrenheit: u8,
    /// Years behind them, where told.
    years: Option<u16>,
    /// The last frost of spring falls on this day of a common year or later.
    last: Vec<ChanceTold>,
    /// The first frost of autumn falls on this day or earlier.
    first: Vec<ChanceTold>,
    /// So many days between the two, or more.
    season: Vec<ChanceTold>,
}

/// A chance.
#[derive(Debug, Serialize, JsonSchema)]
struct ChanceTold {
    /// Years in 100.
    in_100: f64,
    /// The day, counted from 1 January of the year of spring, or the number of days; none where frost is rarer.
    day: Option<f64>,
    /// Days between which 90 of 100 samples of as many years would put it.
    sampled: Option<(f64, f64)>,
}

pub(crate) fn run(house: Option<&House>, typed: &Frost, form: Form) -> Result<Ending, Failure> {
    let units = house.map(|house| house.settings.units).unwrap_or_default();
    let alone = typed.station.as_ref().filter(|_| typed.file.is_none()).map(Into::into);
    let asked = Asked {
        place: place(typed.garden.as_ref(), typed.file.clone().or(alone).as_ref()),
        said: said(typed.scale, typed.station.as_ref()),
        years: typed.years.as_deref().map(frost::years_named).transpose()?,
        hemisphere: typed.south.then_some(Hemisphere::South),
    };
    let drawn_at = typed.at.as_deref().map(frost::temperature_named).transpose()?;
    Ok(match frost::told(house, &asked)? {
        Told::Worked(found) => {
            let plot =
                typed.plot.as_ref().map(|file| frost::write(&found, drawn_at, units, file)).transpose()?;
            let plot = plot.flatten().map(|picture| picture.file.display().to_string());
            give(&worked(found, plot, units), form)?
        }
        Told::Published(_) if typed.plot.is_some() => {
            return Err(Failure::Typed {
                message: "climate normals do not tell the years that would be drawn".to_owned(),
                help: "leave --plot out, or bring the station's own days".to_owned(),
            });
        }
        Told::Published(found) => give(&published(&found, units), form)?,
    })
}

fn worked(found: house::frost::Frosts, plot: Option<String>, units: Units) -> Frosts {
    Frosts {
        station: found.station,
        taken_for: found
            .scale
            .filter(|(_, told_by)| *told_by == ToldBy::Summers)
            .map(|(scale, _)| word(scale)),
        from: found.days.0.to_string(),
        to: found.days.1.to_string(),
        taken_out: LeftOut::of(&found.taken_out),
        estimator: ESTIMATOR,
        at: found.at.iter().map(at).collect(),
        weather: found.weather.as_ref().map(weather),
        plot,
        units,
    }
}

fn published(told: &Published, units: Units) -> Freezes {
    let found = &told.freezes;
    let weather = told.weather.as_ref().map(weather);
    let days = |days: &[Option<f64>]| {
        let one = |(in_100, day): (f64, &Option<f64>)| ChanceTold { in_100, day: *day, sampled: None };
        TOLD.into_iter().zip(days).map(one).collect()
    };
    let at = found.at.iter().map(|at| PublishedTold {
        fahrenheit: at.fahrenheit,
        years: at.years,
        last: days(&at.last),
        first: days(&at.first),
        season: days(&at.season),
    });
    Freezes { station: found.station.clone(), name: found.name.clone(), at: at.collect(), weather, units }
}

/// What was typed of a file beside it.
pub(super) fn said(typed: Option<ScaleWord>, station: Option<&String>) -> Said {
    Said { scale: typed.map(scale), station: station.cloned() }
}

/// The scale that was typed.
pub(super) fn scale(word: ScaleWord) -> Scale {
    match word {
        ScaleWord::C => Scale::Celsius,
        ScaleWord::F => Scale::Fahrenheit,
        ScaleWord::Tenths => Scale::Tenths,
    }
}

pub(super) fn word(scale: Scale) -> &'static str {
    match scale {
        Scale::Celsius => "degrees Celsius",
        Scale::Fahrenheit => "degrees Fahrenheit",
        Scale::Tenths => "tenths of a degree Celsius",
    }
}

fn at(found: &FrostsAt) -> AtTold {
    let told = |chances: &[Chance]| {
        let one =
            |chance: &Chance| ChanceTold { in_100: chance.in_100, day: chance.day, sampled: chance.sampled };
        chances.iter().map(one).collect()
    };
    let chances = &found.chances;
    AtTold {
        celsius: found.celsius.get(),
        years: chances.years.clone(),
        left_out: chances.left_out.clone(),
        with_spring_frost: chances.with_frost.0,
        with_autumn_frost: chances.with_frost.1,
        last: told(&chances.last),
        first: told(&chances.first),
        season: told(&chances.season),
        each_year: found.years.iter().map(year).collect(),
    }
}

fn year(found: &YearOfFrosts) -> YearTold {
    let on = |frost| match frost {
        house::frost::Frost::On(date) => Some(date.to_string()),
        house::frost::Frost::None | house::frost::Frost::NotKnown { .. } => None,
    };
    YearTold { year: found.year, known: found.is_known(), last: on(found.last), first: on(found.first) }
}

impl Answer for Frosts {
    const SHAPE: &'static str = "frost/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let station = self.station.as_ref().map(|station| format!("{station}, ")).unwrap_or_default();
        match &self.weather {
            Some(weather) => {
                writeln!(to, "{}", weather.frosts_told())?;
                if let Some(height) = weather.height() {
                    writeln!(to, "{height}")?;
                }
            }
            None => writeln!(to, "{station}{} to {}", self.from, self.to)?,
        }
        if let Some(scale) = self.taken_for {
            writeln!(
                to,
                "Taken for {scale}, by how warm its summers are; if that is wrong, read or take the file with --scale."
            )?;
        }
        if self.weather.as_ref().is_none_or(|weather| weather.measured) {
            writeln!(to, "Taken out: {}.", self.taken_out.told())?;
        }
        for at in &self.at {
            at.tell(to, self.units)?;
        }
        writeln!(to)?;
        if self.at.iter().any(|at| at.years.len() < FEWEST_FOR_ONE_IN_TEN) {
            writeln!(to, "So few years cannot show what comes in one year of ten: bring a longer record.")?;
        }
        writeln!(to, "Days by {}.", self.estimator)?;
        match &self.plot {
            Some(file) => writeln!(to, "Written: {file}"),
            None => Ok(()),
        }
    }
}

impl AtTold {
    fn tell(&self, to: &mut dyn Write, units: Units) -> io::Result<()> {
        let left_out: Vec<String> = self.left_out.iter().map(i16::to_string).collect();
        let without =
            if left_out.is_empty() { String::new() } else { format!("; without {}", left_out.join(", ")) };
        let years = counted(self.years.len() as u64, "year", "years");
        writeln!(to, "\n{} or less, {years}{without}", both(self.celsius, units))?;
        table(to, &self.last, &self.first, &self.season)
    }
}

/// The three chances of each side, in line.
fn table(
    to: &mut dyn Write,
    last: &[ChanceTold],
    first: &[ChanceTold],
    season: &[ChanceTold],
) -> io::Result<()> {
    let heading = ["", "1 year in 10", "5 in 10", "9 in 10"].map(str::to_owned).to_vec();
    let row = |name: &str, told: &[ChanceTold], word: fn(f64) -> String| {
        let cell = |chance: &ChanceTold| match (chance.day, chance.sampled) {
            (Some(day), Some((low, high))) => format!("{} ({} to {})", word(day), word(low), word(high)),
            (Some(day), None) => word(day),
            (None, _) => "rarer".to_owned(),
        };
        std::iter::once(name.to_owned()).chain(told.iter().map(cell)).collect::<Vec<_>>()
    };
    columns(
        to,
        &[
            heading,
            row("last frost of spring, or later", last, date),
            row("first of autumn, or earlier", first, date),
            row("days between, or more", season, |days| format!("{days:.0}")),
        ],
    )
}

impl Answer for Freezes {
    const SHAPE: &'static str = "freezes/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(to, "{} ({}), climate normals as published", self.name, self.station)?;
        if let Some(height) = self.weather.as_ref().and_then(WeatherTold::height) {
            writeln!(to, "{height}")?;
        }
        for at in &self.at {
            let years = at.years.map(|years| format!(", {}", counted(u64::from(years), "year", "years")));
            let celsius = (f64::from(at.fahrenheit) - 32.0) / 1.8;
            writeln!(to, "\n{} or less{}", both(celsius, self.units), years.unwrap_or_default())?;
            table(to, &at.last, &at.first, &at.season)?;
        }
        Ok(())
    }
}

/// A temperature on both scales: `32 °F (0 °C)`.
fn both(celsius: f64, units: Units) -> String {
    let told = Celsius::new(celsius).map(|celsius| language::temperature_to_tenths(celsius, units));
    told.unwrap_or_default()
}

/// `23 Apr`.
fn date(counted: f64) -> String {
    let told = |date: Date| date.strftime("%-d %b").to_string();
    frost::day(counted).map(told).unwrap_or_default()
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Frosts>(), shape::<Freezes>()]
}
