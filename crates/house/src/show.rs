//! One variety, opened up: its calls, the evidence behind each, its claims and its records.

use crate::calls::Keys;
use crate::claims::{ClaimBeside, Judge, behind};
use crate::compare;
use crate::compare::statements::{self, Statements};
use crate::evidence::{self, Seasons};
use crate::fault::HouseFault;
use crate::folder::House;
use crate::guides::{self, Guides};
use crate::list::{self, Listed};
use crate::names;
use crate::progress::Unwatched;
use crate::strips;
use drawing::strip::Strip;
use identity::colour::{self, ColourModel};
use identity::descriptors::{self, Described};
pub use identity::descriptors::{Coded, Coding};
use identity::guide::standards;
use identity::habit::{self, HabitModel};
use identity::spread::Spread;
use ledger::evidence::Whose;
use ledger::ledger::Ledger;
use ledger::records::Recorded;
use record::growout::Plot;
use record::id::Id;
use record::language::Units;
use record::note::Note;
use record::season::Season;
use std::collections::HashMap;

/// A variety's page.
#[derive(Debug)]
pub struct Shown {
    /// The variety and its calls.
    pub listed: Listed,
    /// Its fruits against the guide's bands, a strip a trait.
    pub strips: Vec<Strip>,
    /// The same evidence in the words of the open descriptor standards.
    pub codings: Vec<Coding>,
    /// What is claimed of it, beside the evidence.
    pub claims: Vec<ShownClaim>,
    /// Every record about it, whatever its state.
    pub records: Vec<Recorded>,
    /// What the plots of these records are called.
    pub plots: HashMap<Id<Plot>, PlotName>,
    /// Grow-outs that it stands in and that can be compared, the latest season first.
    pub trials: Vec<String>,
    /// What those say of its yield beside the check, in words: only what was told, the latest season first.
    pub bore: Vec<String>,
}

/// A claim beside the evidence, with the records that it hangs on.
#[derive(Clone, Debug, PartialEq)]
pub struct ShownClaim {
    /// The claim and how it stands.
    pub beside: ClaimBeside,
    /// The records that uphold or contradict it, or that are too few to do so.
    pub records: Vec<Id<Note>>,
}

/// A plot in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlotName {
    /// Its grow-out.
    pub grow_out: String,
    /// The season.
    pub season: Season,
    /// The label on its stake.
    pub label: String,
}

/// Opens up the variety of that name or alias.
///
/// # Errors
/// [`HouseFault::NoSuchVariety`] with the nearest name; a guide's fault; what the ledger refuses.
pub fn show(house: &House, name: &str) -> Result<Shown, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    ledger.at_one_moment(|ledger| show_one(house, ledger, name))
}

fn show_one(house: &House, ledger: &mut Ledger, name: &str) -> Result<Shown, HouseFault> {
    let variety = names::find(ledger, name)?;
    let texts = guides::accepted(ledger)?;
    let guides = guides::read(&texts)?;
    let stamps = ledger.evidence_stamps()?;
    let keys = Keys::new(&texts, &stamps);
    let own = stamps.into_iter().find(|evidence| evidence.variety == variety.id);
    let calls = ledger.calls_of(variety.id)?;
    let records = ledger.records_of(variety.id)?;
    let listed = list::listed(variety, &calls, own, &keys);
    let (strips, codings) = evidence_views(ledger, &listed, &records, &guides, house.settings.units)?;
    let beside = Judge::of(&guides).beside(&listed);
    let claims = beside.into_iter().map(|beside| {
        let records = behind::behind(&beside.speaks_of, &records);
        ShownClaim { beside, records }
    });
    let claims = claims.collect();
    let trials = compare::trials_of(ledger, listed.variety.id)?;
    // Comparing takes a tenth of a second, so it is left to varieties that stand in a trial.
    let mut told = if trials.is_empty() {
        Statements::new()
    } else {
        statements::of_yield(ledger, house.settings.units)?
    };
    let bore = told.remove(&listed.variety.name).unwrap_or_default();
    Ok(Shown { listed, strips, codings, claims, records, plots: plot_names(ledger)?, trials, bore })
}

fn evidence_views(
    ledger: &mut Ledger,
    listed: &Listed,
    records: &[Recorded],
    guides: &Guides,
    units: Units,
) -> Result<(Vec<Strip>, Vec<Coding>), HouseFault> {
    let id = listed.variety.id;
    let mut gathered = evidence::gather(ledger, Whose::Only(id), Seasons::All, &Unwatched)?;
    let evidence = gathered.remove(&id).unwrap_or_default();
    let verdict = listed.fruit.as_ref().and_then(|fruit| fruit.call.verdict.as_deref());
    // One variety cannot tell the house's spread; what is known beforehand is near enough for a picture.
    let spread = Spread::beforehand();
    let strips = strips::strips(records, &evidence.fruit, &spread, &guides.fruit, verdict, units);
    let habit = habit::call(&evidence.habit, &HabitModel::new(&guides.habit), units);
    let colour = colour::call(&evidence.colour, &ColourModel::new(&guides.colour));
    let described =
        Described { habit: &habit, walks: &evidence.habit, colour: &colour, fruit: &evidence.fruit };
    let standards = standards::read("descriptors.toml", standards::SHIPPED)?;
    Ok((strips, descriptors::code(&described, &standards)))
}

fn plot_names(ledger: &mut Ledger) -> Result<HashMap<Id<Plot>, PlotName>, HouseFault> {
    let grow_outs: HashMap<_, _> = ledger.grow_outs()?.into_iter().map(|one| (one.id, one)).collect();
    let named = ledger.plots()?.into_iter().filter_map(|plot| {
        let grow_out = grow_outs.get(&plot.grow_out)?;
        let (season, label) = (grow_out.season, plot.label);
        Some((plot.id, PlotName { grow_out: grow_out.name.clone(), season, label }))
    });
    Ok(named.collect())
}
