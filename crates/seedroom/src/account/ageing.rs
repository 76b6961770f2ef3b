//! When one lot is expected to fall under the minimum, by its own tests and by how it was kept.
//!
//! Days at another temperature than today's are carried over by the universal constants. Where nobody said how warm a lot
//! was kept, all its days count alike, and the answer says so. It is for planning tests, and never printed on a label.

use super::GoesBy;
use super::tested::TestJudged;
use crate::viability::belief::USUAL;
use crate::viability::decline::DatedTest;
use crate::viability::keeping::{Keeping, keeping};
use crate::viability::storage::UNIVERSAL;
use jiff::ToSpan;
use jiff::civil::Date;
use record::days::Days;
use record::lot::{Lot, LotKeeping};
use record::share::Share;
use record::temperature::Celsius;

/// When a lot is expected to fall under the minimum.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ageing {
    /// Half of such lots have fallen under it by then.
    pub about: Date,
    /// 80 of 100 fall under it between these days.
    pub between: (Date, Date),
    /// The chance that it is under the minimum today.
    pub under: Share,
    /// The share that sprouts today: middle, and 80 in 100.
    pub sprouts: (Share, Share, Share),
    /// How days at other temperatures were counted.
    pub warmth: Warmth,
}

/// How warmth was counted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Warmth {
    /// Every day as one at this temperature, as it is kept now.
    CarriedTo(Celsius),
    /// All days alike, as nobody said how warm it was kept all the time.
    NotTold,
}

/// Forecasts a lot by tests and keepings up to today; `None` of one whose first day nobody knows, or that begins later.
#[must_use]
pub fn ageing(lot: &Lot, keepings: &[&LotKeeping], tests: &[TestJudged], by: GoesBy) -> Option<Ageing> {
    let course = Course::of(lot, keepings, tests)?;
    let dated: Vec<DatedTest> = tests
        .iter()
        .filter(|judged| !judged.says_nothing())
        .map(|judged| {
            let counted = judged.verdict.counted;
            let kept = course.age(judged.test.counted_on)?;
            Some(DatedTest { kept, normal: counted.towards_standard(), sown: counted.sown })
        })
        .collect::<Option<_>>()?;
    let age = course.age(by.today)?;
    let found: Keeping = keeping(&dated, &USUAL, by.minimum.share(), age)?;
    let day = |days: Days| later(by.today, days.get() - age.get());
    Some(Ageing {
        about: day(found.about),
        between: (day(found.between.0), day(found.between.1)),
        under: found.under,
        sprouts: found.sprouts,
        warmth: course.warmth(),
    })
}

/// Where a lot began, and how warm it has been since which day.
struct Course {
    begun: Date,
    /// By day, the last one going on; `None` where warmth is not known throughout.
    spells: Option<Vec<(Date, Celsius)>>,
}

impl Course {
    fn of(lot: &Lot, keepings: &[&LotKeeping], tests: &[TestJudged]) -> Option<Self> {
        let first_kept = keepings.iter().map(|keeping| keeping.since).min();
        let first_test = tests.first().map(|judged| judged.test.begun_on);
        let begun = lot.origin.harvested_on.or_else(|| first_kept.into_iter().chain(first_test).min())?;
        let mut sorted: Vec<&&LotKeeping> = keepings.iter().collect();
        sorted.sort_by_key(|keeping| keeping.since);
        let spells: Option<Vec<(Date, Celsius)>> =
            sorted.iter().map(|keeping| Some((keeping.since, keeping.temperature?))).collect();
        Some(Self { begun, spells: spells.filter(|spells| !spells.is_empty()) })
    }

    fn warmth(&self) -> Warmth {
        let last = self.spells.as_ref().and_then(|spells| spells.last());
        last.map_or(Warmth::NotTold, |(_, warm)| Warmth::CarriedTo(*warm))
    }

    /// Days from the beginning to a day, as days at today's temperature; the time before the first spell counts as of it.
    fn age(&self, on: Date) -> Option<Days> {
        let Some(spells) = &self.spells else { return Days::new(days_between(self.begun, on)) };
        let to = spells.last()?.1;
        let ends = spells.iter().skip(1).map(|(since, _)| *since).chain([Date::MAX]);
        let starts = [self.begun].into_iter().chain(spells.iter().skip(1).map(|(since, _)| *since));
        let lengths = starts.zip(ends).map(|(from, until)| days_between(from.max(self.begun), until.min(on)));
        let spells: Option<Vec<(Days, Celsius)>> =
            lengths.zip(spells).map(|(days, (_, warm))| Some((Days::new(days.max(0.0))?, *warm))).collect();
        UNIVERSAL.carried(&spells?, to)
    }
}

fn days_between(from: Date, until: Date) -> f64 {
    from.until(until).map_or(0.0, |span| f64::from(span.get_days()))
}

/// A day so many days later; the last of all days where the calendar ends.
#[expect(clippy::cast_possible_truncation, reason = "a calendar of millions of days at most")]
fn later(day: Date, days: f64) -> Date {
    let whole = days.round().clamp(-4e6, 4e6) as i32;
    day.checked_add(whole.days()).unwrap_or(if whole < 0 { Date::MIN } else { Date::MAX })
}
