//! Lines, and lines that stop: both have exact answers.

use super::{Reading, Shape};

/// A straight line through some readings: where it is at their mean time, and how steep.
#[derive(Clone, Copy, Debug)]
struct Through {
    time: f64,
    value: f64,
    slope: f64,
}

/// The best line, `[a, b]`.
pub(super) fn line(readings: &[Reading]) -> Vec<f64> {
    let through = Through::of(readings);
    vec![through.at(0.0), through.slope]
}

/// The best broken stick, `[a, b, T]`, for readings in order of time.
///
/// With the readings parted in two, the best stick is the line through the first part and the mean of
/// the second, met where they cross, if that lies between the parts. If it lies elsewhere the best stop
/// for that parting is at one of the readings; at the last one the stick is a line. So trying every parting and every reading is enough.
pub(super) fn broken_stick(readings: &[Reading]) -> Option<Vec<f64>> {
    let partings = (2..readings.len()).filter_map(|size| {
        let (growing, stopped) = readings.split_at_checked(size)?;
        met_between(growing, stopped)
    });
    let first = readings.first()?.time;
    let stops = readings.iter().map(|reading| reading.time).filter(|stop| first < *stop);
    let at_readings = stops.map(|stop| stopping_at(readings, stop));
    let candidates = partings.chain(at_readings);
    candidates.min_by(|a, b| squares(a, readings).total_cmp(&squares(b, readings)))
}

/// The stick of one parting, if line and level cross between its parts.
fn met_between(growing: &[Reading], stopped: &[Reading]) -> Option<Vec<f64>> {
    let through = Through::of(growing);
    let level = mean(stopped, |reading| reading.value);
    let stop = through.time + (level - through.value) / through.slope;
    let (last, next) = (growing.last()?.time, stopped.first()?.time);
    (last <= stop && stop <= next).then(|| vec![through.at(0.0), through.slope, stop])
}

/// The best stick that stops at a given time.
fn stopping_at(readings: &[Reading], stop: f64) -> Vec<f64> {
    let held: Vec<Reading> = readings.iter().map(|reading| reading.held(stop)).collect();
    let mut numbers = line(&held);
    numbers.push(stop);
    numbers
}

fn squares(numbers: &[f64], readings: &[Reading]) -> f64 {
    readings
        .iter()
        .map(|reading| (reading.value - Shape::BrokenStick.value(numbers, reading.time)).powi(2))
        .sum()
}

impl Reading {
    /// The reading with its time held back to `stop`.
    fn held(self, stop: f64) -> Self {
        Self { time: self.time.min(stop), ..self }
    }
}

impl Through {
    fn of(readings: &[Reading]) -> Self {
        let time = mean(readings, |reading| reading.time);
        let value = mean(readings, |reading| reading.value);
        let spread: f64 = readings.iter().map(|reading| (reading.time - time).powi(2)).sum();
        let together: f64 =
            readings.iter().map(|reading| (reading.time - time) * (reading.value - value)).sum();
        Self { time, value, slope: together / spread }
    }

    fn at(self, time: f64) -> f64 {
        self.value + self.slope * (time - self.time)
    }
}

#[expect(clippy::cast_precision_loss, reason = "nobody takes 2^52 readings")]
fn mean(readings: &[Reading], of: impl Fn(&Reading) -> f64) -> f64 {
    readings.iter().map(of).sum::<f64>() / readings.len() as f64
}
