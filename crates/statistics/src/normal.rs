//! The normal curve: its density, the chance below a point, and the point below which a chance lies.

use record::share::Share;
use statrs::function::erf::{erfc, erfc_inv};
use std::f64::consts::SQRT_2;

/// The chance that a standard normal draw falls below `z`.
#[must_use]
pub fn chance_below(z: f64) -> f64 {
    0.5 * erfc(-z / SQRT_2)
}

/// The point below which a standard normal draw falls with the given chance; `None` for no chance and
/// for certainty, which lie infinitely far out.
#[must_use]
pub fn quantile(chance: Share) -> Option<f64> {
    let chance = chance.get();
    (0.0 < chance && chance < 1.0).then(|| inner_quantile(chance))
}

/// The logarithm of the standard normal density at `z`.
#[must_use]
pub fn log_density(z: f64) -> f64 {
    -0.5 * (z * z + std::f64::consts::TAU.ln())
}

/// The quantile of a chance strictly between 0 and 1.
pub(crate) fn inner_quantile(chance: f64) -> f64 {
    // The lower half keeps its digits in small chances; the upper half mirrors it.
    if chance <= 0.5 { -SQRT_2 * erfc_inv(2.0 * chance) } else { SQRT_2 * erfc_inv(2.0 * (1.0 - chance)) }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What the underlying library keeps in the far tails, and more than any use here needs.
    const TEN_DIGITS: f64 = 1e-10;

    /// R 4.2.2 `qnorm`.
    #[test]
    fn quantiles_agree_with_r() {
        let printed = [
            (1e-10, -6.361_340_902_404_056),
            (1e-5, -4.264_890_793_922_825),
            (0.001, -3.090_232_306_167_813),
            (0.025, -1.959_963_984_540_053_8),
            (0.1, -1.281_551_565_544_600_8),
            (0.3, -0.524_400_512_708_040_7),
            (0.5, 0.0),
            (0.7, 0.524_400_512_708_040_7),
            (0.975, 1.959_963_984_540_053_6),
            (0.999_999, 4.753_424_308_817_089),
        ];
        for (chance, expected) in printed {
            let found = quantile(Share::new(chance).unwrap()).unwrap();
            assert!(
                (found - expected).abs() < TEN_DIGITS * expected.abs().max(1.0),
                "{chance}: {found} {expected}"
            );
            assert!((chance_below(found) - chance).abs() < TEN_DIGITS * chance);
        }
        assert_eq!(quantile(Share::NONE), None);
    }
}
