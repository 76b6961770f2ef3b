//! Measured facts in words, the house's own units first.

use crate::catalogue::{Facts, Measured};
use record::language::{self, Units};
use record::length::Millimetres;
use record::mass::Grams;
use record::share::Percent;

/// One line of a variety's facts.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Fact {
    /// What was measured: `Weight`.
    pub(crate) about: &'static str,
    /// The measure, or `None` where it was not yet measured.
    pub(crate) words: Option<String>,
}

/// Words a variety's facts: four that every entry has, measured or not, then those that are there.
pub(crate) fn told(facts: &Facts, units: Units) -> Vec<Fact> {
    let mut told = vec![
        Fact { about: "Weight", words: facts.weight.map(|weight| mass(weight, units)) },
        size(facts, units),
        Fact { about: "Locules", words: facts.locules.map(count) },
        Fact { about: "Soluble solids", words: facts.soluble_solids.map(percent) },
    ];
    let rarer = [
        ("Dry matter", facts.dry_matter.map(percent)),
        ("Plant height", facts.plant_height.map(|height| length(height, units))),
        ("First ripe", facts.days_to_ripe.map(days_told)),
    ];
    let measured = rarer.into_iter().filter(|(_, words)| words.is_some());
    told.extend(measured.map(|(about, words)| Fact { about, words }));
    told
}

fn size(facts: &Facts, units: Units) -> Fact {
    match (facts.length, facts.width) {
        (Some(long), Some(wide)) => {
            Fact { about: "Length × width", words: Some(both_ways(long.usual, wide.usual, units)) }
        }
        (Some(long), None) => Fact { about: "Length", words: Some(length(long, units)) },
        (None, Some(wide)) => Fact { about: "Width", words: Some(length(wide, units)) },
        (None, None) => Fact { about: "Length × width", words: None },
    }
}

fn both_ways(long: Millimetres, wide: Millimetres, units: Units) -> String {
    let in_units = |units| {
        format!("{} × {}", language::length_briefly(long, units), language::length_briefly(wide, units))
    };
    format!("{} ({})", in_units(units), in_units(units.turned()))
}

fn mass(weight: Measured<Grams>, units: Units) -> String {
    with_most(language::mass(weight.usual, units), weight.most, |ends| language::masses_briefly(ends, units))
}

fn length(measured: Measured<Millimetres>, units: Units) -> String {
    let usual = language::length(measured.usual, units);
    with_most(usual, measured.most, |ends| language::lengths_briefly(ends, units))
}

fn percent(measured: Measured<Percent>) -> String {
    let written = |percent: Percent| format!("{:.1} %", percent.get());
    with_most(written(measured.usual), measured.most, |(low, high)| (written(low), written(high)))
}

fn count(measured: Measured<u32>) -> String {
    with_most(measured.usual.to_string(), measured.most, counts)
}

fn days_told(days: Measured<u32>) -> String {
    with_most(format!("{} days from transplanting", days.usual), days.most, counts)
}

fn counts((low, high): (u32, u32)) -> (String, String) {
    (low.to_string(), high.to_string())
}

/// Adds the range that most fruit falls in, unless both ends read alike.
fn with_most<T>(usual: String, most: Option<(T, T)>, written: impl Fn((T, T)) -> (String, String)) -> String {
    match most.map(written) {
        Some((low, high)) if low != high => format!("{usual}, mostly {low} to {high}"),
        _ => usual,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn grams(grams: f64) -> Grams {
        Grams::new(grams).unwrap()
    }

    fn millimetres(millimetres: f64) -> Millimetres {
        Millimetres::new(millimetres).unwrap()
    }

    #[test]
    fn the_houses_units_come_first_and_the_others_follow() {
        let facts = Facts {
            weight: Some(Measured { usual: grams(58.0), most: Some((grams(49.0), grams(71.0))) }),
            length: Some(Measured { usual: millimetres(61.0), most: None }),
            width: Some(Measured { usual: millimetres(38.0), most: None }),
            locules: Some(Measured { usual: 2, most: Some((2, 2)) }),
            ..Facts::default()
        };
        let words = |units| told(&facts, units).into_iter().map(|fact| fact.words).collect::<Vec<_>>();
        let metric = ["58 g (2.0 oz), mostly 49 g to 71 g", "61 mm × 38 mm (2.4 in × 1.5 in)", "2"];
        let us = ["2.0 oz (58 g), mostly 1.7 oz to 2.5 oz", "2.4 in × 1.5 in (61 mm × 38 mm)", "2"];
        for (units, expected) in [(Units::METRIC, metric), (Units::US, us)] {
            let expected = expected.map(|words| Some(words.to_owned()));
            assert_eq!(words(units), [expected.to_vec(), vec![None]].concat());
        }
    }
}
