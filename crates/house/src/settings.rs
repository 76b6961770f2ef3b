//! The house's settings: its name, its units, who keeps the notes, and where the ledger lives.
//!
//! They are kept in `house.toml`, which the owner may edit; comments and order survive our changes.

use record::language::Units;
use serde::Deserialize;
use toml_edit::{DocumentMut, value};

/// What `house.toml` says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Settings {
    /// The name printed on the list.
    pub name: String,
    /// The units that come first.
    pub units: Units,
    /// Whose name goes with what is taken in, unless another is given.
    pub keeper: String,
    /// The shared PostgreSQL server's address, for a house whose ledger several people share.
    pub postgres: Option<String>,
}

/// What is wrong with a settings file.
#[derive(Debug, thiserror::Error)]
pub enum SettingsFault {
    /// Not TOML, or a key is missing, unknown or of the wrong form.
    #[error("{0}")]
    Form(#[from] toml::de::Error),
    /// Not TOML, found while keeping the owner's comments.
    #[error("{0}")]
    Edit(#[from] toml_edit::TomlError),
    /// Units of another language.
    #[error("units {0:?} are not known")]
    Units(String),
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    name: String,
    units: String,
    keeper: String,
    postgres: Option<String>,
}

/// Reads settings from the text of `house.toml`.
///
/// # Errors
/// [`SettingsFault`] with the line for what is not TOML, or naming the value that is not known.
pub fn from_toml(text: &str) -> Result<Settings, SettingsFault> {
    let file: File = toml::from_str(text)?;
    let units = units_from_word(&file.units).ok_or(SettingsFault::Units(file.units))?;
    Ok(Settings { name: file.name, units, keeper: file.keeper, postgres: file.postgres })
}

/// Writes settings as a new `house.toml` with a comment above each.
#[must_use]
pub fn to_toml(settings: &Settings) -> String {
    let mut text = NEW_FILE.to_owned();
    if let Ok(changed) = change(&text, settings) {
        text = changed;
    }
    text
}

/// Puts `settings` into an existing file's `text`, keeping its comments and order.
///
/// # Errors
/// [`SettingsFault::Edit`] where `text` is not TOML.
pub fn change(text: &str, settings: &Settings) -> Result<String, SettingsFault> {
    let mut document: DocumentMut = text.parse()?;
    for (key, new) in [
        ("name", settings.name.as_str()),
        ("units", units_to_word(settings.units)),
        ("keeper", settings.keeper.as_str()),
    ] {
        set(&mut document, key, new);
    }
    match &settings.postgres {
        Some(url) => set(&mut document, "postgres", url),
        None => drop(document.remove("postgres")),
    }
    Ok(document.to_string())
}

/// The word for units in files and on the command line.
#[must_use]
pub fn units_to_word(units: Units) -> &'static str {
    match units {
        Units::Us => "us",
        Units::Metric => "metric",
    }
}

/// Reads the word for units.
#[must_use]
pub fn units_from_word(word: &str) -> Option<Units> {
    [Units::Us, Units::Metric].into_iter().find(|units| units_to_word(*units) == word)
}

fn set(document: &mut DocumentMut, key: &str, new: &str) {
    let decor = document.get(key).and_then(|item| item.as_value()).map(|old| old.decor().clone());
    document[key] = value(new);
    if let (Some(decor), Some(new)) = (decor, document.get_mut(key).and_then(|item| item.as_value_mut())) {
        *new.decor_mut() = decor;
    }
}

const NEW_FILE: &str = r#"# The house: change a line and save; locule reads it at each start.

# The name on the list and the catalogue.
name = ""
# Units that come first: "us" (ounces, inches) or "metric" (grams, millimetres).
units = "us"
# Who keeps the notes, unless `--by` says otherwise.
keeper = ""
# A shared ledger: postgres = "postgresql://user@host/database"
"#;

#[cfg(test)]
mod tests {
    use super::*;

    fn settings(name: &str) -> Settings {
        Settings { name: name.into(), units: Units::Metric, keeper: "Wren".into(), postgres: None }
    }

    #[test]
    fn what_is_written_is_read_back_even_with_quotes_in_it() {
        let odd = settings("The \"Old\" Barn # 2\n");
        assert_eq!(from_toml(&to_toml(&odd)).unwrap(), odd);
    }

    #[test]
    fn the_owners_comments_survive_a_change() {
        let before = to_toml(&settings("Before")).replace("# Who keeps", "# Ask Wren who keeps");
        let after = change(&before, &settings("After")).unwrap();
        assert!(after.contains("# Ask Wren who keeps"), "{after}");
        assert_eq!(from_toml(&after).unwrap().name, "After");
    }

    #[test]
    fn a_key_that_is_not_known_is_named() {
        let fault = from_toml("name='a'\nunits='us'\nkeeper='b'\ncolour='red'").unwrap_err();
        assert!(fault.to_string().contains("colour"), "{fault}");
    }
}
