//! The first walk through the house: what an empty one needs first, second and third.
//!
//! Each step ticks itself off from the ledger. The walk is over when all are done, or when it is put away.

use crate::fault::HouseFault;
use crate::folder::House;
use crate::printed;
use ledger::begun::Begun;
use ledger::ledger::Ledger;

/// One step, in the order of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FirstStep {
    /// The names of the varieties.
    Names,
    /// What stands where.
    Beds,
    /// Weights, sizes and cuts.
    Fruit,
    /// Stems, trusses and heights.
    Plants,
    /// What each variety is.
    Calls,
    /// The list on paper.
    Catalogue,
}

impl FirstStep {
    /// Every step, in the order of the work.
    pub const ALL: [Self; 6] =
        [Self::Names, Self::Beds, Self::Fruit, Self::Plants, Self::Calls, Self::Catalogue];

    /// What to do.
    #[must_use]
    pub fn what(self) -> &'static str {
        match self {
            Self::Names => "Bring in the names of your varieties",
            Self::Beds => "Say what stands where",
            Self::Fruit => "Bring in fruit that you weighed, measured or cut",
            Self::Plants => "Bring in what you saw of the plants",
            Self::Calls => "Have every variety called",
            Self::Catalogue => "Print the catalogue",
        }
    }

    /// What it takes and gives.
    #[must_use]
    pub fn how(self) -> &'static str {
        match self {
            Self::Names => {
                "Any table with a column of names will do: a spreadsheet, an old price list. What it claims of them is kept beside."
            }
            Self::Beds => {
                "Lay out a grow-out here, or bring in the table of beds that you have. Notes then find their plots."
            }
            Self::Fruit => {
                "Five fruits of each of four plants tell a variety's class well. Headings and units are asked where they are not clear."
            }
            Self::Plants => {
                "Whether the main stem ended in a truss and after how many, leaves between trusses, heights: these tell the habit."
            }
            Self::Calls => {
                "Habit, fruit class and colour of each, with how sure that is and what it rests on."
            }
            Self::Catalogue => "Read the proof sheet before: it lists what is contested or not measured yet.",
        }
    }

    /// The command that does it.
    #[must_use]
    pub fn command(self) -> &'static str {
        match self {
            Self::Names => "locule take NAMES.csv",
            Self::Beds => "locule layout LAYOUT.toml, or locule take BEDS.csv",
            Self::Fruit => "locule take FRUIT.csv",
            Self::Plants => "locule take WALKS.csv",
            Self::Calls => "locule call",
            Self::Catalogue => "locule print proof, then locule print catalogue",
        }
    }
}

/// How far the walk has come.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FirstSteps {
    begun: Begun,
    is_printed: bool,
}

impl FirstSteps {
    /// Whether a step is done.
    #[must_use]
    pub fn is_done(&self, step: FirstStep) -> bool {
        match step {
            FirstStep::Names => self.begun.varieties,
            FirstStep::Beds => self.begun.plots,
            FirstStep::Fruit => self.begun.fruit,
            FirstStep::Plants => self.begun.plants,
            FirstStep::Calls => self.begun.calls,
            FirstStep::Catalogue => self.is_printed,
        }
    }

    /// The first that is not done; nothing once all are.
    #[must_use]
    pub fn next(&self) -> Option<FirstStep> {
        FirstStep::ALL.into_iter().find(|step| !self.is_done(*step))
    }
}

/// The ledger's setting that says what became of the walk, and its only value.
const SETTING: &str = "first steps";
const PUT_AWAY: &str = "put away";

/// How far the walk has come; nothing once it is over.
///
/// # Errors
/// What the ledger or the disk refuses.
pub(crate) fn of(ledger: &mut Ledger, house: &House) -> Result<Option<FirstSteps>, HouseFault> {
    if ledger.setting(SETTING)?.is_some_and(|value| value == PUT_AWAY) {
        return Ok(None);
    }
    let is_catalogue = |sheet: &printed::Sheet| sheet.name.starts_with("catalogue");
    let is_printed = printed::sheets(house)?.iter().any(is_catalogue);
    let steps = FirstSteps { begun: ledger.begun()?, is_printed };
    Ok(steps.next().is_some().then_some(steps))
}

/// Puts the walk away for good.
///
/// # Errors
/// What the ledger refuses.
pub fn put_away(house: &House) -> Result<(), HouseFault> {
    Ok(Ledger::open(&house.ledger_location())?.set(SETTING, PUT_AWAY)?)
}
