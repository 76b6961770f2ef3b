//! `locule print`: the catalogue, the proof sheet and the type chart as PDF, and what else is printed.

use super::reference::{Shape, shape};
use super::{Failure, answer, bars, field_paper, packets, season_sheet};
use crate::answer::{Answer, Ending, Form};
use crate::arguments::print::{PaperWord, Print, Printed};
use house::chart;
use house::folder::House;
use house::print::{self, Paper};
use house::proof;
use jiff::ZonedDateTime;
use jiff::civil::Date;
use record::language::{System, counted};
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// A catalogue that was printed.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Sheet {
    /// The file.
    pub(crate) file: String,
    /// Its size.
    bytes: u64,
    /// Varieties in it.
    varieties: usize,
    /// Marks in it: calls and claims that are contested, contradicted, open, old or missing.
    marks: usize,
}

/// A proof sheet that was printed.
#[derive(Debug, Serialize, JsonSchema)]
struct ProofSheet {
    /// The file.
    file: String,
    /// Its size.
    bytes: u64,
    /// Marks on it.
    marks: usize,
    /// Varieties that carry one.
    varieties: usize,
    /// What it amounts to, by kind.
    kinds: Vec<KindTold>,
    #[serde(skip)]
    summary: String,
}

/// How many marks of one kind there are.
#[derive(Debug, Serialize, JsonSchema)]
struct KindTold {
    /// The kind, such as `claim contradicted`.
    kind: String,
    /// Marks of it.
    marks: usize,
    /// Varieties that carry one.
    varieties: usize,
    /// What to do about it.
    remedy: String,
}

/// A type chart that was printed.
#[derive(Debug, Serialize, JsonSchema)]
struct Chart {
    /// The file.
    file: String,
    /// Its size.
    bytes: u64,
    /// Fruit classes on it.
    classes: usize,
    /// Habits on it.
    habits: usize,
}

pub(crate) fn run(house: &House, typed: &Print, form: Form) -> Result<Ending, Failure> {
    match typed.what {
        Printed::Catalogue => answer(&catalogue(house, typed)?, form),
        Printed::Proof => answer(&proof_sheet(house, typed)?, form),
        Printed::Chart => answer(&type_chart(house, typed)?, form),
        Printed::Labels => packets::labels(house, typed, form),
        Printed::Lots => packets::lots(house, typed, paper(typed.paper)?, form),
        Printed::Card => field_paper::card(house, typed, paper(typed.paper)?, form),
        Printed::Season => answer(&season_sheet::run(house, typed, paper(typed.paper)?)?, form),
        Printed::Stakes => field_paper::stakes(house, typed, form),
        Printed::WalkSheets => field_paper::walk_sheets(house, typed, paper(typed.paper)?, form),
    }
}

fn today() -> Date {
    ZonedDateTime::now().date()
}

/// Prints the catalogue.
pub(crate) fn catalogue(house: &House, typed: &Print) -> Result<Sheet, Failure> {
    let file = typed.to.clone().unwrap_or_else(|| print::catalogue_file(house, today()));
    let printed = print::catalogue(house, paper(typed.paper)?, today(), &file, &bars())?;
    let marks = proof::proof(house)?.marks();
    let (bytes, varieties) = (printed.bytes, printed.varieties);
    Ok(Sheet { file: printed.file.display().to_string(), bytes, varieties, marks })
}

fn proof_sheet(house: &House, typed: &Print) -> Result<ProofSheet, Failure> {
    let file = typed.to.clone().unwrap_or_else(|| proof::file(house));
    let printed = proof::print(house, paper(typed.paper)?, today(), &file, &bars())?;
    let proof = proof::proof(house)?;
    let told = |count: proof::Count| KindTold {
        kind: count.kind.name().to_owned(),
        marks: count.marks,
        varieties: count.varieties,
        remedy: count.kind.remedy().to_owned(),
    };
    Ok(ProofSheet {
        file: printed.file.display().to_string(),
        bytes: printed.bytes,
        marks: printed.marks,
        varieties: printed.varieties,
        kinds: proof.counts().into_iter().map(told).collect(),
        summary: proof.summary(),
    })
}

fn type_chart(house: &House, typed: &Print) -> Result<Chart, Failure> {
    let sheet = match (typed.paper, house.settings.units.first) {
        (PaperWord::Letter, _) => chart::Sheet::UsLetter,
        (PaperWord::A4, _) => chart::Sheet::A4,
        (PaperWord::A3, _) | (PaperWord::Poster, System::Metric) => chart::Sheet::A3,
        (PaperWord::Tabloid, _) | (PaperWord::Poster, System::Us) => chart::Sheet::Tabloid,
    };
    let file = typed.to.clone().unwrap_or_else(|| chart::file(house, sheet));
    let printed = chart::print(house, sheet, today(), &file, &bars())?;
    let (bytes, classes, habits) = (printed.bytes, printed.classes, printed.habits);
    Ok(Chart { file: printed.file.display().to_string(), bytes, classes, habits })
}

fn paper(word: PaperWord) -> Result<Paper, Failure> {
    match word {
        PaperWord::A4 => Ok(Paper::A4),
        PaperWord::Letter => Ok(Paper::UsLetter),
        PaperWord::Tabloid | PaperWord::A3 | PaperWord::Poster => Err(Failure::Typed {
            message: "only the chart is printed on so large a sheet".to_owned(),
            help: "write --paper letter or --paper a4".to_owned(),
        }),
    }
}

impl Answer for Sheet {
    const SHAPE: &'static str = "print/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let varieties = counted(self.varieties as u64, "variety", "varieties");
        writeln!(to, "{} written, {varieties}.", self.file)?;
        let marks = counted(self.marks as u64, "mark", "marks");
        writeln!(
            to,
            "{marks} of what is contested, contradicted, open or missing: locule print proof lists them."
        )
    }
}

impl Answer for ProofSheet {
    const SHAPE: &'static str = "print-proof/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(to, "{} written. {}", self.file, self.summary)?;
        for kind in &self.kinds {
            let marks = counted(kind.marks as u64, "mark", "marks");
            let varieties = counted(kind.varieties as u64, "variety", "varieties");
            writeln!(to, "  {}: {marks} on {varieties}; {}", kind.kind, kind.remedy)?;
        }
        Ok(())
    }
}

impl Answer for Chart {
    const SHAPE: &'static str = "print-chart/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let classes = counted(self.classes as u64, "class", "classes");
        writeln!(
            to,
            "{} written, {classes} and {}.",
            self.file,
            counted(self.habits as u64, "habit", "habits")
        )
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Sheet>(), shape::<ProofSheet>(), shape::<Chart>()]
}
