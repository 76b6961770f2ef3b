//! `locule calendar`: when to sow, pot on, harden off and plant out.

use super::Failure;
use super::forecast::{place, risk, weather};
use super::frost::said;
use super::reference::{Shape, shape};
use super::ripen::month_and_day;
use crate::answer::Answer;
use crate::arguments::calendar::{Calendar, Planting};
use crate::columns::columns;
use house::calendar::{self, Asked, GardenCalendar, doing_named};
use house::folder::House;
use house::forecast::{Place, Risk};
use jiff::ZonedDateTime;
use record::language::Units;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// A garden's calendar.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Days {
    /// The garden's weather.
    weather: super::forecast::WeatherTold,
    /// Frost comes after planting in so many years of 10.
    frost_risk_in_10: u8,
    /// The day after the last frost by that risk.
    frost_safe: Option<String>,
    /// The day by which nights have warmed in half of the years.
    warm_nights: Option<String>,
    /// The day by which the soil has warmed in half of the years, as estimated from the air.
    warm_soil: Option<String>,
    /// The days that planting goes by, in words.
    why: String,
    /// What to do or expect, in order.
    days: Vec<DayTold>,
    /// The file that was written.
    written: Option<String>,
}

/// One day.
#[derive(Debug, Serialize, JsonSchema)]
struct DayTold {
    /// The day.
    on: String,
    /// What it is for.
    what: &'static str,
}

/// What is asked of a garden's calendar.
pub(super) fn asked(place: Place, typed: &Planting) -> Result<Asked, Failure> {
    Ok(Asked {
        place,
        said: said(typed.scale, typed.station.as_ref()),
        risk: typed.frost_risk.map(risk),
        out: typed.transplant.as_deref().map(month_and_day).transpose()?,
        cover: None,
        year: typed.year,
    })
}

pub(crate) fn run(house: &House, typed: &Calendar) -> Result<Days, Failure> {
    let now = ZonedDateTime::now();
    let asked = asked(place(typed.garden.as_ref(), typed.weather.as_ref()), &typed.planting)?;
    let found = calendar::calendar(house, &asked, now.date())?;
    let garden = typed.garden.clone().unwrap_or_else(|| found.weather.name.clone());
    if let Some(file) = &typed.to {
        calendar::write(&found, &garden, file, now.timestamp())?;
    }
    Ok(told(&found, house.settings.units, typed.to.as_ref().map(|file| file.display().to_string())))
}

fn told(found: &GardenCalendar, units: Units, written: Option<String>) -> Days {
    let month_day = |day: Option<(i8, i8)>| day.map(|(month, day)| format!("{month:02}-{day:02}"));
    let days = found.calendar.days.iter();
    Days {
        weather: weather(&found.weather),
        frost_risk_in_10: match found.risk {
            Risk::OneInTen => 1,
            Risk::FiveInTen => 5,
            Risk::NineInTen => 9,
        },
        frost_safe: month_day(found.calendar.frost_safe),
        warm_nights: month_day(found.calendar.warm_nights),
        warm_soil: month_day(found.calendar.warm_soil),
        why: calendar::why(found, units),
        days: days.map(|(on, doing)| DayTold { on: on.to_string(), what: doing_named(*doing) }).collect(),
        written,
    }
}

impl Answer for Days {
    const SHAPE: &'static str = "calendar/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(to, "Calendar by the weather of {}\n", self.weather.name)?;
        columns(
            to,
            &self.days.iter().map(|day| vec![day.on.clone(), day.what.to_owned()]).collect::<Vec<_>>(),
        )?;
        writeln!(to, "\n{}", self.why)?;
        writeln!(to, "{}", self.weather.told())?;
        if let Some(height) = self.weather.height() {
            writeln!(to, "{height}")?;
        }
        writeln!(
            to,
            "These are chances worked out of past years, not promises: watch the forecast of the week."
        )?;
        match &self.written {
            Some(file) => writeln!(to, "Written: {file}"),
            None => Ok(()),
        }
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Days>()]
}
