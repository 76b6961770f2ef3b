//! Gathering a stream of records into varieties.

use crate::evidence::Gathered;
use crate::fault::LedgerFault;
use crate::kept::keys::Keys;
use std::collections::BTreeMap;
use std::ops::ControlFlow;

/// Gathers records that come in the order of their varieties, and hands them on variety by variety.
pub(crate) struct Gathering<'a, K> {
    pub(crate) keys: &'a Keys,
    /// By variety, those not handed on yet.
    pub(crate) set_aside: BTreeMap<i64, u64>,
    pub(crate) variety: i64,
    pub(crate) records: Vec<K>,
    pub(crate) each: &'a mut dyn FnMut(Gathered<'_, K>) -> ControlFlow<()>,
}

impl<K> Gathering<'_, K> {
    pub(crate) fn take(&mut self, variety: i64, record: K) -> Result<ControlFlow<()>, LedgerFault> {
        let mut flow = ControlFlow::Continue(());
        if variety != self.variety {
            flow = self.hand_on_before(variety)?;
            self.variety = variety;
        }
        self.records.push(record);
        Ok(flow)
    }

    pub(crate) fn finish(&mut self) -> Result<(), LedgerFault> {
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
