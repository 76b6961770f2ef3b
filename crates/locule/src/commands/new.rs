//! `locule new`: an empty house.

use super::Failure;
use super::reference::{Shape, shape};
use crate::answer::Answer;
use crate::arguments::{New, UnitsWord};
use house::first_steps::FirstStep;
use house::folder;
use house::history::Act;
use house::lots::law::Law;
use house::settings::Settings;
use jiff::Timestamp;
use record::language::Units;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// A house that was made.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Made {
    /// Its folder.
    folder: String,
    /// Its name.
    name: String,
}

pub(crate) fn run(new: &New) -> Result<Made, Failure> {
    let folder_name = new.folder.file_name().map(|name| name.to_string_lossy().into_owned());
    let name = new.name.clone().or(folder_name).unwrap_or_else(|| "The house".to_owned());
    let settings = Settings {
        name: name.clone(),
        units: units(new.units),
        keeper: new.by.clone(),
        postgres: new.postgres.clone(),
        site: None,
        address: None,
        law: Law::default(),
        minimum: None,
        sells_to: None,
    };
    let why = Some("the guides that the house was made with".to_owned());
    let act = Act { who: new.by.clone(), at: Timestamp::now(), why };
    let house = folder::create(&new.folder, &settings, &act)?;
    Ok(Made { folder: house.folder.display().to_string(), name })
}

/// The units of a word.
pub(crate) fn units(word: UnitsWord) -> Units {
    match word {
        UnitsWord::Us => Units::US,
        UnitsWord::Metric => Units::METRIC,
    }
}

impl Answer for Made {
    const SHAPE: &'static str = "new/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(to, "{} is ready in {}.", self.name, self.folder)?;
        writeln!(to, "From there:")?;
        for (number, step) in (1..).zip(FirstStep::ALL) {
            writeln!(to, "  {number}. {}: {}", step.what(), step.command())?;
        }
        Ok(())
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Made>()]
}
