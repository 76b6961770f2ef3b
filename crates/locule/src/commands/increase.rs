//! `locule increase`: plants and fruits for so many packets.

use super::reference::{Shape, shape};
use super::{Failure, lots};
use crate::answer::Answer;
use crate::arguments::sales::Increase as Typed;
use house::folder::House;
use house::increase::{self, Asked, Increase, Wanted};
use house::lots::typed;
use record::share::Share;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// What so many packets take.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct IncreaseTold {
    /// The variety.
    variety: String,
    /// Packets wanted.
    packets: u32,
    /// Seeds of each.
    seeds_each: u32,
    /// Seeds wanted in all, those besides with them.
    seeds: u64,
    /// How sure it is to suffice, in 100.
    sure: f64,
    /// Plants to grow.
    plants: u64,
    /// Fruits to save.
    fruits: Option<u64>,
    /// Seeds of a plant in the middle.
    seeds_a_plant: f64,
    /// Ends that hold a plant's seeds, 80 in 100.
    seeds_a_plant_between: [f64; 2],
    /// The seed to expect, in grams.
    seed_g: Option<f64>,
    /// Ends that hold it, 80 in 100.
    seed_g_between: Option<[f64; 2]>,
    /// The thousand-seed weight that this goes by, in grams.
    thousand_g: f64,
    /// Square metres of bed.
    bed_m2: f64,
    /// The answer in sentences.
    words: Vec<String>,
}

pub(crate) fn run(house: &House, typed: &Typed) -> Result<IncreaseTold, Failure> {
    let spacing = (typed::distance(&typed.between_plants)?, typed::distance(&typed.between_rows)?);
    let wanted = Wanted {
        packets: typed.packets,
        seeds_each: typed.seeds,
        seeds_besides: typed.besides,
        sure: Share::of(typed.sure.into(), 100).unwrap_or_else(increase::usual_sure),
    };
    let asked = Asked { variety: typed.variety.clone(), wanted, spacing };
    let found = increase::of(house, &asked, lots::asked(house, typed.judged))?;
    Ok(told(&found, increase::telling::words(&found, house.settings.units)))
}

fn told(found: &Increase, words: Vec<String>) -> IncreaseTold {
    let (seeds_a_plant, (low, high)) = found.seeds_a_plant;
    IncreaseTold {
        variety: found.variety.clone(),
        packets: found.wanted.packets,
        seeds_each: found.wanted.seeds_each,
        seeds: found.planned.seeds,
        sure: 100.0 * found.wanted.sure.get(),
        plants: found.planned.plants,
        fruits: found.fruits(),
        seeds_a_plant,
        seeds_a_plant_between: [low, high],
        seed_g: found.seed.map(|(seed, _)| seed.get()),
        seed_g_between: found.seed.map(|(_, (low, high))| [low.get(), high.get()]),
        thousand_g: found.thousand.0.get(),
        bed_m2: found.bed_m2,
        words,
    }
}

impl Answer for IncreaseTold {
    const SHAPE: &'static str = "increase/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        self.words.iter().try_for_each(|sentence| writeln!(to, "{sentence}"))
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<IncreaseTold>()]
}
