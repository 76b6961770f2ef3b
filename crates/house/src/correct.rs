//! Correcting one record: its values are written out as a row, the new ones put in, and the row read as
//! any row is, so that a correction is held to the same limits and doubts as a file.

use crate::doubts::subject;
use crate::fault::HouseFault;
use crate::folder::House;
use crate::quarantine::{Mending, NewValue};
use crate::roster;
use intake::column::ColumnUse;
use intake::entry::Entry;
use intake::kind::Kind;
use intake::layout::{Answers, ColumnAnswer};
use intake::recognise::recognise;
use intake::rejection::Rejection;
use intake::table::Table;
use intake::take::Taken;
use intake::unit::Unit;
pub use ledger::amend::Corrected;
use ledger::batch::Act;
use ledger::ledger::Ledger;
use record::colour::{ColourReading, ColourSeen, FruitPart, Pattern, Skin, TradeColour};
use record::doubt::Doubt;
use record::fruit::{FruitSample, Severity};
use record::id::Id;
use record::note::Note;
use record::pick::Pick;
use record::stage::{StageNote, StageSeen};
use record::subject::Subject;
use std::ops::ControlFlow;

/// Replaces a record by one with new values, such as `weight` = `58 g`; the old one stays in the history.
///
/// # Errors
/// [`HouseFault::NoSuchColumn`] for a measure that such a record does not have;
/// [`HouseFault::StillRejected`] for a value that cannot be taken; what the ledger refuses.
pub fn correct(
    house: &House,
    record: Id<Note>,
    values: &[NewValue],
    why: &str,
    mending: &Mending,
) -> Result<Corrected, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let old = ledger.record(record)?.note;
    let mut row = row_of(&mut ledger, &old)?;
    for new in values {
        put(&mut row, new)?;
    }
    let (note, doubts) = read_back(&mut ledger, kind(&old), &row, mending)?;
    let act = Act { who: mending.who.clone(), at: mending.at, why: Some(why.to_owned()) };
    Ok(ledger.correct(&act, record, &note, &doubts)?)
}

/// One value of a record that can be corrected.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Value {
    /// What it is, as [`correct`] takes it.
    pub heading: &'static str,
    /// Its text; empty where it was not noted.
    pub text: String,
    /// The unit of a number that names none.
    pub unit: Option<&'static str>,
}

/// Every value of a record, noted or not, in the order of its kind of table.
///
/// # Errors
/// What the ledger refuses, such as a record that it does not have.
pub fn values(house: &House, record: Id<Note>) -> Result<Vec<Value>, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let note = ledger.record(record)?.note;
    let row = row_of(&mut ledger, &note)?;
    Ok(row
        .into_iter()
        .map(|(reads, text)| Value { heading: reads.name(), text, unit: unit_of(reads) })
        .collect())
}

fn unit_of(reads: ColumnUse) -> Option<&'static str> {
    answer(0, reads).unit.map(Unit::symbol)
}

/// A record as a row: what each cell holds, and its text.
type Row = Vec<(ColumnUse, String)>;

fn kind(note: &Note) -> Kind {
    match note {
        Note::Fruit(_) => Kind::FruitSamples,
        Note::Pick(_) => Kind::Picks,
        Note::Height(_) => Kind::Heights,
        Note::Stage(_) => Kind::Stages,
        Note::Colour(_) => Kind::Colours,
    }
}

fn row_of(ledger: &mut Ledger, note: &Note) -> Result<Row, HouseFault> {
    let mut row = subject_cells(ledger, &subject(note))?;
    match note {
        Note::Fruit(fruit) => fruit_cells(&mut row, fruit),
        Note::Pick(pick) => pick_cells(&mut row, pick),
        Note::Height(height) => {
            cell(&mut row, ColumnUse::Day, Some(height.read_on));
            cell(&mut row, ColumnUse::Height, Some(height.height.get()));
        }
        Note::Stage(stage) => stage_cells(&mut row, stage),
        Note::Colour(reading) => colour_cells(&mut row, reading),
    }
    Ok(row)
}

fn subject_cells(ledger: &mut Ledger, subject: &Subject) -> Result<Row, HouseFault> {
    let mut row = Row::new();
    cell(&mut row, ColumnUse::Variety, Some(ledger.variety(subject.variety)?.name));
    cell(&mut row, ColumnUse::Season, Some(subject.season));
    let plot = ledger.plots()?.into_iter().find(|plot| Some(plot.id) == subject.plot);
    if let Some(plot) = plot {
        let grow_out = ledger.grow_outs()?.into_iter().find(|grow_out| grow_out.id == plot.grow_out);
        cell(&mut row, ColumnUse::GrowOut, grow_out.map(|grow_out| grow_out.name));
        cell(&mut row, ColumnUse::Plot, Some(plot.label));
    } else {
        cell(&mut row, ColumnUse::Plot, None::<String>);
    }
    cell(&mut row, ColumnUse::Plant, subject.plant.map(|plant| plant.0));
    Ok(row)
}

fn fruit_cells(row: &mut Row, fruit: &FruitSample) {
    cell(row, ColumnUse::Day, fruit.sampled_on);
    cell(row, ColumnUse::FruitCount, Some(fruit.fruit_count));
    cell(row, ColumnUse::Weight, fruit.weight.map(|weight| weight.get()));
    cell(row, ColumnUse::Length, fruit.length.map(|length| length.get()));
    cell(row, ColumnUse::Width, fruit.width.map(|width| width.get()));
    cell(row, ColumnUse::NeckWidth, fruit.neck_width.map(|width| width.get()));
    cell(row, ColumnUse::Locules, fruit.locules);
    cell(row, ColumnUse::SolubleSolids, fruit.soluble_solids.map(|solids| solids.get()));
    cell(row, ColumnUse::DryMatter, fruit.dry_matter.map(|dry| dry.get()));
    cell(row, ColumnUse::Lobes, fruit.lobes);
    cell(row, ColumnUse::Cracking, fruit.cracking.map(Severity::name));
    cell(row, ColumnUse::Catfacing, fruit.catfacing.map(Severity::name));
    cell(row, ColumnUse::Exterior, fruit.exterior.map(TradeColour::name));
    cell(row, ColumnUse::Flesh, fruit.flesh.map(TradeColour::name));
    cell(row, ColumnUse::Skin, fruit.skin.map(Skin::name));
}

fn pick_cells(row: &mut Row, pick: &Pick) {
    cell(row, ColumnUse::Day, Some(pick.picked_on));
    cell(row, ColumnUse::FruitCount, pick.fruit_count);
    cell(row, ColumnUse::Weight, pick.weight.map(|weight| weight.get()));
    for cull in &pick.culls {
        cell(row, ColumnUse::CullCount(cull.cause), cull.fruit_count);
        cell(row, ColumnUse::CullWeight(cull.cause), cull.weight.map(|weight| weight.get()));
    }
}

fn stage_cells(row: &mut Row, stage: &StageNote) {
    cell(row, ColumnUse::Day, stage.noted_on);
    let yes = Some("yes");
    match &stage.seen {
        StageSeen::FirstFlower => cell(row, ColumnUse::FirstFlower, yes),
        StageSeen::FirstRipe => cell(row, ColumnUse::FirstRipe, yes),
        StageSeen::StemEnded { trusses } => {
            cell(row, ColumnUse::StemEnded, yes);
            cell(row, ColumnUse::Trusses, *trusses);
        }
        StageSeen::StemGrowing { trusses } => {
            cell(row, ColumnUse::StemEnded, Some("no"));
            cell(row, ColumnUse::Trusses, Some(*trusses));
        }
        StageSeen::LeavesBetweenTrusses(leaves) => cell(row, ColumnUse::LeavesBetween, Some(leaves.get())),
        StageSeen::PlantCount(plants) => cell(row, ColumnUse::PlantCount, Some(*plants)),
        StageSeen::OffType { plants, words } => {
            cell(row, ColumnUse::OffTypes, Some(*plants));
            cell(row, ColumnUse::OffTypeWords, Some(words));
        }
        StageSeen::DwarfLeaves => cell(row, ColumnUse::DwarfLeaves, yes),
    }
}

fn colour_cells(row: &mut Row, reading: &ColourReading) {
    cell(row, ColumnUse::Day, reading.read_on);
    let part = match reading.part {
        FruitPart::Exterior => "exterior",
        FruitPart::Flesh => "flesh",
        FruitPart::Gel => "gel",
    };
    cell(row, ColumnUse::Part, Some(part));
    match reading.seen {
        ColourSeen::Word(word) => cell(row, ColumnUse::Colour, Some(word.name())),
        ColourSeen::Measured(lab) => {
            cell(row, ColumnUse::Lightness, Some(lab.lightness()));
            cell(row, ColumnUse::GreenRed, Some(lab.a()));
            cell(row, ColumnUse::BlueYellow, Some(lab.b()));
        }
    }
    cell(row, ColumnUse::Pattern, reading.pattern.map(Pattern::name));
    cell(row, ColumnUse::Skin, reading.skin.map(Skin::name));
}

fn cell(row: &mut Row, reads: ColumnUse, value: Option<impl ToString>) {
    row.push((reads, value.map_or_else(String::new, |value| value.to_string())));
}

fn put(row: &mut Row, new: &NewValue) -> Result<(), HouseFault> {
    let wanted = new.heading.trim().to_lowercase();
    let cell = row.iter_mut().find(|(reads, _)| reads.name() == wanted);
    let (_, text) = cell.ok_or_else(|| HouseFault::NoSuchColumn {
        table: "such a record".to_owned(),
        heading: new.heading.clone(),
    })?;
    text.clone_from(&new.value);
    Ok(())
}

/// Reads the row as any row of such a table is read.
fn read_back(
    ledger: &mut Ledger,
    kind: Kind,
    row: &Row,
    mending: &Mending,
) -> Result<(Note, Vec<Doubt>), HouseFault> {
    let headings = row.iter().map(|(reads, _)| reads.name().to_owned()).collect();
    let cells = row.iter().map(|(_, text)| text.clone()).collect();
    let table = Table::of_rows("a correction", None, &[(1, headings), (2, cells)]);
    let answers = Answers {
        kind: Some(kind),
        heading_row: Some(1),
        columns: row.iter().enumerate().map(|(place, (reads, _))| answer(place, *reads)).collect(),
        ..Answers::default()
    };
    let fault = |fault| HouseFault::Recognise { table: "the correction".to_owned(), fault };
    let layout = recognise(&table, &[], &answers).map_err(fault)?;
    let roster = roster::gather(ledger)?;
    let mut taken = Vec::new();
    intake::take::take(&table, &layout, &roster, mending.today, &mut |one| {
        taken.push(one);
        ControlFlow::Continue(())
    })
    .map_err(|fault| HouseFault::Read { file: "a correction".to_owned(), fault })?;
    taken.into_iter().next().map_or_else(|| Err(nothing_left()), note_of)
}

fn answer(place: usize, reads: ColumnUse) -> ColumnAnswer {
    let unit = match reads.measure() {
        Some(intake::column::Measure::Mass) => Unit::of_symbol("g"),
        Some(intake::column::Measure::Length) => Unit::of_symbol("mm"),
        None => None,
    };
    ColumnAnswer { place, reads: Some(reads), unit, ..ColumnAnswer::default() }
}

fn note_of(taken: Taken) -> Result<(Note, Vec<Doubt>), HouseFault> {
    match taken {
        Taken::Entry { entry: Entry::Note(note), doubts, .. } => Ok((note, doubts)),
        Taken::Entry { .. } => Err(nothing_left()),
        Taken::Rejected(Rejection { column, fault, remedy, .. }) => {
            Err(HouseFault::StillRejected { row: None, column, reason: fault.to_string(), remedy })
        }
    }
}

fn nothing_left() -> HouseFault {
    HouseFault::StillRejected {
        row: None,
        column: None,
        reason: "nothing is left of the record".to_owned(),
        remedy: "give it a value, or withdraw it".to_owned(),
    }
}
