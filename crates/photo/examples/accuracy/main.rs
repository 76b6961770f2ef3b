//! Scores the measures against the made pictures whose truth is known, and prints the table.
//!
//! `cargo run --release -p photo --example accuracy FOLDER` with the folder of pictures, masks and truth files. Fruit count
//! whose visible fraction is above 0.9 and that do not touch the frame; the shape of a fruit is scored for those that lie on
//! their side, its width also for standing ones. Below stands what becomes of all of it where the camera tells its lens wrongly,
//! where the pictures are written as smaller files, and where they have half the pixels across.

#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a truth file that does not fit may stop it"
)]
#![expect(clippy::print_stdout, reason = "the table is what it is for")]

mod changed;
mod faces;
mod score;

use changed::{CHANGES, Change};
use photo::card::KNOWN;
use photo::decode::{Picture, decode};
use photo::measure::{Measured, Wishes, measure};
use photo::refusal::Refusal;
use record::length::Millimetres;
use score::{Score, score};
use serde_json::Value;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::time::Instant;

fn measured(picture: &Picture) -> Result<Measured, Refusal> {
    let (stems, line) = (BTreeMap::new(), Millimetres::new(70.0).unwrap());
    measure(picture, &Wishes { cards: &KNOWN, line, stems: &stems, changes: &[] })
}

fn truth(path: &Path) -> Value {
    serde_json::from_slice(&std::fs::read(path.with_extension("truth.json")).unwrap()).unwrap()
}

fn mask(path: &Path) -> image::GrayImage {
    image::open(path.with_extension("mask.png")).unwrap().to_luma8()
}

/// Scores one picture and tells how it was.
fn told(path: &Path, truth: &Value) -> Option<Score> {
    let started = Instant::now();
    let measured = measured(&decode(&std::fs::read(path).unwrap()).unwrap());
    let seconds = started.elapsed().as_secs_f64();
    println!("{} (expected {}, {seconds:.2} s)", path.file_name().unwrap().display(), truth["expected"]);
    match measured {
        Err(refusal) => {
            println!("    refused: {refusal}");
            None
        }
        Ok(measured) => {
            let (camera, height) = (measured.pose.camera, truth["camera"]["height_mm"].as_f64().unwrap());
            println!(
                "    height {:.1} against {height:.1} mm, tilt {:.1}, edges {:.1} px, residual {:.2} px, apart {:.2}",
                camera.height(),
                camera.tilt(),
                measured.pose.edge_width,
                measured.pose.residual,
                measured.parted.apart
            );
            let scored = score(&measured, truth, &mask(path));
            scored.notes.iter().for_each(|note| println!("    {note}"));
            println!("    {}", scored.line());
            Some(scored)
        }
    }
}

/// The scores of all pictures that must be measured, changed alike, and how many of them are refused.
fn with(change: Change, pictures: &[(PathBuf, Value)]) -> (Score, usize) {
    let (mut all, mut refused) = (Score::default(), 0);
    for (path, truth) in pictures {
        let picture = change.of_picture(decode(&std::fs::read(path).unwrap()).unwrap());
        match measured(&picture) {
            Ok(measured) => {
                let (truth, mask) = change.of_truth(truth.clone(), mask(path));
                all.take(score(&measured, &truth, &mask));
            }
            Err(_) => refused += 1,
        }
    }
    (all, refused)
}

fn main() {
    let folder = PathBuf::from(std::env::args_os().nth(1).unwrap());
    let mut paths: Vec<PathBuf> =
        std::fs::read_dir(&folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|ending| ending == "jpg"));
    paths.sort();
    let mut pictures: Vec<(PathBuf, Value)> =
        paths.into_iter().map(|path| (path.clone(), truth(&path))).collect();
    let mut all = Score::default();
    for (path, truth) in &pictures {
        if let Some(scored) = told(path, truth)
            && truth["expected"] == "measure"
        {
            all.take(scored);
        }
    }
    println!("all that must be measured: {}", all.line());
    println!("{}", all.faces.line());
    pictures.retain(|(_, truth)| truth["expected"] == "measure");
    for change in CHANGES {
        let (scored, refused) = with(change, &pictures);
        println!("{change}: refused {refused} | {}", scored.line());
        println!("    {}", scored.faces.line());
    }
}
