//! Claims: what a packet or an old catalogue says of a variety, held against its calls and measures.
//!
//! A claim is never evidence. It is upheld where the evidence agrees and is not contested, contradicted where the
//! evidence leaves it next to no chance, and otherwise not yet measured well enough to say. What the words of a claim
//! mean is not known here. Start at [`stand`].

use crate::call::{SETTLED_AT, is_contested};
use record::days::Days;
use record::language::{self, Units};
use record::length::Millimetres;
use record::mass::Grams;
use record::share::Share;

/// How a claim stands beside the evidence.
#[derive(Clone, Debug, PartialEq)]
pub enum Standing {
    /// The evidence agrees.
    Upheld,
    /// A call speaks against it: this is the verdict, this sure.
    Contradicted {
        /// The verdict.
        verdict: String,
        /// How sure it is.
        share: Share,
    },
    /// This was measured instead.
    MeasuredAs(Usual),
    /// Nothing, or not enough, was measured that speaks to it.
    Unmeasured,
    /// It claims nothing that is measured here.
    NotJudged,
}

impl Standing {
    /// Whether the evidence speaks against the claim.
    #[must_use]
    pub fn is_against(&self) -> bool {
        matches!(self, Self::Contradicted { .. } | Self::MeasuredAs(_))
    }

    /// What the evidence says instead, in words: `plum, 97 in 100`, `usually 412 g (14.5 oz)`.
    #[must_use]
    pub fn instead(&self, units: Units) -> Option<String> {
        match self {
            Self::Contradicted { verdict, share } => Some(format!("{verdict}, {}", language::chance(*share))),
            Self::MeasuredAs(usual) => Some(format!("usually {}", usual.told(units))),
            Self::Upheld | Self::Unmeasured | Self::NotJudged => None,
        }
    }

    /// Several things that one claim says: it is contradicted where one of them is, and upheld where all are that are
    /// judged.
    #[must_use]
    pub fn together(parts: impl IntoIterator<Item = Self>) -> Self {
        let judged: Vec<Self> = parts.into_iter().filter(|part| *part != Self::NotJudged).collect();
        match judged.iter().find(|part| part.is_against()) {
            Some(against) => against.clone(),
            None if judged.is_empty() => Self::NotJudged,
            None if judged.iter().all(|part| *part == Self::Upheld) => Self::Upheld,
            None => Self::Unmeasured,
        }
    }
}

/// What was measured, where it is not as claimed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Usual {
    /// A fruit weighs this.
    Weight(Grams),
    /// A fruit is so long, or so wide.
    Length(Millimetres),
    /// A plant is so tall.
    Height(Millimetres),
    /// So many days to the first ripe fruit.
    Days(Days),
    /// So many locules, on average.
    Locules(f64),
}

impl Usual {
    /// The measure in words.
    #[must_use]
    pub fn told(self, units: Units) -> String {
        match self {
            Self::Weight(mass) => language::mass(mass, units),
            Self::Length(length) | Self::Height(length) => language::length(length, units),
            Self::Days(days) => format!("{:.0} days", days.get()),
            Self::Locules(locules) => format!("{locules:.1} locules"),
        }
    }

    fn number(self) -> f64 {
        match self {
            Self::Weight(mass) => mass.get(),
            Self::Length(length) | Self::Height(length) => length.get(),
            Self::Days(days) => days.get(),
            Self::Locules(locules) => locules,
        }
    }

    /// A claimed range with the leeway of this measure.
    fn with_leeway(self, low: f64, high: f64) -> (f64, f64) {
        match self {
            Self::Weight(_) => (low / WEIGHT_LEEWAY - ROUNDED_BY, high * WEIGHT_LEEWAY + ROUNDED_BY),
            Self::Length(_) | Self::Height(_) => (low / LENGTH_LEEWAY, high * LENGTH_LEEWAY),
            Self::Days(_) => (low - DAYS_LEEWAY, high + DAYS_LEEWAY),
            Self::Locules(_) => (low - LOCULES_LEEWAY, high + LOCULES_LEEWAY),
        }
    }

    /// How many fruits, or plots, must have been measured before a claim is judged.
    fn least(self) -> u64 {
        match self {
            Self::Days(_) | Self::Height(_) => PLOTS_TO_JUDGE,
            Self::Weight(_) | Self::Length(_) | Self::Locules(_) => FRUITS_TO_JUDGE,
        }
    }
}

/// How far from a claimed weight the usual fruit may be before the claim is wrong: packets round and
/// seasons differ. Common practice, no source.
const WEIGHT_LEEWAY: f64 = 1.25;
/// Grams by which packets round: a cherry of 3.4 g is sold as one of 3 g. Common practice, no source.
const ROUNDED_BY: f64 = 0.5;
/// Likewise for a length: a length goes with the cube root of a weight, and plants differ more than fruits.
/// Common practice, no source.
const LENGTH_LEEWAY: f64 = 1.2;
/// Days to either side of a claim. The same heat comes 4 to 11 days sooner or later (one standard deviation) from year
/// to year (three weather stations, 28 to 30 years each, worked out); two weeks is less than twice that at most of them.
const DAYS_LEEWAY: f64 = 14.0;
/// Locules to either side of a claim: a claim is a whole number, a mean is not. Common practice, no source.
const LOCULES_LEEWAY: f64 = 0.75;
/// Fruits that must have been measured before a claim is judged: the descriptors' own sample of
/// ten (IPGRI, Descriptors for Tomato, 1996; from memory, unverified).
const FRUITS_TO_JUDGE: u64 = 10;
/// Plots that must have been seen before claimed days or a claimed height are judged: one may have been anything.
/// Common practice, no source.
const PLOTS_TO_JUDGE: u64 = 2;

/// Tells how a claimed amount stands beside what `count` fruits or plots measured.
///
/// # Shape
/// `low` and `high`: the claimed range in the measure's own unit; an open end is `None`.
#[must_use]
pub fn stand_amount(low: Option<f64>, high: Option<f64>, usual: Usual, count: u64) -> Standing {
    let (low, high) = usual.with_leeway(low.unwrap_or(0.0), high.unwrap_or(f64::INFINITY));
    match (count < usual.least(), (low..=high).contains(&usual.number())) {
        (true, _) => Standing::Unmeasured,
        (false, true) => Standing::Upheld,
        (false, false) => Standing::MeasuredAs(usual),
    }
}

/// Tells how a claim stands beside a call.
///
/// # Shape
/// `claimed`: the answers that the claim allows, any of them. `shares`: every answer of the call with its probability,
/// likeliest first; empty without evidence.
#[must_use]
pub fn stand(claimed: &[String], shares: &[(String, Share)]) -> Standing {
    let Some((verdict, leading)) = shares.first() else { return Standing::Unmeasured };
    if !shares.iter().any(|(answer, _)| claimed.contains(answer)) {
        return Standing::Unmeasured;
    }
    decided(chance_of(claimed, shares), verdict, *leading)
}

/// Tells how a claimed shape stands beside the probability that the fruit has it.
#[must_use]
pub fn stand_mark(mark: &str, share: Option<Share>) -> Standing {
    let against = |share: Share| Share::new(1.0 - share.get()).unwrap_or(Share::NONE);
    share.map_or(Standing::Unmeasured, |share| decided(share.get(), &format!("not {mark}"), against(share)))
}

/// One call that a claimed use hangs on: the answers that the guide gives the use, and the call's answers.
#[derive(Clone, Debug, PartialEq)]
pub struct UseBeside {
    /// Answers that are good for it.
    pub good: Vec<String>,
    /// Every answer with its probability, likeliest first; empty without evidence.
    pub shares: Vec<(String, Share)>,
}

/// Tells how a claimed use stands: good for it is what is of a fruit class, a shape or a habit that the guide gives the use.
///
/// A use that the guide gives to nothing is not judged. One without evidence of every call that could give it cannot be
/// contradicted.
#[must_use]
pub fn stand_use(calls: &[UseBeside]) -> Standing {
    let speaking: Vec<&UseBeside> = calls.iter().filter(|call| !call.good.is_empty()).collect();
    if speaking.is_empty() {
        return Standing::NotJudged;
    }
    let none = speaking.iter().map(|call| 1.0 - chance_of(&call.good, &call.shares)).product::<f64>();
    let leading: Vec<&(String, Share)> = speaking.iter().filter_map(|call| call.shares.first()).collect();
    let verdict: Vec<&str> = leading.iter().map(|(answer, _)| answer.as_str()).collect();
    let sure = leading.iter().map(|(_, share)| share.get()).fold(1.0, f64::min);
    let sure =
        if leading.len() == speaking.len() { Share::new(sure).unwrap_or(Share::NONE) } else { Share::NONE };
    decided(1.0 - none, &verdict.join(" and "), sure)
}

/// Upheld where the claim's own chance is not contested, contradicted where it has next to none beside a verdict that
/// is not contested either.
fn decided(chance: f64, verdict: &str, leading: Share) -> Standing {
    if !is_contested(Share::new(chance.clamp(0.0, 1.0)).unwrap_or(Share::NONE)) {
        Standing::Upheld
    } else if chance <= 1.0 - SETTLED_AT && !is_contested(leading) {
        Standing::Contradicted { verdict: verdict.to_owned(), share: leading }
    } else {
        Standing::Unmeasured
    }
}

fn chance_of(claimed: &[String], shares: &[(String, Share)]) -> f64 {
    let own = shares.iter().filter(|(answer, _)| claimed.contains(answer));
    own.map(|(_, share)| share.get()).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shares(all: &[(&str, f64)]) -> Vec<(String, Share)> {
        all.iter().map(|(answer, share)| ((*answer).to_owned(), Share::new(*share).unwrap())).collect()
    }

    fn words(all: &[&str]) -> Vec<String> {
        all.iter().map(|word| (*word).to_owned()).collect()
    }

    #[track_caller]
    fn agrees(claimed: &[&str], all: &[(&str, f64)], standing: &Standing) {
        assert_eq!(stand(&words(claimed), &shares(all)), *standing, "{claimed:?}");
    }

    #[test]
    fn a_claimed_weight_is_held_against_the_scale() {
        let grams = |grams| Usual::Weight(Grams::new(grams).unwrap());
        let stand = |usual, fruits| stand_amount(Some(113.0), Some(170.0), grams(usual), fruits);
        assert_eq!(stand(150.0, 30), Standing::Upheld);
        assert_eq!(stand(300.0, 30), Standing::MeasuredAs(grams(300.0)));
        assert_eq!(stand(300.0, 3), Standing::Unmeasured);
        assert_eq!(stand_amount(Some(3.0), Some(3.0), grams(3.8), 30), Standing::Upheld);
    }

    #[test]
    fn claimed_days_are_held_against_the_plots() {
        let days = |days| Usual::Days(Days::new(days).unwrap());
        let stand = |usual, plots| stand_amount(Some(70.0), Some(70.0), days(usual), plots);
        assert_eq!(stand(83.0, 2), Standing::Upheld);
        assert_eq!(stand(85.0, 2), Standing::MeasuredAs(days(85.0)));
        assert_eq!(stand(85.0, 1), Standing::Unmeasured);
    }

    #[test]
    fn a_claim_is_upheld_contradicted_or_left_open() {
        let sure = [("semi-determinate", 0.97), ("determinate", 0.03)];
        let share = Share::new(0.97).unwrap();
        let against = Standing::Contradicted { verdict: "semi-determinate".into(), share };
        agrees(&["semi-determinate"], &sure, &Standing::Upheld);
        agrees(&["determinate"], &sure, &against);
        agrees(&["determinate", "semi-determinate"], &sure, &Standing::Upheld);
        let open = [("plum", 0.55), ("grape", 0.45)];
        agrees(&["grape"], &open, &Standing::Unmeasured);
        agrees(&["plum"], &[], &Standing::Unmeasured);
    }

    #[test]
    fn a_use_stands_with_the_calls_that_give_it() {
        let class = |good: &[&str], all: &[(&str, f64)]| UseBeside { good: words(good), shares: shares(all) };
        let paste = class(&["plum", "paste"], &[("paste", 0.7), ("plum", 0.29)]);
        assert_eq!(stand_use(std::slice::from_ref(&paste)), Standing::Upheld);
        let slicer = class(&["plum", "paste"], &[("slicer", 0.98), ("paste", 0.02)]);
        let share = Share::new(0.98).unwrap();
        let against = Standing::Contradicted { verdict: "slicer".into(), share };
        assert_eq!(stand_use(std::slice::from_ref(&slicer)), against);
        let bush = class(&["determinate"], &[("determinate", 0.9), ("indeterminate", 0.1)]);
        assert_eq!(stand_use(&[slicer.clone(), bush]), Standing::Upheld);
        assert_eq!(stand_use(&[slicer, class(&["determinate"], &[])]), Standing::Unmeasured);
        assert_eq!(stand_use(&[class(&[], &[("slicer", 0.98)])]), Standing::NotJudged);
    }

    #[test]
    fn several_things_stand_together() {
        let days = Standing::MeasuredAs(Usual::Days(Days::new(90.0).unwrap()));
        assert_eq!(Standing::together([Standing::Upheld, Standing::NotJudged]), Standing::Upheld);
        assert_eq!(Standing::together([Standing::Upheld, days.clone()]), days);
        assert_eq!(Standing::together([Standing::Upheld, Standing::Unmeasured]), Standing::Unmeasured);
        assert_eq!(Standing::together([]), Standing::NotJudged);
    }
}
