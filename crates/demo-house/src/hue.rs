//! Colour: the trade's words, and what a colour meter reads off each.
//!
//! Start at [`notes`] and [`read_by_meter`].

use crate::chance::{happens, normal, stream};
use crate::garden::{Plant, Plot};
use crate::ripening::sampling_days;
use crate::truth::TrueVariety;
use rand_chacha::ChaCha8Rng;
use record::colour::{FruitPart, Lab, Pattern, Skin, TradeColour};

/// The cut flesh under each colour. Source: identity facts, section 6: red under yellow skin is red,
/// red under clear skin pink; red with green is brown or black.
#[must_use]
pub fn flesh(colour: TradeColour) -> TradeColour {
    match colour {
        TradeColour::Pink => TradeColour::Red,
        TradeColour::Black => TradeColour::Brown,
        other => other,
    }
}

/// The peeled skin that goes with each colour. Source: as for [`flesh`].
#[must_use]
pub fn skin(colour: TradeColour) -> Skin {
    match colour {
        TradeColour::Pink | TradeColour::White | TradeColour::Black => Skin::Clear,
        _ => Skin::Yellow,
    }
}

/// Spread of a meter's readings between fruits of one variety, in CIELAB units. Common practice, no
/// source.
const BETWEEN_FRUITS: f64 = 2.2;

/// L*, a* and b* of a ripe fruit of each colour. Common practice, no source.
fn typical(colour: TradeColour) -> (f64, f64, f64) {
    match colour {
        TradeColour::Red => (39.0, 36.0, 26.0),
        TradeColour::Pink => (44.0, 30.0, 13.0),
        TradeColour::Orange => (57.0, 27.0, 48.0),
        TradeColour::Yellow => (67.0, 7.0, 55.0),
        TradeColour::White => (78.0, -1.0, 27.0),
        TradeColour::Green => (53.0, -10.0, 33.0),
        TradeColour::Brown => (35.0, 15.0, 17.0),
        TradeColour::Black => (29.0, 11.0, 7.0),
        TradeColour::Bicolour => (59.0, 20.0, 44.0),
    }
}

/// Reads one fruit of `colour` with a colour meter.
pub fn read_by_meter(draws: &mut ChaCha8Rng, colour: TradeColour) -> Option<Lab> {
    let (lightness, a, b) = typical(colour);
    let mut off = || normal(draws, BETWEEN_FRUITS);
    Lab::new(lightness + off(), a + off(), b + off())
}

/// One colour noted or metered on one plot.
#[derive(Clone, Debug)]
pub struct ColourNote {
    /// The day.
    pub day: jiff::civil::Date,
    /// The plant's number in its plot.
    pub plant: u32,
    /// Where on the fruit.
    pub part: FruitPart,
    /// The colour that was there.
    pub colour: TradeColour,
    /// What a meter said of it.
    pub lab: Option<Lab>,
    /// How it was laid out.
    pub pattern: Pattern,
    /// The peeled skin.
    pub skin: Option<Skin>,
}

/// Draws the colours noted on one plot: two fruits outside, one of them cut.
#[must_use]
pub fn notes(seed: u64, truth: &[TrueVariety], plot: &Plot) -> Vec<ColourNote> {
    let draws = &mut stream(seed, &["colour", &plot.full_label()]);
    let standing = plot.plants.iter().filter(|plant| plant.lost.is_none()).take(2);
    let plants: Vec<&Plant> = standing.collect();
    plants.into_iter().flat_map(|plant| notes_of(draws, truth, plot, plant)).collect()
}

fn notes_of(draws: &mut ChaCha8Rng, truth: &[TrueVariety], plot: &Plot, plant: &Plant) -> Vec<ColourNote> {
    let Some(variety) = truth.get(plant.truly.0) else { return Vec::new() };
    let Some(day) = sampling_days(draws, plot, variety, 1).pop() else { return Vec::new() };
    let outside = variety.entry.colour;
    let cut = happens(draws, 0.6).then(|| (FruitPart::Flesh, flesh(outside)));
    let peeled = happens(draws, 0.5).then(|| skin(outside));
    let parts = [(FruitPart::Exterior, outside)].into_iter().chain(cut);
    let note = |(part, colour)| {
        let lab = read_by_meter(draws, colour);
        let pattern = if part == FruitPart::Exterior { variety.entry.pattern } else { Pattern::Plain };
        ColourNote { day, plant: plant.number, part, colour, lab, pattern, skin: peeled }
    };
    parts.map(note).collect()
}
