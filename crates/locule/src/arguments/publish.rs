//! What can be typed to publish the list as web pages.

use clap::Args;
use std::path::PathBuf;

/// Write the whole list as web pages that need no network, for any web server or a stick
///
/// The list with its bench and search, a page a variety, varieties side by side, "What is it?", and "For your garden":
/// which varieties do what a buyer wants in weather like theirs, and how many plants they take. The regions are those of
/// `locule settings --sells-to`. A folder that an earlier run wrote is replaced whole; your own files in it stay.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples (in the demo house):
  locule publish
  locule publish web
  locule settings --sells-to \"Milwaukee WI\" --sells-to \"Wooster OH\" --site https://example.org/list/")]
pub(crate) struct Publish {
    /// The folder to write [default: in the house's folder printed/pages]
    #[arg(value_name = "DIR")]
    pub(crate) to: Option<PathBuf>,
}
