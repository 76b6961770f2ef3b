//! The layouts of scale card that are known: where the markers and the colour patches lie.
//!
//! Millimetres from the card's top left corner, u to the right and v down. Start at [`Card`].

use crate::colour::Lab;
use crate::outline::Point;

/// A scale card.
#[derive(Clone, Copy, Debug)]
pub struct Card {
    /// Width and height, mm.
    pub size: [f64; 2],
    /// A module of the markers, mm: a marker is nested squares of 7, 5 and 3 modules, black, white, black.
    pub module: f64,
    /// Middles of the markers, mm. The last one has a white heart of one module, which tells which way up the card lies.
    pub markers: [Point; 4],
    /// Patches of ink: left, top, width, height in mm, and the colour they should print.
    pub patches: &'static [([f64; 4], Lab)],
}

/// The postcard: 148 x 105 mm, four markers of 24.5 mm.
pub const POSTCARD: Card = Card {
    size: [148.0, 105.0],
    module: 3.5,
    markers: [[17.5, 17.5], [130.5, 17.5], [17.5, 87.5], [130.5, 87.5]],
    patches: &[
        patch(37.5, 34.0, [95.0, 0.0, 0.0]),
        patch(48.1, 34.0, [80.0, 0.0, 0.0]),
        patch(58.7, 34.0, [65.0, 0.0, 0.0]),
        patch(69.3, 34.0, [50.0, 0.0, 0.0]),
        patch(79.9, 34.0, [35.0, 0.0, 0.0]),
        patch(90.5, 34.0, [20.0, 0.0, 0.0]),
        patch(101.1, 34.0, [45.0, 55.0, 35.0]),
        patch(37.5, 53.0, [65.0, 35.0, 60.0]),
        patch(48.1, 53.0, [80.0, 5.0, 75.0]),
        patch(58.7, 53.0, [52.0, -38.0, 32.0]),
        patch(69.3, 53.0, [55.0, -25.0, -25.0]),
        patch(79.9, 53.0, [35.0, 10.0, -40.0]),
        patch(90.5, 53.0, [60.0, 40.0, 5.0]),
        patch(101.1, 53.0, [38.0, 18.0, 20.0]),
    ],
};

const fn patch(left: f64, top: f64, [l, a, b]: [f64; 3]) -> ([f64; 4], Lab) {
    ([left, top, 9.4, 17.0], Lab { l, a, b })
}
