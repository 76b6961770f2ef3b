//! What can be typed of an order.

use super::lots::Judged;
use clap::Args;

/// Fill an order from the lots whose tests will first be too old
///
/// Packets go out of the lot whose test will first be too old for sale, then out of the next. Seed under the minimum, seed that
/// was never tested and seed whose test is too old is passed over and named. An order is filled whole or not at all; of two
/// that take the last packets at once, one is told no. A lot's number in the place of a variety takes from that lot alone.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples:
  locule order \"Post Mill=12\" --for \"order 118\"
  locule order \"Post Mill=12\" \"Drip Stone=5\" --of \"100 mg\" --dry-run
  locule order \"Post Mill=40\" --of \"100 mg\" --pack")]
pub(crate) struct Order {
    /// A variety or lot and its packets, such as \"Post Mill=12\"; a name alone is one packet
    #[arg(required = true, value_name = "NAME=PACKETS")]
    pub(crate) wanted: Vec<String>,
    /// The seed in each packet, such as \"100 mg\" [default: the one size that lies on the shelf]
    #[arg(long, value_name = "MASS")]
    pub(crate) of: Option<String>,
    /// Fill the packets out of the jar, and sell none yet
    #[arg(long)]
    pub(crate) pack: bool,
    /// Say which lots it would be filled from, and book nothing
    #[arg(long)]
    pub(crate) dry_run: bool,
    /// Whose order, kept with the entries
    #[arg(long = "for", value_name = "WORDS")]
    pub(crate) whose: Option<String>,
    /// Who fills it [default: the keeper in house.toml]
    #[arg(long)]
    pub(crate) by: Option<String>,
    #[command(flatten)]
    pub(crate) judged: Judged,
}
