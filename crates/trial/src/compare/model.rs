//! Which model the plots allow, and its fit.

use super::trend::{self, Found, Ground};
use super::{CompareFault, Observed};
use statistics::mixed::diagnostics::diagnostics;
use statistics::mixed::residual::Residual;
use statistics::mixed::terms::{Factor, Fixed, Random};
use statistics::mixed::tests::akaike;
use statistics::mixed::{self, Fit, Going, MixedFault, Model, Progress};
use statistics::nested::Likelihood;
use std::ops::ControlFlow;

/// Who hears of the search and may stop it.
pub(super) type Watch<'a> = &'a mut dyn FnMut(u32) -> ControlFlow<()>;

/// The name of the varieties' term.
pub(super) const VARIETY: &str = "variety";
const ENVIRONMENT: &str = "garden and season";
const REPLICATE: &str = "replicates";
const BLOCK: &str = "blocks";
const IN_ENVIRONMENTS: &str = "varieties from garden to garden";

/// Fewest plots of each garden and season for it to have a residual variance of its own. Common practice, no source.
const PLOTS_FOR_OWN_SPREAD: usize = 12;

/// A fitted model of plots.
pub(super) struct Fitted {
    fit: PlotFit,
    pub(super) variety: Factor,
    pub(super) ground: Ground,
    pub(super) notes: Vec<String>,
}

/// The fit, with or without a trend of the ground.
enum PlotFit {
    Blocks(Box<Fit>),
    Trend(Box<Found>),
}

impl Fitted {
    /// Fits the fullest model that the plots allow.
    pub(super) fn new(plots: &[Observed], watch: Watch<'_>) -> Result<Self, CompareFault> {
        let terms = Terms::of(plots);
        let mut notes = Vec::new();
        let mut random = terms.random();
        let fit = loop {
            match best(plots, &terms, &random, watch) {
                // The finest term takes up all that plots differ by: leave it to the residual.
                Err(MixedFault::NoResidual) if !random.is_empty() => {
                    let left_out = random.pop().map(|term| term.name).unwrap_or_default();
                    notes.push(format!(
                        "{left_out} cannot be told from single plots here and are left in with them"
                    ));
                }
                answer => break answer?,
            }
        };
        let plain = Model::new(values(plots), terms.fixed(), random);
        let (fit, ground) = match trend::better(plots, &terms, plain, watch)? {
            Some(found) => {
                let ground = Ground::Trend(found.kind, found.by);
                (PlotFit::Trend(Box::new(found)), ground)
            }
            None => (PlotFit::Blocks(Box::new(fit)), terms.ground()),
        };
        Ok(Self { fit, variety: terms.variety, ground, notes })
    }

    /// The mixed model's fit.
    pub(super) fn fit(&self) -> &Fit {
        match &self.fit {
            PlotFit::Blocks(fit) => fit,
            PlotFit::Trend(found) => &found.fit.fit,
        }
    }

    /// What neither variety nor ground explains of each plot, in the order of the plots.
    pub(super) fn left_over(&self) -> Vec<f64> {
        match &self.fit {
            PlotFit::Blocks(fit) => diagnostics(fit).iter().map(|row| row.conditional).collect(),
            PlotFit::Trend(found) => found.fit.left().iter().map(|own| own.left).collect(),
        }
    }

    /// The same model with varieties drawn at random, as heritability asks for; `None` where it has no answer.
    pub(super) fn with_varieties_drawn(&self, plots: &[Observed]) -> Option<Fit> {
        let terms = Terms::of(plots);
        let kept: Vec<&String> = self.fit().components.iter().map(|component| &component.name).collect();
        let kept: Vec<Random> =
            terms.random().into_iter().filter(|term| kept.contains(&&term.name)).collect();
        let drawn = |(mut fixed, random): (Vec<Fixed>, Vec<Random>)| {
            fixed.pop();
            let variety = Random::of([(&self.variety).into()]);
            Model::new(values(plots), fixed, std::iter::once(variety).chain(random).collect())
        };
        match &self.fit {
            PlotFit::Blocks(_) => {
                let model = drawn((terms.fixed(), kept));
                mixed::fit(&model, Likelihood::Restricted, &mut |_| Going::On).ok()
            }
            PlotFit::Trend(found) => trend::with_varieties_drawn(found, drawn(terms.under_a_trend(&kept))),
        }
    }
}

fn values(plots: &[Observed]) -> Vec<f64> {
    plots.iter().map(|plot| plot.value).collect()
}

/// The factors of the plots.
pub(super) struct Terms {
    variety: Factor,
    environment: Factor,
    replicate: Option<Factor>,
    block: Option<Factor>,
    across: Option<Factor>,
    own_spread: bool,
}

impl Terms {
    pub(super) fn of(plots: &[Observed]) -> Self {
        let labels = |label: &dyn Fn(&Observed) -> String| plots.iter().map(label).collect::<Vec<_>>();
        let number = |number: Option<u32>| number.map_or_else(String::new, |number| number.to_string());
        let varieties = labels(&|plot| plot.variety.clone());
        let environments = labels(&|plot| plot.environment.clone());
        let replicates = labels(&|plot| format!("{}, {}", plot.environment, number(plot.replicate)));
        let blocks = labels(&|plot| {
            format!("{}, {}, {}", plot.environment, number(plot.replicate), number(plot.block))
        });
        let across = labels(&|plot| format!("{} in {}", plot.variety, plot.environment));
        let environment = Factor::from_labels(ENVIRONMENT, &environments);
        let replicate = Some(Factor::from_labels(REPLICATE, &replicates));
        let block = Some(Factor::from_labels(BLOCK, &blocks));
        let several = 1 < environment.levels().len();
        let across = several.then(|| Factor::from_labels(IN_ENVIRONMENTS, &across));
        let replicate = replicate.filter(|own| environment.levels().len() < own.levels().len());
        let coarser = replicate.as_ref().unwrap_or(&environment).levels().len();
        let block = block.filter(|own| coarser < own.levels().len() && own.levels().len() < plots.len());
        let variety = Factor::from_labels(VARIETY, &varieties);
        let across = across.filter(|own| variety.levels().len() < own.levels().len());
        let own_spread = several && PLOTS_FOR_OWN_SPREAD <= fewest(&environment);
        Self { variety, environment, replicate, block, across, own_spread }
    }

    /// Random terms, the coarsest first.
    fn random(&self) -> Vec<Random> {
        self.drawn().map(|own| Random::of([own.into()])).collect()
    }

    /// The terms of a model whose ground is a trend: a slope across the beds says in part what replicates do, so these
    /// are drawn at random beside it, and every variety's mean can still be told.
    pub(super) fn under_a_trend(&self, random: &[Random]) -> (Vec<Fixed>, Vec<Random>) {
        let replicate = self.replicate.as_ref().map(|own| Random::of([own.into()]));
        let fixed = vec![Fixed::intercept(), Fixed::of([(&self.variety).into()])];
        (fixed, replicate.into_iter().chain(random.iter().cloned()).collect())
    }

    /// Fixed terms, varieties last. Replicates are few and whole, so they are fixed; each lies in one environment,
    /// which they stand for.
    fn fixed(&self) -> Vec<Fixed> {
        let mut fixed = vec![Fixed::intercept()];
        fixed.extend(self.fixed_ground().map(|ground| Fixed::of([ground.into()])));
        fixed.push(Fixed::of([(&self.variety).into()]));
        fixed
    }

    /// The varieties.
    pub(super) fn variety(&self) -> &Factor {
        &self.variety
    }

    /// Replicates, or gardens and seasons, where there are several.
    pub(super) fn fixed_ground(&self) -> Option<&Factor> {
        let ground = self.replicate.as_ref().unwrap_or(&self.environment);
        (1 < ground.levels().len()).then_some(ground)
    }

    /// Factors that are drawn at random, the coarsest first.
    pub(super) fn drawn(&self) -> impl Iterator<Item = &Factor> {
        [&self.block, &self.across].into_iter().flatten()
    }

    /// What the ground is taken for without a trend.
    pub(super) fn ground(&self) -> Ground {
        match (&self.replicate, &self.block) {
            (None, None) => Ground::Alike,
            _ => Ground::Blocks,
        }
    }

    /// Whether the plots stand in more than one garden and season.
    pub(super) fn has_several_environments(&self) -> bool {
        1 < self.environment.levels().len()
    }
}

/// Plots of the environment that has the fewest.
fn fewest(environment: &Factor) -> usize {
    let mut counts = vec![0_usize; environment.levels().len()];
    for code in environment.codes() {
        if let Some(count) = counts.get_mut(*code) {
            *count += 1;
        }
    }
    counts.into_iter().min().unwrap_or(0)
}

/// Fits with one residual variance, and with one an environment where there is enough to tell, and keeps the better
/// by Akaike's criterion: both have the same fixed part.
fn best(plots: &[Observed], terms: &Terms, random: &[Random], watch: Watch<'_>) -> Result<Fit, MixedFault> {
    let mut watch = |progress: &Progress| match watch(progress.evaluations) {
        ControlFlow::Continue(()) => Going::On,
        ControlFlow::Break(()) => Going::Stop,
    };
    let alike = Model::new(values(plots), terms.fixed(), random.to_vec());
    let fit = mixed::fit(&alike, Likelihood::Restricted, &mut watch)?;
    if !terms.own_spread {
        return Ok(fit);
    }
    let apart = Model { residual: Residual::By(terms.environment.clone()), ..alike };
    match mixed::fit(&apart, Likelihood::Restricted, &mut watch) {
        Ok(own) if akaike(&own) < akaike(&fit) => Ok(own),
        Err(MixedFault::Stopped) => Err(MixedFault::Stopped),
        _ => Ok(fit),
    }
}
