//! The list: every variety with its calls, and the few filters that a page or command asks for.

use crate::calls::Keys;
use crate::facts;
use crate::fault::HouseFault;
use crate::folder::House;
use crate::guides::{self, Guides};
use crate::kept::{self, KeptCall, KeptColour, KeptFruit, KeptHabit};
use drawing::look::FruitLook;
use identity::guide::fruit::ClassName;
use identity::habit::Habit;
use ledger::calls::{CallSubject, StoredCall};
use ledger::evidence::EvidenceOf;
use ledger::ledger::Ledger;
use record::colour::TradeColour;
use record::id::Id;
use record::variety::Variety;
use std::collections::HashMap;

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

/// What to show of the list.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Filter {
    /// Only this habit, in the trade's words.
    pub habit: Option<String>,
    /// Only this fruit class.
    pub class: Option<String>,
    /// Only this colour.
    pub colour: Option<String>,
    /// Which as to being contested.
    pub contested: Contested,
    /// Only names and aliases that hold these letters; case does not count.
    pub find: Option<String>,
}

/// Which varieties to show as to being contested.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Contested {
    /// All.
    #[default]
    Any,
    /// Only those with a contested call.
    Only,
}

/// The list as it was asked for, with the words that its filters know.
#[derive(Debug)]
pub struct List {
    /// Varieties by name.
    pub varieties: Vec<Listed>,
    /// How many the house has.
    pub of: usize,
    /// Fruit classes of the guide, small to large.
    pub classes: Vec<String>,
    /// Habits.
    pub habits: Vec<String>,
    /// Colours.
    pub colours: Vec<String>,
    /// Guide files that were edited and not accepted.
    pub edited_guides: Vec<String>,
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

/// The list.
///
/// # Errors
/// [`HouseFault::NotKnown`] for a habit, class or colour that the guides do not have; a guide's fault; what
/// the ledger refuses.
pub fn list(house: &House, filter: &Filter) -> Result<List, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let (all, guides, edited_guides) = ledger.at_one_moment(|ledger| {
        let guides = guides::read(&guides::accepted(ledger)?)?;
        Ok::<_, HouseFault>((everyone(ledger)?, guides, guides::edited(house, ledger)?))
    })?;
    let words = Words::of(&guides);
    words.know(filter)?;
    let of = all.len();
    let varieties = all.into_iter().filter(|listed| fits(listed, filter)).collect();
    let Words { classes, habits, colours } = words;
    Ok(List { varieties, of, classes, habits, colours, edited_guides })
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

/// The words that filters know.
struct Words {
    classes: Vec<String>,
    habits: Vec<String>,
    colours: Vec<String>,
}

impl Words {
    fn of(guides: &Guides) -> Self {
        Self {
            classes: guides.fruit.class_names().map(ClassName::to_string).collect(),
            habits: Habit::ALL.iter().map(Habit::to_string).collect(),
            colours: TradeColour::ALL.map(|colour| colour.name().to_owned()).to_vec(),
        }
    }

    fn know(&self, filter: &Filter) -> Result<(), HouseFault> {
        known("habit", filter.habit.as_ref(), &self.habits)?;
        known("fruit class", filter.class.as_ref(), &self.classes)?;
        known("colour", filter.colour.as_ref(), &self.colours)
    }
}

fn known(what: &'static str, word: Option<&String>, words: &[String]) -> Result<(), HouseFault> {
    match word {
        Some(word) if !words.contains(word) => {
            Err(HouseFault::NotKnown { what, word: word.clone(), known: words.join(", ") })
        }
        _ => Ok(()),
    }
}

fn fits(listed: &Listed, filter: &Filter) -> bool {
    let called = |subject, wanted: &Option<String>| match wanted {
        None => true,
        Some(wanted) => {
            listed.calls().any(|(about, call)| about == subject && call.verdict.as_ref() == Some(wanted))
        }
    };
    called(CallSubject::Habit, &filter.habit)
        && called(CallSubject::FruitClass, &filter.class)
        && called(CallSubject::Colour, &filter.colour)
        && (filter.contested == Contested::Any || listed.is_contested())
        && filter.find.as_ref().is_none_or(|find| holds(&listed.variety, find))
}

fn holds(variety: &Variety, find: &str) -> bool {
    let find = find.to_lowercase();
    std::iter::once(&variety.name).chain(&variety.aliases).any(|name| name.to_lowercase().contains(&find))
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
