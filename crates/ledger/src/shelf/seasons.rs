//! Which seasons a variety's evidence is from, whatever was noted.

use crate::evidence::COUNTS;
use crate::fault::LedgerFault;
use crate::kept::{keys, of_one_variety};
use crate::ledger::Ledger;
use crate::records::finding::TABLES;
use crate::store::session::Session;
use crate::store::value::Value;
use record::id::Id;
use record::season::Season;
use record::variety::Variety;
use std::collections::{BTreeMap, BTreeSet, HashMap};

impl Ledger {
    /// The seasons of every variety that has evidence of any kind.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn evidence_seasons(&mut self) -> Result<HashMap<Id<Variety>, BTreeSet<Season>>, LedgerFault> {
        let mut by_number = all_seasons(&mut self.store.session())?;
        let varieties = self
            .store
            .rows("SELECT number, uuid FROM variety", &[], |row| Ok((row.whole(0)?, keys::id(row, 1)?)))?;
        let own = |(number, id)| by_number.remove(&number).map(|seasons| (id, seasons));
        Ok(varieties.into_iter().filter_map(own).collect())
    }
}

/// The seasons of a few varieties, by number.
pub(super) fn seasons_of(
    session: &mut Session<'_>,
    varieties: &[i64],
) -> Result<BTreeMap<i64, BTreeSet<Season>>, LedgerFault> {
    let mut seasons = BTreeMap::new();
    for variety in varieties {
        for (_, table) in TABLES {
            let and = of_one_variety(table);
            let sql = format!("SELECT DISTINCT n.variety, n.season FROM {table} n WHERE {COUNTS} AND {and}");
            note_seasons(session, &mut seasons, &sql, &[(*variety).into()])?;
        }
    }
    Ok(seasons)
}

/// The seasons of every variety, by number.
pub(super) fn all_seasons(session: &mut Session<'_>) -> Result<BTreeMap<i64, BTreeSet<Season>>, LedgerFault> {
    let mut seasons = BTreeMap::new();
    for (_, table) in TABLES {
        let sql = format!("SELECT DISTINCT n.variety, n.season FROM {table} n WHERE {COUNTS}");
        note_seasons(session, &mut seasons, &sql, &[])?;
    }
    Ok(seasons)
}

fn note_seasons(
    session: &mut Session<'_>,
    seasons: &mut BTreeMap<i64, BTreeSet<Season>>,
    sql: &str,
    values: &[Value<'_>],
) -> Result<(), LedgerFault> {
    session.rows(sql, values, |row| {
        let (variety, year) = (row.whole(0)?, row.whole(1)?);
        let season = i16::try_from(year).ok().and_then(Season::new);
        let season = season.ok_or_else(|| LedgerFault::Damaged(format!("{year} is no season")))?;
        seasons.entry(variety).or_default().insert(season);
        Ok(())
    })?;
    Ok(())
}
