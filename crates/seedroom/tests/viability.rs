//! Keeping beside the equation's worked numbers and beside R.
//!
//! Worked numbers are those of the seed-lot facts, section 4, made apart from this program.

#![expect(clippy::unwrap_used, reason = "a test stops at what it cannot work out")]

use proptest::prelude::*;
use record::days::Days;
use record::share::{Percent, Share};
use record::temperature::Celsius;
use seedroom::viability::Course;
use seedroom::viability::belief::USUAL;
use seedroom::viability::decline::{DatedTest, fit};
use seedroom::viability::keeping::keeping;
use seedroom::viability::storage::{POTATO, TWELVE_CROPS, UNIVERSAL, too_warm_and_damp};
use statistics::normal::chance_below;

fn days(count: f64) -> Days {
    Days::new(count).unwrap()
}

fn share(share: f64) -> Share {
    Share::new(share).unwrap()
}

fn celsius(degrees: f64) -> Celsius {
    Celsius::new(degrees).unwrap()
}

fn test(kept: f64, normal: u32, sown: u32) -> DatedTest {
    DatedTest { kept: days(kept), normal, sown }
}

#[track_caller]
fn near(found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "{found} is not {wanted}");
}

/// Case 21, and the worked arithmetic beside it: from 95 in 100, sigma 1000 days.
#[test]
fn the_equation_agrees() {
    let course = Course { start: 1.644_853_626_951_472_7, sigma_days: 1000.0 };
    near(course.days_to(share(0.75)).unwrap().get(), 970.36, 5e-3);
    near(100.0 * course.share_after(days(500.0)).get(), 87.39, 5e-3);
    near(100.0 * course.share_after(days(1000.0)).get(), 74.05, 5e-3);
    assert_eq!(course.days_to(share(0.96)), Some(Days::NONE));
    assert_eq!(course.days_to(Share::ALL), None);
}

/// Case 22, and the temperature factors beside it.
#[test]
fn temperatures_agree() {
    let longer = |at, than| UNIVERSAL.keeps_longer(celsius(at), celsius(than)).unwrap();
    near(longer(5.0, 20.0), 4.70706, 5e-6);
    near(longer(5.0, 25.0), 8.806, 5e-4);
    near(longer(20.0, 25.0), 1.871, 5e-4);
    near(longer(-18.0, 20.0), 19.34, 5e-3);
    near(TWELVE_CROPS.keeps_longer(celsius(5.0), celsius(20.0)).unwrap(), 4.500, 5e-4);
    assert_eq!(UNIVERSAL.keeps_longer(celsius(-80.0), celsius(20.0)), None);
    let spells = [(days(100.0), celsius(5.0)), (days(10.0), celsius(20.0))];
    let carried = UNIVERSAL.carried(&spells, celsius(20.0)).unwrap();
    near(carried.get(), 100.0 / 4.70706 + 10.0, 5e-5);
    assert_eq!(UNIVERSAL.carried(&[(days(1.0), celsius(-80.0))], celsius(20.0)), None);
}

/// Case 23: potato constants of Ellis and Hong 2007 (abstract), and two more worked from them.
#[test]
fn potato_agrees() {
    let sigma = |moisture, t| POTATO.sigma_days(Percent::new(moisture).unwrap(), celsius(t));
    near(sigma(5.5, 20.0).unwrap(), 2494.9, 0.05);
    near(sigma(5.5, 4.0).unwrap(), 12_206.0, 0.5);
    near(sigma(8.0, 20.0).unwrap(), 362.0, 0.5);
    near(sigma(5.5, 20.0).unwrap() / sigma(8.0, 20.0).unwrap(), 6.89, 5e-3);
    assert_eq!(sigma(3.0, 20.0), None);
}

/// Cases 27 and 28: 122 F, and 70 F with 40 per cent of humidity (Harrington, second-hand).
#[test]
fn warm_and_damp_rooms_are_told() {
    near(Celsius::from_fahrenheit(122.0).unwrap().get(), 50.0, 1e-12);
    let sum = |fahrenheit, humidity| {
        too_warm_and_damp(Celsius::from_fahrenheit(fahrenheit).unwrap(), Percent::new(humidity).unwrap())
    };
    near(sum(70.0, 40.0).unwrap(), 110.0, 1e-9);
    assert_eq!(sum(50.0, 45.0), None);
}

/// R 4.2.2: `d <- c(30,400,760,1130); y <- c(380,368,340,301); n <- rep(400,4)`,
/// `m <- glm(cbind(y,n-y) ~ d, family=binomial(link="probit"), control=glm.control(epsilon=1e-14, maxit=100))`;
/// `coef(m)`, `sqrt(diag(vcov(m)))`, `vcov(m)[1,2]`, `deviance(m)`.
#[test]
fn a_decline_agrees_with_r() {
    let tests = [test(30.0, 380, 400), test(400.0, 368, 400), test(760.0, 340, 400), test(1130.0, 301, 400)];
    let decline = fit(&tests).unwrap();
    near(decline.start.0, 1.720_393_027, 5e-10);
    near(decline.a_day.0, -0.000_907_703_400_7, 5e-14);
    // Of variances nine digits are asked, of the deviance, a small difference, eight: the tails of the normal curve are kept to ten (see `statistics::normal`).
    near(decline.start.1.powi(2), 0.007_395_405_63, 5e-12);
    near(decline.a_day.1.powi(2), 1.123_789_87e-8, 5e-17);
    near(decline.covariance.both, -8.013_842_19e-6, 5e-15);
    near(decline.scatter.0, 0.521_603_66, 5e-9);
    // -1 / slope, and the day on which start + slope x day = qnorm(.75) = 0.6744897502.
    let course = decline.course().unwrap();
    near(course.sigma_days, 1.0 / 0.000_907_703_400_7, 1e-6);
    near(
        course.days_to(share(0.75)).unwrap().get(),
        (1.720_393_027 - 0.674_489_750_2) / 0.000_907_703_400_7,
        1e-5,
    );
}

/// Ten lots of two to eight tests beside R's glm: `tests/data/keeping/make.R` and what it printed.
#[test]
fn declines_agree_with_r_for_lots_of_all_kinds() {
    let lines = include_str!("data/keeping/expected.csv").lines().skip(1);
    let mut lots = 0;
    for line in lines {
        let cells: Vec<&str> = line.split(',').collect();
        let list =
            |at: usize| -> Vec<f64> { cells[at].split(' ').map(|cell| cell.parse().unwrap()).collect() };
        let whole =
            |at: usize| -> Vec<u32> { cells[at].split(' ').map(|cell| cell.parse().unwrap()).collect() };
        let (kept, normal, sown) = (list(1), whole(2), whole(3));
        let tests: Vec<DatedTest> = kept
            .iter()
            .zip(normal.iter().zip(&sown))
            .map(|(kept, (normal, sown))| test(*kept, *normal, *sown))
            .collect();
        let decline = fit(&tests).unwrap();
        let number = |at: usize| -> f64 { cells[at].parse().unwrap() };
        // Ten digits of R's twelve: the tails of the normal curve are kept to ten (see `statistics::normal`).
        let close = |found: f64, at: usize| near(found, number(at), 2e-8 * number(at).abs().max(1e-6));
        close(decline.start.0, 4);
        close(decline.start.1, 5);
        close(decline.a_day.0, 6);
        close(decline.a_day.1, 7);
        close(decline.covariance.both, 8);
        near(decline.scatter.0, number(9), 1e-6);
        let to_75 = decline.course().unwrap().days_to(share(0.75)).unwrap().get();
        near(to_75, number(10), 1e-6 * number(10));
        lots += 1;
    }
    assert_eq!(lots, 10);
}

/// Many seeds outweigh the usual belief, so that the forecast comes to the fitted day, its range to the delta method's.
#[test]
fn many_seeds_outweigh_the_belief() {
    let tests: Vec<DatedTest> = [(30.0, 38_000), (400.0, 36_800), (760.0, 34_000), (1130.0, 30_100)]
        .map(|(kept, normal)| test(kept, normal, 40_000))
        .to_vec();
    let decline = fit(&tests).unwrap();
    let best = decline.course().unwrap().days_to(share(0.75)).unwrap().get();
    let found = keeping(&tests, &USUAL, share(0.75), days(1200.0)).unwrap();
    near(found.about.get(), best, 0.01 * best);
    assert!(0.9 < found.under.get());
}

/// Quantiles of the day, and the chance of being under, by a plain fine grid over the whole belief.
fn plainly(tests: &[DatedTest], on: f64) -> ([f64; 3], f64) {
    let axis = || (-700..=700_i32).map(|place| f64::from(place) / 100.0);
    let mut days = Vec::new();
    for (a, b) in axis().flat_map(|a| axis().map(move |b| (a, b))) {
        let start = USUAL.start.0 + a * USUAL.start.1;
        let sigma = (USUAL.log_sigma.0 + b * USUAL.log_sigma.1).exp();
        let mut log = -0.5 * (a * a + b * b);
        for test in tests {
            let deviate = start - test.kept.get() / sigma;
            log += f64::from(test.normal) * chance_below(deviate).max(1e-300).ln();
            log += f64::from(test.sown - test.normal) * chance_below(-deviate).max(1e-300).ln();
        }
        days.push(((sigma * (start - 0.674_489_750_2)).max(0.0), log));
    }
    let top = days.iter().map(|(_, log)| *log).fold(f64::NEG_INFINITY, f64::max);
    let whole: f64 = days.iter().map(|(_, log)| (log - top).exp()).sum();
    let weight = |log: f64| (log - top).exp() / whole;
    let under = days.iter().filter(|(day, _)| *day < on).map(|(_, log)| weight(*log)).sum::<f64>();
    days.sort_by(|one, other| one.0.total_cmp(&other.0));
    let quantile = |chance: f64| {
        let mut below = 0.0;
        let found = days.iter().find(|(_, log)| {
            below += weight(*log);
            chance <= below
        });
        found.unwrap().0
    };
    ([0.1, 0.5, 0.9].map(quantile), under)
}

#[test]
fn forecasts_agree_with_a_plain_fine_grid() {
    let lots: [&[DatedTest]; 4] = [
        &[],
        &[test(40.0, 47, 50)],
        &[test(30.0, 380, 400), test(400.0, 368, 400), test(760.0, 340, 400)],
        &[test(10.0, 24, 25), test(900.0, 8, 25)],
    ];
    for tests in lots {
        let found = keeping(tests, &USUAL, share(0.75), days(800.0)).unwrap();
        let ([low, middle, high], under) = plainly(tests, 800.0);
        near(found.about.get(), middle, 0.01 * middle);
        near(found.between.0.get(), low, 0.01 * low.max(100.0));
        near(found.between.1.get(), high, 0.01 * high);
        near(found.under.get(), under, 0.005);
    }
}

#[test]
fn a_lot_without_tests_is_as_unsure_as_the_belief() {
    let found = keeping(&[], &USUAL, share(0.75), days(365.0)).unwrap();
    let (low, high) = found.between;
    assert!(low.get() < 0.25 * found.about.get() && 2.0 * found.about.get() < high.get());
    assert_eq!(keeping(&[test(10.0, 5, 4)], &USUAL, share(0.75), days(1.0)), None);
    assert_eq!(keeping(&[], &USUAL, Share::ALL, days(1.0)), None);
}

proptest! {
    /// A worse test never lengthens a lot's keeping, and the range holds its middle.
    #[test]
    fn worse_tests_shorten_keeping(kept in 100.0..2000.0_f64, normal in 20..=100_u32, fewer in 1..20_u32) {
        let of = |normal| keeping(&[test(10.0, 95, 100), test(kept, normal, 100)], &USUAL, share(0.75), days(kept)).unwrap();
        let (better, worse) = (of(normal), of(normal - fewer));
        prop_assert!(worse.about.get() <= better.about.get());
        prop_assert!(better.under.get() <= worse.under.get() + 1e-12);
        for found in [better, worse] {
            prop_assert!(found.between.0.get() <= found.about.get() && found.about.get() <= found.between.1.get());
        }
    }

    /// There and back: days at one temperature carried to another and back are the same days.
    #[test]
    fn temperatures_go_there_and_back(a in -20.0..60.0_f64, b in -20.0..60.0_f64) {
        let there = UNIVERSAL.keeps_longer(celsius(a), celsius(b)).unwrap();
        let back = UNIVERSAL.keeps_longer(celsius(b), celsius(a)).unwrap();
        prop_assert!((there * back - 1.0).abs() < 1e-9);
        prop_assert_eq!(a < b, 1.0 < there);
    }
}
