//! Isolation: does a lot's distance to other tomatoes suit its flowers, and how far may it have crossed?
//!
//! Most tomatoes fertilise themselves within the cone of their anthers; flowers whose stigma stands out of it cross more. What
//! distance is usual for which flower is a guide that the house may edit ([`read`]). Start at [`judged`]; [`apart`] holds seed plants against a garden.

pub mod apart;
mod raw;

use crate::label::guide::{PacketGuideFault, Rule};
use record::length::Millimetres;

/// The shipped guide: file name and text.
pub const SHIPPED: (&str, &str) =
    ("guides/isolation.toml", include_str!("../../../../guides/isolation.toml"));

/// What the house goes by.
#[derive(Clone, Debug, PartialEq)]
pub struct IsolationGuide {
    /// The types of flower, those that cross least first; at least one.
    pub flowers: Vec<Flower>,
}

/// A type of flower.
#[derive(Clone, Debug, PartialEq)]
pub struct Flower {
    /// Its name, such as `exserted stigma`.
    pub name: String,
    /// What it looks like, in words.
    pub words: String,
    /// Seed in 100 that crosses where other tomatoes stand beside it: low and high.
    pub crosses_percent: (f64, f64),
    /// The distance to other varieties that suits it.
    pub away: Millimetres,
    /// Fruit classes most of whose varieties have it, as the fruit guide names them.
    pub fruit_classes: Vec<String>,
    /// Varieties that are known to have it, whatever their class.
    pub varieties: Vec<String>,
    /// Where all this stands.
    pub rule: Rule,
}

/// Reads the guide's text.
///
/// # Errors
/// [`PacketGuideFault`] at the first line that is no TOML, has an unknown key, a share or distance that is none, or no source.
pub fn read(file: &str, text: &str) -> Result<IsolationGuide, PacketGuideFault> {
    raw::read(file, text)
}

/// How a flower's type is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum KnownBy {
    /// The guide names the variety.
    Variety,
    /// The guide names its fruit class.
    FruitClass,
    /// Nothing is known: most tomatoes are taken for it.
    Nothing,
}

impl IsolationGuide {
    /// The flower of a variety, and how that is known: by its name, else by its fruit class, else the type that crosses least.
    #[must_use]
    pub fn flower(&self, variety: &str, fruit_class: Option<&str>) -> Option<(&Flower, KnownBy)> {
        let is_named = |names: &[String], wanted: &str| names.iter().any(|name| same(name, wanted));
        let named = self.flowers.iter().find(|flower| is_named(&flower.varieties, variety));
        let classed = || {
            let class = fruit_class?;
            self.flowers.iter().find(|flower| is_named(&flower.fruit_classes, class))
        };
        named
            .map(|flower| (flower, KnownBy::Variety))
            .or_else(|| classed().map(|flower| (flower, KnownBy::FruitClass)))
            .or_else(|| self.flowers.first().map(|flower| (flower, KnownBy::Nothing)))
    }

    /// The type that wants the greatest distance.
    #[must_use]
    pub fn strictest(&self) -> Option<&Flower> {
        self.flowers.iter().max_by(|one, other| one.away.get().total_cmp(&other.away.get()))
    }
}

/// Names are the same whatever their case and spaces.
fn same(one: &str, other: &str) -> bool {
    let key = |name: &str| name.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
    key(one) == key(other)
}

/// Whether a lot's seed may have crossed.
#[derive(Clone, Debug, PartialEq)]
pub struct Isolation {
    /// The type of its flowers.
    pub flower: Flower,
    /// How that is known.
    pub known_by: KnownBy,
    /// The distance to other varieties that was told.
    pub told: Option<Millimetres>,
    /// What follows.
    pub risk: CrossingRisk,
}

/// What a distance says of crossing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CrossingRisk {
    /// As far from other varieties as suits its flowers; crossing is rare, and not shut out.
    FarEnough,
    /// Far enough for most tomatoes, but nobody knows its flowers, and those that cross most want more.
    FarEnoughForMost,
    /// Nearer than that: expect as much crossed seed as the guide tells, at most.
    TooNear,
    /// Nobody told how far others stood.
    NotTold,
}

/// A distance this little short still counts, so that 30 ft typed in and turned to millimetres stays 30 ft.
const ROUNDING_MM: f64 = 0.001;

/// Puts a lot's distance to its guide; `None` of a guide without flowers.
#[must_use]
pub fn judged(
    guide: &IsolationGuide,
    variety: &str,
    fruit_class: Option<&str>,
    told: Option<Millimetres>,
) -> Option<Isolation> {
    let (flower, known_by) = guide.flower(variety, fruit_class)?;
    let suits = |away: Millimetres, flower: &Flower| flower.away.get() <= away.get() + ROUNDING_MM;
    let risk = match told {
        None => CrossingRisk::NotTold,
        Some(away) if !suits(away, flower) => CrossingRisk::TooNear,
        Some(away)
            if known_by == KnownBy::Nothing && !guide.strictest().is_some_and(|most| suits(away, most)) =>
        {
            CrossingRisk::FarEnoughForMost
        }
        Some(_) => CrossingRisk::FarEnough,
    };
    Some(Isolation { flower: flower.clone(), known_by, told, risk })
}
