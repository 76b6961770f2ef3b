//! Varieties and the names they go by.

use crate::batch::{Act, BatchNumber};
use crate::fault::LedgerFault;
use crate::kept::keys;
use crate::kept::words::Word;
use crate::ledger::Ledger;
use crate::names::key;
use crate::store::session::Session;
use crate::store::value::Value;
use record::id::Id;
use record::variety::{Claim, Variety};
use std::collections::HashMap;

impl Ledger {
    /// Every variety with its aliases and claims, by name.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn varieties(&mut self) -> Result<Vec<Variety>, LedgerFault> {
        let mut session = self.store.session();
        let mut aliases = aliases(&mut session, "", &[])?;
        let mut claims = claims(&mut session, "", &[])?;
        session.rows(
            "SELECT number, uuid, name FROM variety WHERE batch IN (SELECT number FROM standing_batch)
             ORDER BY name_key, number",
            &[],
            |row| {
                let number = row.whole(0)?;
                Ok(Variety {
                    id: keys::id(row, 1)?,
                    name: row.words(2)?,
                    aliases: aliases.remove(&number).unwrap_or_default(),
                    claims: claims.remove(&number).unwrap_or_default(),
                })
            },
        )
    }

    /// One variety.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchVariety`], or what the disk or server refuses.
    pub fn variety(&mut self, id: Id<Variety>) -> Result<Variety, LedgerFault> {
        let mut session = self.store.session();
        let number = standing_number(&mut session, id)?;
        read_one(&mut session, number)?.ok_or(LedgerFault::NoSuchVariety(id))
    }

    /// The variety of that name or alias; case and spaces do not count.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn variety_named(&mut self, name: &str) -> Result<Option<Variety>, LedgerFault> {
        let mut session = self.store.session();
        let sql = "SELECT variety FROM standing_name WHERE name_key = $1";
        match session.first(sql, &[key(name).as_str().into()], |row| row.whole(0))? {
            Some(number) => read_one(&mut session, number),
            None => Ok(None),
        }
    }

    /// The standing varieties of a run of numbers, by number.
    pub(crate) fn varieties_between(
        &mut self,
        first: i64,
        last: i64,
    ) -> Result<HashMap<i64, Variety>, LedgerFault> {
        let mut session = self.store.session();
        let run = [first.into(), last.into()];
        let mut aliases = aliases(&mut session, "variety BETWEEN $1 AND $2 AND", &run)?;
        let mut claims = claims(&mut session, "variety BETWEEN $1 AND $2 AND", &run)?;
        let sql = "SELECT number, uuid, name FROM variety WHERE number BETWEEN $1 AND $2
                   AND batch IN (SELECT number FROM standing_batch)";
        let varieties = session.rows(sql, &run, |row| {
            let number = row.whole(0)?;
            let variety = Variety {
                id: keys::id(row, 1)?,
                name: row.words(2)?,
                aliases: aliases.remove(&number).unwrap_or_default(),
                claims: claims.remove(&number).unwrap_or_default(),
            };
            Ok((number, variety))
        })?;
        Ok(varieties.into_iter().collect())
    }

    /// Lets one more name mean a variety, as a batch of its own.
    ///
    /// # Errors
    /// [`LedgerFault::NameClash`] where it means another one; [`LedgerFault::NoSuchVariety`], or what the
    /// disk or server refuses.
    pub fn add_alias(
        &mut self,
        act: &Act,
        variety: Id<Variety>,
        alias: &str,
    ) -> Result<BatchNumber, LedgerFault> {
        let mut writer = self.begin_mending(&act.source())?;
        writer.extend_variety(variety, &[alias.to_owned()], &[])?;
        writer.commit().map(|summary| summary.batch)
    }

    /// Adds a claim, as a batch of its own.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchVariety`], or what the disk or server refuses.
    pub fn add_claim(
        &mut self,
        act: &Act,
        variety: Id<Variety>,
        claim: &Claim,
    ) -> Result<BatchNumber, LedgerFault> {
        let mut writer = self.begin_mending(&act.source())?;
        writer.extend_variety(variety, &[], std::slice::from_ref(claim))?;
        writer.commit().map(|summary| summary.batch)
    }
}

/// The number of a variety that stands.
pub(crate) fn standing_number(session: &mut Session<'_>, id: Id<Variety>) -> Result<i64, LedgerFault> {
    let sql = "SELECT number FROM variety WHERE uuid = $1 AND batch IN (SELECT number FROM standing_batch)";
    let number = session.first(sql, &[id.uuid().as_bytes().as_slice().into()], |row| row.whole(0))?;
    number.ok_or(LedgerFault::NoSuchVariety(id))
}

fn read_one(session: &mut Session<'_>, number: i64) -> Result<Option<Variety>, LedgerFault> {
    let values = [number.into()];
    let aliases = session.rows(
        "SELECT alias FROM alias WHERE variety = $1 AND batch IN (SELECT number FROM standing_batch)
         ORDER BY alias_key",
        &values,
        |row| row.words(0),
    )?;
    let claims = session.rows(
        "SELECT about, words FROM claim WHERE variety = $1 AND batch IN (SELECT number FROM standing_batch)
         ORDER BY batch, source_row, about, words",
        &values,
        |row| Ok(Claim { about: Word::read(row.text(0)?)?, words: row.words(1)? }),
    )?;
    session.first("SELECT uuid, name FROM variety WHERE number = $1", &values, |row| {
        Ok(Variety {
            id: keys::id(row, 0)?,
            name: row.words(1)?,
            aliases: aliases.clone(),
            claims: claims.clone(),
        })
    })
}

fn aliases(
    session: &mut Session<'_>,
    only: &str,
    values: &[Value<'_>],
) -> Result<HashMap<i64, Vec<String>>, LedgerFault> {
    let sql = format!(
        "SELECT variety, alias FROM alias WHERE {only} batch IN (SELECT number FROM standing_batch)
         ORDER BY alias_key"
    );
    session.rows(&sql, values, |row| Ok((row.whole(0)?, row.words(1)?))).map(grouped)
}

fn claims(
    session: &mut Session<'_>,
    only: &str,
    values: &[Value<'_>],
) -> Result<HashMap<i64, Vec<Claim>>, LedgerFault> {
    let sql = format!(
        "SELECT variety, about, words FROM claim WHERE {only} batch IN (SELECT number FROM standing_batch)
         ORDER BY batch, source_row, about, words"
    );
    let claim = session.rows(&sql, values, |row| {
        Ok((row.whole(0)?, Claim { about: Word::read(row.text(1)?)?, words: row.words(2)? }))
    });
    claim.map(grouped)
}

pub(crate) fn grouped<T>(pairs: Vec<(i64, T)>) -> HashMap<i64, Vec<T>> {
    let mut groups: HashMap<i64, Vec<T>> = HashMap::new();
    for (number, one) in pairs {
        groups.entry(number).or_default().push(one);
    }
    groups
}
