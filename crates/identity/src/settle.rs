//! What would settle a contested fruit-class call: the cheapest step that is more likely than not to lift
//! it to 95 in 100.
//!
//! Each step is tried out in imagination. A possible variety is drawn from what is known; the step's fruits
//! are imagined, with the house's spread between fruits, plants and seasons; the call is made again with
//! them; and over many such outcomes one sees how sure it tends to be (Raiffa and Schlaifer's preposterior
//! analysis). A variety that truly sits on a soft border stays contested even if it were known exactly: then
//! no step is told but to accept it. Start at `steps`.

pub(crate) mod first_look;
mod imagined_fruit;

use crate::call::{Action, Call, SETTLED_AT, Step};
use crate::fruit_class::evidence::{Evidence, LINE_COUNT, LINES, Line};
use crate::fruit_class::posterior::{Normal, Posterior};
use crate::fruit_class::rules::Rules;
use crate::fruit_class::words::is_asked;
use crate::fruit_class::{Draws, Point, TRAIT_DIMENSIONS};
use crate::guide::fruit::{ClassName, FruitGuide};
use record::share::Share;

/// A step is told where it settles the call at least this often: more likely than not.
const LIKELY_ENOUGH: f64 = 0.5;

/// Where even exact knowledge would settle a call less often than this, the variety sits on the border.
const ON_THE_BORDER: f64 = 0.1;

/// Fruits that a cut, a reading, or a session with the callipers takes. Common practice, no source.
const HANDFUL: u32 = 10;

/// What imagination needs: the evidence so far, and what decides.
pub(crate) struct Imagined<'a> {
    pub(crate) evidence: &'a Evidence,
    pub(crate) posterior: &'a Posterior,
    pub(crate) rules: &'a Rules,
    pub(crate) draws: &'a Draws,
    pub(crate) guide: &'a FruitGuide,
}

/// Steps on offer, cheapest first. Cutting costs fruit that is already on the bench; more plants must stand
/// in the garden; a season costs a year. Common practice, no source.
const ON_OFFER: [Action; 11] = [
    Action::CutFruits(HANDFUL),
    Action::MeasureNecks(HANDFUL),
    Action::MeasureSizes(HANDFUL),
    Action::ReadRefractometer(HANDFUL),
    Action::MoreFruits(10),
    Action::MoreFruits(30),
    Action::MorePlants { plants: 4, fruits_each: 5 },
    Action::MorePlants { plants: 8, fruits_each: 5 },
    ANOTHER_SEASON,
    Action::MoreSeasons { seasons: 2, plants: 4, fruits_each: 5 },
    Action::MoreSeasons { seasons: 4, plants: 6, fruits_each: 5 },
];

/// The plainest advice of all.
const ANOTHER_SEASON: Action = Action::MoreSeasons { seasons: 1, plants: 4, fruits_each: 5 };

/// Steps that tell something new: a trait, or a season.
const SOMETHING_NEW: [Action; 5] = [
    Action::CutFruits(HANDFUL),
    Action::MeasureNecks(HANDFUL),
    Action::MeasureSizes(HANDFUL),
    Action::ReadRefractometer(HANDFUL),
    ANOTHER_SEASON,
];

/// What would settle a call: the cheapest step that is likely to; else the most promising one; else, on a
/// border, to accept it.
pub(crate) fn steps(imagined: &Imagined<'_>, call: &Call<ClassName>) -> Vec<Step> {
    let known = imagined.known_exactly();
    if known.settles < ON_THE_BORDER {
        return vec![accept(call, known)];
    }
    // What exact knowledge is unlikely to settle, no step is likely to.
    let likely = (LIKELY_ENOUGH <= known.settles).then(|| imagined.cheapest_likely()).flatten();
    likely.or_else(|| imagined.most_promising()).into_iter().collect()
}

/// How sure a call tends to be after a step.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Prospect {
    expected: f64,
    settles: f64,
}

impl Prospect {
    /// Whether another prospect is better.
    fn is_behind(&self, other: &Self) -> bool {
        let by_settling = self.settles.total_cmp(&other.settles);
        by_settling.then(self.expected.total_cmp(&other.expected)).is_lt()
    }
}

fn step(action: Action, prospect: Prospect, words: String) -> Step {
    let share = |share: f64| Share::new(share).unwrap_or(Share::NONE);
    Step { action, words, expected: share(prospect.expected), settles: share(prospect.settles) }
}

fn accept(call: &Call<ClassName>, known: Prospect) -> Step {
    let named: Vec<&str> = call.shares.iter().take(2).map(|(name, _)| name.as_str()).collect();
    let words = format!(
        "No measurement is likely to settle it: it sits on the border of {}, and known exactly it would stand at about {:.0} in 100.",
        named.join(" and "),
        100.0 * known.expected
    );
    step(Action::AcceptTheBorder, known, words)
}

fn words(action: Action) -> String {
    match action {
        Action::CutFruits(fruits) => format!("Cut {fruits} fruits across and count the locules."),
        Action::MeasureNecks(fruits) => {
            format!("Measure the width of {fruits} fruits a quarter of the way down from the stem.")
        }
        Action::MeasureSizes(fruits) => format!("Measure length and width of {fruits} fruits."),
        Action::ReadRefractometer(fruits) => format!("Read the juice of {fruits} fruits on a refractometer."),
        Action::MoreFruits(fruits) => format!("Weigh and measure {fruits} more fruits of the same plants."),
        Action::MorePlants { plants, fruits_each } => {
            format!("Weigh and measure {fruits_each} fruits of each of {plants} more plants.")
        }
        Action::MoreSeasons { seasons: 1, plants, fruits_each } => {
            format!("Grow it another season: {plants} plants, {fruits_each} fruits of each.")
        }
        Action::MoreSeasons { seasons, plants, fruits_each } => {
            format!(
                "Grow it {seasons} more seasons: {plants} plants, {fruits_each} fruits of each, every season."
            )
        }
        _ => String::new(),
    }
}

impl Imagined<'_> {
    /// The cheapest step that settles the call more often than not.
    fn cheapest_likely(&self) -> Option<Step> {
        let mut steps = ON_OFFER.into_iter().filter(|action| self.tells_more(*action));
        steps.find_map(|action| {
            let prospect = self.try_out(action);
            (LIKELY_ENOUGH <= prospect.settles).then(|| step(action, prospect, words(action)))
        })
    }

    /// The step that settles it most often, of those that tell something new; among equals the one that makes
    /// it surest, then the cheapest.
    fn most_promising(&self) -> Option<Step> {
        let steps = SOMETHING_NEW.into_iter();
        let tried =
            steps.filter(|action| self.tells_more(*action)).map(|action| (action, self.try_out(action)));
        let (action, prospect) =
            tried.reduce(|best, next| if best.1.is_behind(&next.1) { next } else { best })?;
        let often = 100.0 * prospect.settles;
        let rest = match often {
            hardly if hardly < 1.0 => "this one makes it surer than any other".to_owned(),
            often => format!("this one does so {often:.0} times in 100"),
        };
        let words = format!("{} No step is likely to settle it; {rest}.", words(action));
        Some(step(action, prospect, words))
    }

    /// Whether the guide asks for what a step tells.
    fn tells_more(&self, action: Action) -> bool {
        let ways = || self.guide.classes.iter().flat_map(|class| &class.ways);
        self.lines(action).iter().any(|line| is_asked(ways(), *line))
    }

    /// The lines that a step tells. Fruits of a further weighing are measured as those before were.
    fn lines(&self, action: Action) -> Vec<Line> {
        match action {
            Action::CutFruits(_) => vec![Line::Locules],
            Action::WeighFruits(_) => vec![Line::Size],
            Action::MeasureNecks(_) if self.evidence.has(Line::Neck) => Vec::new(),
            Action::MeasureNecks(_) => vec![Line::Neck],
            Action::MeasureSizes(_) if self.evidence.has(Line::Shape) => Vec::new(),
            Action::MeasureSizes(_) => vec![Line::Shape],
            Action::ReadRefractometer(_) => vec![Line::SolubleSolids],
            _ => LINES.into_iter().filter(|line| self.evidence.has(*line)).collect(),
        }
    }

    /// What a call tends to become if every trait were known exactly.
    fn known_exactly(&self) -> Prospect {
        /// Error variance, in squared logarithms, of a measurement that leaves nothing to be known; it cannot be 0,
        /// as evidence weighs by one over it.
        const NEXT_TO_NOTHING: f64 = 1e-8;
        self.outcomes(&[Some(NEXT_TO_NOTHING); LINE_COUNT])
    }

    /// What a call tends to become after a step.
    fn try_out(&self, action: Action) -> Prospect {
        let told = self.lines(action);
        let gain = |line: Line| {
            let evidence = told.contains(&line).then(|| self.evidence.line(line)).flatten()?;
            imagined_fruit::gain(evidence, self.evidence, action)
        };
        self.outcomes(&LINES.map(gain))
    }

    /// Imagines measurements with these error variances, and the calls that follow.
    fn outcomes(&self, gains: &[Option<f64>; LINE_COUNT]) -> Prospect {
        let leading: Vec<f64> = self.draws.outcomes.iter().map(|draw| self.outcome(gains, draw)).collect();
        #[expect(clippy::cast_precision_loss, reason = "a few dozen outcomes")]
        let count = leading.len().max(1) as f64;
        #[expect(clippy::cast_precision_loss, reason = "a few dozen outcomes")]
        let settled = leading.iter().filter(|leading| SETTLED_AT <= **leading).count() as f64;
        Prospect { expected: leading.iter().sum::<f64>() / count, settles: settled / count }
    }

    /// How sure the call is in one imagined outcome.
    fn outcome(&self, gains: &[Option<f64>; LINE_COUNT], draw: &Point) -> f64 {
        let truth = self.posterior.measures(draw);
        let mut more = [None; LINE_COUNT];
        let errors = draw.iter().skip(TRAIT_DIMENSIONS);
        for (((slot, gain), line), error) in more.iter_mut().zip(gains).zip(LINES).zip(errors) {
            let read = |variance: f64| Normal {
                mean: self.posterior.line_value(line, &truth) + variance.sqrt() * error,
                variance,
            };
            *slot = gain.map(read);
        }
        let tally = self.rules.tally(&self.posterior.after(&more), &self.draws.after);
        tally.share(tally.leading())
    }
}
