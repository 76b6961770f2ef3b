//! Neighbours that are alike along a row of plots, and sites that scatter each by itself, against nlme's `gls`.

use crate::designs::{Design, SEEDS};
use crate::r::{Tally, answers, number, numbers};
use rand::RngExt;
use serde_json::Value;
use statistics::draws::normal;
use statistics::mixed::means::coefficients;
use statistics::mixed::residual::Residual;
use statistics::mixed::terms::{Factor, Fixed};
use statistics::mixed::{Fit, Going, Model, fit};
use statistics::nested::Likelihood;
use statistics::spatial::bed::Bed;
use statistics::spatial::{self, Nugget, Plane, SpatialFit, Trend, Trial};

/// A trial with its yields, and where each plot lies along its row.
struct Ground {
    design: Design,
    yields: Vec<f64>,
    places: Vec<u32>,
}

/// Neighbours by turns with sites.
fn kind(seed: usize) -> &'static str {
    if seed.is_multiple_of(2) { "neighbours" } else { "apart" }
}

fn draw(seed: usize) -> Ground {
    let (design, mut chance) = Design::draw("ground", seed, 0.4);
    let (alike, mut before, mut place) = (chance.random_range(-0.2..0.85_f64), 0.0, 0);
    let (mut yields, mut places) = (Vec::new(), Vec::new());
    for (plot, signal) in design.signal.iter().enumerate() {
        // Some plots were lost, so that numbers along the row leave gaps.
        place += if chance.random::<f64>() < 0.1 { 2 } else { 1 };
        before = alike * before + (1.0 - alike * alike).sqrt() * normal(&mut chance);
        let own = match kind(seed) {
            "neighbours" => before,
            _ => normal(&mut chance) * (0.4 + 0.3 * design.site[plot] as f64),
        };
        yields.push(3.0 + signal + own);
        places.push(place);
    }
    Ground { design, yields, places }
}

impl Ground {
    fn model(&self) -> Model {
        let labels: Vec<String> = self.design.treatment.iter().map(|own| format!("t{own}")).collect();
        let treatment = Factor::from_labels("treatment", &labels);
        let fixed = vec![Fixed::intercept(), Fixed::of([(&treatment).into()])];
        Model::new(self.yields.clone(), fixed, Vec::new())
    }

    fn neighbours(&self) -> SpatialFit {
        let bed = Bed::new(vec![1; self.places.len()], self.places.clone()).unwrap();
        let trial = Trial { model: self.model(), bed, plane: Plane::LeftOut };
        let trend = Trend::Autoregression(Nugget::LeftOut);
        spatial::fit(&trial, trend, Likelihood::Restricted, &mut |_| Going::On).unwrap()
    }

    fn apart(&self) -> Option<Fit> {
        let labels: Vec<String> = self.design.site.iter().map(|own| format!("s{own}")).collect();
        let residual = Residual::By(Factor::from_labels("site", &labels));
        let model = Model { residual, ..self.model() };
        fit(&model, Likelihood::Restricted, &mut |_| Going::On).ok()
    }
}

#[test]
fn uneven_ground_agrees_with_r() {
    let drawn: Vec<Ground> = (0..SEEDS).map(draw).collect();
    let lines = drawn.iter().map(|own| {
        own.design.lines(kind(own.design.seed), |plot| format!("{},{}", own.places[plot], own.yields[plot]))
    });
    let table = "seed,kind,treatment,block,site,known,place,y\n".to_owned() + &lines.collect::<String>();
    let Some(answers) = answers("ground", &table) else { return };
    assert_eq!(answers.len(), SEEDS);
    let mut tally = Tally::default();
    for (own, expected) in drawn.iter().zip(&answers) {
        if expected["failed"].as_bool().unwrap() {
            continue;
        }
        let seed = own.design.seed;
        if kind(seed) == "neighbours" {
            let found = own.neighbours();
            let alike = found.neighbours().unwrap();
            let correlation = alike.along_columns.unwrap().value;
            tally.within("correlation", (correlation - number(&expected["alike"])).abs(), 1e-4, &seed);
            let variance = numbers(&expected["variances"])[0];
            tally.within("shared variance, relative", (alike.variance / variance - 1.0).abs(), 1e-3, &seed);
            agree(&found.fit, expected, seed, &mut tally);
        } else if let Some(found) = own.apart() {
            for (own, variance) in found.residual.iter().zip(numbers(&expected["variances"])) {
                let off = (own.component.variance / variance - 1.0).abs();
                tally.within("variances of sites, relative", off, 1e-3, &seed);
            }
            agree(&found, expected, seed, &mut tally);
        }
    }
    tally.tell("uneven ground", SEEDS / 2);
}

fn agree(found: &Fit, expected: &Value, seed: usize, tally: &mut Tally) {
    tally.count();
    tally.within("criterion", (found.criterion - number(&expected["criterion"])).abs(), 1e-6, &seed);
    let told: Vec<_> = coefficients(found).into_iter().filter_map(|own| own.effect).collect();
    let (fixed, errors) = (numbers(&expected["fixed"]), numbers(&expected["errors"]));
    assert_eq!(told.len(), fixed.len());
    for ((own, estimate), error) in told.iter().zip(&fixed).zip(&errors) {
        tally.within("effects, in errors", (own.estimate - estimate).abs() / error, 1e-3, &seed);
        tally.within("errors, relative", (own.standard_error / error - 1.0).abs(), 1e-3, &seed);
    }
}
