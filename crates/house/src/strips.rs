//! The evidence strips of a variety's page: its fruits as dots against the guide's bands.

use drawing::strip::{Band, Border, Dot, MeanInterval, Measured, Reading, Strip};
use identity::facts;
use identity::guide::fruit::measure::Measure;
use identity::guide::fruit::{FruitClass, FruitGuide};
use identity::spread::Spread;
use identity::sums::{FruitSums, Trait};
use ledger::records::{RecordState, Recorded};
use record::fruit::FruitSample;
use record::language::Units;
use record::note::Note;

/// What a strip shows of a fruit.
struct Shows {
    title: &'static str,
    measured: Measured,
    of: Trait,
    measure: Measure,
    reading: fn(&FruitSample) -> Option<f64>,
}

const STRIPS: [Shows; 6] = [
    Shows {
        title: "Weight of one fruit",
        measured: Measured::Weight,
        of: Trait::Weight,
        measure: Measure::Weight,
        reading: |fruit| fruit.weight.map(|weight| weight.get()),
    },
    Shows {
        title: "Length, stem end to blossom end",
        measured: Measured::Length,
        of: Trait::Length,
        measure: Measure::Length,
        reading: |fruit| fruit.length.map(|length| length.get()),
    },
    Shows {
        title: "Length over width",
        measured: Measured::Ratio,
        of: Trait::Shape,
        measure: Measure::Shape,
        reading: |fruit| ratio(fruit.length?.get(), fruit.width?.get()),
    },
    Shows {
        title: "Neck over width",
        measured: Measured::Ratio,
        of: Trait::Neck,
        measure: Measure::Neck,
        reading: |fruit| ratio(fruit.neck_width?.get(), fruit.width?.get()),
    },
    Shows {
        title: "Locules",
        measured: Measured::Count,
        of: Trait::Locules,
        measure: Measure::Locules,
        reading: |fruit| fruit.locules.map(f64::from),
    },
    Shows {
        title: "Dry matter",
        measured: Measured::Percent,
        of: Trait::DryMatter,
        measure: Measure::DryMatter,
        reading: |fruit| fruit.dry_matter.map(|dry| dry.get()),
    },
];

fn ratio(part: f64, whole: f64) -> Option<f64> {
    (0.0 < whole).then(|| part / whole)
}

/// One strip for each trait that was measured, from a variety's records.
pub(crate) fn strips(
    records: &[Recorded],
    sums: &FruitSums,
    spread: &Spread,
    guide: &FruitGuide,
    verdict: Option<&str>,
    units: Units,
) -> Vec<Strip> {
    let fruits: Vec<Fruit<'_>> = records.iter().filter_map(fruit).collect();
    drawn(&fruits, &Behind { sums, spread, guide, verdict, units })
}

/// The same from the fruits that count, where no one else's are to be shown.
pub(crate) fn strips_that_count(fruits: &[FruitSample], behind: &Behind<'_>) -> Vec<Strip> {
    let fruits: Vec<Fruit<'_>> = fruits.iter().map(|sample| Fruit { sample, counted: true }).collect();
    drawn(&fruits, behind)
}

/// What the dots stand before.
pub(crate) struct Behind<'a> {
    pub(crate) sums: &'a FruitSums,
    pub(crate) spread: &'a Spread,
    pub(crate) guide: &'a FruitGuide,
    pub(crate) verdict: Option<&'a str>,
    pub(crate) units: Units,
}

/// A fruit, and whether the call rests on it.
struct Fruit<'a> {
    sample: &'a FruitSample,
    counted: bool,
}

fn fruit(recorded: &Recorded) -> Option<Fruit<'_>> {
    let counted = match recorded.state {
        RecordState::Standing | RecordState::Confirmed(_) => true,
        RecordState::SetAside => false,
        RecordState::Withdrawn(_) | RecordState::Replaced(_) | RecordState::Undone => return None,
    };
    let Note::Fruit(sample) = &recorded.note else { return None };
    Some(Fruit { sample, counted })
}

fn drawn(fruits: &[Fruit<'_>], behind: &Behind<'_>) -> Vec<Strip> {
    let strip = |shows: &Shows| {
        let dots = dots(fruits, shows.reading);
        (!dots.is_empty()).then(|| Strip {
            title: shows.title.to_owned(),
            measured: shows.measured,
            dots,
            bands: bands(behind.guide, shows.measure, behind.verdict),
            mean: mean(behind.sums, behind.spread, shows.of),
            units: behind.units,
        })
    };
    STRIPS.iter().filter_map(strip).collect()
}

fn dots(fruits: &[Fruit<'_>], reading: fn(&FruitSample) -> Option<f64>) -> Vec<Dot> {
    let dot = |fruit: &Fruit<'_>| {
        Some(Dot { reading: Reading::new(reading(fruit.sample)?)?, counted: fruit.counted })
    };
    fruits.iter().filter_map(dot).collect()
}

fn mean(sums: &FruitSums, spread: &Spread, of: Trait) -> Option<MeanInterval> {
    let range = facts::mean(sums, spread, of)?;
    let (low, mean, high) = (Reading::new(range.low)?, Reading::new(range.mean)?, Reading::new(range.high)?);
    Some(MeanInterval { low, mean, high })
}

/// The guide's bands of one measure, each class once for every range that one of its ways has.
fn bands(guide: &FruitGuide, measure: Measure, verdict: Option<&str>) -> Vec<Band> {
    guide.classes.iter().flat_map(|class| class_bands(guide, class, measure, verdict)).collect()
}

fn class_bands(guide: &FruitGuide, class: &FruitClass, measure: Measure, verdict: Option<&str>) -> Vec<Band> {
    let mut ranges = Vec::new();
    for band in class.ways.iter().flat_map(|way| &way.bands).filter(|band| band.measure == measure) {
        if !ranges.contains(&(band.from, band.below)) {
            ranges.push((band.from, band.below));
        }
    }
    let softness = guide.softness.get(measure as usize).and_then(Option::as_ref);
    let log_sd = softness.map_or(0.0, |softness| softness.log_sd);
    let border = |place: Option<usize>| {
        let at = guide.borders.get(place?)?.at;
        Some(Border { from: Reading::new(at * (-log_sd).exp())?, to: Reading::new(at * log_sd.exp())? })
    };
    let band = |(from, below)| Band {
        name: class.name.to_string(),
        low: border(from),
        high: border(below),
        called: verdict == Some(class.name.as_str()),
    };
    ranges.into_iter().map(band).collect()
}
