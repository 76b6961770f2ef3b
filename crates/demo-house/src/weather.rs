//! The weather of both gardens, day by day for twenty years: invented, like all else, and made to fit the seasons.
//!
//! Days lean on the day before about a yearly course. In the years of the grow-outs the summer is made as warm as
//! [`GROW_OUTS`] says that everything went fast, no frost comes while plants stand, and one kills them on its day. The picks
//! themselves are not made from these days: what a forecast by warmth can know of them is the summers' difference.
//!
//! Start at [`days`]; [`thermometers`] are the files that two keepers would have kept of them.

use crate::chance::{normal, stream};
use crate::paper::{Letters, Page, delimited};
use crate::season::{GROW_OUTS, Garden, GrowOut};
use jiff::civil::{Date, date};

/// One day's temperatures, in degrees Celsius.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TrueDay {
    /// The day.
    pub on: Date,
    /// The lowest.
    pub lowest: f64,
    /// The highest.
    pub highest: f64,
}

/// The first and the last day.
const FIRST: Date = date(2007, 1, 1);
const LAST: Date = date(2026, 11, 15);
/// Mean temperature in the middle of each month, January first. An invented place; no source.
const COURSE: [f64; 12] = [-5.0, -3.0, 3.0, 10.0, 17.0, 20.5, 22.0, 21.5, 17.0, 10.5, 4.0, -2.0];
/// How far single days stray from it, how much of that the next day keeps, and how far whole years stray.
const STRAY: f64 = 3.4;
const KEPT: f64 = 0.65;
const YEAR_STRAYS: f64 = 0.5;
/// From the night to the afternoon, how far that strays, and the least of it.
const RANGE: f64 = 11.0;
const RANGE_STRAYS: f64 = 2.5;
const LEAST_RANGE: f64 = 4.0;
/// Warmth counts above this.
const BASE: f64 = 10.0;
/// No night while plants stand is colder, and the night that kills them is as cold as this; the nights beside it.
const NO_FROST: f64 = 1.5;
const KILLING: f64 = -3.0;
const BESIDE_KILLING: f64 = 3.0;
/// Far Field lies lower and is so much colder.
const FAR_FIELD_COLDER: f64 = 0.6;
/// Halvings on the way to a summer as warm as it was.
const HALVINGS: u32 = 40;

/// Draws the days of a garden.
#[must_use]
pub fn days(seed: u64, garden: Garden) -> Vec<TrueDay> {
    let draws = &mut stream(seed, &["weather", garden.name()]);
    let colder = if garden == Garden::FarField { FAR_FIELD_COLDER } else { 0.0 };
    let (mut stray, mut year, mut days) = (0.0, 0.0, Vec::new());
    for on in FIRST.series(jiff::Span::new().days(1)).take_while(|on| *on <= LAST) {
        if on.day_of_year() == 1 {
            year = normal(draws, YEAR_STRAYS);
        }
        stray = KEPT * stray + normal(draws, STRAY * (1.0 - KEPT * KEPT).sqrt());
        let half = 0.5 * (RANGE + normal(draws, RANGE_STRAYS)).max(LEAST_RANGE);
        let mean = course(on) - colder + year + stray;
        days.push(TrueDay { on, lowest: mean - half, highest: mean + half });
    }
    for grow_out in GROW_OUTS.iter().filter(|grow_out| grow_out.garden == garden) {
        fit(&mut days, grow_out);
    }
    days
}

/// The course on one day, straight between the middles of months.
fn course(on: Date) -> f64 {
    let at = f64::from(on.month()) - 1.0 + (f64::from(on.day()) - 0.5) / f64::from(on.days_in_month()) - 0.5;
    let before = at.floor();
    let node = |month: f64| COURSE.get(month.rem_euclid(12.0) as usize).copied().unwrap_or_default();
    node(before) + (at - before) * (node(before + 1.0) - node(before))
}

/// Makes one season as warm as it was, and brings its frost.
fn fit(days: &mut [TrueDay], grow_out: &GrowOut) {
    let year = days.iter_mut().filter(|day| day.on.year() == grow_out.year).collect::<Vec<_>>();
    let autumn = date(grow_out.year, 9, 1).min(grow_out.frost);
    let summer = |on: Date| (grow_out.transplanted..autumn).contains(&on);
    let wanted: f64 = year.iter().filter(|day| summer(day.on)).map(|day| warmth(course(day.on), 0.0)).sum();
    let warmer_by = |by: f64| -> f64 {
        year.iter().filter(|day| summer(day.on)).map(|day| warmth(0.5 * (day.lowest + day.highest), by)).sum()
    };
    let (mut low, mut high) = (-8.0, 8.0);
    for _ in 0..HALVINGS {
        let middle: f64 = f64::midpoint(low, high);
        if warmer_by(middle) < wanted * grow_out.warmth { low = middle } else { high = middle }
    }
    for day in year {
        if (4..=10).contains(&day.on.month()) {
            day.lowest += low;
            day.highest += low;
        }
        bring_frost(day, grow_out);
    }
}

fn warmth(mean: f64, warmer_by: f64) -> f64 {
    (mean + warmer_by - BASE).max(0.0)
}

/// No frost while plants stand; then the one that kills them.
fn bring_frost(day: &mut TrueDay, grow_out: &GrowOut) {
    let days_off = (day.on - grow_out.frost).get_days();
    if (grow_out.transplanted..grow_out.frost).contains(&day.on) {
        day.lowest = day.lowest.max(NO_FROST);
    }
    match days_off {
        0 => day.lowest = KILLING,
        -1 | 1 => day.lowest = BESIDE_KILLING,
        _ => {}
    }
    day.highest = day.highest.max(day.lowest + LEAST_RANGE);
}

/// What two keepers wrote down: whole degrees Fahrenheit at home, tenths of a degree Celsius in Far Field. Each file by its
/// name and bytes; the thermometer is called as the file is.
#[must_use]
pub fn thermometers(seed: u64) -> [(String, Vec<u8>); 2] {
    [Garden::Home, Garden::FarField].map(|garden| {
        let (headings, write): (_, fn(f64) -> String) = match garden {
            Garden::Home => {
                (["date", "low (F)", "high (F)"], |celsius| format!("{:.0}", celsius * 1.8 + 32.0))
            }
            Garden::FarField => (["date", "tmin_c", "tmax_c"], |celsius| format!("{celsius:.1}")),
        };
        let mut page = Page::default();
        page.words(&headings);
        for day in days(seed, garden) {
            page.record(vec![day.on.to_string().into(), write(day.lowest).into(), write(day.highest).into()]);
        }
        let bytes = delimited::bytes(&[page], ',', Letters::Utf8, "\n");
        (format!("{} thermometer.csv", garden.name()), bytes)
    })
}
