//! `locule plants`: how many plants to look at, and how many to save seed from.

use super::reference::{Shape, shape};
use super::{Failure, answer};
use crate::answer::{Answer, Ending, Form};
use crate::arguments::lots::Plants as Typed;
use house::lots::numbers::{self, Asked};
use house::lots::telling;
use record::share::{Share, WholePercent};
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

pub(crate) fn run(typed: &Typed, form: Form) -> Result<Ending, Failure> {
    let sure = WholePercent::new(typed.sure).unwrap_or(WholePercent::of::<95>());
    let asked = Asked { share: numbers::share(&typed.share)?, sure, plants: typed.plants };
    let found = numbers::numbers(asked)?;
    let of_those = found.of_those.as_ref();
    let told = PlantNumbers {
        to_see: found.to_see,
        to_keep: found.to_keep,
        seen: of_those.map(|those| those.seen.get()),
        accepted: of_those.map(|those| those.accepted),
        passes: of_those.map(|those| those.passes.iter().map(passes).collect()).unwrap_or_default(),
        lines: telling::numbers::lines(asked, &found),
    };
    answer(&told, form)
}

fn passes((off_types, passes): &(Share, Share)) -> Passes {
    Passes { off_types: off_types.get(), passes: passes.get() }
}

/// How many plants.
#[derive(Debug, Serialize, JsonSchema)]
struct PlantNumbers {
    /// Plants among which at least one off-type of the share is seen.
    to_see: u32,
    /// Plants to save seed from, to keep what the share carries.
    to_keep: u32,
    /// Of the plants that were told: the chance that at least one is seen, or kept, from 0 to 1.
    seen: Option<f64>,
    /// Off-types that may stand among them.
    accepted: Option<u32>,
    /// How often poorer lots pass.
    passes: Vec<Passes>,
    /// All of it in words.
    lines: Vec<String>,
}

/// How often a poorer lot passes.
#[derive(Debug, Serialize, JsonSchema)]
struct Passes {
    /// Its share of off-types, from 0 to 1.
    off_types: f64,
    /// How often it passes, from 0 to 1.
    passes: f64,
}

impl Answer for PlantNumbers {
    const SHAPE: &'static str = "plants/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        self.lines.iter().try_for_each(|line| writeln!(to, "{line}"))
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<PlantNumbers>()]
}
