//! Whether flowers set fruit: a share from none to all, by the day's temperatures.
//!
//! Neither the night nor the day decides alone: where hot days follow cold nights flowers set well, though a rule of nights
//! would condemn the place. So a day is judged by the mean of its cooler half and of its warmer half, as a sine through it
//! has them.
//!
//! # Source
//! Nights below 10 to 12.8 degrees and above 21 to 26, days above 29 to 38 hinder set: extension texts of Oklahoma, Florida
//! and Maryland. Where between these the shares begin and end: our own assumption, no source.

use std::f64::consts::FRAC_2_PI;

/// Mean of the cooler half of the day at which nothing sets, and from which cold no longer hinders.
const COLD: (f64, f64) = (10.0, 15.0);
/// Mean of the cooler half from which warm nights hinder, and at which nothing sets.
const WARM_NIGHT: (f64, f64) = (22.0, 28.0);
/// Mean of the warmer half from which hot days hinder, and at which nothing sets.
const HOT_DAY: (f64, f64) = (31.0, 37.0);

/// What hinders most on a day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hindrance {
    /// The cold.
    Cold,
    /// The heat.
    Heat,
}

/// Share of flowers that set on a day of two temperatures in degrees Celsius, and what hindered the others.
#[must_use]
pub fn share(lowest: f64, highest: f64) -> (f64, Option<Hindrance>) {
    let (middle, reach) = (0.5 * (lowest + highest), 0.5 * (highest - lowest));
    let (cooler, warmer) = (middle - FRAC_2_PI * reach, middle + FRAC_2_PI * reach);
    let cold = rise(cooler, COLD);
    let heat = (1.0 - rise(cooler, WARM_NIGHT)).min(1.0 - rise(warmer, HOT_DAY));
    if cold < 1.0 && cold <= heat {
        (cold, Some(Hindrance::Cold))
    } else {
        (heat, (heat < 1.0).then_some(Hindrance::Heat))
    }
}

/// From 0 at the lower bound to 1 at the upper, level at both ends.
fn rise(at: f64, (from, to): (f64, f64)) -> f64 {
    let part = ((at - from) / (to - from)).clamp(0.0, 1.0);
    part * part * (3.0 - 2.0 * part)
}
