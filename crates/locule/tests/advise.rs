//! `locule advise` through the command line: a small house whose plots are known, one garden, one kitchen.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

mod grown;
mod program;

use program::{answer, locule, refused};
use serde_json::Value;
use std::fs;
use std::path::Path;

const REQUEST: &str = r#"years-in-ten = 8
[garden]
weather = "Milwaukee WI"
plants-out = "05-25"
bed = [{ length = "20 m", width = "2 m" }]
between-plants = "50 cm"
between-rows = "1 m"
[kitchen]
altitude = "700 ft"
[[put-up]]
what = "juice"
class = "paste"
jars = 7
days = 3
"#;

/// The small house, whose picked variety is called paste by its fruit: 100 g, long, of two locules.
fn house(folder: &Path) {
    grown::house(folder);
    let mut fruit = String::from("grow-out,plot,variety,date,weight (g),length (mm),width (mm),locules\n");
    for year in [2024, 2025] {
        for plot in ["A", "B"] {
            for (number, locules) in [(0, 2), (1, 2), (2, 3), (3, 2)] {
                let (weight, length) = (96 + 3 * number, 92 + 2 * number);
                fruit.push_str(&format!(
                    "{year} Home,{plot},Amber Post,{year}-08-05,{weight},{length},44,{locules}\n"
                ));
            }
        }
    }
    fs::write(folder.join("fruit.csv"), fruit).unwrap();
    answer(folder, &["--house", "house", "take", "fruit.csv"]);
    answer(folder, &["--house", "house", "call"]);
}

fn advise(folder: &Path, request: &str, more: &[&str]) -> Value {
    fs::write(folder.join("request.toml"), request).unwrap();
    answer(folder, &[&["--house", "house", "advise", "request.toml"], more].concat())
}

#[test]
fn plants_and_jars_are_told_with_cautions() {
    let folder = tempfile::tempdir().unwrap();
    house(folder.path());
    let told = advise(folder.path(), REQUEST, &[]);
    // Seven quarts of juice are one load, 23 lb: Complete Guide to Home Canning (2015), Guide 3.
    let fruit = told["wishes"][0]["kilograms"].as_f64().unwrap();
    assert!((fruit - 23.0 * 0.453_592_37).abs() < 1e-9, "{fruit}");
    let plan = &told["plan"];
    let line = &plan["lines"][0];
    assert_eq!((line["variety"].as_str(), line["class"].as_str()), (Some("Amber Post"), Some("paste")));
    // The plots gave 5 kg a plant; two plants would do in a middling year, and 8 years of 10 take a few more.
    let plants = plan["plants"].as_u64().unwrap();
    assert!((2..=12).contains(&plants), "{plants}");
    assert!(plan["at_least"].as_u64().unwrap() <= plants);
    assert!(80 <= plan["years_met"].as_u64().unwrap());
    assert_eq!(line["without_impossible"].as_bool(), Some(true), "there is no other");
    let bed = plan["bed_m2"].as_f64().unwrap();
    assert!(
        (bed - 0.5 * f64::from(u32::try_from(plants).unwrap())).abs() < 1e-9,
        "half a square metre a plant"
    );
    // Hot juice in quarts, to 1,000 ft: 40 minutes. Source: the same guide.
    let process = told["kitchen"][0]["process"][0].as_str().unwrap();
    assert!(process.contains("40 minutes"), "{process}");
    assert!(told["kitchen"][0]["acid"][0].as_str().unwrap().starts_with("2 Tbsp of bottled lemon juice"));
    assert!(!told["cautions"].as_array().unwrap().is_empty());
    let said = locule(folder.path(), &["--house", "house", "advise", "request.toml"]);
    let text = String::from_utf8(said.stdout).unwrap();
    assert!(text.contains("Cautions") && text.contains("Preserving can kill"), "{text}");
}

/// The plan on paper says what the answer says, and its days come in a season's order.
#[test]
fn a_plan_is_taken_along_on_paper_and_as_days() {
    let folder = tempfile::tempdir().unwrap();
    house(folder.path());
    let told = advise(folder.path(), REQUEST, &["--pdf", "plan.pdf", "--calendar", "plan.ics"]);
    assert_eq!(told["written"].as_array().unwrap().len(), 2);
    let pdf = fs::read(folder.path().join("plan.pdf")).unwrap();
    assert!(pdf.starts_with(b"%PDF-"), "a PDF");
    let days = fs::read_to_string(folder.path().join("plan.ics")).unwrap();
    for line in ["BEGIN:VCALENDAR", "Sow tomatoes indoors", "Plant out", "Kitchen day about this week"] {
        assert!(days.contains(line), "{line} in {days}");
    }
    assert!(days.contains("0525\r\n"), "plants go out on the day that was asked: {days}");
    refused(
        folder.path(),
        &["--house", "house", "advise", "request.toml", "--pdf", "no/such/plan.pdf"],
        "no/such is not there",
    );
}

/// Where no day is said, plants go out on the day that the garden's calendar says.
#[test]
fn plants_go_out_by_the_gardens_calendar() {
    let folder = tempfile::tempdir().unwrap();
    house(folder.path());
    let told = advise(folder.path(), &REQUEST.replace("plants-out = \"05-25\"\n", ""), &[]);
    let asked = ["--house", "house", "calendar", "--weather", "Milwaukee WI", "--year", "2031"];
    let calendar = answer(folder.path(), &asked);
    let days = calendar["days"].as_array().unwrap();
    let out = days.iter().find(|day| day["what"] == "Plant out").unwrap()["on"].as_str().unwrap();
    let day: jiff::civil::Date = out.parse().unwrap();
    assert_eq!(told["plants_out"][0], day.strftime("%-d %b").to_string());
}

/// Higher kitchens go up to the next band, and beyond what is known no number is told.
#[test]
fn a_row_cover_lets_plants_out_sooner_and_is_told() {
    let folder = tempfile::tempdir().unwrap();
    house(folder.path());
    let request = REQUEST.replace("plants-out = \"05-25\"\n", "");
    let out = |request: &str, more: &[&str]| {
        let told = advise(folder.path(), request, more);
        let day = format!("2001 {}", told["plants_out"][0].as_str().unwrap());
        (jiff::civil::Date::strptime("%Y %d %b", day).unwrap(), told)
    };
    let (open, _) = out(&request, &[]);
    let covered = request.replace("[kitchen]", "row-cover = \"heavy\"\n[kitchen]");
    let (sooner, told) = out(&covered, &["--calendar", "plan.ics"]);
    assert!(sooner < open, "{sooner}, without a cover {open}");
    let assumed = told["assumed"].to_string();
    assert!(assumed.contains("A heavy row cover lies over the plants for their first 5 weeks"), "{assumed}");
    let days = fs::read_to_string(folder.path().join("plan.ics")).unwrap();
    let off = sooner.checked_add(jiff::ToSpan::weeks(5)).unwrap();
    let at = days.find("SUMMARY:Milwaukee WI: Take the row cover off").unwrap();
    let begins = days[..at].rfind("DTSTART").unwrap();
    assert!(days[begins..at].contains(&off.strftime("%m%d").to_string()), "{off} in {days}");
}

#[test]
fn what_seed_is_saved_of_is_told_its_distance() {
    let folder = tempfile::tempdir().unwrap();
    house(folder.path());
    let told =
        advise(folder.path(), &format!("for-seed = [\"amber post\"]\n{REQUEST}"), &["--pdf", "plan.pdf"]);
    let own = &told["plan"]["for_seed"][0];
    assert_eq!(own["variety"], "Amber Post");
    assert_eq!(own["others"].as_array().unwrap().len(), 0, "the small house has no other");
    // 100 ft for most tomatoes: guides/isolation.toml. A foot is 0.3048 m: NIST SP 811 (2008), Appendix B.8.
    assert!((own["away_m"].as_f64().unwrap() - 30.48).abs() < 1e-6, "{own}");
    assert!(own["words"].as_str().unwrap().contains("stands alone"), "{own}");
    let request = format!("for-seed = [\"Nobody's\"]\n{REQUEST}");
    fs::write(folder.path().join("request.toml"), request).unwrap();
    refused(folder.path(), &["--house", "house", "advise", "request.toml"], "Nobody's");
}

#[test]
fn a_time_goes_by_the_altitude_or_is_not_told() {
    let folder = tempfile::tempdir().unwrap();
    house(folder.path());
    let process = |altitude: &str| {
        let told = advise(folder.path(), &REQUEST.replace("altitude = \"700 ft\"", altitude), &[]);
        told["kitchen"][0]["process"][0].as_str().unwrap().to_owned()
    };
    // Quarts of juice: 45 minutes from 1,001 to 3,000 ft. Source: the same guide.
    assert!(process("altitude = \"1001 ft\"").contains("45 minutes"));
    assert!(!process("").contains("minutes"));
    let crushed = REQUEST.replace("\"juice\"", "\"crushed\"");
    let told = advise(folder.path(), &crushed, &[]);
    let crushed = told["kitchen"][0]["process"][0].as_str().unwrap();
    assert!(crushed.contains("see the published guide") && !crushed.contains("minutes"), "{crushed}");
}

#[test]
fn what_stands_in_the_way_is_told_with_what_frees_it() {
    let folder = tempfile::tempdir().unwrap();
    house(folder.path());
    let small = REQUEST.replace("length = \"20 m\", width = \"2 m\"", "length = \"50 cm\", width = \"1 m\"");
    let told = advise(folder.path(), &small, &[]);
    assert!(told["plan"].is_null());
    let standing = told["in_the_way"].as_array().unwrap();
    let of = |words: &str| standing.iter().find(|one| one["demand"].as_str().unwrap().contains(words));
    let bed = of("bed").unwrap()["way"].as_str().unwrap();
    assert!(bed.contains("m2 of bed in all"), "{bed}");
    assert!(of("juice").is_some());
}

#[test]
fn a_request_at_fault_is_refused_by_line() {
    let folder = tempfile::tempdir().unwrap();
    house(folder.path());
    let refused_with = |from: &str, to: &str, named: &[&str]| {
        fs::write(folder.path().join("request.toml"), REQUEST.replace(from, to)).unwrap();
        for named in named {
            refused(folder.path(), &["--house", "house", "advise", "request.toml"], named);
        }
    };
    refused_with("jars = 7", "jars = 7\nfruit = \"9 lb\"", &["line 10", "either jars or fruit"]);
    refused_with("\"juice\"", "\"jelly\"", &["line 11", "\"jelly\" is not known"]);
    refused_with("class = \"paste\"", "class = \"pumpkin\"", &["line 12", "pumpkin", "paste"]);
    refused_with("class = \"paste\"", "class = \"cherry\"", &["line 12", "no variety that is called cherry"]);
    refused_with("weather = \"Milwaukee WI\"", "", &["line 2", "whose weather"]);
    refused_with("[kitchen]", "row-cover = \"wool\"\n[kitchen]", &["line 8", "light, heavy"]);
    refused_with("days = 3", "days = 300", &["line 14", "300"]);
    refused_with("days = 3", "days = 3\nfrom = \"13-40\"", &["line 15", "no month and day"]);
    refused(folder.path(), &["--house", "house", "advise", "nothing.toml"], "nothing.toml");
}
