//! Whose law lots are judged by, and the house's own minimum beside it.
//!
//! Both stand in the house's settings; a question may name another law or minimum for itself. Start at [`Asked::of`].

use super::packets;
use crate::fault::HouseFault;
use crate::folder::House;
use crate::settings::Settings;
use jiff::civil::Date;
use record::share::WholePercent;
use seedroom::account::{GoesBy, SPARE_DAYS};
use seedroom::label::guide::{self, Guide};

/// Whose law a lot is judged by.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Law {
    /// The United States, between states.
    #[default]
    UnitedStates,
    /// Kentucky.
    Kentucky,
    /// The European Union.
    EuropeanUnion,
}

impl Law {
    /// All of them, with the word of each in files and on the command line, and in words.
    pub const ALL: [(Self, &'static str, &'static str); 3] = [
        (Self::UnitedStates, "us", "United States, between states"),
        (Self::Kentucky, "us-ky", "Kentucky, beside the federal rules"),
        (Self::EuropeanUnion, "eu", "European Union, from memory and unverified"),
    ];

    /// Its guide's file.
    pub(super) fn file(self) -> &'static str {
        match self {
            Self::UnitedStates => "guides/packets-us.toml",
            Self::Kentucky => "guides/packets-us-ky.toml",
            Self::EuropeanUnion => "guides/packets-eu.toml",
        }
    }

    /// Its word.
    #[must_use]
    pub fn word(self) -> &'static str {
        Self::ALL.iter().find(|(law, ..)| *law == self).map_or("", |(_, word, _)| word)
    }

    /// The law of a word.
    #[must_use]
    pub fn of_word(word: &str) -> Option<Self> {
        Self::ALL.iter().find(|(_, known, _)| *known == word).map(|(law, ..)| *law)
    }

    /// Whose law it is, in words.
    #[must_use]
    pub fn words(self) -> &'static str {
        Self::ALL.iter().find(|(law, ..)| *law == self).map_or("", |(.., words)| words)
    }
}

/// What is asked of all lots.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Asked {
    /// The day.
    pub today: Date,
    /// Whose law.
    pub law: Law,
    /// The house's own minimum, where it has one.
    pub minimum: Option<WholePercent>,
}

/// What a question says of the law for itself, in the place of the house's settings.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct ForOnce {
    /// Another law: then the house's own minimum is left out too, unless one is named beside it.
    pub law: Option<Law>,
    /// Another minimum.
    pub minimum: Option<WholePercent>,
}

impl Asked {
    /// Asks by the house's settings.
    #[must_use]
    pub fn of(house: &House, today: Date) -> Self {
        Self::by(&house.settings, today, ForOnce::default())
    }

    /// Asks by the house's settings, but for what a question says for itself.
    #[must_use]
    pub fn by(settings: &Settings, today: Date, once: ForOnce) -> Self {
        let own = settings.minimum.filter(|_| once.law.is_none());
        Self { today, law: once.law.unwrap_or(settings.law), minimum: once.minimum.or(own) }
    }
}

/// What lots are judged by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct JudgedBy {
    /// Least germination, hard seed with it: the house's own where it asks for more than the law.
    pub minimum: WholePercent,
    /// Least germination that the law lets be sold without words.
    pub lawful: WholePercent,
    /// Where the minimum stands, as words.
    pub rule: String,
}

impl JudgedBy {
    /// The same where packets are put to several guides: the strictest standard of them is the law's.
    pub(super) fn with(self, guides: &[Guide]) -> Self {
        let strictest =
            guides.iter().filter_map(|guide| guide.standard.as_ref()).map(|(least, _)| *least).max();
        let lawful = strictest.unwrap_or(self.lawful).max(self.lawful);
        Self { lawful, minimum: self.minimum.max(lawful), ..self }
    }

    /// What a lot's account goes by.
    pub(super) fn goes_by(&self, asked: Asked) -> GoesBy {
        GoesBy { today: asked.today, minimum: self.minimum, lawful: self.lawful, spare_days: SPARE_DAYS }
    }
}

/// Finds the minimum that lots are judged by: the stricter of the law's and the house's own.
///
/// # Errors
/// A guide's fault; what the disk refuses.
pub fn judged_by(house: &House, asked: Asked) -> Result<JudgedBy, HouseFault> {
    let guide = packets::guide(house, asked.law.file())?;
    let (lawful, rule) = match guide.standard {
        Some((minimum, rule)) => (minimum, rule_words(&guide.jurisdiction, &rule)),
        None => (
            seedroom::germination::TOMATO_STANDARD,
            format!("{}: no minimum of its own, so that of 7 CFR 201.31", guide.jurisdiction),
        ),
    };
    let by = |minimum, rule| JudgedBy { minimum, lawful, rule };
    Ok(match asked.minimum {
        Some(own) if lawful < own => {
            by(own, format!("the house's own minimum, above the {}% of the law ({rule})", lawful.get()))
        }
        Some(own) if own < lawful => {
            by(lawful, format!("{rule}; the house's own {}% is less, and does not count", own.get()))
        }
        _ => by(lawful, rule),
    })
}

fn rule_words(jurisdiction: &str, rule: &guide::Rule) -> String {
    let seen = match rule.status {
        guide::Status::Read => "",
        guide::Status::Unverified => " (unverified: check it before relying on it)",
    };
    format!("{jurisdiction}: {}{seen}", rule.source)
}
