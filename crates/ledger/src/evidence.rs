//! Evidence for calls: the records that count, variety by variety, as a stream.
//!
//! A record counts where its batch stands, it is neither withdrawn nor replaced, and it is not
//! doubted or its doubts were confirmed. Only one variety's records are in memory at a time.

use crate::fault::LedgerFault;
use crate::kept::keys::{self, Keys};
use crate::kept::print::Print;
use crate::kept::read::each_note;
use crate::kept::words::Word;
use crate::kept::{Kept, of_one_variety, order, select};
use crate::ledger::Ledger;
use crate::records::{Noun, TABLES};
use crate::store::session::Session;
use crate::store::value::Value;
use crate::varieties::standing_number;
use record::colour::ColourReading;
use record::fruit::FruitSample;
use record::height::HeightReading;
use record::id::Id;
use record::pick::Pick;
use record::stage::StageNote;
use record::variety::Variety;
use std::collections::BTreeMap;
use std::ops::ControlFlow;

/// Whose evidence to read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Whose {
    /// Every variety's.
    Everyones,
    /// One variety's.
    Only(Id<Variety>),
}

/// One variety's records of one noun.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gathered<'a, Record> {
    /// The variety.
    pub variety: Id<Variety>,
    /// Its records that count, in the order they came in. Never empty, unless all were set aside.
    pub records: &'a [Record],
    /// How many more are doubted and wait to be looked at.
    pub set_aside: u64,
}

/// A number that changes whenever the evidence that counts for one variety changes, and comes back
/// when the change is undone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct EvidenceStamp(pub u64);

/// How much there is about one variety, of what stands, doubted or not.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Amount {
    /// Fruit samples.
    pub fruit_samples: u64,
    /// Picks.
    pub picks: u64,
    /// Height readings.
    pub heights: u64,
    /// Stage notes.
    pub stages: u64,
    /// Colour readings.
    pub colours: u64,
    /// Of all these, how many are doubted and not confirmed.
    pub set_aside: u64,
}

/// One variety's stamp and amount of evidence.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct EvidenceOf {
    /// The variety.
    pub variety: Id<Variety>,
    /// Its stamp.
    pub stamp: EvidenceStamp,
    /// How much there is.
    pub amount: Amount,
}

/// Which notes count; `n` is the noun's table.
const COUNTS: &str = "n.batch IN (SELECT number FROM standing_batch)
    AND n.id NOT IN (SELECT record FROM ended_record)
    AND n.id NOT IN (SELECT record FROM doubted_record)";

/// Which notes are set aside.
const SET_ASIDE: &str = "n.batch IN (SELECT number FROM standing_batch)
    AND n.id NOT IN (SELECT record FROM ended_record)
    AND n.id IN (SELECT record FROM doubted_record)";

impl Ledger {
    /// The stamp and amount of evidence of every variety that stands, also of those without any, in the
    /// order they came in.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn evidence_stamps(&mut self) -> Result<Vec<EvidenceOf>, LedgerFault> {
        let mut session = self.store.session();
        let mut all = stamps(&mut session)?;
        less_ended(&mut session, &mut all)?;
        add_set_aside(&mut session, &mut all)?;
        Ok(all.into_values().collect())
    }

    /// Fruit samples, variety by variety, until `each` breaks off.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn fruit_by_variety(
        &mut self,
        whose: Whose,
        each: &mut dyn FnMut(Gathered<'_, FruitSample>) -> ControlFlow<()>,
    ) -> Result<(), LedgerFault> {
        self.by_variety(whose, each)
    }

    /// Picks, variety by variety, until `each` breaks off.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn picks_by_variety(
        &mut self,
        whose: Whose,
        each: &mut dyn FnMut(Gathered<'_, Pick>) -> ControlFlow<()>,
    ) -> Result<(), LedgerFault> {
        self.by_variety(whose, each)
    }

    /// Height readings, variety by variety, until `each` breaks off.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn heights_by_variety(
        &mut self,
        whose: Whose,
        each: &mut dyn FnMut(Gathered<'_, HeightReading>) -> ControlFlow<()>,
    ) -> Result<(), LedgerFault> {
        self.by_variety(whose, each)
    }

    /// Stage notes, variety by variety, until `each` breaks off.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn stages_by_variety(
        &mut self,
        whose: Whose,
        each: &mut dyn FnMut(Gathered<'_, StageNote>) -> ControlFlow<()>,
    ) -> Result<(), LedgerFault> {
        self.by_variety(whose, each)
    }

    /// Colour readings, variety by variety, until `each` breaks off.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn colours_by_variety(
        &mut self,
        whose: Whose,
        each: &mut dyn FnMut(Gathered<'_, ColourReading>) -> ControlFlow<()>,
    ) -> Result<(), LedgerFault> {
        self.by_variety(whose, each)
    }

    fn by_variety<K: Kept>(
        &mut self,
        whose: Whose,
        each: &mut dyn FnMut(Gathered<'_, K>) -> ControlFlow<()>,
    ) -> Result<(), LedgerFault> {
        let keys = Keys::read(&mut self.store)?;
        let mut session = self.store.session();
        let only = match whose {
            Whose::Everyones => None,
            Whose::Only(id) => Some(standing_number(&mut session, id)?),
        };
        let mut gathering = Gathering {
            keys: &keys,
            set_aside: set_aside::<K>(&mut session, only)?,
            variety: 0,
            records: Vec::new(),
            each,
        };
        let (and, values) = of_one::<K>(only);
        let sql = format!("{} WHERE {COUNTS}{and}{}", select::<K>(), order::<K>("n.variety, "));
        let mut broken = false;
        each_note::<K>(&mut session, &keys, &sql, &values, &mut |head, record| {
            let flow = gathering.take(head.variety, record)?;
            broken = flow.is_break();
            Ok(flow)
        })?;
        if broken { Ok(()) } else { gathering.finish() }
    }
}

/// Narrows a query to one variety, if only one is wanted.
fn of_one<K: Kept>(only: Option<i64>) -> (String, Vec<Value<'static>>) {
    let narrowed = |variety: i64| (format!(" AND {}", of_one_variety(K::TABLE.name)), vec![variety.into()]);
    only.map_or((String::new(), Vec::new()), narrowed)
}

/// How many notes of a noun are set aside, by variety.
fn set_aside<K: Kept>(
    session: &mut Session<'_>,
    only: Option<i64>,
) -> Result<BTreeMap<i64, u64>, LedgerFault> {
    let (and, values) = of_one::<K>(only);
    let table = K::TABLE.name;
    let sql = format!("SELECT n.variety, count(*) FROM {table} n WHERE {SET_ASIDE}{and} GROUP BY n.variety");
    let counts = session.rows(&sql, &values, |row| Ok((row.whole(0)?, row.count(1)?)))?;
    Ok(counts.into_iter().collect())
}

/// Gathers records that come in the order of their varieties, and hands them on variety by variety.
struct Gathering<'a, K> {
    keys: &'a Keys,
    /// By variety, those not handed on yet.
    set_aside: BTreeMap<i64, u64>,
    variety: i64,
    records: Vec<K>,
    each: &'a mut dyn FnMut(Gathered<'_, K>) -> ControlFlow<()>,
}

impl<K> Gathering<'_, K> {
    fn take(&mut self, variety: i64, record: K) -> Result<ControlFlow<()>, LedgerFault> {
        let mut flow = ControlFlow::Continue(());
        if variety != self.variety {
            flow = self.hand_on_before(variety)?;
            self.variety = variety;
        }
        self.records.push(record);
        Ok(flow)
    }

    fn finish(&mut self) -> Result<(), LedgerFault> {
        self.hand_on_before(i64::MAX).map(|_| ())
    }

    /// Hands on what was gathered and what has only records set aside, in the order of the varieties, up to
    /// the one whose records come next.
    fn hand_on_before(&mut self, next: i64) -> Result<ControlFlow<()>, LedgerFault> {
        loop {
            let gathered = (!self.records.is_empty()).then_some(self.variety);
            let first_aside = self.set_aside.keys().next().copied();
            let first = gathered.into_iter().chain(first_aside).min();
            let Some(variety) = first.filter(|first| *first < next) else {
                return Ok(ControlFlow::Continue(()));
            };
            let set_aside = self.set_aside.remove(&variety).unwrap_or(0);
            let none = &[][..];
            let records = if gathered == Some(variety) { &*self.records } else { none };
            let flow = (self.each)(Gathered { variety: self.keys.variety(variety)?, records, set_aside });
            if gathered == Some(variety) {
                self.records.clear();
            }
            if flow.is_break() {
                return Ok(flow);
            }
        }
    }
}

/// Every variety with the stamp of the batches that touch it and the notes they added.
fn stamps(session: &mut Session<'_>) -> Result<BTreeMap<i64, EvidenceOf>, LedgerFault> {
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
fn less_ended(session: &mut Session<'_>, all: &mut BTreeMap<i64, EvidenceOf>) -> Result<(), LedgerFault> {
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

fn add_set_aside(session: &mut Session<'_>, all: &mut BTreeMap<i64, EvidenceOf>) -> Result<(), LedgerFault> {
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
