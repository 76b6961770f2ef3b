//! The layouts of scale card that are known: where the markers, the patches, the line and the code strip lie.
//!
//! Millimetres from the card's top left corner, u to the right and v down. What `locule print card` prints is drawn from
//! [`HOUSE_CARD`], so that the printed card and the card that is looked for cannot differ. Start at [`Card`].

use crate::colour::Lab;
use crate::outline::Point;

/// A scale card.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Card {
    /// What it is called.
    pub name: &'static str,
    /// Width and height, mm.
    pub size: [f64; 2],
    /// A module of the markers, mm: a marker is nested squares of 7, 5 and 3 modules, black, white, black.
    pub module: f64,
    /// Middles of the markers, mm. The last one has a white heart of one module, which tells which way up the card lies.
    pub markers: [Point; 4],
    /// Patches of ink: left, top, width, height in mm, and the colour they should print.
    pub patches: &'static [([f64; 4], Lab)],
    /// The code strip, on cards that have one.
    pub strip: Option<Strip>,
}

/// A strip of black and white modules that say a number.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strip {
    /// Its top left corner, mm.
    pub corner: Point,
    /// The side of a module, mm.
    pub module: f64,
    /// Modules across; there are two rows.
    pub columns: usize,
}

/// Left, top, width and height, mm.
type Place = [f64; 4];

impl Card {
    /// The nested squares of the markers, outer ones first: left, top, width and height in mm, and whether they are dark.
    pub fn squares(&self) -> impl Iterator<Item = (Place, bool)> {
        let (module, last) = (self.module, self.markers.len() - 1);
        self.markers.into_iter().enumerate().flat_map(move |(at, [u, v])| {
            let sizes: &[f64] = if at == last { &[7.0, 5.0, 3.0, 1.0] } else { &[7.0, 5.0, 3.0] };
            sizes.iter().enumerate().map(move |(ring, modules)| {
                let half = modules * module / 2.0;
                ([u - half, v - half, 2.0 * half, 2.0 * half], ring % 2 == 0)
            })
        })
    }
}

impl Strip {
    /// Top left corners of its modules, mm, in the order that they are read: the upper row from the left, then the lower.
    pub fn corners(self) -> impl Iterator<Item = Point> {
        (0..2 * self.columns).map(move |at| {
            let (row, column) = (at / self.columns, at % self.columns);
            [self.corner[0] + self.module * column as f64, self.corner[1] + self.module * row as f64]
        })
    }
}

/// The ends of the line on [`HOUSE_CARD`] that tells how true the printer drew, mm: 70 mm apart.
pub const HOUSE_LINE: [Point; 2] = [[55.0, 84.0], [125.0, 84.0]];

/// The card that this program prints: 180 x 120 mm, four markers of 28 mm.
pub const HOUSE_CARD: Card = Card {
    name: "card 1",
    size: [180.0, 120.0],
    module: 4.0,
    markers: [[20.0, 20.0], [160.0, 20.0], [20.0, 100.0], [160.0, 100.0]],
    patches: &[
        house_patch(0, 0, [94.0, 0.0, 0.0]),
        house_patch(1, 0, [79.0, 0.0, 0.0]),
        house_patch(2, 0, [64.0, 0.0, 0.0]),
        house_patch(3, 0, [49.0, 0.0, 0.0]),
        house_patch(4, 0, [34.0, 0.0, 0.0]),
        house_patch(5, 0, [19.0, 0.0, 0.0]),
        house_patch(0, 1, [44.0, 56.0, 38.0]),
        house_patch(1, 1, [66.0, 34.0, 60.0]),
        house_patch(2, 1, [82.0, 4.0, 70.0]),
        house_patch(3, 1, [54.0, -34.0, 36.0]),
        house_patch(4, 1, [52.0, 42.0, 12.0]),
        house_patch(5, 1, [34.0, 22.0, 14.0]),
    ],
    strip: Some(Strip { corner: [42.75, 98.0], module: 3.5, columns: 27 }),
};

/// A second layout that is read: 148 x 105 mm, four markers of 24.5 mm, no code.
pub const POSTCARD: Card = Card {
    name: "postcard",
    size: [148.0, 105.0],
    module: 3.5,
    markers: [[17.5, 17.5], [130.5, 17.5], [17.5, 87.5], [130.5, 87.5]],
    patches: &[
        postcard_patch(37.5, 34.0, [95.0, 0.0, 0.0]),
        postcard_patch(48.1, 34.0, [80.0, 0.0, 0.0]),
        postcard_patch(58.7, 34.0, [65.0, 0.0, 0.0]),
        postcard_patch(69.3, 34.0, [50.0, 0.0, 0.0]),
        postcard_patch(79.9, 34.0, [35.0, 0.0, 0.0]),
        postcard_patch(90.5, 34.0, [20.0, 0.0, 0.0]),
        postcard_patch(101.1, 34.0, [45.0, 55.0, 35.0]),
        postcard_patch(37.5, 53.0, [65.0, 35.0, 60.0]),
        postcard_patch(48.1, 53.0, [80.0, 5.0, 75.0]),
        postcard_patch(58.7, 53.0, [52.0, -38.0, 32.0]),
        postcard_patch(69.3, 53.0, [55.0, -25.0, -25.0]),
        postcard_patch(79.9, 53.0, [35.0, 10.0, -40.0]),
        postcard_patch(90.5, 53.0, [60.0, 40.0, 5.0]),
        postcard_patch(101.1, 53.0, [38.0, 18.0, 20.0]),
    ],
    strip: None,
};

/// Every layout that is looked for.
pub const KNOWN: [Card; 2] = [HOUSE_CARD, POSTCARD];

const fn house_patch(column: u8, row: u8, [l, a, b]: [f64; 3]) -> ([f64; 4], Lab) {
    ([40.0 + 17.0 * column as f64, 40.0 + 17.0 * row as f64, 15.0, 14.0], Lab { l, a, b })
}

const fn postcard_patch(left: f64, top: f64, [l, a, b]: [f64; 3]) -> ([f64; 4], Lab) {
    ([left, top, 9.4, 17.0], Lab { l, a, b })
}
