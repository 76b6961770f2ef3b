//! Editing a guide as text, for those who have no editor at hand: see it, see what would move, accept it.

use crate::fault::HouseFault;
use crate::folder::{self, House, SHIPPED_GUIDES};
use crate::guides::{self, GuideTexts};
use crate::moves::{self, Move};
use crate::progress::Progress;
use ledger::batch::Act;
pub use ledger::guides::GuideVersion;
use ledger::ledger::Ledger;
use std::fs;
use std::path::PathBuf;

/// One guide of the house.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Guide {
    /// Its name: `fruit`, `habit` or `colour`.
    pub name: &'static str,
    /// The text of its file in the house, accepted or not.
    pub text: String,
    /// Whether that text is the accepted one.
    pub standing: TextStanding,
    /// Every version that was accepted, oldest first.
    pub versions: Vec<GuideVersion>,
}

/// Whether a guide's text is the house's rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TextStanding {
    /// It is.
    Accepted,
    /// It was edited since.
    Edited,
}

/// The three guides.
///
/// # Errors
/// What the ledger refuses.
pub fn guides(house: &House) -> Result<Vec<Guide>, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let GuideTexts { fruit, habit, colour } = guides::accepted(&mut ledger)?;
    let mut all = Vec::new();
    for (name, accepted) in [("fruit", fruit), ("habit", habit), ("colour", colour)] {
        let text = fs::read_to_string(file(house, name)).unwrap_or_else(|_| accepted.clone());
        let standing = if text == accepted { TextStanding::Accepted } else { TextStanding::Edited };
        all.push(Guide { name, text, standing, versions: ledger.guide_versions(name)? });
    }
    Ok(all)
}

/// One guide by its name.
///
/// # Errors
/// [`HouseFault::NoSuchGuide`]; what the ledger refuses.
pub fn guide(house: &House, name: &str) -> Result<Guide, HouseFault> {
    let found = guides(house)?.into_iter().find(|guide| guide.name == name);
    found.ok_or_else(|| HouseFault::NoSuchGuide(name.to_owned()))
}

/// Every call that would move if `text` were the guide of that name. Keeps nothing.
///
/// # Errors
/// A guide's fault; [`HouseFault::NoSuchGuide`]; what the ledger refuses.
pub fn preview(
    house: &House,
    name: &str,
    text: &str,
    progress: &dyn Progress,
) -> Result<Vec<Move>, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let accepted = guides::accepted(&mut ledger)?;
    let changed = changed(&accepted, name, text)?;
    guides::read(&changed)?;
    moves::between(house, &mut ledger, &accepted, &changed, progress)
}

/// Writes `text` to the guide's file in the house and makes it the house's rule. Call again afterwards.
///
/// # Errors
/// A guide's fault, and then nothing was written; [`HouseFault::NoSuchGuide`]; what the ledger or the disk
/// refuses.
pub fn accept(house: &House, name: &str, text: &str, act: &Act) -> Result<GuideVersion, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let accepted = guides::accepted(&mut ledger)?;
    guides::read(&changed(&accepted, name, text)?)?;
    folder::write(&file(house, name), text)?;
    Ok(ledger.accept_guide(act, name, text)?)
}

/// The text that a guide was shipped with.
#[must_use]
pub fn shipped(name: &str) -> Option<&'static str> {
    SHIPPED_GUIDES.iter().find(|(file, _)| file.strip_suffix(".toml") == Some(name)).map(|(_, text)| *text)
}

fn changed(accepted: &GuideTexts, name: &str, text: &str) -> Result<GuideTexts, HouseFault> {
    guides::with_text(accepted, name, text.to_owned()).ok_or_else(|| HouseFault::NoSuchGuide(name.to_owned()))
}

fn file(house: &House, name: &str) -> PathBuf {
    house.guides().join(format!("{name}.toml"))
}
