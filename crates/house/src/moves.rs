//! What a changed guide would move, before anybody accepts it.

use crate::calls::{self, AllCalls, VarietyCalls};
use crate::evidence::Seasons;
use crate::fault::HouseFault;
use crate::folder::House;
use crate::guides::{self, GuideTexts};
use crate::kept::KeptCall;
use crate::progress::Progress;
use ledger::calls::CallSubject;
use ledger::ledger::Ledger;
use std::path::Path;

/// One call that would move.
#[derive(Clone, Debug, PartialEq)]
pub struct Move {
    /// The variety's name.
    pub variety: String,
    /// What the call is about.
    pub subject: CallSubject,
    /// The call by the accepted guides.
    pub before: KeptCall,
    /// The call by the changed guide.
    pub after: KeptCall,
}

/// Calls everything by the accepted guides and by the changed one, and tells every call whose verdict or
/// whose being contested changes. Keeps nothing.
///
/// # Errors
/// A guide's fault; what the ledger or the disk refuses.
pub fn preview(house: &House, file: &Path, progress: &dyn Progress) -> Result<Vec<Move>, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let accepted = guides::accepted(&mut ledger)?;
    let changed = guides::with_file(&accepted, file)?;
    between(house, &mut ledger, &accepted, &changed, progress)
}

/// Every call that moves from the accepted guides to changed ones.
pub(crate) fn between(
    house: &House,
    ledger: &mut Ledger,
    accepted: &GuideTexts,
    changed: &GuideTexts,
    progress: &dyn Progress,
) -> Result<Vec<Move>, HouseFault> {
    let before = calls::call_otherwise(house, accepted, Seasons::All, progress)?;
    let after = calls::call_otherwise(house, changed, Seasons::All, progress)?;
    moves(ledger, &before, &after)
}

fn moves(ledger: &mut Ledger, before: &AllCalls, after: &AllCalls) -> Result<Vec<Move>, HouseFault> {
    let mut moves = Vec::new();
    for variety in ledger.varieties()? {
        let (Some(before), Some(after)) = (before.get(&variety.id), after.get(&variety.id)) else { continue };
        for (subject, before, after) in by_subject(before, after) {
            if before.verdict != after.verdict || before.contested != after.contested {
                let (before, after) = (before.clone(), after.clone());
                moves.push(Move { variety: variety.name.clone(), subject, before, after });
            }
        }
    }
    Ok(moves)
}

fn by_subject<'a>(
    before: &'a VarietyCalls,
    after: &'a VarietyCalls,
) -> [(CallSubject, &'a KeptCall, &'a KeptCall); 3] {
    [
        (CallSubject::Habit, &before.habit.call, &after.habit.call),
        (CallSubject::FruitClass, &before.fruit.call, &after.fruit.call),
        (CallSubject::Colour, &before.colour.exterior, &after.colour.exterior),
    ]
}
