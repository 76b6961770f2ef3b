//! A variety: its name, the other names it goes by, and what has been claimed of it.

use crate::id::Id;

/// A variety on the house's list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Variety {
    /// Its identifier.
    pub id: Id<Variety>,
    /// The name the house sells it by.
    pub name: String,
    /// Other spellings and trade names that mean the same variety.
    pub aliases: Vec<String>,
    /// What packets and old catalogues say of it; never evidence.
    pub claims: Vec<Claim>,
}

/// One thing that is said of a variety without evidence beside it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Claim {
    /// What the claim is about.
    pub about: ClaimSubject,
    /// The claim in its own words, such as `semi-determinate` or `4 to 6 oz`.
    pub words: String,
}

/// What a claim is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ClaimSubject {
    /// Plant habit.
    Habit,
    /// Fruit class.
    FruitClass,
    /// Fruit colour.
    Colour,
    /// Weight of a fruit.
    FruitWeight,
    /// Days from transplanting to the first ripe fruit.
    DaysToMaturity,
    /// What it is good for.
    Purpose,
    /// Anything else.
    Other,
}
