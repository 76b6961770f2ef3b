//! Sheets that were printed: which there are, and the bytes of one.

use crate::fault::HouseFault;
use crate::folder::House;
use jiff::Timestamp;
use std::fs;

/// A printed sheet in the house.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet {
    /// Its file name.
    pub name: String,
    /// Its size in bytes.
    pub bytes: u64,
    /// When it was printed, where the disk tells.
    pub printed: Option<Timestamp>,
}

/// The printed PDFs, the latest first.
///
/// # Errors
/// What the disk refuses; a house that has printed nothing has none.
pub fn sheets(house: &House) -> Result<Vec<Sheet>, HouseFault> {
    let folder = house.printed();
    let Ok(entries) = fs::read_dir(&folder) else { return Ok(Vec::new()) };
    let mut sheets = Vec::new();
    for entry in entries {
        let entry = entry.map_err(|fault| HouseFault::file(&folder, fault))?;
        let about = entry.metadata().map_err(|fault| HouseFault::file(&folder, fault))?;
        let name = entry.file_name().to_string_lossy().into_owned();
        if about.is_file() && name.ends_with(".pdf") {
            let printed = about.modified().ok().and_then(|at| Timestamp::try_from(at).ok());
            sheets.push(Sheet { name, bytes: about.len(), printed });
        }
    }
    sheets.sort_by(|one, other| other.printed.cmp(&one.printed).then_with(|| one.name.cmp(&other.name)));
    Ok(sheets)
}

/// The bytes of a printed sheet. Only names that [`sheets`] lists are opened, so no path leads elsewhere.
///
/// # Errors
/// [`HouseFault::NoSuchSheet`]; what the disk refuses.
pub fn sheet(house: &House, name: &str) -> Result<Vec<u8>, HouseFault> {
    if !sheets(house)?.iter().any(|sheet| sheet.name == name) {
        return Err(HouseFault::NoSuchSheet(name.to_owned()));
    }
    let file = house.printed().join(name);
    fs::read(&file).map_err(|fault| HouseFault::file(&file, fault))
}
