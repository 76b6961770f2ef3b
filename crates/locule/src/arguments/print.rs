//! What can be typed to print.

use super::lots::LawWord;
use crate::arguments::calendar::Planting;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// Print catalogue, proof sheet, type chart, season sheet, stakes, walk sheets, packet labels, lot cards or scale card as PDF
///
/// Print the proof sheet first: it lists everything that the catalogue will mark, with the cheapest thing
/// to do about each. The type chart is drawn from the house's guides alone; on tabloid and a3 it is a
/// poster, on letter and a4 a booklet. Stakes go on label sheets, by size (docs/grow-outs.md). A packet label that leaves out
/// what its law asks is not printed, and the rule is named; with --pack the packets are booked too (docs/seed-room.md).
#[derive(Debug, Args)]
#[command(after_long_help = "Examples (in the demo house):
  locule print proof
  locule print catalogue --paper a4
  locule print chart --paper poster
  locule print season --weather Milwaukee --variety \"Post Mill\"
  locule print stakes \"2026 Home Garden\"
  locule print walk-sheets \"2026 Home Garden\" --date 2026-08-14 --person Wren --person Finch
  locule print labels \"Drip Stone=25\" 31-014=40 --seeds 30 --pack
  locule print labels 31-014=12 --of \"100 mg\" --law us-ky --sheet \"3 x 2 in roll\"
  locule print lots
  locule print card
  locule print card H-019 --grow-out \"2026 Home Garden\"")]
pub(crate) struct Print {
    /// What to print
    #[arg(value_enum)]
    pub(crate) what: Printed,
    /// The paper
    #[arg(long, value_enum, default_value_t = PaperWord::Letter)]
    pub(crate) paper: PaperWord,
    /// The file to write [default: in the house's folder printed]
    #[arg(long, value_name = "PATH")]
    pub(crate) to: Option<PathBuf>,
    #[command(flatten)]
    pub(crate) field: FieldPaper,
    #[command(flatten)]
    pub(crate) packets: PacketPaper,
    #[command(flatten)]
    pub(crate) season: SeasonPaper,
}

/// What stakes and walk sheets need beside.
#[derive(Debug, Default, Args)]
pub(crate) struct FieldPaper {
    /// The grow-out, for stakes and walk sheets; lots or varieties and their packets, for labels; lots, for lot cards; the plot's
    /// label, for a scale card
    #[arg(value_name = "NAME")]
    pub(crate) names: Vec<String>,
    /// The label sheet or roll, by its size [default: one for the house's paper]
    #[arg(long, value_name = "SIZE")]
    pub(crate) sheet: Option<String>,
    /// The grow-out of a scale card's plot, where several have a plot of that label
    #[arg(long, value_name = "NAME")]
    pub(crate) grow_out: Option<String>,
    /// A stake for every plant instead of every plot
    #[arg(long)]
    pub(crate) each_plant: bool,
    /// The day of the walk, or of packing [default: today]
    #[arg(long, value_name = "DAY")]
    pub(crate) date: Option<String>,
    /// Who walks; named several times, they share the walk evenly
    #[arg(long, value_name = "NAME", conflicts_with = "per")]
    pub(crate) person: Vec<String>,
    /// Most plots in one part of the walk
    #[arg(long, value_name = "PLOTS", value_parser = clap::value_parser!(u32).range(1..))]
    pub(crate) per: Option<u32>,
}

/// What packet labels need beside.
#[derive(Debug, Default, Args)]
pub(crate) struct PacketPaper {
    /// Packets of each lot or variety that tells no number
    #[arg(long, value_name = "PACKETS", value_parser = clap::value_parser!(u32).range(1..=50_000))]
    pub(crate) count: Option<u32>,
    /// Seeds that each packet says; they are weighed out with enough over that 95 packets in 100 hold them
    #[arg(long, value_name = "SEEDS", value_parser = clap::value_parser!(u32).range(1..=100_000), conflicts_with = "of")]
    pub(crate) seeds: Option<u32>,
    /// The seed in each packet, in the place of a number of seeds, such as \"100 mg\"
    #[arg(long, value_name = "MASS")]
    pub(crate) of: Option<String>,
    /// Whose law the labels are put to [default: the house's settings]
    #[arg(long, value_enum)]
    pub(crate) law: Option<LawWord>,
    /// The year that the packets are packed for [default: this year, from September on the next]
    #[arg(long, value_name = "YEAR", value_parser = clap::value_parser!(i16).range(1900..=2200))]
    pub(crate) packed_for: Option<i16>,
    /// Fill the packets too: they are booked out of the jar with the labels, all of them or none
    #[arg(long)]
    pub(crate) pack: bool,
    /// The garden whose calendar tells when to sow [default: what holds anywhere]
    #[arg(long, value_name = "GARDEN", conflicts_with = "sow_by")]
    pub(crate) sow_in: Option<String>,
    /// The weather station by whose frosts to sow: a file, or a station that is known
    #[arg(long, value_name = "STATION")]
    pub(crate) sow_by: Option<PathBuf>,
    /// Who packs [default: the keeper in house.toml]
    #[arg(long)]
    pub(crate) by: Option<String>,
}

/// What a season sheet needs beside.
#[derive(Debug, Default, Args)]
pub(crate) struct SeasonPaper {
    /// The garden of a season sheet, whose weather has been told
    #[arg(long, value_name = "NAME", conflicts_with = "weather")]
    pub(crate) garden: Option<String>,
    /// Any garden's weather for a season sheet: a station's file, or a station that is kept or known
    #[arg(long, value_name = "FILE|STATION")]
    pub(crate) weather: Option<PathBuf>,
    /// A variety whose harvest a season sheet tells, by name or alias; may be named several times [default: the few that
    /// rest on the most plots]
    #[arg(long, value_name = "VARIETY")]
    pub(crate) variety: Vec<String>,
    #[command(flatten)]
    pub(crate) planting: Planting,
}

/// What can be printed.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum Printed {
    /// An entry a variety, with portrait, calls and measures
    Catalogue,
    /// What is contested, contradicted, open or missing, and what to do about it
    Proof,
    /// Every class and habit of the guides, drawn, with its limits and what it is taken for
    Chart,
    /// A garden's year: frost, what to do when, and the harvest of a few varieties week by week
    Season,
    /// A label a plot, with a code, on sheets of weatherproof label stock
    Stakes,
    /// A label a packet, with portrait, evidence, lot, test and what the law asks, on label sheets or a roll
    Labels,
    /// A card a lot for its jar, with a code
    Lots,
    /// The scale card that lies beside fruit on photographs; with a plot's label, for the fruit of that plot
    Card,
    /// What is due in a grow-out on a day, with boxes for a pencil, in walking order
    WalkSheets,
}

/// Paper sizes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum PaperWord {
    /// 8.5 x 11 in
    Letter,
    /// 210 x 297 mm
    A4,
    /// 17 x 11 in, for the chart
    Tabloid,
    /// 420 x 297 mm, for the chart
    A3,
    /// Tabloid or A3, by the house's units, for the chart
    Poster,
}
