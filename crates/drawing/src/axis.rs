//! The axis of a strip: where a reading lies, and its ticks in both systems of units.

use crate::lettering::{Anchor, Hand};
use crate::paint::{INK, THIN_INK};
use crate::path::Point;
use crate::strip::{Measured, Strip};
use crate::svg::Canvas;
use record::language::{self, System, Units};
use record::length::{MILLIMETRES_PER_INCH, Millimetres};
use record::mass::{GRAMS_PER_OUNCE, Grams};

/// Least weight on an axis of ratios, in grams: what is less lies on the edge. A choice of the drawing.
const LEAST_WEIGHT: f64 = 0.05;
/// Room left beyond the outermost reading, as a share of the axis. A choice of the drawing.
const ROOM: f64 = 0.04;
/// Pixels wanted between two ticks. A choice of the drawing.
const TICK_ROOM: f64 = 52.0;
const LABEL: Hand = Hand { class: "tick", size: 10.5, ink: INK, anchor: Anchor::Middle, slanted: false };

/// Where readings lie between two edges, in pixels.
pub(crate) struct Axis {
    measured: Measured,
    units: Units,
    /// The edges as transformed readings.
    from: f64,
    to: f64,
    /// The edges in pixels.
    pub(crate) left: f64,
    pub(crate) right: f64,
}

/// One tick: its reading in the axis's own unit, and its label.
struct Tick {
    reading: f64,
    label: String,
}

impl Axis {
    /// The axis that shows every dot, the mean and every finite border of the bands.
    pub(crate) fn of(strip: &Strip, (left, right): (f64, f64)) -> Self {
        let dots = strip.dots.iter().map(|dot| dot.reading);
        let mean = strip.mean.iter().flat_map(|mean| [mean.low, mean.mean, mean.high]);
        let borders = strip.bands.iter().flat_map(|band| [band.low, band.high]).flatten();
        let borders = borders.flat_map(|border| [border.from, border.to]);
        let bent = dots.chain(mean).chain(borders).map(|reading| bent(strip.measured, reading.get()));
        let (low, high) =
            bent.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at), high.max(at)));
        let (low, high) = if low <= high { (low, high) } else { (0.0, 1.0) };
        let room = ((high - low) * ROOM).max(high.abs() * 1e-3).max(if strip.measured == Measured::Count {
            0.5
        } else {
            0.02
        });
        Self { measured: strip.measured, units: strip.units, from: low - room, to: high + room, left, right }
    }

    /// Where a reading lies, held to the axis.
    pub(crate) fn place(&self, reading: f64) -> f64 {
        let share = (bent(self.measured, reading) - self.from) / (self.to - self.from);
        self.left + share.clamp(0.0, 1.0) * (self.right - self.left)
    }

    /// Draws the axis below `top` and returns where its last line of labels stands.
    pub(crate) fn draw(&self, canvas: &mut Canvas, top: f64) -> f64 {
        let line = canvas.element("line").at("x1", self.left).at("y1", top + 4.0).at("x2", self.right);
        line.at("y2", top + 4.0).set("stroke", INK).at("stroke-width", 0.8).end();
        let [own, other] = self.ticks();
        self.labels(canvas, &own, (top + 4.0, top + 19.0), LABEL);
        if other.is_empty() {
            return top + 19.0;
        }
        self.labels(canvas, &other, (top + 4.0, top + 33.0), Hand { ink: THIN_INK, ..LABEL });
        top + 33.0
    }

    fn labels(&self, canvas: &mut Canvas, ticks: &[Tick], (axis, foot): (f64, f64), hand: Hand) {
        let mut free = f64::NEG_INFINITY;
        for tick in ticks {
            let x = self.place(tick.reading);
            let half = hand.width(&tick.label) / 2.0;
            if x - half < free.max(0.0) || x + half > self.right + self.left {
                continue;
            }
            free = x + half + 5.0;
            let (from, to) = if hand.ink == INK { (axis - 3.0, axis + 4.0) } else { (axis, axis + 2.5) };
            let mark = canvas.element("line").at("x1", x).at("y1", from).at("x2", x).at("y2", to);
            mark.set("stroke", hand.ink).at("stroke-width", 0.8).end();
            hand.set(canvas, &tick.label, Point::new(x, foot));
        }
    }

    /// Ticks in the house's own units, and in the others where there are others.
    fn ticks(&self) -> [Vec<Tick>; 2] {
        let (metric, us) = match self.measured {
            Measured::Weight => (self.grams(), self.ounces()),
            Measured::Length => (self.even(1.0, " mm"), self.even(MILLIMETRES_PER_INCH, " in")),
            Measured::Percent => return [self.even(1.0, " %"), Vec::new()],
            Measured::Count | Measured::Ratio => return [self.even(1.0, ""), Vec::new()],
        };
        match self.units.first {
            System::Metric => [metric, us],
            System::Us => [us, metric],
        }
    }

    /// Ticks at round steps of a unit that is `size` of the axis's own.
    fn even(&self, size: f64, unit: &str) -> Vec<Tick> {
        let (from, to) = (self.from / size, self.to / size);
        let wanted = (to - from) * TICK_ROOM / (self.right - self.left);
        let least = if self.measured == Measured::Count { 1.0 } else { f64::MIN_POSITIVE };
        let ten = 10_f64.powf(wanted.max(1e-6).log10().floor());
        let step = [1.0, 2.0, 5.0, 10.0].map(|step| step * ten).into_iter().find(|step| *step >= wanted);
        let step = step.unwrap_or(wanted).max(least);
        let decimals = if step < 0.095 { 2 } else { usize::from(step < 0.95) };
        let first = (from / step).ceil();
        (0..40_u32)
            .map(|index| (first + f64::from(index)) * step)
            .take_while(|at| *at <= to)
            .map(|at| Tick { reading: at * size, label: format!("{:.decimals$}{unit}", at + 0.0) })
            .collect()
    }

    fn grams(&self) -> Vec<Tick> {
        let marks = [0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0];
        self.within(marks.map(|grams| {
            (grams, if grams < 1000.0 { format!("{grams} g") } else { format!("{} kg", grams / 1000.0) })
        }))
    }

    fn ounces(&self) -> Vec<Tick> {
        let ounces =
            [("1/32 oz", 0.031_25), ("1/8 oz", 0.125), ("1/4 oz", 0.25), ("1/2 oz", 0.5), ("1 oz", 1.0)];
        let more =
            [("2 oz", 2.0), ("4 oz", 4.0), ("8 oz", 8.0), ("1 lb", 16.0), ("2 lb", 32.0), ("4 lb", 64.0)];
        let marks = ounces.into_iter().chain(more);
        self.within(marks.map(|(label, ounces)| (ounces * GRAMS_PER_OUNCE, label.to_string())))
    }

    fn within(&self, marks: impl IntoIterator<Item = (f64, String)>) -> Vec<Tick> {
        let inside = |reading: f64| (self.from..=self.to).contains(&bent(self.measured, reading));
        let marks = marks.into_iter().filter(|(reading, _)| inside(*reading));
        marks.map(|(reading, label)| Tick { reading, label }).collect()
    }

    /// A reading in words, both ways where it has a unit.
    pub(crate) fn told(&self, reading: f64) -> String {
        let mass = Grams::new(reading).map(|grams| language::mass(grams, self.units));
        let length = Millimetres::new(reading).map(|long| language::length(long, self.units));
        self.said(reading, mass, length)
    }

    /// A reading in words, in the house's own units only.
    pub(crate) fn told_briefly(&self, reading: f64) -> String {
        let mass = Grams::new(reading).map(|grams| language::mass_briefly(grams, self.units));
        let length = Millimetres::new(reading).map(|long| language::length_briefly(long, self.units));
        self.said(reading, mass, length)
    }

    fn said(&self, reading: f64, mass: Option<String>, length: Option<String>) -> String {
        let worded = match self.measured {
            Measured::Weight => mass,
            Measured::Length => length,
            Measured::Percent => Some(format!("{reading:.1} %")),
            Measured::Ratio => Some(format!("{reading:.2}")),
            Measured::Count => Some(format!("{reading:.1}")),
        };
        worded.unwrap_or_else(|| format!("{reading:.1}"))
    }
}

/// A reading as it lies along the axis: by ratio for weight, by difference for all else.
fn bent(measured: Measured, reading: f64) -> f64 {
    match measured {
        Measured::Weight => reading.max(LEAST_WEIGHT).log10(),
        _ => reading.clamp(-1e9, 1e9),
    }
}
