//! `locule photo`: fruit measured on photographs, drawn over them, and taken as fruit samples.

mod told;

use super::field_paper::typed_day;
use super::reference::{Shape, shape};
use super::{Failure, bars, parted, who};
use crate::arguments::photo::Photo;
use house::folder::House;
use house::opened::Given;
use house::photo::filed::{self, Act, Filing};
use house::photo::{self, PlotSaid, Said, Told, changes};
use jiff::{Timestamp, ZonedDateTime};
use record::length::Millimetres;
use std::path::{Path, PathBuf};
pub(super) use told::Photographs;
use told::{Became, Before, Refused};

pub(crate) fn run(house: &House, typed: &Photo) -> Result<Photographs, Failure> {
    let found = photo::found(&typed.files)?;
    let (said, filing) = (said(typed, found.len())?, filing(typed)?);
    let files: Vec<(Given, Option<PathBuf>)> =
        found.iter().map(|file| (Given::at(file), overlay(typed, file))).collect();
    let act =
        Act { who: who(house, typed.by.as_ref()), at: Timestamp::now(), today: ZonedDateTime::now().date() };
    let one = |(given, overlay): &(Given, Option<PathBuf>)| -> Result<Became, Failure> {
        if filing.is_some()
            && let Some(batch) = filed::taken_before(house, given)?
        {
            return Ok(Became::Before(Before { file: given.name.clone(), batch: batch.0 }));
        }
        let seen = photo::look(house, given, &said)?;
        let drawn = overlay.as_ref().map(|file| photo::write(&seen, file)).transpose()?;
        let taken = match &filing {
            Some(filing) => filed::file_away(house, &seen, filing, &act)?,
            None => Vec::new(),
        };
        Ok(Became::Measured(Box::new(told::photograph(&seen, drawn, &taken, house.settings.units))))
    };
    let mut all = Photographs::default();
    if let [only] = files.as_slice() {
        all.put(one(only)?);
        return Ok(all);
    }
    for (file, became) in files.iter().zip(photo::each(&files, one, &bars())) {
        match became {
            Ok(became) => all.put(became),
            Err(Failure::House(fault)) => all.refused.push(Refused {
                file: file.0.name.clone(),
                reason: fault.to_string(),
                remedy: fault.help(),
            }),
            Err(other) => return Err(other),
        }
    }
    Ok(all)
}

/// Measures the demo's photograph and files its fruit under the plot that its card says.
pub(super) fn of_demo(house: &House, file: &Path) -> Result<Photographs, Failure> {
    let seen = photo::look(house, &Given::at(file), &Said::default())?;
    let act =
        Act { who: house.settings.keeper.clone(), at: Timestamp::now(), today: ZonedDateTime::now().date() };
    let taken = match seen.plot {
        Some(_) => filed::file_away(house, &seen, &Filing::default(), &act)?,
        None => Vec::new(),
    };
    let mut all = Photographs::default();
    all.put(Became::Measured(Box::new(told::photograph(&seen, None, &taken, house.settings.units))));
    Ok(all)
}

/// Where a photograph's drawing goes: the file that was named, or one in the folder that was named.
fn overlay(typed: &Photo, file: &Path) -> Option<PathBuf> {
    let named = typed.overlay.as_ref()?;
    if typed.files == [file] {
        return Some(named.clone());
    }
    let stem = file.file_stem().map_or_else(String::new, |stem| stem.to_string_lossy().into_owned());
    Some(named.join(format!("{stem}-measured.png")))
}

fn said(typed: &Photo, of: usize) -> Result<Said, Failure> {
    let plain = typed.leave_out.is_empty() && typed.stems.is_empty() && typed.locules.is_empty();
    if 1 < of && !(plain && typed.changes.is_empty()) {
        return Err(Failure::Typed {
            message: "fruit are numbered photograph by photograph".to_owned(),
            help: "give one photograph where you say something of its fruit".to_owned(),
        });
    }
    Ok(Said {
        line: typed.line.as_deref().map(line).transpose()?,
        left_out: typed.leave_out.iter().copied().collect(),
        stems: typed.stems.iter().map(|typed| stem(typed)).collect::<Result<_, _>>()?,
        changes: typed
            .changes
            .iter()
            .map(|words| changes::read(words).map_err(|fault| Failure::House(fault.into())))
            .collect::<Result<_, Failure>>()?,
        locules: typed.locules.iter().map(|typed| locules(typed)).collect::<Result<_, _>>()?,
    })
}

fn stem(typed: &str) -> Result<(u32, Told), Failure> {
    let (number, way) = parted(typed)?;
    let told = match way.trim() {
        "drawn" => Some(Told::AsDrawn),
        "across" => Some(Told::Across),
        "up" => Some(Told::Standing),
        "cut" => Some(Told::Cut),
        _ => None,
    };
    let both = number.trim().parse().ok().zip(told);
    both.ok_or_else(|| Failure::Typed {
        message: format!("{typed:?} does not say how a stem lies"),
        help: "write a fruit's number and drawn, across, up or cut, such as 3=across".to_owned(),
    })
}

fn locules(typed: &str) -> Result<(u32, u32), Failure> {
    let (number, count) = parted(typed)?;
    let both = number.trim().parse().ok().zip(count.trim().parse().ok().filter(|count| 0 < *count));
    both.ok_or_else(|| Failure::Typed {
        message: format!("{typed:?} does not say how many locules a fruit has"),
        help: "write a fruit's number and its count, such as 4=7".to_owned(),
    })
}

/// Least and most that a printer makes of a line of 70 mm: half and twice. Beyond it something else was measured.
const LINES: (f64, f64) = (35.0, 140.0);

fn line(typed: &str) -> Result<Millimetres, Failure> {
    let number = typed.trim().strip_suffix("mm").unwrap_or(typed).trim();
    let length = number.parse().ok().filter(|length| (LINES.0..=LINES.1).contains(length));
    length.and_then(Millimetres::new).ok_or_else(|| Failure::Typed {
        message: format!("{typed:?} is no length of the card's line"),
        help: "hold a rule to it and write millimetres, such as \"68.5 mm\"".to_owned(),
    })
}

fn filing(typed: &Photo) -> Result<Option<Filing>, Failure> {
    if !typed.take {
        return Ok(None);
    }
    let said = |label: &String| PlotSaid { grow_out: typed.grow_out.clone(), label: label.clone() };
    Ok(Some(Filing {
        plot: typed.plot.as_ref().map(said),
        plant: typed.plant,
        day: typed.date.as_deref().map(typed_day).transpose()?,
    }))
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Photographs>()]
}
