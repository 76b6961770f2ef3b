//! Filing a photograph: its accepted fruit become fruit samples of a plot, with the photograph as their source.
//!
//! What was measured is written out as two tables, fruit samples and colours, and taken as any table is, so that it is held to
//! the same limits and doubts, known again by the photograph's fingerprint, and undone as a batch. A row's number is the
//! fruit's number on the drawing.

use super::changes;
use super::fault::PhotoFault;
use super::plots::{self, PlotSaid};
use super::{Seen, SeenFruit, Standing};
use crate::asked::Asked;
use crate::fault::HouseFault;
use crate::folder::House;
use crate::opened::{self, Given, Opened};
use crate::progress::Unwatched;
use crate::roster;
use crate::take::{KeepReading, Request, TableTaken, take_table};
use intake::column::{ColumnUse, Measure};
use intake::kind::Kind;
use intake::layout::{Answers, ColumnAnswer};
use intake::recognise::recognise;
use intake::table::Table;
use intake::unit::Unit;
use jiff::Timestamp;
use jiff::civil::Date;
use ledger::batch::BatchNumber;
use ledger::ledger::Ledger;
use record::colour::{Lab, Pattern};
use record::length::Millimetres;

/// What a photograph's fruit are filed under.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Filing {
    /// The plot; the one that the card was printed for where none is said.
    pub plot: Option<PlotSaid>,
    /// The plant's number within its plot.
    pub plant: Option<u32>,
    /// The day that the fruit were sampled; the day that the camera wrote where none is said.
    pub day: Option<Date>,
}

/// Who files a photograph, and when.
#[derive(Clone, Debug)]
pub struct Act {
    /// Who.
    pub who: String,
    /// When.
    pub at: Timestamp,
    /// The day, for dates that lie ahead of it.
    pub today: Date,
}

/// The batch that took a photograph before, so that it need not be measured again; `None` where none stands.
///
/// # Errors
/// What the ledger or the disk refuses.
pub fn taken_before(house: &House, given: &Given) -> Result<Option<BatchNumber>, HouseFault> {
    let cause = |cause| HouseFault::file(given.name.as_ref(), cause);
    let sha256 = opened::fingerprint(&given.content).map_err(cause)?;
    let mut ledger = Ledger::open(&house.ledger_location())?;
    Ok(ledger.already_taken(sha256, Some(FRUIT))?.map(|before| before.number))
}

/// The names of a photograph's tables: of fruit samples, and of colours of skin, flesh and gel.
const FRUIT: &str = "fruit";
const COLOURS: &str = "colours";
const FLESH: &str = "colours of flesh";
const GEL: &str = "colours of gel";

/// Takes the accepted fruit of a photograph as fruit samples, and their colours as colour readings.
///
/// # Errors
/// [`PhotoFault::NoPlot`] and its neighbours; [`PhotoFault::NothingLeft`]; what the ledger refuses.
pub fn file_away(
    house: &House,
    seen: &Seen,
    filing: &Filing,
    act: &Act,
) -> Result<Vec<TableTaken>, HouseFault> {
    let accepted: Vec<&SeenFruit> =
        seen.fruit.iter().filter(|fruit| fruit.standing == Standing::Counts).collect();
    if accepted.is_empty() {
        return Err(PhotoFault::NothingLeft.into());
    }
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let under = subject(&mut ledger, seen, filing)?;
    let roster = roster::gather(&mut ledger)?;
    let request = Request {
        who: act.who.clone(),
        at: act.at,
        today: act.today,
        asked: Asked::default(),
        keep_reading: KeepReading::Once,
        why: changes::kept(&seen.said),
    };
    let mut taken = Vec::new();
    let tables: [(Kind, &str, Measures); 4] = [
        (Kind::FruitSamples, FRUIT, shape),
        (Kind::Colours, COLOURS, |fruit| colour("exterior", fruit.colour, fruit.pattern)),
        (Kind::Colours, FLESH, |fruit| colour("flesh", fruit.cut()?.flesh, None)),
        (Kind::Colours, GEL, |fruit| colour("gel", fruit.cut()?.jelly, None)),
    ];
    for (kind, sheet, measures) in tables {
        let rows = accepted.iter().filter_map(|fruit| Some((fruit.number, measures(fruit)?)));
        if let Some(opened) = opened(seen, (kind, sheet), &under, rows)? {
            taken.push(take_table(&mut ledger, &opened, &roster, &request, &Unwatched)?);
        }
    }
    Ok(taken)
}

/// A record as a row: what each cell holds, and its text.
type Cells = Vec<(ColumnUse, String)>;
type Measures = fn(&SeenFruit) -> Option<Cells>;

/// What every row says of where its fruit grew.
fn subject(ledger: &mut Ledger, seen: &Seen, filing: &Filing) -> Result<Cells, HouseFault> {
    let said = filing.plot.as_ref().or(seen.plot.as_ref()).ok_or(PhotoFault::NoPlot)?;
    let (plot, grow_out) = plots::said(ledger, said)?;
    let day = filing.day.or(seen.taken_on);
    Ok(vec![
        (ColumnUse::Variety, ledger.variety(plot.variety)?.name),
        (ColumnUse::Season, grow_out.season.to_string()),
        (ColumnUse::GrowOut, grow_out.name),
        (ColumnUse::Plot, plot.label),
        (ColumnUse::Plant, filing.plant.map_or_else(String::new, |plant| plant.to_string())),
        (ColumnUse::Day, day.map_or_else(String::new, |day| day.to_string())),
    ])
}

fn shape(fruit: &SeenFruit) -> Option<Cells> {
    let side = fruit.side();
    let known = side.filter(|_| fruit.is_shape_known());
    let count = |count: Option<u32>| count.map_or_else(String::new, |count| count.to_string());
    let width = fruit.is_shape_known().then_some(fruit.width);
    let written = |number: Option<f64>| number.map(tenths).unwrap_or_default();
    Some(vec![
        (ColumnUse::FruitCount, "1".to_owned()),
        (ColumnUse::Weight, written(side.map(|side| side.weight.get()))),
        (ColumnUse::Length, written(known.map(|side| side.length.get()))),
        (ColumnUse::Width, written(width.map(Millimetres::get))),
        (ColumnUse::NeckWidth, written(known.map(|side| side.neck_width.get()))),
        (ColumnUse::Lobes, count(fruit.lobes())),
        (ColumnUse::Locules, count(fruit.cut().and_then(|face| face.locules()))),
    ])
}

fn colour(part: &str, colour: Option<Lab>, pattern: Option<Pattern>) -> Option<Cells> {
    let colour = colour?;
    Some(vec![
        (ColumnUse::Part, part.to_owned()),
        (ColumnUse::Lightness, tenths(colour.lightness())),
        (ColumnUse::GreenRed, tenths(colour.a())),
        (ColumnUse::BlueYellow, tenths(colour.b())),
        (ColumnUse::Pattern, pattern.map_or("", Pattern::name).to_owned()),
    ])
}

fn tenths(number: f64) -> String {
    format!("{number:.1}")
}

/// The rows as a table of a kind; nothing where there are none.
fn opened(
    seen: &Seen,
    (kind, sheet): (Kind, &str),
    under: &Cells,
    rows: impl Iterator<Item = (u32, Cells)>,
) -> Result<Option<Opened>, HouseFault> {
    let (mut table, mut reads) = (Vec::new(), Vec::new());
    for (number, measures) in rows {
        let whole: Cells = under.iter().cloned().chain(measures).collect();
        reads = whole.iter().map(|(reads, _)| *reads).collect();
        table.push((u64::from(number), whole.into_iter().map(|(_, text)| text).collect()));
    }
    if table.is_empty() {
        return Ok(None);
    }
    let headings = reads.iter().map(|reads| reads.name().to_owned()).collect();
    table.insert(0, (0, headings));
    let table = Table::of_rows(&seen.name, Some(sheet), &table);
    let answers = Answers {
        kind: Some(kind),
        heading_row: Some(0),
        columns: reads.iter().enumerate().map(|(place, reads)| answer(place, *reads)).collect(),
        ..Answers::default()
    };
    let fault = |fault| HouseFault::Recognise { table: seen.name.clone(), fault };
    let layout = recognise(&table, &[], &answers).map_err(fault)?;
    Ok(Some(Opened { table, layout, sha256: seen.sha256 }))
}

fn answer(place: usize, reads: ColumnUse) -> ColumnAnswer {
    let unit = match reads.measure() {
        Some(Measure::Mass) => Unit::of_symbol("g"),
        Some(Measure::Length) => Unit::of_symbol("mm"),
        None => None,
    };
    ColumnAnswer { place, reads: Some(reads), unit, ..ColumnAnswer::default() }
}
