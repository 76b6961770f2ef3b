//! Advice to take away: a printed sheet, and its days for other calendars.
//!
//! Start at [`sheet`] and [`days`]. They say what [`super::advise`] found, and work nothing out by themselves.

use super::kitchen::Sheet;
use super::planned::{HarvestOf, Line, Planned};
use super::request::{Garden, Request, RowCover};
use super::sketch::{self, letter};
use super::telling::{self, DEFERS, NO_PLAN, NONE_FOUND, NOTICE, STOPPED};
use super::{Advice, Found, SAMPLED};
use crate::calendar::{self, event};
use crate::fault::HouseFault;
use crate::folder::{self, House};
use crate::print::Paper;
use crate::weather::Said;
use drawing::harvest::{Harvest, WeekOfHarvest, harvest};
use drawing::planted_beds::planted_beds;
use jiff::Timestamp;
use jiff::civil::Date;
use publish::icalendar::{self, DayEvent};
use publish::plan_sheet::{self, PlanSheet, plan_sheet};
use record::language::{self, Units};
use std::path::Path;

/// Sets an answer as a PDF.
///
/// # Errors
/// What the typesetter refuses.
pub fn sheet(house: &House, found: &Advice, paper: Paper, today: Date) -> Result<Vec<u8>, HouseFault> {
    let units = house.settings.units;
    let planned = match &found.found {
        Found::Planned(planned) => Some(planned.as_ref()),
        Found::Impossible(_) | Found::NotFound(_) | Found::Stopped => None,
    };
    let lines = planned.iter().flat_map(|planned| &planned.lines).enumerate();
    let sheet = PlanSheet {
        house: house.settings.name.clone(),
        of: format!("a garden with the weather of {}", found.weather.name),
        printed_on: today,
        wishes: found.wishes.iter().map(|wish| telling::wish_with_days(wish, units)).collect(),
        came: came(found, units),
        lines: lines.map(|(place, line)| planted(&letter(place), line, units)).collect(),
        beds: planned.map(|planned| beds(planned, units)),
        kitchen_days: planned.map_or_else(Vec::new, |planned| kitchen_days(found, planned, units)),
        harvests: planned.iter().flat_map(|planned| &planned.harvests).map(|own| drawn(own, units)).collect(),
        put_up: found.sheets.iter().map(|sheet| put_up(sheet, units)).collect(),
        cautions: found.cautions.iter().map(|caution| caution.words.clone()).collect(),
        defers: DEFERS.to_owned(),
        assumed: telling::assumed(found).into_iter().chain([NOTICE.to_owned()]).collect(),
        house_fonts: Vec::new(),
    };
    Ok(plan_sheet(&sheet, paper)?)
}

/// Writes an answer as a PDF, whole or not at all.
///
/// # Errors
/// As [`sheet`]; [`HouseFault::File`] where it cannot be written.
pub fn write_sheet(
    house: &House,
    found: &Advice,
    paper: Paper,
    today: Date,
    file: &Path,
) -> Result<(), HouseFault> {
    folder::write(file, sheet(house, found, paper, today)?)
}

/// Writes the days of a plan as an iCalendar file, whole or not at all.
///
/// # Errors
/// As [`days`]; [`HouseFault::File`] where it cannot be written.
pub fn write_days(
    house: &House,
    request: &Request,
    found: &Advice,
    now: (Date, Timestamp),
    file: &Path,
) -> Result<(), HouseFault> {
    folder::write(file, days(house, request, found, now)?)
}

/// What came of it, in sentences.
fn came(found: &Advice, units: Units) -> Vec<String> {
    let standing = |said: &str, standing: &[super::planned::Standing]| {
        let own = standing.iter().map(|one| format!("{}: {}.", language::capitalised(&one.demand), one.way));
        std::iter::once(format!("{said} These stand in each other's way:")).chain(own).collect()
    };
    match &found.found {
        Found::Impossible(own) => standing(NO_PLAN, own),
        Found::NotFound(own) => standing(NONE_FOUND, own),
        Found::Stopped => vec![STOPPED.to_owned()],
        Found::Planned(planned) => {
            let met = format!(
                "{}; all is had in {} of {SAMPLED} sampled years.",
                telling::size(planned, units),
                planned.years_met
            );
            let for_seed =
                planned.for_seed.iter().map(|own| format!("For seed: {}.", telling::for_seed(own, units)));
            std::iter::once(met).chain(for_seed).collect()
        }
    }
}

fn beds(planned: &Planned, units: Units) -> plan_sheet::Beds {
    plan_sheet::Beds {
        drawn: planted_beds(&planned.sketch, units).markup().to_owned(),
        words: planned.sketch.words.clone(),
        beside: sketch::BESIDE.to_owned(),
    }
}

fn planted(letter: &str, line: &Line, units: Units) -> plan_sheet::Line {
    let [poor, _, good] = line.kilograms.map(|kilograms| telling::kilograms(kilograms, units));
    let is = [line.habit.as_deref(), line.colour.as_deref(), Some(line.classes.as_str())];
    let is = is.into_iter().flatten().collect::<Vec<_>>().join(", ");
    plan_sheet::Line {
        letter: letter.to_owned(),
        variety: line.variety.clone(),
        plants: telling::plants(line),
        out: telling::day(line.out),
        is: format!("{is}; a plan without it: {}", telling::without(line.without)),
        brings: format!("{poor} to {good}"),
        seed: telling::seed(&line.seed),
    }
}

fn kitchen_days(found: &Advice, planned: &Planned, units: Units) -> Vec<(String, Vec<String>)> {
    let own = found.wishes.iter().zip(&planned.kitchen_days).filter(|(_, days)| !days.is_empty());
    own.map(|(wish, days)| {
        let days = days.iter().map(|day| telling::kitchen_day(*day, units)).collect();
        (language::capitalised(&telling::wish(wish, units)), days)
    })
    .collect()
}

/// A class's weeks as they are drawn on the page.
#[must_use]
pub fn picture(own: &HarvestOf) -> Harvest {
    let weeks = own.weeks.iter().zip(&own.eaten);
    Harvest {
        words: format!("Kilograms of {} a week, in poor, middling and good years", own.classes),
        weeks: weeks
            .map(|((week, range), eaten)| WeekOfHarvest {
                of: telling::day(*week),
                range: *range,
                wanted: *eaten,
            })
            .collect(),
    }
}

fn drawn(own: &HarvestOf, units: Units) -> plan_sheet::Harvest {
    let picture = picture(own);
    let drawn = harvest(&picture, units).markup().to_owned();
    plan_sheet::Harvest { of: language::capitalised(&own.classes), drawn, words: picture.words }
}

fn put_up(sheet: &Sheet, units: Units) -> plan_sheet::PutUp {
    let lines = sheet.told(units).into_iter().chain(sheet.process.iter().cloned());
    plan_sheet::PutUp {
        title: language::capitalised(&sheet.title()),
        lines: lines.map(|line| language::capitalised(&line)).collect(),
        acid: sheet.acid.clone(),
    }
}

/// The days of a plan as the text of an iCalendar file: those of the garden's calendar for the first set of plants, later sets,
/// and kitchen days by a middling year.
///
/// # Errors
/// Those of [`calendar::calendar`].
pub fn days(
    house: &House,
    request: &Request,
    found: &Advice,
    now: (Date, Timestamp),
) -> Result<String, HouseFault> {
    let Garden { place, risk, cover, .. } = &request.garden;
    let first = found.outs.first().map(|out| (out.month(), out.day()));
    let (place, said) = (place.clone(), Said::default());
    let asked = calendar::Asked { place, said, risk: *risk, out: first, cover: *cover, year: None };
    let own = calendar::calendar(house, &asked, now.0)?;
    let planted = own.calendar.planted().unwrap_or(now.0);
    let name = &found.weather.name;
    let mut events: Vec<DayEvent> =
        own.calendar.days.iter().map(|(on, doing)| event(name, *on, *doing)).collect();
    let mut add = |day: Date, what: String| {
        // Plans are told in days of a common year that begins with planting.
        let later = day.year().saturating_sub(found.outs.first().map_or(day.year(), |out| out.year()));
        let on = Date::new(planted.year().saturating_add(later), day.month(), day.day());
        let Ok(on) = on else { return };
        events.push(DayEvent {
            identifier: format!("{name}-{on}-{what}@locule"),
            on,
            summary: format!("{name}: {what}"),
            description: NOTICE.to_owned(),
        });
    };
    for out in found.outs.iter().skip(1) {
        add(*out, "Plant the next set of plants out".to_owned());
    }
    let covered = found.outs.iter().filter(|_| cover.is_some());
    for off in covered.filter_map(|out| RowCover::comes_off(*out)) {
        add(off, "Take the row cover off".to_owned());
    }
    if let Found::Planned(planned) = &found.found {
        for (wish, days) in found.wishes.iter().zip(&planned.kitchen_days) {
            for day in days {
                let [_, usual, _] = day.week_of;
                add(usual, format!("Kitchen day about this week, {}", telling::wish_briefly(wish)));
            }
        }
    }
    Ok(icalendar::icalendar(&events, now.1))
}
