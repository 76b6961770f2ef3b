//! `locule layout`: lay a grow-out out, keep it, and move its plots.

use super::reference::{Shape, shape};
use super::{Failure, act, answer, bars};
use crate::answer::{Answer, Ending, Form};
use crate::arguments::layout::{Layout, LayoutAction, Move};
use crate::columns::columns;
use house::fault::HouseFault;
use house::folder::House;
use house::layout::moving::{self, To};
use house::layout::{self, LaidPlot, Proposed, file, kept};
use record::growout::PlotRole;
use record::language::counted;
use schemars::JsonSchema;
use serde::Serialize;
use std::fs;
use std::io::{self, Write};

/// A layout, and what became of it.
#[derive(Debug, Serialize, JsonSchema)]
struct LaidOut {
    /// The grow-out's name.
    name: String,
    /// Its season.
    season: i16,
    /// The kind of layout.
    kind: String,
    /// Share of the information that is left within blocks, 0 to 1; 0 where blocks are judged by how much they differ.
    efficiency: f64,
    /// The most that blocks of that size could leave, where that is known.
    efficiency_bound: Option<f64>,
    /// Average standard error of a difference between two varieties, in `unit`.
    error_of_difference: f64,
    /// The difference that is found 8 times in 10, in `unit`.
    found: Option<f64>,
    /// The unit, such as `kg a plant`.
    unit: String,
    /// What it will be able to tell, in sentences.
    words: Vec<String>,
    /// Its plots, in walking order.
    plots: Vec<PlotTold>,
    /// What was kept; nothing with `--dry-run`.
    kept: Option<KeptTold>,
}

/// One plot.
#[derive(Debug, Serialize, JsonSchema)]
struct PlotTold {
    /// Its garden.
    garden: String,
    /// Its bed.
    bed: String,
    /// Its row, counted from 1 through the garden.
    row: u32,
    /// Its position along the row.
    position: u32,
    /// Its stake's label; nothing in a spare plot.
    label: Option<String>,
    /// Its variety.
    variety: Option<String>,
    /// Its replicate.
    replicate: Option<u32>,
    /// Its block.
    block: Option<u32>,
    /// Whether its variety is a check.
    check: bool,
}

/// What was kept.
#[derive(Debug, Serialize, JsonSchema)]
struct KeptTold {
    /// The batch that undoes it.
    batch: u32,
    /// The grow-outs, one a garden.
    grow_outs: Vec<String>,
    /// Planted plots.
    plots: u64,
}

/// Two plots that changed places, or would.
#[derive(Debug, Serialize, JsonSchema)]
struct MovedTold {
    /// The grow-out.
    grow_out: String,
    /// The plots.
    plots: [String; 2],
    /// Share of the information that is lost; negative is a gain.
    lost: f64,
    /// The same in a sentence.
    words: String,
    /// The batch that undoes it; nothing with `--dry-run`.
    batch: Option<u32>,
}

pub(crate) fn run(house: &House, typed: &Layout, form: Form) -> Result<Ending, Failure> {
    match (&typed.action, &typed.file) {
        (Some(LayoutAction::Move(moved)), _) => answer(&swap(house, moved)?, form),
        (None, Some(_)) => answer(&lay_out(house, typed)?, form),
        (None, None) => Err(Failure::Typed {
            message: "no file says what to lay out".to_owned(),
            help: "write locule layout FILE; docs/grow-outs.md has a whole file".to_owned(),
        }),
    }
}

fn lay_out(house: &House, typed: &Layout) -> Result<LaidOut, Failure> {
    let path = typed.file.clone().unwrap_or_default();
    let name = path.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned());
    let text = fs::read_to_string(&path).map_err(|fault| HouseFault::File { path, fault })?;
    let wanted = file::read(&name, &text)?;
    let proposed = layout::propose(house, &wanted, typed.attempt, &bars())?;
    let kept = if typed.dry_run {
        None
    } else {
        let kept = layout::keep(house, &proposed, &act(house, typed.by.as_ref(), None))?;
        Some(KeptTold { batch: kept.batch.0, grow_outs: kept.grow_outs, plots: kept.plots })
    };
    Ok(told(proposed, kept))
}

fn told(proposed: Proposed, kept: Option<KeptTold>) -> LaidOut {
    let report = &proposed.report;
    LaidOut {
        name: proposed.wanted.name.clone(),
        season: proposed.wanted.season.year(),
        kind: proposed.kind().to_owned(),
        efficiency: report.efficiency,
        efficiency_bound: report.bound,
        error_of_difference: report.error_of_difference,
        found: report.found,
        unit: proposed.unit.clone(),
        words: proposed.words.clone(),
        plots: proposed.plots.iter().map(plot_told).collect(),
        kept,
    }
}

fn plot_told(plot: &LaidPlot) -> PlotTold {
    let stands = plot.stands.as_ref();
    PlotTold {
        garden: plot.garden.clone(),
        bed: plot.bed.clone(),
        row: plot.row,
        position: plot.position,
        label: stands.map(|stands| stands.label.clone()),
        variety: stands.map(|stands| stands.variety.clone()),
        replicate: stands.map(|stands| stands.replicate),
        block: stands.map(|stands| stands.block),
        check: stands.is_some_and(|stands| stands.role == PlotRole::Check),
    }
}

fn swap(house: &House, typed: &Move) -> Result<MovedTold, Failure> {
    let grow_out = typed.grow_out.clone().map_or_else(|| kept::newest(house), Ok)?;
    let to = To::Plot(typed.other.clone());
    let moved = if typed.dry_run {
        moving::cost(house, &grow_out, &typed.plot, &to)?
    } else {
        moving::keep(house, &grow_out, &typed.plot, &to, &act(house, typed.by.as_ref(), None))?
    };
    Ok(MovedTold {
        grow_out,
        plots: [typed.plot.clone(), typed.other.clone()],
        lost: moved.cost.information,
        words: moved.cost.told(),
        batch: moved.batch.map(|batch| batch.0),
    })
}

impl Answer for LaidOut {
    const SHAPE: &'static str = "layout/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(to, "{}, season {}", self.name, self.season)?;
        self.words.iter().try_for_each(|sentence| writeln!(to, "  {sentence}"))?;
        self.tell_map(to)?;
        match &self.kept {
            None => writeln!(to, "\nNothing was kept: leave --dry-run out to keep it."),
            Some(kept) => {
                let plots = counted(kept.plots, "plot", "plots");
                writeln!(to, "\nKept {plots} as {}, batch {}.", kept.grow_outs.join(" and "), kept.batch)?;
                writeln!(to, "Take it back with: locule undo {}", kept.batch)
            }
        }
    }
}

impl LaidOut {
    /// The bed map as rows of text: `|` where a block begins, `*` at a check.
    fn tell_map(&self, to: &mut dyn Write) -> io::Result<()> {
        let mut beds: Vec<(&str, &str)> = Vec::new();
        for plot in &self.plots {
            let bed = (plot.garden.as_str(), plot.bed.as_str());
            if !beds.contains(&bed) {
                beds.push(bed);
            }
        }
        for (garden, bed) in beds {
            writeln!(to, "\n{garden}, bed {bed}   (| a block begins, * a check)")?;
            columns(to, &self.rows_of(garden, bed))?;
        }
        Ok(())
    }

    fn rows_of(&self, garden: &str, bed: &str) -> Vec<Vec<String>> {
        let own = || self.plots.iter().filter(|plot| plot.garden == garden && plot.bed == bed);
        let mut rows: Vec<u32> = own().map(|plot| plot.row).collect();
        rows.sort_unstable();
        rows.dedup();
        let row = |row: &u32| {
            let mut plots: Vec<&PlotTold> = own().filter(|plot| plot.row == *row).collect();
            plots.sort_by_key(|plot| plot.position);
            let mut cells = vec![format!("  row {row}")];
            let mut before = None;
            for plot in plots {
                let edge = if before == Some(plot.block) { " " } else { "|" };
                cells.push(format!("{edge} {}", cell(plot)));
                before = Some(plot.block);
            }
            cells
        };
        rows.iter().map(row).collect()
    }
}

fn cell(plot: &PlotTold) -> String {
    match (&plot.label, &plot.variety) {
        (Some(label), Some(variety)) => format!("{label} {variety}{}", if plot.check { "*" } else { "" }),
        _ => "spare".to_owned(),
    }
}

impl Answer for MovedTold {
    const SHAPE: &'static str = "layout-move/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let [one, other] = &self.plots;
        match self.batch {
            Some(batch) => {
                writeln!(to, "{one} and {other} of {} changed places, batch {batch}.", self.grow_out)?
            }
            None => writeln!(to, "If {one} and {other} of {} changed places:", self.grow_out)?,
        }
        writeln!(to, "  {}", self.words)
    }
}

/// The shapes of these answers, and of the file.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<LaidOut>(), shape::<MovedTold>(), ("layout-file/1", file::schema())]
}
