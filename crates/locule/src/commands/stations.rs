//! `locule weather`: the stations whose days the house keeps.

use super::reference::{Shape, shape};
use super::weather::{StationTold, first_and_last, span, station};
use super::{Failure, act, answer};
use crate::answer::{Answer, Ending, Form};
use crate::arguments::weather::{At, Turn, WeatherAction};
use crate::columns::columns;
use house::folder::House;
use house::gardens;
use house::weather::kept::{self, Counts, Holds, Listed, Station, normals_named};
use house::weather::near::{self, Had, Near, NearStation};
use record::language::{Units, counted};
use record::place::{Elevation, Latitude, Longitude, Place};
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

pub(crate) fn run(house: &House, action: Option<WeatherAction>, form: Form) -> Result<Ending, Failure> {
    match action {
        None => answer(&Records { records: kept::list(house)?.iter().map(told).collect() }, form),
        Some(WeatherAction::Withdraw(turn)) => answer(&withdraw(house, &turn)?, form),
        Some(WeatherAction::Restore(turn)) => answer(&restore(house, &turn)?, form),
        Some(WeatherAction::Place { station: identifier, name, at, by }) => {
            let said = Station { identifier, name, place: place(at)? };
            let placed = kept::place(house, &said, &act(house, by.as_ref(), None))?;
            answer(&Placed { station: station(&placed) }, form)
        }
        Some(WeatherAction::Near { garden, at }) => answer(&nearby(house, garden.as_deref(), at)?, form),
    }
}

/// Reads a place as it was typed.
///
/// # Errors
/// [`Failure::Typed`] for what is on no globe.
pub(super) fn place(typed: At) -> Result<Place, Failure> {
    let unknown = |what: &str, typed: f64, help: &str| Failure::Typed {
        message: format!("{typed} is no {what}"),
        help: help.to_owned(),
    };
    let latitude = |typed| {
        Latitude::new(typed).ok_or_else(|| unknown("latitude", typed, "write degrees from -90 to 90"))
    };
    let longitude = |typed| {
        Longitude::new(typed).ok_or_else(|| unknown("longitude", typed, "write degrees from -180 to 180"))
    };
    let elevation =
        |typed| Elevation::new(typed).ok_or_else(|| unknown("height", typed, "write metres above the sea"));
    Ok(Place {
        latitude: typed.latitude.map(latitude).transpose()?,
        longitude: typed.longitude.map(longitude).transpose()?,
        elevation: typed.elevation.map(elevation).transpose()?,
    })
}

/// Every weather record.
#[derive(Debug, Serialize, JsonSchema)]
struct Records {
    /// By station, the newest of each first.
    records: Vec<RecordTold>,
}

/// One weather record.
#[derive(Debug, Serialize, JsonSchema)]
struct RecordTold {
    /// The station.
    #[serde(flatten)]
    station: StationTold,
    /// What climate normals tell, of a record that holds no days.
    normals: Option<&'static str>,
    /// First day.
    from: Option<String>,
    /// Last day.
    to: Option<String>,
    /// Days from the first to the last.
    days: u64,
    /// Of these, days that lack the lowest or the highest temperature.
    missing: u64,
    /// The file.
    file: String,
    /// When it was taken in, in UTC.
    at: String,
    /// Who brought it.
    who: String,
    /// Whether it counts: yes, replaced or withdrawn.
    counts: &'static str,
}

fn told(record: &Listed) -> RecordTold {
    let (from, to) = first_and_last(&record.holds);
    let (normals, whole) = match record.holds {
        Holds::Days { whole, .. } => (None, whole),
        Holds::Normals(normals) => (Some(normals_named(normals)), 0),
    };
    let days = record.holds.day_count();
    RecordTold {
        station: station(&record.station),
        normals,
        from,
        to,
        days,
        missing: days.saturating_sub(whole),
        file: record.file.clone(),
        at: record.at.strftime("%Y-%m-%d %H:%M").to_string(),
        who: record.who.clone(),
        counts: match record.counts {
            Counts::Yes => "yes",
            Counts::Replaced => "replaced",
            Counts::Withdrawn => "withdrawn",
        },
    }
}

impl Answer for Records {
    const SHAPE: &'static str = "weather/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        if self.records.is_empty() {
            return writeln!(to, "No weather is kept yet. Bring a station's days in: locule take FILE");
        }
        let row = |record: &RecordTold| {
            let counts = if record.counts == "yes" { String::new() } else { record.counts.to_owned() };
            vec![
                record.station.words(),
                record.normals.map_or_else(|| span(&record.from, &record.to), str::to_owned),
                if record.normals.is_some() { String::new() } else { counted(record.days, "day", "days") },
                if record.normals.is_some() { String::new() } else { format!("{} missing", record.missing) },
                record.file.clone(),
                record.at.clone(),
                counts,
            ]
        };
        columns(to, &self.records.iter().map(row).collect::<Vec<_>>())
    }
}

/// A record that was withdrawn or restored.
#[derive(Debug, Serialize, JsonSchema)]
struct Turned {
    /// The station.
    #[serde(flatten)]
    station: StationTold,
    /// Whether the record stands now.
    stands: bool,
    /// The record of the station that counts now.
    counts: Option<CountsNow>,
}

/// The record of a station that counts.
#[derive(Debug, Serialize, JsonSchema)]
struct CountsNow {
    /// Its file.
    file: String,
    /// First day.
    from: Option<String>,
    /// Last day.
    to: Option<String>,
}

fn withdraw(house: &House, typed: &Turn) -> Result<Turned, Failure> {
    let act = act(house, typed.by.as_ref(), typed.why.clone());
    let of = kept::withdraw(house, &typed.station, &act)?;
    Ok(Turned { station: station(&of), stands: false, counts: counts_now(house, &of)? })
}

fn restore(house: &House, typed: &Turn) -> Result<Turned, Failure> {
    let act = act(house, typed.by.as_ref(), typed.why.clone());
    let of = kept::restore(house, &typed.station, &act)?;
    Ok(Turned { station: station(&of), stands: true, counts: counts_now(house, &of)? })
}

fn counts_now(house: &House, of: &Station) -> Result<Option<CountsNow>, Failure> {
    let is_it = |record: &Listed| record.counts == Counts::Yes && record.station.identifier == of.identifier;
    Ok(kept::list(house)?.into_iter().find(is_it).map(|record| {
        let (from, to) = first_and_last(&record.holds);
        CountsNow { file: record.file, from, to }
    }))
}

impl Answer for Turned {
    const SHAPE: &'static str = "weather-withdraw/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let station = self.station.words();
        if self.stands {
            writeln!(to, "The record of {station} that was withdrawn last stands again.")?;
        } else {
            writeln!(
                to,
                "The record of {station} is withdrawn. Bring it back: locule weather restore STATION"
            )?;
        }
        match &self.counts {
            Some(now) => {
                let days = span(&now.from, &now.to);
                let days = if days.is_empty() { days } else { format!(", {days},") };
                writeln!(to, "{}{days} is the one to go by.", now.file)
            }
            None => writeln!(to, "No record of that station counts now."),
        }
    }
}

/// A station that was placed.
#[derive(Debug, Serialize, JsonSchema)]
struct Placed {
    /// The station.
    #[serde(flatten)]
    station: StationTold,
}

impl Answer for Placed {
    const SHAPE: &'static str = "weather-place/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(to, "{}: {}", self.station.words(), self.station.place_words())
    }
}

/// Stations near a place.
#[derive(Debug, Serialize, JsonSchema)]
struct NearTold {
    /// The nearest first.
    near: Vec<OneNear>,
    /// Stations of which nobody said where they lie.
    unplaced: Vec<String>,
    #[serde(skip)]
    units: Units,
}

/// One station near a place.
#[derive(Debug, Serialize, JsonSchema)]
struct OneNear {
    /// The station.
    #[serde(flatten)]
    station: StationTold,
    /// What is had of it: `days` or `normals` that are kept, or a `climate` that is known without a file.
    had: &'static str,
    /// Kilometres to it.
    kilometres: f64,
    /// By how many degrees Celsius the place is warmer by its height alone; negative where colder.
    warmer_by_c: Option<f64>,
}

fn nearby(house: &House, garden: Option<&str>, at: At) -> Result<NearTold, Failure> {
    let here = match garden {
        Some(name) => gardens::one(house, name)?.place,
        None => place(at)?,
    };
    if here.latitude.is_none() || here.longitude.is_none() {
        let whose = garden.map_or_else(|| "the place".to_owned(), |name| format!("garden {name:?}"));
        return Err(Failure::Typed {
            message: format!("where {whose} lies is not known"),
            help: "say --latitude and --longitude, or tell of the garden with locule garden NAME".to_owned(),
        });
    }
    let found = near::near(house, here)?;
    let one = |near: &Near<NearStation>| OneNear {
        station: station(&near.station.station),
        had: match near.station.had {
            Had::Days => "days",
            Had::Normals => "normals",
            Had::Climate => "climate",
        },
        kilometres: near.kilometres,
        warmer_by_c: near.warmer_by,
    };
    Ok(NearTold {
        near: found.near.iter().map(one).collect(),
        unplaced: found.unplaced.iter().map(|station| station.identifier.clone()).collect(),
        units: house.settings.units,
    })
}

impl Answer for NearTold {
    const SHAPE: &'static str = "weather-near/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        if self.near.is_empty() {
            writeln!(to, "No station is known to lie near: none is kept, or none is placed.")?;
        }
        let row = |one: &OneNear| {
            let had = format!("its {}", one.had);
            vec![one.station.words(), had, one.far(self.units), one.warmer(self.units)]
        };
        columns(to, &self.near.iter().map(row).collect::<Vec<_>>())?;
        if self.near.iter().any(|one| one.warmer_by_c.is_some()) {
            writeln!(
                to,
                "By height alone, 6.5 °C (11.7 °F) a kilometre; a hollow or a lake may matter more."
            )?;
        }
        if !self.unplaced.is_empty() {
            let unplaced = self.unplaced.join(", ");
            writeln!(to, "Not placed: {unplaced}. Say where they lie: locule weather place STATION")?;
        }
        Ok(())
    }
}

/// Kilometres in an international mile, exactly. Source: NIST SP 811 (2008), Appendix B.8.
const KM_PER_MILE: f64 = 1.609_344;

impl OneNear {
    /// `23 km (14 mi)`.
    fn far(&self, units: Units) -> String {
        let (us, metric) =
            (format!("{:.0} mi", self.kilometres / KM_PER_MILE), format!("{:.0} km", self.kilometres));
        let (first, other) = units.either((&us, &metric), (&metric, &us));
        format!("{first} ({other})")
    }

    /// `here 1.3 °C (2.3 °F) colder`.
    fn warmer(&self, units: Units) -> String {
        let Some(degrees) = self.warmer_by_c else { return "heights not known".to_owned() };
        let (us, metric) = (format!("{:.1} °F", degrees.abs() * 1.8), format!("{:.1} °C", degrees.abs()));
        let (first, other) = units.either((&us, &metric), (&metric, &us));
        let how = if degrees < 0.0 { "colder" } else { "warmer" };
        format!("here {first} ({other}) {how}")
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Records>(), shape::<Turned>(), shape::<Placed>(), shape::<NearTold>()]
}
