//! The shelf kept up with the ledger: whoever reads the list first shelves what was touched since.
//!
//! Two who read at once do not do it twice: one holds the ledger's pen, the other waits and finds it done.
//! Where the ledger may not be written to, the rows are made in memory and read there in the same way.

use crate::calls::{self, Keys};
use crate::claims::Judge;
use crate::fault::HouseFault;
use crate::guides::{self, GuideTexts};
use crate::kept::{KeptCall, KeptFruit, KeptMeasure};
use crate::list::told;
use crate::list::wanted::Wanted;
use crate::list::{self, Listed, ToDrop};
use identity::habit::Habit;
use ledger::calls::StoredCall;
use ledger::evidence::EvidenceOf;
use ledger::ledger::Ledger;
use ledger::shelf::reading::{Cell, Counted, Portion, Read};
use ledger::shelf::shelving::Material;
use ledger::shelf::wanted::{Part, SortedBy, Want, Way};
use ledger::shelf::words::plain_words;
use ledger::shelf::{Shelved, Summary, Usual, Verdict};
use rayon::prelude::{IntoParallelRefIterator, ParallelIterator};
use record::colour::TradeColour;
use record::variety::name_key;
use std::collections::{BTreeMap, BTreeSet};
use std::time::Duration;

/// Raised whenever rows are made otherwise of the same calls, so that the shelf is made anew.
const FORM: &str = "1";

/// How long to wait for another who writes before the rows are made in memory. From memory, unverified: a
/// million rows take some seconds.
const PATIENCE: Duration = Duration::from_secs(15);

/// How often the shelf is brought up to date for one reading. Whoever writes without a pause would keep a
/// reader at it for ever.
const TRIES: usize = 3;

/// The list's rows, wherever they are.
pub(crate) enum Shelf<'l> {
    /// On the ledger's shelf.
    Kept(&'l mut Ledger, Summary),
    /// In memory.
    Made(Vec<Shelved>, Summary),
}

/// Reads off the shelf, all at one moment.
pub(crate) fn with_shelf<T>(
    ledger: &mut Ledger,
    mut read: impl FnMut(&mut Shelf<'_>) -> Result<T, HouseFault>,
) -> Result<T, HouseFault> {
    for _ in 0..TRIES {
        let found = ledger.at_one_moment(|ledger| match ledger.shelf(made_by())? {
            Some(summary) => read(&mut Shelf::Kept(ledger, summary)).map(Some),
            None => Ok(None),
        })?;
        if let Some(found) = found {
            return Ok(found);
        }
        if bring_up_to_date(ledger).is_err() {
            break;
        }
    }
    // Whatever kept it from being shelved, the reader is not kept from reading.
    let (rows, summary) = ledger.at_one_moment(make_all)?;
    read(&mut Shelf::Made(rows, summary))
}

/// Shelves whatever was touched since the shelf was last made.
pub(crate) fn bring_up_to_date(ledger: &mut Ledger) -> Result<(), HouseFault> {
    ledger.wait_for_writers(PATIENCE)?;
    let Some(mut shelving) = ledger.begin_shelving(made_by())? else { return Ok(()) };
    let stamps = shelving.stamps();
    let maker = Maker::new(shelving.ledger(), &stamps)?;
    loop {
        let materials = shelving.next_materials()?;
        if materials.is_empty() {
            break;
        }
        shelving.put(&maker.rows(materials)?)?;
    }
    shelving.finish(maker.current_key)?;
    Ok(())
}

/// Makes every row of the shelf again and tells how many there are and which the shelf has otherwise; none
/// where the shelf does not stand, since it is made again before anybody reads it.
pub(crate) fn compare(ledger: &mut Ledger) -> Result<(u64, Vec<String>), HouseFault> {
    ledger.at_one_moment(|ledger| {
        let Some(summary) = ledger.shelf(made_by())? else { return Ok((0, Vec::new())) };
        let (rows, again) = make_all(ledger)?;
        let mut differ = Vec::new();
        if again != summary {
            differ.push("what the shelf comes to".to_owned());
        }
        for row in &rows {
            if !ledger.is_shelved(row)? {
                differ.push(row.name.clone());
            }
        }
        Ok((again.varieties, differ))
    })
}

fn make_all(ledger: &mut Ledger) -> Result<(Vec<Shelved>, Summary), HouseFault> {
    let mut materials = ledger.shelf_materials()?;
    let maker = Maker::new(ledger, &materials.stamps())?;
    let mut rows = Vec::new();
    loop {
        let next = materials.next_materials(ledger)?;
        if next.is_empty() {
            break;
        }
        rows.extend(maker.rows(next)?);
    }
    let summary = sum_up(&rows, maker.current_key);
    Ok((rows, summary))
}

fn sum_up(rows: &[Shelved], current_key: u64) -> Summary {
    let count = |fits: &dyn Fn(&Shelved) -> bool| rows.iter().filter(|row| fits(row)).count() as u64;
    Summary {
        current_key,
        varieties: count(&|_| true),
        old: count(&|row| row.rests_on.is_some_and(|key| key != current_key)),
        not_called: count(&|row| row.rests_on.is_none()),
    }
}

fn made_by() -> u64 {
    calls::key(&[b"shelf", FORM.as_bytes()])
}

/// Makes rows.
struct Maker {
    judge: Judge,
    keys: Keys,
    current_key: u64,
    classes: Vec<String>,
}

impl Maker {
    fn new(ledger: &mut Ledger, stamps: &[EvidenceOf]) -> Result<Self, HouseFault> {
        let texts: GuideTexts = guides::accepted(ledger)?;
        let (guides, keys) = (guides::read(&texts)?, Keys::new(&texts, stamps));
        let classes = guides.fruit.class_names().map(ToString::to_string).collect();
        let current_key = resting_key([keys.fruit, keys.habit, keys.colour], Resting::OnThisEvidence);
        Ok(Self { judge: Judge::of(&guides), keys, current_key, classes })
    }

    fn rows(&self, materials: Vec<Material>) -> Result<Vec<Shelved>, HouseFault> {
        materials.par_iter().map(|material| self.row(material)).collect()
    }

    fn row(&self, material: &Material) -> Result<Shelved, HouseFault> {
        let evidence = Some(material.evidence);
        let listed = list::listed(material.variety.clone(), &material.calls, evidence, &self.keys);
        let told =
            told::write(&listed).map_err(|fault| HouseFault::Kept { what: "a row of the list", fault })?;
        let (fruit, colour) = (listed.fruit.as_ref(), listed.colour.as_ref());
        let class = fruit.map(|fruit| &fruit.call);
        Ok(Shelved {
            variety: listed.variety.id,
            name: listed.variety.name.clone(),
            aliases: listed.variety.aliases.clone(),
            habit: verdict(listed.habit.as_ref().map(|habit| &habit.call), |word| {
                Habit::ALL.iter().position(|habit| habit.to_string() == word)
            }),
            class: verdict(class, |word| self.classes.iter().position(|class| class == word)),
            colour: verdict(colour.map(|colour| &colour.exterior), |word| {
                TradeColour::ALL.iter().position(|colour| colour.name() == word)
            }),
            pattern: colour.and_then(|colour| colour.pattern.verdict.clone()),
            sureness: sureness(&listed),
            contested: listed.is_contested(),
            contradicted: self.judge.beside(&listed).iter().any(|claim| claim.standing.is_against()),
            unmeasured: listed.calls().filter(|(_, call)| call.measured).count() < 3,
            usual: usual(fruit),
            seasons: material.seasons.clone(),
            uses: self.judge.uses(&listed).into_iter().map(|purpose| purpose.name().to_owned()).collect(),
            marks: marks(fruit),
            rests_on: rests_on(&material.calls, &material.evidence),
            text: text(&listed),
            told,
        })
    }
}

fn verdict(call: Option<&KeptCall>, place: impl Fn(&str) -> Option<usize>) -> Option<Verdict> {
    let word = call?.verdict.clone()?;
    // A word that the guide no longer has comes after all those that it has.
    let place = place(&word).and_then(|place| u32::try_from(place).ok()).unwrap_or(u32::from(u16::MAX));
    Some(Verdict { word, place })
}

fn sureness(listed: &Listed) -> Option<f64> {
    let measured = listed.calls().filter(|(_, call)| call.measured);
    measured.map(|(_, call)| call.probability).min_by(f64::total_cmp)
}

fn usual(fruit: Option<&KeptFruit>) -> Usual {
    let facts = fruit.map(|fruit| fruit.facts).unwrap_or_default();
    let of = |measure: Option<KeptMeasure>| measure.map(|measure| measure.usual);
    Usual {
        weight_g: of(facts.weight_g),
        length_mm: of(facts.length_mm),
        width_mm: of(facts.width_mm),
        locules: of(facts.locules),
        solids_percent: of(facts.soluble_solids_pct),
        days: of(facts.days_to_ripe),
        height_mm: of(facts.plant_height_mm),
    }
}

/// Share from which a shape mark is one of a variety's. A choice of the list, as of the drawing.
const MARKED_FROM: f64 = 0.5;

fn marks(fruit: Option<&KeptFruit>) -> Vec<String> {
    let marks = fruit.map(|fruit| fruit.marks.as_slice()).unwrap_or_default();
    let carried = marks.iter().filter(|mark| mark.share.is_some_and(|share| MARKED_FROM <= share));
    carried.map(|mark| mark.mark.clone()).collect()
}

fn text(listed: &Listed) -> String {
    let variety = &listed.variety;
    let mut text: Vec<&str> = vec![&variety.name];
    text.extend(variety.aliases.iter().map(String::as_str));
    text.extend(variety.claims.iter().map(|claim| claim.words.as_str()));
    for (_, call) in listed.calls() {
        text.extend(call.verdict.as_deref());
        text.push(&call.rule);
    }
    text.extend(listed.colour.as_ref().and_then(|colour| colour.verdict.as_deref()));
    text.join(" ")
}

/// Whether calls rest on the very evidence that there is now.
#[derive(Clone, Copy)]
enum Resting {
    OnThisEvidence,
    OnOther,
}

fn resting_key(guides: [u64; 3], resting: Resting) -> u64 {
    let parts = guides.map(u64::to_le_bytes);
    let last: &[u8] = match resting {
        Resting::OnThisEvidence => b"this",
        Resting::OnOther => b"other",
    };
    let [fruit, habit, colour] = &parts;
    calls::key(&[fruit, habit, colour, last])
}

/// The key of what a variety's calls rest on, which is the current one where all of them are fresh.
fn rests_on(calls: &[StoredCall], evidence: &EvidenceOf) -> Option<u64> {
    use ledger::calls::CallSubject::{Colour, FruitClass, Habit};
    if calls.is_empty() {
        return None;
    }
    let guide = |subject| calls.iter().find(|call| call.subject == subject).map(|call| call.guide);
    let guides = [FruitClass, Habit, Colour].map(guide);
    let is_this =
        calls.iter().all(|call| call.evidence == evidence.stamp) && guides.iter().all(Option::is_some);
    let resting = if is_this { Resting::OnThisEvidence } else { Resting::OnOther };
    Some(resting_key(guides.map(Option::unwrap_or_default), resting))
}

impl Shelf<'_> {
    /// What the whole list comes to.
    pub(crate) fn summary(&self) -> Summary {
        match self {
            Self::Kept(_, summary) | Self::Made(_, summary) => *summary,
        }
    }

    /// What stands in the way, and how many fit without it, the most first.
    pub(crate) fn droppable(&mut self, wanted: &[Wanted], wants: &[Want]) -> Result<Vec<ToDrop>, HouseFault> {
        let counts = match self {
            Self::Kept(ledger, _) => ledger.count_without_each(wants)?,
            Self::Made(rows, _) => {
                let without = |place: usize| {
                    let others = |row: &&Shelved| {
                        wants.iter().enumerate().all(|(at, want)| at == place || want.fits(row))
                    };
                    rows.iter().filter(others).count() as u64
                };
                (0..wants.len()).map(without).collect()
            }
        };
        let mut to_drop: Vec<ToDrop> = wanted
            .iter()
            .zip(counts)
            .filter(|(_, fitting)| 0 < *fitting)
            .map(|(wanted, fitting)| ToDrop { want: wanted.said.clone(), fitting })
            .collect();
        to_drop.sort_by_key(|drop| std::cmp::Reverse(drop.fitting));
        Ok(to_drop)
    }

    /// The rows that fit, in order, and how many there are in all.
    pub(crate) fn portion(
        &mut self,
        wants: &[Want],
        by: SortedBy,
        way: Way,
        part: Part,
    ) -> Result<(Counted, Vec<Listed>), HouseFault> {
        let current_key = self.summary().current_key;
        let Portion { counted, rows } = match self {
            Self::Kept(ledger, summary) if wants.is_empty() => Portion {
                counted: Counted { rows: summary.varieties, contested: ledger.contested_on_shelf()? },
                rows: ledger.whole_shelf(by, way, part)?,
            },
            Self::Kept(ledger, _) => ledger.shelved(wants, by, way, part)?,
            Self::Made(rows, _) => portion_of(rows, wants, by, way, part),
        };
        let read = rows.iter().map(|row| told::read(row, current_key)).collect::<Result<_, _>>();
        Ok((counted, read.map_err(|fault| HouseFault::Kept { what: "a row of the list", fault })?))
    }

    /// How many that fit stand in each cell of class and habit.
    pub(crate) fn cells(&mut self, wants: &[Want]) -> Result<Vec<Cell>, HouseFault> {
        match self {
            Self::Kept(ledger, _) => Ok(ledger.shelf_cells(wants)?),
            Self::Made(rows, _) => {
                let mut cells: BTreeMap<_, u64> = BTreeMap::new();
                let word = |verdict: &Option<Verdict>| verdict.as_ref().map(|verdict| verdict.word.clone());
                for row in rows.iter().filter(|row| fits(row, wants)) {
                    *cells.entry((word(&row.class), word(&row.habit))).or_default() += 1;
                }
                let cell = |((class, habit), varieties)| Cell { class, habit, varieties };
                Ok(cells.into_iter().map(cell).collect())
            }
        }
    }

    /// Which of these are a variety's whole name.
    pub(crate) fn names_among<'w>(&mut self, names: &[&'w str]) -> Result<Vec<&'w str>, HouseFault> {
        match self {
            Self::Kept(ledger, _) => Ok(ledger.names_among(names)?),
            Self::Made(rows, _) => {
                let keys: BTreeSet<String> = rows.iter().map(|row| name_key(&row.name)).collect();
                Ok(names.iter().filter(|name| keys.contains(&name_key(name))).copied().collect())
            }
        }
    }

    /// Which words are a word of some variety's name.
    pub(crate) fn name_words<'w>(&mut self, words: &[&'w str]) -> Result<Vec<&'w str>, HouseFault> {
        match self {
            Self::Kept(ledger, _) => Ok(ledger.name_words(words)?),
            Self::Made(rows, _) => {
                let names = |row: &Shelved| plain_words(&format!("{} {}", row.name, row.aliases.join(" ")));
                let known: BTreeSet<String> = rows
                    .iter()
                    .flat_map(|row| names(row).split(' ').map(str::to_owned).collect::<Vec<_>>())
                    .collect();
                Ok(words.iter().filter(|word| known.contains(&plain_words(word))).copied().collect())
            }
        }
    }
}

fn portion_of(rows: &[Shelved], wants: &[Want], by: SortedBy, way: Way, part: Part) -> Portion {
    let mut fitting: Vec<&Shelved> = rows.iter().filter(|row| fits(row, wants)).collect();
    fitting.sort_by(|one, other| by.first(way, one, other));
    let contested = fitting.iter().filter(|row| row.contested).count() as u64;
    let counted = Counted { rows: fitting.len() as u64, contested };
    let (after, most) = match part {
        Part::Whole => (0, usize::MAX),
        Part::Rows { most, after } => (after as usize, most as usize),
    };
    Portion { counted, rows: fitting.into_iter().skip(after).take(most).map(as_read).collect() }
}

fn fits(row: &Shelved, wants: &[Want]) -> bool {
    wants.iter().all(|want| want.fits(row))
}

fn as_read(row: &Shelved) -> Read {
    Read { variety: row.variety, rests_on: row.rests_on, told: row.told.clone() }
}
