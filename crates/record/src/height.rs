//! Height readings: how tall a plant stood on one day. A height that levels off tells of habit.

use crate::length::Millimetres;
use crate::subject::Subject;
use jiff::civil::Date;

/// The height of a plant, or the mean height of a plot's plants, on one day.
#[derive(Clone, Debug, PartialEq)]
pub struct HeightReading {
    /// Variety, season, plot and plant.
    pub subject: Subject,
    /// The day.
    pub read_on: Date,
    /// Soil to growing tip.
    pub height: Millimetres,
}
