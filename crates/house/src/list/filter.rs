//! What a page or command asks of the list, and the words that it may ask with.

use crate::fault::HouseFault;
use crate::guides::Guides;
use identity::guide::fruit::ClassName;
use identity::habit::Habit;
pub use ledger::shelf::wanted::{SortedBy, Way};
use record::colour::TradeColour;
use record::purpose::Purpose;
use record::season::Season;
pub use wording::wish::Earliness;

/// What to show of the list. All that is asked must hold at once.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Filter {
    /// Plain words, such as `early red paste under 4 oz`.
    pub words: Option<String>,
    /// Only this habit, in the trade's words.
    pub habit: Option<String>,
    /// Only this fruit class.
    pub class: Option<String>,
    /// Only this colour.
    pub colour: Option<String>,
    /// Only what is good for this.
    pub purpose: Option<String>,
    /// Only with evidence of this season.
    pub season: Option<Season>,
    /// Only as early as this.
    pub ripens: Option<Earliness>,
    /// As to having a contested call.
    pub contested: Which,
    /// As to having a claim that the evidence contradicts.
    pub contradicted: Which,
    /// As to having a call without evidence.
    pub unmeasured: Which,
    /// Only names and aliases that hold these letters; case does not count.
    pub find: Option<String>,
    /// What to sort by.
    pub sorted_by: SortedBy,
    /// Which way.
    pub way: Way,
    /// How much of it to show.
    pub showing: Showing,
}

/// Which varieties to show as to something that is so of some of them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Which {
    /// All.
    #[default]
    Any,
    /// Only those of which it is so.
    Only,
}

/// How much of the list to show.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Showing {
    /// All of it.
    #[default]
    Whole,
    /// One page, counted from 1; one beyond the last is the last.
    Page(u32),
    /// As the bench shows it: all, or only how many in each cell where there are too many for portraits.
    Bench,
}

/// Rows of one page. A choice of the list: some screens, and the page as sent stays under 100 kB.
pub const PAGE_ROWS: u32 = 100;

/// Most portraits that are drawn on one bench. A choice of the bench: more are crowding, not a sight.
pub const MOST_PORTRAITS: u32 = 400;

/// The words that filters know.
#[derive(Clone, Debug)]
pub(crate) struct Words {
    pub(crate) classes: Vec<String>,
    pub(crate) habits: Vec<String>,
    pub(crate) colours: Vec<String>,
    pub(crate) purposes: Vec<String>,
}

impl Words {
    pub(crate) fn of(guides: &Guides) -> Self {
        Self {
            classes: guides.fruit.class_names().map(ClassName::to_string).collect(),
            habits: Habit::ALL.iter().map(Habit::to_string).collect(),
            colours: TradeColour::ALL.map(|colour| colour.name().to_owned()).to_vec(),
            purposes: Purpose::ALL.map(|purpose| purpose.name().to_owned()).to_vec(),
        }
    }

    pub(crate) fn know(&self, filter: &Filter) -> Result<(), HouseFault> {
        known("habit", filter.habit.as_ref(), &self.habits)?;
        known("fruit class", filter.class.as_ref(), &self.classes)?;
        known("colour", filter.colour.as_ref(), &self.colours)?;
        known("use", filter.purpose.as_ref(), &self.purposes)
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
