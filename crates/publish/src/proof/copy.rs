//! The copy: what the proof sheet's template is given to set, every word of it ready to print.

use crate::catalogue::Paper;
use crate::proof::{KindOfMark, Mark, Marked, Proof};
use crate::typesetting::Fonts;
use serde::Serialize;

/// Most letters of a name in a list of names; the whole name stands with its marks.
const BRIEFLY: usize = 60;

/// The whole sheet.
#[derive(Serialize)]
pub(super) struct Copy {
    families: Vec<String>,
    paper: &'static str,
    house: String,
    year: i16,
    month: i8,
    day: i8,
    printed: String,
    summary: String,
    kinds: Vec<KindCopy>,
    varieties: Vec<MarkedCopy>,
}

#[derive(Serialize)]
struct KindCopy {
    name: String,
    counts: String,
    means: String,
    remedy: String,
    varieties: Vec<String>,
}

#[derive(Serialize)]
struct MarkedCopy {
    name: String,
    marks: Vec<MarkCopy>,
}

#[derive(Serialize)]
struct MarkCopy {
    kind: String,
    words: String,
    records: Vec<String>,
    step: Option<String>,
}

/// Words a proof sheet for its template.
pub(super) fn copy(proof: &Proof, paper: Paper, fonts: &Fonts) -> Copy {
    Copy {
        families: fonts.families().into_iter().map(str::to_owned).collect(),
        paper: paper.typst_name(),
        house: fonts.legible(&proof.house),
        year: proof.printed_on.year(),
        month: proof.printed_on.month(),
        day: proof.printed_on.day(),
        printed: format!("Printed {}", proof.printed_on.strftime("%-d %B %Y")),
        summary: fonts.legible(&proof.summary),
        kinds: proof.kinds.iter().map(|kind| kind_copy(kind, fonts)).collect(),
        varieties: proof.varieties.iter().map(|marked| marked_copy(marked, fonts)).collect(),
    }
}

fn kind_copy(kind: &KindOfMark, fonts: &Fonts) -> KindCopy {
    KindCopy {
        name: fonts.legible(&kind.name),
        counts: kind.counts.clone(),
        means: kind.means.clone(),
        remedy: kind.remedy.clone(),
        varieties: kind.varieties.iter().map(|name| briefly(&fonts.legible(name))).collect(),
    }
}

fn marked_copy(marked: &Marked, fonts: &Fonts) -> MarkedCopy {
    let mark = |mark: &Mark| MarkCopy {
        kind: fonts.legible(&mark.kind),
        words: fonts.legible(&mark.words),
        records: mark.records.iter().map(|record| fonts.legible(record)).collect(),
        step: mark.step.as_deref().map(|step| fonts.legible(step)),
    };
    MarkedCopy { name: fonts.legible(&marked.name), marks: marked.marks.iter().map(mark).collect() }
}

fn briefly(name: &str) -> String {
    if name.chars().count() <= BRIEFLY {
        return name.to_owned();
    }
    name.chars().take(BRIEFLY - 1).chain(['…']).collect()
}
