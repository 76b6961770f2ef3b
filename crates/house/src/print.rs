//! Printing: the catalogue as a PDF, from the list as it stands.

use crate::claims::{self, Judge};
use crate::compare::statements::{self, Statements};
use crate::facts::whole;
use crate::fault::HouseFault;
use crate::folder::{self, House};
use crate::guides::{self, Guides};
use crate::kept::{KeptCall, KeptFacts, KeptMeasure};
use crate::list::{self, Listed};
use crate::progress::Progress;
use drawing::portrait::portrait;
use drawing::scale::Scale;
use identity::claims::Standing;
use identity::guide::fruit::FruitClass;
use jiff::civil::Date;
use ledger::ledger::Ledger;
pub use publish::catalogue::Paper;
use publish::catalogue::{
    self, Catalogue, ClaimBeside, Entry, Evidence, Facts, Measured, Portrait, Section, Together, Told,
};
use record::language::{Units, capitalised};
use record::length::{MILLIMETRES_PER_INCH, Millimetres};
use record::mass::Grams;
use record::season::Season;
use record::share::{Percent, Share};
use record::variety::{Claim, ClaimSubject};
use std::path::{Path, PathBuf};

/// Drawn pixels in an inch of print.
const PIXELS_PER_INCH: f64 = 96.0;

/// A sheet that was printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Printed {
    /// The file.
    pub file: PathBuf,
    /// Its size in bytes.
    pub bytes: u64,
    /// Varieties in it.
    pub varieties: usize,
}

/// Prints the catalogue to `file`, whole or not at all.
///
/// # Errors
/// A guide's fault; what the ledger or the disk refuses; our own fault where it cannot be set.
pub fn catalogue(
    house: &House,
    paper: Paper,
    today: Date,
    file: &Path,
    progress: &dyn Progress,
) -> Result<Printed, HouseFault> {
    let (catalogue, varieties) = gather(house, today)?;
    progress.begin("setting the catalogue", None);
    let pdf = catalogue::catalogue(&catalogue, paper)?;
    folder::write(file, &pdf)?;
    let bytes = u64::try_from(pdf.len()).unwrap_or(u64::MAX);
    Ok(Printed { file: file.to_owned(), bytes, varieties })
}

/// The file that a catalogue goes to unless another is named.
#[must_use]
pub fn catalogue_file(house: &House, today: Date) -> PathBuf {
    house.printed().join(format!("catalogue-{}.pdf", today.year()))
}

fn gather(house: &House, today: Date) -> Result<(Catalogue, usize), HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    ledger.at_one_moment(|ledger| {
        let all = list::everyone(ledger)?;
        let guides = guides::read(&guides::accepted(ledger)?)?;
        let seasons: Vec<Season> = ledger.grow_outs()?.into_iter().map(|grow_out| grow_out.season).collect();
        let units = house.settings.units;
        let sections = sections(&all, &guides, &statements::of_yield(ledger, units)?, units);
        let catalogue = Catalogue {
            house: house.settings.name.clone(),
            seasons: seasons.iter().min().copied().zip(seasons.iter().max().copied()),
            printed_on: today,
            units: house.settings.units,
            guides: titles(&guides),
            sections,
            house_fonts: Vec::new(),
        };
        Ok((catalogue, all.len()))
    })
}

/// The guides as their owner names them.
pub(crate) fn titles(guides: &Guides) -> Vec<String> {
    let (fruit, habit, colour) = (&guides.fruit, &guides.habit, &guides.colour);
    [(&fruit.title, &fruit.version), (&habit.title, &habit.version), (&colour.title, &colour.version)]
        .map(|(title, version)| format!("{title}, version {version}"))
        .to_vec()
}

/// A section a class, small to large, then those that no class takes, then those never measured.
fn sections(all: &[Listed], guides: &Guides, trials: &Statements, units: Units) -> Vec<Section> {
    let judge = Judge::of(guides);
    let of = |wanted: Option<&str>| -> Vec<Entry> {
        let own = all.iter().filter(|listed| is_measured(listed) && verdict(listed) == wanted);
        own.map(|listed| entry(listed, &judge, trials, units)).collect()
    };
    let class = |class: &FruitClass| Section {
        of: Together::Class,
        heading: capitalised(class.name.as_str()),
        about: Some(class.words.what.clone()).filter(|what| !what.is_empty()),
        entries: of(Some(class.name.as_str())),
    };
    let between = Section {
        of: Together::NoClass,
        heading: "Between classes".to_owned(),
        about: Some("Measured, and on no class's side of the guide's borders.".to_owned()),
        entries: of(None),
    };
    let unmeasured = Section {
        of: Together::NoClass,
        heading: "Not yet measured".to_owned(),
        about: Some("No fruit of these has been weighed or measured.".to_owned()),
        entries: all
            .iter()
            .filter(|one| !is_measured(one))
            .map(|one| entry(one, &judge, trials, units))
            .collect(),
    };
    let sections = guides.fruit.classes.iter().map(class).chain([between, unmeasured]);
    sections.filter(|section| !section.entries.is_empty()).collect()
}

pub(crate) fn is_measured(listed: &Listed) -> bool {
    listed.fruit.as_ref().is_some_and(|fruit| fruit.call.measured)
}

fn verdict(listed: &Listed) -> Option<&str> {
    listed.fruit.as_ref().and_then(|fruit| fruit.call.verdict.as_deref())
}

fn entry(listed: &Listed, judge: &Judge, trials: &Statements, units: Units) -> Entry {
    let portrait = is_measured(listed)
        .then(|| printed_portrait(&portrait(&listed.look(), Scale::LIFE_SIZE, units)))
        .flatten();
    Entry { portrait, ..told_entry(listed, judge, trials, units) }
}

/// What is told of a variety, without its portrait.
pub(crate) fn told_entry(listed: &Listed, judge: &Judge, trials: &Statements, units: Units) -> Entry {
    let fruit = listed.fruit.as_ref();
    let used = fruit.map(|fruit| fruit.call.used).unwrap_or_default();
    Entry {
        name: listed.variety.name.clone(),
        aliases: listed.variety.aliases.clone(),
        portrait: None,
        habit: told(listed.habit.as_ref().map(|habit| &habit.call), str::to_owned),
        fruit_class: told(fruit.map(|fruit| &fruit.call), with_article),
        colour: told(listed.colour.as_ref().map(|colour| &colour.exterior), str::to_owned),
        facts: fruit.map(|fruit| measured(&fruit.facts)).unwrap_or_default(),
        evidence: Evidence { fruit_count: used.fruits, plant_count: used.plants, season_count: used.seasons },
        claims: judged(listed, judge, units),
        trials: trials.get(&listed.variety.name).cloned().unwrap_or_default(),
        settle: contested_steps(listed),
    }
}

pub(crate) fn printed_portrait(svg: &drawing::svg::Svg) -> Option<Portrait> {
    let life = |pixels: f64| Millimetres::new(pixels / PIXELS_PER_INCH * MILLIMETRES_PER_INCH);
    let (life_width, life_height) = (life(svg.width().get())?, life(svg.height().get())?);
    Some(Portrait { svg: svg.markup().to_owned(), life_width, life_height })
}

fn told(call: Option<&KeptCall>, word: impl Fn(&str) -> String) -> Told {
    let Some(call) = call.filter(|call| call.measured) else { return Told::default() };
    let shares = call.shares.iter();
    Told {
        verdicts: shares.filter_map(|kept| Some((word(&kept.answer), Share::new(kept.share)?))).collect(),
        contested: call.contested,
        rule: None,
    }
}

fn with_article(class: &str) -> String {
    match class.chars().next() {
        Some('a' | 'e' | 'i' | 'o' | 'u') => format!("an {class}"),
        _ => format!("a {class}"),
    }
}

/// What would settle each contested call: its cheapest step.
fn contested_steps(listed: &Listed) -> Vec<String> {
    let contested = listed.calls().filter(|(_, call)| call.contested && call.measured);
    contested.filter_map(|(_, call)| call.settle.first().map(|step| step.words.clone())).collect()
}

pub(crate) fn measured(kept: &KeptFacts) -> Facts {
    Facts {
        weight: kept.weight_g.and_then(|range| each(range, Grams::new)),
        length: kept.length_mm.and_then(|range| each(range, Millimetres::new)),
        width: kept.width_mm.and_then(|range| each(range, Millimetres::new)),
        locules: kept.locules.and_then(|range| each(range, |count| Some(whole(count)))),
        soluble_solids: kept.soluble_solids_pct.and_then(|range| each(range, Percent::new)),
        dry_matter: kept.dry_matter_pct.and_then(|range| each(range, Percent::new)),
        plant_height: kept.plant_height_mm.and_then(|range| each(range, Millimetres::new)),
        days_to_ripe: kept.days_to_ripe.and_then(|range| each(range, |days| Some(whole(days)))),
    }
}

fn each<T>(range: KeptMeasure, unit: impl Fn(f64) -> Option<T>) -> Option<Measured<T>> {
    Some(Measured { usual: unit(range.usual)?, most: unit(range.low).zip(unit(range.high)) })
}

/// The claims that speak of something measured here. What a packet says of sowing is left to the packet.
fn judged(listed: &Listed, judge: &Judge, units: Units) -> Vec<ClaimBeside> {
    let judged = judge.beside(listed).into_iter().filter(|beside| beside.standing != Standing::NotJudged);
    judged.map(|beside| claim(beside, units)).collect()
}

fn claim(beside: claims::ClaimBeside, units: Units) -> ClaimBeside {
    let standing = match (&beside.standing, beside.standing.instead(units)) {
        (_, Some(instead)) => catalogue::Standing::Contradicted(instead),
        (Standing::Upheld, None) => catalogue::Standing::Upheld,
        (_, None) => catalogue::Standing::Unmeasured,
    };
    ClaimBeside { words: claimed(beside.claim), standing }
}

/// A claim in its own words; a bare number of days gets its unit.
fn claimed(claim: Claim) -> String {
    let is_bare = claim.words.trim().chars().all(|sign| sign.is_ascii_digit());
    match claim.about {
        ClaimSubject::DaysToMaturity if is_bare => format!("{} days", claim.words.trim()),
        _ => claim.words,
    }
}
