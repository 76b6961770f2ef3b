//! The house's folder: made once, then found from anywhere inside it.
//!
//! A house is a folder with `house.toml`, the ledger, `guides/`, `photos/` and `printed/`. It is found
//! by looking upwards from where one stands. Start at [`find`].

use crate::fault::HouseFault;
use crate::settings::{self, Settings};
use ledger::batch::Act;
use ledger::ledger::Ledger;
use std::fs;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

/// The file that makes a folder a house.
pub const SETTINGS_FILE: &str = "house.toml";
/// The ledger's file in the house.
const LEDGER_FILE: &str = "ledger.db";

/// Guides that a new house starts with: file name and text.
pub const SHIPPED_GUIDES: [(&str, &str); 3] = [
    ("fruit.toml", include_str!("../../../guides/fruit.toml")),
    ("habit.toml", include_str!("../../../guides/habit.toml")),
    ("colour.toml", include_str!("../../../guides/colour.toml")),
];

/// An existing house: where it is and how it is set.
#[derive(Clone, Debug)]
pub struct House {
    /// The folder.
    pub folder: PathBuf,
    /// What `house.toml` says.
    pub settings: Settings,
}

impl House {
    /// Where the ledger is kept.
    #[must_use]
    pub fn ledger_location(&self) -> ledger::location::Location {
        match &self.settings.postgres {
            Some(url) => ledger::location::Location::Postgres(url.clone()),
            None => ledger::location::Location::File(self.folder.join(LEDGER_FILE)),
        }
    }

    /// The folder of the house's rules.
    #[must_use]
    pub fn guides(&self) -> PathBuf {
        self.folder.join("guides")
    }

    /// The folder that printed sheets go to.
    #[must_use]
    pub fn printed(&self) -> PathBuf {
        self.folder.join("printed")
    }
}

/// Makes an empty house in `folder`, which must be empty or not there yet.
///
/// # Errors
/// [`HouseFault::NotEmpty`] where something is there already; nothing is changed then.
pub fn create(folder: &Path, settings: &Settings, act: &Act) -> Result<House, HouseFault> {
    let holds_something = fs::read_dir(folder).is_ok_and(|mut entries| entries.next().is_some());
    if holds_something {
        return Err(HouseFault::NotEmpty(folder.to_owned()));
    }
    settings::refuse_unfit(settings)
        .map_err(|fault| HouseFault::Settings { file: folder.to_owned(), fault })?;
    fs::create_dir_all(folder).map_err(|fault| HouseFault::file(folder, fault))?;
    let house = House { folder: folder.to_owned(), settings: settings.clone() };
    // The ledger comes first: where a server refuses, the folder is still empty and the start can be repeated.
    let mut ledger = Ledger::create(&house.ledger_location())?;
    for inner in ["guides", "photos", "printed"] {
        let inner = folder.join(inner);
        fs::create_dir_all(&inner).map_err(|fault| HouseFault::file(&inner, fault))?;
    }
    for (name, text) in SHIPPED_GUIDES {
        write(&folder.join("guides").join(name), text)?;
    }
    for (name, text) in SHIPPED_GUIDES {
        ledger.accept_guide(act, name.trim_end_matches(".toml"), text)?;
    }
    // The settings come last: a folder that lacks them is no house yet.
    write(&folder.join(SETTINGS_FILE), settings::to_toml(settings))?;
    Ok(house)
}

/// Finds the house: `named` if given, else the nearest folder at or above `from` that is one.
///
/// # Errors
/// [`HouseFault::NoHouse`] where there is none; a fault of the settings file where it cannot be read.
pub fn find(named: Option<&Path>, from: &Path) -> Result<House, HouseFault> {
    let is_house = |folder: &&Path| folder.join(SETTINGS_FILE).is_file();
    let found = match named {
        Some(folder) => Some(folder).filter(is_house),
        None => from.ancestors().find(is_house),
    };
    let folder = found.ok_or_else(|| HouseFault::NoHouse(named.unwrap_or(from).to_owned()))?.to_owned();
    let file = folder.join(SETTINGS_FILE);
    let text = fs::read_to_string(&file).map_err(|fault| HouseFault::file(&file, fault))?;
    let settings = settings::from_toml(&text).map_err(|fault| HouseFault::Settings { file, fault })?;
    Ok(House { folder, settings })
}

/// Writes changed settings into the house's file, keeping the owner's comments.
///
/// # Errors
/// What the disk refuses; a settings fault where the file is no longer TOML.
pub fn change_settings(house: &House) -> Result<(), HouseFault> {
    let file = house.folder.join(SETTINGS_FILE);
    if let Err(fault) = settings::refuse_unfit(&house.settings) {
        return Err(HouseFault::Settings { file, fault });
    }
    let text = fs::read_to_string(&file).map_err(|fault| HouseFault::file(&file, fault))?;
    match settings::change(&text, &house.settings) {
        Ok(changed) => write(&file, changed),
        Err(fault) => Err(HouseFault::Settings { file, fault }),
    }
}

/// Writes a whole file or nothing: to a neighbour first, then renamed into place.
pub(crate) fn write(file: &Path, content: impl AsRef<[u8]>) -> Result<(), HouseFault> {
    write_with(file, content, || Ok(()))
}

/// Writes a whole file and does what belongs to it, both or neither: the file is moved into place once the other is done.
pub(crate) fn write_with<T>(
    file: &Path,
    content: impl AsRef<[u8]>,
    other: impl FnOnce() -> Result<T, HouseFault>,
) -> Result<T, HouseFault> {
    let mut part = file.as_os_str().to_owned();
    part.push(".part");
    let part = PathBuf::from(part);
    let refused = |fault: std::io::Error| {
        let missing = file.parent().filter(|_| fault.kind() == ErrorKind::NotFound);
        HouseFault::file(missing.unwrap_or(file), fault)
    };
    let written = fs::write(&part, content).map_err(refused).and_then(|()| other());
    let moved = written.and_then(|done| fs::rename(&part, file).map(|()| done).map_err(refused));
    if moved.is_err() {
        // The first fault is the one to tell.
        let _ = fs::remove_file(&part);
    }
    moved
}
