//! Calling habit and colour for a large house: 10,000 varieties with three plots each.

#![expect(
    clippy::unwrap_used,
    reason = "notes written here are possible, and the guides are the shipped ones"
)]

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

fn main() {
    divan::main();
}

/// Varieties of the full house.
const VARIETIES: u32 = 10_000;

fn subject(variety: u32, plot: u32, plant: Option<u32>) -> Subject {
    let plots = u128::from(variety) * 3 + u128::from(plot);
    Subject {
        variety: Id::from_uuid(uuid::Uuid::from_u128(u128::from(variety))),
        season: Season::new(2029 + i16::try_from(plot).unwrap()).unwrap(),
        plot: Some(Id::<Plot>::from_uuid(uuid::Uuid::from_u128(plots))),
        plant: plant.map(PlantNumber),
    }
}

/// Three plots: six stems and leaf counts, ten heights and fifteen picks in each.
fn habit_evidence(variety: u32) -> HabitEvidence {
    let mut evidence = HabitEvidence::default();
    let trusses = 3 + variety % 9;
    for plot in 0..3 {
        for plant in 1..=6 {
            let subject = subject(variety, plot, Some(plant));
            let seen = if trusses < 9 {
                StageSeen::StemEnded { trusses: Some(trusses + plant % 2) }
            } else {
                StageSeen::StemGrowing { trusses }
            };
            evidence.note(&Note::Stage(StageNote { subject, noted_on: None, seen }));
            let leaves = LeafCount::new(1.0 + f64::from(trusses) / 6.0).unwrap();
            let seen = StageSeen::LeavesBetweenTrusses(leaves);
            evidence.note(&Note::Stage(StageNote { subject, noted_on: None, seen }));
        }
        let subject = subject(variety, plot, None);
        for week in 0..10 {
            let read_on = jiff::civil::date(2031, 6, 1) + jiff::Span::new().weeks(i64::from(week));
            let height =
                Millimetres::new((200.0 * f64::from(week)).min(1400.0) + f64::from(variety % 50)).unwrap();
            evidence.note(&Note::Height(HeightReading { subject, read_on, height }));
        }
        for pick in 0..15 {
            let picked_on = jiff::civil::date(2031, 8, 1) + jiff::Span::new().days(i64::from(pick * 3));
            let weight = Grams::new(f64::from(200 + (variety + pick * 37) % 900));
            evidence.note(&Note::Pick(Pick {
                subject,
                picked_on,
                fruit_count: None,
                weight,
                culls: Vec::new(),
            }));
        }
    }
    evidence
}

/// Three plots: ten words, three measured colours and five peeled skins in each.
fn colour_evidence(variety: u32) -> ColourEvidence {
    let mut evidence = ColourEvidence::default();
    let colour = *TradeColour::ALL.iter().cycle().nth(variety as usize % TradeColour::ALL.len()).unwrap();
    for plot in 0..3 {
        let reading = |part, seen| ColourReading {
            subject: subject(variety, plot, None),
            read_on: None,
            part,
            seen,
            pattern: None,
            skin: Some(*Skin::ALL.iter().cycle().nth(variety as usize % 2).unwrap()),
        };
        for fruit in 0..10 {
            let word = if fruit == 0 { TradeColour::Red } else { colour };
            evidence.reading(&reading(FruitPart::Exterior, ColourSeen::Word(word)));
        }
        for fruit in 0..3 {
            let lab = Lab::new(45.0 + f64::from(fruit), 30.0, 25.0).unwrap();
            evidence.reading(&reading(FruitPart::Exterior, ColourSeen::Measured(lab)));
        }
    }
    evidence
}

#[divan::bench(sample_count = 3)]
fn habit_of_10_000_varieties(bencher: divan::Bencher<'_, '_>) {
    let model = HabitModel::new(&habit_guide::read("habit.toml", habit_guide::SHIPPED).unwrap());
    let house: Vec<HabitEvidence> = (0..VARIETIES).map(habit_evidence).collect();
    bencher.bench_local(|| {
        house.iter().filter(|evidence| habit::call(evidence, &model, Units::US).habit.contested).count()
    });
}

#[divan::bench(sample_count = 3)]
fn habit_of_10_000_varieties_with_one_plant(bencher: divan::Bencher<'_, '_>) {
    let model = HabitModel::new(&habit_guide::read("habit.toml", habit_guide::SHIPPED).unwrap());
    let thin = |variety: u32| {
        let seen = StageSeen::StemGrowing { trusses: 3 + variety % 5 };
        HabitEvidence::gather(&[Note::Stage(StageNote {
            subject: subject(variety, 0, Some(1)),
            noted_on: None,
            seen,
        })])
    };
    let house: Vec<HabitEvidence> = (0..VARIETIES).map(thin).collect();
    bencher.bench_local(|| {
        house.iter().filter(|evidence| habit::call(evidence, &model, Units::US).habit.contested).count()
    });
}

#[divan::bench(sample_count = 3)]
fn colour_of_10_000_varieties(bencher: divan::Bencher<'_, '_>) {
    let model = ColourModel::new(&colour_guide::read("colour.toml", colour_guide::SHIPPED).unwrap());
    let house: Vec<ColourEvidence> = (0..VARIETIES).map(colour_evidence).collect();
    bencher.bench_local(|| {
        house.iter().filter(|evidence| colour::call(evidence, &model).exterior.contested).count()
    });
}
