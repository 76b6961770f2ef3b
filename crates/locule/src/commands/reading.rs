//! What was typed about how to read a table, in the intake's words.

use super::{Failure, parted};
use crate::arguments::take::{Comma, DateOrder, Reading};
use house::asked::{self, Answers, Asked, AskedColumn, ColumnUse, DecimalMark, Unit};
use house::take::Kind;
use record::season::Season;

/// What the user says of a table.
///
/// # Errors
/// [`Failure::Typed`] for a kind, column use, unit or season that is not known.
pub(crate) fn asked(reading: &Reading) -> Result<Asked, Failure> {
    let answers = Answers {
        kind: reading.kind.as_deref().map(kind).transpose()?,
        date_order: reading.dates.map(date_order),
        decimal_mark: reading.comma.map(decimal_mark),
        season: reading.season.map(season).transpose()?,
        grow_out: reading.grow_out.clone(),
        ..Answers::default()
    };
    let uses = reading.columns.iter().map(|typed| column_use(typed));
    let units = reading.units.iter().map(|typed| column_unit(typed));
    Ok(Asked { answers, columns: uses.chain(units).collect::<Result<_, _>>()?, ..Asked::default() })
}

fn kind(typed: &str) -> Result<Kind, Failure> {
    let known = Kind::ALL.map(Kind::name).join(", ");
    let plain = |name: &str| name.to_lowercase().replace(['-', '_', ' '], "");
    Kind::ALL.into_iter().find(|kind| plain(kind.name()) == plain(typed)).ok_or_else(|| Failure::Typed {
        message: format!("{typed:?} is no kind of table"),
        help: format!("write one of: {known}"),
    })
}

fn column_use(typed: &str) -> Result<AskedColumn, Failure> {
    let (heading, word) = parted(typed)?;
    let reads = match word.trim() {
        "" => Some(ColumnUse::Ignored),
        word => ColumnUse::named(word),
    };
    let reads = reads.ok_or_else(|| Failure::Typed {
        message: format!("{word:?} is nothing that a column can hold"),
        help: "see the words in docs/headings.md, such as weight or neck width".to_owned(),
    })?;
    Ok(AskedColumn { heading: heading.to_owned(), reads: Some(reads), unit: None })
}

fn column_unit(typed: &str) -> Result<AskedColumn, Failure> {
    let (heading, symbol) = parted(typed)?;
    let known = Unit::ALL.map(Unit::symbol).join(", ");
    let unit = Unit::of_symbol(symbol.trim()).ok_or_else(|| Failure::Typed {
        message: format!("{symbol:?} is no unit"),
        help: format!("write one of: {known}"),
    })?;
    Ok(AskedColumn { heading: heading.to_owned(), reads: None, unit: Some(unit) })
}

/// Reads a season as it was typed.
///
/// # Errors
/// [`Failure::Typed`] for a year that is none.
pub(super) fn season(year: i16) -> Result<Season, Failure> {
    Season::new(year).ok_or_else(|| Failure::Typed {
        message: format!("{year} is no season"),
        help: "write a year from 1900 to 2199".to_owned(),
    })
}

fn date_order(typed: DateOrder) -> asked::DateOrder {
    match typed {
        DateOrder::DayFirst => asked::DateOrder::DayFirst,
        DateOrder::MonthFirst => asked::DateOrder::MonthFirst,
    }
}

fn decimal_mark(comma: Comma) -> DecimalMark {
    match comma {
        Comma::Decimal => DecimalMark::Comma,
        Comma::Thousands => DecimalMark::Point,
    }
}
