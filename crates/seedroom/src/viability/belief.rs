//! What is believed of a lot's start and sigma, before and after its tests.
//!
//! Start at [`Belief`]. After the tests the belief is kept as a grid of courses with weights, laid along the belief's own
//! slopes about its top, so that it is as fine for a lot of many tests as for one of none.

use super::Course;
use super::decline::DatedTest;
use statistics::normal::{chance_below, log_density};
use statistics::probit::log_likelihood;

/// What is believed of lots before their tests: two normal curves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Belief {
    /// Deviate of the first day's sprouting: middle and standard deviation.
    pub start: (f64, f64),
    /// Natural logarithm of sigma in days: middle and standard deviation.
    pub log_sigma: (f64, f64),
}

/// Fresh, clean tomato seed sprouts about 95 in 100, and 80 of 100 lots between 77 and 99.5; its deviate falls by one in
/// about 4 years, 80 of 100 lots between 1.5 and 11, so that half of all lots pass 75 in 100 in about 4 years. Source of the 4
/// years: extension lists of seed life in a cool dry house (second-hand, weak); the spreads are common practice, no source,
/// wide on purpose, so that two or three tests of the lot itself outweigh them.
pub const USUAL: Belief = Belief { start: (1.65, 0.7), log_sigma: (7.3, 0.8) };

/// Points along each axis of the grid, and how many standard deviations of the belief's top they reach.
const POINTS: u16 = 151;
const REACH: f64 = 5.5;

/// Steps towards the top at most, and halvings of each; a grid laid a little beside the top is as good.
const MOST_STEPS: u32 = 50;
const MOST_HALVINGS: i32 = 20;
const SETTLED: f64 = 1e-8;

/// Start and logarithm of sigma.
type Place = (f64, f64);

/// Courses all through the belief after the tests, each with its logarithm of belief.
pub(super) fn spread(tests: &[DatedTest], belief: &Belief) -> Vec<(Course, f64)> {
    let top = top(tests, belief);
    let (width, lean, rest) = axes(information(tests, belief, top));
    let step = 2.0 * REACH / f64::from(POINTS - 1);
    let axis = || (0..POINTS).map(move |point| f64::from(point) * step - REACH);
    let place = |a: f64, b: f64| (top.0 + width * a, top.1 + lean * a + rest * b);
    let places = axis().flat_map(|a| axis().map(move |b| place(a, b)));
    places.map(|place| (course(place), log_belief(tests, belief, place))).collect()
}

fn course((start, log_sigma): Place) -> Course {
    Course { start, sigma_days: log_sigma.exp() }
}

fn deviate(test: &DatedTest, (start, log_sigma): Place) -> f64 {
    start - test.kept.get() * (-log_sigma).exp()
}

fn log_belief(tests: &[DatedTest], belief: &Belief, place: Place) -> f64 {
    let (a, b) = standard(belief, place);
    let of_tests = tests.iter().map(|test| log_likelihood(test.point(), deviate(test, place)));
    -0.5 * (a * a + b * b) + of_tests.sum::<f64>()
}

/// Start and logarithm of sigma in standard deviations from what is believed beforehand.
fn standard(belief: &Belief, (start, log_sigma): Place) -> (f64, f64) {
    ((start - belief.start.0) / belief.start.1, (log_sigma - belief.log_sigma.0) / belief.log_sigma.1)
}

/// Expected information: of start, of the logarithm of sigma, and of both.
fn information(tests: &[DatedTest], belief: &Belief, place: Place) -> (f64, f64, f64) {
    let mut sums = (belief.start.1.powi(-2), belief.log_sigma.1.powi(-2), 0.0);
    for test in tests {
        let deviate = deviate(test, place);
        let by_sigma = place.0 - deviate;
        let chances = (chance_below(deviate) * chance_below(-deviate)).max(f64::MIN_POSITIVE);
        let weight = f64::from(test.sown) * (2.0 * log_density(deviate)).exp() / chances;
        sums = (sums.0 + weight, sums.1 + weight * by_sigma * by_sigma, sums.2 + weight * by_sigma);
    }
    sums
}

/// Width of the start, and for one of it the lean and the remaining width of the logarithm of sigma.
fn axes((start, log_sigma, both): (f64, f64, f64)) -> (f64, f64, f64) {
    let determinant = start * log_sigma - both * both;
    let width = (log_sigma / determinant).sqrt();
    (width, -both / determinant / width, log_sigma.sqrt().recip())
}

fn slopes(tests: &[DatedTest], belief: &Belief, place: Place) -> (f64, f64) {
    let (a, b) = standard(belief, place);
    let mut sums = (-a / belief.start.1, -b / belief.log_sigma.1);
    for test in tests {
        let deviate = deviate(test, place);
        let density = log_density(deviate).exp();
        let part = |count: u32, deviate: f64| {
            f64::from(count) * density / chance_below(deviate).max(f64::MIN_POSITIVE)
        };
        let pull = part(test.normal, deviate) - part(test.sown.saturating_sub(test.normal), -deviate);
        sums = (sums.0 + pull, sums.1 + pull * (place.0 - deviate));
    }
    sums
}

/// Where the belief is highest, by Fisher's scoring.
fn top(tests: &[DatedTest], belief: &Belief) -> Place {
    let mut place = (belief.start.0, belief.log_sigma.0);
    for _ in 0..MOST_STEPS {
        let (start, log_sigma, both) = information(tests, belief, place);
        let (by_start, by_sigma) = slopes(tests, belief, place);
        let determinant = start * log_sigma - both * both;
        let step = (
            (log_sigma * by_start - both * by_sigma) / determinant,
            (start * by_sigma - both * by_start) / determinant,
        );
        let now = log_belief(tests, belief, place);
        let lengths = (0..MOST_HALVINGS).map(|halving| 0.5_f64.powi(halving));
        let mut tried = lengths.map(|length| (place.0 + length * step.0, place.1 + length * step.1));
        let Some(better) = tried.find(|tried| now < log_belief(tests, belief, *tried)) else { break };
        place = better;
        if step.0 * by_start + step.1 * by_sigma < SETTLED {
            break;
        }
    }
    place
}
