//! The rogue list: plants that do not fit their variety, as walks and fruit tell, with the lots of seed that they concern.
//!
//! A plant stands on it because somebody saw an off-type on a walk, because its fruit lies far from its variety's (the fruit's
//! call sets it aside), because it lies far from the plants beside it, or because the plants of a grow-out fall into two kinds. A
//! lot is concerned where its seed was taken from that plot, or where its seed was sown there. Start at [`list`]; [`of_lot`]
//! tells those that concern one lot. `telling` has the words.

mod gathering;
pub mod telling;

use crate::fault::HouseFault;
use crate::folder::House;
use crate::kept::{self, KeptFruit};
use crate::lots::writing::lot_named;
use gathering::Ground;
use jiff::civil::Date;
use ledger::calls::{CallSubject, StoredCall};
use ledger::evidence::Whose;
use ledger::ledger::Ledger;
use record::fruit::FruitSample;
use record::growout::{GrowOut, Plot};
use record::id::Id;
use record::season::Season;
use record::share::Share;
use record::stage::{StageNote, StageSeen};
use record::variety::Variety;
use seedroom::trueness::mixture::{Drawn, TwoKinds};
pub use seedroom::trueness::plants::Measures;
use seedroom::trueness::plants::misfits;
use seedroom::trueness::plot::PlantOf;
use std::collections::BTreeMap;
use std::ops::ControlFlow;
use uuid::Uuid;

/// Plants that do not fit.
#[derive(Clone, Debug, PartialEq)]
pub struct Suspect {
    /// The variety whose name they carry.
    pub variety: String,
    /// The season.
    pub season: Season,
    /// The grow-out, where the note names a plot.
    pub grow_out: Option<String>,
    /// The plants; a spot without a number means all plants of its plot.
    pub spots: Vec<Spot>,
    /// Why they stand here.
    pub why: Why,
    /// Lots whose seed was taken from their plots.
    pub gave: Vec<String>,
    /// Lots whose seed was sown there.
    pub grew_from: Vec<String>,
}

/// A plant or a plot.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Spot {
    /// The label on its stake.
    pub plot: Option<String>,
    /// The plant's number.
    pub plant: Option<u32>,
}

/// Why plants stand on the rogue list.
#[derive(Clone, Debug, PartialEq)]
pub enum Why {
    /// Somebody saw off-types on a walk.
    Seen {
        /// How many plants.
        plants: u32,
        /// What is wrong with them, in the walker's words.
        words: String,
        /// The day.
        on: Option<Date>,
    },
    /// Their fruit lies far from their variety's, in words.
    UnlikeVariety(String),
    /// A plant's fruit lies far from that of the plants beside it.
    Stranger {
        /// How often the farthest of so many like plants lies as far out.
        chance: Share,
        /// What was compared.
        measures: Measures,
    },
    /// The plants of a grow-out fall into two kinds; these are the fewer.
    TwoKinds {
        /// The kinds.
        kinds: TwoKinds,
        /// What was compared.
        measures: Measures,
    },
}

/// The rogue list of the whole house: the newest season first, then by variety.
///
/// # Errors
/// What the ledger refuses.
pub fn list(house: &House) -> Result<Vec<Suspect>, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    ledger.at_one_moment(|ledger| {
        let calls = ledger.calls()?;
        suspects(ledger, Whose::Everyones, &calls)
    })
}

/// The part of the list that concerns one lot: plants of the plot that its seed was taken from, and plants grown from it.
///
/// # Errors
/// [`SeedRoomFault::NoSuchLot`](crate::lots::fault::SeedRoomFault::NoSuchLot); what the ledger refuses.
pub fn of_lot(house: &House, number: &str) -> Result<Vec<Suspect>, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    ledger.at_one_moment(|ledger| {
        let lot = lot_named(ledger, number)?;
        let calls = ledger.calls_of(lot.variety)?;
        let mut found = suspects(ledger, Whose::Only(lot.variety), &calls)?;
        found.retain(|suspect| suspect.gave.contains(&lot.number) || suspect.grew_from.contains(&lot.number));
        Ok(found)
    })
}

fn suspects(ledger: &mut Ledger, whose: Whose, calls: &[StoredCall]) -> Result<Vec<Suspect>, HouseFault> {
    let ground = Ground::read(ledger)?;
    let mut found: Vec<Suspect> = Vec::new();
    ledger.stages_by_variety(whose, &mut |stages| {
        found.extend(stages.records.iter().filter_map(|note| seen(&ground, note)));
        ControlFlow::Continue(())
    })?;
    let fruit_calls = calls.iter().filter(|call| call.subject == CallSubject::FruitClass);
    for call in fruit_calls {
        let kept: Option<KeptFruit> = kept::read(&call.detail);
        found.extend(kept.iter().flat_map(|kept| unlike(&ground, call.variety, kept)));
    }
    let mut drawn = Drawn::default();
    ledger.fruit_by_variety(whose, &mut |fruit| {
        found.extend(by_fruit(&ground, fruit.variety, fruit.records, &mut drawn));
        ControlFlow::Continue(())
    })?;
    found.sort_by(|one, other| {
        let key = |suspect: &Suspect| {
            (suspect.variety.to_lowercase(), suspect.grow_out.clone(), suspect.spots.clone())
        };
        other.season.cmp(&one.season).then_with(|| key(one).cmp(&key(other)))
    });
    Ok(found)
}

/// Off-types that somebody saw on a walk.
fn seen(ground: &Ground, note: &StageNote) -> Option<Suspect> {
    let StageSeen::OffType { plants, words } = &note.seen else { return None };
    if *plants == 0 {
        return None;
    }
    let subject = note.subject;
    let why = Why::Seen { plants: *plants, words: words.clone(), on: note.noted_on };
    let spots = [(subject.plot, subject.plant.map(|plant| plant.0))];
    Some(ground.suspect(subject.variety, subject.season, &spots, why))
}

/// Plants and plots that the fruit's call sets aside.
fn unlike(ground: &Ground, variety: Id<Variety>, kept: &KeptFruit) -> Vec<Suspect> {
    let told = kept.unlike.iter().filter_map(|odd| {
        let plot = odd.plot.as_ref().and_then(|plot| plot.parse::<Uuid>().ok()).map(Id::from_uuid);
        let why = Why::UnlikeVariety(odd.words.clone());
        Some(ground.suspect(variety, Season::new(odd.season)?, &[(plot, odd.plant)], why))
    });
    told.collect()
}

/// Fruit of plants that are noted by themselves.
type Samples<'n> = Vec<(PlantOf, &'n FruitSample)>;

/// Plants whose fruit does not go with that of the others of its variety in the same grow-out.
fn by_fruit(
    ground: &Ground,
    variety: Id<Variety>,
    records: &[FruitSample],
    drawn: &mut Drawn,
) -> Vec<Suspect> {
    let mut by_grow_out: BTreeMap<(Season, Id<GrowOut>), Samples<'_>> = BTreeMap::new();
    for sample in records {
        let subject = sample.subject;
        let Some((plot, number)) = subject.plot.zip(subject.plant) else { continue };
        let Some(grow_out) = ground.grow_out_of(plot) else { continue };
        by_grow_out.entry((subject.season, grow_out)).or_default().push((PlantOf { plot, number }, sample));
    }
    let mut found = Vec::new();
    for ((season, _), samples) in by_grow_out {
        let misfits = misfits(&samples, drawn);
        let measures = misfits.measures;
        let spot =
            |plant: PlantOf| -> (Option<Id<Plot>>, Option<u32>) { (Some(plant.plot), Some(plant.number.0)) };
        found.extend(misfits.strangers.into_iter().map(|stranger| {
            let why = Why::Stranger { chance: stranger.chance, measures };
            ground.suspect(variety, season, &[spot(stranger.plant)], why)
        }));
        found.extend(misfits.kinds.map(|kinds| {
            let spots: Vec<_> = kinds.fewer.iter().map(|plant| spot(*plant)).collect();
            ground.suspect(variety, season, &spots, Why::TwoKinds { kinds, measures })
        }));
    }
    found
}
