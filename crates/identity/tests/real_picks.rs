//! Ripening of a real garden, all of it indeterminate: the line must lean the right way and stay modest.
//!
//! Source: shared oracle `picks` (a Minnesota home garden of 2020, derived from llendway/gardenR, MIT). It
//! is read in place and not copied; where it is missing the test says so.

#![expect(clippy::unwrap_used, reason = "what these tests write down is possible, and a test may stop")]

use identity::guide::habit::{SHIPPED, read};
use identity::habit::evidence::HabitEvidence;
use identity::habit::{Habit, HabitModel, call};
use record::growout::Plot;
use record::id::Id;
use record::language::Units;
use record::mass::Grams;
use record::note::Note;
use record::pick::Pick;
use record::season::Season;
use record::subject::Subject;
use std::collections::BTreeMap;
use std::path::PathBuf;

/// The shipped guide's share of indeterminate before anything is seen: 0.935 tall times 0.57.
const BEFOREHAND: f64 = 0.935 * 0.57;

fn oracle(file: &str) -> Option<String> {
    let beside = || PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/../../../shared/oracles"));
    let folder = std::env::var_os("LOCULE_ORACLES").map_or_else(beside, PathBuf::from);
    std::fs::read_to_string(folder.join("picks").join(file)).ok()
}

/// Code, habit and season of each planting that the oracle lists; every one is indeterminate.
fn picks_by_code(text: &str) -> BTreeMap<String, Vec<Note>> {
    let mut picks: BTreeMap<String, Vec<Note>> = BTreeMap::new();
    for row in text.lines().skip(1) {
        let [year, code, date, grams] = row.split(',').collect::<Vec<_>>()[..] else { panic!("row {row}") };
        let subject = Subject {
            variety: Id::from_uuid(uuid::Uuid::from_u128(1)),
            season: Season::new(year.parse().unwrap()).unwrap(),
            plot: Some(Id::<Plot>::from_uuid(uuid::Uuid::from_u128(1))),
            plant: None,
        };
        let note = Note::Pick(Pick {
            subject,
            picked_on: date.parse().unwrap(),
            fruit_count: None,
            weight: Grams::new(grams.parse().unwrap()),
            culls: Vec::new(),
        });
        picks.entry(code.to_owned()).or_default().push(note);
    }
    picks
}

#[test]
fn ripening_alone_leans_to_indeterminate_and_is_never_nearly_sure() {
    let (Some(picks), Some(plantings)) =
        (oracle("home_garden_picks_2020.csv"), oracle("home_garden_plantings_2020.csv"))
    else {
        println!("left out: picks (home garden of 2020)");
        return;
    };
    let habits: Vec<&str> = plantings.lines().skip(1).map(|row| row.split(',').nth(3).unwrap()).collect();
    assert_eq!(habits, ["I"; 11]);
    let model = HabitModel::new(&read("habit.toml", SHIPPED).unwrap());
    let mut log_score = 0.0;
    let calls: Vec<_> = picks_by_code(&picks)
        .into_iter()
        .map(|(code, notes)| (code, call(&HabitEvidence::gather(&notes), &model, Units::METRIC).habit))
        .collect();
    for (code, call) in &calls {
        let share = call.shares.iter().find(|(habit, _)| *habit == Habit::Indeterminate).unwrap().1.get();
        let words = call.lines.iter().find(|line| line.about == "ripening").unwrap();
        println!("{code} indeterminate {share:.2}: {}", words.words);
        // Sources disagree so widely that the line may neither nearly settle a call nor turn one.
        log_score += (share / BEFOREHAND).ln();
        assert!(share < 0.80, "{code} {share}");
        assert!(0.30 < share, "{code} {share}");
        assert!(call.contested);
    }
    assert_eq!(calls.len(), 11);
    // The picks make the truth likelier over the garden as a whole, although three plants ripened their
    // fruit within 23 to 35 days.
    assert!(0.0 < log_score, "{log_score}");
}
