//! Faults: where those of every door and science meet, and whose they are.

use crate::advise::fault::AdviseFault;
use crate::forecast::place::PlaceFault;
use crate::labels::LabelsFault;
use crate::lots::fault::SeedRoomFault;
use crate::next::fault::NextFault;
use crate::photo::fault::PhotoFault;
use crate::settings::SettingsFault;
use crate::typed_file::FileFault;
use crate::weather::WeatherFault;
use crate::what::Unfit;
use assortment::likeness::TraitsFault;
use identity::guide::reading::GuideFault;
use intake::file::OpenFault;
pub use intake::recognise::RecogniseFault;
use intake::table::ReadFault;
use ledger::fault::LedgerFault;
pub use ledger::fault::Mender;
use publish::catalogue::TypesettingFault;
use publish::pages::PagesFault;
use publish::picture::PictureFault;
use record::id::Id;
use record::note::Note;
use ripening::thermal::wished::WishFault;
use sowing::choice::ChoiceFault;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use trial::compare::CompareFault;
use trial::layout::fault::LayoutFault;

/// Why the house could not do what was asked.
#[derive(Debug, thiserror::Error)]
pub enum HouseFault {
    /// A new house was to be made where something is already.
    #[error("{} holds something already", .0.display())]
    NotEmpty(PathBuf),
    /// A folder that another run is writing.
    #[error("{} is being written by another run of locule", .0.display())]
    Busy(PathBuf),
    /// A file that is not ours and stands where a page would be written.
    #[error("{} was not written by locule and has the name of a page", .0.display())]
    InTheWay(PathBuf),
    /// The web pages could not be made.
    #[error(transparent)]
    Pages(#[from] PagesFault),
    /// No house here or above.
    #[error("there is no house at {}", .0.display())]
    NoHouse(PathBuf),
    /// A file that the system would not read or write.
    #[error("{}", refused(path, fault))]
    File {
        /// The file.
        path: PathBuf,
        /// What the system said.
        fault: io::Error,
    },
    /// The settings cannot be read.
    #[error("{}, {fault}", file.display())]
    Settings {
        /// The settings file.
        file: PathBuf,
        /// What is wrong.
        fault: SettingsFault,
    },
    /// A guide cannot be read.
    #[error(transparent)]
    Guide(#[from] GuideFault),
    /// A guide of a name that the house does not have.
    #[error("{0} is no guide of this house")]
    NoSuchGuide(String),
    /// A file of what is to be laid out or is wished for that cannot be read.
    #[error(transparent)]
    TypedFile(#[from] FileFault),
    /// A layout that cannot be made, or not be changed so.
    #[error(transparent)]
    Layout(#[from] LayoutFault),
    /// A file of label sheets that cannot be read.
    #[error(transparent)]
    Labels(#[from] LabelsFault),
    /// A grow-out that the house does not have.
    #[error("there is no grow-out {name:?}")]
    NoSuchGrowOut {
        /// The name asked for.
        name: String,
        /// The names that there are.
        known: Vec<String>,
    },
    /// A request for advice that cannot be answered.
    #[error(transparent)]
    Advise(#[from] AdviseFault),
    /// The seed room could not do what was asked.
    #[error(transparent)]
    SeedRoom(#[from] SeedRoomFault),
    /// A photograph could not be measured or filed.
    #[error(transparent)]
    Photo(#[from] PhotoFault),
    /// A garden that the house does not have.
    #[error("there is no garden {0:?}")]
    NoSuchGarden(String),
    /// A grow-out whose name is taken.
    #[error("there is a grow-out {0:?} already")]
    GrowOutThere(String),
    /// A grow-out whose plots came from a file, so that its ground is not known.
    #[error("{0:?} was not laid out here, so its beds are not known")]
    NotLaidOut(String),
    /// No grow-out was laid out here yet.
    #[error("no grow-out was laid out here yet")]
    NothingLaidOut,
    /// Plots of two gardens were to change places.
    #[error("plots of two gardens cannot change places")]
    TwoGardens,
    /// A grow-out without plots.
    #[error("{0:?} has no plots")]
    NoPlots(String),
    /// A walk on which nothing is due.
    #[error("nothing is due in {grow_out:?} on {day}")]
    NothingDue {
        /// The grow-out.
        grow_out: String,
        /// The day.
        day: jiff::civil::Date,
    },
    /// A printed sheet that the house does not have.
    #[error("there is no printed sheet {0:?}")]
    NoSuchSheet(String),
    /// The ledger refused.
    #[error(transparent)]
    Ledger(#[from] LedgerFault),
    /// A file that cannot be opened as tables.
    #[error("{file} {fault}")]
    Open {
        /// The file's name.
        file: String,
        /// What it is instead.
        fault: OpenFault,
    },
    /// A table that cannot be recognised.
    #[error("{table}: {fault}")]
    Recognise {
        /// File and sheet.
        table: String,
        /// What is missing.
        fault: RecogniseFault,
    },
    /// A file that could not be read to its end.
    #[error("{file}: {fault}")]
    Read {
        /// The file's name.
        file: String,
        /// What happened.
        fault: ReadFault,
    },
    /// A table of which so many rows cannot be read that it is none of ours.
    #[error("{table}: more than {most} rows cannot be read, so nothing of it was kept")]
    MostlyUnreadable {
        /// File and sheet.
        table: String,
        /// How many rows may wait.
        most: u64,
    },
    /// A column that the table does not have.
    #[error("{table} has no column {heading:?}")]
    NoSuchColumn {
        /// File and sheet, or the quarantined row.
        table: String,
        /// The heading that was asked for.
        heading: String,
    },
    /// A row of a corrected export that cannot be told any more.
    #[error("{table}, row {row}: {value:?} is no number of the quarantine")]
    NotExported {
        /// File and sheet.
        table: String,
        /// The row.
        row: u64,
        /// What stands where its number was.
        value: String,
    },
    /// A word of an answer that is not known.
    #[error("{word:?} is no {what}")]
    NotKnown {
        /// What it should be.
        what: &'static str,
        /// The word.
        word: String,
        /// Words that would do.
        known: String,
    },
    /// A variety that the house does not have.
    #[error("there is no variety {name:?}")]
    NoSuchVariety {
        /// The name asked for.
        name: String,
        /// The nearest name, where one is near.
        nearest: Option<String>,
    },
    /// What was to be another name has neither letter nor figure.
    #[error("{0:?} cannot be a name")]
    NotAName(String),
    /// A mended row or a corrected record that still cannot be taken.
    #[error("{}cannot be taken: {reason}", still(*row, column.as_deref()))]
    StillRejected {
        /// The row of its file, for a mended row.
        row: Option<u64>,
        /// The column at fault, where one is.
        column: Option<String>,
        /// The reason.
        reason: String,
        /// What to do.
        remedy: String,
    },
    /// A record was to be confirmed that nobody doubts, or that somebody has confirmed.
    #[error("record {0} counts already")]
    CountsAlready(Id<Note>),
    /// What was told of an unknown tomato is of no use.
    #[error(transparent)]
    Unfit(Box<Unfit>),
    /// The list's traits do not go together.
    #[error(transparent)]
    Traits(#[from] TraitsFault),
    /// Varieties could not be compared.
    #[error(transparent)]
    Compare(#[from] CompareFault),
    /// A variety without picks that tell when it ripens.
    #[error("no plot of {variety} has a day of transplanting and picks on {fewest} days or more")]
    NoPicks {
        /// The variety.
        variety: String,
        /// Days of picking that are needed.
        fewest: usize,
    },
    /// A weather file that says nothing.
    #[error(transparent)]
    Weather(#[from] WeatherFault),
    /// Temperatures that make no clock of warmth.
    #[error(transparent)]
    Warmth(#[from] WishFault),
    /// Nothing could be planned for the next season.
    #[error(transparent)]
    Next(#[from] NextFault),
    /// A place that has no forecast.
    #[error(transparent)]
    Place(#[from] PlaceFault),
    /// The catalogue could not be set.
    #[error(transparent)]
    Typesetting(#[from] TypesettingFault),
    /// A picture that could not be made. Our fault.
    #[error(transparent)]
    Picture(#[from] PictureFault),
    /// A spreadsheet could not be written.
    #[error("cannot write the table: {0}")]
    Table(String),
    /// What is kept of a call or reading is not in its form.
    #[error("what is kept of {what} cannot be read back: {fault}")]
    Kept {
        /// Of what.
        what: &'static str,
        /// What is wrong.
        fault: serde_json::Error,
    },
}

fn still(row: Option<u64>, column: Option<&str>) -> String {
    match (row, column) {
        (Some(row), Some(column)) => format!("row {row}, column {column:?} still "),
        (Some(row), None) => format!("row {row} still "),
        (None, Some(column)) => format!("{column:?} "),
        (None, None) => "the record ".to_owned(),
    }
}

/// What the system said of a file, in words that do not need a programmer.
fn refused(path: &Path, fault: &io::Error) -> String {
    let path = path.display();
    match fault.kind() {
        ErrorKind::NotFound => format!("{path} is not there"),
        ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => {
            format!("{path} may not be read or written")
        }
        ErrorKind::InvalidData => format!("{path} is not text in UTF-8"),
        ErrorKind::StorageFull => format!("the disk has no room for {path}"),
        ErrorKind::NotADirectory => format!("{path} would stand inside a file"),
        ErrorKind::IsADirectory => format!("{path} is a folder"),
        _ => format!("{path}: {fault}"),
    }
}

fn refused_help(fault: &io::Error) -> &'static str {
    match fault.kind() {
        ErrorKind::InvalidData => "open it in a text editor and save it as UTF-8",
        ErrorKind::StorageFull => "make room on the disk; what stood there before still stands",
        ErrorKind::NotADirectory | ErrorKind::IsADirectory => "choose another place",
        _ => "check that it is there and may be read and written",
    }
}

impl HouseFault {
    pub(crate) fn file(path: &Path, fault: io::Error) -> Self {
        Self::File { path: path.to_owned(), fault }
    }

    /// Tells who can mend it: our own bugs end with exit code 1, all others with 2.
    #[must_use]
    pub fn mender(&self) -> Mender {
        match self {
            Self::Ledger(fault) => fault.mender(),
            Self::Typesetting(TypesettingFault::UnreadableFont { .. } | TypesettingFault::NoRoom(_)) => {
                Mender::User
            }
            Self::Next(NextFault::Choice(ChoiceFault::Solver(_)))
            | Self::Typesetting(_)
            | Self::Picture(_)
            | Self::Table(_)
            | Self::Pages(_)
            | Self::Traits(_)
            | Self::Photo(PhotoFault::Unwritten(_))
            | Self::Kept { .. } => Mender::Us,
            Self::File { .. } | Self::Read { .. } => Mender::Keeper,
            _ => Mender::User,
        }
    }

    /// Whether it names something that the house does not have.
    #[must_use]
    pub fn is_missing(&self) -> bool {
        use LedgerFault::{NoSuchBatch, NoSuchQuarantined, NoSuchRecord, NoSuchVariety};
        match self {
            Self::Ledger(fault) => {
                matches!(fault, NoSuchBatch(_) | NoSuchQuarantined(_) | NoSuchRecord(_) | NoSuchVariety(_))
            }
            Self::NoSuchVariety { .. }
            | Self::NoSuchGuide(_)
            | Self::NoSuchSheet(_)
            | Self::NoSuchGrowOut { .. }
            | Self::NoSuchGarden(_)
            | Self::Layout(LayoutFault::NoSuchPlot(_)) => true,
            Self::SeedRoom(fault) => fault.is_missing(),
            _ => false,
        }
    }

    /// What to do about it, in lower case with no full stop.
    #[must_use]
    pub fn help(&self) -> Option<String> {
        let help = match self {
            Self::NotEmpty(_) => "choose a folder that is empty or not there yet",
            Self::Busy(_) => "wait until it is done, or name another folder with --to",
            Self::InTheWay(_) => "move it to another place and write the pages again",
            Self::NoHouse(_) => "make one with locule new DIR, or name one with --house DIR",
            Self::File { fault, .. } => refused_help(fault),
            Self::Settings { fault, .. } => fault.help(),
            Self::Open { fault, .. } => fault.remedy(),
            Self::MostlyUnreadable { .. } => {
                "see with --dry-run how it is read: it may be another kind of table"
            }
            Self::Read { .. } => "take the file again; nothing of it was kept",
            Self::NoSuchColumn { .. } => "write the heading as it stands in the table",
            Self::NotExported { .. } => {
                "leave the first column as it was exported, and bring new rows in a file of their own"
            }
            Self::NotAName(_) => "write a name of letters and figures",
            Self::CountsAlready(_) => "nothing needs to be done; take it out of use with locule withdraw",
            Self::TypedFile(fault) => return Some(fault.help.clone()),
            Self::Layout(fault) => return Some(fault.help()),
            Self::Labels(fault) => return Some(fault.help()),
            Self::Advise(fault) => return Some(fault.help()),
            Self::SeedRoom(fault) => fault.help(),
            Self::Photo(fault) => return Some(fault.help()),
            Self::NoSuchGarden(_) => "see the gardens with locule garden",
            Self::NoSuchGrowOut { known, .. } => return Some(grow_outs(known)),
            Self::GrowOutThere(_)
            | Self::NotLaidOut(_)
            | Self::NothingLaidOut
            | Self::TwoGardens
            | Self::NoPlots(_)
            | Self::NothingDue { .. } => self.help_with_plots(),
            Self::NoSuchSheet(_) => "print it first",
            Self::NoSuchGuide(_) => "name guides/fruit.toml, guides/habit.toml or guides/colour.toml",
            Self::Guide(fault) => return Some(fault.help.to_string()),
            Self::Recognise { fault, .. } => return Some(fault.remedy()),
            Self::Ledger(fault) => return fault.help().map(str::to_owned),
            Self::NotKnown { known, .. } => return Some(format!("write one of: {known}")),
            Self::StillRejected { remedy, .. } => return Some(remedy.clone()),
            Self::NoSuchVariety { nearest: Some(near), .. } => return Some(format!("nearest: {near}")),
            Self::NoSuchVariety { nearest: None, .. } => "see the names with locule list",
            Self::Compare(fault) => fault.help(),
            Self::Weather(fault) => fault.help(),
            Self::Place(fault) => return Some(fault.help()),
            Self::Warmth(fault) => fault.help(),
            Self::Next(fault) => return fault.help(),
            Self::NoPicks { .. } => {
                "bring in its picks with their plots, and the day each plot's plants went out"
            }
            Self::Unfit(fault) => return Some(fault.help()),
            Self::Typesetting(TypesettingFault::NoRoom(_)) => "print on larger labels",
            Self::Typesetting(_)
            | Self::Picture(_)
            | Self::Table(_)
            | Self::Pages(_)
            | Self::Kept { .. }
            | Self::Traits(_) => return None,
        };
        Some(help.to_owned())
    }
}

impl HouseFault {
    /// What to do where plots do not lie as they would have to.
    fn help_with_plots(&self) -> &'static str {
        match self {
            Self::GrowOutThere(_) => "give the new one another name, or undo the old one's batch first",
            Self::NotLaidOut(_) | Self::NothingLaidOut => {
                "lay grow-outs out with locule layout FILE to move their plots here"
            }
            Self::TwoGardens => "choose two plots of one garden",
            Self::NothingDue { .. } => "choose another day",
            _ => "bring in a table of its plots, or lay it out with locule layout FILE",
        }
    }
}

/// What to do where a grow-out is not there.
fn grow_outs(known: &[String]) -> String {
    if known.is_empty() {
        "lay one out with locule layout FILE, or bring in a table of plots".to_owned()
    } else {
        format!("write one of: {}", known.join(", "))
    }
}
