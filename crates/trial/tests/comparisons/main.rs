//! What a grow-out says, held against a published trial and against what must be so.

#![expect(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]
#![expect(clippy::print_stdout, reason = "what is left out is said in the report")]

mod counts;
mod coverage;
mod made;
mod published;
mod steady;
mod words;

use std::ops::ControlFlow;
use trial::compare::{CompareFault, Comparison, Observed, compare};
use trial::traits::Trait;

fn compared(plots: &[Observed], check: Option<&str>) -> Result<Comparison, CompareFault> {
    compare(Trait::Yield, plots, check, &mut |_| ControlFlow::Continue(()))
}

fn plot(variety: &str, environment: &str, replicate: u32, block: u32, value: f64) -> Observed {
    Observed {
        variety: variety.to_owned(),
        environment: environment.to_owned(),
        replicate: Some(replicate),
        block: Some(block),
        place: None,
        value,
        counted: None,
    }
}
