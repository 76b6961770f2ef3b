//! The normal curve's chance below a point, from a table: a forecast asks for it tens of millions of times.

use statistics::normal::chance_below;
use std::sync::LazyLock;

/// Beyond this many deviations nothing is left that a harvest could show.
const REACH: f32 = 6.0;
/// Steps of the table in one deviation: straight lines between them are off by less than 2 in a million.
const STEPS: f32 = 128.0;
/// Entries: from one end to the other, and one more for the line after the last.
const ENTRIES: usize = 2 * 6 * 128 + 2;

static TABLE: LazyLock<[f32; ENTRIES]> = LazyLock::new(|| {
    let mut table = [0.0; ENTRIES];
    for (place, entry) in (0_u16..).zip(table.iter_mut()) {
        let z = f64::from(place) / f64::from(STEPS) - f64::from(REACH);
        *entry = super::narrow(chance_below(z));
    }
    table
});

/// Chance that a standard normal draw falls below `z`, to 2 in a million.
#[inline]
pub(super) fn below(z: f32) -> f32 {
    let at = (z.clamp(-REACH, REACH) + REACH) * STEPS;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "clamped to the table just above"
    )]
    let place = at as usize;
    #[expect(clippy::cast_precision_loss, reason = "below 2000")]
    let part = at - place as f32;
    let table = &*TABLE;
    match (table.get(place), table.get(place + 1)) {
        (Some(from), Some(to)) => from + part * (to - from),
        // Only what is no number comes here.
        _ => 0.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against the error function of a library, over the whole table and beyond its ends.
    #[test]
    fn the_table_is_the_curve() {
        for place in -8000..=8000_i16 {
            let z = f32::from(place) / 1000.0;
            let off = (f64::from(below(z)) - chance_below(f64::from(z))).abs();
            assert!(off < 2e-6, "{z}: {off}");
        }
    }
}
