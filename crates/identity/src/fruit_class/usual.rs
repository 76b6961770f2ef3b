//! What a tomato usually is: stands in for what nobody measured, and steadies what was measured once.
//!
//! All on natural logarithms. The figures come from panels of cultivated and landrace tomatoes; a measured
//! trait outweighs them at once.

use super::posterior::Normal;

/// Weight of a tomato of unknown class: half of all between 20 and 120 g, nearly all between 4 and 640 g.
/// Source: 96 cultivated accessions, mean 66 g, range 5 to 313 g (Ruggieri et al. 2014, PMC4266912), 50
/// landraces of 4 to 217 g (Quispe-Choque); widened, as currants and beefsteaks lie outside both.
pub(crate) const WEIGHT: Normal = Normal { mean: 3.912, variance: 1.69 };

/// Length over width: 1.0, two thirds of all within 0.72 and 1.39, a quarter longer than 1.25. Source: cherry
/// types 0.90 to 0.92 (facts of the trade, section 5); of 50 landraces 52 in 100 were circular, flattened or
/// heart-shaped and 42 in 100 of some longer shape, the egg-shaped ones near the border (Quispe-Choque).
pub(crate) const SHAPE: Normal = Normal { mean: 0.0, variance: 0.109 };

/// Weight against size: solid, two thirds of all within 8 %. Source: 5 % between fruits and a rule that
/// differs by 4 % between panels (facts of the trade, section 5); hollow fruit lies below.
pub(crate) const FULLNESS: Normal = Normal { mean: 0.0, variance: 0.006_4 };

/// Neck over width, once it was measured: 0.85, two thirds within 15 %. Common practice, no source.
pub(crate) const NECK: Normal = Normal { mean: -0.162_5, variance: 0.022_5 };

/// Neck over width of fruit without a neck. Worked out: an ellipsoid is sqrt(3)/2 as wide a quarter down as
/// at its widest.
const NECK_OF_AN_EGG: f64 = -0.143_8;

/// How far such fruit differs, on the logarithm. Common practice, no source.
const NECK_OF_AN_EGG_SD: f64 = 0.04;

/// Neck over width of fruit with a neck. Common practice, no source.
const NECK_OF_A_PEAR: f64 = -0.51;

/// Standard normal number below which a fruit of unknown neck is taken to have one: 12 in 100. Source: share
/// of pyriform among 50 landraces (Quispe-Choque).
const NECKED_BELOW: f64 = -1.175;

/// Rounder fruit than this (length over width 1.1) is never necked. Common practice, no source.
const NECKED_FROM_SHAPE: f64 = 0.095_3;

/// Log neck over width where nobody measured it, from one standard normal number.
pub(crate) fn unmeasured_neck(chance: f64, log_shape: f64) -> f64 {
    if chance < NECKED_BELOW && NECKED_FROM_SHAPE <= log_shape {
        NECK_OF_A_PEAR
    } else {
        NECK_OF_AN_EGG + NECK_OF_AN_EGG_SD * chance
    }
}

/// A trait that goes with another one: a straight line on logarithms, and the spread round it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Trend {
    /// Where the other trait's logarithm is this..
    at: f64,
    /// ..this one's is this..
    is: f64,
    /// ..and rises by so much.
    slope: f64,
    /// Variance round the line.
    pub(crate) variance: f64,
}

impl Trend {
    /// The usual logarithm beside this logarithm of the other trait.
    pub(crate) fn beside(&self, other: f64) -> f64 {
        self.is + self.slope * (other - self.at)
    }
}

/// Logarithm of 64 g, where the trends were read off.
const LOG_64_G: f64 = 4.158_9;

/// Locules by weight: 5.6 at 64 g and a rise with weight to the power 0.30. Source: one group of the
/// domestication panel, and r 0.80 over about 165 accessions (Razifard et al. 2020 S1, worked out in facts of
/// the trade, section 5); the spread round it follows from r.
pub(crate) const LOCULES: Trend = Trend { at: LOG_64_G, is: 1.722_8, slope: 0.30, variance: 0.09 };

/// Dry matter by weight: 5.9 % at 64 g. Source: 12.03 - 3.26 log10 w, standard deviation 1.3 (same panel and
/// section), as a straight line on logarithms through its values at 10 and 150 g; the spread as a share of the
/// panel's 7.3 %.
pub(crate) const DRY_MATTER: Trend = Trend { at: LOG_64_G, is: 1.778, slope: -0.212, variance: 0.032 };

/// Soluble solids by weight: 4.5 % at 64 g. Source: 7.00 - 1.34 log10 w, standard deviation 0.93 (same panel
/// and section), likewise; the spread as a share of 5.9 %.
pub(crate) const SOLUBLE_SOLIDS: Trend = Trend { at: LOG_64_G, is: 1.509, slope: -0.121, variance: 0.025 };

/// Dry matter by soluble solids: 1.43 times as much. Source: 1.58 in the domestication panel, 1.30 from
/// Ruggieri's means (facts of the trade, section 5); the middle of the two, and half their distance for the
/// spread.
pub(crate) const DRY_MATTER_BESIDE: Trend = Trend { at: 0.0, is: 0.36, slope: 1.0, variance: 0.01 };

/// Lobes plus one where nobody counted them: mostly smooth. Common practice, no source.
pub(crate) const LOBES: Normal = Normal { mean: 0.7, variance: 0.36 };

#[cfg(test)]
mod tests {
    use super::*;

    /// Facts of the trade, section 5: the straight lines on log10 of weight, within their own spread from 5
    /// to 300 g.
    #[test]
    fn trends_agree_with_the_panel() {
        for grams in [5.0_f64, 20.0, 64.0, 150.0, 300.0] {
            let dry = DRY_MATTER.beside(grams.ln()).exp();
            assert!((dry - (12.03 - 3.26 * grams.log10())).abs() < 1.3, "{grams} g: {dry} % dry matter");
            let solids = SOLUBLE_SOLIDS.beside(grams.ln()).exp();
            assert!((solids - (7.00 - 1.34 * grams.log10())).abs() < 0.93, "{grams} g: {solids} % solids");
        }
        assert!((LOCULES.beside(64_f64.ln()).exp() - 5.6).abs() < 0.05);
    }
}
