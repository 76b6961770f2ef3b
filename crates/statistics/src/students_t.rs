//! Student's t: how far an estimate lies from nothing when its spread had to be estimated too.
//!
//! Start at [`chance_beyond`] (two-sided p) and [`critical`] (the multiplier of an interval).

use crate::{normal, roots};
use record::share::Share;
use statrs::function::beta::beta_reg;

/// Degrees of freedom: how well the spread is known. At least 1, and endless where it is taken as known.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Degrees(f64);

/// From here on a spread counts as known: t and normal chances then agree to ten digits.
const AS_GOOD_AS_KNOWN: f64 = 1e9;

impl Degrees {
    /// The spread is known.
    pub const ENDLESS: Self = Self(f64::INFINITY);

    /// Takes 1 and more, infinity too; fractions are welcome.
    #[must_use]
    pub fn new(degrees: f64) -> Option<Self> {
        (1.0 <= degrees).then_some(Self(if AS_GOOD_AS_KNOWN <= degrees { f64::INFINITY } else { degrees }))
    }

    /// The number; infinite where the spread is known.
    #[must_use]
    pub fn get(self) -> f64 {
        self.0
    }

    /// Whether the spread is known.
    #[must_use]
    pub fn endless(self) -> bool {
        self.0.is_infinite()
    }
}

/// The chance that |t| comes out beyond `|t|`: the two-sided p of one comparison planned beforehand.
#[must_use]
pub fn chance_beyond(t: f64, degrees: Degrees) -> Share {
    Share::new(two_tails(t.abs(), degrees).clamp(0.0, 1.0)).unwrap_or(Share::ALL)
}

/// The chance that t comes out above `t`.
#[must_use]
pub fn chance_above(t: f64, degrees: Degrees) -> Share {
    let half = 0.5 * two_tails(t.abs(), degrees);
    Share::new((if t < 0.0 { 1.0 - half } else { half }).clamp(0.0, 1.0)).unwrap_or(Share::ALL)
}

/// The multiplier of a two-sided interval that covers with `level`; `None` for certainty.
#[must_use]
pub fn critical(level: Share, degrees: Degrees) -> Option<f64> {
    let tails = level.rest().get();
    (0.0 < tails).then(|| beyond(tails, degrees))
}

/// The t beyond which both tails together hold `tails`, above 0.
pub(crate) fn beyond(tails: f64, degrees: Degrees) -> f64 {
    roots::falling_from(0.0, 4.0, tails.ln(), |t| two_tails(t, degrees).ln())
}

/// Both tails beyond `t`, which is not negative.
pub(crate) fn two_tails(t: f64, degrees: Degrees) -> f64 {
    if degrees.endless() {
        return 2.0 * normal::chance_below(-t);
    }
    let n = degrees.get();
    let square = t * t;
    // Each side of the beta keeps its own small end.
    if square < n {
        1.0 - beta_reg(0.5, 0.5 * n, square / (n + square))
    } else {
        beta_reg(0.5 * n, 0.5, n / (n + square))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// R 4.2.2: `2 * pt(-t, df)`.
    #[test]
    fn tails_agree_with_r() {
        let printed = [
            (2.0, 1.0, 0.295_167_235_300_866_5),
            (2.0, 10.0, 0.073_388_034_770_740_36),
            (40.0, 3.5, 8.766_441_109_373_023e-6),
            (0.01, 1000.0, 0.992_023_281_932_187_2),
        ];
        for (t, n, expected) in printed {
            let found = chance_beyond(t, Degrees::new(n).unwrap()).get();
            assert!((found / expected - 1.0).abs() < 1e-10, "{t} {n}: {found}");
        }
    }

    /// R 4.2.2: `qt(0.975, df)`.
    #[test]
    fn critical_values_agree_with_r() {
        let level = Share::new(0.95).unwrap();
        for (n, expected) in [(1.0, 12.706_204_736_174_7), (20.0, 2.085_963_447_265_865)] {
            let found = critical(level, Degrees::new(n).unwrap()).unwrap();
            assert!((found / expected - 1.0).abs() < 1e-10, "{n}: {found}");
        }
        let known = critical(level, Degrees::ENDLESS).unwrap();
        assert!((known - 1.959_963_984_540_05).abs() < 1e-10);
        assert_eq!(critical(Share::ALL, Degrees::ENDLESS), None);
    }
}
