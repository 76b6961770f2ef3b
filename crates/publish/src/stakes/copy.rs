//! The copy: what the stakes' template is given to set, every word of it ready to print.

use crate::stakes::{LabelSheet, Stake, Stakes, code, page};
use crate::typesetting::Fonts;
use serde::Serialize;

/// All sheets.
#[derive(Serialize)]
pub(super) struct Copy {
    families: Vec<String>,
    paper: &'static str,
    house: String,
    title: String,
    year: i16,
    month: i8,
    day: i8,
    width: f64,
    height: f64,
    sheets: Vec<Vec<Placed>>,
}

/// One label and where it lies, in millimetres.
#[derive(Serialize)]
struct Placed {
    left: f64,
    top: f64,
    label: String,
    variety: String,
    lines: Vec<String>,
    code: String,
    /// What the code says, for who cannot see it.
    says: String,
}

/// Words stakes for their template.
pub(super) fn copy(stakes: &Stakes, sheet: &LabelSheet, fonts: &Fonts) -> Copy {
    let placed = |(at, stake): (usize, &Stake)| placed(stakes, stake, sheet, at, fonts);
    let per_sheet = sheet.labels().max(1);
    Copy {
        families: fonts.families().into_iter().map(str::to_owned).collect(),
        paper: sheet.paper.typst_name(),
        house: fonts.legible(&stakes.house),
        title: fonts.legible(&format!("Stakes of {}", stakes.grow_out)),
        year: stakes.printed_on.year(),
        month: stakes.printed_on.month(),
        day: stakes.printed_on.day(),
        width: sheet.width.get().min(page(sheet.paper).0),
        height: sheet.height.get(),
        sheets: stakes
            .stakes
            .chunks(per_sheet)
            .map(|labels| labels.iter().enumerate().map(placed).collect())
            .collect(),
    }
}

fn placed(stakes: &Stakes, stake: &Stake, sheet: &LabelSheet, at: usize, fonts: &Fonts) -> Placed {
    let columns = (sheet.columns as usize).max(1);
    let offset = |count: usize, size: f64, gap: f64| (0..count).fold(0.0, |sum, _| sum + size + gap);
    let mut lines = vec![stakes.grow_out.clone()];
    lines.extend(stake.place.iter().cloned());
    lines.extend(stake.plant.clone());
    Placed {
        left: sheet.left.get() + offset(at % columns, sheet.width.get(), sheet.gap_across.get()),
        top: sheet.top.get() + offset(at / columns, sheet.height.get(), sheet.gap_down.get()),
        label: fonts.legible(&stake.label),
        variety: fonts.legible(&stake.variety),
        lines: lines.iter().map(|line| fonts.legible(line)).collect(),
        code: code(stake.plot).unwrap_or_default(),
        says: format!("code of {}", stake.plot),
    }
}
