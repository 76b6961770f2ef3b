//! Weather and what it does to tomatoes: a station's days, frosts, thermal time, and when fruit ripens.
//!
//! Values in, values out: it knows days and degrees, not where files are kept or who asks. All temperatures are degrees
//! Celsius.
//!
//! Reading order: [`weather`] (a station's days, read and checked), [`nearest`] (whose days to take),
//! [`climate`] (years drawn where there are none) ->
//! [`frost`] (the last and first frost of many years) -> [`thermal`] (what a day's warmth is worth) -> [`soil`] (its
//! warmth, by that of the air) -> [`emergence`] (days from sowing, by it); [`picked`] (a plot's picks) -> [`timeline`] (by days or by
//! warmth) -> [`curve`] (when a variety ripens) -> [`years`] (what a
//! station's years make of it); [`row_cover`] (warmer nights for young plants); [`set`] and [`grown`] (one season of a garden) with [`stream`], [`truss`] and [`crop`] (what a variety's
//! plots say of its crop) -> [`forecast`] (the harvest to expect); [`calendar`] (when to sow and plant out).

pub mod climate;
pub mod nearest;
pub mod weather;

pub mod frost;

pub mod emergence;
pub mod soil;
pub mod thermal;

pub mod curve;
pub mod picked;
pub mod timeline;
pub mod years;

pub mod grown;
pub mod row_cover;
pub mod set;

pub mod crop;
pub mod stream;
pub mod truss;

pub mod calendar;
pub mod forecast;
