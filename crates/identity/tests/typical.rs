//! The fruit and plants that the type chart draws: each is what its own guide says it is.

#![expect(clippy::unwrap_used, reason = "a test that cannot make its input should stop")]

use identity::guide::{fruit, habit};
use identity::habit::Habit;
use identity::typical::{self, TypicalFruit};

fn guide() -> fruit::FruitGuide {
    fruit::read("fruit.toml", fruit::SHIPPED).unwrap()
}

fn of(guide: &fruit::FruitGuide, class: &str) -> TypicalFruit {
    let class = guide.class(&fruit::ClassName::new(class)).unwrap();
    typical::fruit(guide, &class.ways, typical::SOLD).unwrap()
}

/// The guide's own words, in ounces and millimetres: each class's fruit must lie in its class.
#[test]
fn each_class_shows_fruit_of_its_own() {
    let guide = guide();
    let grams = |class| of(&guide, class).weight.to_ounces();
    assert!(of(&guide, "currant").width.get() < 12.7);
    assert!(grams("cherry") < 1.0 && grams("pear") < 1.0);
    assert!(of(&guide, "pear").neck.unwrap().get() < 0.75);
    assert!((1.0..3.0).contains(&grams("plum")));
    assert!((1.0..5.0).contains(&grams("saladette")));
    assert!((5.0..12.0).contains(&grams("slicer")) && of(&guide, "slicer").locules < 6);
    assert!(grams("beefsteak") > 8.0 && of(&guide, "beefsteak").locules >= 6);
    let long = |class| of(&guide, class).length.get() / of(&guide, class).width.get();
    assert!(["grape", "plum", "paste"].into_iter().all(|class| long(class) >= 1.25));
    assert!(
        ["currant", "cherry", "saladette", "slicer", "beefsteak"].into_iter().all(|class| long(class) < 1.25)
    );
}

/// The guide is the only source: move a border and the fruit moves.
#[test]
fn a_changed_guide_changes_the_fruit() {
    let changed = fruit::SHIPPED.replacen("at = \"5 oz\"", "at = \"4 oz\"", 2);
    let changed = fruit::read("fruit.toml", &changed).unwrap();
    assert!(of(&changed, "saladette").weight < of(&guide(), "saladette").weight);
}

#[test]
fn every_shape_mark_can_be_shown() {
    let guide = guide();
    for mark in &guide.marks {
        let fruit = typical::fruit(&guide, &mark.ways, typical::MARKED).unwrap();
        assert!((150.0..300.0).contains(&fruit.weight.get()), "{}", mark.name);
        assert!(mark.name.as_str() != "ribbed" || fruit.lobes.unwrap() >= 4);
    }
}

/// The shipped guide's own numbers: 4 trusses and 1 m, 9 and 1.45 m, 12 before frost and 2 m.
#[test]
fn plants_are_the_guides() {
    let guide = habit::read("habit.toml", habit::SHIPPED).unwrap();
    let numbers = |habit| {
        let plant = typical::plant(&guide, habit).unwrap();
        (plant.trusses, plant.height.get())
    };
    assert_eq!(numbers(Habit::Determinate), (4, 1000.0));
    assert_eq!(numbers(Habit::SemiDeterminate), (9, 1450.0));
    assert_eq!(numbers(Habit::Indeterminate), (12, 2000.0));
    let ripe = |habit| typical::plant(&guide, habit).unwrap().ripe;
    assert!(ripe(Habit::Determinate) > ripe(Habit::SemiDeterminate));
    assert!(ripe(Habit::SemiDeterminate) > ripe(Habit::Indeterminate));
}
