//! Spring oats in incomplete blocks: varieties fixed, then random.
//!
//! Data: John and Williams 1995, Cyclic and Computer Generated Designs, p. 146. Expected values: R 4.2.2 with
//! lme4 1.1-31, lmerTest 3.1-3, pbkrtest 0.5.2, emmeans 1.8.4-1 (`alpha_spring_oats.R` beside the data).

use crate::oracles::{agrees, agrees_within, golden, numbers, table};
use crate::trial::{
    coefficients_agree, factor, fit_agrees, main_effect, means_agree, place, predictions_agree, random,
    restricted,
};
use serde_json::{Value, json};
use statistics::mixed::heritability::{generalised, of_means};
use statistics::mixed::kenward_roger::KenwardRoger;
use statistics::mixed::means::adjusted_means;
use statistics::mixed::satterthwaite::Satterthwaite;
use statistics::mixed::terms::{Factor, Fixed};
use statistics::mixed::{Fit, Model, criterion_at, tests};
use statistics::nested::Likelihood;

/// Degrees of freedom come from numerical second derivatives over there: good to about eight digits.
const DEGREES: f64 = 1e-6;

struct Oats {
    yields: Vec<f64>,
    variety: Factor,
    replicate: Factor,
    block: Factor,
    golden: Value,
}

fn oats() -> Option<Oats> {
    let golden = golden("stats/alpha_spring_oats.json")?;
    let table = table("stats/alpha_spring_oats.csv", ',')?;
    let yields = numbers(&table["yield"]);
    let (variety, replicate) = (factor(&table, "gen"), factor(&table, "rep"));
    Some(Oats { yields, variety, replicate, block: factor(&table, "block"), golden })
}

impl Oats {
    fn varieties_fixed(&self) -> Model {
        let fixed = vec![Fixed::intercept(), main_effect(&self.variety), main_effect(&self.replicate)];
        Model::new(self.yields.clone(), fixed, vec![random([&self.replicate, &self.block])])
    }

    fn varieties_random(&self) -> Model {
        let fixed = vec![Fixed::intercept(), main_effect(&self.replicate)];
        let random = vec![random([&self.variety]), random([&self.replicate, &self.block])];
        Model::new(self.yields.clone(), fixed, random)
    }
}

fn renamed(name: &str) -> String {
    if name == "intercept" { "(Intercept)".to_owned() } else { name.replace(' ', "") }
}

#[test]
fn varieties_fixed_agree() {
    let Some(oats) = oats() else { return };
    let expected = &oats.golden["varieties_fixed"];
    let fit = restricted(&oats.varieties_fixed()).unwrap();
    fit_agrees(&fit, expected, &["rep:block"]);
    coefficients_agree(&fit, expected, renamed);
    // As printed for these data: block 0.06194, residual 0.08523.
    assert!((fit.components[0].component.variance - 0.06194).abs() < 0.5e-5);
    assert!((fit.residual[0].component.variance - 0.08523).abs() < 0.5e-5);
}

/// The criterion at fixed variances, apart from the search: at the golden optimum it is the golden criterion, and so
/// for the full likelihood's own constants by the dense reference of `plain`.
#[test]
fn criterion_agrees_at_given_variances() {
    let Some(oats) = oats() else { return };
    let expected = &oats.golden["varieties_fixed"];
    let at: Vec<f64> = ["rep:block", "residual"]
        .map(|name| expected["variance_components"][name].as_f64().unwrap())
        .to_vec();
    let criterion = criterion_at(&oats.varieties_fixed(), Likelihood::Restricted, &at).unwrap();
    agrees_within("criterion", criterion, &expected["reml_deviance"], 1e-11);
}

#[test]
fn adjusted_means_agree() {
    let Some(oats) = oats() else { return };
    let expected = &oats.golden["varieties_fixed"];
    let fit = restricted(&oats.varieties_fixed()).unwrap();
    let means = adjusted_means(&fit, &["gen"]).unwrap();
    means_agree(&means, &expected["means_satterthwaite"], 2e-8);
    for (row, numbers) in expected["sed"]["matrix"].as_array().unwrap().iter().enumerate() {
        for (column, number) in
            numbers.as_array().unwrap().iter().enumerate().filter(|(column, _)| *column != row)
        {
            agrees("sed", means.standard_error_of_difference(row, column).unwrap(), number);
        }
    }
    let mean = means.mean_variance_of_a_difference().unwrap();
    agrees("mean variance", mean, &expected["sed"]["mean_variance_of_a_difference"]);
    // Piepho and Moehring 2007, Genetics 177:1881, example 1: 0.07010875.
    assert!((mean - 0.070_108_75).abs() < 1e-8, "{mean}");
}

#[test]
fn degrees_of_freedom_agree() {
    let Some(oats) = oats() else { return };
    let expected = &oats.golden["varieties_fixed"];
    let fit = restricted(&oats.varieties_fixed()).unwrap();
    let means = adjusted_means(&fit, &["gen"]).unwrap();
    let satterthwaite = Satterthwaite::new(&fit).unwrap();
    let kenward_roger = KenwardRoger::new(&fit).unwrap();
    for (label, contrast) in means.labels.iter().zip(means.contrasts.iter().flatten()) {
        let own = &expected["means_satterthwaite"][label]["df"];
        agrees_within(label, satterthwaite.degrees(contrast), own, DEGREES);
        let own = &expected["means_kenward_roger"][label];
        agrees_within(label, kenward_roger.degrees(contrast), &own["df"], DEGREES);
        agrees_within(label, kenward_roger.estimate(contrast).standard_error, &own["se"], DEGREES);
    }
    for (label, own) in expected["dunnett_vs_G01_kenward_roger_mvt"].as_object().unwrap() {
        let (one, other) = label.split_once(" - ").unwrap();
        let contrast = means.difference(&fit, place(&means, one), place(&means, other)).unwrap();
        let effect = kenward_roger.estimate(&contrast);
        agrees_within(label, effect.estimate, &own["estimate"], DEGREES);
        agrees_within(label, effect.standard_error, &own["se"], DEGREES);
        agrees_within(label, kenward_roger.degrees(&contrast), &own["df"], DEGREES);
    }
}

#[test]
fn variety_tests_agree() {
    let Some(oats) = oats() else { return };
    let expected = &oats.golden["varieties_fixed"];
    let fit = restricted(&oats.varieties_fixed()).unwrap();
    let contrasts = tests::term(&fit, &["gen"]).unwrap();
    let test = Satterthwaite::new(&fit).unwrap().test(&contrasts).unwrap();
    let own = &expected["anova_satterthwaite"][0];
    agrees_within("F", test.statistic, &own["F value"], DEGREES);
    agrees_within("numerator", test.numerator, &own["NumDF"], DEGREES);
    agrees_within("denominator", test.denominator, &own["DenDF"], DEGREES);
    agrees_within("p", test.probability, &own["Pr(>F)"], 1e-5);
    let test = KenwardRoger::new(&fit).unwrap().test(&contrasts).unwrap();
    let own = &expected["wald_kenward_roger"];
    agrees_within("F", test.statistic, &own["Fstat"], DEGREES);
    agrees_within("denominator", test.denominator, &own["ddf"], DEGREES);
    agrees_within("scaling", test.scaling, &own["F.scaling"], DEGREES);
    agrees_within("p", test.probability, &own["p.value"], 1e-5);
}

#[test]
fn varieties_random_agree() {
    let Some(oats) = oats() else { return };
    let expected = &oats.golden["varieties_random"];
    let fit = restricted(&oats.varieties_random()).unwrap();
    fit_agrees(&fit, expected, &["gen", "rep:block"]);
    coefficients_agree(&fit, expected, renamed);
    predictions_agree(&fit, "gen", &expected["blup"], Some(&expected["blup_sqrt_pev"]));
    let cullis = generalised(&fit, "gen").unwrap();
    agrees("mean", cullis.mean_variance_of_a_difference, &expected["mean_variance_of_a_blup_difference"]);
    agrees("cullis", cullis.share.unwrap(), &expected["h2_cullis"]);
    let means = adjusted_means(&restricted(&oats.varieties_fixed()).unwrap(), &["gen"]).unwrap();
    let variance = fit.components[0].component.variance;
    let piepho = of_means(variance, means.mean_variance_of_a_difference().unwrap()).share.unwrap();
    agrees("piepho", piepho, &expected["h2_piepho"]);
    // Piepho and Moehring 2007, Genetics 177:1881, example 1: variance 0.142902, heritabilities 0.803 and 0.809.
    agrees_within("printed variance", variance, &json!(0.142_902), 0.5e-6 / 0.142_902);
    assert!((piepho - 0.803).abs() < 0.5e-3 && (cullis.share.unwrap() - 0.809).abs() < 0.5e-3);
}

/// Ways that should end at one answer: the fit does not hang on where rows stand or which unit is used.
#[test]
fn order_of_rows_does_not_matter() {
    let Some(oats) = oats() else { return };
    let whole: Fit = restricted(&oats.varieties_random()).unwrap();
    let turned = |factor: &Factor| {
        let codes = factor.codes().iter().rev().copied().collect();
        Factor::from_codes(factor.name(), factor.levels().to_vec(), codes).unwrap()
    };
    let back = Oats {
        yields: oats.yields.iter().rev().copied().collect(),
        variety: turned(&oats.variety),
        replicate: turned(&oats.replicate),
        block: turned(&oats.block),
        golden: Value::Null,
    };
    let turned = restricted(&back.varieties_random()).unwrap();
    agrees("criterion", turned.criterion, &json!(whole.criterion));
    agrees(
        "variance",
        turned.components[0].component.variance,
        &json!(whole.components[0].component.variance),
    );
}
