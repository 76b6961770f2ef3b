//! Nested models at their edges: what is told apart, what is named, and that nothing panics.

use proptest::prelude::*;
use statistics::component::{Component, Standing, Why};
use statistics::nested::{Groups, Likelihood, Model, NestedFault, fit};

const RESPONSE: [f64; 8] = [3.0, 4.5, 2.0, 6.5, 8.0, 7.0, 1.0, 2.5];
const PAIRS: [usize; 8] = [0, 0, 1, 1, 2, 2, 3, 3];
const HALVES: [usize; 8] = [0, 0, 0, 0, 1, 1, 1, 1];
const ROWS: [usize; 8] = [0, 1, 2, 3, 4, 5, 6, 7];

fn model<'a>(columns: &'a [Vec<f64>], groups: Groups<'a>) -> Model<'a> {
    Model { response: &RESPONSE, columns, groups }
}

fn untold(component: Component) -> Option<Why> {
    match component.standing {
        Standing::NotEstimable(why) => Some(why),
        _ => None,
    }
}

fn intercept() -> Vec<f64> {
    vec![1.0; 8]
}

/// Columns of the first three pairs: with the intercept they say all that pairs say.
fn pair_columns() -> Vec<Vec<f64>> {
    let column = |pair: usize| PAIRS.iter().map(|own| f64::from(u8::from(*own == pair))).collect();
    std::iter::once(intercept()).chain((0..3).map(column)).collect()
}

/// One-way analysis by hand: means 3.75, 4.25, 7.5, 1.75; squares between 34.09375 on 3 df, within 12.875 on 4.
#[test]
fn balanced_table_by_hand() {
    let columns = [intercept()];
    let fit = fit(&model(&columns, Groups::Outer(&PAIRS)), Likelihood::Restricted).unwrap();
    let (within, between) = (12.875 / 4.0, 34.09375 / 3.0);
    assert!((fit.residual.variance - within).abs() < 1e-8);
    assert!((fit.outer.variance - (between - within) / 2.0).abs() < 1e-8);
    assert!((fit.fixed[0].estimate - 34.5 / 8.0).abs() < 1e-12);
    assert!((fit.fixed[0].standard_error - (between / 8.0).sqrt()).abs() < 1e-8);
}

#[test]
fn groups_that_never_differ_apart_are_named() {
    let columns = [intercept()];
    let same = Groups::InnerInOuter { outer: &PAIRS, inner: &PAIRS };
    let one_inner_each = fit(&model(&columns, same), Likelihood::Restricted).unwrap();
    assert_eq!(untold(one_inner_each.inner.unwrap()), Some(Why::NotSeparable));
    let single_rows = Groups::InnerInOuter { outer: &HALVES, inner: &ROWS };
    let one_row_each = fit(&model(&columns, single_rows), Likelihood::Restricted).unwrap();
    assert_eq!(untold(one_row_each.inner.unwrap()), Some(Why::NotSeparable));
    let alone = fit(&model(&columns, Groups::Outer(&ROWS)), Likelihood::Restricted).unwrap();
    assert_eq!(untold(alone.outer), Some(Why::NotSeparable));
}

#[test]
fn fixed_columns_that_say_all_are_named() {
    let columns = pair_columns();
    let fit = fit(&model(&columns, Groups::Outer(&PAIRS)), Likelihood::Restricted).unwrap();
    assert_eq!(untold(fit.outer), Some(Why::NothingToCompare));
    assert!((fit.residual.variance - 12.875 / 4.0).abs() < 1e-10);
}

#[test]
fn faults_are_named() {
    let fault = |columns: &[Vec<f64>]| {
        fit(&model(columns, Groups::Outer(&PAIRS)), Likelihood::Restricted).unwrap_err()
    };
    let mut aliased = pair_columns();
    aliased.push(aliased[1].iter().zip(&aliased[2]).map(|(a, b)| a - 2.0 * b).collect());
    assert_eq!(fault(&aliased), NestedFault::Aliased { column: 4 });
    assert_eq!(fault(&[vec![1.0; 7]]), NestedFault::Lengths { rows: 8, other: 7 });
    let mut broken = intercept();
    broken[5] = f64::INFINITY;
    assert_eq!(fault(&[broken]), NestedFault::NotFinite { row: 5 });
    assert_eq!(fault(&[RESPONSE.to_vec()]), NestedFault::NoSpread);
    let few = ROWS.map(|row| ROWS.map(|own| f64::from(u8::from(own == row))).to_vec());
    assert_eq!(fault(&few), NestedFault::TooFewRows { rows: 8, columns: 8 });
}

proptest! {
    /// Any small table is answered with finite numbers or refused by name.
    #[test]
    fn any_table_is_answered(
        rows in prop::collection::vec((-9.0..9.0_f64, 0..3_usize, 0..3_usize, -1.0..1.0_f64), 0..14),
        full in any::<bool>(),
    ) {
        let response: Vec<f64> = rows.iter().map(|row| row.0.round()).collect();
        let (outer, inner): (Vec<usize>, Vec<usize>) = rows.iter().map(|row| (row.1, row.2)).unzip();
        let columns = [vec![1.0; rows.len()], rows.iter().map(|row| row.3).collect()];
        let groups = Groups::InnerInOuter { outer: &outer, inner: &inner };
        let likelihood = if full { Likelihood::Full } else { Likelihood::Restricted };
        match fit(&Model { response: &response, columns: &columns, groups }, likelihood) {
            Ok(fit) => {
                prop_assert!(fit.criterion.is_finite() && 0.0 < fit.residual.variance);
                prop_assert!(fit.fixed.iter().all(|effect| effect.standard_error.is_finite()));
                prop_assert!(fit.outer_effects.iter().chain(&fit.inner_effects).all(|group| group.effect.estimate.is_finite()));
            }
            Err(fault) => {
                let named = matches!(fault, NestedFault::Aliased { .. } | NestedFault::TooFewRows { .. } | NestedFault::NoSpread);
                prop_assert!(named, "{fault:?}");
            }
        }
    }
}
