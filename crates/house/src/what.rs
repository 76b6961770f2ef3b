//! What is it? One unknown tomato, or a handful, called as a variety is, beside those of the list most like it.
//!
//! Whoever asks may have no house at all: then the shipped guides and the published spread of fruits decide,
//! and there is no list to compare with. Nothing that is asked is kept. Start at [`ask`].

mod typed;

use crate::alike;
use crate::calls::{self, VarietyCalls};
use crate::evidence::Evidence;
use crate::facts;
use crate::fault::HouseFault;
use crate::folder::{House, SHIPPED_GUIDES};
use crate::guides::{self, GuideTexts, Guides};
use crate::kept::{KeptStep, keep_step};
use crate::list::{self, Listed};
use crate::standins::{self, Alternative};
use crate::strips::{self, Behind};
use drawing::look::FruitLook;
use drawing::strip::Strip;
use identity::colour::ColourModel;
use identity::fruit_class::Draws;
use identity::habit::HabitModel;
use identity::spread::{self, Spread};
use identity::sums::FruitSums;
use identity::unknown::{self, Unknown, impossible, looks, telling};
pub use intake::one_fruit::{FruitField, PlantField};
use jiff::civil::Date;
use ledger::evidence::Whose;
use ledger::ledger::Ledger;
use record::id::Id;
use record::language::Units;
use record::season::Season;
use record::variety::Variety;
use std::collections::BTreeMap;
use std::ops::ControlFlow;
pub use typed::{Refused, TypedFruit, Unfit};

/// What somebody tells of an unknown tomato, as it was typed.
#[derive(Clone, Debug, Default)]
pub struct Asked {
    /// Its fruits.
    pub fruits: Vec<TypedFruit>,
    /// Its plants, each as fields.
    pub plants: Vec<Vec<(PlantField, String)>>,
    /// Tables of it.
    pub tables: Vec<crate::opened::Given>,
}

/// What it may be.
#[derive(Debug)]
pub struct Answer {
    /// Its calls, as a variety's.
    pub calls: VarietyCalls,
    /// How far these fruits speak for their variety, in words.
    pub how_far: Option<String>,
    /// What one more look would tell.
    pub looks: Looks,
    /// How it looks, from what was given.
    pub look: FruitLook,
    /// Its fruits against the guide's bands.
    pub strips: Vec<Strip>,
    /// What is odd about what was given.
    pub doubts: Vec<String>,
    /// Rows of tables that could not be read.
    pub refused: Vec<Refused>,
    /// The varieties of the list most like it; `None` where there is no house with a list.
    pub nearest: Option<Vec<Alternative>>,
}

/// What could be looked at next; of each call the most telling look first.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Looks {
    /// For the fruit class.
    pub class: Vec<KeptStep>,
    /// For the habit.
    pub habit: Vec<KeptStep>,
    /// For the colour.
    pub colour: Vec<KeptStep>,
}

/// Says what an unknown tomato may be. `units` go first in what is told.
///
/// # Errors
/// [`HouseFault::Unfit`] for what cannot be read or cannot be, or where nothing was told; a guide's fault; what
/// the ledger refuses.
pub fn ask(house: Option<&House>, asked: &Asked, units: Units, today: Date) -> Result<Answer, HouseFault> {
    let read = typed::read(asked, today)?;
    let mut ledger = house.map(|house| Ledger::open(&house.ledger_location())).transpose()?;
    let guides = guides::read(&match &mut ledger {
        Some(ledger) => guides::accepted(ledger)?,
        None => shipped(),
    })?;
    let spread = ledger.as_mut().map_or_else(|| Ok(Spread::beforehand()), own_spread)?;
    let mut answer = call(&read.unknown, &guides, &spread, units);
    answer.doubts = read.doubts;
    answer.refused = read.refused;
    answer.nearest = ledger.map(|mut ledger| nearest(&mut ledger, &guides, &answer.calls)).transpose()?;
    Ok(answer)
}

/// The guides that every house starts with.
fn shipped() -> GuideTexts {
    let [fruit, habit, colour] = SHIPPED_GUIDES.map(|(_, text)| text.to_owned());
    GuideTexts { fruit, habit, colour }
}

/// How far this house's own fruits, plants and seasons differ.
fn own_spread(ledger: &mut Ledger) -> Result<Spread, HouseFault> {
    let mut all: BTreeMap<Id<Variety>, FruitSums> = BTreeMap::new();
    ledger.fruit_by_variety(Whose::Everyones, &mut |fruit| {
        let sums = all.entry(fruit.variety).or_default();
        fruit.records.iter().for_each(|sample| sums.take(sample));
        ControlFlow::Continue(())
    })?;
    Ok(spread::estimate(&all.values().collect::<Vec<_>>()))
}

fn call(unknown: &Unknown, guides: &Guides, spread: &Spread, units: Units) -> Answer {
    let seen = unknown::evidence(unknown);
    let (habit, colour) = (HabitModel::new(&guides.habit), ColourModel::new(&guides.colour));
    let draws = Draws::new();
    let by = looks::Rules { fruit: &guides.fruit, spread, draws: &draws, habit: &habit, colour: &colour };
    let next = looks::looks(&seen, unknown.fruit_count(), &by);
    let told = |steps: &[identity::call::Step]| steps.iter().map(keep_step).collect();
    let how_far = telling::how_far(&seen.fruit, spread);
    let evidence =
        Evidence { fruit: seen.fruit, habit: seen.habit, colour: seen.colour, ..Evidence::default() };
    let calls = calls::call_one(&evidence, guides, spread, units);
    let verdict = calls.fruit.call.verdict.as_deref();
    let samples = unknown.samples();
    Answer {
        look: facts::look("this tomato", Some(&calls.fruit), Some(&calls.colour)),
        strips: strips::strips_that_count(
            &samples,
            &Behind { sums: &evidence.fruit, spread, guide: &guides.fruit, verdict, units },
        ),
        looks: Looks { class: told(&next.class), habit: told(&next.habit), colour: told(&next.colour) },
        how_far,
        calls,
        doubts: Vec::new(),
        refused: Vec::new(),
        nearest: None,
    }
}

fn nearest(
    ledger: &mut Ledger,
    guides: &Guides,
    calls: &VarietyCalls,
) -> Result<Vec<Alternative>, HouseFault> {
    let all: Vec<Listed> = ledger.at_one_moment(list::everyone)?;
    let words = alike::words(guides);
    let mut profiles = alike::profiles(&all, &words);
    let (fruit, habit, colour) = (Some(&calls.fruit), Some(&calls.habit), Some(&calls.colour));
    profiles.push(alike::profile("this tomato", fruit, habit, colour, &words));
    let near = standins::nearest(&profiles, &words, all.len())?;
    Ok(standins::alternatives(&near, &all))
}

/// The season of a tomato that is in the hand today.
fn season_of(today: Date) -> Result<Season, HouseFault> {
    let unfit = || HouseFault::Unfit(Box::new(Unfit::NoSeason(today.year())));
    Season::new(today.year()).ok_or_else(unfit)
}

fn possible(unknown: &Unknown) -> Result<(), HouseFault> {
    impossible::check(unknown).map_err(|fault| HouseFault::Unfit(Box::new(fault.into())))
}
