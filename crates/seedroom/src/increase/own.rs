//! What a plant gives in seed, by a house's own lots and picks where it has them, else by what is usual.
//!
//! Start at [`seed_of_a_plant`].

use super::harvest::{Crop, FruitKind, Rough, usual_seeds};
use super::weight::SeedWeight;
use record::length::Millimetres;
use record::lot::{Lot, LotNote};
use record::mass::Milligrams;
use record::share::Share;
use record::stock::Place;

/// The seed that came in of one lot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LotGave {
    /// Its seeds.
    pub seeds: f64,
    /// The plants that they were saved from.
    pub parents: u32,
}

impl LotGave {
    /// What came in of a lot, by its notes and its seed weight; `None` where its parents or its seed were not counted.
    #[must_use]
    pub fn of<'n>(lot: &Lot, notes: impl Iterator<Item = &'n LotNote>, weight: &SeedWeight) -> Option<Self> {
        let came_in = notes.filter_map(|note| match note {
            LotNote::Movement(moved) if moved.from == Place::Origin => Some(moved.mass),
            _ => None,
        });
        let mass = came_in.fold(Milligrams::NONE, |sum, mass| sum.plus(mass).unwrap_or(sum));
        let (seeds, _) = weight.seeds_in(mass.to_grams())?;
        Some(Self { seeds, parents: lot.origin.parents? })
    }
}

/// Fruit of one plot's plants.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PlotGave {
    /// Sound fruits picked.
    pub fruits: u32,
    /// Plants.
    pub plants: u32,
}

/// What a plant's seed rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RestsOn {
    /// Lots of this variety, so many.
    OwnLots(usize),
    /// Fruit counted on so many plots of this variety, and the usual seeds of its kind of fruit.
    OwnPicks(usize),
    /// What is usual for its kind of fruit.
    Usual,
}

/// Part of the seed that is kept after cleaning. Common practice, no source.
pub const KEPT: f64 = 0.9;

/// By how many times one lot or plot may be out, either way. Common practice, no source.
const ONE_ALONE: f64 = 2.0;

/// The seed of a plant as a crop, and what that rests on: own lots first, then own picks.
#[must_use]
pub fn seed_of_a_plant(kind: FruitKind, lots: &[LotGave], plots: &[PlotGave]) -> Option<(Crop, RestsOn)> {
    let each = |lot: &LotGave| (0 < lot.parents).then(|| lot.seeds / f64::from(lot.parents));
    let known = Rough::between(1.0, 1.0)?;
    if let Some((seeds, count)) = several(lots.iter().filter_map(each)) {
        // What was weighed was cleaned before, and one plant stands for its fruits.
        let crop = Crop { seeds_per_fruit: seeds, fruits_per_plant: known, kept: Share::ALL };
        return Some((crop, RestsOn::OwnLots(count)));
    }
    let (seeds_per_fruit, kept) = (usual_seeds(kind)?, Share::new(KEPT)?);
    let each = |plot: &PlotGave| (0 < plot.plants).then(|| f64::from(plot.fruits) / f64::from(plot.plants));
    let (fruits_per_plant, rests_on) = match several(plots.iter().filter_map(each)) {
        Some((fruits, count)) => (fruits, RestsOn::OwnPicks(count)),
        None => (usual_fruits(kind)?, RestsOn::Usual),
    };
    Some((Crop { seeds_per_fruit, fruits_per_plant, kept }, rests_on))
}

/// The quantity between the ends of several, which one alone tells only to within twice.
fn several(values: impl Iterator<Item = f64>) -> Option<(Rough, usize)> {
    let values: Vec<f64> = values.filter(|value| 0.0 < *value && value.is_finite()).collect();
    let (low, high) =
        values.iter().fold((f64::INFINITY, 0.0_f64), |(low, high), one| (low.min(*one), high.max(*one)));
    let rough = match values.len() {
        0 => None,
        1 => Rough::between(low / ONE_ALONE, high * ONE_ALONE),
        _ => Rough::between(low, high),
    };
    rough.map(|rough| (rough, values.len()))
}

/// Fruits of one plant that are saved for seed, where nobody has counted. Common practice, no source.
#[must_use]
pub fn usual_fruits(kind: FruitKind) -> Option<Rough> {
    match kind {
        FruitKind::Cherry => Rough::between(60.0, 300.0),
        FruitKind::Plum => Rough::between(20.0, 60.0),
        FruitKind::Slicer => Rough::between(12.0, 40.0),
        FruitKind::Beefsteak => Rough::between(6.0, 20.0),
    }
}

impl FruitKind {
    /// The kind of a fruit class, by its word; what is none of the others is taken for a slicer.
    #[must_use]
    pub fn of_class(class: &str) -> Self {
        match class {
            "currant" | "cherry" | "grape" | "pear" => Self::Cherry,
            "saladette" | "plum" | "paste" => Self::Plum,
            "beefsteak" => Self::Beefsteak,
            _ => Self::Slicer,
        }
    }
}

/// Packets that one plant's seed makes, in the middle; `None` of packets without seed.
#[must_use]
pub fn packets_of_a_plant(crop: &Crop, seeds_each: u32) -> Option<f64> {
    let seeds = crop.seeds_per_fruit.times(crop.fruits_per_plant).middle() * crop.kept.get();
    (0 < seeds_each).then(|| seeds / f64::from(seeds_each))
}

/// Seeds of a plant that are kept: the middle, and ends that hold 80 in 100.
#[must_use]
pub fn seeds_of_a_plant(crop: &Crop) -> Option<(f64, (f64, f64))> {
    let seeds = crop.seeds_per_fruit.times(crop.fruits_per_plant);
    let (low, high) = seeds.ends()?;
    let kept = crop.kept.get();
    Some((kept * seeds.middle(), (kept * low, kept * high)))
}

/// Square metres of bed that plants take, so far apart in the row and their rows so far from each other.
#[must_use]
pub fn bed_m2(plants: u32, (between_plants, between_rows): (Millimetres, Millimetres)) -> f64 {
    f64::from(plants) * between_plants.get() * between_rows.get() / 1e6
}
