//! The strip: a variety's fruits as dots against the guide's bands for one trait.
//!
//! For the variety page: evidence is drawn, not only told. Start at [`strip`]. From top to bottom it
//! shows the guide's bands with their names, fading where their borders are soft; the fruits, one dot
//! each; the interval of the mean as a bar of ink; and the axis in both systems of units. It knows
//! nothing of guides or calls: bands come as plain numbers.

use crate::axis::Axis;
use crate::bands;
use crate::lettering::{Anchor, Hand};
use crate::paint::{INK, THIN_INK};
use crate::path::Point;
use crate::scale::Pixels;
use crate::svg::{Canvas, Role, Svg};
use crate::swarm;
use record::language::Units;

/// What was measured, which sets the axis: its unit, and whether it runs by ratio or by difference.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measured {
    /// Weight in grams, on an axis of equal ratios.
    Weight,
    /// A length in millimetres, such as the fruit's length or width.
    Length,
    /// A ratio without unit, such as length over width.
    Ratio,
    /// A count, such as locules.
    Count,
    /// A percentage by mass, such as soluble solids.
    Percent,
}

/// One reading, in the unit of its [`Measured`]: any finite number.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Reading(f64);

impl Reading {
    /// Takes any finite number.
    #[must_use]
    pub fn new(reading: f64) -> Option<Self> {
        reading.is_finite().then_some(Self(reading))
    }

    /// The number, in the unit of its [`Measured`].
    #[must_use]
    pub fn get(self) -> f64 {
        self.0
    }
}

/// One fruit, drawn as a dot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dot {
    /// Its reading.
    pub reading: Reading,
    /// Whether the call rests on it; a fruit set aside is drawn hollow.
    pub counted: bool,
}

/// A soft border of a band: the class fades in or out between these two readings (equal: sharp).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Border {
    /// Where the fading begins (the smaller reading).
    pub from: Reading,
    /// Where it ends (the larger reading).
    pub to: Reading,
}

/// What the guide says of one class for this trait.
#[derive(Clone, Debug, PartialEq)]
pub struct Band {
    /// The class's name.
    pub name: String,
    /// Its lower border; `None` is open.
    pub low: Option<Border>,
    /// Its upper border; `None` is open.
    pub high: Option<Border>,
    /// Whether this is the class called: its band runs down behind the dots.
    pub called: bool,
}

/// The interval of the variety's mean.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeanInterval {
    /// Its lower end.
    pub low: Reading,
    /// The mean itself.
    pub mean: Reading,
    /// Its upper end.
    pub high: Reading,
}

/// What a strip shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Strip {
    /// The trait in words, such as `Weight of one fruit`.
    pub title: String,
    /// What was measured.
    pub measured: Measured,
    /// The fruits.
    pub dots: Vec<Dot>,
    /// The guide's bands, in the guide's order.
    pub bands: Vec<Band>,
    /// The interval of the variety's mean, where there is one.
    pub mean: Option<MeanInterval>,
    /// Which units the axis gives first; the other stands below it.
    pub units: Units,
}

/// Narrowest strip that can still be read, in pixels.
const NARROWEST: f64 = 240.0;
/// Room at either side, in pixels, so that the outermost labels stay inside.
pub(crate) const SIDE: f64 = 16.0;
const TITLE: Hand = Hand { class: "title", size: 13.0, ink: INK, anchor: Anchor::Start, slanted: false };
const NOTE: Hand = Hand { class: "note", size: 11.0, ink: THIN_INK, anchor: Anchor::Start, slanted: false };

/// Draws the strip, `width` pixels wide (made for 320 to 900).
#[must_use]
pub fn strip(strip: &Strip, width: Pixels) -> Svg {
    let width = width.get().max(NARROWEST);
    let axis = Axis::of(strip, (SIDE, width - SIDE));
    let mut canvas = Canvas::new("s", &format!("{} {width}", strip.title));
    let note = fruits(strip);
    let title = TITLE.shortened(&strip.title, width - SIDE - NOTE.width(&note));
    TITLE.set(&mut canvas, &title, Point::new(0.0, 14.0));
    NOTE.anchored(Anchor::End).set(&mut canvas, &note, Point::new(width, 14.0));
    let lanes = bands::laid(strip, &axis);
    let swarm = swarm::laid(strip, &axis);
    let dots_top = 26.0 + lanes.height();
    let floor = dots_top + swarm.height();
    lanes.draw(&mut canvas, 24.0, floor);
    swarm.draw(&mut canvas, floor);
    let mut foot = floor;
    if let Some(mean) = &strip.mean {
        interval(&mut canvas, &axis, mean, foot + 6.0);
        foot += 12.0;
    }
    foot = axis.draw(&mut canvas, foot);
    if let Some(mean) = &strip.mean {
        foot += 16.0;
        let words = NOTE.shortened(&told(mean, &axis), width);
        NOTE.set(&mut canvas, &words, Point::new(0.0, foot));
    }
    canvas.finish("strip", Role::Picture, &words(strip, &axis), width, foot + 5.0)
}

/// Draws the interval of the mean: a bar of ink, with the mean itself as a tick across it.
fn interval(canvas: &mut Canvas, axis: &Axis, mean: &MeanInterval, y: f64) {
    let [low, middle, high] = [mean.low, mean.mean, mean.high].map(|reading| axis.place(reading.get()));
    let bar =
        canvas.element("line").set("class", "mean").at("x1", low).at("y1", y).at("x2", high.max(low + 1.0));
    bar.at("y2", y).set("stroke", INK).at("stroke-width", 4.0).end();
    let tick = canvas.element("line").at("x1", middle).at("y1", y - 5.0).at("x2", middle).at("y2", y + 5.0);
    tick.set("stroke", INK).at("stroke-width", 1.4).end();
}

fn fruits(strip: &Strip) -> String {
    let counted = strip.dots.iter().filter(|dot| dot.counted).count();
    let fruits = if counted == 1 { "1 fruit".to_string() } else { format!("{counted} fruits") };
    match strip.dots.len() - counted {
        0 => fruits,
        aside => format!("{fruits}, {aside} set aside"),
    }
}

fn told(mean: &MeanInterval, axis: &Axis) -> String {
    let [low, middle, high] = [mean.low, mean.mean, mean.high].map(|reading| reading.get());
    format!("mean {}, between {} and {}", axis.told(middle), axis.told_briefly(low), axis.told_briefly(high))
}

/// The strip in words.
fn words(strip: &Strip, axis: &Axis) -> String {
    let mean = strip.mean.as_ref().map(|mean| format!("; {}", told(mean, axis)));
    let called = strip.bands.iter().find(|band| band.called).map(|band| format!("; called {}", band.name));
    let parts = [mean, called].into_iter().flatten().collect::<String>();
    format!("{}: {}{parts}", strip.title, fruits(strip))
}
