//! Places at the edge through the command line: frost all year, frost never, no whole year, days of no thermometer's time.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

mod grown;
mod program;

use jiff::ToSpan;
use jiff::civil::{Date, date};
use program::{answer, refused};
use std::fs;
use std::path::Path;

/// Six years of a station whose night and day turn with the year about a mean.
fn station(folder: &Path, name: &str, mean: f64, swing: f64) {
    let days = date(2019, 1, 1).series(1.day()).take_while(|day| day.year() < 2025);
    let row = |day: Date| {
        let turn = (f64::from(day.day_of_year()) - 200.0) / 365.25 * std::f64::consts::TAU;
        let middle = mean + swing * turn.cos() + 0.3 * f64::from(day.day() % 7);
        format!("{day},{:.1},{:.1}\n", middle - 4.0, middle + 4.0)
    };
    fs::write(folder.join(name), format!("date,tmin_c,tmax_c\n{}", days.map(row).collect::<String>()))
        .unwrap();
}

#[test]
fn where_it_always_freezes_nothing_is_promised() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    grown::house(at);
    station(at, "polar.csv", -14.0, 12.0);
    let frosts = answer(at, &["frost", "polar.csv"]);
    let freeze = &frosts["at"][1];
    assert_eq!(freeze["with_spring_frost"].as_f64(), Some(1.0));
    assert!(
        freeze["season"].as_array().unwrap().iter().all(|one| one["day"].as_f64() == Some(0.0)),
        "{freeze}"
    );
    let asked = ["--house", "house", "forecast", "--weather", "polar.csv", "Amber Post"];
    refused(at, &asked, "no day of summer is between two frosts");
    refused(at, &["--house", "house", "calendar", "--weather", "polar.csv"], "no day of summer");
    let out = [&asked[..], &["--transplant", "07-15"]].concat();
    refused(at, &out, "no plot of the house could have ripened what was picked from it");
    let told = answer(at, &[&out[..], &["--home", "milwaukee"]].concat());
    let one = &told["varieties"][0];
    assert_eq!(one["nothing"].as_f64(), Some(1.0), "{one}");
    assert_eq!(one["kilograms"], serde_json::json!([0.0, 0.0, 0.0]));
}

#[test]
fn where_it_never_freezes_the_day_is_asked() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    grown::house(at);
    station(at, "warm.csv", 24.0, 3.0);
    let asked = ["--house", "house", "forecast", "--weather", "warm.csv", "Amber Post"];
    refused(at, &asked, "warm.csv");
    let told = answer(at, &[&asked[..], &["--transplant", "03-01"]].concat());
    assert_eq!(told["varieties"][0]["nothing"].as_f64(), Some(0.0), "{told}");
    // 29 February is a day to plant out on, in every year.
    let leap = answer(at, &[&asked[..], &["--transplant", "02-29"]].concat());
    assert!(1 < leap["years"].as_u64().unwrap(), "{leap}");
    let calendar = answer(at, &["--house", "house", "calendar", "--weather", "warm.csv", "--year", "2031"]);
    assert_eq!(calendar["frost_safe"], serde_json::Value::Null);
    assert!(calendar["warm_nights"].as_str().is_some(), "{calendar}");
}

#[test]
fn no_whole_year_and_absurd_days_say_so() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    grown::house(at);
    // Every third day only, as a volunteer reads: no year of it is whole.
    let days = date(2011, 1, 1).series(3.days()).take(900);
    let rows: String = days.map(|day| format!("{day},{},{}\n", day.day() % 9, 12 + day.day() % 9)).collect();
    fs::write(at.join("thin.csv"), format!("date,tmin_c,tmax_c\n{rows}")).unwrap();
    refused(at, &["frost", "thin.csv"], "no year of it has its nights");
    let forecast = ["--house", "house", "forecast", "Amber Post", "--weather"];
    refused(at, &[&forecast[..], &["thin.csv"]].concat(), "thin.csv");
    refused(
        at,
        &["--house", "house", "ripen", "Amber Post", "--weather", "thin.csv"],
        "it has not every day",
    );
    for (name, day) in
        [("early.csv", "0001-01-01"), ("never.csv", "2031-02-30"), ("thirteen.csv", "2031-13-01")]
    {
        fs::write(at.join(name), format!("date,tmin_c,tmax_c\n{day},1,9\n")).unwrap();
        refused(at, &["frost", name], name);
        refused(at, &[&forecast[..], &[name]].concat(), name);
    }
    let ages = "date,tmin_c,tmax_c\n1700-01-01,1,9\n9999-12-31,1,9\n";
    fs::write(at.join("ages.csv"), ages).unwrap();
    refused(at, &["frost", "ages.csv"], "ages.csv");
    for day in ["02-30", "13-01", "00-00", "0-0", "05/20", "--"] {
        let typed = format!("--transplant={day}");
        refused(at, &[&forecast[..], &["milwaukee", &typed]].concat(), "is no day of a year");
    }
}
