//! Reading entries back: each noun's rows at once, then every entry with its own.

use crate::batch::Act;
use crate::fault::LedgerFault;
use crate::kept::keys;
use crate::kept::words::Word;
use crate::lots::{EntryNumber, EntryState, LotEntry};
use crate::store::row::Row;
use crate::store::session::Session;
use crate::varieties::grouped;
use record::germination::{GerminationTest, Replicate, Seedlings};
use record::id::Id;
use record::length::Millimetres;
use record::lot::{
    ITSELF, Inspection, Lot, LotKeeping, LotNote, LotOrigin, MoistureReading, OffType, SeedWeighing,
};
use record::mass::Milligrams;
use record::share::Percent;
use record::stock::{Fill, Movement, Place};
use record::temperature::Celsius;
use std::collections::HashMap;

/// Origins, with the own number of their lot and of their entry.
pub(super) const ORIGINS: &str =
    "SELECT e.lot, o.entry, o.harvested_on, p.uuid, s.uuid, o.parents, o.isolation_mm,
    o.extraction, o.drying, o.treatment FROM lot_origin o JOIN lot_entry e ON e.number = o.entry
    LEFT JOIN plot p ON p.number = o.plot LEFT JOIN seed_lot s ON s.number = o.sown_from";

pub(super) fn origin(row: &Row<'_>) -> Result<LotOrigin, LedgerFault> {
    let uuid = |column| row.bytes_or_none(column).map(|bytes| bytes.map(uuid::Uuid::from_bytes));
    Ok(LotOrigin {
        harvested_on: row.day_or_none(2)?,
        plot: uuid(3)?.map(Id::from_uuid),
        sown_from: uuid(4)?.map(Id::from_uuid),
        parents: row.small_or_none(5)?,
        isolation: row.unit_or_none(6, Millimetres::new)?,
        extraction: row.words_or_none(7)?,
        drying: row.words_or_none(8)?,
        treatment: row.words_or_none(9)?,
    })
}

/// The newest undoing of an entry is `u`.
const ENTRIES: &str =
    "SELECT e.number, l.uuid, e.noun, e.who, e.at_us, e.why, u.action, u.who, u.at_us, u.why
    FROM lot_entry e JOIN seed_lot l ON l.number = e.lot
    LEFT JOIN lot_undoing u ON u.number = (SELECT max(number) FROM lot_undoing WHERE entry = e.number)";

/// Reads the entries of a lot, or of all lots.
pub(crate) fn entries(session: &mut Session<'_>, lot: Option<Id<Lot>>) -> Result<Vec<LotEntry>, LedgerFault> {
    let number = lot.map(|lot| own_number(session, lot)).transpose()?;
    let mut notes = notes(session, number)?;
    let only = number.map_or_else(String::new, |number| format!("WHERE e.lot = {number}"));
    session.rows(&format!("{ENTRIES} {only} ORDER BY e.number"), &[], |row| {
        let number = row.whole(0)?;
        let lot = keys::id(row, 1)?;
        let note = match row.text(2)? {
            "lot" => None,
            noun => {
                let read = notes.remove(&number).ok_or_else(|| missing(number, noun))?;
                Some(of_lot(read, lot))
            }
        };
        let act = Act { who: row.words(3)?, at: row.moment(4)?, why: row.words_or_none(5)? };
        Ok(LotEntry { number: EntryNumber(row.small(0)?), lot, act, note, state: state(row)? })
    })
}

fn missing(number: i64, noun: &str) -> LedgerFault {
    LedgerFault::Damaged(format!("entry {number} of the seed room has no {noun}"))
}

/// A movement tells its lot; its row leaves that to its entry.
fn of_lot(note: LotNote, lot: Id<Lot>) -> LotNote {
    match note {
        LotNote::Movement(movement) => LotNote::Movement(Movement { lot, ..movement }),
        other => other,
    }
}

fn state(row: &Row<'_>) -> Result<EntryState, LedgerFault> {
    Ok(match row.text_or_none(6)? {
        Some("withdrawn") => {
            EntryState::Withdrawn(Act { who: row.words(7)?, at: row.moment(8)?, why: row.words_or_none(9)? })
        }
        _ => EntryState::Standing,
    })
}

/// The ledger's own number of a lot.
pub(crate) fn own_number(session: &mut Session<'_>, lot: Id<Lot>) -> Result<i64, LedgerFault> {
    let sql = "SELECT number FROM seed_lot WHERE uuid = $1";
    let number = session.first(sql, &[lot.uuid().as_bytes().as_slice().into()], |row| row.whole(0))?;
    number.ok_or(LedgerFault::NoSuchLot(lot))
}

/// Every note by the number of its entry.
fn notes(session: &mut Session<'_>, lot: Option<i64>) -> Result<HashMap<i64, LotNote>, LedgerFault> {
    let only = |column: &str| match lot {
        Some(lot) => format!("WHERE {column} IN (SELECT number FROM lot_entry WHERE lot = {lot})"),
        None => String::new(),
    };
    let mut notes = HashMap::new();
    let origins = session.rows(&format!("{ORIGINS} {}", only("o.entry")), &[], |row| {
        Ok((row.whole(1)?, LotNote::Origin(origin(row)?)))
    })?;
    notes.extend(origins);
    let entry = only("entry");
    notes.extend(keepings(session, &entry)?);
    notes.extend(movements(session, &entry)?);
    notes.extend(weighings(session, &entry)?);
    notes.extend(moistures(session, &entry)?);
    notes.extend(tests(session, &entry)?);
    notes.extend(inspections(session, &entry)?);
    Ok(notes)
}

type Read = Result<Vec<(i64, LotNote)>, LedgerFault>;

fn keepings(session: &mut Session<'_>, only: &str) -> Read {
    let sql =
        format!("SELECT entry, since, location, temperature_c, packing, vapour_g FROM lot_keeping {only}");
    session.rows(&sql, &[], |row| {
        let keeping = LotKeeping {
            since: row.day(1)?,
            location: row.words_or_none(2)?,
            temperature: row.unit_or_none(3, Celsius::new)?,
            packing: Word::read(row.text(4)?)?,
            vapour_g: row.real_or_none(5)?,
        };
        Ok((row.whole(0)?, LotNote::Keeping(keeping)))
    })
}

fn movements(session: &mut Session<'_>, only: &str) -> Read {
    let sql = format!(
        "SELECT entry, on_day, from_place, from_fill_mg, to_place, to_fill_mg, mass_mg FROM lot_movement {only}"
    );
    session.rows(&sql, &[], |row| {
        let movement = Movement {
            lot: ITSELF,
            on: row.day(1)?,
            from: place(row, 2)?,
            to: place(row, 4)?,
            mass: Milligrams::new(row.count(6)?),
        };
        Ok((row.whole(0)?, LotNote::Movement(movement)))
    })
}

/// A place that stands in two columns.
fn place(row: &Row<'_>, from: usize) -> Result<Place, LedgerFault> {
    let word = row.text(from)?;
    let fill = row.whole_or_none(from + 1)?.and_then(|mg| u64::try_from(mg).ok()).map(Milligrams::new);
    let place = match (word, fill.and_then(Fill::new)) {
        ("packets", Some(fill)) => Some(Place::Packets(fill)),
        (word, None) => {
            super::written::PLACES.iter().find(|(_, known)| *known == word).map(|(place, _)| *place)
        }
        _ => None,
    };
    place.ok_or_else(|| LedgerFault::Damaged(format!("{word:?} is no place of seed")))
}

fn weighings(session: &mut Session<'_>, only: &str) -> Read {
    let replicates = session.rows(
        &format!("SELECT entry, mass_mg FROM lot_weighing_replicate {only} ORDER BY entry, place"),
        &[],
        |row| Ok((row.whole(0)?, Milligrams::new(row.count(1)?))),
    )?;
    let mut replicates = grouped(replicates);
    session.rows(&format!("SELECT entry, on_day, seeds_each FROM lot_weighing {only}"), &[], |row| {
        let entry = row.whole(0)?;
        let masses = replicates.remove(&entry).unwrap_or_default();
        let weighing = SeedWeighing { on: row.day(1)?, seeds_each: row.small(2)?, masses };
        Ok((entry, LotNote::Weighing(weighing)))
    })
}

fn moistures(session: &mut Session<'_>, only: &str) -> Read {
    session.rows(&format!("SELECT entry, on_day, percent FROM lot_moisture {only}"), &[], |row| {
        let percent = row.real(2)?;
        let none = || LedgerFault::Damaged(format!("{percent} is no per cent"));
        let moisture = Percent::new(percent).ok_or_else(none)?;
        let reading = MoistureReading { on: row.day(1)?, moisture };
        Ok((row.whole(0)?, LotNote::Moisture(reading)))
    })
}

fn tests(session: &mut Session<'_>, only: &str) -> Read {
    let sql = format!(
        "SELECT entry, sown, normal, abnormal, hard, dead, first_count FROM germination_replicate {only}
         ORDER BY entry, place"
    );
    let replicates = session.rows(&sql, &[], |row| {
        let seedlings = Seedlings {
            normal: row.small(2)?,
            abnormal: row.small(3)?,
            hard: row.small(4)?,
            dead: row.small(5)?,
        };
        let replicate = Replicate::new(row.small(1)?, seedlings, row.small_or_none(6)?)
            .map_err(|fault| LedgerFault::Damaged(format!("a replicate does not add up: {fault:?}")))?;
        Ok((row.whole(0)?, replicate))
    })?;
    let mut replicates = grouped(replicates);
    let sql =
        format!("SELECT entry, begun_on, first_counted_on, counted_on, made FROM germination_test {only}");
    session.rows(&sql, &[], |row| {
        let entry = row.whole(0)?;
        let test = GerminationTest {
            begun_on: row.day(1)?,
            first_counted_on: row.day_or_none(2)?,
            counted_on: row.day(3)?,
            made: Word::read(row.text(4)?)?,
            replicates: replicates.remove(&entry).unwrap_or_default(),
        };
        Ok((entry, LotNote::Germination(test)))
    })
}

fn inspections(session: &mut Session<'_>, only: &str) -> Read {
    let kinds = session.rows(
        &format!("SELECT entry, kind, plants FROM lot_off_type {only} ORDER BY entry, place"),
        &[],
        |row| Ok((row.whole(0)?, OffType { kind: row.words(1)?, plants: row.small(2)? })),
    )?;
    let mut kinds = grouped(kinds);
    session.rows(&format!("SELECT entry, on_day, plants FROM lot_inspection {only}"), &[], |row| {
        let entry = row.whole(0)?;
        let off_types = kinds.remove(&entry).unwrap_or_default();
        Ok((entry, LotNote::Inspection(Inspection { on: row.day(1)?, plants: row.small(2)?, off_types })))
    })
}
