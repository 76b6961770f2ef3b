//! The variance components: against the dense likelihood, against each other, and under changes of unit.

use crate::dense::criterion;
use crate::house::{House, houses, rows, sums};
use proptest::prelude::*;
use statistics::component::{Component, Prior, Standing, Why};
use statistics::nested::{Groups, Likelihood, Model, NestedFit};
use statistics::variety_means::{HouseSpread, PlantSums, Priors, SpreadFault, Variances, fit, variety_mean};

fn spread_of(sums: &[Vec<PlantSums>], priors: &Priors) -> Result<HouseSpread, SpreadFault> {
    let slices: Vec<&[PlantSums]> = sums.iter().map(Vec::as_slice).collect();
    fit(&slices, priors)
}

fn spread(house: &House) -> HouseSpread {
    spread_of(&sums(house), &Priors::default()).unwrap()
}

fn nested(house: &House) -> NestedFit {
    let rows = rows(house);
    let groups = Groups::InnerInOuter { outer: &rows.outer, inner: &rows.inner };
    let model = Model { response: &rows.response, columns: &rows.columns, groups };
    statistics::nested::fit(&model, Likelihood::Restricted).unwrap()
}

fn variances(spread: &HouseSpread) -> [f64; 3] {
    [spread.season.variance, spread.plant.variance, spread.fruit.variance]
}

fn close(a: f64, b: f64, relative: f64) -> bool {
    (a - b).abs() <= relative * (1.0 + a.abs().max(b.abs()))
}

/// The slope of the dense criterion along one variance, by a difference over a small step.
fn dense_slope(house: &House, at: [f64; 3], level: usize, step: f64) -> f64 {
    let rows = rows(house);
    let mut sides = [at, at];
    sides[0][level] += step;
    // On the floor there is only one side to look to.
    sides[1][level] = (at[level] - step).max(0.0);
    let width = sides[0][level] - sides[1][level];
    (criterion(&rows, sides[0]).0 - criterion(&rows, sides[1]).0) / width
}

/// Whether two climbs ended on one top: to seven digits, or, where the variance is all but flat, to a
/// millionth of its standard error, which is what the climb promises where roundings end it.
fn same_top(one: &Component, other: &Component) -> bool {
    let error = match one.standing {
        Standing::Estimated { standard_error } => standard_error,
        _ => 0.0,
    };
    close(one.variance, other.variance, 1e-7) || (one.variance - other.variance).abs() <= 1e-6 * error
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// The criterion is the dense one, and no direction goes down from where the climb ended.
    #[test]
    fn top_of_the_dense_likelihood(house in houses()) {
        let spread = spread(&house);
        let at = variances(&spread);
        let (dense, effects) = criterion(&rows(&house), at);
        prop_assert!(close(spread.criterion, dense, 1e-9), "{} {dense}", spread.criterion);
        let step = 1e-5 * at[2];
        let standings = [spread.season.standing, spread.plant.standing, spread.fruit.standing];
        for (level, standing) in standings.into_iter().enumerate() {
            let slope = dense_slope(&house, at, level, step) * at[2];
            match standing {
                Standing::AtZero => prop_assert!(-1e-3 < slope, "level {level} slopes {slope} on the floor"),
                Standing::Estimated { standard_error } => {
                    prop_assert!(slope.abs() < 1e-3, "level {level} slopes {slope}");
                    prop_assert!(0.0 < standard_error && standard_error.is_finite());
                }
                other => prop_assert!(false, "{other:?}"),
            }
        }
        let given = Variances::new(at[0], at[1], at[2]).unwrap();
        for (plants, effect) in sums(&house).iter().zip(effects) {
            prop_assert!(close(variety_mean(plants, &given).unwrap().estimate, effect, 1e-9));
        }
    }

    /// Nowhere on a coarse grid is the dense criterion lower.
    #[test]
    fn no_better_place_on_a_grid(house in houses()) {
        let spread = spread(&house);
        let rows = rows(&house);
        let scale: f64 = variances(&spread).iter().sum();
        for season in [0.0, 0.1, 0.4, 1.2] {
            for plant in [0.0, 0.1, 0.4, 1.2] {
                for fruit in [0.02, 0.1, 0.4, 1.2] {
                    let (dense, _) = criterion(&rows, [season * scale, plant * scale, fruit * scale]);
                    prop_assert!(spread.criterion <= dense + 1e-8);
                }
            }
        }
    }

    /// Both engines give the same components, errors, criterion and means.
    #[test]
    fn both_engines_agree(house in houses()) {
        let (spread, nested) = (spread(&house), nested(&house));
        let pairs = [(spread.season, nested.outer), (spread.plant, nested.inner.unwrap()), (spread.fruit, nested.residual)];
        for (one, other) in pairs {
            prop_assert!(same_top(&one, &other), "{one:?} {other:?}");
            match (one.standing, other.standing) {
                (Standing::Estimated { standard_error: a }, Standing::Estimated { standard_error: b }) => {
                    prop_assert!(close(a, b, 1e-6));
                }
                (a, b) => prop_assert_eq!(a, b),
            }
        }
        prop_assert!(close(spread.criterion, nested.criterion, 1e-9));
        let at = variances(&spread);
        let given = Variances::new(at[0], at[1], at[2]).unwrap();
        for (plants, effect) in sums(&house).iter().zip(&nested.fixed) {
            let mean = variety_mean(plants, &given).unwrap();
            prop_assert!(close(mean.estimate, effect.estimate, 1e-7));
            prop_assert!(close(mean.standard_error, effect.standard_error, 1e-6));
        }
    }

    /// Grams or ounces, and from any zero: the components scale with the square of the unit.
    #[test]
    fn unit_and_origin_do_not_matter(house in houses(), unit in 0.01..100.0_f64, origin in -50.0..50.0_f64) {
        let plain = spread(&house);
        let mut other = house;
        other.iter_mut().flatten().flatten().flatten().for_each(|fruit| *fruit = origin + unit * *fruit);
        for (a, b) in variances(&plain).iter().zip(variances(&spread(&other))) {
            prop_assert!(close(*a, b / (unit * unit), 1e-6), "{a} {b}");
        }
    }

    /// The order in which plants are told does not matter, beyond where roundings end the climb.
    #[test]
    fn order_does_not_matter(house in houses()) {
        let told = sums(&house);
        let mut backwards = told.clone();
        backwards.iter_mut().for_each(|plants| plants.reverse());
        backwards.reverse();
        let [a, b] = [told, backwards].map(|sums| spread_of(&sums, &Priors::default()).unwrap());
        for (a, b) in [(a.season, b.season), (a.plant, b.plant), (a.fruit, b.fruit)] {
            prop_assert!(same_top(&a, &b), "{a:?} {b:?}");
        }
    }

    /// A heavy prior holds a component where it is; a light one hardly moves it.
    #[test]
    fn priors_pull_as_much_as_they_weigh(house in houses(), variance in 0.1..2.0_f64) {
        let told = sums(&house);
        let with = |degrees: f64| {
            let prior = Prior::new(variance, degrees);
            spread_of(&told, &Priors { season: prior, plant: prior, fruit: prior }).unwrap()
        };
        for level in variances(&with(1e9)) {
            prop_assert!(close(level, variance, 1e-5), "{level} {variance}");
        }
        let (light, none) = (with(1e-9), spread(&house));
        prop_assert!(close(light.criterion, none.criterion, 1e-4), "{} {}", light.criterion, none.criterion);
    }

    /// Any part of a house gives an answer or a named fault: never NaN, never a panic.
    #[test]
    fn any_house_is_answered(
        house in prop::collection::vec(
            prop::collection::vec((0..3_u32, 0..4_u64, -1e6..1e6_f64, 0.0..1e6_f64), 0..5), 0..4),
        degrees in prop::option::of(0.1..100.0_f64),
    ) {
        let plant = |(season, fruit_count, mean, spread): (u32, u64, f64, f64)| PlantSums {
            season, fruit_count, mean, sum_of_squares: if fruit_count < 2 { 0.0 } else { spread },
        };
        let sums: Vec<Vec<PlantSums>> = house.into_iter().map(|of| of.into_iter().map(plant).collect()).collect();
        let prior = degrees.and_then(|degrees| Prior::new(1e4, degrees));
        match spread_of(&sums, &Priors { season: prior, plant: prior, fruit: prior }) {
            Ok(spread) => {
                prop_assert!(variances(&spread).iter().all(|variance| variance.is_finite() && 0.0 <= *variance));
                prop_assert!(spread.criterion.is_finite() && 0.0 < spread.fruit.variance);
            }
            Err(fault) => prop_assert!(fault != SpreadFault::NotPossible && fault != SpreadFault::NotFound, "{fault:?}"),
        }
    }

    /// Parts of a plant's fruits merge to the whole.
    #[test]
    fn parts_merge(fruits in prop::collection::vec(-1e3..1e3_f64, 1..40), at in any::<prop::sample::Index>()) {
        let all = |fruits: &[f64]| {
            let mut sums = PlantSums::empty(0);
            fruits.iter().for_each(|fruit| sums.add(*fruit));
            sums
        };
        let (first, second) = fruits.split_at(at.index(fruits.len()));
        let (whole, mut merged) = (all(&fruits), all(first));
        merged.merge(&all(second));
        prop_assert_eq!(whole.fruit_count, merged.fruit_count);
        prop_assert!(close(whole.mean, merged.mean, 1e-9));
        prop_assert!(close(whole.sum_of_squares, merged.sum_of_squares, 1e-9));
    }
}

fn plant(season: u32, fruits: &[f64]) -> PlantSums {
    let mut sums = PlantSums::empty(season);
    fruits.iter().for_each(|fruit| sums.add(*fruit));
    sums
}

fn untold(component: Component) -> Option<Why> {
    match component.standing {
        Standing::NotEstimable(why) => Some(why),
        _ => None,
    }
}

/// One season of every variety: nothing to compare seasons by, and the rest is still told.
#[test]
fn one_season_each_leaves_seasons_untold() {
    let variety =
        |mean: f64| vec![plant(1, &[mean, mean + 1.0, mean + 0.5]), plant(1, &[mean + 2.0, mean + 2.5])];
    let sums = [variety(0.0), variety(7.0)];
    let spread = spread_of(&sums, &Priors::default()).unwrap();
    assert_eq!(untold(spread.season), Some(Why::NothingToCompare));
    assert_eq!(untold(spread.plant), None);
    let prior = Prior::new(0.07, 10.0);
    let with = spread_of(&sums, &Priors { season: prior, ..Priors::default() }).unwrap();
    assert!(matches!(with.season.standing, Standing::FromPrior { .. }));
    assert!((with.season.variance - 0.07).abs() < 1e-9);
    assert!((with.plant.variance - spread.plant.variance).abs() < 1e-8);
}

/// One fruit of every plant: the fruits' variance takes the plants' in, and says so.
#[test]
fn one_fruit_each_leaves_plants_untold() {
    let variety = |mean: f64| vec![plant(1, &[mean]), plant(1, &[mean + 1.0]), plant(2, &[mean + 3.0])];
    let spread = spread_of(&[variety(0.0), variety(5.0)], &Priors::default()).unwrap();
    assert_eq!(untold(spread.plant), Some(Why::NotSeparable));
    assert!(0.0 < spread.fruit.variance);
}

/// One plant in every season: the seasons' variance takes the plants' in.
#[test]
fn one_plant_each_leaves_plants_untold() {
    let variety = |mean: f64| vec![plant(1, &[mean, mean + 0.1]), plant(2, &[mean + 1.0, mean + 1.2])];
    let spread = spread_of(&[variety(0.0), variety(5.0)], &Priors::default()).unwrap();
    assert_eq!(untold(spread.plant), Some(Why::NotSeparable));
    assert_eq!(untold(spread.season), None);
}

/// Nothing, a single fruit, and fruits all alike are named, not guessed.
#[test]
fn empty_and_flat_houses_are_named() {
    let fault = |sums: &[Vec<PlantSums>]| spread_of(sums, &Priors::default()).unwrap_err();
    assert_eq!(fault(&[]), SpreadFault::NothingToCompare);
    assert_eq!(fault(&[vec![plant(1, &[3.0])]]), SpreadFault::NothingToCompare);
    assert_eq!(fault(&[vec![plant(1, &[3.0, 3.0]), plant(2, &[3.0, 3.0])]]), SpreadFault::NoSpread);
    assert_eq!(fault(&[vec![plant(1, &[f64::NAN])]]), SpreadFault::NotPossible);
    assert_eq!(variety_mean(&[PlantSums::empty(1)], &Variances::new(0.1, 0.1, 0.1).unwrap()), None);
}

/// A balanced table by hand: two varieties, one season, two plants of two fruits. Mean squares: plants 4
/// (2 df, each pair of means 2 apart), fruits 0.5 (4 df), so fruits 0.5 and plants (4 - 0.5) / 2 = 1.75;
/// with a prior of 1 on 4 df for fruits their variance is (4 x 0.5 + 4 x 1) / 8 = 0.75, plants 1.625.
#[test]
fn a_prior_pools_sums_of_squares() {
    let variety = |mean: f64| vec![plant(1, &[mean - 0.5, mean + 0.5]), plant(1, &[mean + 1.5, mean + 2.5])];
    let sums = [variety(0.0), variety(9.0)];
    let near = |found: f64, expected: f64| assert!((found - expected).abs() < 1e-8, "{found} {expected}");
    let plain = spread_of(&sums, &Priors::default()).unwrap();
    near(plain.fruit.variance, 0.5);
    near(plain.plant.variance, 1.75);
    let with = spread_of(&sums, &Priors { fruit: Prior::new(1.0, 4.0), ..Priors::default() }).unwrap();
    near(with.fruit.variance, 0.75);
    near(with.plant.variance, 1.625);
}
