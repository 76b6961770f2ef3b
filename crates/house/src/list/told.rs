//! What a row of the list shows, in the form that the shelf keeps it: a variety with its calls in brief.
//!
//! Left out are its claims, the rules, the lines of evidence, all steps but the cheapest and all answers but
//! the likeliest two; [`crate::show`] has them.

use crate::kept::{KeptCall, KeptColour, KeptFruit, KeptHabit};
use crate::list::{Freshness, Listed};
use ledger::evidence::{Amount, EvidenceOf, EvidenceStamp};
use ledger::shelf::reading::Read;
use record::variety::Variety;
use serde::{Deserialize, Serialize};

/// Answers of a call that a row shows: the verdict and the runner-up.
const ANSWERS: usize = 2;
/// Steps that a row shows.
const STEPS: usize = 1;

/// A row as it is kept.
#[derive(Serialize, Deserialize)]
struct Told {
    name: String,
    aliases: Vec<String>,
    fruit: Option<KeptFruit>,
    habit: Option<KeptHabit>,
    colour: Option<KeptColour>,
    stamp: u64,
    /// Fruit samples, picks, heights, stages, colours, and how many of them are set aside.
    amount: [u64; 6],
}

/// Writes the row of a variety.
pub(crate) fn write(listed: &Listed) -> Result<String, serde_json::Error> {
    let evidence = listed.evidence;
    let amount = evidence.map(|evidence| evidence.amount).unwrap_or_default();
    serde_json::to_string(&Told {
        name: listed.variety.name.clone(),
        aliases: listed.variety.aliases.clone(),
        fruit: listed.fruit.clone().map(fruit_in_brief),
        habit: listed.habit.clone().map(habit_in_brief),
        colour: listed.colour.clone().map(colour_in_brief),
        stamp: evidence.map_or(0, |evidence| evidence.stamp.0),
        amount: [
            amount.fruit_samples,
            amount.picks,
            amount.heights,
            amount.stages,
            amount.colours,
            amount.set_aside,
        ],
    })
}

/// Reads a row back, and holds what its calls rest on against what they should.
pub(crate) fn read(row: &Read, current_key: u64) -> Result<Listed, serde_json::Error> {
    let told: Told = serde_json::from_str(&row.told)?;
    let [fruit_samples, picks, heights, stages, colours, set_aside] = told.amount;
    let amount = Amount { fruit_samples, picks, heights, stages, colours, set_aside };
    Ok(Listed {
        variety: Variety { id: row.variety, name: told.name, aliases: told.aliases, claims: Vec::new() },
        fruit: told.fruit,
        habit: told.habit,
        colour: told.colour,
        evidence: Some(EvidenceOf { variety: row.variety, stamp: EvidenceStamp(told.stamp), amount }),
        freshness: match row.rests_on {
            None => Freshness::NotCalled,
            Some(key) if key == current_key => Freshness::Fresh,
            Some(_) => Freshness::Old,
        },
    })
}

fn fruit_in_brief(mut fruit: KeptFruit) -> KeptFruit {
    fruit.call = in_brief(fruit.call, ANSWERS, STEPS);
    fruit.marks.iter_mut().for_each(|mark| mark.words.clear());
    fruit
}

fn habit_in_brief(habit: KeptHabit) -> KeptHabit {
    KeptHabit { call: in_brief(habit.call, ANSWERS, STEPS), stem: Vec::new() }
}

fn colour_in_brief(colour: KeptColour) -> KeptColour {
    KeptColour {
        verdict: colour.verdict,
        exterior: in_brief(colour.exterior, ANSWERS, STEPS),
        pattern: in_brief(colour.pattern, 0, 0),
        flesh: in_brief(colour.flesh, 0, 0),
        skin: in_brief(colour.skin, 0, 0),
        clash: None,
    }
}

fn in_brief(mut call: KeptCall, answers: usize, steps: usize) -> KeptCall {
    call.rule.clear();
    call.lines.clear();
    call.shares.truncate(answers);
    call.settle.truncate(steps);
    call
}
