//! What can be typed of lots of seed and of their germination tests.

use clap::{Args, Subcommand, ValueEnum};
use std::path::PathBuf;

/// See the lots of seed: what is held, how it germinates, until when it may be shipped
///
/// Everything noted of a lot is an entry of the seed room's books. An entry is never changed; one that is wrong is
/// withdrawn, and can be restored. Seed is moved from one place to another in whole milligrams, so that nothing is ever
/// there twice and no place is ever under nothing, on any day.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples:
  locule lot
  locule lot new 31-014 \"Drip Stone\" --season 2031 --weight \"42.5 g\" --harvested 2031-08-30
  locule lot weigh 31-014 \"312 mg\" \"309 mg\" \"315 mg\" \"311 mg\" \"308 mg\" \"314 mg\" \"310 mg\" \"313 mg\"
  locule lot pack 31-014 120 --of \"100 mg\"
  locule lot move 31-014 \"1.2 g\" --from jar --to file-sample
  locule lot show 31-014")]
pub(crate) struct Lot {
    /// What to do [default: list the lots]
    #[command(subcommand)]
    pub(crate) action: Option<LotAction>,
    #[command(flatten)]
    pub(crate) judged: Judged,
}

/// What lots are judged by.
#[derive(Clone, Copy, Debug, Args)]
pub(crate) struct Judged {
    /// Whose law the minimum comes from [default: the house's settings]
    #[arg(long, value_enum, global = true)]
    pub(crate) law: Option<LawWord>,
    /// The house's own minimum in per cent; it counts where it is more than the law's [default: the house's settings]
    #[arg(long, value_name = "PERCENT", value_parser = clap::value_parser!(u8).range(1..=100), global = true)]
    pub(crate) minimum: Option<u8>,
    /// The day to judge them on [default: today]
    #[arg(long, value_name = "DATE", global = true)]
    pub(crate) day: Option<jiff::civil::Date>,
}

/// Whose law.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum LawWord {
    /// The United States, between states
    Us,
    /// Kentucky
    UsKy,
    /// The European Union
    Eu,
}

/// What to do with lots.
#[derive(Debug, Subcommand)]
pub(crate) enum LotAction {
    /// Show all that is known of a lot, with its entries
    Show {
        /// The lot's number
        number: String,
    },
    /// Found the lots of a seed book, a file with their tests and movements (docs/seed-room.md has a whole one)
    Take {
        /// The file
        file: PathBuf,
        /// Who takes it in
        #[arg(long)]
        by: Option<String>,
    },
    /// See which file samples and records are kept, and from when they may go
    Kept,
    #[command(flatten)]
    Write(LotEntry),
}

/// What to write in a lot's books.
#[derive(Debug, Subcommand)]
pub(crate) enum LotEntry {
    /// Found a lot
    New(Box<NewLot>),
    /// Say where a lot comes from; what is not said now stays as it was
    Origin(Box<TellOrigin>),
    #[command(flatten)]
    Note(Noting),
    /// Withdraw an entry of the books; it stays there and can be restored
    Withdraw(TurnEntry),
    /// Restore an entry that was withdrawn
    Restore(TurnEntry),
}

/// What to note of a lot.
#[derive(Debug, Subcommand)]
pub(crate) enum Noting {
    /// Note replicates of its seed weighed, for the thousand-seed weight
    Weigh {
        /// The lot's number
        number: String,
        /// What each replicate weighed, such as \"312 mg\"
        #[arg(required = true, value_name = "MASS")]
        masses: Vec<String>,
        /// Seeds of each replicate
        #[arg(long, default_value_t = 100)]
        seeds: u32,
        #[command(flatten)]
        said: Said,
    },
    /// Note the moisture of its seed
    Moisture {
        /// The lot's number
        number: String,
        /// Water in per cent of fresh weight
        percent: String,
        #[command(flatten)]
        said: Said,
    },
    /// Say how a lot is kept from a day on
    Keep {
        /// The lot's number
        number: String,
        /// How warm it is there, such as \"5 C\" or \"41 F\"
        #[arg(long, value_name = "DEGREES")]
        at: Option<String>,
        /// The shelf, jar or room
        #[arg(long)]
        location: Option<String>,
        /// It is hermetically sealed
        #[arg(long)]
        hermetic: bool,
        /// Water vapour through the packet, in grams a day and 100 square inches, as its maker tells
        #[arg(long, value_name = "GRAMS")]
        vapour: Option<String>,
        #[command(flatten)]
        said: Said,
    },
    /// Move seed of a lot from one place to another
    Move {
        /// The lot's number
        number: String,
        /// How much, such as \"12.5 g\" or \"3 packets\"
        amount: String,
        /// Where from: origin, jar, file-sample, or the seed in a packet, such as \"100 mg\"
        #[arg(long)]
        from: String,
        /// Where to: likewise, or sold, sown, tested, lost
        #[arg(long)]
        to: String,
        #[command(flatten)]
        said: Said,
    },
    /// Fill packets out of the jar
    Pack {
        /// The lot's number
        number: String,
        /// How many packets
        packets: u32,
        /// The seed in each, such as \"100 mg\"
        #[arg(long, value_name = "MASS")]
        of: String,
        #[command(flatten)]
        said: Said,
    },
    /// Note plants grown from a lot that were looked at one by one
    Inspect {
        /// The lot's number
        number: String,
        /// Plants looked at
        #[arg(value_parser = clap::value_parser!(u32).range(1..))]
        plants: u32,
        /// Off-types of one kind: "KIND=PLANTS"; again for each kind
        #[arg(long = "off-type", value_name = "KIND=PLANTS")]
        off_types: Vec<String>,
        #[command(flatten)]
        said: Said,
    },
}

/// When something was done, and who says so.
#[derive(Clone, Debug, Args)]
pub(crate) struct Said {
    /// The day [default: today]
    #[arg(long, value_name = "DATE")]
    pub(crate) on: Option<jiff::civil::Date>,
    /// Who says so [default: the keeper in house.toml]
    #[arg(long)]
    pub(crate) by: Option<String>,
}

/// A lot that is founded.
#[derive(Debug, Args)]
pub(crate) struct NewLot {
    /// Its number, as it stands on the jar
    pub(crate) number: String,
    /// The variety
    pub(crate) variety: String,
    /// The season of its harvest
    #[arg(long, value_name = "YEAR")]
    pub(crate) season: i16,
    /// The clean seed that came in, such as \"42.5 g\"
    #[arg(long, value_name = "MASS")]
    pub(crate) weight: Option<String>,
    #[command(flatten)]
    pub(crate) origin: Origin,
    #[command(flatten)]
    pub(crate) said: Said,
}

/// Where a lot that there is comes from.
#[derive(Debug, Args)]
pub(crate) struct TellOrigin {
    /// The lot's number
    pub(crate) number: String,
    #[command(flatten)]
    pub(crate) origin: Origin,
    /// Who says so [default: the keeper in house.toml]
    #[arg(long)]
    pub(crate) by: Option<String>,
}

/// Where a lot comes from and how it was made.
#[derive(Clone, Debug, Args)]
pub(crate) struct Origin {
    /// The day its last seed was taken from fruit
    #[arg(long, value_name = "DATE")]
    pub(crate) harvested: Option<jiff::civil::Date>,
    /// The grow-out it was grown in
    #[arg(long, value_name = "NAME", requires = "plot")]
    pub(crate) grow_out: Option<String>,
    /// The label on its plot's stake
    #[arg(long, value_name = "LABEL", requires = "grow_out")]
    pub(crate) plot: Option<String>,
    /// The lot its parents were sown from
    #[arg(long, value_name = "LOT")]
    pub(crate) sown_from: Option<String>,
    /// Plants that its fruit was taken from
    #[arg(long, value_name = "PLANTS")]
    pub(crate) parents: Option<u32>,
    /// Distance to the nearest tomato of another variety, such as \"30 m\" or \"100 ft\"
    #[arg(long, value_name = "DISTANCE")]
    pub(crate) isolation: Option<String>,
    /// How its seed was taken out of the fruit
    #[arg(long, value_name = "WORDS")]
    pub(crate) extraction: Option<String>,
    /// How it was dried
    #[arg(long, value_name = "WORDS")]
    pub(crate) drying: Option<String>,
    /// What it was treated with: a substance, or a process such as hot water
    #[arg(long, value_name = "WORDS")]
    pub(crate) treatment: Option<String>,
}

/// An entry that is withdrawn or restored.
#[derive(Debug, Args)]
pub(crate) struct TurnEntry {
    /// The entry's number
    pub(crate) entry: u32,
    /// Why
    #[arg(long)]
    pub(crate) why: Option<String>,
    /// Who does it [default: the keeper in house.toml]
    #[arg(long)]
    pub(crate) by: Option<String>,
}

/// Say how many plants to look at for off-types, and how many to save seed from
///
/// The first number sees at least one off-type of such a share; the second keeps what such a share of plants carries, by the form for
/// plants that fertilise themselves. With a number of plants: how many off-types the share as a standard lets stand among them, and how
/// often poorer lots pass all the same, which is the buyer's risk.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples:
  locule plants
  locule plants 60 --share 1
  locule plants 20 --share 5 --sure 90")]
pub(crate) struct Plants {
    /// Plants that there are to look at, or to save seed from
    pub(crate) plants: Option<u32>,
    /// The share of plants in per cent: off-types, or those that carry what is to be kept
    #[arg(long, value_name = "PERCENT", default_value = "1")]
    pub(crate) share: String,
    /// How sure, in per cent
    #[arg(long, value_name = "PERCENT", default_value_t = 95, value_parser = clap::value_parser!(u8).range(1..=99))]
    pub(crate) sure: u8,
}

/// List plants that do not fit their variety, with the lots of seed they concern
///
/// A plant stands on the list because somebody saw an off-type on a walk, because its fruit lies far from its variety's, because
/// it lies far from the plants beside it, all measures taken together, or because the plants of a grow-out fall into two kinds.
/// A lot is concerned where its seed was taken from that plot, or where its seed was sown there.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples:
  locule rogues
  locule rogues --lot 26-008")]
pub(crate) struct Rogues {
    /// Only what concerns this lot
    #[arg(long, value_name = "NUMBER")]
    pub(crate) lot: Option<String>,
}

/// See which lots to test next, or note a germination test
///
/// A test is judged by the law's own table for its replicates, with the exact chance beside it, and by the minimum of
/// the law that is named; what can honestly be promised is told beside it. A test's age is counted in calendar months
/// from the end of its month.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples:
  locule germination
  locule germination note 31-014 --begun 2032-01-10 --counted 2032-01-24 --seeds 100 --normal 92 88 95 91 --abnormal 3 5 2 4
  locule germination steps --good 90 --poor 75 --at-once 25")]
pub(crate) struct Germination {
    /// What to do [default: list what to test next]
    #[command(subcommand)]
    pub(crate) action: Option<GerminationAction>,
    #[command(flatten)]
    pub(crate) judged: Judged,
}

/// What to do with germination tests.
#[derive(Debug, Subcommand)]
pub(crate) enum GerminationAction {
    /// Note a test of a lot: seedlings counted in each replicate
    Note {
        /// The lot's number
        lot: String,
        /// The day the seeds were laid out
        #[arg(long, value_name = "DATE")]
        begun: jiff::civil::Date,
        /// The day of the final count
        #[arg(long, value_name = "DATE")]
        counted: jiff::civil::Date,
        /// The day of the first count
        #[arg(long, value_name = "DATE")]
        first_counted: Option<jiff::civil::Date>,
        /// Seeds of each replicate
        #[arg(long, default_value_t = 100)]
        seeds: u32,
        /// Normal seedlings of each replicate at the final count, those of the first count among them
        #[arg(long, num_args = 1.., required = true)]
        normal: Vec<u32>,
        /// Abnormal seedlings of each
        #[arg(long, num_args = 1..)]
        abnormal: Vec<u32>,
        /// Hard seeds of each
        #[arg(long, num_args = 1..)]
        hard: Vec<u32>,
        /// Normal seedlings of each at the first count
        #[arg(long, num_args = 1..)]
        first: Vec<u32>,
        /// Made by a seed-testing laboratory
        #[arg(long)]
        laboratory: bool,
        /// Who says so [default: the keeper in house.toml]
        #[arg(long)]
        by: Option<String>,
    },
    /// Plan a test in small steps that stops early, with how often it errs
    Steps {
        /// Germination in per cent of a lot that should pass
        #[arg(long, value_name = "PERCENT", default_value_t = 90)]
        good: u8,
        /// Germination in per cent of a lot that should not
        #[arg(long, value_name = "PERCENT", default_value_t = 75)]
        poor: u8,
        /// Seeds laid out in each step
        #[arg(long, value_name = "SEEDS", default_value_t = 25)]
        at_once: u32,
        /// Most steps
        #[arg(long, value_name = "STEPS", default_value_t = 8)]
        most: u32,
    },
}
