//! `locule print season`: a garden's year on paper.

use super::forecast::place;
use super::reference::{Shape, shape};
use super::{Failure, calendar};
use crate::answer::Answer;
use crate::arguments::print::Print;
use house::folder::House;
use house::print::Paper;
use house::season_sheet::{self, Asked};
use jiff::ZonedDateTime;
use record::language::counted;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// A season sheet that was printed.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct SeasonTold {
    /// The file.
    file: String,
    /// Its size.
    bytes: u64,
    /// The year of planting.
    year: i16,
    /// Varieties whose harvest it tells, the earliest first.
    varieties: Vec<String>,
    /// Why it tells no harvest, where it does not.
    no_harvest: Option<String>,
}

pub(crate) fn run(house: &House, typed: &Print, paper: Paper) -> Result<SeasonTold, Failure> {
    let own = &typed.season;
    let garden = match (&own.garden, &own.weather) {
        (Some(garden), _) => garden.clone(),
        (None, Some(weather)) => {
            weather.file_stem().unwrap_or(weather.as_os_str()).to_string_lossy().into_owned()
        }
        (None, None) => {
            return Err(Failure::Typed {
                message: "nobody said whose season".to_owned(),
                help: "write --garden NAME, or --weather with a file or a station".to_owned(),
            });
        }
    };
    let calendar = calendar::asked(place(own.garden.as_ref(), own.weather.as_ref()), &own.planting)?;
    let asked = Asked { calendar, garden, varieties: own.variety.clone() };
    let today = ZonedDateTime::now().date();
    let printed = season_sheet::print(house, &asked, paper, today, typed.to.as_deref())?;
    Ok(SeasonTold {
        file: printed.file.display().to_string(),
        bytes: printed.bytes,
        year: printed.year,
        varieties: printed.varieties,
        no_harvest: printed.no_harvest,
    })
}

impl Answer for SeasonTold {
    const SHAPE: &'static str = "print-season/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let varieties = counted(self.varieties.len() as u64, "variety", "varieties");
        match &self.no_harvest {
            None => writeln!(to, "{} written for {}, with the harvest of {varieties}.", self.file, self.year),
            Some(why) => writeln!(to, "{} written for {}, without a harvest: {why}.", self.file, self.year),
        }
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<SeasonTold>()]
}
