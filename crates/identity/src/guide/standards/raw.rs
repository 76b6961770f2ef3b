//! The table of standards as its text holds it, and the checks that make it one.

use super::{Characteristic, CodedFrom, Counted, Figure, SampleAsked, Standard, Standards, State, Status};
use crate::guide::reading::{GuideFault, Text, parse};
use crate::habit::{Habit, Stem};
use record::colour::{Skin, TradeColour};
use serde::Deserialize;
use std::ops::Range;
use toml::Spanned;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawStandards {
    standard: Vec<RawStandard>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawStandard {
    name: String,
    title: String,
    known: String,
    sample: RawSamples,
    characteristic: Vec<RawCharacteristic>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawSamples {
    seasons: Option<RawSample>,
    standing: Option<RawSample>,
    plots: Option<RawSample>,
    plants: Option<RawSample>,
    fruits: Option<RawSample>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawSample {
    at_least: u32,
    words: String,
    status: RawStatus,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum RawStatus {
    Read,
    Memory,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum RawCounted {
    Seasons,
    Standing,
    Plots,
    Plants,
    Fruits,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum RawFrom {
    Stem,
    Habit,
    Outside,
    Flesh,
    Skin,
    Locules,
    Width,
    Figure,
    Nothing,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum RawFigure {
    Trusses,
    Ratio,
    Weight,
    Length,
    Width,
    Locules,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawCharacteristic {
    name: String,
    from: Spanned<RawFrom>,
    status: RawStatus,
    remark: Option<String>,
    beside: Option<RawFigure>,
    why: Option<String>,
    #[serde(default)]
    asks: Vec<Spanned<RawCounted>>,
    #[serde(default)]
    states: Vec<RawState>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawState {
    note: u32,
    wording: Spanned<String>,
    #[serde(default)]
    is: Vec<Spanned<String>>,
    below: Option<Spanned<f64>>,
    status: RawStatus,
}

impl From<RawStatus> for Status {
    fn from(raw: RawStatus) -> Self {
        match raw {
            RawStatus::Read => Self::Read,
            RawStatus::Memory => Self::MemoryUnverified,
        }
    }
}

impl From<RawCounted> for Counted {
    fn from(raw: RawCounted) -> Self {
        match raw {
            RawCounted::Seasons => Self::Seasons,
            RawCounted::Standing => Self::Standing,
            RawCounted::Plots => Self::Plots,
            RawCounted::Plants => Self::Plants,
            RawCounted::Fruits => Self::Fruits,
        }
    }
}

impl From<RawFigure> for Figure {
    fn from(raw: RawFigure) -> Self {
        match raw {
            RawFigure::Trusses => Self::Trusses,
            RawFigure::Ratio => Self::Ratio,
            RawFigure::Weight => Self::Weight,
            RawFigure::Length => Self::Length,
            RawFigure::Width => Self::Width,
            RawFigure::Locules => Self::Locules,
        }
    }
}

/// Parses and checks the table.
///
/// # Errors
/// [`GuideFault`] at the first entry that cannot be meant.
pub(super) fn checked(text: Text<'_>) -> Result<Standards, GuideFault> {
    let raw: RawStandards = parse(&text)?;
    let standards = raw.standard.into_iter().map(|raw| raw.checked(text)).collect::<Result<_, _>>()?;
    Ok(Standards { standards })
}

impl RawStandard {
    fn checked(self, text: Text<'_>) -> Result<Standard, GuideFault> {
        let samples = self.sample.asked();
        let characteristics = self
            .characteristic
            .into_iter()
            .map(|raw| raw.checked(&samples, text))
            .collect::<Result<_, _>>()?;
        Ok(Standard { name: self.name, title: self.title, known: self.known, samples, characteristics })
    }
}

impl RawSamples {
    fn asked(self) -> Vec<SampleAsked> {
        let all = [
            (Counted::Seasons, self.seasons),
            (Counted::Standing, self.standing),
            (Counted::Plots, self.plots),
            (Counted::Plants, self.plants),
            (Counted::Fruits, self.fruits),
        ];
        let asked = |(counted, raw): (Counted, Option<RawSample>)| {
            raw.map(|raw| SampleAsked {
                counted,
                at_least: u64::from(raw.at_least),
                words: raw.words,
                status: raw.status.into(),
            })
        };
        all.into_iter().filter_map(asked).collect()
    }
}

impl RawCharacteristic {
    fn checked(self, samples: &[SampleAsked], text: Text<'_>) -> Result<Characteristic, GuideFault> {
        let asks =
            self.asks.iter().map(|raw| asked(raw, samples, &self.name, text)).collect::<Result<_, _>>()?;
        let coding = self.coding(text)?;
        Ok(Characteristic { name: self.name, coding, remark: self.remark, status: self.status.into(), asks })
    }

    fn coding(&self, text: Text<'_>) -> Result<CodedFrom, GuideFault> {
        let fault = |fault: &str, help: &str| text.fault(&self.name, &self.from.span(), fault, help);
        let beside = self.beside.map(Figure::from);
        Ok(match *self.from.get_ref() {
            RawFrom::Stem => CodedFrom::Stem(self.by_word(Stem::ALL, |stem| stem.to_string(), text)?),
            RawFrom::Habit => CodedFrom::Habit(self.by_word(Habit::ALL, |habit| habit.to_string(), text)?),
            RawFrom::Outside => {
                CodedFrom::Outside(self.by_word(TradeColour::ALL, |colour| colour.name().to_owned(), text)?)
            }
            RawFrom::Flesh => {
                CodedFrom::Flesh(self.by_word(TradeColour::ALL, |colour| colour.name().to_owned(), text)?)
            }
            RawFrom::Skin => CodedFrom::Skin(self.by_word(Skin::ALL, |skin| skin.name().to_owned(), text)?),
            RawFrom::Locules => CodedFrom::Limits(Figure::Locules, self.by_limit(text)?),
            RawFrom::Width => CodedFrom::Limits(Figure::Width, self.by_limit(text)?),
            RawFrom::Figure => {
                CodedFrom::Figure(beside.ok_or_else(|| fault("no figure is named", "name one at `beside`"))?)
            }
            RawFrom::Nothing => {
                let why = self.why.clone().filter(|why| !why.trim().is_empty());
                let why = why.ok_or_else(|| fault("nobody says why it is not coded", "say it at `why`"))?;
                CodedFrom::Nothing { why, beside }
            }
        })
    }

    /// States that each take some answers; no answer may belong to two.
    fn by_word<V: Copy + PartialEq, const N: usize>(
        &self,
        answers: [V; N],
        word: impl Fn(&V) -> String,
        text: Text<'_>,
    ) -> Result<Vec<State<Vec<V>>>, GuideFault> {
        let mut taken: Vec<V> = Vec::new();
        let mut states = Vec::new();
        self.some_states(text)?;
        for raw in &self.states {
            let mut is = Vec::new();
            for named in &raw.is {
                let fault = |fault: &str, help: &str| text.fault(&self.name, &named.span(), fault, help);
                let known = answers.iter().find(|answer| word(answer) == *named.get_ref());
                let answer = known.ok_or_else(|| {
                    let words = answers.iter().map(&word).collect::<Vec<_>>().join(", ");
                    fault("no call has this word", &format!("use one of {words}"))
                })?;
                if taken.contains(answer) {
                    return Err(fault("two states take this word", "leave it in one of them"));
                }
                taken.push(*answer);
                is.push(*answer);
            }
            states.push(raw.state(is));
        }
        Ok(states)
    }

    /// States with rising limits, the last one without.
    fn by_limit(&self, text: Text<'_>) -> Result<Vec<State<Option<f64>>>, GuideFault> {
        self.some_states(text)?;
        let mut before = 0.0;
        let last = self.states.len() - 1;
        let mut states = Vec::new();
        for (place, raw) in self.states.iter().enumerate() {
            let fault =
                |place: &Range<usize>, fault: &str, help: &str| text.fault(&self.name, place, fault, help);
            match &raw.below {
                Some(below) if place < last && before < *below.get_ref() && below.get_ref().is_finite() => {
                    before = *below.get_ref();
                }
                None if place == last => {}
                Some(below) if place < last => {
                    return Err(fault(
                        &below.span(),
                        "the limits do not rise",
                        "write them from small to large",
                    ));
                }
                Some(below) => {
                    return Err(fault(
                        &below.span(),
                        "the last state has a limit",
                        "leave the last one open",
                    ));
                }
                None => {
                    let help = "every state but the last needs `below`";
                    return Err(fault(&raw.wording.span(), "this state has no limit", help));
                }
            }
            states.push(raw.state(raw.below.as_ref().map(|below| *below.get_ref())));
        }
        Ok(states)
    }

    fn some_states(&self, text: Text<'_>) -> Result<(), GuideFault> {
        if self.states.is_empty() {
            let help = "list them at `states`, or write from = \"nothing\"";
            return Err(text.fault(&self.name, &self.from.span(), "it has no states", help));
        }
        Ok(())
    }
}

impl RawState {
    fn state<Is>(&self, is: Is) -> State<Is> {
        State { note: self.note, wording: self.wording.get_ref().clone(), is, status: self.status.into() }
    }
}

fn asked(
    raw: &Spanned<RawCounted>,
    samples: &[SampleAsked],
    name: &str,
    text: Text<'_>,
) -> Result<Counted, GuideFault> {
    let counted = Counted::from(*raw.get_ref());
    let known = samples.iter().any(|sample| sample.counted == counted);
    known.then_some(counted).ok_or_else(|| {
        let help = "name the size at [standard.sample], or leave it out here";
        text.fault(name, &raw.span(), "the standard names no such sample size", help)
    })
}
