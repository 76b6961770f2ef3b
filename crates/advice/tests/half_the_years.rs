//! Plans made on some sampled years, scored on others: what is promised in 8 years of 10 must be kept in about as many.

#![expect(clippy::unwrap_used, clippy::cast_precision_loss, reason = "what a test works with may stop it")]

use advice::planner::harvest::years_met;
use advice::planner::plan::{Outcome, plan};
use advice::planner::request::{Request, Wish};
use advice::planner::supply::{Choice, Column, Room, Supply};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use record::share::Share;

const GARDENS: u64 = 30;
/// Years that a plan is made on.
const MADE_ON: usize = 100;
/// Years that it is scored on.
const SCORED_ON: usize = 400;
const WEEKS: usize = 16;
const VARIETIES: usize = 12;

/// A deviate near enough to normal: twelve even ones added up.
fn normal(draws: &mut ChaCha8Rng) -> f64 {
    (0..12).map(|_| draws.random_range(0.0..1.0)).sum::<f64>() - 6.0
}

/// The same garden in so many years: seasons heavier or lighter and earlier or later for all, and a little for each variety.
fn garden(draws: &mut ChaCha8Rng, years: usize) -> Supply {
    let truths: Vec<(f64, f64, f64)> = (0..VARIETIES)
        .map(|_| (draws.random_range(4.0..11.0), draws.random_range(1.0..2.5), draws.random_range(2.0..5.0)))
        .collect();
    let mut kilograms: Vec<Vec<f64>> = vec![Vec::new(); VARIETIES];
    for _ in 0..years {
        let (heavier, later) = ((0.35 * normal(draws)).exp(), 0.9 * normal(draws));
        for ((middle, width, crop), own) in truths.iter().zip(&mut kilograms) {
            let (heavy, late) = (heavier * (0.2 * normal(draws)).exp(), later + 0.3 * normal(draws));
            own.extend((0..WEEKS).map(|week| {
                let off = (week as f64 - middle - late) / width;
                crop * heavy * (-0.5 * off * off).exp() / (width * 2.5)
            }));
        }
    }
    let column = |(variety, kilograms): (usize, Vec<f64>)| Column {
        choice: Choice {
            variety: format!("variety {variety}"),
            wave: 0,
            class: if variety % 2 == 0 { "paste" } else { "slicer" }.to_owned(),
            room: Room::Bed(0.5),
        },
        from_week: 0,
        kilograms,
    };
    Supply::of_columns(kilograms.into_iter().enumerate().map(column).collect(), years).unwrap()
}

/// The first or the later years of a garden.
fn years(all: &Supply, range: std::ops::Range<usize>) -> Supply {
    let columns = all.choices().iter().enumerate().map(|(place, choice)| Column {
        choice: choice.clone(),
        from_week: 0,
        kilograms: range.clone().flat_map(|year| all.in_year(year, place).to_vec()).collect(),
    });
    Supply::of_columns(columns.collect(), range.len()).unwrap()
}

#[test]
fn eight_years_of_ten_are_about_eight_in_ten_of_other_years() {
    let (mut kept, mut plans) = (0.0, 0.0);
    for number in 0..GARDENS {
        let mut draws = ChaCha8Rng::seed_from_u64(number);
        let all = garden(&mut draws, MADE_ON + SCORED_ON);
        let request = Request {
            wishes: vec![
                Wish::Kitchen {
                    class: "paste".to_owned(),
                    kilograms: 20.0,
                    window: 2..=13,
                    days: 2,
                    a_day: 12.0,
                    keeps: 0,
                },
                Wish::Fresh { class: "slicer".to_owned(), kilograms: 1.0, weeks: 6..=8 },
            ],
            bed: 100.0,
            containers: 0,
            most_varieties: 6,
            wanted: Vec::new(),
            barred: Vec::new(),
            favourites: Vec::new(),
            sure: Share::new(0.8).unwrap(),
            gap: Share::new(0.05).unwrap(),
        };
        let Outcome::Planned(plan) = plan(&years(&all, 0..MADE_ON), &request).unwrap() else { continue };
        let others = years(&all, MADE_ON..MADE_ON + SCORED_ON);
        kept += years_met(&others, &request, &plan.plants) as f64 / SCORED_ON as f64;
        plans += 1.0;
    }
    let kept = kept / plans;
    println!("{plans} plans promised for 80 years of 100 keep it in {:.1} of other years", 100.0 * kept);
    assert!(0.9 * GARDENS as f64 <= plans, "{plans}");
    assert!((0.75..=0.88).contains(&kept), "{kept}");
}
