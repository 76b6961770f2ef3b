//! What the user says of each table on the page that shows how it is read, from the form's fields.
//!
//! Fields are named by the table's place on the page and the column's place in the table: `t0.kind`,
//! `t0.c3.unit`; those of weather files likewise, `w0.scale`. The table's own name is among them, so an answer never lands on another table.

use super::days;
use crate::fields::Fields;
use crate::trouble::Trouble;
use house::asked::{Answers, AskedTable, ColumnAnswer, ColumnUse, DateOrder, DecimalMark, Unit};
use house::take::Kind;
use record::season::Season;

/// Most tables on one page.
const MOST_TABLES: usize = 400;
/// Most columns of a table, as the intake allows.
const MOST_COLUMNS: usize = 512;

/// The answers about every table on the page.
pub(super) fn read(sent: &Fields) -> Result<Vec<AskedTable>, Trouble> {
    let named = (0..MOST_TABLES).map_while(|place| Some((place, sent.whole(&format!("t{place}.table"))?)));
    let tables = named.map(|(place, table)| {
        Ok(AskedTable { table: table.to_owned(), answers: of_table(sent, place)?, ..AskedTable::default() })
    });
    tables.chain((0..MOST_TABLES).filter_map(|place| of_weather(sent, place).transpose())).collect()
}

/// The degrees and the station that somebody said of a weather file, where there is one at that place of the page.
fn of_weather(sent: &Fields, place: usize) -> Result<Option<AskedTable>, Trouble> {
    let Some(file) = sent.whole(&format!("w{place}.file")) else { return Ok(None) };
    let scale = sent.get(&format!("w{place}.scale"));
    let scale = scale.map(|word| days::named(word).ok_or_else(|| no("a scale", word))).transpose()?;
    let station = sent.get(&format!("w{place}.station")).map(str::to_owned);
    Ok(Some(AskedTable { table: file.to_owned(), answers: Answers::default(), scale, station }))
}

fn of_table(sent: &Fields, place: usize) -> Result<Answers, Trouble> {
    let get = |name: &str| sent.get(&format!("t{place}.{name}"));
    let heading_row =
        get("heading_row").map(|row| row.parse().map_err(|_| no("a row number", row))).transpose()?;
    let season = get("season").map(season).transpose()?;
    Ok(Answers {
        kind: get("kind")
            .map(|word| Kind::named(word).ok_or_else(|| no("a kind of table", word)))
            .transpose()?,
        heading_row,
        season,
        grow_out: get("grow_out").map(str::to_owned),
        columns: columns(sent, place)?,
        ..Answers::default()
    })
}

fn season(typed: &str) -> Result<Season, Trouble> {
    let year = typed.parse().ok().and_then(Season::new);
    year.ok_or_else(|| {
        Trouble::user(format!("{typed:?} is no season"), "write the year of harvest, such as 2031")
    })
}

fn columns(sent: &Fields, table: usize) -> Result<Vec<ColumnAnswer>, Trouble> {
    let count = sent.get(&format!("t{table}.columns")).and_then(|count| count.parse().ok()).unwrap_or(0);
    let all = (0..MOST_COLUMNS.min(count)).map(|place| of_column(sent, table, place));
    let said = all.filter(|answer| {
        answer.as_ref().is_ok_and(|answer| *answer != silent(answer.place)) || answer.is_err()
    });
    said.collect()
}

fn silent(place: usize) -> ColumnAnswer {
    ColumnAnswer { place, ..ColumnAnswer::default() }
}

fn of_column(sent: &Fields, table: usize, place: usize) -> Result<ColumnAnswer, Trouble> {
    let get = |name: &str| sent.get(&format!("t{table}.c{place}.{name}"));
    Ok(ColumnAnswer {
        place,
        reads: get("reads")
            .map(|word| ColumnUse::named(word).ok_or_else(|| no("a use of a column", word)))
            .transpose()?,
        unit: get("unit").map(|word| Unit::of_symbol(word).ok_or_else(|| no("a unit", word))).transpose()?,
        date_order: get("dates")
            .map(|word| DateOrder::named(word).ok_or_else(|| no("an order", word)))
            .transpose()?,
        decimal_mark: get("mark")
            .map(|word| DecimalMark::named(word).ok_or_else(|| no("a mark", word)))
            .transpose()?,
    })
}

fn no(what: &str, word: &str) -> Trouble {
    Trouble::user(format!("{word:?} is not {what}"), "go back and choose one of those offered")
}
