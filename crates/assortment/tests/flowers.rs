//! Gower's distance beside a reference program: 18 garden flowers of eight mixed traits.
//!
//! The table is `flower` of the R package `cluster` (2.1.4), and the distances are its `daisy(metric =
//! "gower")` with factors as names, ordered factors as ranks over their range and equal weights.

#![expect(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]

use assortment::likeness::{Column, Traits, Weighed};
use std::path::PathBuf;

/// A file of the reference data, where it is at hand.
fn oracle(file: &str) -> Option<PathBuf> {
    let beside = || PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../../shared/oracles");
    let folder = std::env::var_os("LOCULE_ORACLES").map_or_else(beside, PathBuf::from);
    Some(folder.join("stats").join(file)).filter(|file| file.is_file())
}

/// Columns 1 to 4 are names, 5 and 6 ranks, 7 and 8 numbers.
fn flowers() -> Option<(Traits, serde_json::Value)> {
    let golden = std::fs::read(oracle("gower_flowers.json")?).unwrap();
    let mut reader = csv::Reader::from_path(oracle("gower_flowers.csv")?).unwrap();
    let rows: Vec<Vec<f64>> =
        reader.records().map(|row| row.unwrap().iter().map(|cell| cell.parse().unwrap()).collect()).collect();
    let whole = |place: usize| rows.iter().map(|row| Some(row[place] as u32)).collect();
    let numbers = |place: usize| rows.iter().map(|row| Some(row[place])).collect();
    let names = (0..4).map(|place| Column::Names(whole(place)));
    let ranks = (4..6).map(|place| Column::Ranks(whole(place)));
    let columns = names.chain(ranks).chain((6..8).map(|place| Column::Numbers(numbers(place))));
    let weighed = columns.map(|column| Weighed { column, weight: 1.0 });
    Some((Traits::new(rows.len(), weighed.collect()).unwrap(), serde_json::from_slice(&golden).unwrap()))
}

/// Half a unit of the last of the twelve printed digits.
const PRINTED: f64 = 0.5e-12;

#[test]
fn distances_agree_with_the_reference() {
    let Some((traits, golden)) = flowers() else {
        println!("left out: gower_flowers");
        return;
    };
    let published: Vec<f64> =
        golden["dissimilarity_lower"].as_array().unwrap().iter().map(|one| one.as_f64().unwrap()).collect();
    assert_eq!(traits.count(), golden["n"].as_u64().unwrap() as usize);
    let below = (0..traits.count()).flat_map(|one| (one + 1..traits.count()).map(move |other| (one, other)));
    let pairs: Vec<(usize, usize)> = below.collect();
    assert_eq!(pairs.len(), published.len());
    for ((one, other), published) in pairs.into_iter().zip(published) {
        let likeness = traits.between(one, other);
        assert_eq!(likeness.compared, 8);
        assert!((likeness.distance.unwrap() - published).abs() <= PRINTED, "{one} {other}: {published}");
    }
}

#[test]
fn the_nearest_three_agree_with_the_reference() {
    let Some((traits, golden)) = flowers() else {
        println!("left out: gower_flowers");
        return;
    };
    let nearest = |one: usize| {
        let mut others: Vec<usize> = (0..traits.count()).filter(|other| *other != one).collect();
        let far = |other: &usize| traits.between(one, *other).distance.unwrap();
        others.sort_by(|a, b| far(a).total_cmp(&far(b)));
        others.into_iter().take(3).map(|other| other as u64 + 1).collect::<Vec<_>>()
    };
    for (one, published) in golden["nearest_three"].as_array().unwrap().iter().enumerate() {
        let own: Vec<u64> =
            published.as_array().unwrap().iter().map(|other| other.as_u64().unwrap()).collect();
        assert_eq!(nearest(one), own, "flower {}", one + 1);
    }
}
