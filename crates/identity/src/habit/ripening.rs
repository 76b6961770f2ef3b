//! Ripening: how long it takes from the first tenth of a plot's fruit to nine tenths.
//!
//! Determinate plants ripen together, indeterminate ones until frost; but published figures disagree
//! widely, so the guide's distributions are wide and the line pulls gently. Where plants were still in
//! full bearing when picking ended (frost, or the bed was cleared), the spread is a lower limit only.
//! Days are calendar days: warmth is not known here.

use crate::guide::habit::HabitGuide;
use crate::habit::Stem;
use crate::habit::normal::{density, log_mixed, share_above};
use record::unknown::RipeningSeen;

/// How long a plot's fruit took to ripen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct RipeningSpread {
    /// Days from a tenth to nine tenths of what was picked.
    pub(crate) days: f64,
    /// Whether the plants were still in bearing when picking ended, so that the true spread is longer.
    pub(crate) still_bearing: bool,
}

/// Longest wait that the first pick is taken to have had, in days: fruit does not hang ripe for longer
/// without somebody picking it. Common practice, no source.
const LONGEST_FIRST_WAIT: f64 = 7.0;

/// The ripening spread of a plot's picks; `None` with too few days of picking.
pub(crate) fn ripening_spread(picks: &[(f64, f64)], guide: &HabitGuide) -> Option<RipeningSpread> {
    let days = picks.iter().filter(|(_, amount)| 0.0 < *amount).count();
    let enough = f64::from(u32::try_from(days).ok()?) >= guide.ripening.least_pick_days.number;
    let ripened = Ripened::new(picks).filter(|_| enough)?;
    let spread = ripened.day_of(0.9) - ripened.day_of(0.1);
    let quarters = ripened.quarters();
    let fullest = quarters.iter().copied().fold(0.0, f64::max);
    let still_bearing = guide.ripening.still_bearing_from.number * fullest <= quarters[3];
    (0.0 < spread).then_some(RipeningSpread { days: spread, still_bearing })
}

/// The spread of a plant that is only spoken of. All ripe within a day is told as one day.
pub(crate) fn said(ripening: RipeningSeen) -> RipeningSpread {
    let spread = |days: u16, still_bearing| RipeningSpread { days: f64::from(days.max(1)), still_bearing };
    match ripening {
        RipeningSeen::Within(days) => spread(days, false),
        RipeningSeen::LongerThan(days) => spread(days, true),
    }
}

/// Share of the fruit that was ripe by each day of picking: what a pick took ripened evenly since the
/// pick before it.
struct Ripened {
    /// Day and share, rising from none to all.
    course: Vec<(f64, f64)>,
}

impl Ripened {
    fn new(picks: &[(f64, f64)]) -> Option<Self> {
        let total: f64 = picks.iter().map(|(_, amount)| amount).sum();
        let (first, _) = picks.first()?;
        let mut share = 0.0;
        let mut course = vec![(first - first_wait(picks), 0.0)];
        course.extend(picks.iter().map(|(day, amount)| {
            share += amount / total;
            (*day, share)
        }));
        (total.is_finite() && 0.0 < total).then_some(Self { course })
    }

    /// The day by which a share was ripe.
    fn day_of(&self, share: f64) -> f64 {
        let reached = self.course.windows(2).find_map(|pair| match pair {
            [(from, before), (to, after)] if share <= *after && before < after => {
                Some(from + (to - from) * (share - before) / (after - before))
            }
            _ => None,
        });
        reached.or(self.course.last().map(|(day, _)| *day)).unwrap_or_default()
    }

    /// The share that was ripe by a day.
    fn share_by(&self, day: f64) -> f64 {
        let reached = self.course.windows(2).find_map(|pair| match pair {
            [(from, before), (to, after)] if day <= *to && from < to => {
                Some(before + (after - before) * ((day - from) / (to - from)).max(0.0))
            }
            _ => None,
        });
        reached.unwrap_or(1.0)
    }

    /// The shares that ripened in each quarter of the time of picking.
    fn quarters(&self) -> [f64; 4] {
        let day = |(day, _): &(f64, f64)| *day;
        let start = self.course.first().map_or(0.0, day);
        let length = self.course.last().map_or(0.0, day) - start;
        let by = |quarter: f64| self.share_by(start + length * quarter / 4.0);
        [0.0, 1.0, 2.0, 3.0].map(|quarter| by(quarter + 1.0) - by(quarter))
    }
}

/// How long the first pick's fruit is taken to have ripened: the middle wait between picks.
fn first_wait(picks: &[(f64, f64)]) -> f64 {
    let mut waits: Vec<f64> =
        picks.windows(2).filter_map(|pair| Some(pair.last()?.0 - pair.first()?.0)).collect();
    waits.sort_by(f64::total_cmp);
    waits.get(waits.len() / 2).copied().unwrap_or(LONGEST_FIRST_WAIT).min(LONGEST_FIRST_WAIT)
}

/// Log-likelihood of a ripening spread for each stem.
pub(crate) fn log_odds(spread: RipeningSpread, guide: &HabitGuide) -> [f64; 3] {
    Stem::ALL.map(|stem| spread_odds(spread, stem, guide))
}

/// Log-likelihood of one ripening spread under one stem.
fn spread_odds(spread: RipeningSpread, stem: Stem, guide: &HabitGuide) -> f64 {
    let expected = guide.ripening.days.of(stem);
    let (mean, sd) = (expected.median.number.ln(), expected.log_sd.number);
    let log_days = spread.days.ln();
    let chance =
        if spread.still_bearing { share_above(log_days, mean, sd) } else { density(log_days, mean, sd) };
    // An unlikely spread is as likely a mistake in the picks: one part in three of a logarithm's unit.
    log_mixed(chance, 1.0 / 3.0, guide.mistakes.off_type_rate.number)
}
