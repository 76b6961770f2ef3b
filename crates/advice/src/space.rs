//! Room in a garden: how many plants a bed holds at a spacing, and which plants a container is large enough for.
//!
//! Start at [`Bed::places`] and [`least_container`].

use identity::habit::Habit;
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

/// Where a plant stands in its bed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    /// From the bed's left end, along it.
    pub along: Millimetres,
    /// From its upper side, across it.
    pub across: Millimetres,
}

impl Bed {
    /// The spots of a bed, row after row from the left: rows in the middle of the bed, the first plant of each half a place in.
    ///
    /// # Shape
    /// As many as [`Bed::places`] counts.
    #[must_use]
    pub fn spots(self, spacing: Spacing) -> Vec<Spot> {
        let Places { rows, in_row } = self.places(spacing);
        let margin = (self.width.get() - f64::from(rows) * spacing.rows.get()) / 2.0;
        let spot = |row: u32, place: u32| {
            let along = (f64::from(place) + 0.5) * spacing.plants.get();
            // A narrow bed's one row stands in its middle, the margin being less than nothing.
            let across = margin + (f64::from(row) + 0.5) * spacing.rows.get();
            Some(Spot { along: Millimetres::new(along)?, across: Millimetres::new(across)? })
        };
        (0..rows).flat_map(|row| (0..in_row).filter_map(move |place| spot(row, place))).collect()
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

/// Litres that a container holds.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Litres(f64);

/// Litres in a US liquid gallon. Source: NIST Handbook 44, Appendix C.
const LITRES_PER_GALLON: f64 = 3.785_411_784;

impl Litres {
    /// A container where nobody says what it holds: 5 US gallons, the least that a determinate is grown in.
    pub const USUAL: Self = Self(5.0 * LITRES_PER_GALLON);

    /// A volume; `None` for what is no number above nothing.
    #[must_use]
    pub fn new(litres: f64) -> Option<Self> {
        (litres.is_finite() && 0.0 < litres).then_some(Self(litres))
    }

    /// The same of US liquid gallons.
    #[must_use]
    pub fn of_gallons(gallons: f64) -> Option<Self> {
        Self::new(gallons * LITRES_PER_GALLON)
    }

    /// Litres.
    #[must_use]
    pub fn get(self) -> f64 {
        self.0
    }
}

/// The least container that a plant of a habit is grown in, in US gallons: 5 for a determinate, 10 for an indeterminate, 2 for the
/// smallest dwarfs. Common practice, no source of authority; a dwarf of larger kind is taken as a determinate, a
/// semi-determinate as an indeterminate.
#[must_use]
pub fn least_container(habit: Habit) -> Option<Litres> {
    Litres::of_gallons(match habit {
        Habit::MicroDwarf => 2.0,
        Habit::Dwarf | Habit::Determinate => 5.0,
        Habit::SemiDeterminate | Habit::Indeterminate => 10.0,
    })
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
        // Two rows of 3 ft in 7 ft: half a foot is left at either side.
        let spots = Bed { length: feet(5.0), width: feet(7.0) }.spots(spacing);
        let told: Vec<(f64, f64)> =
            spots.iter().map(|spot| (spot.along.get() / 304.8, spot.across.get() / 304.8)).collect();
        let wanted = [(1.0, 2.0), (3.0, 2.0), (1.0, 5.0), (3.0, 5.0)];
        for (told, wanted) in told.iter().zip(wanted) {
            assert!((told.0 - wanted.0).abs() < 1e-9 && (told.1 - wanted.1).abs() < 1e-9, "{told:?}");
        }
        assert_eq!(told.len(), 4);
        assert_eq!(Bed { length: feet(5.0), width: feet(2.0) }.spots(spacing).len(), 2);
        // 6 square feet.
        assert!((spacing.of_a_plant() - 0.557_418).abs() < 1e-5);
    }
}
