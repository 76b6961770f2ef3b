//! The file that says what is to be laid out: plain TOML, each fault told by line and field.
//!
//! [`read`] turns its text into a [`Wanted`]; [`form::write`] makes such a text of a form's fields, so that the page and
//! the command say the same; [`written`] writes a wish as such a text; [`schema`] describes it for editors.

pub mod form;
pub mod written;

use crate::fault::HouseFault;
use crate::typed_file::{FileFault, Text};
use record::length::Millimetres;
use record::season::Season;
use schemars::JsonSchema;
use serde::Deserialize;
use toml::Spanned;
use trial::ground::{Bed, Garden, Planting, Stretch};
use trial::layout::{Choice, Kind};

/// What is to be laid out.
#[derive(Clone, Debug, PartialEq)]
pub struct Wanted {
    /// The grow-out's name.
    pub name: String,
    /// Its season.
    pub season: Season,
    /// What the draws are seeded by.
    pub seed: String,
    /// The kind of layout.
    pub kind: Choice,
    /// Plots of each variety that says nothing else.
    pub replicates: u32,
    /// Plots in a block, where the owner wants a size.
    pub block_size: Option<u32>,
    /// The varieties to compare.
    pub varieties: Varieties,
    /// Names of the checks.
    pub checks: Vec<String>,
    /// Varieties with plots or seed of their own.
    pub own: Vec<Own>,
    /// How plots are planted.
    pub planting: Planting,
    /// The gardens with their beds.
    pub gardens: Vec<Garden>,
}

/// Which varieties.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Varieties {
    /// These names.
    Named(Vec<String>),
    /// What the list finds for these words.
    OfTheList(String),
}

/// A variety with plots or seed of its own.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Own {
    /// Its name.
    pub name: String,
    /// How many plots it should have.
    pub plots: Option<u32>,
    /// How many plants there is seed for.
    pub plants: Option<u32>,
}

/// What is to be laid out, as the file says it.
#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct File {
    /// The grow-out's name.
    #[schemars(with = "String")]
    name: Spanned<String>,
    /// The year of harvest.
    #[schemars(with = "i16")]
    season: Spanned<i16>,
    /// What the draws are seeded by; the name where it is left out.
    seed: Option<String>,
    /// best, complete blocks, incomplete blocks, augmented blocks, partly replicated, or rows and columns.
    #[schemars(with = "Option<String>")]
    kind: Option<Spanned<String>>,
    /// Plots of each variety.
    #[schemars(with = "u32")]
    replicates: Spanned<u32>,
    /// Plots in a block.
    block_size: Option<u32>,
    /// Names of the varieties to compare.
    varieties: Option<Vec<String>>,
    /// Words that the list is asked with instead, such as `large red slicer`.
    filter: Option<String>,
    /// Names of the checks.
    #[serde(default)]
    checks: Vec<String>,
    /// Varieties with plots or seed of their own.
    #[serde(default)]
    variety: Vec<OwnFile>,
    /// How plots are planted.
    #[schemars(with = "PlantingFile")]
    planting: Spanned<PlantingFile>,
    /// The gardens.
    #[serde(default)]
    garden: Vec<GardenFile>,
}

/// A variety with plots or seed of its own.
#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct OwnFile {
    /// Its name.
    name: String,
    /// How many plots it should have.
    plots: Option<u32>,
    /// How many plants there is seed for.
    plants: Option<u32>,
}

/// How plots are planted.
#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct PlantingFile {
    /// Plants in a plot.
    plants: u32,
    /// Distance between plants in a row, with its unit.
    #[schemars(with = "String")]
    between_plants: Spanned<String>,
    /// Distance between rows of plants, with its unit.
    #[schemars(with = "String")]
    between_rows: Spanned<String>,
    /// Rows of plants that a plot takes; 1 where it is left out.
    rows_per_plot: Option<u32>,
    /// Guard plants in each row at either end of a bed.
    #[serde(default)]
    guard_plants: u32,
    /// Guard rows along the garden's edges.
    #[serde(default)]
    guard_rows: u32,
}

/// A garden.
#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct GardenFile {
    /// Its name.
    name: String,
    /// Its beds, in the order in which they lie.
    #[serde(default)]
    bed: Vec<BedFile>,
}

/// A bed.
#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct BedFile {
    /// Its name.
    name: String,
    /// How far it runs, with its unit.
    #[schemars(with = "String")]
    length: Spanned<String>,
    /// How wide it is, with its unit.
    #[schemars(with = "String")]
    width: Spanned<String>,
    /// The path between it and the next, with its unit.
    #[schemars(with = "Option<String>")]
    path: Option<Spanned<String>>,
    /// Stretches that are no use.
    #[serde(default)]
    unusable: Vec<StretchFile>,
}

/// A stretch of a bed that is no use.
#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct StretchFile {
    /// Where it begins, from the start of the bed.
    #[schemars(with = "String")]
    from: Spanned<String>,
    /// Where it ends, from the start of the bed.
    #[schemars(with = "String")]
    to: Spanned<String>,
    /// Why.
    why: String,
}

/// The shape of the file.
#[must_use]
pub fn schema() -> schemars::Schema {
    schemars::schema_for!(File)
}

/// Reads the text of a file named `file`.
///
/// # Errors
/// [`HouseFault::TypedFile`] with the line and the field.
pub fn read(file: &str, text: &str) -> Result<Wanted, HouseFault> {
    let text = Text { file, text };
    let help = "see docs/grow-outs.md for a whole file, or docs/json/layout-file-1.json for its shape";
    let raw: File = text.parsed(help).map_err(|fault| *fault)?;
    wanted(&text, raw).map_err(|fault| *fault).map_err(HouseFault::from)
}

fn wanted(text: &Text<'_>, raw: File) -> Result<Wanted, Box<FileFault>> {
    let name = raw.name.get_ref().trim().to_owned();
    if !name.chars().any(char::is_alphanumeric) {
        let fault = "a grow-out needs a name".to_owned();
        return Err(Box::new(text.fault(&raw.name.span(), fault, "write a name such as \"2031 Home\"")));
    }
    let season = Season::new(*raw.season.get_ref()).ok_or_else(|| {
        let fault = format!("{} is no season's year", raw.season.get_ref());
        Box::new(text.fault(&raw.season.span(), fault, "write the year of harvest in four figures"))
    })?;
    let varieties = varieties(text, &raw)?;
    Ok(Wanted {
        season,
        seed: raw.seed.clone().unwrap_or_else(|| name.clone()),
        name,
        kind: kind(text, raw.kind.as_ref())?,
        replicates: *raw.replicates.get_ref(),
        block_size: raw.block_size,
        varieties,
        checks: raw.checks,
        own: raw
            .variety
            .into_iter()
            .map(|own| Own { name: own.name, plots: own.plots, plants: own.plants })
            .collect(),
        planting: planting(text, raw.planting.get_ref())?,
        gardens: raw.garden.iter().map(|garden| read_garden(text, garden)).collect::<Result<_, _>>()?,
    })
}

fn varieties(text: &Text<'_>, raw: &File) -> Result<Varieties, Box<FileFault>> {
    match (&raw.varieties, &raw.filter) {
        (Some(_), Some(_)) => {
            let fault = "both varieties and filter say what to grow".to_owned();
            Err(Box::new(text.fault(&raw.name.span(), fault, "leave one of the two out")))
        }
        (None, Some(filter)) => Ok(Varieties::OfTheList(filter.clone())),
        (names, None) => Ok(Varieties::Named(names.clone().unwrap_or_default())),
    }
}

/// The word for leaving the kind to us.
pub const BEST: &str = "best";

/// The words for kinds of layout, the first for leaving it to us.
pub fn kinds() -> impl Iterator<Item = &'static str> {
    [BEST].into_iter().chain(Kind::ALL.map(Kind::name))
}

/// The kind of this name.
#[must_use]
pub fn kind_named(word: &str) -> Option<Choice> {
    let word = word.trim().to_lowercase();
    let asked = || Kind::ALL.into_iter().find(|kind| kind.name() == word).map(Choice::Asked);
    if word == BEST { Some(Choice::Best) } else { asked() }
}

fn kind(text: &Text<'_>, written: Option<&Spanned<String>>) -> Result<Choice, Box<FileFault>> {
    let Some(written) = written else { return Ok(Choice::Best) };
    kind_named(written.get_ref()).ok_or_else(|| {
        let known = kinds().collect::<Vec<_>>().join(", ");
        let fault = format!("{:?} is no kind of layout", written.get_ref());
        Box::new(text.fault(&written.span(), fault, &format!("write one of: {known}")))
    })
}

fn planting(text: &Text<'_>, raw: &PlantingFile) -> Result<Planting, Box<FileFault>> {
    Ok(Planting {
        plants_per_plot: raw.plants,
        between_plants: text.length(&raw.between_plants)?,
        between_rows: text.length(&raw.between_rows)?,
        rows_per_plot: raw.rows_per_plot.unwrap_or(1),
        guards_at_ends: raw.guard_plants,
        guard_rows: raw.guard_rows,
    })
}

fn read_garden(text: &Text<'_>, raw: &GardenFile) -> Result<Garden, Box<FileFault>> {
    let beds = raw.bed.iter().map(|bed| read_bed(text, bed)).collect::<Result<_, _>>()?;
    Ok(Garden { name: raw.name.trim().to_owned(), beds })
}

fn read_bed(text: &Text<'_>, raw: &BedFile) -> Result<Bed, Box<FileFault>> {
    let stretch = |raw: &StretchFile| -> Result<Stretch, Box<FileFault>> {
        Ok(Stretch { from: text.length(&raw.from)?, to: text.length(&raw.to)?, why: raw.why.clone() })
    };
    Ok(Bed {
        name: raw.name.trim().to_owned(),
        length: text.length(&raw.length)?,
        width: text.length(&raw.width)?,
        path_after: raw.path.as_ref().map_or(Ok(Millimetres::NONE), |path| text.length(path))?,
        unusable: raw.unusable.iter().map(stretch).collect::<Result<_, _>>()?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    pub(super) const WHOLE: &str = r#"name = "2031 Home"
season = 2031
replicates = 3
varieties = ["Amber Lantern", "Quince Rose"]
checks = ["Quince Rose"]
[planting]
plants = 6
between-plants = "18 in"
between-rows = "60 cm"
[[garden]]
name = "Home"
[[garden.bed]]
name = "North"
length = "40 ft"
width = "1.2 m"
unusable = [{ from = "3 m", to = "4 m", why = "tap" }]
"#;

    #[track_caller]
    fn refused(from: &str, to: &str, told: &str) {
        let HouseFault::TypedFile(fault) = read("layout.toml", &WHOLE.replace(from, to)).unwrap_err() else {
            panic!("another fault");
        };
        assert_eq!(fault.to_string(), told);
        assert!(!fault.help.is_empty());
    }

    #[test]
    fn a_whole_file_is_read_with_its_units() {
        let wanted = read("layout.toml", WHOLE).unwrap();
        assert_eq!((wanted.seed.as_str(), wanted.kind), ("2031 Home", Choice::Best));
        // 18 in and 40 ft, by 25.4 mm to the inch.
        assert_eq!(wanted.planting.between_plants.get(), 457.2);
        let bed = &wanted.gardens[0].beds[0];
        assert_eq!(
            (bed.length.get(), bed.width.get(), bed.unusable[0].from.get()),
            (12_192.0, 1200.0, 3000.0)
        );
    }

    #[test]
    fn faults_name_line_and_field() {
        refused("\"40 ft\"", "\"40\"", "layout.toml, line 14, length: \"40\" has no unit");
        refused("\"3 m\"", "\"3 g\"", "layout.toml, line 16, from: \"3 g\" measures something else");
        refused("season = 2031", "season = 31", "layout.toml, line 2, season: 31 is no season's year");
        refused(
            "replicates = 3",
            "replicates = 3\nkind = \"square\"",
            "layout.toml, line 4, kind: \"square\" is no kind of layout",
        );
        refused("name = \"2031 Home\"", "name = \" \"", "layout.toml, line 1, name: a grow-out needs a name");
    }

    #[test]
    fn what_is_not_toml_is_told_by_line() {
        let HouseFault::TypedFile(fault) = read("l.toml", "name = \"a\"\nseason = \n").unwrap_err() else {
            panic!("another fault");
        };
        assert_eq!(fault.line, 2);
        let unknown = WHOLE.replace("plants = 6", "plnts = 6");
        let HouseFault::TypedFile(fault) = read("l.toml", &unknown).unwrap_err() else {
            panic!("another fault")
        };
        assert_eq!((fault.line, fault.field.as_str()), (7, "plnts"));
    }
}
