//! Calling what varieties are: read the evidence and the guides, call, keep.

use crate::evidence::{self, Evidence, Seasons};
use crate::facts;
use crate::fault::HouseFault;
use crate::folder::House;
use crate::guides::{self, GuideTexts, Guides};
use crate::kept::{self, KeptColour, KeptFruit, KeptHabit, KeptMark, KeptUnlike, keep, word};
use crate::progress::Progress;
use identity::colour::{self, ColourModel};
use identity::first_ripe::Transplanted;
use identity::fruit_class::{self, Draws};
use identity::habit::{self, HabitModel};
use identity::spread::{self, Spread};
use identity::sums::FruitSums;
use identity::unlike::unlike;
pub use ledger::calls::CallSubject;
use ledger::calls::StoredCall;
use ledger::evidence::{EvidenceOf, EvidenceStamp, Whose};
use ledger::ledger::Ledger;
use rayon::prelude::{IntoParallelRefIterator, ParallelIterator};
use record::colour::TradeColour;
use record::id::Id;
use record::language::Units;
use record::share::Share;
use record::variety::Variety;
use sha2::{Digest, Sha256};
use std::collections::{BTreeMap, HashMap};

/// Raised whenever the way calls are worked out changes, so that calls kept before are known to be old.
const METHOD: &str = "2026-12";

/// The three calls of one variety.
#[derive(Clone, Debug, PartialEq)]
pub struct VarietyCalls {
    /// Fruit class and measures.
    pub fruit: KeptFruit,
    /// Habit.
    pub habit: KeptHabit,
    /// Colour.
    pub colour: KeptColour,
}

/// Every variety's calls.
pub type AllCalls = BTreeMap<Id<Variety>, VarietyCalls>;

/// Calls every variety by the accepted guides and keeps the calls.
///
/// # Errors
/// A guide's fault; what the ledger refuses.
pub fn call_all(house: &House, progress: &dyn Progress) -> Result<AllCalls, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let (calls, stored) = ledger.at_one_moment(|ledger| {
        let texts = guides::accepted(ledger)?;
        let calls = work_out(house, ledger, &texts, Seasons::All, progress)?;
        let stamps = ledger.evidence_stamps()?;
        let stored = store(&calls, &stamps, &texts)?;
        Ok::<_, HouseFault>((calls, stored))
    })?;
    ledger.keep_calls(&stored)?;
    Ok(calls)
}

/// Calls every variety by other guides or from some seasons only, and keeps nothing.
///
/// # Errors
/// A guide's fault; what the ledger refuses.
pub fn call_otherwise(
    house: &House,
    texts: &GuideTexts,
    seasons: Seasons,
    progress: &dyn Progress,
) -> Result<AllCalls, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    ledger.at_one_moment(|ledger| work_out(house, ledger, texts, seasons, progress))
}

/// Makes every kept call again and tells how many there are and which come out otherwise.
pub(crate) fn compare_kept(
    house: &House,
    ledger: &mut Ledger,
    progress: &dyn Progress,
) -> Result<(u64, Vec<String>), HouseFault> {
    ledger.at_one_moment(|ledger| {
        let kept = ledger.calls()?;
        if kept.is_empty() {
            return Ok((0, Vec::new()));
        }
        let texts = guides::accepted(ledger)?;
        let stamps = ledger.evidence_stamps()?;
        let calls = work_out(house, ledger, &texts, Seasons::All, progress)?;
        let again: HashMap<(Id<Variety>, CallSubject), StoredCall> = store(&calls, &stamps, &texts)?
            .into_iter()
            .map(|call| ((call.variety, call.subject), call))
            .collect();
        let mut differ = Vec::new();
        let mut fresh = 0;
        for call in &kept {
            let Some(now) = again.get(&(call.variety, call.subject)) else { continue };
            // A call made from other evidence or guides is old, not wrong: `locule call` renews it.
            if now.evidence == call.evidence && now.guide == call.guide {
                fresh += 1;
                if now != call {
                    differ.push(format!("{}: {}", ledger.variety(call.variety)?.name, subject(call.subject)));
                }
            }
        }
        Ok((fresh, differ))
    })
}

/// The word for what a call is about.
#[must_use]
pub fn subject(subject: CallSubject) -> &'static str {
    match subject {
        CallSubject::Habit => "habit",
        CallSubject::FruitClass => "fruit class",
        CallSubject::Colour => "colour",
    }
}

fn work_out(
    house: &House,
    ledger: &mut Ledger,
    texts: &GuideTexts,
    seasons: Seasons,
    progress: &dyn Progress,
) -> Result<AllCalls, HouseFault> {
    let guides = guides::read(texts)?;
    let mut all = evidence::gather(ledger, Whose::Everyones, seasons, progress)?;
    for variety in ledger.varieties()? {
        all.entry(variety.id).or_default();
    }
    let transplanted = evidence::transplanted(ledger)?;
    Ok(call_evidence(&all, &guides, &transplanted, house.settings.units, progress))
}

fn call_evidence(
    all: &BTreeMap<Id<Variety>, Evidence>,
    guides: &Guides,
    transplanted: &Transplanted,
    units: Units,
    progress: &dyn Progress,
) -> AllCalls {
    let fruit: Vec<&FruitSums> = all.values().map(|evidence| &evidence.fruit).collect();
    let spread = spread::estimate(&fruit);
    let models = Models {
        guides,
        transplanted,
        spread: &spread,
        draws: Draws::new(),
        habit: HabitModel::new(&guides.habit),
        colour: ColourModel::new(&guides.colour),
        units,
    };
    progress.begin("calling", u64::try_from(all.len()).ok());
    all.par_iter()
        .map(|(variety, evidence)| {
            let calls = models.call(evidence);
            progress.advance(1);
            (*variety, calls)
        })
        .collect()
}

/// Calls one tomato that stands on no list, by the same rules as every variety.
pub(crate) fn call_one(evidence: &Evidence, guides: &Guides, spread: &Spread, units: Units) -> VarietyCalls {
    let models = Models {
        guides,
        transplanted: &Transplanted::default(),
        spread,
        draws: Draws::new(),
        habit: HabitModel::new(&guides.habit),
        colour: ColourModel::new(&guides.colour),
        units,
    };
    models.call(evidence)
}

/// What every variety is called by.
struct Models<'a> {
    guides: &'a Guides,
    transplanted: &'a Transplanted,
    spread: &'a Spread,
    draws: Draws,
    habit: HabitModel,
    colour: ColourModel,
    units: Units,
}

impl Models<'_> {
    fn call(&self, evidence: &Evidence) -> VarietyCalls {
        VarietyCalls {
            fruit: self.fruit(evidence),
            habit: self.habit(evidence),
            colour: self.colour(evidence),
        }
    }

    fn fruit(&self, evidence: &Evidence) -> KeptFruit {
        let (sums, spread, guide) = (&evidence.fruit, self.spread, &self.guides.fruit);
        let call = fruit_class::call(sums, spread, guide, &self.draws, self.units);
        let marks = fruit_class::marks(sums, spread, guide, &self.draws, self.units);
        KeptFruit {
            call: keep(&call, word, evidence.set_aside),
            facts: facts::facts(evidence, self.transplanted, spread),
            marks: marks
                .into_iter()
                .map(|mark| KeptMark {
                    mark: mark.mark.to_string(),
                    share: mark.share.map(Share::get),
                    words: mark.words,
                })
                .collect(),
            unlike: unlike(sums, spread, self.units)
                .into_iter()
                .map(|odd| KeptUnlike {
                    season: odd.key.season.year(),
                    plot: odd.key.plot.map(|plot| plot.to_string()),
                    plant: odd.key.plant.map(|plant| plant.0),
                    fruits: odd.fruits,
                    words: odd.words,
                })
                .collect(),
        }
    }

    fn habit(&self, evidence: &Evidence) -> KeptHabit {
        let called = habit::call(&evidence.habit, &self.habit, self.units);
        KeptHabit { call: keep(&called.habit, word, 0), stem: kept::keep_shares(&called.stem, word) }
    }

    fn colour(&self, evidence: &Evidence) -> KeptColour {
        let called = colour::call(&evidence.colour, &self.colour);
        let colour_word = |colour: &TradeColour| colour.name().to_owned();
        KeptColour {
            verdict: called.verdict(),
            exterior: keep(&called.exterior, colour_word, 0),
            pattern: keep(&called.pattern, |pattern| pattern.name().to_owned(), 0),
            flesh: keep(&called.flesh, colour_word, 0),
            skin: keep(&called.skin, |skin| skin.name().to_owned(), 0),
            clash: called.clash,
        }
    }
}

/// The calls as the ledger keeps them.
fn store(calls: &AllCalls, stamps: &[EvidenceOf], texts: &GuideTexts) -> Result<Vec<StoredCall>, HouseFault> {
    let keys = Keys::new(texts, stamps);
    let own: HashMap<Id<Variety>, EvidenceStamp> =
        stamps.iter().map(|evidence| (evidence.variety, evidence.stamp)).collect();
    let mut stored = Vec::with_capacity(calls.len() * 3);
    for (variety, calls) in calls {
        let Some(evidence) = own.get(variety).copied() else { continue };
        let mut put = |subject, call: &kept::KeptCall, guide, detail| {
            stored.push(StoredCall {
                variety: *variety,
                subject,
                verdict: call.verdict.clone(),
                probability: Share::new(call.probability).unwrap_or(Share::NONE),
                contested: call.contested,
                evidence,
                guide,
                detail,
            });
        };
        let (fruit, habit, colour) = (&calls.fruit, &calls.habit, &calls.colour);
        put(CallSubject::FruitClass, &fruit.call, keys.fruit, kept::write("a fruit-class call", fruit)?);
        put(CallSubject::Habit, &habit.call, keys.habit, kept::write("a habit call", habit)?);
        put(CallSubject::Colour, &colour.exterior, keys.colour, kept::write("a colour call", colour)?);
    }
    Ok(stored)
}

/// Keys of everything but its own evidence that a call depends on.
pub(crate) struct Keys {
    pub(crate) fruit: u64,
    pub(crate) habit: u64,
    pub(crate) colour: u64,
}

impl Keys {
    /// A fruit class leans on the spread over the whole house, so its key holds every variety's evidence.
    pub(crate) fn new(texts: &GuideTexts, stamps: &[EvidenceOf]) -> Self {
        let mut ordered: Vec<(Id<Variety>, u64)> =
            stamps.iter().map(|evidence| (evidence.variety, evidence.stamp.0)).collect();
        ordered.sort_unstable();
        let mut everyones = Vec::with_capacity(ordered.len() * 24);
        for (variety, stamp) in ordered {
            everyones.extend_from_slice(variety.uuid().as_bytes());
            everyones.extend_from_slice(&stamp.to_le_bytes());
        }
        Self {
            fruit: key(&[texts.fruit.as_bytes(), &everyones]),
            habit: key(&[texts.habit.as_bytes()]),
            colour: key(&[texts.colour.as_bytes()]),
        }
    }
}

/// A key of these parts, of the way calls are worked out and of the program.
pub(crate) fn key(parts: &[&[u8]]) -> u64 {
    let mut digest = Sha256::new();
    for part in [METHOD.as_bytes(), env!("CARGO_PKG_VERSION").as_bytes()].iter().chain(parts) {
        digest.update(part.len().to_le_bytes());
        digest.update(part);
    }
    let digest: [u8; 32] = digest.finalize().into();
    digest.iter().take(8).fold(0, |key, byte| key << 8 | u64::from(*byte))
}
