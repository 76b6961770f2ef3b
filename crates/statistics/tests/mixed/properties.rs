//! What must hold of any answer: agreement with the slow way, and what a change of the data must do.

use crate::plain::{Rows, answer};
use proptest::prelude::*;
use statistics::component::Standing;
use statistics::draws::{normal, stream};
use statistics::mixed::diagnostics::diagnostics;
use statistics::mixed::means::{adjusted_means, coefficients};
use statistics::mixed::predictions::predictions;
use statistics::mixed::residual::Residual;
use statistics::mixed::terms::{Covariate, Factor, Fixed, Random, Variable};
use statistics::mixed::{Fit, Going, MixedFault, Model, criterion_at, fit};
use statistics::nested::Likelihood;

/// A small crossed trial: yields, a covariate, and each row's variety, site and block.
#[derive(Clone, Debug)]
struct Trial {
    yields: Vec<f64>,
    position: Vec<f64>,
    codes: [Vec<usize>; 3],
    weights: Vec<f64>,
}

const LEVELS: [usize; 3] = [5, 3, 4];
const NAMES: [&str; 3] = ["variety", "site", "block"];

fn trial() -> impl Strategy<Value = Trial> {
    let row = (-9.0..9.0_f64, -1.0..1.0_f64, 0..LEVELS[0], 0..LEVELS[1], 0..LEVELS[2], 0.5..2.0_f64);
    prop::collection::vec(row, 14..40).prop_map(|rows| Trial {
        yields: rows.iter().map(|row| row.0).collect(),
        position: rows.iter().map(|row| row.1).collect(),
        codes: [
            rows.iter().map(|row| row.2).collect(),
            rows.iter().map(|row| row.3).collect(),
            rows.iter().map(|row| row.4).collect(),
        ],
        weights: rows.iter().map(|row| row.5).collect(),
    })
}

impl Trial {
    fn factor(&self, at: usize) -> Factor {
        let levels = (0..LEVELS[at]).map(|level| level.to_string()).collect();
        Factor::from_codes(NAMES[at], levels, self.codes[at].clone()).unwrap()
    }

    fn variable(&self, at: usize) -> Variable {
        Variable::Factor(self.factor(at))
    }

    /// Position fixed; variety, variety x site and block random.
    fn model(&self) -> Model {
        let position = Covariate { name: "position".to_owned(), values: self.position.clone() };
        let fixed = vec![Fixed::intercept(), Fixed::of([(&position).into()])];
        let random = vec![
            Random::of([self.variable(0)]),
            Random::of([self.variable(0), self.variable(1)]),
            Random::of([self.variable(2)]),
        ];
        Model { weights: Some(self.weights.clone()), ..Model::new(self.yields.clone(), fixed, random) }
    }

    fn rows(&self) -> Rows {
        let both = self.codes[0].iter().zip(&self.codes[1]).map(|(v, s)| v * LEVELS[1] + s).collect();
        Rows {
            response: self.yields.clone(),
            columns: vec![vec![1.0; self.yields.len()], self.position.clone()],
            groups: vec![self.codes[0].clone(), both, self.codes[2].clone()],
            residual: self.weights.iter().map(|weight| 1.0 / weight).collect(),
        }
    }

    /// Rows in another order.
    fn turned(&self, by: usize) -> Self {
        let mut turned = self.clone();
        let by = by % self.yields.len();
        turned.yields.rotate_left(by);
        turned.position.rotate_left(by);
        turned.weights.rotate_left(by);
        turned.codes.iter_mut().for_each(|codes| codes.rotate_left(by));
        turned
    }
}

/// The fit, or `None` where the terms say every row.
fn restricted(model: &Model) -> Option<Fit> {
    match fit(model, Likelihood::Restricted, &mut |_| Going::On) {
        Err(MixedFault::NoResidual) => None,
        fitted => Some(fitted.unwrap()),
    }
}

fn variances(fit: &Fit) -> Vec<f64> {
    fit.components.iter().chain(&fit.residual).map(|named| named.component.variance).collect()
}

fn near(a: f64, b: f64, tolerance: f64) -> bool {
    (a - b).abs() <= tolerance * (1.0 + a.abs().max(b.abs()))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]

    /// At any variances, zero among them, both criteria are those of the whole covariance matrix.
    #[test]
    fn criteria_agree_with_the_slow_way(trial in trial(), at in prop::array::uniform3(prop_oneof![Just(0.0), 0.01..9.0_f64])) {
        let slow = answer(&trial.rows(), &at);
        let mut parameters = at.to_vec();
        parameters.push(1.0);
        let restricted = criterion_at(&trial.model(), Likelihood::Restricted, &parameters).unwrap();
        prop_assert!(near(restricted, slow.restricted, 1e-10), "{restricted} {}", slow.restricted);
        let full = criterion_at(&trial.model(), Likelihood::Full, &parameters).unwrap();
        prop_assert!(near(full, slow.full, 1e-10), "{full} {}", slow.full);
    }

    /// The optimum is one: no variance a little above or below it does better; and effects are those of the slow way.
    #[test]
    fn optimum_and_effects_agree_with_the_slow_way(trial in trial(), by_full in any::<bool>()) {
        let likelihood = if by_full { Likelihood::Full } else { Likelihood::Restricted };
        let fit = fit(&trial.model(), likelihood, &mut |_| Going::On);
        // Few rows may be said whole by variety x site: then there is no residual, and that is said.
        prop_assume!(!matches!(fit, Err(MixedFault::NoResidual)));
        let fit = fit.unwrap();
        let best = variances(&fit);
        let rows = trial.rows();
        let scaled = |variances: &[f64]| {
            let residual = variances[3];
            let mut own = trial.rows();
            own.residual.iter_mut().for_each(|cell| *cell *= residual);
            answer(&own, &variances[..3])
        };
        let slow = scaled(&best);
        let slow_criterion = if by_full { slow.full } else { slow.restricted };
        prop_assert!(near(fit.criterion, slow_criterion, 1e-10));
        let whole: f64 = best.iter().sum();
        for at in 0..4 {
            for step in [1e-3 * whole, -1e-3 * whole] {
                let mut beside = best.clone();
                beside[at] = (beside[at] + step).max(if at == 3 { 1e-6 * whole } else { 0.0 });
                let other = scaled(&beside);
                let other = if by_full { other.full } else { other.restricted };
                prop_assert!(slow_criterion <= other + 1e-9, "{at} {step} {slow_criterion} {other} {best:?}");
            }
        }
        let told = coefficients(&fit);
        for (own, (estimate, error)) in told.iter().zip(slow.fixed.iter().zip(&slow.errors)) {
            let effect = own.effect.unwrap();
            prop_assert!(near(effect.estimate, *estimate, 1e-8) && near(effect.standard_error, *error, 1e-8));
        }
        for (term, groups) in ["variety", "variety x site", "block"].iter().zip(&rows.groups) {
            let mut seen: Vec<usize> = groups.clone();
            seen.sort_unstable();
            seen.dedup();
            let place = if *term == "variety" { 0 } else if *term == "block" { 2 } else { 1 };
            for (own, group) in predictions(&fit, term).unwrap().iter().zip(seen) {
                prop_assert!(near(own.effect.estimate, slow.predictions[place][group], 1e-8));
            }
        }
    }

    /// Rows in another order, another unit, another zero: the same answer in that order, unit and zero.
    #[test]
    fn order_unit_and_zero_do_not_matter(trial in trial(), by in 0..40_usize, unit in 0.001..1000.0_f64, zero in -1e4..1e4_f64) {
        let Some(plain) = restricted(&trial.model()) else { return Ok(()) };
        let mut other = trial.turned(by);
        other.yields.iter_mut().for_each(|own| *own = unit * (*own + zero));
        let moved = restricted(&other.model()).unwrap();
        // Tables this small may have two tops of nearly one height; the same top is asked for where the search
        // took the same one.
        let stretched = moved.criterion - 2.0 * (trial.yields.len() - 2) as f64 * unit.ln();
        prop_assume!(near(plain.criterion, stretched, 1e-6));
        for (own, moved) in variances(&plain).iter().zip(variances(&moved)) {
            prop_assert!(near(own * unit * unit, moved, 1e-6), "{own} {moved} {unit}");
        }
        let (plain, moved) = (coefficients(&plain), coefficients(&moved));
        let (own, other) = (plain[0].effect.unwrap(), moved[0].effect.unwrap());
        prop_assert!(near((own.estimate + zero) * unit, other.estimate, 1e-6));
        let (own, other) = (plain[1].effect.unwrap(), moved[1].effect.unwrap());
        prop_assert!(near(own.estimate * unit, other.estimate, 1e-6));
    }

    /// Leverage lies between nothing and all, and Cook's distance is what leaving the row out does with the
    /// variances held.
    #[test]
    fn distance_is_what_leaving_out_does(trial in trial(), row in 0..14_usize) {
        let Some(fit) = restricted(&trial.model()) else { return Ok(()) };
        let told = diagnostics(&fit)[row];
        let leverage = told.leverage.unwrap();
        prop_assert!((-1e-9..=1.0 + 1e-9).contains(&leverage));
        let best = variances(&fit);
        let held = |trial: &Trial| {
            let mut rows = trial.rows();
            rows.residual.iter_mut().for_each(|cell| *cell *= best[3]);
            answer(&rows, &best[..3])
        };
        let mut without = trial.clone();
        without.yields.remove(row);
        without.position.remove(row);
        without.weights.remove(row);
        without.codes.iter_mut().for_each(|codes| { codes.remove(row); });
        let (whole, without) = (held(&trial), held(&without));
        // Moves in units of the estimates' own covariance, from the two errors and the error of their sum.
        let mut rows = trial.rows();
        rows.residual.iter_mut().for_each(|cell| *cell *= best[3]);
        let sums = rows.columns[0].iter().zip(&rows.columns[1]).map(|(a, b)| a + b).collect();
        let turned = Rows { columns: vec![sums, rows.columns[1].clone()], ..rows };
        let turned = answer(&turned, &best[..3]);
        // With columns (1 + x, x) the second coefficient is b1 - b0.
        let (v0, v1) = (whole.errors[0].powi(2), whole.errors[1].powi(2));
        let covariance = (v0 + v1 - turned.errors[1].powi(2)) / 2.0;
        let determinant = v0 * v1 - covariance * covariance;
        let moves = [whole.fixed[0] - without.fixed[0], whole.fixed[1] - without.fixed[1]];
        let quadratic = (v1 * moves[0] * moves[0] - 2.0 * covariance * moves[0] * moves[1] + v0 * moves[1] * moves[1]) / determinant;
        prop_assert!(near(told.distance.unwrap(), quadratic / 2.0, 1e-5), "{told:?} {quadratic}");
    }

    /// One residual variance a site: the criterion is the slow way's, and with equal variances that of residuals alike.
    #[test]
    fn residuals_by_site_agree_with_the_slow_way(trial in trial(), by_site in prop::array::uniform3(0.2..5.0_f64), variance in 0.0..4.0_f64) {
        let mut model = trial.model();
        let seen: Vec<bool> = (0..LEVELS[1]).map(|level| trial.codes[1].contains(&level)).collect();
        prop_assume!(seen.iter().all(|seen| *seen));
        model.residual = Residual::By(trial.factor(1));
        let mut rows = trial.rows();
        rows.residual.iter_mut().zip(&trial.codes[1]).for_each(|(cell, site)| *cell *= by_site[*site]);
        let at = [variance, 0.5, variance / 2.0];
        let slow = answer(&rows, &at);
        let parameters: Vec<f64> = at.iter().chain(&by_site).copied().collect();
        let quick = criterion_at(&model, Likelihood::Restricted, &parameters).unwrap();
        prop_assert!(near(quick, slow.restricted, 1e-10), "{quick} {}", slow.restricted);
        // The search ends at a top: no residual variance a little above or below it does better.
        if let Ok(fit) = fit(&model, Likelihood::Restricted, &mut |_| Going::On) {
            let best = variances(&fit);
            for (at, step) in (3..6).flat_map(|at| [(at, 1.001), (at, 0.999)]) {
                let mut beside = best.clone();
                beside[at] *= step;
                let other = criterion_at(&model, Likelihood::Restricted, &beside).unwrap();
                prop_assert!(fit.criterion <= other + 1e-9, "{at} {step} {} {other}", fit.criterion);
            }
        }
    }

    /// Any table is answered with finite numbers or refused by name, whatever is disconnected or empty in it.
    #[test]
    fn any_table_is_answered(
        rows in prop::collection::vec((-3..3_i32, 0..4_usize, 0..3_usize, 0..3_usize), 0..16),
        interaction in 0..3_u8,
    ) {
        let column = |pick: fn(&(i32, usize, usize, usize)) -> usize| rows.iter().map(pick).collect::<Vec<usize>>();
        let levels = |count: usize| (0..count).map(|level| level.to_string()).collect::<Vec<String>>();
        let variety = Factor::from_codes("variety", levels(5), column(|row| row.1)).unwrap();
        let site = Factor::from_codes("site", levels(4), column(|row| row.2)).unwrap();
        let block = Factor::from_codes("block", levels(3), column(|row| row.3)).unwrap();
        let mut fixed = vec![Fixed::intercept(), Fixed::of([(&variety).into()]), Fixed::of([(&site).into()])];
        if interaction == 1 {
            fixed.push(Fixed::of([(&variety).into(), (&site).into()]));
        }
        let mut random = vec![Random::of([(&block).into()])];
        if interaction == 2 {
            random.push(Random::of([(&variety).into(), (&block).into()]));
            random.push(Random::of([(&site).into()]));
        }
        let yields: Vec<f64> = rows.iter().map(|row| f64::from(row.0)).collect();
        let model = Model::new(yields, fixed, random);
        match fit(&model, Likelihood::Restricted, &mut |_| Going::On) {
            Err(fault) => {
                let named = format!("{fault:?}");
                prop_assert!(!named.starts_with("NotFound"), "{rows:?} {interaction}");
            }
            Ok(fit) => {
                prop_assert!(fit.criterion.is_finite());
                for named in fit.components.iter().chain(&fit.residual) {
                    prop_assert!(named.component.variance.is_finite());
                    if let Standing::Estimated { standard_error } = named.component.standing {
                        prop_assert!(standard_error.is_finite());
                    }
                }
                let means = adjusted_means(&fit, &["variety"]).unwrap();
                prop_assert!(means.means[4].is_none(), "a variety with no row has no mean");
                for effect in means.means.iter().flatten() {
                    prop_assert!(effect.estimate.is_finite() && effect.standard_error.is_finite());
                }
            }
        }
    }
}

/// Over 400 made trials the variances found are on average those that the plots were made with: blocks of variance 2.25 and
/// plots of 1, some plots lost, treatments fixed. Within three standard errors of such a mean.
#[test]
fn variances_are_right_on_average() {
    const TRIALS: u32 = 400;
    const TRULY: [f64; 2] = [2.25, 1.0];
    let mut chances = stream(&["unbiased components"]);
    let mut sums = [[0.0; 2]; 2];
    for _ in 0..TRIALS {
        let (mut treatment, mut block, mut yields) = (Vec::new(), Vec::new(), Vec::new());
        for number in 0..12 {
            let of_block = TRULY[0].sqrt() * normal(&mut chances);
            for treated in 0..5 {
                let own = TRULY[1].sqrt() * normal(&mut chances);
                if (number + treated) % 7 != 0 {
                    treatment.push(treated.to_string());
                    block.push(number.to_string());
                    yields.push(f64::from(treated) + of_block + own);
                }
            }
        }
        let (treatment, block) = (Factor::from_labels("t", &treatment), Factor::from_labels("b", &block));
        let fixed = vec![Fixed::intercept(), Fixed::of([(&treatment).into()])];
        let model = Model::new(yields, fixed, vec![Random::of([(&block).into()])]);
        let found = fit(&model, Likelihood::Restricted, &mut |_| Going::On).unwrap();
        let variances = [found.components[0].component.variance, found.residual[0].component.variance];
        for (sum, variance) in sums.iter_mut().zip(variances) {
            sum[0] += variance;
            sum[1] += variance * variance;
        }
    }
    for ([sum, squares], truly) in sums.into_iter().zip(TRULY) {
        let mean = sum / f64::from(TRIALS);
        let error = ((squares / f64::from(TRIALS) - mean * mean) / f64::from(TRIALS)).sqrt();
        assert!((mean - truly).abs() < 3.0 * error, "{mean} on average, {truly} in truth, error {error}");
    }
}
