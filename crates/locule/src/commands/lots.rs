//! `locule lot`: lots of seed, what is held, and what may be done with them.

use super::reference::{Shape, shape};
use super::{Failure, act, answer, lot_books, lot_kept};
use crate::answer::{Answer, Ending, Form};
use crate::arguments::lots::{Judged, LawWord, Lot as Typed, LotAction};
use crate::columns::columns;
use house::fault::HouseFault;
use house::folder::House;
use house::lots::book;
use house::lots::law::{Asked, ForOnce, JudgedBy, Law};
use house::lots::{self, LotSeen, LotState, TestJudged, telling, withdrawn};
use house::rogues::{self, Suspect};
use jiff::ZonedDateTime;
use jiff::civil::Date;
use record::language::Units;
use record::mass::Milligrams;
use record::share::WholePercent;
use schemars::JsonSchema;
use serde::Serialize;
use std::fs;
use std::io::{self, Write};
use std::path::Path;

pub(crate) fn run(house: &House, typed: Typed, form: Form) -> Result<Ending, Failure> {
    let asked = asked(house, typed.judged);
    match typed.action {
        None => list(house, asked, form),
        Some(LotAction::Show { number }) => show(house, &number, asked, form),
        Some(LotAction::Kept) => lot_kept::kept(house, asked, form),
        Some(LotAction::Take { file, by }) => {
            take(house, &file, by.as_ref())?;
            list(house, asked, form)
        }
        Some(LotAction::Write(entry)) => {
            let number = lot_books::write(house, entry)?;
            match show(house, &number, asked, form) {
                // Its founding entry was withdrawn, so that there is no such lot any more: tell the others.
                Err(Failure::House(fault)) if fault.is_missing() => list(house, asked, form),
                shown => shown,
            }
        }
    }
}

/// Takes a seed book in.
pub(super) fn take(house: &House, file: &Path, by: Option<&String>) -> Result<usize, Failure> {
    let name = file.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned());
    let text = fs::read_to_string(file).map_err(|fault| HouseFault::File { path: file.to_owned(), fault })?;
    Ok(book::take(house, book::read(&name, &text)?, &act(house, by, None))?)
}

fn list(house: &House, asked: Asked, form: Form) -> Result<Ending, Failure> {
    let found = lots::all(house, asked)?;
    let lots =
        found.lots.iter().map(|seen| told(seen, &found.by, asked.today, house.settings.units)).collect();
    answer(&Lots { lots, judged_by: judged_by(&found.by) }, form)
}

/// Tells one lot with all its entries.
pub(super) fn show(house: &House, number: &str, asked: Asked, form: Form) -> Result<Ending, Failure> {
    let (seen, by) = lots::one(house, number, asked)?;
    let entries = seen.entries.iter().map(|entry| EntryTold {
        entry: entry.number.0,
        says: telling::note(entry.note.as_ref(), house.settings.units),
        who: entry.act.who.clone(),
        at: entry.act.at.strftime("%Y-%m-%d %H:%M").to_string(),
        withdrawn_by: withdrawn(entry).map(|act| act.who.clone()),
    });
    let entries = entries.collect();
    let crossing = house::lots::isolation::of(house, &seen)?;
    let misfits = rogues::of_lot(house, &seen.lot.number)?;
    let told = OneLot {
        lot: told(&seen, &by, asked.today, house.settings.units),
        crossing: crossing.map(|crossing| crossing.words(house.settings.units)).unwrap_or_default(),
        misfits: misfits.iter().map(misfit).collect(),
        entries,
        judged_by: judged_by(&by),
    };
    answer(&told, form)
}

/// Plants of its plot that do not fit, in a line.
fn misfit(suspect: &Suspect) -> String {
    let lots = rogues::telling::lots(suspect).map(|lots| format!(" ({lots})")).unwrap_or_default();
    format!("{}: {}{lots}", rogues::telling::place(suspect), rogues::telling::why(suspect))
}

/// What lots are judged by, as it was typed.
pub(super) fn asked(house: &House, typed: Judged) -> Asked {
    let today = typed.day.unwrap_or_else(|| ZonedDateTime::now().date());
    let minimum = typed.minimum.and_then(WholePercent::new);
    Asked::by(&house.settings, today, ForOnce { law: typed.law.map(law), minimum })
}

/// Whose law, as it was typed.
pub(super) fn law(word: LawWord) -> Law {
    match word {
        LawWord::Us => Law::UnitedStates,
        LawWord::UsKy => Law::Kentucky,
        LawWord::Eu => Law::EuropeanUnion,
    }
}

/// Every lot.
#[derive(Debug, Serialize, JsonSchema)]
struct Lots {
    /// By number.
    lots: Vec<LotTold>,
    /// What they were judged by.
    judged_by: JudgedByTold,
}

/// One lot with its entries.
#[derive(Debug, Serialize, JsonSchema)]
struct OneLot {
    /// The lot.
    #[serde(flatten)]
    lot: LotTold,
    /// Whether its seed may have crossed, a part at a time, the risk first.
    crossing: Vec<String>,
    /// Plants of the plot that it was taken from, and plants grown from it, that do not fit their variety.
    misfits: Vec<String>,
    /// What was written of it, the oldest first.
    entries: Vec<EntryTold>,
    /// What it was judged by.
    judged_by: JudgedByTold,
}

/// What lots are judged by.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct JudgedByTold {
    /// Least germination in per cent, hard seed with it.
    minimum_percent: u8,
    /// Where it stands.
    rule: String,
    /// What every verdict goes with.
    notice: &'static str,
}

/// An entry of the books.
#[derive(Debug, Serialize, JsonSchema)]
struct EntryTold {
    /// Its number.
    entry: u32,
    /// What it says.
    says: String,
    /// Who wrote it.
    who: String,
    /// When, in UTC.
    at: String,
    /// Who withdrew it, where somebody did.
    withdrawn_by: Option<String>,
}

/// One lot.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct LotTold {
    /// Its number.
    number: String,
    /// Its variety.
    variety: String,
    /// The season of its harvest.
    season: i16,
    /// Seed held, in milligrams.
    held_mg: u64,
    /// Seed held, place by place, in words.
    held: Vec<String>,
    /// Seeds held, about, where its seed was weighed.
    seeds: Option<String>,
    /// The thousand-seed weight, where its seed was weighed.
    thousand_seed_weight: Option<String>,
    /// Moisture in per cent, where it was read.
    moisture_percent: Option<f64>,
    /// The newest test's germination in per cent.
    germination_percent: Option<u8>,
    /// What may be done with it: gone, untested, test again, fit, below (the law's standard), under the house's own, too old.
    state: &'static str,
    /// The same in words.
    state_words: String,
    /// The last day on which it may be shipped on its test.
    until: Option<String>,
    /// The last day on which the next test should be laid out.
    test_due: Option<String>,
    #[serde(skip)]
    due_words: Option<String>,
    /// Where it comes from.
    origin: Vec<String>,
    /// Its tests, the oldest first.
    tests: Vec<TestTold>,
    /// What keeps it from counting as hermetically sealed, where it is said to be.
    not_sealed: Vec<&'static str>,
    /// When it is expected to fall under the minimum. For planning, never for a label.
    keeps: Option<String>,
    /// What its parents keep of what is rare in its variety.
    parentage: Option<String>,
    /// What to mind, where it was treated.
    caution: Option<&'static str>,
    /// Its file sample, beside what the law asks for.
    file_sample: String,
    /// Until when its file sample and its record are kept.
    kept_until: String,
    /// How true its plants have been.
    true_to_type: Option<String>,
    /// Off-types by kind.
    off_types: Vec<String>,
    /// The certified classes' figures.
    classes: Vec<String>,
}

/// One germination test.
#[derive(Debug, Serialize, JsonSchema)]
struct TestTold {
    /// The day of the final count.
    counted: String,
    /// Germination in per cent.
    germination_percent: u8,
    /// Hard seed in per cent.
    hard_percent: u8,
    /// Seeds laid out.
    seeds: u32,
    /// Whether its replicates agree.
    replicates: String,
    /// Where it puts the lot.
    standing: String,
    /// What can honestly be promised.
    promise: String,
    /// It beside the test before.
    beside_last: Option<String>,
    /// In what it falls short of an official test.
    falls_short: Vec<String>,
    #[serde(skip)]
    words: String,
}

pub(super) fn judged_by(by: &JudgedBy) -> JudgedByTold {
    JudgedByTold { minimum_percent: by.minimum.get(), rule: by.rule.clone(), notice: telling::NOTICE }
}

pub(super) fn told(seen: &LotSeen, by: &JudgedBy, today: Date, units: Units) -> LotTold {
    let account = &seen.account;
    let (state, until) = state(account.state);
    let trueness = account.true_to_type.as_ref();
    LotTold {
        number: seen.lot.number.clone(),
        variety: seen.variety.clone(),
        season: seen.lot.season.year(),
        held_mg: account.all_held().get(),
        held: account.held.iter().map(|(place, mass)| telling::held(*place, *mass)).collect(),
        seeds: account.seeds.map(telling::seeds),
        thousand_seed_weight: telling::seed_weight(account),
        moisture_percent: account.moisture.map(|reading| reading.moisture.get()),
        germination_percent: account.tests.last().map(|test| test.verdict.counted.germination().get()),
        state,
        state_words: telling::state(account.state),
        until,
        test_due: account.test_due.map(|due| due.to_string()),
        due_words: account.test_due.map(|due| telling::due(due, today)),
        origin: telling::origin(seen, units),
        tests: account.tests.iter().map(|test| test_told(test, by.minimum)).collect(),
        not_sealed: account.sealing_faults.iter().map(|fault| telling::sealing_fault(*fault)).collect(),
        keeps: account.ageing.as_ref().map(|ageing| telling::ageing(ageing, units)),
        parentage: account.parentage.as_ref().map(telling::parentage),
        caution: seen.lot.origin.treatment.as_ref().map(|_| telling::TREATED),
        file_sample: telling::keepsakes::sample(&account.keepsakes.sample),
        kept_until: telling::keepsakes::until(&account.keepsakes, today),
        true_to_type: trueness.map(telling::true_to_type),
        off_types: trueness
            .map(|found| {
                found.off_types.iter().map(|kind| format!("{}: {}", kind.kind, kind.plants)).collect()
            })
            .unwrap_or_default(),
        classes: trueness
            .map(|found| found.classes.iter().map(|(class, faults)| telling::class(*class, faults)).collect())
            .unwrap_or_default(),
    }
}

fn state(state: LotState) -> (&'static str, Option<String>) {
    match state {
        LotState::Gone => ("gone", None),
        LotState::Untested => ("untested", None),
        LotState::TestAgain => ("test again", None),
        LotState::Fit { until } => ("fit", Some(until.to_string())),
        LotState::Below { until } => ("below", Some(until.to_string())),
        LotState::UnderHouse { until } => ("under the house's own", Some(until.to_string())),
        LotState::TooOld { until } => ("too old", Some(until.to_string())),
    }
}

fn test_told(judged: &TestJudged, minimum: WholePercent) -> TestTold {
    let counted = judged.verdict.counted;
    TestTold {
        counted: judged.test.counted_on.to_string(),
        germination_percent: counted.germination().get(),
        hard_percent: counted.hard().get(),
        seeds: counted.sown,
        replicates: telling::replicates(judged),
        standing: telling::standing(judged, minimum),
        promise: telling::promise(judged, minimum),
        beside_last: telling::beside_last(judged),
        falls_short: judged.shortfalls.iter().map(|shortfall| telling::shortfall(*shortfall)).collect(),
        words: telling::germination(judged),
    }
}

impl Answer for Lots {
    const SHAPE: &'static str = "lot/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        if self.lots.is_empty() {
            return writeln!(
                to,
                "No lot is in the books yet. Found one: locule lot new NUMBER VARIETY --season YEAR --weight MASS"
            );
        }
        columns(to, &self.lots.iter().map(LotTold::row).collect::<Vec<_>>())?;
        tell_rule(to, &self.judged_by)
    }
}

impl LotTold {
    /// One line of a list of lots.
    pub(super) fn row(&self) -> Vec<String> {
        let germination =
            self.germination_percent.map_or_else(|| "-".to_owned(), |percent| format!("{percent}%"));
        let due = self.due_words.clone().unwrap_or_default();
        vec![
            self.number.clone(),
            self.variety.clone(),
            self.season.to_string(),
            telling::mass(Milligrams::new(self.held_mg)),
            germination,
            self.state_words.clone(),
            due,
        ]
    }
}

/// Says by which rule lots were judged.
pub(super) fn tell_rule(to: &mut dyn Write, by: &JudgedByTold) -> io::Result<()> {
    writeln!(to, "\nMinimum {}%: {}.", by.minimum_percent, by.rule)?;
    writeln!(to, "{}", by.notice)
}

impl Answer for OneLot {
    const SHAPE: &'static str = "lot-show/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let lot = &self.lot;
        writeln!(to, "Lot {}: {}, harvest of {}", lot.number, lot.variety, lot.season)?;
        lot.origin.iter().try_for_each(|line| writeln!(to, "  {line}"))?;
        lot.caution.iter().try_for_each(|line| writeln!(to, "  {line}"))?;
        writeln!(to, "\nHeld: {}", telling::mass(Milligrams::new(lot.held_mg)))?;
        lot.held.iter().try_for_each(|line| writeln!(to, "  {line}"))?;
        for line in [&lot.seeds, &lot.thousand_seed_weight].into_iter().flatten() {
            writeln!(to, "  {line}")?;
        }
        if let Some(percent) = lot.moisture_percent {
            writeln!(to, "  moisture {percent}%")?;
        }
        writeln!(to, "\nState: {}", lot.state_words)?;
        lot.due_words.iter().try_for_each(|line| writeln!(to, "  {line}"))?;
        lot.not_sealed.iter().try_for_each(|fault| writeln!(to, "  not hermetically sealed: {fault}"))?;
        lot.keeps.iter().try_for_each(|line| writeln!(to, "  {line}"))?;
        lot.tests.iter().rev().try_for_each(|test| test.tell(to))?;
        if let Some(line) = &lot.true_to_type {
            writeln!(to, "\nTrue to type: {line}")?;
            lot.off_types.iter().chain(&lot.classes).try_for_each(|line| writeln!(to, "  {line}"))?;
        }
        if let [risk, rest @ ..] = self.crossing.as_slice() {
            writeln!(to, "\nCrossing: {risk}")?;
            rest.iter().try_for_each(|line| writeln!(to, "  {line}"))?;
        }
        if !self.misfits.is_empty() {
            writeln!(to, "\nPlants that do not fit")?;
            self.misfits.iter().try_for_each(|line| writeln!(to, "  {line}"))?;
        }
        lot.parentage.iter().try_for_each(|line| writeln!(to, "\nParents: {line}"))?;
        writeln!(to, "\nKept for the law: {}", lot.file_sample)?;
        writeln!(to, "  {}", lot.kept_until)?;
        writeln!(to, "\nEntries")?;
        columns(to, &self.entries.iter().map(entry_row).collect::<Vec<_>>())?;
        tell_rule(to, &self.judged_by)
    }
}

fn entry_row(entry: &EntryTold) -> Vec<String> {
    let gone = entry.withdrawn_by.as_ref().map(|who| format!("withdrawn by {who}")).unwrap_or_default();
    vec![entry.entry.to_string(), entry.says.clone(), entry.who.clone(), entry.at.clone(), gone]
}

impl TestTold {
    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(to, "\nGermination: {}", self.words)?;
        writeln!(to, "  {}", self.standing)?;
        writeln!(to, "  {}", self.promise)?;
        writeln!(to, "  {}", self.replicates)?;
        self.beside_last.iter().try_for_each(|line| writeln!(to, "  {line}"))?;
        self.falls_short.iter().try_for_each(|line| writeln!(to, "  {line}"))
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Lots>(), shape::<OneLot>(), ("seed-book/1", book::schema())]
}
