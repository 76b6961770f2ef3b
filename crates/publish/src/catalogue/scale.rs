//! To what scale the portraits are printed: one for every entry, and one for the cover.

use crate::catalogue::{Catalogue, Portrait};

/// Scales that a reader can picture, from large to small: printed size over life size, and its words.
const SCALES: [(f64, &str); 10] = [
    (1.0, "life size"),
    (3.0 / 4.0, "three quarters of life size"),
    (2.0 / 3.0, "two thirds of life size"),
    (1.0 / 2.0, "half life size"),
    (2.0 / 5.0, "two fifths of life size"),
    (1.0 / 3.0, "a third of life size"),
    (3.0 / 10.0, "three tenths of life size"),
    (1.0 / 4.0, "a quarter of life size"),
    (1.0 / 5.0, "a fifth of life size"),
    SMALLEST,
];
/// Below this a small fruit is a dot; a picture that would need less is shrunk by itself.
const SMALLEST: (f64, &str) = (1.0 / 6.0, "a sixth of life size");

/// The scale of a set of portraits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct PrintedScale {
    /// Printed size over life size.
    pub(crate) factor: f64,
    /// The same in words.
    pub(crate) words: &'static str,
}

/// Room for one portrait, in printed millimetres.
#[derive(Clone, Copy, Debug)]
pub(super) struct Room {
    pub(super) width: f64,
    pub(super) height: f64,
}

/// The largest scale at which every portrait of the book has room.
pub(super) fn for_entries(catalogue: &Catalogue, room: Room) -> PrintedScale {
    let entries = catalogue.sections.iter().flat_map(|section| &section.entries);
    let portraits: Vec<&Portrait> = entries.filter_map(|entry| entry.portrait.as_ref()).collect();
    largest(|factor| portraits.iter().all(|portrait| has_room(portrait, factor, room)))
}

/// The largest scale at which portraits stand on at most `shelves` shelves within `room`.
pub(super) fn for_shelves(portraits: &[&Portrait], shelves: usize, gap: f64, room: Room) -> PrintedScale {
    largest(|factor| {
        let packed = pack(portraits, factor, gap, room.width);
        let heights = packed.iter().map(|shelf| tallest(shelf) * factor + gap);
        packed.len() <= shelves
            && heights.sum::<f64>() <= room.height
            && portraits.iter().all(|portrait| has_room(portrait, factor, room))
    })
}

/// Sets portraits on shelves in their order, as many on each as its width takes.
pub(super) fn pack<'a>(
    portraits: &[&'a Portrait],
    factor: f64,
    gap: f64,
    width: f64,
) -> Vec<Vec<&'a Portrait>> {
    let mut shelves: Vec<Vec<&Portrait>> = Vec::new();
    let mut left = 0.0;
    for portrait in portraits {
        let needs = portrait.life_width.get() * factor + gap;
        match shelves.last_mut() {
            Some(shelf) if needs <= left => shelf.push(portrait),
            _ => {
                left = width + gap;
                shelves.push(vec![portrait]);
            }
        }
        left -= needs;
    }
    shelves
}

/// The largest of the scales that fits, or the smallest of all.
pub(crate) fn largest(fits: impl Fn(f64) -> bool) -> PrintedScale {
    let (factor, words) = SCALES.into_iter().find(|(factor, _)| fits(*factor)).unwrap_or(SMALLEST);
    PrintedScale { factor, words }
}

fn has_room(portrait: &Portrait, factor: f64, room: Room) -> bool {
    portrait.life_width.get() * factor <= room.width && portrait.life_height.get() * factor <= room.height
}

fn tallest(shelf: &[&Portrait]) -> f64 {
    shelf.iter().map(|portrait| portrait.life_height.get()).fold(0.0, f64::max)
}
