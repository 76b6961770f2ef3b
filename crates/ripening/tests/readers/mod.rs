//! Every reader of weather files, given the same text: it refuses, or what it read can be used.

use jiff::civil::date;
use ripening::climate::normals as means;
use ripening::frost::{self, Hemisphere};
use ripening::weather::recognise::recognise;
use ripening::weather::station::{Lines, lines_of};
use ripening::weather::table::{self, Scale};
use ripening::weather::{Days, ghcn, normals, quality};

/// Years whose chances are sampled too.
const FEW_YEARS: usize = 8;

/// Whatever was read can be checked, filled and asked for its frosts.
fn used(days: Days) {
    let count = days.len();
    let (days, dropped) = quality::checked(days);
    assert!(days.len() == count && days.first() <= days.last());
    assert!(dropped.len() <= 2 * days.len(), "a day is dropped for its night and for its day at most");
    let years = frost::years(&days, 0.0, Hemisphere::North);
    // Sampling the years of a long record takes longer than reading it.
    let sampled = (years.len() <= FEW_YEARS).then(|| frost::chances(&years)).flatten();
    if let Some(chances) = sampled {
        assert!(!chances.years.is_empty() && chances.years.len() + chances.left_out.len() == years.len());
    }
    let _ = quality::impossible(&days);
    let (filled, _) = quality::filled(days);
    assert_eq!(filled.len(), count);
    assert!(filled.place(date(2010, 1, 1)).is_none_or(|place| place < count));
}

/// Gives a text to every reader.
pub(crate) fn read_all(text: &str) {
    let _ = recognise(text);
    for scale in [None, Some(Scale::Celsius), Some(Scale::Tenths)] {
        if let Ok(read) = table::read(text, scale) {
            used(read.days);
        }
    }
    if let Ok((_, days)) = ghcn::read(text) {
        used(days);
    }
    if let Ok((_, days)) = ghcn::read_values(text) {
        used(days);
    }
    if let Ok(read) = normals::read(text) {
        assert!(!read.at.is_empty());
    }
    if let Ok(read) = means::read(text, None) {
        let numbers = read.climate.months.iter().flat_map(|month| [month.highest, month.lowest]);
        assert!(
            numbers
                .clone()
                .all(|one| one.mean.is_finite() && one.deviation.is_finite() && 0.0 < one.deviation)
        );
    }
    if let Lines::Of(own) = lines_of(text, "USC00317202") {
        assert_eq!(own.lines().count(), text.lines().count(), "every line keeps its number");
    }
}
