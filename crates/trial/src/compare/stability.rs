//! Stability: whether a variety gains more from good gardens and seasons than others do, or less.
//!
//! Every variety's adjusted means, one a garden and season, are laid on a line over how good each garden and season was
//! for all ([`statistics::environments::joint_regression`]). A slope of 1 follows the others; above, the variety makes
//! more of good ground and suffers more on poor; below, it is steadier. Start at [`stability`].

use super::Observed;
use super::model::{Fitted, VARIETY};
use record::share::Share;
use statistics::environments::joint_regression::{Answer, Regression, regress};
use statistics::environments::two_stages::{Stage, stage};
use statistics::mixed::terms::Factor;
use statistics::students_t::{Degrees, critical};
use std::collections::BTreeMap;
use std::ops::ControlFlow;

/// Fewest gardens and seasons that make a line: through two it fits by itself.
const FEWEST: usize = 3;
/// How many times in 100 an interval holds the truth. Common practice, no source.
const LEVEL: f64 = 0.95;

/// How varieties answer to gardens and seasons.
#[derive(Clone, Debug, PartialEq)]
pub struct Stability {
    /// How good each garden and season was for all varieties, in the trait's unit about their mean; the best first.
    pub environments: Vec<(String, f64)>,
    /// Every variety whose slope can be told, by name.
    pub varieties: Vec<Answering>,
}

/// How one variety answers.
#[derive(Clone, Debug, PartialEq)]
pub struct Answering {
    /// The variety.
    pub variety: String,
    /// What it gains where all gain 1.
    pub slope: f64,
    /// An interval that holds the slope 95 times in 100, judged alone.
    pub interval: (f64, f64),
    /// What that means.
    pub verdict: Answers,
}

/// What a slope means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Answers {
    /// It makes more of good ground than the others.
    More,
    /// It differs less between good and poor ground.
    Less,
    /// Not told from the others.
    AsOthers,
}

impl Answers {
    /// The verdict in words, after the variety's name.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::More => {
                "makes more of good gardens and seasons than the others, and suffers more in poor ones"
            }
            Self::Less => "is steadier than the others from garden to garden and season to season",
            Self::AsOthers => "follows the others from garden to garden, as far as can be told",
        }
    }
}

/// The stability of every variety; `None` with fewer than three gardens and seasons, or where too few varieties stand in
/// several.
#[must_use]
pub fn stability(plots: &[Observed]) -> Option<Stability> {
    let stages = stages(plots);
    if stages.len() < FEWEST {
        return None;
    }
    let rows = || stages.iter().flat_map(|stage| stage.varieties.iter().map(move |own| (own, stage)));
    let (varieties, environments): (Vec<String>, Vec<String>) =
        rows().map(|(variety, stage)| (variety.clone(), stage.environment.clone())).unzip();
    let means: Vec<f64> = stages.iter().flat_map(|stage| stage.means.iter().copied()).collect();
    let variety = Factor::from_labels(VARIETY, &varieties);
    let environment = Factor::from_labels("garden and season", &environments);
    let found = regress(&means, &variety, &environment).ok()?;
    let degrees = means.len().checked_sub(2 * variety.levels().len()).filter(|left| 0 < *left)?;
    let reach = critical(Share::new(LEVEL)?, Degrees::new(u32::try_from(degrees).map(f64::from).ok()?)?)?;
    Some(told(&found, &environment, reach))
}

/// The adjusted means of every garden and season whose plots can be compared.
fn stages(plots: &[Observed]) -> Vec<Stage> {
    let mut by_environment: BTreeMap<&str, Vec<Observed>> = BTreeMap::new();
    for plot in plots {
        by_environment.entry(&plot.environment).or_default().push(plot.clone());
    }
    let of = |(environment, own): (&str, Vec<Observed>)| {
        let fitted = Fitted::new(&own, &mut |_| ControlFlow::Continue(())).ok()?;
        stage(environment, fitted.fit(), VARIETY).ok()
    };
    by_environment.into_iter().filter_map(of).collect()
}

fn told(found: &Regression, environment: &Factor, reach: f64) -> Stability {
    let named = environment.levels().iter().cloned().zip(found.indices.iter().copied());
    let mut environments: Vec<(String, f64)> = named.collect();
    environments.sort_by(|one, other| other.1.total_cmp(&one.1));
    let answering = |answer: &Answer| {
        let slope = answer.slope?;
        let (low, high) =
            (slope.estimate - reach * slope.standard_error, slope.estimate + reach * slope.standard_error);
        let verdict = match (low, high) {
            (low, _) if 1.0 < low => Answers::More,
            (_, high) if high < 1.0 => Answers::Less,
            _ => Answers::AsOthers,
        };
        let variety = answer.variety.clone();
        Some(Answering { variety, slope: slope.estimate, interval: (low, high), verdict })
    };
    Stability { environments, varieties: found.varieties.iter().filter_map(answering).collect() }
}
