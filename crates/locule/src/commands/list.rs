//! `locule list`: every variety with its calls.

use super::Failure;
use super::calls_told::{BriefVariety, brief_variety, row};
use super::reference::{Shape, shape};
use crate::answer::Answer;
use crate::arguments::List;
use crate::columns::columns;
use house::folder::House;
use house::list::{self, Contested, Filter, Freshness};
use record::language::{Units, counted};
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// The list.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct TheList {
    /// The varieties that fit, by name.
    varieties: Vec<BriefVariety>,
    /// How many the house has.
    of: usize,
    /// Varieties whose calls rest on older evidence or guides.
    old: usize,
    /// Varieties that were never called.
    not_called: usize,
    /// Guide files that were edited and not accepted.
    edited_guides: Vec<String>,
    #[serde(skip)]
    units: Units,
}

pub(crate) fn run(house: &House, typed: List) -> Result<TheList, Failure> {
    let filter = Filter {
        habit: typed.habit,
        class: typed.class,
        colour: typed.colour,
        contested: if typed.contested { Contested::Only } else { Contested::Any },
        find: typed.find,
    };
    let list = list::list(house, &filter)?;
    let count = |freshness| list.varieties.iter().filter(|listed| listed.freshness == freshness).count();
    Ok(TheList {
        varieties: list.varieties.iter().map(brief_variety).collect(),
        of: list.of,
        old: count(Freshness::Old),
        not_called: count(Freshness::NotCalled),
        edited_guides: list.edited_guides,
        units: house.settings.units,
    })
}

impl Answer for TheList {
    const SHAPE: &'static str = "list/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let heading = ["Variety", "Habit", "Fruit class", "Colour", "Weight"].map(str::to_owned).to_vec();
        let mut rows = vec![heading];
        rows.extend(self.varieties.iter().map(|variety| row(variety, self.units)));
        columns(to, &rows)?;
        writeln!(
            to,
            "{} of {} shown.",
            self.varieties.len(),
            counted(self.of as u64, "variety", "varieties")
        )?;
        if 0 < self.old + self.not_called {
            let (old, none) = (self.old, self.not_called);
            writeln!(to, "{old} rest on older evidence or guides, {none} were never called: locule call")?;
        }
        Ok(())
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<TheList>()]
}
