//! Codings in the open standards: every answer of every call, limits, sample sizes, and how far it was read.

#![expect(clippy::unwrap_used, reason = "what these tests write down is possible, and a test may stop")]

use identity::call::{Call, Used};
use identity::colour::evidence::ColourEvidence;
use identity::colour::{ColourCall, ColourModel};
use identity::descriptors::{Coded, Coding, Described, code};
use identity::guide::standards::{SHIPPED, Standards, Status, read};
use identity::guide::{colour as colour_guide, habit as habit_guide};
use identity::habit::evidence::HabitEvidence;
use identity::habit::{self, Habit, HabitCall, HabitModel, Stem};
use identity::sums::FruitSums;
use record::colour::{Skin, TradeColour};
use record::fruit::FruitSample;
use record::growout::{PlantNumber, Plot};
use record::id::Id;
use record::language::Units;
use record::length::Millimetres;
use record::mass::Grams;
use record::note::Note;
use record::season::Season;
use record::share::Share;
use record::stage::{StageNote, StageSeen};
use record::subject::Subject;
use std::num::NonZeroU32;
use std::sync::LazyLock;

const UPOV: &str = "UPOV TG/44";
const BIOVERSITY: &str = "Bioversity (IPGRI) 1996";

static STANDARDS: LazyLock<Standards> = LazyLock::new(|| read("descriptors.toml", SHIPPED).unwrap());

fn nothing_habit() -> HabitCall {
    let guide = habit_guide::read("habit.toml", habit_guide::SHIPPED).unwrap();
    habit::call(&HabitEvidence::default(), &HabitModel::new(&guide), Units::METRIC)
}

fn nothing_colour() -> ColourCall {
    let guide = colour_guide::read("colour.toml", colour_guide::SHIPPED).unwrap();
    identity::colour::call(&ColourEvidence::default(), &ColourModel::new(&guide))
}

/// A call that is sure of one answer.
fn sure<V: Copy + PartialEq>(answer: V, answers: &[V]) -> Call<V> {
    let mut call = Call::without_evidence(answers, String::new());
    call.verdict = Some(answer);
    call.shares = vec![(answer, Share::ALL)];
    call.between = Share::NONE;
    call.used = Used { seasons: 2, plants: 12, fruits: 12, records: 12, set_aside: 0 };
    call
}

fn all(habit: &HabitCall, walks: &HabitEvidence, colour: &ColourCall, fruit: &FruitSums) -> Vec<Coding> {
    code(&Described { habit, walks, colour, fruit }, &STANDARDS)
}

#[track_caller]
fn coding(codings: &[Coding], standard: &str, characteristic: &str) -> Coding {
    let found = codings
        .iter()
        .find(|coding| coding.standard == standard && coding.characteristic.ends_with(characteristic));
    found.unwrap_or_else(|| panic!("no {characteristic} in {standard}")).clone()
}

fn state(coding: &Coding) -> Option<(u32, String)> {
    match &coding.coded {
        Coded::State { note, wording, .. } => Some((*note, wording.clone())),
        Coded::Figure { .. } | Coded::NotCoded { .. } => None,
    }
}

#[track_caller]
fn agrees(codings: &[Coding], standard: &str, characteristic: &str, expected: Option<(u32, &str)>) {
    let coding = coding(codings, standard, characteristic);
    let expected = expected.map(|(note, wording)| (note, wording.to_owned()));
    assert_eq!(state(&coding), expected, "{coding:?}");
}

fn of_habit(habit: Habit, stem: Stem) -> Vec<Coding> {
    let call = HabitCall { habit: sure(habit, &Habit::ALL), stem: vec![(stem, Share::ALL)] };
    all(&call, &HabitEvidence::default(), &nothing_colour(), &FruitSums::default())
}

/// UPOV TG/44 from memory; Int. J. Agronomy 2018, art. 4170432, table 2, for Bioversity.
#[test]
fn every_habit_has_its_states() {
    let facts = [
        (Habit::MicroDwarf, Stem::Determinate, (1, "determinate"), (1, "dwarf")),
        (Habit::Dwarf, Stem::Indeterminate, (2, "indeterminate"), (1, "dwarf")),
        (Habit::Dwarf, Stem::Determinate, (1, "determinate"), (1, "dwarf")),
        (Habit::Determinate, Stem::Determinate, (1, "determinate"), (2, "determinate")),
        (Habit::SemiDeterminate, Stem::SemiDeterminate, (1, "determinate"), (3, "semi-determinate")),
        (Habit::Indeterminate, Stem::Indeterminate, (2, "indeterminate"), (4, "indeterminate")),
    ];
    for (habit, stem, upov, bioversity) in facts {
        let codings = of_habit(habit, stem);
        agrees(&codings, UPOV, "growth type", Some(upov));
        agrees(&codings, BIOVERSITY, "growth type", Some(bioversity));
    }
}

fn of_colour(outside: TradeColour, flesh: TradeColour, skin: Skin) -> Vec<Coding> {
    let mut call = nothing_colour();
    call.exterior = sure(outside, &TradeColour::ALL);
    call.flesh = sure(flesh, &TradeColour::ALL);
    call.skin = sure(skin, &Skin::ALL);
    all(&nothing_habit(), &HabitEvidence::default(), &call, &FruitSums::default())
}

/// Both lists are from memory; green and bicolour have no state in the first.
#[test]
fn every_colour_has_its_states_or_none() {
    let facts = [
        (TradeColour::Red, Some((5, "red")), (5, "red")),
        (TradeColour::Pink, Some((4, "pink")), (4, "pink")),
        (TradeColour::Orange, Some((3, "orange")), (3, "orange")),
        (TradeColour::Yellow, Some((2, "yellow")), (2, "yellow")),
        (TradeColour::White, Some((1, "cream")), (6, "other")),
        (TradeColour::Green, None, (1, "green")),
        (TradeColour::Brown, Some((6, "brownish")), (6, "other")),
        (TradeColour::Black, Some((6, "brownish")), (6, "other")),
        (TradeColour::Bicolour, None, (6, "other")),
    ];
    assert_eq!(facts.len(), TradeColour::ALL.len());
    for (colour, upov, bioversity) in facts {
        let codings = of_colour(colour, colour, Skin::Yellow);
        agrees(&codings, UPOV, "colour at maturity", upov);
        agrees(&codings, UPOV, "colour of flesh", upov);
        agrees(&codings, BIOVERSITY, "Exterior colour of mature fruit", Some(bioversity));
    }
}

#[test]
fn both_skins_have_their_states() {
    for (skin, expected) in [(Skin::Clear, (1, "colourless")), (Skin::Yellow, (2, "yellow"))] {
        let codings = of_colour(TradeColour::Red, TradeColour::Red, skin);
        agrees(&codings, UPOV, "colour of epidermis", Some(expected));
        agrees(&codings, BIOVERSITY, "Skin colour of ripe fruit", Some(expected));
    }
}

fn subject(season: i16, plot: u128, plant: u32) -> Subject {
    Subject {
        variety: Id::from_uuid(uuid::Uuid::from_u128(7)),
        season: Season::new(season).unwrap(),
        plot: Some(Id::<Plot>::from_uuid(uuid::Uuid::from_u128(plot))),
        plant: Some(PlantNumber(plant)),
    }
}

fn sample(season: i16, plant: u32, width: f64, locules: u32) -> FruitSample {
    FruitSample {
        subject: subject(season, 1, plant),
        sampled_on: None,
        fruit_count: NonZeroU32::MIN,
        weight: Grams::new(142.0),
        length: Millimetres::new(width * 0.9),
        width: Millimetres::new(width),
        neck_width: None,
        locules: Some(locules),
        soluble_solids: None,
        dry_matter: None,
        lobes: None,
        cracking: None,
        catfacing: None,
        exterior: None,
        flesh: None,
        skin: None,
    }
}

fn of_fruit(fruits: impl IntoIterator<Item = FruitSample>) -> Vec<Coding> {
    let mut sums = FruitSums::default();
    fruits.into_iter().for_each(|fruit| sums.take(&fruit));
    all(&nothing_habit(), &HabitEvidence::default(), &nothing_colour(), &sums)
}

/// UPOV states from memory: only two; two and three; three and four; four, five or six; more than six.
#[test]
fn locule_counts_have_their_states() {
    let facts: [(&[u32], u32); 8] = [
        (&[2, 2], 1),
        (&[2, 3], 2),
        (&[3, 4], 3),
        (&[4, 4], 4),
        (&[5, 5], 4),
        (&[6, 5], 4),
        (&[7, 8], 5),
        (&[11, 14], 5),
    ];
    for (counts, note) in facts {
        let fruits =
            (0..8).flat_map(|plant| counts.iter().map(move |locules| sample(2031, plant, 60.0, *locules)));
        let coding = coding(&of_fruit(fruits), UPOV, "number of locules");
        assert_eq!(state(&coding).map(|(note, _)| note), Some(note), "{counts:?}: {coding:?}");
    }
}

/// Bioversity limits from memory: under 3, 3 to 5, 5.1 to 8, 8.1 to 10, over 10 cm.
#[test]
fn widths_have_their_size_class() {
    for (width, note) in [(12.0, 1), (29.0, 1), (40.0, 2), (60.0, 3), (79.0, 3), (90.0, 4), (110.0, 5)] {
        let coding =
            coding(&of_fruit((0..6).map(|plant| sample(2031, plant, width, 2))), BIOVERSITY, "Fruit size");
        assert_eq!(state(&coding).map(|(note, _)| note), Some(note), "{width}: {coding:?}");
    }
}

/// The guideline judges fruit size by example varieties, so no grams are turned into a state.
#[test]
fn fruit_size_by_example_varieties_is_not_coded() {
    let codings = of_fruit((0..6).map(|plant| sample(2031, plant, 60.0, 4)));
    let Coded::NotCoded { why } = coding(&codings, UPOV, "Fruit: size").coded else { panic!("coded") };
    assert_eq!(
        why,
        "the guideline gives example varieties, not grams; here it is 142 g (5.0 oz), the usual of 6 fruits"
    );
}

#[test]
fn figures_are_told_with_their_fruits() {
    let codings = of_fruit((0..3).map(|plant| sample(2031, plant, 60.0, 4)));
    let weight = coding(&codings, BIOVERSITY, "Fruit weight");
    let expected = Coded::Figure {
        words: "142 g (5.0 oz), the usual of 3 fruits".to_owned(),
        status: Status::MemoryUnverified,
    };
    assert_eq!(weight.coded, expected);
    assert_eq!(
        weight.shortfalls,
        [
            "Bioversity (IPGRI) 1996 asks for about 10 ripe fruits (from memory, unverified); here there were 3 fruits."
        ]
    );
}

fn walk(season: i16, plot: u128, plant: u32, seen: StageSeen) -> Note {
    Note::Stage(StageNote { subject: subject(season, plot, plant), noted_on: None, seen })
}

#[test]
fn sample_sizes_are_checked_and_shortfalls_named() {
    let guide = habit_guide::read("habit.toml", habit_guide::SHIPPED).unwrap();
    let growth_type = |notes: &[Note]| {
        let walks = HabitEvidence::gather(notes);
        let call = habit::call(&walks, &HabitModel::new(&guide), Units::METRIC);
        coding(&all(&call, &walks, &nothing_colour(), &FruitSums::default()), UPOV, "growth type").shortfalls
    };
    let ended = |season, plot, plant| walk(season, plot, plant, StageSeen::StemEnded { trusses: Some(4) });
    let thin = growth_type(&[ended(2031, 1, 1)]);
    assert_eq!(thin.len(), 4);
    assert_eq!(
        thin[0],
        "UPOV TG/44 asks for two growing cycles (from memory, unverified); here there was 1 season."
    );
    assert!(thin[1].ends_with("how many there were was not noted."));
    let mut full: Vec<Note> = Vec::new();
    for (season, plot) in [(2030, 1), (2030, 2), (2031, 3), (2031, 4)] {
        full.extend((1..=5).map(|plant| ended(season, plot, plant)));
        full.push(walk(season, plot, 1, StageSeen::PlantCount(10)));
    }
    assert_eq!(growth_type(&full), Vec::<String>::new());
}

#[test]
fn nothing_noted_is_coded_nowhere() {
    let codings = all(&nothing_habit(), &HabitEvidence::default(), &nothing_colour(), &FruitSums::default());
    assert!(
        codings
            .iter()
            .all(|coding| matches!(coding.coded, Coded::NotCoded { .. }) && coding.shortfalls.is_empty())
    );
    // One for each characteristic of the table: 19 and 17.
    assert_eq!(codings.iter().filter(|coding| coding.standard == UPOV).count(), 19);
    assert_eq!(codings.iter().filter(|coding| coding.standard == BIOVERSITY).count(), 17);
}

/// The facts file read Bioversity's growth type in a table; every UPOV state is from memory.
#[test]
fn what_is_from_memory_says_so() {
    let codings = of_habit(Habit::Determinate, Stem::Determinate);
    let status = |standard| match coding(&codings, standard, "growth type").coded {
        Coded::State { status, .. } => status.mark(),
        Coded::Figure { .. } | Coded::NotCoded { .. } => panic!("not coded"),
    };
    assert_eq!(status(UPOV), Some("from memory, unverified"));
    assert_eq!(status(BIOVERSITY), None);
}

#[test]
fn faults_in_the_table_name_line_and_remedy() {
    let twice = SHIPPED.replacen("is = [\"indeterminate\"]", "is = [\"determinate\"]", 1);
    let fault = read("descriptors.toml", &twice).unwrap_err();
    assert_eq!((&*fault.fault, &*fault.value), ("two states take this word", "\"determinate\""));
    let unknown = SHIPPED.replacen("is = [\"clear\"]", "is = [\"glassy\"]", 1);
    let fault = read("descriptors.toml", &unknown).unwrap_err();
    assert_eq!(&*fault.help, "use one of clear, yellow");
    let falling = SHIPPED.replacen("below = 2.85", "below = 1.85", 1);
    assert_eq!(&*read("descriptors.toml", &falling).unwrap_err().fault, "the limits do not rise");
}
