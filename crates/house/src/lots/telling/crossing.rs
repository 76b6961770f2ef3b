//! Whether a lot's seed may have crossed, in words.

use crate::lots::isolation::{CrossingRisk, KnownBy, LotIsolation};
use record::language::{Units, counted, distance};
use seedroom::label::guide::Status;

/// A lot's isolation, a part at a time: the risk first.
#[must_use]
pub fn isolation(of: &LotIsolation, units: Units) -> Vec<String> {
    let both = |away| distance(away, units);
    let found = &of.isolation;
    let flower = &found.flower;
    let (low, high) = flower.crosses_percent;
    let suits = both(flower.away);
    let crossed = format!("{low} to {high} in 100 seeds cross where other tomatoes stand beside it");
    let risk = match (found.risk, found.told) {
        (CrossingRisk::FarEnough, Some(told)) => {
            format!("{} from other varieties, where {suits} suit its flowers: little crossing", both(told))
        }
        (CrossingRisk::FarEnoughForMost, Some(told)) => format!(
            "{} from other varieties, where {suits} suit most tomatoes; look into a flower, as some want more",
            both(told)
        ),
        (CrossingRisk::TooNear, Some(told)) => {
            format!(
                "it may have crossed: {} from other varieties, where {suits} suit its flowers; {crossed}",
                both(told)
            )
        }
        (_, _) => format!(
            "it may have crossed: nobody told how far other varieties stood; {suits} suit its flowers; {crossed}"
        ),
    };
    let known = known_by(found.known_by);
    let unseen = match flower.rule.status {
        Status::Read => "",
        Status::Unverified => "; told by others, unverified",
    };
    let beside = of.others.filter(|others| 0 < *others).map(|others| {
        let others = counted(u64::try_from(others).unwrap_or(u64::MAX), "other variety", "other varieties");
        format!("its plot stood in a grow-out with {others}")
    });
    let flowers = format!("flowers: {} ({known}); {}", flower.name, flower.words);
    let source = format!("by the guide isolation.toml: {}{unseen}", flower.rule.source);
    [Some(risk), beside, Some(flowers), Some(source)].into_iter().flatten().collect()
}

/// How the type of a variety's flowers is known.
pub(crate) fn known_by(known: KnownBy) -> &'static str {
    match known {
        KnownBy::Variety => "the guide names its variety",
        KnownBy::FruitClass => "by its fruit class",
        KnownBy::Nothing => "as most tomatoes, for nobody told its flowers",
    }
}
