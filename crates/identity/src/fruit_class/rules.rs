//! The guide's rules made ready to sort thousands of draws.

use super::draws::{Point, TRAIT_DIMENSIONS};
use super::posterior::{Measures, Posterior};
use crate::guide::fruit::measure::{MEASURE_COUNT, MEASURES};
use crate::guide::fruit::{FruitGuide, Way};

/// One range of one measure, on the borders' scale.
struct Range {
    measure: usize,
    from: f64,
    below: f64,
}

/// A way into class or mark number `into`.
struct ReadyWay {
    into: usize,
    ranges: Vec<Range>,
}

/// Ways into classes (or marks) and how soft their borders are.
pub(crate) struct Rules {
    ways: Vec<ReadyWay>,
    softness: [f64; MEASURE_COUNT],
    count: usize,
}

impl Rules {
    /// The classes of a guide, numbered as they stand there.
    pub(crate) fn classes(guide: &FruitGuide) -> Self {
        Self::of(guide, guide.classes.iter().map(|class| class.ways.as_slice()))
    }

    /// One set of ways: number 0 where it holds.
    pub(crate) fn single(guide: &FruitGuide, ways: &[Way]) -> Self {
        Self::of(guide, std::iter::once(ways))
    }

    fn of<'a>(guide: &FruitGuide, groups: impl Iterator<Item = &'a [Way]>) -> Self {
        let mut ways = Vec::new();
        let mut count = 0;
        for (into, group) in groups.enumerate() {
            count = into + 1;
            ways.extend(group.iter().map(|way| ReadyWay { into, ranges: ranges(guide, way) }));
        }
        Self { ways, softness: MEASURES.map(|measure| guide.softness_of(measure)), count }
    }

    /// The way that takes one possible variety, its borders moved by one draw; `None` is between classes.
    ///
    /// A border moved up by its softness is the same as a measure moved down by it, and one number moves
    /// all borders of a measure, so they keep their order and neighbours keep their shared border.
    fn way(&self, measures: &Measures, draw: &Point) -> Option<usize> {
        let mut moved = *measures;
        let chances = draw.iter().skip(TRAIT_DIMENSIONS);
        for ((value, softness), chance) in moved.iter_mut().zip(&self.softness).zip(chances) {
            *value -= softness * chance;
        }
        self.ways.iter().position(|way| way.holds(&moved))
    }

    /// How many draws each way takes, and so each class.
    pub(crate) fn tally(&self, posterior: &Posterior, draws: &[Point]) -> Tally {
        let mut by_way = vec![0; self.ways.len()];
        for draw in draws {
            let way = self.way(&posterior.measures(draw), draw);
            if let Some(count) = way.and_then(|way| by_way.get_mut(way)) {
                *count += 1;
            }
        }
        let mut counts = vec![0; self.count];
        for (way, taken) in self.ways.iter().zip(&by_way) {
            if let Some(count) = counts.get_mut(way.into) {
                *count += taken;
            }
        }
        Tally { counts, by_way, draws: draws.len() as u64 }
    }

    /// Which of a class's own ways took most draws.
    pub(crate) fn leading_way(&self, tally: &Tally, class: usize) -> Option<usize> {
        let own = self.ways.iter().zip(&tally.by_way).filter(|(way, _)| way.into == class);
        // Of equals the first, as the guide has it.
        own.enumerate()
            .max_by_key(|(index, (_, taken))| (**taken, std::cmp::Reverse(*index)))
            .map(|own| own.0)
    }
}

fn ranges(guide: &FruitGuide, way: &Way) -> Vec<Range> {
    let range = |band| {
        let (from, below) = guide.borders_of(band);
        Range {
            measure: band.measure as usize,
            from: from.map_or(f64::NEG_INFINITY, crate::guide::fruit::Border::log),
            below: below.map_or(f64::INFINITY, crate::guide::fruit::Border::log),
        }
    };
    way.bands.iter().map(range).collect()
}

impl ReadyWay {
    fn holds(&self, measures: &Measures) -> bool {
        self.ranges.iter().all(|range| {
            measures.get(range.measure).is_some_and(|value| range.from <= *value && *value < range.below)
        })
    }
}

/// How many draws fell in each class.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Tally {
    pub(crate) counts: Vec<u64>,
    by_way: Vec<u64>,
    pub(crate) draws: u64,
}

impl Tally {
    /// Draws that no class took.
    pub(crate) fn between(&self) -> u64 {
        self.draws.saturating_sub(self.counts.iter().sum())
    }

    /// The largest part, classes and "between" alike.
    pub(crate) fn leading(&self) -> u64 {
        self.counts.iter().copied().max().unwrap_or(0).max(self.between())
    }

    /// A part as a share of all draws.
    #[expect(clippy::cast_precision_loss, reason = "a few thousand draws")]
    pub(crate) fn share(&self, part: u64) -> f64 {
        part as f64 / self.draws.max(1) as f64
    }
}
