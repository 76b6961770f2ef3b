//! Linear mixed models against lme4, lmerTest and pbkrtest: blocks and sites crossed, treatments fixed, plots lost.

use crate::designs::{Design, SEEDS};
use crate::r::{Tally, answers, number, numbers};
use statistics::component::Standing;
use statistics::draws::normal;
use statistics::mixed::kenward_roger::KenwardRoger;
use statistics::mixed::means::adjusted_means;
use statistics::mixed::satterthwaite::Satterthwaite;
use statistics::mixed::terms::{Factor, Fixed, Random};
use statistics::mixed::{Fit, Going, Model, fit};
use statistics::nested::Likelihood;

fn factor(name: &str, numbers: &[usize]) -> Factor {
    let labels: Vec<String> = numbers.iter().map(usize::to_string).collect();
    Factor::from_labels(name, &labels)
}

fn fitted(design: &Design, yields: &[f64]) -> Fit {
    let treatment = factor("treatment", &design.treatment);
    let (block, site) = (factor("block", &design.block), factor("site", &design.site));
    let fixed = vec![Fixed::intercept(), Fixed::of([(&treatment).into()])];
    let random = vec![Random::of([(&block).into()]), Random::of([(&site).into()])];
    fit(&Model::new(yields.to_vec(), fixed, random), Likelihood::Restricted, &mut |_| Going::On).unwrap()
}

#[test]
fn mixed_models_agree_with_r() {
    let drawn: Vec<(Design, Vec<f64>)> = (0..SEEDS)
        .map(|seed| {
            let (design, mut chance) = Design::draw("mixed", seed, 0.8);
            let yields = design.signal.iter().map(|signal| 3.0 + signal + normal(&mut chance)).collect();
            (design, yields)
        })
        .collect();
    let lines = drawn.iter().map(|(design, yields)| design.lines("lmer", |plot| yields[plot].to_string()));
    let table = "seed,kind,treatment,block,site,known,y\n".to_owned() + &lines.collect::<String>();
    let Some(answers) = answers("mixed", &table) else { return };
    assert_eq!(answers.len(), SEEDS);
    let mut tally = Tally::default();
    let mut kenward_rogers = 0;
    for ((design, yields), expected) in drawn.iter().zip(&answers) {
        let (fit, seed) = (fitted(design, yields), &design.seed);
        tally.count();
        tally.within("criterion", (fit.criterion - number(&expected["criterion"])).abs(), 1e-6, seed);
        // lme4 was not polished: its components are good to some four digits, and zero is zero on both sides.
        let found = fit.components.iter().chain(&fit.residual);
        let components = numbers(&expected["components"]);
        let whole: f64 = components.iter().sum();
        for (own, other) in found.zip(&components) {
            tally.within("components", (own.component.variance - other).abs() / whole, 1e-3, seed);
        }
        let means = adjusted_means(&fit, &["treatment"]).unwrap();
        let inside =
            fit.components.iter().all(|own| matches!(own.component.standing, Standing::Estimated { .. }));
        if let (true, Some(errors)) = (inside, expected["adjusted_errors"].as_array()) {
            let adjusted = KenwardRoger::new(&fit).unwrap();
            kenward_rogers += 1;
            for (at, (error, degrees)) in
                errors.iter().zip(numbers(&expected["adjusted_degrees"])).enumerate()
            {
                let difference = means.difference(&fit, at + 1, 0).unwrap();
                let own = adjusted.estimate(&difference).standard_error;
                tally.within("adjusted errors, relative", (own / number(error) - 1.0).abs(), 1e-3, seed);
                let own = adjusted.degrees(&difference);
                tally.within("adjusted degrees, relative", (own / degrees - 1.0).abs(), 5e-3, seed);
            }
        }
        let satterthwaite = Satterthwaite::new(&fit);
        let (differences, errors) = (numbers(&expected["differences"]), numbers(&expected["errors"]));
        for (at, degrees) in numbers(&expected["degrees"]).into_iter().enumerate() {
            let mean = |level: usize| means.means[level].unwrap().estimate;
            let off = (mean(at + 1) - mean(0) - differences[at]).abs() / errors[at];
            tally.within("differences, in errors", off, 1e-3, seed);
            let error = means.standard_error_of_difference(at + 1, 0).unwrap();
            tally.within("errors, relative", (error / errors[at] - 1.0).abs(), 1e-3, seed);
            if let (true, Some(satterthwaite)) = (inside, &satterthwaite) {
                let own = satterthwaite.degrees(&means.difference(&fit, at + 1, 0).unwrap());
                tally.within("degrees, relative", (own / degrees - 1.0).abs(), 5e-3, seed);
            }
        }
    }
    tally.tell("mixed models", SEEDS);
    match kenward_rogers {
        0 => println!("left out: Kenward and Roger's degrees against R (pbkrtest)"),
        some => assert!(SEEDS / 10 < some, "Kenward and Roger's of {some} designs"),
    }
}
