//! What can be typed after `locule list`.

use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// The list: every variety with its calls, as plain words ask for it
///
/// The words are the trade's: habit, class, colour, use, size, days, and "not" before what is not wanted. What
/// they were read as is told with the answer; words that mean nothing here are
/// looked for in names, claims and calls.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples:
  locule list \"early red paste under 4 oz for canning\"
  locule list --habit semi-determinate --colour green
  locule list \"not red\" --sort weight --reverse --export light.xlsx
  locule list --contested --json")]
pub(crate) struct List {
    /// What is wanted, in plain words [default: all of it]
    #[arg(value_name = "WORDS")]
    pub(crate) words: Vec<String>,
    /// Only this habit
    #[arg(long)]
    pub(crate) habit: Option<String>,
    /// Only this fruit class
    #[arg(long)]
    pub(crate) class: Option<String>,
    /// Only this colour
    #[arg(long)]
    pub(crate) colour: Option<String>,
    /// Only what is good for this, such as canning
    #[arg(long = "use", value_name = "USE")]
    pub(crate) purpose: Option<String>,
    /// Only with evidence of this season
    #[arg(long, value_name = "YEAR")]
    pub(crate) season: Option<i16>,
    /// Only as early as this
    #[arg(long, value_enum)]
    pub(crate) ripens: Option<RipensWord>,
    /// Only varieties with a contested call
    #[arg(long)]
    pub(crate) contested: bool,
    /// Only varieties with a claim that the evidence contradicts
    #[arg(long)]
    pub(crate) contradicted: bool,
    /// Only varieties with a call that has no evidence
    #[arg(long)]
    pub(crate) unmeasured: bool,
    /// Only names that hold these letters
    #[arg(long, value_name = "TEXT")]
    pub(crate) find: Option<String>,
    /// What to sort by; what is not known comes last
    #[arg(long, value_enum, default_value_t = SortWord::Name)]
    pub(crate) sort: SortWord,
    /// Sort the other way
    #[arg(long)]
    pub(crate) reverse: bool,
    /// Which page of 100 varieties to show
    #[arg(long, value_name = "NUMBER", default_value_t = 1, value_parser = clap::value_parser!(u32).range(1..))]
    pub(crate) page: u32,
    /// Show every variety that fits, not one page
    #[arg(long, conflicts_with = "page")]
    pub(crate) all: bool,
    /// Write every variety that fits into FILE: .csv, .xlsx or .json
    #[arg(long, value_name = "FILE")]
    pub(crate) export: Option<PathBuf>,
}

/// How early.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum RipensWord {
    /// Up to 65 days from transplanting
    Early,
    /// 66 to 79 days
    Mid,
    /// 80 days or more
    Late,
}

/// What to sort by.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum SortWord {
    /// Name
    Name,
    /// Weight of a fruit
    Weight,
    /// Fruit class, small to large
    Class,
    /// Habit
    Habit,
    /// Colour
    Colour,
    /// Days to the first ripe fruit
    Days,
    /// How sure the least sure call is
    Sureness,
    /// The newest season of its evidence
    Newest,
}
