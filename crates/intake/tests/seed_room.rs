//! Tables of the seed room: lots, weighings of their seed and germination tests, in the state that they are kept in.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]

mod house;

use house::{Outcome, taken};
use intake::entry::{Entry, NewLot};
use intake::kind::Kind;
use jiff::civil::date;
use record::germination::Made;
use record::lot::LotNote;
use record::mass::Milligrams;
use record::season::Season;

fn lots(outcome: &Outcome) -> Vec<&NewLot> {
    outcome
        .entries
        .iter()
        .filter_map(|(_, entry, _)| if let Entry::Lot(lot) = entry { Some(lot.as_ref()) } else { None })
        .collect()
}

fn noted(outcome: &Outcome) -> Vec<&LotNote> {
    outcome
        .entries
        .iter()
        .filter_map(|(_, entry, _)| if let Entry::LotNote(noted) = entry { Some(&noted.note) } else { None })
        .collect()
}

#[test]
fn a_lot_tells_where_it_comes_from_and_what_came_in() {
    let text = "Lot no.,Variety,Year,Grow-out,Plot,Harvested,Cleaned,Seed (g),Parent plants,Sown from,Isolation,Shelf,Kept at,Moisture %,Treated with\n\
                31-001,Amber Bell,2031,2031 Home,B1,2031-09-02,2031-10-01,42.5,12,30-001,100 ft,cellar,50 F,6.4,hot water\n\
                31-002,Nan,,,,2031-09-10,,1.5 oz,,,,,,,\n";
    let outcome = taken("lots.csv", text);
    assert_eq!((outcome.layout.kind, outcome.reasons()), (Kind::Lots, Vec::<String>::new()));
    let lots = lots(&outcome);
    assert_eq!((lots[0].number.as_str(), lots[0].season), ("31-001", Season::new(2031).unwrap()));
    let LotNote::Origin(origin) = &lots[0].notes[0] else { panic!("no origin") };
    assert_eq!((origin.harvested_on, origin.parents), (Some(date(2031, 9, 2)), Some(12)));
    assert_eq!(origin.isolation.map(|away| away.get().round()), Some(30_480.0));
    assert!(origin.plot.is_some() && origin.sown_from.is_some());
    assert_eq!(origin.treatment.as_deref(), Some("hot water"));
    let LotNote::Movement(came_in) = &lots[0].notes[1] else { panic!("no seed") };
    assert_eq!((came_in.on, came_in.mass), (date(2031, 10, 1), Milligrams::new(42_500)));
    let LotNote::Keeping(keeping) = &lots[0].notes[2] else { panic!("not kept") };
    assert_eq!(keeping.temperature.map(|warm| warm.get().round()), Some(10.0));
    // The day of harvest gives the season, and the day on which the seed came in where none is told.
    let LotNote::Movement(came_in) = &lots[1].notes[1] else { panic!("no seed") };
    assert_eq!((lots[1].season.year(), came_in.on), (2031, date(2031, 9, 10)));
    assert_eq!(came_in.mass, Milligrams::new(42_524));
}

#[test]
fn weighings_stand_in_one_cell_or_in_columns() {
    let outcome = taken(
        "weighings.csv",
        "lot,weighed on,seeds each,weights (mg)\n30-001,2031-10-02,100,\"284, 279, 281\"\n",
    );
    let LotNote::Weighing(weighing) = noted(&outcome)[0] else { panic!("no weighing") };
    assert_eq!((outcome.layout.kind, weighing.seeds_each), (Kind::SeedWeighings, 100));
    assert_eq!(weighing.masses, [284, 279, 281].map(Milligrams::new));
    let columns = "Lot;Date;Rep 1 (g);Rep 2 (g);Rep 3 (g)\n30-001;2031-10-02;0.284;0.279;\n";
    let outcome = taken("seed weighings.csv", columns);
    let LotNote::Weighing(weighing) = noted(&outcome)[0] else { panic!("no weighing") };
    assert_eq!(weighing.masses, [284, 279].map(Milligrams::new));
}

#[test]
fn a_germination_test_is_a_row() {
    let text = "lot,laid out,counted,seeds,normal,abnormal,hard,lab\n\
                30-001,2031-11-03,2031-11-17,100,92 88 95 91,3 5 2 4,0/0/1/0,\n\
                30-001,2031-11-03,2031-11-17,50,\"44, 41\",,,yes\n";
    let outcome = taken("germination.csv", text);
    assert_eq!((outcome.layout.kind, outcome.reasons()), (Kind::GerminationTests, Vec::<String>::new()));
    let [LotNote::Germination(own), LotNote::Germination(lab)] = noted(&outcome)[..] else {
        panic!("no tests")
    };
    assert_eq!((own.made, lab.made), (Made::InHouse, Made::Laboratory));
    let dead: Vec<u32> = own.replicates.iter().map(|replicate| replicate.seedlings().dead).collect();
    assert_eq!(dead, [5, 7, 2, 5]);
    let columns = "Lot,Start,Final count,Rep 1,Rep 2,Rep 3,Rep 4\n30-001,2031-11-03,2031-11-17,92,88,95,91\n";
    let outcome = taken("germination tests.csv", columns);
    let [LotNote::Germination(test)] = noted(&outcome)[..] else { panic!("no test") };
    let normal: Vec<u32> = test.replicates.iter().map(|replicate| replicate.seedlings().normal).collect();
    assert_eq!(normal, [92, 88, 95, 91]);
}

/// What cannot be read waits in the quarantine, told by row, column and value.
#[test]
fn faults_are_told_by_row_and_column() {
    let text = "lot,variety,season,date,seed,plot,sown from,kept at\n\
                31-001,Nobody Knows,2031,2031-10-01,1 g,,,\n\
                31-002,Nan,31,2031-10-01,1 g,,,\n\
                31-003,Nan,2031,2031-10-01,1,,,\n\
                31-004,Nan,2031,,1 g,,,\n\
                31-005,Nan,2031,2031-10-01,1 g,Z9,,\n\
                31-006,Nan,2031,2031-10-01,1 g,,29-999,\n\
                31-007,Nan,2031,2031-10-01,1 g,,,warm\n\
                ,Nan,2031,2031-10-01,1 g,,,\n";
    let outcome = taken("lots.csv", text);
    assert_eq!(
        outcome.reasons(),
        [
            "2: variety: no variety is named \"Nobody Knows\"",
            "3: season: \"31\" is no season's year",
            "4: seed: \"1\" has no unit",
            "5: date: the row names no date",
            "6: plot: no plot is labelled \"Z9\"",
            "7: sown from: no lot is numbered \"29-999\"",
            "8: kept at: \"warm\" is no temperature with its scale that is known here",
            "9: lot: the row names no lot",
        ]
    );
    let text = "lot,laid out,counted,seeds,normal,abnormal\n\
                29-999,2031-11-03,2031-11-17,100,90 91,\n\
                30-001,2031-11-03,2031-11-17,100,90 101,\n\
                30-001,2031-11-03,2031-11-17,100,90 91,5\n\
                30-001,2031-11-17,2031-11-03,100,90 91,\n\
                30-001,2031-11-03,2031-11-17,100,many,\n";
    let reasons = taken("germination.csv", text).reasons();
    assert_eq!(
        reasons[..4],
        [
            "2: lot: no lot is numbered \"29-999\"",
            "3: normal: replicate 2: 101 seedlings and seeds were counted of 100 laid out",
            "4: abnormal: 2 replicates, and 1 numbers here",
            "5: counted: the seeds were counted before they were laid out",
        ]
    );
    assert!(reasons[4].starts_with("6: normal: "), "{reasons:?}");
}
