//! Draws the photograph of the demo house.
//!
//! `cargo run --release -p photo --example made_photograph FILE TAG`, with the tag of the plot that its card says.

#![expect(clippy::unwrap_used, reason = "what it is given may stop it")]

#[path = "../tests/made/mod.rs"]
mod made;

use made::face::{KINDS, TrueFace};
use made::{Scene, TrueFruit, photograph};
use photo::code::{Code, VERSION};

/// Fruit of the plum-shaped variety whose plot the card says: its true middle fruit is 59.9 by 42.7 mm.
const FRUIT: [([f64; 2], f64, f64, f64); 9] = [
    ([222.0, 22.0], 61.5, 43.0, 15.0),
    ([232.0, 82.0], 55.4, 41.2, 80.0),
    ([290.0, 50.0], 63.2, 44.6, 120.0),
    ([298.0, 118.0], 57.9, 41.5, 30.0),
    ([234.0, 146.0], 59.3, 43.4, 5.0),
    ([38.0, 168.0], 64.8, 44.1, 160.0),
    ([112.0, 162.0], 52.7, 39.6, 60.0),
    ([172.0, 196.0], 60.6, 42.2, 100.0),
    ([262.0, 206.0], 58.1, 42.9, 145.0),
];
/// Two more of it are cut across, faces up: where they lie, and how many locules they have.
const CUT: [([f64; 2], u32); 2] = [([42.0, 236.0], 2), ([118.0, 232.0], 3)];
const RED: [f64; 3] = [0.40, 0.045, 0.03];

fn main() {
    let mut arguments = std::env::args().skip(1);
    let file = arguments.next().unwrap();
    let tag = u32::from_str_radix(&arguments.next().unwrap(), 16).unwrap();
    let fruit = |(middle, length, width, turned): ([f64; 2], f64, f64, f64)| TrueFruit {
        middle,
        length,
        width,
        turned,
        skin: RED,
    };
    let face = |(middle, count): &([f64; 2], u32)| TrueFace {
        radius: 21.4,
        height: 29.0,
        ribs: (5, 0.0),
        ..TrueFace::drawn(*count, *middle, KINDS[0], 19)
    };
    let scene = Scene {
        fruit: FRUIT.map(fruit).to_vec(),
        faces: CUT.iter().map(face).collect(),
        size: [1600, 1200],
        ..Scene::plain(Code { version: VERSION, tag })
    };
    std::fs::write(file, photograph(&scene)).unwrap();
}
