//! Warmth of the soil, estimated from that of the air, for stations that have no thermometer in the ground.
//!
//! Soil follows the air slowly: a hand's breadth down it is about as warm as the air of the last eleven days was, the latest
//! counting most. Sun, water, mulch and a dark bed move it by degrees either way: a thermometer in the bed knows better. Start at
//! [`warmth`].
//!
//! # Source
//! Zheng, Hunt and Running 1993, Climate Research 2:183-191 (soil temperature at 10 cm from a running mean of eleven days of air
//! temperature; from memory, unverified). Weights that fall in a line from 11 to 1: as read in the comments of a public ecosystem
//! model's source that follows it.

/// Days whose air the soil remembers. Source: see the head of this file.
const REMEMBERED: u8 = 11;

/// The soil's daily mean at 10 cm, in degrees Celsius, estimated from the lowest and highest temperatures of the air.
///
/// # Shape
/// Two columns of equal length, in the order of days. Returns a column as long, not a number on the first ten days and wherever one
/// of the eleven days is not known.
#[must_use]
pub fn warmth(lowest: &[f64], highest: &[f64]) -> Vec<f64> {
    let air: Vec<f64> =
        lowest.iter().zip(highest).map(|(lowest, highest)| 0.5 * (lowest + highest)).collect();
    let weights = || (1..=REMEMBERED).map(f64::from);
    let whole: f64 = weights().sum();
    let of =
        |window: &[f64]| window.iter().zip(weights()).map(|(air, weight)| air * weight).sum::<f64>() / whole;
    let before = usize::from(REMEMBERED - 1);
    let cold_start = std::iter::repeat_n(f64::NAN, before.min(air.len()));
    cold_start.chain(air.windows(before + 1).map(of)).collect()
}

#[cfg(test)]
mod tests {
    use super::warmth;

    /// By hand: eleven days at 10 degrees are 10; a day at 16 after them counts 11 of 66, one degree.
    #[test]
    fn soil_follows_the_air_slowly() {
        let mut lowest = vec![5.0; 11];
        let mut highest = vec![15.0; 11];
        lowest.push(10.0);
        highest.push(22.0);
        let soil = warmth(&lowest, &highest);
        assert_eq!(soil.len(), 12);
        assert!(soil.iter().take(10).all(|degrees| degrees.is_nan()));
        assert!(
            soil.iter().skip(10).zip([10.0, 11.0]).all(|(found, wanted)| (found - wanted).abs() < 1e-12),
            "{soil:?}"
        );
        assert!(warmth(&[1.0], &[2.0]).iter().all(|degrees| degrees.is_nan()), "a day is not enough");
    }
}
