//! Fruit colour: outside, pattern, flesh and skin, from words and from measured colours.
//!
//! The trade's colour word is skin and flesh together: red flesh shows red under a yellow skin and pink
//! under a clear one. So outside, flesh and skin are called together, each checking the others.
//!
//! Reading order: [`evidence`] (counts of words, measured colours) -> `likelihood` (how words go wrong, how
//! far measured colours scatter) -> `belief` (Bayes) -> `settle`. Start at [`call`].

pub mod answers;
pub mod evidence;

mod belief;
mod likelihood;
mod settle;
mod words;

use crate::call::{Call, EvidenceLine, Step, Used, is_contested};
use crate::colour::belief::{ColourBelief, Tables};
use crate::colour::evidence::ColourEvidence;
use crate::guide::colour::ColourGuide;
use rayon::prelude::{IntoParallelRefIterator, ParallelIterator};
use record::colour::{Pattern, Skin, TradeColour};
use record::share::Share;

/// What the guide says in a form that is quick to ask: made once, used for every variety.
#[derive(Clone, Debug)]
pub struct ColourModel {
    guide: ColourGuide,
    tables: Tables,
    noise: settle::Noise,
}

impl ColourModel {
    /// Works out the tables of one guide.
    #[must_use]
    pub fn new(guide: &ColourGuide) -> Self {
        Self { guide: guide.clone(), tables: Tables::new(guide), noise: settle::Noise::new() }
    }
}

/// The four calls that make up a variety's colour.
#[derive(Clone, Debug, PartialEq)]
pub struct ColourCall {
    /// The trade colour: how the ripe fruit looks from outside.
    pub exterior: Call<TradeColour>,
    /// How the colour is laid out.
    pub pattern: Call<Pattern>,
    /// The cut flesh.
    pub flesh: Call<TradeColour>,
    /// The peeled skin.
    pub skin: Call<Skin>,
    /// What is odd between them, such as a pink fruit that is said to have a yellow skin.
    pub clash: Option<String>,
}

impl ColourCall {
    /// The verdict in the trade's words, such as `red` or `red, striped`; `None` without evidence.
    #[must_use]
    pub fn verdict(&self) -> Option<String> {
        let colour = self.exterior.verdict?.name();
        Some(match self.pattern.verdict {
            None | Some(Pattern::Plain) => colour.to_owned(),
            Some(pattern) => format!("{colour}, {}", pattern.name()),
        })
    }
}

/// Calls one variety's colour.
#[must_use]
pub fn call(evidence: &ColourEvidence, model: &ColourModel) -> ColourCall {
    let belief = ColourBelief::of(evidence, &model.tables, &model.guide);
    let all = evidence.together();
    let (read, patterns) = (all.colours_read(), all.patterns_read());
    let used = used(evidence, all.fruits());
    let tell = words::Tell::new(&all, &belief, model);
    let exterior = ranked(TradeColour::ALL, belief.triples.exterior());
    let flesh = ranked(TradeColour::ALL, belief.triples.flesh());
    let skin = ranked(Skin::ALL, belief.triples.skin());
    let pattern = ranked(Pattern::ALL, belief.pattern);
    let steps = settle::Tried::new(&belief, model);
    ColourCall {
        clash: words::clash(&belief, model),
        exterior: made(read, tell.outside(&exterior), steps.exterior(), used, exterior),
        flesh: made(read, tell.flesh(&flesh), steps.flesh(), used, flesh),
        skin: made(read, tell.skin(&skin), steps.skin(), used, skin),
        pattern: made(patterns, tell.pattern(&pattern), steps.pattern(), used, pattern),
    }
}

/// What one more look at `fruits` fruits would tell of the colour outside, each look that was not taken yet,
/// the cheapest first; nothing where the colour is settled.
#[must_use]
pub fn looks(evidence: &ColourEvidence, model: &ColourModel, fruits: u32) -> Vec<Step> {
    let belief = ColourBelief::of(evidence, &model.tables, &model.guide);
    let fruits = usize::try_from(fruits).unwrap_or(usize::MAX);
    settle::first_look::looks(&belief, &evidence.together(), model, fruits)
}

/// Calls many varieties on all cores, in the order given.
#[must_use]
pub fn call_all(varieties: &[&ColourEvidence], model: &ColourModel) -> Vec<ColourCall> {
    varieties.par_iter().map(|evidence| call(evidence, model)).collect()
}

/// The call from `read` readings; without any there is no verdict.
fn made<V: Copy>(
    read: u64,
    (rule, lines): (String, Vec<EvidenceLine>),
    settle: Vec<Step>,
    used: Used,
    shares: Vec<(V, Share)>,
) -> Call<V> {
    match shares.first() {
        Some((verdict, leading)) if 0 < read => Call {
            verdict: Some(*verdict),
            between: Share::NONE,
            contested: is_contested(*leading),
            rule,
            settle,
            used,
            lines,
            shares,
        },
        _ => {
            let answers: Vec<V> = shares.iter().map(|(answer, _)| *answer).collect();
            Call { settle, lines, ..Call::without_evidence(&answers, words::NOTHING_READ.to_owned()) }
        }
    }
}

/// Answers with their shares, likeliest first; equals keep the order of the answers.
fn ranked<V: Copy, const N: usize>(answers: [V; N], beliefs: [f64; N]) -> Vec<(V, Share)> {
    // Rounding may leave a belief a hair above the whole.
    let share = |belief: f64| Share::new(belief.min(1.0)).unwrap_or(Share::NONE);
    let mut shares: Vec<(V, Share)> = answers.into_iter().zip(beliefs.map(share)).collect();
    shares.sort_by(|one, other| other.1.get().total_cmp(&one.1.get()));
    shares
}

fn used(evidence: &ColourEvidence, fruits: u64) -> Used {
    let mut seasons: Vec<_> = evidence.patches.keys().map(|patch| patch.season).collect();
    seasons.dedup();
    let count = |counts: usize| u64::try_from(counts).unwrap_or(u64::MAX);
    Used {
        records: evidence.records,
        fruits,
        plants: count(evidence.patches.len()),
        seasons: count(seasons.len()),
        set_aside: 0,
    }
}
