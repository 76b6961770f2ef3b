//! The fruit-class guide as its TOML text holds it, before anything is checked.

use serde::Deserialize;
use std::collections::BTreeMap;
use toml::Spanned;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawGuide {
    pub(super) title: String,
    pub(super) version: String,
    pub(super) softness: RawSoftness,
    #[serde(default)]
    pub(super) border: BTreeMap<String, RawBorder>,
    #[serde(default)]
    pub(super) class: Vec<RawClass>,
    #[serde(default)]
    pub(super) mark: Vec<RawMark>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawBorder {
    pub(super) measure: Spanned<String>,
    pub(super) at: Spanned<RawQuantity>,
    pub(super) source: Spanned<String>,
    #[serde(default)]
    pub(super) contradicted_by: Vec<String>,
}

#[derive(Deserialize)]
#[serde(untagged)]
pub(super) enum RawQuantity {
    Count(i64),
    Number(f64),
    Words(String),
}

impl RawQuantity {
    pub(super) fn words(&self) -> String {
        match self {
            Self::Count(count) => count.to_string(),
            Self::Number(number) => number.to_string(),
            Self::Words(words) => words.clone(),
        }
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawClass {
    pub(super) name: Spanned<String>,
    pub(super) source: Spanned<String>,
    #[serde(default)]
    pub(super) contradicted_by: Vec<String>,
    pub(super) ways: Spanned<Vec<Spanned<RawByMeasure<RawBand>>>>,
    #[serde(default)]
    pub(super) what: String,
    #[serde(default)]
    pub(super) good_for: String,
    #[serde(default)]
    pub(super) mistaken_for: String,
    #[serde(default)]
    pub(super) flesh: String,
    #[serde(default)]
    pub(super) uses: Vec<Spanned<String>>,
    #[serde(default)]
    pub(super) uses_source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawMark {
    pub(super) name: Spanned<String>,
    pub(super) source: Spanned<String>,
    #[serde(default)]
    pub(super) contradicted_by: Vec<String>,
    pub(super) ways: Spanned<Vec<Spanned<RawByMeasure<RawBand>>>>,
    #[serde(default)]
    pub(super) what: String,
    #[serde(default)]
    pub(super) uses: Vec<Spanned<String>>,
    #[serde(default)]
    pub(super) uses_source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawBand {
    pub(super) from: Option<Spanned<String>>,
    pub(super) below: Option<Spanned<String>>,
}

pub(super) type RawSoftness = RawByMeasure<RawGive>;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawGive {
    pub(super) give_or_take: Spanned<String>,
    pub(super) source: Spanned<String>,
    #[serde(default)]
    pub(super) contradicted_by: Vec<String>,
}

/// One optional entry a measure, each under the measure's name.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, bound = "Of: Deserialize<'de>")]
pub(super) struct RawByMeasure<Of> {
    pub(super) weight: Option<Of>,
    pub(super) width: Option<Of>,
    pub(super) length: Option<Of>,
    pub(super) shape: Option<Of>,
    pub(super) neck: Option<Of>,
    pub(super) fullness: Option<Of>,
    pub(super) locules: Option<Of>,
    pub(super) lobes: Option<Of>,
    pub(super) dry_matter: Option<Of>,
    pub(super) soluble_solids: Option<Of>,
}

impl<Of> RawByMeasure<Of> {
    /// The entries in the order of `Measure`.
    pub(super) fn in_order(&self) -> [Option<&Of>; super::MEASURE_COUNT] {
        [
            &self.weight,
            &self.width,
            &self.length,
            &self.shape,
            &self.neck,
            &self.fullness,
            &self.locules,
            &self.lobes,
            &self.dry_matter,
            &self.soluble_solids,
        ]
        .map(Option::as_ref)
    }
}
