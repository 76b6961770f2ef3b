//! One station's lines out of a file of many: the network's files by year hold every station of the world, and an order of days
//! or normals holds those that were ticked.

use super::ghcn;
use super::table::stations::stations;

/// The lines of a file that are one station's.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Lines {
    /// The file does not say whose its lines are.
    All,
    /// These, each on the line that it stood on, below the headings.
    Of(String),
    /// It holds other stations only.
    None,
}

/// Picks the lines of a station by its identifier. The other lines are left blank, so that a fault still names the file's own
/// line.
#[must_use]
pub fn lines_of(text: &str, station: &str) -> Lines {
    if ghcn::is_of_months(text) {
        picked(text, 0, |line| line.get(..station.len()) == Some(station))
    } else if ghcn::is_of_values(text) {
        picked(text, 0, |line| ghcn::is_of(line.as_bytes(), station))
    } else {
        match stations(text) {
            Some(stations) => {
                picked(text, stations.heading, |line| stations.of(line).as_deref() == Some(station))
            }
            None => Lines::All,
        }
    }
}

/// The lines up to a heading's, and those below that are the station's.
fn picked(text: &str, heading: usize, is_own: impl Fn(&str) -> bool) -> Lines {
    let (mut own, mut found) = (String::new(), false);
    for (number, line) in (1..).zip(text.lines()) {
        let is_own = heading < number && is_own(line);
        found |= is_own;
        if is_own || number <= heading {
            own.push_str(line);
        }
        own.push('\n');
    }
    if found { Lines::Of(own) } else { Lines::None }
}
