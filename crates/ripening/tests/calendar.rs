//! A garden's calendar, checked by hand on made stations.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

use jiff::civil::{Date, date};
use ripening::calendar::{Doing, calendar};
use ripening::frost::Hemisphere;
use ripening::weather::{Days, Reading};
use std::collections::BTreeMap;

/// Three years, none of them a leap year: nights below freezing to 10 May and from 5 October on, below 10 degrees to 24 May, 14 degrees in summer; moved
/// by half a year for the south.
fn station(hemisphere: Hemisphere) -> Days {
    let mut readings = BTreeMap::new();
    let mut day = date(2021, 1, 1);
    while day.year() < 2024 {
        let moved: Date = match hemisphere {
            Hemisphere::North => day,
            Hemisphere::South => day.checked_add(jiff::Span::new().months(6)).unwrap(),
        };
        let lowest = match (moved.month(), moved.day()) {
            (1..=4, _) | (5, ..=10) | (10, 5..) | (11..=12, _) => -3.0,
            (5, 11..=24) => 6.0,
            _ => 14.0,
        };
        readings.insert(day, Reading { lowest: Some(lowest), highest: Some(lowest + 12.0) });
        day = day.tomorrow().unwrap();
    }
    Days::new(&readings).unwrap()
}

#[test]
fn plants_go_out_when_frost_is_over_and_nights_are_warm() {
    let found = calendar(&station(Hemisphere::North), Hemisphere::North, 0, 2027, None).unwrap();
    assert_eq!(found.frost_safe, Some((5, 11)), "the day after the last frost");
    // Nights of 6 and of 14 degrees: four of the latter in a week make 10.57, on 25 to 28 May.
    assert_eq!(found.warm_nights, Some((5, 29)), "the day after the first week that is warm on average");
    let on = |doing| found.days.iter().find(|(_, own)| *own == doing).map(|(day, _)| *day).unwrap();
    assert_eq!(on(Doing::PlantOut), date(2027, 5, 29));
    assert_eq!(on(Doing::Sow), date(2027, 4, 10), "seven weeks before");
    assert_eq!(on(Doing::PotOn), date(2027, 5, 1));
    assert_eq!(on(Doing::HardenOff), date(2027, 5, 21));
    // At 24 degrees emergence takes 6.4 days between the table's 8 at 20 and 6 at 25.
    assert_eq!(on(Doing::Emerge), date(2027, 4, 17));
    assert_eq!(on(Doing::Frost), date(2027, 10, 5));
    assert!(found.days.is_sorted());
    let chosen = calendar(&station(Hemisphere::North), Hemisphere::North, 0, 2027, Some((2, 29))).unwrap();
    assert!(chosen.days.contains(&(date(2027, 2, 28), Doing::PlantOut)), "no 29 February in that year");
}

#[test]
fn a_southern_spring_comes_in_november() {
    let found = calendar(&station(Hemisphere::South), Hemisphere::South, 0, 2027, None).unwrap();
    let on = |doing| found.days.iter().find(|(_, own)| *own == doing).map(|(day, _)| *day).unwrap();
    assert_eq!((on(Doing::PlantOut).year(), on(Doing::PlantOut).month()), (2027, 11));
    assert_eq!(on(Doing::Frost), date(2028, 4, 5));
}
