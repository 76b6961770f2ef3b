//! A garden's calendar: when to sow, pot on, harden off and plant out; on the screen, and as a file for other calendars.
//!
//! Start at [`calendar`], then [`write`], or [`text`] for a page that hands the file out.

use crate::fault::HouseFault;
use crate::folder::{self, House};
use crate::forecast::place::{self, Climates, PlaceFault};
use crate::forecast::{Place, Risk};
use crate::weather::Scale;
use jiff::Timestamp;
use jiff::civil::Date;
use ledger::ledger::Ledger;
use publish::icalendar::{self, DayEvent};
use ripening::calendar;
pub use ripening::calendar::{Calendar, Doing};
use std::path::Path;

/// What is asked.
#[derive(Clone, Debug)]
pub struct Asked {
    /// Whose weather it is.
    pub place: Place,
    /// Scale of a file, where it does not say.
    pub scale: Option<Scale>,
    /// Frost that is risked after planting; the garden's own, or one year in ten, if none.
    pub risk: Option<Risk>,
    /// Month and day on which plants go out, where it is set.
    pub out: Option<(i8, i8)>,
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
    let (weather, risk) = place::of(&mut ledger, &asked.place, asked.scale)?;
    let risk = asked.risk.or(risk).unwrap_or_default();
    let of =
        |year| calendar::calendar(&weather.frost_days, weather.hemisphere, risk.place(), year, asked.out);
    let found = match asked.year {
        Some(year) => of(year),
        None => of(today.year()).and_then(|this| match this.planted() {
            Some(planted) if planted < today => of(today.year().saturating_add(1)),
            _ => Some(this),
        }),
    };
    let none = || PlaceFault::NoFrost(weather.climates.name.clone());
    let calendar = found.ok_or_else(none)?;
    Ok(GardenCalendar { weather: weather.climates, risk, calendar })
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

/// What is done or expected, in words.
#[must_use]
pub fn doing_named(doing: Doing) -> &'static str {
    match doing {
        Doing::Sow => "Sow tomatoes indoors",
        Doing::Emerge => "Seedlings come up",
        Doing::PotOn => "Pot seedlings on",
        Doing::HardenOff => "Begin to harden plants off",
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
