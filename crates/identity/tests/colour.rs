//! Colour calls from words and measured colours, and what must hold of any of them.

#![expect(clippy::unwrap_used, reason = "what these tests write down is possible, and a test may stop")]

use identity::call::{Action, Call, SETTLED_AT};
use identity::colour::evidence::ColourEvidence;
use identity::colour::{ColourCall, ColourModel, call};
use identity::guide::colour::{ColourGuide, SHIPPED, read};
use proptest::prelude::{Just, Strategy, prop, prop_assert, prop_oneof, proptest};
use proptest::sample::select;
use record::colour::{ColourReading, ColourSeen, FruitPart, Lab, Pattern, Skin, TradeColour};
use record::growout::Plot;
use record::id::Id;
use record::note::Note;
use record::season::Season;
use record::subject::Subject;
use std::sync::LazyLock;

static GUIDE: LazyLock<ColourGuide> = LazyLock::new(|| read("colour.toml", SHIPPED).unwrap());
static MODEL: LazyLock<ColourModel> = LazyLock::new(|| ColourModel::new(&GUIDE));

fn reading(season: i16, plot: u128, part: FruitPart, seen: ColourSeen) -> ColourReading {
    let subject = Subject {
        variety: Id::from_uuid(uuid::Uuid::from_u128(7)),
        season: Season::new(season).unwrap(),
        plot: Some(Id::<Plot>::from_uuid(uuid::Uuid::from_u128(plot))),
        plant: None,
    };
    ColourReading { subject, read_on: None, part, seen, pattern: None, skin: None }
}

fn word(part: FruitPart, colour: TradeColour) -> ColourReading {
    reading(2031, 1, part, ColourSeen::Word(colour))
}

fn measured(part: FruitPart, lab: Lab) -> ColourReading {
    reading(2031, 1, part, ColourSeen::Measured(lab))
}

fn peeled(skin: Skin) -> ColourReading {
    ColourReading { skin: Some(skin), ..word(FruitPart::Gel, TradeColour::Green) }
}

fn called(readings: impl IntoIterator<Item = ColourReading>) -> ColourCall {
    let notes: Vec<Note> = readings.into_iter().map(Note::Colour).collect();
    call(&ColourEvidence::gather(&notes), &MODEL)
}

fn share<V: PartialEq>(call: &Call<V>, answer: &V) -> f64 {
    call.shares.iter().find(|(known, _)| known == answer).unwrap().1.get()
}

/// Facts of the trade, one row a test: skin over flesh gives the colour outside.
#[track_caller]
fn shows(flesh: TradeColour, skin: Skin, outside: TradeColour) {
    let readings = (0..6).flat_map(|_| [word(FruitPart::Flesh, flesh), peeled(skin)]);
    let call = called(readings);
    assert_eq!(call.exterior.verdict, Some(outside), "{flesh:?} {skin:?}: {:?}", call.exterior.shares);
}

/// kdcomm.net; Ohio State 2009; midcolumbiagardens; tomatosilo.com; tomatoseed.com.
#[test]
fn skin_and_flesh_make_the_colour_outside() {
    use TradeColour::{Bicolour, Black, Brown, Green, Orange, Pink, Red, White, Yellow};
    let published = [
        (Red, Skin::Yellow, Red),
        (Red, Skin::Clear, Pink),
        (Brown, Skin::Yellow, Brown),
        (Brown, Skin::Clear, Black),
        (Yellow, Skin::Yellow, Yellow),
        (Yellow, Skin::Clear, Yellow),
        (White, Skin::Clear, White),
        (Orange, Skin::Yellow, Orange),
        (Orange, Skin::Clear, Orange),
        (Green, Skin::Yellow, Green),
        (Green, Skin::Clear, Green),
        (Bicolour, Skin::Yellow, Bicolour),
    ];
    for (flesh, skin, outside) in published {
        shows(flesh, skin, outside);
    }
}

/// Every word, said of six fruits in each of two plots, is believed.
#[test]
fn every_word_repeated_is_called() {
    for colour in TradeColour::ALL {
        let word = |plot| reading(2031, plot, FruitPart::Exterior, ColourSeen::Word(colour));
        let call = called((0..12).map(|fruit| word(1 + fruit % 2)));
        assert_eq!(call.exterior.verdict, Some(colour));
        assert!(!call.exterior.contested, "{:?}", call.exterior.shares);
    }
}

/// Every reference colour of the guide is called by its own word, save two colours in one fruit: their
/// mean is the colour of an orange, so a meter alone leaves them contested.
#[test]
fn every_reference_is_called_by_its_own_word() {
    for reference in &GUIDE.references {
        let call = called((0..6).map(|_| measured(FruitPart::Exterior, reference.lab)));
        match reference.colour {
            TradeColour::Bicolour => assert!(call.exterior.contested, "{:?}", call.exterior.shares),
            plain => assert_eq!(call.exterior.verdict, Some(plain), "{:?}", call.exterior.shares),
        }
    }
}

/// Pinks pass for reds until they are peeled.
#[test]
fn peeling_turns_a_red_into_a_pink() {
    let mut readings: Vec<_> = (0..4).map(|_| word(FruitPart::Exterior, TradeColour::Red)).collect();
    let unpeeled = called(readings.clone());
    assert_eq!(unpeeled.exterior.verdict, Some(TradeColour::Red));
    readings.extend((0..6).flat_map(|_| [word(FruitPart::Flesh, TradeColour::Red), peeled(Skin::Clear)]));
    let peeled = called(readings);
    assert!(share(&unpeeled.exterior, &TradeColour::Pink) < share(&peeled.exterior, &TradeColour::Pink));
    assert!(share(&peeled.exterior, &TradeColour::Red) < 0.8, "{:?}", peeled.exterior.shares);
    assert!(peeled.clash.is_some());
}

#[test]
fn a_fruit_noted_red_and_pink_asks_for_more_readings() {
    let words = [TradeColour::Red, TradeColour::Pink, TradeColour::Pink, TradeColour::Red];
    let call = called(words.map(|colour| word(FruitPart::Exterior, colour)));
    assert!(call.exterior.contested);
    let first = call.exterior.settle.first().unwrap();
    assert!(matches!(first.action, Action::PeelSkin(_) | Action::ReadColour(_)));
    assert!(call.exterior.probability() < first.expected);
}

/// A highlight and a leaf among six readings do not drag the colour away.
#[test]
fn two_stray_readings_in_eight_do_not_turn_the_call() {
    let red = Lab::new(40.0, 36.0, 27.0).unwrap();
    let mut readings: Vec<_> = (0..6).map(|_| measured(FruitPart::Exterior, red)).collect();
    readings.push(measured(FruitPart::Exterior, Lab::new(98.0, 0.0, 2.0).unwrap()));
    readings.push(measured(FruitPart::Exterior, Lab::new(35.0, -18.0, 22.0).unwrap()));
    assert_eq!(called(readings).exterior.verdict, Some(TradeColour::Red));
}

#[test]
fn patterns_join_the_verdict() {
    let striped =
        || ColourReading { pattern: Some(Pattern::Striped), ..word(FruitPart::Exterior, TradeColour::Red) };
    assert_eq!(called((0..6).map(|_| striped())).verdict().as_deref(), Some("red, striped"));
    assert_eq!(called([word(FruitPart::Exterior, TradeColour::Red)]).verdict().as_deref(), Some("red"));
    assert_eq!(called([]).verdict(), None);
}

/// The lists of answers stand in the order of their enums: counts are kept by that place.
#[test]
fn answers_stand_in_the_order_of_their_enums() {
    assert!(TradeColour::ALL.iter().enumerate().all(|(place, colour)| *colour as usize == place));
    assert!(Skin::ALL.iter().enumerate().all(|(place, skin)| *skin as usize == place));
    assert!(Pattern::ALL.iter().enumerate().all(|(place, pattern)| *pattern as usize == place));
}

fn any_reading() -> impl Strategy<Value = ColourReading> {
    let lab = (0.0..=100.0_f64, -80.0..80.0_f64, -80.0..80.0_f64)
        .prop_map(|(lightness, a, b)| ColourSeen::Measured(Lab::new(lightness, a, b).unwrap()));
    let seen = prop_oneof![3 => select(TradeColour::ALL.to_vec()).prop_map(ColourSeen::Word), 1 => lab];
    let part = select(vec![FruitPart::Exterior, FruitPart::Flesh, FruitPart::Gel]);
    let (pattern, skin) =
        (prop::option::of(select(Pattern::ALL.to_vec())), prop::option::of(select(Skin::ALL.to_vec())));
    (2029_i16..=2031, 1_u128..=2, part, seen, pattern, skin).prop_map(
        |(season, plot, part, seen, pattern, skin)| ColourReading {
            pattern,
            skin,
            ..reading(season, plot, part, seen)
        },
    )
}

fn whole<V>(call: &Call<V>) -> f64 {
    call.shares.iter().map(|(_, share)| share.get()).sum::<f64>() + call.between.get()
}

proptest! {
    #[test]
    fn any_readings_give_whole_calls(readings in prop::collection::vec(any_reading(), 0..40)) {
        let call = called(readings);
        for sum in [whole(&call.exterior), whole(&call.flesh), whole(&call.skin), whole(&call.pattern)] {
            prop_assert!((sum - 1.0).abs() < 1e-9);
        }
        let settled = SETTLED_AT <= call.exterior.probability().get();
        prop_assert!(call.exterior.verdict.is_none() || !settled || call.exterior.settle.is_empty());
    }

    #[test]
    fn order_and_merging_do_not_matter(
        (readings, shuffled, cut) in prop::collection::vec(any_reading(), 1..30).prop_flat_map(|readings| {
            let count = readings.len();
            (Just(readings.clone()), Just(readings).prop_shuffle(), 0..count)
        }),
    ) {
        let notes = |readings: &[ColourReading]| readings.iter().cloned().map(Note::Colour).collect::<Vec<_>>();
        let (first, second) = shuffled.split_at(cut);
        let mut merged = ColourEvidence::gather(&notes(first));
        merged.merge(ColourEvidence::gather(&notes(second)));
        prop_assert!(call(&merged, &MODEL) == call(&ColourEvidence::gather(&notes(&readings)), &MODEL));
    }

    /// One more word for a colour never speaks against it.
    #[test]
    fn one_more_word_never_lowers_its_colour(
        words in prop::collection::vec(select(TradeColour::ALL.to_vec()), 0..20), colour in select(TradeColour::ALL.to_vec()),
    ) {
        let mut readings: Vec<_> = words.into_iter().map(|seen| word(FruitPart::Exterior, seen)).collect();
        let before = called(readings.clone());
        let before = if before.exterior.verdict.is_some() { share(&before.exterior, &colour) } else { 0.0 };
        readings.push(word(FruitPart::Exterior, colour));
        let after = called(readings);
        prop_assert!(before <= share(&after.exterior, &colour) + 1e-9);
    }
}
