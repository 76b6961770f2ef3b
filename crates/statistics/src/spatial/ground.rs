//! The trend on the ground: what each place of the bed gives more or less than the bed's mean, for a map of it.

use super::bed::Place;
use super::splines::Part;
use super::{ACROSS, COLUMNS, DOWN, OWN, ROWS, SpatialFit, Trend};
use crate::mixed::means::coefficients;
use crate::mixed::predictions::predictions;
use crate::mixed::{diagnostics, units};
use std::collections::BTreeMap;

/// The trend at one place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ground {
    /// The place.
    pub place: Place,
    /// What it gives more than the bed's mean.
    pub trend: f64,
}

/// What is left of one plot when varieties and trend are taken off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Left {
    /// Its place.
    pub place: Place,
    /// What is left.
    pub left: f64,
}

impl SpatialFit {
    /// The trend at every place of the bed, plots missing or not, row after row; over the whole ground it sums to zero.
    ///
    /// Under an autoregression without something of each plot's own, all that varieties leave is taken for ground.
    #[must_use]
    pub fn ground(&self) -> Vec<Ground> {
        let places: Vec<Place> = self.bed.ground().collect();
        let trend: Vec<f64> = match self.trend {
            Trend::Autoregression(_) => {
                let plane = self.named(&[DOWN, ACROSS]);
                let held = self.held();
                places.iter().zip(held).map(|(place, held)| held + self.on_plane(&plane, *place)).collect()
            }
            _ => self.sums(&places),
        };
        let mean = trend.iter().sum::<f64>() / trend.len() as f64;
        places.into_iter().zip(trend).map(|(place, trend)| Ground { place, trend: trend - mean }).collect()
    }

    /// What is left of every plot, in the order of the model's rows.
    #[must_use]
    pub fn left(&self) -> Vec<Left> {
        let left: Vec<f64> = match self.trend {
            Trend::Autoregression(_) => match predictions(&self.fit, OWN) {
                Ok(own) => own.iter().map(|own| own.effect.estimate).collect(),
                Err(_) => vec![0.0; self.bed.plots()],
            },
            _ => diagnostics::diagnostics(&self.fit).iter().map(|row| row.conditional).collect(),
        };
        self.bed.places().zip(left).map(|(place, left)| Left { place, left }).collect()
    }

    /// What an autoregression holds at every place of the ground.
    fn held(&self) -> Vec<f64> {
        let held = units::held(&self.fit);
        let (plots, empty) = held.split_at(self.bed.plots());
        let with_plot: BTreeMap<Place, f64> = self.bed.places().zip(plots.iter().copied()).collect();
        let mut empty = empty.iter();
        let place = |place| with_plot.get(&place).copied().or_else(|| empty.next().copied()).unwrap_or(0.0);
        self.bed.ground().map(place).collect()
    }

    /// Fixed coefficients of the plane, by name.
    fn named(&self, names: &[&str; 2]) -> [f64; 3] {
        let told = coefficients(&self.fit);
        let product = format!("{} x {}", names[0], names[1]);
        let value = |name: &str| {
            let found = told.iter().find(|coefficient| coefficient.name == name);
            found.and_then(|coefficient| coefficient.effect).map_or(0.0, |effect| effect.estimate)
        };
        [value(names[0]), value(names[1]), value(&product)]
    }

    fn on_plane(&self, [down, across, both]: &[f64; 3], place: Place) -> f64 {
        let (r, c) = (self.bed.down(place.row), self.bed.across(place.column));
        down * r + across * c + both * r * c
    }

    /// Sums of the plane, of rows and columns, and of the curves.
    fn sums(&self, places: &[Place]) -> Vec<f64> {
        let plane = self.named(&[DOWN, ACROSS]);
        let (rows, columns) = (self.line(ROWS), self.line(COLUMNS));
        let parts = Part::ALL.map(|part| self.line_values(part.name()));
        let at = |place: &Place| {
            let lines = [(&rows, place.row), (&columns, place.column)];
            let lines: f64 = lines.iter().filter_map(|(line, number)| line.get(number)).sum();
            let curves: f64 = self.surface.as_ref().map_or(0.0, |surface| {
                let bases = surface.at(&self.bed, *place);
                bases.iter().zip(&parts).map(|(bases, own)| crate::matrix::dot(bases, own)).sum()
            });
            self.on_plane(&plane, *place) + lines + curves
        };
        places.iter().map(at).collect()
    }

    /// Predicted effects of a term; none if the model does not have it.
    fn line_values(&self, name: &str) -> Vec<f64> {
        let told = predictions(&self.fit, name).unwrap_or_default();
        told.iter().map(|own| own.effect.estimate).collect()
    }

    /// Predicted effects of rows or columns, by their number.
    fn line(&self, name: &str) -> BTreeMap<u32, f64> {
        let told = predictions(&self.fit, name).unwrap_or_default();
        told.iter().filter_map(|own| Some((own.label.parse().ok()?, own.effect.estimate))).collect()
    }
}
