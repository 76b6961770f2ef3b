//! Comparing: what one or more grow-outs say of their varieties, by one trait.

pub mod ground;
mod place;
pub(crate) mod statements;

use crate::fault::HouseFault;
use crate::folder::{self, House};
use crate::tables::{self, Form};
use jiff::civil::Date;
use ledger::evidence::{Gathered, Whose};
use ledger::ledger::Ledger;
use publish::tables::{Cell, Sheet};
use record::fruit::FruitSample;
use record::growout::{GrowOut, Plot, PlotRole};
use record::id::Id;
use record::pick::Pick;
use record::season::Season;
use record::subject::Subject;
use record::variety::{Variety, name_key};
use std::collections::{BTreeMap, HashMap, HashSet};
use std::ops::ControlFlow;
use std::path::Path;
pub use trial::compare::stability::{self, Answering, Answers, Stability};
pub use trial::compare::verdict::{self, Against, Verdict};
use trial::compare::{self, Observed};
pub use trial::compare::{CompareFault, Comparison, Degrees, Outcome};
pub use trial::traits::Trait;
use trial::traits::{self, PlotNotes};

/// What to compare.
#[derive(Clone, Debug)]
pub struct Asked {
    /// Grow-outs by name.
    pub grow_outs: Vec<String>,
    /// The trait.
    pub of: Trait,
    /// The check; `None` for the one that the layout names, if it names one.
    pub check: Option<String>,
}

/// What the grow-outs say.
#[derive(Debug)]
pub struct Compared {
    /// The grow-outs.
    pub grow_outs: Vec<GrowOut>,
    /// What their plots say.
    pub comparison: Comparison,
    /// The plots that had a number, in the order of [`Comparison::left_over`].
    pub plots: Vec<PlotSeen>,
    /// Plots that have no number, guards left out, each with the name of its variety.
    pub without: Vec<(Plot, String)>,
}

/// A plot with what it came to.
#[derive(Clone, Debug, PartialEq)]
pub struct PlotSeen {
    /// The plot.
    pub plot: Plot,
    /// What it holds.
    pub variety: String,
    /// Its number, in the trait's unit.
    pub value: f64,
}

impl Compared {
    /// Plots in all, guards left out.
    #[must_use]
    pub fn plots_in_all(&self) -> usize {
        self.plots.len() + self.without.len()
    }
}

/// The trait of a name.
///
/// # Errors
/// [`HouseFault::NotKnown`] with the traits there are.
pub fn named(name: &str) -> Result<Trait, HouseFault> {
    let known = || Trait::ALL.map(Trait::name).join(", ");
    Trait::named(name).ok_or_else(|| HouseFault::NotKnown {
        what: "trait that plots are compared in",
        word: name.to_owned(),
        known: known(),
    })
}

/// Compares the varieties of one grow-out or several.
///
/// # Errors
/// [`HouseFault::NotKnown`] for a grow-out that the house does not have, [`HouseFault::NoSuchVariety`] for a check,
/// [`HouseFault::Compare`] where there is nothing to compare; what the ledger refuses.
pub fn compare(house: &House, asked: &Asked) -> Result<Compared, HouseFault> {
    Ledger::open(&house.ledger_location())?.at_one_moment(|ledger| compare_in(ledger, asked))
}

fn compare_in(ledger: &mut Ledger, asked: &Asked) -> Result<Compared, HouseFault> {
    let gathered = Gathering::of(ledger, asked)?;
    let places = place::places(gathered.plots.iter().map(|(_, plot)| plot));
    let (mut observed, mut plots, mut without) = (Vec::new(), Vec::new(), Vec::new());
    for (grow_out, plot) in &gathered.plots {
        let variety = gathered.name(plot.variety);
        let Some(value) = traits::value(asked.of, &gathered.notes(plot)) else {
            without.push((plot.clone(), variety));
            continue;
        };
        observed.push(Observed {
            variety: variety.clone(),
            environment: format!("{} {}", grow_out.garden, grow_out.season),
            replicate: plot.layout.replicate,
            block: plot.block,
            place: places.get(&plot.id).copied(),
            value,
            counted: traits::counted(asked.of, &gathered.notes(plot)),
        });
        plots.push(PlotSeen { plot: plot.clone(), variety, value });
    }
    let stands = |check: &String| observed.iter().any(|plot| plot.variety == *check);
    let check = gathered.checked.clone().or_else(|| gathered.laid_out_check().filter(stands));
    let comparison =
        compare::compare(asked.of, &observed, check.as_deref(), &mut |_| ControlFlow::Continue(()))?;
    Ok(Compared { grow_outs: gathered.grow_outs, comparison, plots, without })
}

/// What the trials of every season say of a trait, those of one season together, the latest first. A season of whose
/// plots nothing can be said yet is left out.
///
/// # Errors
/// What the ledger refuses.
pub fn trials(house: &House, of: Trait) -> Result<Vec<Compared>, HouseFault> {
    Ledger::open(&house.ledger_location())?.at_one_moment(|ledger| compared_trials(ledger, of))
}

fn compared_trials(ledger: &mut Ledger, of: Trait) -> Result<Vec<Compared>, HouseFault> {
    let mut found = Vec::new();
    for grow_outs in trials_in(ledger)?.into_values().rev() {
        match compare_in(ledger, &Asked { grow_outs, of, check: None }) {
            Ok(compared) => found.push(compared),
            Err(HouseFault::Compare(_)) => {}
            Err(fault) => return Err(fault),
        }
    }
    Ok(found)
}

/// Names of the grow-outs that can be compared, those in which a variety stands more than once, by season.
fn trials_in(ledger: &mut Ledger) -> Result<BTreeMap<Season, Vec<String>>, HouseFault> {
    Ok(repeated(ledger.grow_outs()?, &stands(ledger)?))
}

fn repeated(grow_outs: Vec<GrowOut>, stands: &Stands) -> BTreeMap<Season, Vec<String>> {
    let trials: HashSet<Id<GrowOut>> =
        stands.iter().filter(|(_, times)| 1 < **times).map(|((grow_out, _), _)| *grow_out).collect();
    let mut by_season: BTreeMap<Season, Vec<String>> = BTreeMap::new();
    for grow_out in grow_outs.into_iter().filter(|own| trials.contains(&own.id)) {
        by_season.entry(grow_out.season).or_default().push(grow_out.name);
    }
    by_season
}

/// Names of the grow-outs that a variety stands in and that can be compared, the latest season first.
pub(crate) fn trials_of(ledger: &mut Ledger, variety: Id<Variety>) -> Result<Vec<String>, HouseFault> {
    let stands = stands(ledger)?;
    let own = ledger.grow_outs()?.into_iter().filter(|own| stands.contains_key(&(own.id, variety)));
    Ok(repeated(own.collect(), &stands).into_values().rev().flatten().collect())
}

/// How often a variety stands in a grow-out.
type Stands = HashMap<(Id<GrowOut>, Id<Variety>), u32>;

fn stands(ledger: &mut Ledger) -> Result<Stands, HouseFault> {
    let mut stands = Stands::new();
    for plot in ledger.plots()?.iter().filter(|plot| plot.layout.role != Some(PlotRole::Guard)) {
        *stands.entry((plot.grow_out, plot.variety)).or_default() += 1;
    }
    Ok(stands)
}

/// What the ledger holds of the grow-outs.
struct Gathering {
    grow_outs: Vec<GrowOut>,
    plots: Vec<(GrowOut, Plot)>,
    names: HashMap<Id<Variety>, String>,
    checked: Option<String>,
    lost: HashMap<Id<Plot>, u32>,
    picks: HashMap<Id<Plot>, Vec<Pick>>,
    samples: HashMap<Id<Plot>, Vec<FruitSample>>,
}

impl Gathering {
    fn of(ledger: &mut Ledger, asked: &Asked) -> Result<Self, HouseFault> {
        let grow_outs = chosen(ledger.grow_outs()?, &asked.grow_outs)?;
        let checked = asked.check.as_ref().map(|check| crate::names::find(ledger, check)).transpose()?;
        let names = ledger.varieties()?.into_iter().map(|variety| (variety.id, variety.name)).collect();
        let mut plots = Vec::new();
        for plot in ledger.plots()? {
            let own = grow_outs.iter().find(|grow_out| grow_out.id == plot.grow_out);
            if let Some(grow_out) = own.filter(|_| plot.layout.role != Some(PlotRole::Guard)) {
                plots.push((grow_out.clone(), plot));
            }
        }
        let mut lost: HashMap<Id<Plot>, u32> = HashMap::new();
        for plant in ledger.plants()?.into_iter().filter(|plant| plant.lost.is_some()) {
            *lost.entry(plant.plot).or_default() += 1;
        }
        let mut picks = HashMap::new();
        ledger.picks_by_variety(Whose::Everyones, &mut |own| {
            by_plot(own, |pick: &Pick| pick.subject, &mut picks)
        })?;
        let mut samples = HashMap::new();
        ledger.fruit_by_variety(Whose::Everyones, &mut |own| {
            by_plot(own, |sample: &FruitSample| sample.subject, &mut samples)
        })?;
        Ok(Self { grow_outs, plots, names, checked: checked.map(|check| check.name), lost, picks, samples })
    }

    fn name(&self, variety: Id<Variety>) -> String {
        self.names.get(&variety).cloned().unwrap_or_default()
    }

    fn notes(&self, plot: &Plot) -> PlotNotes<'_> {
        PlotNotes {
            plants_out: plot.plant_count,
            plants_lost: self.lost.get(&plot.id).copied().unwrap_or(0),
            picks: self.picks.get(&plot.id).map_or(&[], Vec::as_slice),
            samples: self.samples.get(&plot.id).map_or(&[], Vec::as_slice),
        }
    }

    /// The variety that most check plots of the layout hold.
    fn laid_out_check(&self) -> Option<String> {
        let mut counts: BTreeMap<String, usize> = BTreeMap::new();
        for (_, plot) in self.plots.iter().filter(|(_, plot)| plot.layout.role == Some(PlotRole::Check)) {
            *counts.entry(self.name(plot.variety)).or_default() += 1;
        }
        let most = counts.into_iter().max_by(|one, other| one.1.cmp(&other.1).then(other.0.cmp(&one.0)));
        most.map(|(name, _)| name)
    }
}

/// Sorts records that name a plot to their plots.
fn by_plot<R: Clone>(
    own: Gathered<'_, R>,
    subject: impl Fn(&R) -> Subject,
    to: &mut HashMap<Id<Plot>, Vec<R>>,
) -> ControlFlow<()> {
    for record in own.records {
        if let Some(plot) = subject(record).plot {
            to.entry(plot).or_default().push(record.clone());
        }
    }
    ControlFlow::Continue(())
}

/// The grow-outs of these names, each once.
fn chosen(all: Vec<GrowOut>, names: &[String]) -> Result<Vec<GrowOut>, HouseFault> {
    let mut chosen: Vec<GrowOut> = Vec::new();
    for name in names {
        let own = all.iter().find(|grow_out| name_key(&grow_out.name) == name_key(name));
        let own = own.ok_or_else(|| HouseFault::NotKnown {
            what: "grow-out of this house",
            word: name.clone(),
            known: all.iter().map(|grow_out| grow_out.name.as_str()).collect::<Vec<_>>().join(", "),
        })?;
        if !chosen.contains(own) {
            chosen.push(own.clone());
        }
    }
    Ok(chosen)
}

/// Writes the comparison as a table, by the ending of the file's name.
///
/// # Errors
/// [`HouseFault::NotKnown`] for another ending; what the disk refuses.
pub fn export_to(compared: &Compared, file: &Path, today: Date) -> Result<(), HouseFault> {
    let known = "a file that ends in .json, .csv or .xlsx";
    let form = Form::named(file, "ending of an exported comparison", known)?;
    folder::write(file, &export(compared, form, today)?)
}

/// The comparison as the bytes of a file.
///
/// # Errors
/// [`HouseFault::Table`], which is a fault of ours.
pub fn export(compared: &Compared, form: Form, today: Date) -> Result<Vec<u8>, HouseFault> {
    tables::bytes(&sheet(&compared.comparison), form, today)
}

fn sheet(comparison: &Comparison) -> Sheet {
    let headings = [
        "variety",
        "plots",
        "mean",
        "standard_error",
        "low",
        "high",
        "letters",
        "difference",
        "difference_low",
        "difference_high",
        "chance",
    ];
    let number = |number: Option<f64>| number.map_or(Cell::Empty, Cell::Number);
    let row = |own: &Outcome| {
        let against = own.against.as_ref();
        vec![
            Cell::Text(own.variety.clone()),
            Cell::Count(own.plots as u64),
            number(own.mean.map(|mean| mean.estimate)),
            number(own.mean.map(|mean| mean.standard_error)),
            number(own.interval.map(|(low, _)| low)),
            number(own.interval.map(|(_, high)| high)),
            Cell::Text(own.letters.clone()),
            number(against.map(|against| against.difference)),
            number(against.map(|against| against.interval.0)),
            number(against.map(|against| against.interval.1)),
            number(against.map(|against| against.chance.get())),
        ]
    };
    Sheet {
        name: comparison.of.name().to_owned(),
        headings: headings.map(str::to_owned).to_vec(),
        rows: comparison.outcomes.iter().map(row).collect(),
    }
}
