//! Evidence for calls: the records that count, variety by variety, as a stream.
//!
//! A record counts where its batch stands, it is neither withdrawn nor replaced, and it is not
//! doubted or its doubts were confirmed. Only one variety's records are in memory at a time.

mod gathering;
pub(crate) mod stamps;

use crate::fault::LedgerFault;
use crate::kept::keys::Keys;
use crate::kept::read::each_note;
use crate::kept::{Kept, of_one_variety, order, select};
use crate::ledger::Ledger;
use crate::store::session::Session;
use crate::store::value::Value;
use crate::varieties::standing_number;
use gathering::Gathering;
use record::colour::ColourReading;
use record::fruit::FruitSample;
use record::height::HeightReading;
use record::id::Id;
use record::pick::Pick;
use record::stage::StageNote;
use record::variety::Variety;
use stamps::{add_set_aside, less_ended, stamps};
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
pub(crate) const COUNTS: &str = "n.batch IN (SELECT number FROM standing_batch)
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
