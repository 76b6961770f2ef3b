//! The shelf: one row a variety with what the list is filtered, sorted and shown by, and every word of it.
//!
//! A cache like the kept calls, never evidence: it can be thrown away and made again. The house makes the
//! rows ([`shelving`]), because the ledger does not know what a call means; the list is then read by what
//! is wanted of it ([`wanted`]) without looking at a single call. Start at [`Ledger::shelf`].

pub mod reading;
pub mod shelving;
pub mod wanted;
pub mod words;

mod conditions;
mod fits;
mod seasons;

use crate::fault::LedgerFault;
use crate::ledger::Ledger;
use crate::store::session::Session;
use record::id::Id;
use record::season::Season;
use record::variety::Variety;

/// What the list needs of one variety.
#[derive(Clone, Debug, PartialEq)]
pub struct Shelved {
    /// The variety.
    pub variety: Id<Variety>,
    /// Its name.
    pub name: String,
    /// Other names.
    pub aliases: Vec<String>,
    /// Habit, with its place in the order of habits.
    pub habit: Option<Verdict>,
    /// Fruit class, with its place from small to large.
    pub class: Option<Verdict>,
    /// Colour, with its place.
    pub colour: Option<Verdict>,
    /// How the colour is laid out.
    pub pattern: Option<String>,
    /// How sure the least sure of its calls is, from 0 to 1; nothing where nothing was called.
    pub sureness: Option<f64>,
    /// Whether a call that has evidence is contested.
    pub contested: bool,
    /// Whether the evidence contradicts a claim.
    pub contradicted: bool,
    /// Whether a call has no evidence.
    pub unmeasured: bool,
    /// Usual measures.
    pub usual: Usual,
    /// Seasons that its evidence is from, oldest first.
    pub seasons: Vec<Season>,
    /// What it is good for.
    pub uses: Vec<String>,
    /// Shape marks that it carries.
    pub marks: Vec<String>,
    /// A key of all that its calls rest on, to be held against [`Summary::current_key`]; nothing where it was
    /// never called.
    pub rests_on: Option<u64>,
    /// Names, claims and the sentences of calls, to be searched word by word.
    pub text: String,
    /// What a row of the list shows, in the form that the house gives it.
    pub told: String,
}

/// A verdict and its place in the order that the list is sorted by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Verdict {
    /// The word.
    pub word: String,
    /// Its place.
    pub place: u32,
}

/// Usual measures, in the ledger's units.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Usual {
    /// Weight of a fruit, grams.
    pub weight_g: Option<f64>,
    /// Stem end to blossom end, millimetres.
    pub length_mm: Option<f64>,
    /// Greatest width, millimetres.
    pub width_mm: Option<f64>,
    /// Seed chambers.
    pub locules: Option<f64>,
    /// Soluble solids, per cent by mass.
    pub solids_percent: Option<f64>,
    /// Days from transplanting to the first ripe fruit.
    pub days: Option<f64>,
    /// Height of a plant, millimetres.
    pub height_mm: Option<f64>,
}

/// What the whole shelf comes to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Summary {
    /// The key that calls must rest on to be fresh.
    pub current_key: u64,
    /// Varieties.
    pub varieties: u64,
    /// Those whose calls rest on older evidence or guides.
    pub old: u64,
    /// Those that were never called.
    pub not_called: u64,
}

/// What the shelf is made of, as far as it can change: the newest batch, the newest undoing, the accepted
/// guides and the rounds of keeping calls.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Moment {
    pub(crate) batch: i64,
    pub(crate) undoing: i64,
    pub(crate) guides: i64,
    pub(crate) rounds: i64,
}

/// What is noted of the shelf.
pub(crate) struct State {
    /// By which way of making rows; nothing where it was never made.
    pub(crate) made_by: Option<u64>,
    /// Of what.
    pub(crate) made_of: Moment,
    pub(crate) now: Moment,
    pub(crate) summary: Summary,
}

impl State {
    pub(crate) fn stands(&self, made_by: u64) -> bool {
        self.made_by == Some(made_by) && self.made_of == self.now
    }
}

const STATE: &str =
    "SELECT made_by, made_batch, made_undoing, made_guides, made_rounds, call_rounds, current_key,
    varieties, old, not_called, (SELECT coalesce(max(number), 0) FROM batch),
    (SELECT coalesce(max(number), 0) FROM undoing), (SELECT count(*) FROM guide_version) FROM shelf_state";

pub(crate) fn state(session: &mut Session<'_>) -> Result<State, LedgerFault> {
    let state = session.first(STATE, &[], |row| {
        let made_of = Moment {
            batch: row.whole(1)?,
            undoing: row.whole(2)?,
            guides: row.whole(3)?,
            rounds: row.whole(4)?,
        };
        let now = Moment {
            batch: row.whole(10)?,
            undoing: row.whole(11)?,
            guides: row.whole(12)?,
            rounds: row.whole(5)?,
        };
        let summary = Summary {
            current_key: row.whole(6)?.cast_unsigned(),
            varieties: row.count(7)?,
            old: row.count(8)?,
            not_called: row.count(9)?,
        };
        Ok(State { made_by: row.whole_or_none(0)?.map(i64::cast_unsigned), made_of, now, summary })
    })?;
    state.ok_or_else(|| LedgerFault::Damaged("nothing is noted of the shelf".to_owned()))
}

impl Ledger {
    /// What the shelf comes to, where it stands: made in the way that `made_by` names, of everything that
    /// the ledger holds now. Otherwise nothing: it is to be made again with [`Ledger::begin_shelving`].
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn shelf(&mut self, made_by: u64) -> Result<Option<Summary>, LedgerFault> {
        let state = state(&mut self.store.session())?;
        Ok(state.stands(made_by).then_some(state.summary))
    }
}
