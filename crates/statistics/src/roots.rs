//! Where a falling function crosses a height: halving, with the chord where it is quicker.

/// Steps at most: halving alone takes a stretch of 2^60 down to one rounding in this many.
const MOST_STEPS: u32 = 200;

/// The point between `low` and `high` where `f`, which falls, is `height`; the nearer end if it is not between.
///
/// # Source
/// The Illinois variant of false position (Dowell and Jarratt 1971, BIT 11:168-174; citation from memory,
/// unverified), with a halving whenever the stretch has not halved in three steps.
pub(crate) fn falling(mut low: f64, mut high: f64, height: f64, f: impl Fn(f64) -> f64) -> f64 {
    let (mut at_low, mut at_high) = (f(low) - height, f(high) - height);
    if at_low <= 0.0 {
        return low;
    }
    if 0.0 <= at_high {
        return high;
    }
    let mut goal = 0.5 * (high - low);
    for step in 1..=MOST_STEPS {
        let slow = step % 3 == 0 && goal < high - low;
        if step % 3 == 0 {
            goal = 0.5 * (high - low);
        }
        let chord = high - at_high * (high - low) / (at_high - at_low);
        let middle = if slow || !(low < chord && chord < high) { 0.5 * (low + high) } else { chord };
        if middle <= low || high <= middle || high - low <= 4.0 * f64::EPSILON * high.abs().max(low.abs()) {
            return middle;
        }
        let value = f(middle) - height;
        if value == 0.0 {
            return middle;
        }
        if 0.0 < value {
            (low, at_low) = (middle, value);
            at_high *= 0.5;
        } else {
            (high, at_high) = (middle, value);
            at_low *= 0.5;
        }
    }
    0.5 * (low + high)
}

/// Where a function that falls from a start, and on to nothing, crosses a height: `low` doubles its distance
/// until the crossing lies behind.
pub(crate) fn falling_from(low: f64, first: f64, height: f64, f: impl Fn(f64) -> f64) -> f64 {
    let mut reach = first;
    while height < f(low + reach) && reach < f64::MAX / 4.0 {
        reach *= 2.0;
    }
    falling(low, low + reach, height, f)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_where_a_curve_crosses() {
        assert!((falling(0.0, 10.0, 0.5, |x| (-x).exp()) - 2.0_f64.ln()).abs() < 1e-14);
        assert!((falling_from(0.0, 1.0, 1e-12, |x| 1.0 / (1.0 + x * x)) / 1e6 - 1.0).abs() < 1e-9);
        assert_eq!(falling(1.0, 2.0, 5.0, |x| -x), 1.0);
        assert_eq!(falling(1.0, 2.0, -5.0, |x| -x), 2.0);
    }
}
