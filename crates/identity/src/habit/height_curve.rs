//! The height curve: a stem that has ended stops growing, one that has not keeps on.
//!
//! A straight line and a line that stops are fitted to each series of readings, and the corrected
//! criterion (AICc) gives the weight of the one that stops. Cool autumns slow every plant, so the guide
//! lets an indeterminate level off now and then; the line can shift a call but not make one.

use crate::guide::habit::HabitGuide;
use crate::habit::Stem;
use record::unknown::GrowthSeen;
use statistics::curves::{Reading, Shape, fit};
use statistics::information::{aicc, akaike_weights, normal_log_likelihood};

/// Numbers fitted by a straight line: two, and the spread of readings about it.
const LINE_NUMBERS: u32 = 3;
/// Numbers fitted by a line that stops: three, and the spread.
const STOPPING_NUMBERS: u32 = 4;

/// Weight, from 0 to 1, of the curve that levels off in one series; `None` where there are too few
/// readings to tell.
pub(crate) fn levelling(series: &[Reading], guide: &HabitGuide) -> Option<f64> {
    let curve = &guide.height_curve;
    let readings = u32::try_from(series.len()).ok()?;
    if f64::from(readings) < curve.least_readings.number {
        return None;
    }
    // Readings closer than the tape can read would otherwise make one curve look perfect.
    let tape = f64::from(readings) * curve.reading_error_mm.number.powi(2);
    let criterion = |shape, numbers| {
        let residual = fit(shape, series).ok()?.residual_sum_of_squares + tape;
        aicc(normal_log_likelihood(residual, readings)?, numbers, readings)
    };
    let line = criterion(Shape::Line, LINE_NUMBERS)?;
    let stopping = criterion(Shape::BrokenStick, STOPPING_NUMBERS)?;
    akaike_weights(&[Some(line), Some(stopping)])?.last().copied()
}

/// Weight of levelling off where a grower says that the height has levelled off; and where it is said to
/// keep on growing, the rest. As clear as a good series of readings; common practice, no source.
const SAID: f64 = 0.9;

/// Weight of levelling off of a plant that is only spoken of.
pub(crate) fn said(growth: GrowthSeen) -> f64 {
    match growth {
        GrowthSeen::LevelsOff => SAID,
        GrowthSeen::KeepsGrowing => 1.0 - SAID,
    }
}

/// Mean weight of levelling off over the series of a plot, and how many could be judged.
pub(crate) fn plot_levelling(series: &[Option<f64>]) -> Option<(f64, u32)> {
    let judged = series.iter().flatten();
    let (count, sum) = judged.fold((0_u32, 0.0), |(count, sum), weight| (count + 1, sum + weight));
    (0 < count).then(|| (sum / f64::from(count), count))
}

/// Log-likelihood of a plot's weight of levelling off, for each stem.
pub(crate) fn log_odds(weight: f64, guide: &HabitGuide) -> [f64; 3] {
    Stem::ALL.map(|stem| {
        let levels_off = guide.height_curve.levels_off.of(stem).number;
        (levels_off * weight + (1.0 - levels_off) * (1.0 - weight)).ln()
    })
}
