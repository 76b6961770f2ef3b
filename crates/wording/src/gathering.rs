//! The pieces of a text gathered to one wish. Start at [`gathered`].

use crate::amount::{Amount, Measured};
use crate::reading::Part;
use crate::wish::{Choice, Kind, Sense, Size, Want, Wish};

/// Gathers pieces to a wish. A limit from below and one from above make one range; a size in words counts only where
/// neither a weight nor a fruit class is asked for, as a large cherry is no large fruit.
pub(crate) fn gathered(parts: &[Part]) -> Wish {
    let mut wish = Wish::default();
    let mut sizes: Vec<(Size, Sense)> = Vec::new();
    for part in parts {
        for want in &part.wants {
            add(&mut wish, &mut sizes, want, part.sense);
        }
    }
    if wish.weights.is_empty() && wish.classes.wanted.is_empty() {
        for (size, sense) in sizes {
            limit(&mut wish.weights, size.weights(), sense);
        }
    }
    wish
}

fn add(wish: &mut Wish, sizes: &mut Vec<(Size, Sense)>, want: &Want, sense: Sense) {
    match want {
        Want::Habit(habit) => choose(&mut wish.habits, habit, sense),
        Want::Class(class) => choose(&mut wish.classes, class, sense),
        Want::Colour(colour) => choose(&mut wish.colours, colour, sense),
        Want::Pattern(pattern) => choose(&mut wish.patterns, pattern, sense),
        Want::Mark(mark) => choose(&mut wish.marks, mark, sense),
        Want::Use(purpose) if want.kind() == Kind::Growing => choose(&mut wish.growing, purpose, sense),
        Want::Use(purpose) => choose(&mut wish.uses, purpose, sense),
        Want::Weight(amount) => limit(&mut wish.weights, *amount, sense),
        Want::Size(size) => sizes.push((*size, sense)),
        Want::Length(amount) => limit(&mut wish.lengths, *amount, sense),
        Want::Width(amount) => limit(&mut wish.widths, *amount, sense),
        Want::Height(amount) => limit(&mut wish.heights, *amount, sense),
        Want::Days(amount) => limit(&mut wish.days, *amount, sense),
        Want::Earliness(earliness) => {
            let days = match sense {
                Sense::Wanted => Some(earliness.days()),
                Sense::Barred => earliness.other_days(),
            };
            days.into_iter().for_each(|days| limit(&mut wish.days, days, Sense::Wanted));
        }
        Want::Locules(amount) => limit(&mut wish.locules, *amount, sense),
        Want::State(state) => choose(&mut wish.states, state, sense),
        Want::Season(season) => choose(&mut wish.seasons, season, sense),
        Want::Words(words) => choose(&mut wish.words, words, sense),
    }
}

fn choose<T: Clone + PartialEq>(choice: &mut Choice<T>, value: &T, sense: Sense) {
    let chosen = match sense {
        Sense::Wanted => &mut choice.wanted,
        Sense::Barred => &mut choice.barred,
    };
    if !chosen.contains(value) {
        chosen.push(value.clone());
    }
}

/// Adds an amount. "Not over" is "at most"; a range or a plain amount cannot be barred by a limit and is passed over.
fn limit<T: Measured>(amounts: &mut Vec<Amount<T>>, amount: Amount<T>, sense: Sense) {
    let amount = match (sense, amount) {
        (Sense::Wanted, amount) => amount,
        (Sense::Barred, Amount::AtLeast(value)) => Amount::AtMost(value),
        (Sense::Barred, Amount::AtMost(value)) => Amount::AtLeast(value),
        (Sense::Barred, Amount::About(_) | Amount::Between(..)) => return,
    };
    let joined = match (amounts.last().copied(), amount) {
        (Some(Amount::AtLeast(low)), Amount::AtMost(high))
        | (Some(Amount::AtMost(high)), Amount::AtLeast(low))
            if low <= high =>
        {
            amounts.pop();
            Amount::Between(low, high)
        }
        _ => amount,
    };
    if !amounts.contains(&joined) {
        amounts.push(joined);
    }
}
