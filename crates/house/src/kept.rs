//! Calls in the form that they are kept, shown and handed on in: plain words and numbers with units in
//! their names. The science's own types can be renamed without breaking a ledger.

use crate::fault::HouseFault;
use identity::call::{Call, EvidenceLine, Pull, Step};
use ledger::calls::CallSubject;
use ledger::ledger::Ledger;
use record::id::Id;
use record::language;
use record::mass::Grams;
use record::share::Share;
use record::variety::Variety;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::collections::HashMap;
use std::fmt::Display;

/// A call: a verdict, how sure it is, what it rests on, and what would settle it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct KeptCall {
    /// The likeliest answer; nothing where it lies between answers or no evidence speaks.
    pub verdict: Option<String>,
    /// Whether anything was measured that speaks to it.
    pub measured: bool,
    /// Probability of the verdict, or of lying between, from 0 to 1.
    pub probability: f64,
    /// Whether it is under 80 in 100.
    pub contested: bool,
    /// Every answer with its probability, likeliest first.
    pub shares: Vec<KeptShare>,
    /// Probability that no answer holds.
    pub between: f64,
    /// The rule that decided, in a sentence.
    pub rule: String,
    /// What would settle it, cheapest first.
    pub settle: Vec<KeptStep>,
    /// What it rests on.
    pub used: KeptUsed,
    /// Each line of evidence.
    pub lines: Vec<KeptLine>,
}

/// An answer and its probability.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct KeptShare {
    /// The answer.
    pub answer: String,
    /// Its probability, from 0 to 1.
    pub share: f64,
}

/// Something to do that would make the call surer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct KeptStep {
    /// What to do.
    pub words: String,
    /// How sure the call is expected to be afterwards, from 0 to 1.
    pub expected: f64,
    /// How likely it then stands at 95 in 100 or above, from 0 to 1.
    pub settles: f64,
}

/// What a call rests on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct KeptUsed {
    /// Records read.
    pub records: u64,
    /// Fruits.
    pub fruits: u64,
    /// Plants.
    pub plants: u64,
    /// Seasons.
    pub seasons: u64,
    /// Records left out because they do not fit the variety or are doubted.
    pub set_aside: u64,
}

/// One line of evidence.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct KeptLine {
    /// What was looked at.
    pub about: String,
    /// What it said.
    pub words: String,
    /// Natural log of how many times likelier it is under the verdict than under the runner-up.
    pub log_odds: Option<f64>,
    /// How sure the verdict would be without it, from 0 to 1.
    pub without_it: Option<f64>,
    /// Whether it was looked for and is missing.
    pub missing: bool,
}

/// A measure: its usual value, what eight fruits in ten fall in, and how many fruits it rests on. Of a measure of
/// whole plots: the median plot, the lowest and the highest, and how many plots.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct KeptMeasure {
    /// The usual value.
    pub usual: f64,
    /// Lower end of the range.
    pub low: f64,
    /// Upper end of the range.
    pub high: f64,
    /// Fruits measured; plots, for days and heights.
    pub fruits: u64,
}

/// What was measured of the fruit and its plants.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct KeptFacts {
    /// Weight of a fruit, grams.
    pub weight_g: Option<KeptMeasure>,
    /// Stem end to blossom end, millimetres.
    pub length_mm: Option<KeptMeasure>,
    /// Greatest width, millimetres.
    pub width_mm: Option<KeptMeasure>,
    /// Width a quarter down over greatest width.
    pub neck: Option<KeptMeasure>,
    /// Seed chambers.
    pub locules: Option<KeptMeasure>,
    /// Lobes, seen from the stem.
    pub lobes: Option<KeptMeasure>,
    /// Soluble solids, per cent by mass.
    pub soluble_solids_pct: Option<KeptMeasure>,
    /// Dry matter, per cent by mass.
    pub dry_matter_pct: Option<KeptMeasure>,
    /// Days from transplanting to the first ripe fruit.
    pub days_to_ripe: Option<KeptMeasure>,
    /// The tallest reading of a plant, millimetres.
    pub plant_height_mm: Option<KeptMeasure>,
}

/// A shape mark: heart, hollow or ribbed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct KeptMark {
    /// The mark.
    pub mark: String,
    /// Its probability, from 0 to 1; nothing where nobody measured what tells.
    pub share: Option<f64>,
    /// What it rests on.
    pub words: String,
}

/// Plants or a plot whose fruit does not fit the variety.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct KeptUnlike {
    /// The season.
    pub season: i16,
    /// The plot's identifier, where noted.
    pub plot: Option<String>,
    /// The plant's number, or nothing where the whole plot is meant.
    pub plant: Option<u32>,
    /// Fruits concerned.
    pub fruits: u64,
    /// What is odd.
    pub words: String,
}

/// The fruit-class call with what was measured.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct KeptFruit {
    /// The call.
    pub call: KeptCall,
    /// What was measured.
    pub facts: KeptFacts,
    /// Shape marks.
    pub marks: Vec<KeptMark>,
    /// What does not fit.
    pub unlike: Vec<KeptUnlike>,
}

/// The habit call.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct KeptHabit {
    /// The call in the trade's words.
    pub call: KeptCall,
    /// What the main stem does, whatever the stature.
    pub stem: Vec<KeptShare>,
}

/// The colour calls.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct KeptColour {
    /// The trade's words for colour and pattern together.
    pub verdict: Option<String>,
    /// Outside.
    pub exterior: KeptCall,
    /// How it is laid out.
    pub pattern: KeptCall,
    /// The flesh.
    pub flesh: KeptCall,
    /// The peeled skin.
    pub skin: KeptCall,
    /// What is odd between them.
    pub clash: Option<String>,
}

/// A kept probability as it is told: `62 in 100`.
#[must_use]
pub fn chance(probability: f64) -> String {
    language::chance(Share::new(probability.clamp(0.0, 1.0)).unwrap_or(Share::NONE))
}

/// A call of the science as it is kept.
pub(crate) fn keep<V: Clone>(call: &Call<V>, word: impl Fn(&V) -> String, doubted: u64) -> KeptCall {
    KeptCall {
        verdict: call.verdict.as_ref().map(&word),
        measured: is_measured(call),
        probability: call.probability().get(),
        contested: call.contested,
        shares: keep_shares(&call.shares, &word),
        between: call.between.get(),
        rule: call.rule.clone(),
        settle: call.settle.iter().map(keep_step).collect(),
        used: KeptUsed {
            records: call.used.records,
            fruits: call.used.fruits,
            plants: call.used.plants,
            seasons: call.used.seasons,
            set_aside: call.used.set_aside + doubted,
        },
        lines: call.lines.iter().map(keep_line).collect(),
    }
}

/// A call that no evidence speaks for gives no answer any share, and is contested all the same.
fn is_measured<V: Clone>(call: &Call<V>) -> bool {
    0 < call.used.records && !(call.contested && call.shares.iter().all(|(_, share)| *share == Share::NONE))
}

pub(crate) fn keep_shares<V>(shares: &[(V, Share)], word: impl Fn(&V) -> String) -> Vec<KeptShare> {
    shares.iter().map(|(answer, share)| KeptShare { answer: word(answer), share: share.get() }).collect()
}

/// The word of what displays itself in the trade's words.
pub(crate) fn word<V: Display>(answer: &V) -> String {
    answer.to_string()
}

pub(crate) fn keep_step(step: &Step) -> KeptStep {
    KeptStep { words: step.words.clone(), expected: step.expected.get(), settles: step.settles.get() }
}

fn keep_line(line: &EvidenceLine) -> KeptLine {
    let (about, words) = (line.about.clone(), line.words.clone());
    let bare = KeptLine { about, words, log_odds: None, without_it: None, missing: false };
    match line.pull {
        Pull::LogOdds(odds) => KeptLine { log_odds: Some(odds), ..bare },
        Pull::WithoutIt(share) => KeptLine { without_it: Some(share.get()), ..bare },
        Pull::Missing => KeptLine { missing: true, ..bare },
        Pull::Aside => bare,
    }
}

/// Reads a kept call back; `None` where another version of the program kept it in another form, which is no
/// fault: it is called again.
pub(crate) fn read<'a, T: Deserialize<'a>>(detail: &'a str) -> Option<T> {
    serde_json::from_str(detail).ok()
}

/// Writes a call to be kept.
pub(crate) fn write<T: Serialize>(what: &'static str, kept: &T) -> Result<String, HouseFault> {
    serde_json::to_string(kept).map_err(|fault| HouseFault::Kept { what, fault })
}

/// The usual fruit weight of each variety, as far as it was called.
pub(crate) fn typical_weights(ledger: &mut Ledger) -> Result<HashMap<Id<Variety>, Grams>, HouseFault> {
    let mut weights = HashMap::new();
    for call in ledger.calls()? {
        if call.subject == CallSubject::FruitClass {
            let kept: Option<KeptFruit> = read(&call.detail);
            let weight = kept.and_then(|kept| Grams::new(kept.facts.weight_g?.usual));
            weights.extend(weight.map(|weight| (call.variety, weight)));
        }
    }
    Ok(weights)
}
