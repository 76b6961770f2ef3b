//! The shape of a seed book.

use schemars::JsonSchema;
use serde::Deserialize;
use toml::Spanned;

/// Lots of seed with what is known of them.
#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct File {
    /// The lots; one that others were sown from stands before them.
    #[serde(default)]
    #[schemars(with = "Vec<LotFile>")]
    pub(super) lot: Vec<Spanned<LotFile>>,
}

/// A lot.
#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct LotFile {
    /// Its number.
    pub(super) number: String,
    /// The variety's name or alias.
    pub(super) variety: String,
    /// The year of harvest.
    #[schemars(with = "i16")]
    pub(super) season: Spanned<i16>,
    /// The day its seed came in.
    #[schemars(with = "String")]
    pub(super) on: Spanned<String>,
    /// How much came in, with its unit.
    #[schemars(with = "String")]
    pub(super) seed: Spanned<String>,
    /// The day its last seed was taken from fruit.
    #[schemars(with = "Option<String>")]
    pub(super) harvested: Option<Spanned<String>>,
    /// The grow-out that it was grown in.
    pub(super) grow_out: Option<String>,
    /// The plot, by the label on its stake.
    pub(super) plot: Option<String>,
    /// The number of the lot that its parents were sown from.
    pub(super) sown_from: Option<String>,
    /// Plants that its fruit was taken from.
    pub(super) parents: Option<u32>,
    /// Distance to the nearest tomato of another variety, with its unit.
    #[schemars(with = "Option<String>")]
    pub(super) isolation: Option<Spanned<String>>,
    /// How its seed was taken out of the fruit.
    pub(super) extraction: Option<String>,
    /// How it was dried.
    pub(super) drying: Option<String>,
    /// What it was treated with.
    pub(super) treatment: Option<String>,
    /// The shelf, jar or room.
    pub(super) location: Option<String>,
    /// How warm it is there, with its scale.
    #[schemars(with = "Option<String>")]
    pub(super) warmth: Option<Spanned<String>>,
    /// open, or hermetic.
    #[schemars(with = "Option<String>")]
    pub(super) packing: Option<Spanned<String>>,
    /// What replicates of its seed weighed.
    #[serde(default)]
    #[schemars(with = "Vec<String>")]
    pub(super) weighed: Vec<Spanned<String>>,
    /// Seeds of each; 100 where it is left out.
    pub(super) seeds_weighed: Option<u32>,
    /// Its moisture in per cent.
    #[schemars(with = "Option<String>")]
    pub(super) moisture: Option<Spanned<String>>,
    /// Seed of it that is kept as its file sample from the day it came in, with its unit.
    #[schemars(with = "Option<String>")]
    pub(super) file_sample: Option<Spanned<String>>,
    /// Its germination tests.
    #[serde(default)]
    #[schemars(with = "Vec<TestFile>")]
    pub(super) test: Vec<Spanned<TestFile>>,
    /// Packets that were filled.
    #[serde(default)]
    pub(super) packets: Vec<PacketsFile>,
    /// Plants of it that were looked at.
    #[serde(default)]
    pub(super) inspected: Vec<InspectedFile>,
}

/// A germination test.
#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct TestFile {
    /// The day the seeds were laid out.
    #[schemars(with = "String")]
    pub(super) begun: Spanned<String>,
    /// The day of the first count.
    #[schemars(with = "Option<String>")]
    pub(super) first_counted: Option<Spanned<String>>,
    /// The day of the final count.
    #[schemars(with = "String")]
    pub(super) counted: Spanned<String>,
    /// Seeds of each replicate.
    pub(super) seeds: u32,
    /// Normal seedlings of each.
    pub(super) normal: Vec<u32>,
    /// Abnormal seedlings of each.
    #[serde(default)]
    pub(super) abnormal: Vec<u32>,
    /// Hard seeds of each.
    #[serde(default)]
    pub(super) hard: Vec<u32>,
    /// Normal seedlings at the first count.
    #[serde(default)]
    pub(super) first: Vec<u32>,
    /// Whether a seed-testing laboratory made it.
    #[serde(default)]
    pub(super) laboratory: bool,
}

/// Packets that were filled out of the jar.
#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct PacketsFile {
    /// The day.
    #[schemars(with = "String")]
    pub(super) on: Spanned<String>,
    /// How many.
    pub(super) count: u32,
    /// Seed in each, with its unit.
    #[schemars(with = "String")]
    pub(super) of: Spanned<String>,
    /// How many of them were sold.
    #[serde(default)]
    pub(super) sold: u32,
    /// The day by which they were; that of packing where it is left out.
    #[schemars(with = "Option<String>")]
    pub(super) sold_by: Option<Spanned<String>>,
}

/// Plants of a lot that were looked at.
#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct InspectedFile {
    /// The day.
    #[schemars(with = "String")]
    pub(super) on: Spanned<String>,
    /// How many.
    pub(super) plants: u32,
    /// Those that are something else, such as `potato leaf=2`.
    #[serde(default)]
    #[schemars(with = "Vec<String>")]
    pub(super) off_types: Vec<Spanned<String>>,
}

/// The shape of the file.
#[must_use]
pub fn schema() -> schemars::Schema {
    schemars::schema_for!(File)
}
