//! A photograph of fruit with what was measured drawn over it: outlines, stem axes, greatest widths, locules and numbers.
//!
//! For the workbench's Photo page and for `locule photo --overlay`, so that the grower sees what a number rests on. All is ink
//! on a white halo, so that it reads on any fruit and without colour; what is not counted is dashed. Start at [`measured`].

use crate::lettering::{Anchor, Hand};
use crate::paint::INK;
use crate::path::{Path, Point};
use crate::scale::Pixels;
use crate::svg::{Canvas, Role, Svg};

/// Longest side, in pixels, at which lines are drawn at their plain thickness.
const PLAIN_SIDE: f64 = 1200.0;
/// Height of a number's letters at that side.
const LETTERS: f64 = 22.0;

/// A photograph and what was measured on it. Places are pixels of the photograph, x to the right and y down.
#[derive(Clone, Debug, PartialEq)]
pub struct Photograph {
    /// Its width.
    pub width: Pixels,
    /// Its height.
    pub height: Pixels,
    /// Where the photograph itself is, as an address or its bytes in one; nothing where the drawing is laid over it later.
    pub picture: Option<String>,
    /// The fruit.
    pub fruit: Vec<Outlined>,
    /// Parts that are no fruit that is measured.
    pub left_out: Vec<LeftOut>,
    /// The card's corners.
    pub card: [[f64; 2]; 4],
}

/// A part that is no fruit that is measured.
#[derive(Clone, Debug, PartialEq)]
pub struct LeftOut {
    /// Its number.
    pub number: u32,
    /// Its outline.
    pub outline: Vec<[f64; 2]>,
}

/// One fruit's outline.
#[derive(Clone, Debug, PartialEq)]
pub struct Outlined {
    /// Its number.
    pub number: u32,
    /// Its outline.
    pub outline: Vec<[f64; 2]>,
    /// The ends of its stem's axis, where one is drawn.
    pub stem: Option<[[f64; 2]; 2]>,
    /// The ends of its greatest width.
    pub across: [[f64; 2]; 2],
    /// Outlines of the locules of a cut face; they are numbered in this order.
    pub chambers: Vec<Vec<[f64; 2]>>,
    /// Whether it counts.
    pub counts: Counts,
}

/// How a fruit is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Counts {
    /// It is measured.
    Yes,
    /// It is measured, but which way its stem lies is not known: the axis is dashed.
    StemUnsure,
    /// Somebody left it out.
    No,
}

/// Draws what was measured over its photograph.
#[must_use]
pub fn measured(photograph: &Photograph) -> Svg {
    let (width, height) = (photograph.width.get(), photograph.height.get());
    let scale = (width.max(height) / PLAIN_SIDE).max(0.25);
    let mut canvas = Canvas::new("m", "");
    if let Some(picture) = &photograph.picture {
        canvas.element("image").set("href", picture).at("width", width).at("height", height).end();
    }
    line(&mut canvas, &photograph.card, scale, Stroke::Whole);
    for part in &photograph.left_out {
        line(&mut canvas, &part.outline, scale, Stroke::Dashed);
        pressed(&mut canvas, Pressed::Part(part.number), &part.outline);
        number(&mut canvas, part.number, &part.outline, scale);
    }
    for fruit in &photograph.fruit {
        of_fruit(&mut canvas, fruit, scale);
    }
    canvas.finish("measured", Role::Picture, &told(photograph), width, height)
}

fn told(photograph: &Photograph) -> String {
    let counted = photograph.fruit.iter().filter(|fruit| fruit.counts != Counts::No).count();
    format!("The photograph with {counted} fruit outlined and numbered")
}

fn of_fruit(canvas: &mut Canvas, fruit: &Outlined, scale: f64) {
    let stroke = if fruit.counts == Counts::No { Stroke::Dashed } else { Stroke::Whole };
    line(canvas, &fruit.outline, scale, stroke);
    pressed(canvas, Pressed::Fruit(fruit.number), &fruit.outline);
    if fruit.counts != Counts::No {
        let stem = if fruit.counts == Counts::StemUnsure { Stroke::Dashed } else { Stroke::Whole };
        if let Some(ends) = fruit.stem {
            line(canvas, &ends, scale, stem);
        }
        line(canvas, &fruit.across, scale, Stroke::Hair);
        for (place, chamber) in fruit.chambers.iter().enumerate() {
            line(canvas, chamber, scale, Stroke::Hair);
            in_the_middle(canvas, chamber, &(place + 1).to_string(), scale);
        }
    }
    number(canvas, fruit.number, &fruit.outline, scale);
}

/// How a line is drawn.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Stroke {
    Whole,
    Dashed,
    Hair,
}

/// A line through the points: a white halo, and ink on it.
fn line(canvas: &mut Canvas, points: &[[f64; 2]], scale: f64, stroke: Stroke) {
    let path = through(points);
    let thick = if stroke == Stroke::Hair { 1.0 } else { 2.0 };
    for (ink, width) in [("#ffffff", thick + 2.0), (INK, thick)] {
        let element = canvas.element("path").along(&path).set("fill", "none").set("stroke", ink);
        let element = element.at("stroke-width", width * scale);
        if stroke == Stroke::Dashed {
            element.set("stroke-dasharray", &format!("{:.0} {:.0}", 8.0 * scale, 6.0 * scale)).end();
        } else {
            element.end();
        }
    }
}

/// A path through the points, closed where there are more than two.
fn through(points: &[[f64; 2]]) -> Path {
    let mut path = Path::sized(100.0);
    let mut places = points.iter().map(|[x, y]| Point::new(*x, *y));
    let Some(first) = places.next() else { return path };
    path.move_to(first);
    places.for_each(|place| path.line_to(place));
    if 2 < points.len() {
        path.line_to(first);
    }
    path
}

/// What is pressed, by its number.
#[derive(Clone, Copy)]
enum Pressed {
    Fruit(u32),
    Part(u32),
}

/// A part's area with nothing to be seen of it, so that a page can tell which was pressed.
fn pressed(canvas: &mut Canvas, what: Pressed, outline: &[[f64; 2]]) {
    let path = through(outline);
    let element = canvas.element("path");
    let element = match what {
        Pressed::Fruit(number) => element.set("class", "fruit").at("data-fruit", f64::from(number)),
        Pressed::Part(number) => element.set("class", "part").at("data-part", f64::from(number)),
    };
    element.along(&path).set("fill", "#ffffff").set("fill-opacity", "0").end();
}

/// Height of a locule's number over a fruit's.
const SMALLER: f64 = 0.6;

/// Words in the middle of an outline, on a white plate.
fn in_the_middle(canvas: &mut Canvas, outline: &[[f64; 2]], words: &str, scale: f64) {
    let count = outline.len().max(1) as f64;
    let [x, y] =
        outline.iter().fold([0.0, 0.0], |[x, y], place| [x + place[0] / count, y + place[1] / count]);
    plate(canvas, [x, y], words, SMALLER * scale);
}

/// A part's number on a white plate, at the end of its outline that lies highest.
fn number(canvas: &mut Canvas, number: u32, outline: &[[f64; 2]], scale: f64) {
    let Some([x, y]) = outline.iter().copied().min_by(|p, q| p[1].total_cmp(&q[1])) else { return };
    plate(canvas, [x, y], &number.to_string(), scale);
}

/// Words on a white plate round a place.
fn plate(canvas: &mut Canvas, [x, y]: [f64; 2], words: &str, scale: f64) {
    let hand =
        Hand { class: "number", size: LETTERS * scale, ink: INK, anchor: Anchor::Middle, slanted: false };
    let (half, high) = (hand.width(words) / 2.0 + 3.0 * scale, LETTERS * scale);
    let top = (y - high / 2.0).max(0.0);
    let plate = canvas.element("rect").at("x", x - half).at("y", top).at("width", 2.0 * half);
    plate.at("height", high).at("rx", 3.0 * scale).set("fill", "#ffffff").set("stroke", INK).end();
    hand.set(canvas, words, Point::new(x, top + 0.8 * high));
}
