//! The copy: what the template of lot cards is given to set, every word of it ready to print.

use super::{LotCard, LotCards, Paper};
use crate::stakes::code;
use crate::typesetting::Fonts;
use serde::Serialize;

/// All cards.
#[derive(Serialize)]
pub(super) struct Copy {
    families: Vec<String>,
    paper: &'static str,
    house: String,
    title: &'static str,
    year: i16,
    month: i8,
    day: i8,
    printed: String,
    cards: Vec<Card>,
}

#[derive(Serialize)]
struct Card {
    number: String,
    variety: String,
    parts: Vec<(String, Vec<String>)>,
    code: String,
    says: String,
}

/// Words cards for their template.
pub(super) fn copy(cards: &LotCards, paper: Paper, fonts: &Fonts) -> Copy {
    Copy {
        families: fonts.families().into_iter().map(str::to_owned).collect(),
        paper: paper.typst_name(),
        house: fonts.legible(&cards.house),
        title: "Lot cards",
        year: cards.printed_on.year(),
        month: cards.printed_on.month(),
        day: cards.printed_on.day(),
        printed: fonts.legible(&format!("{}, {}", cards.house, cards.printed_on.strftime("%-d %B %Y"))),
        cards: cards.cards.iter().map(|one| card(one, fonts)).collect(),
    }
}

fn card(card: &LotCard, fonts: &Fonts) -> Card {
    let legible = |lines: &[String]| lines.iter().map(|line| fonts.legible(line)).collect();
    let told = card.parts.iter().filter(|(_, lines)| !lines.is_empty());
    Card {
        number: fonts.legible(&card.number),
        variety: fonts.legible(&card.variety),
        parts: told.map(|(about, lines)| (fonts.legible(about), legible(lines))).collect(),
        code: code(card.lot).unwrap_or_default(),
        says: fonts.legible(&format!("code of lot {}", card.number)),
    }
}
