//! What was typed of an unknown tomato, read.

use super::{Asked, possible, season_of};
use crate::fault::HouseFault;
use crate::opened::Given;
use identity::unknown::Unknown;
use identity::unknown::impossible::Impossible;
use intake::file;
use intake::one_fruit::{self, FieldFault, FruitField, PlantField};
use intake::rejection::Rejection;
use intake::unnamed::{self, UnnamedFault};
use jiff::civil::Date;
use record::season::Season;
use record::unknown::{FruitSeen, PlantSeen};

/// A fruit as it was typed.
#[derive(Clone, Debug, PartialEq)]
pub enum TypedFruit {
    /// In a line, such as `58 g, 61 x 38 mm, 2 locules`.
    Line(String),
    /// In fields of its own; empty ones tell nothing.
    Fields(Vec<(FruitField, String)>),
}

/// Why what was told of an unknown is of no use.
#[derive(Debug, thiserror::Error)]
pub enum Unfit {
    /// Nothing was told.
    #[error("nothing was told of the tomato")]
    Nothing,
    /// Something of a fruit cannot be read.
    #[error("fruit {fruit}: {fault}")]
    Fruit {
        /// Which fruit, counted from 1.
        fruit: usize,
        /// What is wrong.
        fault: FieldFault,
    },
    /// Something of a plant cannot be read.
    #[error("plant {plant}: {fault}")]
    Plant {
        /// Which plant, counted from 1.
        plant: usize,
        /// What is wrong.
        fault: FieldFault,
    },
    /// No tomato can be so.
    #[error(transparent)]
    Impossible(#[from] Impossible),
    /// A table that cannot be read.
    #[error("{table}: {fault}")]
    Table {
        /// File and sheet.
        table: String,
        /// What is wrong.
        fault: UnnamedFault,
    },
    /// A year that is no season.
    #[error("{0} is no season")]
    NoSeason(i16),
}

impl Unfit {
    /// What to do about it, in lower case with no full stop.
    #[must_use]
    pub fn help(&self) -> String {
        match self {
            Self::Nothing => {
                "tell at least one thing that was measured or seen, such as a weight or a colour".to_owned()
            }
            Self::Fruit { fault, .. } | Self::Plant { fault, .. } => fault.remedy(),
            Self::Impossible(fault) => fault.help().to_owned(),
            Self::Table { fault: UnnamedFault::Recognise(fault), .. } => fault.remedy(),
            Self::Table { fault: UnnamedFault::Read(_), .. } => {
                "check that the file is still there".to_owned()
            }
            Self::Table { fault: UnnamedFault::TooLong, .. } => {
                "keep the rows of the one tomato; bring a harvest in with locule take".to_owned()
            }
            Self::NoSeason(_) => "set the clock of this machine".to_owned(),
        }
    }
}

/// A row of a table that could not be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refused {
    /// File and sheet.
    pub table: String,
    /// The row.
    pub row: u64,
    /// The column's heading, where one is at fault.
    pub column: Option<String>,
    /// What is wrong.
    pub reason: String,
    /// What to do.
    pub remedy: String,
}

/// What was read.
pub(super) struct Read {
    pub(super) unknown: Unknown,
    pub(super) doubts: Vec<String>,
    pub(super) refused: Vec<Refused>,
}

/// Reads all that was typed.
pub(super) fn read(asked: &Asked, today: Date) -> Result<Read, HouseFault> {
    let season = season_of(today)?;
    let mut unknown = Unknown::nothing_seen(season);
    for (number, typed) in (1..).zip(&asked.fruits) {
        let seen = fruit(typed).map_err(|fault| unfit(Unfit::Fruit { fruit: number, fault }))?;
        unknown.fruits.extend(Some(seen).filter(|seen| !seen.is_blank()));
    }
    for (number, typed) in (1..).zip(&asked.plants) {
        let seen = plant(typed).map_err(|fault| unfit(Unfit::Plant { plant: number, fault }))?;
        unknown.plants.extend(Some(seen).filter(|seen| !seen.is_blank()));
    }
    let mut refused = Vec::new();
    for given in &asked.tables {
        refused.extend(take(&mut unknown, given, season, today)?);
    }
    if unknown.is_blank() {
        return Err(unfit(Unfit::Nothing));
    }
    possible(&unknown)?;
    let doubts = doubts(&unknown);
    Ok(Read { unknown, doubts, refused })
}

fn unfit(fault: Unfit) -> HouseFault {
    HouseFault::Unfit(Box::new(fault))
}

fn fruit(typed: &TypedFruit) -> Result<FruitSeen, FieldFault> {
    match typed {
        TypedFruit::Line(line) => one_fruit::fruit(line),
        TypedFruit::Fields(fields) => {
            let mut seen = FruitSeen::default();
            fields.iter().try_for_each(|(field, text)| one_fruit::set_fruit(&mut seen, *field, text))?;
            Ok(seen)
        }
    }
}

fn plant(typed: &[(PlantField, String)]) -> Result<PlantSeen, FieldFault> {
    let mut seen = PlantSeen::default();
    typed.iter().try_for_each(|(field, text)| one_fruit::set_plant(&mut seen, *field, text))?;
    Ok(seen)
}

/// Takes a file's tables into the unknown, and gives the rows that could not be read.
fn take(
    unknown: &mut Unknown,
    given: &Given,
    season: Season,
    today: Date,
) -> Result<Vec<Refused>, HouseFault> {
    let open = |fault| HouseFault::Open { file: given.name.clone(), fault };
    let mut refused = Vec::new();
    for table in file::open(&given.name, given.content.clone()).map_err(open)? {
        let name = crate::opened::name_of(&table);
        let fault = |fault| unfit(Unfit::Table { table: name.clone(), fault });
        let told = unnamed::take(&table, season, today).map_err(fault)?;
        unknown.notes.extend(told.notes.into_iter().map(|(note, _)| note));
        refused.extend(told.rejected.into_iter().map(|rejection| told_of(&name, rejection)));
    }
    Ok(refused)
}

fn told_of(table: &str, rejection: Rejection) -> Refused {
    Refused {
        table: table.to_owned(),
        row: rejection.row,
        column: rejection.column,
        reason: rejection.fault.to_string(),
        remedy: rejection.remedy,
    }
}

/// What is odd, each said once with the fruits it is said of.
fn doubts(unknown: &Unknown) -> Vec<String> {
    let samples = unknown.samples();
    let alone = samples.len() == 1;
    let of_one = |(fruit, sample)| {
        let told = move |words: String| if alone { words } else { format!("fruit {fruit}: {words}") };
        one_fruit::doubts(sample).into_iter().map(move |doubt| told(doubt.words))
    };
    (1..).zip(&samples).flat_map(of_one).collect()
}
