//! The limits of a class in words and as bars: what holds of all its fruit, and the ways into it.

use drawing::span::Span;
use drawing::strip::{Border, Measured, Reading};
use identity::guide::fruit::measure::{MEASURES, Measure};
use identity::guide::fruit::{Band, FruitGuide, Way};
use publish::chart::Limit;
use record::language::{self, Units, capitalised};
use record::length::Millimetres;
use record::mass::Grams;

/// Lower and upper border of a range, as places in the guide; nothing is open.
type Range = (Option<usize>, Option<usize>);

/// The ranges that hold of all fruit of a class, whichever way it came in: a measure that one way leaves
/// open is open.
pub(super) fn all(guide: &FruitGuide, ways: &[Way], units: Units) -> Vec<Limit> {
    MEASURES
        .into_iter()
        .filter_map(|measure| limit(guide, measure, hull(guide, ways, measure)?, units))
        .collect()
}

/// The ways into a class, each by what it asks beyond what all of them ask; empty where there is one.
pub(super) fn ways(guide: &FruitGuide, ways: &[Way], units: Units) -> Vec<String> {
    if ways.len() < 2 {
        return Vec::new();
    }
    let in_all = |band: &Band| ways.iter().all(|way| way.bands.contains(band));
    let own = |way: &Way| {
        let bands = way.bands.iter().filter(|band| !in_all(band));
        bands.filter_map(|band| clause(guide, band, units)).collect::<Vec<_>>().join(", ")
    };
    ways.iter().map(own).filter(|words| !words.is_empty()).collect()
}

/// Every way in full, for shape marks.
pub(super) fn in_full(guide: &FruitGuide, ways: &[Way], units: Units) -> Vec<String> {
    let told = |way: &Way| {
        way.bands.iter().filter_map(|band| clause(guide, band, units)).collect::<Vec<_>>().join(", ")
    };
    ways.iter().map(told).collect()
}

fn clause(guide: &FruitGuide, band: &Band, units: Units) -> Option<String> {
    let range = words(guide, band.measure, (band.from, band.below), units)?;
    Some(format!("{} {range}", band.measure.words()))
}

/// The range that all ways lie in; nothing where that is no limit.
fn hull(guide: &FruitGuide, ways: &[Way], measure: Measure) -> Option<Range> {
    let at = |index: usize| guide.borders.get(index).map_or(f64::NAN, |border| border.at);
    let mut hull: Option<Range> = None;
    for way in ways {
        let band = way.bands.iter().find(|band| band.measure == measure)?;
        hull = Some(match hull {
            None => (band.from, band.below),
            Some((from, below)) => (
                from.zip(band.from).map(|(one, other)| if at(other) < at(one) { other } else { one }),
                below.zip(band.below).map(|(one, other)| if at(one) < at(other) { other } else { one }),
            ),
        });
    }
    hull.filter(|(from, below)| from.is_some() || below.is_some())
}

fn limit(guide: &FruitGuide, measure: Measure, range: Range, units: Units) -> Option<Limit> {
    let words = words(guide, measure, range, units)?;
    let about = capitalised(measure.words());
    let span = span(guide, measure, range, format!("{about}: {words}"))?;
    Some(Limit { about, words, span })
}

fn words(guide: &FruitGuide, measure: Measure, (from, below): Range, units: Units) -> Option<String> {
    let at = |index: usize| guide.borders.get(index).map(|border| border.at);
    let other = units.turned();
    let told = |units: Units| range(measure, from.and_then(at), below.and_then(at), units);
    let (own, others) = (told(units)?, told(other)?);
    Some(if own == others { own } else { format!("{own} ({others})") })
}

fn range(measure: Measure, from: Option<f64>, below: Option<f64>, units: Units) -> Option<String> {
    let one = |value: f64| briefly(measure, value, units);
    match (from, below) {
        (Some(from), Some(below)) => Some(format!("{} to under {}", one(from), one(below))),
        (Some(from), None) => Some(format!("{} and more", one(from))),
        (None, Some(below)) => Some(format!("under {}", one(below))),
        (None, None) => None,
    }
}

/// A border's value with its unit, without decimals that say nothing.
fn briefly(measure: Measure, value: f64, units: Units) -> String {
    let worded = match measure {
        Measure::Weight => Grams::new(value).map(|grams| language::mass_briefly(grams, units)),
        Measure::Width | Measure::Length => {
            Millimetres::new(value).map(|length| language::length_briefly(length, units))
        }
        Measure::DryMatter | Measure::SolubleSolids => Some(format!("{value} %")),
        Measure::Shape | Measure::Neck | Measure::Fullness | Measure::Locules | Measure::Lobes => None,
    };
    worded.unwrap_or_else(|| format!("{value}")).replace(".0 ", " ")
}

/// How far beyond the guide's outermost borders a bar's hairline runs, as a ratio. A choice of the drawing.
const BEYOND: f64 = 1.6;

fn span(guide: &FruitGuide, measure: Measure, (from, below): Range, words: String) -> Option<Span> {
    let own: Vec<f64> =
        guide.borders.iter().filter(|border| border.measure == measure).map(|border| border.at).collect();
    let low = own.iter().copied().fold(f64::INFINITY, f64::min) / BEYOND;
    let high = own.iter().copied().fold(0.0, f64::max) * BEYOND;
    let softness = guide.softness_of(measure);
    let border = |index: usize| {
        let at = guide.borders.get(index)?.at;
        Some(Border { from: Reading::new(at * (-softness).exp())?, to: Reading::new(at * softness.exp())? })
    };
    Some(Span {
        words,
        measured: measured(measure),
        ends: (Reading::new(low)?, Reading::new(high)?),
        borders: own.into_iter().filter_map(Reading::new).collect(),
        low: from.and_then(border),
        high: below.and_then(border),
    })
}

fn measured(measure: Measure) -> Measured {
    match measure {
        Measure::Weight => Measured::Weight,
        Measure::Width | Measure::Length => Measured::Length,
        Measure::Shape | Measure::Neck | Measure::Fullness => Measured::Ratio,
        Measure::Locules | Measure::Lobes => Measured::Count,
        Measure::DryMatter | Measure::SolubleSolids => Measured::Percent,
    }
}
