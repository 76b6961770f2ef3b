//! One variety beside the check, in numbers and in words.

use super::Outcome;
use super::judge::level;
use crate::traits::Trait;
use record::language::{Units, counted};
use record::share::Share;
use statistics::multiplicity::check::Judged;
use statistics::students_t::critical;

/// A variety beside the check.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Against {
    /// How much more than the check, in the trait's unit.
    pub difference: f64,
    /// Interval of the difference: all varieties' intervals hold together 95 times in 100.
    pub interval: (f64, f64),
    /// Chance that a variety no different from the check would look this different somewhere in the grow-out.
    pub chance: Share,
    /// What that means.
    pub verdict: Verdict,
}

/// What a difference means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// More than the check.
    More,
    /// Less than the check.
    Less,
    /// Not told apart.
    NotTold {
        /// How many more plots of the variety (and as many of the check) would tell a difference of this size 8 times
        /// in 10; `None` where more than [`MOST_PLOTS`] would not.
        more_plots: Option<u32>,
    },
}

impl Verdict {
    /// Whether the variety was told from the check.
    #[must_use]
    pub fn is_told(self) -> bool {
        match self {
            Self::More | Self::Less => true,
            Self::NotTold { .. } => false,
        }
    }
}

/// How often a true difference should be found. Common practice, no source.
const WANTED_ABOVE: f64 = 0.841_621;
/// Beyond so many further plots none are advised. A choice of ours.
pub const MOST_PLOTS: u32 = 60;

/// Judges a difference of a variety with `plots` plots; `None` where its interval could not be worked out.
pub(super) fn against(judged: &Judged, plots: usize) -> Option<Against> {
    let interval = (judged.low?, judged.high?);
    let difference = judged.contrast.estimate();
    let verdict = match interval {
        (low, _) if 0.0 < low => Verdict::More,
        (_, high) if high < 0.0 => Verdict::Less,
        _ => Verdict::NotTold { more_plots: more_plots(judged, plots) },
    };
    Some(Against { difference, interval, chance: judged.chance, verdict })
}

/// Plots needed beyond those there are: the standard error must come down until the difference stands clear of its
/// interval's half width with 8 in 10 to spare; it falls with the root of the plots of both.
fn more_plots(judged: &Judged, plots: usize) -> Option<u32> {
    let (error, high) = (judged.contrast.standard_error(), judged.high?);
    let difference = judged.contrast.estimate();
    let multiplier = ((high - difference) / error).max(critical(level(), judged.contrast.degrees())?);
    let wanted = difference.abs() / (multiplier + WANTED_ABOVE);
    #[expect(clippy::cast_precision_loss, reason = "a garden has far fewer plots than 2^52")]
    let needed = (plots as f64 * ((error / wanted).powi(2) - 1.0)).ceil().max(1.0);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 1 and MOST_PLOTS")]
    (needed <= f64::from(MOST_PLOTS)).then_some(needed as u32)
}

/// Says how a variety did beside the check: `Barn Red: 0.90 kg (2.0 lb) a plant more than Halfpenny (95% interval 0.30 kg
/// to 1.50 kg)`. `None` for the check itself and for varieties that could not be compared with it.
#[must_use]
pub fn sentence(of: Trait, outcome: &Outcome, check: &str, units: Units) -> Option<String> {
    Some(format!("{}: {}", outcome.variety, beside(of, outcome, check, units)?))
}

/// The same without its name.
#[must_use]
pub fn beside(of: Trait, outcome: &Outcome, check: &str, units: Units) -> Option<String> {
    let against = outcome.against.as_ref()?;
    let size = |number: f64| format!("{}{}", of.told(number.abs(), units), of.each());
    let (low, high) = against.interval;
    let ends = |low: f64, high: f64| {
        format!("95% interval {} to {}", of.told_briefly(low, units), of.told_briefly(high, units))
    };
    Some(match against.verdict {
        Verdict::More => format!("{} more than {check} ({})", size(against.difference), ends(low, high)),
        Verdict::Less => format!("{} less than {check} ({})", size(against.difference), ends(-high, -low)),
        Verdict::NotTold { more_plots } => format!(
            "cannot be told from {check} with this evidence (difference {}); {}",
            ends(low, high),
            advice(more_plots)
        ),
    })
}

fn advice(more_plots: Option<u32>) -> String {
    match more_plots {
        Some(more) => {
            format!(
                "about {} of each would, if they differ as much as here",
                counted(u64::from(more), "more plot", "more plots")
            )
        }
        None => "they are too alike for a garden to tell".to_owned(),
    }
}
