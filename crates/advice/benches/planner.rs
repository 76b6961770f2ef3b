//! How long a plan takes: a garden of a dozen varieties in three waves, over sampled years, for the table and the kitchen.

#![expect(clippy::unwrap_used, reason = "a bench that cannot begin has nothing to measure")]

use advice::planner::plan::{Outcome, plan};
use advice::planner::request::{Request, Wish};
use advice::planner::supply::{Choice, Room, Supply};
use record::share::Share;

const WEEKS: usize = 16;

fn main() {
    divan::main();
}

/// A hump of fruit for each variety and wave, earlier or later by the year, heavier or lighter too.
fn supply(varieties: u32, waves: u32, years: usize) -> Supply {
    let class = |variety| match variety % 3 {
        0 => "paste",
        1 => "slicer",
        _ => "cherry",
    };
    let choices: Vec<Choice> = (0..varieties)
        .flat_map(|variety| (0..waves).map(move |wave| (variety, wave)))
        .map(|(variety, wave)| Choice {
            variety: format!("variety {variety}"),
            wave,
            class: class(variety).to_owned(),
            room: Room::Bed(0.4),
        })
        .collect();
    let mut kilograms = Vec::new();
    for year in 0..years {
        for (choice, Choice { wave, .. }) in choices.iter().enumerate() {
            for week in 0..WEEKS {
                let middle = 5.0 + 2.0 * f64::from(*wave) + (year * 7 % 5) as f64 * 0.6;
                let off = week as f64 - middle - (choice * 3 % 7) as f64 * 0.4;
                let heavy = 0.5 + (year * 11 % 7) as f64 * 0.1 + (choice % 4) as f64 * 0.05;
                kilograms.push((100.0 * heavy * (-off * off / 9.0).exp()).round() / 100.0);
            }
        }
    }
    Supply::new(choices, WEEKS, kilograms).unwrap()
}

fn request(days: u32, sure: f64) -> Request {
    let fresh = |class: &str, kilograms| Wish::Fresh { class: class.to_owned(), kilograms, weeks: 6..=10 };
    let kitchen = Wish::Kitchen {
        class: "paste".to_owned(),
        kilograms: 30.0,
        window: 5..=12,
        days,
        a_day: 20.0,
        keeps: 0,
    };
    Request {
        wishes: vec![kitchen, fresh("slicer", 2.0), fresh("cherry", 1.0)],
        bed: 60.0,
        containers: 0,
        most_varieties: 5,
        wanted: Vec::new(),
        barred: Vec::new(),
        favourites: Vec::new(),
        sure: Share::new(sure).unwrap(),
        gap: Share::new(0.01).unwrap(),
    }
}

/// As many varieties as a house's list has, over as many years as an answer is made over.
#[divan::bench(sample_count = 3, sample_size = 1)]
fn a_whole_list_over_a_hundred_years(bench: divan::Bencher<'_, '_>) {
    planned(bench, (130, 1, 100), &request(3, 0.8));
}

fn planned(bench: divan::Bencher<'_, '_>, size: (u32, u32, usize), request: &Request) {
    let supply = supply(size.0, size.1, size.2);
    bench.bench_local(|| {
        let Outcome::Planned(plan) = plan(&supply, request).unwrap() else { panic!("no plan") };
        assert!(0.99 * f64::from(plan.total) <= f64::from(plan.at_least), "{} {}", plan.total, plan.at_least);
    });
}

#[divan::bench(sample_count = 3, sample_size = 1)]
fn every_year_of_ten_with_days_to_spare(bench: divan::Bencher<'_, '_>) {
    planned(bench, (6, 2, 10), &request(8, 1.0));
}

#[divan::bench(sample_count = 1, sample_size = 1)]
fn every_year_of_ten_on_three_days(bench: divan::Bencher<'_, '_>) {
    planned(bench, (6, 2, 10), &request(3, 1.0));
}

#[divan::bench(sample_count = 1, sample_size = 1)]
fn eight_years_of_ten_on_three_days(bench: divan::Bencher<'_, '_>) {
    planned(bench, (6, 2, 10), &request(3, 0.8));
}
