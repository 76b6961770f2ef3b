//! The copy: what the plan sheet's template is given to set, every word of it ready to print.

use crate::catalogue::Paper;
use crate::plan_sheet::{Harvest, Line, PlanSheet, PutUp};
use crate::typesetting::Fonts;
use serde::Serialize;

/// The whole sheet.
#[derive(Serialize)]
pub(super) struct Copy {
    families: Vec<String>,
    paper: &'static str,
    house: String,
    of: String,
    title: String,
    year: i16,
    month: i8,
    day: i8,
    printed: String,
    wishes: Vec<String>,
    came: Vec<String>,
    lines: Vec<[String; 7]>,
    beds: Option<[String; 3]>,
    kitchen_days: Vec<(String, Vec<String>)>,
    harvests: Vec<[String; 3]>,
    put_up: Vec<PutUpCopy>,
    cautions: Vec<String>,
    defers: String,
    assumed: Vec<String>,
}

#[derive(Serialize)]
struct PutUpCopy {
    title: String,
    lines: Vec<String>,
    acid: Vec<String>,
}

/// Words a plan sheet for its template.
pub(super) fn copy(sheet: &PlanSheet, paper: Paper, fonts: &Fonts) -> Copy {
    let words = |text: &String| fonts.legible(text);
    let all = |texts: &[String]| texts.iter().map(words).collect::<Vec<String>>();
    let line = |line: &Line| {
        [&line.letter, &line.variety, &line.plants, &line.out, &line.is, &line.brings, &line.seed].map(words)
    };
    let harvest = |own: &Harvest| [words(&own.of), own.drawn.clone(), words(&own.words)];
    let put_up =
        |own: &PutUp| PutUpCopy { title: words(&own.title), lines: all(&own.lines), acid: all(&own.acid) };
    Copy {
        families: fonts.families().into_iter().map(str::to_owned).collect(),
        paper: paper.typst_name(),
        house: words(&sheet.house),
        of: words(&sheet.of),
        title: fonts.legible(&format!("Plan for {}", sheet.of)),
        year: sheet.printed_on.year(),
        month: sheet.printed_on.month(),
        day: sheet.printed_on.day(),
        printed: sheet.printed_on.strftime("%-d %B %Y").to_string(),
        wishes: all(&sheet.wishes),
        came: all(&sheet.came),
        lines: sheet.lines.iter().map(line).collect(),
        beds: sheet.beds.as_ref().map(|own| [own.drawn.clone(), words(&own.words), words(&own.beside)]),
        kitchen_days: sheet.kitchen_days.iter().map(|(of, days)| (words(of), all(days))).collect(),
        harvests: sheet.harvests.iter().map(harvest).collect(),
        put_up: sheet.put_up.iter().map(put_up).collect(),
        cautions: all(&sheet.cautions),
        defers: words(&sheet.defers),
        assumed: all(&sheet.assumed),
    }
}
