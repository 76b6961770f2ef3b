//! What must hold of any bed: turned, mirrored, tilted, it is the same ground.

use proptest::prelude::*;
use statistics::mixed::means::adjusted_means;
use statistics::mixed::terms::{Factor, Fixed};
use statistics::mixed::{Going, MixedFault, Model};
use statistics::nested::Likelihood;
use statistics::spatial::bed::{Bed, BedFault, Place};
use statistics::spatial::splines::Segments;
use statistics::spatial::variogram::variogram;
use statistics::spatial::{Nugget, Plane, SpatialFault, SpatialFit, Trend, Trial, fit};

/// Plots of a bed: place, variety and yield, some places without one.
type Plots = Vec<(Place, usize, f64)>;

const VARIETIES: usize = 5;

fn plots() -> impl Strategy<Value = Plots> {
    (5_u32..8, 5_u32..9).prop_flat_map(|(rows, columns)| {
        let plot = (0..VARIETIES, -1.0..1.0_f64, 0..10_u8);
        prop::collection::vec(plot, (rows * columns) as usize).prop_map(move |drawn| {
            let place = |at: usize| Place { row: at as u32 / columns, column: at as u32 % columns };
            let known = drawn.iter().enumerate().filter(|(_, plot)| 0 < plot.2);
            known
                .map(|(at, (variety, chance, _))| {
                    let Place { row, column } = place(at);
                    let ground = (f64::from(row) * 0.9).sin() * 2.0 + f64::from(column) * 0.3;
                    (place(at), *variety, *variety as f64 + ground + chance)
                })
                .collect()
        })
    })
}

fn trial(plots: &Plots) -> Trial {
    let bed =
        Bed::new(plots.iter().map(|own| own.0.row).collect(), plots.iter().map(|own| own.0.column).collect());
    let levels = (0..VARIETIES).map(|own| own.to_string()).collect();
    let variety = Factor::from_codes("variety", levels, plots.iter().map(|own| own.1).collect()).unwrap();
    let fixed = vec![Fixed::intercept(), Fixed::of([(&variety).into()])];
    let model = Model::new(plots.iter().map(|own| own.2).collect(), fixed, vec![]);
    Trial { model, bed: bed.unwrap(), plane: Plane::LeftOut }
}

fn moved(plots: &Plots, to: impl Fn(Place) -> Place) -> Plots {
    plots.iter().map(|(place, variety, own)| (to(*place), *variety, *own)).collect()
}

fn fitted(plots: &Plots, trend: Trend) -> Result<SpatialFit, SpatialFault> {
    fit(&trial(plots), trend, Likelihood::Restricted, &mut |_| Going::On)
}

/// Criterion, differences between varieties, and trend by place are the same, places moved as told.
fn same(one: &SpatialFit, other: &SpatialFit, to: impl Fn(Place) -> Place) -> Result<(), TestCaseError> {
    let (a, b) = (one.fit.criterion, other.fit.criterion);
    prop_assert!((a - b).abs() < 1e-6 * (1.0 + a.abs()), "criterion {a} {b}");
    differences(one, other)?;
    let there = other.ground();
    for ground in one.ground() {
        let beside = there.iter().find(|own| own.place == to(ground.place)).unwrap();
        prop_assert!((ground.trend - beside.trend).abs() < 1e-3, "{ground:?} {beside:?}");
    }
    Ok(())
}

fn differences(one: &SpatialFit, other: &SpatialFit) -> Result<(), TestCaseError> {
    let means = [one, other].map(|own| adjusted_means(&own.fit, &["variety"]).unwrap());
    let told = |at: usize| Some((means[0].means[at]?.estimate, means[1].means[at]?.estimate));
    for at in 1..VARIETIES {
        if let (Some(own), Some(first)) = (told(at), told(0)) {
            let (a, b) = (own.0 - first.0, own.1 - first.1);
            prop_assert!((a - b).abs() < 1e-4 * (1.0 + a.abs()), "variety {at}: {a} {b}");
        }
    }
    Ok(())
}

const SPLINES: Trend = Trend::Splines(Segments { rows: 3, columns: 4 });
const TURNED: Trend = Trend::Splines(Segments { rows: 4, columns: 3 });
const NEIGHBOURS: Trend = Trend::Autoregression(Nugget::LeftOut);

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    /// A bed seen from the other side has the same trend, turned round.
    #[test]
    fn mirrored_beds_are_the_same(plots in plots()) {
        let last = plots.iter().map(|own| own.0.row).max().unwrap();
        let mirror = |place: Place| Place { row: last - place.row.min(last), ..place };
        // Rows are counted from any number, so that a missing first row moves nothing.
        let first = trial(&plots).bed.first().row;
        prop_assume!(first == 0);
        // The five parts of the curves turn about the first row, so they are not the same from the other end.
        for trend in [Trend::RowsAndColumns, NEIGHBOURS] {
            let pair = (fitted(&plots, trend), fitted(&moved(&plots, mirror), trend));
            let (Ok(one), Ok(other)) = pair else { continue };
            same(&one, &other, mirror)?;
        }
    }

    /// Rows and columns may change places.
    #[test]
    fn turned_beds_are_the_same(plots in plots()) {
        let turn = |place: Place| Place { row: place.column, column: place.row };
        for (trend, turned) in [(SPLINES, TURNED), (NEIGHBOURS, NEIGHBOURS)] {
            let pair = (fitted(&plots, trend), fitted(&moved(&plots, turn), turned));
            let (Ok(one), Ok(other)) = pair else { continue };
            same(&one, &other, turn)?;
        }
    }

    /// A slope over the whole bed moves the trend and nothing else.
    #[test]
    fn a_slope_moves_the_trend_alone(plots in plots(), down in -3.0..3.0_f64, across in -3.0..3.0_f64) {
        let tilt = |place: Place| down * f64::from(place.row) + across * f64::from(place.column);
        let tilted: Plots = plots.iter().map(|own| (own.0, own.1, own.2 + tilt(own.0))).collect();
        let (Ok(one), Ok(other)) = (fitted(&plots, SPLINES), fitted(&tilted, SPLINES)) else { return Ok(()) };
        prop_assert!((one.fit.criterion - other.fit.criterion).abs() < 1e-6 * (1.0 + one.fit.criterion.abs()));
        differences(&one, &other)?;
        for (own, beside) in one.left().iter().zip(other.left()) {
            prop_assert!((own.left - beside.left).abs() < 1e-3, "{own:?} {beside:?}");
        }
    }

    /// Every pair of plots is counted once, and equal plots are no distance apart.
    #[test]
    fn variograms_count_pairs_once(plots in plots()) {
        let (bed, count) = (trial(&plots).bed, plots.len());
        let yields: Vec<f64> = plots.iter().map(|own| own.2).collect();
        let distances = variogram(&bed, &yields);
        prop_assert_eq!(distances.iter().map(|own| own.pairs as usize).sum::<usize>(), count * (count - 1) / 2);
        prop_assert!(variogram(&bed, &vec![3.0; count]).iter().all(|own| own.semivariance == 0.0));
    }
}

/// Four plots in a line, by hand: neighbours differ by 1, 2 and 4.
#[test]
fn a_variogram_by_hand() {
    let bed = Bed::new(vec![1; 4], vec![1, 2, 3, 4]).unwrap();
    let told = variogram(&bed, &[0.0, 1.0, 3.0, 7.0]);
    let semivariances: Vec<f64> = told.iter().map(|own| own.semivariance).collect();
    assert_eq!(semivariances, [21.0 / 6.0, 45.0 / 4.0, 49.0 / 2.0]);
}

#[test]
fn faults_are_said() {
    assert_eq!(Bed::new(vec![1, 1], vec![2, 2]), Err(BedFault::Twice(Place { row: 1, column: 2 })));
    assert_eq!(Bed::new(vec![], vec![]), Err(BedFault::Empty));
    assert!(matches!(Bed::new(vec![0, u32::MAX], vec![0, u32::MAX]), Err(BedFault::TooSparse { .. })));
    let plots: Plots = (0..16)
        .map(|at| (Place { row: at / 4, column: at % 4 }, at as usize % 4, f64::from(at * at % 7)))
        .collect();
    let trial = trial(&plots);
    let stopped = fit(&trial, NEIGHBOURS, Likelihood::Restricted, &mut |_| Going::Stop);
    assert_eq!(stopped.unwrap_err(), SpatialFault::Mixed(MixedFault::Stopped));
    let weighted = Trial { model: Model { weights: Some(vec![1.0; 16]), ..trial.model.clone() }, ..trial };
    let refused = fit(&weighted, NEIGHBOURS, Likelihood::Restricted, &mut |_| Going::On);
    assert_eq!(refused.unwrap_err(), SpatialFault::OtherResidual);
}
