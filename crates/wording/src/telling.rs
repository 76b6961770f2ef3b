//! A wish told back: [`part`] tells what a piece of the text was read as, [`told`] the whole wish in words that read
//! as the same wish again.

use crate::amount::Amount;
use crate::reading::Part;
use crate::wish::{Choice, Sense, Size, Want, Wish};
use record::days::Days;
use record::language::{self, Units};

/// Tells what a piece of the text was read as: `colour red`, `not fruit class cherry`, `at most 4.0 oz (113 g)`.
#[must_use]
pub fn part(part: &Part, units: Units) -> String {
    let words: Vec<String> = part.wants.iter().map(|one| want(one, units)).collect();
    let words = words.join(" or ");
    match part.sense {
        Sense::Wanted => words,
        Sense::Barred => format!("not {words}"),
    }
}

fn want(want: &Want, units: Units) -> String {
    let mass = |mass| language::mass(mass, units);
    let length = |length| language::length(length, units);
    match want {
        Want::Habit(habit) => format!("habit {habit}"),
        Want::Class(class) => format!("fruit class {class}"),
        Want::Colour(colour) => format!("colour {colour}"),
        Want::Pattern(pattern) => format!("pattern {}", pattern.name()),
        Want::Mark(mark) => format!("shape {mark}"),
        Want::Use(purpose) => format!("good for {}", purpose.name()),
        Want::Weight(amount) => amount_words(*amount, mass),
        Want::Size(size) => size_words(*size, units),
        Want::Length(amount) => format!("{} long", amount_words(*amount, length)),
        Want::Width(amount) => format!("{} wide", amount_words(*amount, length)),
        Want::Height(amount) => format!("plants {} tall", amount_words(*amount, length)),
        Want::Days(amount) => format!("{} to the first ripe fruit", amount_words(*amount, days)),
        Want::Earliness(earliness) => {
            let days = amount_words(earliness.days(), days);
            format!("{}: {days} to the first ripe fruit", earliness.name())
        }
        Want::Locules(amount) => locules(*amount),
        Want::State(state) => state.name().to_owned(),
        Want::Season(season) => format!("grown in {season}"),
        Want::Words(words) => format!("the words \"{words}\""),
    }
}

fn size_words(size: Size, units: Units) -> String {
    let weights = amount_words(size.weights(), |mass| language::mass(mass, units));
    format!("{}: {weights}, unless a weight or a fruit class is asked for too", size.name())
}

fn days(days: Days) -> String {
    format!("{} days", days.get())
}

fn amount_words<T: Copy>(amount: Amount<T>, word: impl Fn(T) -> String) -> String {
    match amount {
        Amount::About(value) => format!("about {}", word(value)),
        Amount::AtLeast(value) => format!("at least {}", word(value)),
        Amount::AtMost(value) => format!("at most {}", word(value)),
        Amount::Between(low, high) => format!("{} to {}", word(low), word(high)),
    }
}

fn locules(amount: Amount<u32>) -> String {
    match amount {
        Amount::Between(low, high) if low == high => language::counted(low.into(), "locule", "locules"),
        Amount::Between(low, high) => format!("{low} to {high} locules"),
        amount => amount_words(amount, |count| language::counted(count.into(), "locule", "locules")),
    }
}

/// Tells a whole wish in one line that reads as the same wish: `determinate or dwarf; red; not cherry; at most 4.0 oz`.
/// Numbers are told in the house's own units to the digits that people use.
#[must_use]
pub fn told(wish: &Wish, units: Units) -> String {
    let mass = |mass| language::mass_briefly(mass, units);
    let length = |length| language::length_briefly(length, units);
    let mut all = vec![
        choice(&wish.habits, Clone::clone),
        choice(&wish.classes, Clone::clone),
        choice(&wish.colours, Clone::clone),
        choice(&wish.patterns, |pattern| pattern.name().to_owned()),
        choice(&wish.marks, Clone::clone),
        choice(&wish.uses, |purpose| purpose.name().to_owned()),
        choice(&wish.growing, |purpose| purpose.name().to_owned()),
        choice(&wish.states, |state| state.name().to_owned()),
        choice(&wish.seasons, |season| format!("grown in {season}")),
        choice(&wish.words, |words| format!("\"{words}\"")),
    ];
    all.push(amounts(&wish.weights, |amount| amount_words(amount, mass)));
    all.push(amounts(&wish.lengths, |amount| format!("{} long", amount_words(amount, length))));
    all.push(amounts(&wish.widths, |amount| format!("{} wide", amount_words(amount, length))));
    all.push(amounts(&wish.heights, |amount| format!("{} tall", amount_words(amount, length))));
    all.push(amounts(&wish.days, |amount| amount_words(amount, days)));
    all.push(amounts(&wish.locules, locules));
    all.retain(|words| !words.is_empty());
    all.join("; ")
}

fn choice<T>(choice: &Choice<T>, word: impl Fn(&T) -> String) -> String {
    let listed = |all: &[T]| all.iter().map(&word).collect::<Vec<_>>().join(" or ");
    match (choice.wanted.as_slice(), choice.barred.as_slice()) {
        (wanted, []) => listed(wanted),
        ([], barred) => format!("not {}", listed(barred)),
        (wanted, barred) => format!("{}; not {}", listed(wanted), listed(barred)),
    }
}

fn amounts<T: Copy>(amounts: &[Amount<T>], word: impl Fn(Amount<T>) -> String) -> String {
    amounts.iter().map(|amount| word(*amount)).collect::<Vec<_>>().join(" or ")
}
