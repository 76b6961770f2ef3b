//! The picks of one plot in one season: what was taken when, and what that says of when it ripened.
//!
//! A fruit ripened at some moment since the pick before it, so a pick is never taken for the day of ripening. The first
//! pick's fruit ripened at any time before it. What is cleared off a plot at the end need not have been ripe at all.
//!
//! Start at [`Picked`].

use jiff::civil::Date;
use record::mass::Grams;
use record::pick::Pick;
use record::share::Share;
use statistics::censored::Reading;

/// One plot's picks of a season.
#[derive(Clone, Debug, PartialEq)]
pub struct Picked {
    transplanted: Date,
    taken: Vec<Taken>,
}

/// What was taken on one day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Taken {
    /// The day.
    pub on: Date,
    /// How much: fruits, or a weight; the same measure through the season. More than nothing.
    pub amount: f64,
}

/// The last pick of a plot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LastPick {
    /// A pick like those before it.
    Ordinary,
    /// The plot was cleared: so much came at once that green fruit must have been among it.
    ClearOut,
}

/// Longest season, in days from transplanting: a pick later than that is a slip in a date. Common practice, no source.
pub(crate) const LONGEST_SEASON: i32 = 300;
/// Picks before the last one that it is held against. Common practice, no source.
const BEFORE_THE_LAST: usize = 3;
/// A last pick that took so many times as much for each day of waiting as those before it cleared the plot. Common
/// practice, no source.
const CLEARED_FROM: f64 = 2.0;
/// Fewest picks that a season can be read from: two ends and something between. Common practice, no source.
pub const FEWEST_PICKS: usize = 4;

impl Picked {
    /// Puts picks in order, those of one day together. Picks of nothing, and any before transplanting or absurdly long
    /// after it, are left out.
    ///
    /// `None` with fewer than [`FEWEST_PICKS`] days of picking.
    #[must_use]
    pub fn new(transplanted: Date, picks: impl IntoIterator<Item = Taken>) -> Option<Self> {
        let fits = |pick: &Taken| {
            let days = whole_days(transplanted, pick.on);
            pick.amount.is_finite() && 0.0 < pick.amount && (1..=LONGEST_SEASON).contains(&days)
        };
        let mut all: Vec<Taken> = picks.into_iter().filter(fits).collect();
        all.sort_by_key(|pick| pick.on);
        let mut taken: Vec<Taken> = Vec::with_capacity(all.len());
        for pick in all {
            match taken.last_mut() {
                Some(last) if last.on == pick.on => last.amount += pick.amount,
                _ => taken.push(pick),
            }
        }
        (FEWEST_PICKS <= taken.len()).then_some(Self { transplanted, taken })
    }

    /// The same of picks as they were noted: by fruits where every pick was counted, else by weight. Culls ripened too.
    #[must_use]
    pub fn of(transplanted: Date, picks: &[&Pick]) -> Option<Self> {
        let measure = Measure::of(picks);
        let taken = |pick: &&Pick| Some(Taken { on: pick.picked_on, amount: measure.amount(pick)? });
        Self::new(transplanted, picks.iter().filter_map(taken))
    }

    /// The day the plants went out.
    #[must_use]
    pub fn transplanted(&self) -> Date {
        self.transplanted
    }

    /// The days of picking, in order.
    #[must_use]
    pub fn taken(&self) -> &[Taken] {
        &self.taken
    }

    /// All that was taken.
    #[must_use]
    pub fn total(&self) -> f64 {
        self.taken.iter().map(|pick| pick.amount).sum()
    }

    /// Days from transplanting to the first pick.
    #[must_use]
    pub fn first(&self) -> Option<i32> {
        self.taken.first().map(|pick| whole_days(self.transplanted, pick.on))
    }

    /// Days that usually lie between two picks: the middle one.
    #[must_use]
    pub fn usual_wait(&self) -> Option<f64> {
        let waits = self.taken.windows(2).filter_map(|pair| match pair {
            [before, pick] => Some(whole_days(before.on, pick.on)),
            _ => None,
        });
        let mut waits: Vec<i32> = waits.collect();
        waits.sort_unstable();
        waits.get(waits.len() / 2).copied().map(f64::from)
    }

    /// Days from transplanting to the first pick with which a share of all had been taken. A clear-out counts as taken.
    #[must_use]
    pub fn taken_by(&self, share: f64) -> Option<i32> {
        let total = self.total();
        let mut sum = 0.0;
        let reached = self.taken.iter().find(|pick| {
            sum += pick.amount;
            share * total <= sum
        });
        reached.map(|pick| whole_days(self.transplanted, pick.on))
    }

    /// The share of all that had been taken after each pick, by a scale of time; `None` where it does not know a day.
    pub fn steps(&self, time: impl Fn(Date) -> Option<f64>) -> Option<Vec<(f64, Share)>> {
        let total = self.total();
        let mut sum = 0.0;
        let steps = self.taken.iter().map(|pick| {
            sum += pick.amount;
            Some((time(pick.on)?, Share::new((sum / total).min(1.0))?))
        });
        steps.collect()
    }

    /// Whether the last pick cleared the plot.
    #[must_use]
    pub fn last_pick(&self) -> LastPick {
        // Each pick's amount for every day since the one before it.
        let rate = |pair: &[Taken]| match pair {
            [before, pick] => pick.amount / f64::from(whole_days(before.on, pick.on)),
            _ => 0.0,
        };
        let rates: Vec<f64> = self.taken.windows(2).map(rate).collect();
        let Some((last, earlier)) = rates.split_last() else { return LastPick::Ordinary };
        let beside = earlier.get(earlier.len().saturating_sub(BEFORE_THE_LAST)..).unwrap_or_default();
        let fullest = beside.iter().copied().fold(0.0, f64::max);
        if BEFORE_THE_LAST <= beside.len() && CLEARED_FROM * fullest < *last {
            LastPick::ClearOut
        } else {
            LastPick::Ordinary
        }
    }

    /// What the picks say of when the fruit ripened, on a scale of time, with the amount behind each reading.
    ///
    /// # Shape
    /// `time` turns a day into days or degree-days since transplanting; `None` where it does not know, and then of the
    /// whole. Picks between which no time passed on that scale are taken together.
    pub fn readings(&self, time: impl Fn(Date) -> Option<f64>) -> Option<(Vec<Reading>, Vec<f64>)> {
        let mut readings = Vec::with_capacity(self.taken.len());
        let mut amounts: Vec<f64> = Vec::with_capacity(self.taken.len());
        let mut before = 0.0;
        let last_pick = self.last_pick();
        for (place, pick) in self.taken.iter().enumerate() {
            let now = time(pick.on)?;
            let is_last = place + 1 == self.taken.len();
            if now <= before {
                match amounts.last_mut() {
                    Some(amount) => *amount += pick.amount,
                    None => return None,
                }
                continue;
            }
            readings.push(match (place, is_last, last_pick) {
                (0, ..) => Reading::Before(now),
                (_, true, LastPick::ClearOut) => Reading::After(before),
                _ => Reading::Between(before, now),
            });
            amounts.push(pick.amount);
            before = now;
        }
        Some((readings, amounts))
    }
}

/// What a plot's picks are measured in: fruits where every pick was counted, else weight.
#[derive(Clone, Copy)]
enum Measure {
    Fruits,
    Weight,
}

impl Measure {
    fn of(picks: &[&Pick]) -> Self {
        if picks.iter().all(|pick| pick.fruit_count.is_some()) { Self::Fruits } else { Self::Weight }
    }

    /// How much ripened of a pick: culls too.
    fn amount(self, pick: &Pick) -> Option<f64> {
        match self {
            Self::Fruits => {
                let culled = pick.culls.iter().filter_map(|cull| cull.fruit_count);
                Some(f64::from(pick.fruit_count?) + culled.map(f64::from).sum::<f64>())
            }
            Self::Weight => {
                let culled = pick.culls.iter().filter_map(|cull| cull.weight);
                Some(pick.weight?.get() + culled.map(Grams::get).sum::<f64>())
            }
        }
    }
}

/// Mean weight of a fruit in the first half of the fruits that were counted and weighed, and in the second.
#[must_use]
pub fn fruit_weight(picks: &[&Pick]) -> Option<(Grams, Grams)> {
    let both: Vec<(f64, f64)> = picks
        .iter()
        .filter_map(|pick| Some((f64::from(pick.fruit_count?), pick.weight?.get())))
        .filter(|(fruits, _)| 0.0 < *fruits)
        .collect();
    let half = both.iter().map(|(fruits, _)| fruits).sum::<f64>() / 2.0;
    let mut sum = 0.0;
    let (early, late): (Vec<_>, Vec<_>) = both.into_iter().partition(|(fruits, _)| {
        sum += fruits;
        sum <= half
    });
    let mean = |part: &[(f64, f64)]| {
        let (fruits, weight) = part.iter().fold((0.0, 0.0), |sum, pick| (sum.0 + pick.0, sum.1 + pick.1));
        (0.0 < fruits).then(|| Grams::new(weight / fruits)).flatten()
    };
    mean(&early).zip(mean(&late))
}

/// Whole days from one date to another; negative backwards.
fn whole_days(from: Date, to: Date) -> i32 {
    from.until(to).map_or(i32::MAX, |span| span.get_days())
}
