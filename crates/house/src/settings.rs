//! The house's settings: its name, its units, who keeps the notes, whose law its seed falls under, and where the ledger lives.
//!
//! They are kept in `house.toml`, which the owner may edit; comments and order survive our changes.

use crate::lots::law::Law;
use publish::pages::SiteAddress;
use record::language::{System, Units, Written};
use record::share::WholePercent;
use serde::Deserialize;
use std::ops::Range;
use toml_edit::{Array, DocumentMut, Item, TomlError, value};

/// What `house.toml` says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Settings {
    /// The name printed on the list.
    pub name: String,
    /// The units that come first, and how they are written.
    pub units: Units,
    /// Whose name goes with what is taken in, unless another is given.
    pub keeper: String,
    /// The shared PostgreSQL server's address, for a house whose ledger several people share.
    pub postgres: Option<String>,
    /// Where the house's web pages stand on the web, such as `https://example.org/list/`, if they do.
    pub site: Option<String>,
    /// The address that packets are sent from, on one line, as their labels must tell it.
    pub address: Option<String>,
    /// Whose law seed is judged and labelled by.
    pub law: Law,
    /// The house's own least germination, where it asks for more than the law.
    pub minimum: Option<WholePercent>,
    /// Stations in whose weather most buyers garden, for the web pages; all that are known where none are said.
    pub sells_to: Option<Vec<String>>,
}

/// What is wrong with a settings file.
#[derive(Debug, thiserror::Error)]
pub enum SettingsFault {
    /// Not TOML, or a key is missing, unknown or of the wrong form.
    #[error("line {line}: {message}")]
    Form {
        /// The line.
        line: usize,
        /// What is wrong there.
        message: String,
    },
    /// Units of another language.
    #[error("units: {0:?} is neither \"us\" nor \"metric\"")]
    Units(String),
    /// Units written in another way.
    #[error("units-written: {0:?} is neither \"signs\" nor \"words\"")]
    UnitsWritten(String),
    /// A law that there is no guide for.
    #[error("law: {0:?} is none of those that there are guides for")]
    Law(String),
    /// A least germination that is none.
    #[error("minimum-germination: {0} is no whole per cent from 1 to 100")]
    Minimum(i64),
    /// Web pages at an address that is none.
    #[error("site: {0:?} is no address of the web")]
    Site(String),
    /// A name, keeper or address that cannot be printed on a line.
    #[error("{key}: {value:?} cannot be a name")]
    NotAName {
        /// The key.
        key: &'static str,
        /// The value.
        value: String,
    },
}

impl SettingsFault {
    fn form(text: &str, at: Option<Range<usize>>, message: &str) -> Self {
        let before = at.and_then(|at| text.get(..at.start)).unwrap_or_default();
        Self::Form { line: 1 + before.matches('\n').count(), message: message.to_owned() }
    }

    /// What to do about it, in lower case with no full stop.
    #[must_use]
    pub fn help(&self) -> &'static str {
        match self {
            Self::Form { .. } => {
                "write name, units and keeper, each as key = \"words\"; postgres is only for a shared ledger, site and sells-to for web pages, address, law and minimum-germination for packets"
            }
            Self::Site(_) => "write an address such as https://example.org/list/, or leave it out",
            Self::Law(_) => "write law = \"us\", \"us-ky\" or \"eu\", or leave it out",
            Self::Minimum(_) => "write minimum-germination = 80, or leave it out",
            Self::UnitsWritten(_) => {
                "write units-written = \"signs\" (14.5 oz) or \"words\" (14.5 ounces), or leave it out"
            }
            Self::Units(_) => "write units = \"us\" or units = \"metric\"",
            Self::NotAName { .. } => "write some letters, on one line",
        }
    }
}

/// Refuses a name, keeper or address that is empty or holds line breaks and other signs that are no letters, and a site
/// that is no address.
///
/// # Errors
/// [`SettingsFault::NotAName`] with the key; [`SettingsFault::Site`].
pub fn refuse_unfit(settings: &Settings) -> Result<(), SettingsFault> {
    let address = settings.address.as_ref().map(|address| ("address", address));
    for (key, value) in [("name", &settings.name), ("keeper", &settings.keeper)].into_iter().chain(address) {
        if value.trim().is_empty() || value.chars().any(char::is_control) {
            return Err(SettingsFault::NotAName { key, value: value.clone() });
        }
    }
    match &settings.site {
        Some(site) if SiteAddress::new(site).is_none() => Err(SettingsFault::Site(site.clone())),
        _ => Ok(()),
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    name: String,
    units: String,
    #[serde(rename = "units-written")]
    units_written: Option<String>,
    keeper: String,
    postgres: Option<String>,
    site: Option<String>,
    address: Option<String>,
    law: Option<String>,
    #[serde(rename = "minimum-germination")]
    minimum: Option<i64>,
    #[serde(rename = "sells-to")]
    sells_to: Option<Vec<String>>,
}

/// Reads settings from the text of `house.toml`.
///
/// # Errors
/// [`SettingsFault`] with the line for what is not TOML, or naming the value that is not known.
pub fn from_toml(text: &str) -> Result<Settings, SettingsFault> {
    let file: File =
        toml::from_str(text).map_err(|fault| SettingsFault::form(text, fault.span(), fault.message()))?;
    let first = system_from_word(&file.units).ok_or(SettingsFault::Units(file.units))?;
    let written = match file.units_written {
        None => Written::Signs,
        Some(word) => written_from_word(&word).ok_or(SettingsFault::UnitsWritten(word))?,
    };
    let units = Units { first, written };
    let law = match file.law {
        None => Law::default(),
        Some(word) => Law::of_word(&word).ok_or(SettingsFault::Law(word))?,
    };
    let minimum = file.minimum.map(|percent| minimum(percent).ok_or(SettingsFault::Minimum(percent)));
    let minimum = minimum.transpose()?;
    let File { name, keeper, postgres, site, address, sells_to, .. } = file;
    let settings = Settings { name, units, keeper, postgres, site, address, sells_to, law, minimum };
    refuse_unfit(&settings)?;
    Ok(settings)
}

/// A least germination from 1 to 100 per cent.
fn minimum(percent: i64) -> Option<WholePercent> {
    u8::try_from(percent).ok().filter(|percent| 0 < *percent).and_then(WholePercent::new)
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
/// [`SettingsFault::Form`] where `text` is not TOML.
pub fn change(text: &str, settings: &Settings) -> Result<String, SettingsFault> {
    let mut document: DocumentMut =
        text.parse().map_err(|fault: TomlError| SettingsFault::form(text, fault.span(), fault.message()))?;
    for (key, new) in [
        ("name", settings.name.as_str()),
        ("units", system_to_word(settings.units.first)),
        ("units-written", written_to_word(settings.units.written)),
        ("keeper", settings.keeper.as_str()),
    ] {
        set(&mut document, key, value(new));
    }
    // A house that never chose a law keeps a file without one.
    if settings.law != Law::default() || document.contains_key("law") {
        set(&mut document, "law", value(settings.law.word()));
    }
    match settings.minimum {
        Some(percent) => set(&mut document, "minimum-germination", value(i64::from(percent.get()))),
        None => drop(document.remove("minimum-germination")),
    }
    let optional =
        [("postgres", &settings.postgres), ("site", &settings.site), ("address", &settings.address)];
    for (key, new) in optional {
        match new {
            Some(new) => set(&mut document, key, value(new)),
            None => drop(document.remove(key)),
        }
    }
    match &settings.sells_to {
        Some(stations) => drop(document.insert("sells-to", value(stations.iter().collect::<Array>()))),
        None => drop(document.remove("sells-to")),
    }
    Ok(document.to_string())
}

/// The word for a system of units in files and on the command line.
#[must_use]
pub fn system_to_word(system: System) -> &'static str {
    match system {
        System::Us => "us",
        System::Metric => "metric",
    }
}

/// Reads the word for a system of units.
#[must_use]
pub fn system_from_word(word: &str) -> Option<System> {
    [System::Us, System::Metric].into_iter().find(|system| system_to_word(*system) == word)
}

/// The word for how units are written, in files and on the command line.
#[must_use]
pub fn written_to_word(written: Written) -> &'static str {
    match written {
        Written::Signs => "signs",
        Written::Words => "words",
    }
}

/// Reads the word for how units are written.
#[must_use]
pub fn written_from_word(word: &str) -> Option<Written> {
    [Written::Signs, Written::Words].into_iter().find(|written| written_to_word(*written) == word)
}

fn set(document: &mut DocumentMut, key: &str, new: Item) {
    let decor = document.get(key).and_then(|item| item.as_value()).map(|old| old.decor().clone());
    document[key] = new;
    if let (Some(decor), Some(new)) = (decor, document.get_mut(key).and_then(|item| item.as_value_mut())) {
        *new.decor_mut() = decor;
    }
}

const NEW_FILE: &str = r#"# The house: change a line and save; locule reads it at each start.

# The name on the list and the catalogue.
name = ""
# Units that come first: "us" (ounces, inches) or "metric" (grams, millimetres).
units = "us"
# How units are written in sentences: "signs" (14.5 oz) or "words" (14.5 ounces).
units-written = "signs"
# Who keeps the notes, unless `--by` says otherwise.
keeper = ""
# A shared ledger: postgres = "postgresql://user@host/database"
# Where your web pages stand, for their site map: site = "https://example.org/list/"
# In whose weather your buyers garden, for the web pages: sells-to = ["Milwaukee WI", "Wooster OH"]
# The address on your packets: address = "4 Ferry Road, Low Barn, WI 53000"
# Whose law your seed is sold under, "us", "us-ky" or "eu": law = "us"
# Your own least germination in per cent, where you ask for more than the law: minimum-germination = 80
"#;

#[cfg(test)]
mod tests {
    use super::*;

    fn settings(name: &str) -> Settings {
        Settings {
            name: name.into(),
            units: Units::METRIC,
            keeper: "Wren".into(),
            postgres: None,
            site: None,
            address: None,
            law: Law::default(),
            minimum: None,
            sells_to: None,
        }
    }

    #[test]
    fn what_is_written_is_read_back_even_with_quotes_in_it() {
        let odd = settings("The \"Old\" Barn # 2");
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
        assert!(fault.to_string().starts_with("line 4: unknown field `colour`"), "{fault}");
    }

    #[test]
    fn units_may_be_written_out() {
        let words = Settings { units: Units { written: Written::Words, ..Units::US }, ..settings("Barn") };
        assert_eq!(from_toml(&to_toml(&words)).unwrap(), words);
        // A house made before there was a choice has signs.
        let old = from_toml("name='a'\nunits='us'\nkeeper='b'").unwrap();
        assert_eq!(old.units, Units::US);
        let odd = from_toml("name='a'\nunits='us'\nunits-written='runes'\nkeeper='b'").unwrap_err();
        assert_eq!(odd.to_string(), "units-written: \"runes\" is neither \"signs\" nor \"words\"");
    }

    #[test]
    fn a_site_is_an_address_of_the_web() {
        let at = |site: &str| Settings { site: Some(site.into()), ..settings("Barn") };
        let kept = at("https://example.org/list/");
        assert_eq!(from_toml(&to_toml(&kept)).unwrap(), kept);
        assert!(matches!(refuse_unfit(&at("javascript:1")), Err(SettingsFault::Site(_))));
    }

    #[test]
    fn law_and_minimum_are_kept_and_read_back() {
        let own = Settings { law: Law::EuropeanUnion, minimum: WholePercent::new(80), ..settings("Barn") };
        let text = to_toml(&own);
        assert_eq!(from_toml(&text).unwrap(), own);
        assert_eq!(from_toml(&change(&text, &settings("Barn")).unwrap()).unwrap(), settings("Barn"));
        let with = |line: &str| from_toml(&format!("name='a'\nunits='us'\nkeeper='b'\n{line}")).unwrap_err();
        assert!(matches!(with("law='moon'"), SettingsFault::Law(_)));
        assert!(matches!(with("minimum-germination=0"), SettingsFault::Minimum(0)));
        assert!(matches!(with("minimum-germination=101"), SettingsFault::Minimum(101)));
    }

    #[test]
    fn a_name_stands_on_one_line() {
        for odd in ["", "  ", "The\nBarn", "\u{1b}[31mBarn"] {
            assert!(matches!(refuse_unfit(&settings(odd)), Err(SettingsFault::NotAName { key: "name", .. })));
        }
    }
}
