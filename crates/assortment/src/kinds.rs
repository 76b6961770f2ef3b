//! Names that a variety may be called by, how far they lie apart, and how likely each is of one variety.
//!
//! Start at [`Kinds`]; [`Mix`] is one variety's probabilities over them, [`Apart`] the distances.

/// Names of one sort, such as the colours, with how far each lies from each.
#[derive(Clone, Debug, PartialEq)]
pub struct Kinds {
    /// The names, in the guide's order.
    pub names: Vec<String>,
    /// How far they lie apart.
    pub apart: Apart,
}

/// How likely each of a sort of names is of one variety. What is left of the whole is none of them.
#[derive(Clone, Debug, PartialEq)]
pub struct Mix(Vec<f64>);

/// Distances from 0 to 1 between names, by their places.
#[derive(Clone, Debug, PartialEq)]
pub struct Apart {
    count: usize,
    distances: Vec<f64>,
}

/// Rounding that shares may be out by together.
const ROUNDING: f64 = 1e-6;

impl Mix {
    /// Takes shares from 0 to 1 that come to no more than the whole; `None` where they are no shares, or
    /// all nothing.
    #[must_use]
    pub fn new(shares: Vec<f64>) -> Option<Self> {
        let whole: f64 = shares.iter().sum();
        let each = shares.iter().all(|share| (0.0..=1.0 + ROUNDING).contains(share));
        (each && 0.0 < whole && whole <= 1.0 + ROUNDING).then_some(Self(shares))
    }

    /// The shares, in the order of the names.
    #[must_use]
    pub fn shares(&self) -> &[f64] {
        &self.0
    }

    /// The likeliest place and its share; of equals the first.
    #[must_use]
    pub fn likeliest(&self) -> Option<(usize, f64)> {
        let places = self.0.iter().copied().enumerate();
        places.reduce(|best, next| if best.1 < next.1 { next } else { best })
    }

    fn whole(&self) -> f64 {
        self.0.iter().sum::<f64>().min(1.0)
    }
}

impl Apart {
    /// All as far apart as can be.
    #[must_use]
    pub fn all_alike(count: usize) -> Self {
        Self::by(count, |one, other| if one == other { 0.0 } else { 1.0 })
    }

    /// Distances by a rule, which is asked for each two places once; what it says is kept within 0 and 1.
    #[must_use]
    pub fn by(count: usize, mut rule: impl FnMut(usize, usize) -> f64) -> Self {
        let mut distances = vec![0.0; count * count];
        for one in 0..count {
            for other in 0..one {
                let distance = rule(one, other);
                let distance = if distance.is_nan() { 1.0 } else { distance.clamp(0.0, 1.0) };
                for place in [one * count + other, other * count + one] {
                    if let Some(slot) = distances.get_mut(place) {
                        *slot = distance;
                    }
                }
            }
        }
        Self { count, distances }
    }

    /// The distance of two places.
    #[must_use]
    pub fn between(&self, one: usize, other: usize) -> f64 {
        let known = one < self.count && other < self.count;
        let at = self.distances.get(one * self.count + other).copied();
        at.filter(|_| known).unwrap_or(1.0)
    }

    /// The distance that is expected between two varieties, each drawn from its own probabilities.
    ///
    /// What is none of the names counts as far from everything.
    #[must_use]
    pub fn expected(&self, one: &Mix, other: &Mix) -> f64 {
        let rows = self.distances.chunks_exact(self.count.max(1));
        let row =
            |row: &[f64]| row.iter().zip(other.shares()).map(|(apart, share)| apart * share).sum::<f64>();
        let named: f64 = one.shares().iter().zip(rows).map(|(share, apart)| share * row(apart)).sum();
        (named + 1.0 - one.whole() * other.whole()).clamp(0.0, 1.0)
    }
}

impl Kinds {
    /// Names of which any two are as far apart as any other two.
    #[must_use]
    pub fn without_order(names: Vec<String>) -> Self {
        let apart = Apart::all_alike(names.len());
        Self { names, apart }
    }

    /// The probabilities of names that a call gave; names that are none of these are left out.
    #[must_use]
    pub fn mix<'a>(&self, shares: impl IntoIterator<Item = (&'a str, f64)>) -> Option<Mix> {
        let mut mixed = vec![0.0; self.names.len()];
        for (name, share) in shares {
            let place = self.names.iter().position(|own| own == name);
            if let Some(slot) = place.and_then(|place| mixed.get_mut(place)) {
                *slot += share;
            }
        }
        Mix::new(mixed)
    }

    /// The name at a place.
    #[must_use]
    pub fn name(&self, place: usize) -> &str {
        self.names.get(place).map_or("", String::as_str)
    }
}
