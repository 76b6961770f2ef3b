//! Writing in the seed room's books: lots founded, notes of them added, entries withdrawn and restored.
//!
//! Seed that is moved is moved in the ledger's own transaction: of two who take the last packets at once, one is told no.

use crate::fault::HouseFault;
use crate::folder::House;
use crate::lots::fault::SeedRoomFault;
use crate::names;
use ledger::batch::Act;
use ledger::fault::LedgerFault;
use ledger::ledger::Ledger;
pub use ledger::lots::Turn;
use ledger::lots::{EntryNumber, NewLot};
use ledger::names::label_key;
use record::id::Id;
use record::lot::{Lot, LotNote, LotOrigin};
use record::season::Season;
use record::stock::Movement;
use seedroom::stock::{Refused, balances};

/// A lot that is to be founded.
#[derive(Clone, Debug, PartialEq)]
pub struct Founding {
    /// Its number.
    pub number: String,
    /// The variety's name or alias.
    pub variety: String,
    /// The season of its harvest.
    pub season: Season,
    /// Where it comes from; its plot and its parents' lot are named beside it.
    pub origin: LotOrigin,
    /// The plot, as its grow-out and label.
    pub plot: Option<(String, String)>,
    /// The number of the lot that its parents were sown from.
    pub sown_from: Option<String>,
    /// What else is noted at once, such as the seed that came in.
    pub notes: Vec<LotNote>,
}

/// Founds a lot with what is known of it.
///
/// # Errors
/// [`HouseFault::NoSuchVariety`], [`SeedRoomFault::NoSuchLot`], [`SeedRoomFault::NoSuchPlotOf`]; [`SeedRoomFault::CannotMove`] for seed
/// that cannot be moved so; what the ledger refuses, such as a number that is taken.
pub fn found(house: &House, lot: Founding, act: &Act) -> Result<Id<Lot>, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let sown_from = lot.sown_from.as_ref().map(|number| lot_named(&mut ledger, number)).transpose()?;
    let (new, notes) = ready(&mut ledger, lot, Parents::of(sown_from.map(|lot| lot.id)))?;
    let mut why = None;
    let done = ledger.found_lot(&new, &notes, act, &mut |moved| stands(moved, &mut why));
    told(done, &new.number, why)
}

/// The lot that a lot's parents were sown from.
#[derive(Clone, Copy)]
pub(super) enum Parents {
    /// Nobody told.
    NotTold,
    /// A lot of the house.
    Of(Id<Lot>),
    /// A lot that is founded together with it.
    FoundedWithIt,
}

impl Parents {
    fn of(lot: Option<Id<Lot>>) -> Self {
        lot.map_or(Self::NotTold, Self::Of)
    }
}

/// A lot as the ledger takes it, its variety and plot found by their names.
pub(super) fn ready(
    ledger: &mut Ledger,
    lot: Founding,
    parents: Parents,
) -> Result<(NewLot, Vec<LotNote>), HouseFault> {
    let variety = names::find(ledger, &lot.variety)?.id;
    let plot = lot.plot.map(|(grow_out, label)| plot(ledger, &grow_out, &label)).transpose()?;
    let sown_from = match parents {
        Parents::Of(lot) => Some(lot),
        Parents::NotTold | Parents::FoundedWithIt => None,
    };
    let origin = LotOrigin { plot, sown_from, ..lot.origin };
    let is_told = origin != LotOrigin::default() || matches!(parents, Parents::FoundedWithIt);
    let origin = is_told.then_some(LotNote::Origin(origin));
    let notes = origin.into_iter().chain(lot.notes).collect();
    Ok((NewLot { number: lot.number, variety, season: lot.season }, notes))
}

/// Notes something of a lot.
///
/// # Errors
/// As [`found`].
pub fn note(house: &House, number: &str, note: LotNote, act: &Act) -> Result<EntryNumber, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let lot = lot_named(&mut ledger, number)?;
    let mut why = None;
    let notes = [(lot.id, note)];
    let done = ledger.note_lots(&notes, act, &mut |moved| stands(moved, &mut why));
    let numbers = told(done, &lot.number, why)?;
    Ok(numbers.first().copied().unwrap_or(EntryNumber(0)))
}

/// Notes several things of lots, all of them or none; `number` names a lot that cannot give what is taken.
///
/// # Errors
/// As [`found`].
pub(super) fn note_all(
    ledger: &mut Ledger,
    notes: &[(Id<Lot>, LotNote)],
    number: impl Fn(Id<Lot>) -> String,
    act: &Act,
) -> Result<(), HouseFault> {
    let (mut why, mut of) = (None, String::new());
    let done = ledger.note_lots(notes, act, &mut |moved| {
        of = moved.first().map(|movement| number(movement.lot)).unwrap_or_default();
        stands(moved, &mut why)
    });
    told(done, &of, why).map(|_| ())
}

/// Writes anew where a lot comes from: what is said now goes before what was said, which stays for the rest.
///
/// # Errors
/// As [`found`].
pub fn tell_origin(
    house: &House,
    number: &str,
    said: LotOrigin,
    plot_named: Option<(String, String)>,
    sown_from: Option<String>,
    act: &Act,
) -> Result<EntryNumber, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let lot = lot_named(&mut ledger, number)?;
    let plot = plot_named.map(|(grow_out, label)| plot(&mut ledger, &grow_out, &label)).transpose()?;
    let sown_from = sown_from.map(|number| lot_named(&mut ledger, &number)).transpose()?;
    let known = lot.origin;
    let origin = LotOrigin {
        harvested_on: said.harvested_on.or(known.harvested_on),
        plot: plot.or(known.plot),
        sown_from: sown_from.map(|lot| lot.id).or(known.sown_from),
        parents: said.parents.or(known.parents),
        isolation: said.isolation.or(known.isolation),
        extraction: said.extraction.or(known.extraction),
        drying: said.drying.or(known.drying),
        treatment: said.treatment.or(known.treatment),
    };
    let numbers = ledger.note_lots(&[(lot.id, LotNote::Origin(origin))], act, &mut |_| true)?;
    Ok(numbers.first().copied().unwrap_or(EntryNumber(0)))
}

/// Withdraws an entry of the books, or restores a withdrawn one, and tells the number of its lot.
///
/// # Errors
/// [`SeedRoomFault::CannotMove`] where what is left of its lot's movements cannot be; what the ledger refuses.
pub fn turn(house: &House, entry: EntryNumber, turn: Turn, act: &Act) -> Result<String, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let mut why = None;
    let done = ledger.turn_lot_entry(entry, turn, act, &mut |moved| stands(moved, &mut why));
    told(done, &format!("of entry {entry}"), why)
}

/// The standing lot of a number.
pub(crate) fn lot_named(ledger: &mut Ledger, number: &str) -> Result<Lot, HouseFault> {
    let lots = ledger.lots()?;
    let wanted = label_key(number);
    let known: Vec<String> = lots.iter().map(|lot| lot.number.clone()).collect();
    let none = || SeedRoomFault::NoSuchLot { number: number.to_owned(), known };
    Ok(lots.into_iter().find(|lot| label_key(&lot.number) == wanted).ok_or_else(none)?)
}

fn plot(ledger: &mut Ledger, grow_out: &str, label: &str) -> Result<Id<record::growout::Plot>, HouseFault> {
    let grow_outs = ledger.grow_outs()?;
    let known = || grow_outs.iter().map(|grow_out| grow_out.name.clone()).collect();
    let found = grow_outs.iter().find(|found| label_key(&found.name) == label_key(grow_out));
    let found =
        found.ok_or_else(|| HouseFault::NoSuchGrowOut { name: grow_out.to_owned(), known: known() })?;
    let plots = ledger.plots()?;
    let own = plots.iter().filter(|plot| plot.grow_out == found.id);
    let mut named = own.filter(|plot| label_key(&plot.label) == label_key(label));
    let none = || SeedRoomFault::NoSuchPlotOf { label: label.to_owned(), grow_out: found.name.clone() };
    Ok(named.next().map(|plot| plot.id).ok_or_else(none)?)
}

/// Whether all movements can be together, and why not.
fn stands(moved: &[Movement], why: &mut Option<Refused>) -> bool {
    match balances(moved) {
        Ok(_) => true,
        Err(refused) => {
            *why = Some(refused);
            false
        }
    }
}

fn told<T>(done: Result<T, LedgerFault>, lot: &str, why: Option<Refused>) -> Result<T, HouseFault> {
    match (done, why) {
        (Err(LedgerFault::StockRefused), Some(why)) => Err(refused(lot, &why)),
        (done, _) => Ok(done?),
    }
}

/// A movement of a lot that cannot be.
pub(super) fn refused(lot: &str, why: &Refused) -> HouseFault {
    SeedRoomFault::CannotMove { lot: lot.to_owned(), fault: why.fault }.into()
}
