//! `locule names`: names that no variety has, and saying which variety they mean.

use super::reference::{Shape, shape};
use super::{Failure, answer, mending};
use crate::answer::{Answer, Ending, Form};
use crate::arguments::NamesAction;
use crate::columns::columns;
use house::folder::House;
use house::names;
use record::language::counted;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

pub(crate) fn run(house: &House, action: Option<NamesAction>, form: Form) -> Result<Ending, Failure> {
    match action {
        None => answer(&unknown(house)?, form),
        Some(NamesAction::Accept { name, variety, by }) => {
            let taken = names::accept(house, &name, &variety, &mending(house, by.as_ref()))?;
            answer(&Accepted { name, variety, rows_taken: taken.solved }, form)
        }
    }
}

/// Names that no variety has.
#[derive(Debug, Serialize, JsonSchema)]
struct Unknown {
    /// The most wanted first.
    names: Vec<UnknownName>,
}

/// A name that no variety has.
#[derive(Debug, Serialize, JsonSchema)]
struct UnknownName {
    /// As written.
    name: String,
    /// Rows in the quarantine that wait for it.
    rows: u64,
    /// The nearest known name.
    nearest: Option<String>,
}

fn unknown(house: &House) -> Result<Unknown, Failure> {
    let names = names::unknown(house)?.into_iter();
    let names = names.map(|name| UnknownName { name: name.name, rows: name.rows, nearest: name.nearest });
    Ok(Unknown { names: names.collect() })
}

impl Answer for Unknown {
    const SHAPE: &'static str = "names/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        if self.names.is_empty() {
            return writeln!(to, "Every name in the quarantine is known.");
        }
        let row = |name: &UnknownName| {
            let nearest = name.nearest.as_ref().map_or("nothing near".to_owned(), |near| format!("{near}?"));
            vec![name.name.clone(), counted(name.rows, "row", "rows"), nearest]
        };
        columns(to, &self.names.iter().map(row).collect::<Vec<_>>())?;
        writeln!(to, "Accept a spelling: locule names accept NAME VARIETY")
    }
}

/// A name that was accepted.
#[derive(Debug, Serialize, JsonSchema)]
struct Accepted {
    /// The name.
    name: String,
    /// The variety it means from now on.
    variety: String,
    /// Rows that waited for it and were taken.
    rows_taken: u64,
}

impl Answer for Accepted {
    const SHAPE: &'static str = "names-accept/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let taken = counted(self.rows_taken, "row that waited was", "rows that waited were");
        writeln!(to, "{:?} means {} from now on. {taken} taken.", self.name, self.variety)
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Unknown>(), shape::<Accepted>()]
}
