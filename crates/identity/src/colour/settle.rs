//! What would settle a colour: reading more fruits, cutting them, peeling them, each tried out on paper.
//!
//! A variety is drawn as the belief has it, the words that would be written in another plot are drawn from
//! the guide's mistake rates, and the call is made again. The draws are the same for every variety and on
//! every machine. Start at [`Tried::new`].

pub(crate) mod first_look;

use crate::call::{Action, SETTLED_AT, Step};
use crate::colour::ColourModel;
use crate::colour::belief::{ColourBelief, PlotOdds, Triples, pattern_after};
use record::colour::{Skin, TradeColour};
use record::share::Share;
use statistics::draws::{normal, stream};
use statistics::normal::chance_below;

/// Varieties drawn for each step: enough for an expectation good to a few hundredths.
const DRAWS: usize = 24;
/// Most fruits that a step asks for.
const MOST_FRUITS: usize = 10;
/// A step that lifts the call by less than this is not worth a fruit. Common practice, no source.
const WORTH_A_FRUIT: f64 = 0.01;

/// Chances from 0 to 1 for the words of each draw, the same every time.
#[derive(Clone, Debug)]
pub(crate) struct Noise(Vec<[f64; MOST_FRUITS]>);

impl Noise {
    pub(crate) fn new() -> Self {
        let mut stream = stream(&["colour", "what would settle it"]);
        let draw = |_| std::array::from_fn(|_| chance_below(normal(&mut stream)));
        Self((0..DRAWS).map(draw).collect())
    }
}

/// What a step reads.
#[derive(Clone, Copy)]
enum Reads {
    Outside,
    Flesh,
    Skin,
}

/// What could be read next, from the cheapest to the dearest.
const CANDIDATES: [(Action, Reads, usize, &str); 5] = [
    (
        Action::ReadColour(5),
        Reads::Outside,
        5,
        "Note the colour of 5 ripe fruits from plants of another plot.",
    ),
    (
        Action::PeelSkin(3),
        Reads::Skin,
        3,
        "Peel 3 ripe fruits and hold the skin to the light: clear or yellow?",
    ),
    (
        Action::ReadColour(5),
        Reads::Flesh,
        5,
        "Cut 5 ripe fruits of another plot and note the colour of the flesh.",
    ),
    (
        Action::PeelSkin(10),
        Reads::Skin,
        10,
        "Peel 10 ripe fruits and hold the skins to the light: clear or yellow?",
    ),
    (
        Action::ReadColour(10),
        Reads::Outside,
        10,
        "Note the colour of 10 ripe fruits from plants of another plot.",
    ),
];
/// What would settle a pattern.
const PATTERN_STEP: (Action, usize, &str) =
    (Action::ReadColour(10), 10, "Note the pattern of 10 ripe fruits from plants of another plot.");

/// Every candidate step tried out, with the leading share that it leaves each part with.
pub(crate) struct Tried<'a> {
    belief: &'a ColourBelief,
    model: &'a ColourModel,
    /// By candidate, then by draw; empty where every part is settled.
    reached: Vec<Vec<Leading>>,
}

/// The leading shares of the three parts.
#[derive(Clone, Copy)]
struct Leading {
    exterior: f64,
    flesh: f64,
    skin: f64,
}

impl Leading {
    fn of(triples: &Triples) -> Self {
        Self {
            exterior: leading(&triples.exterior()),
            flesh: leading(&triples.flesh()),
            skin: leading(&triples.skin()),
        }
    }

    fn least(self) -> f64 {
        self.exterior.min(self.flesh).min(self.skin)
    }
}

impl<'a> Tried<'a> {
    pub(crate) fn new(belief: &'a ColourBelief, model: &'a ColourModel) -> Self {
        let mut tried = Self { belief, model, reached: Vec::new() };
        if Leading::of(&belief.triples).least() < SETTLED_AT {
            let truths = drawn(belief.triples.0.iter().flatten().copied());
            tried.reached = CANDIDATES
                .iter()
                .map(|(_, reads, fruits, _)| {
                    let draws = truths.iter().zip(&model.noise.0);
                    draws
                        .map(|(truth, noise)| Leading::of(&tried.after(*truth, *reads, *fruits, noise)))
                        .collect()
                })
                .collect();
        }
        tried
    }

    pub(crate) fn exterior(&self) -> Vec<Step> {
        self.steps(|leading| leading.exterior)
    }

    pub(crate) fn flesh(&self) -> Vec<Step> {
        self.steps(|leading| leading.flesh)
    }

    pub(crate) fn skin(&self) -> Vec<Step> {
        self.steps(|leading| leading.skin)
    }

    pub(crate) fn pattern(&self) -> Vec<Step> {
        let now = leading(&self.belief.pattern);
        if SETTLED_AT <= now {
            return Vec::new();
        }
        let (action, fruits, words) = PATTERN_STEP;
        let (tables, guide) = (&self.model.tables, &self.model.guide);
        let reached = drawn(self.belief.pattern.into_iter()).into_iter().zip(&self.model.noise.0);
        let reached = reached.map(|(truth, noise)| {
            let words =
                written(&tables.pattern_chances(truth), fruits, noise, guide.words.independence.number);
            let odds = tables.pattern_words(&words);
            let stray_rate = guide.words.stray_plot_rate.number;
            leading(&pattern_after(&self.belief.pattern, &odds, &tables.pattern_prior, stray_rate))
        });
        worth_it(vec![step(action, words, reached.collect())], now)
    }

    /// The cheapest step that is expected to settle a part, else the best there is.
    fn steps(&self, part: impl Fn(Leading) -> f64) -> Vec<Step> {
        let now = part(Leading::of(&self.belief.triples));
        if SETTLED_AT <= now {
            return Vec::new();
        }
        let tried = CANDIDATES.iter().zip(&self.reached).map(|((action, _, _, words), reached)| {
            step(*action, words, reached.iter().map(|reached| part(*reached)).collect())
        });
        let (settling, short): (Vec<Step>, Vec<Step>) =
            tried.partition(|step| SETTLED_AT <= step.expected.get());
        match settling.into_iter().next() {
            Some(cheapest) => vec![cheapest],
            None => worth_it(short, now),
        }
    }

    /// The belief after one step on a drawn variety.
    fn after(&self, truth: usize, reads: Reads, fruits: usize, noise: &[f64]) -> Triples {
        let (tables, guide) = (&self.model.tables, &self.model.guide);
        let independence = guide.words.independence.number;
        let skin = truth % Skin::ALL.len();
        let flesh = truth / Skin::ALL.len() % TradeColour::ALL.len();
        let outside = truth / (Skin::ALL.len() * TradeColour::ALL.len());
        let colours = |truth| written(&tables.colour_chances(truth), fruits, noise, independence);
        let mut odds = PlotOdds::default();
        match reads {
            Reads::Outside => odds.words = tables.colour_words(&colours(outside)),
            Reads::Flesh => odds.flesh = tables.colour_words(&colours(flesh)),
            Reads::Skin => {
                let words = written(&tables.skin_chances(skin), fruits, noise, independence);
                odds.skin = tables.skin_words(&words);
            }
        }
        let mut after = self.belief.triples.clone();
        after.take(&odds, &tables.prior, guide.words.stray_plot_rate.number);
        after
    }
}

/// The step that lifts the call most, if it lifts it at all.
fn worth_it(steps: Vec<Step>, now: f64) -> Vec<Step> {
    let best = steps.into_iter().max_by(|one, other| one.expected.get().total_cmp(&other.expected.get()));
    best.filter(|best| now + WORTH_A_FRUIT < best.expected.get()).into_iter().collect()
}

fn leading(shares: &[f64]) -> f64 {
    shares.iter().copied().fold(0.0, f64::max)
}

/// Places drawn from shares at even steps through them.
fn drawn(shares: impl Iterator<Item = f64>) -> Vec<usize> {
    let mut below = 0.0;
    let mut places = Vec::with_capacity(DRAWS);
    for (place, share) in shares.enumerate() {
        below += share;
        while places.len() < DRAWS && step_of(places.len()) < below {
            places.push(place);
        }
    }
    places
}

/// The middle of one of [`DRAWS`] even steps from 0 to 1.
#[expect(clippy::cast_precision_loss, reason = "there are 24 draws")]
fn step_of(draw: usize) -> f64 {
    (draw as f64 + 0.5) / DRAWS as f64
}

/// Words that one person writes of so many fruits: each word already written draws the next towards it.
fn written<const N: usize>(chances: &[f64; N], fruits: usize, noise: &[f64], independence: f64) -> [u32; N] {
    let mut counts = [0_u32; N];
    let mut pull = chances.map(|chance| independence * chance);
    for chance in noise.iter().take(fruits) {
        let mut left = chance * pull.iter().sum::<f64>();
        let place = pull.iter().position(|weight| {
            left -= weight;
            left <= 0.0
        });
        if let Some((count, weight)) = place.and_then(|place| counts.get_mut(place).zip(pull.get_mut(place)))
        {
            *count += 1;
            *weight += 1.0;
        }
    }
    counts
}

fn step(action: Action, words: &str, reached: Vec<f64>) -> Step {
    let count = f64::from(u32::try_from(reached.len()).unwrap_or(u32::MAX)).max(1.0);
    let settled = reached.iter().filter(|reached| SETTLED_AT <= **reached).count();
    let expected = reached.iter().sum::<f64>() / count;
    Step {
        action,
        words: words.to_owned(),
        expected: Share::new(expected.clamp(0.0, 1.0)).unwrap_or(Share::NONE),
        settles: Share::of(u64::try_from(settled).unwrap_or(0), u64::try_from(reached.len()).unwrap_or(0))
            .unwrap_or(Share::NONE),
    }
}
