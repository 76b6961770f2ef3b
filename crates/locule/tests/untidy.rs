//! The loop on small untidy files, through the program: take, mend, call, undo, back up, verify.

mod program;

use program::{House, answer, refused};
use serde_json::Value;
use std::fs;
use std::path::Path;

const VARIETIES: &str = "Variety;Also known as;Habit\nAmber Bell;Amber B.;determinate\nOld Pike;;indet\n";
const FRUIT: &str = "Summer notes,,,\nVariety,Date,wt (oz),Length\n\
    Amber Bell,2026-07-14,2.1,2 1/4 in\nAmber Bel,2026-07-14,2.3,58 mm\nOld Pike,2026-07-15,1 lb 3 oz,\n\
    Old Pike,2026-07-15,heavy,\nTotal,,,\n";

#[test]
fn notes_come_in_are_mended_and_called() {
    let house = House::new();
    let (varieties, fruit) = (house.write("list.csv", VARIETIES), house.write("fruit.csv", FRUIT));
    let taken = house.ok(&["take", &fruit, &varieties]);
    let tables = taken["tables"].as_array().unwrap();
    assert_eq!((tables[0]["kind"].as_str(), tables[0]["added"].as_u64()), (Some("varieties"), Some(2)));
    assert_eq!(
        (tables[1]["added"].as_u64(), tables[1]["quarantined"].as_u64()),
        (Some(2), Some(2)),
        "{taken}"
    );

    let names = house.ok(&["names"]);
    assert_eq!(names["names"][0]["nearest"], "Amber Bell");
    let accepted = house.ok(&["names", "accept", "Amber Bel", "Amber Bell"]);
    assert_eq!(accepted["rows_taken"], 1);

    let waiting = house.ok(&["quarantine"]);
    let row = &waiting["rows"][0];
    assert_eq!((row["row"].as_u64(), row["value"].as_str()), (Some(6), Some("heavy")));
    let number = row["number"].to_string();
    let (code, _, told) = house.run(&["quarantine", "mend", &number, "wt (oz)=light"]);
    assert_eq!(code, 2);
    assert!(told.contains("help:"), "{told}");
    assert_eq!(house.ok(&["quarantine", "mend", &number, "wt (oz)=18"])["added"], 1);
    assert_eq!(house.ok(&["quarantine"])["rows"].as_array().unwrap().len(), 0);

    house.ok(&["call"]);
    let shown = house.ok(&["show", "amber b.", "--records"]);
    assert_eq!(shown["records"].as_array().unwrap().len(), 2);
    assert!(house.ok(&["verify"])["sound"].as_bool().unwrap());
}

#[test]
fn the_same_file_adds_nothing_and_a_longer_one_adds_its_new_rows() {
    let house = House::new();
    let varieties = house.write("list.csv", VARIETIES);
    house.ok(&["take", &varieties]);
    let first = "variety,date,weight (g),locules\nOld Pike,2026-07-14,58,2\nOld Pike,2026-07-14,58,2\n";
    let fruit = house.write("fruit.csv", first);
    assert_eq!(house.ok(&["take", &fruit])["tables"][0]["added"], 2);
    assert_eq!(house.ok(&["take", &fruit])["tables"][0]["taken_before"], true);
    house.write("fruit.csv", format!("{first}Old Pike,2026-07-14,58,2\nOld Pike,2026-07-20,61,3\n"));
    let again = house.ok(&["take", &fruit])["tables"][0].clone();
    assert_eq!((again["added"].as_u64(), again["already_there"].as_u64()), (Some(2), Some(2)), "{again}");
}

#[test]
fn a_batch_is_undone_and_brought_back_as_one() {
    let house = House::new();
    let (varieties, fruit) = (house.write("list.csv", VARIETIES), house.write("fruit.csv", FRUIT));
    house.ok(&["take", &varieties, &fruit]);
    let (code, _, told) = house.run(&["undo", "1"]);
    assert_eq!(code, 2, "{told}");
    assert!(told.contains("batch 2"), "the batch that rests on it is named: {told}");
    house.ok(&["undo", "2"]);
    assert_eq!(house.ok(&["show", "Old Pike"])["record_count"], 1, "the record is still seen");
    assert_eq!(house.ok(&["quarantine"])["rows"].as_array().unwrap().len(), 0);
    house.ok(&["redo", "2"]);
    assert_eq!(house.ok(&["quarantine"])["rows"].as_array().unwrap().len(), 2);
    house.ok(&["undo", "1", "--with-dependents"]);
    assert_eq!(house.ok(&["list"])["of"], 0);
    assert!(house.ok(&["verify"])["sound"].as_bool().unwrap());
}

#[test]
fn a_record_is_corrected_withdrawn_and_remembered() {
    let house = House::new();
    let (varieties, fruit) = (house.write("list.csv", VARIETIES), house.write("fruit.csv", FRUIT));
    house.ok(&["take", &varieties, &fruit]);
    let records = house.ok(&["show", "Amber Bell", "--records"])["records"].clone();
    let old = records[0]["record"].as_str().unwrap();
    let corrected = house.ok(&["correct", old, "weight=80 g", "--why", "misread the scale"]);
    let new = corrected["new"].as_str().unwrap();
    let history = house.ok(&["history", new]);
    assert!(history["record"]["says"].as_str().unwrap().contains("80 g"), "{history}");
    assert!(history.to_string().contains("misread the scale"), "{history}");
    house.ok(&["withdraw", new, "--why", "another plant"]);
    let (code, _, told) = house.run(&["withdraw", new, "--why", "twice"]);
    assert_eq!(code, 2, "{told}");
    assert!(house.ok(&["verify"])["sound"].as_bool().unwrap());
}

#[test]
fn rows_that_waited_for_a_name_or_an_answer_are_taken_again() {
    let house = House::new();
    let varieties = house.write("list.csv", VARIETIES);
    let beds = "grow-out,garden,season,plot,variety\n2026 Home,Home,2026,7,Old Pyke\n";
    let (beds, walks) = (house.write("beds.csv", beds), "plot,date,plant,height (cm)\n7,3/4/2026,1,60\n");
    let walks = house.write("heights.csv", walks);
    house.ok(&["take", &varieties, &beds, &walks]);
    assert_eq!(house.ok(&["quarantine"])["rows"].as_array().unwrap().len(), 2);
    house.ok(&["names", "accept", "Old Pyke", "Old Pike"]);
    assert_eq!(
        house.ok(&["quarantine"])["rows"].as_array().unwrap().len(),
        1,
        "the plot is known, the date not"
    );
    let taken = house.ok(&["take", "--dates", "day-first", &walks]);
    assert_eq!(taken["tables"][0]["added"], 1, "the same file with an answer takes what waited: {taken}");
    let records = house.ok(&["show", "Old Pike", "--records"])["records"].clone();
    assert_eq!(records[0]["day"], "2026-04-03");
    assert_eq!(house.ok(&["quarantine", "again"])["solved"], 0);
}

#[test]
fn the_quarantine_is_exported_corrected_and_taken_again() {
    let house = House::new();
    let varieties = house.write("list.csv", VARIETIES);
    let fruit = house.write("fruit.csv", "variety,date,weight (g),locules\nOld Pike,2026-07-14,heavy,2\n");
    house.ok(&["take", &varieties, &fruit]);
    let exported = house.at("to-correct.csv");
    house.ok(&["quarantine", "export", &exported]);
    let text = fs::read_to_string(&exported).unwrap();
    fs::write(&exported, text.replace("heavy", "510")).unwrap();
    let taken = house.ok(&["take", &exported]);
    assert_eq!(taken["tables"][0]["added"], 1, "{taken}");
}

/// Rows of several tables stand in one export, and each goes back to its own.
#[test]
fn an_export_of_several_tables_solves_the_rows_that_wait() {
    let house = House::new();
    let varieties = house.write("list.csv", VARIETIES);
    let fruit = "variety,date,weight (g),locules\nOld Pike,2026-07-14,heavy,2\nOld Pike,2026-07-15,<5,2\n";
    let heights = "Variety,Plant,Date,Ht (cm)\nAmber Bell,1,2026-07-14,tall\nAmber Bell,1,2026-08-14,-x\n";
    let (fruit, heights) = (house.write("fruit.csv", fruit), house.write("heights.csv", heights));
    house.ok(&["take", &varieties, &fruit, &heights]);
    let exported = house.at("to-correct.csv");
    house.ok(&["quarantine", "export", &exported]);
    let text = fs::read_to_string(&exported).unwrap();
    assert!(text.contains(",'-x"), "no cell is a formula: {text}");
    let corrected = text.replace(",heavy,", ",510,").replace(",tall", ",91");
    fs::write(&exported, corrected.replace(',', ";")).unwrap();
    let looked = house.ok(&["take", "--dry-run", &exported]);
    assert_eq!(
        (looked["tables"][0]["entries"].as_u64(), looked["tables"][1]["kind"].as_str()),
        (Some(1), Some("heights"))
    );
    let taken = house.ok(&["take", &exported]);
    assert_eq!(
        (taken["tables"][0]["added"].as_u64(), taken["tables"][1]["added"].as_u64()),
        (Some(1), Some(1))
    );
    let waiting = house.ok(&["quarantine"])["rows"].clone();
    let values: Vec<&str> =
        waiting.as_array().unwrap().iter().map(|row| row["value"].as_str().unwrap()).collect();
    assert_eq!(values, ["<5", "-x"], "what was not corrected waits as it was");
    let again = house.ok(&["take", &exported]);
    assert_eq!(
        (again["tables"][0]["added"].as_u64(), again["tables"][1]["added"].as_u64()),
        (Some(0), Some(0))
    );
    fs::write(&exported, text.replace("1,fruit.csv", "one,fruit.csv")).unwrap();
    assert_eq!(house.run(&["take", &exported]).0, 2, "a row whose number was lost is told");
}

#[test]
fn answers_may_come_one_by_one_and_only_for_the_tables_that_they_fit() {
    let house = House::new();
    let varieties = house.write("list.csv", VARIETIES);
    let plain = house.write("plain.csv", "variety,date,weight\nOld Pike,03/04/2026,510\n");
    let named = house.write("named.csv", "variety,date,weight (g)\nOld Pike,2026-04-03,510\n");
    house.ok(&["take", &varieties]);
    let (code, _, told) = house.run(&["take", "--kind", "fruit-samples", "--unit", "wieght=g", &plain]);
    assert_eq!(code, 2, "a heading that no table has is told: {told}");
    let taken = house.ok(&["take", "--kind", "fruit-samples", "--unit", "weight=g", &plain, &named]);
    assert_eq!(
        (taken["tables"][0]["added"].as_u64(), taken["tables"][1]["added"].as_u64()),
        (Some(0), Some(1))
    );
    let before = house.ok(&["take", &plain])["tables"][0].clone();
    assert_eq!(
        (&before["taken_before"], before["quarantined"].as_u64()),
        (&Value::Bool(true), Some(1)),
        "{before}"
    );
    let answered = house.ok(&["take", "--kind", "fruit samples", "--dates", "day-first", &plain]);
    assert_eq!(answered["tables"][0]["added"], 1, "{answered}");
}

#[test]
fn only_what_is_doubted_is_confirmed() {
    let house = House::new();
    let varieties = house.write("list.csv", VARIETIES);
    let heavy = "variety,date,weight (g),length (mm),width (mm)\nOld Pike,2026-07-14,900,40,40\n";
    let fruit = house.write("fruit.csv", heavy);
    house.ok(&["take", &varieties, &fruit]);
    let doubts = house.ok(&["doubts"]);
    let record = doubts["records"][0]["record"].as_str().unwrap();
    let (code, _, told) = house.run(&["correct", record, "weight=heavy", "--why", "misread"]);
    assert_eq!(
        (code, told.starts_with("\"weight\" cannot be taken: \"heavy\" is not a number")),
        (2, true),
        "{told}"
    );
    house.ok(&["doubts", "confirm", record]);
    let (code, _, told) = house.run(&["doubts", "confirm", record]);
    assert_eq!((code, told.contains("counts already")), (2, true), "{told}");
}

/// Headings in another language are told once and known from then on.
#[test]
fn a_saved_reading_is_known_again() {
    let house = House::new();
    let varieties = house.write("list.csv", VARIETIES);
    let (first, second) =
        ("Sorte;Tag;Gew\nOld Pike;03.04.2026;510\n", "Sorte;Tag;Gew\nOld Pike;05.04.2026;512\n");
    let (first, second) = (house.write("a.csv", first), house.write("b.csv", second));
    house.ok(&["take", &varieties]);
    let (code, answer, _) = house.run(&["take", &first]);
    assert_eq!(code, 2);
    assert!(answer["unreadable"][0]["remedy"].as_str().unwrap().contains("--column"), "{answer}");
    let reading = [
        "--kind",
        "fruit-samples",
        "--column",
        "Sorte=variety",
        "--column",
        "Tag=day",
        "--column",
        "Gew=weight",
    ];
    let take = |more: &[&str]| house.ok(&[&["take", first.as_str()], &reading[..], more].concat());
    assert_eq!(take(&[])["tables"][0]["quarantined"], 1, "the order of the date is asked");
    let answered = take(&["--unit", "Gew=g", "--dates", "day-first", "--save-mapping"]);
    assert_eq!(answered["tables"][0]["added"], 1, "{answered}");
    assert_eq!(house.ok(&["take", &second])["tables"][0]["added"], 1, "it needs no telling any more");
}

/// Two people at one time: whoever comes second finds it done.
#[test]
fn one_file_taken_by_several_at_once_comes_in_once() {
    let house = House::new();
    let varieties = house.write("list.csv", VARIETIES);
    house.ok(&["take", &varieties]);
    let rows = "Old Pike,2026-07-14,510,4\n".repeat(20_000);
    let fruit = house.write("fruit.csv", format!("variety,date,weight (g),locules\n{rows}"));
    std::thread::scope(|scope| {
        for _ in 0..4 {
            scope.spawn(|| house.ok(&["take", &fruit]));
        }
    });
    assert_eq!(house.ok(&["show", "Old Pike"])["record_count"], 20_000);
}

#[test]
fn a_backup_is_put_back() {
    let house = House::new();
    let varieties = house.write("list.csv", VARIETIES);
    house.ok(&["take", &varieties]);
    let backup = house.at("backup.db");
    house.ok(&["backup", &backup]);
    house.ok(&["undo", "1"]);
    assert_eq!(house.ok(&["list"])["of"], 0);
    house.ok(&["restore", &backup]);
    assert_eq!(house.ok(&["list"])["of"], 2);
    let (code, _, told) = house.run(&["restore", &varieties]);
    assert_eq!(code, 2, "{told}");
    assert_eq!(house.ok(&["list"])["of"], 2, "a file that is no ledger changes nothing");
}

#[test]
fn a_dry_run_stores_nothing_and_asks_what_it_cannot_know() {
    let house = House::new();
    let varieties = house.write("list.csv", VARIETIES);
    let fruit = house.write("fruit.csv", "variety,date,weight,locules\nOld Pike,3/4/2026,58,2\n");
    let looked = house.ok(&["take", "--dry-run", &varieties, &fruit]);
    let questions = looked["tables"][1]["questions"].as_array().unwrap();
    assert_eq!(questions.len(), 2, "the date's order and the weight's unit: {looked}");
    assert_eq!(house.ok(&["history"])["batches"].as_array().unwrap().len(), 0);
    house.ok(&["take", &varieties]);
    let answers = ["take", "--dates", "month-first", "--unit", "weight=g", &fruit];
    assert_eq!(house.ok(&answers)["tables"][0]["added"], 1);
}

#[test]
fn what_cannot_be_done_says_what_to_do() {
    let house = House::new();
    let nothing = house.at("nothing.csv");
    for (arguments, word) in [
        (vec!["show", "Nobody"], "locule list"),
        (vec!["print", "catalogue", "--to", "/nowhere/at/all.pdf"], "/nowhere/at is not there"),
        (vec!["take", "--unit", "weight=stone", nothing.as_str()], "write one of: mg, g, kg"),
        (vec!["redo", "1"], "locule history"),
        (vec!["quarantine", "mend", "1", "wt=5"], "locule quarantine"),
        (vec!["settings", "--name", "two\nlines"], "on one line"),
        (vec!["restore", nothing.as_str()], "locule backup"),
        (vec!["undo", "seven"], "locule history"),
        (vec!["list", "--habit", "tall"], "determinate"),
        (vec!["guide", "preview", "house.toml"], "help:"),
        (vec!["take", nothing.as_str()], ""),
    ] {
        let (code, _, told) = house.run(&arguments);
        assert_eq!(code, 2, "{arguments:?}: {told}");
        assert!(told.contains(word), "{arguments:?}: {told}");
    }
    let outside = tempfile::tempdir().unwrap();
    refused(outside.path(), &["list"], "locule new");
}

#[test]
fn a_house_is_found_from_within_it() {
    let house = House::new();
    let inside = Path::new(&house.at("house")).join("printed");
    answer(&inside, &["list"]);
}
