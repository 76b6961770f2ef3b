//! Room in a garden: how many plants a bed holds at a spacing.
//!
//! Start at [`Bed::places`].

use record::length::Millimetres;

/// A bed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bed {
    /// Its length; rows of plants run along it.
    pub length: Millimetres,
    /// Its width.
    pub width: Millimetres,
}

/// How plants stand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spacing {
    /// Between plants of a row.
    pub plants: Millimetres,
    /// Between rows.
    pub rows: Millimetres,
}

/// Places for plants.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Places {
    /// Rows along the bed.
    pub rows: u32,
    /// Plants in a row.
    pub in_row: u32,
}

/// Square millimetres in a square metre.
const SQUARE: f64 = 1e6;

impl Places {
    /// In all.
    #[must_use]
    pub fn count(self) -> u32 {
        self.rows.saturating_mul(self.in_row)
    }
}

impl Spacing {
    /// Square metres that a plant takes.
    #[must_use]
    pub fn of_a_plant(self) -> f64 {
        self.plants.get() * self.rows.get() / SQUARE
    }
}

impl Bed {
    /// Whole rows and whole plants; a bed that is narrower than the rows stand apart still has one row.
    ///
    /// # Examples
    /// A bed of 4 by 20 ft has one row of 10 plants at 2 by 3 ft.
    #[must_use]
    pub fn places(self, spacing: Spacing) -> Places {
        let fit = |whole: Millimetres, each: Millimetres| whole_number(whole.get() / each.get());
        Places { rows: fit(self.width, spacing.rows).max(1), in_row: fit(self.length, spacing.plants) }
    }
}

/// Square metres that plants may take of beds: as many as have a place there.
///
/// Half a plant more, so that no rounding of sums costs the last place.
#[must_use]
pub fn room(beds: &[Bed], spacing: Spacing) -> f64 {
    let places: u32 = beds.iter().map(|bed| bed.places(spacing).count()).sum();
    if places == 0 { 0.0 } else { (f64::from(places) + 0.5) * spacing.of_a_plant() }
}

/// A thousandth more than what fits, so that 20 ft hold ten times 2 ft however they were read.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped by the cast")]
fn whole_number(fits: f64) -> u32 {
    (fits + 1e-3) as u32
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bed_holds_whole_rows_of_whole_plants() {
        let feet = |feet: f64| Millimetres::new(feet * 304.8).unwrap();
        let spacing = Spacing { plants: feet(2.0), rows: feet(3.0) };
        let places = |length, width| Bed { length: feet(length), width: feet(width) }.places(spacing);
        assert_eq!(places(20.0, 4.0), Places { rows: 1, in_row: 10 });
        assert_eq!(places(19.9, 6.0), Places { rows: 2, in_row: 9 });
        assert_eq!(places(1.0, 1.0).count(), 0);
        // 6 square feet.
        assert!((spacing.of_a_plant() - 0.557_418).abs() < 1e-5);
    }
}
