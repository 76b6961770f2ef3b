//! Rejections: rows that could not be taken, with the reason and the remedy.

use crate::day::DayFault;
use crate::number::NumberFault;
use crate::suggestion::Suggestion;
use crate::table::Broken;
use crate::unit::MeasureFault;

/// A row that could not be taken as it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Rejection {
    /// The row's number in the file, from 1.
    pub row: u64,
    /// The heading of the column at fault, where one is.
    pub column: Option<String>,
    /// The cell at fault.
    pub value: String,
    /// The reason; its words are the reason for people.
    pub fault: RowFault,
    /// What to do about it, in lower case with no full stop.
    pub remedy: String,
    /// A known variety with a name close to the one written, where that is the fault.
    pub suggestion: Option<Suggestion>,
    /// All cells of the row, under the headings of its table.
    pub cells: Vec<String>,
}

/// Why a row could not be taken.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum RowFault {
    /// It could not be split into cells.
    #[error("{0}")]
    Broken(Broken),
    /// A weight or length is at fault.
    #[error(transparent)]
    Measure(#[from] MeasureFault),
    /// A number is at fault.
    #[error(transparent)]
    Number(#[from] NumberFault),
    /// A date is at fault.
    #[error(transparent)]
    Day(#[from] DayFault),
    /// A formula that was saved without its value.
    #[error("the cell holds a formula without its value")]
    Formula,
    /// A formula that failed.
    #[error("the formula failed with {0}")]
    FailedFormula(String),
    /// A word that is not understood.
    #[error("{word:?} is no {what} that is known here")]
    Word {
        /// The word.
        word: String,
        /// What should stand there.
        what: &'static str,
        /// The words that may.
        allowed: String,
    },
    /// Something that the kind of table needs.
    #[error("the row names no {0}")]
    Missing(&'static str),
    /// A number outside what it can be.
    #[error("{value:?} is outside {limits}")]
    Outside {
        /// The number.
        value: String,
        /// What it can be.
        limits: &'static str,
    },
    /// A year that no season has.
    #[error("{0:?} is no season's year")]
    NotASeason(String),
    /// No season: no date with a year, no plot, no grow-out, no season named.
    #[error("the row does not say its season")]
    NoSeason,
    /// Two seasons.
    #[error("the row is of season {stated} and dated in season {dated}")]
    SeasonsDisagree {
        /// The season of the plot, the grow-out or the season column.
        stated: i16,
        /// The season of the date.
        dated: i16,
    },
    /// A plot's stretch of its bed that runs backwards.
    #[error("the plot ends before it begins")]
    EndsBeforeItBegins,
    /// A name that no variety has.
    #[error("no variety is named {0:?}")]
    UnknownVariety(String),
    /// A name that several varieties have.
    #[error("several varieties go by {0:?}")]
    SeveralVarieties(String),
    /// A name that cannot be one.
    #[error("{0:?} cannot be a name")]
    NotAName(String),
    /// A variety that the file names twice.
    #[error("{name:?} stands in row {first_row} too")]
    NamedTwice {
        /// The name.
        name: String,
        /// The row that names it first.
        first_row: u64,
    },
    /// Another name that is some other variety's already.
    #[error("{alias:?} is known as {owner:?}")]
    AliasTaken {
        /// The other name.
        alias: String,
        /// The variety that has it.
        owner: String,
    },
    /// A label that no plot has.
    #[error("no plot is labelled {0:?}")]
    UnknownPlot(String),
    /// A label that plots of several grow-outs have.
    #[error("plot {0:?} stands in several grow-outs")]
    SeveralPlots(String),
    /// A grow-out that is not known.
    #[error("no grow-out is named {0:?}")]
    UnknownGrowOut(String),
    /// A lot that is not known.
    #[error("no lot is numbered {0:?}")]
    UnknownLot(String),
    /// Counts of a replicate that contradict each other.
    #[error("replicate {replicate}: {why}")]
    NotAReplicate {
        /// Which one, from 1.
        replicate: usize,
        /// Why.
        why: String,
    },
    /// As many numbers as there are replicates were asked for.
    #[error("{replicates} replicates, and {found} numbers here")]
    NotOneEach {
        /// Numbers that were written.
        found: usize,
        /// Replicates.
        replicates: usize,
    },
    /// Days that are not in order.
    #[error("the seeds were counted before they were laid out")]
    CountedBeforeLaidOut,
    /// A variety that does not stand in the plot.
    #[error("plot {plot:?} holds {planted:?}, not {written:?}")]
    VarietyDisagrees {
        /// The plot.
        plot: String,
        /// What was planted there.
        planted: String,
        /// What the row says.
        written: String,
    },
}

impl RowFault {
    /// What the grower can do about it, in lower case with no full stop.
    #[must_use]
    pub fn remedy(&self) -> String {
        match self {
            Self::Broken(broken) => broken.remedy().to_owned(),
            Self::Measure(fault) => fault.remedy(),
            Self::Number(fault) => fault.remedy(),
            Self::Day(fault) => fault.remedy(),
            Self::Formula => "open the workbook so that it works the formula out, and save it".to_owned(),
            Self::FailedFormula(_) => "mend the formula, or write the figure itself".to_owned(),
            Self::Word { allowed, .. } => format!("write one of: {allowed}"),
            Self::Missing(what) => format!("write the {what} in every row"),
            Self::Outside { limits, .. } => format!("write a number within {limits}"),
            Self::NotASeason(_) => "write the year of harvest in four figures, such as 2031".to_owned(),
            Self::NoSeason => "write the date with its year, or name the season or the grow-out".to_owned(),
            Self::SeasonsDisagree { .. } => "check the date, and the plot or season beside it".to_owned(),
            Self::EndsBeforeItBegins => {
                "write where the plot begins and ends, both from the start of the bed".to_owned()
            }
            Self::UnknownVariety(_) => {
                "mend the spelling, add the name as another name of a variety, or add the variety".to_owned()
            }
            Self::SeveralVarieties(_) => "write the full name".to_owned(),
            Self::NotAName(_) => "write a name of letters and figures, at most 200 long".to_owned(),
            Self::NamedTwice { .. } => "keep one row for each variety".to_owned(),
            Self::AliasTaken { .. } => "take the other name away from one of the two".to_owned(),
            Self::UnknownPlot(_) => "check the label, or bring in the grow-out's plots first".to_owned(),
            Self::SeveralPlots(_) => "name the grow-out, the season or the full date".to_owned(),
            Self::UnknownLot(_) => "check the number, or bring in the table of lots first".to_owned(),
            Self::NotAReplicate { .. } => "look at the count of that replicate again".to_owned(),
            Self::NotOneEach { .. } => "write one number for each replicate, in the same order".to_owned(),
            Self::CountedBeforeLaidOut => "look at the days of the test again".to_owned(),
            Self::UnknownGrowOut(_) => "check the name, or bring in the grow-out's plots first".to_owned(),
            Self::VarietyDisagrees { .. } => "check the plot's label and the variety's name".to_owned(),
        }
    }
}
