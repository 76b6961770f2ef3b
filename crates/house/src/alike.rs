//! The list's varieties as profiles that can be held against each other, and the names that they speak in.

use crate::guides::Guides;
use crate::kept::{KeptCall, KeptColour, KeptFruit, KeptHabit, KeptMeasure, KeptShare};
use crate::list::Listed;
use assortment::kinds::{Apart, Kinds};
use assortment::profile::{Profile, Words};
use identity::ciede2000::colour_difference;
use identity::guide::colour::ColourGuide;
use identity::guide::fruit::ClassName;
use identity::habit::Habit;
use record::colour::{Pattern, TradeColour};
use record::mass::Grams;
use record::share::Percent;

/// The names of the house's guides, with how far they lie apart.
pub(crate) fn words(guides: &Guides) -> Words {
    let colours = TradeColour::ALL.map(|colour| colour.name().to_owned()).to_vec();
    Words {
        habits: Kinds { names: Habit::ALL.iter().map(Habit::to_string).collect(), apart: habits_apart() },
        classes: Kinds::without_order(guides.fruit.class_names().map(ClassName::to_string).collect()),
        colours: Kinds { names: colours, apart: colours_apart(&guides.colour) },
        patterns: Kinds::without_order(Pattern::ALL.map(|pattern| pattern.name().to_owned()).to_vec()),
    }
}

/// Determinate, semi-determinate and indeterminate stand in this order, a half step each; a dwarf, whatever
/// its stem, stands for a grower as far from all three as they from each other, and half a step from a
/// micro-dwarf. A choice of ours.
fn habits_apart() -> Apart {
    let order = |habit: &Habit| match habit {
        Habit::MicroDwarf => (0.0, 0.0),
        Habit::Dwarf => (0.0, 0.5),
        Habit::Determinate => (1.0, 0.0),
        Habit::SemiDeterminate => (1.0, 0.5),
        Habit::Indeterminate => (1.0, 1.0),
    };
    Apart::by(Habit::ALL.len(), |one, other| match (Habit::ALL.get(one), Habit::ALL.get(other)) {
        (Some(one), Some(other)) => {
            let ((of, at), (other_of, other_at)) = (order(one), order(other));
            if of == other_of { f64::abs(at - other_at) } else { 1.0 }
        }
        _ => 1.0,
    })
}

/// CIEDE2000 difference from which two colours are as far apart as a buyer sees: red from green is about 60,
/// red from pink about 15 in the shipped guide. A choice of ours.
const FAR_APART: f64 = 40.0;

/// Colours lie apart by what the eye sees between the guide's nearest references of both. A bicolour is
/// none of its parts, and no reference of one colour can stand for it.
fn colours_apart(guide: &ColourGuide) -> Apart {
    let nearest = |one: TradeColour, other: TradeColour| {
        let of = |colour| guide.references.iter().filter(move |reference| reference.colour == colour);
        let each =
            of(one).flat_map(|one| of(other).map(move |other| colour_difference(one.lab, other.lab).get()));
        each.fold(f64::INFINITY, f64::min)
    };
    let colours = TradeColour::ALL;
    Apart::by(colours.len(), |one, other| match (colours.get(one), colours.get(other)) {
        (Some(TradeColour::Bicolour), _) | (_, Some(TradeColour::Bicolour)) => 1.0,
        (Some(one), Some(other)) => nearest(*one, *other) / FAR_APART,
        _ => 1.0,
    })
}

/// What is known of each variety of the list.
pub(crate) fn profiles(list: &[Listed], words: &Words) -> Vec<Profile> {
    let one = |listed: &Listed| {
        let (fruit, habit, colour) = (&listed.fruit, &listed.habit, &listed.colour);
        profile(&listed.variety.name, fruit.as_ref(), habit.as_ref(), colour.as_ref(), words)
    };
    list.iter().map(one).collect()
}

/// What its calls say of one variety, or of one unknown.
pub(crate) fn profile(
    name: &str,
    fruit: Option<&KeptFruit>,
    habit: Option<&KeptHabit>,
    colour: Option<&KeptColour>,
    words: &Words,
) -> Profile {
    let facts = fruit.map(|fruit| fruit.facts).unwrap_or_default();
    let usual = |measure: Option<KeptMeasure>| measure.map(|measure| measure.usual);
    let width = usual(facts.width_mm).filter(|width| 0.0 < *width);
    Profile {
        name: name.to_owned(),
        weight: usual(facts.weight_g).and_then(Grams::new),
        shape: usual(facts.length_mm).zip(width).map(|(length, width)| length / width),
        neck: usual(facts.neck),
        locules: usual(facts.locules),
        lobes: usual(facts.lobes),
        soluble_solids: usual(facts.soluble_solids_pct).and_then(Percent::new),
        days_to_ripe: usual(facts.days_to_ripe),
        habit: mix(habit.map(|habit| &habit.call), &words.habits),
        class: mix(fruit.map(|fruit| &fruit.call), &words.classes),
        colour: mix(colour.map(|colour| &colour.exterior), &words.colours),
        pattern: mix(colour.map(|colour| &colour.pattern), &words.patterns),
    }
}

/// The probabilities of a call that evidence speaks for; a call without any says nothing.
fn mix(call: Option<&KeptCall>, kinds: &Kinds) -> Option<assortment::kinds::Mix> {
    let call = call.filter(|call| call.measured)?;
    kinds.mix(call.shares.iter().map(|KeptShare { answer, share }| (answer.as_str(), *share)))
}
