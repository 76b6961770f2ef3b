//! `locule forecast` through the command line: a small house in known, measured and southern weather.

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

fn forecast(folder: &Path, typed: &[&str]) -> Value {
    let all: Vec<&str> = ["--house", "house", "forecast"].iter().chain(typed).copied().collect();
    answer(folder, &all)
}

/// A station of eight years whose warmest day is 15 July, or half a year later; frosts in winter, and none of them the same.
fn station(folder: &Path, name: &str, warmest: f64, mean: f64) {
    let mut text = String::from("date,tmin_c,tmax_c\n");
    let mut day: Date = date(2018, 1, 1);
    while day.year() < 2026 {
        let turn = (f64::from(day.day_of_year()) - warmest) / 365.25 * std::f64::consts::TAU;
        let own =
            f64::from(i32::from(day.day()) * 7 % 11 - 5) * 0.3 + f64::from(i32::from(day.year()) % 4) * 1.5;
        let middle = mean + 14.0 * turn.cos() + own;
        writeln!(text, "{day},{:.1},{:.1}", middle - 5.0, middle + 6.0).unwrap();
        day = day.tomorrow().unwrap();
    }
    fs::write(folder.join(name), text).unwrap();
}

fn numbers(value: &Value) -> Vec<f64> {
    value.as_array().unwrap().iter().map(|number| number.as_f64().unwrap()).collect()
}

#[test]
fn a_variety_is_forecast_week_by_week_in_known_weather() {
    let folder = tempfile::tempdir().unwrap();
    house(folder.path());
    let told = forecast(folder.path(), &["--weather", "milwaukee", "Amber Post", "--transplant", "05-25"]);
    assert_eq!((told["years"].as_u64(), &told["weather"]["measured"]), (Some(40), &Value::Bool(false)));
    let one = &told["varieties"][0];
    let total = numbers(&one["kilograms"]);
    assert!(0.0 < total[0] && total[0] < total[1] && total[1] < total[2], "{total:?}");
    // Its plots gave 5 kg a plant (100 fruits of 100 g on 2 plants), in seasons whose weather nobody has.
    assert!((2.5..8.0).contains(&total[1]), "{total:?}");
    assert_eq!((told["plots"].as_u64(), told["plots_stood_in"].as_u64()), (Some(4), Some(4)));
    let weeks = one["weeks"].as_array().unwrap();
    let middling: f64 = weeks.iter().map(|week| numbers(&week["kilograms"])[1]).sum();
    assert!(middling < 1.5 * total[1], "weeks add up to about the season: {middling} {total:?}");
    assert!(weeks.iter().all(|week| (0.0..=1.0).contains(&week["chance"].as_f64().unwrap())));
    assert!(told["plantings"].as_array().unwrap().iter().any(|day| day["as_good"] == Value::Bool(true)));
    // All that is unsure together is wider than any of it alone.
    let reach = |range: &Value| numbers(range)[2] - numbers(range)[0];
    for part in one["alone"].as_array().unwrap() {
        assert!(reach(part) < total[2] - total[0], "{part} {total:?}");
    }
    let said =
        locule(folder.path(), &["--house", "house", "forecast", "--weather", "milwaukee", "Amber Post"]);
    let text = String::from_utf8(said.stdout).unwrap();
    assert!(text.contains("years drawn from its climate of 1986 to 2015, none of them measured"), "{text}");
    assert!(text.contains("a middling season stands in for it"), "{text}");
}

/// Plots and garden are counted by the same clock, so another one moves the harvest little and never breaks it.
#[test]
fn a_forecast_is_counted_as_is_asked() {
    let folder = tempfile::tempdir().unwrap();
    house(folder.path());
    let by = ["--weather", "milwaukee", "Amber Post", "--transplant", "05-25"];
    let usual = forecast(folder.path(), &by);
    assert_eq!(usual["clock"]["method"].as_str(), Some("sine"));
    let middling = |told: &Value| numbers(&told["varieties"][0]["kilograms"])[1];
    for method in ["double-triangle", "modified", "beta"] {
        let other = forecast(folder.path(), &[&by[..], &["--method", method]].concat());
        assert_eq!(other["clock"]["method"].as_str(), Some(method));
        let moved = middling(&other) / middling(&usual);
        assert!((0.85..1.18).contains(&moved), "{method}: {moved}");
    }
}

#[test]
fn a_variety_without_picks_is_forecast_as_its_kind() {
    let folder = tempfile::tempdir().unwrap();
    house(folder.path());
    let told = forecast(folder.path(), &["--weather", "USW00014839", "Barn Red"]);
    let one = &told["varieties"][0];
    assert_eq!((one["plots"].as_u64(), one["borrowed"].as_f64()), (Some(0), Some(1.0)));
    let everyone = forecast(folder.path(), &["--weather", "USW00014839"]);
    assert_eq!(everyone["varieties"].as_array().unwrap().len(), 1, "those with picks: {everyone}");
}

#[test]
fn measured_weather_covers_the_plots_and_sets_the_day() {
    let folder = tempfile::tempdir().unwrap();
    house(folder.path());
    station(folder.path(), "north.csv", 196.0, 9.0);
    let told = forecast(folder.path(), &["--weather", "north.csv", "Amber Post"]);
    assert_eq!(told["plots_stood_in"].as_u64(), Some(0), "the file has both seasons' days");
    assert_eq!(told["weather"]["measured"], Value::Bool(true));
    let calendar =
        answer(folder.path(), &["--house", "house", "calendar", "--weather", "north.csv", "--year", "2031"]);
    let days = calendar["days"].as_array().unwrap();
    let out = days.iter().find(|day| day["what"] == "Plant out").unwrap()["on"].as_str().unwrap();
    assert_eq!(told["transplanted"].as_str(), out.get(5..), "plants go out by the garden's calendar");
    let later = forecast(folder.path(), &["--weather", "north.csv", "--frost-risk", "5", "Amber Post"]);
    let day = |told: &Value| told["transplanted"].as_str().unwrap().to_owned();
    assert!(day(&later) <= day(&told), "more risk, none the later out: {} {}", day(&later), day(&told));
}

/// Seasons south of the equator run across new year: out in November, ripe in the next.
#[test]
fn a_southern_season_runs_across_new_year() {
    let folder = tempfile::tempdir().unwrap();
    house(folder.path());
    station(folder.path(), "north.csv", 196.0, 9.0);
    station(folder.path(), "south.csv", 13.0, 9.0);
    let home = ["--home", "north.csv", "Amber Post"];
    let north = forecast(folder.path(), &[&["--weather", "north.csv"], &home[..]].concat());
    let south = forecast(folder.path(), &[&["--weather", "south.csv"], &home[..]].concat());
    assert!(south["transplanted"].as_str().unwrap().starts_with("1"), "{}", south["transplanted"]);
    let middling = |told: &Value| numbers(&told["varieties"][0]["kilograms"])[1];
    let apart = middling(&south) / middling(&north);
    assert!((0.9..1.1).contains(&apart), "the same summer half a year later: {apart}");
    assert!(
        south["left_out"].as_array().unwrap().iter().any(|year| year == 2025),
        "its last summer breaks off"
    );
}

#[test]
fn a_garden_takes_the_nearest_weather_at_its_own_height() {
    let folder = tempfile::tempdir().unwrap();
    house(folder.path());
    let asked = ["--house", "house", "forecast", "--garden", "Home"];
    refused(folder.path(), &asked, "nobody has told whose weather garden \"Home\" has");
    let at = ["--latitude", "43.0", "--longitude=-88.4", "--elevation", "305"];
    answer(folder.path(), &[&["--house", "house", "garden", "Home"], &at[..]].concat());
    let same = ["--home", "milwaukee", "Amber Post", "--transplant", "05-25"];
    let told = forecast(folder.path(), &[&["--garden", "home"], &same[..]].concat());
    assert_eq!(told["weather"]["name"], "Milwaukee WI");
    // Half a degree of longitude at 43 degrees north, and 100 m up at 6.5 degrees a kilometre.
    assert!((told["weather"]["kilometres"].as_f64().unwrap() - 40.7).abs() < 0.1, "{told}");
    assert!((told["weather"]["warmer_by"].as_f64().unwrap() + 0.65).abs() < 1e-9, "{told}");
    let level = forecast(folder.path(), &[&["--weather", "milwaukee"], &same[..]].concat());
    let first = |told: &Value| told["varieties"][0]["first_days"][1].as_i64().unwrap();
    assert!(first(&level) < first(&told), "colder, later");
}

/// Wherever a buyer's garden lies, the house's plots are read by the weather of the garden that they stood in.
#[test]
fn plots_are_read_by_their_own_gardens_weather() {
    let folder = tempfile::tempdir().unwrap();
    house(folder.path());
    station(folder.path(), "north.csv", 196.0, 9.0);
    let asked = ["--weather", "daggett", "Amber Post", "--transplant", "03-20"];
    let named = forecast(folder.path(), &[&asked[..], &["--home", "north.csv"]].concat());
    let untold = forecast(folder.path(), &asked);
    assert_eq!(untold["homes"].as_array().unwrap().len(), 0);
    answer(folder.path(), &["--house", "house", "garden", "Home", "--weather", "north.csv"]);
    let told = forecast(folder.path(), &asked);
    assert_eq!(told["homes"].as_array().unwrap().len(), 1);
    assert_eq!(told["plots_stood_in"].as_u64(), Some(0), "the file has both seasons' days");
    let harvest = |told: &Value| told["varieties"][0]["kilograms"].clone();
    assert_eq!(harvest(&told), harvest(&named));
    assert_ne!(harvest(&told), harvest(&untold), "a desert's spring is no reading of a northern summer");
}

#[test]
fn what_has_no_forecast_says_why() {
    let folder = tempfile::tempdir().unwrap();
    house(folder.path());
    let say = |typed: &[&str], named: &str| {
        refused(folder.path(), &[&["--house", "house", "forecast"], typed].concat(), named);
    };
    say(&["--weather", "Nowhere"], "neither a file nor a station");
    say(&["--garden", "Hill"], "no garden \"Hill\"");
    station(folder.path(), "warm.csv", 196.0, 25.0);
    let polar = "date,tmin_c,tmax_c\n".to_owned()
        + &(1..=28).map(|day| format!("2024-02-{day:02},10,20\n")).collect::<String>();
    fs::write(folder.path().join("polar.csv"), polar).unwrap();
    say(&["--weather", "polar.csv"], "neither frost nor nights nor soil tell when to plant out");
    let may: String = (1..=28).map(|day| format!("2024-05-{day:02},10,20\n")).collect();
    fs::write(folder.path().join("short.csv"), format!("date,tmin_c,tmax_c\n{may}")).unwrap();
    let short = ["--weather", "short.csv", "--transplant", "05-01"];
    say(&short, "of 1 years none is known from planting to frost");
    say(&["--weather", "warm.csv", "--transplant", "99-99"], "no day of a year");
    let frostless =
        forecast(folder.path(), &["--weather", "warm.csv", "--transplant", "02-29", "Amber Post"]);
    assert!(frostless["varieties"][0]["finished"].as_f64().is_some());
}
