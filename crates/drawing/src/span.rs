//! The span: where one class lies on one measure, as a bar of ink between the guide's borders.
//!
//! For the type chart. Start at [`span`]. A hairline is the whole measure, its ticks are every border
//! that the guide sets on it, and the bar is the class's own part: faded where a border is soft, running
//! out to the edge where there is none. It holds no lettering, so that the words beside it stay words.

use crate::paint::{HAIR, INK, THIN_INK};
use crate::path::{Path, Point};
use crate::scale::Pixels;
use crate::strip::{Border, Measured, Reading};
use crate::svg::{Canvas, Gradient, Role, Svg};

/// Height of the whole drawing, in pixels.
const HEIGHT: f64 = 10.0;
/// Height of the bar, in pixels.
const BAR: f64 = 4.0;
/// How strong the ink of the bar is. A choice of the drawing: the words beside it come first.
const STRENGTH: f64 = 0.75;
/// Least reading on an axis of ratios; what is less lies on the edge. A choice of the drawing.
const LEAST: f64 = 0.05;

/// A class's part of a measure.
#[derive(Clone, Debug, PartialEq)]
pub struct Span {
    /// What the bar says, in words, for those who cannot see it.
    pub words: String,
    /// What is measured; weight runs by ratio, all else evenly.
    pub measured: Measured,
    /// The readings at the two ends of the hairline.
    pub ends: (Reading, Reading),
    /// Every border that the guide sets on this measure.
    pub borders: Vec<Reading>,
    /// Where the class begins; nothing where it is open downwards.
    pub low: Option<Border>,
    /// Where it ends; nothing where it is open upwards.
    pub high: Option<Border>,
}

/// Draws a span `width` pixels wide.
#[must_use]
pub fn span(span: &Span, width: Pixels) -> Svg {
    let width = width.get().max(1.0);
    let axis = Axis::of(span, width);
    let mut canvas = Canvas::new("b", &span.words);
    hairline(&mut canvas, width);
    bar(&mut canvas, span, &axis);
    ticks(&mut canvas, span, &axis);
    canvas.finish("span", Role::Picture, &span.words, width, HEIGHT)
}

/// Where readings lie across the drawing.
struct Axis {
    measured: Measured,
    from: f64,
    reach: f64,
    width: f64,
}

impl Axis {
    fn of(span: &Span, width: f64) -> Self {
        let [from, to] = [span.ends.0, span.ends.1].map(|end| bent(span.measured, end));
        Self { measured: span.measured, from, reach: (to - from).max(f64::MIN_POSITIVE), width }
    }

    fn place(&self, reading: Reading) -> f64 {
        ((bent(self.measured, reading) - self.from) / self.reach).clamp(0.0, 1.0) * self.width
    }
}

fn bent(measured: Measured, reading: Reading) -> f64 {
    match measured {
        Measured::Weight => reading.get().max(LEAST).ln(),
        _ => reading.get().clamp(-1e9, 1e9),
    }
}

fn hairline(canvas: &mut Canvas, width: f64) {
    let line = canvas.element("line").at("x1", 0.0).at("y1", HEIGHT / 2.0).at("x2", width);
    line.at("y2", HEIGHT / 2.0).set("stroke", HAIR).at("stroke-width", 1.0).end();
}

/// Draws the bar: full between the soft parts of its borders, faded within them.
fn bar(canvas: &mut Canvas, span: &Span, axis: &Axis) {
    let soft = |border: Option<Border>, open: f64| {
        border.map_or((open, open), |border| {
            let (from, to) = (axis.place(border.from), axis.place(border.to));
            (from.min(to), from.max(to))
        })
    };
    let (start, full) = soft(span.low, 0.0);
    let (fading, end) = soft(span.high, axis.width);
    let long = (end - start).max(0.8);
    let share = |x: f64| ((x - start) / long).clamp(0.0, 1.0);
    let faded = |border: Option<Border>| if border.is_some() { 0.0 } else { STRENGTH };
    let stops = [
        (0.0, INK, faded(span.low)),
        (share(full), INK, STRENGTH),
        (share(fading.max(full)), INK, STRENGTH),
        (1.0, INK, faded(span.high)),
    ];
    let fill = canvas.gradient(&Gradient::Linear { from: (0.0, 0.0), to: (1.0, 0.0), stops: &stops });
    let shape = canvas.element("rect").at("x", start).at("y", (HEIGHT - BAR) / 2.0).at("width", long);
    shape.at("height", BAR).set("fill", &fill).end();
}

fn ticks(canvas: &mut Canvas, span: &Span, axis: &Axis) {
    let mut path = Path::sized(0.0);
    for border in &span.borders {
        let x = axis.place(*border);
        path.move_to(Point::new(x, 0.5));
        path.line_to(Point::new(x, HEIGHT - 0.5));
    }
    if !path.is_empty() {
        let marks = canvas.element("path").set("fill", "none").set("stroke", THIN_INK);
        marks.at("stroke-width", 0.6).along(&path).end();
    }
}
