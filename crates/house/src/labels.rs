//! Label stock: the sheets that stakes and packet labels are printed on, and the rolls of packet labels.
//!
//! The sizes shipped with the program, and instead of them those of `guides/labels.toml` where the house has that
//! file. They are described by size alone.

use crate::fault::HouseFault;
use crate::folder::House;
use crate::print::Paper;
use intake::number::DecimalMark;
use intake::unit;
use publish::packet_labels::LabelRoll;
pub use publish::packet_labels::LabelStock;
pub use publish::stakes::LabelSheet;
use record::length::Millimetres;
use serde::Deserialize;
use std::fs;
use std::io::ErrorKind;

/// The sheets shipped with the program.
const SHIPPED: &str = include_str!("../../../guides/labels.toml");
/// The house's own.
const FILE: &str = "labels.toml";

/// Why a file of label sheets cannot be read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum LabelsFault {
    /// Not TOML, or a key is missing, unknown or of the wrong form.
    #[error("{FILE}, line {line}: {message}")]
    Form {
        /// The line.
        line: usize,
        /// What is wrong there.
        message: String,
    },
    /// A length without a unit, or none at all.
    #[error("{FILE}, {sheet:?}: {value:?} is no length")]
    Length {
        /// The sheet or roll.
        sheet: String,
        /// The value.
        value: String,
    },
    /// Labels that reach beyond their paper, or none at all.
    #[error("{FILE}, sheet {0:?}: its labels do not lie on its paper")]
    Beyond(String),
}

impl LabelsFault {
    /// What to do about it.
    #[must_use]
    pub fn help(&self) -> String {
        match self {
            Self::Form { .. } => {
                "write each [[sheet]] with name, paper, width, height, columns, rows, left, top, gap-across and gap-down, and each [[roll]] with name, width and height"
            }
            Self::Length { .. } => "write a number and its unit, such as \"63.5 mm\" or \"2.625 in\"",
            Self::Beyond(_) => "measure the sheet: margins, labels and gaps together must fit the paper",
        }
        .to_owned()
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    sheet: Vec<SheetFile>,
    #[serde(default)]
    roll: Vec<RollFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RollFile {
    name: String,
    width: String,
    height: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct SheetFile {
    name: String,
    paper: PaperFile,
    width: String,
    height: String,
    columns: u32,
    rows: u32,
    left: String,
    top: String,
    gap_across: String,
    gap_down: String,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "lowercase")]
enum PaperFile {
    A4,
    Letter,
}

/// The label sheets that the house can print on.
///
/// # Errors
/// [`HouseFault::Labels`] where the house's own file cannot be read; what the disk refuses.
pub fn sheets(house: &House) -> Result<Vec<LabelSheet>, HouseFault> {
    Ok(read_sheets(&text(house)?)?)
}

/// All label stock that the house can print packet labels on, sheets first.
///
/// # Errors
/// As [`sheets`].
pub fn stock(house: &House) -> Result<Vec<LabelStock>, HouseFault> {
    Ok(read_stock(&text(house)?)?)
}

/// The stock that packet labels go on unless another is named: the sheet for the house's paper whose labels are next above
/// a business card.
const USUAL: [&str; 2] = ["4 x 2 in", "99.1 x 67.7 mm"];

/// The stock of a name, or without one the usual for the house's paper.
///
/// # Errors
/// [`HouseFault::NotKnown`] with the names; as [`sheets`].
pub fn stock_named(house: &House, name: Option<&str>) -> Result<LabelStock, HouseFault> {
    let stock = stock(house)?;
    let [us, metric] = USUAL;
    let wanted = name.unwrap_or(house.settings.units.either(us, metric)).trim();
    let found = stock.iter().find(|stock| stock.name().eq_ignore_ascii_case(wanted));
    let found = found.or_else(|| stock.first().filter(|_| name.is_none()));
    let known = stock.iter().map(LabelStock::name).collect::<Vec<_>>().join("; ");
    found.cloned().ok_or_else(|| HouseFault::NotKnown { what: "label stock", word: wanted.to_owned(), known })
}

/// The house's own file, or what is shipped.
fn text(house: &House) -> Result<String, HouseFault> {
    let own = house.guides().join(FILE);
    match fs::read_to_string(&own) {
        Ok(text) => Ok(text),
        Err(fault) if fault.kind() == ErrorKind::NotFound => Ok(SHIPPED.to_owned()),
        Err(fault) => Err(HouseFault::file(&own, fault)),
    }
}

/// The sheet of a name, or without one the first whose paper goes with the house's units.
///
/// # Errors
/// [`HouseFault::NotKnown`] with the names; as [`sheets`].
pub fn sheet(house: &House, name: Option<&str>) -> Result<LabelSheet, HouseFault> {
    let sheets = sheets(house)?;
    let usual = house.settings.units.either(Paper::UsLetter, Paper::A4);
    let known = sheets.iter().map(|sheet| sheet.name.as_str()).collect::<Vec<_>>().join("; ");
    let wanted = |sheet: &&LabelSheet| match name {
        Some(name) => sheet.name.eq_ignore_ascii_case(name.trim()),
        None => sheet.paper == usual,
    };
    let found = sheets.iter().find(wanted).or_else(|| sheets.first().filter(|_| name.is_none()));
    found.cloned().ok_or_else(|| HouseFault::NotKnown {
        what: "label sheet",
        word: name.unwrap_or_default().to_owned(),
        known,
    })
}

fn read(text: &str) -> Result<File, LabelsFault> {
    toml::from_str(text).map_err(|fault| {
        let before = fault.span().and_then(|at| text.get(..at.start)).unwrap_or_default();
        LabelsFault::Form { line: 1 + before.matches('\n').count(), message: fault.message().to_owned() }
    })
}

fn read_sheets(text: &str) -> Result<Vec<LabelSheet>, LabelsFault> {
    read(text)?.sheet.iter().map(read_sheet).collect()
}

fn read_stock(text: &str) -> Result<Vec<LabelStock>, LabelsFault> {
    let file = read(text)?;
    let sheets = file.sheet.iter().map(|raw| read_sheet(raw).map(LabelStock::Sheet));
    sheets.chain(file.roll.iter().map(|raw| read_roll(raw).map(LabelStock::Roll))).collect()
}

fn length(name: &str, value: &str) -> Result<Millimetres, LabelsFault> {
    let fault = || LabelsFault::Length { sheet: name.to_owned(), value: value.to_owned() };
    unit::length(value, None, Some(DecimalMark::Point)).map_err(|_| fault())
}

/// Most millimetres of a label on a roll; a metre is a slip of the pen.
const WIDEST: f64 = 1000.0;

fn read_roll(raw: &RollFile) -> Result<LabelRoll, LabelsFault> {
    let (width, height) = (length(&raw.name, &raw.width)?, length(&raw.name, &raw.height)?);
    let fits = |side: Millimetres| 0.0 < side.get() && side.get() < WIDEST;
    let roll = LabelRoll { name: raw.name.clone(), width, height };
    if fits(width) && fits(height) { Ok(roll) } else { Err(LabelsFault::Beyond(raw.name.clone())) }
}

fn read_sheet(raw: &SheetFile) -> Result<LabelSheet, LabelsFault> {
    let length = |value: &str| length(&raw.name, value);
    let sheet = LabelSheet {
        name: raw.name.clone(),
        paper: match raw.paper {
            PaperFile::A4 => Paper::A4,
            PaperFile::Letter => Paper::UsLetter,
        },
        width: length(&raw.width)?,
        height: length(&raw.height)?,
        columns: raw.columns,
        rows: raw.rows,
        left: length(&raw.left)?,
        top: length(&raw.top)?,
        gap_across: length(&raw.gap_across)?,
        gap_down: length(&raw.gap_down)?,
    };
    if sheet.fits() { Ok(sheet) } else { Err(LabelsFault::Beyond(sheet.name)) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_shipped_sheet_fits_its_paper() {
        assert_eq!(read_sheets(SHIPPED).unwrap().len(), 6);
        let stock = read_stock(SHIPPED).unwrap();
        assert!(USUAL.iter().all(|usual| stock.iter().any(|stock| stock.name() == *usual)));
    }

    #[test]
    fn a_sheet_that_cannot_be_is_told() {
        let long = SHIPPED.replace("width = \"80 mm\"", "width = \"8 m\"");
        assert_eq!(read_stock(&long), Err(LabelsFault::Beyond("80 x 50 mm roll".to_owned())));
        let wide = SHIPPED.replace("width = \"2.625 in\"", "width = \"3 in\"");
        assert_eq!(read_sheets(&wide), Err(LabelsFault::Beyond("2.625 x 1 in".to_owned())));
        let bare = SHIPPED.replace("width = \"2.625 in\"", "width = \"2.625\"");
        assert!(matches!(read_sheets(&bare), Err(LabelsFault::Length { value, .. }) if value == "2.625"));
        assert!(matches!(read_sheets("[[sheet]]\nname = 3\n"), Err(LabelsFault::Form { line: 2, .. })));
    }
}
