//! Weather and what it does to tomatoes: a station's days, frosts, and thermal time.
//!
//! Values in, values out: it knows days and degrees, not where files are kept or who asks. All temperatures are degrees
//! Celsius.
//!
//! Reading order: [`weather`] (a station's days, read and checked) -> [`frost`] (the last and first frost of many years)
//! -> [`thermal`] (what a day's warmth is worth) -> [`emergence`] (days from sowing, by soil warmth).

pub mod weather;

pub mod frost;

pub mod emergence;
pub mod thermal;
