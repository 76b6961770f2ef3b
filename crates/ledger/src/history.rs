//! What has been taken in and done, by whom, when and from where.

use crate::batch::{Act, BatchInfo, BatchNumber, BatchState, Counts, Sha256, Source};
use crate::fault::LedgerFault;
use crate::kept::keys::batch_number;
use crate::kept::words::Word;
use crate::ledger::Ledger;
use crate::store::row::Row;
use crate::store::value::Value;

/// Everything the history tells of a batch; the newest undoing of each, where there is one, is `u`.
const BATCHES: &str = "SELECT b.number, b.who, b.at_us,
    coalesce((SELECT kind FROM seed_room_batch r WHERE r.batch = b.number), b.kind), b.file_name, b.sheet, b.sha256, b.reading, b.why,
    s.varieties, s.aliases, s.claims, s.grow_outs, s.plots, s.plants, s.fruit_samples, s.picks, s.heights,
    s.stages, s.colours, s.doubted, s.confirmed, s.withdrawn, s.corrected, s.already_there, s.gone, s.quarantined,
    (SELECT count(*) FROM quarantine q WHERE q.batch = b.number AND q.number NOT IN
        (SELECT quarantine FROM quarantine_solved WHERE batch IN (SELECT number FROM standing_batch))),
    u.action, u.who, u.at_us, u.why,
    (SELECT count(*) FROM lot_entry_taken t JOIN lot_entry e ON e.number = t.entry WHERE t.batch = b.number AND e.noun = 'lot'),
    (SELECT count(*) FROM lot_entry_taken t JOIN lot_entry e ON e.number = t.entry WHERE t.batch = b.number AND e.noun <> 'lot')
    FROM batch b JOIN batch_summary s ON s.batch = b.number
    LEFT JOIN undoing u ON u.number = (SELECT max(number) FROM undoing WHERE batch = b.number)";

/// Where the counts begin in [`BATCHES`].
const COUNTS: usize = 9;
/// Where what is not added begins.
const NOT_ADDED: usize = COUNTS + 15;
/// Where the undoing begins.
const UNDOING: usize = NOT_ADDED + 4;
/// Where what came into the seed room begins.
const SEED_ROOM: usize = UNDOING + 4;

impl Ledger {
    /// Every batch, oldest first, the undone ones too.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn history(&mut self) -> Result<Vec<BatchInfo>, LedgerFault> {
        self.store.rows(&format!("{BATCHES} ORDER BY b.number"), &[], read_batch)
    }

    /// One batch.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchBatch`], or what the disk or server refuses.
    pub fn batch(&mut self, number: BatchNumber) -> Result<BatchInfo, LedgerFault> {
        let sql = format!("{BATCHES} WHERE b.number = $1");
        self.store.first(&sql, &[number.0.into()], read_batch)?.ok_or(LedgerFault::NoSuchBatch(number))
    }

    /// The heading cells of a batch's table; none for what was done by hand.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn headings(&mut self, number: BatchNumber) -> Result<Vec<String>, LedgerFault> {
        let sql = "SELECT words FROM heading WHERE batch = $1 ORDER BY place";
        self.store.rows(sql, &[number.0.into()], |row| row.words(0))
    }

    /// The standing batch that took this very file and sheet, if one did.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn already_taken(
        &mut self,
        file: Sha256,
        sheet: Option<&str>,
    ) -> Result<Option<BatchInfo>, LedgerFault> {
        let sql = format!(
            "{BATCHES} WHERE b.sha256 = $1 AND coalesce(b.sheet, '') = $2
             AND b.number IN (SELECT number FROM standing_batch) ORDER BY b.number"
        );
        let values = [Value::Bytes(&file.0), sheet.unwrap_or_default().into()];
        self.store.first(&sql, &values, read_batch)
    }
}

fn read_batch(row: &Row<'_>) -> Result<BatchInfo, LedgerFault> {
    Ok(BatchInfo {
        number: batch_number(row, 0)?,
        source: Source {
            who: row.words(1)?,
            at: row.moment(2)?,
            kind: Word::read(row.text(3)?)?,
            file_name: row.words_or_none(4)?,
            sheet: row.words_or_none(5)?,
            sha256: row.bytes_or_none(6)?.map(Sha256),
            headings: Vec::new(),
            reading: row.words_or_none(7)?,
            why: row.words_or_none(8)?,
        },
        added: read_counts(row)?,
        already_there: row.count(NOT_ADDED)?,
        gone: row.count(NOT_ADDED + 1)?,
        quarantined: row.count(NOT_ADDED + 2)?,
        waiting: row.count(NOT_ADDED + 3)?,
        state: read_state(row)?,
    })
}

fn read_counts(row: &Row<'_>) -> Result<Counts, LedgerFault> {
    let count = |place| row.count(COUNTS + place);
    Ok(Counts {
        varieties: count(0)?,
        aliases: count(1)?,
        claims: count(2)?,
        grow_outs: count(3)?,
        plots: count(4)?,
        plants: count(5)?,
        fruit_samples: count(6)?,
        picks: count(7)?,
        heights: count(8)?,
        stages: count(9)?,
        colours: count(10)?,
        doubted: count(11)?,
        confirmed: count(12)?,
        withdrawn: count(13)?,
        corrected: count(14)?,
        lots: row.count(SEED_ROOM)?,
        lot_entries: row.count(SEED_ROOM + 1)?,
    })
}

fn read_state(row: &Row<'_>) -> Result<BatchState, LedgerFault> {
    if row.text_or_none(UNDOING)? != Some("undone") {
        return Ok(BatchState::Standing);
    }
    let (who, at, why) = (row.words(UNDOING + 1)?, row.moment(UNDOING + 2)?, row.words_or_none(UNDOING + 3)?);
    Ok(BatchState::Undone(Act { who, at, why }))
}
