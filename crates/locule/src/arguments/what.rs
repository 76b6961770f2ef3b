//! What can be typed of an unknown tomato, of stand-ins and of gaps.

use super::UnitsWord;
use clap::Args;
use std::path::PathBuf;

/// What is it? Say what an unknown tomato may be, from whatever you can measure or see
///
/// Give one tomato by its own options, or a handful with --fruit once for each. The same rules call it
/// that call your varieties; a fruit stands for its variety with all that fruits, plants and seasons
/// differ by, so ten fruits of ten plants tell far more than one. Nothing is kept. Without a house the
/// rules that locule comes with decide, and there is no list to compare with.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples (in the demo house):
  locule what --weight \"58 g\" --length \"61 mm\" --width \"38 mm\" --locules 2 --colour red
  locule what --fruit \"2.1 oz, 61 x 38 mm\" --fruit \"58 g, 60 x 39 mm, plant 2\" --stem-ended 4")]
pub(crate) struct What {
    /// One fruit in a line, such as \"58 g, 61 x 38 mm, 2 locules, red\"; again for each fruit
    #[arg(long = "fruit", value_name = "LINE")]
    pub(crate) fruits: Vec<String>,
    /// A table of its fruits or plants, as it is kept; no variety need be named
    #[arg(long = "from", value_name = "FILE")]
    pub(crate) tables: Vec<PathBuf>,
    #[command(flatten)]
    pub(crate) fruit: OneFruit,
    #[command(flatten)]
    pub(crate) plant: OnePlant,
    /// Units that come first in the answer [default: the house's]
    #[arg(long, value_enum)]
    pub(crate) units: Option<UnitsWord>,
}

/// One fruit by its own options.
#[derive(Debug, Args)]
#[command(next_help_heading = "One fruit")]
pub(crate) struct OneFruit {
    /// Weight, such as \"58 g\" or \"2 oz\"
    #[arg(long)]
    pub(crate) weight: Option<String>,
    /// Stem end to blossom end, such as \"61 mm\" or \"2 3/8 in\"
    #[arg(long)]
    pub(crate) length: Option<String>,
    /// Greatest width across
    #[arg(long)]
    pub(crate) width: Option<String>,
    /// Width a quarter of the way down from the stem
    #[arg(long)]
    pub(crate) neck: Option<String>,
    /// Seed chambers seen when it is cut across
    #[arg(long, value_name = "COUNT")]
    pub(crate) locules: Option<String>,
    /// Lobes seen from the stem end; 0 is smooth
    #[arg(long, value_name = "COUNT")]
    pub(crate) lobes: Option<String>,
    /// Soluble solids in degrees Brix, as a refractometer reads
    #[arg(long, value_name = "BRIX")]
    pub(crate) solids: Option<String>,
    /// Dry matter in per cent
    #[arg(long, value_name = "PERCENT")]
    pub(crate) dry_matter: Option<String>,
    /// Colour outside: a word, or \"lab 42 33 25\"
    #[arg(long)]
    pub(crate) colour: Option<String>,
    /// Colour of the cut flesh
    #[arg(long)]
    pub(crate) flesh: Option<String>,
    /// The peeled skin: clear or yellow
    #[arg(long)]
    pub(crate) skin: Option<String>,
    /// How the colour is laid out: plain, striped, marbled or dark-shouldered
    #[arg(long)]
    pub(crate) pattern: Option<String>,
}

/// The plant that bore it.
#[derive(Debug, Args)]
#[command(next_help_heading = "Its plant")]
pub(crate) struct OnePlant {
    /// The main stem ended in a truss, after so many; \"yes\" where nobody counted
    #[arg(long, value_name = "TRUSSES", conflicts_with = "stem_growing")]
    pub(crate) stem_ended: Option<String>,
    /// The main stem still grows after so many trusses
    #[arg(long, value_name = "TRUSSES")]
    pub(crate) stem_growing: Option<String>,
    /// Leaves between one truss and the next
    #[arg(long, value_name = "LEAVES")]
    pub(crate) leaves_between: Option<String>,
    /// How tall it stands, such as \"140 cm\"
    #[arg(long)]
    pub(crate) height: Option<String>,
    /// Whether its height has levelled off: yes or no
    #[arg(long, value_name = "YES|NO")]
    pub(crate) levels_off: Option<String>,
    /// All its fruit ripened within so many days
    #[arg(long, value_name = "DAYS", conflicts_with = "bears_for")]
    pub(crate) ripe_within: Option<String>,
    /// It still bore after so many days
    #[arg(long, value_name = "DAYS")]
    pub(crate) bears_for: Option<String>,
    /// Whether it has a dwarf's dark crinkled leaves: yes or no
    #[arg(long, value_name = "YES|NO")]
    pub(crate) dwarf_leaves: Option<String>,
}

/// What to offer instead of a variety: those of the list most like it
///
/// Compared are weight, shape, colour, habit, days to ripe fruit, seed chambers, pattern and juice, as
/// far as both were measured. A contested variety counts by its probabilities.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples:
  locule instead \"Barrow Gold\"
  locule instead \"Barrow Gold\" --json")]
pub(crate) struct Instead {
    /// The variety, by name or alias
    pub(crate) variety: String,
}

/// Where the list has gaps and where it is crowded, by habit, fruit class and colour
///
/// A contested variety counts in parts. An empty place is a gap where everything round it is filled.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples:
  locule gaps
  locule gaps --all --json")]
pub(crate) struct Gaps {
    /// Tell every gap and crowd [default: the first twelve of each]
    #[arg(long)]
    pub(crate) all: bool,
}
