//! What can be typed to measure fruit on photographs.

use clap::Args;
use std::path::PathBuf;

/// Measure the fruit on photographs that show them beside the scale card
///
/// Print the card with locule print card and lay it on a plain sheet with the fruit round it, on their sides and none touching
/// another, or cut across with the face up; photograph them from straight above (docs/photo.md). JPEG and PNG are read. Nothing is kept unless --take says so:
/// then every fruit that is not left out becomes a fruit sample of its plot, with the photograph as its source, and its skin's
/// colour a colour reading; the same photograph taken twice adds nothing. Weights are volumes times a usual density: a scale
/// is better where there is one.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples (in the demo house):
  locule photo ../photos/chapel-oak.jpg
  locule photo ../photos/chapel-oak.jpg --overlay measured.png --leave-out 3
  locule photo ../photos/chapel-oak.jpg --change \"cut 5\" --overlay measured.png
  locule photo ../photos/chapel-oak.jpg --take --grow-out \"2026 Home Garden\" --plot H-019 --date 2026-08-21
  locule photo IMG_*.jpg --take
  locule photo summer/ --take --overlay drawings")]
pub(crate) struct Photo {
    /// Photographs to measure, and folders of which every JPEG and PNG file is
    #[arg(required = true)]
    pub(crate) files: Vec<PathBuf>,
    /// Draw what was measured over the photograph: a PNG or SVG file, or for several photographs a folder
    #[arg(long, value_name = "PATH")]
    pub(crate) overlay: Option<PathBuf>,
    /// Fruit that are not to count, by their numbers on the drawing
    #[arg(long, value_name = "NUMBER", value_delimiter = ',')]
    pub(crate) leave_out: Vec<u32>,
    /// How a fruit lies: \"3=drawn\" with its stem along the axis that is drawn, \"3=across\" the other way, \"3=up\" where it stands,
    /// \"3=cut\" where it is cut across, its face up
    #[arg(long = "stem", value_name = "NUMBER=WAY", value_delimiter = ',')]
    pub(crate) stems: Vec<String>,
    /// Say that a part is two fruit, "cut 5", also "cut 5 along 208,160 208,200" in pixels, or two are one, "join 3 4"; may be repeated
    #[arg(long = "change", value_name = "WORDS")]
    pub(crate) changes: Vec<String>,
    /// How many locules a cut face has, where you counted them: \"4=7\" for fruit 4
    #[arg(long, value_name = "NUMBER=COUNT", value_delimiter = ',')]
    pub(crate) locules: Vec<String>,
    /// How long the line of 70 mm is on the printed card, by a rule, such as \"68.5 mm\"
    #[arg(long, value_name = "LENGTH")]
    pub(crate) line: Option<String>,
    /// Take the fruit as fruit samples
    #[arg(long)]
    pub(crate) take: bool,
    /// The plot that the fruit are of [default: the plot that the card was printed for]
    #[arg(long, value_name = "LABEL", requires = "take")]
    pub(crate) plot: Option<String>,
    /// The plot's grow-out, where several have a plot of that label
    #[arg(long, value_name = "NAME", requires = "plot")]
    pub(crate) grow_out: Option<String>,
    /// The plant's number within its plot
    #[arg(long, value_name = "NUMBER", requires = "take")]
    pub(crate) plant: Option<u32>,
    /// The day that the fruit were sampled [default: the day that the camera wrote]
    #[arg(long, value_name = "DAY", requires = "take")]
    pub(crate) date: Option<String>,
    /// Who takes them [default: the keeper in house.toml]
    #[arg(long, requires = "take")]
    pub(crate) by: Option<String>,
}
