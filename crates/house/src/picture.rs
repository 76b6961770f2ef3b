//! A drawing as a file: SVG or PNG, by the file's ending. Start at [`write`].

use crate::fault::HouseFault;
use crate::folder;
use drawing::svg::Svg;
use publish::picture::{self, Sharpness};
use std::path::{Path, PathBuf};

/// A picture that was written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    /// The file.
    pub file: PathBuf,
    /// Its size in bytes.
    pub bytes: u64,
}

/// Endings of picture files that can be written.
const ENDINGS: [&str; 2] = ["png", "svg"];

/// Draws and writes a picture, whole or not at all: SVG, or PNG with three dots to a pixel. Nothing is drawn for a file
/// that has another ending.
///
/// # Errors
/// [`HouseFault::NotKnown`] for another ending; what drawing refuses, or the disk.
pub(crate) fn write(
    file: &Path,
    draw: impl FnOnce() -> Result<Svg, HouseFault>,
) -> Result<Picture, HouseFault> {
    let ending = ending(file)?;
    let svg = draw()?;
    let content = if ending == "svg" {
        svg.markup().as_bytes().to_vec()
    } else {
        picture::png(&svg, Sharpness::Sharp)?
    };
    folder::write(file, &content)?;
    Ok(Picture { file: file.to_owned(), bytes: u64::try_from(content.len()).unwrap_or(u64::MAX) })
}

/// The ending of a picture file that can be written, in small letters.
pub(crate) fn ending(file: &Path) -> Result<String, HouseFault> {
    let ending = file.extension().map(|ending| ending.to_string_lossy().to_lowercase()).unwrap_or_default();
    if ENDINGS.contains(&ending.as_str()) {
        return Ok(ending);
    }
    Err(HouseFault::NotKnown { what: "picture file", word: ending, known: ENDINGS.join(", ") })
}
