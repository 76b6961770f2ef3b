//! How much: numbers, units, and the words that make limits and ranges of them.
//!
//! "under 4 oz", "4-6 oz", "1 lb 4 oz", "half a pound or more", "over 2 in long", "3 to 5 cm wide", "65 days or
//! less", "6 or more chambers". A figure without a unit is no amount. Start at [`amount`].

mod number;
mod phrases;

use crate::amount::Amount;
use crate::quantity::number::number;
use crate::quantity::phrases::{Axis, Bound, Unit};
use crate::tokens::Token;
use crate::wish::Want;
use record::days::Days;
use record::length::Millimetres;
use record::mass::Grams;

/// An amount and the index of the first token behind it.
pub(crate) type Found<T> = Option<(T, usize)>;

/// Reads an amount that begins at a token.
pub(crate) fn amount(tokens: &[Token], at: usize) -> Found<Want> {
    let (want, end) = one_amount(tokens, at)?;
    Some((want.clone(), other_way_round(tokens, end, &want).unwrap_or(end)))
}

/// How far apart two amounts may be that say the same in two units, as packets round: 6 in 100.
/// Common practice, no source.
const SAME_WITHIN: f64 = 0.06;

/// The end of "(113 g)" behind "4 oz", where it says the same.
fn other_way_round(tokens: &[Token], end: usize, want: &Want) -> Option<usize> {
    let opens = tokens.get(end)?;
    let (again, behind) =
        (opens.is_sign('(') || opens.is_sign('/')).then(|| one_amount(tokens, end + 1))??;
    let near = |one: f64, other: f64| (one - other).abs() <= SAME_WITHIN * one.abs().max(other.abs());
    let ends = |want: &Want| match want {
        Want::Weight(amount) => Some(amount.ends()),
        Want::Length(amount) | Want::Width(amount) | Want::Height(amount) => Some(amount.ends()),
        _ => None,
    };
    let ((low, high), (low_again, high_again)) = (ends(want)?, ends(&again)?);
    let same = |one: Option<f64>, other: Option<f64>| match (one, other) {
        (Some(one), Some(other)) => near(one, other),
        (None, None) => true,
        _ => false,
    };
    let closes = usize::from(tokens.get(behind).is_some_and(|token| token.is_sign(')')));
    (want.kind() == again.kind() && same(low, low_again) && same(high, high_again)).then_some(behind + closes)
}

fn one_amount(tokens: &[Token], at: usize) -> Found<Want> {
    let (named, at) = phrases::axis_before(tokens, at);
    let (bound, compared, at) = phrases::bound_before(tokens, at);
    let (first, at) = quantity(tokens, at, named)?;
    let second = range_end(tokens, at, bound, first.unit, named);
    let (low, high, unit, at) = match second {
        Some((second, at)) => {
            (first.number, Some(second.number), (first.unit.or(second.unit), second.unit), at)
        }
        None => (first.number, None, (first.unit, first.unit), at),
    };
    let (after, at) = phrases::bound_after(tokens, at);
    let (unit, at) = match unit {
        (Some(low), high) => ((low, high.unwrap_or(low)), at),
        (None, _) => phrases::unit(tokens, at).map(|(unit, at)| ((unit, unit), at))?,
    };
    let (axis, at) = phrases::axis_after(tokens, at);
    let axis = axis.or(compared).or(named.and_then(Unit::axis));
    let bound = after.or(bound);
    let want = want((low, unit.0), high.map(|high| (high, unit.1)), bound, axis)?;
    Some((want, at))
}

/// A number, with its unit where one follows.
#[derive(Clone, Copy, Debug)]
struct Quantity {
    number: f64,
    unit: Option<Unit>,
}

/// `4 oz`, `1 lb 4 oz`, `half a pound`; a word for a number or an article only counts with a unit behind it.
fn quantity(tokens: &[Token], at: usize, named: Option<Unit>) -> Found<Quantity> {
    let (figure, behind) = number(tokens, at)?;
    let Some((unit, behind)) = phrases::unit(tokens, behind) else {
        let unit = named.filter(|unit| unit.is_count());
        return Some((Quantity { number: figure, unit }, behind));
    };
    let small = || {
        let (more, at) = number(tokens, behind)?;
        let (small, at) = phrases::unit(tokens, at)?;
        Some((unit.with_small(figure, small, more)?, at))
    };
    let (number, behind) = small().unwrap_or((figure, behind));
    Some((Quantity { number, unit: Some(unit) }, behind))
}

/// The second number of a range, where one follows.
fn range_end(
    tokens: &[Token],
    at: usize,
    bound: Option<Bound>,
    first: Option<Unit>,
    named: Option<Unit>,
) -> Found<Quantity> {
    let joins = phrases::joins_range(tokens.get(at)?, bound)?;
    let (second, end) = quantity(tokens, at + joins, named)?;
    // "2 or 3 oz" is a range, "8 oz or 200 g long" is not; a year or a bare number ends none.
    let whole = first.is_none() || second.unit.is_some();
    let behind = || phrases::unit_behind_bound(tokens, end);
    let alike = match (first, second.unit) {
        (Some(one), Some(other)) => one.is_like(other),
        (None, None) => behind(),
        _ => true,
    };
    (whole && alike).then_some((second, end))
}

/// The want of an amount in its unit.
fn want(
    low: (f64, Unit),
    high: Option<(f64, Unit)>,
    bound: Option<Bound>,
    axis: Option<Axis>,
) -> Option<Want> {
    let (number, unit) = low;
    let ends = (unit.scaled(number), high.map(|(number, unit)| unit.scaled(number)));
    match unit {
        Unit::Mass(_) => Some(Want::Weight(amount_of(ends, bound, Grams::new)?)),
        Unit::Length(_, usual) => {
            let amount = amount_of(ends, bound, Millimetres::new)?;
            Some(match axis.unwrap_or(usual) {
                Axis::Long => Want::Length(amount),
                Axis::Wide => Want::Width(amount),
                Axis::Tall => Want::Height(amount),
            })
        }
        Unit::Days(_) => Some(Want::Days(amount_of(ends, bound, Days::new)?)),
        Unit::Locules => Some(Want::Locules(locules(ends, bound)?)),
    }
}

fn amount_of<T>(
    (low, high): (f64, Option<f64>),
    bound: Option<Bound>,
    unit: fn(f64) -> Option<T>,
) -> Option<Amount<T>> {
    let value = unit(low)?;
    Some(match (high, bound) {
        (Some(high), _) if high < low => Amount::Between(unit(high)?, value),
        (Some(high), _) => Amount::Between(value, unit(high)?),
        (None, Some(Bound::Under | Bound::AtMost)) => Amount::AtMost(value),
        (None, Some(Bound::Over | Bound::AtLeast)) => Amount::AtLeast(value),
        (None, Some(Bound::About | Bound::Between) | None) => Amount::About(value),
    })
}

/// Most locules that are asked for; more is a slip of the pen. Common practice, no source.
const MOST_LOCULES: f64 = 100.0;

/// Locules are counted: under three is at most two, and three is three.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "within 0 and MOST_LOCULES")]
fn locules((low, high): (f64, Option<f64>), bound: Option<Bound>) -> Option<Amount<u32>> {
    let count = |number: f64| (0.0..=MOST_LOCULES).contains(&number).then_some(number.round() as u32);
    Some(match (high, bound) {
        (Some(high), _) => Amount::Between(count(low.min(high))?, count(low.max(high))?),
        (None, Some(Bound::Under)) => Amount::AtMost(count(low - 1.0)?),
        (None, Some(Bound::AtMost)) => Amount::AtMost(count(low)?),
        (None, Some(Bound::Over)) => Amount::AtLeast(count(low + 1.0)?),
        (None, Some(Bound::AtLeast)) => Amount::AtLeast(count(low)?),
        (None, _) => Amount::Between(count(low)?, count(low)?),
    })
}
