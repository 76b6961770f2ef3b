//! The normal curve's chance below a point, without exponentials or branches: a forecast asks for it tens of millions of
//! times, several at once.

/// Of the fifth power down to the constant.
const COEFFICIENTS: [f32; 6] =
    [4.889_06e-5, 3.800_36e-5, 3.277_626_3e-3, 2.114_100_6e-2, 4.986_734_7e-2, 1.0];

/// Chance that a standard normal draw falls below `z`, to 1 in a million.
///
/// # Source
/// Abramowitz and Stegun 1964, Handbook of Mathematical Functions, 26.2.19 (from memory, unverified; held to a library's
/// error function by the test below).
#[inline(always)]
#[expect(clippy::inline_always, reason = "compiled anew for each width of registers")]
pub(super) fn below(z: f32) -> f32 {
    let x = z.abs();
    // In two steps each: the fused one is a call where the machine has no such instruction.
    let sum = COEFFICIENTS.iter().fold(5.383_0e-6, |sum, next| sum * x + next);
    let second = sum * sum;
    let fourth = second * second;
    let eighth = fourth * fourth;
    let tail = 0.5 / (eighth * eighth);
    if z < 0.0 { tail } else { 1.0 - tail }
}

#[cfg(test)]
mod tests {
    use super::*;
    use statistics::normal::chance_below;

    /// Against the error function of a library, from end to end and far beyond.
    #[test]
    fn it_is_the_curve() {
        for place in -12_000..=12_000_i16 {
            let z = f32::from(place) / 1000.0;
            let off = (f64::from(below(z)) - chance_below(f64::from(z))).abs();
            assert!(off < 1e-6, "{z}: {off}");
        }
        assert_eq!((below(f32::NEG_INFINITY), below(f32::INFINITY)), (0.0, 1.0));
    }
}
