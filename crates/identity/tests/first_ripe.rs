//! Days to the first ripe fruit and the height of plants, worked out by hand from a few notes.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

use identity::first_ripe::{RipeEvidence, Transplanted};
use identity::habit::evidence::HabitEvidence;
use identity::over_plots::OverPlots;
use identity::plant_height::tallest;
use jiff::civil::{Date, date};
use record::growout::{GrowOut, Plant, PlantNumber, Plot};
use record::height::HeightReading;
use record::id::Id;
use record::length::Millimetres;
use record::note::Note;
use record::pick::Pick;
use record::season::Season;
use record::stage::{StageNote, StageSeen};
use record::subject::Subject;
use uuid::Uuid;

fn plot(number: u128, transplanted: Option<Date>) -> Plot {
    Plot {
        id: Id::from_uuid(Uuid::from_u128(number)),
        grow_out: Id::<GrowOut>::from_uuid(Uuid::from_u128(900)),
        label: number.to_string(),
        variety: Id::from_uuid(Uuid::from_u128(700)),
        block: None,
        row: None,
        position: None,
        transplanted,
        plant_count: None,
        layout: record::growout::PlotLayout::default(),
    }
}

fn subject(plot: u128, plant: Option<u32>) -> Subject {
    Subject {
        variety: Id::from_uuid(Uuid::from_u128(700)),
        season: Season::new(2031).unwrap(),
        plot: Some(Id::from_uuid(Uuid::from_u128(plot))),
        plant: plant.map(PlantNumber),
    }
}

fn ripe(plot: u128, plant: Option<u32>, on: Date) -> Note {
    Note::Stage(StageNote { subject: subject(plot, plant), noted_on: Some(on), seen: StageSeen::FirstRipe })
}

fn pick(plot: u128, on: Date, fruits: u32) -> Note {
    let fruit_count = Some(fruits);
    Note::Pick(Pick {
        subject: subject(plot, None),
        picked_on: on,
        fruit_count,
        weight: None,
        culls: Vec::new(),
    })
}

fn days(notes: &[Note], transplanted: &Transplanted) -> Option<OverPlots> {
    let mut evidence = RipeEvidence::default();
    notes.iter().for_each(|note| evidence.note(note));
    evidence.days(transplanted)
}

/// Plot 1: noted on 14 August, 75 days after 31 May (30 days of June, 31 of July, 14). Plot 2: picked first on
/// 20 August, 81 days; the empty pick before it counts for nothing. Plot 3 was never picked, plot 4 has no day.
#[test]
fn a_note_comes_before_a_pick_and_an_unpicked_plot_says_nothing() {
    let out = Some(date(2031, 5, 31));
    let plots = [plot(1, out), plot(2, out), plot(3, out), plot(4, None)];
    let transplanted = Transplanted::new(&plots, &[]);
    let notes = [
        ripe(1, None, date(2031, 8, 14)),
        pick(1, date(2031, 8, 19), 5),
        pick(2, date(2031, 8, 10), 0),
        pick(2, date(2031, 8, 20), 3),
        pick(2, date(2031, 8, 27), 9),
        pick(4, date(2031, 8, 1), 9),
    ];
    let expected = OverPlots { usual: 78.0, low: 75.0, high: 81.0, plots: 2 };
    assert_eq!(days(&notes, &transplanted), Some(expected));
    let mut turned = notes.to_vec();
    turned.reverse();
    assert_eq!(days(&turned, &transplanted), Some(expected), "in any order");
    assert_eq!(days(&[pick(4, date(2031, 8, 1), 9)], &transplanted), None);
}

/// A plant that went out ten days after its plot is counted from its own day: 65 days beside 75, the plot is 70.
#[test]
fn a_plant_is_counted_from_its_own_day() {
    let late = Plant {
        plot: Id::from_uuid(Uuid::from_u128(1)),
        number: PlantNumber(2),
        transplanted: Some(date(2031, 6, 10)),
        lost: None,
    };
    let transplanted = Transplanted::new(&[plot(1, Some(date(2031, 5, 31)))], &[late]);
    let notes = [ripe(1, Some(1), date(2031, 8, 14)), ripe(1, Some(2), date(2031, 8, 14))];
    let expected = OverPlots { usual: 70.0, low: 70.0, high: 70.0, plots: 1 };
    assert_eq!(days(&notes, &transplanted), Some(expected));
}

/// A first ripe fruit before its transplanting, or 220 days after, is a slip of the pen.
#[test]
fn a_slip_in_a_date_is_left_out() {
    let transplanted = Transplanted::new(&[plot(1, Some(date(2031, 5, 31)))], &[]);
    assert_eq!(days(&[ripe(1, None, date(2031, 5, 1))], &transplanted), None);
    assert_eq!(days(&[ripe(1, None, date(2032, 2, 1))], &transplanted), None);
}

/// Plot 1: plants of 1200 (its tallest) and 1000 mm, plot 2: 900 mm; the median of 1100 and 900 is 1000.
#[test]
fn a_plant_is_as_tall_as_its_tallest_reading() {
    let height = |plot, plant, on, mm| {
        let height = Millimetres::new(mm).unwrap();
        Note::Height(HeightReading { subject: subject(plot, Some(plant)), read_on: on, height })
    };
    let notes = [
        height(1, 1, date(2031, 7, 1), 700.0),
        height(1, 1, date(2031, 8, 1), 1200.0),
        height(1, 2, date(2031, 8, 1), 1000.0),
        height(2, 1, date(2031, 8, 1), 900.0),
    ];
    let evidence = HabitEvidence::gather(&notes);
    assert_eq!(tallest(&evidence), Some(OverPlots { usual: 1000.0, low: 900.0, high: 1100.0, plots: 2 }));
    assert_eq!(tallest(&HabitEvidence::default()), None);
}
