//! Finding sales that were changed behind the ledger's back.

use crate::fault::LedgerFault;
use crate::kept::print::Print;
use crate::store::session::Session;
use crate::store::value::Value;

/// Prints every record anew, and tells of those that print otherwise than when they were written.
///
/// # Errors
/// What the disk or server refuses.
pub(crate) fn each_changed(
    session: &mut Session<'_>,
    seen: &mut dyn FnMut(Option<String>),
) -> Result<(), LedgerFault> {
    let sql = "SELECT number, print, file_name, sha256, shop, shop_key, first_day, last_day, left_out
        FROM sales_record ORDER BY number";
    let records = session.rows(sql, &[], |row| {
        let (name, sha256) = (row.words(2)?, row.bytes::<32>(3)?);
        let (shop, key) = (row.words(4)?, row.words(5)?);
        let own = [
            name.as_str().into(),
            Value::Bytes(&sha256),
            shop.as_str().into(),
            key.as_str().into(),
            row.whole(6)?.into(),
            row.whole(7)?.into(),
            row.whole(8)?.into(),
        ];
        Ok((row.whole(0)?, row.whole(1)?, Print::new().add(&own)))
    })?;
    for (number, written, begun) in records {
        let sql =
            "SELECT place, source_row, sold_on, variety, packets FROM sale WHERE record = $1 ORDER BY place";
        let mut print = begun;
        session.rows(sql, &[number.into()], |row| {
            let mut own: Vec<Value<'_>> = Vec::new();
            for column in 0..5 {
                own.push(row.whole(column)?.into());
            }
            print = print.add(&own);
            Ok(())
        })?;
        let changed = print.done() != written;
        seen(changed.then(|| format!("sales record {number} was changed after it was written")));
    }
    Ok(())
}
