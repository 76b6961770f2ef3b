//! A clock as somebody wishes it: a way of counting with the temperatures that they said, the others usual.
//!
//! What a way of counting has no use for is refused, so that nobody believes that it counted. Start at [`Wish::clock`].

use super::{Clock, Course, CutOff, Method};

/// How warmth is counted unless somebody says otherwise: a sine between 10 and 30 degrees. Source of base and ceiling: see
/// `docs/ripening.md`.
pub const USUAL: Clock =
    Clock { method: Method::Sine(Course::Single, CutOff::Horizontal), base: BASE, ceiling: Some(CEILING) };

/// Temperatures of the usual clock, in degrees Celsius.
const BASE: f64 = 10.0;
const CEILING: f64 = 30.0;
/// Best and last temperature of beta unless said otherwise. From memory, unverified.
const BEST: f64 = 28.0;
const GROWTH_ENDS: f64 = 45.0;
/// Temperatures that a base or a ceiling may be. Common practice, no source.
const POSSIBLE: std::ops::RangeInclusive<f64> = -20.0..=60.0;

/// A way of counting: a [`Method`] before its temperatures are known.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Way {
    /// Mean of lowest and highest, without a ceiling.
    Average,
    /// The same, the highest cut at the ceiling.
    Capped,
    /// Both brought between base and ceiling first.
    Modified,
    /// A sine through the day.
    #[default]
    Sine,
    /// A sine up from the day's lowest and down to the next night's.
    DoubleSine,
    /// Straight lines through the day.
    Triangle,
    /// Straight lines up from the day's lowest and down to the next night's.
    DoubleTriangle,
    /// Beta response to the day's mean.
    Beta,
}

/// What somebody said of a clock; the rest is usual. Temperatures in degrees Celsius.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Wish {
    /// The way of counting.
    pub way: Option<Way>,
    /// What happens above the ceiling.
    pub cut_off: Option<CutOff>,
    /// Below which nothing is gained.
    pub base: Option<f64>,
    /// Above which nothing more is gained.
    pub ceiling: Option<f64>,
    /// At which growth is fastest.
    pub best: Option<f64>,
}

/// Why a wish is no clock.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum WishFault {
    /// A cut-off of a way that has no course through the day.
    #[error("only sines and triangles have a cut-off")]
    NoCutOff,
    /// A best temperature of another way than beta.
    #[error("only beta has a best temperature")]
    NoBest,
    /// A ceiling of the plain average.
    #[error("the plain average has no ceiling")]
    NoCeiling,
    /// A base and a ceiling that nothing lies between.
    #[error("base {base} and ceiling {ceiling} are no pair of temperatures")]
    NoPair {
        /// The base.
        base: f64,
        /// The ceiling.
        ceiling: f64,
    },
    /// A best temperature that does not lie between base and ceiling.
    #[error("the best temperature {best} does not lie between base {base} and ceiling {ceiling}")]
    NotBetween {
        /// The best temperature.
        best: f64,
        /// The base.
        base: f64,
        /// The ceiling.
        ceiling: f64,
    },
}

impl WishFault {
    /// What to do about it.
    #[must_use]
    pub fn help(self) -> &'static str {
        match self {
            Self::NoCutOff => "leave the cut-off out, or count by a sine or a triangle",
            Self::NoBest => "leave the best temperature out, or count by beta",
            Self::NoCeiling => "leave the ceiling out, or count by the capped average",
            Self::NoPair { .. } => "write degrees Celsius, the ceiling above the base, such as 10 and 30",
            Self::NotBetween { .. } => "write degrees Celsius, such as base 10, best 28 and ceiling 45",
        }
    }
}

impl Wish {
    /// Whether anything was said.
    #[must_use]
    pub fn is_said(&self) -> bool {
        *self != Self::default()
    }

    /// The clock that was wished for.
    ///
    /// # Errors
    /// [`WishFault`] for temperatures that make no clock, and for what the way of counting has no use for.
    pub fn clock(&self) -> Result<Clock, WishFault> {
        let way = self.way.unwrap_or_default();
        let has_course = matches!(way, Way::Sine | Way::DoubleSine | Way::Triangle | Way::DoubleTriangle);
        if self.cut_off.is_some() && !has_course {
            return Err(WishFault::NoCutOff);
        }
        if self.best.is_some() && way != Way::Beta {
            return Err(WishFault::NoBest);
        }
        if self.ceiling.is_some() && way == Way::Average {
            return Err(WishFault::NoCeiling);
        }
        let usual = if way == Way::Beta { GROWTH_ENDS } else { CEILING };
        let (base, ceiling) = (self.base.unwrap_or(BASE), self.ceiling.unwrap_or(usual));
        if !POSSIBLE.contains(&base) || !POSSIBLE.contains(&ceiling) || ceiling <= base {
            return Err(WishFault::NoPair { base, ceiling });
        }
        let best = self.best.unwrap_or(BEST);
        if way == Way::Beta && (best <= base || ceiling <= best) {
            return Err(WishFault::NotBetween { best, base, ceiling });
        }
        let cut_off = self.cut_off.unwrap_or(CutOff::Horizontal);
        Ok(Clock { method: way.method(cut_off, best), base, ceiling: Some(ceiling) })
    }
}

impl Way {
    fn method(self, cut_off: CutOff, best: f64) -> Method {
        match self {
            Self::Average => Method::Average,
            Self::Capped => Method::CappedAverage,
            Self::Modified => Method::ModifiedAverage,
            Self::Sine => Method::Sine(Course::Single, cut_off),
            Self::DoubleSine => Method::Sine(Course::Double, cut_off),
            Self::Triangle => Method::Triangle(Course::Single, cut_off),
            Self::DoubleTriangle => Method::Triangle(Course::Double, cut_off),
            Self::Beta => Method::Beta { best },
        }
    }
}
