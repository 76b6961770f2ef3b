//! The house's language: how a measure is written for people, its own units first, and how counts and
//! chances are.

use crate::length::{INCHES_PER_FOOT, Millimetres};
use crate::mass::{Grams, OUNCES_PER_POUND};
use crate::share::Share;
use crate::temperature::Celsius;

/// How the house tells measures: which units come first, the other system following in brackets where space allows, and
/// whether units are written as signs or as words.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Units {
    /// The units that the house thinks in.
    pub first: System,
    /// How units are written in sentences; in tables and drawings they are always signs.
    pub written: Written,
}

/// A system of units.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum System {
    /// Ounces, inches, Fahrenheit.
    #[default]
    Us,
    /// Grams, millimetres, Celsius.
    Metric,
}

/// How a unit is written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Written {
    /// `14.5 oz`.
    #[default]
    Signs,
    /// `14.5 ounces`.
    Words,
}

impl Units {
    /// Ounces first, as signs.
    pub const US: Self = Self { first: System::Us, written: Written::Signs };
    /// Grams first, as signs.
    pub const METRIC: Self = Self { first: System::Metric, written: Written::Signs };

    /// The same with the other system first.
    #[must_use]
    pub fn turned(self) -> Self {
        let first = match self.first {
            System::Us => System::Metric,
            System::Metric => System::Us,
        };
        Self { first, ..self }
    }

    /// The one of two that belongs to the system that comes first.
    #[must_use]
    pub fn either<T>(self, us: T, metric: T) -> T {
        match self.first {
            System::Us => us,
            System::Metric => metric,
        }
    }
}

/// A unit's sign and words.
struct Unit {
    sign: &'static str,
    one: &'static str,
    many: &'static str,
}

const GRAM: Unit = Unit { sign: "g", one: "gram", many: "grams" };
const KILOGRAM: Unit = Unit { sign: "kg", one: "kilogram", many: "kilograms" };
const OUNCE: Unit = Unit { sign: "oz", one: "ounce", many: "ounces" };
const POUND: Unit = Unit { sign: "lb", one: "pound", many: "pounds" };
const MILLIMETRE: Unit = Unit { sign: "mm", one: "millimetre", many: "millimetres" };
const METRE: Unit = Unit { sign: "m", one: "metre", many: "metres" };
const INCH: Unit = Unit { sign: "in", one: "inch", many: "inches" };
const FOOT: Unit = Unit { sign: "ft", one: "foot", many: "feet" };
const CELSIUS: Unit = Unit { sign: "°C", one: "degree Celsius", many: "degrees Celsius" };
const FAHRENHEIT: Unit = Unit { sign: "°F", one: "degree Fahrenheit", many: "degrees Fahrenheit" };

/// A number as it is written, and its unit.
struct Told(String, Unit);

impl Told {
    fn write(&self, written: Written) -> String {
        let Self(number, unit) = self;
        match written {
            Written::Signs => format!("{number} {}", unit.sign),
            Written::Words if number == "1" => format!("{number} {}", unit.one),
            Written::Words => format!("{number} {}", unit.many),
        }
    }
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
    both(&metric_mass(grams, grams), &us_mass(grams, grams), units)
}

/// Writes a mass in the house's own units only: `14.5 oz`.
#[must_use]
pub fn mass_briefly(grams: Grams, units: Units) -> String {
    own(&metric_mass(grams, grams), &us_mass(grams, grams), units)
}

/// Writes a length both ways, the house's own first: `58 mm (2.3 in)`.
#[must_use]
pub fn length(millimetres: Millimetres, units: Units) -> String {
    both(&metric_length(millimetres, millimetres), &us_length(millimetres, millimetres), units)
}

/// Writes a distance between plots or gardens both ways, in whole feet and metres, as it is paced out: `100 ft (30 m)`.
#[must_use]
pub fn distance(away: Millimetres, units: Units) -> String {
    let metric = Told(format!("{:.0}", away.get() / 1000.0), METRE);
    both(&metric, &Told(format!("{:.0}", away.to_inches() / INCHES_PER_FOOT), FOOT), units)
}

/// Writes a length in the house's own units only: `2.3 in`.
#[must_use]
pub fn length_briefly(millimetres: Millimetres, units: Units) -> String {
    own(&metric_length(millimetres, millimetres), &us_length(millimetres, millimetres), units)
}

/// Writes a measured length with by how much the truth may lie on either side, in the house's own units and a digit finer than
/// a length is told by itself: `2.43 in ± 0.04 in`.
#[must_use]
pub fn length_and_give(millimetres: Millimetres, give: Millimetres, units: Units) -> String {
    let told = |length: Millimetres| {
        let metric = Told(format!("{:.1}", length.get()), MILLIMETRE);
        own(&metric, &Told(format!("{:.2}", length.to_inches()), INCH), units)
    };
    format!("{} ± {}", told(millimetres), told(give))
}

/// Writes the ends of a range in one unit, that of the larger, so that they can be held against each other: `2.9 ft` and
/// `4.0 ft`.
#[must_use]
pub fn lengths_briefly((low, high): (Millimetres, Millimetres), units: Units) -> (String, String) {
    let told = |length| own(&metric_length(length, high), &us_length(length, high), units);
    (told(low), told(high))
}

/// The same of masses: `0.8 lb` and `2.2 lb`.
#[must_use]
pub fn masses_briefly((low, high): (Grams, Grams), units: Units) -> (String, String) {
    let told = |mass| own(&metric_mass(mass, high), &us_mass(mass, high), units);
    (told(low), told(high))
}

/// Writes a temperature both ways to a tenth, which tells 28 °F from -2 °C, the house's own first: `32 °F (0 °C)`.
#[must_use]
pub fn temperature_to_tenths(celsius: Celsius, units: Units) -> String {
    let degrees = |number: f64, unit: Unit| {
        let told = format!("{number:.1}");
        format!("{} {}", told.strip_suffix(".0").unwrap_or(&told), unit.sign)
    };
    let (metric, us) = (degrees(celsius.get(), CELSIUS), degrees(celsius.to_fahrenheit(), FAHRENHEIT));
    let (first, other) = units.either((&us, &metric), (&metric, &us));
    format!("{first} ({other})")
}

/// Writes a temperature both ways, the house's own first: `21 °C (70 °F)`.
#[must_use]
pub fn temperature(celsius: Celsius, units: Units) -> String {
    let metric = Told(format!("{:.0}", celsius.get()), CELSIUS);
    both(&metric, &Told(format!("{:.0}", celsius.to_fahrenheit()), FAHRENHEIT), units)
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

/// Writes a count that is only known to lie between two ends, with no more digits than these allow, and the ends likewise:
/// `18,700` and `(18,200 to 19,200)` of 18,692 that may be out by 500.
#[must_use]
pub fn rough_count(about: f64, (low, high): (f64, f64)) -> (String, (String, String)) {
    let reach = 0.5 * (high - low);
    let step = if 1.0 <= reach { 10_f64.powf(reach.log10().floor()) } else { 1.0 };
    let told = |count: f64| {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "whole and not negative")]
        let whole = ((count / step).round() * step).max(0.0) as u64;
        grouped(whole)
    };
    (told(about), (told(low), told(high)))
}

/// A word or sentence with a capital at its head.
#[must_use]
pub fn capitalised(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
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

fn both(metric: &Told, us: &Told, units: Units) -> String {
    let (first, other) = units.either((us, metric), (metric, us));
    format!("{} ({})", first.write(units.written), other.write(units.written))
}

fn own(metric: &Told, us: &Told, units: Units) -> String {
    units.either(us, metric).write(Written::Signs)
}

/// A measure in the unit in which `like` is told.
fn metric_mass(grams: Grams, like: Grams) -> Told {
    match grams.get() {
        large if GRAMS_TOLD_AS_KILOGRAMS <= like.get() => Told(format!("{:.1}", large / 1000.0), KILOGRAM),
        tiny if tiny < 1.0 => Told(format!("{tiny:.2}"), GRAM),
        small if small < 10.0 => Told(format!("{small:.1}"), GRAM),
        middle => Told(format!("{middle:.0}"), GRAM),
    }
}

fn us_mass(grams: Grams, like: Grams) -> Told {
    match grams.to_ounces() {
        large if OUNCES_TOLD_AS_POUNDS <= like.to_ounces() => {
            Told(format!("{:.1}", large / OUNCES_PER_POUND), POUND)
        }
        tiny if tiny < 0.1 => Told(format!("{tiny:.3}"), OUNCE),
        small if small < 1.0 => Told(format!("{small:.2}"), OUNCE),
        middle => Told(format!("{middle:.1}"), OUNCE),
    }
}

fn metric_length(millimetres: Millimetres, like: Millimetres) -> Told {
    match millimetres.get() {
        tall if MILLIMETRES_TOLD_AS_METRES <= like.get() => Told(format!("{:.2}", tall / 1000.0), METRE),
        short => Told(format!("{short:.0}"), MILLIMETRE),
    }
}

fn us_length(millimetres: Millimetres, like: Millimetres) -> Told {
    match millimetres.to_inches() {
        tall if INCHES_TOLD_AS_FEET <= like.to_inches() => {
            Told(format!("{:.1}", tall / INCHES_PER_FOOT), FOOT)
        }
        short => Told(format!("{short:.1}"), INCH),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_distance_is_whole() {
        let told = |feet: f64, first| {
            let away =
                Millimetres::new(feet * INCHES_PER_FOOT * crate::length::MILLIMETRES_PER_INCH).unwrap();
            distance(away, Units { first, written: Written::Signs })
        };
        assert_eq!(told(100.0, System::Us), "100 ft (30 m)");
        assert_eq!(told(30.0, System::Metric), "9 m (30 ft)");
    }

    #[test]
    fn a_rough_count_has_no_more_digits_than_it_knows() {
        let told = |about, low, high| {
            let (about, (low, high)) = rough_count(about, (low, high));
            format!("{about} ({low} to {high})")
        };
        assert_eq!(told(18_692.0, 18_187.4, 19_226.3), "18,700 (18,200 to 19,200)");
        assert_eq!(told(402.4, 391.2, 414.3), "400 (390 to 410)");
        assert_eq!(told(30.4, 29.9, 30.8), "30 (30 to 31)");
        assert_eq!(told(0.0, 0.0, 0.0), "0 (0 to 0)");
    }

    #[test]
    fn the_houses_own_units_come_first() {
        let told = |grams, units| Grams::new(grams).map(|grams| mass(grams, units));
        assert_eq!(told(412.0, Units::METRIC).as_deref(), Some("412 g (14.5 oz)"));
        assert_eq!(told(412.0, Units::US).as_deref(), Some("14.5 oz (412 g)"));
        assert_eq!(told(3.2, Units::US).as_deref(), Some("0.11 oz (3.2 g)"));
        assert_eq!(told(0.2, Units::US).as_deref(), Some("0.007 oz (0.20 g)"));
        let long = Millimetres::new(58.0).map(|long| length(long, Units::METRIC));
        assert_eq!(long.as_deref(), Some("58 mm (2.3 in)"));
        let cold = |celsius, units| Celsius::new(celsius).map(|cold| temperature_to_tenths(cold, units));
        assert_eq!(cold(0.0, Units::METRIC).as_deref(), Some("0 °C (32 °F)"));
        assert_eq!(cold(-2.0, Units::US).as_deref(), Some("28.4 °F (-2 °C)"));
        assert_eq!(cold(-20.0 / 9.0, Units::US).as_deref(), Some("28 °F (-2.2 °C)"));
    }

    #[test]
    fn units_are_written_out_where_the_house_wishes() {
        let words = |units: Units| Units { written: Written::Words, ..units };
        let heavy = Grams::new(412.0).unwrap();
        assert_eq!(mass(heavy, words(Units::METRIC)), "412 grams (14.5 ounces)");
        assert_eq!(mass_briefly(heavy, words(Units::METRIC)), "412 g");
        let one = Millimetres::new(1.0).unwrap();
        assert_eq!(length(one, words(Units::METRIC)), "1 millimetre (0.0 inches)");
        let warm = Celsius::new(21.0).unwrap();
        assert_eq!(temperature(warm, words(Units::US)), "70 degrees Fahrenheit (21 degrees Celsius)");
    }

    #[test]
    fn a_give_is_told_as_finely_as_its_measure() {
        let (measure, give) = (Millimetres::new(61.7).unwrap(), Millimetres::new(1.02).unwrap());
        let told = |first| length_and_give(measure, give, Units { first, written: Written::Signs });
        assert_eq!(told(System::Us), "2.43 in ± 0.04 in");
        assert_eq!(told(System::Metric), "61.7 mm ± 1.0 mm");
    }

    #[test]
    fn the_ends_of_a_range_are_told_in_one_unit() {
        let long = |millimetres| Millimetres::new(millimetres).unwrap();
        let told = |low, high, units| lengths_briefly((long(low), long(high)), units);
        assert_eq!(told(889.0, 1219.2, Units::US), ("2.9 ft".to_owned(), "4.0 ft".to_owned()));
        assert_eq!(told(889.0, 1219.2, Units::METRIC), ("0.89 m".to_owned(), "1.22 m".to_owned()));
        assert_eq!(told(50.0, 60.0, Units::US), ("2.0 in".to_owned(), "2.4 in".to_owned()));
        let heavy = |grams| Grams::new(grams).unwrap();
        let told = masses_briefly((heavy(380.0), heavy(998.0)), Units::US);
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
