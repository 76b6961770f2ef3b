//! Claims beside the evidence: upheld, contradicted, or not yet measured.

use crate::kept::KeptCall;
use crate::list::Listed;
use identity::claims;
pub use identity::claims::Standing;
use intake::number::DecimalMark;
use intake::unit::{self, Unit};
use record::mass::Grams;
use record::share::Share;
use record::variety::{Claim, ClaimSubject};

/// A claim and how it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct ClaimBeside {
    /// The claim.
    pub claim: Claim,
    /// How it stands beside the evidence.
    pub standing: Standing,
}

/// A variety's claims beside its calls, each once: by subject, then in the order they came in.
pub(crate) fn beside(listed: &Listed) -> Vec<ClaimBeside> {
    let mut claims: Vec<&Claim> = Vec::new();
    for claim in &listed.variety.claims {
        let words = claim.words.to_lowercase();
        if !claims.iter().any(|told| told.about == claim.about && told.words.to_lowercase() == words) {
            claims.push(claim);
        }
    }
    claims.sort_by_key(|claim| claim.about);
    let beside = |claim: &Claim| ClaimBeside { claim: claim.clone(), standing: stand(claim, listed) };
    claims.into_iter().map(beside).collect()
}

/// What a claim is about, in a word.
#[must_use]
pub fn about(subject: ClaimSubject) -> &'static str {
    match subject {
        ClaimSubject::Habit => "habit",
        ClaimSubject::FruitClass => "fruit class",
        ClaimSubject::Colour => "colour",
        ClaimSubject::FruitWeight => "weight",
        ClaimSubject::DaysToMaturity => "days to maturity",
        ClaimSubject::Purpose => "purpose",
        ClaimSubject::Other => "other",
    }
}

fn stand(claim: &Claim, listed: &Listed) -> Standing {
    let call = match claim.about {
        ClaimSubject::Habit => listed.habit.as_ref().map(|habit| &habit.call),
        ClaimSubject::FruitClass => listed.fruit.as_ref().map(|fruit| &fruit.call),
        ClaimSubject::Colour => listed.colour.as_ref().map(|colour| &colour.exterior),
        ClaimSubject::FruitWeight => {
            return stand_weight(&claim.words, listed).unwrap_or(Standing::Unmeasured);
        }
        ClaimSubject::DaysToMaturity | ClaimSubject::Purpose | ClaimSubject::Other => None,
    };
    match call {
        Some(call) => claims::stand(&claim.words, claim.about, &shares(call)),
        None => Standing::Unmeasured,
    }
}

fn shares(call: &KeptCall) -> Vec<(String, Share)> {
    if !call.measured {
        return Vec::new();
    }
    let kept = call.shares.iter();
    kept.filter_map(|kept| Some((kept.answer.clone(), Share::new(kept.share)?))).collect()
}

fn stand_weight(words: &str, listed: &Listed) -> Option<Standing> {
    let weight = listed.fruit.as_ref()?.facts.weight_g?;
    let (low, high) = claimed_weights(words)?;
    Some(claims::stand_weight(low, high, Grams::new(weight.usual)?, weight.fruits))
}

/// Reads `4 to 6 oz` or `8 oz`; `None` for words such as `pea-sized`.
fn claimed_weights(words: &str) -> Option<(Grams, Grams)> {
    let (low, high) = words.split_once(" to ").or_else(|| words.split_once('-')).unwrap_or((words, words));
    let unit = high.split_whitespace().last().and_then(unit::unit_named);
    let Some(Unit::Mass(unit)) = unit else { return None };
    let mass = |text: &str| unit::mass(text.trim(), Some(unit), Some(DecimalMark::Point)).ok();
    Some((mass(low)?, mass(high)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn claimed_weights_are_read_as_packets_write_them() {
        let ounces = |ounces: f64| record::mass::Ounces::new(ounces).unwrap().to_grams().unwrap();
        assert_eq!(claimed_weights("4 to 6 oz"), Some((ounces(4.0), ounces(6.0))));
        assert_eq!(claimed_weights("8 oz"), Some((ounces(8.0), ounces(8.0))));
        assert_eq!(claimed_weights("pea-sized"), None);
    }
}
