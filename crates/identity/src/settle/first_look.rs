//! The first look at what was not measured yet of a fruit or a handful: what would it tell?
//!
//! Unlike the steps that settle a variety, every look is told, with how sure the call is expected to be after
//! it, so that whoever holds the fruit may choose. Start at [`looks`].

use super::{Imagined, step};
use crate::call::{Action, SETTLED_AT, Step, WORTH_A_LOOK};
use crate::fruit_class::evidence::{LINE_COUNT, Line};

/// Plants whose fruit may be looked at beside the first, five of each. Common practice, no source.
const MORE_PLANTS: u32 = 4;
/// Fruits of each of them.
const FRUITS_EACH: u32 = 5;
/// Fruits of the same plant that may be looked at beside those at hand. Common practice, no source.
const MORE_FRUITS: u32 = 9;

/// Every look at the class that was not taken yet, the cheapest first; nothing where the class is settled.
///
/// How sure a call tends to be afterwards is reckoned from fewer draws than the call itself, so only the
/// lift over the same reckoning with nothing new is added to the call's own share.
pub(crate) fn looks(imagined: &Imagined<'_>, fruits: u32) -> Vec<Step> {
    let tally = imagined.rules.tally(imagined.posterior, &imagined.draws.call);
    let now = if imagined.evidence.is_sized() { tally.share(tally.leading()) } else { 0.0 };
    if SETTLED_AT <= now {
        return Vec::new();
    }
    let unchanged = imagined.outcomes(&[None; LINE_COUNT]).expected;
    let taken = |action: &Action| imagined.tells_first(*action) && imagined.tells_more(*action);
    on_offer(fruits.max(1))
        .into_iter()
        .filter(taken)
        .map(|action| {
            let mut prospect = imagined.try_out(action);
            if imagined.evidence.is_sized() {
                prospect.expected = (now + (prospect.expected - unchanged).max(0.0)).min(1.0);
            }
            step(action, prospect, words(action))
        })
        .filter(|step| now + WORTH_A_LOOK <= step.expected.get())
        .collect()
}

fn on_offer(fruits: u32) -> [Action; 7] {
    [
        Action::WeighFruits(fruits),
        Action::MeasureSizes(fruits),
        Action::MeasureNecks(fruits),
        Action::CutFruits(fruits),
        Action::ReadRefractometer(fruits),
        Action::MoreFruits(MORE_FRUITS),
        Action::MorePlants { plants: MORE_PLANTS, fruits_each: FRUITS_EACH },
    ]
}

impl Imagined<'_> {
    /// Whether a look is open: a trait that was not looked at, of a fruit that has a size; or its size.
    fn tells_first(&self, action: Action) -> bool {
        let unseen = |line| self.evidence.is_sized() && !self.evidence.has(line);
        match action {
            Action::WeighFruits(_) => !self.evidence.is_sized(),
            Action::MeasureSizes(_) => unseen(Line::Shape),
            Action::MeasureNecks(_) => unseen(Line::Neck),
            Action::CutFruits(_) => unseen(Line::Locules),
            Action::ReadRefractometer(_) => unseen(Line::SolubleSolids) && unseen(Line::DryMatter),
            _ => self.evidence.is_sized(),
        }
    }
}

fn words(action: Action) -> String {
    let (it, them) = (|fruits: u32| of(fruits, "it", "them"), |fruits: u32| of(fruits, "its", "their"));
    match action {
        Action::WeighFruits(fruits) => format!("Weigh {}.", it(fruits)),
        Action::MeasureSizes(fruits) => format!("Measure {} length and greatest width.", them(fruits)),
        Action::MeasureNecks(fruits) => {
            format!("Measure {} width a quarter of the way down from the stem.", them(fruits))
        }
        Action::CutFruits(fruits) => format!("Cut {} across and count the locules.", it(fruits)),
        Action::ReadRefractometer(fruits) => format!("Read {} juice on a refractometer.", them(fruits)),
        Action::MoreFruits(more) => format!("Weigh and measure {more} more fruits of the same plant."),
        Action::MorePlants { plants, fruits_each } => {
            format!("Weigh and measure {fruits_each} fruits of each of {plants} more plants of it.")
        }
        _ => String::new(),
    }
}

fn of(fruits: u32, one: &'static str, many: &'static str) -> &'static str {
    if fruits == 1 { one } else { many }
}
