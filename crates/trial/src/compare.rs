//! What a grow-out says of one variety beside another: adjusted means, differences from the check, letters.
//!
//! Varieties stand on different ground, so their raw averages compare ground with ground. Here each plot's number
//! is explained by its variety, its garden and season, its blocks (drawn at random) and, where that says more, a trend
//! of the ground ([`trend`]); what is left over says how far two varieties may differ by chance. Start at [`compare`];
//! [`verdict`] words one variety's result.
//!
//! Standard errors and degrees of freedom are Kenward and Roger's where they can be had, else Satterthwaite's;
//! differences from the check are judged together (Dunnett), and so are letters (Tukey and Kramer).

mod counted;
mod judge;
mod model;
pub mod stability;
pub mod trend;
pub mod verdict;

use crate::traits::{Counted, Trait};
use model::Fitted;
use stability::Stability;
use statistics::mixed::{MixedFault, Named};
use statistics::nested::Effect;
use std::ops::ControlFlow;
use trend::Ground;
use verdict::Against;

/// One plot with its number.
#[derive(Clone, Debug, PartialEq)]
pub struct Observed {
    /// The variety.
    pub variety: String,
    /// Garden and season in words, such as `Home 2031`: plots of different environments are not neighbours.
    pub environment: String,
    /// The replicate, where the layout has them.
    pub replicate: Option<u32>,
    /// The block within the replicate (or within the environment).
    pub block: Option<u32>,
    /// Where it lies in its garden, if that is known.
    pub place: Option<Place>,
    /// The number, in the trait's unit.
    pub value: f64,
    /// The counts behind the number, where it rests on counts alone.
    pub counted: Option<Counted>,
}

/// Where a plot lies in its garden.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Place {
    /// Row of plots, counted from 1 across the garden.
    pub row: u32,
    /// Place along the row, such that plots of neighbouring rows with the same number lie side by side.
    pub column: u32,
}

/// How one variety came out.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// The variety.
    pub variety: String,
    /// Plots with a number.
    pub plots: usize,
    /// Its adjusted mean; `None` where the layout leaves it without comparison.
    pub mean: Option<Effect>,
    /// An interval that holds the mean 95 times in 100, judged alone.
    pub interval: Option<(f64, f64)>,
    /// Letters: varieties that share one were not told apart.
    pub letters: String,
    /// Beside the check; `None` for the check itself, or without a check.
    pub against: Option<Against>,
    /// How much its heaviest plot moves the result, as Cook's distance, and which plot that is.
    pub moved_by: Option<(usize, f64)>,
}

/// How plots were compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Degrees {
    /// Kenward and Roger's standard errors and degrees of freedom.
    KenwardRoger,
    /// Satterthwaite's degrees of freedom, variances taken as known.
    Satterthwaite,
    /// Plots less fixed effects, on the scale of a model of counts.
    OfCounts,
}

impl Degrees {
    /// How the comparison was worked out, in a sentence without its full stop.
    #[must_use]
    pub fn told(self) -> String {
        let measured = "blocks, gardens and seasons, and a trend of the ground where one says more, are taken out of every plot's number by a mixed model (restricted maximum likelihood)";
        let together = "differences from the check are judged together (Dunnett), letters over all pairs (Tukey and Kramer)";
        match self {
            Self::KenwardRoger => {
                format!("{measured}; degrees of freedom are Kenward and Roger's; {together}")
            }
            Self::Satterthwaite => format!("{measured}; degrees of freedom are Satterthwaite's; {together}"),
            Self::OfCounts => format!(
                "fruit was counted, so a model of counts takes out replicates, blocks, gardens and seasons; differences are judged on its scale with the plots less the fixed effects as degrees of freedom, and told at the check's own mean; {together}"
            ),
        }
    }
}

/// What a grow-out says of one trait.
#[derive(Clone, Debug, PartialEq)]
pub struct Comparison {
    /// The trait.
    pub of: Trait,
    /// Varieties from most to least; those without a mean last.
    pub outcomes: Vec<Outcome>,
    /// The check, where there is one.
    pub check: Option<String>,
    /// Where plots differ beside their variety, as variances, the last of them plots within blocks.
    pub components: Vec<Named>,
    /// How far a difference of two varieties may be off: the average standard error of all pairs.
    pub error_of_difference: Option<f64>,
    /// How much of the differences seen is the varieties' own (generalised heritability of the means).
    pub repeatability: Option<f64>,
    /// What the ground was taken for.
    pub ground: Ground,
    /// How varieties answer to gardens and seasons, where there are enough of these.
    pub stability: Option<Stability>,
    /// By whose rule degrees of freedom were worked out.
    pub degrees: Degrees,
    /// Plots in the order given: what the model leaves unexplained.
    pub left_over: Vec<f64>,
    /// What a reader must know: terms left out, varieties without comparison.
    pub notes: Vec<String>,
}

/// Why nothing can be compared.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum CompareFault {
    /// No plot has a number.
    #[error("no plot has a number for {0}")]
    Nothing(&'static str),
    /// Fewer than two varieties have one.
    #[error("only {0} has a number, so there is nothing to compare it with")]
    OneVariety(String),
    /// The check has none.
    #[error("the check {0} has no plot with a number")]
    NoCheck(String),
    /// Every variety has one plot.
    #[error("every variety stands once, so varieties cannot be told from ground")]
    NothingRepeated,
    /// The mixed model has no answer.
    #[error("the comparison cannot be worked out: {0}")]
    Model(#[from] MixedFault),
}

impl CompareFault {
    /// What to do about it.
    #[must_use]
    pub fn help(&self) -> &'static str {
        match self {
            Self::Nothing(_) => "bring in its picks or fruit samples with the plot on each row",
            Self::OneVariety(_) => "a comparison needs two varieties or more in one grow-out",
            Self::NoCheck(_) => "name a variety that stands in this grow-out as the check",
            Self::NothingRepeated => "repeat at least a check in each block next time; locule layout does so",
            Self::Model(_) => "look for a plot whose number is far off, or compare fewer grow-outs at once",
        }
    }
}

/// Compares varieties by their plots.
///
/// `watch` hears how often the model has been worked out, and may stop the search.
///
/// # Shape
/// `plots`: one a plot, in any order; the order of [`Comparison::left_over`] is theirs.
///
/// # Errors
/// [`CompareFault`] where there is nothing to compare.
pub fn compare(
    of: Trait,
    plots: &[Observed],
    check: Option<&str>,
    watch: &mut dyn FnMut(u32) -> ControlFlow<()>,
) -> Result<Comparison, CompareFault> {
    known(of, plots, check)?;
    if let Some(found) = counted::compared(of, plots, check) {
        return Ok(found);
    }
    let fitted = Fitted::new(plots, watch)?;
    Ok(judge::judged(of, &fitted, plots, check))
}

/// Whether there is anything to compare.
fn known(of: Trait, plots: &[Observed], check: Option<&str>) -> Result<(), CompareFault> {
    let first = plots.first().ok_or(CompareFault::Nothing(of.name()))?;
    if plots.iter().all(|plot| plot.variety == first.variety) {
        return Err(CompareFault::OneVariety(first.variety.clone()));
    }
    if let Some(check) = check.filter(|check| plots.iter().all(|plot| plot.variety != *check)) {
        return Err(CompareFault::NoCheck(check.to_owned()));
    }
    let repeated = plots
        .iter()
        .enumerate()
        .any(|(at, plot)| plots.iter().skip(at + 1).any(|other| other.variety == plot.variety));
    if repeated { Ok(()) } else { Err(CompareFault::NothingRepeated) }
}
