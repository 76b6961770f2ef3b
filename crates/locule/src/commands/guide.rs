//! `locule guide`: what a changed guide would move, and accepting it.

use super::calls_told::{Brief, brief, words};
use super::reference::{Shape, shape};
use super::{Failure, act, answer, bars};
use crate::answer::{Answer, Ending, Form};
use crate::arguments::GuideAction;
use house::folder::House;
use house::{calls, guides, moves};
use record::language::counted;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};
use std::path::Path;

pub(crate) fn run(house: &House, action: &GuideAction, form: Form) -> Result<Ending, Failure> {
    match action {
        GuideAction::Preview { file } => answer(&preview(house, file)?, form),
        GuideAction::Accept { file, by } => answer(&accept(house, file, by.as_ref())?, form),
    }
}

/// What a changed guide would move.
#[derive(Debug, Serialize, JsonSchema)]
struct Preview {
    /// The guide's file.
    file: String,
    /// Calls that would move.
    moves: Vec<MoveTold>,
}

/// One call that would move.
#[derive(Debug, Serialize, JsonSchema)]
struct MoveTold {
    /// The variety.
    variety: String,
    /// The call as it stands.
    before: Brief,
    /// The call by the changed guide.
    after: Brief,
}

fn preview(house: &House, file: &Path) -> Result<Preview, Failure> {
    let moves = moves::preview(house, file, &bars())?.into_iter().map(|one| MoveTold {
        variety: one.variety,
        before: brief(one.subject, &one.before),
        after: brief(one.subject, &one.after),
    });
    Ok(Preview { file: file.display().to_string(), moves: moves.collect() })
}

impl Answer for Preview {
    const SHAPE: &'static str = "guide-preview/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        for one in &self.moves {
            let (about, before, after) = (&one.before.about, words(&one.before), words(&one.after));
            writeln!(to, "{}, {about}: {before} -> {after}", one.variety)?;
        }
        writeln!(to, "{} would move.", counted(self.moves.len() as u64, "call", "calls"))?;
        writeln!(to, "Make it the house's rule: locule guide accept {}", self.file)
    }
}

/// A guide that was accepted.
#[derive(Debug, Serialize, JsonSchema)]
struct Accepted {
    /// Which guide.
    guide: String,
    /// Its version in this house, counted from 1.
    version: u32,
    /// Varieties that were called again.
    called: usize,
}

fn accept(house: &House, file: &Path, by: Option<&String>) -> Result<Accepted, Failure> {
    let version = guides::accept(house, file, &act(house, by, None))?;
    let called = calls::call_all(house, &bars())?.len();
    Ok(Accepted { guide: version.guide, version: version.version, called })
}

impl Answer for Accepted {
    const SHAPE: &'static str = "guide-accept/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let called = counted(self.called as u64, "variety was", "varieties were");
        writeln!(to, "The {} guide is now version {}. {called} called again.", self.guide, self.version)
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Preview>(), shape::<Accepted>()]
}
