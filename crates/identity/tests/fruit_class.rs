//! The fruit-class call against common practice, and what must hold of any call.

mod fruit;

use fruit::{Fruits, guide, told};
use identity::call::{Action, CONTESTED_UNDER, Pull};
use identity::fruit_class::{Draws, call, call_all, marks};
use identity::guide::fruit::{SHIPPED, read};
use identity::spread::Spread;
use identity::sums::FruitSums;
use proptest::prelude::*;
use record::language::Units;

const OUNCE: f64 = 28.349_523_125;

/// The eight classes of common practice (issue 2, point 3) and the three gaps between them: one fruit in the
/// middle of each. Columns: class, weight (g), length (mm), width (mm), neck width (mm), locules.
#[test]
fn the_middle_of_each_class_is_called_by_its_name() {
    // Round, 6 mm across.
    agrees("currant", Fruits::sized(6.0, 6.0));
    // Round, 20 mm across.
    agrees("cherry", Fruits::sized(20.0, 20.0));
    // Round, half an ounce.
    agrees("cherry", Fruits::weighing(0.5 * OUNCE).shape(1.0).neck(0.87));
    // 0.8 oz with a neck.
    agrees("pear", Fruits::weighing(0.6 * OUNCE).shape(1.5).neck(0.60));
    // Elongated, 1 to 2 oz, shorter than a plum.
    agrees("grape", Fruits::weighing(1.0 * OUNCE).shape(1.45).neck(0.87));
    // Elongated, under 1 oz: left open by common practice, a grape here.
    agrees("grape", Fruits::weighing(0.5 * OUNCE).shape(1.5).neck(0.87));
    // Round, 1 to 2 oz: left open by common practice, a saladette here.
    agrees("saladette", Fruits::weighing(2.2 * OUNCE).shape(0.95));
    // 50 to 75 mm, 1 to 3 oz.
    agrees("plum", Fruits::weighing(1.9 * OUNCE).shape(1.6));
    // 75 to 125 mm, 3 to 5 oz.
    agrees("paste", Fruits::weighing(3.9 * OUNCE).shape(1.9));
    // 5 to 8 oz.
    agrees("slicer", Fruits::weighing(6.3 * OUNCE).shape(0.85).locules(4));
    // 8 oz to 2 lb, many small locules.
    agrees("beefsteak", Fruits::weighing(16.0 * OUNCE).shape(0.75).locules(12));
}

/// A variety known well: 12 seasons of 4 plants of 10 fruits, all alike.
#[track_caller]
fn agrees(class: &str, fruits: Fruits) {
    let called = told(&fruits.grown(12, 4, 10));
    let verdict = called.verdict.as_ref().map(ToString::to_string);
    assert_eq!(verdict.as_deref(), Some(class), "{}; {:?}", called.rule, called.shares);
    assert!(!called.contested, "{class} stands at {:?}: {}", called.shares, called.rule);
}

/// A variety that sits on a border, however well it is known, stands at about a half on either side.
#[test]
fn a_variety_on_a_border_is_contested() {
    for (fruits, one, other) in [
        (Fruits::weighing(OUNCE).shape(0.95).neck(0.87), "cherry", "saladette"),
        (Fruits::weighing(5.0 * OUNCE).shape(0.9), "saladette", "slicer"),
        (Fruits::weighing(3.0 * OUNCE).shape(1.4), "plum", "paste"),
        (Fruits::weighing(0.5 * OUNCE).shape(1.25).neck(0.87), "cherry", "grape"),
    ] {
        let called = told(&fruits.grown(20, 6, 20));
        assert!(called.contested, "{one}, {other}");
        for name in [one, other] {
            let share = called.shares.iter().find(|(class, _)| class.as_str() == name).unwrap().1.get();
            assert!((share - 0.5).abs() < 0.06, "{name} of {one} and {other}: {share}");
        }
        let [step] = called.settle.as_slice() else { panic!("one step: {:?}", called.settle) };
        assert_eq!(step.action, Action::AcceptTheBorder, "{}", step.words);
    }
}

/// Between slicer and beefsteak the knife decides: 10 oz with 3 wedges, or with 12 chambers.
#[test]
fn a_large_fruit_is_told_by_its_cut_face() {
    let large = Fruits::weighing(9.8 * OUNCE).shape(0.8);
    let verdict = |fruits: Fruits| told(&fruits.grown(8, 4, 10)).verdict.unwrap().to_string();
    assert_eq!(verdict(large.locules(3)), "slicer");
    assert_eq!(verdict(large.locules(12)), "beefsteak");
}

/// Weighed but never measured: callipers settle it. A long heavy fruit: the refractometer.
#[test]
fn the_cheapest_step_that_will_do_is_told() {
    let weighed = Fruits::weighing(3.6 * OUNCE).grown(6, 4, 10);
    let long = Fruits::weighing(6.0 * OUNCE).shape(1.6).grown(12, 4, 10);
    for (sums, action) in [(weighed, Action::MeasureSizes(10)), (long, Action::ReadRefractometer(10))] {
        let called = told(&sums);
        let told = called.settle.first().map(|step| step.action);
        assert_eq!(told, Some(action), "{:?} {:?}", called.shares, called.settle);
    }
}

/// Where the house counts chambers strictly and asks for eight, a large fruit never cut is settled by a knife.
#[test]
fn a_knife_settles_where_chambers_are_counted_strictly() {
    let strict =
        SHIPPED.replace("give_or_take = \"12 %\"", "give_or_take = \"1 %\"").replace("at = 6\n", "at = 8\n");
    let strict = read("strict.toml", &strict).unwrap();
    let uncut = Fruits::weighing(9.8 * OUNCE).shape(0.8).grown(12, 4, 10);
    let called = call(&uncut, &Spread::beforehand(), &strict, fruit::draws(), Units::US);
    let told = called.settle.first().map(|step| step.action);
    assert_eq!(told, Some(Action::CutFruits(10)), "{:?} {:?}", called.shares, called.settle);
}

/// Few fruits of one season: a cherry, or a saladette in a poor year. Another season is what it takes.
#[test]
fn what_only_time_can_tell_is_left_to_time() {
    let called = told(&Fruits::weighing(22.0).shape(0.95).neck(0.87).grown(1, 2, 3));
    let told = called.settle.first().map(|step| step.action);
    assert!(matches!(told, Some(Action::MoreSeasons { .. })), "{:?} {:?}", called.shares, called.settle);
}

/// A long fruit of 7 oz is a paste where it is dry and no class where it is juicy.
#[test]
fn a_long_heavy_fruit_is_told_by_its_dryness() {
    let long = Fruits::weighing(7.0 * OUNCE).shape(1.6);
    assert_eq!(told(&long.dry_matter(7.0).grown(8, 4, 10)).verdict.unwrap().as_str(), "paste");
    let juicy = told(&long.dry_matter(4.6).grown(8, 4, 10));
    assert_eq!(juicy.verdict, None);
    assert!(juicy.rule.starts_with("Between classes"), "{}", juicy.rule);
    assert!(juicy.rule.contains("paste asks for: dry matter 4.6 %, 5.5 % or more"), "{}", juicy.rule);
}

#[test]
fn a_variety_without_fruit_has_no_call_and_says_why() {
    let called = told(&FruitSums::default());
    assert_eq!(called.verdict, None);
    assert!(called.contested);
    assert_eq!(called.rule, "No fruit was weighed or measured, so no class can be told");
}

/// Only widths: the usual shapes stand in, and the call says so.
#[test]
fn an_unknown_shape_is_spread_over_the_usual_ones() {
    let called = told(&Fruits::wide(25.0).grown(3, 3, 6));
    let missing = called.lines.iter().filter(|line| line.pull == Pull::Missing);
    let missing: Vec<&str> = missing.map(|line| line.about.as_str()).collect();
    assert!(missing.contains(&"length over width"), "{missing:?}");
    let grape = called.shares.iter().find(|(class, _)| class.as_str() == "grape").unwrap().1.get();
    assert!((0.05..0.4).contains(&grape), "{grape}");
}

#[test]
fn marks_are_told_only_where_they_were_measured() {
    let share = |fruits: Fruits, mark: &str| {
        let sums = fruits.grown(4, 4, 8);
        let all = marks(&sums, &Spread::beforehand(), guide(), fruit::draws(), Units::US);
        all.into_iter().find(|told| told.mark.as_str() == mark).unwrap().share.map(|share| share.get())
    };
    let heart = Fruits::weighing(300.0).shape(1.12).neck(0.99);
    assert!(share(heart, "heart").unwrap() > 0.9);
    assert!(share(Fruits::weighing(300.0).shape(1.12).neck(0.86), "heart").unwrap() < 0.1);
    assert_eq!(share(Fruits::weighing(300.0), "heart"), None);
    assert!(share(Fruits::weighing(100.0).shape(1.0).fullness(0.65), "hollow").unwrap() > 0.9);
    assert!(share(Fruits::weighing(100.0).shape(1.0), "hollow").unwrap() < 0.1);
    assert!(share(Fruits::weighing(300.0).lobes(8), "ribbed").unwrap() > 0.9);
    assert!(share(Fruits::weighing(300.0).lobes(0), "ribbed").unwrap() < 0.1);
}

/// The sentence is read by growers: which rule, with the house's own units first.
#[test]
fn the_rule_is_told_in_both_units() {
    let called = told(&Fruits::weighing(15.0).shape(1.0).neck(0.87).grown(6, 4, 6));
    assert!(called.rule.starts_with("cherry: weight 0.53 oz (15 g), under 1.0 oz (28 g)"), "{}", called.rule);
    assert!(called.rule.contains("length over width 1.00, under 1.25"), "{}", called.rule);
}

fn any_fruits() -> impl Strategy<Value = (Fruits, i16, u32, u32)> {
    let shape = prop::option::of(0.6..2.2);
    (1.0..900.0, shape, prop::option::of(0.5..1.0), prop::option::of(1u32..14), 1i16..4, 1u32..6, 1u32..8)
        .prop_map(|(weight, shape, neck, locules, seasons, plants, fruits)| {
            let mut one = Fruits::weighing(weight);
            one = shape.map_or(one, |shape| one.shape(shape));
            one = neck.filter(|_| shape.is_some()).map_or(one, |neck| one.neck(neck));
            one = locules.map_or(one, |locules| one.locules(locules));
            (one, seasons, plants, fruits)
        })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    /// Every draw is in one class or between: shares sum to 1, and the verdict leads.
    #[test]
    fn shares_make_the_whole((one, seasons, plants, fruits) in any_fruits()) {
        let called = told(&one.grown(seasons, plants, fruits));
        let sum: f64 = called.shares.iter().map(|(_, share)| share.get()).sum();
        prop_assert!((sum + called.between.get() - 1.0).abs() < 1e-9);
        prop_assert!(called.shares.windows(2).all(|pair| pair[1].1 <= pair[0].1));
        prop_assert_eq!(called.contested, called.probability().get() < CONTESTED_UNDER);
        prop_assert_eq!(called.contested, !called.settle.is_empty());
    }

    /// The order of fruits, and how they are split into parts, cannot change a digit.
    #[test]
    fn order_and_parts_do_not_matter((one, seasons, plants, fruits) in any_fruits(), cut in 0usize..40) {
        let samples = one.scattered(seasons, plants, fruits);
        let forwards = fruit::sums(samples.iter());
        let backwards = fruit::sums(samples.iter().rev());
        prop_assert_eq!(&forwards, &backwards);
        let (first, second) = samples.split_at(cut.min(samples.len()));
        let mut parts = fruit::sums(second.iter());
        parts.merge(&fruit::sums(first.iter()));
        prop_assert_eq!(&forwards, &parts);
        prop_assert_eq!(told(&forwards), told(&parts));
    }

    /// Ounces or grams, inches or millimetres: the same call.
    #[test]
    fn units_do_not_matter((one, seasons, plants, fruits) in any_fruits()) {
        let (grams, ounces) = (one.grown(seasons, plants, fruits), one.in_ounces().grown(seasons, plants, fruits));
        prop_assert_eq!(told(&grams).shares, told(&ounces).shares);
    }

    /// More fruit of the same kind never widens the interval.
    #[test]
    fn more_fruit_never_widens((one, seasons, plants, fruits) in any_fruits()) {
        let error = |sums: &FruitSums| {
            let spread = Spread::beforehand();
            let plants: Vec<_> = sums.plants(identity::sums::Trait::Weight).into_iter().map(|(_, plant)| plant).collect();
            let variances = spread.of(identity::sums::Trait::Weight).unwrap();
            statistics::variety_means::variety_mean(&plants, &variances).unwrap().standard_error
        };
        let few = error(&one.grown(seasons, plants, fruits));
        for more in [one.grown(seasons, plants, fruits + 1), one.grown(seasons, plants + 1, fruits), one.grown(seasons + 1, plants, fruits)] {
            prop_assert!(error(&more) <= few * (1.0 + 1e-9));
        }
    }

    /// Called together or one by one, on any number of cores: the same.
    #[test]
    fn together_or_alone((one, seasons, plants, fruits) in any_fruits(), (two, s, p, f) in any_fruits()) {
        let sums = [one.grown(seasons, plants, fruits), two.grown(s, p, f)];
        let together = call_all(&[&sums[0], &sums[1]], &Spread::beforehand(), guide(), &Draws::new(), Units::METRIC);
        let alone = sums.each_ref().map(|sums| call(sums, &Spread::beforehand(), guide(), fruit::draws(), Units::METRIC));
        prop_assert_eq!(together.as_slice(), alone.as_slice());
    }
}
