//! `locule hindsight`: each season of a small house forecast from the other, with measured weather, and held to its picks.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

mod grown;
mod program;

use grown::house;
use jiff::civil::{Date, date};
use program::{answer, locule, refused};
use serde_json::Value;
use std::fmt::Write;
use std::fs;
use std::path::Path;

/// Two summers of one station, alike but for four cooler days in the second: nights of 15 and days of 25, frost in October.
fn station(folder: &Path, last: i16) {
    let mut text = String::from("date,tmin_c,tmax_c\n");
    let mut day: Date = date(2024, 1, 1);
    while day.year() <= last {
        let degrees = match day.month() {
            10 if day.day() == 20 => (-4.0, 6.0),
            10 => (2.0, 12.0),
            5..=9 => (15.0, 25.0),
            _ => (-1.0, 8.0),
        };
        let turn = f64::from(day.day_of_year() % 3) / 10.0;
        writeln!(text, "{day},{:.1},{:.1}", degrees.0 + turn, degrees.1 + turn).unwrap();
        day = day.tomorrow().unwrap();
    }
    fs::write(folder.join("station.csv"), text).unwrap();
}

fn number(told: &Value) -> f64 {
    told.as_f64().unwrap()
}

#[test]
fn each_season_is_forecast_from_the_other() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    house(at);
    station(at, 2025);
    let told = answer(at, &["--house", "house", "hindsight", "--home", "station.csv"]);
    let all = told["crops"].as_array().unwrap().iter().find(|own| own["crop"] == "all").unwrap();
    // Two plots in each of two seasons, 5 kg a plant each, and picked four days later in the second.
    assert_eq!((all["held"]["plots"].as_u64(), all["held"]["firsts"].as_u64()), (Some(4), Some(4)));
    assert_eq!(number(&all["held"]["within"]).to_bits(), 1f64.to_bits(), "the same weight each time: {told}");
    assert!((0.8..1.25).contains(&number(&all["held"]["came_for_one"])), "{told}");
    let seasons = told["seasons"].as_array().unwrap();
    let late: Vec<f64> = seasons.iter().map(|own| number(&own["held"]["days_late"])).collect();
    // What was four days earlier is forecast from what was later, and the other way about.
    assert!(late[0] < late[1] && (6.0..10.0).contains(&(late[1] - late[0])), "{told}");
    assert_eq!((told["not_measured"].as_u64(), told["alone"].as_u64()), (Some(0), Some(0)));
    let said = locule(at, &["--house", "house", "hindsight", "--home", "station.csv"]);
    let text = String::from_utf8(said.stdout).unwrap();
    assert!(
        text.contains("80 of 100 should lie within") && text.contains("Counted in degree-days"),
        "{text}"
    );
    // Told once for the garden, it need not be named.
    answer(at, &["--house", "house", "take", "station.csv"]);
    answer(at, &["--house", "house", "garden", "Home", "--weather", "station"]);
    assert_eq!(answer(at, &["--house", "house", "hindsight"])["crops"], told["crops"]);
}

#[test]
fn what_cannot_be_held_is_counted_or_refused() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    house(at);
    station(at, 2024);
    let told = answer(at, &["--house", "house", "hindsight", "--home", "station.csv"]);
    assert_eq!(told["not_measured"].as_u64(), Some(2), "nobody measured 2025: {told}");
    let cases: [(&[&str], &str); 4] = [
        (&["hindsight"], "nobody measured the weather of any season"),
        (&["hindsight", "--home", "Milwaukee"], "nobody measured the weather of any season"),
        (&["hindsight", "--home", "nowhere"], "neither a file nor a station"),
        (&["hindsight", "--home", "station.csv", "--base", "90"], "no pair of temperatures"),
    ];
    for (typed, words) in cases {
        refused(at, &[&["--house", "house"], typed].concat(), words);
    }
}
