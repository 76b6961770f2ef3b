//! What can be typed of sales, of the next grow-out, and of increase.

use super::lots::Judged;
use clap::{Args, Subcommand, ValueEnum};
use jiff::civil::Date;
use std::path::PathBuf;

/// See what was sold and what is expected to sell, and take files of sales in
///
/// Any file with a day, what was sold and how many will do: of a shop, of a till, of a notebook. Only days, varieties and
/// packets are kept, no buyer and no price. Of one shop, each day is told by the newest file that covers it.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples (in the demo house):
  locule sales
  locule sales take winter.csv --shop Stall --dry-run
  locule sales withdraw 2 --why \"another house's file\"")]
pub(crate) struct Sales {
    /// What to do [default: tell the files, and what is expected to sell]
    #[command(subcommand)]
    pub(crate) action: Option<SalesAction>,
}

/// What to do with files of sales.
#[derive(Debug, Subcommand)]
pub(crate) enum SalesAction {
    /// Take a file of sales in
    Take(Box<TakeSales>),
    /// Take a file out of use, so that those before it count again
    Withdraw(TurnSales),
    /// Bring a withdrawn file back
    Restore(TurnSales),
}

/// A file of sales.
#[derive(Debug, Args)]
pub(crate) struct TakeSales {
    /// The file: CSV, XLSX or ODS
    pub(crate) file: PathBuf,
    /// Whose sales it tells, such as Stall [default: the shop]
    #[arg(long)]
    pub(crate) shop: Option<String>,
    /// The heading over the days, where it is not read
    #[arg(long, value_name = "HEADING")]
    pub(crate) day: Option<String>,
    /// The heading over what was sold
    #[arg(long, value_name = "HEADING")]
    pub(crate) item: Option<String>,
    /// The heading over the packets
    #[arg(long, value_name = "HEADING")]
    pub(crate) quantity: Option<String>,
    /// Which of day and month comes first in dates such as 3/4/2031
    #[arg(long, value_enum)]
    pub(crate) dates: Option<DatesWord>,
    /// The first day that it covers, where it begins with days without a sale
    #[arg(long, value_name = "DATE")]
    pub(crate) from: Option<Date>,
    /// The last day that it covers
    #[arg(long, value_name = "DATE")]
    pub(crate) to: Option<Date>,
    /// Show how it is read, and store nothing
    #[arg(long)]
    pub(crate) dry_run: bool,
    /// Who takes it in
    #[arg(long)]
    pub(crate) by: Option<String>,
}

/// Which of day and month comes first.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum DatesWord {
    /// 14/7/2031
    DayFirst,
    /// 7/14/2031
    MonthFirst,
}

/// A file to be turned.
#[derive(Debug, Args)]
pub(crate) struct TurnSales {
    /// Its number, as `locule sales` prints it
    pub(crate) number: u32,
    /// Why
    #[arg(long)]
    pub(crate) why: Option<String>,
    /// Who does it
    #[arg(long)]
    pub(crate) by: Option<String>,
}

/// Choose what the next grow-out should hold, and say why
///
/// Every variety is weighed in packets: those that would be missing for want of seed or because seed grows old, what a
/// contested call and thin evidence are worth to settle, what was asked for. Then the best use of the ground is found and
/// proven, under plots, plants and places apart. Sales are forecast from `locule sales`; docs/next.md tells how.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples (in the demo house):
  locule next --plots 40
  locule next ../layout-2027.toml --write next.toml
  locule next --plots 40 --wish \"Barrow Gold\" --apart 2")]
pub(crate) struct Next {
    /// A layout file: its beds are the ground, and the varieties and checks that it names must stand
    #[arg(conflicts_with_all = ["like", "plots"])]
    pub(crate) ground: Option<PathBuf>,
    /// Take the ground of a grow-out that was laid out before
    #[arg(long = "as", value_name = "GROW-OUT", conflicts_with = "plots")]
    pub(crate) like: Option<String>,
    /// Or so many plots
    #[arg(long, value_parser = clap::value_parser!(u32).range(1..=100_000))]
    pub(crate) plots: Option<u32>,
    /// Plants of a plot, with --plots
    #[arg(long, value_name = "N", default_value_t = 6, value_parser = clap::value_parser!(u32).range(1..=1000))]
    pub(crate) plants_each: u32,
    /// The season, by its year of harvest [default: the next that is not in the ground yet]
    #[arg(long, value_name = "YEAR")]
    pub(crate) season: Option<i16>,
    /// A variety that must stand; can be given again
    #[arg(long, value_name = "VARIETY")]
    pub(crate) must: Vec<String>,
    /// A variety that somebody asked for; can be given again
    #[arg(long, value_name = "VARIETY")]
    pub(crate) wish: Vec<String>,
    /// A variety to leave out; can be given again
    #[arg(long, value_name = "VARIETY")]
    pub(crate) without: Vec<String>,
    /// A variety whose flowers cross readily, such as a potato-leaved one; can be given again
    #[arg(long, value_name = "VARIETY")]
    pub(crate) crossing: Vec<String>,
    /// Most plants that can be raised
    #[arg(long, value_name = "N")]
    pub(crate) most_plants: Option<u32>,
    /// Varieties that cross readily that can be kept apart or bagged for seed
    #[arg(long, value_name = "N")]
    pub(crate) apart: Option<u32>,
    /// Most plots of one variety
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=50))]
    pub(crate) most_plots: Option<u32>,
    /// Fewest plants that seed is saved from
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=1000))]
    pub(crate) parents: Option<u32>,
    /// Seeds of a packet
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=100_000))]
    pub(crate) seeds: Option<u32>,
    /// Years that seed of one crop is sold for
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(1..=10))]
    pub(crate) years: Option<u8>,
    /// What a call that nothing is known of is worth, in packets
    #[arg(long, value_name = "PACKETS")]
    pub(crate) worth_contested: Option<u32>,
    /// What evidence of no fruit is worth, in packets
    #[arg(long, value_name = "PACKETS")]
    pub(crate) worth_thin: Option<u32>,
    /// What a wish is worth, in packets
    #[arg(long, value_name = "PACKETS")]
    pub(crate) worth_wish: Option<u32>,
    /// Write a layout file that `locule layout` takes
    #[arg(long, value_name = "FILE")]
    pub(crate) write: Option<PathBuf>,
    /// Tell every variety that is left out, and not the first dozen
    #[arg(long)]
    pub(crate) all: bool,
    #[command(flatten)]
    pub(crate) judged: Judged,
}

/// Say how many plants and fruits so many packets of a variety take
///
/// By the seed that its own lots gave a plant, else by its own fruit counts and the usual seeds of its kind of fruit. What is
/// only usual is told so, and wide.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples (in the demo house):
  locule increase \"Barrow Gold\" --packets 200
  locule increase \"Barrow Gold\" --packets 200 --seeds 25 --besides 400 --sure 95")]
pub(crate) struct Increase {
    /// The variety, by name or alias
    pub(crate) variety: String,
    /// Packets
    #[arg(long, value_parser = clap::value_parser!(u32).range(1..=10_000_000))]
    pub(crate) packets: u32,
    /// Seeds of a packet
    #[arg(long, value_name = "N", default_value_t = 30, value_parser = clap::value_parser!(u32).range(1..=100_000))]
    pub(crate) seeds: u32,
    /// Seeds besides, for tests, the file sample and the next increase
    #[arg(long, value_name = "SEEDS", default_value_t = 800)]
    pub(crate) besides: u32,
    /// How sure it is to suffice, in 100
    #[arg(long, value_name = "IN 100", default_value_t = 90, value_parser = clap::value_parser!(u8).range(1..=99))]
    pub(crate) sure: u8,
    /// Distance between plants, with its unit
    #[arg(long, value_name = "LENGTH", default_value = "18 in")]
    pub(crate) between_plants: String,
    /// Distance between their rows, with its unit
    #[arg(long, value_name = "LENGTH", default_value = "48 in")]
    pub(crate) between_rows: String,
    #[command(flatten)]
    pub(crate) judged: Judged,
}
