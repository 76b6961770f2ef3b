//! How long weather and picks take: a daily file of a hundred years read, its degree-days by two methods, and curves for
//! 10,000 varieties of two plots.

#![expect(clippy::unwrap_used, reason = "a bench that cannot begin has nothing to measure")]

use divan::counter::{BytesCount, ItemsCount};
use jiff::ToSpan;
use jiff::civil::{Date, date};
use record::season::Season;
use ripening::curve::{self, LAWS, Law};
use ripening::picked::{Picked, Taken};
use ripening::thermal::{Clock, Course, CutOff, Method};
use ripening::timeline::Timeline;
use ripening::weather::{Days, ghcn};
use std::fmt::Write;

const YEARS: i16 = 100;
const VARIETIES: usize = 10_000;
/// Varieties that all four laws are tried on.
const ALL_LAWS: usize = 100;

fn main() {
    divan::main();
}

/// A station-month a line, every day known.
fn daily_file() -> String {
    let mut text = String::new();
    for year in 1921..1921 + YEARS {
        for month in 1..=12i8 {
            for (element, above) in [("TMAX", 80), ("TMIN", -40)] {
                write!(text, "USC00999999{year}{month:02}{element}").unwrap();
                let length = date(year, month, 1).days_in_month();
                for day in 1..=31i8 {
                    let summer = 200 - 35 * (i32::from(month) - 7).abs();
                    let value = if day <= length { summer + above + i32::from(day) * 7 % 11 } else { -9999 };
                    write!(text, "{value:>5}  7").unwrap();
                }
                text.push('\n');
            }
        }
    }
    text
}

#[divan::bench(sample_count = 20)]
fn a_daily_file(bench: divan::Bencher<'_, '_>) {
    let text = daily_file();
    bench.counter(BytesCount::of_str(&text)).bench_local(|| ghcn::read(divan::black_box(&text)).unwrap());
}

/// Seasons of 220 days from 20 May, every year of the file.
fn seasons(bench: divan::Bencher<'_, '_>, method: Method) {
    let (_, days): (_, Days) = ghcn::read(&daily_file()).unwrap();
    let clock = Clock { method, base: 10.0, ceiling: Some(30.0) };
    let one = |year| clock.sums(&days, date(year, 5, 20)).take(220).map(|(_, sum)| sum).sum::<f64>();
    bench.counter(ItemsCount::new(10usize)).bench_local(|| (2010..2020i16).map(one).sum::<f64>());
}

#[divan::bench(sample_count = 20)]
fn ten_years_by_averages(bench: divan::Bencher<'_, '_>) {
    seasons(bench, Method::ModifiedAverage);
}

#[divan::bench(sample_count = 20)]
fn ten_years_by_a_sine(bench: divan::Bencher<'_, '_>) {
    seasons(bench, Method::Sine(Course::Single, CutOff::Horizontal));
}

/// Fifteen picks, a few days apart, a hump of fruit.
fn picked(place: usize) -> Picked {
    let out = date(2031, 5, 10);
    let shift = i64::try_from(place % 23).unwrap();
    let picks = (0i64..15).map(|pick| {
        let off = f64::from(i32::try_from(pick).unwrap()) - 6.5;
        let on: Date = out.checked_add((60 + shift + 4 * pick).days()).unwrap();
        Taken { on, amount: (30.0 * (-off * off / 18.0).exp()).round() }
    });
    Picked::new(out, picks).unwrap()
}

fn fitted(bench: divan::Bencher<'_, '_>, varieties: usize, laws: &[Law]) {
    let plots: Vec<[Picked; 2]> = (0..varieties).map(|place| [picked(place), picked(place + 7)]).collect();
    let season = Season::new(2031).unwrap();
    bench.counter(ItemsCount::new(varieties)).bench_local(|| {
        let one = |[first, second]: &[Picked; 2]| {
            curve::fit(laws, &[(season, first, &Timeline::Days), (season, second, &Timeline::Days)])
        };
        plots.iter().filter_map(one).count()
    });
}

#[divan::bench(sample_count = 3)]
fn curves_of_one_law(bench: divan::Bencher<'_, '_>) {
    fitted(bench, VARIETIES, &[Law::LogNormal]);
}

#[divan::bench(sample_count = 3)]
fn curves_of_all_laws(bench: divan::Bencher<'_, '_>) {
    fitted(bench, ALL_LAWS, &LAWS);
}
