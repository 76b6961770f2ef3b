//! What would settle a habit: each thing that could be noted next is tried out on paper.
//!
//! A variety is drawn as the belief has it, the walk that would follow is drawn from the guide, and the
//! call is made again; the mean of the leading share over the draws is what the step may be expected to
//! reach. The draws are the same for every variety and on every machine. Start at [`steps`].

pub(crate) mod first_look;

use crate::call::{Action, SETTLED_AT, Step};
use crate::habit::belief::{Belief, PatchOdds, Weights};
use crate::habit::patch::{LeafMean, PlantFate};
use crate::habit::ripening::{self, RipeningSpread};
use crate::habit::stature::{Tallest, expected, height_odds};
use crate::habit::stem_fate::trusses_at;
use crate::habit::{HabitModel, Stature, Stem, height_curve, leaves};
use record::share::Share;
use statistics::draws::{normal, stream};
use statistics::normal::chance_below;

/// Varieties drawn for each step: enough for an expectation good to a few hundredths.
const DRAWS: usize = 24;
/// Most plants that a step asks for in one season.
const MOST_PLANTS: usize = 12;
/// Days of picking that a season allows before frost. Common practice, no source.
const LONGEST_PICKING: f64 = 60.0;
/// Weight of levelling off that a series of weekly heights shows where the plant truly did; and where it
/// did not, the rest. Own working value: real curves are seldom clearer.
const CLEAR_CURVE: f64 = 0.9;
/// A step that lifts the call by less than this is not worth the walk. Common practice, no source.
const WORTH_WALKING: f64 = 0.02;

/// Chance for one drawn variety and its next season: standard normal numbers.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Noise {
    variety: f64,
    plot: f64,
    levelling: f64,
    plants: [f64; MOST_PLANTS],
}

/// The chances of all draws, the same every time.
pub(crate) fn noise() -> Vec<Noise> {
    let mut stream = stream(&["habit", "what would settle it"]);
    let draw = |_| Noise {
        variety: normal(&mut stream),
        plot: normal(&mut stream),
        levelling: normal(&mut stream),
        plants: std::array::from_fn(|_| normal(&mut stream)),
    };
    (0..DRAWS).map(draw).collect()
}

/// What could be noted next, from the cheapest to the dearest: leaves need one walk, stems the season.
const CANDIDATES: [(Action, &str); 7] = [
    (Action::CountLeaves(4), "Count the leaves between trusses on 4 plants, on one walk."),
    (Action::CountLeaves(12), "Count the leaves between trusses on 12 plants, on one walk."),
    (
        Action::FollowStems(4),
        "Follow the main stem of 4 plants until it ends in a truss or frost comes; note the trusses.",
    ),
    (
        Action::FollowStems(12),
        "Follow the main stem of 12 plants until it ends in a truss or frost comes; note the trusses.",
    ),
    (Action::MeasureHeights(6), "Measure the height of 6 plants once a week until frost."),
    (Action::CountPicks(6), "Weigh or count every pick of 6 plants until frost."),
    (
        Action::FollowStems(24),
        "Follow the main stem of 12 plants in each of two seasons; note the trusses when it ends.",
    ),
];

/// The cheapest step that is expected to settle a call, else the best there is; nothing where it is settled.
pub(crate) fn steps(belief: &Belief, odds: &[PatchOdds], model: &HabitModel) -> Vec<Step> {
    let leading = leading(belief);
    if SETTLED_AT <= leading {
        return Vec::new();
    }
    let truths = drawn(belief);
    let weights = Weights::of_next(odds, &model.guide);
    let mut falling_short = Vec::new();
    for candidate in &CANDIDATES {
        let step = tried(candidate, &truths, belief, weights, model);
        if SETTLED_AT <= step.expected.get() {
            return vec![step];
        }
        falling_short.push(step);
    }
    best_of(falling_short, leading)
}

/// The cheapest step that lifts the call about as far as any, or the advice to leave it where it stands.
fn best_of(steps: Vec<Step>, leading: f64) -> Vec<Step> {
    let best = steps.iter().map(|step| step.expected.get()).fold(leading, f64::max);
    let worth_it = leading + WORTH_WALKING < best;
    let cheapest = steps.into_iter().find(|step| worth_it && best - WORTH_WALKING <= step.expected.get());
    let border = || Step {
        action: Action::AcceptTheBorder,
        words: "Leave it on the border: it ends about where the guide parts two habits.".to_owned(),
        expected: share(leading),
        settles: Share::NONE,
    };
    vec![cheapest.unwrap_or_else(border)]
}

fn leading(belief: &Belief) -> f64 {
    belief.habits().into_iter().fold(0.0, f64::max)
}

fn share(number: f64) -> Share {
    Share::new(number.clamp(0.0, 1.0)).unwrap_or(Share::NONE)
}

/// A variety as it may truly be.
#[derive(Clone, Copy)]
struct Truth {
    stature: Stature,
    stem: Stem,
    trusses: f64,
}

/// Varieties drawn from the belief at even steps through it.
fn drawn(belief: &Belief) -> Vec<Truth> {
    let mut below = 0.0;
    let mut truths = Vec::with_capacity(DRAWS);
    for (stature, stem, point, share) in belief.by_point() {
        below += share;
        while truths.len() < DRAWS && step_of(truths.len()) < below {
            truths.push(Truth { stature, stem, trusses: trusses_at(point) });
        }
    }
    truths
}

/// The middle of one of [`DRAWS`] even steps from 0 to 1.
#[expect(clippy::cast_precision_loss, reason = "there are 24 draws")]
fn step_of(draw: usize) -> f64 {
    (draw as f64 + 0.5) / DRAWS as f64
}

fn tried(
    candidate: &(Action, &str),
    truths: &[Truth],
    belief: &Belief,
    weights: Weights,
    model: &HabitModel,
) -> Step {
    let (action, words) = *candidate;
    // The noises are walked in strides that no power of two shares, so that they do not follow the truths.
    let noises = model.noise.iter().cycle().step_by(5);
    let reached: Vec<f64> = truths
        .iter()
        .zip(noises)
        .map(|(truth, noise)| {
            let mut after = belief.clone();
            seasons(action, *truth, *noise, model).iter().for_each(|odds| after.take(odds, weights, model));
            leading(&after)
        })
        .collect();
    let count = f64::from(u32::try_from(reached.len()).unwrap_or(u32::MAX)).max(1.0);
    let settled = reached.iter().filter(|reached| SETTLED_AT <= **reached).count();
    Step {
        action,
        words: words.to_owned(),
        expected: share(reached.iter().sum::<f64>() / count),
        settles: Share::of(u64::try_from(settled).unwrap_or(0), u64::try_from(reached.len()).unwrap_or(0))
            .unwrap_or(Share::NONE),
    }
}

/// What one step would show of a drawn variety, a plot each season.
fn seasons(action: Action, truth: Truth, noise: Noise, model: &HabitModel) -> Vec<PatchOdds> {
    let none = PatchOdds::default();
    match action {
        Action::FollowStems(plants) if MOST_PLANTS < usize::try_from(plants).unwrap_or(0) => {
            let other = Noise { plot: noise.variety, plants: noise.plants.map(|plant| -plant), ..noise };
            let half = Action::FollowStems(plants / 2);
            [noise, other].into_iter().flat_map(|noise| seasons(half, truth, noise, model)).collect()
        }
        Action::FollowStems(plants) => {
            vec![PatchOdds { fates: model.trusses.odds(&fates(plants, truth, noise, model)), ..none }]
        }
        Action::CountLeaves(plants) => {
            vec![PatchOdds { leaves: Some(leaf_odds(plants, truth, noise, model)), ..none }]
        }
        Action::MeasureHeights(_) => vec![heights(truth, noise, model)],
        Action::CountPicks(_) => vec![PatchOdds { ripening: Some(picks(truth, noise, model)), ..none }],
        _ => Vec::new(),
    }
}

fn fates(plants: u32, truth: Truth, noise: Noise, model: &HabitModel) -> Vec<PlantFate> {
    let trusses = &model.guide.trusses;
    let reach = trusses.season_reach.number;
    let about = truth.trusses + trusses.plot_sd.number * noise.plot;
    let fate = |plant: &f64| match (about + trusses.plant_sd.number * plant).round().max(1.0) {
        end if truth.stem != Stem::Indeterminate && end <= reach => PlantFate::EndedAfter(whole(end)),
        _ => PlantFate::GrowingAfter(whole(reach)),
    };
    noise.plants.iter().take(usize::try_from(plants).unwrap_or(0)).map(fate).collect()
}

/// A small count as a whole number.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "counts from 1 to 40")]
fn whole(count: f64) -> u32 {
    count as u32
}

fn leaf_odds(plants: u32, truth: Truth, noise: Noise, model: &HabitModel) -> [f64; 3] {
    let (guide, expected) = (&model.guide, model.guide.leaves.mean.of(truth.stem));
    let within = guide.leaves.plant_sd.number / f64::from(plants).sqrt();
    let mean = expected.mean.number + expected.sd.number * noise.variety + within * noise.plot;
    leaves::mean_odds(LeafMean { mean: mean.max(0.0), plants }, guide)
}

fn heights(truth: Truth, noise: Noise, model: &HabitModel) -> PatchOdds {
    let guide = &model.guide;
    let levels = chance_below(noise.levelling) < guide.height_curve.levels_off.of(truth.stem).number;
    let weight = if levels { CLEAR_CURVE } else { 1.0 - CLEAR_CURVE };
    let grown = expected(guide, truth.stature, truth.stem);
    let height = grown.median.number * (grown.log_sd.number * noise.variety).exp();
    PatchOdds {
        height_curve: Some(height_curve::log_odds(weight, guide)),
        final_height: Some(height_odds(Tallest { height, done: weight, followed: 1.0 }, guide)),
        ..PatchOdds::default()
    }
}

fn picks(truth: Truth, noise: Noise, model: &HabitModel) -> [f64; 3] {
    let guide = &model.guide;
    let expected = guide.ripening.days.of(truth.stem);
    let days = expected.median.number * (expected.log_sd.number * noise.variety).exp();
    let spread = RipeningSpread { days: days.min(LONGEST_PICKING), still_bearing: LONGEST_PICKING < days };
    ripening::log_odds(spread, guide)
}
