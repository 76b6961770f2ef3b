//! The copy: what the template of packet labels is given to set, every word of it ready to print.

use super::{Backing, Code, Fact, LabelStock, PacketLabel, PacketLabels, Statement, Weight};
use crate::stakes::{code, code_of, page};
use crate::typesetting::Fonts;
use serde::Serialize;

/// All labels, and where they lie.
#[derive(Serialize)]
pub(super) struct Copy {
    families: Vec<String>,
    house: String,
    title: &'static str,
    year: i16,
    month: i8,
    day: i8,
    /// The page, and a label, in millimetres.
    page: (f64, f64),
    label: (f64, f64),
    /// Where the labels of a page lie, in millimetres from its top left corner.
    places: Vec<(f64, f64)>,
    kinds: Vec<Kind>,
}

/// Labels that are alike.
#[derive(Serialize)]
struct Kind {
    count: u32,
    variety: String,
    kind: String,
    portrait: Option<Portrait>,
    facts: Vec<Line>,
    statements: Vec<Line>,
    sowing: Vec<String>,
    code: String,
    says: String,
}

#[derive(Serialize)]
struct Portrait {
    svg: String,
    /// Its height over its width.
    rise: f64,
    alt: String,
}

#[derive(Serialize)]
struct Line {
    words: String,
    points: u8,
    bold: bool,
    italic: bool,
}

/// Words labels for their template.
pub(super) fn copy(labels: &PacketLabels, stock: &LabelStock, fonts: &Fonts) -> Copy {
    let (page, label, places) = placed(stock);
    Copy {
        families: fonts.families().into_iter().map(str::to_owned).collect(),
        house: fonts.legible(&labels.house),
        title: "Packet labels",
        year: labels.printed_on.year(),
        month: labels.printed_on.month(),
        day: labels.printed_on.day(),
        page,
        label,
        places,
        kinds: labels.labels.iter().map(|(label, count)| kind(label, *count, fonts)).collect(),
    }
}

type Placed = ((f64, f64), (f64, f64), Vec<(f64, f64)>);

/// The page, a label, and where the labels of a page lie.
fn placed(stock: &LabelStock) -> Placed {
    match stock {
        LabelStock::Roll(roll) => {
            let size = (roll.width.get(), roll.height.get());
            (size, size, vec![(0.0, 0.0)])
        }
        LabelStock::Sheet(sheet) => {
            let step = |size: f64, gap: f64, count: u32| f64::from(count) * (size + gap);
            let across = |column| sheet.left.get() + step(sheet.width.get(), sheet.gap_across.get(), column);
            let down = |row| sheet.top.get() + step(sheet.height.get(), sheet.gap_down.get(), row);
            let places = (0..sheet.rows)
                .flat_map(|row| (0..sheet.columns).map(move |column| (column, row)))
                .map(|(column, row)| (across(column), down(row)))
                .collect();
            let width = sheet.width.get().min(page(sheet.paper).0);
            (page(sheet.paper), (width, sheet.height.get()), places)
        }
    }
}

fn kind(label: &PacketLabel, count: u32, fonts: &Fonts) -> Kind {
    Kind {
        count,
        variety: fonts.legible(&label.variety),
        kind: fonts.legible(&label.kind),
        portrait: label.portrait.as_ref().map(|portrait| Portrait {
            svg: portrait.svg.clone(),
            rise: portrait.life_height.get() / portrait.life_width.get().max(f64::MIN_POSITIVE),
            alt: fonts.legible(&format!("fruit of {}, whole and cut", label.variety)),
        }),
        facts: label.facts.iter().map(|fact| told(fact, fonts)).collect(),
        statements: label.statements.iter().map(|statement| stated(statement, fonts)).collect(),
        sowing: label.sowing.iter().map(|line| fonts.legible(line)).collect(),
        code: match &label.code {
            Code::Lot(lot) => code(*lot),
            Code::Page(address) => code_of(address),
        }
        .unwrap_or_default(),
        says: fonts.legible(&match &label.code {
            Code::Lot(_) => format!("code of lot {}", label.lot_number),
            Code::Page(address) => format!("code of {address}"),
        }),
    }
}

fn told(fact: &Fact, fonts: &Fonts) -> Line {
    let italic = fact.backing == Backing::Nothing;
    Line { words: fonts.legible(&fact.words), points: 0, bold: false, italic }
}

fn stated(statement: &Statement, fonts: &Fonts) -> Line {
    let bold = statement.weight == Weight::Bold;
    Line { words: fonts.legible(&statement.words), points: statement.points, bold, italic: false }
}
