//! One season from transplanting on: warmth added up, how well the fruit that ripens each day had set, and the frost that
//! ends it.
//!
//! Start at [`Grown::of`].
//!
//! # Source
//! Time from flower to ripe fruit: Adams, Cockshull and Cave 2001, Annals of Botany 88:869-877: 95, 65, 46 and 42 days at
//! 14, 18, 22 and 26 degrees. Base 6 and ceiling 24 on the mean temperature fit these four with 758 degree-days (our fit).

use crate::set;
pub use crate::set::Hindrance;
use crate::thermal::{Clock, Method};
use crate::timeline::Needed;
use crate::weather::Days;
use jiff::ToSpan;
use jiff::civil::Date;

/// What a fruit needs from flower to ripe, by the clock of a fruit. Source: see the head of this file.
pub const FLOWER_TO_RIPE: Needed =
    Needed::new(Clock { method: Method::CappedMean, base: 6.0, ceiling: Some(24.0) }, 758.0);
/// Nights that no tomato outlives, in degrees Celsius. Common practice, no source.
pub const KILLING: f64 = -2.0;
/// Weeks after transplanting that a season is followed. Common practice, no source.
pub const WEEKS: usize = 30;
/// The same in days.
pub(crate) const LONGEST: usize = 7 * WEEKS;
/// Days on either side of a flower's that its truss is open: trusses open over a week. Common practice, no source.
const TRUSS: usize = 3;

/// One season of one garden.
#[derive(Clone, Debug, PartialEq)]
pub struct Grown {
    /// How its warmth is counted.
    pub clock: Clock,
    /// The day the plants went out.
    pub out: Date,
    /// Degree-days from that day on, it included, day by day; up to the last day before a killing frost.
    pub heat: Vec<f64>,
    /// How well the fruit that is ripe on each day had set.
    pub set: Vec<f64>,
    /// How well flowers of each day set, and what hindered them.
    pub flowers: Vec<(f64, Option<Hindrance>)>,
    /// Days from transplanting to the killing frost; `None` where none came in time.
    pub killed: Option<usize>,
}

impl Grown {
    /// Follows a season until frost kills the plants or the longest season is over; `None` where a day before that is not
    /// known.
    #[must_use]
    pub fn of(days: &Days, clock: Clock, out: Date) -> Option<Self> {
        let from = days.place(out)?;
        let until = out.checked_add(i64::try_from(LONGEST).ok()?.days()).ok()?;
        let nights = days.lowest().get(from..)?;
        // The season is followed as far as it is known; the frost that ends it must be among what is known.
        let killed = nights.iter().take(LONGEST).position(|night| *night <= KILLING);
        let length = killed.unwrap_or(LONGEST);
        let heat: Vec<f64> = clock
            .sums(days, out)
            .take_while(|(day, _)| *day < until)
            .take(length)
            .map(|(_, sum)| sum)
            .collect();
        (heat.len() == length).then_some(())?;
        let flowers: Vec<_> = (from..from + length)
            .filter_map(|place| Some(set::share(*days.lowest().get(place)?, *days.highest().get(place)?)))
            .collect();
        let fruit: Vec<f64> =
            FLOWER_TO_RIPE.clock().sums(days, out).take(length).map(|(_, sum)| sum).collect();
        let set = set_of_ripe(&fruit, &flowers);
        Some(Self { clock, out, heat, set, flowers, killed })
    }
}

impl Grown {
    /// The middling season of several that begin on the same month and day: each day's mean, for as long as half of them
    /// lasted. It stands in for a season whose days nobody has, and its warmth is that of days, not of means. `None` where
    /// there are none, or they are counted by different clocks.
    #[must_use]
    pub fn usual(seasons: &[Self], out: Date) -> Option<Self> {
        let clock = seasons.first()?.clock;
        seasons.iter().all(|season| season.clock == clock).then_some(())?;
        let mut lengths: Vec<usize> = seasons.iter().map(|season| season.heat.len()).collect();
        lengths.sort_unstable();
        let length = lengths.get(lengths.len() / 2).copied()?;
        let count = u32::try_from(seasons.len()).map_or(f64::INFINITY, f64::from);
        let mean = |column: fn(&Self) -> &[f64]| -> Vec<f64> {
            let of_day = |day: usize| {
                let own =
                    seasons.iter().filter_map(|season| column(season).get(day).or(column(season).last()));
                own.sum::<f64>() / count
            };
            (0..length).map(of_day).collect()
        };
        let killed = (length < LONGEST).then_some(length);
        Some(Self {
            clock,
            out,
            heat: mean(|one| &one.heat),
            set: mean(|one| &one.set),
            flowers: Vec::new(),
            killed,
        })
    }
}

/// How well fruit had set that is ripe on each day. What flowered before transplanting set indoors.
fn set_of_ripe(fruit: &[f64], flowers: &[(f64, Option<Hindrance>)]) -> Vec<f64> {
    let of_day = |sum: &f64| {
        let flowered = fruit.partition_point(|earlier| *earlier <= sum - FLOWER_TO_RIPE.degree_days());
        let Some(middle) = flowered.checked_sub(1) else { return 1.0 };
        let open = flowers.get(middle.saturating_sub(TRUSS)..(middle + TRUSS + 1).min(flowers.len()));
        let open = open.unwrap_or_default();
        let days = u32::try_from(open.len().max(1)).map_or(1.0, f64::from);
        open.iter().map(|(share, _)| share).sum::<f64>() / days
    };
    fruit.iter().map(of_day).collect()
}
