//! The copy: what the season sheet's template is given to set, every word of it ready to print.

use crate::catalogue::Paper;
use crate::season_sheet::{Expected, FrostRows, Harvest, SeasonSheet};
use crate::typesetting::Fonts;
use serde::Serialize;

/// The whole sheet.
#[derive(Serialize)]
pub(super) struct Copy {
    families: Vec<String>,
    paper: &'static str,
    house: String,
    garden: String,
    title: String,
    season: i16,
    year: i16,
    month: i8,
    day: i8,
    printed: String,
    weather: String,
    days: Vec<(String, String)>,
    why: String,
    frosts: Vec<FrostCopy>,
    estimated: String,
    harvest: Option<HarvestCopy>,
}

#[derive(Serialize)]
struct FrostCopy {
    so_cold: String,
    rows: Vec<(String, [String; 3])>,
}

#[derive(Serialize)]
struct HarvestCopy {
    told: String,
    months: String,
    varieties: Vec<ExpectedCopy>,
}

#[derive(Serialize)]
struct ExpectedCopy {
    name: String,
    ribbon: String,
    words: String,
    picks: [String; 2],
    season: [String; 3],
    weeks: Vec<(String, [String; 3])>,
}

/// Words a season sheet for its template.
pub(super) fn copy(sheet: &SeasonSheet, paper: Paper, fonts: &Fonts) -> Copy {
    Copy {
        families: fonts.families().into_iter().map(str::to_owned).collect(),
        paper: paper.typst_name(),
        house: fonts.legible(&sheet.house),
        garden: fonts.legible(&sheet.garden),
        title: fonts.legible(&format!("Season sheet of {}, {}", sheet.garden, sheet.year)),
        season: sheet.year,
        year: sheet.printed_on.year(),
        month: sheet.printed_on.month(),
        day: sheet.printed_on.day(),
        printed: sheet.printed_on.strftime("%-d %B %Y").to_string(),
        weather: fonts.legible(&sheet.weather),
        days: sheet.days.iter().map(|day| (day.on.clone(), day.what.clone())).collect(),
        why: sheet.why.clone(),
        frosts: sheet.frosts.iter().map(frost).collect(),
        estimated: sheet.estimated.clone(),
        harvest: sheet.harvest.as_ref().map(|harvest| harvest_copy(harvest, fonts)),
    }
}

fn frost(of: &FrostRows) -> FrostCopy {
    FrostCopy { so_cold: of.so_cold.clone(), rows: of.rows.clone() }
}

fn harvest_copy(harvest: &Harvest, fonts: &Fonts) -> HarvestCopy {
    HarvestCopy {
        told: fonts.legible(&harvest.told),
        months: harvest.months.clone(),
        varieties: harvest.varieties.iter().map(|one| expected(one, fonts)).collect(),
    }
}

fn expected(one: &Expected, fonts: &Fonts) -> ExpectedCopy {
    let (ribbon, words) = &one.ribbon;
    ExpectedCopy {
        name: fonts.legible(&one.name),
        ribbon: ribbon.clone(),
        words: fonts.legible(words),
        picks: one.picks.clone(),
        season: one.season.clone(),
        weeks: one.weeks.iter().map(|week| (week.of.clone(), week.brings.clone())).collect(),
    }
}
