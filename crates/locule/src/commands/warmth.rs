//! How warmth is counted: what was typed as a clock, and a clock as it is told.

use super::Failure;
use crate::arguments::warmth::{CutOffWord, MethodWord, Warmth};
use house::forecast::CLOCK as USUAL;
use house::ripen::{Clock, Course, CutOff, Method};
use schemars::JsonSchema;
use serde::Serialize;

/// Best and last temperature of beta unless said otherwise. From memory, unverified.
const BEST: f64 = 28.0;
const GROWTH_ENDS: f64 = 45.0;
/// Temperatures that a base or a ceiling may be. Common practice, no source.
const POSSIBLE: std::ops::RangeInclusive<f64> = -20.0..=60.0;

/// What degree-days are counted with: a number of them can be used with the same only.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct ClockTold {
    /// The method, as `--method` takes it; `capped-mean` is that of a fruit from flower to ripe.
    method: &'static str,
    /// What happens above the ceiling, of sines and triangles, as `--cut-off` takes it.
    cut_off: Option<&'static str>,
    /// Degrees Celsius below which nothing is gained.
    base_c: f64,
    /// Degrees Celsius above which nothing more is gained; none of a method without one.
    ceiling_c: Option<f64>,
    /// Degrees Celsius at which growth is fastest, of beta.
    best_c: Option<f64>,
}

impl ClockTold {
    pub(super) fn of(clock: &Clock) -> Self {
        let (method, cut_off, best_c) = match clock.method {
            Method::Average => ("average", None, None),
            Method::CappedAverage => ("capped", None, None),
            Method::CappedMean => ("capped-mean", None, None),
            Method::ModifiedAverage => ("modified", None, None),
            Method::Sine(Course::Single, cut) => ("sine", Some(cut), None),
            Method::Sine(Course::Double, cut) => ("double-sine", Some(cut), None),
            Method::Triangle(Course::Single, cut) => ("triangle", Some(cut), None),
            Method::Triangle(Course::Double, cut) => ("double-triangle", Some(cut), None),
            Method::Beta { best } => ("beta", None, Some(best)),
        };
        let cut_off = cut_off.map(|cut_off| match cut_off {
            CutOff::Horizontal => "horizontal",
            CutOff::Intermediate => "intermediate",
            CutOff::Vertical => "vertical",
        });
        Self { method, cut_off, base_c: clock.base, ceiling_c: ceiling(clock), best_c }
    }
}

/// The clock that was typed.
///
/// # Errors
/// [`Failure::Typed`] for temperatures that make no clock, and for what the method has no use for.
pub(super) fn clock(typed: &Warmth) -> Result<Clock, Failure> {
    let word = typed.method.unwrap_or(MethodWord::Sine);
    let is_beta = word == MethodWord::Beta;
    let course = matches!(
        word,
        MethodWord::Sine | MethodWord::DoubleSine | MethodWord::Triangle | MethodWord::DoubleTriangle
    );
    if typed.cut_off.is_some() && !course {
        return refused(
            "only sines and triangles have a cut-off",
            "leave --cut-off out, or choose --method sine",
        );
    }
    if typed.best.is_some() && !is_beta {
        return refused("only beta has a best temperature", "leave --best out, or choose --method beta");
    }
    if typed.ceiling.is_some() && word == MethodWord::Average {
        return refused("the plain average has no ceiling", "leave --ceiling out, or choose --method capped");
    }
    let base = typed.base.unwrap_or(USUAL.base);
    let usual = if is_beta { GROWTH_ENDS } else { USUAL.ceiling.unwrap_or(GROWTH_ENDS) };
    let ceiling = typed.ceiling.unwrap_or(usual);
    let best = typed.best.unwrap_or(BEST);
    if !POSSIBLE.contains(&base) || !POSSIBLE.contains(&ceiling) || ceiling <= base {
        return refused(
            &format!("base {base} and ceiling {ceiling} are no pair of temperatures"),
            "write degrees Celsius, the ceiling above the base, such as 10 and 30",
        );
    }
    if is_beta && (best <= base || ceiling <= best) {
        return refused(
            &format!("the best temperature {best} does not lie between base {base} and ceiling {ceiling}"),
            "write degrees Celsius, such as --base 10 --best 28 --ceiling 45",
        );
    }
    Ok(Clock { method: method(word, cut_off(typed.cut_off), best), base, ceiling: Some(ceiling) })
}

fn refused(message: &str, help: &str) -> Result<Clock, Failure> {
    Err(Failure::Typed { message: message.to_owned(), help: help.to_owned() })
}

fn cut_off(word: Option<CutOffWord>) -> CutOff {
    match word {
        None | Some(CutOffWord::Horizontal) => CutOff::Horizontal,
        Some(CutOffWord::Intermediate) => CutOff::Intermediate,
        Some(CutOffWord::Vertical) => CutOff::Vertical,
    }
}

fn method(word: MethodWord, cut_off: CutOff, best: f64) -> Method {
    match word {
        MethodWord::Average => Method::Average,
        MethodWord::Capped => Method::CappedAverage,
        MethodWord::Modified => Method::ModifiedAverage,
        MethodWord::Sine => Method::Sine(Course::Single, cut_off),
        MethodWord::DoubleSine => Method::Sine(Course::Double, cut_off),
        MethodWord::Triangle => Method::Triangle(Course::Single, cut_off),
        MethodWord::DoubleTriangle => Method::Triangle(Course::Double, cut_off),
        MethodWord::Beta => Method::Beta { best },
    }
}

/// The ceiling, of a method that has one.
fn ceiling(clock: &Clock) -> Option<f64> {
    clock.ceiling.filter(|_| clock.method != Method::Average)
}

/// A clock with all that its numbers mean something by.
pub(super) fn clock_told(clock: &Clock) -> String {
    let method = match clock.method {
        Method::Average => "mean of lowest and highest".to_owned(),
        Method::CappedAverage | Method::CappedMean => "mean of lowest and highest, capped".to_owned(),
        Method::ModifiedAverage => "modified mean of lowest and highest".to_owned(),
        Method::Sine(course, cut_off) => format!("{} sine{}", course_told(course), cut_off_told(cut_off)),
        Method::Triangle(course, cut_off) => {
            format!("{} triangle{}", course_told(course), cut_off_told(cut_off))
        }
        Method::Beta { best } => format!("beta response, fastest at {best}"),
    };
    let ceiling = ceiling(clock).map(|ceiling| format!(" to {ceiling}")).unwrap_or_default();
    format!("degree-days (°C) over {}{ceiling} by {method}", clock.base)
}

fn course_told(course: Course) -> &'static str {
    match course {
        Course::Single => "single",
        Course::Double => "double",
    }
}

/// Nothing of the usual one.
fn cut_off_told(cut_off: CutOff) -> &'static str {
    match cut_off {
        CutOff::Horizontal => "",
        CutOff::Intermediate => " with an intermediate cut-off",
        CutOff::Vertical => " with a vertical cut-off",
    }
}
