//! Weather that is taken in, as `locule take` tells it.

use super::frost::word;
use house::take::{WeatherOutcome, WeatherTaken};
use house::weather::kept::Station;
use house::weather::kept::{Held, Holds, normals_named};
use house::weather::{TakenOut, ToldBy};
use record::language::counted;
use record::place::{Elevation, Latitude, Longitude};
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// A weather station.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub(super) struct StationTold {
    /// Its identifier.
    station: String,
    /// What it is called.
    name: Option<String>,
    /// Degrees north.
    latitude: Option<f64>,
    /// Degrees east.
    longitude: Option<f64>,
    /// Metres above the sea.
    elevation_m: Option<f64>,
}

pub(super) fn station(station: &Station) -> StationTold {
    let place = &station.place;
    StationTold {
        station: station.identifier.clone(),
        name: station.name.clone(),
        latitude: place.latitude.map(Latitude::get),
        longitude: place.longitude.map(Longitude::get),
        elevation_m: place.elevation.map(Elevation::get),
    }
}

impl StationTold {
    /// `XX000000001 (Upper Mill)`.
    pub(super) fn words(&self) -> String {
        match &self.name {
            Some(name) if *name != self.station => format!("{} ({name})", self.station),
            _ => self.station.clone(),
        }
    }

    /// `latitude 44.5, longitude -93.25, 251 m up`.
    pub(super) fn place_words(&self) -> String {
        let known = [
            self.latitude.map(|degrees| format!("latitude {degrees}")),
            self.longitude.map(|degrees| format!("longitude {degrees}")),
            self.elevation_m.map(|metres| format!("{metres:.0} m up")),
        ];
        known.into_iter().flatten().collect::<Vec<_>>().join(", ")
    }
}

/// What the checks leave out of a record.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct LeftOut {
    /// Days whose night was warmer.
    nights_above_days: usize,
    /// Nights far colder than those beside them.
    spikes: usize,
    /// Days far warmer than those beside them.
    hot_days: usize,
    /// Days of five or more in a row with the same two temperatures: the thermometer stood still.
    still_days: usize,
}

impl LeftOut {
    pub(super) fn of(taken_out: &TakenOut) -> Self {
        let TakenOut { nights_above_days, cold_nights, hot_days, still_days } = *taken_out;
        Self { nights_above_days, spikes: cold_nights, hot_days, still_days }
    }

    /// In words; what there is none of is told too, but for what seldom is.
    pub(super) fn told(&self) -> String {
        let days = |count: usize| counted(count as u64, "day", "days");
        let nights = counted(self.spikes as u64, "night", "nights");
        let warmer = days(self.nights_above_days);
        let mut told =
            format!("{warmer} with a night warmer than the day, {nights} far colder than those beside");
        if 0 < self.hot_days {
            told += &format!(", {} far warmer than those beside", days(self.hot_days));
        }
        if 0 < self.still_days {
            told += &format!(", {} on which the thermometer stood still", days(self.still_days));
        }
        told
    }
}

/// What became of a weather file.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct WeatherIn {
    /// The file.
    file: String,
    /// The station.
    #[serde(flatten)]
    station: StationTold,
    /// What a table's numbers were taken for.
    taken_for: Option<&'static str>,
    /// By what that was told.
    told_by: Option<&'static str>,
    /// What climate normals tell, where the file is of them and holds no days.
    normals: Option<&'static str>,
    /// First day.
    from: Option<String>,
    /// Last day.
    to: Option<String>,
    /// Days from the first to the last.
    days: u64,
    /// Of these, days that lack the lowest or the highest temperature.
    missing: u64,
    /// What is kept, and left out when the record is used.
    #[serde(flatten)]
    left_out: LeftOut,
    /// Whether this very file had been taken before, so that nothing was added.
    taken_before: bool,
    /// The record of that station that counted before.
    replaces: Option<ReplacedTold>,
}

impl WeatherIn {
    /// The file and its days, in a line.
    pub(super) fn briefly(&self) -> String {
        let days = counted(self.days, "day", "days");
        match self.normals {
            Some(normals) => format!("{}: {normals}", self.file),
            None => format!("{}: {days} of weather, {}", self.file, span(&self.from, &self.to)),
        }
    }
}

/// A record that counted before.
#[derive(Debug, Serialize, JsonSchema)]
struct ReplacedTold {
    /// Its file.
    file: String,
    /// First day.
    from: Option<String>,
    /// Last day.
    to: Option<String>,
}

pub(super) fn weather_in(taken: &WeatherTaken) -> WeatherIn {
    let held = &taken.held;
    let replaces = match &taken.outcome {
        WeatherOutcome::Kept(replaced) => replaced.as_ref(),
        WeatherOutcome::TakenBefore => None,
    };
    let (days, normals) = match &held.holds {
        Held::Days(days) => (Some(days), None),
        Held::Normals(normals) => (None, Some(normals_named(*normals))),
    };
    let scale = days.and_then(|days| days.scale);
    WeatherIn {
        file: taken.file.clone(),
        station: station(&held.station),
        taken_for: scale.map(|(scale, _)| word(scale)),
        told_by: scale.map(|(_, told_by)| by(told_by)),
        normals,
        from: days.map(|days| days.days.0.to_string()),
        to: days.map(|days| days.days.1.to_string()),
        days: days.map_or(0, |days| days.day_count as u64),
        missing: days.map_or(0, |days| days.missing as u64),
        left_out: LeftOut::of(&days.map(|days| days.taken_out).unwrap_or_default()),
        taken_before: matches!(taken.outcome, WeatherOutcome::TakenBefore),
        replaces: replaces.map(|before| {
            let (from, to) = first_and_last(&before.holds);
            ReplacedTold { file: before.file.clone(), from, to }
        }),
    }
}

/// First and last day, of a record of days.
pub(super) fn first_and_last(holds: &Holds) -> (Option<String>, Option<String>) {
    match holds {
        Holds::Days { first, last, .. } => (Some(first.to_string()), Some(last.to_string())),
        Holds::Normals(_) => (None, None),
    }
}

fn by(told_by: ToldBy) -> &'static str {
    match told_by {
        ToldBy::Bringer => "--scale",
        ToldBy::Headings => "its headings",
        ToldBy::Summers => "how warm its summers are",
    }
}

/// Tells what became of weather files.
///
/// # Errors
/// What the terminal or pipe refuses.
pub(super) fn tell_weather(to: &mut dyn Write, taken: &[WeatherIn]) -> io::Result<()> {
    taken.iter().try_for_each(|one| one.tell(to))
}

/// `2010-01-01 to 2012-12-31`; nothing of what holds no days.
pub(super) fn span(from: &Option<String>, to: &Option<String>) -> String {
    from.as_ref().zip(to.as_ref()).map(|(from, to)| format!("{from} to {to}")).unwrap_or_default()
}

impl WeatherIn {
    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let (days, station) = (counted(self.days, "day", "days"), self.station.words());
        if self.taken_before {
            return writeln!(
                to,
                "{}: this very file was taken before, as weather of {station}; nothing added",
                self.file
            );
        }
        if let Some(normals) = self.normals {
            writeln!(to, "{}: {normals} of {station}", self.file)?;
        } else {
            writeln!(to, "{}: weather of {station}, {}, {days}", self.file, span(&self.from, &self.to))?;
            let lacking = counted(self.missing, "day lacks", "days lack");
            writeln!(to, "  {lacking} the lowest or the highest temperature.")?;
            writeln!(to, "  Left out when it is used: {}.", self.left_out.told())?;
        }
        if let Some((scale, by)) = self.taken_for.zip(self.told_by) {
            writeln!(to, "  Taken for {scale}, by {by}.")?;
        }
        match &self.replaces {
            Some(before) => {
                let days = span(&before.from, &before.to);
                let days = if days.is_empty() { days } else { format!(", {days}") };
                writeln!(to, "  It counts in the place of {}{days}.", before.file)
            }
            None => Ok(()),
        }
    }
}
