//! `locule ripen` through the command line: a small house, by days and by a made station's warmth.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

mod grown;
mod program;

use grown::house;
use jiff::civil::date;
use program::{answer, locule, refused};
use serde_json::Value;
use std::fmt::Write;
use std::fs;
use std::path::Path;

/// A station of two warm years, each day worth ten degree-days by every method, one of half the warmth, and a cold one.
fn station(folder: &Path) {
    let mut text = String::from("date,tmin_c,tmax_c\n");
    let mut day = date(2024, 1, 1);
    while day.year() < 2028 {
        let degrees = match day.year() {
            2024 | 2025 => "15,25",
            2026 => "10,20",
            _ => "1,9",
        };
        // A thousandth every third day, so that the thermometer does not stand still.
        let turn = if day.day_of_year() % 3 == 0 { ".001" } else { "" };
        writeln!(text, "{day},{degrees}{turn}").unwrap();
        day = day.tomorrow().unwrap();
    }
    fs::write(folder.join("station.csv"), text).unwrap();
}

#[test]
fn a_variety_is_told_in_days() {
    let folder = tempfile::tempdir().unwrap();
    house(folder.path());
    let said = locule(folder.path(), &["--house", "house", "ripen", "Amber Post"]);
    let text = String::from_utf8(said.stdout).unwrap();
    assert!(text.starts_with("Amber Post: 4 plots, in days from transplanting"), "{text}");
    let told = answer(folder.path(), &["--house", "house", "ripen", "Amber Post"]);
    // 2, 11, 35 and 66 of 100 by the days 70, 75, 80 and 85: a tenth by the second pick, half by the fourth.
    let first = &told["plots"][0];
    assert_eq!(first["taken"], serde_json::json!([75, 85, 95]));
    assert_eq!(first["grams_a_plant"].as_f64(), Some(5000.0));
    // Half lay between the picks of day 80 and 85 in 2024, four days later in 2025, a day later in every second plot.
    let half = told["ripe"][1]["time"].as_f64().unwrap();
    assert!((82.5..=87.5).contains(&half), "{half}");
    let range = |which: &str| {
        let ends = &told["ripe"][1][which];
        ends[1].as_f64().unwrap() - ends[0].as_f64().unwrap()
    };
    assert!(range("another_plot") < range("another_season"), "seasons moved it more than plots: {told}");
}

#[test]
fn a_stations_years_are_asked() {
    let folder = tempfile::tempdir().unwrap();
    house(folder.path());
    station(folder.path());
    let by_weather = ["--house", "house", "ripen", "Amber Post", "--weather", "station.csv"];
    let told = answer(folder.path(), &by_weather);
    assert_eq!(told["counted_in"].as_str(), Some("degree-days (°C) over 10 to 30 by single sine"));
    let half = told["ripe"][1]["time"].as_f64().unwrap();
    // Ten degree-days a day, that of transplanting included: between 81 and 91 days.
    assert!((810.0..=920.0).contains(&half), "{half}");
    let place = &told["places"][0];
    assert_eq!(
        (place["weather"]["name"].as_str(), place["weather"]["measured"].as_bool()),
        (Some("station.csv"), Some(true))
    );
    let years = &place["ripe"][1];
    // Of four years one never gets there; by day of each other: the first with so many degree-days, the first counting one.
    let day = |warmth: f64| (half / warmth).ceil() - 1.0;
    assert_eq!(years["too_cold"].as_u64(), Some(1));
    assert_eq!(years["days"][0].as_f64(), Some(day(10.0)));
    assert_eq!(years["days"][1].as_f64(), Some(day(10.0)), "two years of four");
    assert_eq!(years["days"][2], Value::Null, "more than one year in ten is too cold");
    let from_june = [&by_weather[..], &["--transplant", "06-01"]].concat();
    assert_eq!(answer(folder.path(), &from_june)["places"][0]["transplanted"].as_str(), Some("06-01"));
}

/// Every method counts the same ten degree-days a day in this station's warm years, and says by what.
#[test]
fn every_method_is_named_with_its_numbers() {
    let folder = tempfile::tempdir().unwrap();
    house(folder.path());
    station(folder.path());
    let told = |typed: &[&str]| {
        let by = ["--house", "house", "ripen", "Amber Post", "--weather", "station.csv"];
        answer(folder.path(), &[&by[..], typed].concat())
    };
    let half = |told: &Value| told["ripe"][1]["time"].as_f64().unwrap();
    let usual = told(&[]);
    let clock = |told: &Value| told["clock"].clone();
    assert_eq!(
        clock(&usual),
        serde_json::json!({"method": "sine", "cut_off": "horizontal", "base_c": 10.0, "ceiling_c": 30.0, "best_c": null})
    );
    for method in ["average", "capped", "modified", "double-sine", "triangle", "double-triangle"] {
        let other = told(&["--method", method]);
        assert_eq!(other["clock"]["method"].as_str(), Some(method));
        assert!((half(&other) - half(&usual)).abs() < 0.01, "{method}: {} {}", half(&other), half(&usual));
    }
    // Nights of 15 and days of 25 over a ceiling of 20: a triangle is above it half of the day, by 2.5 on average half of that.
    // Horizontally a day gives 10 - 1.25, intermediately 10 - 2.5, vertically 10 - 1.25 - 10 / 2.
    for (cut_off, each) in [("horizontal", 8.75), ("intermediate", 7.5), ("vertical", 3.75)] {
        let cut = told(&["--method", "triangle", "--ceiling", "20", "--cut-off", cut_off]);
        assert_eq!(cut["clock"]["cut_off"].as_str(), Some(cut_off));
        assert!((half(&cut) / half(&usual) - each / 10.0).abs() < 1e-4, "{cut_off}: {}", half(&cut));
    }
    // Beta at 20 over a base of 10, best 28, ends 45: 0.7892 of the best, 18 degree-days.
    let beta = told(&["--method", "beta"]);
    assert_eq!(
        beta["counted_in"].as_str(),
        Some("degree-days (°C) over 10 to 45 by beta response, fastest at 28")
    );
    assert!((half(&beta) / half(&usual) - 18.0 * 0.7892 / 10.0).abs() < 1e-3, "{}", half(&beta));
}

#[test]
fn the_curve_and_every_plots_picks_are_drawn() {
    let folder = tempfile::tempdir().unwrap();
    house(folder.path());
    let asked = ["--house", "house", "ripen", "Amber Post", "--plot", "curve.svg"];
    let told = answer(folder.path(), &asked);
    assert_eq!(told["plot"].as_str(), Some("curve.svg"));
    let drawn = fs::read_to_string(folder.path().join("curve.svg")).unwrap();
    assert_eq!(drawn.matches("class=\"picks\"").count(), 4, "four plots: {drawn}");
    assert_eq!((drawn.matches("class=\"fitted\"").count(), drawn.matches("<circle").count()), (1, 3));
    let half = told["ripe"][1]["time"].as_f64().unwrap();
    assert!(drawn.contains(&format!("half {half:.0}")), "{drawn}");
    refused(folder.path(), &[&asked[..5], &["curve.doc"]].concat(), "\"doc\" is no picture file");
}

/// The days to maturity in the house's own garden, told once, and in another's weather; each plot's season behind them.
#[test]
fn days_to_maturity_are_told_for_any_garden() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    house(at);
    station(at);
    assert_eq!(answer(at, &["--house", "house", "ripen", "Amber Post"])["places"], serde_json::json!([]));
    answer(at, &["--house", "house", "take", "station.csv"]);
    answer(at, &["--house", "house", "garden", "Home", "--weather", "station"]);
    let told = answer(at, &["--house", "house", "ripen", "Amber Post"]);
    assert_eq!((told["counted_in"].as_str(), told["places"].as_array().unwrap().len()), (Some("days"), 1));
    // 15 and 25 degrees: ten degree-days a day, that of transplanting included; the first pick is on day 70 at the soonest.
    let first = &told["plots"][0];
    let (day, warmth) = (first["first"].as_f64().unwrap(), &first["warmth"]);
    assert_eq!((warmth["measured"].as_bool(), warmth["weather"].as_str()), (Some(true), Some("station")));
    assert!((warmth["degree_days"][0].as_f64().unwrap() - 10.0 * (day + 1.0)).abs() < 0.1, "{first}");
    assert!((warmth["mean_c"][0].as_f64().unwrap() - 15.0).abs() < 0.01, "{first}");
    let elsewhere =
        ["--house", "house", "ripen", "Amber Post", "--weather", "Milwaukee", "--transplant", "05-20"];
    let told = answer(at, &elsewhere);
    let places: Vec<(&str, bool)> = told["places"]
        .as_array()
        .unwrap()
        .iter()
        .map(|place| {
            (place["weather"]["name"].as_str().unwrap(), place["weather"]["measured"].as_bool().unwrap())
        })
        .collect();
    assert_eq!(places, [("station", true), ("Milwaukee WI", false)]);
    let day = |place: usize, share: usize| told["places"][place]["ripe"][share]["days"][1].as_f64().unwrap();
    // By the middling year a tenth comes before half, at home between the first picks.
    assert!((70.0..80.0).contains(&day(0, 0)) && day(1, 0) < day(1, 1), "{told}");
    let text = String::from_utf8(locule(at, &elsewhere).stdout).unwrap();
    assert!(text.contains("Days to maturity from transplanting, in the weather of Milwaukee WI"), "{text}");
    assert!(
        text.contains("years drawn from its climate") && text.contains("The warmth behind them"),
        "{text}"
    );
}

/// Weather that has not the plots' own seasons: a middling one of its years stands in, and it is said.
#[test]
fn a_middling_season_stands_in_for_one_that_nobody_measured() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    house(at);
    let told = answer(at, &["--house", "house", "ripen", "Amber Post", "--weather", "Milwaukee"]);
    assert!(
        told["plots"].as_array().unwrap().iter().all(|plot| plot["warmth"]["measured"] == false),
        "{told}"
    );
    let text = String::from_utf8(
        locule(at, &["--house", "house", "ripen", "Amber Post", "--weather", "Milwaukee"]).stdout,
    );
    assert!(text.unwrap().contains("Milwaukee WI, a middling season"));
}

#[test]
fn what_tells_nothing_says_why() {
    let folder = tempfile::tempdir().unwrap();
    house(folder.path());
    station(folder.path());
    let short = "date,tmin_c,tmax_c\n2024-05-01,10,20\n2024-05-02,10,20\n";
    fs::write(folder.path().join("short.csv"), short).unwrap();
    let by = ["Amber Post", "--weather", "station.csv"];
    let cases: [(&[&str], &str); 12] = [
        (&["Barn Red"], "no plot of Barn Red has a day of transplanting and picks on 4 days or more"),
        (&["Nobody"], "Nobody"),
        (&["Amber Post", "--weather", "short.csv"], "it has not every day from 2024-05-01 to"),
        (
            &["Amber Post", "--weather", "station.csv", "--transplant", "31-31"],
            "\"31-31\" is no day of a year",
        ),
        (
            &["Amber Post", "--weather", "station.csv", "--base", "30", "--ceiling", "10"],
            "base 30 and ceiling 10",
        ),
        (&["Amber Post", "--method", "beta"], "without somebody's weather nothing is counted in warmth"),
        (&["Amber Post", "--transplant", "05-20"], "without somebody's weather"),
        (&["Amber Post", "--garden", "Home"], "nobody has told whose weather garden \"Home\" has"),
        (&[&by[..], &["--method", "modified", "--cut-off", "vertical"]].concat(), "only sines and triangles"),
        (&[&by[..], &["--best", "28"]].concat(), "only beta has a best temperature"),
        (
            &[&by[..], &["--method", "average", "--ceiling", "30"]].concat(),
            "the plain average has no ceiling",
        ),
        (&[&by[..], &["--method", "beta", "--best", "50"]].concat(), "the best temperature 50 does not lie"),
    ];
    for (typed, words) in cases {
        refused(folder.path(), &[&["--house", "house", "ripen"], typed].concat(), words);
    }
}
