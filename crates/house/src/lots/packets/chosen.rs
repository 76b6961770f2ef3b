//! Which lots the packets come from: those that were named, and of a variety those that may be shipped and reach the minimum, by
//! the age of their tests.

use super::{Book, Chosen, Filling, Run, Wanted};
use crate::fault::HouseFault;
use crate::folder::House;
use crate::lots::fault::SeedRoomFault;
use crate::lots::law::{Asked, judged_by};
use crate::lots::shelves::{drawn, shelf};
use crate::lots::{Books, LotSeen, LotState};
use crate::names;
use ledger::ledger::Ledger;
use ledger::names::label_key;
use record::stock::Place;
use record::variety::Variety;
use seedroom::increase::filling::filling;
use seedroom::label::guide::Guide;
use seedroom::stock::draw::Shelf;

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
    let asked = Asked { today: run.today, law: run.law, minimum: house.settings.minimum };
    let by = judged_by(house, asked)?.with(guides);
    let seen = Books::read(ledger)?.seen(by.goes_by(asked))?;
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
    let at = |filling: &Filling| match run.book {
        Book::OutOfTheJar => Place::Jar,
        Book::LabelsOnly => Place::Packets(filling.fill),
    };
    let lots: Vec<(&LotSeen, Shelf)> =
        own.iter().map(|(seen, filling)| (*seen, shelf(seen, at(filling), filling.fill))).collect();
    let find = |lot| own.iter().find(|(seen, _)| seen.lot.id == lot);
    let taken = |(lot, packets)| find(lot).map(|(seen, filling)| ((*seen).clone(), packets, *filling));
    let from = drawn(&lots, &variety.name, wanted.packets, run.today)?;
    Ok(from.into_iter().filter_map(taken).collect())
}
