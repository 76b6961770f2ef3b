//! Comparisons made together against multcomp (mvtnorm) and `ptukey`.

use crate::designs::{Design, SEEDS};
use crate::r::{Tally, answers, number, numbers};
use record::share::Share;
use statistics::draws::normal;
use statistics::multiplicity::check::{Family, Question, USUAL_ERROR};
use statistics::multiplicity::contrasts::Means;
use statistics::multiplicity::pairs::tukey_kramer;
use statistics::students_t::Degrees;

/// What mvtnorm is asked for, and what it may miss by.
const MVTNORM: f64 = 3e-5;

/// The questions, in turn, by R's names.
const QUESTIONS: [(Question, &str); 3] =
    [(Question::Differs, "two.sided"), (Question::More, "greater"), (Question::Less, "less")];

#[test]
fn comparisons_agree_with_r() {
    let drawn: Vec<(Design, Vec<f64>)> = (0..SEEDS)
        .map(|seed| {
            let (design, mut chance) = Design::draw("together", seed, 0.6);
            let yields = design.signal.iter().map(|signal| signal + normal(&mut chance)).collect();
            (design, yields)
        })
        .collect();
    let lines = drawn.iter().map(|(design, yields)| {
        design.lines(QUESTIONS[design.seed % QUESTIONS.len()].1, |plot| yields[plot].to_string())
    });
    let table = "seed,kind,treatment,block,site,known,y\n".to_owned() + &lines.collect::<String>();
    let Some(answers) = answers("together", &table) else { return };
    assert_eq!(answers.len(), SEEDS);
    let mut tally = Tally::default();
    for ((design, _), expected) in drawn.iter().zip(&answers) {
        tally.count();
        let estimates = numbers(&expected["means"]);
        let covariance: Vec<Vec<f64>> =
            expected["covariance"].as_array().unwrap().iter().map(numbers).collect();
        let degrees = Degrees::new(number(&expected["degrees"])).unwrap();
        let means = Means::new(&estimates, &covariance).unwrap();
        let from_check = means.from_check(0, |_| degrees).unwrap();
        let (question, name) = QUESTIONS[design.seed % QUESTIONS.len()];
        let family = Family::new(&from_check.correlation, question, USUAL_ERROR).unwrap();
        for (pair, chance) in from_check.pairs.iter().zip(numbers(&expected["check"])) {
            let found = family.chance(pair.contrast.t(), degrees).get();
            tally.within(name, (found - chance).abs(), family.error() + MVTNORM, &design.seed);
        }
        let pairs = means.every_pair(|_, _| degrees).unwrap();
        let judged = tukey_kramer(estimates.len() as u32, &pairs, Share::new(0.95).unwrap()).unwrap();
        for (judged, chance) in judged.iter().zip(numbers(&expected["pairs"])) {
            // `ptukey` promises four decimal places and mostly keeps eight.
            tally.within("pairs", (judged.chance.get() - chance).abs(), 1e-6, &design.seed);
        }
    }
    tally.tell("comparisons", SEEDS);
}
