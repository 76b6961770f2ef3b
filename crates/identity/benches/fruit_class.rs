//! Calling a large house: 10 000 varieties, 1 000 000 fruits.

#![expect(
    clippy::unwrap_used,
    reason = "figures written here are possible, and the guide is the shipped one"
)]

use identity::call::Call;
use identity::fruit_class::{Draws, call_all};
use identity::guide::fruit::{ClassName, SHIPPED, read};
use identity::spread::{Spread, estimate};
use identity::sums::FruitSums;
use record::fruit::FruitSample;
use record::growout::PlantNumber;
use record::id::Id;
use record::language::Units;
use record::length::Millimetres;
use record::mass::Grams;
use record::season::Season;
use record::subject::Subject;
use statistics::draws::{normal, stream};
use std::num::NonZeroU32;

fn main() {
    divan::main();
}

/// Varieties of the full house.
const VARIETIES: u32 = 10_000;

/// Standard deviations between seasons, plants and fruits of log weight, shape, fullness and locules.
const SPREADS: [[f64; 3]; 4] =
    [[0.19, 0.21, 0.31], [0.02, 0.02, 0.042], [0.02, 0.02, 0.05], [0.06, 0.08, 0.2]];

/// Means of the same four over the house.
const HOUSE: [f64; 4] = [3.9, -0.05, 0.0, 1.5];

/// One variety's fruits: 2 seasons of 5 plants of 10 fruits, spread as fruits spread.
fn samples(variety: u32) -> Vec<FruitSample> {
    let mut chance = stream(&["bench", &variety.to_string()]);
    let mut moved = |logs: [f64; 4], level: usize| {
        let mut moved = logs;
        for (log, spread) in moved.iter_mut().zip(SPREADS) {
            *log += spread.get(level).copied().unwrap_or_default() * normal(&mut chance);
        }
        moved
    };
    // Varieties differ by six times what seasons differ by.
    let own = (0..36).fold(HOUSE, |own, _| moved(own, 0));
    let mut samples = Vec::with_capacity(100);
    for season in 0..2 {
        let in_season = moved(own, 0);
        for plant in 0..5 {
            let of_plant = moved(in_season, 1);
            samples.extend((0..10).map(|_| sample(variety, season, plant, moved(of_plant, 2))));
        }
    }
    samples
}

fn sample(variety: u32, season: i16, plant: u32, logs: [f64; 4]) -> FruitSample {
    let [log_weight, log_shape, log_fullness, log_locules] = logs;
    let width = identity::ellipsoid::log_width(log_weight, log_shape, log_fullness);
    let (plot, variety) = (u128::from(variety) * 2 + season.unsigned_abs() as u128, u128::from(variety));
    FruitSample {
        subject: Subject {
            variety: Id::from_uuid(uuid::Uuid::from_u128(variety)),
            season: Season::new(2030 + season).unwrap(),
            plot: Some(Id::from_uuid(uuid::Uuid::from_u128(plot))),
            plant: Some(PlantNumber(plant)),
        },
        sampled_on: None,
        fruit_count: NonZeroU32::MIN,
        weight: Grams::new(log_weight.exp()),
        length: Millimetres::new((width + log_shape).exp()),
        width: Millimetres::new(width.exp()),
        neck_width: None,
        locules: Some(log_locules.exp().round().max(2.0) as u32),
        soluble_solids: None,
        dry_matter: None,
        lobes: None,
        cracking: None,
        catfacing: None,
        exterior: None,
        flesh: None,
        skin: None,
    }
}

fn summed(variety: u32) -> FruitSums {
    let mut sums = FruitSums::default();
    samples(variety).iter().for_each(|sample| sums.take(sample));
    sums
}

fn house() -> Vec<FruitSums> {
    (0..VARIETIES).map(summed).collect()
}

/// Summing up a hundred fruits.
#[divan::bench]
fn sum_up_100_fruits(bencher: divan::Bencher<'_, '_>) {
    bencher.with_inputs(|| samples(1)).bench_refs(|samples| {
        let mut sums = FruitSums::default();
        samples.iter().for_each(|sample| sums.take(sample));
        sums
    });
}

/// The house's spread by REML, every trait.
#[divan::bench(sample_count = 3)]
fn spread_of_the_house(bencher: divan::Bencher<'_, '_>) {
    let house = house();
    let borrowed: Vec<&FruitSums> = house.iter().collect();
    bencher.bench_local(|| estimate(&borrowed));
}

/// Every call of the house, what would settle the contested ones among it.
#[divan::bench(sample_count = 3)]
fn call_the_house(bencher: divan::Bencher<'_, '_>) {
    let house = house();
    let borrowed: Vec<&FruitSums> = house.iter().collect();
    let guide = read("guides/fruit.toml", SHIPPED).unwrap();
    let (spread, draws) = (Spread::beforehand(), Draws::new());
    let contested = |calls: &[Call<ClassName>]| calls.iter().filter(|call| call.contested).count();
    assert!(contested(&call_all(borrowed.get(..500).unwrap(), &spread, &guide, &draws, Units::US)) > 50);
    bencher.bench_local(|| call_all(&borrowed, &spread, &guide, &draws, Units::US));
}
