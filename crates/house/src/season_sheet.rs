//! The season sheet: a garden's frosts, its calendar and the harvest to expect, on paper.
//!
//! Start at [`print`]. It says what [`crate::frost`], [`crate::calendar`] and [`crate::forecast`] say of one place, and works
//! nothing out by itself.

use crate::calendar::{self, GardenCalendar, doing_named};
use crate::fault::HouseFault;
use crate::folder::{self, House};
use crate::forecast::place::{Climates, Source};
use crate::forecast::told::{day_of, months_of, out, ribbon_of};
use crate::forecast::{self, Expected, Harvest};
use crate::frost::{self, Chance, Frosts, Published, Told};
use crate::print::Paper;
use crate::stakes::slug;
use drawing::ribbon::ribbon;
use drawing::scale::Pixels;
use jiff::civil::Date;
use publish::season_sheet::{self as sheet, Day, FrostRows, SeasonSheet, Week, season_sheet};
use record::language::{self, Units, counted};
use record::mass::Grams;
use record::temperature::Celsius;
use std::path::{Path, PathBuf};

/// What is asked.
#[derive(Clone, Debug)]
pub struct Asked {
    /// The garden's calendar.
    pub calendar: calendar::Asked,
    /// What the garden is called on the sheet.
    pub garden: String,
    /// Varieties by name or alias; the few that rest on the most plots where none are named.
    pub varieties: Vec<String>,
}

/// A season sheet that was printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Printed {
    /// The file.
    pub file: PathBuf,
    /// Its size in bytes.
    pub bytes: u64,
    /// The year of planting.
    pub year: i16,
    /// Varieties whose harvest it tells, the earliest first.
    pub varieties: Vec<String>,
    /// Why it tells no harvest, where it does not.
    pub no_harvest: Option<String>,
}

/// Varieties on a sheet where none are named. A choice of the sheet: two pages.
const FEW: usize = 6;
/// Width of a ribbon, in pixels; the paper fits it to its column.
const RIBBON: u16 = 400;
/// Kilograms of a week below which nothing is told: less than most fruits weigh. A choice of the sheet.
const NOTHING: f64 = 0.02;
/// The coldest of published freezes that is told, in degrees Fahrenheit: what is colder kills no less.
const COLDEST_TOLD: u8 = 28;
/// Part of the seasons with ripe fruit from which a week is told.
const SELDOM: f64 = 0.1;

/// Prints a season sheet to `file`, whole or not at all; to the house's folder of printed sheets where none is named.
///
/// # Errors
/// Those of [`calendar::calendar`] and [`frost::told`]; where varieties are named, those of [`forecast::forecast`]; what the
/// disk refuses.
pub fn print(
    house: &House,
    asked: &Asked,
    paper: Paper,
    today: Date,
    file: Option<&Path>,
) -> Result<Printed, HouseFault> {
    let (sheet, no_harvest) = gather(house, asked, today)?;
    let file = file.map_or_else(|| own_file(house, &sheet), Path::to_owned);
    let pdf = season_sheet(&sheet, paper)?;
    folder::write(&file, &pdf)?;
    let varieties = sheet.harvest.iter().flat_map(|harvest| &harvest.varieties);
    Ok(Printed {
        file,
        bytes: u64::try_from(pdf.len()).unwrap_or(u64::MAX),
        year: sheet.year,
        varieties: varieties.map(|one| one.name.clone()).collect(),
        no_harvest,
    })
}

fn own_file(house: &House, sheet: &SeasonSheet) -> PathBuf {
    house.printed().join(format!("season-{}-{}.pdf", slug(&sheet.garden), sheet.year))
}

/// What the sheet says, and why it tells no harvest where it does not.
fn gather(house: &House, asked: &Asked, today: Date) -> Result<(SeasonSheet, Option<String>), HouseFault> {
    let units = house.settings.units;
    let found = calendar::calendar(house, &asked.calendar, today)?;
    let planted = found.calendar.planted().unwrap_or(today);
    let (frosts, estimated) = frosts(house, asked, units)?;
    let (harvest, no_harvest) = match harvest(house, asked, &found, planted) {
        Ok(harvest) => (Some(told(few(harvest, &asked.varieties), units)), None),
        // A house without plots of that kind still has a calendar.
        Err(fault @ (HouseFault::NoPicks { .. } | HouseFault::Place(_))) if asked.varieties.is_empty() => {
            (None, Some(fault.to_string()))
        }
        Err(fault) => return Err(fault),
    };
    let days = found.calendar.days.iter();
    let sheet = SeasonSheet {
        house: house.settings.name.clone(),
        garden: asked.garden.clone(),
        year: planted.year(),
        printed_on: today,
        weather: weather(&found.weather),
        days: days.map(|(on, doing)| day(*on, doing_named(*doing))).collect(),
        why: calendar::why(&found, house.settings.units),
        frosts,
        estimated,
        harvest,
        house_fonts: Vec::new(),
    };
    Ok((sheet, no_harvest))
}

fn harvest(
    house: &House,
    asked: &Asked,
    found: &GardenCalendar,
    planted: Date,
) -> Result<Harvest, HouseFault> {
    let wanted = forecast::Asked {
        varieties: asked.varieties.clone(),
        place: asked.calendar.place.clone(),
        home: None,
        said: asked.calendar.said.clone(),
        clock: crate::warmth::USUAL,
        out: Some((planted.month(), planted.day())),
        risk: Some(found.risk),
    };
    forecast::forecast(house, &wanted)
}

/// Where none were named, the varieties that rest on the most plots, in the order of the forecast: the earliest first.
fn few(mut harvest: Harvest, named: &[String]) -> Harvest {
    if named.is_empty() {
        let mut best: Vec<(usize, String)> =
            harvest.varieties.iter().map(|one| (one.rests_on.0, one.name.clone())).collect();
        best.sort_by_key(|(plots, _)| std::cmp::Reverse(*plots));
        best.truncate(FEW);
        harvest.varieties.retain(|one| best.iter().any(|(_, name)| *name == one.name));
    }
    harvest
}

fn day(on: Date, what: &str) -> Day {
    Day { on: on.strftime("%a %-d %B").to_string(), what: what.to_owned() }
}

fn weather(of: &Climates) -> String {
    let name = &of.name;
    let days = match of.source {
        Source::Measured { from, to, .. } => format!("By the days of {name}, measured {from} to {to}"),
        Source::Drawn { years, from } => {
            format!("By {years} years drawn for {name} from {}, none of them measured", from.named())
        }
    };
    let days = match of.lies {
        Some(lies) => format!("{days}; it lies {:.0} km from the garden.", lies.kilometres),
        None => format!("{days}."),
    };
    of.frosts.told().map_or_else(|| days.clone(), |frosts| format!("{days} {frosts}"))
}

/// Frosts of every temperature, and how their days were worked out.
fn frosts(house: &House, asked: &Asked, units: Units) -> Result<(Vec<FrostRows>, String), HouseFault> {
    let (place, said) = (asked.calendar.place.clone(), asked.calendar.said.clone());
    let wanted = frost::Asked { place, said, years: None, hemisphere: None };
    let found = match frost::told(Some(house), &wanted)? {
        Told::Worked(found) => found,
        Told::Published(found) => return Ok(published(&found, units)),
    };
    let rows = found.at.iter().map(|at| FrostRows {
        so_cold: format!(
            "{}, {}",
            language::temperature_to_tenths(at.celsius, units),
            counted(at.chances.years.len() as u64, "year", "years")
        ),
        rows: vec![
            ("last of spring, or later".to_owned(), at.chances.last.map(on)),
            ("first of autumn, or earlier".to_owned(), at.chances.first.map(on)),
            ("days between, or more".to_owned(), at.chances.season.map(days)),
        ],
    });
    Ok((rows.collect(), estimated(&found)))
}

/// Published freeze dates, of the temperatures that tomatoes are asked about.
fn published(found: &Published, units: Units) -> (Vec<FrostRows>, String) {
    let told = found.freezes.at.iter().filter(|at| COLDEST_TOLD <= at.fahrenheit);
    let rows = told.map(|at| {
        let celsius =
            Celsius::new(at.celsius()).map(|celsius| language::temperature_to_tenths(celsius, units));
        let chance = |day: &Option<f64>| Chance { in_100: 0.0, day: *day, sampled: None };
        FrostRows {
            so_cold: celsius.unwrap_or_default(),
            rows: vec![
                ("last of spring, or later".to_owned(), at.last.map(|day| on(chance(&day)))),
                ("first of autumn, or earlier".to_owned(), at.first.map(|day| on(chance(&day)))),
                ("days between, or more".to_owned(), at.season.map(|count| days(chance(&count)))),
            ],
        }
    });
    (rows.collect(), "Freeze dates as the climate normals publish them (NOAA).".to_owned())
}

fn on(chance: Chance) -> String {
    let day = chance.day.and_then(frost::day);
    day.map_or_else(|| "rarer".to_owned(), |day| day.strftime("%-d %b").to_string())
}

fn days(chance: Chance) -> String {
    chance.day.map_or_else(|| "rarer".to_owned(), |days| format!("{days:.0}"))
}

/// The estimator, and how far other samples would move the careful day of a freeze.
fn estimated(found: &Frosts) -> String {
    let freeze = found.at.iter().find(|at| at.celsius.get() == 0.0);
    let careful = freeze.and_then(|at| {
        let [careful, ..] = at.chances.last;
        let (low, high) = careful.sampled?;
        let [careful, low, high] = [careful.day?, low, high].map(frost::day);
        let told = |day: Option<Date>| Some(day?.strftime("%-d %b").to_string());
        Some((told(careful)?, told(low)?, told(high)?))
    });
    let by = "Days by quantiles of type 7 (Hyndman and Fan 1996).";
    match careful {
        Some((careful, low, high)) => format!(
            "{by} Other samples of as many years would move them: the last freeze of 1 year in 10, {careful}, to between {low} \
             and {high} in 90 samples of 100."
        ),
        None => by.to_owned(),
    }
}

/// The harvest in words and ribbons.
fn told(found: Harvest, units: Units) -> sheet::Harvest {
    let years = counted(found.years.len() as u64, "year", "years");
    let (stood_in, plots) = found.stood_in;
    let stands_in = match stood_in {
        0 => String::new(),
        _ => format!(
            " Nobody has the weather of {stood_in} of the house's {plots} plots: a middling season stands in for it."
        ),
    };
    let width = Pixels::from(RIBBON);
    sheet::Harvest {
        told: format!(
            "Plants out on {}, put through {years} of {}. Poor: 1 season in 10 brings less. Good: 1 in 10 brings \
             more.{stands_in} An estimate is no promise.",
            out(&found).strftime("%-d %B"),
            found.weather.name
        ),
        months: months_of(&found, width).markup().to_owned(),
        varieties: found.varieties.iter().map(|one| expected(&found, one, width, units)).collect(),
    }
}

fn expected(found: &Harvest, one: &Expected, width: Pixels, units: Units) -> sheet::Expected {
    let strip = ribbon_of(found, one);
    let day = |days: Option<i32>| {
        day_of(found, days).map_or_else(|| "never".to_owned(), |day| day.strftime("%-d %b").to_string())
    };
    let weeks = (0_i32..).zip(one.forecast.weeks.iter().zip(&one.forecast.chance));
    let weeks = weeks.filter(|(_, (_, chance))| SELDOM <= **chance).map(|(week, (brings, _))| Week {
        of: day(Some(7 * week)),
        brings: brings.map(|kilograms| mass(kilograms, units)),
    });
    let [_, first, _] = one.forecast.first;
    let [_, last, _] = one.forecast.last;
    sheet::Expected {
        name: one.name.clone(),
        ribbon: (ribbon(&strip, width).markup().to_owned(), strip.words),
        picks: [day(first), day(last)],
        season: one.forecast.total.map(|kilograms| mass(kilograms, units)),
        weeks: weeks.collect(),
    }
}

fn mass(kilograms: f64, units: Units) -> String {
    let grams = Grams::new(kilograms * 1000.0).filter(|_| NOTHING <= kilograms);
    grams.map_or_else(|| "-".to_owned(), |grams| language::mass_briefly(grams, units))
}
