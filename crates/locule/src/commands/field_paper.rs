//! `locule print stakes` and `locule print walk-sheets`: the paper that goes out to the plots.

use super::reference::{Shape, shape};
use super::{Failure, answer};
use crate::answer::{Answer, Ending, Form};
use crate::arguments::print::Print;
use house::folder::House;
use house::labels;
use house::photo::PlotSaid;
use house::photo::card;
use house::print::Paper;
use house::stakes::{self, Each};
use house::walks::{self, Parted};
use jiff::ZonedDateTime;
use jiff::civil::Date;
use record::language::counted;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// Stakes that were printed.
#[derive(Debug, Serialize, JsonSchema)]
struct StakesTold {
    /// The file.
    file: String,
    /// Its size.
    bytes: u64,
    /// Stakes on it.
    stakes: usize,
    /// Sheets of labels that they take.
    sheets: usize,
    /// The label sheet, by size.
    sheet: String,
}

/// Walk sheets that were printed.
#[derive(Debug, Serialize, JsonSchema)]
struct WalkTold {
    /// The file.
    file: String,
    /// Its size.
    bytes: u64,
    /// The day of the walk.
    day: String,
    /// Plots at which something is due.
    plots: usize,
    /// Parts of the walk.
    parts: usize,
    /// What is due.
    due: Vec<String>,
}

pub(crate) fn stakes(house: &House, typed: &Print, form: Form) -> Result<Ending, Failure> {
    let name = named(typed)?;
    let sheet = labels::sheet(house, typed.field.sheet.as_deref())?;
    let each = if typed.field.each_plant { Each::Plant } else { Each::Plot };
    let file = typed.to.clone().unwrap_or_else(|| stakes::file(house, name));
    let printed = stakes::print(house, name, each, &sheet, today(), &file)?;
    let told = StakesTold {
        file: printed.file.display().to_string(),
        bytes: printed.bytes,
        stakes: printed.stakes,
        sheets: printed.sheets,
        sheet: sheet.name,
    };
    answer(&told, form)
}

pub(crate) fn walk_sheets(house: &House, typed: &Print, paper: Paper, form: Form) -> Result<Ending, Failure> {
    let name = named(typed)?;
    let day = day_of(typed)?;
    let file = typed.to.clone().unwrap_or_else(|| walks::file(house, name, day));
    let printed = walks::print(house, name, day, &parted(typed), paper, &file)?;
    let told = WalkTold {
        file: printed.file.display().to_string(),
        bytes: printed.bytes,
        day: day.to_string(),
        plots: printed.plots,
        parts: printed.parts,
        due: printed.due.into_iter().map(str::to_owned).collect(),
    };
    answer(&told, form)
}

/// A scale card that was printed.
#[derive(Debug, Serialize, JsonSchema)]
struct CardTold {
    /// The file.
    file: String,
    /// Its size.
    bytes: u64,
    /// The plot that it says, where it says one.
    plot: Option<String>,
}

pub(crate) fn card(house: &House, typed: &Print, paper: Paper, form: Form) -> Result<Ending, Failure> {
    let plot = match typed.field.names.as_slice() {
        [] => None,
        [label] => Some(PlotSaid { grow_out: typed.field.grow_out.clone(), label: label.clone() }),
        _ => {
            return Err(Failure::Typed {
                message: "several plots are named, where one is printed".to_owned(),
                help: "write one label, such as locule print card H-019".to_owned(),
            });
        }
    };
    let file = typed.to.clone().unwrap_or_else(|| card::file(house, plot.as_ref()));
    let printed = card::print(house, plot.as_ref(), paper, today(), &file)?;
    let (bytes, plot) = (printed.bytes, printed.plot);
    answer(&CardTold { file: printed.file.display().to_string(), bytes, plot }, form)
}

fn today() -> Date {
    ZonedDateTime::now().date()
}

fn named(typed: &Print) -> Result<&str, Failure> {
    match typed.field.names.as_slice() {
        [name] => Ok(name),
        names => Err(Failure::Typed {
            message: match names.len() {
                0 => "no grow-out is named".to_owned(),
                count => format!("{count} grow-outs are named, where one is printed"),
            },
            help: "write its name, such as locule print stakes \"2026 Home Garden\"".to_owned(),
        }),
    }
}

/// The day that was typed, or today.
pub(super) fn day_of(typed: &Print) -> Result<Date, Failure> {
    typed.field.date.as_deref().map_or_else(|| Ok(today()), typed_day)
}

/// Reads a day as it was typed.
pub(super) fn typed_day(typed: &str) -> Result<Date, Failure> {
    typed.trim().parse().map_err(|_| Failure::Typed {
        message: format!("{typed:?} is no day"),
        help: "write year, month and day, such as 2031-08-14".to_owned(),
    })
}

fn parted(typed: &Print) -> Parted {
    match typed.field.per {
        Some(most) => Parted::AtMost(most as usize),
        None if typed.field.person.is_empty() => Parted::Whole,
        None => Parted::Among(typed.field.person.clone()),
    }
}

impl Answer for StakesTold {
    const SHAPE: &'static str = "print-stakes/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let (stakes, sheets) =
            (counted(self.stakes as u64, "stake", "stakes"), counted(self.sheets as u64, "sheet", "sheets"));
        writeln!(to, "{} written, {stakes} on {sheets} of labels {}.", self.file, self.sheet)?;
        writeln!(to, "Print it at full size, not fitted to the page.")
    }
}

impl Answer for WalkTold {
    const SHAPE: &'static str = "print-walk-sheets/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let (plots, parts) =
            (counted(self.plots as u64, "plot", "plots"), counted(self.parts as u64, "part", "parts"));
        writeln!(to, "{} written for {}: {plots} in {parts}.", self.file, self.day)?;
        writeln!(to, "Due: {}.", self.due.join("; "))
    }
}

impl Answer for CardTold {
    const SHAPE: &'static str = "print-card/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        match &self.plot {
            Some(plot) => writeln!(to, "{} written, for fruit of plot {plot}.", self.file)?,
            None => writeln!(to, "{} written, for fruit of any plot.", self.file)?,
        }
        writeln!(to, "Print it at full size, not fitted to the page, and hold a rule to its line of 70 mm.")
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<StakesTold>(), shape::<WalkTold>(), shape::<CardTold>()]
}
