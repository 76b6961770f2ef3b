//! A made-up list for tests: names and profiles by the dozen.

use assortment::kinds::{Apart, Kinds, Mix};
use assortment::profile::{Profile, Words};
use record::mass::Grams;

pub(crate) fn names(words: &[&str]) -> Vec<String> {
    words.iter().map(|word| (*word).to_owned()).collect()
}

pub(crate) fn words() -> Words {
    let habits = names(&["determinate", "semi-determinate", "indeterminate"]);
    Words {
        habits: Kinds { names: habits, apart: Apart::by(3, |one, other| one.abs_diff(other) as f64 / 2.0) },
        classes: Kinds::without_order(names(&["cherry", "plum", "slicer"])),
        colours: Kinds::without_order(names(&["red", "orange", "green"])),
        patterns: Kinds::without_order(names(&["plain", "striped"])),
    }
}

/// A variety whose habit, class and colour are sure.
pub(crate) fn sure(name: &str, grams: f64, [habit, class, colour]: [&str; 3]) -> Profile {
    let words = words();
    Profile {
        name: name.to_owned(),
        weight: Grams::new(grams),
        habit: words.habits.mix([(habit, 1.0)]),
        class: words.classes.mix([(class, 1.0)]),
        colour: words.colours.mix([(colour, 1.0)]),
        ..Profile::default()
    }
}

/// The same, its habit contested between two.
pub(crate) fn contested(profile: Profile, shares: [f64; 3]) -> Profile {
    Profile { habit: Mix::new(shares.to_vec()), ..profile }
}
