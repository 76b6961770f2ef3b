//! The list: every variety with its calls, as plain words and filters ask for it.
//!
//! Start at [`list()`]: it is read off the ledger's shelf, so that a hundred thousand varieties are no more
//! work than a hundred. [`filter`] is what can be asked, `wanted` makes wants of it, `shelving` keeps the shelf
//! up with the ledger and `told` is what a row holds. [`everyone`] reads every call instead.

use crate::calls::Keys;
use crate::facts;
use crate::fault::HouseFault;
use crate::first_steps::{self, FirstSteps};
use crate::folder::House;
use crate::guides;
use crate::kept::{self, KeptCall, KeptColour, KeptFruit, KeptHabit};
use drawing::look::FruitLook;
use filter::{Filter, MOST_PORTRAITS, PAGE_ROWS, Showing, Words};
use ledger::calls::{CallSubject, StoredCall};
use ledger::evidence::EvidenceOf;
use ledger::ledger::Ledger;
pub use ledger::shelf::reading::Cell;
use ledger::shelf::reading::Counted;
use ledger::shelf::wanted::{Part, Want};
use record::id::Id;
use record::variety::Variety;
use shelving::Shelf;
use std::collections::HashMap;

mod export;
pub mod filter;
pub mod kept_open;
pub(crate) mod shelving;
mod told;
mod wanted;

pub use export::{Exported, export, export_to};

/// One variety on the list.
#[derive(Clone, Debug)]
pub struct Listed {
    /// Name, aliases and claims.
    pub variety: Variety,
    /// Fruit class and measures, once called.
    pub fruit: Option<KeptFruit>,
    /// Habit, once called.
    pub habit: Option<KeptHabit>,
    /// Colour, once called.
    pub colour: Option<KeptColour>,
    /// How much there is about it, and its stamp.
    pub evidence: Option<EvidenceOf>,
    /// Whether its calls rest on the evidence and guides as they stand now.
    pub freshness: Freshness,
}

/// Whether calls rest on what stands now.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Freshness {
    /// They do.
    Fresh,
    /// Evidence or a guide has changed since.
    Old,
    /// Never called.
    NotCalled,
}

/// The list as it was asked for, with the words that its filters know.
#[derive(Debug)]
pub struct List {
    /// The varieties of the page that was asked for, in order, as they are read off the shelf: see [`told`].
    pub varieties: Vec<Listed>,
    /// How many fit in all.
    pub fitting: u64,
    /// How many of those have a contested call.
    pub contested: u64,
    /// How many the house has.
    pub of: u64,
    /// How many of the house's rest on older evidence or guides.
    pub old: u64,
    /// How many of the house's were never called.
    pub not_called: u64,
    /// Which page this is, counted from 1.
    pub page: u32,
    /// How many pages there are.
    pub pages: u32,
    /// How many stand in each cell of class and habit, where they were asked for as too many for portraits.
    pub cells: Vec<Cell>,
    /// How the plain words were read, piece by piece.
    pub reading: Vec<ReadPart>,
    /// Where nothing fits: what to drop, and how many would fit then, the most first.
    pub to_drop: Vec<ToDrop>,
    /// Fruit classes of the guide, small to large.
    pub classes: Vec<String>,
    /// Habits.
    pub habits: Vec<String>,
    /// Colours.
    pub colours: Vec<String>,
    /// What a variety may be good for.
    pub purposes: Vec<String>,
    /// Guide files that were edited and not accepted.
    pub edited_guides: Vec<String>,
    /// How far the first walk through the house has come; nothing once it is over.
    pub first_steps: Option<FirstSteps>,
}

/// A piece of the plain words, and what it was read as.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReadPart {
    /// The piece as it was written.
    pub said: String,
    /// What it was read as, in words.
    pub meant: String,
    /// The word that a slip of the pen was mended to.
    pub mended: Option<String>,
}

/// A want that stands in the way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ToDrop {
    /// The want, in words.
    pub want: String,
    /// How many varieties fit without it.
    pub fitting: u64,
}

impl Listed {
    /// How its portrait looks.
    #[must_use]
    pub fn look(&self) -> FruitLook {
        facts::look(&self.variety.name, self.fruit.as_ref(), self.colour.as_ref())
    }

    /// Its three calls, where called: habit, fruit class, colour.
    pub fn calls(&self) -> impl Iterator<Item = (CallSubject, &KeptCall)> {
        let habit = self.habit.as_ref().map(|habit| (CallSubject::Habit, &habit.call));
        let fruit = self.fruit.as_ref().map(|fruit| (CallSubject::FruitClass, &fruit.call));
        let colour = self.colour.as_ref().map(|colour| (CallSubject::Colour, &colour.exterior));
        [habit, fruit, colour].into_iter().flatten()
    }

    /// Whether a call that has evidence is contested.
    #[must_use]
    pub fn is_contested(&self) -> bool {
        self.calls().any(|(_, call)| call.contested && call.measured)
    }
}

/// The list, read off the shelf; where the shelf is behind, what was touched is shelved first.
///
/// # Errors
/// [`HouseFault::NotKnown`] for a habit, class, colour or use that the guides do not have; a guide's fault; what
/// the ledger refuses.
pub fn list(house: &House, filter: &Filter) -> Result<List, HouseFault> {
    list_in(&mut Ledger::open(&house.ledger_location())?, house, filter)
}

fn list_in(ledger: &mut Ledger, house: &House, filter: &Filter) -> Result<List, HouseFault> {
    let guides = guides::read(&guides::accepted(ledger)?)?;
    let words = Words::of(&guides);
    words.know(filter)?;
    let edited_guides = guides::edited(house, ledger)?;
    let first_steps = first_steps::of(ledger, house)?;
    shelving::with_shelf(ledger, |shelf| {
        let (wanted, reading) = wanted::of(filter, &guides, shelf, house.settings.units)?;
        let wants: Vec<Want> = wanted.iter().map(|wanted| wanted.want.clone()).collect();
        let shown = shown(shelf, filter, &wants)?;
        // Without its only want it is the whole list, which needs no telling.
        let is_stuck = shown.counted.rows == 0 && 1 < wants.len();
        let to_drop = if is_stuck { shelf.droppable(&wanted, &wants)? } else { Vec::new() };
        let summary = shelf.summary();
        let Words { classes, habits, colours, purposes } = words.clone();
        Ok(List {
            varieties: shown.varieties,
            cells: shown.cells,
            page: shown.page,
            pages: shown.pages,
            fitting: shown.counted.rows,
            contested: shown.counted.contested,
            of: summary.varieties,
            old: summary.old,
            not_called: summary.not_called,
            reading: reading.clone(),
            to_drop,
            classes,
            habits,
            colours,
            purposes,
            edited_guides: edited_guides.clone(),
            first_steps,
        })
    })
}

/// The part of the list that is shown.
struct Shown {
    counted: Counted,
    varieties: Vec<Listed>,
    cells: Vec<Cell>,
    page: u32,
    pages: u32,
}

fn shown(shelf: &mut Shelf<'_>, filter: &Filter, wants: &[Want]) -> Result<Shown, HouseFault> {
    let mut portion = |part| shelf.portion(wants, filter.sorted_by, filter.way, part);
    let one_page = |(counted, varieties)| Shown { counted, varieties, cells: Vec::new(), page: 1, pages: 1 };
    match filter.showing {
        Showing::Whole => Ok(one_page(portion(Part::Whole)?)),
        Showing::Bench => {
            let shown = one_page(portion(Part::Rows { most: MOST_PORTRAITS, after: 0 })?);
            if shown.counted.rows <= u64::from(MOST_PORTRAITS) {
                return Ok(shown);
            }
            Ok(Shown { varieties: Vec::new(), cells: shelf.cells(wants)?, ..shown })
        }
        Showing::Page(asked) => {
            let page_of =
                |page: u32| Part::Rows { most: PAGE_ROWS, after: (page - 1).saturating_mul(PAGE_ROWS) };
            let asked = asked.max(1);
            let (counted, varieties) = portion(page_of(asked))?;
            let pages = u32::try_from(counted.rows.div_ceil(u64::from(PAGE_ROWS)).max(1)).unwrap_or(u32::MAX);
            if asked <= pages {
                return Ok(Shown { counted, varieties, cells: Vec::new(), page: asked, pages });
            }
            let (counted, varieties) = portion(page_of(pages))?;
            Ok(Shown { counted, varieties, cells: Vec::new(), page: pages, pages })
        }
    }
}

/// Every variety with what is kept of its calls, by name.
pub(crate) fn everyone(ledger: &mut Ledger) -> Result<Vec<Listed>, HouseFault> {
    let stamps = ledger.evidence_stamps()?;
    let keys = Keys::new(&guides::accepted(ledger)?, &stamps);
    let stamps: HashMap<Id<Variety>, EvidenceOf> = stamps.into_iter().map(|one| (one.variety, one)).collect();
    let mut calls: HashMap<Id<Variety>, Vec<StoredCall>> = HashMap::new();
    for call in ledger.calls()? {
        calls.entry(call.variety).or_default().push(call);
    }
    let varieties = ledger.varieties()?.into_iter();
    Ok(varieties
        .map(|variety| {
            let own = calls.remove(&variety.id).unwrap_or_default();
            let evidence = stamps.get(&variety.id).copied();
            listed(variety, &own, evidence, &keys)
        })
        .collect())
}

pub(crate) fn listed(
    variety: Variety,
    calls: &[StoredCall],
    evidence: Option<EvidenceOf>,
    keys: &Keys,
) -> Listed {
    let detail = |subject| calls.iter().find(|call| call.subject == subject).map(|call| call.detail.as_str());
    let fruit = detail(CallSubject::FruitClass).and_then(kept::read);
    let habit = detail(CallSubject::Habit).and_then(kept::read);
    let colour = detail(CallSubject::Colour).and_then(kept::read);
    let is_whole = fruit.is_some() && habit.is_some() && colour.is_some();
    let freshness = match calls {
        [] => Freshness::NotCalled,
        calls if is_whole && calls.iter().all(|call| is_fresh(call, evidence, keys)) => Freshness::Fresh,
        _ => Freshness::Old,
    };
    Listed { variety, fruit, habit, colour, evidence, freshness }
}

fn is_fresh(call: &StoredCall, evidence: Option<EvidenceOf>, keys: &Keys) -> bool {
    let key = match call.subject {
        CallSubject::FruitClass => keys.fruit,
        CallSubject::Habit => keys.habit,
        CallSubject::Colour => keys.colour,
    };
    call.guide == key && evidence.is_some_and(|evidence| evidence.stamp == call.evidence)
}

/// Every variety by name, without its calls.
///
/// # Errors
/// What the ledger refuses.
pub fn names(house: &House) -> Result<Vec<Variety>, HouseFault> {
    Ok(Ledger::open(&house.ledger_location())?.varieties()?)
}

/// The variety of a name or alias.
///
/// # Errors
/// [`HouseFault::NoSuchVariety`] with the nearest name; what the ledger refuses.
pub fn find(house: &House, name: &str) -> Result<Variety, HouseFault> {
    crate::names::find(&mut Ledger::open(&house.ledger_location())?, name)
}

/// How the portrait of one variety looks, read without the rest of the list.
///
/// # Errors
/// [`HouseFault::NoSuchVariety`] with the nearest name; what the ledger refuses.
pub fn look(house: &House, name: &str) -> Result<FruitLook, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let variety = crate::names::find(&mut ledger, name)?;
    let calls = ledger.calls_of(variety.id)?;
    let detail = |subject| calls.iter().find(|call| call.subject == subject).map(|call| call.detail.as_str());
    let fruit: Option<KeptFruit> = detail(CallSubject::FruitClass).and_then(kept::read);
    let colour: Option<KeptColour> = detail(CallSubject::Colour).and_then(kept::read);
    Ok(facts::look(&variety.name, fruit.as_ref(), colour.as_ref()))
}

/// Guide files that were edited and not accepted.
///
/// # Errors
/// What the ledger refuses.
pub fn edited_guides(house: &House) -> Result<Vec<String>, HouseFault> {
    guides::edited(house, &mut Ledger::open(&house.ledger_location())?)
}
