//! The calls as they were last worked out: a cache that can be thrown away, never evidence.

use crate::evidence::EvidenceStamp;
use crate::fault::LedgerFault;
use crate::kept::keys;
use crate::kept::words::Word;
use crate::ledger::Ledger;
use crate::store::row::Row;
use crate::store::session::Session;
use crate::varieties::{grouped, standing_number};
use record::id::Id;
use record::share::Share;
use record::variety::Variety;
use std::collections::HashMap;

/// What a call is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum CallSubject {
    /// Plant habit.
    Habit,
    /// Fruit class.
    FruitClass,
    /// Colour.
    Colour,
}

/// A call as it is kept.
#[derive(Clone, Debug, PartialEq)]
pub struct StoredCall {
    /// Whose call.
    pub variety: Id<Variety>,
    /// What about.
    pub subject: CallSubject,
    /// The verdict, or nothing where the variety lies between or has no evidence.
    pub verdict: Option<String>,
    /// The verdict's probability, or that of the likeliest.
    pub probability: Share,
    /// Whether it is contested.
    pub contested: bool,
    /// The evidence it was made from.
    pub evidence: EvidenceStamp,
    /// A key of everything else it depends on: guide, spread across the house, method.
    pub guide: u64,
    /// The whole call, in the form that the house gives it.
    pub detail: String,
}

const CALLS: &str =
    "SELECT v.uuid, c.subject, c.verdict, c.probability, c.contested, c.evidence, c.guide, c.detail,
    v.number
    FROM stored_call c JOIN variety v ON v.number = c.variety
    WHERE v.batch IN (SELECT number FROM standing_batch)";

/// A call that comes out as it was keeps its round, so that nothing is shelved again for it.
const KEEP: &str = "INSERT INTO stored_call
    (variety, subject, verdict, probability, contested, evidence, guide, detail, kept)
    VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9)
    ON CONFLICT (variety, subject) DO UPDATE SET verdict = excluded.verdict,
    probability = excluded.probability, contested = excluded.contested, evidence = excluded.evidence,
    guide = excluded.guide, detail = excluded.detail, kept = excluded.kept
    WHERE stored_call.detail <> excluded.detail OR stored_call.evidence <> excluded.evidence
    OR stored_call.guide <> excluded.guide OR stored_call.contested <> excluded.contested
    OR stored_call.probability <> excluded.probability
    OR stored_call.verdict IS DISTINCT FROM excluded.verdict";

const NEXT_ROUND: &str = "UPDATE shelf_state SET call_rounds = call_rounds + 1";

impl Ledger {
    /// Keeps calls, each in the place of the one kept before for its variety and subject.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchVariety`], or what the disk or server refuses.
    pub fn keep_calls(&mut self, calls: &[StoredCall]) -> Result<(), LedgerFault> {
        self.store.writing(|session| {
            session.execute(NEXT_ROUND, &[])?;
            let round = session.first("SELECT call_rounds FROM shelf_state", &[], |row| row.whole(0))?;
            calls.iter().try_for_each(|call| keep(session, call, round.unwrap_or(0)))
        })
    }

    /// Every kept call of varieties that stand, by variety and subject.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn calls(&mut self) -> Result<Vec<StoredCall>, LedgerFault> {
        self.store.rows(&format!("{CALLS} ORDER BY v.name_key, v.number, c.subject"), &[], read_call)
    }

    /// One variety's kept calls, by subject.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn calls_of(&mut self, variety: Id<Variety>) -> Result<Vec<StoredCall>, LedgerFault> {
        let number = standing_number(&mut self.store.session(), variety)?;
        let sql = format!("{CALLS} AND v.number = $1 ORDER BY c.subject");
        self.store.rows(&sql, &[number.into()], read_call)
    }

    /// Forgets every kept call.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn forget_calls(&mut self) -> Result<(), LedgerFault> {
        self.store.writing(|session| {
            session.execute(NEXT_ROUND, &[])?;
            session.execute("UPDATE shelf_state SET made_by = NULL", &[])?;
            session.execute("DELETE FROM stored_call", &[]).map(|_| ())
        })
    }

    /// The kept calls of a run of varieties, by number.
    pub(crate) fn calls_between(
        &mut self,
        first: i64,
        last: i64,
    ) -> Result<HashMap<i64, Vec<StoredCall>>, LedgerFault> {
        let sql = format!("{CALLS} AND v.number BETWEEN $1 AND $2 ORDER BY c.subject");
        let calls = self
            .store
            .rows(&sql, &[first.into(), last.into()], |row| Ok((row.whole(8)?, read_call(row)?)))?;
        Ok(grouped(calls))
    }
}

fn keep(session: &mut Session<'_>, call: &StoredCall, round: i64) -> Result<(), LedgerFault> {
    let variety = standing_number(session, call.variety)?;
    let values = [
        variety.into(),
        call.subject.word().into(),
        call.verdict.as_deref().into(),
        call.probability.get().into(),
        i64::from(call.contested).into(),
        call.evidence.0.cast_signed().into(),
        call.guide.cast_signed().into(),
        call.detail.as_str().into(),
        round.into(),
    ];
    session.execute(KEEP, &values).map(|_| ())
}

fn read_call(row: &Row<'_>) -> Result<StoredCall, LedgerFault> {
    let probability = row.unit_or_none(3, Share::new)?;
    Ok(StoredCall {
        variety: keys::id(row, 0)?,
        subject: Word::read(row.text(1)?)?,
        verdict: row.words_or_none(2)?,
        probability: probability
            .ok_or_else(|| LedgerFault::Damaged("a call has no probability".to_owned()))?,
        contested: row.whole(4)? != 0,
        evidence: EvidenceStamp(row.whole(5)?.cast_unsigned()),
        guide: row.whole(6)?.cast_unsigned(),
        detail: row.words(7)?,
    })
}
