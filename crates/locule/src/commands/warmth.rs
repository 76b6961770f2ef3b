//! How warmth is counted: what was typed as a clock, and a clock as it is told.

use super::Failure;
use crate::arguments::warmth::{CutOffWord, MethodWord, Warmth};
use house::fault::HouseFault;
use house::warmth::{self, Clock, CutOff, Way, Wish};
use schemars::JsonSchema;
use serde::Serialize;

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
        let warmth::Written { way, cut_off, ceiling, best } = warmth::written(clock);
        Self { method: way, cut_off, base_c: clock.base, ceiling_c: ceiling, best_c: best }
    }
}

/// The clock that was typed.
///
/// # Errors
/// Temperatures that make no clock, and what the method has no use for.
pub(super) fn clock(typed: &Warmth) -> Result<Clock, Failure> {
    let Warmth { method, cut_off, base, ceiling, best } = typed;
    let wish = Wish {
        way: method.map(way),
        cut_off: cut_off.map(above_ceiling),
        base: *base,
        ceiling: *ceiling,
        best: *best,
    };
    wish.clock().map_err(|fault| HouseFault::from(fault).into())
}

fn above_ceiling(word: CutOffWord) -> CutOff {
    match word {
        CutOffWord::Horizontal => CutOff::Horizontal,
        CutOffWord::Intermediate => CutOff::Intermediate,
        CutOffWord::Vertical => CutOff::Vertical,
    }
}

fn way(word: MethodWord) -> Way {
    match word {
        MethodWord::Average => Way::Average,
        MethodWord::Capped => Way::Capped,
        MethodWord::Modified => Way::Modified,
        MethodWord::Sine => Way::Sine,
        MethodWord::DoubleSine => Way::DoubleSine,
        MethodWord::Triangle => Way::Triangle,
        MethodWord::DoubleTriangle => Way::DoubleTriangle,
        MethodWord::Beta => Way::Beta,
    }
}
