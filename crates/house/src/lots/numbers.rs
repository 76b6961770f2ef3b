//! How many plants to look at, and how many to save seed from.

use super::fault::SeedRoomFault;
use record::share::{Share, WholePercent};
use seedroom::trueness::off_types::{acceptance_number, passes, plants_to_detect};
use seedroom::trueness::parents::{chance_kept, plants_to_keep};

/// What is asked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Asked {
    /// The share of plants: off-types to be found, or plants that carry what is to be kept.
    pub share: Share,
    /// How sure.
    pub sure: WholePercent,
    /// Plants that there are to look at, or to save seed from.
    pub plants: Option<u32>,
}

/// How many plants.
#[derive(Clone, Debug, PartialEq)]
pub struct Numbers {
    /// Plants among which at least one is seen.
    pub to_see: u32,
    /// Plants to save seed from, to keep what such a share carries; as many, for a tomato carries one copy.
    pub to_keep: u32,
    /// What so many plants tell, where a number was told.
    pub of_those: Option<OfThose>,
}

/// What a number of plants tells and keeps.
#[derive(Clone, Debug, PartialEq)]
pub struct OfThose {
    /// The plants.
    pub plants: u32,
    /// The chance that at least one off-type is seen among them, or that what such a share carries is kept.
    pub seen: Share,
    /// Off-types that the share as a population standard lets stand among them.
    pub accepted: u32,
    /// Poorer lots, and how often each passes with so many: the buyer's risk.
    pub passes: Vec<(Share, Share)>,
}

/// Poorer lots are told with so many times the off-types. Common practice, no source.
const POORER: [f64; 3] = [2.0, 5.0, 10.0];

/// Most plants that are counted with.
const MOST_PLANTS: u32 = 100_000;

/// Reads a share in per cent, such as `1`, `0.5` or `5 %`.
///
/// # Errors
/// [`SeedRoomFault::NotRead`] of what is no share above nothing and under a half.
pub fn share(typed: &str) -> Result<Share, SeedRoomFault> {
    let percent = typed.trim().trim_end_matches('%').trim().parse().ok();
    let share = percent.filter(|percent: &f64| 0.0 < *percent && *percent < 50.0);
    share.and_then(|percent| Share::new(percent / 100.0)).ok_or_else(|| SeedRoomFault::NotRead {
        value: typed.to_owned(),
        reason: "no share of plants".to_owned(),
        remedy: "write per cent above 0 and under 50, such as 1 or 0.5".to_owned(),
    })
}

/// Says how many plants.
///
/// # Errors
/// [`SeedRoomFault::NotRead`] where certainty is asked for, or more plants than anybody looks at.
pub fn numbers(asked: Asked) -> Result<Numbers, SeedRoomFault> {
    let refuse = |value: String, reason: &str, remedy: &str| SeedRoomFault::NotRead {
        value,
        reason: reason.to_owned(),
        remedy: remedy.to_owned(),
    };
    if let Some(plants) = asked.plants.filter(|plants| MOST_PLANTS < *plants || *plants == 0) {
        return Err(refuse(plants.to_string(), "no number of plants", "write 1 to 100000 plants"));
    }
    let sure = asked.sure.share();
    let both = plants_to_detect(asked.share, sure).zip(plants_to_keep(asked.share, sure));
    let certain = || {
        refuse(format!("{}%", asked.sure.get()), "no number of plants is certain", "write 1 to 99 per cent")
    };
    let (to_see, to_keep) = both.ok_or_else(certain)?;
    Ok(Numbers { to_see, to_keep, of_those: asked.plants.map(|plants| of_those(plants, asked.share, sure)) })
}

fn of_those(plants: u32, share: Share, sure: Share) -> OfThose {
    let accepted = acceptance_number(plants, share, sure);
    let poorer = POORER.into_iter().filter_map(|times| Share::new(times * share.get()));
    let passes = poorer.map(|poor| (poor, passes(plants, accepted, poor))).collect();
    OfThose { plants, seen: chance_kept(share, plants), accepted, passes }
}
