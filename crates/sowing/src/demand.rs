//! What each variety is expected to sell, from what all have sold.
//!
//! Packets of variety v in selling year s are counts with mean `rate_v level_s part_s`: the year's level is that of the whole
//! house, its part is how much of it the records cover by the season's profile. Rates come from one family
//! ([`statistics::rates`]), so that a variety sold for one winter is drawn towards the others. The level to come is the last
//! whole year's, as sure as levels have been from year to year.
//!
//! It takes a variety for on sale since the beginning of the selling year in which it first sold, and takes sales that were
//! lost to an empty shelf for no demand: both are said where the numbers are shown. Start at [`Demand::of`].

use crate::selling::{Days, Profile, SellingYears};
use jiff::civil::Date;
use record::share::Share;
use statistics::rates::{self, Counted, Family, Outlook, Seen};

/// What was sold of one variety.
///
/// # Shape
/// Packets by day, in any order; below nothing for those that came back.
pub type Sold = Vec<(Date, i32)>;

/// The level of one selling year.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Level {
    /// The selling year.
    pub year: i16,
    /// Packets that the records hold of it.
    pub packets: u64,
    /// The part of it that they cover.
    pub covered: f64,
    /// How good a year it was, the last whole one being 1.
    pub level: f64,
}

/// What the house's sales say.
#[derive(Clone, Debug, PartialEq)]
pub struct Demand {
    /// How sales fall on months.
    pub profile: Profile,
    /// Selling years, the oldest first.
    pub levels: Vec<Level>,
    /// By how much the logarithm of the level changes from year to year.
    pub level_spread: f64,
    /// The family of the varieties' rates: packets in a selling year of the last one's level.
    pub family: Family,
    seen: Vec<Seen>,
}

/// Why there is nothing to go by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoDemand {
    /// Fewer than two varieties were sold.
    #[error("fewer than two varieties were sold")]
    TooFew,
}

/// How much the level of a year is taken to change where nobody knows, and for how many years that counts: the logarithm's
/// standard deviation, a fifth up or down. Common practice, no source.
const USUAL_CHANGE: f64 = 0.2;
const USUAL_YEARS: f64 = 2.0;
/// The least part of a year that counts as seen: a day or two of July say nothing of a level.
const LEAST_PART: f64 = 1e-3;

impl Demand {
    /// Finds what the sales say.
    ///
    /// # Shape
    /// `sold`: one a variety; `covered`: the days that the records hold.
    ///
    /// # Errors
    /// [`NoDemand`].
    pub fn of(years: SellingYears, sold: &[Sold], covered: Days) -> Result<Self, NoDemand> {
        let all: Sold = sold.iter().flatten().copied().filter(|(day, _)| covered.hold(*day)).collect();
        let first_look = Profile::of(years, &all, covered, 1.0);
        let parts = parts(years, &first_look, covered);
        let cells: Vec<Vec<Cell>> = sold.iter().map(|own| cells(years, own, &parts)).collect();
        let levels = levels(&cells, &parts);
        let things: Vec<Vec<Counted>> = cells.iter().map(|own| counted(own, &levels)).collect();
        let family = rates::fit(&things).ok_or(NoDemand::TooFew)?;
        let profile = Profile::of(years, &all, covered, 1.0 + family.mean / family.size);
        let seen = things.iter().map(|own| Seen::of(own)).collect();
        Ok(Self { profile, level_spread: spread(&levels), levels, family, seen })
    }

    /// What a variety is expected to sell on some days to come; `years_ahead` is how many years' changes of level lie between.
    #[must_use]
    pub fn outlook(&self, variety: usize, days: Days, years_ahead: f64) -> Outlook {
        let seen = self.seen.get(variety).copied().unwrap_or_default();
        self.family.outlook(seen, self.profile.part(days), self.level_spread * years_ahead.max(0.0).sqrt())
    }

    /// The selling year after the one that a day lies in.
    #[must_use]
    pub fn year_after(&self, day: Date) -> Option<Days> {
        let years = self.profile.years();
        let next = years.year_of(day).checked_add(1)?;
        Some(Days { first: years.first_day(next)?, last: years.last_day(next)? })
    }

    /// Packets that a variety stays under on some days a year ahead in one, five and nine years of ten.
    #[must_use]
    pub fn tenths(&self, variety: usize, days: Days) -> [u32; 3] {
        let outlook = self.outlook(variety, days, 1.0);
        [1, 5, 9].map(|tenths| Share::of(tenths, 10).map_or(0, |share| outlook.at(share)))
    }

    /// Packets that a variety is expected to sell in a selling year of the last one's level.
    #[must_use]
    pub fn a_year(&self, variety: usize) -> f64 {
        self.family.rate(self.seen.get(variety).copied().unwrap_or_default())
    }

    /// Whether anything of a variety was ever sold.
    #[must_use]
    pub fn was_sold(&self, variety: usize) -> bool {
        self.seen.get(variety).is_some_and(|seen| 0.0 < seen.exposure)
    }
}

/// Selling years that the records touch, with the part that they cover.
fn parts(years: SellingYears, profile: &Profile, covered: Days) -> Vec<(i16, f64)> {
    let touched = years.year_of(covered.first)..=years.year_of(covered.last);
    let part = |year: i16| {
        let whole = Days { first: years.first_day(year)?, last: years.last_day(year)? };
        Some((year, profile.part(whole.and(covered)?)))
    };
    touched.filter_map(part).filter(|(_, part)| LEAST_PART < *part).collect()
}

/// A variety's packets in one selling year.
#[derive(Clone, Copy, Debug)]
struct Cell {
    /// The year's place among those that the records touch.
    year: usize,
    packets: u32,
    part: f64,
}

/// A variety's selling years, from the first in which it sold.
fn cells(years: SellingYears, sold: &Sold, parts: &[(i16, f64)]) -> Vec<Cell> {
    let first = sold.iter().filter(|(_, packets)| 0 < *packets).map(|(day, _)| years.year_of(*day)).min();
    let Some(first) = first else { return Vec::new() };
    let own = |(place, (year, part)): (usize, &(i16, f64))| {
        let of_year = sold.iter().filter(|(day, _)| years.year_of(*day) == *year);
        let packets: i64 = of_year.map(|(_, packets)| i64::from(*packets)).sum();
        Cell { year: place, packets: u32::try_from(packets.max(0)).unwrap_or(u32::MAX), part: *part }
    };
    parts.iter().enumerate().filter(|(_, (year, _))| first <= *year).map(own).collect()
}

/// Rounds of the two-way fit; it is left sooner where nothing moves any more.
const ROUNDS: u32 = 500;
/// A level that moves by less than this stands still.
const STILL: f64 = 1e-12;

/// The level of every year: the two-way fit of Poisson counts by varieties and years, in turns.
///
/// # Source
/// Turns of fitting margins give the maximum likelihood of such a fit: Deming and Stephan 1940 (citation from memory,
/// unverified); the tests hold it against R's `glm`.
fn levels(cells: &[Vec<Cell>], parts: &[(i16, f64)]) -> Vec<Level> {
    let mut level = vec![1.0; parts.len()];
    let at = |level: &[f64], cell: &Cell| level.get(cell.year).copied().unwrap_or(1.0);
    for _ in 0..ROUNDS {
        let (mut packets, mut expected) = (vec![0.0; parts.len()], vec![0.0; parts.len()]);
        for own in cells {
            let sold: f64 = own.iter().map(|cell| f64::from(cell.packets)).sum();
            let exposure: f64 = own.iter().map(|cell| cell.part * at(&level, cell)).sum();
            let rate = if 0.0 < exposure { sold / exposure } else { 0.0 };
            for cell in own {
                if let Some((packets, expected)) = packets.get_mut(cell.year).zip(expected.get_mut(cell.year))
                {
                    *packets += f64::from(cell.packets);
                    *expected += rate * cell.part;
                }
            }
        }
        let mut moved: f64 = 0.0;
        for ((level, packets), expected) in level.iter_mut().zip(&packets).zip(&expected) {
            // A year without a sale keeps a level: nothing sold would make every later forecast nothing.
            let next = if 0.0 < *expected && 0.0 < *packets { packets / expected } else { 1.0 };
            moved = moved.max((next / *level).ln().abs());
            *level = next;
        }
        if moved < STILL {
            break;
        }
    }
    told(cells, parts, &level)
}

/// Levels beside the last whole year's; where none is whole, beside the one that is covered most.
fn told(cells: &[Vec<Cell>], parts: &[(i16, f64)], level: &[f64]) -> Vec<Level> {
    const WHOLE: f64 = 0.999;
    let most = parts.iter().map(|(_, part)| *part).fold(0.0, f64::max).min(WHOLE);
    let last = parts.iter().rposition(|(_, part)| most <= *part).unwrap_or(0);
    let unit = level.get(last).copied().unwrap_or(1.0);
    let packets = |place: usize| {
        let own = cells.iter().flatten().filter(|cell| cell.year == place);
        own.map(|cell| u64::from(cell.packets)).sum()
    };
    let each = parts.iter().zip(level).enumerate();
    each.map(|(place, ((year, covered), level))| Level {
        year: *year,
        packets: packets(place),
        covered: *covered,
        level: level / unit,
    })
    .collect()
}

fn counted(own: &[Cell], levels: &[Level]) -> Vec<Counted> {
    let exposure = |cell: &Cell| cell.part * levels.get(cell.year).map_or(1.0, |level| level.level);
    own.iter().map(|cell| Counted { count: cell.packets, exposure: exposure(cell) }).collect()
}

/// How much the level's logarithm changes from one half-covered year to the next.
fn spread(levels: &[Level]) -> f64 {
    let told: Vec<&Level> = levels.iter().filter(|level| 0.5 <= level.covered && 0 < level.packets).collect();
    let changes =
        told.iter().zip(told.iter().skip(1)).map(|(before, after)| (after.level / before.level).ln());
    let (count, squares) =
        changes.fold((0.0, 0.0), |(count, squares), change| (count + 1.0, squares + change * change));
    ((USUAL_YEARS * USUAL_CHANGE.powi(2) + squares) / (USUAL_YEARS + count)).sqrt()
}
