//! Beds as they are planted, to scale: every place with the letter of what stands there, and containers beside.
//!
//! Start at [`planted_beds`].

use crate::lettering::{Anchor, Hand};
use crate::paint::{HAIR, INK, THIN_INK, WASH};
use crate::path::Point;
use crate::svg::{Canvas, Role, Svg};
use record::language::{self, Units};
use record::length::Millimetres;

/// Width of the drawing, in pixels.
const WIDTH: f64 = 680.0;
/// Room above each bed for its words.
const HEAD: f64 = 22.0;
/// Room below each bed.
const FOOT: f64 = 14.0;
/// Most pixels a millimetre: a bed of a few plants is not blown up to the width of the page.
const MOST_SCALE: f64 = 0.12;
/// Share of the room between two plants that a plant's circle takes.
const CIRCLE: f64 = 0.42;
/// Side of a container, in pixels.
const POT: f64 = 26.0;
const HEADING: Hand =
    Hand { class: "tick", size: 12.0, ink: THIN_INK, anchor: Anchor::Start, slanted: false };
/// Largest letters in a circle, in pixels.
const MOST_LETTER: f64 = 13.0;

/// Beds with what stands in them.
#[derive(Clone, Debug, PartialEq)]
pub struct PlantedBeds {
    /// What it says, in words, for those who cannot see it.
    pub words: String,
    /// The beds.
    pub beds: Vec<PlantedBed>,
    /// Letters of what stands in containers, one each.
    pub containers: Vec<String>,
}

/// A bed.
#[derive(Clone, Debug, PartialEq)]
pub struct PlantedBed {
    /// Its length.
    pub length: Millimetres,
    /// Its width.
    pub width: Millimetres,
    /// Between the two plants that stand closest.
    pub closest: Millimetres,
    /// Its places.
    pub places: Vec<PlantedPlace>,
}

/// A place in a bed.
#[derive(Clone, Debug, PartialEq)]
pub struct PlantedPlace {
    /// From the bed's left end, along it.
    pub along: Millimetres,
    /// From its upper side, across it.
    pub across: Millimetres,
    /// The letter of what stands there; nothing where the place is free.
    pub letter: Option<String>,
}

/// Draws beds one below the other, all to one scale.
#[must_use]
pub fn planted_beds(planted: &PlantedBeds, units: Units) -> Svg {
    let mut canvas = Canvas::new("b", &planted.words);
    let longest = planted.beds.iter().map(|bed| bed.length.get()).fold(f64::MIN_POSITIVE, f64::max);
    let scale = ((WIDTH - 2.0) / longest).min(MOST_SCALE);
    let mut top = 0.0;
    for (bed, number) in planted.beds.iter().zip(1_u32..) {
        let words = format!("Bed {number}: {} by {}", briefly(bed.length, units), briefly(bed.width, units));
        HEADING.set(&mut canvas, &words, Point::new(0.0, top + HEAD - 8.0));
        draw(&mut canvas, bed, top + HEAD, scale);
        top += HEAD + bed.width.get() * scale + FOOT;
    }
    if !planted.containers.is_empty() {
        HEADING.set(&mut canvas, "Containers", Point::new(0.0, top + HEAD - 8.0));
        top = pots(&mut canvas, &planted.containers, top + HEAD) + FOOT;
    }
    canvas.finish("planted-beds", Role::Picture, &planted.words, WIDTH, top.max(1.0))
}

fn briefly(length: Millimetres, units: Units) -> String {
    language::length_briefly(length, units)
}

fn draw(canvas: &mut Canvas, bed: &PlantedBed, top: f64, scale: f64) {
    let (length, width) = (bed.length.get() * scale, bed.width.get() * scale);
    let ground = canvas.element("rect").at("x", 1.0).at("y", top).at("width", length).at("height", width);
    ground.set("fill", "none").set("stroke", THIN_INK).end();
    let radius = bed.closest.get() * scale * CIRCLE;
    for place in &bed.places {
        let at = Point::new(1.0 + place.along.get() * scale, top + place.across.get() * scale);
        match &place.letter {
            Some(letter) => plant(canvas, at, radius, letter),
            None => circle(canvas, at, radius.min(2.0), HAIR, WASH),
        }
    }
}

fn plant(canvas: &mut Canvas, at: Point, radius: f64, letter: &str) {
    circle(canvas, at, radius, WASH, INK);
    let room = Hand { size: 1.0, ..HEADING }.width(letter).max(0.1);
    let size = (1.5 * radius / room).min(1.3 * radius).min(MOST_LETTER);
    let hand = Hand { size, ink: INK, ..HEADING }.anchored(Anchor::Middle);
    hand.set(canvas, letter, Point::new(at.x, at.y + 0.35 * size));
}

fn circle(canvas: &mut Canvas, at: Point, radius: f64, fill: &str, stroke: &str) {
    let circle = canvas.element("circle").at("cx", at.x).at("cy", at.y).at("r", radius);
    circle.set("fill", fill).set("stroke", stroke).at("stroke-width", 0.8).end();
}

/// Containers in rows; tells where they end.
fn pots(canvas: &mut Canvas, letters: &[String], top: f64) -> f64 {
    let pitch = POT + 8.0;
    let (mut left, mut row) = (1.0, top);
    for letter in letters {
        if WIDTH < left + POT {
            (left, row) = (1.0, row + pitch);
        }
        let pot = canvas.element("rect").at("x", left).at("y", row).at("width", POT).at("height", POT);
        pot.at("rx", 4.0).set("fill", WASH).set("stroke", INK).at("stroke-width", 0.8).end();
        let hand = Hand { size: MOST_LETTER, ink: INK, ..HEADING }.anchored(Anchor::Middle);
        hand.set(canvas, letter, Point::new(left + POT / 2.0, row + POT / 2.0 + 4.5));
        left += pitch;
    }
    row + pitch
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bed_is_drawn_to_scale_with_every_place() {
        let millimetres = |of: f64| Millimetres::new(of).unwrap();
        let place = |along, letter: Option<&str>| PlantedPlace {
            along: millimetres(along),
            across: millimetres(600.0),
            letter: letter.map(str::to_owned),
        };
        let bed = PlantedBed {
            length: millimetres(6_780.0),
            width: millimetres(1_200.0),
            closest: millimetres(600.0),
            places: vec![place(300.0, Some("A")), place(900.0, None)],
        };
        let planted = PlantedBeds {
            words: "One bed".to_owned(),
            beds: vec![bed],
            containers: vec!["B".to_owned(), "B".to_owned()],
        };
        let drawn = planted_beds(&planted, Units::METRIC);
        let markup = drawn.markup();
        // A tenth of a pixel a millimetre: 6.78 m are 678 pixels, and the first plant stands 30 pixels in.
        assert!(markup.contains("width=\"678\" height=\"120\""), "{markup}");
        assert!(markup.contains("cx=\"31\""), "{markup}");
        assert_eq!(markup.matches("<circle").count(), 2);
        assert_eq!(markup.matches(">B</text>").count(), 2);
    }
}
