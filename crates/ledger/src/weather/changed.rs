//! Finding weather that was changed behind the ledger's back.

use crate::fault::LedgerFault;
use crate::kept::print::Print;
use crate::store::row::Row;
use crate::store::session::Session;
use crate::store::value::Value;

/// Prints every record and every detail anew, and tells of those that print otherwise than when they were written.
///
/// # Errors
/// What the disk or server refuses.
pub(crate) fn each_changed(
    session: &mut Session<'_>,
    seen: &mut dyn FnMut(Option<String>),
) -> Result<(), LedgerFault> {
    let records = session.rows(
        "SELECT number, print, station, station_key, name, latitude, longitude, elevation_m, file_name, sha256,
            scale, scale_told_by, normals, body FROM weather_record ORDER BY number",
        &[],
        |row| {
            let (file_name, sha256) = (row.words(8)?, row.bytes::<32>(9)?);
            let own = [file_name.as_str().into(), Value::Bytes(&sha256), text(row, 10)?, text(row, 11)?];
            let print = Print::new().add(&station_columns(row, 2)?).add(&own);
            // Records of days were printed before there were normals.
            let print = match row.text_or_none(12)? {
                Some(_) => print.add(&[text(row, 12)?, text(row, 13)?]),
                None => print,
            };
            Ok((row.whole(0)?, row.whole(1)?, print))
        },
    )?;
    for (number, written, begun) in records {
        let sql = "SELECT day, lowest_c, highest_c FROM weather_day WHERE record = $1 ORDER BY day";
        let mut print = begun;
        session.rows(sql, &[number.into()], |row| {
            let day = [row.whole(0)?.into(), row.real_or_none(1)?.into(), row.real_or_none(2)?.into()];
            print = print.add(&day);
            Ok(())
        })?;
        let changed = print.done() != written;
        seen(changed.then(|| format!("weather record {number} was changed after it was written")));
    }
    let sql = "SELECT number, print, station, station_key, name, latitude, longitude, elevation_m FROM station_detail";
    session.rows(sql, &[], |row| {
        let changed = Print::new().add(&station_columns(row, 2)?).done() != row.whole(1)?;
        seen(changed.then(|| {
            format!("what was said of {:?} was changed afterwards", row.text(2).unwrap_or_default())
        }));
        Ok(())
    })?;
    Ok(())
}

fn station_columns<'r>(row: &'r Row<'_>, from: usize) -> Result<[Value<'r>; 6], LedgerFault> {
    Ok([
        text(row, from)?,
        text(row, from + 1)?,
        text(row, from + 2)?,
        row.real_or_none(from + 3)?.into(),
        row.real_or_none(from + 4)?.into(),
        row.real_or_none(from + 5)?.into(),
    ])
}

fn text<'r>(row: &'r Row<'_>, column: usize) -> Result<Value<'r>, LedgerFault> {
    Ok(row.text_or_none(column)?.into())
}
