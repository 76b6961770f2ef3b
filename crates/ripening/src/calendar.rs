//! A garden's calendar: when to sow, pot on, harden off and plant out, by its own frosts, nights and soil.
//!
//! Plants go out on the latest of three days: when frost has become as rare as the gardener accepts, when nights have warmed, and
//! when the soil has. The rest is counted back from there. Seed goes into the garden's soil once that is warm and no frost is
//! to come that the seedlings would meet. Start at [`calendar`].
//!
//! # Source
//! Plant when nights are above 50 F: Utah State University, Abiotic disorders of tomatoes. Soil of 60 F at least for seed and
//! plants, on three mornings in a row: University of Georgia, College of Agricultural and Environmental Sciences, W. McLaurin,
//! Soil Temperatures: Don't Rush Mother Nature, 18 April 2000. Six to eight weeks from sowing to planting: several extension
//! leaflets. Days to emergence: see [`crate::emergence`]; warmth of the soil: see [`crate::soil`].

use crate::emergence;
use crate::frost::dates::Dates;
use crate::frost::{Chance, Hemisphere};
use crate::soil;
use crate::weather::Days;
use jiff::ToSpan;
use jiff::civil::Date;
use thiserror::Error;

/// Nights from which tomatoes may stand out: 50 F. Source: see the head of this file.
const WARM_NIGHTS: f64 = 10.0;
/// Days over which nights are averaged, so that one mild night is no spring. Common practice, no source.
const NIGHTS: u8 = 7;
/// Soil for seed and plants: 60 F. Source: see the head of this file.
pub const WARM_SOIL: f64 = (60.0 - 32.0) / 1.8;
/// Days in a row that the soil is as warm. Source: see the head of this file.
const SOIL_DAYS: usize = 3;
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
    /// Seed may be sown in the garden's own soil.
    SowOutdoors,
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
    /// The day by which the soil has, as it is estimated from the air.
    pub warm_soil: Option<(i8, i8)>,
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

/// Why there is no calendar.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum NoCalendar {
    /// Nothing to plant after.
    #[error("neither frost nor nights nor soil tell when to plant out")]
    Untold,
    /// Frost follows on frost.
    #[error("in half of the years no day of summer is between two frosts: nothing outdoors ripens")]
    NoSummer,
}

/// Works a calendar out for plants that go out in a year.
///
/// # Shape
/// `freezes` are the garden's own, worked out of the same days or told otherwise; `risk` is the place among
/// [`crate::frost::TOLD`] of the one accepted. `out` sets the day of planting; else the latest of the three tells it.
///
/// # Errors
/// Nothing tells the day, or the place has no summer.
pub fn calendar(
    days: &Days,
    freezes: Option<&Dates>,
    hemisphere: Hemisphere,
    risk: usize,
    year: i16,
    out: Option<(i8, i8)>,
) -> Result<Calendar, NoCalendar> {
    if freezes.is_some_and(has_no_summer) {
        return Err(NoCalendar::NoSummer);
    }
    let last = freezes.and_then(|freezes| freezes.last.get(risk)?.day);
    let frost_safe = last.and_then(|day| month_and_day(day.floor() + 1.0));
    let (warm_nights, warm_soil) = (warm_nights(days, hemisphere), warm_soil(days, hemisphere));
    let tells = [frost_safe, warm_nights, warm_soil].into_iter().flatten();
    let out = out.or_else(|| latest(tells, hemisphere)).and_then(|out| date_of(year, out));
    let planted = out.ok_or(NoCalendar::Untold)?;
    let mut all = raised(planted).ok_or(NoCalendar::Untold)?;
    all.extend(sown_outdoors(warm_soil, frost_safe, hemisphere, year).map(|on| (on, Doing::SowOutdoors)));
    all.extend(freezes.map(|freezes| autumn(freezes, planted)).unwrap_or_default());
    all.sort_unstable();
    Ok(Calendar { frost_safe, warm_nights, warm_soil, days: all })
}

/// Whether in half of the years the last frost of spring and the first of autumn are days on end.
fn has_no_summer(freezes: &Dates) -> bool {
    let [_, half, _] = freezes.season;
    half.day.is_some_and(|days| days < 1.0)
}

/// What is done indoors before plants go out on a day, and that day; `None` at the end of all days.
fn raised(planted: Date) -> Option<Vec<(Date, Doing)>> {
    let before = |span: jiff::Span| planted.checked_sub(span).ok();
    let sown = before(SOWN_BEFORE.weeks())?;
    let emerged = emerged(BENCH).and_then(|days| Some((sown.checked_add(days.days()).ok()?, Doing::Emerge)));
    let done = [
        (sown, Doing::Sow),
        (sown.checked_add(POTTED_AFTER.weeks()).ok()?, Doing::PotOn),
        (before(HARDENED.days())?, Doing::HardenOff),
        (planted, Doing::PlantOut),
    ];
    Some(done.into_iter().chain(emerged).collect())
}

/// The first frosts after a day of planting, by their chances.
fn autumn(freezes: &Dates, planted: Date) -> Vec<(Date, Doing)> {
    let [early, half, _] = freezes.first;
    let on = |chance: Chance| {
        let (month, day) = month_and_day(chance.day?)?;
        let on = date_of(planted.year(), (month, day))?;
        // South of the equator autumn comes in the year after spring.
        if on < planted { date_of(planted.year() + 1, (month, day)) } else { Some(on) }
    };
    let told = [(early, Doing::EarlyFrost), (half, Doing::Frost)];
    told.into_iter().filter_map(|(chance, doing)| Some((on(chance)?, doing))).collect()
}

/// Whole days to emergence in soil so warm.
fn emerged(celsius: f64) -> Option<i64> {
    #[expect(clippy::cast_possible_truncation, reason = "a few weeks at most")]
    emergence::days(celsius).map(|days| days.ceil() as i64)
}

/// The first day for seed in the garden's soil: it is warm, and what is sown comes up when frost is over.
fn sown_outdoors(
    warm_soil: Option<(i8, i8)>,
    frost_safe: Option<(i8, i8)>,
    hemisphere: Hemisphere,
    year: i16,
) -> Option<Date> {
    let warm = date_of(year, warm_soil?)?;
    let up = date_of(year, latest([warm_soil, frost_safe].into_iter().flatten(), hemisphere)?)?;
    let sown = up.checked_sub(emerged(WARM_SOIL)?.days()).ok()?;
    Some(sown.max(warm))
}

/// The day that comes last in spring.
fn latest(days: impl Iterator<Item = (i8, i8)>, hemisphere: Hemisphere) -> Option<(i8, i8)> {
    days.max_by_key(|(month, day)| (in_season(*month, hemisphere), *day))
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
    let is_warm = |week: &[f64]| WARM_NIGHTS <= week.iter().sum::<f64>() / f64::from(NIGHTS);
    in_half_of_the_years(days, hemisphere, |lowest, _| {
        let week = usize::from(NIGHTS);
        lowest.windows(week).position(is_warm).map(|place| place + week)
    })
}

/// The middle over the years of the day of spring before which the soil was warm for three days.
fn warm_soil(days: &Days, hemisphere: Hemisphere) -> Option<(i8, i8)> {
    let is_warm = |soil: &[f64]| soil.iter().all(|degrees| WARM_SOIL <= *degrees);
    in_half_of_the_years(days, hemisphere, |lowest, highest| {
        soil::warmth(lowest, highest).windows(SOIL_DAYS).position(is_warm).map(|place| place + SOIL_DAYS)
    })
}

/// The middle over the years of a day of spring, which `found` counts from winter in the nights and days up to summer; a spring
/// without one is later than any.
fn in_half_of_the_years(
    days: &Days,
    hemisphere: Hemisphere,
    found: impl Fn(&[f64], &[f64]) -> Option<usize>,
) -> Option<(i8, i8)> {
    let (winter, summer) = match hemisphere {
        Hemisphere::North => (1, 8),
        Hemisphere::South => (7, 2),
    };
    let mut places = Vec::new();
    for year in days.years() {
        let begins = Date::new(year, winter, 1).ok()?;
        let ends = Date::new(if winter < summer { year } else { year + 1 }, summer, 1).ok()?;
        let (Some(from), Some(to)) = (days.place(begins), days.place(ends)) else { continue };
        let place = found(days.lowest().get(from..to)?, days.highest().get(from..to)?);
        places.push(place.and_then(|place| u16::try_from(place).ok()).unwrap_or(u16::MAX));
    }
    places.sort_unstable();
    let middle = places.get(places.len() / 2).copied().filter(|place| *place < u16::MAX)?;
    let day = Date::new(2001, winter, 1).ok()?.checked_add(i64::from(middle).days()).ok()?;
    Some((day.month(), day.day()))
}
