//! Colour, the geometry of masks and Fourier outlines against values worked out elsewhere.
//!
//! The files are read in place through `LOCULE_ORACLES`; without it each test says what it left out.

#![expect(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]
#![expect(clippy::print_stdout, reason = "a test that left something out says so")]

use photo::colour::{Lab, difference};
use photo::fourier::{harmonics, normalised};
use photo::outline::{axes, callipers, extent, hull, moments};
use photo::plane::Plane;
use photo::region::{perimeter, regions, rim};
use serde_json::Value;
use std::path::PathBuf;

fn oracle(name: &str) -> Option<PathBuf> {
    let folder = std::env::var_os("LOCULE_ORACLES");
    if folder.is_none() {
        println!("left out: photo/{name}, no LOCULE_ORACLES");
    }
    Some(PathBuf::from(folder?).join("photo").join(name))
}

fn table(name: &str) -> Option<Value> {
    Some(serde_json::from_slice(&std::fs::read(oracle(name)?).unwrap()).unwrap())
}

fn numbers(value: &Value) -> Vec<f64> {
    value.as_array().unwrap().iter().map(|number| number.as_f64().unwrap()).collect()
}

fn lab(value: &Value) -> Lab {
    let numbers = numbers(value);
    Lab { l: numbers[0], a: numbers[1], b: numbers[2] }
}

#[track_caller]
fn near(ours: f64, theirs: f64, within: f64) {
    assert!((ours - theirs).abs() <= within, "{ours} against {theirs}");
}

/// Ten pairs of Sharma, Wu, Dalal, Color Research and Application 30(1) 21-30, 2005, Table 1.
#[test]
fn ten_published_pairs_lie_as_far_apart() {
    let published = [
        ([50.0, 2.6772, -79.7751], [50.0, 0.0, -82.7485], 2.0425),
        ([50.0, -1.3802, -84.2814], [50.0, 0.0, -82.7485], 1.0000),
        ([50.0, 0.0, 0.0], [50.0, -1.0, 2.0], 2.3669),
        ([50.0, 2.49, -0.001], [50.0, -2.49, 0.0009], 7.1792),
        ([50.0, 2.49, -0.001], [50.0, -2.49, 0.0011], 7.2195),
        ([50.0, 2.5, 0.0], [73.0, 25.0, -18.0], 27.1492),
        ([50.0, 2.5, 0.0], [56.0, -27.0, -3.0], 31.9030),
        ([60.2574, -34.0099, 36.2677], [60.4626, -34.1751, 39.4387], 1.2644),
        ([22.7233, 20.0904, -46.6940], [23.0331, 14.9730, -42.5619], 2.0373),
        ([2.0776, 0.0795, -1.1350], [0.9033, -0.0636, -0.5514], 0.9082),
    ];
    let lab = |[l, a, b]: [f64; 3]| Lab { l, a, b };
    for (one, other, apart) in published {
        near(difference(lab(one), lab(other)), apart, 5.1e-5);
        near(difference(lab(other), lab(one)), apart, 5.1e-5);
    }
}

/// All 34 pairs of the same table.
#[test]
fn all_published_pairs_lie_as_far_apart() {
    let Some(table) = table("colour.json") else { return };
    let pairs = table["ciede2000"].as_array().unwrap();
    assert_eq!(pairs.len(), 34);
    for pair in pairs {
        near(difference(lab(&pair["lab1"]), lab(&pair["lab2"])), pair["recomputed"].as_f64().unwrap(), 2e-6);
    }
}

/// Worked out with scikit-image; its white is rounded, hence 0.01.
#[test]
fn bytes_become_cielab_and_light_again() {
    let Some(table) = table("colour.json") else { return };
    for row in table["srgb_to_lab_d65_2deg"].as_array().unwrap() {
        let bytes = numbers(&row["rgb"]);
        let ours = Lab::of_srgb([bytes[0] as u8, bytes[1] as u8, bytes[2] as u8]);
        let theirs = lab(&row["lab"]);
        near(ours.l, theirs.l, 0.01);
        near(ours.a, theirs.a, 0.01);
        near(ours.b, theirs.b, 0.01);
        let again = Lab::of_linear(ours.to_linear());
        near(again.a, ours.a, 0.01);
        near(again.l, ours.l, 0.01);
    }
}

fn mask(name: &str) -> Option<Plane<u32>> {
    let picture = image::open(oracle(&format!("synthetic/{name}"))?).unwrap().to_luma8();
    let cells = picture.pixels().map(|pixel| u32::from(pixel.0[0])).collect();
    Plane::of_cells(picture.width() as usize, picture.height() as usize, cells)
}

/// Worked out with scikit-image for every mask; the callipers on its half-level contour.
#[test]
fn masks_measure_as_elsewhere() {
    let Some(table) = table("regionprops.json") else { return };
    let mut seen = 0;
    for (name, rows) in table.as_object().unwrap().iter().filter(|(name, _)| name.ends_with(".mask.png")) {
        if !oracle(&format!("synthetic/{name}")).unwrap().exists() {
            continue;
        }
        let mask = mask(name).unwrap();
        for region in regions(&mask) {
            let row = rows.as_array().unwrap().iter().find(|row| row["label"] == region.label).unwrap();
            let number = |field: &str| row[field].as_f64().unwrap();
            assert_eq!(region.area, row["area"].as_u64().unwrap() as usize);
            let [left, top, right, bottom] = region.bounds.map(|side| side as f64);
            assert_eq!(numbers(&row["bbox"]), [top, left, bottom, right]);
            near(region.centroid[1], numbers(&row["centroid"])[0], 1e-4);
            near(region.centroid[0], numbers(&row["centroid"])[1], 1e-4);
            let (long, short, _) = axes(region.spread);
            near(long, number("axis_major"), 1e-3);
            near(short, number("axis_minor"), 1e-3);
            near(perimeter(&mask, &region), number("perimeter"), 1e-3);
            let (greatest, least) = callipers(&hull(&rim(&mask, &region)));
            near(greatest, number("feret_max_half_level"), 0.05);
            // The least across all directions is never above the other side's, which tried some of them; how near ours is
            // to the true least is held to steps of a tenth of a degree.
            let told = number("feret_min_half_level");
            assert!(least <= told + 1e-3, "{least} against {told}");
            let corners = hull(&rim(&mask, &region));
            let turned = |step: i32| (f64::from(step) / 10.0).to_radians();
            let stepped = (0..1800).map(|step| extent(&corners, [turned(step).cos(), turned(step).sin()]));
            near(stepped.fold(f64::INFINITY, f64::min), least, 0.1);
            seen += 1;
        }
    }
    assert!(100 < seen, "only {seen} regions");
}

fn agrees(ours: &[[f64; 4]], theirs: &Value) {
    for (ours, theirs) in ours.iter().zip(theirs.as_array().unwrap()) {
        for (ours, theirs) in ours.iter().zip(numbers(theirs)) {
            near(*ours, theirs, 1e-8);
        }
    }
}

/// A unit square by hand: 4 over pi squared, and a ninth of it at the third harmonic; the rest worked out with NumPy.
#[test]
fn outlines_have_the_worked_harmonics() {
    let square = harmonics(&[[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]], 3);
    let worked = 4.0 / std::f64::consts::PI.powi(2);
    near(square[0][1], worked, 1e-12);
    near(square[1][0], 0.0, 1e-12);
    near(square[2][3], worked / 9.0, 1e-12);
    let Some(table) = table("outline.json") else { return };
    agrees(&square, &table["unit_square"]["efd"]);
    let turn = |part: i32| f64::from(part) * std::f64::consts::TAU / 720.0;
    let ellipse: Vec<_> = (0..720).map(|part| [30.0 * turn(part).cos(), 20.0 * turn(part).sin()]).collect();
    agrees(&harmonics(&ellipse, 3), &table["ellipse_30_20_n720"]["efd"]);
}

#[test]
fn harmonics_forget_place_turn_size_and_start() {
    let shape = |start: usize, turn: f64, size: f64| -> Vec<[f64; 2]> {
        let angle = |part: usize| (part as f64) * std::f64::consts::TAU / 300.0;
        let point = |part: usize| {
            let (x, y) = (30.0 * angle(part).cos(), (20.0 + 4.0 * angle(part).cos()) * angle(part).sin());
            [size * (x * turn.cos() - y * turn.sin()) + 7.0, size * (x * turn.sin() + y * turn.cos()) - 3.0]
        };
        (0..300).map(|part| point((part + start) % 300)).collect()
    };
    let plain = normalised(&harmonics(&shape(0, 0.0, 1.0), 6)).unwrap();
    let moved = normalised(&harmonics(&shape(40, 0.6, 2.5), 6)).unwrap();
    for (plain, moved) in plain.iter().flatten().zip(moved.iter().flatten()) {
        near(*moved, *plain, 1e-9);
    }
    near(plain[0][0], 1.0, 1e-12);
}

#[test]
fn a_rectangle_has_its_area_middle_and_callipers() {
    let corners = [[10.0, 5.0], [16.0, 5.0], [16.0, 9.0], [10.0, 9.0]];
    let found = moments(&corners).unwrap();
    near(found.area, 24.0, 1e-12);
    near(found.centroid[0], 13.0, 1e-12);
    near(found.spread[0], 3.0, 1e-12);
    let (greatest, least) = callipers(&hull(&corners));
    near(greatest, 52.0_f64.sqrt(), 1e-12);
    near(least, 4.0, 1e-12);
    assert!(moments(&[[1.0, 1.0], [2.0, 2.0]]).is_none());
}
