//! The records that a claim hangs on: those that the call or measure it speaks of was made from.

use crate::claims::SpeaksOf;
use ledger::records::{RecordState, Recorded};
use record::fruit::FruitSample;
use record::id::Id;
use record::note::Note;
use record::stage::StageSeen;

/// The records that count and speak of any of these, in the order given.
pub(crate) fn behind(speaks_of: &[SpeaksOf], records: &[Recorded]) -> Vec<Id<Note>> {
    let counts = |recorded: &&Recorded| {
        matches!(recorded.state, RecordState::Standing | RecordState::Confirmed(_))
            && speaks_of.iter().any(|of| speaks(*of, &recorded.note))
    };
    records.iter().filter(counts).map(|recorded| recorded.id).collect()
}

fn speaks(of: SpeaksOf, note: &Note) -> bool {
    match (of, note) {
        (SpeaksOf::Fruit, Note::Fruit(fruit)) => is_measured(fruit),
        (SpeaksOf::Colour, Note::Fruit(fruit)) => fruit.exterior.is_some() || fruit.flesh.is_some(),
        (SpeaksOf::Colour, Note::Colour(_)) | (SpeaksOf::Habit | SpeaksOf::Height, Note::Height(_)) => true,
        (SpeaksOf::Habit, Note::Pick(_)) | (SpeaksOf::Ripening, Note::Pick(_)) => true,
        (SpeaksOf::Habit, Note::Stage(stage)) => tells_habit(&stage.seen),
        (SpeaksOf::Ripening, Note::Stage(stage)) => stage.seen == StageSeen::FirstRipe,
        _ => false,
    }
}

fn is_measured(fruit: &FruitSample) -> bool {
    fruit.weight.is_some() || fruit.length.is_some() || fruit.width.is_some() || fruit.locules.is_some()
}

fn tells_habit(seen: &StageSeen) -> bool {
    matches!(
        seen,
        StageSeen::StemEnded { .. }
            | StageSeen::StemGrowing { .. }
            | StageSeen::LeavesBetweenTrusses(_)
            | StageSeen::DwarfLeaves
    )
}
