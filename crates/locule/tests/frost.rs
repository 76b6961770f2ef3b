//! `locule frost` on a made station, and on files that say nothing.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

mod program;

use serde_json::Value;
use std::fs;
use std::process::{Command, Output};

fn frost(folder: &tempfile::TempDir, text: &str, more: &[&str]) -> Output {
    let file = folder.path().join("station.csv");
    fs::write(&file, text).unwrap();
    let mut command = Command::new(env!("CARGO_BIN_EXE_locule"));
    command.current_dir(folder.path()).env_remove("LOCULE_HOUSE").arg("frost").arg(&file).args(more);
    command.output().unwrap()
}

/// Ten years, freezing from November to the middle of April; 1 May of one year too.
fn station() -> String {
    let mut text = "date,tmin_c,tmax_c\n".to_owned();
    let mut day = jiff::civil::date(2011, 1, 1);
    while day.year() < 2021 {
        let cold = day.month() > 10 || day.month() < 4 || (day.month() == 4 && day.day() <= 15);
        let late = day == jiff::civil::date(2015, 5, 1) || day == jiff::civil::date(2015, 5, 2);
        let highest = 20.0 + 0.5 * f64::from(day.day() % 2);
        text += &format!("{day},{},{highest}\n", if cold || late { "-3.0" } else { "6.0" });
        day = day.tomorrow().unwrap();
    }
    text
}

#[test]
fn a_station_is_told_and_needs_no_house() {
    let folder = tempfile::tempdir().unwrap();
    let said = frost(&folder, &station(), &[]);
    let text = String::from_utf8(said.stdout).unwrap();
    assert!(said.status.success(), "{text}");
    assert!(text.contains("32 °F (0 °C) or less, 10 years"), "{text}");
    assert!(text.contains("last frost of spring, or later"), "{text}");
    let json = frost(&folder, &station(), &["--json", "--years", "2012-2015"]);
    let answer: Value = serde_json::from_slice(&json.stdout).unwrap();
    let freeze = &answer["answer"]["at"][1];
    assert_eq!(
        (freeze["years"].as_array().unwrap().len(), freeze["with_spring_frost"].as_f64()),
        (4, Some(1.0))
    );
    // 15 April is day 105, of a leap year 106; the middle of 106, 105, 105 and 122.
    assert_eq!(freeze["last"][1]["day"].as_f64(), Some(105.5));
    assert_eq!(freeze["last"][1]["sampled"], Value::Null, "four years are not sampled");
    let few = String::from_utf8(frost(&folder, &station(), &["--years", "2012-2015"]).stdout).unwrap();
    assert!(few.contains("So few years cannot show"), "{few}");
}

#[test]
fn all_years_are_told_and_drawn() {
    let folder = tempfile::tempdir().unwrap();
    let said = frost(&folder, &station(), &["--json", "--plot", "frosts.svg"]);
    let answer: Value = serde_json::from_slice(&said.stdout).unwrap();
    let years = answer["answer"]["at"][1]["each_year"].as_array().unwrap();
    assert_eq!(years.len(), 10);
    assert_eq!((years[4]["year"].as_i64(), years[4]["last"].as_str()), (Some(2015), Some("2015-05-02")));
    assert_eq!(
        (years[5]["last"].as_str(), years[5]["first"].as_str()),
        (Some("2016-04-15"), Some("2016-11-01"))
    );
    let drawn = fs::read_to_string(folder.path().join("frosts.svg")).unwrap();
    assert_eq!(drawn.matches("<circle").count(), 20, "two frosts in each of ten years: {drawn}");
    assert!(drawn.contains("10 years. Last of spring on or after"), "{drawn}");
    // Nights of 6 and of -3 degrees: 28 F is frozen as often as 32 F, and the drawing says which it is of.
    frost(&folder, &station(), &["--plot", "hard.svg", "--at", "28F"]);
    let hard = fs::read_to_string(folder.path().join("hard.svg")).unwrap();
    assert!(
        drawn.contains("Frost of 32 °F (0 °C) or less") && hard.contains("Frost of 28 °F (-2.2 °C) or less"),
        "{hard}"
    );
    for word in ["0C", "-2C", "36 F"] {
        assert!(frost(&folder, &station(), &["--plot", "one.svg", "--at", word]).status.success(), "{word}");
    }
    let no = frost(&folder, &station(), &["--plot", "one.svg", "--at", "30F"]);
    let told = String::from_utf8(no.stderr).unwrap();
    assert!(
        no.status.code() == Some(2) && told.contains("write one of: 36F, 32F (0C), -2C or 28F"),
        "{told}"
    );
    let wrong = frost(&folder, &station(), &["--plot", "frosts.gif"]);
    let told = String::from_utf8(wrong.stderr).unwrap();
    assert!(wrong.status.code() == Some(2) && told.contains("write one of: png, svg"), "{told}");
    assert!(!folder.path().join("frosts.gif").exists());
}

#[test]
fn a_garden_and_a_known_station_are_told_by_name() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    program::answer(at, &["new", "house"]);
    program::answer(at, &["--house", "house", "garden", "Home", "--weather", "Milwaukee"]);
    let home = program::answer(at, &["--house", "house", "frost", "--garden", "home"]);
    let station = program::answer(at, &["--house", "house", "frost", "milwaukee"]);
    assert_eq!(home["at"], station["at"]);
    assert_eq!(home["weather"]["measured"].as_bool(), Some(false), "its years are drawn: {home}");
    // Its frosts are measured ones: P10 and P50 of 32 F are those worked out with another program, days 124.6 and 113.
    let freeze = &home["at"][1]["last"];
    let day = |place: usize| (freeze[place]["day"].as_f64().unwrap() * 10.0).round() / 10.0;
    assert_eq!([day(0), day(1)], [124.6, 113.0], "{home}");
    assert!(home["weather"]["frosts"].as_str().unwrap().contains("1991 to 2020"), "{home}");
    let alone = program::answer(at, &["frost", "--station", "Milwaukee"]);
    assert_eq!(alone["at"], station["at"], "no house is needed");
    let published = program::answer(at, &["frost", "lebanon"]);
    assert_eq!(published["at"][1]["last"][0]["day"].as_f64(), Some(144.0), "24 May: {published}");
    // A garden 170 m above the station is 1.1 degrees colder, so it freezes where the station has 34 F: between its two days.
    program::answer(
        at,
        &[
            "--house",
            "house",
            "garden",
            "Hill field",
            "--weather",
            "Milwaukee",
            "--latitude",
            "43.0",
            "--longitude",
            "-87.9",
            "--elevation",
            "375",
        ],
    );
    let hill = program::answer(at, &["--house", "house", "frost", "--garden", "Hill field"]);
    let freeze = hill["at"].as_array().unwrap().iter().find(|at| at["celsius"] == 0.0).unwrap();
    let higher = freeze["last"][0]["day"].as_f64().unwrap();
    let nips = home["at"][0]["last"][0]["day"].as_f64().unwrap();
    assert!(124.6 < higher && higher < nips, "{higher} {nips}");
    program::refused(at, &["--house", "house", "frost", "--garden", "Hill"], "no garden \"Hill\"");
    program::refused(
        at,
        &["--house", "house", "frost", "Nowhere"],
        "neither a file nor a station that is known",
    );
    program::refused(at, &["frost", "--garden", "Home"], "there is no house");
}

#[test]
fn what_says_nothing_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    let refused = |text: &str, more: &[&str]| {
        let said = frost(&folder, text, more);
        assert_eq!(said.status.code(), Some(2), "{said:?}");
        String::from_utf8(said.stderr).unwrap()
    };
    assert!(refused("day,rain\n2031-05-01,4\n", &[]).contains("no column of lowest temperatures"));
    assert!(
        refused("date,tmin,tmax\n2031-05-01,35,44\n", &[]).contains("--scale c, --scale f or --scale tenths")
    );
    assert!(
        refused("date,tmin_c,tmax_c\n2031-05-01,cold,9\n", &[])
            .contains("row 2: lowest temperature: \"cold\"")
    );
    assert!(refused("date,tmin_c,tmax_c\n2031-05-01,1,9\n", &[]).contains("no year of it"));
    assert!(refused(&station(), &["--years", "soon"]).contains("no range of years"));
}

#[test]
fn normals_are_told_as_published() {
    let folder = tempfile::tempdir().unwrap();
    let normals = "\"STATION\",\"NAME\",\"ANN-TMIN-PRBLST-T32FP10\",\"ANN-TMIN-PRBLST-T32FP50\",\"years_ANN-TMIN-PRBLST-T32FP50\",\
                   \"ANN-TMIN-PRBFST-T32FP10\",\"ANN-TMIN-PRBGSL-T32FP50\",\"ANN-TMIN-PRBLST-T16FP10\"\n\
                   \"X1\",\"MILL, UPPER\",\"   05/24\",\"   05/09\",\"22\",\"   09/23\",\"   148.0\",\"  -8888\"\n";
    let text = String::from_utf8(frost(&folder, normals, &[]).stdout).unwrap();
    assert!(text.starts_with("MILL, UPPER (X1), climate normals as published"), "{text}");
    assert!(text.contains("32 °F (0 °C) or less, 22 years"), "{text}");
    assert!(text.contains("24 May") && text.contains("23 Sep") && text.contains("148"), "{text}");
    assert!(!text.contains("16 °F"), "a temperature without dates is not told: {text}");
    let json = frost(&folder, normals, &["--json"]);
    let answer: Value = serde_json::from_slice(&json.stdout).unwrap();
    assert_eq!(answer["shape"].as_str(), Some("freezes/1"));
    assert_eq!(answer["answer"]["at"][0]["last"][0]["day"].as_f64(), Some(144.0));
    let two = format!("{normals}\"X2\",\"OTHER\",\"05/24\",\"05/09\",\"22\",\"09/23\",\"148\",\"-8888\"\n");
    for (text, more, words) in [
        (normals, &["--south"][..], "told as published"),
        (normals, &["--years", "1991-2020"][..], "told as published"),
        (normals, &["--plot", "frosts.svg"][..], "do not tell the years that would be drawn"),
        (two.as_str(), &[][..], "it holds 2 stations"),
        ("ANN-TMIN-PRBLST-T32FP10,NAME\n-8888,Mill\n", &[][..], "no freeze dates of Mill"),
    ] {
        let said = frost(&folder, text, more);
        let told = String::from_utf8(said.stderr).unwrap();
        assert_eq!(said.status.code(), Some(2), "{told}");
        assert!(told.contains(words) && told.contains("help:"), "{told}");
    }
}
