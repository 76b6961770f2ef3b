//! The house's guides: the accepted text of each, and the files that the owner edits.

use crate::fault::HouseFault;
use crate::folder::{House, SHIPPED_GUIDES};
use identity::guide::colour::ColourGuide;
use identity::guide::fruit::FruitGuide;
use identity::guide::habit::HabitGuide;
use identity::guide::{colour, fruit, habit};
use ledger::batch::Act;
use ledger::guides::GuideVersion;
use ledger::ledger::Ledger;
use std::fs;
use std::path::Path;

/// The three guides' texts, by their file names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GuideTexts {
    /// The fruit-class guide.
    pub fruit: String,
    /// The habit guide.
    pub habit: String,
    /// The colour guide.
    pub colour: String,
}

/// The three guides, read.
#[derive(Clone, Debug)]
pub struct Guides {
    /// The fruit-class guide.
    pub fruit: FruitGuide,
    /// The habit guide.
    pub habit: HabitGuide,
    /// The colour guide.
    pub colour: ColourGuide,
}

/// The guides that the house goes by: the accepted ones, or those it was shipped with.
///
/// # Errors
/// What the ledger refuses.
pub fn accepted(ledger: &mut Ledger) -> Result<GuideTexts, HouseFault> {
    let [fruit, habit, colour] = SHIPPED_GUIDES.map(|(file, shipped)| (stem(file), shipped));
    let mut text = |(guide, shipped): (&str, &str)| -> Result<String, HouseFault> {
        Ok(ledger.accepted_guide(guide)?.map_or_else(|| shipped.to_owned(), |version| version.text))
    };
    Ok(GuideTexts { fruit: text(fruit)?, habit: text(habit)?, colour: text(colour)? })
}

/// The accepted texts, with one replaced by a file's where one is named.
///
/// # Errors
/// [`HouseFault::NoSuchGuide`]; what the ledger or the disk refuses.
pub fn texts(house: &House, file: Option<&Path>) -> Result<GuideTexts, HouseFault> {
    let accepted = accepted(&mut Ledger::open(&house.ledger_location())?)?;
    file.map_or(Ok(accepted.clone()), |file| with_file(&accepted, file))
}

/// Reads the three guides.
///
/// # Errors
/// A guide's fault, with file, line, key and remedy.
pub fn read(texts: &GuideTexts) -> Result<Guides, HouseFault> {
    Ok(Guides {
        fruit: fruit::read("fruit.toml", &texts.fruit)?,
        habit: habit::read("habit.toml", &texts.habit)?,
        colour: colour::read("colour.toml", &texts.colour)?,
    })
}

/// The accepted texts with one of them replaced by a file's.
///
/// # Errors
/// [`HouseFault::NoSuchGuide`] where the file's name is none of the three; what the disk refuses.
pub fn with_file(texts: &GuideTexts, file: &Path) -> Result<GuideTexts, HouseFault> {
    let text = fs::read_to_string(file).map_err(|fault| HouseFault::file(file, fault))?;
    let stem = file.file_stem().and_then(|stem| stem.to_str());
    with_text(texts, stem.unwrap_or_default(), text)
        .ok_or_else(|| HouseFault::NoSuchGuide(file.display().to_string()))
}

/// The accepted texts with the one of that name (`fruit`, `habit`, `colour`) replaced.
pub(crate) fn with_text(texts: &GuideTexts, guide: &str, text: String) -> Option<GuideTexts> {
    let mut changed = texts.clone();
    match guide {
        "fruit" => changed.fruit = text,
        "habit" => changed.habit = text,
        "colour" => changed.colour = text,
        _ => return None,
    }
    Some(changed)
}

/// Guide files of the house that differ from what was accepted, such as `fruit.toml`.
///
/// # Errors
/// What the ledger refuses.
pub fn edited(house: &House, ledger: &mut Ledger) -> Result<Vec<String>, HouseFault> {
    let texts = accepted(ledger)?;
    let accepted = [&texts.fruit, &texts.habit, &texts.colour];
    let differs = |file: &str, accepted: &str| {
        fs::read_to_string(house.guides().join(file)).is_ok_and(|text| text != accepted)
    };
    let files = SHIPPED_GUIDES.iter().zip(accepted);
    Ok(files
        .filter(|((file, _), text)| differs(file, text))
        .map(|((file, _), _)| (*file).to_owned())
        .collect())
}

/// Makes a guide's file the house's rule, once it can be read. Call again afterwards.
///
/// # Errors
/// A guide's fault; [`HouseFault::NoSuchGuide`]; what the ledger or the disk refuses.
pub fn accept(house: &House, file: &Path, act: &Act) -> Result<GuideVersion, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let before = accepted(&mut ledger)?;
    let after = with_file(&before, file)?;
    read(&after)?;
    let name = file.file_stem().and_then(|stem| stem.to_str()).unwrap_or_default();
    let text = match name {
        "fruit" => &after.fruit,
        "habit" => &after.habit,
        _ => &after.colour,
    };
    Ok(ledger.accept_guide(act, name, text)?)
}

fn stem(file: &'static str) -> &'static str {
    file.trim_end_matches(".toml")
}
