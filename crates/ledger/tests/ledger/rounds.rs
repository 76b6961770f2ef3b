//! There and back: whatever note goes in comes out the same, on both servers.

use crate::ground::{add_plots, add_varieties, is_sound, on_both, source};
use jiff::civil::Date;
use ledger::batch::BatchKind;
use ledger::ledger::Ledger;
use proptest::option::of as maybe;
use proptest::prelude::*;
use proptest::sample::select;
use proptest::test_runner::{Config, TestRunner};
use record::colour::{ColourReading, ColourSeen, FruitPart, Lab, Pattern, Skin, TradeColour};
use record::doubt::{Doubt, DoubtKind};
use record::fruit::{FruitSample, Severity};
use record::growout::{PlantNumber, Plot};
use record::height::HeightReading;
use record::id::Id;
use record::length::Millimetres;
use record::mass::Grams;
use record::note::Note;
use record::pick::{Cull, CullCause, Pick};
use record::season::Season;
use record::share::Percent;
use record::stage::{LeafCount, StageNote, StageSeen};
use record::subject::Subject;
use record::variety::Variety;
use std::num::NonZeroU32;

type Known = (Vec<Id<Variety>>, Vec<Id<Plot>>);

const COLOURS: [TradeColour; 9] = [
    TradeColour::Red,
    TradeColour::Pink,
    TradeColour::Orange,
    TradeColour::Yellow,
    TradeColour::White,
    TradeColour::Green,
    TradeColour::Brown,
    TradeColour::Black,
    TradeColour::Bicolour,
];
const SEVERITIES: [Severity; 4] = [Severity::Absent, Severity::Slight, Severity::Moderate, Severity::Severe];
const SKINS: [Skin; 2] = [Skin::Clear, Skin::Yellow];
const PATTERNS: [Pattern; 4] = [Pattern::Plain, Pattern::Striped, Pattern::Marbled, Pattern::DarkShouldered];
const CAUSES: [CullCause; 8] = [
    CullCause::Cracked,
    CullCause::Catfaced,
    CullCause::BlossomEndRot,
    CullCause::Rotten,
    CullCause::Sunscald,
    CullCause::Eaten,
    CullCause::Undersized,
    CullCause::Other,
];
const DOUBTS: [DoubtKind; 6] = [
    DoubtKind::BeyondLimit,
    DoubtKind::WeightAgainstSize,
    DoubtKind::SwappedColumns,
    DoubtKind::BeforeTransplanting,
    DoubtKind::UnlikeItsVariety,
    DoubtKind::InTheFuture,
];

fn grams() -> impl Strategy<Value = Grams> {
    prop_oneof![0.0..3000.0, Just(f64::MAX), Just(f64::MIN_POSITIVE), Just(0.1 + 0.2)]
        .prop_map(|grams: f64| Grams::new(grams).unwrap())
}

fn millimetres() -> impl Strategy<Value = Millimetres> {
    (0.0..5000.0).prop_map(|millimetres: f64| Millimetres::new(millimetres).unwrap())
}

fn percent() -> impl Strategy<Value = Percent> {
    (0.0..=100.0).prop_map(|percent: f64| Percent::new(percent).unwrap())
}

fn date() -> impl Strategy<Value = Date> {
    (1900_i16..2200, 1_i8..=12, 1_i8..=28).prop_map(|(year, month, day)| Date::new(year, month, day).unwrap())
}

fn words() -> impl Strategy<Value = String> {
    prop_oneof!["[^\0]{0,12}", Just("\\N\t\\.\r\n'\"\u{1F345}".to_owned())]
}

fn subject((varieties, plots): Known) -> impl Strategy<Value = Subject> {
    (select(varieties), 1900_i16..2200, maybe(select(plots)), maybe(any::<u32>())).prop_map(
        |(variety, season, plot, plant)| Subject {
            variety,
            season: Season::new(season).unwrap(),
            plot,
            plant: plant.map(PlantNumber),
        },
    )
}

fn fruit(known: Known) -> impl Strategy<Value = FruitSample> {
    let measures = (maybe(grams()), maybe(millimetres()), maybe(millimetres()), maybe(millimetres()));
    let cut = (maybe(any::<u32>()), maybe(percent()), maybe(percent()), maybe(any::<u32>()));
    let blemishes = (maybe(select(&SEVERITIES[..])), maybe(select(&SEVERITIES[..])));
    let colours = (maybe(select(&COLOURS[..])), maybe(select(&COLOURS[..])), maybe(select(&SKINS[..])));
    (subject(known), maybe(date()), 1_u32.., measures, cut, blemishes, colours).prop_map(
        |(subject, sampled_on, count, measures, cut, blemishes, colours)| FruitSample {
            subject,
            sampled_on,
            fruit_count: NonZeroU32::new(count).unwrap(),
            weight: measures.0,
            length: measures.1,
            width: measures.2,
            neck_width: measures.3,
            locules: cut.0,
            soluble_solids: cut.1,
            dry_matter: cut.2,
            lobes: cut.3,
            cracking: blemishes.0,
            catfacing: blemishes.1,
            exterior: colours.0,
            flesh: colours.1,
            skin: colours.2,
        },
    )
}

fn pick(known: Known) -> impl Strategy<Value = Pick> {
    let cull = (select(&CAUSES[..]), maybe(any::<u32>()), maybe(grams()))
        .prop_map(|(cause, fruit_count, weight)| Cull { cause, fruit_count, weight });
    (subject(known), date(), maybe(any::<u32>()), maybe(grams()), prop::collection::vec(cull, 0..4)).prop_map(
        |(subject, picked_on, fruit_count, weight, culls)| Pick {
            subject,
            picked_on,
            fruit_count,
            weight,
            culls,
        },
    )
}

fn seen() -> impl Strategy<Value = StageSeen> {
    let leaves = (0.0..=20.0).prop_map(|leaves: f64| LeafCount::new(leaves).unwrap());
    prop_oneof![
        Just(StageSeen::FirstFlower),
        Just(StageSeen::FirstRipe),
        Just(StageSeen::DwarfLeaves),
        maybe(any::<u32>()).prop_map(|trusses| StageSeen::StemEnded { trusses }),
        any::<u32>().prop_map(|trusses| StageSeen::StemGrowing { trusses }),
        leaves.prop_map(StageSeen::LeavesBetweenTrusses),
        any::<u32>().prop_map(StageSeen::PlantCount),
        (any::<u32>(), words()).prop_map(|(plants, words)| StageSeen::OffType { plants, words }),
    ]
}

fn colour(known: Known) -> impl Strategy<Value = ColourReading> {
    let measured = (0.0..=100.0, -150.0..=150.0, -150.0..=150.0)
        .prop_map(|(lightness, a, b)| ColourSeen::Measured(Lab::new(lightness, a, b).unwrap()));
    let seen = prop_oneof![select(&COLOURS[..]).prop_map(ColourSeen::Word), measured];
    let part = select(&[FruitPart::Exterior, FruitPart::Flesh, FruitPart::Gel][..]);
    let laid = (maybe(select(&PATTERNS[..])), maybe(select(&SKINS[..])));
    (subject(known), maybe(date()), part, seen, laid).prop_map(
        |(subject, read_on, part, seen, (pattern, skin))| ColourReading {
            subject,
            read_on,
            part,
            seen,
            pattern,
            skin,
        },
    )
}

fn note(known: Known) -> impl Strategy<Value = Note> {
    prop_oneof![
        fruit(known.clone()).prop_map(Note::Fruit),
        pick(known.clone()).prop_map(Note::Pick),
        (subject(known.clone()), date(), millimetres())
            .prop_map(|(subject, read_on, height)| Note::Height(HeightReading { subject, read_on, height })),
        (subject(known.clone()), maybe(date()), seen())
            .prop_map(|(subject, noted_on, seen)| Note::Stage(StageNote { subject, noted_on, seen })),
        colour(known).prop_map(Note::Colour),
    ]
}

fn doubts() -> impl Strategy<Value = Vec<Doubt>> {
    let doubt = (select(&DOUBTS[..]), words()).prop_map(|(kind, words)| Doubt { kind, words });
    prop::collection::vec(doubt, 0..3)
}

/// Reading tells notes by noun; this puts what went in into that order.
fn noun(note: &Note) -> u8 {
    match note {
        Note::Fruit(_) => 0,
        Note::Pick(_) => 1,
        Note::Height(_) => 2,
        Note::Stage(_) => 3,
        Note::Colour(_) => 4,
    }
}

#[test]
fn every_note_comes_back_as_it_went_in() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let varieties = add_varieties(&mut ledger, &["Amber", "Brindle", "Candle"]);
        let plots = add_plots(&mut ledger, &varieties);
        let notes = prop::collection::vec((note((varieties, plots)), doubts()), 1..40);
        let mut runner =
            TestRunner::new(Config { cases: 24, failure_persistence: None, ..Config::default() });
        let ledger = std::cell::RefCell::new(ledger);
        let mut file = 0;
        let file = std::cell::RefCell::new(&mut file);
        runner
            .run(&notes, |mut notes| {
                let mut ledger = ledger.borrow_mut();
                **file.borrow_mut() += 1;
                let name = format!("{}.csv", file.borrow());
                let mut writer =
                    ledger.begin_batch(&source(BatchKind::ByHand, &name, 9 + **file.borrow())).unwrap();
                for (row, (note, doubts)) in (1..).zip(&notes) {
                    writer.add_note(row, note, doubts).unwrap();
                }
                let batch = writer.commit().unwrap().batch;
                notes.sort_by_key(|(note, _)| noun(note));
                let read = ledger.records_in(batch).unwrap();
                let read: Vec<_> =
                    read.into_iter().map(|recorded| (recorded.note, recorded.doubts)).collect();
                prop_assert_eq!(read, notes);
                Ok(())
            })
            .unwrap();
        is_sound(&mut ledger.borrow_mut());
    });
}
