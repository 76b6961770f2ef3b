//! What lots of a variety can give towards so many packets, and from which of them these are drawn.

use super::LotSeen;
use super::fault::SeedRoomFault;
use jiff::civil::Date;
use record::id::Id;
use record::lot::Lot;
use record::mass::Milligrams;
use record::stock::{Fill, Place};
use seedroom::germination::judge::Standing;
use seedroom::stock::draw::{Drawn, PassedOver, Quality, Shelf, draw};

/// What a lot can give: so many packets as the seed in a place fills.
pub(super) fn shelf(seen: &LotSeen, at: Place, fill: Fill) -> Shelf {
    let account = &seen.account;
    let newest = account.tests.last().filter(|test| !test.says_nothing());
    let held = account.held.iter().find(|(place, _)| *place == at).map(|(_, mass)| *mass);
    let reached = newest.is_some_and(|test| test.verdict.standing == Standing::Reached);
    Shelf {
        lot: seen.lot.id,
        packets: fill.whole_packets(held.unwrap_or(Milligrams::NONE)),
        tested: newest.map(|test| test.month()),
        packing: account.packing(),
        quality: if reached { Quality::Reached } else { Quality::Under },
    }
}

/// Draws packets of what was asked for from lots, all of them or none.
///
/// # Errors
/// [`SeedRoomFault::TooFewPackets`] with the lots that were passed over, and why.
pub(super) fn drawn(
    lots: &[(&LotSeen, Shelf)],
    of: &str,
    wanted: u32,
    on: Date,
) -> Result<Vec<(Id<Lot>, u32)>, SeedRoomFault> {
    let shelves: Vec<Shelf> = lots.iter().map(|(_, shelf)| *shelf).collect();
    let Drawn { from, short, passed_over } = draw(&shelves, wanted, on);
    if short == 0 {
        return Ok(from);
    }
    let number = |lot| lots.iter().find(|(seen, _)| seen.lot.id == lot).map(|(seen, _)| &seen.lot.number);
    let told =
        passed_over.into_iter().filter_map(|(lot, why)| Some(format!("{} ({})", number(lot)?, reason(why))));
    Err(SeedRoomFault::TooFewPackets {
        of: of.to_owned(),
        wanted,
        found: wanted.saturating_sub(short),
        passed_over: told.collect(),
    })
}

fn reason(why: PassedOver) -> &'static str {
    match why {
        PassedOver::Untested => "no test that says anything",
        PassedOver::TestOutOfDate => "its test is too old",
        PassedOver::UnderMinimum => "under the minimum",
    }
}
