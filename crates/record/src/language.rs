//! The house's language: how a measure is written for people, its own units first, and how counts and
//! chances are.

use crate::length::{INCHES_PER_FOOT, Millimetres};
use crate::mass::{Grams, OUNCES_PER_POUND};
use crate::share::Share;
use crate::temperature::Celsius;

/// Which units the house thinks in; the other system follows in brackets where space allows.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Units {
    /// Ounces, inches, Fahrenheit.
    #[default]
    Us,
    /// Grams, millimetres, Celsius.
    Metric,
}

/// Ounces from which a fruit or a pick is told in pounds. Common practice, no source.
const OUNCES_TOLD_AS_POUNDS: f64 = 32.0;
/// Grams from which a pick is told in kilograms. Common practice, no source.
const GRAMS_TOLD_AS_KILOGRAMS: f64 = 2000.0;
/// Inches from which a plant is told in feet. Common practice, no source.
const INCHES_TOLD_AS_FEET: f64 = 36.0;
/// Millimetres from which a plant is told in metres. Common practice, no source.
const MILLIMETRES_TOLD_AS_METRES: f64 = 1000.0;

/// Writes a mass both ways, the house's own first: `412 g (14.5 oz)`.
#[must_use]
pub fn mass(grams: Grams, units: Units) -> String {
    both(metric_mass(grams, grams), us_mass(grams, grams), units)
}

/// Writes a mass in the house's own units only: `14.5 oz`.
#[must_use]
pub fn mass_briefly(grams: Grams, units: Units) -> String {
    own(metric_mass(grams, grams), us_mass(grams, grams), units)
}

/// Writes a length both ways, the house's own first: `58 mm (2.3 in)`.
#[must_use]
pub fn length(millimetres: Millimetres, units: Units) -> String {
    both(metric_length(millimetres, millimetres), us_length(millimetres, millimetres), units)
}

/// Writes a length in the house's own units only: `2.3 in`.
#[must_use]
pub fn length_briefly(millimetres: Millimetres, units: Units) -> String {
    own(metric_length(millimetres, millimetres), us_length(millimetres, millimetres), units)
}

/// Writes the ends of a range in one unit, that of the larger, so that they can be held against each other: `2.9 ft` and
/// `4.0 ft`.
#[must_use]
pub fn lengths_briefly((low, high): (Millimetres, Millimetres), units: Units) -> (String, String) {
    let told = |length| own(metric_length(length, high), us_length(length, high), units);
    (told(low), told(high))
}

/// The same of masses: `0.8 lb` and `2.2 lb`.
#[must_use]
pub fn masses_briefly((low, high): (Grams, Grams), units: Units) -> (String, String) {
    let told = |mass| own(metric_mass(mass, high), us_mass(mass, high), units);
    (told(low), told(high))
}

/// Writes a temperature both ways, the house's own first: `21 °C (70 °F)`.
#[must_use]
pub fn temperature(celsius: Celsius, units: Units) -> String {
    let metric = format!("{:.0} °C", celsius.get());
    both(metric, format!("{:.0} °F", celsius.to_fahrenheit()), units)
}

/// Writes a count and its noun: `1 row`, `12 rows`, `1,204 rows`.
#[must_use]
pub fn counted(count: u64, one: &str, many: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{} {many}", grouped(count)) }
}

/// Writes a count with its thousands parted: `12,400`.
#[must_use]
pub fn grouped(count: u64) -> String {
    let digits = count.to_string();
    let mut parted = String::with_capacity(digits.len() + digits.len() / 3);
    for (place, digit) in digits.chars().enumerate() {
        if place > 0 && (digits.len() - place).is_multiple_of(3) {
            parted.push(',');
        }
        parted.push(digit);
    }
    parted
}

/// Writes a probability: `62 in 100`; never quite 0 or 100, which no evidence gives.
#[must_use]
pub fn chance(share: Share) -> String {
    match (share.get() * 100.0).round() {
        nearly if 100.0 <= nearly => "over 99 in 100".to_owned(),
        hardly if hardly < 1.0 => "under 1 in 100".to_owned(),
        hundredths => format!("{hundredths:.0} in 100"),
    }
}

fn both(metric: String, us: String, units: Units) -> String {
    match units {
        Units::Us => format!("{us} ({metric})"),
        Units::Metric => format!("{metric} ({us})"),
    }
}

fn own(metric: String, us: String, units: Units) -> String {
    match units {
        Units::Us => us,
        Units::Metric => metric,
    }
}

/// A measure in the unit in which `like` is told.
fn metric_mass(grams: Grams, like: Grams) -> String {
    match grams.get() {
        large if GRAMS_TOLD_AS_KILOGRAMS <= like.get() => format!("{:.1} kg", large / 1000.0),
        tiny if tiny < 1.0 => format!("{tiny:.2} g"),
        small if small < 10.0 => format!("{small:.1} g"),
        middle => format!("{middle:.0} g"),
    }
}

fn us_mass(grams: Grams, like: Grams) -> String {
    match grams.to_ounces() {
        large if OUNCES_TOLD_AS_POUNDS <= like.to_ounces() => format!("{:.1} lb", large / OUNCES_PER_POUND),
        tiny if tiny < 0.1 => format!("{tiny:.3} oz"),
        small if small < 1.0 => format!("{small:.2} oz"),
        middle => format!("{middle:.1} oz"),
    }
}

fn metric_length(millimetres: Millimetres, like: Millimetres) -> String {
    match millimetres.get() {
        tall if MILLIMETRES_TOLD_AS_METRES <= like.get() => format!("{:.2} m", tall / 1000.0),
        short => format!("{short:.0} mm"),
    }
}

fn us_length(millimetres: Millimetres, like: Millimetres) -> String {
    match millimetres.to_inches() {
        tall if INCHES_TOLD_AS_FEET <= like.to_inches() => format!("{:.1} ft", tall / INCHES_PER_FOOT),
        short => format!("{short:.1} in"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_houses_own_units_come_first() {
        let told = |grams, units| Grams::new(grams).map(|grams| mass(grams, units));
        assert_eq!(told(412.0, Units::Metric).as_deref(), Some("412 g (14.5 oz)"));
        assert_eq!(told(412.0, Units::Us).as_deref(), Some("14.5 oz (412 g)"));
        assert_eq!(told(3.2, Units::Us).as_deref(), Some("0.11 oz (3.2 g)"));
        assert_eq!(told(0.2, Units::Us).as_deref(), Some("0.007 oz (0.20 g)"));
        let long = Millimetres::new(58.0).map(|long| length(long, Units::Metric));
        assert_eq!(long.as_deref(), Some("58 mm (2.3 in)"));
    }

    #[test]
    fn the_ends_of_a_range_are_told_in_one_unit() {
        let long = |millimetres| Millimetres::new(millimetres).unwrap();
        let told = |low, high, units| lengths_briefly((long(low), long(high)), units);
        assert_eq!(told(889.0, 1219.2, Units::Us), ("2.9 ft".to_owned(), "4.0 ft".to_owned()));
        assert_eq!(told(889.0, 1219.2, Units::Metric), ("0.89 m".to_owned(), "1.22 m".to_owned()));
        assert_eq!(told(50.0, 60.0, Units::Us), ("2.0 in".to_owned(), "2.4 in".to_owned()));
        let heavy = |grams| Grams::new(grams).unwrap();
        let told = masses_briefly((heavy(380.0), heavy(998.0)), Units::Us);
        assert_eq!(told, ("0.8 lb".to_owned(), "2.2 lb".to_owned()));
    }

    #[test]
    fn counts_and_chances_read_as_people_say_them() {
        assert_eq!(counted(1, "row", "rows"), "1 row");
        assert_eq!(counted(0, "plant", "plants"), "0 plants");
        assert_eq!(counted(12_400, "fruit", "fruits"), "12,400 fruits");
        assert_eq!(counted(1_204_567, "row", "rows"), "1,204,567 rows");
        let told = |share| Share::new(share).map(chance);
        assert_eq!(told(0.6204).as_deref(), Some("62 in 100"));
        assert_eq!(told(0.9999).as_deref(), Some("over 99 in 100"));
        assert_eq!(told(0.0).as_deref(), Some("under 1 in 100"));
    }
}
