//! What can be typed to take notes in, and how a table is read.

use crate::arguments::frost::ScaleWord;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// Bring in notes: CSV, TSV, XLSX or ODS, in the state they are kept; and the days of weather stations
///
/// locule recognises what a table holds from its headings (docs/headings.md lists the words it
/// knows), shows it with --dry-run, and keeps what it cannot read in the quarantine with the row, the
/// reason and what to do. The same file taken twice adds nothing; a longer version of a file adds its
/// new rows only.
///
/// Days of a weather station are known by a column of dates, one of lowest and one of highest temperatures and none of
/// plots or varieties, or are a daily file of the Global Historical Climatology Network. They are kept as they stand,
/// one record a file; the newest record of a station is the one that other commands go by.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples (in the demo house):
  locule take ../raw/2-season-2024/*.csv --dry-run
  locule take ../raw/3-season-2025/fruit-2025-open-day.csv --dates month-first --by Wren
  locule take thermometer.csv --scale f --station Garden")]
pub(crate) struct Take {
    /// Files to take; several are taken in the order that they need each other
    #[arg(required = true)]
    pub(crate) files: Vec<PathBuf>,
    /// Show how each table is read and what would happen, and store nothing
    #[arg(long)]
    pub(crate) dry_run: bool,
    #[command(flatten)]
    pub(crate) reading: Reading,
    /// Remember this reading for files with the same headings
    #[arg(long)]
    pub(crate) save_mapping: bool,
    /// Degrees of weather files that do not say
    #[arg(long, value_enum)]
    pub(crate) scale: Option<ScaleWord>,
    /// The station of weather files that name none [default: the file's name without its ending]
    #[arg(long, value_name = "NAME")]
    pub(crate) station: Option<String>,
    /// Whose notes these are [default: the keeper in house.toml]
    #[arg(long)]
    pub(crate) by: Option<String>,
}

/// How to read a table where its headings do not say.
#[derive(Debug, Default, Args)]
pub(crate) struct Reading {
    /// What the table holds [default: recognised from the headings]
    #[arg(long, value_name = "KIND")]
    pub(crate) kind: Option<String>,
    /// Read a column as something else: "HEADING=USE", or "HEADING=" to leave it out
    #[arg(long = "column", value_name = "HEADING=USE")]
    pub(crate) columns: Vec<String>,
    /// The unit of a column: "HEADING=oz"
    #[arg(long = "unit", value_name = "HEADING=UNIT")]
    pub(crate) units: Vec<String>,
    /// Order of day and month in dates such as 03/04/2031
    #[arg(long, value_enum)]
    pub(crate) dates: Option<DateOrder>,
    /// What a comma between digits means
    #[arg(long, value_enum)]
    pub(crate) comma: Option<Comma>,
    /// The season of notes that do not say
    #[arg(long, value_name = "YEAR")]
    pub(crate) season: Option<i16>,
    /// The grow-out of notes that do not say
    #[arg(long, value_name = "NAME")]
    pub(crate) grow_out: Option<String>,
}

/// Order of day and month.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum DateOrder {
    /// 31/12/2031
    DayFirst,
    /// 12/31/2031
    MonthFirst,
}

/// What a comma between digits means.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum Comma {
    /// 6,3 is six and three tenths
    Decimal,
    /// 1,234 is one thousand two hundred and thirty-four
    Thousands,
}
