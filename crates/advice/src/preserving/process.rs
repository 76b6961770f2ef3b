//! The process for a product, jar and altitude, as the guide's cells have it.
//!
//! Start at [`answers`].

use crate::jars::Jar;
use crate::preserving::altitude::Feet;
use crate::preserving::guide::{Cell, Cited, Pounds, PreservingGuide};
use crate::preserving::{Gauge, Product, Way};

/// What is to be processed, how and where. There is no process without an altitude.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Question {
    /// The product.
    pub product: Product,
    /// The jar.
    pub jar: Jar,
    /// How.
    pub way: Way,
    /// The altitude of the kitchen.
    pub altitude: Feet,
}

/// What the guide says.
#[derive(Clone, Debug, PartialEq)]
pub enum Answer<'guide> {
    /// A printed process.
    Process(Process<'guide>),
    /// There is a cell, but it was not read in the published guide: look there. No number is given.
    SeeThePublishedGuide(&'guide Cited),
    /// There is no process.
    Refused(Refusal),
}

/// A printed process.
#[derive(Clone, Debug, PartialEq)]
pub struct Process<'guide> {
    /// How long, in minutes.
    pub minutes: u32,
    /// The pressure to hold, in a pressure canner.
    pub pressure: Option<Pressure>,
    /// Where it was read.
    pub cited: &'guide Cited,
}

/// A pressure by a gauge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pressure {
    /// The gauge.
    pub gauge: Gauge,
    /// Pounds on it.
    pub pounds: u32,
}

/// Why there is no process.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Refusal {
    /// The guide prints no such process for the product.
    #[error("the guide prints no such process for this product")]
    NoSuchProcess,
    /// The guide prints it for another jar size only.
    #[error("the guide has tested this in the other jar size only")]
    JarNotTested,
    /// The altitude lies outside the printed cells.
    #[error("the altitude lies outside the printed table")]
    OutsideTheTable,
    /// Printed as not recommended.
    #[error("the guide does not recommend this pressure and time at this altitude")]
    NotRecommended,
    /// The steam canner runs dry first.
    #[error("a steam canner must not run for longer than {limit} minutes")]
    TooLongForSteam {
        /// The longest that it may run.
        limit: u32,
    },
}

/// What the guide says of a question, one answer a printed option.
///
/// # Shape
/// Never empty. Boiling water and steam have one answer, a pressure canner one for each time that is printed.
///
/// # Source
/// As each answer cites. Altitude is rounded up to the next printed band.
#[must_use]
pub fn answers(guide: &PreservingGuide, question: Question) -> Vec<Answer<'_>> {
    match question.way {
        Way::BoilingWater => vec![in_water(guide, question)],
        Way::Steam => vec![in_steam(guide, question)],
        Way::Pressure(gauge) => under_pressure(guide, question, gauge),
    }
}

fn in_water(guide: &PreservingGuide, Question { product, jar, altitude, .. }: Question) -> Answer<'_> {
    let mut rows = guide.boiling.iter().filter(|row| row.product == product).peekable();
    if rows.peek().is_none() {
        return Answer::Refused(Refusal::NoSuchProcess);
    }
    let Some(row) = rows.find(|row| row.jar == jar) else {
        return Answer::Refused(Refusal::JarNotTested);
    };
    at(&row.cells, altitude, |minutes, cited| {
        Answer::Process(Process { minutes: *minutes, pressure: None, cited })
    })
}

/// The boiling-water time, where it is short enough with its altitude step.
fn in_steam(guide: &PreservingGuide, question: Question) -> Answer<'_> {
    let Some(limit) = guide.steam.told().copied() else {
        return Answer::SeeThePublishedGuide(&guide.steam.cited);
    };
    match in_water(guide, question) {
        Answer::Process(process) if limit < process.minutes => {
            Answer::Refused(Refusal::TooLongForSteam { limit })
        }
        answer => answer,
    }
}

fn under_pressure(guide: &PreservingGuide, question: Question, gauge: Gauge) -> Vec<Answer<'_>> {
    let Question { product, jar, altitude, .. } = question;
    let printed: Vec<_> =
        guide.pressure.iter().filter(|row| (row.product, row.gauge) == (product, gauge)).collect();
    if printed.is_empty() {
        return vec![Answer::Refused(Refusal::NoSuchProcess)];
    }
    let of_jar: Vec<_> = printed
        .into_iter()
        .filter(|row| row.jar == jar)
        .map(|row| {
            at(&row.cells, altitude, |pounds, cited| match *pounds {
                Pounds::NotRecommended => Answer::Refused(Refusal::NotRecommended),
                Pounds::Of(pounds) => {
                    let pressure = Some(Pressure { gauge, pounds });
                    Answer::Process(Process { minutes: row.minutes, pressure, cited })
                }
            })
        })
        .collect();
    if of_jar.is_empty() { vec![Answer::Refused(Refusal::JarNotTested)] } else { of_jar }
}

/// What the cell of an altitude says, if it may be told.
fn at<'guide, Of>(
    cells: &'guide [Cell<Of>],
    altitude: Feet,
    told: impl FnOnce(&'guide Of, &'guide Cited) -> Answer<'guide>,
) -> Answer<'guide> {
    match Cell::at(cells, altitude) {
        None => Answer::Refused(Refusal::OutsideTheTable),
        Some(cell) => match cell.told() {
            None => Answer::SeeThePublishedGuide(&cell.cited),
            Some(value) => told(value, &cell.cited),
        },
    }
}
