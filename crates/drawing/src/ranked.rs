//! Ranked intervals: varieties from most to least, each with an interval on one axis, and a line to be beside of.
//!
//! For the results of a grow-out. Start at [`ranked`]. Everything reads without colour: a full dot is told from the
//! line, an open one is not, and the variety that the others are held against is a stroke on the line itself.

use crate::lettering::{Anchor, Hand};
use crate::paint::{HAIR, INK, THIN_INK};
use crate::path::Point;
use crate::scale::Pixels;
use crate::svg::{Canvas, Role, Svg};
use record::language;
use std::cmp::Ordering;

/// What the drawing shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Ranked {
    /// What the whole is called.
    pub title: String,
    /// What the axis counts, with its unit, such as `kg a plant more than Hop Pole`.
    pub axis: String,
    /// Where the line stands that rows are held against, if there is one.
    pub line: Option<f64>,
    /// The rows, from most to least.
    pub rows: Vec<Row>,
}

/// One variety.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Its name.
    pub name: String,
    /// Where its estimate lies on the axis.
    pub at: f64,
    /// Its interval; nothing for the variety that is the line.
    pub interval: Option<(f64, f64)>,
    /// How it stands to the line.
    pub standing: Standing,
}

/// How a row stands to the line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Told from it.
    Told,
    /// Not told from it, or there is no line.
    NotTold,
    /// It is the line.
    Line,
}

/// Height of a row, in pixels.
const ROW: f64 = 22.0;
/// Room for the axis, in pixels.
const FOOT: f64 = 44.0;
/// Room round the drawing, in pixels.
const EDGE: f64 = 6.0;
/// Most of the width that names may take.
const NAMES: f64 = 0.36;
/// Narrowest drawing that can still be read, in pixels.
const NARROWEST: f64 = 260.0;
/// Pixels wanted between two ticks.
const TICK_ROOM: f64 = 64.0;
/// Numbers are held within this, so that no sum of two is endless.
const MOST: f64 = 1e12;
/// Radius of a dot, in pixels.
const DOT: f64 = 3.6;
const NAME: Hand = Hand { class: "variety", size: 13.0, ink: INK, anchor: Anchor::Start, slanted: false };
const TICK: Hand = Hand { class: "tick", size: 11.0, ink: INK, anchor: Anchor::Middle, slanted: false };
const UNIT: Hand = Hand { class: "note", size: 11.5, ink: THIN_INK, anchor: Anchor::End, slanted: false };

/// Draws the rows. Numbers that are not finite are left out.
#[must_use]
pub fn ranked(of: &Ranked, width: Pixels) -> Svg {
    let width = width.get().max(NARROWEST);
    let named = of.rows.iter().map(|row| NAME.width(&row.name)).fold(0.0, f64::max);
    let left = (named + 14.0).min(width * NAMES);
    let axis = Axis::of(of, (left + EDGE, width - EDGE));
    let mut canvas = Canvas::new("k", &of.title);
    #[expect(clippy::cast_precision_loss, reason = "a grow-out has far fewer varieties than 2^52")]
    let foot = EDGE + ROW * of.rows.len() as f64;
    ground(&mut canvas, of, &axis, foot);
    let mut middle = EDGE + ROW / 2.0;
    for row in &of.rows {
        let hand = Hand { slanted: row.standing == Standing::Line, ..NAME };
        hand.set(&mut canvas, &hand.shortened(&row.name, left - 8.0), Point::new(0.0, middle + 4.5));
        drawn(&mut canvas, row, &axis, middle);
        middle += ROW;
    }
    UNIT.set(
        &mut canvas,
        &UNIT.shortened(&of.axis, width - 2.0 * EDGE),
        Point::new(width - EDGE, foot + 36.0),
    );
    canvas.finish("ranked", Role::Picture, &told(of), width, foot + FOOT)
}

/// Where numbers lie across the drawing.
struct Axis {
    from: f64,
    to: f64,
    left: f64,
    right: f64,
}

impl Axis {
    /// The axis that shows every estimate, interval and the line, with a little room.
    fn of(of: &Ranked, (left, right): (f64, f64)) -> Self {
        let intervals = of.rows.iter().filter_map(|row| row.interval).flat_map(|(low, high)| [low, high]);
        let shown = of.rows.iter().map(|row| row.at).chain(intervals).chain(of.line);
        let shown = shown.filter(|number| number.is_finite()).map(|number| number.clamp(-MOST, MOST));
        let (low, high) =
            shown.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at), high.max(at)));
        let (low, high) = match low.total_cmp(&high) {
            Ordering::Less => (low, high),
            Ordering::Equal => (low - 1.0, high + 1.0),
            // Nothing is shown.
            Ordering::Greater => (0.0, 1.0),
        };
        let room = 0.03 * (high - low);
        Self { from: low - room, to: high + room, left, right }
    }

    fn place(&self, number: f64) -> f64 {
        self.left + ((number - self.from) / (self.to - self.from)).clamp(0.0, 1.0) * (self.right - self.left)
    }

    /// Round numbers (1, 2 or 5 times a power of ten apart) with room for their labels.
    fn ticks(&self) -> Vec<(f64, String)> {
        let wanted = (self.to - self.from) * TICK_ROOM / (self.right - self.left).max(1.0);
        let power = 10_f64.powf(wanted.log10().floor());
        let step = [1.0, 2.0, 5.0, 10.0].map(|times| times * power).into_iter().find(|step| wanted <= *step);
        let step = step.unwrap_or(10.0 * power);
        let decimals = if 1.0 <= step { 0 } else { crate::svg::whole(-step.log10().floor()).clamp(0, 6) };
        let decimals = usize::try_from(decimals).unwrap_or(0);
        let first = (self.from / step).ceil();
        (0..200_u8)
            .map(|index| (first + f64::from(index)) * step)
            .take_while(|at| *at <= self.to)
            .map(|at| (at, format!("{:.decimals$}", if at == 0.0 { 0.0 } else { at })))
            .collect()
    }
}

/// The axis, its ticks running faintly through all rows, and the line.
fn ground(canvas: &mut Canvas, of: &Ranked, axis: &Axis, foot: f64) {
    for (at, label) in axis.ticks() {
        let x = axis.place(at);
        let line = canvas.element("line").at("x1", x).at("y1", EDGE).at("x2", x).at("y2", foot + 4.0);
        line.set("stroke", HAIR).at("stroke-width", 1.0).end();
        TICK.set(canvas, &label, Point::new(x, foot + 18.0));
    }
    let line = canvas.element("line").at("x1", axis.left).at("y1", foot).at("x2", axis.right).at("y2", foot);
    line.set("stroke", INK).at("stroke-width", 0.8).end();
    if let Some(at) = of.line.filter(|at| at.is_finite()) {
        let x = axis.place(at);
        let line = canvas.element("line").at("x1", x).at("y1", EDGE - 2.0).at("x2", x).at("y2", foot);
        line.set("stroke", INK).at("stroke-width", 1.2).set("stroke-dasharray", "5 3").end();
    }
}

fn drawn(canvas: &mut Canvas, row: &Row, axis: &Axis, middle: f64) {
    if let Some((low, high)) = row.interval.filter(|(low, high)| low.is_finite() && high.is_finite()) {
        let (from, to) = (axis.place(low), axis.place(high));
        let line = canvas.element("line").at("x1", from).at("y1", middle).at("x2", to).at("y2", middle);
        line.set("stroke", INK).at("stroke-width", 1.6).end();
    }
    if !row.at.is_finite() {
        return;
    }
    let x = axis.place(row.at);
    match row.standing {
        Standing::Line => {
            let line = canvas.element("line").at("x1", x).at("y1", middle - 7.0).at("x2", x);
            line.at("y2", middle + 7.0).set("stroke", INK).at("stroke-width", 3.0).end();
        }
        Standing::Told => {
            let dot = canvas.element("circle").at("cx", x).at("cy", middle).at("r", DOT);
            dot.set("fill", INK).set("stroke", INK).at("stroke-width", 1.4).end();
        }
        Standing::NotTold => {
            let dot = canvas.element("circle").set("class", "open").at("cx", x).at("cy", middle).at("r", DOT);
            dot.set("fill", "#ffffff").set("stroke", INK).at("stroke-width", 1.4).end();
        }
    }
}

/// The whole drawing in words.
fn told(of: &Ranked) -> String {
    let told = of.rows.iter().filter(|row| row.standing == Standing::Told).count() as u64;
    let beside = match of.line {
        Some(_) => format!(", {told} of them told from the line"),
        None => String::new(),
    };
    let rows = language::counted(of.rows.len() as u64, "variety", "varieties");
    format!("{}: {rows} from most to least, in {}{beside}", of.title, of.axis)
}
