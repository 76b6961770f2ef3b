//! `locule show`: one variety opened up.

use super::Failure;
use super::calls_told::{brief, words};
use super::records::{self, RecordTold, place};
use super::reference::{Shape, shape};
use crate::answer::Answer;
use crate::arguments::Show;
use crate::columns::columns;
use house::calls::{self, CallSubject};
use house::claims::{self, Standing};
use house::folder::House;
use house::kept::{KeptCall, KeptColour, KeptFacts, KeptFruit, KeptHabit, KeptMeasure, chance};
use house::show::{self, Coded, Coding, ShownClaim};
use record::language::{self, Units, counted};
use record::length::Millimetres;
use record::mass::Grams;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// A variety opened up.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Shown {
    /// Its name.
    name: String,
    /// Other names.
    aliases: Vec<String>,
    /// Habit.
    habit: Option<KeptHabit>,
    /// Fruit class and measures.
    fruit: Option<KeptFruit>,
    /// Colour.
    colour: Option<KeptColour>,
    /// What is claimed, beside the evidence.
    claims: Vec<ClaimTold>,
    /// What trials say of its yield beside the check, where it was told from it; the latest season first.
    bore: Vec<String>,
    /// The same evidence in the open descriptor standards.
    descriptors: Vec<CodingTold>,
    /// How many records there are.
    record_count: usize,
    /// Every record, where asked for.
    records: Vec<RecordTold>,
    #[serde(skip)]
    units: Units,
}

/// A claim beside the evidence.
#[derive(Debug, Serialize, JsonSchema)]
struct ClaimTold {
    /// What it is about.
    about: String,
    /// The claim.
    words: String,
    /// `upheld`, `contradicted`, `not enough evidence to say`, or `nothing that is measured here`.
    standing: String,
    /// What the evidence says instead.
    instead: Option<String>,
    /// The records that the claim hangs on: those that uphold or contradict it.
    records: Vec<String>,
}

/// One characteristic of a descriptor standard.
#[derive(Debug, Serialize, JsonSchema)]
struct CodingTold {
    /// The standard.
    standard: String,
    /// The characteristic.
    characteristic: String,
    /// The state's number.
    state: Option<u32>,
    /// The state's wording, the figure, or why it is not coded.
    wording: String,
    /// How sure the state is, from 0 to 1.
    share: Option<f64>,
    /// `from memory, unverified` where the standard's wording was not read.
    status: Option<String>,
    /// What the standard asks for and the evidence lacks.
    shortfalls: Vec<String>,
}

pub(crate) fn run(house: &House, typed: &Show) -> Result<Shown, Failure> {
    let shown = show::show(house, &typed.variety)?;
    let units = house.settings.units;
    let records = shown.records.iter().filter(|_| typed.records);
    Ok(Shown {
        name: shown.listed.variety.name.clone(),
        aliases: shown.listed.variety.aliases.clone(),
        habit: shown.listed.habit.clone(),
        fruit: shown.listed.fruit.clone(),
        colour: shown.listed.colour.clone(),
        claims: shown.claims.iter().map(|shown| claim(shown, units)).collect(),
        bore: shown.bore.clone(),
        descriptors: shown.codings.iter().map(coding).collect(),
        record_count: shown.records.len(),
        records: records.map(|recorded| records::told(recorded, units)).collect(),
        units,
    })
}

fn claim(shown: &ShownClaim, units: Units) -> ClaimTold {
    let beside = &shown.beside;
    let standing = match &beside.standing {
        Standing::Upheld => "upheld",
        Standing::Unmeasured => "not enough evidence to say",
        Standing::NotJudged => "nothing that is measured here",
        Standing::Contradicted { .. } | Standing::MeasuredAs(_) => "contradicted",
    };
    ClaimTold {
        about: claims::about(beside.claim.about).to_owned(),
        words: beside.claim.words.clone(),
        standing: standing.to_owned(),
        instead: beside.standing.instead(units),
        records: shown.records.iter().map(ToString::to_string).collect(),
    }
}

fn coding(coding: &Coding) -> CodingTold {
    let (state, wording, share, status) = match &coding.coded {
        Coded::State { note, wording, status, share, .. } => {
            (Some(*note), wording.clone(), Some(share.get()), status.mark())
        }
        Coded::Figure { words, status } => (None, words.clone(), None, status.mark()),
        Coded::NotCoded { why } => (None, format!("not coded: {why}"), None, None),
    };
    CodingTold {
        standard: coding.standard.clone(),
        characteristic: coding.characteristic.clone(),
        state,
        wording,
        share,
        status: status.map(str::to_owned),
        shortfalls: coding.shortfalls.clone(),
    }
}

impl Answer for Shown {
    const SHAPE: &'static str = "show/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(to, "{}", self.name)?;
        if !self.aliases.is_empty() {
            writeln!(to, "  also {}", self.aliases.join(", "))?;
        }
        let calls = [
            self.habit.as_ref().map(|habit| (CallSubject::Habit, &habit.call)),
            self.fruit.as_ref().map(|fruit| (CallSubject::FruitClass, &fruit.call)),
            self.colour.as_ref().map(|colour| (CallSubject::Colour, &colour.exterior)),
        ];
        if calls.iter().all(Option::is_none) {
            writeln!(to, "Not called yet: locule call")?;
        }
        for (about, call) in calls.into_iter().flatten() {
            tell_call(to, about, call)?;
        }
        if let Some(fruit) = &self.fruit {
            tell_facts(to, &fruit.facts, self.units)?;
            for odd in &fruit.unlike {
                writeln!(to, "Does not fit: {} (season {})", odd.words, odd.season)?;
            }
        }
        for claim in &self.claims {
            writeln!(to, "{}", claim_line(claim))?;
        }
        for words in &self.bore {
            writeln!(to, "How it bore: {words}")?;
        }
        tell_descriptors(to, &self.descriptors)?;
        tell_records(to, self)
    }
}

/// `Claimed habit "bush": contradicted (semi-determinate, 97 in 100; 34 records)`.
fn claim_line(claim: &ClaimTold) -> String {
    let records = claim.records.len() as u64;
    let mut behind: Vec<String> = claim.instead.iter().cloned().collect();
    if 0 < records {
        behind.push(counted(records, "record", "records"));
    }
    let behind = if behind.is_empty() { String::new() } else { format!(" ({})", behind.join("; ")) };
    format!("Claimed {} {:?}: {}{behind}", claim.about, claim.words, claim.standing)
}

pub(super) fn tell_call(to: &mut dyn Write, about: CallSubject, call: &KeptCall) -> io::Result<()> {
    let brief = brief(about, call);
    let sure = brief.probability.filter(|_| !call.contested && call.verdict.is_some());
    let sure = sure.map(|share| format!(" ({})", chance(share))).unwrap_or_default();
    writeln!(to, "\nIts {} is {}{sure}", calls::subject(about), words(&brief))?;
    if !call.rule.is_empty() {
        writeln!(to, "  {}", call.rule)?;
    }
    let used = &call.used;
    if 0 < used.records {
        writeln!(
            to,
            "  Rests on {} of {} in {}; {} set aside.",
            counted(used.records, "record", "records"),
            counted(used.plants, "plant", "plants"),
            counted(used.seasons, "season", "seasons"),
            used.set_aside
        )?;
    }
    for line in &call.lines {
        let weight = match (line.log_odds, line.without_it) {
            (Some(odds), _) => format!(" [{}]", times(odds)),
            (None, Some(share)) => format!(" [without it {}]", chance(share)),
            (None, None) => String::new(),
        };
        let about =
            if line.words.starts_with(&line.about) { String::new() } else { format!("{}: ", line.about) };
        writeln!(to, "  {about}{}{weight}", line.words)?;
    }
    for step in &call.settle {
        writeln!(to, "  To settle it: {} Expected then {}.", step.words, chance(step.expected))?;
    }
    Ok(())
}

/// How many times likelier a line makes the verdict, in words.
fn times(log_odds: f64) -> String {
    match log_odds.exp() {
        huge if 1000.0 <= huge => "more than 1000 times likelier".to_owned(),
        many if 10.0 <= many => format!("{many:.0} times likelier"),
        more if 1.05 <= more => format!("{more:.1} times likelier"),
        even if 0.95 <= even => "says neither".to_owned(),
        less => format!("{:.1} times less likely", 1.0 / less),
    }
}

fn tell_facts(to: &mut dyn Write, facts: &KeptFacts, units: Units) -> io::Result<()> {
    writeln!(to)?;
    let mass = |grams: f64| Grams::new(grams).map(|grams| language::mass(grams, units));
    let length = |long: f64| Millimetres::new(long).map(|long| language::length(long, units));
    let plain = |digits: usize, unit: &'static str| move |value: f64| Some(format!("{value:.digits$}{unit}"));
    let rows = [
        told("Weight", facts.weight_g, &mass),
        told("Length", facts.length_mm, &length),
        told("Width", facts.width_mm, &length),
        told("Neck over width", facts.neck, &plain(2, "")),
        told("Locules", facts.locules, &plain(0, "")),
        told("Lobes", facts.lobes, &plain(0, "")),
        told("Soluble solids", facts.soluble_solids_pct, &plain(1, " %")),
        told("Dry matter", facts.dry_matter_pct, &plain(1, " %")),
        of_plots("First ripe", facts.days_to_ripe, &plain(0, " days")),
        of_plots("Plant height", facts.plant_height_mm, &length),
    ];
    columns(to, &rows.into_iter().flatten().collect::<Vec<_>>())
}

fn told(
    what: &str,
    measure: Option<KeptMeasure>,
    write: &dyn Fn(f64) -> Option<String>,
) -> Option<Vec<String>> {
    let measure = measure?;
    let range = format!("most {} to {}", write(measure.low)?, write(measure.high)?);
    let fruits = counted(measure.fruits, "fruit", "fruits");
    Some(vec![what.to_owned(), write(measure.usual)?, range, fruits])
}

/// A measure of whole plots: the median plot, and the lowest and the highest.
fn of_plots(
    what: &str,
    measure: Option<KeptMeasure>,
    write: &dyn Fn(f64) -> Option<String>,
) -> Option<Vec<String>> {
    let measure = measure?;
    let range = format!("{} to {}", write(measure.low)?, write(measure.high)?);
    let plots = counted(measure.fruits, "plot", "plots");
    Some(vec![what.to_owned(), write(measure.usual)?, range, plots])
}

fn tell_descriptors(to: &mut dyn Write, codings: &[CodingTold]) -> io::Result<()> {
    for of_standard in codings.chunk_by(|one, next| one.standard == next.standard) {
        if let Some(first) = of_standard.first() {
            writeln!(to, "\n{}", first.standard)?;
        }
        columns(to, &of_standard.iter().map(coding_row).collect::<Vec<_>>())?;
    }
    Ok(())
}

fn coding_row(coding: &CodingTold) -> Vec<String> {
    let state = coding.state.map_or(String::new(), |state| state.to_string());
    let mut remarks: Vec<String> = coding.status.iter().cloned().collect();
    remarks.extend(coding.shortfalls.iter().cloned());
    vec![format!("  {}", coding.characteristic), state, coding.wording.clone(), remarks.join("; ")]
}

fn tell_records(to: &mut dyn Write, shown: &Shown) -> io::Result<()> {
    if shown.records.is_empty() {
        let count = counted(shown.record_count as u64, "record", "records");
        return writeln!(to, "\n{count}; see them with --records.");
    }
    let row = |record: &RecordTold| {
        let day = record.day.clone().unwrap_or_else(|| record.season.to_string());
        let (state, from) = (record.state.clone(), place(record));
        vec![day, record.says.clone(), state, from, record.record.clone()]
    };
    writeln!(to)?;
    columns(to, &shown.records.iter().map(row).collect::<Vec<_>>())
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Shown>()]
}
