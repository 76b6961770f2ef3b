//! What a table tells of its station: whose its rows are, what it is called and where it lies.

use super::{TableFault, cells, key, sign_of};
use record::place::{Elevation, Latitude, Longitude, Place};

/// Words for columns that tell of the station; elevations are in metres, as the network's exports have them.
const STATION: [&str; 2] = ["station", "stationid"];
const NAME: [&str; 2] = ["name", "stationname"];
const LATITUDE: [&str; 2] = ["latitude", "lat"];
const LONGITUDE: [&str; 3] = ["longitude", "long", "lon"];
const ELEVATION: [&str; 3] = ["elevation", "elevationm", "elev"];
/// Whether a heading stands over stations' identifiers.
#[must_use]
pub fn is_station(heading: &str) -> bool {
    STATION.contains(&key(heading).as_str())
}

/// Whether a heading tells of the station rather than of its days.
#[must_use]
pub fn tells_of_station(heading: &str) -> bool {
    let words = STATION.iter().chain(&NAME).chain(&LATITUDE).chain(&LONGITUDE).chain(&ELEVATION);
    words.into_iter().any(|word| *word == key(heading))
}

/// Where a table says whose its rows are.
pub(crate) struct Stations {
    /// The line of the headings, counted from 1.
    pub(crate) heading: usize,
    sign: char,
    column: usize,
}

/// Where a table says whose its rows are; `None` where no heading does.
pub(crate) fn stations(text: &str) -> Option<Stations> {
    let (heading, line) = (1..).zip(text.lines()).find(|(_, line)| !line.trim().is_empty())?;
    let sign = sign_of(line);
    let column = cells(line, sign).iter().position(|cell| is_station(cell))?;
    Some(Stations { heading, sign, column })
}

impl Stations {
    /// The station of a row, without the name of the network before it.
    pub(crate) fn of(&self, line: &str) -> Option<String> {
        let cell = cells(line, self.sign).into_iter().nth(self.column)?;
        Some(identifier(&cell).to_owned())
    }
}

/// A station's identifier without the network's name, as older exports write it: `GHCND:USC00317202`.
fn identifier(cell: &str) -> &str {
    cell.strip_prefix("GHCND:").unwrap_or(cell)
}

/// What the rows tell of the station.
pub(crate) struct OfStation {
    columns: [Option<usize>; 5],
    pub(crate) station: Option<String>,
    pub(crate) name: Option<String>,
    pub(crate) place: Place,
}

impl OfStation {
    pub(crate) fn new(headings: &[String]) -> Self {
        let at = |words: &[&str]| {
            words.iter().find_map(|word| headings.iter().position(|heading| heading == word))
        };
        let columns = [at(&STATION), at(&NAME), at(&LATITUDE), at(&LONGITUDE), at(&ELEVATION)];
        Self { columns, station: None, name: None, place: Place::default() }
    }

    /// Learns what a row tells and no row before did.
    ///
    /// # Errors
    /// [`TableFault::Stations`] for a row of another station.
    pub(crate) fn learn(&mut self, row: usize, cells: &[String]) -> Result<(), TableFault> {
        let [station, name, latitude, longitude, elevation] =
            self.columns.map(|at| cells.get(at?).map(String::as_str).filter(|cell| !cell.is_empty()));
        match (&self.station, station) {
            (Some(first), Some(other)) if first != identifier(other) => {
                let (station, other) = (first.clone(), identifier(other).to_owned());
                return Err(TableFault::Stations { row, station, other });
            }
            (None, Some(first)) => self.station = Some(identifier(first).to_owned()),
            _ => {}
        }
        if self.name.is_none() {
            self.name = name.map(str::to_owned);
        }
        let number = |cell: Option<&str>| cell.and_then(|cell| cell.parse::<f64>().ok());
        self.place = self.place.or(Place {
            latitude: number(latitude).and_then(Latitude::new),
            longitude: number(longitude).and_then(Longitude::new),
            elevation: number(elevation).and_then(Elevation::new),
        });
        Ok(())
    }
}
