//! Fruit without an end: a plant that sets truss after truss ripens as much in each degree-day as in the one before, once
//! it has begun; only frost stops it.
//!
//! Trusses follow each other by warmth as fruits ripen by it, so a stream of trusses, each ripe a fruit's time after it
//! flowered, is a steady stream of ripe fruit in thermal time. What differs is when plants begin: times of beginning are
//! log-normal. After `h` degree-days `rate * G(h)` has ripened, with `G(h) = h Phi(z) - exp(m + s^2/2) Phi(z - s)`,
//! `z = (ln h - m) / s`: the mean of what is left of `h` after the beginning.
//!
//! [`crate::crop`] fits one to a plot's picks.

use statistics::normal::chance_below;

/// When a stream begins: logarithm of the middle time, and the deviation of that logarithm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beginning {
    /// Mean of the logarithm of the time of beginning.
    pub middle: f64,
    /// Its standard deviation.
    pub spread: f64,
}

impl Beginning {
    /// Degree-days of streaming that the mean plant has had after so many since transplanting.
    #[must_use]
    pub fn streamed(&self, heat: f64) -> f64 {
        if heat <= 0.0 {
            return 0.0;
        }
        let z = (heat.ln() - self.middle) / self.spread;
        let mean = (self.middle + 0.5 * self.spread.powi(2)).exp();
        (heat * chance_below(z) - mean * chance_below(z - self.spread)).max(0.0)
    }
}
