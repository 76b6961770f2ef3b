//! How often what is told holds, on trials made up with known varieties over ground of three kinds. The trend is chosen
//! by the plots themselves, so these are the intervals as a house gets them.

use crate::compared;
use statistics::draws::{normal, stream};
use trial::compare::trend::Ground;
use trial::compare::{Observed, Place};

/// Varieties of a made trial, the check the first.
const VARIETIES: u32 = 10;
/// Replicates, each a row of plots.
const REPLICATES: u32 = 4;
/// Standard deviation of a plot by itself.
const PLOT_SD: f64 = 300.0;
/// Trials made of each ground.
const TRIALS: u32 = 120;

/// How much more a place bears than the middle of its garden.
type Lie = fn(row: f64, column: f64, chance: &mut dyn FnMut() -> f64) -> f64;

/// What was told over all trials of one ground.
#[derive(Debug, Default)]
struct Score {
    /// Trials in which every interval of a difference held the truth.
    together: u32,
    /// Trials in which a variety like the check was told from it, where all are alike.
    false_alarms: u32,
    /// Trials for whose ground a trend was taken.
    trends: u32,
    /// Mean squared error of a difference, over that of plain averages.
    errors: (f64, f64),
}

/// What a variety bears more than the check.
fn truth(variety: u32, step: f64) -> f64 {
    step * f64::from(variety)
}

fn made(number: u32, step: f64, lie: Lie) -> Vec<Observed> {
    let mut chances = stream(&["coverage", &number.to_string()]);
    let mut chance = || normal(&mut chances);
    let mut plots = Vec::new();
    for replicate in 1..=REPLICATES {
        let mut order: Vec<(f64, u32)> = (0..VARIETIES).map(|variety| (chance(), variety)).collect();
        order.sort_by(|one, other| one.0.total_cmp(&other.0));
        for (column, (_, variety)) in (1..).zip(order) {
            let ground = lie(f64::from(replicate), f64::from(column), &mut chance);
            plots.push(Observed {
                variety: format!("V{variety}"),
                environment: "Home 2031".to_owned(),
                replicate: Some(replicate),
                block: None,
                place: Some(Place { row: replicate, column }),
                value: 3000.0 + truth(variety, step) + ground + PLOT_SD * chance(),
                counted: None,
            });
        }
    }
    plots
}

fn scored(step: f64, lie: Lie) -> Score {
    let mut score = Score::default();
    for number in 0..TRIALS {
        let plots = made(number, step, lie);
        let found = compared(&plots, Some("V0")).unwrap();
        let holds = |(low, high): (f64, f64), truth: f64| low <= truth && truth <= high;
        let of = |variety: &str| truth(variety[1..].parse().unwrap(), step);
        let against: Vec<_> =
            found.outcomes.iter().filter_map(|own| Some((of(&own.variety), own.against?))).collect();
        assert_eq!(against.len(), VARIETIES as usize - 1);
        score.together += u32::from(against.iter().all(|(truth, own)| holds(own.interval, *truth)));
        score.false_alarms += u32::from(step == 0.0 && against.iter().any(|(_, own)| own.verdict.is_told()));
        score.trends += u32::from(matches!(found.ground, Ground::Trend(..)));
        let plain = |variety: &str| {
            let own = plots.iter().filter(|plot| plot.variety == variety);
            own.map(|plot| plot.value).sum::<f64>() / f64::from(REPLICATES)
        };
        for own in found.outcomes.iter().filter(|own| own.against.is_some()) {
            let truth = of(&own.variety);
            score.errors.0 += (own.against.unwrap().difference - truth).powi(2);
            score.errors.1 += (plain(&own.variety) - plain("V0") - truth).powi(2);
        }
    }
    score
}

/// With the trend chosen by the plots all intervals hold together in 93.2 to 94.2 of 100 (600 trials of each ground, run
/// once); without a choice in 94.7 (2,000 trials). 93.5 in 100 of 120, less three standard errors of such a count.
const LEAST_TOGETHER: u32 = 104;

#[test]
fn intervals_hold_together_on_level_ground() {
    let score = scored(150.0, |_, _, _| 0.0);
    println!("level ground, replicates alike: {score:?}");
    assert!(LEAST_TOGETHER <= score.together, "{score:?}");
    assert!(score.trends < TRIALS / 4, "a trend is seen where there is none: {score:?}");
}

#[test]
fn intervals_hold_together_on_a_slope_and_are_nearer() {
    let score = scored(150.0, |row, column, _| 220.0 * (column - 5.5) + 100.0 * row);
    println!("slope of 220 g a place: {score:?}");
    assert!(LEAST_TOGETHER <= score.together, "{score:?}");
    assert!(TRIALS - 2 <= score.trends, "a steep slope is not missed: {score:?}");
    assert!(score.errors.0 < 0.5 * score.errors.1, "differences are nearer than plain averages: {score:?}");
}

#[test]
fn varieties_that_are_alike_are_seldom_told_apart() {
    let score = scored(0.0, |row, column, chance| {
        let hollow = -60.0 * (column - 4.0).powi(2).min(16.0);
        hollow + if row == 2.0 { 200.0 } else { 0.0 } + 30.0 * chance()
    });
    println!("a hollow, all varieties alike: {score:?}");
    // 5 in 100 of 120, and three standard errors.
    assert!(score.false_alarms <= 13, "{score:?}");
    assert!(LEAST_TOGETHER <= score.together, "{score:?}");
}
