//! The shape of a request's file. What its words mean is in `super::meaning`.

use schemars::JsonSchema;
use serde::Deserialize;
use toml::Spanned;

/// What a garden and its kitchen ask, as the file says it.
#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct File {
    /// In how many years of ten all must be had; 8 where it is left out.
    #[schemars(with = "Option<u32>")]
    pub(super) years_in_ten: Option<Spanned<u32>>,
    /// At most so many varieties.
    #[schemars(with = "Option<u32>")]
    pub(super) most_varieties: Option<Spanned<u32>>,
    /// Words that the list is asked with, such as `red, not tall`: only what it finds is planted.
    pub(super) only: Option<String>,
    /// Varieties that must have a plant.
    #[serde(default)]
    pub(super) wanted: Vec<String>,
    /// Varieties that must have none.
    #[serde(default)]
    pub(super) barred: Vec<String>,
    /// Varieties that are chosen before others where that costs no plant.
    #[serde(default)]
    pub(super) favourites: Vec<String>,
    /// Varieties that seed is saved of: they have a plant, and how far from the others they would stand is told.
    #[serde(default)]
    pub(super) for_seed: Vec<String>,
    /// The garden.
    #[schemars(with = "GardenFile")]
    pub(super) garden: Spanned<GardenFile>,
    /// The kitchen.
    pub(super) kitchen: Option<KitchenFile>,
    /// What is put up.
    #[serde(default)]
    #[schemars(with = "Vec<PutUpFile>")]
    pub(super) put_up: Vec<Spanned<PutUpFile>>,
    /// What is eaten fresh.
    #[serde(default)]
    #[schemars(with = "Vec<FreshFile>")]
    pub(super) fresh: Vec<Spanned<FreshFile>>,
}

/// A garden.
#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct GardenFile {
    /// A garden that the house has told of.
    pub(super) name: Option<String>,
    /// A station that is kept or known, in the place of a garden.
    pub(super) weather: Option<String>,
    /// In how many years of ten a frost after planting is risked: 1, 5 or 9.
    #[schemars(with = "Option<u32>")]
    pub(super) frost_risk: Option<Spanned<u32>>,
    /// Month and day on which the first plants go out; by the garden's calendar where it is left out.
    #[schemars(with = "Option<String>")]
    pub(super) plants_out: Option<Spanned<String>>,
    /// Sets of plants, each two weeks after the one before; 1 where it is left out.
    #[schemars(with = "Option<u32>")]
    pub(super) waves: Option<Spanned<u32>>,
    /// Between plants of a row, with its unit.
    #[schemars(with = "Option<String>")]
    pub(super) between_plants: Option<Spanned<String>>,
    /// Between rows, with its unit.
    #[schemars(with = "Option<String>")]
    pub(super) between_rows: Option<Spanned<String>>,
    /// Containers, one plant each.
    #[serde(default)]
    pub(super) containers: u32,
    /// What each of them holds, with its unit, gal or l; 5 gal where it is left out.
    #[schemars(with = "Option<String>")]
    pub(super) container_volume: Option<Spanned<String>>,
    /// light or heavy: the row cover that lies over young plants for their first five weeks; none where it is left out.
    #[schemars(with = "Option<String>")]
    pub(super) row_cover: Option<Spanned<String>>,
    /// How high plants are held up, with its unit: varieties that were measured taller are not planted unless they are wanted.
    #[schemars(with = "Option<String>")]
    pub(super) stake_height: Option<Spanned<String>>,
    /// The beds.
    #[serde(default)]
    pub(super) bed: Vec<BedFile>,
}

/// A bed.
#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct BedFile {
    /// How long it is, with its unit; rows run along it.
    #[schemars(with = "String")]
    pub(super) length: Spanned<String>,
    /// How wide it is, with its unit.
    #[schemars(with = "String")]
    pub(super) width: Spanned<String>,
}

/// A kitchen.
#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct KitchenFile {
    /// How high it lies, with its unit: process times go by it.
    #[schemars(with = "Option<String>")]
    pub(super) altitude: Option<Spanned<String>>,
    /// boiling water, steam, pressure by dial or pressure by weight.
    #[schemars(with = "Option<String>")]
    pub(super) canner: Option<Spanned<String>>,
    /// induction, electric or gas.
    #[schemars(with = "Option<String>")]
    pub(super) burner: Option<Spanned<String>>,
    /// The burner's power in kilowatts.
    #[schemars(with = "Option<f64>")]
    pub(super) kilowatts: Option<Spanned<f64>>,
}

/// One class of fruit, or several that will do.
#[derive(Deserialize, JsonSchema)]
#[serde(untagged)]
pub(super) enum Classes {
    /// One.
    One(String),
    /// Several.
    Several(Vec<String>),
}

/// Something that is put up.
#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct PutUpFile {
    /// As what, such as crushed, thick sauce or paste.
    #[schemars(with = "String")]
    pub(super) what: Spanned<String>,
    /// The fruit classes that will do.
    #[schemars(with = "Classes")]
    pub(super) class: Spanned<Classes>,
    /// So many jars.
    pub(super) jars: Option<u32>,
    /// Their size: pint or quart.
    #[schemars(with = "Option<String>")]
    pub(super) jar: Option<Spanned<String>>,
    /// So much fruit as picked, in the place of jars, with its unit.
    #[schemars(with = "Option<String>")]
    pub(super) fruit: Option<Spanned<String>>,
    /// On at most so many kitchen days, no two in one week; 1 where it is left out.
    #[schemars(with = "Option<u32>")]
    pub(super) days: Option<Spanned<u32>>,
    /// Fruit of so many weeks before a kitchen day keeps for it, up to 3; none where it is left out.
    #[schemars(with = "Option<u32>")]
    pub(super) keeps_weeks: Option<Spanned<u32>>,
    /// high or low: only varieties whose soluble solids were measured on that side of the middle one of their classes.
    #[schemars(with = "Option<String>")]
    pub(super) solids: Option<Spanned<String>>,
    /// Canner loads that a kitchen day can take.
    #[schemars(with = "Option<u32>")]
    pub(super) loads_a_day: Option<Spanned<u32>>,
    /// Fruit that a kitchen day can take, in the place of loads, with its unit.
    #[schemars(with = "Option<String>")]
    pub(super) fruit_a_day: Option<Spanned<String>>,
    /// Not before this month and day.
    #[schemars(with = "Option<String>")]
    pub(super) from: Option<Spanned<String>>,
    /// Not after this one.
    #[schemars(with = "Option<String>")]
    pub(super) to: Option<Spanned<String>>,
}

/// Something that is eaten fresh.
#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct FreshFile {
    /// The fruit classes that will do.
    #[schemars(with = "Classes")]
    pub(super) class: Spanned<Classes>,
    /// So much a week, with its unit.
    #[schemars(with = "String")]
    pub(super) a_week: Spanned<String>,
    /// From this month and day; from the first week that bears so much where it is left out.
    #[schemars(with = "Option<String>")]
    pub(super) from: Option<Spanned<String>>,
    /// To this one; to the last such week where it is left out.
    #[schemars(with = "Option<String>")]
    pub(super) to: Option<Spanned<String>>,
}

/// The shape of the file.
#[must_use]
pub fn schema() -> schemars::Schema {
    schemars::schema_for!(File)
}
