//! Frost, year by year: a row a year, its bar from the last frost of spring to the first of autumn, and upright lines
//! where frost falls by chance.
//!
//! Start at [`frost_years`]. Days are counted from 1 January of the year in which spring falls, so that a season south of the
//! equator runs on past the end of its year. Everything reads without colour: the three chances differ by how their lines
//! are broken, a year without a frost has a bar without a dot, and a year that is not known has no bar.

use crate::lettering::{Anchor, Hand};
use crate::paint::{HAIR, INK, THIN_INK, WASH};
use crate::path::Point;
use crate::scale::Pixels;
use crate::svg::{Canvas, Role, Svg};

/// What the drawing shows.
#[derive(Clone, Debug, PartialEq)]
pub struct FrostYears {
    /// What it says, in words, for those who cannot see it.
    pub words: String,
    /// The years, the earliest first.
    pub years: Vec<FrostYear>,
    /// Days that frost falls on by chance.
    pub chances: Vec<ChanceLine>,
}

/// One year.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FrostYear {
    /// The year, of its spring.
    pub year: i16,
    /// Its frosts.
    pub frosts: Frosts,
}

/// The frosts of one year, in days from its 1 January, which is 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Frosts {
    /// Both halves are known; a half may have had none.
    Known {
        /// The last frost of spring.
        last: Option<f64>,
        /// The first of autumn.
        first: Option<f64>,
    },
    /// Too many nights are missing.
    NotKnown,
}

/// A day and how often frost comes on the winter side of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ChanceLine {
    /// Years of ten.
    pub in_10: u8,
    /// The day.
    pub day: f64,
}

/// Height that the rows share, in pixels.
const ROWS: f64 = 560.0;
/// Highest and lowest row, in pixels.
const ROW: (f64, f64) = (4.0, 14.0);
/// Room for the years, in pixels.
const LEFT: f64 = 40.0;
/// Room above the rows for the chances, and below for the months, in pixels.
const HEAD: f64 = 20.0;
const FOOT: f64 = 24.0;
/// Room at the right, in pixels.
const EDGE: f64 = 6.0;
/// Days shown beyond the outermost frost.
const BESIDE: f64 = 9.0;
/// Narrowest drawing that can still be read, in pixels.
const NARROWEST: f64 = 240.0;
/// Days that an axis may reach to, either way: two years and a little.
const FARTHEST: (f64, f64) = (-60.0, 800.0);
/// First days of the months of a common year, counted from 1.
const MONTHS: [(f64, &str); 12] = [
    (1.0, "Jan"),
    (32.0, "Feb"),
    (60.0, "Mar"),
    (91.0, "Apr"),
    (121.0, "May"),
    (152.0, "Jun"),
    (182.0, "Jul"),
    (213.0, "Aug"),
    (244.0, "Sep"),
    (274.0, "Oct"),
    (305.0, "Nov"),
    (335.0, "Dec"),
];
/// Days of a common year.
const YEAR: f64 = 365.0;
const NAME: Hand = Hand { class: "year", size: 11.0, ink: INK, anchor: Anchor::End, slanted: false };
const MONTH: Hand = Hand { class: "month", size: 11.5, ink: THIN_INK, anchor: Anchor::Start, slanted: false };
const CHANCE: Hand = Hand { class: "tick", size: 11.5, ink: INK, anchor: Anchor::Middle, slanted: false };
const NOTE: Hand = Hand { class: "note", size: 11.0, ink: THIN_INK, anchor: Anchor::Start, slanted: false };

/// Draws the years, `width` pixels wide.
#[must_use]
pub fn frost_years(of: &FrostYears, width: Pixels) -> Svg {
    let width = width.get().max(NARROWEST);
    let row = (ROWS / row_count(of)).clamp(ROW.0, ROW.1);
    let foot = HEAD + row * row_count(of);
    let axis = Axis::of(of, width - EDGE);
    let mut canvas = Canvas::new("y", &of.words);
    months(&mut canvas, &axis, foot);
    let mut top = HEAD;
    for year in &of.years {
        named(&mut canvas, year.year, row, top);
        drawn(&mut canvas, year, &axis, (top, row));
        top += row;
    }
    chances(&mut canvas, of, &axis, foot);
    canvas.finish("frost-years", Role::Picture, &of.words, width, foot + FOOT)
}

fn row_count(of: &FrostYears) -> f64 {
    u32::try_from(of.years.len().max(1)).map_or(1.0, f64::from)
}

/// Where days lie across the drawing.
struct Axis {
    from: f64,
    to: f64,
    right: f64,
}

impl Axis {
    fn of(of: &FrostYears, right: f64) -> Self {
        let frosts = of.years.iter().flat_map(|year| match year.frosts {
            Frosts::Known { last, first } => [last, first],
            Frosts::NotKnown => [None, None],
        });
        let shown = frosts.flatten().chain(of.chances.iter().map(|line| line.day));
        let shown = shown.filter(|day| day.is_finite()).map(|day| day.clamp(FARTHEST.0, FARTHEST.1));
        let (low, high) =
            shown.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), day| (low.min(day), high.max(day)));
        if low <= high {
            Self { from: low - BESIDE, to: high + BESIDE, right }
        } else {
            // Nothing froze: the whole year is shown.
            Self { from: 1.0, to: YEAR, right }
        }
    }

    fn place(&self, day: f64) -> f64 {
        LEFT + ((day - self.from) / (self.to - self.from)).clamp(0.0, 1.0) * (self.right - LEFT)
    }
}

/// The months: a hair where each begins, its name where there is room.
fn months(canvas: &mut Canvas, axis: &Axis, foot: f64) {
    let begins = [-YEAR, 0.0, YEAR, 2.0 * YEAR]
        .into_iter()
        .flat_map(|before| MONTHS.map(|(day, name)| (day + before, name)));
    let shown: Vec<(f64, &str)> =
        begins.filter(|(day, _)| axis.from <= day + 31.0 && *day <= axis.to).collect();
    let ends = shown.iter().skip(1).map(|(day, _)| axis.place(*day)).chain([axis.right]);
    for ((day, name), end) in shown.iter().zip(ends) {
        let x = axis.place(*day);
        if axis.from <= *day {
            line(canvas, (x, HEAD), (x, foot + 6.0), (HAIR, 1.0, None));
        }
        if MONTH.width(name) + 6.0 < end - x {
            MONTH.set(canvas, name, Point::new(x + 3.0, foot + 16.0));
        }
    }
    line(canvas, (LEFT, foot), (axis.right, foot), (INK, 0.8, None));
}

/// A year's number, where rows are high enough for it or it is a round one.
fn named(canvas: &mut Canvas, year: i16, row: f64, top: f64) {
    let each = [1, 2, 5, 10].into_iter().find(|each| 12.0 <= row * f64::from(*each)).unwrap_or(10);
    if year % each == 0 {
        NAME.set(canvas, &year.to_string(), Point::new(LEFT - 8.0, top + row / 2.0 + 4.0));
    }
}

/// A year's bar of days between frosts, with a dot at each frost.
fn drawn(canvas: &mut Canvas, year: &FrostYear, axis: &Axis, (top, row): (f64, f64)) {
    let middle = top + row / 2.0;
    let Frosts::Known { last, first } = year.frosts else {
        line(canvas, (LEFT, middle), (axis.right, middle), (THIN_INK, 0.8, Some("1 4")));
        return;
    };
    let [last, first] = [last, first].map(|day| day.filter(|day| day.is_finite()).map(|day| axis.place(day)));
    let (from, to) = (last.unwrap_or(LEFT), first.unwrap_or(axis.right));
    if from <= to {
        let bar = canvas.element("rect").set("class", "between").at("x", from).at("y", middle - row * 0.3);
        bar.at("width", to - from).at("height", row * 0.6).set("fill", WASH).at("fill-opacity", 0.6).end();
    }
    for x in [last, first].into_iter().flatten() {
        let dot = canvas.element("circle").at("cx", x).at("cy", middle).at("r", (row * 0.28).min(3.2));
        dot.set("fill", INK).end();
    }
}

/// The lines of the chances, the rarest frost whole and the commonest in dots.
fn chances(canvas: &mut Canvas, of: &FrostYears, axis: &Axis, foot: f64) {
    let mut lines: Vec<&ChanceLine> = of.chances.iter().filter(|line| line.day.is_finite()).collect();
    lines.sort_by(|one, other| one.day.total_cmp(&other.day));
    if !lines.is_empty() {
        NOTE.set(canvas, "in 10", Point::new(0.0, HEAD - 7.0));
    }
    let mut free = LEFT - 4.0;
    for chance in lines {
        let x = axis.place(chance.day);
        let broken = match chance.in_10 {
            0..=2 => None,
            3..=7 => Some("6 3"),
            _ => Some("1.5 3"),
        };
        line(canvas, (x, HEAD - 3.0), (x, foot), (INK, 1.2, broken));
        let label = chance.in_10.to_string();
        let half = CHANCE.width(&label) / 2.0;
        if free <= x - half {
            CHANCE.set(canvas, &label, Point::new(x, HEAD - 7.0));
            free = x + half + 1.0;
        }
    }
}

fn line(
    canvas: &mut Canvas,
    from: (f64, f64),
    to: (f64, f64),
    (ink, wide, broken): (&str, f64, Option<&str>),
) {
    let line = canvas.element("line").at("x1", from.0).at("y1", from.1).at("x2", to.0).at("y2", to.1);
    let line = line.set("stroke", ink).at("stroke-width", wide);
    match broken {
        Some(dashes) => line.set("stroke-dasharray", dashes).end(),
        None => line.end(),
    }
}
