//! How long a forecast takes: the core by itself, as numpy is asked for the same sums (`benches/forecast`); a list of 130
//! varieties through 40 years with 200 draws each, told; and 10,000 varieties through 30 years, by weather alone.

#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a bench that cannot begin has nothing to measure"
)]

use divan::counter::ItemsCount;
use jiff::civil::date;
use record::mass::Grams;
use record::season::Season;
use ripening::climate::shipped;
use ripening::crop::{Belief, Crop, Kind, PlotCrop, Shape};
use ripening::forecast::{Drawn, Draws, Forecast, Seasons, weekly};
use ripening::grown::{Grown, WEEKS};
use ripening::thermal::{Clock, Course, CutOff, Method};
use ripening::truss::{Outline, Trusses};
use std::thread;

const DRAWS: usize = 200;

fn main() {
    divan::main();
}

const CLOCK: Clock =
    Clock { method: Method::Sine(Course::Single, CutOff::Horizontal), base: 10.0, ceiling: Some(30.0) };

fn seasons(years: i16) -> Seasons {
    let station = shipped::stations().iter().find(|one| one.name.starts_with("Milwaukee")).unwrap();
    let days = station.climate().years(years + 1, "bench");
    let mut seasons = Seasons::new(CLOCK);
    for year in 2001..2001 + years {
        seasons.add(year, Grown::of(&days, CLOCK, date(year, 5, 20)).unwrap());
    }
    seasons
}

fn belief(shape: Shape, place: u32) -> Belief {
    let later = f64::from(place % 17) * 0.01;
    let plot = |year: i16| PlotCrop {
        season: Season::new(year).unwrap(),
        clock: CLOCK,
        middle: 6.7 + later + f64::from(year - 2029) * 0.02,
        spread: 0.14,
        kilograms: 4.0,
    };
    let trusses = Trusses::usual(Grams::new(100.0).unwrap(), Outline::Round);
    let plots = || vec![plot(2029), plot(2030), plot(2030)];
    let crops: Vec<Crop> = (0..3).map(|_| Crop { shape, trusses, plots: plots() }).collect();
    let kind = Kind::of(shape, &crops.iter().collect::<Vec<_>>()).unwrap();
    Belief::of(&crops[0], &kind).unwrap()
}

/// The core alone, one variety: years by weeks by draws.
#[divan::bench(args = [Shape::Hump, Shape::Stream], sample_count = 100)]
fn core(bench: divan::Bencher<'_, '_>, shape: Shape) {
    let (seasons, draws) = (seasons(40), Draws::of(&belief(shape, 3), DRAWS, Drawn::All, 0.1));
    bench
        .counter(ItemsCount::new(40 * WEEKS * DRAWS))
        .bench_local(|| weekly(divan::black_box(&seasons), divan::black_box(&draws)));
}

/// The core of 64 varieties on so many threads.
#[divan::bench(args = [1, 2], sample_count = 10)]
fn core_of_64_on_threads(bench: divan::Bencher<'_, '_>, threads: usize) {
    let (seasons, draws) = (seasons(40), Draws::of(&belief(Shape::Hump, 3), DRAWS, Drawn::All, 0.1));
    bench.counter(ItemsCount::new(64 * 40 * WEEKS * DRAWS)).bench_local(|| {
        thread::scope(|scope| {
            for _ in 0..threads {
                scope.spawn(|| {
                    (0..64 / threads).for_each(|_| drop(divan::black_box(weekly(&seasons, &draws))))
                });
            }
        });
    });
}

fn told(bench: divan::Bencher<'_, '_>, varieties: u32, years: i16, (draws, drawn): (usize, Drawn)) {
    let seasons = seasons(years);
    let beliefs: Vec<Belief> = (0..varieties)
        .map(|place| belief(if place % 2 == 0 { Shape::Hump } else { Shape::Stream }, place))
        .collect();
    bench.counter(ItemsCount::new(beliefs.len())).bench_local(|| {
        let one = |belief: &Belief| Forecast::of(&seasons, &Draws::of(belief, draws, drawn, 0.1));
        beliefs.iter().filter_map(one).count()
    });
}

/// Draws, core, quantiles and ends of season of a list, one core.
#[divan::bench(sample_count = 3)]
fn a_list_of_130_through_40_years(bench: divan::Bencher<'_, '_>) {
    told(bench, 130, 40, (DRAWS, Drawn::All));
}

/// As many draws as make every variety's ranges out of 750 seasons.
#[divan::bench(sample_count = 1)]
fn ten_thousand_through_30_years_of_25_draws(bench: divan::Bencher<'_, '_>) {
    told(bench, 10_000, 30, (25, Drawn::All));
}

#[divan::bench(sample_count = 1)]
fn ten_thousand_through_30_years_by_weather(bench: divan::Bencher<'_, '_>) {
    told(bench, 10_000, 30, (1, Drawn::Nothing));
}
