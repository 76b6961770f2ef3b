//! How alike two things are over traits of mixed kinds: Gower's coefficient, told as a distance.
//!
//! Each trait that both have gives a distance from 0 (the same) to 1 (as far apart as any two); the whole is
//! their weighted mean. Knows no tomato. Start at [`Traits::new`].
//!
//! # Source
//! Gower, J. C. 1971, "A general coefficient of similarity and some of its properties", Biometrics
//! 27:857-871. Here it is one less his similarity.

use crate::kinds::{Apart, Mix};

/// One trait of every thing, in the order of the things; `None` where it was not seen.
#[derive(Clone, Debug, PartialEq)]
pub enum Column {
    /// Numbers: the difference over the range.
    Numbers(Vec<Option<f64>>),
    /// Names without an order, by number: 0 if the same, 1 if not.
    Names(Vec<Option<u32>>),
    /// Places in an order: the difference over the range.
    Ranks(Vec<Option<u32>>),
    /// There or not there, where sharing a lack means nothing: two that both lack it are not compared.
    Marks(Vec<Option<Mark>>),
    /// Probabilities of names: the distance that is expected between the two.
    Mixes(Vec<Option<Mix>>, Apart),
}

/// Whether a mark is borne.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// It is.
    Borne,
    /// It is not.
    Lacking,
}

/// A trait with what it counts.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighed {
    /// The trait.
    pub column: Column,
    /// How much it counts beside the others: 1 as much as one of them, 2 as much as two.
    pub weight: f64,
}

/// Why traits cannot be compared.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum TraitsFault {
    /// Traits of different lists.
    #[error("trait {place} is of {given} things and not of {expected}")]
    Length {
        /// Which trait, from 0.
        place: usize,
        /// How many things it has.
        given: usize,
        /// How many it should have.
        expected: usize,
    },
    /// A weight that is no weight.
    #[error("trait {place} has the weight {weight}")]
    Weight {
        /// Which trait, from 0.
        place: usize,
        /// Its weight.
        weight: f64,
    },
}

/// The traits of a number of things, ready to be compared.
#[derive(Clone, Debug, PartialEq)]
pub struct Traits {
    columns: Vec<Ready>,
    count: usize,
}

#[derive(Clone, Debug, PartialEq)]
struct Ready {
    column: Column,
    weight: f64,
    /// Of numbers and ranks; 1 where all are the same, so that none is far from another.
    range: f64,
}

/// How far two things are apart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Likeness {
    /// From 0, the same, to 1; `None` where they share no trait.
    pub distance: Option<f64>,
    /// How many traits could be compared.
    pub compared: usize,
    /// What those traits weigh together.
    pub weight: f64,
}

impl Traits {
    /// Takes the traits of `count` things and works out their ranges.
    ///
    /// # Errors
    /// [`TraitsFault`] where a trait is of another number of things, or weighs less than nothing.
    pub fn new(count: usize, traits: Vec<Weighed>) -> Result<Self, TraitsFault> {
        let ready = |(place, Weighed { column, weight }): (usize, Weighed)| {
            let given = column.len();
            if given != count {
                return Err(TraitsFault::Length { place, given, expected: count });
            }
            if !weight.is_finite() || weight < 0.0 {
                return Err(TraitsFault::Weight { place, weight });
            }
            let range = column.range();
            Ok(Ready { column, weight, range })
        };
        let columns = traits.into_iter().enumerate().map(ready).collect::<Result<_, _>>()?;
        Ok(Self { columns, count })
    }

    /// How many things there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.count
    }

    /// How far two things are apart. Between a thing and itself that is 0, but for what is contested in it.
    ///
    /// # Examples
    /// Two numbers of 10 and 20 where the widest apart are 10 and 50, and the same name: (10/40 + 0) / 2.
    /// ```
    /// use assortment::likeness::{Column, Traits, Weighed};
    /// let numbers = Column::Numbers(vec![Some(10.0), Some(20.0), Some(50.0)]);
    /// let names = Column::Names(vec![Some(7), Some(7), None]);
    /// let weighed = |column| Weighed { column, weight: 1.0 };
    /// let traits = Traits::new(3, vec![weighed(numbers), weighed(names)]).expect("three of each");
    /// assert_eq!(traits.between(0, 1).distance, Some(0.125));
    /// assert_eq!(traits.between(0, 2).compared, 1);
    /// ```
    #[must_use]
    pub fn between(&self, one: usize, other: usize) -> Likeness {
        let (mut sum, mut weight, mut compared) = (0.0, 0.0, 0);
        for ready in &self.columns {
            if let Some(distance) = ready.between(one, other) {
                sum += ready.weight * distance;
                weight += ready.weight;
                compared += 1;
            }
        }
        Likeness { distance: (0.0 < weight).then(|| sum / weight), compared, weight }
    }

    /// How far two things are apart in each trait, in the order given; `None` where it cannot be compared.
    pub fn by_trait(&self, one: usize, other: usize) -> impl Iterator<Item = Option<f64>> {
        self.columns.iter().map(move |ready| ready.between(one, other))
    }

    /// What the traits that one thing has weigh together: the most that another could share with it.
    #[must_use]
    pub fn weight_of(&self, one: usize) -> f64 {
        self.columns.iter().filter(|ready| ready.column.has(one)).map(|ready| ready.weight).sum()
    }
}

impl Ready {
    fn between(&self, one: usize, other: usize) -> Option<f64> {
        match &self.column {
            Column::Numbers(numbers) => Some((at(numbers, one)? - at(numbers, other)?).abs() / self.range),
            Column::Ranks(ranks) => {
                let (one, other) = (at(ranks, one)?, at(ranks, other)?);
                Some(f64::from(one.abs_diff(*other)) / self.range)
            }
            Column::Names(names) => Some(if at(names, one)? == at(names, other)? { 0.0 } else { 1.0 }),
            Column::Marks(marks) => match (at(marks, one)?, at(marks, other)?) {
                (Mark::Lacking, Mark::Lacking) => None,
                (one, other) => Some(if one == other { 0.0 } else { 1.0 }),
            },
            Column::Mixes(mixes, apart) => Some(apart.expected(at(mixes, one)?, at(mixes, other)?)),
        }
    }
}

fn at<T>(column: &[Option<T>], place: usize) -> Option<&T> {
    column.get(place).and_then(Option::as_ref)
}

impl Column {
    fn len(&self) -> usize {
        match self {
            Self::Numbers(column) => column.len(),
            Self::Names(column) | Self::Ranks(column) => column.len(),
            Self::Marks(column) => column.len(),
            Self::Mixes(column, _) => column.len(),
        }
    }

    fn has(&self, place: usize) -> bool {
        match self {
            Self::Numbers(column) => at(column, place).is_some(),
            Self::Names(column) | Self::Ranks(column) => at(column, place).is_some(),
            Self::Marks(column) => at(column, place).is_some(),
            Self::Mixes(column, _) => at(column, place).is_some(),
        }
    }

    fn range(&self) -> f64 {
        let range = match self {
            Self::Numbers(column) => spread(column.iter().flatten().copied()),
            Self::Ranks(column) => spread(column.iter().flatten().map(|rank| f64::from(*rank))),
            Self::Names(_) | Self::Marks(_) | Self::Mixes(..) => 1.0,
        };
        if 0.0 < range && range.is_finite() { range } else { 1.0 }
    }
}

fn spread(numbers: impl Iterator<Item = f64>) -> f64 {
    let widen = |(low, high): (f64, f64), number: f64| (low.min(number), high.max(number));
    let (low, high) = numbers.fold((f64::INFINITY, f64::NEG_INFINITY), widen);
    high - low
}
