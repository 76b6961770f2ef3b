//! The shelf: made of what was touched, read by what is wanted, and thrown away without loss.

use crate::ground::{act, add_varieties, fruit, on_both, on_postgres, source, take};
use ledger::batch::BatchKind;
use ledger::calls::{CallSubject, StoredCall};
use ledger::evidence::EvidenceStamp;
use ledger::fault::LedgerFault;
use ledger::ledger::Ledger;
use ledger::location::Location;
use ledger::shelf::shelving::Material;
use ledger::shelf::wanted::{CalledAs, Measure, Part, Plight, Several, SortedBy, Taste, Want, Way, Within};
use ledger::shelf::{Shelved, Usual, Verdict};
use ledger::undo::Resting;
use proptest::collection::vec;
use proptest::option::of as maybe;
use proptest::prelude::*;
use proptest::sample::{select, subsequence};
use proptest::test_runner::{Config, TestRunner};
use record::id::Id;
use record::note::Note;
use record::season::Season;
use record::share::Share;
use record::variety::{Claim, ClaimSubject, Variety};
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::time::Duration;

/// How the rows of these tests are made.
const MADE_BY: u64 = 7;

fn bare(variety: &Variety) -> Shelved {
    Shelved {
        variety: variety.id,
        name: variety.name.clone(),
        aliases: variety.aliases.clone(),
        habit: None,
        class: None,
        colour: None,
        pattern: None,
        sureness: None,
        contested: false,
        contradicted: false,
        unmeasured: true,
        usual: Usual::default(),
        seasons: Vec::new(),
        uses: Vec::new(),
        marks: Vec::new(),
        rests_on: None,
        text: variety.name.clone(),
        told: variety.name.clone(),
    }
}

/// Makes what waits; tells the names of the varieties that were made.
#[track_caller]
fn shelve(ledger: &mut Ledger, row: &dyn Fn(&Material) -> Shelved) -> Vec<String> {
    let Some(mut shelving) = ledger.begin_shelving(MADE_BY).unwrap() else { return Vec::new() };
    let mut made = Vec::new();
    loop {
        let materials = shelving.next_materials().unwrap();
        if materials.is_empty() {
            break;
        }
        made.extend(materials.iter().map(|material| material.variety.name.clone()));
        shelving.put(&materials.iter().map(row).collect::<Vec<_>>()).unwrap();
    }
    shelving.finish(1).unwrap();
    made
}

fn simply(material: &Material) -> Shelved {
    Shelved { seasons: material.seasons.clone(), ..bare(&material.variety) }
}

fn names(ledger: &mut Ledger, wants: &[Want]) -> Vec<String> {
    let portion = ledger.shelved(wants, SortedBy::Name, Way::Rising, Part::Whole).unwrap();
    portion.rows.into_iter().map(|row| row.told).collect()
}

#[test]
fn only_what_was_touched_is_made_again() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let ids = add_varieties(&mut ledger, &["Amber Lantern", "Barrow Gold", "Cinder"]);
        assert_eq!(ledger.shelf(MADE_BY).unwrap(), None);
        assert_eq!(shelve(&mut ledger, &simply), ["Amber Lantern", "Barrow Gold", "Cinder"]);
        assert!(ledger.shelf(MADE_BY).unwrap().is_some_and(|shelf| shelf.varieties == 3));
        assert!(shelve(&mut ledger, &simply).is_empty(), "it stands");

        let taken = take(&mut ledger, &source(BatchKind::FruitSamples, "f.csv", 3), ids[1], &[10.0]);
        assert_eq!(ledger.shelf(MADE_BY).unwrap(), None, "evidence came in");
        assert_eq!(shelve(&mut ledger, &simply), ["Barrow Gold"]);
        assert_eq!(names(&mut ledger, &[season(2031)]), ["Barrow Gold"]);

        ledger.undo(taken.batch, &act(9), Resting::Refuse).unwrap();
        assert_eq!(shelve(&mut ledger, &simply), ["Barrow Gold"]);
        assert!(names(&mut ledger, &[season(2031)]).is_empty());

        ledger.add_alias(&act(10), ids[2], "Ash").unwrap();
        assert_eq!(shelve(&mut ledger, &simply), ["Cinder"]);
        assert_eq!(names(&mut ledger, &[Want::Letters("AS".into())]), ["Cinder"]);
        let claim = Claim { about: ClaimSubject::Other, words: "sweet".into() };
        ledger.add_claim(&act(11), ids[0], &claim).unwrap();
        assert_eq!(shelve(&mut ledger, &simply), ["Amber Lantern"]);

        ledger.accept_guide(&act(12), "fruit", "title = \"x\"").unwrap();
        assert_eq!(shelve(&mut ledger, &simply).len(), 3, "a guide makes all anew");
        ledger.clear_shelf().unwrap();
        assert_eq!(shelve(&mut ledger, &simply).len(), 3);
    });
}

#[test]
fn calls_that_come_out_alike_touch_nothing() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let ids = add_varieties(&mut ledger, &["Amber Lantern", "Barrow Gold"]);
        shelve(&mut ledger, &simply);
        let calls = [call(ids[0], "plum"), call(ids[1], "cherry")];
        ledger.keep_calls(&calls).unwrap();
        assert_eq!(shelve(&mut ledger, &simply).len(), 2);
        ledger.keep_calls(&[calls[0].clone(), call(ids[1], "grape")]).unwrap();
        assert_eq!(shelve(&mut ledger, &simply), ["Barrow Gold"]);
        ledger.forget_calls().unwrap();
        assert_eq!(shelve(&mut ledger, &simply).len(), 2);
    });
}

fn call(variety: Id<Variety>, verdict: &str) -> StoredCall {
    StoredCall {
        variety,
        subject: CallSubject::FruitClass,
        verdict: Some(verdict.to_owned()),
        probability: Share::new(0.9).unwrap(),
        contested: false,
        evidence: EvidenceStamp(0),
        guide: 1,
        detail: "{}".to_owned(),
    }
}

#[test]
fn an_undone_variety_leaves_the_shelf() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        add_varieties(&mut ledger, &["Amber Lantern", "Barrow Gold"]);
        shelve(&mut ledger, &simply);
        let batch = ledger.history().unwrap()[0].number;
        ledger.undo(batch, &act(9), Resting::UndoToo).unwrap();
        assert!(shelve(&mut ledger, &simply).is_empty());
        assert!(ledger.shelf(MADE_BY).unwrap().is_some_and(|shelf| shelf.varieties == 0));
        ledger.restore(batch, &act(10)).unwrap();
        assert_eq!(shelve(&mut ledger, &simply).len(), 2);
    });
}

#[test]
fn what_is_not_finished_leaves_nothing() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        add_varieties(&mut ledger, &["Amber Lantern"]);
        let mut shelving = ledger.begin_shelving(MADE_BY).unwrap().unwrap();
        let materials = shelving.next_materials().unwrap();
        shelving.put(&materials.iter().map(simply).collect::<Vec<_>>()).unwrap();
        drop(shelving);
        assert_eq!(ledger.shelf(MADE_BY).unwrap(), None);
        assert!(names(&mut ledger, &[]).is_empty());
        assert_eq!(shelve(&mut ledger, &simply), ["Amber Lantern"]);
    });
}

#[test]
fn of_two_who_shelve_one_waits_and_finds_it_done() {
    on_both(|location| {
        let (mut first, mut second) = (Ledger::open(location).unwrap(), Ledger::open(location).unwrap());
        add_varieties(&mut first, &["Amber Lantern"]);
        second.wait_for_writers(Duration::from_millis(20)).unwrap();
        let held = first.begin_shelving(MADE_BY).unwrap().unwrap();
        assert!(matches!(second.begin_shelving(MADE_BY), Err(LedgerFault::Locked)));
        drop(held);
        shelve(&mut first, &simply);
        assert!(second.begin_shelving(MADE_BY).unwrap().is_none());
    });
}

/// A server may let some people read only.
#[test]
fn a_ledger_that_may_only_be_read_cannot_be_shelved() {
    on_postgres(|location| {
        add_varieties(&mut Ledger::open(location).unwrap(), &["Amber Lantern"]);
        let Location::Postgres(url) = location else { return };
        let reading = format!("{url}&options=-c%20default_transaction_read_only%3Don");
        let mut ledger = Ledger::open(&Location::Postgres(reading)).unwrap();
        assert!(ledger.begin_shelving(MADE_BY).is_err());
        assert_eq!(ledger.shelf(MADE_BY).unwrap(), None);
        let mut materials = ledger.shelf_materials().unwrap();
        assert_eq!(materials.next_materials(&mut ledger).unwrap().len(), 1);
    });
}

#[test]
fn a_row_that_was_changed_is_found_out() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        add_varieties(&mut ledger, &["Amber Lantern"]);
        shelve(&mut ledger, &simply);
        let row = bare(&ledger.varieties().unwrap()[0]);
        assert!(ledger.is_shelved(&row).unwrap());
        for other in [
            Shelved { text: "Amber Lamp".into(), ..row.clone() },
            Shelved { usual: Usual { weight_g: Some(1.0), ..Usual::default() }, ..row.clone() },
            Shelved { told: String::new(), ..row.clone() },
            Shelved { rests_on: Some(3), ..row.clone() },
        ] {
            assert!(!ledger.is_shelved(&other).unwrap(), "{other:?}");
        }
    });
}

#[test]
fn seasons_are_of_what_counts() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let id = add_varieties(&mut ledger, &["Amber Lantern"])[0];
        let mut writer = ledger.begin_batch(&source(BatchKind::FruitSamples, "f.csv", 3)).unwrap();
        for (row, year) in [(2, 2031), (3, 2029), (4, 2031)] {
            let mut fruit = fruit(id, 10.0);
            fruit.subject.season = Season::new(year).unwrap();
            writer.add_note(row, &Note::Fruit(fruit), &[]).unwrap();
        }
        writer.commit().unwrap();
        shelve(&mut ledger, &simply);
        for (year, found) in [(2029, 1), (2030, 0), (2031, 1)] {
            assert_eq!(names(&mut ledger, &[season(year)]).len(), found, "{year}");
        }
    });
}

fn season(year: i16) -> Want {
    Want::Has(Several::Seasons, Taste::Sought, vec![year.to_string()])
}

const NAMES: [&str; 8] =
    ["Amber Lantern", "Barrow Gold", "Cinder", "Dößli", "Ember", "Ferry 10%", "Gold_Leaf", "Hollow Bell"];
const HABITS: [&str; 3] = ["determinate", "semi-determinate", "indeterminate"];
const USES: [&str; 4] = ["slicing", "sauce and paste", "sauce", "salad"];
const WORDS: [&str; 6] = ["gold", "go", "sweet red", "Dossli", "58", "'; DROP TABLE shelf; --"];

fn words_of(words: &'static [&'static str]) -> impl Strategy<Value = Vec<String>> {
    subsequence(words, 0..=words.len()).prop_map(|words| words.into_iter().map(str::to_owned).collect())
}

fn verdict() -> impl Strategy<Value = Option<Verdict>> {
    maybe((0..HABITS.len()).prop_map(|place| Verdict { word: HABITS[place].into(), place: place as u32 }))
}

fn measured() -> impl Strategy<Value = Option<f64>> {
    maybe(select(&[1.0, 2.5, 58.0, 113.4, 900.0][..]))
}

fn flags() -> impl Strategy<Value = (bool, bool, bool)> {
    (any::<bool>(), any::<bool>(), any::<bool>())
}

/// Everything of a row but its name.
fn row() -> impl Strategy<Value = Shelved> {
    let called = (verdict(), verdict(), verdict(), maybe(select(&["plain", "striped"][..])));
    let told = (words_of(&USES), words_of(&["heart", "ribbed"]), vec(select(&WORDS[..5]), 0..4));
    let seasons = subsequence(&[2029_i16, 2030, 2031][..], 0..=3);
    (called, flags(), (measured(), measured(), maybe(0.0..=1.0)), told, seasons).prop_map(
        |((habit, class, colour, pattern), flags, (weight_g, days, sureness), told, seasons)| {
            let variety = Variety {
                id: Id::from_uuid(uuid::Uuid::nil()),
                name: String::new(),
                aliases: vec![],
                claims: vec![],
            };
            Shelved {
                habit,
                class,
                colour,
                pattern: pattern.map(str::to_owned),
                sureness,
                contested: flags.0,
                contradicted: flags.1,
                unmeasured: flags.2,
                usual: Usual { weight_g, days, ..Usual::default() },
                seasons: seasons.into_iter().map(|year| Season::new(year).unwrap()).collect(),
                uses: told.0,
                marks: told.1,
                text: told.2.join(" "),
                ..bare(&variety)
            }
        },
    )
}

fn taste() -> impl Strategy<Value = Taste> {
    select(&[Taste::Sought, Taste::Shunned][..])
}

fn want() -> impl Strategy<Value = Want> {
    let of = select(&[CalledAs::Habit, CalledAs::Class, CalledAs::Colour][..]);
    let plights = subsequence(&[Plight::Contested, Plight::Contradicted, Plight::Unmeasured][..], 0..=3);
    let range = (measured(), measured()).prop_map(|(least, most)| Within { least, most });
    prop_oneof![
        (of, taste(), words_of(&HABITS)).prop_map(|(of, taste, words)| Want::Called(of, taste, words)),
        (taste(), words_of(&["plain", "striped"])).prop_map(|(taste, words)| Want::Called(
            CalledAs::Pattern,
            taste,
            words
        )),
        (taste(), words_of(&USES)).prop_map(|(taste, words)| Want::Has(Several::Uses, taste, words)),
        (taste(), words_of(&["heart", "ribbed"])).prop_map(|(taste, words)| Want::Has(
            Several::Marks,
            taste,
            words
        )),
        (taste(), words_of(&["2029", "2031", "203"])).prop_map(|(taste, words)| Want::Has(
            Several::Seasons,
            taste,
            words
        )),
        (select(&[Measure::Weight, Measure::Days, Measure::Width][..]), vec(range, 0..3))
            .prop_map(|(of, ranges)| Want::Within(of, ranges)),
        (taste(), plights).prop_map(|(taste, plights)| Want::In(taste, plights)),
        select(&["g", "GOLD", "öß", "0%", "d_l", "\\", "'", ""][..])
            .prop_map(|letters| Want::Letters(letters.into())),
        (taste(), select(&WORDS[..])).prop_map(|(taste, words)| Want::Words(taste, words.into())),
    ]
}

fn sorting() -> impl Strategy<Value = (SortedBy, Way)> {
    let by = [
        SortedBy::Name,
        SortedBy::Weight,
        SortedBy::Class,
        SortedBy::Habit,
        SortedBy::Colour,
        SortedBy::Days,
        SortedBy::Sureness,
        SortedBy::Newest,
    ];
    (select(by.to_vec()), select(&[Way::Rising, Way::Falling][..]))
}

/// Whatever is wanted in whatever order, the server answers as the slow reading in memory does.
#[test]
fn the_server_and_memory_agree() {
    on_both(|location| {
        let ledger = RefCell::new(Ledger::open(location).unwrap());
        add_varieties(&mut ledger.borrow_mut(), &NAMES);
        let mut runner =
            TestRunner::new(Config { cases: 96, failure_persistence: None, ..Config::default() });
        let cases = (vec(row(), NAMES.len()), vec(want(), 0..4), sorting());
        runner
            .run(&cases, |(rows, wants, (by, way))| {
                let ledger = &mut *ledger.borrow_mut();
                let all = shelve_these(ledger, &rows);
                let mut slow: Vec<&Shelved> =
                    all.iter().filter(|row| wants.iter().all(|want| want.fits(row))).collect();
                slow.sort_by(|one, other| by.first(way, one, other));
                let slow: Vec<&str> = slow.iter().map(|row| row.told.as_str()).collect();
                let whole = ledger.shelved(&wants, by, way, Part::Whole).unwrap();
                let quick: Vec<&str> = whole.rows.iter().map(|row| row.told.as_str()).collect();
                prop_assert_eq!(&quick, &slow);
                prop_assert_eq!(whole.counted.rows as usize, quick.len());
                let contested =
                    all.iter().filter(|row| row.contested && wants.iter().all(|want| want.fits(row)));
                prop_assert_eq!(whole.counted.contested as usize, contested.count());

                let middle = ledger.shelved(&wants, by, way, Part::Rows { most: 2, after: 1 }).unwrap();
                let wanted: Vec<&str> = slow.iter().skip(1).take(2).copied().collect();
                prop_assert_eq!(middle.rows.iter().map(|row| row.told.as_str()).collect::<Vec<_>>(), wanted);
                prop_assert_eq!(middle.counted, whole.counted);
                let beyond = ledger.shelved(&wants, by, way, Part::Rows { most: 2, after: 90 }).unwrap();
                prop_assert_eq!((beyond.counted, beyond.rows.len()), (whole.counted, 0));

                let everything = ledger.whole_shelf(by, way, Part::Whole).unwrap();
                prop_assert_eq!(everything, ledger.shelved(&[], by, way, Part::Whole).unwrap().rows);
                let contested = all.iter().filter(|row| row.contested).count();
                prop_assert_eq!(ledger.contested_on_shelf().unwrap() as usize, contested);

                let without = ledger.count_without_each(&wants).unwrap();
                for (place, count) in without.iter().enumerate() {
                    let mut fewer = wants.clone();
                    fewer.remove(place);
                    let fits = |row: &&Shelved| fewer.iter().all(|want| want.fits(row));
                    prop_assert_eq!(*count as usize, all.iter().filter(fits).count());
                }
                let mut cells = BTreeMap::new();
                for row in all.iter().filter(|row| wants.iter().all(|want| want.fits(row))) {
                    let word =
                        |verdict: &Option<Verdict>| verdict.as_ref().map(|verdict| verdict.word.clone());
                    *cells.entry((word(&row.class), word(&row.habit))).or_insert(0) += 1;
                }
                let quick = ledger.shelf_cells(&wants).unwrap().into_iter();
                let quick: BTreeMap<_, _> =
                    quick.map(|cell| ((cell.class, cell.habit), cell.varieties)).collect();
                prop_assert_eq!(quick, cells);
                Ok(())
            })
            .unwrap();
    });
}

/// Shelves these rows under the names that the varieties have; tells the rows.
fn shelve_these(ledger: &mut Ledger, rows: &[Shelved]) -> Vec<Shelved> {
    let all = RefCell::new(Vec::new());
    ledger.clear_shelf().unwrap();
    shelve(ledger, &|material| {
        let (variety, place) = (&material.variety, all.borrow().len());
        let row = Shelved {
            variety: variety.id,
            name: variety.name.clone(),
            text: format!("{} {}", variety.name, rows[place].text),
            told: variety.name.clone(),
            ..rows[place].clone()
        };
        all.borrow_mut().push(row.clone());
        row
    });
    all.into_inner()
}

#[test]
fn words_of_names_are_known() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        add_varieties(&mut ledger, &["Amber Lantern", "D\u{f6}sli's Best"]);
        shelve(&mut ledger, &simply);
        let asked = ["amber", "lant", "DOSLI", "dosli's", "best", "'; --", "gold"];
        assert_eq!(ledger.name_words(&asked).unwrap(), ["amber", "DOSLI", "dosli's", "best"]);
    });
}
