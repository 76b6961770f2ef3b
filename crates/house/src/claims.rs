//! Claims beside the evidence: upheld, contradicted, or not yet measured.

use crate::kept::KeptCall;
use crate::list::Listed;
use identity::claims;
pub use identity::claims::Standing;
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

/// A variety's claims beside its calls.
pub(crate) fn beside(listed: &Listed) -> Vec<ClaimBeside> {
    let claims = listed.variety.claims.iter();
    claims.map(|claim| ClaimBeside { claim: claim.clone(), standing: stand(claim, listed) }).collect()
}

fn stand(claim: &Claim, listed: &Listed) -> Standing {
    let call = match claim.about {
        ClaimSubject::Habit => listed.habit.as_ref().map(|habit| &habit.call),
        ClaimSubject::FruitClass => listed.fruit.as_ref().map(|fruit| &fruit.call),
        ClaimSubject::Colour => listed.colour.as_ref().map(|colour| &colour.exterior),
        ClaimSubject::FruitWeight
        | ClaimSubject::DaysToMaturity
        | ClaimSubject::Purpose
        | ClaimSubject::Other => None,
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
