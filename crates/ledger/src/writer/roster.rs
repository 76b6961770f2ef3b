//! The varieties, grow-outs and plots that stand, by their identifiers.

use crate::fault::LedgerFault;
use crate::kept::keys;
use crate::store::session::Session;
use record::growout::{GrowOut, Plot};
use record::id::Id;
use record::variety::Variety;
use std::collections::HashMap;

/// A thing's number in the ledger, and the batch that brought it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Held {
    pub(crate) number: i64,
    pub(crate) batch: i64,
}

/// What stands, by identifier. Rows come grouped, so the last one asked for is asked for again.
#[derive(Debug)]
pub(crate) struct Roster {
    varieties: Known<Variety>,
    grow_outs: Known<GrowOut>,
    plots: Known<Plot>,
}

#[derive(Debug)]
struct Known<Of> {
    all: HashMap<Id<Of>, Held>,
    last: Option<(Id<Of>, Held)>,
}

impl Roster {
    /// Reads what stands.
    pub(crate) fn read(session: &mut Session<'_>) -> Result<Self, LedgerFault> {
        Ok(Self {
            varieties: Known::read(session, "variety")?,
            grow_outs: Known::read(session, "grow_out")?,
            plots: Known::read(session, "plot")?,
        })
    }

    pub(crate) fn variety(&mut self, id: Id<Variety>) -> Result<Held, LedgerFault> {
        self.varieties.find(id).ok_or(LedgerFault::NoSuchVariety(id))
    }

    pub(crate) fn grow_out(&mut self, id: Id<GrowOut>) -> Result<Held, LedgerFault> {
        self.grow_outs.find(id).ok_or(LedgerFault::NoSuchGrowOut(id))
    }

    pub(crate) fn plot(&mut self, id: Id<Plot>) -> Result<Held, LedgerFault> {
        self.plots.find(id).ok_or(LedgerFault::NoSuchPlot(id))
    }

    pub(crate) fn add_variety(&mut self, id: Id<Variety>, held: Held) {
        self.varieties.all.insert(id, held);
    }

    pub(crate) fn add_grow_out(&mut self, id: Id<GrowOut>, held: Held) {
        self.grow_outs.all.insert(id, held);
    }

    pub(crate) fn add_plot(&mut self, id: Id<Plot>, held: Held) {
        self.plots.all.insert(id, held);
    }
}

impl<Of> Known<Of> {
    fn read(session: &mut Session<'_>, table: &str) -> Result<Self, LedgerFault> {
        let sql = format!(
            "SELECT uuid, number, batch FROM {table} WHERE batch IN (SELECT number FROM standing_batch)"
        );
        let all = session.rows(&sql, &[], |row| {
            Ok((keys::id(row, 0)?, Held { number: row.whole(1)?, batch: row.whole(2)? }))
        })?;
        Ok(Self { all: all.into_iter().collect(), last: None })
    }

    fn find(&mut self, id: Id<Of>) -> Option<Held> {
        match self.last {
            Some((last, held)) if last == id => Some(held),
            _ => {
                let held = *self.all.get(&id)?;
                self.last = Some((id, held));
                Some(held)
            }
        }
    }
}
