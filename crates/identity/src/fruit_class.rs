//! The fruit-class call: currant or cherry, plum or paste, and how sure.
//!
//! A variety's true mean traits are never known, only estimated from so many fruits of so many plants and
//! seasons. So the traits are drawn many times from what is known of them (`Evidence` -> `Posterior`),
//! each draw goes through the guide's rules with its soft borders drawn along, and the share of draws in
//! each class is that class's probability. Draws that no class takes are "between classes". Plants that do
//! not fit their variety ([`crate::unlike`]) are set aside first.
//!
//! Start at [`call`] for one variety, [`call_all`] for a house. [`marks`] tells the shape marks.

pub(crate) mod draws;
pub(crate) mod evidence;
pub(crate) mod posterior;
pub(crate) mod rules;
mod usual;
pub(crate) mod words;

pub use draws::Draws;

use crate::call::{Call, EvidenceLine, Pull, Step, Used, is_contested};
use crate::guide::fruit::{ClassName, FruitClass, FruitGuide, ShapeMark, Way};
use crate::settle::{self, Imagined, first_look};
use crate::spread::Spread;
use crate::sums::FruitSums;
use crate::unlike;
use evidence::{Evidence, LINES, Line};
use posterior::Posterior;
use rayon::prelude::{IntoParallelRefIterator, ParallelIterator};
use record::language::Units;
use record::share::Share;
use rules::{Rules, Tally};
use words::Teller;

pub(crate) use draws::{Point, TRAIT_DIMENSIONS};

/// A shape mark and how likely the variety carries it.
#[derive(Clone, Debug, PartialEq)]
pub struct MarkShare {
    /// The mark.
    pub mark: ClassName,
    /// How likely; `None` where nothing measured tells it.
    pub share: Option<Share>,
    /// What it rests on, in words.
    pub words: String,
}

/// Calls one variety's fruit class. `units` are those of the house, told first.
#[must_use]
pub fn call(
    sums: &FruitSums,
    spread: &Spread,
    guide: &FruitGuide,
    draws: &Draws,
    units: Units,
) -> Call<ClassName> {
    call_by(&Rules::classes(guide), sums, spread, guide, draws, units)
}

/// Calls many varieties on all cores, in the order given.
#[must_use]
pub fn call_all(
    varieties: &[&FruitSums],
    spread: &Spread,
    guide: &FruitGuide,
    draws: &Draws,
    units: Units,
) -> Vec<Call<ClassName>> {
    let rules = Rules::classes(guide);
    varieties.par_iter().map(|sums| call_by(&rules, sums, spread, guide, draws, units)).collect()
}

/// What one more look at `fruits` fruits would tell of their class, each look that was not taken yet, the
/// cheapest first; nothing where the class is settled.
#[must_use]
pub fn looks(sums: &FruitSums, spread: &Spread, guide: &FruitGuide, draws: &Draws, fruits: u32) -> Vec<Step> {
    let evidence = Evidence::of(sums, spread);
    let (posterior, rules) = (evidence.posterior(), Rules::classes(guide));
    let imagined = Imagined { evidence: &evidence, posterior: &posterior, rules: &rules, draws, guide };
    first_look::looks(&imagined, fruits)
}

/// The shape marks (heart, hollow, ribbed) that a variety's fruit carries, each with its share.
#[must_use]
pub fn marks(
    sums: &FruitSums,
    spread: &Spread,
    guide: &FruitGuide,
    draws: &Draws,
    units: Units,
) -> Vec<MarkShare> {
    let (sums, _) = unlike::set_aside(sums, spread);
    let evidence = Evidence::of(&sums, spread);
    let posterior = evidence.posterior();
    let middle = posterior.as_measured();
    let teller = Teller { guide, middle, evidence: &evidence, units };
    let told = |mark: &ShapeMark| {
        let measured = mark.ways.iter().any(|way| teller.is_told(way));
        let tally = Rules::single(guide, &mark.ways).tally(&posterior, &draws.call);
        let share = measured.then(|| Share::new(tally.share(tally.draws - tally.between()))).flatten();
        let words = teller.nearest(&mark.ways).map_or_else(String::new, |(way, _)| teller.way(way));
        MarkShare { mark: mark.name.clone(), share, words }
    };
    guide.marks.iter().map(told).collect()
}

fn call_by(
    rules: &Rules,
    sums: &FruitSums,
    spread: &Spread,
    guide: &FruitGuide,
    draws: &Draws,
    units: Units,
) -> Call<ClassName> {
    let (sums, set_aside) = unlike::set_aside(sums, spread);
    let evidence = Evidence::of(&sums, spread);
    let used = used(&sums, set_aside);
    if !evidence.is_sized() {
        let names: Vec<ClassName> = guide.class_names().cloned().collect();
        let rule = "No fruit was weighed or measured, so no class can be told".to_owned();
        return Call { used, ..Call::without_evidence(&names, rule) };
    }
    let posterior = evidence.posterior();
    let tally = rules.tally(&posterior, &draws.call);
    let middle = posterior.as_measured();
    let teller = Teller { guide, middle, evidence: &evidence, units };
    let mut call = verdict(guide, &tally);
    call.rule = rule(&teller, rules, &tally, &call);
    call.lines = lines(&teller, rules, &posterior, draws, &call);
    call.used = used;
    if call.contested {
        let imagined = Imagined { evidence: &evidence, posterior: &posterior, rules, draws, guide };
        call.settle = settle::steps(&imagined, &call);
    }
    call
}

fn used(sums: &FruitSums, set_aside: u64) -> Used {
    Used {
        records: sums.record_count(),
        fruits: sums.fruit_count(),
        plants: sums.plant_count(),
        seasons: sums.seasons().len() as u64,
        set_aside,
    }
}

/// Shares and verdict, with nothing said of them yet.
fn verdict(guide: &FruitGuide, tally: &Tally) -> Call<ClassName> {
    let share = |count: u64| Share::of(count, tally.draws).unwrap_or(Share::NONE);
    let named = guide.class_names().cloned().zip(tally.counts.iter().map(|count| share(*count)));
    let mut shares: Vec<(ClassName, Share)> = named.collect();
    // Stable, so that classes with equal shares keep the guide's order.
    shares.sort_by(|one, other| other.1.get().total_cmp(&one.1.get()));
    let between = share(tally.between());
    let leading = shares.first().filter(|(_, leading)| between.get() <= leading.get());
    let verdict = leading.map(|(name, _)| name.clone());
    let contested = is_contested(leading.map_or(between, |(_, share)| *share));
    let mut call = Call::without_evidence(&[], String::new());
    call.verdict = verdict;
    call.shares = shares;
    call.between = between;
    call.contested = contested;
    call
}

/// The sentence that says which rule decided and which border is near.
fn rule(teller: &Teller<'_>, rules: &Rules, tally: &Tally, call: &Call<ClassName>) -> String {
    let index = |name: &ClassName| teller.guide.class_names().position(|own| own == name);
    let decided = call.verdict.as_ref().and_then(|name| {
        let (class, index) = (teller.guide.class(name)?, index(name)?);
        let way = class.ways.get(rules.leading_way(tally, index)?)?;
        Some(format!("{name}: {}", teller.way(way)))
    });
    let decided = decided.unwrap_or_else(|| "Between classes: no rule of the guide takes it".to_owned());
    let nearest = nearest_other(teller, call).and_then(|class| {
        let missed = teller.missed(teller.nearest(&class.ways)?.0);
        (!missed.is_empty()).then(|| format!("{} asks for: {missed}", class.name))
    });
    match nearest {
        Some(nearest) => format!("{decided}. The nearest other, {nearest}"),
        None => decided,
    }
}

/// The class that is told beside the decision: the runner-up; or, between classes, the one whose edge is
/// nearest.
fn nearest_other<'g>(teller: &Teller<'g>, call: &Call<ClassName>) -> Option<&'g FruitClass> {
    let miss = |class: &FruitClass| teller.nearest(&class.ways).map_or(f64::INFINITY, |(_, miss)| miss);
    if call.verdict.is_none() {
        return teller.guide.classes.iter().min_by(|one, other| miss(one).total_cmp(&miss(other)));
    }
    let runner_up = call.shares.get(1).filter(|(_, share)| TOLD_FROM <= share.get());
    runner_up.and_then(|(name, _)| teller.guide.class(name))
}

/// A class with less than this share is not worth a word. Common practice, no source.
const TOLD_FROM: f64 = 0.01;

/// Each line of evidence, and how much it decides; missing ones where a likely class asks for them.
fn lines(
    teller: &Teller<'_>,
    rules: &Rules,
    posterior: &Posterior,
    draws: &Draws,
    call: &Call<ClassName>,
) -> Vec<EvidenceLine> {
    let verdict =
        call.verdict.as_ref().and_then(|name| teller.guide.class_names().position(|own| own == name));
    let likely = call.shares.iter().filter(|(_, share)| TOLD_FROM <= share.get());
    let likely: Vec<&Way> =
        likely.filter_map(|(name, _)| teller.guide.class(name)).flat_map(|class| &class.ways).collect();
    let told = |line: Line| {
        let about = words::measure_of(line, teller.evidence).words().to_owned();
        let Some(words) = words::line(line, posterior, teller.evidence, teller.units) else {
            let words = format!("{about} not measured: what is usual stands in for it");
            let missed = words::is_asked(likely.iter().copied(), line);
            return missed.then_some(EvidenceLine { about, words, pull: Pull::Missing });
        };
        let asked = words::is_asked(teller.guide.classes.iter().flat_map(|class| &class.ways), line);
        let without = || without(line, verdict, rules, posterior, draws);
        let pull = if asked { Pull::WithoutIt(without()) } else { Pull::Aside };
        Some(EvidenceLine { about, words, pull })
    };
    LINES.into_iter().filter_map(told).collect()
}

/// How sure the verdict would be without one line.
fn without(line: Line, verdict: Option<usize>, rules: &Rules, posterior: &Posterior, draws: &Draws) -> Share {
    let tally = rules.tally(&posterior.without(line), &draws.after);
    let part = verdict.map_or(tally.between(), |index| tally.counts.get(index).copied().unwrap_or(0));
    Share::of(part, tally.draws).unwrap_or(Share::NONE)
}

impl Teller<'_> {
    /// Whether every measure that a way asks for was measured.
    fn is_told(&self, way: &Way) -> bool {
        way.bands.iter().all(|band| self.is_measured(band.measure))
    }
}
