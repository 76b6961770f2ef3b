//! Rows of varieties: names, other names, and claims in their own words. A description is taken apart into single
//! claims.

use crate::cells::{CellFault, ColumnReader};
use crate::column::ColumnUse;
use crate::entry::{Entry, NewVariety};
use crate::plan::Plan;
use crate::rejection::RowFault;
use crate::roster::VarietyFound;
use crate::table::Row;
use crate::take::Given;
use record::id::Id;
use record::variety::{Claim, ClaimSubject, Variety, name_key};
use std::collections::HashMap;
use wording::claims::taken_apart;
use wording::vocabulary::Vocabulary;

/// Longest name of a variety, in letters.
const LONGEST_NAME: usize = 200;
/// Longest claim, in letters; a longer text is cut off nowhere but refused.
const LONGEST_CLAIM: usize = 10_000;

const CLAIMS: [ClaimSubject; 7] = [
    ClaimSubject::Habit,
    ClaimSubject::FruitClass,
    ClaimSubject::Colour,
    ClaimSubject::FruitWeight,
    ClaimSubject::DaysToMaturity,
    ClaimSubject::Purpose,
    ClaimSubject::Other,
];

/// The columns of a table of varieties, and the names met so far.
pub(crate) struct VarietyColumns {
    name: ColumnReader,
    aliases: ColumnReader,
    claims: Vec<(ClaimSubject, ColumnReader)>,
    vocabulary: Vocabulary,
    met: HashMap<String, u64>,
}

impl VarietyColumns {
    pub(crate) fn new(plan: &Plan<'_>) -> Self {
        let claims = CLAIMS.into_iter().map(|about| (about, plan.reader(ColumnUse::Claim(about))));
        Self {
            name: plan.reader(ColumnUse::Variety),
            aliases: plan.reader(ColumnUse::Aliases),
            claims: claims.filter(|(_, column)| column.is_there()).collect(),
            vocabulary: Vocabulary::of_the_trade(),
            met: HashMap::new(),
        }
    }

    pub(crate) fn read(
        &mut self,
        row: &Row<'_>,
        plan: &Plan<'_>,
        given: &mut Given,
    ) -> Result<(), CellFault> {
        let name = self.name.text(row)?.ok_or_else(|| self.name.fault(RowFault::Missing("variety")))?;
        let name = a_name(self.name, name)?;
        let known = self.known(name, plan)?;
        let aliases = self.aliases(row, name, known, plan)?;
        // A known variety keeps its own name, whatever dress or other name it comes under here.
        let own = known.and_then(|id| plan.roster.variety_with(id)).map_or(name, |known| known.name.as_str());
        let claims = self.claims(row, [name, own])?;
        self.meet(name, row.number)?;
        let variety = NewVariety { known, name: own.to_owned(), aliases, claims };
        given.push(Entry::Variety(variety), Vec::new());
        Ok(())
    }

    fn known(&self, name: &str, plan: &Plan<'_>) -> Result<Option<Id<Variety>>, CellFault> {
        match plan.roster.variety(name) {
            VarietyFound::Known(variety) => Ok(Some(variety.id)),
            VarietyFound::Unknown => Ok(None),
            VarietyFound::Several => Err(self.name.fault(RowFault::SeveralVarieties(name.to_owned()))),
        }
    }

    /// The other names, parted by semicolons, slashes or bars, without the name itself.
    fn aliases(
        &self,
        row: &Row<'_>,
        name: &str,
        known: Option<Id<Variety>>,
        plan: &Plan<'_>,
    ) -> Result<Vec<String>, CellFault> {
        let mut aliases: Vec<String> = Vec::new();
        let text = self.aliases.text(row)?.unwrap_or_default();
        for alias in text.split([';', '/', '|', '\n']).map(str::trim).filter(|alias| !alias.is_empty()) {
            let alias = a_name(self.aliases, alias)?;
            self.free(alias, known, plan)?;
            let again = |other: &String| other.to_lowercase() == alias.to_lowercase();
            if alias != name && !aliases.iter().any(again) {
                aliases.push(alias.to_owned());
            }
        }
        Ok(aliases)
    }

    /// Refuses another name that some other variety has.
    fn free(&self, alias: &str, known: Option<Id<Variety>>, plan: &Plan<'_>) -> Result<(), CellFault> {
        let taken = |owner: &str| {
            self.aliases.fault(RowFault::AliasTaken { alias: alias.to_owned(), owner: owner.to_owned() })
        };
        match plan.roster.variety(alias) {
            VarietyFound::Known(owner) if Some(owner.id) != known => Err(taken(&owner.name)),
            VarietyFound::Several => Err(self.aliases.fault(RowFault::SeveralVarieties(alias.to_owned()))),
            _ => Ok(()),
        }
    }

    fn claims(&self, row: &Row<'_>, names: [&str; 2]) -> Result<Vec<Claim>, CellFault> {
        let mut claims = Vec::new();
        for (about, column) in &self.claims {
            let Some(words) = column.words(row)? else { continue };
            if LONGEST_CLAIM < words.len() {
                let limits = "10,000 letters";
                return Err(
                    column.fault(RowFault::Outside { value: words.chars().take(40).collect(), limits })
                );
            }
            match about {
                ClaimSubject::Other => claims.extend(self.described(&words, names)),
                about => claims.push(Claim { about: *about, words }),
            }
        }
        Ok(claims)
    }

    /// The claims of a description. The variety's name in it claims nothing: a reed basket is no basket.
    fn described(&self, words: &str, names: [&str; 2]) -> impl Iterator<Item = Claim> {
        let claims = taken_apart(words, &self.vocabulary.clone().knowing(names));
        let keys = names.map(name_key);
        claims.into_iter().filter(move |claim| !keys.contains(&name_key(&claim.words)))
    }

    fn meet(&mut self, name: &str, row: u64) -> Result<(), CellFault> {
        let first_row = *self.met.entry(name_key(name)).or_insert(row);
        let twice = || RowFault::NamedTwice { name: name.to_owned(), first_row };
        if first_row == row { Ok(()) } else { Err(self.name.fault(twice())) }
    }
}

/// Whether a sign breaks a line, or turns the reading direction of what stands behind it on a list.
/// Source: Unicode Standard Annex 9, explicit directional formatting characters.
fn is_no_letter(sign: char) -> bool {
    sign.is_control() || matches!(sign, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// Checks that a text can be a name: some letters or figures, no line breaks, not endless.
fn a_name(column: ColumnReader, text: &str) -> Result<&str, CellFault> {
    let can_be = text.chars().any(char::is_alphanumeric)
        && text.chars().count() <= LONGEST_NAME
        && !text.chars().any(is_no_letter);
    if can_be {
        Ok(text)
    } else {
        Err(column.fault(RowFault::NotAName(text.chars().take(LONGEST_NAME).collect())))
    }
}
