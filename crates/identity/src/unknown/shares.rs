//! The fruit class of a handful of measured fruits, as plain arithmetic that can be done again elsewhere.
//!
//! The published web pages answer "what is it?" without a program behind them, so this sum is kept small and
//! is written out below in full. It goes through the very code that calls a variety: whoever does it again
//! elsewhere can be tested against it. Start at [`class_shares`]; [`class_looks`] says what one more look
//! would tell.

use super::{Unknown, evidence};
use crate::call::Step;
use crate::fruit_class::draws::hypercube;
use crate::fruit_class::evidence::Evidence;
use crate::fruit_class::rules::Rules;
use crate::fruit_class::{self, Draws};
use crate::guide::fruit::{ClassName, FruitGuide};
use crate::spread::Spread;
use record::season::Season;
use record::share::Share;
use record::unknown::FruitSeen;

/// Of the rows of chances, each this many-th is an imagined outcome of a look.
const OUTCOME_EACH: usize = 8;
/// Of the rows of chances, each this many-th serves the call that is imagined after an outcome.
const AFTER_EACH: usize = 4;

/// Chances for [`class_shares`]: rows of standard normal numbers, the same on every machine.
#[derive(Clone, Debug)]
pub struct Chances(Draws);

impl Chances {
    /// So many rows; 256 hold a share to about two in a hundred. Of them every eighth, from the first, is an
    /// imagined outcome, and every fourth, from the second, serves the call after it.
    #[must_use]
    pub fn new(rows: usize) -> Self {
        let call = hypercube("one fruit", rows);
        let outcomes = call.iter().step_by(OUTCOME_EACH).copied().collect();
        let after = call.iter().skip(1).step_by(AFTER_EACH).copied().collect();
        Self(Draws { call, outcomes, after })
    }

    /// The rows: eight numbers that move the traits (size, shape, fullness, neck, locules, lobes, soluble
    /// solids, dry matter), then ten that move the borders, in the order of
    /// [`crate::guide::fruit::measure::MEASURES`].
    pub fn rows(&self) -> impl Iterator<Item = &[f64]> {
        self.0.call.iter().map(<[f64; _]>::as_slice)
    }
}

/// How likely each class is.
#[derive(Clone, Debug, PartialEq)]
pub struct ClassShares {
    /// Every class in the guide's order.
    pub shares: Vec<(ClassName, Share)>,
    /// What no class takes.
    pub between: Share,
}

/// How likely each class is for the variety of these fruits; `None` where neither weight, length nor width
/// was measured of any.
///
/// # The arithmetic
/// All traits are natural logarithms, rounded to 1/65 536 (lobes: of one more).
/// 1. *Seen.* Weight w, length l and width b give: size = w, or where the fruit was not weighed
///    e(l, b) = 2b + l + k, with k the logarithm of [`crate::ellipsoid`]'s density; shape = l - b; fullness =
///    w - e(l, b); neck = logarithm of neck width - b. Where just one of l and b goes with w, shape is
///    w - k - 3b or (3l + k - w)/2. Where only one dimension is known, that is the size.
/// 2. *How far it speaks.* A plant's mean has the variance `plant + fruit / n` of the house's [`Spread`];
///    the mean of the plants, each weighed by one over its own, has one over the sum of the weights, and
///    `season` more. Size and shape have (0.05 p)^2 more, with p the part of the fruits whose size was worked
///    out by e, or whose shape from w. Of fruits none of which was weighed or measured both ways, the
///    dimension that most have is the size; of equals the width.
/// 3. *Steadied by what is usual.* A usual mean m0 and variance v0 and a seen m, v join to the mean
///    m0 + v0/(v0 + v) (m - m0) and the variance v0 v/(v0 + v); a size told by one dimension is not
///    steadied. Locules, soluble solids and dry matter have their usual mean on a straight line beside
///    weight (dry matter beside solids once those were read); the figures stand in `fruit_class::usual`.
/// 4. *Drawn.* Each row of `chances` makes one possible variety: a trait is mean + sd x its number; an
///    unmeasured neck is that of an egg, or of a pear in the lowest twelfth of long fruit. Width is
///    (weight - fullness - shape - k)/3, length is width + shape.
/// 5. *Sorted.* Each measure less its softness times the row's border number goes through the guide's ways
///    in order; the first way whose every band holds (lower border included, upper not) takes the row.
/// 6. *Counted.* A class's share is its rows over all rows; rows that no way takes are between classes.
#[must_use]
pub fn class_shares(
    fruits: &[FruitSeen],
    season: Season,
    spread: &Spread,
    guide: &FruitGuide,
    chances: &Chances,
) -> Option<ClassShares> {
    let seen = Evidence::of(&evidence(&handful(fruits, season)).fruit, spread);
    if !seen.is_sized() {
        return None;
    }
    let tally = Rules::classes(guide).tally(&seen.posterior(), &chances.0.call);
    let share = |count| Share::of(count, tally.draws).unwrap_or(Share::NONE);
    let names = guide.class_names().cloned();
    let shares = names.zip(tally.counts.iter().map(|count| share(*count))).collect();
    Some(ClassShares { shares, between: share(tally.between()) })
}

/// What each look at these fruits that was not taken yet is expected to make of the class, the cheapest first;
/// nothing where the class is settled.
///
/// # The arithmetic
/// Each outcome row makes one possible variety. The fruits of the look are imagined of it: a line's value,
/// moved by the root of the variance that the look would add as an observation of its own (one over the
/// difference of the precisions after and before), times the row's border number of the line. The shares
/// are counted again over the rows that serve for it, and the leading one is averaged over the outcomes; the
/// lift over the same with nothing new is added to the leading share as it stands.
#[must_use]
pub fn class_looks(
    fruits: &[FruitSeen],
    season: Season,
    spread: &Spread,
    guide: &FruitGuide,
    chances: &Chances,
) -> Vec<Step> {
    let unknown = handful(fruits, season);
    fruit_class::looks(&evidence(&unknown).fruit, spread, guide, &chances.0, unknown.fruit_count())
}

fn handful(fruits: &[FruitSeen], season: Season) -> Unknown {
    Unknown { fruits: fruits.to_vec(), ..Unknown::nothing_seen(season) }
}
