//! Ripening curves: held to tables that R and SciPy computed, to a garden's own picks, and to made houses whose truth is
//! known.
//!
//! The garden's picks are read in place from the oracles folder (`LOCULE_ORACLES`, else `shared/oracles` beside the
//! checkout); a test whose file is missing says so and leaves.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

use jiff::ToSpan;
use jiff::civil::{Date, date};
use rand::RngExt;
use record::season::Season;
use ripening::curve::{self, Curves, LAWS, Law, Point, Scatter, fit};
use ripening::picked::{LastPick, Picked, Taken};
use ripening::thermal::{Clock, Course, CutOff, Method};
use ripening::timeline::{Counted, Timeline};
use ripening::weather::{self, Days};
use ripening::years::Years;
use statistics::censored::{self, Model, Reading};
use statistics::draws::stream;
use std::fs;
use std::path::Path;

fn near(got: f64, wanted: f64, within: f64) {
    assert!((got - wanted).abs() <= within, "{got} and {wanted}");
}

fn days(picked: &Picked, day: Date) -> Option<f64> {
    Timeline::Days.time(picked, day)
}

/// Counts of fruit between bounds of 700 to 1100 degree-days, fitted with R 4.2.2 (`survival::survreg`, interval2) and by
/// direct likelihood with SciPy: log-likelihood and times to 10, 50 and 90 in 100, to the digits that both printed.
#[test]
fn laws_as_two_programs_fit_them() {
    let bounds = [700.0, 780.0, 860.0, 940.0, 1020.0, 1100.0];
    let counts = [2.0, 9.0, 24.0, 31.0, 19.0, 10.0, 5.0];
    let between = bounds.windows(2).map(|pair| Reading::Between(pair[0], pair[1]));
    let readings: Vec<Reading> =
        [Reading::Before(bounds[0])].into_iter().chain(between).chain([Reading::After(bounds[5])]).collect();
    let columns = [vec![1.0; counts.len()]];
    let expected = [
        (Law::LogNormal, -169.841_515, [771.653, 899.506, 1048.542]),
        (Law::Weibull, -175.131_053, [740.953, 914.112, 1045.021]),
        (Law::LogLogistic, -169.854_896, [772.954, 899.026, 1045.660]),
        (Law::Gamma, -169.972_469, [770.341, 901.412, 1046.575]),
    ];
    for (law, likelihood, quantiles) in expected {
        let model = Model { law, readings: &readings, columns: &columns, weights: Some(&counts) };
        let fitted = censored::fit(&model).unwrap();
        near(fitted.log_likelihood, likelihood, 1e-5);
        for (share, wanted) in [0.1, 0.5, 0.9].into_iter().zip(quantiles) {
            let share = record::share::Share::new(share).unwrap();
            near(fitted.quantile(&[1.0], share).unwrap().estimate, wanted, 6e-4);
        }
    }
}

/// The same table as picks of a plot: the curve is the log-normal one, though amounts are taken as parts of the whole.
#[test]
fn a_plot_is_fitted_as_the_table_is() {
    let out = date(2031, 5, 1);
    let amounts = [2.0, 9.0, 24.0, 31.0, 19.0, 10.0];
    let picks = amounts
        .iter()
        .zip(1i64..)
        .map(|(amount, week)| Taken { on: out.checked_add((week * 7).days()).unwrap(), amount: *amount });
    // Green fruit at the end, taken at once: as many for each day as no week had.
    let cleared = Taken { on: out.checked_add(43.days()).unwrap(), amount: 5.0 * 20.0 };
    let picked = Picked::new(out, picks.chain([cleared])).unwrap();
    assert_eq!(picked.last_pick(), LastPick::ClearOut);
    let (readings, weights) = picked.readings(|day| days(&picked, day)).unwrap();
    assert_eq!(readings[0], Reading::Before(7.0));
    assert_eq!(readings[6], Reading::After(42.0), "what is cleared off ripens later than the pick before");
    assert_eq!(weights[6].to_bits(), 100f64.to_bits());
}

/// A home garden of 2020: variety T16, a grape tomato, one plant out on 20 May. Days of picking, kilograms and the first
/// picks with which a tenth, half and nine tenths of the weight had been taken, as counted from the same file with numpy.
#[test]
fn a_gardens_own_picks() {
    let beside = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../shared/oracles");
    let folder = std::env::var_os("LOCULE_ORACLES").map_or(beside, Into::into);
    let Ok(text) = fs::read_to_string(folder.join("picks/home_garden_picks_2020.csv")) else {
        println!("left out: picks/home_garden_picks_2020.csv is not here");
        return;
    };
    let picks = text.lines().filter_map(|line| {
        let cells: Vec<&str> = line.split(',').collect();
        (cells[1] == "T16")
            .then(|| Taken { on: cells[2].parse().unwrap(), amount: cells[3].parse::<f64>().unwrap() })
    });
    let picked = Picked::new(date(2020, 5, 20), picks).unwrap();
    assert_eq!(picked.taken().len(), 39);
    near(picked.total() / 1000.0, 14.69, 0.005);
    assert_eq!(picked.first(), Some(52));
    assert_eq!([0.1, 0.5, 0.9].map(|share| picked.taken_by(share)), [Some(79), Some(102), Some(133)]);
}

/// What a made house is made of: how far, in logarithms, seasons and plots move a time, and fruits lie from their plot.
const SEASONS: f64 = 0.08;
const PLOTS: f64 = 0.05;
const FRUITS: f64 = 0.15;

struct Made {
    /// Middle days of the varieties.
    truth: Vec<f64>,
    varieties: Vec<Curves>,
}

/// A house of twelve varieties in four seasons, two plots each, picked every third day. Times are log-normal.
fn made(draws: &mut impl rand::Rng, seasons: i16) -> Made {
    let normal = |draws: &mut dyn FnMut() -> f64| {
        let (one, other) = (draws().max(1e-12), draws());
        (-2.0 * one.ln()).sqrt() * (std::f64::consts::TAU * other).cos()
    };
    let mut even = || draws.random::<f64>();
    let summers: Vec<f64> = (0..seasons).map(|_| SEASONS * normal(&mut even)).collect();
    let truth: Vec<f64> = (0..12).map(|_| 75.0 + 40.0 * even()).collect();
    let varieties = truth
        .iter()
        .map(|middle| {
            let mut plots = Vec::new();
            for (summer, year) in summers.iter().zip(2031i16..) {
                for _ in 0..2 {
                    let own = middle.ln() + summer + PLOTS * normal(&mut even);
                    let out = date(year, 5, 10);
                    let picks = (0..80).map(|_| {
                        let ripe = (own + FRUITS * normal(&mut even)).exp();
                        #[expect(clippy::cast_possible_truncation, reason = "a day of a season")]
                        let walk = (ripe / 3.0).ceil() as i64;
                        Taken { on: out.checked_add((walk * 3).days()).unwrap(), amount: 1.0 }
                    });
                    plots.push((Season::new(year).unwrap(), Picked::new(out, picks).unwrap()));
                }
            }
            let plots: Vec<_> =
                plots.iter().map(|(season, picked)| (*season, picked, &Timeline::Days)).collect();
            fit(&[Law::LogNormal], &plots).unwrap()
        })
        .collect();
    Made { truth, varieties }
}

/// Over 1,000 made houses: the middle is the truth's but for what four summers leave, and the ranges hold as often as they
/// promise.
#[test]
fn ranges_hold_as_often_as_they_promise() {
    let mut draws = stream(&["ripening", "made houses"]);
    let (mut held, mut asked, mut off) = (0.0, 0.0, 0.0);
    for _ in 0..1000 {
        let house = made(&mut draws, 4);
        let everyone: Vec<&Curves> = house.varieties.iter().collect();
        let scatter = Scatter::of(&everyone, 1);
        // One plot of a fifth season: one variety of each house, as all share the season.
        let point = Point::of(&house.varieties[0], 1, scatter.as_ref()).unwrap();
        let pair = [draws.random::<f64>().max(1e-12), draws.random::<f64>()];
        let unit = (-2.0 * pair[0].ln()).sqrt() * (std::f64::consts::TAU * pair[1]).cos();
        let another = (house.truth[0].ln() + SEASONS.hypot(PLOTS) * unit).exp();
        let (low, high) = point.another_season.unwrap();
        held += f64::from(u8::from((low..=high).contains(&another)));
        asked += 1.0;
        off += (point.time / house.truth[0]).ln();
    }
    println!("{held} of {asked} ranges held, {:.4} off on average", off / asked);
    // 90 in 100 promised; four standard errors of 1,000 tries are 3.8.
    assert!((0.862..=0.938).contains(&(held / asked)), "{held} of {asked}");
    // Four summers and eight plots leave 0.044 to a house; four standard errors over 1,000 are 0.0056.
    near(off / asked, 0.0, 0.0056);
}

/// Fruits that scatter by Weibull's law, picked every other day: that law is the likeliest of all.
#[test]
fn the_law_is_told() {
    let mut draws = stream(&["ripening", "laws"]);
    let out = date(2031, 5, 10);
    let mut plot = || {
        let picks = (0..600).map(|_| {
            let ripe = 90.0 * (-draws.random::<f64>().max(1e-12).ln()).powf(1.0 / 8.0);
            #[expect(clippy::cast_possible_truncation, reason = "a day of a season")]
            let walk = (ripe / 2.0).ceil() as i64;
            Taken { on: out.checked_add((walk * 2).days()).unwrap(), amount: 1.0 }
        });
        Picked::new(out, picks).unwrap()
    };
    let plots: Vec<Picked> = (0..4).map(|_| plot()).collect();
    let season = Season::new(2031).unwrap();
    let plots: Vec<_> = plots.iter().map(|picked| (season, picked, &Timeline::Days)).collect();
    let curves = fit(&LAWS, &plots).unwrap();
    assert_eq!((curves.law, curves.plots.len()), (Law::Weibull, 4));
    // Quantiles of that law: 90 times the 1/8th power of minus the logarithm of what is left.
    for (share, left) in [(0, 0.9f64), (1, 0.5), (2, 0.1)] {
        let truth = 90.0 * (-left.ln()).powf(1.0 / 8.0);
        // Four standard errors of the mean of 2,400 fruits at the least sure of the three are 2 in 100.
        near(Point::of(&curves, share, None).unwrap().time / truth, 1.0, 0.02);
    }
}

/// The whole curve goes through the points that are told, and what was taken rises to all of it.
#[test]
fn the_course_goes_through_the_points() {
    let plot = |year: i16, later: i64| {
        let out = date(year, 5, 1);
        let taken = [2.0, 9.0, 24.0, 31.0, 19.0, 10.0, 5.0].into_iter().zip(0i64..);
        let taken = taken.map(|(amount, walk)| Taken {
            on: out.checked_add((70 + 5 * walk + later).days()).unwrap(),
            amount,
        });
        (Season::new(year).unwrap(), Picked::new(out, taken).unwrap())
    };
    let plots = [plot(2030, 0), plot(2030, 2), plot(2031, 9)];
    let picked: Vec<_> = plots.iter().map(|(season, picked)| (*season, picked, &Timeline::Days)).collect();
    for law in LAWS {
        let curves = fit(&[law], &picked).unwrap();
        let course = curve::course(law, &picked);
        for (place, share) in curve::SHARES.into_iter().enumerate() {
            let point = Point::of(&curves, place, None).unwrap();
            let (_, time) = course.iter().find(|(own, _)| (own.get() - share).abs() < 1e-9).unwrap();
            near(*time, point.time, 1e-9 * point.time);
        }
        assert!(
            course.is_sorted_by(|one, other| one.1 < other.1 && one.0.get() < other.0.get()),
            "{course:?}"
        );
    }
    let (_, first) = &plots[0];
    let steps = first.steps(|day| days(first, day)).unwrap();
    let shares: Vec<f64> = steps.iter().map(|(_, share)| share.get()).collect();
    assert_eq!((steps[0].0, steps[6].0), (70.0, 100.0));
    for (got, wanted) in shares.iter().zip([0.02, 0.11, 0.35, 0.66, 0.85, 0.95, 1.0]) {
        near(*got, wanted, 1e-12);
    }
    assert_eq!(first.steps(|_| None), None, "a day that no scale knows");
}

/// Varieties that stood in one season only cannot tell what another would do.
#[test]
fn one_season_does_not_tell_another() {
    let mut draws = stream(&["ripening", "one season"]);
    let house = made(&mut draws, 1);
    let everyone: Vec<&Curves> = house.varieties.iter().collect();
    let scatter = Scatter::of(&everyone, 1).unwrap();
    assert_eq!(scatter.seasons, None);
    let point = Point::of(&house.varieties[0], 1, Some(&scatter)).unwrap();
    assert!(point.another_plot.is_some() && point.another_season.is_none());
    // Twelve pairs of plots: within four standard errors of the truth, 0.05 squared.
    near(scatter.plots.variance / PLOTS.powi(2), 1.0, 4.0 * (2.0f64 / 12.0).sqrt());
}

/// Days of picking that say nothing are left out, and too few say nothing at all.
#[test]
fn picks_that_cannot_be() {
    let out = date(2031, 5, 10);
    let pick = |day: i64, amount| Taken { on: out.checked_add(day.days()).unwrap(), amount };
    let sound = [pick(60, 1.0), pick(64, 3.0), pick(64, 1.0), pick(70, 2.0)];
    assert_eq!(Picked::new(out, sound), None, "three days of picking");
    let odd = [pick(-4, 9.0), pick(75, 0.0), pick(76, f64::NAN), pick(400, 1.0), pick(80, 1.0)];
    let picked = Picked::new(out, sound.into_iter().chain(odd)).unwrap();
    assert_eq!((picked.taken().len(), picked.total().to_bits()), (4, 8f64.to_bits()));
}

const SINE: Clock =
    Clock { method: Method::Sine(Course::Single, CutOff::Horizontal), base: 10.0, ceiling: Some(30.0) };

/// Three years, each of whose days is worth ten degree-days over 10 by every method, and twelve over 8.
fn even_days() -> Days {
    let first = date(2030, 1, 1);
    let readings = (0..3 * 365).map(|day: i64| {
        let reading = weather::Reading { lowest: Some(20.0), highest: Some(20.0) };
        (first.checked_add(day.days()).unwrap(), reading)
    });
    Days::new(&readings.collect()).unwrap()
}

/// A fitted time is asked of a record by the clock that it was fitted by: there is no other to hand in. In days it is not
/// asked at all, and varieties that are counted differently share no scatter.
#[test]
fn a_fitted_time_goes_with_its_own_clock() {
    let (out, weather) = (date(2030, 5, 1), even_days());
    let taken = [2.0, 9.0, 24.0, 31.0, 19.0, 10.0, 5.0].into_iter().zip(0i64..);
    let taken =
        taken.map(|(amount, walk)| Taken { on: out.checked_add((70 + 5 * walk).days()).unwrap(), amount });
    let picked = Picked::new(out, taken).unwrap();
    let later = || picked.taken().iter().copied();
    let eight = Clock { base: 8.0, ..SINE };
    let season = Season::new(2030).unwrap();
    let fitted = |timeline: &Timeline| {
        fit(&[Law::LogNormal], &[(season, &picked, timeline), (season, &picked, timeline)]).unwrap()
    };
    let in_days = fitted(&Timeline::Days);
    let years = |curves: &Curves| {
        let needed = [0, 1, 2].map(|share| Point::of(curves, share, None).unwrap().needed());
        Years::of(needed, &weather, (5, 1)).days[1].clone()
    };
    assert_eq!(years(&in_days), [], "days are no warmth");
    for (clock, each) in [(SINE, 10.0), (eight, 12.0)] {
        let by_warmth = fitted(&Timeline::of_days(clock, &weather, out));
        assert_eq!(by_warmth.counted, Counted::InWarmth(clock));
        let half = Point::of(&by_warmth, 1, None).unwrap().time;
        // By the clock of ten a day the half has more days behind it than the other's number would say.
        #[expect(clippy::cast_possible_truncation, reason = "days of a season")]
        let day = (half / each).ceil() as i32 - 1;
        assert_eq!(years(&by_warmth), [(2030, Some(day)), (2031, Some(day)), (2032, Some(day))]);
        assert_eq!(Scatter::of(&[&by_warmth, &in_days], 1), None);
        assert!(Scatter::of(&[&by_warmth, &by_warmth], 1).is_some());
    }
    let [one, other] = [SINE, eight].map(|clock| Timeline::of_days(clock, &weather, out));
    assert_eq!(Scatter::of(&[&fitted(&other), &fitted(&one)], 1), None);
    let mixed = [(season, &picked, &one), (season, &picked, &other)];
    assert!(fit(&[Law::LogNormal], &mixed).is_none() && curve::course(Law::LogNormal, &mixed).is_empty());
    assert_eq!(
        one.time(&Picked::new(date(2030, 5, 2), later()).unwrap(), date(2030, 7, 20)),
        None,
        "another day"
    );
}
