//! Reading notes back, whole and in order.

use crate::fault::LedgerFault;
use crate::kept::keys::Keys;
use crate::kept::{Head, Kept};
use crate::store::session::Session;
use crate::store::value::Value;
use std::ops::ControlFlow;

/// Hands on each note that a query of [`crate::kept::select`] and [`crate::kept::order`] gives, with all
/// its parts, until `each` breaks off or fails.
pub(crate) fn each_note<K: Kept>(
    session: &mut Session<'_>,
    keys: &Keys,
    sql: &str,
    values: &[Value<'_>],
    each: &mut dyn FnMut(Head, K) -> Result<ControlFlow<()>, LedgerFault>,
) -> Result<(), LedgerFault> {
    let mut waiting: Option<(Head, K)> = None;
    let mut broken = false;
    session.stream(sql, values, &mut |row| {
        let head = Head::read(row)?;
        if let Some((last, note)) = &mut waiting
            && last.id == head.id
        {
            note.take_part(row)?;
            return Ok(ControlFlow::Continue(()));
        }
        let note = K::read(row, keys.subject(row, &head)?)?;
        let flow = match waiting.replace((head, note)) {
            Some((head, note)) => each(head, note)?,
            None => ControlFlow::Continue(()),
        };
        broken = flow.is_break();
        Ok(flow)
    })?;
    match waiting.filter(|_| !broken) {
        Some((head, note)) => each(head, note).map(|_| ()),
        None => Ok(()),
    }
}
