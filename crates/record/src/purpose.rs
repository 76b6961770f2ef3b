//! What a variety is good for, in the words that cooks, canners and gardeners ask with.
//!
//! A purpose is the guide's word about a fruit class or a habit, never something measured.

/// What a tomato is grown for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Purpose {
    /// Eaten out of hand.
    FreshEating,
    /// Whole, halved or quartered in a salad.
    Salads,
    /// Cut into slices, for plates and sandwiches.
    Slicing,
    /// Hollowed and filled.
    Stuffing,
    /// Roasted, grilled or fried.
    Roasting,
    /// Boiled down to sauce, paste or ketchup.
    Sauce,
    /// Put up in jars, whole or in pieces.
    Canning,
    /// Dried.
    Drying,
    /// Pressed for juice.
    Juice,
    /// Grown in pots.
    Containers,
    /// Ripe together, so that the whole crop is put up in one go.
    AllAtOnce,
    /// Picked a little at a time for as long as the season lasts.
    AllSeason,
}

impl Purpose {
    /// Every purpose: from the plate to the jar, then how it grows and crops.
    pub const ALL: [Self; 12] = [
        Self::FreshEating,
        Self::Salads,
        Self::Slicing,
        Self::Stuffing,
        Self::Roasting,
        Self::Sauce,
        Self::Canning,
        Self::Drying,
        Self::Juice,
        Self::Containers,
        Self::AllAtOnce,
        Self::AllSeason,
    ];

    /// Its name, as the guides write it and people read it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::FreshEating => "fresh eating",
            Self::Salads => "salads",
            Self::Slicing => "slicing",
            Self::Stuffing => "stuffing",
            Self::Roasting => "roasting",
            Self::Sauce => "sauce",
            Self::Canning => "canning",
            Self::Drying => "drying",
            Self::Juice => "juice",
            Self::Containers => "containers",
            Self::AllAtOnce => "picking all at once",
            Self::AllSeason => "picking all season",
        }
    }

    /// The purpose of this name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|purpose| purpose.name() == name)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_purpose_is_found_by_its_name() {
        for purpose in Purpose::ALL {
            assert_eq!(Purpose::named(purpose.name()), Some(purpose));
        }
        assert_eq!(Purpose::named("sunbathing"), None);
    }
}
