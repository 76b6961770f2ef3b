//! Verifying a ledger: the file itself, the references within it, and what must always hold.

use crate::fault::LedgerFault;
use crate::gardens;
use crate::kept::keys::Keys;
use crate::kept::print::Print;
use crate::kept::read::each_note;
use crate::kept::values::Values;
use crate::kept::words::Word;
use crate::kept::{Kept, order, select, shared};
use crate::ledger::Ledger;
use crate::lots;
use crate::names::label_key;
use crate::records::Noun;
use crate::records::finding::TABLES;
use crate::sales;
use crate::store::Store;
use crate::store::session::Session;
use crate::undo::{DOUBLE_GROW_OUTS, DOUBLE_PLOTS};
use crate::weather;
use crate::writer::notes::print;
use record::colour::ColourReading;
use record::fruit::FruitSample;
use record::height::HeightReading;
use record::pick::Pick;
use record::stage::StageNote;
use record::variety::name_key;
use std::ops::ControlFlow;

/// What a verification found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Verified {
    /// Each thing that was verified.
    pub checks: Vec<Verification>,
}

/// One thing that was verified.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Verification {
    /// What must hold, in words.
    pub what: &'static str,
    /// How many things were looked at, where they can be counted.
    pub seen: u64,
    /// What does not hold; none if all is well.
    pub findings: Vec<String>,
}

impl Verified {
    /// Whether all is well.
    #[must_use]
    pub fn is_sound(&self) -> bool {
        self.checks.iter().all(|check| check.findings.is_empty())
    }
}

/// Findings told of one check; a ledger that is broken all over need not say so a million times.
const MOST_FINDINGS: usize = 20;

impl Ledger {
    /// Verifies the whole ledger as it stands at one moment.
    ///
    /// # Errors
    /// What the disk or server refuses; findings are no error.
    pub fn verify(&mut self) -> Result<Verified, LedgerFault> {
        self.at_one_moment(|ledger| {
            let mut checks = own_checks(&mut ledger.store.session())?;
            // What is broken here would only be told again, and worse, by what stands on it.
            if checks.iter().all(|check| check.findings.is_empty()) {
                checks.extend(our_checks(&mut ledger.store)?);
            }
            Ok(Verified { checks })
        })
    }
}

fn our_checks(store: &mut Store) -> Result<Vec<Verification>, LedgerFault> {
    let keys = Keys::read(store)?;
    let mut session = store.session();
    let mut checks = Vec::new();
    for (what, sql) in NOTHING_FOUND {
        checks.push(nothing_found(&mut session, what, sql)?);
    }
    checks.push(batch_counts(&mut session)?);
    checks.push(touched_counts(&mut session)?);
    checks.push(every_note_is_as_written(&mut session, &keys)?);
    checks.push(every_row_is_as_written(&mut session)?);
    checks.push(every_name_has_its_key(&mut session)?);
    checks.push(weather_is_as_written(&mut session)?);
    checks.push(lots_are_as_written(&mut session)?);
    checks.push(sales_are_as_written(&mut session)?);
    Ok(checks)
}

/// What the server verifies by itself.
fn own_checks(session: &mut Session<'_>) -> Result<Vec<Verification>, LedgerFault> {
    match session {
        Session::File(_) => {
            let integrity = session.rows("PRAGMA integrity_check", &[], |row| row.words(0))?;
            let findings = integrity.into_iter().filter(|line| line != "ok").collect();
            let file = Verification { what: "the file is whole", seen: 1, findings };
            let sql = "SELECT \"table\" || ' refers to a missing ' || parent FROM pragma_foreign_key_check";
            Ok(vec![file, nothing_found(session, "every reference leads somewhere", sql)?])
        }
        Session::Server(_) => {
            let sql = "SELECT conrelid::regclass::text || ' has an unverified rule ' || conname
                FROM pg_constraint WHERE connamespace = current_schema()::regnamespace AND NOT convalidated";
            Ok(vec![nothing_found(session, "the server holds every reference", sql)?])
        }
    }
}

/// Things that must never be found: what must hold, and a query that tells in one column what does not.
const NOTHING_FOUND: [(&str, &str); 8] = [
    (
        "every name means one variety",
        "SELECT one.written FROM standing_name one JOIN standing_name other
        ON other.name_key = one.name_key AND one.variety < other.variety",
    ),
    ("every grow-out stands once", DOUBLE_GROW_OUTS),
    ("every plot stands once", DOUBLE_PLOTS),
    (
        "no note is withdrawn or replaced twice",
        "SELECT 'record ' || record FROM ended_record
        GROUP BY record HAVING count(*) > 1",
    ),
    (
        "every batch has its summary",
        "SELECT 'batch ' || number FROM batch
        WHERE number NOT IN (SELECT batch FROM batch_summary)",
    ),
    (
        "no standing batch rests on what is undone",
        "SELECT 'batch ' || batch || ' on batch ' || rests_on FROM resting
        WHERE batch IN (SELECT number FROM standing_batch)
        AND rests_on NOT IN (SELECT number FROM standing_batch)",
    ),
    (
        "every correction is in its noun's table",
        "SELECT 'record ' || replacement FROM correction c
        WHERE replacement NOT IN (SELECT id FROM fruit_sample WHERE c.noun = 'fruit sample')
        AND replacement NOT IN (SELECT id FROM pick WHERE c.noun = 'pick')
        AND replacement NOT IN (SELECT id FROM height_reading WHERE c.noun = 'height reading')
        AND replacement NOT IN (SELECT id FROM stage_note WHERE c.noun = 'stage note')
        AND replacement NOT IN (SELECT id FROM colour_reading WHERE c.noun = 'colour reading')",
    ),
    (
        "every quarantined row counts in its batch",
        "SELECT 'batch ' || batch FROM batch_summary s
        WHERE quarantined <> (SELECT count(*) FROM quarantine q WHERE q.batch = s.batch)",
    ),
];

fn nothing_found(
    session: &mut Session<'_>,
    what: &'static str,
    sql: &str,
) -> Result<Verification, LedgerFault> {
    let mut found = session.rows(sql, &[], |row| row.words(0))?;
    found.truncate(MOST_FINDINGS);
    let findings = found.into_iter().map(|one| format!("{what}, but not {one}")).collect();
    Ok(Verification { what, seen: 0, findings })
}

/// What each batch says that it added, against what there is.
fn batch_counts(session: &mut Session<'_>) -> Result<Verification, LedgerFault> {
    const WHAT: &str = "every batch holds as many notes as it says";
    let mut check = Verification { what: WHAT, seen: 0, findings: Vec::new() };
    for (noun, table) in TABLES {
        let column = counted(noun);
        let sql = format!(
            "SELECT s.batch, s.{column}, coalesce(n.found, 0) FROM batch_summary s
             LEFT JOIN (SELECT batch, count(*) AS found FROM {table} GROUP BY batch) n ON n.batch = s.batch"
        );
        session.rows(&sql, &[], |row| {
            let (batch, said, found) = (row.whole(0)?, row.count(1)?, row.count(2)?);
            check.seen += found;
            if said != found {
                check.find(format!("batch {batch} says that it holds {said} of {column} and holds {found}"));
            }
            Ok(())
        })?;
    }
    Ok(check)
}

/// What each batch says that it added to each variety, against what there is.
fn touched_counts(session: &mut Session<'_>) -> Result<Verification, LedgerFault> {
    const WHAT: &str = "every variety has as many notes of each batch as the stamps are made from";
    let mut check = Verification { what: WHAT, seen: 0, findings: Vec::new() };
    for (noun, table) in TABLES {
        let column = counted(noun);
        let sql = format!(
            "SELECT n.variety, n.batch, n.found, coalesce(t.{column}, 0)
             FROM (SELECT variety, batch, count(*) AS found FROM {table} GROUP BY variety, batch) n
             LEFT JOIN touched t ON t.variety = n.variety AND t.batch = n.batch"
        );
        session.rows(&sql, &[], |row| {
            let (variety, batch, found, said) = (row.whole(0)?, row.whole(1)?, row.count(2)?, row.count(3)?);
            check.seen += 1;
            if said != found {
                check.find(format!("variety {variety} has {found} of {column} in batch {batch}, not {said}"));
            }
            Ok(())
        })?;
    }
    Ok(check)
}

/// The column that counts a noun in summaries and stamps.
fn counted(noun: Noun) -> &'static str {
    match noun {
        Noun::FruitSample => "fruit_samples",
        Noun::Pick => "picks",
        Noun::HeightReading => "heights",
        Noun::StageNote => "stages",
        Noun::ColourReading => "colours",
    }
}

/// Reads every note and prints it anew: a note that was changed behind the ledger's back prints otherwise.
fn every_note_is_as_written(session: &mut Session<'_>, keys: &Keys) -> Result<Verification, LedgerFault> {
    const WHAT: &str = "every note reads as it was written";
    let mut check = Verification { what: WHAT, seen: 0, findings: Vec::new() };
    print_anew::<FruitSample>(session, keys, &mut check)?;
    print_anew::<Pick>(session, keys, &mut check)?;
    print_anew::<HeightReading>(session, keys, &mut check)?;
    print_anew::<StageNote>(session, keys, &mut check)?;
    print_anew::<ColourReading>(session, keys, &mut check)?;
    Ok(check)
}

fn print_anew<K: Kept>(
    session: &mut Session<'_>,
    keys: &Keys,
    check: &mut Verification,
) -> Result<(), LedgerFault> {
    let sql = format!("{}{}", select::<K>(), order::<K>(""));
    each_note::<K>(session, keys, &sql, &[], &mut |head, kept| {
        let mut values = Values::new();
        shared(&mut values, kept.subject(), head.variety, head.plot);
        kept.own(&mut values);
        check.seen += 1;
        if print::<K>(values.all(), kept.culls()) != head.print {
            check.find(format!("{} {} was changed after it was written", K::NOUN.word(), head.id));
        }
        Ok(ControlFlow::Continue(()))
    })
}

/// Prints the cells of every quarantined row anew.
fn every_row_is_as_written(session: &mut Session<'_>) -> Result<Verification, LedgerFault> {
    const WHAT: &str = "every quarantined row reads as it was written";
    let mut check = Verification { what: WHAT, seen: 0, findings: Vec::new() };
    session.rows("SELECT number, print, value, cells FROM quarantine", &[], |row| {
        let (number, print, _, cells) = (row.whole(0)?, row.whole(1)?, row.text(2)?, row.text(3)?);
        check.seen += 1;
        if Print::new().add(&[cells.into()]).done() != print {
            check.find(format!("quarantined row {number} was changed after it was written"));
        }
        Ok(())
    })?;
    Ok(check)
}

/// Prints weather, and what is known of stations and gardens, anew.
fn weather_is_as_written(session: &mut Session<'_>) -> Result<Verification, LedgerFault> {
    const WHAT: &str = "all weather, stations and gardens read as they were written";
    let mut check = Verification { what: WHAT, seen: 0, findings: Vec::new() };
    let mut seen = |finding: Option<String>| {
        check.seen += 1;
        finding.into_iter().for_each(|finding| check.find(finding));
    };
    weather::changed::each_changed(session, &mut seen)?;
    gardens::each_changed(session, &mut seen)?;
    Ok(check)
}

/// Prints lots and what is noted of them anew.
fn lots_are_as_written(session: &mut Session<'_>) -> Result<Verification, LedgerFault> {
    const WHAT: &str = "all lots and their entries read as they were written";
    let mut check = Verification { what: WHAT, seen: 0, findings: Vec::new() };
    lots::changed::each_changed(session, &mut |finding| {
        check.seen += 1;
        finding.into_iter().for_each(|finding| check.find(finding));
    })?;
    Ok(check)
}

/// Prints sales anew.
fn sales_are_as_written(session: &mut Session<'_>) -> Result<Verification, LedgerFault> {
    const WHAT: &str = "all sales read as they were written";
    let mut check = Verification { what: WHAT, seen: 0, findings: Vec::new() };
    sales::changed::each_changed(session, &mut |finding| {
        check.seen += 1;
        finding.into_iter().for_each(|finding| check.find(finding));
    })?;
    Ok(check)
}

/// How a key is made of what was written.
type KeyOf = fn(&str) -> String;

/// Names and labels with the keys that they are looked up by, and how each key is made.
const KEYED: [(&str, KeyOf); 9] = [
    ("SELECT name, name_key FROM variety", name_key),
    ("SELECT alias, alias_key FROM alias", name_key),
    ("SELECT name, name_key FROM grow_out", label_key),
    ("SELECT label, label_key FROM plot", label_key),
    ("SELECT station, station_key FROM weather_record", label_key),
    ("SELECT station, station_key FROM station_detail", label_key),
    ("SELECT name, name_key FROM garden_detail", label_key),
    ("SELECT lot_number, lot_key FROM seed_lot", label_key),
    ("SELECT shop, shop_key FROM sales_record", label_key),
];

/// Makes the key of every name and label anew: one that was changed has another.
fn every_name_has_its_key(session: &mut Session<'_>) -> Result<Verification, LedgerFault> {
    const WHAT: &str = "every name and label is known by its own letters";
    let mut check = Verification { what: WHAT, seen: 0, findings: Vec::new() };
    for (sql, key_of) in KEYED {
        session.rows(sql, &[], |row| {
            let (written, key) = (row.text(0)?, row.text(1)?);
            check.seen += 1;
            if key_of(written) != key {
                check.find(format!("{written:?} was changed after it was written"));
            }
            Ok(())
        })?;
    }
    Ok(check)
}

impl Verification {
    fn find(&mut self, finding: String) {
        if self.findings.len() < MOST_FINDINGS {
            self.findings.push(finding);
        }
    }
}
