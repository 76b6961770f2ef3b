//! Rates of many alike things, each counted a few times: what one of them will come to, when most are known little.
//!
//! Of thing i, over a stretch of exposure e (a year is 1, half of one 0.5), the count is negative binomial with mean `r_i e`
//! and size `k e`. So counts of neighbouring stretches add to the count of both, however a year is cut. The rate comes from
//! the family of all things: `r_i / (k + r_i)` is beta with `shape` and `1 + k shape / mean`, and `r_i` then has that mean.
//! As k grows this is the gamma family of Poisson counts. It has a closed form throughout: what is to come is beta negative
//! binomial. A thing with few counts is drawn towards the family, one with many speaks for itself.
//!
//! It does not know why things differ, and takes rates for constant but for what the exposure says. Start at [`fit`].
//!
//! # Source
//! Negative binomial counts with a beta prior on the share: Johnson, Kemp and Kotz, Univariate Discrete Distributions, 3rd
//! edition, 6.2.3 and 6.7.2 (citation from memory, unverified); the tests hold it against SciPy's `betanbinom` and a fit by SciPy.

use crate::normal::quantile;
use record::share::Share;
use statrs::function::beta::ln_beta;
use statrs::function::gamma::ln_gamma;

/// What was counted of a thing over one stretch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Counted {
    /// The count.
    pub count: u32,
    /// The exposure, above nothing.
    pub exposure: f64,
}

/// The family that rates come from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Family {
    /// The mean rate, for an exposure of 1.
    pub mean: f64,
    /// How alike the rates are: the larger, the more.
    pub shape: f64,
    /// Size of the counts of one exposure: the larger, the nearer to rare events.
    pub size: f64,
}

/// What was seen of one thing, all together.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Seen {
    /// Its counts.
    pub count: u64,
    /// Its exposures.
    pub exposure: f64,
}

impl Seen {
    /// Adds up stretches.
    #[must_use]
    pub fn of(stretches: &[Counted]) -> Self {
        stretches.iter().fold(Self::default(), |seen, one| Self {
            count: seen.count + u64::from(one.count),
            exposure: seen.exposure + one.exposure,
        })
    }
}

/// Least and most of each number of the family, in logarithms to the base e: beyond them nothing shows.
const REACH: (f64, f64) = (-9.0, 12.0);
/// Rounds over the three numbers; each halves what is left several times over.
const ROUNDS: u32 = 60;
/// A round that gains less is the last.
const LEAST_GAIN: f64 = 1e-10;
/// Steps of one search along a line; each leaves 0.618 of the stretch.
const LINE_STEPS: u32 = 44;
/// The golden section.
const GOLDEN: f64 = 0.618_033_988_749_894_9;

/// Fits the family to many things by maximum likelihood; `None` of fewer than two things, or where nothing was counted.
///
/// # Shape
/// `things`: of each, its stretches; those of no exposure are left out.
#[must_use]
pub fn fit(things: &[Vec<Counted>]) -> Option<Family> {
    let told: Vec<Vec<Counted>> =
        things.iter().map(|own| exposed(own)).filter(|own| !own.is_empty()).collect();
    let all = told
        .iter()
        .map(|own| Seen::of(own))
        .fold((0, 0.0), |(count, exposure), seen| (count + seen.count, exposure + seen.exposure));
    if told.len() < 2 || all.0 == 0 {
        return None;
    }
    #[expect(clippy::cast_precision_loss, reason = "a count far below 2^52")]
    let mean = all.0 as f64 / all.1;
    let mut at = [mean.ln(), 0.0, mean.ln()];
    let mut best = log_likelihood(&told, &family(at));
    for _ in 0..ROUNDS {
        let before = best;
        for axis in 0..at.len() {
            best = along(&mut at, axis, best, |at| log_likelihood(&told, &family(at)));
        }
        if best - before < LEAST_GAIN {
            break;
        }
    }
    Some(family(at))
}

fn exposed(own: &[Counted]) -> Vec<Counted> {
    own.iter().copied().filter(|one| 0.0 < one.exposure && one.exposure.is_finite()).collect()
}

fn family([mean, shape, size]: [f64; 3]) -> Family {
    Family { mean: mean.exp(), shape: shape.exp(), size: size.exp() }
}

/// Climbs along one axis by golden section, and tells how high it came.
fn along(at: &mut [f64; 3], axis: usize, best: f64, height: impl Fn([f64; 3]) -> f64) -> f64 {
    let with = |value: f64| {
        let mut there = *at;
        if let Some(own) = there.get_mut(axis) {
            *own = value;
        }
        (height(there), there)
    };
    let (mut low, mut high) = REACH;
    let point = |low: f64, high: f64, share: f64| low + share * (high - low);
    let (mut left, mut right) = (point(low, high, 1.0 - GOLDEN), point(low, high, GOLDEN));
    let (mut at_left, mut at_right) = (with(left), with(right));
    for _ in 0..LINE_STEPS {
        if at_left.0 < at_right.0 {
            low = left;
            (left, at_left) = (right, at_right);
            right = point(low, high, GOLDEN);
            at_right = with(right);
        } else {
            high = right;
            (right, at_right) = (left, at_left);
            left = point(low, high, 1.0 - GOLDEN);
            at_left = with(left);
        }
    }
    let top = if at_left.0 < at_right.0 { at_right } else { at_left };
    if best < top.0 {
        *at = top.1;
        return top.0;
    }
    best
}

/// The logarithm of the likelihood of all counts under a family.
#[must_use]
pub fn log_likelihood(things: &[Vec<Counted>], family: &Family) -> f64 {
    let (alpha, beta) = family.beta();
    let before = ln_beta(alpha, beta);
    let own = |stretches: &Vec<Counted>| {
        let cells: f64 =
            stretches.iter().map(|one| combinations(family.size * one.exposure, one.count)).sum();
        let (a, b) = family.after(Seen::of(stretches));
        cells + ln_beta(a, b) - before
    };
    things.iter().map(own).sum()
}

/// The logarithm of `gamma(size + count) / (gamma(size) count!)`.
fn combinations(size: f64, count: u32) -> f64 {
    let count = f64::from(count);
    ln_gamma(size + count) - ln_gamma(size) - ln_gamma(count + 1.0)
}

/// What is to come of a thing: the chance of each count.
#[derive(Clone, Debug, PartialEq)]
pub struct Outlook {
    mean: f64,
    /// Chance of each count or less, from none on.
    below: Vec<f64>,
}

/// Counts beyond which no outlook is followed, and the chance that is left out at the end.
const MOST_COUNTS: usize = 200_000;
const LEFT_OUT: f64 = 1e-7;
/// Levels that an unsure level is taken at, each as likely as the others.
const LEVELS: u32 = 9;

impl Family {
    /// The beta family of `rate / (size + rate)`.
    fn beta(&self) -> (f64, f64) {
        (self.shape, 1.0 + self.size * self.shape / self.mean)
    }

    /// The same after what was seen.
    fn after(&self, seen: Seen) -> (f64, f64) {
        let (alpha, beta) = self.beta();
        #[expect(clippy::cast_precision_loss, reason = "a count far below 2^52")]
        let count = seen.count as f64;
        (alpha + count, beta + self.size * seen.exposure)
    }

    /// The rate to expect of a thing after what was seen of it.
    #[must_use]
    pub fn rate(&self, seen: Seen) -> f64 {
        let (a, b) = self.after(seen);
        self.size * a / (b - 1.0)
    }

    /// What a thing comes to over an exposure to come, which is itself only known to within a factor: `level_spread` is the
    /// standard deviation of that factor's logarithm, 0 where it is known.
    #[must_use]
    pub fn outlook(&self, seen: Seen, exposure: f64, level_spread: f64) -> Outlook {
        let (a, b) = self.after(seen);
        let exposure = exposure.max(0.0);
        let each = |level: f64| self.size * exposure * level;
        let sizes: Vec<f64> = levels(level_spread).into_iter().map(each).collect();
        let share = 1.0 / f64::from(LEVELS);
        let mean = sizes.iter().map(|size| share * size * a / (b - 1.0)).sum();
        let mut chances: Vec<Chances> = sizes.iter().map(|size| Chances::new(*size, a, b)).collect();
        let (mut below, mut sum) = (Vec::new(), 0.0);
        while below.len() < MOST_COUNTS && sum < 1.0 - LEFT_OUT {
            sum += share * chances.iter_mut().map(Chances::next_chance).sum::<f64>();
            below.push(sum.min(1.0));
        }
        Outlook { mean, below }
    }
}

/// Factors of mean 1 on the whole that are as likely as each other.
fn levels(spread: f64) -> Vec<f64> {
    let middle = |step: u32| Share::new((f64::from(step) + 0.5) / f64::from(LEVELS)).and_then(quantile);
    let levels: Vec<f64> = (0..LEVELS).filter_map(middle).map(|z| (spread * z).exp()).collect();
    let mean = levels.iter().sum::<f64>() / f64::from(LEVELS);
    levels.into_iter().map(|level| level / mean).collect()
}

/// Chances of one count after the other, in logarithms so that none vanishes.
struct Chances {
    size: f64,
    a: f64,
    sum: f64,
    count: f64,
    log: f64,
}

impl Chances {
    fn new(size: f64, a: f64, b: f64) -> Self {
        let log = if 0.0 < size { ln_beta(a, b + size) - ln_beta(a, b) } else { 0.0 };
        Self { size, a, sum: a + b + size, count: 0.0, log }
    }

    fn next_chance(&mut self) -> f64 {
        let chance = self.log.exp();
        let ratio =
            (self.size + self.count) * (self.a + self.count) / ((self.count + 1.0) * (self.sum + self.count));
        self.log += ratio.ln();
        self.count += 1.0;
        chance
    }
}

impl Outlook {
    /// The mean.
    #[must_use]
    pub fn mean(&self) -> f64 {
        self.mean
    }

    /// The least count that is not passed with such a chance.
    #[must_use]
    pub fn at(&self, chance: Share) -> u32 {
        let count = self.below.partition_point(|below| *below < chance.get());
        u32::try_from(count.min(self.below.len().saturating_sub(1))).unwrap_or(u32::MAX)
    }

    /// The chance of so many or fewer.
    #[must_use]
    pub fn at_most(&self, count: u32) -> Share {
        let place = usize::try_from(count).unwrap_or(usize::MAX);
        self.below.get(place).copied().and_then(Share::new).unwrap_or(Share::ALL)
    }

    /// How many are expected beyond so many: what is missing where that is all there is.
    #[must_use]
    pub fn beyond(&self, count: u32) -> f64 {
        let count = usize::try_from(count).unwrap_or(usize::MAX);
        let met: f64 = self.below.iter().take(count).map(|below| 1.0 - below).sum();
        (self.mean - met).max(0.0)
    }
}
