//! A fruit-class call in sentences: which rule decided, which border is near, what each line said.

use super::evidence::{Evidence, Line, SizeBy};
use super::posterior::{Measures, Posterior};
use crate::guide::fruit::measure::Measure;
use crate::guide::fruit::{Band, Border, FruitGuide, Way};
use record::language::{self, Units};
use record::length::Millimetres;
use record::mass::Grams;

/// A value of a measure with its unit, both ways where it has one: `14 g (0.49 oz)`, `1.25`, `5.5 %`.
pub(crate) fn value(measure: Measure, value: f64, units: Units) -> String {
    match measure {
        Measure::Weight => Grams::new(value).map(|grams| language::mass(grams, units)),
        Measure::Width | Measure::Length => Millimetres::new(value).map(|long| language::length(long, units)),
        Measure::DryMatter | Measure::SolubleSolids => Some(format!("{value:.1} %")),
        Measure::Locules | Measure::Lobes => Some(format!("{value:.1}")),
        Measure::Shape | Measure::Neck | Measure::Fullness => Some(format!("{value:.2}")),
    }
    .unwrap_or_default()
}

fn border(border: &Border, units: Units) -> String {
    match border.measure.dimension() {
        // As the guide writes it, a ratio or a count has just the digits that its owner meant.
        crate::guide::quantity::Dimension::Plain => border.written.clone(),
        _ => value(border.measure, border.at, units),
    }
}

/// Whose words these are: the guide, the middle of the posterior, and what was measured of it.
pub(crate) struct Teller<'a> {
    pub(crate) guide: &'a FruitGuide,
    pub(crate) middle: Measures,
    pub(crate) evidence: &'a Evidence,
    pub(crate) units: Units,
}

impl Teller<'_> {
    /// `weight 14 g (0.49 oz), under 28 g (1.0 oz)`.
    fn band(&self, band: &Band, outside: &str) -> String {
        let middle = self.middle.get(band.measure as usize).copied().unwrap_or_default();
        let told = value(band.measure, band.measure.value(middle), self.units);
        let guess = if self.is_measured(band.measure) { "" } else { " (not measured)" };
        let limit = |index: &Border| border(index, self.units);
        let rule = match self.guide.borders_of(band) {
            (Some(from), Some(below)) => format!("from {} to below {}", limit(from), limit(below)),
            (Some(from), None) => format!("{} or more", limit(from)),
            (None, Some(below)) => format!("under {}", limit(below)),
            (None, None) => "any".to_owned(),
        };
        let outside = if 0.0 < self.miss(band) { outside } else { "" };
        format!("{} {told}{guess}, {outside}{rule}", band.measure.words())
    }

    pub(crate) fn is_measured(&self, measure: Measure) -> bool {
        let sized = self.evidence.has(Line::Size);
        match measure {
            Measure::Weight => {
                sized && (self.evidence.size_by == SizeBy::Weight || self.evidence.has(Line::Shape))
            }
            Measure::Width if self.evidence.size_by == SizeBy::Width => sized,
            Measure::Length if self.evidence.size_by == SizeBy::Length => sized,
            Measure::Width | Measure::Length => sized && self.evidence.has(Line::Shape),
            Measure::Shape => self.evidence.has(Line::Shape),
            Measure::Neck => self.evidence.has(Line::Neck),
            Measure::Fullness => self.evidence.has(Line::Fullness),
            Measure::Locules => self.evidence.has(Line::Locules),
            Measure::Lobes => self.evidence.has(Line::Lobes),
            Measure::DryMatter => self.evidence.has(Line::DryMatter),
            Measure::SolubleSolids => self.evidence.has(Line::SolubleSolids),
        }
    }

    /// Every band of a way, joined. On a border the fruit as measured may lie just outside the way that most
    /// draws took; that is said.
    pub(crate) fn way(&self, way: &Way) -> String {
        way.bands.iter().map(|band| self.band(band, "just outside: ")).collect::<Vec<_>>().join("; ")
    }

    /// The bands of a way that the middle of the posterior misses, joined.
    pub(crate) fn missed(&self, way: &Way) -> String {
        let missed = way.bands.iter().filter(|band| 0.0 < self.miss(band));
        missed.map(|band| self.band(band, "")).collect::<Vec<_>>().join("; ")
    }

    /// How far the middle lies outside a band, in units of its borders' softness; 0 inside.
    fn miss(&self, band: &Band) -> f64 {
        /// Hard borders count as this soft, so that distances from them can be told at all.
        const HARDEST: f64 = 0.01;
        let middle = self.middle.get(band.measure as usize).copied().unwrap_or_default();
        let (from, below) = self.guide.borders_of(band);
        let under = from.map_or(0.0, |from| from.log() - middle);
        // An upper border is no part of its band, so a middle right on one is just outside.
        let over = below.filter(|below| below.log() <= middle);
        let over = over.map_or(0.0, |below| (middle - below.log()).max(f64::EPSILON));
        under.max(over) / self.guide.softness_of(band.measure).max(HARDEST)
    }

    /// The way that the middle fits best, and by how much it misses.
    pub(crate) fn nearest<'w>(&self, ways: &'w [Way]) -> Option<(&'w Way, f64)> {
        let miss = |way: &Way| way.bands.iter().map(|band| self.miss(band)).sum::<f64>();
        ways.iter().map(|way| (way, miss(way))).min_by(|one, other| one.1.total_cmp(&other.1))
    }
}

/// A line of evidence in words: `weight 14 g (0.49 oz) give or take 12 %, 32 fruits of 5 plants`.
pub(crate) fn line(line: Line, posterior: &Posterior, evidence: &Evidence, units: Units) -> Option<String> {
    let seen = posterior.seen(line)?;
    let plants = &evidence.line(line)?.plants;
    let fruits: u64 = plants.iter().map(|plant| plant.fruit_count).sum();
    let measure = measure_of(line, evidence);
    let told = value(measure, measure.value(seen.mean), units);
    let give = 100.0 * posterior.error(line)?;
    let counts = format!("{} of {}", count(fruits, "fruit"), count(plants.len() as u64, "plant"));
    Some(format!("{} {told} give or take {give:.0} %, {counts}", measure.words()))
}

/// The measure that a line tells.
pub(crate) fn measure_of(line: Line, evidence: &Evidence) -> Measure {
    match (line, evidence.size_by) {
        (Line::Size, SizeBy::Weight) => Measure::Weight,
        (Line::Size, SizeBy::Width) => Measure::Width,
        (Line::Size, SizeBy::Length) => Measure::Length,
        (Line::Shape, _) => Measure::Shape,
        (Line::Fullness, _) => Measure::Fullness,
        (Line::Neck, _) => Measure::Neck,
        (Line::Locules, _) => Measure::Locules,
        (Line::Lobes, _) => Measure::Lobes,
        (Line::SolubleSolids, _) => Measure::SolubleSolids,
        (Line::DryMatter, _) => Measure::DryMatter,
    }
}

/// Whether any of these ways asks for what a line tells.
pub(crate) fn is_asked<'w>(mut ways: impl Iterator<Item = &'w Way>, line: Line) -> bool {
    let measures: &[Measure] = match line {
        Line::Size => &[Measure::Weight, Measure::Width, Measure::Length],
        Line::Shape => &[Measure::Shape, Measure::Width, Measure::Length],
        Line::Fullness => &[Measure::Fullness],
        Line::Neck => &[Measure::Neck],
        Line::Locules => &[Measure::Locules],
        Line::Lobes => &[Measure::Lobes],
        // The refractometer also tells of dry matter.
        Line::SolubleSolids => &[Measure::SolubleSolids, Measure::DryMatter],
        Line::DryMatter => &[Measure::DryMatter],
    };
    ways.any(|way| way.bands.iter().any(|band| measures.contains(&band.measure)))
}

/// `1 fruit`, `12 fruits`.
pub(crate) fn count(number: u64, noun: &str) -> String {
    if number == 1 { format!("1 {noun}") } else { format!("{number} {noun}s") }
}
