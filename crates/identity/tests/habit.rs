//! Habit calls on what growers see, and what must hold of any call.

#![expect(clippy::unwrap_used, reason = "what these tests write down is possible, and a test may stop")]

use identity::call::{Call, Pull, SETTLED_AT};
use identity::guide::habit::{SHIPPED, read};
use identity::habit::evidence::HabitEvidence;
use identity::habit::{Habit, HabitCall, HabitModel, Stem, call};
use proptest::prelude::{Just, Strategy, prop, prop_assert, prop_oneof, proptest};
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
use std::sync::LazyLock;

static MODEL: LazyLock<HabitModel> = LazyLock::new(|| HabitModel::new(&read("habit.toml", SHIPPED).unwrap()));

/// The shipped guide's own: 0.935 tall times 0.57.
const PRIOR_INDETERMINATE: f64 = 0.935 * 0.57;
/// The shipped guide's own, over all three statures.
const PRIOR_DETERMINATE_STEM: f64 = 0.935 * 0.33 + 0.05 * 0.30 + 0.015 * 0.90;

fn subject(season: i16, plot: u128, plant: Option<u32>) -> Subject {
    Subject {
        variety: Id::from_uuid(uuid::Uuid::from_u128(7)),
        season: Season::new(season).unwrap(),
        plot: Some(Id::<Plot>::from_uuid(uuid::Uuid::from_u128(plot))),
        plant: plant.map(PlantNumber),
    }
}

fn stage(season: i16, plot: u128, plant: u32, seen: StageSeen) -> Note {
    Note::Stage(StageNote { subject: subject(season, plot, Some(plant)), noted_on: None, seen })
}

fn ended(plant: u32, trusses: u32) -> Note {
    stage(2031, 1, plant, StageSeen::StemEnded { trusses: Some(trusses) })
}

fn growing(plant: u32, trusses: u32) -> Note {
    stage(2031, 1, plant, StageSeen::StemGrowing { trusses })
}

fn leaves(plant: u32, count: f64) -> Note {
    stage(2031, 1, plant, StageSeen::LeavesBetweenTrusses(LeafCount::new(count).unwrap()))
}

fn dwarf_leaves(plant: u32) -> Note {
    stage(2031, 1, plant, StageSeen::DwarfLeaves)
}

fn day(season: i16, of_season: u16) -> jiff::civil::Date {
    let start = jiff::civil::date(season, 5, 20);
    start.checked_add(jiff::Span::new().days(i64::from(of_season))).unwrap()
}

fn height(season: i16, plant: u32, on: u16, millimetres: f64) -> Note {
    let height = Millimetres::new(millimetres).unwrap();
    Note::Height(HeightReading { subject: subject(season, 1, Some(plant)), read_on: day(season, on), height })
}

fn pick(season: i16, plot: u128, on: u16, grams: f64) -> Note {
    Note::Pick(Pick {
        subject: subject(season, plot, None),
        picked_on: day(season, on),
        fruit_count: None,
        weight: Grams::new(grams),
        culls: Vec::new(),
    })
}

fn called(notes: &[Note]) -> HabitCall {
    call(&HabitEvidence::gather(notes), &MODEL, Units::METRIC)
}

fn share(call: &HabitCall, habit: Habit) -> f64 {
    call.habit.shares.iter().find(|(known, _)| *known == habit).unwrap().1.get()
}

fn stem_share(call: &HabitCall, stem: Stem) -> f64 {
    call.stem.iter().find(|(known, _)| *known == stem).unwrap().1.get()
}

#[track_caller]
fn agrees(notes: &[Note], habit: Habit, at_least: f64) {
    let call = called(notes);
    assert_eq!(call.habit.verdict, Some(habit), "{:?}", call.habit.shares);
    assert!(at_least <= share(&call, habit), "{:?}", call.habit.shares);
}

fn twelve(note: impl Fn(u32) -> Note) -> Vec<Note> {
    (1..=12).map(note).collect()
}

/// Indeterminate: leaves between inflorescences near constant, three (grovida.us; Haifa tomato guide), and
/// no end.
#[test]
fn constant_threes_and_no_end_are_indeterminate() {
    let mut notes = twelve(|plant| growing(plant, 14));
    notes.extend(twelve(|plant| leaves(plant, 3.0)));
    agrees(&notes, Habit::Indeterminate, 0.97);
    assert!(!called(&notes).habit.contested);
}

#[test]
fn stems_that_end_after_four_trusses_are_determinate() {
    let mut notes: Vec<Note> = (1..=10).map(|plant| ended(plant, 3 + plant % 3)).collect();
    notes.extend((1..=10).map(|plant| leaves(plant, f64::from(1 + plant % 2))));
    agrees(&notes, Habit::Determinate, 0.95);
}

#[test]
fn stems_that_end_after_nine_trusses_are_semi_determinate() {
    agrees(
        &(1..=10).map(|plant| ended(plant, 8 + plant % 3)).collect::<Vec<_>>(),
        Habit::SemiDeterminate,
        0.80,
    );
}

/// Frost ends the watching: no terminal truss at three trusses rules out three trusses and no more.
#[test]
fn three_trusses_at_frost_say_almost_nothing() {
    let before = PRIOR_INDETERMINATE;
    let after = share(&called(&[growing(1, 3)]), Habit::Indeterminate);
    assert!(before < after && after < before + 0.10, "{before} {after}");
}

#[test]
fn nothing_noted_is_no_verdict() {
    let call = called(&[]);
    assert_eq!(call.habit.verdict, None);
    assert!(call.habit.contested && !call.habit.settle.is_empty());
}

/// One contradicting plant among twelve is a possible off-type, not a refutation.
#[test]
fn one_off_type_among_twelve_does_not_turn_the_call() {
    let mut notes = twelve(|plant| ended(plant, 4));
    notes[11] = growing(12, 14);
    agrees(&notes, Habit::Determinate, 0.95);
}

/// Twelve plants of a wrong packet cannot outweigh two seasons of the right one, but they do raise a doubt.
#[test]
fn a_mislabelled_plot_is_outvoted() {
    let plot = |season, seen: fn() -> StageSeen| (1..=6).map(move |plant| stage(season, 1, plant, seen()));
    let mut notes: Vec<Note> = plot(2031, || StageSeen::StemEnded { trusses: Some(4) }).collect();
    notes.extend(plot(2032, || StageSeen::StemEnded { trusses: Some(4) }));
    let sure = share(&called(&notes), Habit::Determinate);
    notes.extend(plot(2033, || StageSeen::StemGrowing { trusses: 14 }));
    let doubted = share(&called(&notes), Habit::Determinate);
    assert!(0.8 < doubted && doubted < sure, "{doubted} {sure}");
}

#[test]
fn small_plants_with_dwarf_leaves_are_dwarfs() {
    let grown = |tall: f64| {
        let heights = (1..=4).flat_map(move |plant| {
            (0..8).map(move |week| {
                height(2031, plant, week * 7, tall * (f64::from(week) / 4.0).min(1.0) + 30.0)
            })
        });
        let mut notes: Vec<Note> = heights.collect();
        notes.extend((1..=4).map(dwarf_leaves));
        notes
    };
    agrees(&grown(850.0), Habit::Dwarf, 0.80);
    agrees(&grown(220.0), Habit::MicroDwarf, 0.80);
}

/// Heights alone: a stop at one metre leans to determinate, steady growth past two metres to indeterminate.
#[test]
fn the_height_curve_leans_but_does_not_settle() {
    let stops: Vec<Note> =
        (0..9).map(|week| height(2031, 1, week * 7, (200.0 * f64::from(week)).min(1000.0) + 150.0)).collect();
    let grows: Vec<Note> =
        (0..9).map(|week| height(2031, 1, week * 7, 230.0 * f64::from(week) + 150.0)).collect();
    let (stops, grows) = (called(&stops), called(&grows));
    assert!(PRIOR_DETERMINATE_STEM < stem_share(&stops, Stem::Determinate));
    assert!(PRIOR_INDETERMINATE < stem_share(&grows, Stem::Indeterminate));
    assert!(share(&grows, Habit::Indeterminate) < SETTLED_AT);
}

#[test]
fn fruit_that_ripens_together_leans_to_determinate() {
    let flush: Vec<Note> =
        [(60, 200.0), (64, 900.0), (68, 1500.0), (72, 1200.0), (76, 500.0), (82, 120.0), (90, 40.0)]
            .map(|(on, grams)| pick(2031, 1, on, grams))
            .to_vec();
    let steady: Vec<Note> = (0..18).map(|pick_index| pick(2031, 1, 60 + pick_index * 4, 500.0)).collect();
    let (flush, steady) = (called(&flush), called(&steady));
    assert!(PRIOR_DETERMINATE_STEM < stem_share(&flush, Stem::Determinate));
    assert!(PRIOR_INDETERMINATE < stem_share(&steady, Stem::Indeterminate));
    // Sources disagree on how long each habit ripens, so that neither may come near to settling it.
    assert!(share(&steady, Habit::Indeterminate) < 0.90 && share(&flush, Habit::Determinate) < 0.90);
}

#[test]
fn a_dwarf_with_an_ending_stem_keeps_its_stem_beneath_the_trade_word() {
    let mut notes: Vec<Note> = (1..=8).map(|plant| ended(plant, 4)).collect();
    notes.extend((1..=8).map(dwarf_leaves));
    notes.push(height(2031, 1, 90, 800.0));
    let call = called(&notes);
    assert_eq!(call.habit.verdict, Some(Habit::Dwarf));
    assert_eq!(call.stem.first().map(|(stem, _)| *stem), Some(Stem::Determinate));
}

#[test]
fn a_plant_that_is_said_to_end_and_to_go_on_is_set_aside() {
    let call = called(&[ended(1, 4), growing(1, 9), ended(2, 4)]);
    assert_eq!(call.habit.used.set_aside, 1);
    assert_eq!(called(&[ended(2, 4)]).habit.shares, call.habit.shares);
}

/// A stem still growing in July that ends in August has ended.
#[test]
fn growing_and_later_ended_is_ended() {
    assert_eq!(called(&[growing(1, 3), ended(1, 4)]).habit.shares, called(&[ended(1, 4)]).habit.shares);
}

fn seen() -> impl Strategy<Value = StageSeen> {
    prop_oneof![
        (1_u32..=16).prop_map(|trusses| StageSeen::StemEnded { trusses: Some(trusses) }),
        Just(StageSeen::StemEnded { trusses: None }),
        (0_u32..=16).prop_map(|trusses| StageSeen::StemGrowing { trusses }),
        (0.0..=6.0_f64).prop_map(|leaves| StageSeen::LeavesBetweenTrusses(LeafCount::new(leaves).unwrap())),
        Just(StageSeen::DwarfLeaves),
        (0_u32..40).prop_map(StageSeen::PlantCount),
    ]
}

fn note() -> impl Strategy<Value = Note> {
    let place = (2029_i16..=2031, 1_u128..=2, prop::option::of(1_u32..=6));
    let on = prop::option::of(0_u16..120);
    prop_oneof![
        6 => (place.clone(), on, seen()).prop_map(|((season, plot, plant), on, seen)| {
            let noted_on = on.map(|on| day(season, on));
            Note::Stage(StageNote { subject: subject(season, plot, plant), noted_on, seen })
        }),
        3 => (place.clone(), 0_u16..120, 0.0..3000.0_f64).prop_map(|((season, plot, plant), on, tall)| {
            let height = Millimetres::new(tall).unwrap();
            let subject = subject(season, plot, plant);
            Note::Height(HeightReading { subject, read_on: day(season, on), height })
        }),
        3 => (place, 40_u16..150, prop::option::of(0_u32..50), prop::option::of(0.0..4000.0_f64)).prop_map(
            |((season, plot, plant), on, fruits, grams)| Note::Pick(Pick {
                subject: subject(season, plot, plant),
                picked_on: day(season, on),
                fruit_count: fruits,
                weight: grams.and_then(Grams::new),
                culls: Vec::new(),
            })
        ),
    ]
}

fn whole<V>(call: &Call<V>) -> f64 {
    call.shares.iter().map(|(_, share)| share.get()).sum::<f64>() + call.between.get()
}

proptest! {
    /// Shares make a whole, every number is finite, every step says what it expects.
    #[test]
    fn any_notes_give_a_whole_call(notes in prop::collection::vec(note(), 0..60)) {
        let call = called(&notes);
        prop_assert!((whole(&call.habit) - 1.0).abs() < 1e-9);
        let stems: f64 = call.stem.iter().map(|(_, share)| share.get()).sum();
        prop_assert!((stems - 1.0).abs() < 1e-9);
        for line in &call.habit.lines {
            if let Pull::LogOdds(odds) = line.pull {
                prop_assert!(odds.is_finite(), "{line:?}");
            }
        }
        let settled = SETTLED_AT <= call.habit.probability().get();
        prop_assert!(call.habit.verdict.is_none() || settled == call.habit.settle.is_empty());
    }

    /// Neither the order of notes nor the way they are gathered changes a digit.
    #[test]
    fn order_and_merging_do_not_matter(
        (notes, shuffled, cut) in prop::collection::vec(note(), 1..40)
            .prop_flat_map(|notes| { let count = notes.len(); (Just(notes.clone()), Just(notes).prop_shuffle(), 0..count) }),
    ) {
        let (first, second) = shuffled.split_at(cut);
        let mut merged = HabitEvidence::gather(first);
        merged.merge(HabitEvidence::gather(second));
        prop_assert!(call(&merged, &MODEL, Units::US) == call(&HabitEvidence::gather(&notes), &MODEL, Units::US));
    }

    /// A further plant that ended after four trusses never speaks against determinate, whatever else was
    /// noted of its plot. A thousandth either way is allowed: where all other plants speak for another habit
    /// the newcomer is an off-type to every habit alike, and plants that end after two and after four fit a
    /// little less well together than alone.
    #[test]
    fn one_more_end_after_four_never_lowers_determinate(
        fates in prop::collection::vec((prop::bool::ANY, 2_u32..=16), 0..14),
        counted in prop::collection::vec(0.0..=4.0_f64, 0..6),
    ) {
        let fate = |(plant, (has_ended, trusses)): (u32, (bool, u32))|
            if has_ended { ended(plant, trusses) } else { growing(plant, trusses) };
        let mut notes: Vec<Note> = (1..).zip(fates).map(fate).collect();
        notes.extend((1..).zip(counted).map(|(plant, count)| leaves(plant, count)));
        notes.push(growing(98, 1));
        let before = stem_share(&called(&notes), Stem::Determinate);
        notes.push(ended(99, 4));
        let after = stem_share(&called(&notes), Stem::Determinate);
        prop_assert!(before <= after + 0.001, "{before} {after}");
    }

    /// Watching a plant before its first truss teaches nothing.
    #[test]
    fn growing_after_no_truss_changes_nothing(notes in prop::collection::vec(note(), 1..40)) {
        let mut more = notes.clone();
        more.push(stage(2027, 9, 1, StageSeen::StemGrowing { trusses: 0 }));
        let (before, after) = (called(&notes), called(&more));
        for habit in Habit::ALL {
            prop_assert!((share(&before, habit) - share(&after, habit)).abs() < 1e-9);
        }
    }

    /// No edit of one number of the guide makes a call panic or lose its whole.
    #[test]
    fn any_guide_that_is_read_gives_whole_calls(
        line in 0_usize..200, value in prop_oneof![0.0..1.0_f64, 0.0..50.0_f64, Just(1e-9), Just(1e9)],
        notes in prop::collection::vec(note(), 0..20),
    ) {
        let edited: Vec<String> = SHIPPED.lines().enumerate().map(|(index, text)| match text.split_once("value = ") {
            Some((before, after)) if index == line => {
                let rest = after.split_once(',').unwrap().1;
                format!("{before}value = {value:?},{rest}")
            }
            _ => text.to_owned(),
        }).collect();
        if let Ok(guide) = read("habit.toml", &edited.join("\n")) {
            let call = call(&HabitEvidence::gather(&notes), &HabitModel::new(&guide), Units::US);
            prop_assert!((whole(&call.habit) - 1.0).abs() < 1e-9);
        }
    }
}
