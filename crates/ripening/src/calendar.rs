//! A garden's calendar: when to sow, pot on, harden off and plant out, by its own frosts and nights.
//!
//! Plants go out on the later of two days: when frost has become as rare as the gardener accepts, and when nights have
//! warmed. The rest is counted back from there. Start at [`calendar`].
//!
//! # Source
//! Plant when nights are above 50 F: Utah State University, Abiotic disorders of tomatoes. Six to eight weeks from sowing to
//! planting: several extension leaflets. Days to emergence: see [`crate::emergence`].

use crate::emergence;
use crate::frost::{self, Hemisphere};
use crate::weather::Days;
use jiff::ToSpan;
use jiff::civil::Date;
use std::collections::BTreeMap;

/// A freeze, in degrees Celsius.
const FREEZE: f64 = 0.0;
/// Nights from which tomatoes may stand out: 50 F. Source: see the head of this file.
const WARM_NIGHTS: f64 = 10.0;
/// Days over which nights are averaged, so that one mild night is no spring. Common practice, no source.
const NIGHTS: u8 = 7;
/// Warmth of the bench that seed is sown on, in degrees Celsius. Common practice, no source.
const BENCH: f64 = 24.0;
/// Weeks from sowing to planting: between six and eight. Source: see the head of this file.
const SOWN_BEFORE: i64 = 7;
/// Weeks from sowing to potting on, when the first true leaves are out. Common practice, no source.
const POTTED_AFTER: i64 = 3;
/// Days of hardening off. Common practice, no source.
const HARDENED: i64 = 8;

/// What is done or expected on a day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Doing {
    /// Seed is sown indoors.
    Sow,
    /// Seedlings come up.
    Emerge,
    /// Seedlings go into pots of their own.
    PotOn,
    /// Plants are put out by day, longer each day.
    HardenOff,
    /// Plants go out.
    PlantOut,
    /// The first frost of autumn in one year of ten.
    EarlyFrost,
    /// The first frost of autumn in five years of ten.
    Frost,
}

/// A garden's calendar.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Calendar {
    /// The day after the last frost, by the risk accepted; `None` where frost is rarer than that.
    pub frost_safe: Option<(i8, i8)>,
    /// The day by which nights have warmed in half of the years; `None` where they do not.
    pub warm_nights: Option<(i8, i8)>,
    /// What to do, in order, in the year of planting.
    pub days: Vec<(Date, Doing)>,
}

impl Calendar {
    /// The day on which plants go out.
    #[must_use]
    pub fn planted(&self) -> Option<Date> {
        self.days.iter().find(|(_, doing)| *doing == Doing::PlantOut).map(|(on, _)| *on)
    }
}

/// Works a calendar out for plants that go out in a year.
///
/// # Shape
/// `risk` is the place among [`frost::TOLD`] of the frost accepted. `out` sets the day of planting; else the later of the two
/// tells it, and `None` is returned where neither does.
#[must_use]
pub fn calendar(
    days: &Days,
    hemisphere: Hemisphere,
    risk: usize,
    year: i16,
    out: Option<(i8, i8)>,
) -> Option<Calendar> {
    let chances = frost::chances(&frost::years(days, FREEZE, hemisphere));
    let day = |counted: Option<f64>| counted.and_then(month_and_day);
    let last = chances.as_ref().and_then(|chances| chances.last.get(risk)?.day);
    let frost_safe = day(last.map(|day| day.floor() + 1.0));
    let warm_nights = warm_nights(days, hemisphere);
    let tells = [frost_safe, warm_nights].into_iter().flatten();
    let later = tells.max_by_key(|(month, day)| (in_season(*month, hemisphere), *day));
    let planted = date_of(year, out.or(later)?)?;
    let before = |span: jiff::Span| planted.checked_sub(span).ok();
    let sown = before(SOWN_BEFORE.weeks())?;
    let mut all = vec![
        (sown, Doing::Sow),
        (sown.checked_add(POTTED_AFTER.weeks()).ok()?, Doing::PotOn),
        (before(HARDENED.days())?, Doing::HardenOff),
        (planted, Doing::PlantOut),
    ];
    #[expect(clippy::cast_possible_truncation, reason = "a few weeks at most")]
    let emerged = emergence::days(BENCH).map(|days| days.ceil() as i64);
    all.extend(emerged.and_then(|days| Some((sown.checked_add(days.days()).ok()?, Doing::Emerge))));
    let autumn = |place: usize| chances.as_ref().and_then(|chances| chances.first.get(place)?.day);
    for (place, doing) in [(0, Doing::EarlyFrost), (1, Doing::Frost)] {
        let on = day(autumn(place)).and_then(|on| date_of(year, on));
        // South of the equator autumn comes in the year after spring.
        let on =
            on.map(
                |on| if on < planted { date_of(year + 1, (on.month(), on.day())).unwrap_or(on) } else { on },
            );
        all.extend(on.map(|on| (on, doing)));
    }
    all.sort_unstable();
    Some(Calendar { frost_safe, warm_nights, days: all })
}

/// Months counted from the middle of winter, so that spring comes before autumn on both sides of the equator.
fn in_season(month: i8, hemisphere: Hemisphere) -> i8 {
    match hemisphere {
        Hemisphere::North => month,
        Hemisphere::South => (month + 5) % 12 + 1,
    }
}

/// The day of a common year that a counted day falls on.
fn month_and_day(counted: f64) -> Option<(i8, i8)> {
    #[expect(clippy::cast_possible_truncation, reason = "a day of two years")]
    let days = counted.round() as i64 - 1;
    let day = Date::new(2001, 1, 1).ok()?.checked_add(days.days()).ok()?;
    Some((day.month(), day.day()))
}

/// A month and day in a year; 29 February is the 28th where there is none.
fn date_of(year: i16, (month, day): (i8, i8)) -> Option<Date> {
    Date::new(year, month, day).or_else(|_| Date::new(year, month, 28)).ok()
}

/// The middle over the years of the first day of spring from which a week's nights are warm on average.
fn warm_nights(days: &Days, hemisphere: Hemisphere) -> Option<(i8, i8)> {
    let mut first: BTreeMap<i16, Option<u16>> = BTreeMap::new();
    let (winter, summer) = match hemisphere {
        Hemisphere::North => (1, 8),
        Hemisphere::South => (7, 2),
    };
    for year in days.years() {
        let begins = Date::new(year, winter, 1).ok()?;
        let ends = Date::new(if winter < summer { year } else { year + 1 }, summer, 1).ok()?;
        let (Some(from), Some(to)) = (days.place(begins), days.place(ends)) else { continue };
        let nights = days.lowest().get(from..to)?;
        let is_warm = |week: &[f64]| WARM_NIGHTS <= week.iter().sum::<f64>() / f64::from(NIGHTS);
        let found = nights.windows(usize::from(NIGHTS)).position(is_warm);
        first.insert(year, found.and_then(|place| u16::try_from(place + usize::from(NIGHTS)).ok()));
    }
    let mut places: Vec<u16> = first.values().map(|place| place.unwrap_or(u16::MAX)).collect();
    places.sort_unstable();
    let middle = places.get(places.len() / 2).copied().filter(|place| *place < u16::MAX)?;
    let day = Date::new(2001, winter, 1).ok()?.checked_add(i64::from(middle).days()).ok()?;
    Some((day.month(), day.day()))
}
