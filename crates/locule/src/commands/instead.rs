//! `locule instead`: what to offer in place of a variety that is sold out.

use super::Failure;
use super::calls_told::{BriefVariety, brief_variety, row};
use super::reference::{Shape, shape};
use crate::answer::Answer;
use crate::arguments::what::Instead;
use crate::columns::columns;
use house::folder::House;
use house::standins::{self, Alternative, Known};
use record::language::{Units, counted};
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// A variety and what may stand in for it.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct StandIns {
    /// The variety that is asked about.
    of: BriefVariety,
    /// The nearest others, nearest first.
    nearest: Vec<NearTold>,
    #[serde(skip)]
    units: Units,
}

/// A variety that is like another.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct NearTold {
    /// The variety.
    variety: BriefVariety,
    /// How far it is: 0 the same, 1 as far as any two can be.
    distance: f64,
    /// How many traits could be compared.
    compared: usize,
    /// Whether too little is known of it for the distance to say much.
    hardly_measured: bool,
    /// Why, in words.
    reason: String,
}

pub(super) fn near(found: &Alternative) -> NearTold {
    NearTold {
        variety: brief_variety(&found.listed),
        distance: found.distance,
        compared: found.compared,
        hardly_measured: found.known == Known::Little,
        reason: found.reason.clone(),
    }
}

pub(crate) fn run(house: &House, typed: &Instead) -> Result<StandIns, Failure> {
    let found = standins::of(house, &typed.variety)?;
    let nearest = found.nearest.iter().map(near).collect();
    Ok(StandIns { of: brief_variety(&found.of), nearest, units: house.settings.units })
}

impl Answer for StandIns {
    const SHAPE: &'static str = "instead/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        if self.nearest.is_empty() {
            let name = &self.of.name;
            return writeln!(to, "Nothing can stand in for {name}: nothing was measured that both have.");
        }
        writeln!(to, "Instead of {}:", self.of.name)?;
        columns(to, &[row(&self.of, self.units)])?;
        writeln!(to)?;
        tell_near(to, &self.nearest, self.units)
    }
}

/// The nearest with their calls, and below each why.
pub(super) fn tell_near(to: &mut dyn Write, nearest: &[NearTold], units: Units) -> io::Result<()> {
    let rows: Vec<Vec<String>> = nearest.iter().map(|found| row(&found.variety, units)).collect();
    let mut aligned = Vec::new();
    columns(&mut aligned, &rows)?;
    for (line, found) in String::from_utf8_lossy(&aligned).lines().zip(nearest) {
        writeln!(to, "{line}")?;
        let traits = counted(found.compared as u64, "trait", "traits");
        let hardly = if found.hardly_measured { "; it was hardly measured" } else { "" };
        writeln!(to, "    {} ({:.2} apart over {traits}{hardly})", found.reason, found.distance)?;
    }
    Ok(())
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<StandIns>()]
}
