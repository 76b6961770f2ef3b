//! `locule print`: the catalogue as a PDF, and what else is printed (`pages`).

use super::reference::{Shape, shape};
use super::{Failure, answer, bars, pages};
use crate::answer::{Answer, Ending, Form};
use crate::arguments::{PaperWord, Print, Printed};
use house::folder::House;
use house::print::{self, Paper};
use jiff::ZonedDateTime;
use record::language::counted;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// A sheet that was printed.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Sheet {
    /// The file.
    pub(crate) file: String,
    /// Its size.
    bytes: u64,
    /// Varieties in it.
    varieties: usize,
}

pub(crate) fn run(house: &House, typed: &Print, form: Form) -> Result<Ending, Failure> {
    match typed.what {
        Printed::Catalogue => answer(&catalogue(house, typed)?, form),
        Printed::Pages => answer(&pages::run(house, typed)?, form),
    }
}

/// Prints the catalogue.
pub(crate) fn catalogue(house: &House, typed: &Print) -> Result<Sheet, Failure> {
    let today = ZonedDateTime::now().date();
    let file = typed.to.clone().unwrap_or_else(|| print::catalogue_file(house, today));
    let printed = print::catalogue(house, paper(typed.paper), today, &file, &bars())?;
    let (bytes, varieties) = (printed.bytes, printed.varieties);
    Ok(Sheet { file: printed.file.display().to_string(), bytes, varieties })
}

fn paper(word: PaperWord) -> Paper {
    match word {
        PaperWord::A4 => Paper::A4,
        PaperWord::Letter => Paper::UsLetter,
    }
}

impl Answer for Sheet {
    const SHAPE: &'static str = "print/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let varieties = counted(self.varieties as u64, "variety", "varieties");
        writeln!(to, "{} written, {varieties}.", self.file)
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Sheet>()]
}
