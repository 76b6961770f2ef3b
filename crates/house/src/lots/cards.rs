//! Lot cards: a card for the jar of every lot, with its number, what is known of it, and a code.

use super::law::Asked;
use super::{LotSeen, LotState, all, telling};
use crate::fault::HouseFault;
use crate::folder::{self, House};
use crate::lots::fault::SeedRoomFault;
use ledger::names::label_key;
use publish::lot_cards::{self, LotCard, LotCards, Paper};
use record::language::{Units, capitalised};
use std::path::{Path, PathBuf};

/// Cards that were printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Printed {
    /// The file.
    pub file: PathBuf,
    /// Its size in bytes.
    pub bytes: u64,
    /// Cards in it.
    pub cards: usize,
}

/// Prints cards of the lots of these numbers to `file`, whole or not at all; of all lots with seed in the house where none is named.
///
/// # Errors
/// [`SeedRoomFault::NoSuchLot`]; [`SeedRoomFault::NoLots`] where no lot holds seed; what the ledger or the disk refuses.
pub fn print(
    house: &House,
    numbers: &[String],
    asked: Asked,
    paper: Paper,
    file: &Path,
) -> Result<Printed, HouseFault> {
    let lots = all(house, asked)?.lots;
    let cards: Vec<LotCard> =
        wanted(&lots, numbers)?.into_iter().map(|seen| card(seen, asked, house.settings.units)).collect();
    let count = cards.len();
    let cards = LotCards {
        house: house.settings.name.clone(),
        printed_on: asked.today,
        cards,
        house_fonts: Vec::new(),
    };
    let pdf = lot_cards::lot_cards(&cards, paper)?;
    folder::write(file, &pdf)?;
    Ok(Printed { file: file.to_owned(), bytes: u64::try_from(pdf.len()).unwrap_or(u64::MAX), cards: count })
}

/// The file that cards go to unless another is named.
#[must_use]
pub fn file(house: &House, numbers: &[String]) -> PathBuf {
    let name = match numbers {
        [one] => format!("lot-card-{}.pdf", crate::stakes::slug(one)),
        _ => "lot-cards.pdf".to_owned(),
    };
    house.printed().join(name)
}

fn wanted<'l>(lots: &'l [LotSeen], numbers: &[String]) -> Result<Vec<&'l LotSeen>, SeedRoomFault> {
    if numbers.is_empty() {
        let held: Vec<&LotSeen> = lots.iter().filter(|seen| seen.account.state != LotState::Gone).collect();
        return if held.is_empty() { Err(SeedRoomFault::NoLots) } else { Ok(held) };
    }
    let find = |number: &String| {
        let found = lots.iter().find(|seen| label_key(&seen.lot.number) == label_key(number));
        let known = || lots.iter().map(|seen| seen.lot.number.clone()).collect();
        found.ok_or_else(|| SeedRoomFault::NoSuchLot { number: number.clone(), known: known() })
    };
    numbers.iter().map(find).collect()
}

fn card(seen: &LotSeen, asked: Asked, units: Units) -> LotCard {
    let account = &seen.account;
    let keeping = account.keeping.as_ref();
    let tests = account.tests.iter().rev().map(telling::germination);
    let mut state = vec![capitalised(&telling::state(account.state))];
    state.extend(account.test_due.map(|due| capitalised(&telling::due(due, asked.today))));
    let origin = telling::origin(seen, units);
    let origin = (!origin.is_empty()).then(|| capitalised(&origin.join("; ")));
    let part = |about: &str, lines: Vec<String>| (about.to_owned(), lines);
    LotCard {
        number: seen.lot.number.clone(),
        variety: seen.variety.clone(),
        lot: seen.lot.id.uuid(),
        parts: vec![
            part("Harvest", vec![seen.lot.season.to_string()]),
            part("Origin", origin.into_iter().collect()),
            part(
                "Kept",
                keeping.map(|keeping| capitalised(&telling::kept(keeping, units))).into_iter().collect(),
            ),
            part("Held", account.held.iter().map(|(place, mass)| telling::held(*place, *mass)).collect()),
            part(
                "Seeds",
                account.seeds.map(telling::seeds).into_iter().map(|words| capitalised(&words)).collect(),
            ),
            part("Tests", tests.collect()),
            part("State", state),
        ],
    }
}
