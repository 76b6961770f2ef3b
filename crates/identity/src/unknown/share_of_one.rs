//! The fruit class of one measured fruit, as plain arithmetic that can be done again elsewhere.
//!
//! The published web pages answer "what is it?" without a program behind them, so this one sum is kept
//! small and is written out below in full. It goes through the very code that calls a variety: whoever
//! does it again elsewhere can be tested against it. Start at [`class_shares`].

use super::{Unknown, evidence};
use crate::fruit_class::draws::{Point, hypercube};
use crate::fruit_class::evidence::Evidence;
use crate::fruit_class::rules::Rules;
use crate::guide::fruit::{ClassName, FruitGuide};
use crate::spread::Spread;
use record::season::Season;
use record::share::Share;
use record::unknown::FruitSeen;

/// Chances for [`class_shares`]: rows of standard normal numbers, the same on every machine.
#[derive(Clone, Debug, PartialEq)]
pub struct Chances(Vec<Point>);

impl Chances {
    /// So many rows; 256 hold a share to about two in a hundred.
    #[must_use]
    pub fn new(rows: usize) -> Self {
        Self(hypercube("one fruit", rows))
    }

    /// The rows: eight numbers that move the traits (size, shape, fullness, neck, locules, lobes, soluble
    /// solids, dry matter), then ten that move the borders, in the order of
    /// [`crate::guide::fruit::measure::MEASURES`].
    pub fn rows(&self) -> impl Iterator<Item = &[f64]> {
        self.0.iter().map(<[f64; _]>::as_slice)
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

/// How likely each class is for the variety of one fruit; `None` where neither weight, length nor width
/// was measured.
///
/// # The arithmetic
/// All traits are natural logarithms, rounded to 1/65 536 (lobes: of one more).
/// 1. *Seen.* Weight w, length l and width b give: size = w, or where the fruit was not weighed
///    e(l, b) = 2b + l + k, with k the logarithm of [`crate::ellipsoid`]'s density; shape = l - b; fullness =
///    w - e(l, b); neck = logarithm of neck width - b. Where just one of l and b goes with w, shape is
///    w - k - 3b or (3l + k - w)/2. Where only one dimension is known, that is the size.
/// 2. *How far it speaks.* The variance of a trait is `season + plant + fruit` of the house's
///    [`Spread`]; a size worked out by e, or a shape from w, has 0.05^2 more.
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
    fruit: &FruitSeen,
    season: Season,
    spread: &Spread,
    guide: &FruitGuide,
    chances: &Chances,
) -> Option<ClassShares> {
    let unknown = Unknown { fruits: vec![fruit.clone()], ..Unknown::nothing_seen(season) };
    let seen = Evidence::of(&evidence(&unknown).fruit, spread);
    if !seen.is_sized() {
        return None;
    }
    let tally = Rules::classes(guide).tally(&seen.posterior(), &chances.0);
    let share = |count| Share::of(count, tally.draws).unwrap_or(Share::NONE);
    let names = guide.class_names().cloned();
    let shares = names.zip(tally.counts.iter().map(|count| share(*count))).collect();
    Some(ClassShares { shares, between: share(tally.between()) })
}
