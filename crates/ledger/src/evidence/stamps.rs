//! Stamps of evidence: which standing batches touch each variety, in one short number.

use crate::evidence::{Amount, EvidenceOf, EvidenceStamp};
use crate::fault::LedgerFault;
use crate::kept::keys;
use crate::kept::print::Print;
use crate::kept::words::Word;
use crate::records::Noun;
use crate::records::finding::TABLES;
use crate::store::session::Session;
use crate::store::value::Value;
use std::collections::BTreeMap;

/// Every variety with the stamp of the batches that touch it and the notes they added.
pub(crate) fn stamps(session: &mut Session<'_>) -> Result<BTreeMap<i64, EvidenceOf>, LedgerFault> {
    let mut all = BTreeMap::new();
    let mut prints = BTreeMap::new();
    let sql =
        "SELECT v.number, v.uuid, t.batch, b.uuid, t.fruit_samples, t.picks, t.heights, t.stages, t.colours
        FROM variety v
        LEFT JOIN touched t ON t.variety = v.number AND t.batch IN (SELECT number FROM standing_batch)
        LEFT JOIN batch b ON b.number = t.batch
        WHERE v.batch IN (SELECT number FROM standing_batch) ORDER BY v.number, t.batch";
    session.rows(sql, &[], |row| {
        let number = row.whole(0)?;
        let none = EvidenceOf { variety: keys::id(row, 1)?, stamp: NO_EVIDENCE, amount: Amount::default() };
        let of: &mut EvidenceOf = all.entry(number).or_insert(none);
        let Some(batch) = row.bytes_or_none::<16>(3)? else { return Ok(()) };
        let print = prints.entry(number).or_insert_with(Print::new);
        *print = print.add(&[Value::Bytes(&batch)]);
        of.stamp = EvidenceStamp(print.done().cast_unsigned());
        let amount = &mut of.amount;
        amount.fruit_samples += row.count(4)?;
        amount.picks += row.count(5)?;
        amount.heights += row.count(6)?;
        amount.stages += row.count(7)?;
        amount.colours += row.count(8)?;
        Ok(())
    })?;
    Ok(all)
}

/// The stamp of a variety that no batch touches.
const NO_EVIDENCE: EvidenceStamp = EvidenceStamp(0);

impl Amount {
    fn of(&mut self, noun: Noun) -> &mut u64 {
        match noun {
            Noun::FruitSample => &mut self.fruit_samples,
            Noun::Pick => &mut self.picks,
            Noun::HeightReading => &mut self.heights,
            Noun::StageNote => &mut self.stages,
            Noun::ColourReading => &mut self.colours,
        }
    }
}

/// Takes off what was withdrawn or replaced since.
pub(crate) fn less_ended(
    session: &mut Session<'_>,
    all: &mut BTreeMap<i64, EvidenceOf>,
) -> Result<(), LedgerFault> {
    for (noun, table) in TABLES {
        let sql = format!(
            "SELECT variety, count(*) FROM {table} WHERE batch IN (SELECT number FROM standing_batch)
             AND id IN (SELECT record FROM ended_record) GROUP BY variety"
        );
        for (variety, ended) in session.rows(&sql, &[], |row| Ok((row.whole(0)?, row.count(1)?)))? {
            if let Some(of) = all.get_mut(&variety) {
                let count = of.amount.of(noun);
                *count = count.saturating_sub(ended);
            }
        }
    }
    Ok(())
}

pub(crate) fn add_set_aside(
    session: &mut Session<'_>,
    all: &mut BTreeMap<i64, EvidenceOf>,
) -> Result<(), LedgerFault> {
    for (noun, table) in TABLES {
        let sql = format!(
            "SELECT n.variety, count(*) FROM doubted_record d JOIN {table} n ON n.id = d.record
             WHERE d.noun = $1 AND n.batch IN (SELECT number FROM standing_batch)
             AND n.id NOT IN (SELECT record FROM ended_record) GROUP BY n.variety"
        );
        let values = [noun.word().into()];
        for (variety, count) in session.rows(&sql, &values, |row| Ok((row.whole(0)?, row.count(1)?)))? {
            if let Some(of) = all.get_mut(&variety) {
                of.amount.set_aside += count;
            }
        }
    }
    Ok(())
}
