//! A forecast on the calendar: its days as days of the year, its weeks as a ribbon under a line of months.
//!
//! Days are those of a common year; years that a forecast goes over have no one calendar.

use super::{Expected, Harvest};
use drawing::ribbon::{Ribbon, months};
use drawing::scale::Pixels;
use drawing::svg::Svg;
use jiff::ToSpan;
use jiff::civil::Date;
use record::share::Share;

/// The day that plants go out.
#[must_use]
pub fn out(found: &Harvest) -> Date {
    let (month, day) = found.out;
    Date::new(2001, month, day).or_else(|_| Date::new(2001, month, 28)).unwrap_or(Date::constant(2001, 1, 1))
}

/// The day so many days after planting; `None` where it never comes.
#[must_use]
pub fn day_of(found: &Harvest, days: Option<i32>) -> Option<Date> {
    out(found).checked_add(days?.days()).ok()
}

/// A variety's season as a ribbon.
#[must_use]
pub fn ribbon_of(found: &Harvest, one: &Expected) -> Ribbon {
    let [_, first, _] = one.forecast.first.map(|days| day_of(found, days));
    let [_, last, _] = one.forecast.last.map(|days| day_of(found, days));
    let told =
        |day: Option<Date>| day.map_or_else(|| "never".to_owned(), |day| day.strftime("%-d %b").to_string());
    let words = match first {
        Some(_) => format!("{}: ripe fruit from {} to {}", one.name, told(first), told(last)),
        None => format!("{}: frost comes before ripe fruit", one.name),
    };
    let weeks = one.forecast.chance.iter().filter_map(|chance| Share::new(*chance)).collect();
    Ribbon { words, weeks, frost: found.frost_week }
}

/// The line of months above ribbons of this width.
#[must_use]
pub fn months_of(found: &Harvest, width: Pixels) -> Svg {
    let weeks = found.flowering.len();
    let days = u16::try_from(7 * weeks).unwrap_or(u16::MAX);
    let on = |days: u16| out(found).checked_add(i64::from(days).days()).ok();
    let begins = (0..days).filter_map(|days| Some((days, on(days)?)));
    let begins: Vec<(u16, String)> = begins
        .filter(|(days, day)| *days == 0 || day.day() == 1)
        .map(|(days, day)| (days, day.strftime("%b").to_string()))
        .collect();
    let begins: Vec<(u16, &str)> = begins.iter().map(|(days, name)| (*days, name.as_str())).collect();
    months(&begins, weeks, width)
}
