//! Models of counts against `glm`, MASS's `glm.nb`, lme4's `glmer`, and Laplace's approximation written out in R.

use crate::designs::{Design, SEEDS};
use crate::r::{Tally, answers, number, numbers};
use rand::RngExt;
use rand_chacha::ChaCha8Rng;
use serde_json::Value;
use statistics::counts::{CountFit, Family, Model, Note, Shape, fit};
use statistics::draws::normal;

/// The models, in turn.
const KINDS: [&str; 5] = ["poisson", "binomial", "shaped", "blocks", "crossed"];
/// Designs of negative binomial counts in blocks, after the others.
const SHAPED_BLOCKS: usize = 40;

struct Counted {
    design: Design,
    kind: &'static str,
    seen: Vec<u32>,
    of: Vec<u32>,
}

fn draw(seed: usize) -> Counted {
    let (design, mut chance) = Design::draw("counts", seed, 0.5);
    let kind = if seed < SEEDS { KINDS[seed % KINDS.len()] } else { "shaped_blocks" };
    let (mut seen, mut of) = (Vec::new(), Vec::new());
    for plot in 0..design.treatment.len() {
        let place = design.signal[plot] + design.known[plot];
        let extra = if kind.starts_with("shaped") { 0.6 * normal(&mut chance) } else { 0.0 };
        let trials = chance.random_range(5..40);
        of.push(trials);
        seen.push(match kind {
            "binomial" | "crossed" => sprouted(&mut chance, trials, 1.0 / (1.0 + (-place).exp())),
            _ => waited(&mut chance, (1.0 + place + extra).exp()),
        });
    }
    Counted { design, kind, seen, of }
}

fn sprouted(chance: &mut ChaCha8Rng, trials: u32, share: f64) -> u32 {
    (0..trials).map(|_| u32::from(chance.random::<f64>() < share)).sum()
}

/// A Poisson draw by counting exponential waits.
fn waited(chance: &mut ChaCha8Rng, mean: f64) -> u32 {
    let (mut waited, mut count) = (0.0, 0);
    loop {
        waited -= (1.0 - chance.random::<f64>()).ln();
        if mean < waited {
            return count;
        }
        count += 1;
    }
}

impl Counted {
    fn fit(&self) -> CountFit {
        let groups: Vec<Vec<usize>> = match self.kind {
            "blocks" | "shaped_blocks" => vec![self.design.block.clone()],
            "crossed" => vec![self.design.block.clone(), self.design.site.clone()],
            _ => vec![],
        };
        let family = match self.kind {
            "binomial" | "crossed" => Family::Binomial { looked_at: &self.of },
            "shaped" | "shaped_blocks" => Family::NegativeBinomial,
            _ => Family::Poisson,
        };
        let columns = self.design.columns();
        fit(&Model {
            family,
            seen: &self.seen,
            columns: &columns,
            groups: &groups,
            offset: Some(&self.design.known),
            weights: None,
        })
        .unwrap()
    }
}

impl Counted {
    /// Effects, spread of blocks and shape of negative binomial counts in blocks, for R to stand at.
    fn ours(&self) -> String {
        let found = if self.kind == "shaped_blocks" { self.fit() } else { return String::new() };
        let Some(Shape::Estimated(shape)) = found.shape else { return String::new() };
        let effects = found.fixed.iter().map(|effect| effect.estimate);
        let all = effects.chain([found.between[0].standard_deviation(), shape.estimate]);
        all.map(|number| number.to_string()).collect::<Vec<_>>().join(";")
    }
}

#[test]
fn counts_agree_with_r() {
    let drawn: Vec<Counted> = (0..SEEDS + SHAPED_BLOCKS).map(draw).collect();
    let lines = drawn.iter().map(|own| {
        let ours = own.ours();
        own.design.lines(own.kind, |plot| format!("{},{},{ours}", own.seen[plot], own.of[plot]))
    });
    let table = "seed,kind,treatment,block,site,known,seen,of,ours\n".to_owned() + &lines.collect::<String>();
    let Some(answers) = answers("counts", &table) else { return };
    assert_eq!(answers.len(), drawn.len());
    let mut tally = Tally::default();
    for (own, expected) in drawn.iter().zip(&answers) {
        let found = own.fit();
        let told = |found: &CountFit| !found.notes.iter().any(|note| matches!(note, Note::Separated { .. }));
        let endless = found.shape == Some(Shape::Endless);
        if expected["failed"].as_bool().unwrap() || !told(&found) || endless {
            continue;
        }
        tally.count();
        if own.kind == "shaped_blocks" {
            written_out(&found, expected, own.design.seed, &mut tally);
            continue;
        }
        let mixed = !found.between.is_empty();
        let seed = &own.design.seed;
        // glmer's search for group effects ends early, so its top lies off by some 1e-3 errors; glm's does not.
        let (likelihood, errors_off, error_share) =
            if mixed { (1e-4, 2e-3, 0.02) } else { (1e-7, 1e-5, 1e-5) };
        let off = (found.log_likelihood - number(&expected["log_likelihood"])).abs();
        tally.within(
            if mixed { "glmer log-likelihood" } else { "glm log-likelihood" },
            off,
            likelihood,
            seed,
        );
        let (fixed, errors) = (numbers(&expected["fixed"]), numbers(&expected["errors"]));
        for ((effect, estimate), error) in found.fixed.iter().zip(&fixed).zip(&errors) {
            let what = if mixed { "glmer effects, in errors" } else { "glm effects, in errors" };
            tally.within(what, (effect.estimate - estimate).abs() / error, errors_off, seed);
            let what = if mixed { "glmer errors, relative" } else { "glm errors, relative" };
            tally.within(what, (effect.standard_error / error - 1.0).abs(), error_share, seed);
        }
        for (component, spread) in found.between.iter().zip(numbers(&expected["spreads"])) {
            tally.within("glmer spreads", (component.standard_deviation() - spread).abs(), 0.01, seed);
        }
        if let Some(Shape::Estimated(shape)) = found.shape {
            // `glm.nb` takes turns between shape and effects, and stops early where the shape is large.
            tally.within("shape", (shape.estimate / number(&expected["shape"]) - 1.0).abs(), 1e-3, seed);
            let error = number(&expected["shape_error"]);
            tally.within("shape's error", (shape.standard_error / error - 1.0).abs(), 1e-3, seed);
        }
        if !mixed {
            tally.within("deviance", (found.deviance - number(&expected["deviance"])).abs(), 1e-3, seed);
            let pearson = number(&expected["pearson"]);
            tally.within("Pearson", (found.scatter.chi_square / pearson - 1.0).abs(), 1e-4, seed);
        }
    }
    tally.tell("counts", SEEDS / 2);
}

/// Negative binomial counts in blocks: the same likelihood at our answer, and no slope that would move an effect by a
/// thousandth of its error, or a spread or shape by one in a thousand.
fn written_out(found: &CountFit, expected: &Value, seed: usize, tally: &mut Tally) {
    let off = number(&expected["log_likelihood"]) - found.log_likelihood;
    tally.within("written-out log-likelihood", off.abs(), 1e-7, &seed);
    let errors = found.fixed.iter().map(|effect| effect.standard_error).chain([1.0, 1.0]);
    for (slope, error) in numbers(&expected["slopes"]).iter().zip(errors) {
        tally.within("written-out slopes, an error long", (slope * error).abs(), 1e-3, &seed);
    }
}
