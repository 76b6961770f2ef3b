//! What can be typed: every command with its help, written for growers.

pub(crate) mod advise;
pub(crate) mod calendar;
pub(crate) mod compare;
pub(crate) mod emergence;
pub(crate) mod forecast;
pub(crate) mod frost;
pub(crate) mod hindsight;
pub(crate) mod layout;
pub(crate) mod list;
pub(crate) mod lots;
pub(crate) mod orders;
pub(crate) mod photo;
pub(crate) mod print;
pub(crate) mod publish;
pub(crate) mod ripen;
pub(crate) mod sales;
pub(crate) mod take;
pub(crate) mod warmth;
pub(crate) mod weather;
pub(crate) mod what;

use clap::{Args, Parser, Subcommand, ValueEnum};
use lots::LawWord;
use std::path::PathBuf;

/// Call what your tomato varieties are from your own notes, and print an honest list
#[derive(Debug, Parser)]
#[command(name = "locule", version, max_term_width = 100)]
pub(crate) struct Arguments {
    /// The house to work in [default: the nearest folder upwards that holds house.toml]
    #[arg(long, global = true, env = "LOCULE_HOUSE", value_name = "DIR")]
    pub(crate) house: Option<PathBuf>,
    /// Print the answer as JSON, in the shapes of docs/json/
    #[arg(long, global = true)]
    pub(crate) json: bool,
    /// What to do
    #[command(subcommand)]
    pub(crate) command: Command,
}

/// The commands, in the order of the work.
#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    New(New),
    Take(take::Take),
    Photo(photo::Photo),
    Quarantine(Quarantine),
    Names(Names),
    Doubts(Doubts),
    Undo(Undo),
    Redo(Redo),
    History(History),
    Withdraw(Withdraw),
    Correct(Correct),
    Call(Call),
    Show(Show),
    List(list::List),
    What(Box<what::What>),
    Instead(what::Instead),
    Gaps(what::Gaps),
    Compare(compare::Compare),
    Layout(layout::Layout),
    Ripen(ripen::Ripen),
    Forecast(forecast::Forecast),
    Hindsight(hindsight::Hindsight),
    Advise(advise::Advise),
    Calendar(calendar::Calendar),
    Emergence(emergence::Emergence),
    Frost(frost::Frost),
    Weather(weather::Weather),
    Garden(weather::Garden),
    Lot(lots::Lot),
    Germination(lots::Germination),
    Order(orders::Order),
    Rogues(lots::Rogues),
    Plants(lots::Plants),
    Increase(sales::Increase),
    Sales(sales::Sales),
    Next(Box<sales::Next>),
    Guide(Guide),
    Print(print::Print),
    Publish(publish::Publish),
    Settings(Settings),
    Backup(Backup),
    Restore(Restore),
    /// Verify that the ledger is whole and that every kept call can be made again from the evidence
    Verify,
    Workbench(Workbench),
    Demo(Demo),
    Completions(Completions),
    #[command(hide = true)]
    Reference(Reference),
}

/// Make an empty house in a new folder
#[derive(Debug, Args)]
#[command(after_long_help = "Examples:
  locule new barn
  locule new barn --name \"Barn Seeds\" --units metric --by Wren")]
pub(crate) struct New {
    /// The folder to make
    pub(crate) folder: PathBuf,
    /// The name on the list [default: the folder's name]
    #[arg(long)]
    pub(crate) name: Option<String>,
    /// Units that come first
    #[arg(long, value_enum, default_value_t = UnitsWord::Us)]
    pub(crate) units: UnitsWord,
    /// Who keeps the notes
    #[arg(long, default_value = "the keeper")]
    pub(crate) by: String,
    /// Keep the ledger on a shared PostgreSQL server: postgresql://user@host/database
    #[arg(long, value_name = "URL")]
    pub(crate) postgres: Option<String>,
}

/// Units that come first on screen and paper.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum UnitsWord {
    /// Ounces, inches, Fahrenheit
    Us,
    /// Grams, millimetres, Celsius
    Metric,
}

/// How units are written in sentences.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum WrittenWord {
    /// As signs: 14.5 oz
    Signs,
    /// As words: 14.5 ounces
    Words,
}

/// See and mend the rows that could not be taken
#[derive(Debug, Args)]
#[command(after_long_help = "Examples:
  locule quarantine
  locule quarantine mend 12 \"wt=58 g\"
  locule quarantine again
  locule quarantine export to-correct.csv")]
pub(crate) struct Quarantine {
    /// What to do [default: list the open rows]
    #[command(subcommand)]
    pub(crate) action: Option<QuarantineAction>,
}

/// What to do with rows in the quarantine.
#[derive(Debug, Subcommand)]
pub(crate) enum QuarantineAction {
    /// Put other values into a row and take it again
    Mend {
        /// The row's number in the quarantine
        number: i64,
        /// New values, as HEADING=VALUE
        #[arg(required = true, value_name = "HEADING=VALUE")]
        values: Vec<String>,
        /// Who mends it
        #[arg(long)]
        by: Option<String>,
    },
    /// Take all waiting rows again: what they needed may have come in, or may be said now
    Again {
        #[command(flatten)]
        reading: take::Reading,
        /// Who takes them
        #[arg(long)]
        by: Option<String>,
    },
    /// Write the open rows to a CSV to be corrected and taken again
    Export {
        /// The file to write
        file: PathBuf,
    },
}

/// See names that no variety has, and say which variety they mean
#[derive(Debug, Args)]
#[command(after_long_help = "Examples:
  locule names
  locule names accept \"Barow Gold\" \"Barrow Gold\"")]
pub(crate) struct Names {
    /// What to do [default: list unknown names with the nearest spelling]
    #[command(subcommand)]
    pub(crate) action: Option<NamesAction>,
}

/// What to do with a name.
#[derive(Debug, Subcommand)]
pub(crate) enum NamesAction {
    /// Take NAME for another name of VARIETY from now on, and take its quarantined rows again
    Accept {
        /// The unknown name
        name: String,
        /// The variety it means
        variety: String,
        /// Who says so
        #[arg(long)]
        by: Option<String>,
    },
}

/// See records that look wrong, and confirm those that are right
///
/// A doubted record is kept, but no call rests on it until it is confirmed.
#[derive(Debug, Args)]
pub(crate) struct Doubts {
    /// What to do [default: list them]
    #[command(subcommand)]
    pub(crate) action: Option<DoubtsAction>,
}

/// What to do with a doubted record.
#[derive(Debug, Subcommand)]
pub(crate) enum DoubtsAction {
    /// Say that a record is right as it stands
    Confirm {
        /// The record, as `locule doubts` names it
        record: String,
        /// Who says so
        #[arg(long)]
        by: Option<String>,
    },
}

/// Undo a batch as one; nothing is destroyed
#[derive(Debug, Args)]
#[command(after_long_help = "Examples:
  locule history
  locule undo 7
  locule redo 7")]
pub(crate) struct Undo {
    /// The batch's number, as `locule history` prints it
    pub(crate) batch: String,
    /// Who undoes it
    #[arg(long)]
    pub(crate) by: Option<String>,
    /// Also undo the later batches that stand on this one
    #[arg(long)]
    pub(crate) with_dependents: bool,
}

/// Bring undone batches back
#[derive(Debug, Args)]
#[command(after_long_help = "Example:
  locule redo 7")]
pub(crate) struct Redo {
    /// The batches' numbers, as `locule history` prints them; those that others rest on first
    #[arg(required = true, value_name = "BATCH")]
    pub(crate) batches: Vec<String>,
    /// Who brings it back
    #[arg(long)]
    pub(crate) by: Option<String>,
}

/// See what was taken in, when, by whom and from where
#[derive(Debug, Args)]
pub(crate) struct History {
    /// One record's history instead
    pub(crate) record: Option<String>,
}

/// Take a wrong record out of use; it stays in the history
#[derive(Debug, Args)]
pub(crate) struct Withdraw {
    /// The record, as `locule show` and `locule doubts` name it
    pub(crate) record: String,
    /// Why
    #[arg(long)]
    pub(crate) why: String,
    /// Who withdraws it
    #[arg(long)]
    pub(crate) by: Option<String>,
}

/// Replace a record by a corrected one; the old one stays in the history
#[derive(Debug, Args)]
#[command(after_long_help = "Example:
  locule correct 0192f0c1-... \"weight=58 g\" --why \"misread the scale\"")]
pub(crate) struct Correct {
    /// The record, as `locule show` and `locule doubts` name it
    pub(crate) record: String,
    /// New values, such as \"weight=58 g\"
    #[arg(required = true, value_name = "MEASURE=VALUE")]
    pub(crate) values: Vec<String>,
    /// Why
    #[arg(long)]
    pub(crate) why: String,
    /// Who corrects it
    #[arg(long)]
    pub(crate) by: Option<String>,
}

/// Call what varieties are, from their evidence
///
/// Every call carries the probability of each verdict, the records it rests on, the rule that decided,
/// and what would settle it. Under 80 in 100 a call is contested.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples:
  locule call
  locule call \"Barrow Gold\" --guide guides/fruit.toml")]
pub(crate) struct Call {
    /// Varieties to call [default: all]
    pub(crate) varieties: Vec<String>,
    /// Fruit rules to call by, without keeping the calls [default: the accepted guides]
    #[arg(long, value_name = "FILE")]
    pub(crate) guide: Option<PathBuf>,
    /// Use only evidence from this season on
    #[arg(long, value_name = "YEAR")]
    pub(crate) since: Option<i16>,
}

/// Show one variety: its calls, the evidence behind each, and its history
#[derive(Debug, Args)]
#[command(after_long_help = "Examples:
  locule show \"Barrow Gold\" --records
  locule show \"Barrow Gold\" --picture barrow-gold.png")]
pub(crate) struct Show {
    /// The variety, by name or alias
    pub(crate) variety: String,
    /// Also list every record
    #[arg(long)]
    pub(crate) records: bool,
    /// Write its portrait at life size to this file instead: .png or .svg
    #[arg(long, value_name = "FILE")]
    pub(crate) picture: Option<PathBuf>,
}

/// The house's rules: see what a changed guide would move before you accept it
#[derive(Debug, Args)]
#[command(after_long_help = "Examples:
  locule guide preview guides/fruit.toml
  locule guide accept guides/fruit.toml")]
pub(crate) struct Guide {
    /// What to do
    #[command(subcommand)]
    pub(crate) action: GuideAction,
}

/// What to do with a guide.
#[derive(Debug, Subcommand)]
pub(crate) enum GuideAction {
    /// Show which calls would move under this file
    Preview {
        /// The changed guide
        file: PathBuf,
    },
    /// Make this file the house's rule and call everything again
    Accept {
        /// The changed guide
        file: PathBuf,
        /// Who accepts it
        #[arg(long)]
        by: Option<String>,
    },
}

/// See or change the house's settings
#[derive(Debug, Args)]
pub(crate) struct Settings {
    /// Units that come first
    #[arg(long, value_enum)]
    pub(crate) units: Option<UnitsWord>,
    /// How units are written in sentences
    #[arg(long, value_enum)]
    pub(crate) units_written: Option<WrittenWord>,
    /// The name on the list
    #[arg(long)]
    pub(crate) name: Option<String>,
    /// Who keeps the notes
    #[arg(long)]
    pub(crate) keeper: Option<String>,
    /// Where your web pages stand on the web, for their site map; "" takes it away
    #[arg(long, value_name = "URL")]
    pub(crate) site: Option<String>,
    /// A station in whose weather buyers garden, for the web pages; may be said several times, and "" takes all away
    #[arg(long, value_name = "STATION")]
    pub(crate) sells_to: Vec<String>,
    /// The address that packets are sent from, on their labels; "" takes it away
    #[arg(long)]
    pub(crate) address: Option<String>,
    /// Whose law seed is judged and labelled by, unless a command names another
    #[arg(long, value_enum)]
    pub(crate) law: Option<LawWord>,
    /// The house's own least germination in per cent, where it asks for more than the law; 0 takes it away
    #[arg(long, value_name = "PERCENT", value_parser = clap::value_parser!(u8).range(0..=100))]
    pub(crate) minimum: Option<u8>,
}

/// Copy the ledger to one file while work goes on
#[derive(Debug, Args)]
pub(crate) struct Backup {
    /// The file to write
    pub(crate) file: PathBuf,
}

/// Put a backup in the ledger's place; the old ledger is kept beside it
#[derive(Debug, Args)]
pub(crate) struct Restore {
    /// The backup to restore
    pub(crate) file: PathBuf,
}

/// Serve the workbench on this machine, for a browser
#[derive(Debug, Args)]
pub(crate) struct Workbench {
    /// The port on 127.0.0.1; 0 takes a free one
    #[arg(long, default_value_t = 8467)]
    pub(crate) port: u16,
}

/// Make a house from raw files, run the whole job and serve the workbench
#[derive(Debug, Args)]
pub(crate) struct Demo {
    /// The raw files, a folder for each time that notes came in
    #[arg(long, default_value = "demo-house/raw")]
    pub(crate) raw: PathBuf,
    /// The house to make anew
    #[arg(long = "in", value_name = "DIR", default_value = "demo-house/house")]
    pub(crate) folder: PathBuf,
    /// Stop after the job, without serving the workbench
    #[arg(long)]
    pub(crate) no_serve: bool,
    /// The workbench's port
    #[arg(long, default_value_t = 8467)]
    pub(crate) port: u16,
}

/// Print shell completions
#[derive(Debug, Args)]
pub(crate) struct Completions {
    /// The shell
    #[arg(value_enum)]
    pub(crate) shell: clap_complete::Shell,
}

/// Write the command reference and the JSON Schemas into the docs
#[derive(Debug, Args)]
pub(crate) struct Reference {
    /// The docs folder
    pub(crate) docs: PathBuf,
}
