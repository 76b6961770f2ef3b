//! `locule calendar` through the command line: days by a known station's weather, and a file for other calendars.

mod program;

use program::{answer, refused};
use std::fs;

const ASKED: [&str; 6] = ["--house", "house", "calendar", "--weather", "milwaukee", "--year"];

#[test]
fn days_are_told_and_written_for_other_calendars() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    answer(at, &["new", "house"]);
    let told = answer(at, &[&ASKED[..], &["2031", "--to", "spring.ics"]].concat());
    let days: Vec<(&str, &str)> = told["days"]
        .as_array()
        .unwrap()
        .iter()
        .map(|day| (day["on"].as_str().unwrap(), day["what"].as_str().unwrap()))
        .collect();
    assert_eq!(days.first().unwrap().1, "Sow tomatoes indoors");
    assert!(days.is_sorted_by_key(|day| day.0) && days.iter().any(|day| day.1 == "Plant out"), "{days:?}");
    let text = fs::read_to_string(at.join("spring.ics")).unwrap();
    assert_eq!(text.matches("BEGIN:VEVENT\r\n").count(), days.len());
    assert!(
        text.contains(&format!("DTSTART;VALUE=DATE:{}", days.first().unwrap().0.replace('-', ""))),
        "{text}"
    );
    // The same garden and year again: the same events, so that none is doubled.
    answer(at, &[&ASKED[..], &["2031", "--to", "again.ics"]].concat());
    let again = fs::read_to_string(at.join("again.ics")).unwrap();
    let identifiers = |text: &str| {
        text.lines().filter(|line| line.starts_with("UID:")).map(str::to_owned).collect::<Vec<_>>()
    };
    assert_eq!(identifiers(&text), identifiers(&again));
    let risky = answer(at, &[&ASKED[..], &["2031", "--frost-risk", "9"]].concat());
    assert!(risky["frost_safe"].as_str() < told["frost_safe"].as_str(), "more risk, an earlier day");
}

#[test]
fn what_cannot_be_is_refused_and_nothing_is_left() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    answer(at, &["new", "house"]);
    refused(at, &[&ASKED[..], &["2031", "--transplant", "99-99"]].concat(), "no day of a year");
    refused(at, &[&ASKED[..], &["2031", "--to", "nowhere/spring.ics"]].concat(), "nowhere");
    assert!(!at.join("nowhere").exists());
    refused(at, &["--house", "house", "calendar", "--garden", "Hill"], "no garden \"Hill\"");
}
