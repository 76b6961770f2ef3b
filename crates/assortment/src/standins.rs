//! Stand-ins: the varieties of a list that are most like one of them, for when it is sold out, and those
//! most like a tomato that nobody can name.
//!
//! Every variety of the list is held against the one, so the sum grows with the list and not with its square.
//! Start at [`Assortment::new`].

use crate::likeness::{Likeness, Traits, TraitsFault};
use crate::profile::{self, Profile, Trait, Words};
use crate::reasons::{self, Reasons};

/// A stand-in must share at least this part of what is known of the asked one; one that shares less is told
/// after all that do. A choice of ours: two varieties that were both only weighed may be alike by chance.
const SHARED_ENOUGH: f64 = 0.5;

/// A list, ready to be asked for what is like what.
#[derive(Clone, Debug)]
pub struct Assortment<'a> {
    profiles: &'a [Profile],
    words: &'a Words,
    traits: Traits,
}

/// A variety that may stand in for another.
#[derive(Clone, Debug, PartialEq)]
pub struct StandIn {
    /// Its place in the list.
    pub place: usize,
    /// How far it is from the asked one: 0 the same, 1 as far as any.
    pub distance: f64,
    /// How many traits could be compared.
    pub compared: usize,
    /// Whether they are enough of what is known of the asked one.
    pub known: Known,
    /// What is the same and what is not.
    pub reasons: Reasons,
}

/// Whether two varieties could be compared in enough.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Known {
    /// In half or more of what is known of the asked one, by weight.
    Enough,
    /// In less: it was hardly measured.
    Little,
}

impl<'a> Assortment<'a> {
    /// Takes the profiles of a list.
    ///
    /// # Errors
    /// None that profiles can bring about.
    pub fn new(profiles: &'a [Profile], words: &'a Words) -> Result<Self, TraitsFault> {
        Ok(Self { profiles, words, traits: profile::traits(profiles, words)? })
    }

    /// The varieties most like the one at `place`, nearest first; of equals the first of the list. One that
    /// shares no trait with it is left out.
    ///
    /// # Shape
    /// At most `most`.
    #[must_use]
    pub fn nearest(&self, place: usize, most: usize) -> Vec<StandIn> {
        let known = self.traits.weight_of(place);
        let mut near: Vec<(usize, Known, f64, Likeness)> = (0..self.profiles.len())
            .filter(|other| *other != place)
            .filter_map(|other| {
                let likeness = self.traits.between(place, other);
                let enough = SHARED_ENOUGH * known <= likeness.weight;
                let known = if enough { Known::Enough } else { Known::Little };
                Some((other, known, likeness.distance?, likeness))
            })
            .collect();
        let order = |one: &(usize, Known, f64, Likeness), other: &(usize, Known, f64, Likeness)| {
            one.1.cmp(&other.1).then(one.2.total_cmp(&other.2)).then(one.0.cmp(&other.0))
        };
        if most < near.len() && 0 < most {
            near.select_nth_unstable_by(most - 1, order);
        }
        near.truncate(most);
        near.sort_by(order);
        near.into_iter().filter_map(|found| self.stand_in(place, found)).collect()
    }

    /// How far two varieties are apart, over all traits.
    #[must_use]
    pub fn between(&self, one: usize, other: usize) -> Likeness {
        self.traits.between(one, other)
    }

    /// How far two varieties are apart over some of the traits; `None` where they share none of those.
    #[must_use]
    pub fn over(&self, one: usize, other: usize, counts: impl Fn(Trait) -> bool) -> Option<f64> {
        let each = Trait::ALL.into_iter().zip(self.traits.by_trait(one, other));
        let compared =
            each.filter(|(of, _)| counts(*of)).filter_map(|(of, distance)| Some((of.weight(), distance?)));
        let (weight, sum) = compared
            .fold((0.0, 0.0), |(whole, sum), (weight, distance)| (whole + weight, sum + weight * distance));
        (0.0 < weight).then(|| sum / weight)
    }

    /// The trait in which two varieties differ most, of those that could be compared.
    #[must_use]
    pub fn furthest_trait(&self, one: usize, other: usize) -> Option<(Trait, f64)> {
        let each = Trait::ALL.into_iter().zip(self.traits.by_trait(one, other));
        let compared = each.filter_map(|(of, distance)| Some((of, distance?)));
        compared.reduce(|most, next| if most.1 < next.1 { next } else { most })
    }

    fn stand_in(
        &self,
        of: usize,
        (place, known, distance, likeness): (usize, Known, f64, Likeness),
    ) -> Option<StandIn> {
        let (asked, other) = (self.profiles.get(of)?, self.profiles.get(place)?);
        let reasons = reasons::between(asked, other, self.words);
        Some(StandIn { place, distance, compared: likeness.compared, known, reasons })
    }
}
