//! What must hold of any model of counts, and agreement with slower, plainer ways.

use proptest::prelude::*;
use record::share::Share;
use statistics::component::Standing;
use statistics::counts::{CountFault, CountFit, Family, Model, Note, Shape, fit};
use statistics::draws::{normal, stream};

/// Counts in groups.
#[derive(Clone, Debug)]
struct Table {
    seen: Vec<u32>,
    looked_at: Vec<u32>,
    treatment: Vec<f64>,
    group: Vec<usize>,
    other: Vec<usize>,
}

fn table() -> impl Strategy<Value = Table> {
    let row = (0..12_u32, 1..12_u32, any::<bool>(), 0..4_usize, 0..3_usize);
    prop::collection::vec(row, 12..40).prop_map(|rows| Table {
        seen: rows.iter().map(|row| row.0).collect(),
        looked_at: rows.iter().map(|row| row.0 + row.1).collect(),
        treatment: rows.iter().map(|row| f64::from(u8::from(row.2))).collect(),
        group: rows.iter().map(|row| row.3).collect(),
        other: rows.iter().map(|row| row.4).collect(),
    })
}

/// An intercept and the treatment, where both levels are there.
fn columns(table: &Table) -> Option<Vec<Vec<f64>>> {
    let treated: f64 = table.treatment.iter().sum();
    (0.0 < treated && treated < table.treatment.len() as f64)
        .then(|| vec![vec![1.0; table.seen.len()], table.treatment.clone()])
}

fn families(table: &Table) -> [Family<'_>; 3] {
    [Family::Poisson, Family::NegativeBinomial, Family::Binomial { looked_at: &table.looked_at }]
}

fn fitted(table: &Table, family: Family<'_>, columns: &[Vec<f64>], groups: &[Vec<usize>]) -> CountFit {
    fit(&Model { family, seen: &table.seen, columns, groups, offset: None, weights: None }).unwrap()
}

fn numbers(fit: &CountFit) -> Vec<f64> {
    let effects = fit.fixed.iter().chain(fit.group_effects.iter().flatten());
    let mut all: Vec<f64> = effects.flat_map(|effect| [effect.estimate, effect.standard_error]).collect();
    all.extend(fit.between.iter().map(|component| component.variance));
    all.extend([fit.log_likelihood, fit.deviance, fit.scatter.chi_square]);
    all.extend(fit.fixed_covariance.iter().flatten().chain(&fit.means));
    all
}

fn level() -> Share {
    Share::new(0.95).unwrap()
}

/// The log-likelihood of Poisson counts of which groups differ, integrated plainly over each group's effect about its
/// mode, eight of its own widths to either side; and how far Laplace's approximation of it may be off: the next terms of
/// its series, fourth / (8 bend^2) and 5 third^2 / (24 bend^3) in derivatives at the mode, added up.
fn integrated(table: &Table, fit: &CountFit) -> (f64, f64) {
    let spread = fit.between[0].standard_deviation();
    let place = |row: usize, z: f64| {
        fit.fixed[0].estimate + fit.fixed[1].estimate * table.treatment[row] + spread * z
    };
    let of_group = |group: usize| {
        let rows: Vec<usize> = (0..table.seen.len()).filter(|row| table.group[*row] == group).collect();
        let log = |z: f64| {
            let one = |row: &usize| {
                let (seen, place) = (f64::from(table.seen[*row]), place(*row, z));
                seen * place - place.exp() - (1..=table.seen[*row]).map(|k| f64::from(k).ln()).sum::<f64>()
            };
            rows.iter().map(one).sum::<f64>() - 0.5 * z * z
        };
        let (mode, width) = peak(|z| {
            let means = rows.iter().map(|row| (f64::from(table.seen[*row]), place(*row, z).exp()));
            let (slope, bend) = means.fold((-z, 1.0), |(slope, bend), (seen, mean)| {
                (slope + spread * (seen - mean), bend + spread * spread * mean)
            });
            (slope, bend)
        });
        let (steps, top) = (2000, log(mode));
        let step = 16.0 * width / f64::from(steps);
        let at = |number| (log(mode - 8.0 * width + step * f64::from(number)) - top).exp();
        let whole = top + (step * (0..=steps).map(at).sum::<f64>() / std::f64::consts::TAU.sqrt()).ln();
        let mean: f64 = rows.iter().map(|row| place(*row, mode).exp()).sum();
        let bend = width.powi(-2);
        let (third, fourth) = (spread.powi(3) * mean, spread.powi(4) * mean);
        (whole, fourth / (8.0 * bend.powi(2)) + 5.0 * third.powi(2) / (24.0 * bend.powi(3)))
    };
    let groups = (0..4).filter(|group| table.group.contains(group)).map(of_group);
    groups.fold((0.0, 0.0), |(whole, next), (own, term)| (whole + own, next + term))
}

/// Where a concave function's slope vanishes, and one over the root of its bend there.
fn peak(slope_and_bend: impl Fn(f64) -> (f64, f64)) -> (f64, f64) {
    let mut at = 0.0;
    for _ in 0..100 {
        let (slope, bend) = slope_and_bend(at);
        at += (slope / bend).clamp(-1.0, 1.0);
    }
    (at, slope_and_bend(at).1.sqrt().recip())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Every number told is a number, whatever was counted; groups of no spread give the plain model exactly.
    #[test]
    fn nothing_told_is_without_number(table in table()) {
        let Some(columns) = columns(&table) else { return Ok(()) };
        for family in families(&table) {
            let groups = [table.group.clone(), table.other.clone()];
            let (mixed, plain) =
                (fitted(&table, family, &columns, &groups), fitted(&table, family, &columns, &[]));
            prop_assert!(numbers(&mixed).iter().chain(&numbers(&plain)).all(|number| number.is_finite()));
            prop_assert!(!mixed.notes.contains(&Note::NotAtTheTop), "{mixed:?}");
            prop_assert!(plain.log_likelihood <= mixed.log_likelihood + 1e-7);
            if mixed.between.iter().all(|component| component.standing == Standing::AtZero) {
                prop_assert!((plain.log_likelihood - mixed.log_likelihood).abs() < 1e-7);
                for (own, other) in mixed.fixed.iter().zip(&plain.fixed) {
                    prop_assert!((own.estimate - other.estimate).abs() < 1e-5);
                }
            }
        }
    }

    /// A plain Poisson or binomial model gives each treatment's pooled mean.
    #[test]
    fn plain_models_give_pooled_means(table in table()) {
        let Some(columns) = columns(&table) else { return Ok(()) };
        for family in families(&table) {
            let fit = fitted(&table, family, &columns, &[]);
            for treated in [0.0, 1.0] {
                let rows = || (0..table.seen.len()).filter(|row| table.treatment[*row] == treated);
                let seen: f64 = rows().map(|row| f64::from(table.seen[row])).sum();
                let of: f64 = match family {
                    Family::Binomial { .. } => rows().map(|row| f64::from(table.looked_at[row])).sum(),
                    _ => rows().count() as f64,
                };
                let found = fit.predict(&[1.0, treated], 0.0, level()).unwrap();
                prop_assert!((found.mean - seen / of).abs() < 1e-6 * (1.0 + seen / of), "{found:?} {}", seen / of);
                prop_assert!(found.low <= found.mean && found.high.is_none_or(|high| found.mean <= high));
            }
        }
    }

    /// An offset of a logarithm is a factor; a weight of two is the row twice; order does not matter.
    #[test]
    fn offsets_weights_and_order_mean_what_they_say(table in table(), factor in 0.2..5.0_f64) {
        let Some(columns) = columns(&table) else { return Ok(()) };
        let (count, groups) = (table.seen.len(), [table.group.clone()]);
        let model = Model {
            family: Family::Poisson, seen: &table.seen, columns: &columns, groups: &groups,
            offset: None, weights: None,
        };
        let plain = fit(&model).unwrap();
        let offset = vec![factor.ln(); count];
        let moved = fit(&Model { offset: Some(&offset), ..model }).unwrap();
        prop_assert!((plain.fixed[0].estimate - factor.ln() - moved.fixed[0].estimate).abs() < 1e-4);
        prop_assert!((plain.log_likelihood - moved.log_likelihood).abs() < 1e-7);

        let twice = |list: &[u32]| [list, list].concat();
        let doubled = Table {
            seen: twice(&table.seen),
            looked_at: twice(&table.looked_at),
            treatment: table.treatment.repeat(2),
            group: table.group.repeat(2),
            other: table.other.repeat(2),
        };
        let long: Vec<Vec<f64>> = columns.iter().map(|column| column.repeat(2)).collect();
        let pairs = fitted(&doubled, Family::Poisson, &long, std::slice::from_ref(&doubled.group));
        let weights = vec![2.0; count];
        let weighed = fit(&Model { weights: Some(&weights), ..model }).unwrap();
        prop_assert!((pairs.log_likelihood - weighed.log_likelihood).abs() < 1e-7);

        let backwards = Table {
            seen: table.seen.iter().rev().copied().collect(),
            looked_at: table.looked_at.iter().rev().copied().collect(),
            treatment: table.treatment.iter().rev().copied().collect(),
            group: table.group.iter().rev().map(|group| 7 * group).collect(),
            other: table.other.iter().rev().copied().collect(),
        };
        let turned: Vec<Vec<f64>> = columns.iter().map(|column| column.iter().rev().copied().collect()).collect();
        let again = fitted(&backwards, Family::Poisson, &turned, std::slice::from_ref(&backwards.group));
        prop_assert!((again.log_likelihood - plain.log_likelihood).abs() < 1e-7);
    }

    /// Laplace's approximation lies close to the integral that it stands for.
    #[test]
    fn laplace_is_close_to_the_integral(table in table()) {
        let Some(columns) = columns(&table) else { return Ok(()) };
        let fit = fitted(&table, Family::Poisson, &columns, std::slice::from_ref(&table.group));
        prop_assume!(!fit.notes.iter().any(|note| matches!(note, Note::Separated { .. })));
        let (whole, next) = integrated(&table, &fit);
        let off = (fit.log_likelihood - whole).abs();
        prop_assert!(off <= next + 1e-6, "{off} off, where the next terms come to {next}");
    }
}

/// Counts of one treatment are all zero: its rows are named, the rest is as without them.
#[test]
fn an_empty_cell_is_told() {
    let seen: Vec<u32> = vec![3, 5, 4, 2, 6, 0, 0, 0, 0, 0];
    let treatment: Vec<f64> = (0..10).map(|row| f64::from(u8::from(5 <= row))).collect();
    let columns = vec![vec![1.0; 10], treatment];
    let looked_at = vec![8; 10];
    for family in [Family::Poisson, Family::NegativeBinomial, Family::Binomial { looked_at: &looked_at }] {
        for groups in [vec![], vec![vec![0, 1, 0, 1, 0, 1, 0, 1, 0, 1]]] {
            let model = Model {
                family,
                seen: &seen,
                columns: &columns,
                groups: &groups,
                offset: None,
                weights: None,
            };
            let fit = fit(&model).unwrap();
            assert_eq!(fit.notes.first(), Some(&Note::Separated { rows: vec![5, 6, 7, 8, 9] }), "{family:?}");
            assert!(numbers(&fit).iter().all(|number| number.is_finite()), "{fit:?}");
            let kept = fit.predict(&[1.0, 0.0], 0.0, level()).unwrap();
            let whole = if matches!(family, Family::Binomial { .. }) { 0.5 } else { 4.0 };
            assert!((kept.mean / whole - 1.0).abs() < 1e-4, "{kept:?}");
            let gone = fit.predict(&[1.0, 1.0], 0.0, level()).unwrap();
            assert!(gone.mean < 1e-6 && gone.low < gone.mean, "{gone:?}");
        }
    }
}

/// Nothing seen anywhere is still told without a number missing.
#[test]
fn nothing_at_all_is_told() {
    let (seen, columns) = (vec![0; 6], vec![vec![1.0; 6]]);
    let groups = [vec![0, 0, 1, 1, 2, 2]];
    for family in [Family::Poisson, Family::NegativeBinomial, Family::Binomial { looked_at: &[5; 6] }] {
        let model =
            Model { family, seen: &seen, columns: &columns, groups: &groups, offset: None, weights: None };
        let fit = fit(&model).unwrap();
        assert_eq!(fit.notes.first(), Some(&Note::Separated { rows: (0..6).collect() }), "{family:?}");
        assert!(numbers(&fit).iter().all(|number| number.is_finite()), "{fit:?}");
    }
}

/// Counts that scatter no more than rare events have no shape: the fit is the Poisson one.
#[test]
fn even_counts_have_no_shape() {
    let (seen, columns) = (vec![4, 5, 6, 5, 4, 5], vec![vec![1.0; 6]]);
    let model = Model {
        family: Family::NegativeBinomial,
        seen: &seen,
        columns: &columns,
        groups: &[],
        offset: None,
        weights: None,
    };
    let found = fit(&model).unwrap();
    assert_eq!(found.shape, Some(Shape::Endless));
    let poisson = fit(&Model { family: Family::Poisson, ..model }).unwrap();
    assert_eq!(found.fixed, poisson.fixed);
}

/// Lists that cannot be fitted are refused by name.
#[test]
fn what_cannot_be_fitted_is_refused() {
    let (seen, one) = (vec![1, 2, 3], vec![vec![1.0; 3]]);
    let model = Model {
        family: Family::Poisson,
        seen: &seen,
        columns: &one,
        groups: &[],
        offset: None,
        weights: None,
    };
    let refused = |model: &Model<'_>| fit(model).unwrap_err();
    assert_eq!(refused(&Model { seen: &[], columns: &[vec![]], ..model }), CountFault::Empty);
    let twice = vec![vec![1.0; 3], vec![2.0; 3]];
    assert_eq!(refused(&Model { columns: &twice, ..model }), CountFault::Aliased { column: 1 });
    let short = CountFault::Lengths { rows: 3, other: 2 };
    assert_eq!(refused(&Model { groups: &[vec![0, 1]], ..model }), short);
    let few = Family::Binomial { looked_at: &[3, 3, 2] };
    assert_eq!(refused(&Model { family: few, ..model }), CountFault::MoreThanLookedAt { row: 2 });
    assert_eq!(
        refused(&Model { weights: Some(&[1.0, -1.0, 1.0]), ..model }),
        CountFault::NotFinite { row: 1 }
    );
    assert_eq!(
        refused(&Model { offset: Some(&[f64::NAN, 0.0, 0.0]), ..model }),
        CountFault::NotFinite { row: 0 }
    );
}

/// Crossed groupings of known spread are found again: 60 by 40 groups, 2,400 counts; spreads 0.4 and 0.6 within four of
/// their errors, and the intercept too.
#[test]
fn crossed_spreads_are_found_again() {
    let mut chance = stream(&["crossed counts"]);
    let first: Vec<f64> = (0..60).map(|_| 0.4 * normal(&mut chance)).collect();
    let second: Vec<f64> = (0..40).map(|_| 0.6 * normal(&mut chance)).collect();
    let rows: Vec<(usize, usize)> = (0..60).flat_map(|a| (0..40).map(move |b| (a, b))).collect();
    let seen: Vec<u32> =
        rows.iter().map(|(a, b)| poisson(&mut chance, (1.0 + first[*a] + second[*b]).exp())).collect();
    let groups = [rows.iter().map(|row| row.0).collect(), rows.iter().map(|row| row.1).collect::<Vec<_>>()];
    let columns = [vec![1.0; rows.len()]];
    let model = Model {
        family: Family::Poisson,
        seen: &seen,
        columns: &columns,
        groups: &groups,
        offset: None,
        weights: None,
    };
    let fit = fit(&model).unwrap();
    assert!(fit.notes.is_empty(), "{:?}", fit.notes);
    for (component, spread) in fit.between.iter().zip([0.4, 0.6_f64]) {
        let Standing::Estimated { standard_error } = component.standing else { panic!("{component:?}") };
        assert!((component.variance - spread * spread).abs() < 4.0 * standard_error, "{component:?}");
    }
    assert!((fit.fixed[0].estimate - 1.0).abs() < 4.0 * fit.fixed[0].standard_error);
}

/// A Poisson draw by counting exponential waits.
fn poisson(chance: &mut impl rand::Rng, mean: f64) -> u32 {
    use rand::RngExt;
    let (mut waited, mut count) = (0.0, 0);
    loop {
        waited -= (1.0 - chance.random::<f64>()).ln();
        if mean < waited {
            return count;
        }
        count += 1;
    }
}
