//! Which lots the packets come from: those that were named, and of a variety those that may be shipped, by the age of their tests.

use super::{Book, Chosen, Filling, Run, Wanted};
use crate::fault::HouseFault;
use crate::folder::House;
use crate::lots::fault::SeedRoomFault;
use crate::lots::{Asked, Books, GoesBy, LotSeen, LotState, SPARE_DAYS, judged_by};
use crate::names;
use ledger::ledger::Ledger;
use ledger::names::label_key;
use record::mass::Milligrams;
use record::stock::Place;
use record::variety::Variety;
use seedroom::increase::filling::filling;
use seedroom::label::guide::Guide;
use seedroom::stock::draw::{Drawn, Shelf, draw};

/// Finds the lots of a run, and how the packets of each are filled.
pub(super) fn chosen(
    house: &House,
    ledger: &mut Ledger,
    run: &Run,
    guides: &[Guide],
) -> Result<Chosen, HouseFault> {
    if run.wanted.is_empty() {
        return Err(SeedRoomFault::NoPackets.into());
    }
    let by = judged_by(house, Asked { today: run.today, law: run.law, minimum: None })?;
    let strictest = guides.iter().filter_map(|guide| guide.standard.as_ref()).map(|(least, _)| *least).max();
    let minimum = strictest.unwrap_or(by.minimum);
    let seen = Books::read(ledger)?.seen(GoesBy { today: run.today, minimum, spare_days: SPARE_DAYS })?;
    let mut chosen = Chosen::new();
    for wanted in &run.wanted {
        let lot = seen.iter().find(|seen| label_key(&seen.lot.number) == label_key(&wanted.of));
        match lot {
            Some(lot) => chosen.push((lot.clone(), wanted.packets, filled(lot, run)?)),
            None => chosen.extend(of_variety(&names::find(ledger, &wanted.of)?, &seen, wanted, run)?),
        }
    }
    Ok(chosen)
}

fn filled(seen: &LotSeen, run: &Run) -> Result<Filling, SeedRoomFault> {
    let lot = || seen.lot.number.clone();
    filling(run.contents, seen.account.seed_weight.as_ref())
        .map_err(|fault| SeedRoomFault::CannotFill { lot: lot(), fault })
}

/// Packets of a variety, from the lot whose test will first be too old.
fn of_variety(variety: &Variety, seen: &[LotSeen], wanted: &Wanted, run: &Run) -> Result<Chosen, HouseFault> {
    let own =
        seen.iter().filter(|seen| seen.lot.variety == variety.id && seen.account.state != LotState::Gone);
    let own: Vec<(&LotSeen, Filling)> =
        own.map(|seen| Ok((seen, filled(seen, run)?))).collect::<Result<_, SeedRoomFault>>()?;
    let shelves: Vec<Shelf> = own.iter().map(|(seen, filling)| shelf(seen, filling, run)).collect();
    let Drawn { from, short, passed_over } = draw(&shelves, wanted.packets, run.today);
    let find = |lot| own.iter().find(|(seen, _)| seen.lot.id == lot);
    if 0 < short {
        return Err(SeedRoomFault::TooFewPackets {
            variety: variety.name.clone(),
            wanted: wanted.packets,
            found: wanted.packets.saturating_sub(short),
            passed_over: passed_over
                .into_iter()
                .filter_map(find)
                .map(|(seen, _)| seen.lot.number.clone())
                .collect(),
        }
        .into());
    }
    let taken = |(lot, packets)| find(lot).map(|(seen, filling)| ((*seen).clone(), packets, *filling));
    Ok(from.into_iter().filter_map(taken).collect())
}

/// What a lot can give: packets that its jar fills, or such packets as there are where only labels are wanted.
fn shelf(seen: &LotSeen, filling: &Filling, run: &Run) -> Shelf {
    let newest = seen.account.tests.last().filter(|test| !test.says_nothing());
    let at = match run.book {
        Book::OutOfTheJar => Place::Jar,
        Book::LabelsOnly => Place::Packets(filling.fill),
    };
    let held = seen.account.held.iter().find(|(place, _)| *place == at).map(|(_, mass)| *mass);
    Shelf {
        lot: seen.lot.id,
        packets: filling.fill.whole_packets(held.unwrap_or(Milligrams::NONE)),
        tested: newest.map(|test| test.month()),
        packing: seen.account.packing(),
    }
}
