//! A garden's calendar, checked by hand on made stations.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

use jiff::ToSpan;
use jiff::civil::{Date, date};
use ripening::calendar::{self, Calendar, Doing, NoCalendar};
use ripening::frost::dates::Dates;
use ripening::frost::{self, Hemisphere};
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

/// The calendar of 2027 by the days' own freezes.
fn calendar(days: &Days, hemisphere: Hemisphere, out: Option<(i8, i8)>) -> Calendar {
    let freezes = frost::chances(&frost::years(days, frost::FREEZE, hemisphere));
    let freezes = freezes.map(|chances| Dates::of(&chances));
    calendar::calendar(days, freezes.as_ref(), hemisphere, 0, 2027, out).unwrap()
}

#[test]
fn plants_go_out_when_frost_is_over_and_nights_are_warm() {
    let found = calendar(&station(Hemisphere::North), Hemisphere::North, None);
    assert_eq!(found.frost_safe, Some((5, 11)), "the day after the last frost");
    // Nights of 6 and of 14 degrees: four of the latter in a week make 10.57, on 25 to 28 May.
    assert_eq!(found.warm_nights, Some((5, 29)), "the day after the first week that is warm on average");
    // Days of 12 degrees on the mean, and of 20 from 25 May: 11, 10 and 9 parts of 66 bring the soil from 12 to 15.64 on 27 May, over
    // 60 F (15.56), and the two days after keep it there.
    assert_eq!(found.warm_soil, Some((5, 30)), "the day after three days of warm soil");
    let on = |doing| found.days.iter().find(|(_, own)| *own == doing).map(|(day, _)| *day).unwrap();
    assert_eq!(on(Doing::PlantOut), date(2027, 5, 30));
    assert_eq!(
        on(Doing::SowOutdoors),
        date(2027, 5, 30),
        "seedlings would come up long after the last frost"
    );
    assert_eq!(on(Doing::Sow), date(2027, 4, 11), "seven weeks before");
    assert_eq!(on(Doing::PotOn), date(2027, 5, 2));
    assert_eq!(on(Doing::HardenOff), date(2027, 5, 22));
    // At 24 degrees emergence takes 6.4 days between the table's 8 at 20 and 6 at 25.
    assert_eq!(on(Doing::Emerge), date(2027, 4, 18));
    assert_eq!(on(Doing::Frost), date(2027, 10, 5));
    assert!(found.days.is_sorted());
    let chosen = calendar(&station(Hemisphere::North), Hemisphere::North, Some((2, 29)));
    assert!(chosen.days.contains(&(date(2027, 2, 28), Doing::PlantOut)), "no 29 February in that year");
}

#[test]
fn a_southern_spring_comes_in_november() {
    let found = calendar(&station(Hemisphere::South), Hemisphere::South, None);
    let on = |doing| found.days.iter().find(|(_, own)| *own == doing).map(|(day, _)| *day).unwrap();
    assert_eq!((on(Doing::PlantOut).year(), on(Doing::PlantOut).month()), (2027, 11));
    assert_eq!(on(Doing::Frost), date(2028, 4, 5));
}

/// Where nights freeze all the year round, no day is one to plant on, whoever names it.
#[test]
fn no_summer_no_calendar() {
    let frozen = Reading { lowest: Some(-6.0), highest: Some(-1.0) };
    let readings =
        date(2021, 1, 1).series(1.day()).take_while(|day| day.year() < 2024).map(|day| (day, frozen));
    let days = Days::new(&readings.collect()).unwrap();
    let freezes = Dates::of(&frost::chances(&frost::years(&days, frost::FREEZE, Hemisphere::North)).unwrap());
    for out in [None, Some((6, 20))] {
        let found = calendar::calendar(&days, Some(&freezes), Hemisphere::North, 0, 2027, out);
        assert_eq!(found, Err(NoCalendar::NoSummer));
    }
}

/// Where the soil warms while frosts still come, seed waits so long that its seedlings come up when they are over: at 60 F it takes
/// 1 / (1/14 + (1/8 - 1/14) / 9) = 12.9 days, 13 before the day after the last frost.
#[test]
fn seedlings_come_up_when_frost_is_over() {
    let warm = station(Hemisphere::North);
    let mut freezes =
        Dates::of(&frost::chances(&frost::years(&warm, frost::FREEZE, Hemisphere::North)).unwrap());
    freezes.last.iter_mut().for_each(|chance| chance.day = Some(f64::from(date(2001, 6, 19).day_of_year())));
    let found = calendar::calendar(&warm, Some(&freezes), Hemisphere::North, 0, 2027, None).unwrap();
    let on = |doing| found.days.iter().find(|(_, own)| *own == doing).map(|(day, _)| *day).unwrap();
    assert_eq!((on(Doing::SowOutdoors), on(Doing::PlantOut)), (date(2027, 6, 7), date(2027, 6, 20)));
}

/// Dates of a temperature between two that are told lie as far between; beyond the outermost nobody tells.
#[test]
fn frosts_of_a_temperature_in_between() {
    let warm = station(Hemisphere::North);
    let at = |celsius: f64, day: f64| {
        let mut dates =
            Dates::of(&frost::chances(&frost::years(&warm, frost::FREEZE, Hemisphere::North)).unwrap());
        dates.last.iter_mut().for_each(|chance| chance.day = Some(day));
        (celsius, dates)
    };
    let told = [at(0.0, 130.0), at(-2.0, 120.0), at(2.0, 141.0)];
    let last = |celsius: f64| frost::dates::between(&told, celsius, 0.0).and_then(|dates| dates.last[0].day);
    let higher = frost::dates::between(&told, 0.0, -1.0).and_then(|dates| dates.last[0].day);
    assert_eq!(higher, Some(135.5), "a garden a degree colder freezes where the station has one degree");
    assert_eq!([last(0.0), last(-0.5), last(1.0)], [Some(130.0), Some(127.5), Some(135.5)]);
    assert_eq!([last(2.5), last(-2.5)], [None, None]);
}
