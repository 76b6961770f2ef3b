//! Handwriting: how people write masses, lengths, temperatures and days.
//!
//! Start at [`pounds_and_ounces`] or [`inch_fraction`].

use jiff::civil::Date;
use record::length::Millimetres;
use record::mass::{GRAMS_PER_OUNCE, Grams, OUNCES_PER_POUND};

/// `2.1`, the ounces as a kitchen scale shows them.
#[must_use]
pub fn ounces(mass: Grams) -> String {
    format!("{:.1}", mass.to_ounces())
}

/// `1 lb 3 oz`, or `14.5 oz` under a pound.
#[must_use]
pub fn pounds_and_ounces(mass: Grams) -> String {
    let ounces = mass.to_ounces();
    if ounces < OUNCES_PER_POUND {
        return format!("{ounces:.1} oz");
    }
    let whole = ounces.round();
    let (pounds, rest) = ((whole / OUNCES_PER_POUND).floor(), whole % OUNCES_PER_POUND);
    if rest == 0.0 { format!("{pounds} lb") } else { format!("{pounds} lb {rest} oz") }
}

/// Grams as an ounce-keeper writes fruit too small for the ounce scale: `5.9 g`.
#[must_use]
pub fn small_grams(mass: Grams) -> String {
    if mass.get() < 1.0 { format!("{:.2} g", mass.get()) } else { format!("{:.1} g", mass.get()) }
}

/// Grams as a kitchen scale shows them, finer for small fruit.
#[must_use]
pub fn kitchen_grams(mass: Grams) -> String {
    if mass.get() < 10.0 { format!("{:.2}", mass.get()) } else { format!("{:.0}", mass.get()) }
}

/// An ounce-keeper's weight without the unit, or in grams with it where the scale is too coarse.
#[must_use]
pub fn ounces_or_small_grams(mass: Grams) -> String {
    if mass.get() < GRAMS_PER_OUNCE { small_grams(mass) } else { ounces(mass) }
}

/// Sixteenths of an inch: `2 1/4`.
#[must_use]
pub fn inch_fraction(length: Millimetres) -> String {
    let sixteenths = (length.to_inches() * 16.0).round() as u32;
    let (inches, rest) = (sixteenths / 16, sixteenths % 16);
    let (over, under) = lowest(rest, 16);
    match (inches, rest) {
        (_, 0) => inches.to_string(),
        (0, _) => format!("{over}/{under}"),
        _ => format!("{inches} {over}/{under}"),
    }
}

fn lowest(over: u32, under: u32) -> (u32, u32) {
    if over.is_multiple_of(2) && 2 <= under && over != 0 {
        lowest(over / 2, under / 2)
    } else {
        (over, under)
    }
}

/// Inches as their keeper writes them: a fraction with its mark for what a rule can take, decimals for
/// what needs callipers.
#[must_use]
pub fn inches(length: Millimetres) -> String {
    if length.get() < 45.0 { format!("{:.2}", length.to_inches()) } else { inch_fraction(length) }
}

/// `6,3` with so many decimals.
#[must_use]
pub fn comma(number: f64, decimals: usize) -> String {
    format!("{number:.decimals$}").replace('.', ",")
}

/// `1.250` in a hand that marks thousands with points.
#[must_use]
pub fn thousands(number: f64, mark: char) -> String {
    in_groups(number.round() as u64, mark)
}

fn in_groups(whole: u64, mark: char) -> String {
    if whole < 1000 {
        return whole.to_string();
    }
    format!("{}{mark}{:03}", in_groups(whole / 1000, mark), whole % 1000)
}

/// `5 ft 3 in`, or `40 in` under four feet.
#[must_use]
pub fn feet_and_inches(length: Millimetres) -> String {
    let inches = length.to_inches().round() as u32;
    if inches < 48 { format!("{inches} in") } else { format!("{} ft {} in", inches / 12, inches % 12) }
}

/// `7/25/24`.
#[must_use]
pub fn month_first(day: Date) -> String {
    day.strftime("%-m/%-d/%y").to_string()
}

/// `25/07/2025`.
#[must_use]
pub fn day_first(day: Date) -> String {
    day.strftime("%d/%m/%Y").to_string()
}

/// `25.07.2024`.
#[must_use]
pub fn dotted(day: Date) -> String {
    day.strftime("%d.%m.%Y").to_string()
}

/// `Jul 14`.
#[must_use]
pub fn month_and_day(day: Date) -> String {
    day.strftime("%b %-d").to_string()
}

/// `14 Jul 2025`.
#[must_use]
pub fn spelt(day: Date) -> String {
    day.strftime("%-d %b %Y").to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn measures_are_written_as_people_write_them() {
        let grams = |grams| Grams::new(grams).unwrap();
        assert_eq!(pounds_and_ounces(grams(538.6)), "1 lb 3 oz");
        assert_eq!(pounds_and_ounces(grams(453.6)), "1 lb");
        assert_eq!(pounds_and_ounces(grams(59.5)), "2.1 oz");
        let inches = |inches: f64| Millimetres::new(inches * 25.4).unwrap();
        assert_eq!(inch_fraction(inches(2.25)), "2 1/4");
        assert_eq!(inch_fraction(inches(3.0)), "3");
        assert_eq!(inch_fraction(inches(0.5)), "1/2");
        assert_eq!(feet_and_inches(inches(63.0)), "5 ft 3 in");
        assert_eq!(thousands(1_449_685.0, ','), "1,449,685");
        assert_eq!(thousands(1005.0, '.'), "1.005");
        assert_eq!(comma(6.25, 1), "6,2");
    }
}
