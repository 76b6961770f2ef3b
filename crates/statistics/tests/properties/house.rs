//! Small random houses: varieties, seasons, plants and fruits of any number, as sums and as rows.

use crate::dense::Rows;
use proptest::prelude::*;
use statistics::variety_means::PlantSums;

/// Fruits of each plant of each season of each variety.
pub(crate) type House = Vec<Vec<Vec<Vec<f64>>>>;

/// Houses in which every level can be compared somewhere.
pub(crate) fn houses() -> impl Strategy<Value = House> {
    let fruits = prop::collection::vec(-1.0..1.0_f64, 1..4);
    let plants = prop::collection::vec((-1.5..1.5_f64, fruits), 1..4);
    let seasons = prop::collection::vec((-2.0..2.0_f64, plants), 1..4);
    let varieties = prop::collection::vec((0.0..8.0_f64, seasons), 2..4);
    varieties
        .prop_map(|varieties| varieties.into_iter().map(grow).collect())
        .prop_filter("all told", all_told)
}

/// A group's own effect and what it holds.
type Grown<T> = (f64, Vec<T>);

/// Adds a variety's, a season's and a plant's own effects to each fruit.
fn grow((variety, seasons): Grown<Grown<Grown<f64>>>) -> Vec<Vec<Vec<f64>>> {
    let plant = |season: f64, (plant, fruits): Grown<f64>| {
        fruits.into_iter().map(move |fruit| variety + season + plant + fruit).collect()
    };
    let season =
        |(season, plants): Grown<Grown<f64>>| plants.into_iter().map(|of| plant(season, of)).collect();
    seasons.into_iter().map(season).collect()
}

fn all_told(house: &House) -> bool {
    let seasons = || house.iter().flatten();
    let enough = |counts: Vec<usize>| 2 <= counts.iter().map(|count| count - 1).sum::<usize>();
    enough(house.iter().map(Vec::len).collect())
        && enough(seasons().map(Vec::len).collect())
        && enough(seasons().flatten().map(Vec::len).collect())
}

/// The house as sums of each plant.
pub(crate) fn sums(house: &House) -> Vec<Vec<PlantSums>> {
    let plant = |season: usize, fruits: &Vec<f64>| {
        let mut sums = PlantSums::empty(u32::try_from(season).unwrap());
        fruits.iter().for_each(|fruit| sums.add(*fruit));
        sums
    };
    let variety = |seasons: &Vec<Vec<Vec<f64>>>| {
        let numbered = seasons.iter().enumerate();
        numbered.flat_map(|(season, plants)| plants.iter().map(move |fruits| plant(season, fruits))).collect()
    };
    house.iter().map(variety).collect()
}

/// The house as rows of a mixed model, one fixed column a variety.
pub(crate) fn rows(house: &House) -> Rows {
    let mut rows =
        Rows { response: vec![], columns: vec![vec![]; house.len()], outer: vec![], inner: vec![] };
    let (mut season_number, mut plant_number) = (0, 0);
    for (variety_number, variety) in house.iter().enumerate() {
        for season in variety {
            for fruits in season {
                for fruit in fruits {
                    rows.response.push(*fruit);
                    rows.outer.push(season_number);
                    rows.inner.push(plant_number);
                    let columns = rows.columns.iter_mut().enumerate();
                    columns.for_each(|(at, column)| column.push(f64::from(u8::from(at == variety_number))));
                }
                plant_number += 1;
            }
            season_number += 1;
        }
    }
    rows
}
