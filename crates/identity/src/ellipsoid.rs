//! A fruit is as good as an ellipsoid: what its length, width and weight tell of one another.
//!
//! `weight = 1.06 * pi/6 * width^2 * length` with weight in grams and lengths in centimetres. Hollow and
//! deeply ribbed fruit weigh less. Everything here is on natural logarithms of grams and millimetres, where
//! the rule is a straight line.

/// Grams that a cubic centimetre of the ellipsoid weighs. Source: facts of the trade, section 5, worked out
/// from 915 measured fruits of 0.24 to 68 g: 1.025 over all, 1.06 to 1.07 over cultivated and cherry types.
/// Untested on ribbed beefsteaks.
pub const GRAMS_PER_CUBIC_CENTIMETRE: f64 = 1.06;

/// Standard deviation of a fruit's log weight round the rule. Source: the same fruits, residual 5 %.
pub const LOG_SD: f64 = 0.05;

/// The constant of the rule on logarithms: `log weight = LOG_DENSITY + 2 log width + log length`, weight in
/// grams and lengths in millimetres; `ln(1.06 * pi / 6000)`.
pub const LOG_DENSITY: f64 = -7.496_515_954_236_816;

/// Log weight of a solid fruit.
#[must_use]
pub fn log_weight(log_length: f64, log_width: f64) -> f64 {
    LOG_DENSITY + 2.0 * log_width + log_length
}

/// Log length over width, from log weight and log width.
#[must_use]
pub fn log_shape_from_width(log_weight: f64, log_width: f64) -> f64 {
    log_weight - LOG_DENSITY - 3.0 * log_width
}

/// Log length over width, from log weight and log length.
#[must_use]
pub fn log_shape_from_length(log_weight: f64, log_length: f64) -> f64 {
    (3.0 * log_length + LOG_DENSITY - log_weight) / 2.0
}

/// Log width of a fruit of this log weight, log length over width and log fullness.
#[must_use]
pub fn log_width(log_weight: f64, log_shape: f64, log_fullness: f64) -> f64 {
    (log_weight - log_fullness - log_shape - LOG_DENSITY) / 3.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_constant_is_the_rule() {
        let rule = (GRAMS_PER_CUBIC_CENTIMETRE * std::f64::consts::PI / 6000.0).ln();
        assert!((LOG_DENSITY - rule).abs() < 1e-9, "{rule}");
    }

    #[test]
    fn there_and_back() {
        let (length, width) = (60_f64.ln(), 40_f64.ln());
        let weight = log_weight(length, width);
        assert!((log_shape_from_width(weight, width) - (length - width)).abs() < 1e-12);
        assert!((log_shape_from_length(weight, length) - (length - width)).abs() < 1e-12);
        assert!((log_width(weight, length - width, 0.0) - width).abs() < 1e-12);
    }
}
