//! Saved readings: what was decided of a table, kept as text for the next file with the same headings.

use crate::fault::HouseFault;
use intake::column::ColumnUse;
use intake::day::DateOrder;
use intake::kind::Kind;
use intake::layout::{Answers, ColumnAnswer, Layout, SavedMapping};
use intake::number::DecimalMark;
use intake::unit::{LengthUnit, MassUnit, Unit};
use ledger::ledger::Ledger;
use record::season::Season;
use serde::{Deserialize, Serialize};

/// The form in which answers are kept; a change of the words inside Rust cannot break it.
#[derive(Debug, Default, Serialize, Deserialize)]
struct KeptAnswers {
    fingerprint: Option<String>,
    kind: Option<String>,
    heading_row: Option<u64>,
    #[serde(default)]
    columns: Vec<KeptColumn>,
    date_order: Option<String>,
    decimal_mark: Option<String>,
    mass_unit: Option<String>,
    length_unit: Option<String>,
    season: Option<i16>,
    grow_out: Option<String>,
}

#[derive(Debug, Serialize, Deserialize)]
struct KeptColumn {
    place: usize,
    reads: Option<String>,
    unit: Option<String>,
    date_order: Option<String>,
    decimal_mark: Option<String>,
}

/// Every saved mapping of the house; one that cannot be read back any more is left out.
///
/// # Errors
/// What the ledger refuses.
pub fn saved(ledger: &mut Ledger) -> Result<Vec<SavedMapping>, HouseFault> {
    Ok(ledger.mappings()?.iter().filter_map(|kept| read(&kept.name, &kept.mapping)).collect())
}

/// Saves what was decided of a table under `name`.
///
/// # Errors
/// What the ledger refuses.
pub fn save(ledger: &mut Ledger, name: &str, layout: &Layout) -> Result<(), HouseFault> {
    let answers = Answers { season: None, grow_out: None, ..layout.settled() };
    Ok(ledger.save_mapping(&ledger::settings::SavedMapping {
        name: name.to_owned(),
        kind: crate::take::batch_kind(layout.kind),
        headings: layout.columns.iter().map(|column| column.heading.clone()).collect(),
        mapping: write(layout.heading_fingerprint, &answers),
    })?)
}

/// Writes answers as text.
pub(crate) fn write(fingerprint: u64, answers: &Answers) -> String {
    let kept = KeptAnswers {
        fingerprint: Some(format!("{fingerprint:016x}")),
        kind: answers.kind.map(|kind| kind.name().to_owned()),
        heading_row: answers.heading_row,
        columns: answers.columns.iter().map(keep_column).collect(),
        date_order: answers.date_order.map(|order| order.name().to_owned()),
        decimal_mark: answers.decimal_mark.map(|mark| mark.name().to_owned()),
        mass_unit: answers.mass_unit.map(|unit| Unit::Mass(unit).symbol().to_owned()),
        length_unit: answers.length_unit.map(|unit| Unit::Length(unit).symbol().to_owned()),
        season: answers.season.map(Season::year),
        grow_out: answers.grow_out.clone(),
    };
    // Plain strings and numbers always have a JSON form.
    serde_json::to_string(&kept).unwrap_or_default()
}

/// Reads answers back from text.
pub(crate) fn read(name: &str, text: &str) -> Option<SavedMapping> {
    let kept: KeptAnswers = serde_json::from_str(text).ok()?;
    let heading_fingerprint = u64::from_str_radix(kept.fingerprint.as_deref()?, 16).ok()?;
    let answers = Answers {
        kind: kept.kind.as_deref().and_then(Kind::named),
        heading_row: kept.heading_row,
        columns: kept.columns.iter().map(column_back).collect(),
        date_order: kept.date_order.as_deref().and_then(DateOrder::named),
        decimal_mark: kept.decimal_mark.as_deref().and_then(DecimalMark::named),
        mass_unit: kept.mass_unit.as_deref().and_then(mass_unit),
        length_unit: kept.length_unit.as_deref().and_then(length_unit),
        season: kept.season.and_then(Season::new),
        grow_out: kept.grow_out,
    };
    Some(SavedMapping { name: name.to_owned(), heading_fingerprint, answers })
}

fn keep_column(answer: &ColumnAnswer) -> KeptColumn {
    KeptColumn {
        place: answer.place,
        reads: answer.reads.map(|reads| reads.name().to_owned()),
        unit: answer.unit.map(|unit| unit.symbol().to_owned()),
        date_order: answer.date_order.map(|order| order.name().to_owned()),
        decimal_mark: answer.decimal_mark.map(|mark| mark.name().to_owned()),
    }
}

fn column_back(kept: &KeptColumn) -> ColumnAnswer {
    ColumnAnswer {
        place: kept.place,
        reads: kept.reads.as_deref().and_then(ColumnUse::named),
        unit: kept.unit.as_deref().and_then(Unit::of_symbol),
        date_order: kept.date_order.as_deref().and_then(DateOrder::named),
        decimal_mark: kept.decimal_mark.as_deref().and_then(DecimalMark::named),
    }
}

fn mass_unit(symbol: &str) -> Option<MassUnit> {
    match Unit::of_symbol(symbol)? {
        Unit::Mass(unit) => Some(unit),
        Unit::Length(_) => None,
    }
}

fn length_unit(symbol: &str) -> Option<LengthUnit> {
    match Unit::of_symbol(symbol)? {
        Unit::Length(unit) => Some(unit),
        Unit::Mass(_) => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_is_read_back() {
        let column = ColumnAnswer {
            place: 3,
            reads: Some(ColumnUse::Weight),
            unit: Unit::of_symbol("oz"),
            date_order: Some(DateOrder::DayFirst),
            decimal_mark: Some(DecimalMark::Comma),
        };
        let answers = Answers {
            kind: Some(Kind::FruitSamples),
            columns: vec![column],
            mass_unit: Some(MassUnit::Ounce),
            season: Season::new(2031),
            grow_out: Some("2031 Home".into()),
            ..Answers::default()
        };
        let back = read("scale", &write(u64::MAX, &answers)).unwrap();
        assert_eq!((back.heading_fingerprint, back.answers), (u64::MAX, answers));
    }

    #[test]
    fn what_is_no_mapping_is_left_out() {
        assert_eq!(read("a", "{"), None);
        assert_eq!(read("a", "{}"), None);
    }
}
