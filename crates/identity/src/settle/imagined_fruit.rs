//! Fruit that has not been grown yet: how much a step would add to what is known of each trait.
//!
//! Only counts of fruits, plants and seasons matter here, as the error of a mean does not depend on what is
//! measured. Start at [`gain`].

use crate::call::Action;
use crate::fruit_class::evidence::{Evidence, Line, LineEvidence};
use statistics::variety_means::{PlantSums, variety_mean};

/// The variance of what a step adds to a line, as an observation of its own; `None` where it adds nothing.
pub(super) fn gain(line: &LineEvidence, evidence: &Evidence, action: Action) -> Option<f64> {
    let variance =
        |plants: &[PlantSums]| variety_mean(plants, &line.variances).map(|mean| mean.standard_error.powi(2));
    let after = variance(&with_step(line, evidence, action))?;
    match variance(&line.plants) {
        // Precisions add, so what is gained is their difference.
        Some(before) => (after < before).then(|| after * before / (before - after)),
        None => Some(after),
    }
}

/// A line's plants once a step has been taken.
fn with_step(line: &LineEvidence, evidence: &Evidence, action: Action) -> Vec<PlantSums> {
    let mut plants = line.plants.clone();
    match action {
        Action::MoreFruits(fruits)
        | Action::CutFruits(fruits)
        | Action::MeasureNecks(fruits)
        | Action::MeasureSizes(fruits)
        | Action::ReadRefractometer(fruits)
        | Action::WeighFruits(fruits) => add_fruits(&mut plants, evidence, fruits),
        Action::MorePlants { plants: more, fruits_each } => {
            let season = latest_season(&line.plants).unwrap_or(0);
            plants.extend((0..more).map(|_| imagined_plant(season, fruits_each)));
        }
        Action::MoreSeasons { seasons, plants: each, fruits_each } => {
            let next = latest_season(&line.plants).unwrap_or(0).saturating_add(1);
            let season =
                |ahead: u32| (0..each).map(move |_| imagined_plant(next.saturating_add(ahead), fruits_each));
            plants.extend((0..seasons).flat_map(season));
        }
        _ => {}
    }
    plants
}

/// Spreads fruits evenly over the latest season's plants, as they stand in the garden now.
fn add_fruits(plants: &mut Vec<PlantSums>, evidence: &Evidence, fruits: u32) {
    if plants.is_empty() {
        let known = evidence.line(Line::Size).map(|line| line.plants.as_slice()).unwrap_or_default();
        let latest = latest_season(known).unwrap_or(0);
        if known.is_empty() {
            plants.push(imagined_plant(latest, 0));
        }
        plants.extend(
            known.iter().filter(|plant| plant.season == latest).map(|plant| imagined_plant(plant.season, 0)),
        );
    }
    let latest = latest_season(plants).unwrap_or(0);
    let standing = plants.iter().filter(|plant| plant.season == latest).count().max(1) as u64;
    let (each, left) = (u64::from(fruits) / standing, u64::from(fruits) % standing);
    let latest_plants = plants.iter_mut().filter(|plant| plant.season == latest);
    for (index, plant) in latest_plants.enumerate() {
        plant.fruit_count += each + u64::from((index as u64) < left);
    }
    plants.retain(|plant| 0 < plant.fruit_count);
}

fn latest_season(plants: &[PlantSums]) -> Option<u32> {
    plants.iter().map(|plant| plant.season).max()
}

fn imagined_plant(season: u32, fruits: u32) -> PlantSums {
    PlantSums { fruit_count: u64::from(fruits), ..PlantSums::empty(season) }
}
