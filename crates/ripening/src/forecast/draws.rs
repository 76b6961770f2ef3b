//! A variety's crop, drawn as often as is wanted from what is believed of it.

use super::{PER_RATE_HEAT, narrow, phi};
use crate::crop::{Belief, Known, Shape, come};
use crate::thermal::Clock;
use rand::seq::SliceRandom;
use record::share::Share;
use statistics::draws::{NormalPoints, stream};
use statistics::normal::chance_below;
use statistics::students_t::{self, Degrees};

/// Draws of a crop.
///
/// # Shape
/// One number a draw in each column.
#[derive(Clone, Debug)]
pub struct Draws {
    /// How the warmth of its times is counted.
    pub(super) clock: Clock,
    /// How the crop goes on.
    pub(super) shape: Shape,
    /// Logarithm of the degree-days to the middle or the beginning.
    pub(super) middle: Vec<f32>,
    /// One over the spread.
    pub(super) by_spread: Vec<f32>,
    /// The spread.
    pub(super) spread: f32,
    /// Kilograms a plant.
    pub(super) kilograms: Vec<f32>,
    /// Mean degree-days to the beginning, of a stream.
    pub(super) mean: Vec<f32>,
    /// The weight of a fruit, in kilograms.
    pub(super) fruit: f32,
    /// Part of a plant's crop (or of a stream's rate) that has come when the first fruit is ripe.
    pub(super) part: Vec<f32>,
    /// Degree-days by which it has, if every flower set.
    pub(super) first: Vec<f32>,
}

/// Which of the things that are not known are drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Drawn {
    /// All of them.
    All,
    /// None: weather alone is left.
    Nothing,
    /// What is believed of the variety.
    Variety,
    /// How a plot of another season differs from it.
    Plants,
}

impl Draws {
    /// Draws `count` crops, always the same. `fruit` is the weight of one, in kilograms: the first ripe one is told of.
    #[must_use]
    pub fn of(belief: &Belief, count: usize, drawn: Drawn, fruit: f64) -> Self {
        let points = NormalPoints::new(5, count);
        let (of_mean, of_plants) = match drawn {
            Drawn::All => (1.0, 1.0),
            Drawn::Nothing => (0.0, 0.0),
            Drawn::Variety => (1.0, 0.0),
            Drawn::Plants => (0.0, 1.0),
        };
        let mut draws = Self::none(belief, count, fruit);
        for point in points.iter() {
            let &[one, other, third, fourth, fifth] = point else { continue };
            // The first of many fruits that ripen each by itself comes when so many are expected to have come.
            let expected = match drawn {
                Drawn::All | Drawn::Plants => -chance_below(fifth).ln(),
                Drawn::Nothing | Drawn::Variety => std::f64::consts::LN_2,
            };
            draws.add(
                belief,
                [of_mean * one, of_mean * other],
                [of_plants * third, of_plants * fourth],
                expected * fruit,
            );
        }
        draws
    }

    /// Draws a crop for each of so many sampled years: how plots of a year differ is the same for all varieties, what a
    /// variety is its own by `key`.
    #[must_use]
    pub(super) fn of_years(belief: &Belief, years: usize, key: &str) -> Self {
        let points: Vec<[f64; 2]> =
            NormalPoints::new(2, years).iter().filter_map(|point| point.try_into().ok()).collect();
        let shuffled = |key: &[&str]| {
            let mut own = points.clone();
            own.shuffle(&mut stream(key));
            own
        };
        let (means, plants) =
            (shuffled(&["sampled years", "variety", key]), shuffled(&["sampled years", "plots"]));
        let mut draws = Self::none(belief, years, 0.0);
        for (mean, plant) in means.into_iter().zip(plants) {
            draws.add(belief, mean, plant, 0.0);
        }
        draws
    }

    fn none(belief: &Belief, count: usize, fruit: f64) -> Self {
        Self {
            clock: belief.clock,
            shape: belief.shape,
            middle: Vec::with_capacity(count),
            by_spread: vec![narrow(1.0 / belief.spread); count],
            spread: narrow(belief.spread),
            kilograms: Vec::with_capacity(count),
            mean: Vec::with_capacity(count),
            fruit: narrow(fruit),
            part: Vec::with_capacity(count),
            first: Vec::with_capacity(count),
        }
    }

    /// Adds a crop so many deviations from what is believed: of the variety, and of its plots. `first` is the kilograms that a
    /// plant's first ripe fruit is told by.
    fn add(&mut self, belief: &Belief, of_mean: [f64; 2], of_plants: [f64; 2], first: f64) {
        let at = |known: &Known, mean: f64, plant: f64| {
            known.mean + known.of_mean.sqrt() * mean + widened(known.degrees) * known.about.sqrt() * plant
        };
        let middle = at(&belief.middle, of_mean[0], of_plants[0]);
        let kilograms = at(&belief.kilograms, of_mean[1], of_plants[1]).exp();
        self.middle.push(narrow(middle));
        self.kilograms.push(narrow(kilograms));
        self.mean.push(narrow((middle + 0.5 * belief.spread.powi(2)).exp()));
        let part = first / kilograms;
        self.part.push(narrow(part));
        self.first.push(narrow(first_ripe(belief, middle, part)));
    }

    /// How much of a crop has come after so many degree-days, by its place among the draws: see [`come`].
    pub(super) fn come(&self, place: usize, heat: f32) -> f32 {
        let of = |column: &Vec<f32>| column.get(place).copied().unwrap_or_default();
        let z = (heat.ln() - of(&self.middle)) * of(&self.by_spread);
        match self.shape {
            Shape::Hump => phi::below(z),
            Shape::Stream => {
                let streamed = heat * phi::below(z) - of(&self.mean) * phi::below(z - self.spread);
                streamed.max(0.0) * PER_RATE_HEAT
            }
        }
    }

    /// How many.
    #[must_use]
    pub fn len(&self) -> usize {
        self.middle.len()
    }

    /// Whether there are none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.middle.is_empty()
    }
}

/// How much wider than a normal draw one must be whose variance so few degrees tell, at the ends of the middle 80 of 100.
fn widened(degrees: f64) -> f64 {
    let t = Degrees::new(degrees).and_then(|degrees| students_t::critical(Share::new(0.8)?, degrees));
    t.map_or(1.0, |t| t / crate::crop::NINE_TENTHS)
}

/// Halvings of the way to the first ripe fruit: far below a day.
const HALVINGS: usize = 20;

/// Degree-days by which one fruit's part of a plant's crop has come.
fn first_ripe(belief: &Belief, middle: f64, part: f64) -> f64 {
    let (mut before, mut after) = (0.0, (middle + 3.0 * belief.spread).exp());
    for _ in 0..HALVINGS {
        let halfway: f64 = 0.5 * (before + after);
        if come(belief.shape, middle, belief.spread, halfway) < part {
            before = halfway
        } else {
            after = halfway
        }
    }
    after
}
