//! The bare full-text query: what the list page cannot do without, straight from SQLite on an open connection.

use rusqlite::{Connection, OpenFlags};
use std::path::Path;

/// How many rows have all the words.
const COUNT: &str = "SELECT count(*) FROM shelf_text WHERE shelf_text MATCH ?1";

/// The first hundred of them by name, with what their rows show.
const ROWS: &str = "SELECT t.told FROM (SELECT s.variety, s.name_key FROM shelf_text f JOIN shelf s
    ON s.variety = f.rowid WHERE shelf_text MATCH ?1 ORDER BY s.name_key LIMIT 100) p
    JOIN shelf_told t ON t.variety = p.variety ORDER BY p.name_key";

/// One query on a connection of its own.
pub(crate) struct Bare {
    ledger: Connection,
    asked: String,
}

impl Bare {
    pub(crate) fn of(ledger: &Path, words: &str) -> Self {
        let ledger = Connection::open_with_flags(ledger, OpenFlags::SQLITE_OPEN_READ_ONLY).unwrap();
        let asked = words.split(' ').map(|word| format!("\"{word}\"*")).collect::<Vec<_>>().join(" ");
        Self { ledger, asked }
    }

    pub(crate) fn ask(&mut self) {
        let count: i64 =
            self.ledger.prepare_cached(COUNT).unwrap().query_row([&self.asked], |row| row.get(0)).unwrap();
        let mut statement = self.ledger.prepare_cached(ROWS).unwrap();
        let rows = statement.query_map([&self.asked], |row| row.get::<_, String>(0)).unwrap();
        let shown = rows.map(Result::unwrap).count();
        assert_eq!(shown as i64, count.min(100));
    }
}
