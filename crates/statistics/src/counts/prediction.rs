//! What a fit says of a row that was not seen: its mean for a typical group, with an interval.

use super::CountFit;
use crate::nested::Effect;
use crate::normal::inner_quantile;
use record::share::Share;

/// A predicted mean.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Prediction {
    /// On the model's scale (logarithm of the mean, or of the odds).
    pub on_scale: Effect,
    /// The mean count, or the share, of a typical group.
    pub mean: f64,
    /// Lower end of its interval.
    pub low: f64,
    /// Upper end; `None` where a count has none that a number can hold.
    pub high: Option<f64>,
}

impl CountFit {
    /// The mean of a row with these values in the fixed columns, in a group of no effect.
    ///
    /// The interval is worked out on the model's scale and brought back, so that it never leaves the range of
    /// means. `None` unless there are as many values as columns, all finite, and `level` is below certainty.
    #[must_use]
    pub fn predict(&self, values: &[f64], offset: f64, level: Share) -> Option<Prediction> {
        let usable = values.len() == self.fixed.len() && values.iter().all(|value| value.is_finite());
        let tail = 0.5 * level.rest().get();
        if !usable || !offset.is_finite() || tail <= 0.0 {
            return None;
        }
        let estimate = offset + self.fixed.iter().zip(values).map(|(own, x)| own.estimate * x).sum::<f64>();
        let along = |row: &[f64]| row.iter().zip(values).map(|(cell, x)| cell * x).sum::<f64>();
        let variance: f64 = self.fixed_covariance.iter().zip(values).map(|(row, x)| x * along(row)).sum();
        let standard_error = variance.max(0.0).sqrt();
        let reach = -inner_quantile(tail) * standard_error;
        let high = self.scale.mean(estimate + reach);
        Some(Prediction {
            on_scale: Effect { estimate, standard_error },
            mean: self.scale.mean(estimate),
            low: self.scale.mean(estimate - reach),
            high: high.is_finite().then_some(high),
        })
    }
}
