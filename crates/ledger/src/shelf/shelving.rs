//! Making the shelf: only what was touched since it was last made, by whoever needs it first.

use crate::calls::StoredCall;
use crate::evidence::EvidenceOf;
use crate::evidence::stamps::{add_set_aside, less_ended, stamps};
use crate::fault::LedgerFault;
use crate::kept::print::Print;
use crate::ledger::Ledger;
use crate::names::key;
use crate::shelf::seasons::{all_seasons, seasons_of};
use crate::shelf::words::plain_words;
use crate::shelf::{Moment, Shelved, Summary, Verdict, state};
use crate::store::session::{Copied, Session, Table};
use crate::store::value::{Value, whole};
use crate::varieties::standing_number;
use record::season::Season;
use record::variety::Variety;
use std::collections::{BTreeMap, BTreeSet};

/// Varieties read at once: enough that a query does not count, few enough that their calls fit in memory.
const AT_ONCE: usize = 500;
/// Up to so many varieties are read one by one; for more, whole tables are read. From memory, unverified.
const FEW: usize = 64;
/// Stands between the names of a variety, where nobody can type it.
const BETWEEN_NAMES: char = '\u{1f}';

/// Everything that a row of the shelf is made of.
#[derive(Clone, Debug)]
pub struct Material {
    /// Name, aliases and claims.
    pub variety: Variety,
    /// Its kept calls.
    pub calls: Vec<StoredCall>,
    /// How much there is about it, and its stamp.
    pub evidence: EvidenceOf,
    /// Seasons that its evidence is from, oldest first.
    pub seasons: Vec<Season>,
}

/// Varieties whose rows are to be made.
pub struct Materials {
    waiting: std::vec::IntoIter<i64>,
    stamps: BTreeMap<i64, EvidenceOf>,
    seasons: BTreeMap<i64, BTreeSet<Season>>,
    at_once: usize,
}

/// A shelf that is being made: one transaction, which [`Shelving::finish`] makes durable and dropping forgets.
/// Others who want to write wait meanwhile; readers do not.
pub struct Shelving<'l> {
    ledger: &'l mut Ledger,
    materials: Materials,
    made_by: u64,
    moment: Moment,
    finished: bool,
}

impl Ledger {
    /// Begins to make the shelf, waiting for other writers; nothing where it stands by now. What was touched
    /// since it was last made comes out of [`Shelving::next_materials`].
    ///
    /// # Errors
    /// [`LedgerFault::Locked`] where another writer does not finish; what the disk or server refuses, as one
    /// that may only be read does.
    pub fn begin_shelving(&mut self, made_by: u64) -> Result<Option<Shelving<'_>>, LedgerFault> {
        self.store.begin_writing()?;
        let begun = begin(&mut self.store.session(), made_by);
        if let Ok(Some((materials, moment))) = begun {
            return Ok(Some(Shelving { ledger: self, materials, made_by, moment, finished: false }));
        }
        let rolled_back = self.store.session().roll_back();
        // The first fault is the one to tell.
        begun.and(rolled_back).map(|()| None)
    }

    /// What every row of the shelf would be made of, whether it stands or not.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn shelf_materials(&mut self) -> Result<Materials, LedgerFault> {
        Materials::of(&mut self.store.session(), None)
    }

    /// Throws the shelf away; whoever reads the list next makes it again.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn clear_shelf(&mut self) -> Result<(), LedgerFault> {
        self.store.writing(|session| {
            session.execute("UPDATE shelf_state SET made_by = NULL", &[])?;
            clear(session)
        })
    }
}

fn begin(session: &mut Session<'_>, made_by: u64) -> Result<Option<(Materials, Moment)>, LedgerFault> {
    let state = state(session)?;
    if state.stands(made_by) {
        return Ok(None);
    }
    // Rows made in another way, or by another guide, are all made again.
    let anew = state.made_by != Some(made_by) || state.made_of.guides != state.now.guides;
    let materials = if anew {
        clear(session)?;
        Materials::of(session, None)?
    } else {
        let touched = touched(session, &state.made_of)?;
        touched.iter().try_for_each(|variety| take_off(session, *variety))?;
        Materials::of(session, Some(touched))?
    };
    Ok(Some((materials, state.now)))
}

fn clear(session: &mut Session<'_>) -> Result<(), LedgerFault> {
    let words = match session {
        Session::File(_) => "INSERT INTO shelf_text (shelf_text) VALUES ('delete-all')",
        Session::Server(_) => "DELETE FROM shelf_text",
    };
    for sql in [words, "DELETE FROM shelf_name_word", "DELETE FROM shelf_told", "DELETE FROM shelf"] {
        session.execute(sql, &[])?;
    }
    Ok(())
}

fn take_off(session: &mut Session<'_>, variety: i64) -> Result<(), LedgerFault> {
    for table in ["shelf_name_word", "shelf_told", "shelf"] {
        session.execute(&format!("DELETE FROM {table} WHERE variety = $1"), &[variety.into()])?;
    }
    session.execute("DELETE FROM shelf_text WHERE rowid = $1", &[variety.into()])?;
    Ok(())
}

/// Varieties that something was done to since.
fn touched(session: &mut Session<'_>, since: &Moment) -> Result<Vec<i64>, LedgerFault> {
    let later = "(batch > $1 OR batch IN (SELECT batch FROM undoing WHERE number > $2))";
    let sql = format!(
        "SELECT variety FROM touched WHERE {later} UNION SELECT variety FROM alias WHERE {later}
         UNION SELECT variety FROM claim WHERE {later} UNION SELECT number FROM variety WHERE {later}
         UNION SELECT variety FROM stored_call WHERE kept > $3"
    );
    session.rows(&sql, &[since.batch.into(), since.undoing.into(), since.rounds.into()], |row| row.whole(0))
}

impl Materials {
    /// The materials of these varieties, as far as they stand, or of all.
    fn of(session: &mut Session<'_>, only: Option<Vec<i64>>) -> Result<Self, LedgerFault> {
        let mut stamps = stamps(session)?;
        less_ended(session, &mut stamps)?;
        add_set_aside(session, &mut stamps)?;
        let waiting: Vec<i64> = match only {
            Some(only) => only.into_iter().filter(|number| stamps.contains_key(number)).collect(),
            None => stamps.keys().copied().collect(),
        };
        let few = waiting.len() <= FEW;
        let seasons = if few { seasons_of(session, &waiting)? } else { all_seasons(session)? };
        Ok(Self { waiting: waiting.into_iter(), stamps, seasons, at_once: if few { 1 } else { AT_ONCE } })
    }

    /// The stamp and amount of evidence of every variety that stands, in the order they came in.
    #[must_use]
    pub fn stamps(&self) -> Vec<EvidenceOf> {
        self.stamps.values().copied().collect()
    }

    /// The next varieties, in the order they came in; none where all were handed out.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn next_materials(&mut self, ledger: &mut Ledger) -> Result<Vec<Material>, LedgerFault> {
        let numbers: Vec<i64> = self.waiting.by_ref().take(self.at_once).collect();
        let (Some(first), Some(last)) = (numbers.first(), numbers.last()) else { return Ok(Vec::new()) };
        let mut varieties = ledger.varieties_between(*first, *last)?;
        let mut calls = ledger.calls_between(*first, *last)?;
        let numbers = numbers.into_iter();
        let material = numbers.filter_map(|number| {
            Some(Material {
                variety: varieties.remove(&number)?,
                calls: calls.remove(&number).unwrap_or_default(),
                evidence: self.stamps.get(&number).copied()?,
                seasons: self.seasons.get(&number).into_iter().flatten().copied().collect(),
            })
        });
        Ok(material.collect())
    }
}

impl Shelving<'_> {
    /// The ledger, to read what else rows are made of.
    pub fn ledger(&mut self) -> &mut Ledger {
        self.ledger
    }

    /// The stamp and amount of evidence of every variety that stands, in the order they came in.
    #[must_use]
    pub fn stamps(&self) -> Vec<EvidenceOf> {
        self.materials.stamps()
    }

    /// The next varieties whose rows are to be made; none where all were handed out.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn next_materials(&mut self) -> Result<Vec<Material>, LedgerFault> {
        self.materials.next_materials(self.ledger)
    }

    /// Puts rows on the shelf.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchVariety`], or what the disk or server refuses.
    pub fn put(&mut self, rows: &[Shelved]) -> Result<(), LedgerFault> {
        let mut session = self.ledger.store.session();
        rows.iter().try_for_each(|row| put(&mut session, row))?;
        session.flush()
    }

    /// Makes the shelf durable, with the key that fresh calls rest on now.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn finish(mut self, current_key: u64) -> Result<Summary, LedgerFault> {
        let mut session = self.ledger.store.session();
        let summary = sum_up(&mut session, current_key)?;
        note(&mut session, self.made_by, &self.moment, &summary)?;
        session.commit()?;
        self.finished = true;
        Ok(summary)
    }
}

impl Drop for Shelving<'_> {
    fn drop(&mut self) {
        if !self.finished {
            // A failed rollback ends with the connection.
            let _ = self.ledger.store.session().roll_back();
        }
    }
}

fn sum_up(session: &mut Session<'_>, current_key: u64) -> Result<Summary, LedgerFault> {
    let sql = "SELECT count(*), count(rests_on), count(*) FILTER (WHERE rests_on = $1) FROM shelf";
    let counts = session.first(sql, &[current_key.cast_signed().into()], |row| {
        Ok((row.count(0)?, row.count(1)?, row.count(2)?))
    })?;
    let (varieties, called, fresh) = counts.unwrap_or_default();
    Ok(Summary { current_key, varieties, old: called - fresh, not_called: varieties - called })
}

fn note(
    session: &mut Session<'_>,
    made_by: u64,
    moment: &Moment,
    summary: &Summary,
) -> Result<(), LedgerFault> {
    let sql = "UPDATE shelf_state SET made_by = $1, made_batch = $2, made_undoing = $3, made_guides = $4,
        made_rounds = $5, current_key = $6, varieties = $7, old = $8, not_called = $9";
    let values = [
        made_by.cast_signed().into(),
        moment.batch.into(),
        moment.undoing.into(),
        moment.guides.into(),
        moment.rounds.into(),
        summary.current_key.cast_signed().into(),
        whole(summary.varieties).into(),
        whole(summary.old).into(),
        whole(summary.not_called).into(),
    ];
    session.execute(sql, &values).map(|_| ())
}

static SHELF: Table = Table {
    name: "shelf",
    columns: &[
        "variety",
        "name_key",
        "names",
        "habit",
        "class",
        "colour",
        "pattern",
        "habit_place",
        "class_place",
        "colour_place",
        "sureness",
        "contested",
        "contradicted",
        "unmeasured",
        "weight_g",
        "length_mm",
        "width_mm",
        "locules",
        "solids_percent",
        "days",
        "height_mm",
        "newest_season",
        "seasons",
        "uses",
        "marks",
        "rests_on",
        "words_print",
    ],
    copied: Copied::First,
};
static TOLD: Table = Table { name: "shelf_told", columns: &["variety", "told"], copied: Copied::First };
static NAME_WORD: Table =
    Table { name: "shelf_name_word", columns: &["variety", "word"], copied: Copied::First };
static TEXT: Table = Table { name: "shelf_text", columns: &["rowid", "words"], copied: Copied::First };

fn put(session: &mut Session<'_>, row: &Shelved) -> Result<(), LedgerFault> {
    let number = standing_number(session, row.variety)?;
    let texts = Texts::of(row);
    session.add(&SHELF, &values(number, row, &texts))?;
    session.add(&TOLD, &[number.into(), row.told.as_str().into()])?;
    let names = plain_words(&texts.names);
    for word in names.split_whitespace().collect::<BTreeSet<_>>() {
        session.add(&NAME_WORD, &[number.into(), word.into()])?;
    }
    session.add(&TEXT, &[number.into(), texts.words.as_str().into()])
}

/// The texts of a row as they are kept.
struct Texts {
    name_key: String,
    names: String,
    seasons: String,
    uses: String,
    marks: String,
    words: String,
}

impl Texts {
    fn of(row: &Shelved) -> Self {
        let names = std::iter::once(&row.name).chain(&row.aliases).map(|name| name.to_lowercase());
        let seasons: Vec<String> = row.seasons.iter().map(|season| season.year().to_string()).collect();
        Self {
            name_key: key(&row.name),
            names: names.collect::<Vec<_>>().join(&BETWEEN_NAMES.to_string()),
            seasons: barred(&seasons),
            uses: barred(&row.uses),
            marks: barred(&row.marks),
            words: plain_words(&row.text),
        }
    }
}

/// Words between bars: `|salad|sauce|`.
fn barred(words: &[String]) -> String {
    if words.is_empty() { String::new() } else { format!("|{}|", words.join("|")) }
}

/// The values of a row, in the order of its columns.
fn values<'a>(number: i64, row: &'a Shelved, texts: &'a Texts) -> [Value<'a>; 27] {
    let word = |verdict: &'a Option<Verdict>| verdict.as_ref().map(|verdict| verdict.word.as_str()).into();
    let place = |verdict: &Option<Verdict>| verdict.as_ref().map(|verdict| verdict.place).into();
    let usual = &row.usual;
    [
        number.into(),
        texts.name_key.as_str().into(),
        texts.names.as_str().into(),
        word(&row.habit),
        word(&row.class),
        word(&row.colour),
        row.pattern.as_deref().into(),
        place(&row.habit),
        place(&row.class),
        place(&row.colour),
        row.sureness.into(),
        i64::from(row.contested).into(),
        i64::from(row.contradicted).into(),
        i64::from(row.unmeasured).into(),
        usual.weight_g.into(),
        usual.length_mm.into(),
        usual.width_mm.into(),
        usual.locules.into(),
        usual.solids_percent.into(),
        usual.days.into(),
        usual.height_mm.into(),
        row.seasons.last().map(|season| i64::from(season.year())).into(),
        texts.seasons.as_str().into(),
        texts.uses.as_str().into(),
        texts.marks.as_str().into(),
        row.rests_on.map(u64::cast_signed).into(),
        Print::new().add(&[texts.words.as_str().into()]).done().into(),
    ]
}

impl Ledger {
    /// Whether the shelf holds this very row.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchVariety`], or what the disk or server refuses.
    pub fn is_shelved(&mut self, row: &Shelved) -> Result<bool, LedgerFault> {
        let mut session = self.store.session();
        let number = standing_number(&mut session, row.variety)?;
        let texts = Texts::of(row);
        let mut held = values(number, row, &texts).to_vec();
        held.push(row.told.as_str().into());
        let same = SHELF
            .columns
            .iter()
            .zip(1..)
            .map(|(column, place)| format!("s.{column} IS NOT DISTINCT FROM ${place}"));
        let sql = format!(
            "SELECT count(*) FROM shelf s JOIN shelf_told t ON t.variety = s.variety
             JOIN shelf_text w ON w.rowid = s.variety WHERE {} AND t.told = ${}",
            same.collect::<Vec<_>>().join(" AND "),
            held.len()
        );
        Ok(session.first(&sql, &held, |row| row.count(0))? == Some(1))
    }
}
