//! Varieties, and the names that mean them: no name may mean two.

use crate::fault::LedgerFault;
use crate::kept::keys::{self, new_uuid};
use crate::kept::words::Word;
use crate::names::key;
use crate::store::session::Session;
use crate::store::value::{Value, whole, without_nul};
use crate::writer::roster::Held;
use crate::writer::{NewVariety, Placed, Standing, Writer};
use record::id::Id;
use record::variety::{Claim, ClaimSubject, Variety};
use std::collections::{HashMap, HashSet};

/// Names that stand, what they mean, and the claims there are.
#[derive(Debug)]
pub(crate) struct Names {
    meant: HashMap<String, i64>,
    varieties: HashMap<i64, Named>,
    claims: HashSet<(i64, ClaimSubject, String)>,
    next: i64,
}

#[derive(Clone, Debug)]
struct Named {
    id: Id<Variety>,
    name: String,
    batch: i64,
}

impl Names {
    fn read(session: &mut Session<'_>) -> Result<Self, LedgerFault> {
        let mut names = Self {
            meant: HashMap::new(),
            varieties: HashMap::new(),
            claims: HashSet::new(),
            next: session.next_number("variety")?,
        };
        let varieties = session.rows(
            "SELECT number, uuid, name, name_key, batch FROM variety
             WHERE batch IN (SELECT number FROM standing_batch)",
            &[],
            |row| {
                let named = Named { id: keys::id(row, 1)?, name: row.words(2)?, batch: row.whole(4)? };
                Ok((row.whole(0)?, row.words(3)?, named))
            },
        )?;
        for (number, key, named) in varieties {
            names.meant.insert(key, number);
            names.varieties.insert(number, named);
        }
        let sql = "SELECT alias_key, variety FROM alias WHERE batch IN (SELECT number FROM standing_batch)";
        names.meant.extend(session.rows(sql, &[], |row| Ok((row.words(0)?, row.whole(1)?)))?);
        let sql =
            "SELECT variety, about, words FROM claim WHERE batch IN (SELECT number FROM standing_batch)";
        let claims =
            session.rows(sql, &[], |row| Ok((row.whole(0)?, Word::read(row.text(1)?)?, row.words(2)?)))?;
        names.claims.extend(claims);
        Ok(names)
    }

    /// Refuses a name that means another variety than `wanted`.
    fn free(&self, name: &str, wanted: Option<i64>, wanted_name: &str) -> Result<(), LedgerFault> {
        match self.meant.get(&key(name)) {
            Some(holder) if Some(*holder) != wanted => Err(LedgerFault::NameClash {
                name: name.to_owned(),
                holder: self.varieties.get(holder).map(|named| named.name.clone()).unwrap_or_default(),
                wanted: wanted_name.to_owned(),
            }),
            _ => Ok(()),
        }
    }
}

impl Writer<'_> {
    /// Adds a variety, or adds to the one of that name what it does not have yet.
    ///
    /// # Errors
    /// [`LedgerFault::NameClash`] where one of its names means another variety, [`LedgerFault::Nameless`]
    /// where it has none; the writer is still usable and nothing of the row was added. Else what the disk
    /// or server refuses.
    pub fn add_variety(&mut self, row: u64, new: &NewVariety) -> Result<Placed<Variety>, LedgerFault> {
        let mut names = self.take_names()?;
        let placed = self.place_variety(&mut names, row, new);
        self.names = Some(names);
        placed
    }

    /// Adds one name or claim to a variety that stands.
    pub(crate) fn extend_variety(
        &mut self,
        variety: Id<Variety>,
        aliases: &[String],
        claims: &[Claim],
    ) -> Result<Placed<Variety>, LedgerFault> {
        let mut names = self.take_names()?;
        let number = self.roster.variety(variety)?.number;
        let name = names.varieties.get(&number).map(|named| named.name.clone()).unwrap_or_default();
        let new = NewVariety { name, aliases: aliases.to_vec(), claims: claims.to_vec() };
        let placed = self.place_variety(&mut names, 0, &new);
        self.names = Some(names);
        placed
    }

    fn take_names(&mut self) -> Result<Names, LedgerFault> {
        match self.names.take() {
            Some(names) => Ok(names),
            None => Names::read(&mut self.session),
        }
    }

    fn place_variety(
        &mut self,
        names: &mut Names,
        row: u64,
        new: &NewVariety,
    ) -> Result<Placed<Variety>, LedgerFault> {
        if key(&new.name).is_empty() {
            return Err(LedgerFault::Nameless);
        }
        let known = names.meant.get(&key(&new.name)).copied();
        new.aliases.iter().try_for_each(|alias| names.free(alias, known, &new.name))?;
        let number = match known {
            Some(number) => number,
            None => self.insert_variety(names, row, &new.name)?,
        };
        let mut extended = false;
        for alias in &new.aliases {
            extended |= self.insert_alias(names, row, number, alias)?;
        }
        for claim in &new.claims {
            extended |= self.insert_claim(names, row, number, claim)?;
        }
        let Some(named) = names.varieties.get(&number) else {
            return Err(LedgerFault::Damaged(format!("there is no variety {number}")));
        };
        let standing = match (known, extended) {
            (None, _) => Standing::Added,
            (Some(_), true) => Standing::Extended,
            (Some(_), false) => Standing::AlreadyThere,
        };
        match standing {
            Standing::AlreadyThere => self.already_there += 1,
            _ => self.rest_on(named.batch),
        }
        Ok(Placed { id: named.id, standing })
    }

    fn insert_variety(&mut self, names: &mut Names, row: u64, name: &str) -> Result<i64, LedgerFault> {
        let (number, uuid, name) = (names.next, new_uuid(self.at), without_nul(name.trim()));
        let key = key(&name);
        self.session.execute(
            "INSERT INTO variety (number, uuid, batch, source_row, name, name_key)
             VALUES ($1, $2, $3, $4, $5, $6)",
            &[
                number.into(),
                Value::Bytes(uuid.as_bytes()),
                self.batch.into(),
                whole(row).into(),
                (&*name).into(),
                key.as_str().into(),
            ],
        )?;
        names.next += 1;
        names.meant.insert(key, number);
        let id = Id::from_uuid(uuid);
        names.varieties.insert(number, Named { id, name: name.into_owned(), batch: self.batch });
        self.roster.add_variety(id, Held { number, batch: self.batch });
        self.added.varieties += 1;
        Ok(number)
    }

    fn insert_alias(
        &mut self,
        names: &mut Names,
        row: u64,
        number: i64,
        alias: &str,
    ) -> Result<bool, LedgerFault> {
        let alias = without_nul(alias.trim());
        let key = key(&alias);
        if key.is_empty() || names.meant.contains_key(&key) {
            return Ok(false);
        }
        self.session.execute(
            "INSERT INTO alias (variety, alias_key, batch, source_row, alias) VALUES ($1, $2, $3, $4, $5)",
            &[number.into(), key.as_str().into(), self.batch.into(), whole(row).into(), (&*alias).into()],
        )?;
        names.meant.insert(key, number);
        self.added.aliases += 1;
        Ok(true)
    }

    fn insert_claim(
        &mut self,
        names: &mut Names,
        row: u64,
        number: i64,
        claim: &Claim,
    ) -> Result<bool, LedgerFault> {
        let words = without_nul(claim.words.trim());
        if !names.claims.insert((number, claim.about, words.to_string())) {
            return Ok(false);
        }
        self.session.execute(
            "INSERT INTO claim (variety, about, words, batch, source_row) VALUES ($1, $2, $3, $4, $5)",
            &[
                number.into(),
                claim.about.word().into(),
                (&*words).into(),
                self.batch.into(),
                whole(row).into(),
            ],
        )?;
        self.added.claims += 1;
        Ok(true)
    }
}
