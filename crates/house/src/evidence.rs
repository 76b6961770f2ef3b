//! The evidence that counts, gathered variety by variety for the science.

use crate::fault::HouseFault;
use crate::progress::Progress;
use identity::colour::evidence::ColourEvidence;
use identity::first_ripe::{RipeEvidence, Transplanted};
use identity::habit::evidence::HabitEvidence;
use identity::sums::FruitSums;
use ledger::evidence::Whose;
use ledger::ledger::Ledger;
use record::id::Id;
use record::note::Note;
use record::season::Season;
use record::subject::Subject;
use record::variety::Variety;
use std::collections::BTreeMap;
use std::ops::ControlFlow;

/// Everything that counts for one variety.
#[derive(Clone, Debug, Default)]
pub struct Evidence {
    /// Its fruits, summed plant by plant.
    pub fruit: FruitSums,
    /// What speaks of its habit.
    pub habit: HabitEvidence,
    /// What was read of its colour.
    pub colour: ColourEvidence,
    /// What speaks of its first ripe fruit.
    pub ripe: RipeEvidence,
    /// Doubted records that wait to be looked at.
    pub set_aside: u64,
}

/// Which seasons' evidence to gather.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Seasons {
    /// All.
    All,
    /// From this one on.
    Since(Season),
}

impl Seasons {
    fn hold(self, subject: &Subject) -> bool {
        match self {
            Self::All => true,
            Self::Since(first) => first <= subject.season,
        }
    }
}

/// Gathers the evidence of every variety that has any.
///
/// # Errors
/// What the ledger refuses.
pub fn gather(
    ledger: &mut Ledger,
    whose: Whose,
    seasons: Seasons,
    progress: &dyn Progress,
) -> Result<BTreeMap<Id<Variety>, Evidence>, HouseFault> {
    progress.begin("reading the evidence", Some(5));
    let mut all: BTreeMap<Id<Variety>, Evidence> = BTreeMap::new();
    ledger.fruit_by_variety(whose, &mut |fruit| {
        let own = all.entry(fruit.variety).or_default();
        own.set_aside += fruit.set_aside;
        for sample in fruit.records.iter().filter(|sample| seasons.hold(&sample.subject)) {
            own.fruit.take(sample);
            own.colour.fruit(sample);
        }
        ControlFlow::Continue(())
    })?;
    progress.advance(1);
    ledger.picks_by_variety(whose, &mut |picks| {
        let notes = picks.records.iter().filter(|pick| seasons.hold(&pick.subject));
        add(&mut all, picks.variety, picks.set_aside, notes.map(|pick| Note::Pick(pick.clone())));
        ControlFlow::Continue(())
    })?;
    progress.advance(1);
    ledger.heights_by_variety(whose, &mut |heights| {
        let notes = heights.records.iter().filter(|height| seasons.hold(&height.subject));
        add(&mut all, heights.variety, heights.set_aside, notes.map(|height| Note::Height(height.clone())));
        ControlFlow::Continue(())
    })?;
    progress.advance(1);
    ledger.stages_by_variety(whose, &mut |stages| {
        let notes = stages.records.iter().filter(|stage| seasons.hold(&stage.subject));
        add(&mut all, stages.variety, stages.set_aside, notes.map(|stage| Note::Stage(stage.clone())));
        ControlFlow::Continue(())
    })?;
    progress.advance(1);
    ledger.colours_by_variety(whose, &mut |colours| {
        let own = all.entry(colours.variety).or_default();
        own.set_aside += colours.set_aside;
        let readings = colours.records.iter().filter(|reading| seasons.hold(&reading.subject));
        readings.for_each(|reading| own.colour.reading(reading));
        ControlFlow::Continue(())
    })?;
    progress.advance(1);
    Ok(all)
}

fn add(
    all: &mut BTreeMap<Id<Variety>, Evidence>,
    variety: Id<Variety>,
    set_aside: u64,
    notes: impl Iterator<Item = Note>,
) {
    let own = all.entry(variety).or_default();
    own.set_aside += set_aside;
    for note in notes {
        own.habit.note(&note);
        own.ripe.note(&note);
    }
}

/// When the plants of every plot went out.
///
/// # Errors
/// What the ledger refuses.
pub(crate) fn transplanted(ledger: &mut Ledger) -> Result<Transplanted, HouseFault> {
    Ok(Transplanted::new(&ledger.plots()?, &ledger.plants()?))
}
