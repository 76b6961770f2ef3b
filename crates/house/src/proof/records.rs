//! Where the records stand that speak against a claim: by file, with their rows.

use crate::claims::SpeaksOf;
use crate::claims::behind;
use crate::fault::HouseFault;
use ledger::ledger::Ledger;
use ledger::records::Recorded;
use record::id::Id;
use record::variety::Variety;
use std::collections::BTreeMap;

/// Most rows of one file that are told; the variety's page has them all. A choice of the sheet.
const MOST_ROWS: usize = 8;

/// The records of a variety that speak of these, by the files that they came in with.
pub(super) fn behind(
    ledger: &mut Ledger,
    variety: Id<Variety>,
    speaks_of: &[SpeaksOf],
) -> Result<Vec<String>, HouseFault> {
    let records = ledger.records_of(variety)?;
    let own = behind::behind(speaks_of, &records);
    let mut rows: BTreeMap<String, Vec<u64>> = BTreeMap::new();
    for recorded in records.iter().filter(|recorded| own.contains(&recorded.id)) {
        rows.entry(source(recorded)).or_default().push(recorded.from.row);
    }
    Ok(rows.into_iter().map(|(file, rows)| told(&file, rows)).collect())
}

fn source(recorded: &Recorded) -> String {
    let from = &recorded.from;
    match (&from.file_name, &from.sheet) {
        (Some(file), Some(sheet)) => format!("{file}, sheet {sheet}"),
        (Some(file), None) => file.clone(),
        (None, _) => format!("notes of {}", from.who),
    }
}

/// `fruit-2031.csv, rows 7, 8, 9 and 12 more`.
fn told(file: &str, mut rows: Vec<u64>) -> String {
    rows.sort_unstable();
    rows.dedup();
    let word = if rows.len() == 1 { "row" } else { "rows" };
    let first: Vec<String> = rows.iter().take(MOST_ROWS).map(u64::to_string).collect();
    let more = rows.len().saturating_sub(MOST_ROWS);
    let more = if 0 < more { format!(" and {more} more") } else { String::new() };
    format!("{file}, {word} {}{more}", first.join(", "))
}

#[cfg(test)]
mod tests {
    use super::told;

    #[test]
    fn rows_are_told_in_order_and_the_rest_is_counted() {
        assert_eq!(told("a.csv", vec![7]), "a.csv, row 7");
        assert_eq!(told("a.csv", vec![9, 7, 9]), "a.csv, rows 7, 9");
        assert_eq!(told("a.csv", (1..=10).collect()), "a.csv, rows 1, 2, 3, 4, 5, 6, 7, 8 and 2 more");
    }
}
