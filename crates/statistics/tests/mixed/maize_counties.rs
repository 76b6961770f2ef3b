//! Maize in incomplete blocks of several counties, some plots missing: five crossed and nested random terms.
//!
//! Data: Besag and Higdon 1999, J. Roy. Stat. Soc. B 61:691-746. Expected values: R 4.2.2 with lme4 1.1-31, emmeans
//! 1.8.4-1 (`maize_counties.R` beside the data).

use crate::oracles::{agrees, agrees_within, golden, numbers, table};
use crate::trial::{factor, fit_agrees, main_effect, means_agree, random, restricted};
use serde_json::Value;
use statistics::mixed::Model;
use statistics::mixed::heritability::generalised;
use statistics::mixed::means::adjusted_means;
use statistics::mixed::satterthwaite::Satterthwaite;
use statistics::mixed::terms::{Factor, Fixed, Random};
use statistics::mixed::tests::{Compared, likelihood_ratio};
use std::collections::BTreeMap;

struct Maize {
    yields: Vec<f64>,
    variety: Factor,
    county: Factor,
    replicate: Factor,
    block: Factor,
    golden: Value,
}

fn maize() -> Option<Maize> {
    let golden = golden("stats/maize_counties.json")?;
    let whole = table("stats/maize_counties.csv", ',')?;
    let measured: Vec<bool> = whole["yield"].iter().map(|cell| cell.parse::<f64>().is_ok()).collect();
    let kept = |column: &Vec<String>| {
        column
            .iter()
            .zip(&measured)
            .filter(|(_, measured)| **measured)
            .map(|(cell, _)| cell.clone())
            .collect()
    };
    let table: BTreeMap<String, Vec<String>> =
        whole.iter().map(|(name, column)| (name.clone(), kept(column))).collect();
    let yields = numbers(&table["yield"]);
    let (variety, county) = (factor(&table, "gen"), factor(&table, "county"));
    Some(Maize {
        yields,
        variety,
        county,
        replicate: factor(&table, "rep"),
        block: factor(&table, "block"),
        golden,
    })
}

impl Maize {
    fn ground(&self) -> [Random; 2] {
        [random([&self.county, &self.replicate]), random([&self.county, &self.replicate, &self.block])]
    }
}

#[test]
fn varieties_random_agree() {
    let Some(maize) = maize() else { return };
    let expected = &maize.golden["varieties_random"];
    let by_county = random([&maize.variety, &maize.county]);
    let mut terms = vec![by_county, random([&maize.variety]), random([&maize.county])];
    terms.extend(maize.ground());
    let model = Model::new(maize.yields.clone(), vec![Fixed::intercept()], terms);
    let fit = restricted(&model).unwrap();
    // This golden's last step was 1.6e-7 (relative): compare to that.
    agrees("criterion", fit.criterion, &expected["reml_deviance"]);
    for (named, name) in
        fit.components.iter().zip(["gen:county", "gen", "county", "county:rep", "county:rep:block"])
    {
        agrees_within(name, named.component.variance, &expected["variance_components"][name], 1e-6);
    }
    let cullis = generalised(&fit, "gen").unwrap();
    agrees_within("cullis", cullis.share.unwrap(), &expected["h2_cullis"], 1e-6);
    for own in statistics::mixed::predictions::predictions(&fit, "gen").unwrap() {
        agrees_within(&own.label, own.effect.estimate, &expected["blup"][&own.label], 1e-6);
        agrees_within(&own.label, own.effect.standard_error, &expected["blup_sqrt_pev"][&own.label], 1e-6);
    }
    let without = Model { random: model.random[1..].to_vec(), ..model };
    let without = restricted(&without).unwrap();
    let own = &expected["lrt_gen_county"];
    agrees("without", without.criterion, &own["reml_deviance_without"]);
    let ratio = likelihood_ratio(without.criterion, fit.criterion, Compared::OneVariance);
    agrees_within("ratio", ratio.statistic, &own["chisq"], 1e-6);
    // Half the tail of one degree of freedom: R 4.2.2 gives pchisq(3.09514283474, 1, lower = FALSE) = 0.07852626.
    assert!((ratio.probability - 0.078_526_26 / 2.0).abs() < 1e-7, "{}", ratio.probability);
}

#[test]
fn varieties_fixed_agree() {
    let Some(maize) = maize() else { return };
    let expected = &maize.golden["varieties_fixed"];
    let mut terms = vec![random([&maize.variety, &maize.county])];
    terms.extend(maize.ground());
    let fixed = vec![Fixed::intercept(), main_effect(&maize.variety), main_effect(&maize.county)];
    let fit = restricted(&Model::new(maize.yields.clone(), fixed, terms)).unwrap();
    fit_agrees(&fit, expected, &["gen:county", "county:rep", "county:rep:block"]);
    let means = adjusted_means(&fit, &["gen"]).unwrap();
    means_agree(&means, &expected["means_satterthwaite"], 1e-7);
    let satterthwaite = Satterthwaite::new(&fit).unwrap();
    for (label, contrast) in means.labels.iter().zip(means.contrasts.iter().flatten()) {
        let own = &expected["means_satterthwaite"][label]["df"];
        agrees_within(label, satterthwaite.degrees(contrast), own, 1e-6);
    }
    let mean_square = means.mean_variance_of_a_difference().unwrap();
    agrees("sed", mean_square.sqrt(), &expected["sed"]["root_mean_square"]);
}
