//! Are the probabilities honest? Varieties are drawn from the shipped guides, walked as growers walk, and
//! called; of the calls made at 80 to 90 in 100, about that many must be right.
//!
//! The walks here are drawn by their own plain code, with seasons and plants that the method does not see
//! in the same form: a plot's trusses shift, a plant in thirty is an off-type, a plot in fifty is a stray.

#![expect(clippy::unwrap_used, reason = "what these tests write down is possible, and a test may stop")]

use identity::guide::habit::{HabitGuide, SHIPPED, read};
use identity::habit::evidence::HabitEvidence;
use identity::habit::{Habit, HabitModel, Stature, Stem, call};
use rand::RngExt;
use rand_chacha::ChaCha8Rng;
use record::growout::{PlantNumber, Plot};
use record::height::HeightReading;
use record::id::Id;
use record::language::Units;
use record::length::Millimetres;
use record::note::Note;
use record::season::Season;
use record::stage::{LeafCount, StageNote, StageSeen};
use record::subject::Subject;
use statistics::draws::{normal, stream};

/// A variety as it truly is.
#[derive(Clone, Copy)]
struct Truth {
    stature: Stature,
    stem: Stem,
    trusses: f64,
    leaves: f64,
    height: f64,
}

fn drawn(guide: &HabitGuide, chance: &mut ChaCha8Rng) -> Truth {
    let stature = one_of(Stature::ALL, |stature| guide.stature.of(stature).number, chance);
    let stem = one_of(Stem::ALL, |stem| guide.stem.of(stature).of(stem).number, chance);
    let ends = match stem {
        Stem::Determinate => &guide.trusses.determinate,
        Stem::SemiDeterminate | Stem::Indeterminate => &guide.trusses.semi_determinate,
    };
    let leaves = guide.leaves.mean.of(stem);
    let grown = match stature {
        Stature::Tall => guide.final_height.tall.of(stem),
        Stature::Dwarf => &guide.final_height.dwarf,
        Stature::MicroDwarf => &guide.final_height.micro_dwarf,
    };
    Truth {
        stature,
        stem,
        trusses: ends.mean.number + ends.sd.number * normal(chance),
        leaves: leaves.mean.number + leaves.sd.number * normal(chance),
        height: grown.median.number * (grown.log_sd.number * normal(chance)).exp(),
    }
}

fn one_of<T: Copy, const N: usize>(all: [T; N], share: impl Fn(T) -> f64, chance: &mut ChaCha8Rng) -> T {
    let mut left: f64 = chance.random_range(0.0..1.0);
    let found = all.into_iter().find(|one| {
        left -= share(*one);
        left < 0.0
    });
    found.or(all.last().copied()).unwrap()
}

/// What one plot of so many plants shows: stems and leaves always, heights in half of the plots.
fn walked(truth: Truth, plot: u128, plants: u32, guide: &HabitGuide, chance: &mut ChaCha8Rng) -> Vec<Note> {
    let stray = chance.random_bool(guide.mistakes.stray_plot_rate.number);
    let truth = if stray { drawn(guide, chance) } else { truth };
    let shift = guide.trusses.plot_sd.number * normal(chance);
    let frost = chance.random_range(5..14_u32);
    let mut notes = Vec::new();
    for plant in 1..=plants {
        let off_type = chance.random_bool(guide.mistakes.off_type_rate.number);
        let truth = if off_type { drawn(guide, chance) } else { truth };
        let at = subject(plot, Some(plant));
        let end =
            (truth.trusses + shift + guide.trusses.plant_sd.number * normal(chance)).round().max(1.0) as u32;
        let seen = if truth.stem != Stem::Indeterminate && end <= frost {
            StageSeen::StemEnded { trusses: Some(end) }
        } else {
            StageSeen::StemGrowing { trusses: frost }
        };
        notes.push(Note::Stage(StageNote { subject: at, noted_on: None, seen }));
        let leaves = (truth.leaves + guide.leaves.plant_sd.number * normal(chance)).clamp(0.0, 20.0);
        let seen = StageSeen::LeavesBetweenTrusses(LeafCount::new(leaves).unwrap());
        notes.push(Note::Stage(StageNote { subject: at, noted_on: None, seen }));
    }
    if chance.random_bool(guide.dwarf_leaves.of(truth.stature).number) {
        let at = subject(plot, Some(1));
        notes.push(Note::Stage(StageNote { subject: at, noted_on: None, seen: StageSeen::DwarfLeaves }));
    }
    if chance.random_bool(0.5) {
        notes.extend(heights(truth, plot, chance));
    }
    notes
}

/// Ten weekly heights that rise to the plant's own height, by its stem soon or not before frost.
fn heights(truth: Truth, plot: u128, chance: &mut ChaCha8Rng) -> Vec<Note> {
    let weeks = match truth.stem {
        Stem::Determinate => 5.0,
        Stem::SemiDeterminate => 8.0,
        Stem::Indeterminate => 11.0,
    };
    let reading = |week: u32| {
        let grown = (truth.height * (0.1 + 0.9 * f64::from(week) / weeks).min(1.0)).max(20.0);
        let read = (grown + 15.0 * normal(chance)).max(5.0);
        Note::Height(HeightReading {
            subject: subject(plot, None),
            read_on: jiff::civil::date(2031, 6, 1) + jiff::Span::new().weeks(i64::from(week)),
            height: Millimetres::new(read).unwrap(),
        })
    };
    (0..10).map(reading).collect()
}

fn subject(plot: u128, plant: Option<u32>) -> Subject {
    Subject {
        variety: Id::from_uuid(uuid::Uuid::from_u128(7)),
        season: Season::new(2031).unwrap(),
        plot: Some(Id::<Plot>::from_uuid(uuid::Uuid::from_u128(plot))),
        plant: plant.map(PlantNumber),
    }
}

/// Varieties walked.
const VARIETIES: u32 = 3000;

#[test]
fn habit_calls_are_right_as_often_as_they_say() {
    let guide = read("habit.toml", SHIPPED).unwrap();
    let model = HabitModel::new(&guide);
    let mut chance = stream(&["calibration", "habit"]);
    // Calls, their summed probability, and how many were right, by tenths of the probability.
    let mut tenths = [(0_u32, 0.0, 0_u32); 10];
    let (mut right, mut said) = (0, 0.0);
    for _ in 0..VARIETIES {
        let truth = drawn(&guide, &mut chance);
        let plots = chance.random_range(1..=2_u128);
        let plants = chance.random_range(1..=8_u32);
        let notes: Vec<Note> =
            (1..=plots).flat_map(|plot| walked(truth, plot, plants, &guide, &mut chance)).collect();
        let call = call(&HabitEvidence::gather(&notes), &model, Units::METRIC).habit;
        let probability = call.probability().get();
        let is_right = call.verdict == Some(Habit::of(truth.stem, truth.stature));
        let tenth = &mut tenths[((probability * 10.0) as usize).min(9)];
        *tenth = (tenth.0 + 1, tenth.1 + probability, tenth.2 + u32::from(is_right));
        (right, said) = (right + u32::from(is_right), said + probability);
    }
    for (calls, summed, right) in tenths.iter().filter(|tenth| 0 < tenth.0) {
        let (calls, right) = (f64::from(*calls), f64::from(*right));
        println!("said {:.2}, right {:.2} of {calls} calls", summed / calls, right / calls);
        // Four standard errors of a share, and three in a hundred for what the walks here do otherwise.
        let slack = 4.0 * (0.25 / calls).sqrt() + 0.03;
        assert!((summed / calls - right / calls).abs() <= slack, "{summed} {right} {calls}");
    }
    println!(
        "all: said {:.3}, right {:.3}",
        said / f64::from(VARIETIES),
        f64::from(right) / f64::from(VARIETIES)
    );
    assert!((said - f64::from(right)).abs() <= 0.03 * f64::from(VARIETIES), "{said} {right}");
}
