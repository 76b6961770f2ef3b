//! What can be typed to lay a grow-out out.

use clap::{Args, Subcommand};
use std::path::PathBuf;

/// Lay a grow-out out so that its varieties can be compared, and keep it with its plots
///
/// The file says varieties, checks, beds and how plots are planted (docs/grow-outs.md has a whole one).
/// Before anything is kept you see the bed map, how exactly two varieties will be compared, and which
/// differences so many plots can tell. The same file gives the same layout every time.
#[derive(Debug, Args)]
#[command(args_conflicts_with_subcommands = true, subcommand_negates_reqs = true)]
#[command(after_long_help = "Examples (in the demo house):
  locule layout ../layout-2027.toml --dry-run
  locule layout ../layout-2027.toml --try 2
  locule layout move 101 204")]
pub(crate) struct Layout {
    /// What else to do
    #[command(subcommand)]
    pub(crate) action: Option<LayoutAction>,
    /// The file that says what to lay out
    #[arg(required = true)]
    pub(crate) file: Option<PathBuf>,
    /// Another arrangement of the same: 2 is the second, and so on
    #[arg(long = "try", value_name = "N", default_value_t = 1)]
    pub(crate) attempt: u32,
    /// Show the layout and what it can tell, and store nothing
    #[arg(long)]
    pub(crate) dry_run: bool,
    /// Who lays it out
    #[arg(long)]
    pub(crate) by: Option<String>,
}

/// What to do with a layout that is kept.
#[derive(Debug, Subcommand)]
pub(crate) enum LayoutAction {
    /// Let two plots change places, and tell what that costs
    Move(Move),
}

/// Two plots.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples (in a house with a layout):
  locule layout move 101 204 --dry-run
  locule layout move 101 204 --grow-out \"2027 Home\"")]
pub(crate) struct Move {
    /// One plot, by the label on its stake
    pub(crate) plot: String,
    /// The other
    pub(crate) other: String,
    /// Their grow-out [default: the one that was laid out last]
    #[arg(long, value_name = "NAME")]
    pub(crate) grow_out: Option<String>,
    /// Only tell what it would cost
    #[arg(long)]
    pub(crate) dry_run: bool,
    /// Who moves them
    #[arg(long)]
    pub(crate) by: Option<String>,
}
