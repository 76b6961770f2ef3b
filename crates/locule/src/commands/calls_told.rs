//! Calls as answers tell them: verdict, how sure, and whether contested.

use house::calls::{self, CallSubject};
use house::kept::{KeptCall, chance};
use house::list::Listed;
use record::language::{self, Units};
use record::mass::Grams;
use schemars::JsonSchema;
use serde::Serialize;

/// One call, briefly.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Brief {
    /// `habit`, `fruit class` or `colour`.
    pub(super) about: String,
    /// The verdict; nothing where it lies between answers or no evidence speaks.
    pub(super) verdict: Option<String>,
    /// Its probability, from 0 to 1; nothing where no evidence speaks.
    pub(super) probability: Option<f64>,
    /// Whether it is contested.
    pub(super) contested: bool,
    /// The runner-up.
    pub(super) perhaps: Option<String>,
    /// The cheapest step that would settle it.
    pub(super) settle: Option<String>,
}

/// One variety with its calls, briefly.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct BriefVariety {
    /// Its name.
    pub(super) name: String,
    /// Other names.
    pub(super) aliases: Vec<String>,
    /// Usual weight of a fruit, grams.
    pub(super) weight_g: Option<f64>,
    /// Its calls: habit, fruit class, colour.
    pub(super) calls: Vec<Brief>,
}

pub(super) fn brief_variety(listed: &Listed) -> BriefVariety {
    let weight = listed.fruit.as_ref().and_then(|fruit| fruit.facts.weight_g);
    BriefVariety {
        name: listed.variety.name.clone(),
        aliases: listed.variety.aliases.clone(),
        weight_g: weight.map(|weight| weight.usual),
        calls: listed.calls().map(|(about, call)| brief(about, call)).collect(),
    }
}

pub(super) fn brief(about: CallSubject, call: &KeptCall) -> Brief {
    let measured = call.measured;
    let perhaps = call.shares.get(1).filter(|second| call.contested && WORTH_TELLING <= second.share);
    Brief {
        about: calls::subject(about).to_owned(),
        verdict: call.verdict.clone().filter(|_| measured),
        probability: measured.then_some(call.probability),
        contested: measured && call.contested,
        perhaps: perhaps.filter(|_| measured).map(|second| second.answer.clone()),
        settle: call.settle.first().filter(|_| call.contested && measured).map(|step| step.words.clone()),
    }
}

/// A runner-up less likely than this is not told. A choice of the telling.
const WORTH_TELLING: f64 = 0.1;

/// A call in a few words: `plum 62 in 100, perhaps grape; contested`.
pub(super) fn words(brief: &Brief) -> String {
    match (&brief.verdict, brief.probability) {
        (_, None) => "not measured".to_owned(),
        (None, Some(share)) => format!("between answers {}", chance(share)),
        (Some(verdict), Some(share)) if brief.contested => {
            let perhaps =
                brief.perhaps.as_ref().map(|other| format!(", perhaps {other}")).unwrap_or_default();
            format!("{verdict} {}{perhaps}; contested", chance(share))
        }
        (Some(verdict), Some(_)) => verdict.clone(),
    }
}

/// A variety as a row of cells: name, habit, class, colour, weight.
pub(super) fn row(variety: &BriefVariety, units: Units) -> Vec<String> {
    let weight = variety.weight_g.and_then(Grams::new).map(|weight| language::mass_briefly(weight, units));
    let mut row = vec![variety.name.clone()];
    row.extend(variety.calls.iter().map(words));
    row.resize(4, "not called".to_owned());
    row.push(weight.unwrap_or_default());
    row
}
