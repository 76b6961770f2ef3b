//! A variety: its name, the other names it goes by, and what has been claimed of it.

use crate::id::Id;
use unicode_normalization::UnicodeNormalization;

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

/// The form of a name by which it is found: letters and digits count, their dress does not.
///
/// Case, blanks, hyphens, slashes, quotes, full stops and look-alike code points are dress, so that
/// `Cooper's Half`, `COOPERS HALF` and `Coopers-Half` are one name. Two names that differ in a letter are
/// two names, however alike.
#[must_use]
pub fn name_key(name: &str) -> String {
    name.nfkc().filter(|sign| !is_dress(*sign)).flat_map(char::to_lowercase).collect()
}

fn is_dress(sign: char) -> bool {
    sign.is_whitespace()
        || matches!(sign, '\0' | '-' | '\u{2010}'..='\u{2015}' | '_' | '/' | '.' | '"' | '\'' | '`')
        || matches!(sign, '\u{2018}'..='\u{201f}' | '\u{b4}' | '\u{2bc}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dress_does_not_count_and_letters_do() {
        for spelling in ["Cooper's Half", " COOPERS\u{a0}HALF ", "Cooper\u{2019}s-half", "Coopers Half."] {
            assert_eq!(name_key(spelling), "coopershalf", "{spelling:?}");
        }
        assert_eq!(name_key("Pe\u{301}pin"), name_key("P\u{e9}pin"));
        assert_ne!(name_key("Ambre Bell"), name_key("Amber Bell"));
    }
}
