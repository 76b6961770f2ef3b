//! A variety's portrait as a file: SVG or PNG, for a shop's page, a letter or a message.

use crate::fault::HouseFault;
use crate::folder::{self, House};
use crate::list;
use drawing::portrait::portrait;
use drawing::scale::Scale;
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

/// Writes the portrait of the variety of that name or alias at life size: by the file's ending as SVG, or
/// as PNG with three dots to a pixel.
///
/// # Errors
/// [`HouseFault::NoSuchVariety`] with the nearest name; [`HouseFault::NotKnown`] for another ending; what
/// the ledger or the disk refuses.
pub fn write(house: &House, name: &str, file: &Path) -> Result<Picture, HouseFault> {
    let ending = file.extension().map(|ending| ending.to_string_lossy().to_lowercase()).unwrap_or_default();
    if !ENDINGS.contains(&ending.as_str()) {
        return Err(HouseFault::NotKnown { what: "picture file", word: ending, known: ENDINGS.join(", ") });
    }
    let svg = portrait(&list::look(house, name)?, Scale::LIFE_SIZE, house.settings.units);
    let content = if ending == "svg" {
        svg.markup().as_bytes().to_vec()
    } else {
        picture::png(&svg, Sharpness::Sharp)?
    };
    folder::write(file, &content)?;
    Ok(Picture { file: file.to_owned(), bytes: u64::try_from(content.len()).unwrap_or(u64::MAX) })
}

/// Endings of picture files that can be written.
const ENDINGS: [&str; 2] = ["png", "svg"];
