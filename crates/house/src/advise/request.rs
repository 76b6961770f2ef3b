//! What a garden and its kitchen ask: a typed file, or the fields of a page, read into a [`Request`].
//!
//! Start at [`read`]; `raw` is the file's shape, `meaning` what its words mean, and [`form`] makes such a text of a form's fields.

pub mod form;
mod meaning;
mod raw;

use crate::fault::HouseFault;
use crate::forecast::{Place, Risk};
use crate::typed_file::{FileFault, Text};
use advice::burner::Burner;
pub use advice::jars::Jar;
pub use advice::kitchen::PutUp;
use advice::preserving::Way;
use advice::preserving::altitude::Feet;
use advice::space::{Bed, Litres, Spacing};
use record::length::Millimetres;
use record::mass::Grams;
use record::share::Share;
pub use ripening::row_cover::RowCover;

pub use meaning::canners;
pub use raw::schema;

/// What is asked.
#[derive(Clone, Debug)]
pub struct Request {
    /// The garden.
    pub garden: Garden,
    /// The kitchen, as far as it was told of.
    pub kitchen: Kitchen,
    /// Words that the list is asked with: only what it finds is planted.
    pub only: Option<String>,
    /// Varieties that must have a plant.
    pub wanted: Vec<String>,
    /// Varieties that must have none.
    pub barred: Vec<String>,
    /// Varieties that are chosen before others where that costs no plant.
    pub favourites: Vec<String>,
    /// Varieties that seed is saved of: they have a plant, and how far from others they would stand is told.
    pub for_seed: Vec<String>,
    /// At most so many varieties.
    pub most_varieties: Option<u32>,
    /// In how many years of ten all must be had.
    pub years_in_ten: u32,
    /// That as a share.
    pub sure: Share,
    /// What is wished for.
    pub wishes: Vec<Wish>,
}

/// A garden.
#[derive(Clone, Debug)]
pub struct Garden {
    /// Whose weather it has.
    pub place: Place,
    /// Frost that is risked after planting, in years of ten.
    pub risk: Option<Risk>,
    /// Month and day on which the first plants go out; by the garden's calendar where none is said.
    pub out: Option<(i8, i8)>,
    /// Sets of plants, each two weeks after the one before.
    pub waves: u32,
    /// Its beds.
    pub beds: Vec<Bed>,
    /// How plants stand in them.
    pub spacing: Spacing,
    /// Containers, one plant each.
    pub containers: u32,
    /// What each of them holds.
    pub container_volume: Litres,
    /// What young plants are covered with, where they are.
    pub cover: Option<RowCover>,
    /// How high plants are held up, where that was told.
    pub stake_height: Option<Millimetres>,
}

/// A kitchen.
#[derive(Clone, Copy, Debug, Default)]
pub struct Kitchen {
    /// How high it lies: no process time is told without it.
    pub altitude: Option<Feet>,
    /// Its canner; boiling water where none is said.
    pub canner: Option<Way>,
    /// Its burner.
    pub burner: Option<Burner>,
}

/// One wish.
#[derive(Clone, Debug)]
pub struct Wish {
    /// The fruit classes that will do.
    pub classes: Vec<String>,
    /// From this month and day.
    pub from: Option<(i8, i8)>,
    /// To this one.
    pub to: Option<(i8, i8)>,
    /// What for.
    pub purpose: Purpose,
    /// Line of the file that names its classes, counted from 1.
    pub said_at: usize,
}

/// What fruit is wished for.
#[derive(Clone, Debug)]
pub enum Purpose {
    /// To put up.
    PutUp {
        /// As what.
        put_up: PutUp,
        /// How much.
        amount: Amount,
        /// On at most so many kitchen days, no two in one week.
        days: u32,
        /// What a kitchen day can take.
        a_day: ADay,
        /// Fruit of so many weeks before keeps for it.
        keeps: u32,
        /// The side of the middle on which the soluble solids of its varieties lie.
        solids: Option<Solids>,
    },
    /// To eat, so much a week.
    Fresh(Grams),
}

/// A side of the middle variety's soluble solids.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Solids {
    /// As much as the middle one's, or more.
    High,
    /// As much, or less.
    Low,
}

/// How much is put up.
#[derive(Clone, Copy, Debug)]
pub enum Amount {
    /// Jars of a size.
    Jars(Jar, u32),
    /// Fruit as picked.
    Fruit(Grams),
}

/// What a kitchen day can take.
#[derive(Clone, Copy, Debug)]
pub enum ADay {
    /// Canner loads.
    Loads(u32),
    /// Fruit as picked.
    Fruit(Grams),
    /// All there is.
    All,
}

/// Reads the text of a request named `file`.
///
/// # Errors
/// [`HouseFault::TypedFile`] with the line and the field.
pub fn read(file: &str, text: &str) -> Result<Request, HouseFault> {
    let text = Text { file, text };
    meaning::read(&text).map_err(|fault: Box<FileFault>| HouseFault::from(*fault))
}
