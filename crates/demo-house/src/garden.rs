//! The gardens as planted: plots, their plants, and what went wrong with the labels.
//!
//! A plot knows what its label says and what truly grows in it. Start at [`plant`].

use crate::chance::{happens, normal, stream};
use crate::roll::Missing;
use crate::season::{GROW_OUTS, GrowOut};
use crate::truth::TrueVariety;
use jiff::civil::Date;
use rand_chacha::ChaCha8Rng;

/// Which of the true varieties, by its place in the roll.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place(pub usize);

/// One plot as planted.
#[derive(Clone, Debug)]
pub struct Plot {
    /// Season and garden.
    pub grow_out: GrowOut,
    /// The label on its stake, such as `H-031`.
    pub label: String,
    /// What the label says grows there.
    pub labelled: Place,
    /// Strip of like ground, from 1.
    pub block: u32,
    /// Row of the bed map, from 1.
    pub row: u32,
    /// Place along the row, from 1.
    pub position: u32,
    /// The day its plants went out.
    pub transplanted: Date,
    /// Its plants, numbered from 1.
    pub plants: Vec<Plant>,
}

/// One plant as planted.
#[derive(Clone, Debug)]
pub struct Plant {
    /// Its number within the plot.
    pub number: u32,
    /// What it truly is.
    pub truly: Place,
    /// True where it is a rogue among plants of another variety.
    pub off_type: bool,
    /// The day it was found dead or pulled out.
    pub lost: Option<Date>,
    /// Its own share of vigour, on the log scale of fruit weight.
    pub heavier: f64,
}

/// Plots whose whole stand is another variety than the label says: two trays were swapped, and one
/// packet was filled from the wrong jar. (Year, garden letter, label says, truly.)
const MISLABELLED: [(i16, char, &str, &str); 3] = [
    (2025, 'F', "Signal Box", "Post Mill"),
    (2025, 'F', "Post Mill", "Signal Box"),
    (2026, 'H', "Candle Hill", "Quarry Dusk"),
];

/// The heaviest variety, which both keepers grow every year to show their visitors.
const SHOWPIECE: &str = "Hogshead";

/// Chance that a plant is an off-type. Common practice, no source.
const OFF_TYPE: f64 = 0.004;
/// Chance that a plant is lost before it is done. Common practice, no source.
const LOST: f64 = 0.03;
/// Spread between plants of one plot on the log scale of weight. Source: identity facts, section 5:
/// .19 to .24, mostly wild and cherry types; taken a little lower for bred fruit.
const BETWEEN_PLANTS: f64 = 0.15;
/// Plants in a plot at home and in Far Field.
const PLANTS: [(char, u32); 2] = [('H', 6), ('F', 5)];
/// Plots along one row, and rows in one block.
const ALONG: u32 = 10;
const ROWS: u32 = 4;

/// Plants all six grow-outs.
#[must_use]
pub fn plant(seed: u64, truth: &[TrueVariety]) -> Vec<Plot> {
    GROW_OUTS.iter().flat_map(|grow_out| plant_one(seed, truth, grow_out)).collect()
}

fn plant_one(seed: u64, truth: &[TrueVariety], grow_out: &GrowOut) -> Vec<Plot> {
    let name = grow_out.name();
    let draws = &mut stream(seed, &["planting", &name]);
    let mut chosen: Vec<Place> =
        (0..truth.len()).map(Place).filter(|place| is_planted(draws, truth, *place, grow_out)).collect();
    shuffle(draws, &mut chosen);
    (0u32..).zip(chosen).map(|(index, labelled)| plot(seed, truth, grow_out, index, labelled)).collect()
}

fn is_planted(draws: &mut ChaCha8Rng, truth: &[TrueVariety], place: Place, grow_out: &GrowOut) -> bool {
    let by_chance = happens(draws, grow_out.planted);
    let Some(variety) = truth.get(place.0) else { return false };
    let needed = MISLABELLED.iter().any(|(year, letter, says, _)| {
        *year == grow_out.year && *letter == grow_out.garden.letter() && *says == variety.entry.name
    });
    variety.entry.missing != Some(Missing::NeverGrown)
        && (by_chance || needed || variety.entry.name == SHOWPIECE)
}

/// Draws an order.
pub(crate) fn shuffle(draws: &mut ChaCha8Rng, places: &mut [Place]) {
    use rand::RngExt;
    for last in (1..places.len()).rev() {
        places.swap(last, draws.random_range(0..=last));
    }
}

fn plot(seed: u64, truth: &[TrueVariety], grow_out: &GrowOut, index: u32, labelled: Place) -> Plot {
    let label = format!("{}-{:03}", grow_out.garden.letter(), index + 1);
    let draws = &mut stream(seed, &["plot", &grow_out.name(), &label]);
    let late = if happens(draws, 0.2) { 3 } else { 0 };
    let truly = truly(truth, grow_out, labelled);
    let count =
        PLANTS.iter().find(|(letter, _)| *letter == grow_out.garden.letter()).map_or(5, |(_, count)| *count);
    let count = if happens(draws, 0.15) { count + 2 } else { count };
    Plot {
        grow_out: *grow_out,
        label,
        labelled,
        block: index / (ALONG * ROWS) + 1,
        row: index / ALONG + 1,
        position: index % ALONG + 1,
        transplanted: grow_out.day(f64::from(late)),
        plants: (1..=count).map(|number| one_plant(draws, truth, grow_out, number, truly)).collect(),
    }
}

fn truly(truth: &[TrueVariety], grow_out: &GrowOut, labelled: Place) -> Place {
    let label = truth.get(labelled.0).map(|variety| variety.entry.name.as_str());
    let swapped = MISLABELLED.iter().find(|(year, letter, says, _)| {
        *year == grow_out.year && *letter == grow_out.garden.letter() && Some(*says) == label
    });
    swapped.and_then(|(.., truly)| find(truth, truly)).unwrap_or(labelled)
}

/// The place of the variety of this name.
#[must_use]
pub fn find(truth: &[TrueVariety], name: &str) -> Option<Place> {
    truth.iter().position(|variety| variety.entry.name == name).map(Place)
}

fn one_plant(
    draws: &mut ChaCha8Rng,
    truth: &[TrueVariety],
    grow_out: &GrowOut,
    number: u32,
    truly: Place,
) -> Plant {
    let off_type = happens(draws, OFF_TYPE);
    // A rogue comes from the neighbouring jar: seven places along the roll is another sort of fruit or
    // at least another variety.
    let truly = if off_type { Place((truly.0 + 7) % truth.len()) } else { truly };
    let lost_after = 20.0 + 70.0 * crate::chance::between(draws, (0.0, 1.0));
    let lost = happens(draws, LOST).then(|| grow_out.day(lost_after));
    Plant { number, truly, off_type, lost, heavier: normal(draws, BETWEEN_PLANTS) }
}

impl Plot {
    /// Its season's season-and-garden name with its label, to name streams of draws.
    #[must_use]
    pub fn full_label(&self) -> String {
        format!("{} {}", self.grow_out.name(), self.label)
    }

    /// The variety that its label names.
    #[must_use]
    pub fn label_of<'a>(&self, truth: &'a [TrueVariety]) -> Option<&'a TrueVariety> {
        truth.get(self.labelled.0)
    }

    /// The variety of most of its plants.
    #[must_use]
    pub fn stand(&self) -> Place {
        let true_plants = self.plants.iter().filter(|plant| !plant.off_type);
        true_plants.map(|plant| plant.truly).next().unwrap_or(self.labelled)
    }

    /// True where the stand is not what the label says.
    #[must_use]
    pub fn is_mislabelled(&self) -> bool {
        self.stand() != self.labelled
    }
}
