//! Finding lots and their notes that were changed behind the ledger's back.

use crate::fault::LedgerFault;
use crate::kept::print::Print;
use crate::lots::reading::entries;
use crate::lots::written::written;
use crate::store::session::Session;
use std::collections::HashMap;

/// Prints every lot and every note of one anew, and tells of those that print otherwise than when they were written.
///
/// # Errors
/// What the disk or server refuses.
pub(crate) fn each_changed(
    session: &mut Session<'_>,
    seen: &mut dyn FnMut(Option<String>),
) -> Result<(), LedgerFault> {
    let sql = "SELECT e.print, l.lot_number, l.lot_key, l.variety, l.season FROM lot_entry e
        JOIN seed_lot l ON l.number = e.lot WHERE e.noun = 'lot'";
    session.rows(sql, &[], |row| {
        let own = [row.text(1)?.into(), row.text(2)?.into(), row.whole(3)?.into(), row.whole(4)?.into()];
        let changed = Print::new().add(&own).done() != row.whole(0)?;
        let number = row.text(1)?;
        seen(changed.then(|| format!("lot {number} was changed after it was written")));
        Ok(())
    })?;
    let prints: HashMap<i64, i64> = session
        .rows("SELECT number, print FROM lot_entry", &[], |row| Ok((row.whole(0)?, row.whole(1)?)))?
        .into_iter()
        .collect();
    for entry in entries(session, None)? {
        let Some(note) = &entry.note else { continue };
        let print = written(session, note)?.print();
        let changed = prints.get(&i64::from(entry.number.0)) != Some(&print);
        seen(
            changed
                .then(|| format!("entry {} of the seed room was changed after it was written", entry.number)),
        );
    }
    Ok(())
}
