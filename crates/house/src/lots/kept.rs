//! What is kept of lots for the law: which file samples and records may go, and when.

use super::law::Asked;
use super::{Lots, all};
use crate::fault::HouseFault;
use crate::folder::House;
use jiff::civil::Date;

/// Lots with a file sample, and lots that are gone and whose record is still kept: those that may go first first, then those
/// of which seed is held.
///
/// # Errors
/// What the ledger refuses.
pub fn kept(house: &House, asked: Asked) -> Result<Lots, HouseFault> {
    let Lots { mut lots, by } = all(house, asked)?;
    lots.retain(|seen| seen.account.keepsakes.is_any());
    lots.sort_by_key(|seen| seen.account.keepsakes.may_go_next().unwrap_or(Date::MAX));
    Ok(Lots { lots, by })
}
