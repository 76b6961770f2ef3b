//! A garden's calendar: when to sow, pot on, harden off and plant out; on the screen, and as a file for other calendars.
//!
//! Start at [`calendar`], then [`write`], or [`text`] for a page that hands the file out.

use crate::fault::HouseFault;
use crate::folder::{self, House};
use crate::forecast::place::{self, Climates, PlaceFault, Weather};
use crate::forecast::{Place, Risk};
use crate::weather::Said;
use jiff::Timestamp;
use jiff::civil::Date;
use ledger::ledger::Ledger;
use publish::icalendar::{self, DayEvent};
use record::language::Units;
use ripening::calendar::{self, NoCalendar};
pub use ripening::calendar::{Calendar, Doing};
use ripening::row_cover::RowCover;
use std::path::Path;

/// What is asked.
#[derive(Clone, Debug)]
pub struct Asked {
    /// Whose weather it is.
    pub place: Place,
    /// What is said of a file beside it.
    pub said: Said,
    /// Frost that is risked after planting; the garden's own, or one year in ten, if none.
    pub risk: Option<Risk>,
    /// Month and day on which plants go out, where it is set.
    pub out: Option<(i8, i8)>,
    /// What plants are covered with when they go out.
    pub cover: Option<RowCover>,
    /// The year of planting; the next whose planting day is still to come where none is named.
    pub year: Option<i16>,
}

/// A garden's calendar, and what it goes by.
#[derive(Clone, Debug)]
pub struct GardenCalendar {
    /// The garden's weather.
    pub weather: Climates,
    /// Frost that is risked.
    pub risk: Risk,
    /// Its days.
    pub calendar: Calendar,
}

/// Works a garden's calendar out, seen from a day.
///
/// # Errors
/// A place's fault, among them that neither frost nor nights tell when to plant out; a weather file's; what the ledger
/// refuses.
pub fn calendar(house: &House, asked: &Asked, today: Date) -> Result<GardenCalendar, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let (weather, risk) = place::of(&mut ledger, &asked.place, &asked.said)?;
    let risk = asked.risk.or(risk).unwrap_or_default();
    let spring = weather.spring(asked.cover);
    let of = |year| {
        let freezes = spring.freezes.as_ref();
        calendar::calendar(&spring.days, freezes, weather.hemisphere, risk.place(), year, asked.out)
    };
    let found = match asked.year {
        Some(year) => of(year),
        None => of(today.year()).and_then(|this| match this.planted() {
            Some(planted) if planted < today => of(today.year().saturating_add(1)),
            _ => Ok(this),
        }),
    };
    let calendar = found.map_err(|why| none(why, &weather))?;
    Ok(GardenCalendar { weather: weather.climates, risk, calendar })
}

/// The year that days are told in which hold for any: a common one.
const ANY_YEAR: i16 = 2001;

/// The day on which plants go out by the calendar: when frost is as rare as is risked, and nights and soil have warmed,
/// all as it is under what covers them.
///
/// # Errors
/// Nothing tells the day, or the place has no summer.
pub(crate) fn planted(
    weather: &Weather,
    risk: Risk,
    cover: Option<RowCover>,
) -> Result<(i8, i8), PlaceFault> {
    let spring = weather.spring(cover);
    let (freezes, hemisphere) = (spring.freezes.as_ref(), weather.hemisphere);
    let found = calendar::calendar(&spring.days, freezes, hemisphere, risk.place(), ANY_YEAR, None);
    let found = found.map_err(|why| none(why, weather))?;
    // Where frost is not known or never comes, warmth alone names no day to plant by: whoever asks must say one.
    let out = found.frost_safe.and_then(|_| found.planted());
    out.map(|out| (out.month(), out.day())).ok_or_else(|| none(NoCalendar::Untold, weather))
}

fn none(why: NoCalendar, weather: &Weather) -> PlaceFault {
    let name = weather.climates.name.clone();
    match why {
        NoCalendar::Untold => PlaceFault::NoFrost(name),
        NoCalendar::NoSummer => PlaceFault::NoSummer(name),
    }
}

/// How a risk is said: `1 year of 10`.
#[must_use]
pub fn risk_named(risk: Risk) -> &'static str {
    match risk {
        Risk::OneInTen => "1 year of 10",
        Risk::FiveInTen => "5 years of 10",
        Risk::NineInTen => "9 years of 10",
    }
}

/// The days that planting goes by, in words.
#[must_use]
pub fn why(found: &GardenCalendar, units: Units) -> String {
    let day = |day: Option<(i8, i8)>| {
        let day = day.and_then(|(month, day)| Date::new(2000, month, day).ok());
        day.map(|day| day.strftime("%-d %B").to_string())
    };
    let risk = risk_named(found.risk);
    let (night, ground) =
        units.either(("50 °F (10 °C)", "60 °F (16 °C)"), ("10 °C (50 °F)", "16 °C (60 °F)"));
    let frost = match day(found.calendar.frost_safe) {
        Some(safe) => format!("From {safe} on frost comes in {risk} at most."),
        None => format!("Frost is rarer here than in {risk}."),
    };
    let nights = match day(found.calendar.warm_nights) {
        Some(warm) => format!("By {warm} the nights of a week are above {night} in half of the years."),
        None => format!("In most years no week has nights above {night}."),
    };
    let soil = match day(found.calendar.warm_soil) {
        Some(warm) => format!(
            "By {warm} the soil has had {ground} for three days in half of the years, as estimated from the air of eleven \
             days; a thermometer in the bed knows better."
        ),
        None => {
            format!("In most years the soil does not reach {ground} in spring, as estimated from the air.")
        }
    };
    format!("{frost} {nights} {soil}")
}

/// What is done or expected, in words.
#[must_use]
pub fn doing_named(doing: Doing) -> &'static str {
    match doing {
        Doing::Sow => "Sow tomatoes indoors",
        Doing::Emerge => "Seedlings come up",
        Doing::PotOn => "Pot seedlings on",
        Doing::HardenOff => "Begin to harden plants off",
        Doing::SowOutdoors => "The soil is warm enough to sow outdoors",
        Doing::PlantOut => "Plant out",
        Doing::EarlyFrost => "Frost has come by now in 1 year of 10",
        Doing::Frost => "Frost has come by now in 5 years of 10",
    }
}

/// Writes the days as an iCalendar file.
///
/// # Errors
/// [`HouseFault::File`] where it cannot be written; nothing is left half-written.
pub fn write(found: &GardenCalendar, garden: &str, file: &Path, now: Timestamp) -> Result<(), HouseFault> {
    folder::write(file, text(found, garden, now))
}

/// The days as the text of an iCalendar file.
#[must_use]
pub fn text(found: &GardenCalendar, garden: &str, now: Timestamp) -> String {
    let events: Vec<DayEvent> =
        found.calendar.days.iter().map(|(on, doing)| event(garden, *on, *doing)).collect();
    icalendar::icalendar(&events, now)
}

pub(crate) fn event(garden: &str, on: Date, doing: Doing) -> DayEvent {
    DayEvent {
        identifier: format!("{garden}-{}-{doing:?}@locule", on.year()),
        on,
        summary: format!("{garden}: {}", doing_named(doing)),
        description: "A chance worked out of past years, not a promise: watch the forecast of the week."
            .to_owned(),
    }
}
