//! Walk sheets: what is due in a grow-out on a day, on paper, in walking order, parted among people.
//!
//! The headings are those that `take` reads, so that a sheet that is typed up comes in like any table of notes: one
//! table a kind of note, with the grow-out's name on the line above. Start at [`print`].

mod tables;

use crate::fault::HouseFault;
use crate::folder::{self, House};
use crate::layout::kept::grow_out;
use crate::layout::{kept, map};
use crate::print::Paper;
use crate::seen;
use crate::stakes::slug;
use jiff::civil::Date;
use ledger::ledger::Ledger;
use publish::walk_sheets::{Walk, WalkSheets, walk_sheets};
use record::growout::{GrowOut, Plot, PlotRole};
use record::id::Id;
use record::variety::Variety;
use std::collections::HashMap;
use std::path::{Path, PathBuf};
use tables::{DuePlot, tables};
use trial::due::{Due, due};
use trial::walk::{self, Spot};

/// How a walk is parted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Parted {
    /// One walk.
    Whole,
    /// Among these people, evenly.
    Among(Vec<String>),
    /// Into parts of at most so many plots.
    AtMost(usize),
}

/// Walk sheets that were printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Printed {
    /// The file.
    pub file: PathBuf,
    /// Its size in bytes.
    pub bytes: u64,
    /// Plots at which something is due.
    pub plots: usize,
    /// Parts of the walk.
    pub parts: usize,
    /// What is due, in the order of the walk.
    pub due: Vec<&'static str>,
}

/// Prints the walk sheets of a grow-out for a day to `file`, whole or not at all.
///
/// # Errors
/// [`HouseFault::NoSuchGrowOut`], [`HouseFault::NoPlots`], [`HouseFault::NothingDue`]; what the ledger or the disk
/// refuses.
pub fn print(
    house: &House,
    name: &str,
    day: Date,
    parted: &Parted,
    paper: Paper,
    file: &Path,
) -> Result<Printed, HouseFault> {
    let gathered = gather(house, name, day, parted)?;
    let pdf = walk_sheets(&gathered.sheets, paper)?;
    folder::write(file, &pdf)?;
    Ok(Printed {
        file: file.to_owned(),
        bytes: u64::try_from(pdf.len()).unwrap_or(u64::MAX),
        plots: gathered.plots,
        parts: gathered.sheets.walks.len(),
        due: gathered.due.into_iter().map(Due::name).collect(),
    })
}

/// The file that walk sheets go to unless another is named.
#[must_use]
pub fn file(house: &House, name: &str, day: Date) -> PathBuf {
    house.printed().join(format!("walk-{}-{day}.pdf", slug(name)))
}

/// The sheets of a walk, and what they come to.
struct Gathered {
    sheets: WalkSheets,
    plots: usize,
    due: Vec<Due>,
}

fn gather(house: &House, name: &str, day: Date, parted: &Parted) -> Result<Gathered, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let grow_out = grow_out(&mut ledger, name)?;
    let plots = in_walking_order(&mut ledger, &grow_out)?;
    if plots.is_empty() {
        return Err(HouseFault::NoPlots(grow_out.name));
    }
    let due_plots = due_plots(&mut ledger, plots, day)?;
    if due_plots.is_empty() {
        return Err(HouseFault::NothingDue { grow_out: grow_out.name, day });
    }
    let all = all_due(due_plots.iter().map(|plot| plot.due.as_slice()));
    let sheets = WalkSheets {
        house: house.settings.name.clone(),
        grow_out: grow_out.name.clone(),
        day,
        walks: walks(house, &due_plots, day, parted),
        sketch: sketch(&mut ledger, &grow_out.name)?,
        house_fonts: Vec::new(),
    };
    Ok(Gathered { sheets, plots: due_plots.len(), due: all })
}

/// Notes that are due at one plot at least, in the order of a walk.
pub(crate) fn all_due<'a>(plots: impl Iterator<Item = &'a [Due]>) -> Vec<Due> {
    let due: Vec<&[Due]> = plots.collect();
    Due::ALL.into_iter().filter(|note| due.iter().any(|own| own.contains(note))).collect()
}

fn due_plots(ledger: &mut Ledger, plots: Vec<Plot>, day: Date) -> Result<Vec<DuePlot>, HouseFault> {
    let mut seen = seen::of_plots(ledger)?;
    let names = varieties(ledger)?;
    let due = plots.into_iter().map(|plot| {
        let seen = seen.remove(&plot.id).unwrap_or_default();
        let variety = names.get(&plot.variety).cloned().unwrap_or_default();
        DuePlot { due: due(&seen.seen, day), plot, variety }
    });
    Ok(due.filter(|plot| !plot.due.is_empty()).collect())
}

fn walks(house: &House, plots: &[DuePlot], day: Date, parted: &Parted) -> Vec<Walk> {
    let count = match parted {
        Parted::Whole => 1,
        Parted::Among(people) => people.len(),
        Parted::AtMost(most) => walk::parts(plots.len(), *most),
    };
    let whose = |part: usize| match parted {
        Parted::Among(people) => people.get(part).cloned().unwrap_or_default(),
        _ if count <= 1 => String::new(),
        _ => format!("part {} of {count}", part + 1),
    };
    let runs = walk::shared(plots.len(), count).into_iter().enumerate();
    let walk = |(part, run): (usize, std::ops::Range<usize>)| {
        let own = plots.get(run).filter(|own| !own.is_empty())?;
        let due = all_due(own.iter().map(|plot| plot.due.as_slice()));
        let told = due.iter().map(|due| due.name()).collect::<Vec<_>>().join("; ");
        let tables = tables(own, day, house.settings.units);
        Some(Walk { whose: whose(part), due: format!("Due: {told}."), tables })
    };
    runs.filter_map(walk).collect()
}

/// The beds with their plots, where the grow-out was laid out here.
fn sketch(ledger: &mut Ledger, name: &str) -> Result<Option<String>, HouseFault> {
    match kept::layout_of(ledger, name) {
        Ok(kept) => {
            let map = map::of(name, &kept.gardens, &kept.layout);
            Ok(Some(drawing::bed_map::bed_map(&map).markup().to_owned()))
        }
        Err(HouseFault::NotLaidOut(_)) => Ok(None),
        Err(fault) => Err(fault),
    }
}

/// The plots of a grow-out in the order in which one walks past them, guards left out.
pub(crate) fn in_walking_order(ledger: &mut Ledger, grow_out: &GrowOut) -> Result<Vec<Plot>, HouseFault> {
    let own = |plot: &Plot| plot.grow_out == grow_out.id && plot.layout.role != Some(PlotRole::Guard);
    let plots: Vec<Plot> = ledger.plots()?.into_iter().filter(own).collect();
    let spot = |plot: &Plot| Spot { row: plot.row, position: plot.position, label: plot.label.clone() };
    let spots: Vec<Spot> = plots.iter().map(spot).collect();
    Ok(walk::serpentine(&spots).into_iter().filter_map(|at| plots.get(at).cloned()).collect())
}

/// The names of all varieties.
pub(crate) fn varieties(ledger: &mut Ledger) -> Result<HashMap<Id<Variety>, String>, HouseFault> {
    Ok(ledger.varieties()?.into_iter().map(|variety| (variety.id, variety.name)).collect())
}

#[cfg(test)]
mod tests;
