//! `locule settings`: the house's name, units and keeper, and whose law its seed falls under.

use super::Failure;
use super::lots::law;
use super::new::units;
use super::reference::{Shape, shape};
use crate::answer::Answer;
use crate::arguments::{Settings, WrittenWord};
use house::folder::{self, House};
use house::pages;
use house::settings::{system_to_word, written_to_word};
use record::language::Written;
use record::share::WholePercent;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// The settings as they stand.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Stand {
    /// The house's folder.
    folder: String,
    /// The name on the list.
    name: String,
    /// `us` or `metric`.
    units: String,
    /// How they are written in sentences: `signs` or `words`.
    units_written: String,
    /// Who keeps the notes.
    keeper: String,
    /// Where the house's web pages stand on the web, if they do.
    site: Option<String>,
    /// Stations in whose weather buyers garden; all that are known where none are said.
    sells_to: Option<Vec<String>>,
    /// The address that packets are sent from, where it is told.
    address: Option<String>,
    /// Whose law seed is judged and labelled by: `us`, `us-ky` or `eu`.
    law: String,
    /// The same in words.
    law_words: String,
    /// The house's own least germination in per cent, where it has one.
    minimum_percent: Option<u8>,
}

pub(crate) fn run(mut house: House, typed: Settings) -> Result<Stand, Failure> {
    let before = house.settings.clone();
    let settings = &mut house.settings;
    settings.units.first = typed.units.map_or(settings.units.first, |word| units(word).first);
    settings.units.written = typed.units_written.map_or(settings.units.written, written);
    settings.name = typed.name.unwrap_or_else(|| settings.name.clone());
    settings.keeper = typed.keeper.unwrap_or_else(|| settings.keeper.clone());
    if let Some(site) = typed.site {
        settings.site = Some(site).filter(|site| !site.is_empty());
    }
    if !typed.sells_to.is_empty() {
        let stations: Vec<String> = typed.sells_to.into_iter().filter(|name| !name.is_empty()).collect();
        settings.sells_to = Some(stations).filter(|stations| !stations.is_empty());
    }
    if let Some(address) = typed.address {
        settings.address = Some(address).filter(|address| !address.is_empty());
    }
    settings.law = typed.law.map_or(settings.law, law);
    if let Some(percent) = typed.minimum {
        settings.minimum = WholePercent::new(percent).filter(|_| 0 < percent);
    }
    if house.settings.sells_to != before.sells_to {
        pages::refuse_unknown_regions(&house)?;
    }
    if house.settings != before {
        folder::change_settings(&house)?;
    }
    Ok(Stand {
        folder: house.folder.display().to_string(),
        name: house.settings.name,
        units: system_to_word(house.settings.units.first).to_owned(),
        units_written: written_to_word(house.settings.units.written).to_owned(),
        keeper: house.settings.keeper,
        site: house.settings.site,
        sells_to: house.settings.sells_to,
        address: house.settings.address,
        law: house.settings.law.word().to_owned(),
        law_words: house.settings.law.words().to_owned(),
        minimum_percent: house.settings.minimum.map(WholePercent::get),
    })
}

fn written(word: WrittenWord) -> Written {
    match word {
        WrittenWord::Signs => Written::Signs,
        WrittenWord::Words => Written::Words,
    }
}

impl Answer for Stand {
    const SHAPE: &'static str = "settings/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(to, "{} in {}", self.name, self.folder)?;
        writeln!(to, "  units: {}, written as {}", self.units, self.units_written)?;
        writeln!(to, "  keeper: {}", self.keeper)?;
        self.site.iter().try_for_each(|site| writeln!(to, "  web pages: {site}"))?;
        self.sells_to.iter().try_for_each(|stations| writeln!(to, "  sells to: {}", stations.join("; ")))?;
        self.address.iter().try_for_each(|address| writeln!(to, "  packets from: {address}"))?;
        writeln!(to, "  law of seed: {}", self.law_words)?;
        self.minimum_percent
            .iter()
            .try_for_each(|percent| writeln!(to, "  own least germination: {percent}%"))
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Stand>()]
}
