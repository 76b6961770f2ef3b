//! Wheat in Nebraska: neighbours alike, no nugget, plots missing.
//!
//! Data: Stroup, Baenziger and Mulitze 1994, Crop Science 34:62-66. Expected values: dense fits in R 4.2.2
//! (`wheat_nebraska.R` beside the data); 48.7, 0.6555 and 0.4375 are also printed in the help of the data's R package.

use crate::oracles::{agrees, agrees_within, golden, numbers, table};
use statistics::mixed::means::adjusted_means;
use statistics::mixed::terms::{Factor, Fixed};
use statistics::mixed::{Going, Model};
use statistics::nested::Likelihood;
use statistics::spatial::bed::Bed;
use statistics::spatial::{Nugget, Plane, Trend, Trial, fit};

#[test]
fn neighbours_agree() {
    let (Some(golden), Some(table)) =
        (golden("stats/wheat_nebraska.json"), table("stats/wheat_nebraska.csv", ','))
    else {
        return;
    };
    let expected = &golden["ar1xar1"];
    let known: Vec<usize> =
        (0..table["yield"].len()).filter(|row| table["yield"][*row].parse::<f64>().is_ok()).collect();
    let kept = |name: &str| -> Vec<String> { known.iter().map(|row| table[name][*row].clone()).collect() };
    let whole = |name: &str| kept(name).iter().map(|cell| cell.parse().unwrap()).collect();
    let bed = Bed::new(whole("row"), whole("col")).unwrap();
    let variety = Factor::from_labels("variety", &kept("gen"));
    let fixed = vec![Fixed::intercept(), Fixed::of([(&variety).into()])];
    let model = Model::new(numbers(&kept("yield")), fixed, vec![]);
    let trial = Trial { model, bed, plane: Plane::LeftOut };
    let trend = Trend::Autoregression(Nugget::LeftOut);
    let found = fit(&trial, trend, Likelihood::Restricted, &mut |_| Going::On).unwrap();
    println!("{:?}", found.fit.history.last().unwrap());
    // Cell means and treatment coding differ by a determinant of one, so the criteria are the same.
    agrees("criterion", found.fit.criterion, &expected["reml_deviance"]);
    let neighbours = found.neighbours().unwrap();
    agrees("along rows", neighbours.along_rows.unwrap().value, &expected["rho_row"]);
    agrees("along columns", neighbours.along_columns.unwrap().value, &expected["rho_col"]);
    agrees("variance", neighbours.variance, &expected["spatial_variance"]);
    for (value, printed, half) in [
        (neighbours.variance, 48.7, 0.05),
        (neighbours.along_columns.unwrap().value, 0.6555, 5e-5),
        (neighbours.along_rows.unwrap().value, 0.4375, 5e-5),
    ] {
        assert!((value - printed).abs() <= half, "{value} {printed}");
    }
    let means = adjusted_means(&found.fit, &["variety"]).unwrap();
    for (label, mean) in means.labels.iter().zip(&means.means) {
        agrees_within(label, mean.unwrap().estimate, &expected["fixed"][label], 1e-7);
        agrees_within(label, mean.unwrap().standard_error, &expected["fixed_se"][label], 1e-7);
    }
    // The trend is told on the whole bed, places without a plot too.
    assert_eq!(found.ground().len(), 242);
}
