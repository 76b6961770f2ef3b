//! What a row cover does to the nights of young plants, by hand.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

use jiff::civil::{Date, date};
use ripening::row_cover::RowCover;
use ripening::weather::{Days, Reading};
use std::collections::BTreeMap;

/// Two years with nights of 5 degrees and days of 15, but for one close day of 5.5 at its warmest, on 3 May 2022.
fn station() -> Days {
    let mut readings = BTreeMap::new();
    let mut day = date(2021, 1, 1);
    while day.year() < 2023 {
        let highest = if day == date(2022, 5, 3) { 5.5 } else { 15.0 };
        readings.insert(day, Reading { lowest: Some(5.0), highest: Some(highest) });
        day = day.tomorrow().unwrap();
    }
    Days::new(&readings).unwrap()
}

#[track_caller]
fn agrees(days: &Days, on: Date, lowest: f64) {
    let found = days.reading(on).lowest.unwrap();
    assert!((found - lowest).abs() < 1e-9, "{on}: {found}, not {lowest}");
}

/// Two degrees Fahrenheit are 1.11 degrees Celsius, and four are 2.22. Source: NIST SP 811 (2008), Appendix B.8.
#[test]
fn nights_of_the_first_five_weeks_are_warmer() {
    for (cover, night) in [(RowCover::Light, 5.0 + 2.0 / 1.8), (RowCover::Heavy, 5.0 + 4.0 / 1.8)] {
        let days = cover.over(&station(), (5, 1));
        for year in [2021, 2022] {
            agrees(&days, date(year, 4, 30), 5.0);
            agrees(&days, date(year, 5, 1), night);
            agrees(&days, date(year, 6, 4), night);
            agrees(&days, date(year, 6, 5), 5.0);
        }
        agrees(&days, date(2022, 5, 3), 5.5);
        assert_eq!(days.highest(), station().highest(), "days stay as they are");
    }
}

#[test]
fn a_cover_lies_across_new_year() {
    let days = RowCover::Light.over(&station(), (12, 20));
    agrees(&days, date(2022, 1, 23), 5.0 + 2.0 / 1.8);
    agrees(&days, date(2022, 1, 24), 5.0);
    // Those of December 2020 went out before anything was read.
    agrees(&days, date(2021, 1, 23), 5.0 + 2.0 / 1.8);
}
