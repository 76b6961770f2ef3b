//! The words of habit and colour calls, read by eye before they are accepted.

#![expect(clippy::unwrap_used, reason = "what these tests write down is possible, and a test may stop")]

use identity::call::{Call, Pull};
use identity::colour::evidence::ColourEvidence;
use identity::colour::{self, ColourModel};
use identity::guide::{colour as colour_guide, habit as habit_guide};
use identity::habit::evidence::HabitEvidence;
use identity::habit::{self, HabitModel};
use record::colour::{ColourReading, ColourSeen, FruitPart, Lab, Skin, TradeColour};
use record::growout::{PlantNumber, Plot};
use record::height::HeightReading;
use record::id::Id;
use record::language::Units;
use record::length::Millimetres;
use record::mass::Grams;
use record::note::Note;
use record::pick::Pick;
use record::season::Season;
use record::stage::{LeafCount, StageNote, StageSeen};
use record::subject::Subject;
use std::fmt::{Debug, Write};

fn subject(plant: Option<u32>) -> Subject {
    Subject {
        variety: Id::from_uuid(uuid::Uuid::from_u128(7)),
        season: Season::new(2031).unwrap(),
        plot: Some(Id::<Plot>::from_uuid(uuid::Uuid::from_u128(1))),
        plant: plant.map(PlantNumber),
    }
}

fn stage(plant: u32, seen: StageSeen) -> Note {
    Note::Stage(StageNote { subject: subject(Some(plant)), noted_on: None, seen })
}

fn told<V: Debug>(call: &Call<V>) -> String {
    let mut text = String::new();
    writeln!(text, "{:?}, contested: {}", call.verdict, call.contested).unwrap();
    writeln!(text, "{}", call.rule).unwrap();
    for line in &call.lines {
        let pull = match line.pull {
            Pull::LogOdds(odds) => format!("{odds:.1}"),
            Pull::WithoutIt(_) | Pull::Missing | Pull::Aside => format!("{:?}", line.pull),
        };
        writeln!(text, "  {} [{pull}]: {}", line.about, line.words).unwrap();
    }
    for step in &call.settle {
        writeln!(text, "  next: {} -> {:.2}", step.words, step.expected.get()).unwrap();
    }
    text
}

fn habit_told(notes: &[Note], units: Units) -> String {
    let model = HabitModel::new(&habit_guide::read("habit.toml", habit_guide::SHIPPED).unwrap());
    told(&habit::call(&HabitEvidence::gather(notes), &model, units).habit)
}

#[test]
fn a_full_habit_call_in_words() {
    let mut notes: Vec<Note> =
        (1..=7).map(|plant| stage(plant, StageSeen::StemEnded { trusses: Some(3 + plant % 3) })).collect();
    notes.push(stage(8, StageSeen::StemGrowing { trusses: 2 }));
    notes.extend((1..=8).map(|plant| {
        stage(plant, StageSeen::LeavesBetweenTrusses(LeafCount::new(1.0 + f64::from(plant % 2)).unwrap()))
    }));
    let date = |days: i64| jiff::civil::date(2031, 6, 1) + jiff::Span::new().days(days);
    notes.extend((0..9).map(|week: i64| {
        let height = Millimetres::new((week as f64 * 210.0).min(1010.0) + 120.0).unwrap();
        Note::Height(HeightReading { subject: subject(None), read_on: date(week * 7), height })
    }));
    notes.extend([(60, 300.0), (64, 900.0), (68, 1500.0), (72, 1200.0), (78, 400.0), (90, 60.0)].map(
        |(day, grams)| {
            let weight = Grams::new(grams);
            Note::Pick(Pick {
                subject: subject(None),
                picked_on: date(day),
                fruit_count: None,
                weight,
                culls: Vec::new(),
            })
        },
    ));
    insta::assert_snapshot!(habit_told(&notes, Units::US));
}

#[test]
fn a_thin_habit_call_in_words() {
    insta::assert_snapshot!(habit_told(&[stage(1, StageSeen::StemGrowing { trusses: 4 })], Units::METRIC));
}

#[test]
fn a_habit_call_on_the_border_in_words() {
    let notes: Vec<Note> =
        (1..=12).map(|plant| stage(plant, StageSeen::StemEnded { trusses: Some(6 + plant % 2) })).collect();
    insta::assert_snapshot!(habit_told(&notes, Units::METRIC));
}

#[test]
fn a_habit_that_nobody_looked_at_in_words() {
    insta::assert_snapshot!(habit_told(&[], Units::METRIC));
}

fn colour_told(readings: impl IntoIterator<Item = ColourReading>) -> String {
    let model = ColourModel::new(&colour_guide::read("colour.toml", colour_guide::SHIPPED).unwrap());
    let notes: Vec<Note> = readings.into_iter().map(Note::Colour).collect();
    let call = colour::call(&ColourEvidence::gather(&notes), &model);
    let parts = [told(&call.exterior), told(&call.flesh), told(&call.skin), told(&call.pattern)];
    format!("{:?}\n{}\nclash: {:?}", call.verdict(), parts.join("\n"), call.clash)
}

fn reading(part: FruitPart, seen: ColourSeen) -> ColourReading {
    ColourReading { subject: subject(None), read_on: None, part, seen, pattern: None, skin: None }
}

#[test]
fn a_colour_call_that_clashes_in_words() {
    let red = || reading(FruitPart::Exterior, ColourSeen::Word(TradeColour::Red));
    let flesh = ColourReading {
        skin: Some(Skin::Clear),
        ..reading(FruitPart::Flesh, ColourSeen::Word(TradeColour::Red))
    };
    let measured = reading(FruitPart::Exterior, ColourSeen::Measured(Lab::new(44.0, 34.0, 20.0).unwrap()));
    insta::assert_snapshot!(colour_told([red(), red(), flesh.clone(), flesh.clone(), flesh, measured]));
}

#[test]
fn one_colour_word_in_words() {
    insta::assert_snapshot!(colour_told([reading(FruitPart::Exterior, ColourSeen::Word(TradeColour::Pink))]));
}
