//! A variety's portrait as a file: SVG or PNG, for a shop's page, a letter or a message.

use crate::fault::HouseFault;
use crate::folder::House;
use crate::list;
use crate::picture;
pub use crate::picture::Picture;
use drawing::portrait::portrait;
use drawing::scale::Scale;
use std::path::Path;

/// Writes the portrait of the variety of that name or alias at life size: by the file's ending as SVG, or
/// as PNG with three dots to a pixel.
///
/// # Errors
/// [`HouseFault::NoSuchVariety`] with the nearest name; [`HouseFault::NotKnown`] for another ending; what
/// the ledger or the disk refuses.
pub fn write(house: &House, name: &str, file: &Path) -> Result<Picture, HouseFault> {
    picture::write(file, || Ok(portrait(&list::look(house, name)?, Scale::LIFE_SIZE, house.settings.units)))
}
