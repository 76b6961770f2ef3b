//! How the nearest varieties are found: what is known of each variety of the list; and pairs with the science's own
//! distance.

use crate::alike;
use crate::fault::HouseFault;
use crate::guides::Guides;
use crate::list::Listed;
use assortment::kinds::{Kinds, Mix};
use assortment::profile::{Profile, Trait, Words};
use assortment::standins::Assortment;
use publish::pages::what::rule::{Likeness, NameTrait, NumberTrait};

/// Pairs that a test compares, from either end of the list.
const PAIRS: usize = 24;

/// What is known of the list.
///
/// # Errors
/// None that profiles can bring about.
pub(super) fn of(all: &[Listed], guides: &Guides) -> Result<Likeness, HouseFault> {
    let words = alike::words(guides);
    let profiles = alike::profiles(all, &words);
    Ok(Likeness {
        numbers: NUMBERS.iter().map(|(of, name)| number(*of, name, &profiles)).collect(),
        names: names(&profiles, &words),
        trials: trials(&Assortment::new(&profiles, &words)?, profiles.len()),
    })
}

/// The traits told by a number that one fruit can show, with the names that `likeness.js` gives them. Days to ripe are
/// none: whoever holds a fruit cannot tell them.
const NUMBERS: [(Trait, &str); 6] = [
    (Trait::Weight, "weight"),
    (Trait::Shape, "shape"),
    (Trait::Locules, "locules"),
    (Trait::SolubleSolids, "solids"),
    (Trait::Neck, "neck"),
    (Trait::Lobes, "lobes"),
];

fn number(of: Trait, name: &'static str, profiles: &[Profile]) -> NumberTrait {
    NumberTrait { of: name, weight: of.weight(), values: profiles.iter().map(|own| of.number(own)).collect() }
}

fn names(profiles: &[Profile], words: &Words) -> Vec<NameTrait> {
    let one = |of: Trait, name, kinds: &Kinds, mix: fn(&Profile) -> Option<&Mix>| NameTrait {
        of: name,
        weight: of.weight(),
        apart: apart(kinds),
        chances: profiles.iter().map(|own| mix(own).map(|mix| mix.shares().to_vec())).collect(),
    };
    vec![
        one(Trait::Colour, "colour", &words.colours, |own| own.colour.as_ref()),
        one(Trait::Habit, "habit", &words.habits, |own| own.habit.as_ref()),
        one(Trait::Pattern, "pattern", &words.patterns, |own| own.pattern.as_ref()),
    ]
}

fn apart(kinds: &Kinds) -> Vec<Vec<f64>> {
    let count = kinds.names.len();
    (0..count).map(|one| (0..count).map(|other| kinds.apart.between(one, other)).collect()).collect()
}

/// The distance of some pairs over the traits that the page knows.
fn trials(assortment: &Assortment<'_>, count: usize) -> Vec<(usize, usize, f64)> {
    let each = (0..count).take(PAIRS).zip((0..count).rev());
    let pairs = each.filter(|(one, other)| one != other);
    let known = |of: Trait| of != Trait::DaysToRipe;
    pairs.filter_map(|(one, other)| Some((one, other, assortment.over(one, other, known)?))).collect()
}
