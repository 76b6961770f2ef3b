//! Taking: every row of a table into entries or a rejection, in one pass and flat memory.
//!
//! Start at [`take`]. What each kind of row holds is read by `fruit`, `picks`, `heights`, `stages`,
//! `colours`, `varieties`, `growouts`, `lots`, `weighings` and `germination`.

use crate::cells::{CellFault, ColumnReader};
use crate::colours::ColourColumns;
use crate::column::ColumnUse;
use crate::day;
use crate::entry::Entry;
use crate::fingerprint::Printer;
use crate::fruit::FruitColumns;
use crate::germination::GerminationColumns;
use crate::growouts::GrowOutColumns;
use crate::heights::HeightColumns;
use crate::kind::Kind;
use crate::layout::Layout;
use crate::lots::LotColumns;
use crate::picks::PickColumns;
use crate::plan::Plan;
use crate::rejection::{Rejection, RowFault};
use crate::roster::Roster;
use crate::stages::StageColumns;
use crate::suggestion::Suggestion;
use crate::table::{ReadFault, Row, Table};
use crate::varieties::VarietyColumns;
use crate::weighings::WeighingColumns;
use jiff::civil::Date;
use record::doubt::Doubt;
use std::collections::HashMap;
use std::ops::ControlFlow;

/// What one row gave; a row may give several entries, one after the other.
#[derive(Clone, Debug, PartialEq)]
pub enum Taken {
    /// An entry.
    Entry {
        /// The row's number in the file, from 1.
        row: u64,
        /// A stable number made of the kind and of the row's cells in the columns that are read, the
        /// same for every entry of a row and for the same row taken again.
        fingerprint: u64,
        /// What was read.
        entry: Entry,
        /// Why it should be looked at before anything rests on it.
        doubts: Vec<Doubt>,
    },
    /// A row for the quarantine.
    Rejected(Rejection),
}

/// How many rows were read and what became of them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// Rows below the headings.
    pub rows: u64,
    /// Rows that gave at least one entry.
    pub taken: u64,
    /// Entries given.
    pub entries: u64,
    /// Entries with a doubt.
    pub doubted: u64,
    /// Rows rejected.
    pub rejected: u64,
    /// Blank rows passed over.
    pub blank: u64,
    /// Rows that name their subject and note nothing, passed over.
    pub unfilled: u64,
    /// Rows of totals or means passed over.
    pub totals: u64,
    /// Repeated heading rows passed over.
    pub repeated_headings: u64,
}

/// What one row gives, gathered before any of it is handed on.
#[derive(Default)]
pub(crate) struct Given {
    entries: Vec<(Entry, Vec<Doubt>)>,
}

impl Given {
    pub(crate) fn push(&mut self, entry: Entry, doubts: Vec<Doubt>) {
        self.entries.push((entry, doubts));
    }
}

/// Turns every row below the headings into entries or a rejection and hands them to `each`, in the
/// file's order, until `each` breaks off.
///
/// # Errors
/// [`ReadFault`] when the file can no longer be read; what was handed on before should be dropped.
pub fn take(
    table: &Table,
    layout: &Layout,
    roster: &Roster,
    today: Date,
    each: &mut dyn FnMut(Taken) -> ControlFlow<()>,
) -> Result<Tally, ReadFault> {
    let plan = Plan::new(table, layout, roster, today);
    let mut taking = Taking::new(&plan);
    table.walk(&mut |row| {
        if row.number <= layout.heading_row {
            return ControlFlow::Continue(());
        }
        taking.row(&row, each)
    })?;
    Ok(taking.tally)
}

/// The columns of one kind of table.
enum Columns {
    Varieties(VarietyColumns),
    GrowOut(GrowOutColumns),
    Fruit(FruitColumns),
    Picks(PickColumns),
    Heights(HeightColumns),
    Stages(StageColumns),
    Colours(ColourColumns),
    Lots(Box<LotColumns>),
    SeedWeighings(Box<WeighingColumns>),
    GerminationTests(Box<GerminationColumns>),
}

impl Columns {
    fn new(plan: &Plan<'_>) -> Self {
        match plan.layout.kind {
            Kind::Varieties => Self::Varieties(VarietyColumns::new(plan)),
            Kind::GrowOut => Self::GrowOut(GrowOutColumns::new(plan)),
            Kind::FruitSamples => Self::Fruit(FruitColumns::new(plan)),
            Kind::Picks => Self::Picks(PickColumns::new(plan)),
            Kind::Heights => Self::Heights(HeightColumns::new(plan)),
            Kind::Stages => Self::Stages(StageColumns::new(plan)),
            Kind::Colours => Self::Colours(ColourColumns::new(plan)),
            Kind::Lots => Self::Lots(Box::new(LotColumns::new(plan))),
            Kind::SeedWeighings => Self::SeedWeighings(Box::new(WeighingColumns::new(plan))),
            Kind::GerminationTests => Self::GerminationTests(Box::new(GerminationColumns::new(plan))),
        }
    }

    fn read(&mut self, row: &Row<'_>, plan: &Plan<'_>, given: &mut Given) -> Result<(), CellFault> {
        match self {
            Self::Varieties(columns) => columns.read(row, plan, given),
            Self::GrowOut(columns) => columns.read(row, plan, given),
            Self::Fruit(columns) => columns.read(row, plan, given),
            Self::Picks(columns) => columns.read(row, plan, given),
            Self::Heights(columns) => columns.read(row, plan, given),
            Self::Stages(columns) => columns.read(row, plan, given),
            Self::Colours(columns) => columns.read(row, plan, given),
            Self::Lots(columns) => columns.read(row, plan, given),
            Self::SeedWeighings(columns) => columns.read(row, plan, given),
            Self::GerminationTests(columns) => columns.read(row, plan, given),
        }
    }
}

/// Unknown names for which the nearest known one is looked up in one taking. A file with more is not
/// misspelled but another house's.
const MOST_SUGGESTIONS: usize = 1000;

/// One walk along the rows.
struct Taking<'a> {
    plan: &'a Plan<'a>,
    columns: Columns,
    /// Places of the columns that make a row's fingerprint, in the order of their uses, so that a column
    /// moved or a column of remarks added leaves every row the same row.
    printed: Vec<usize>,
    /// Places in which a total row says that it is one.
    labels: Vec<usize>,
    /// Places in which a row names its variety or plot.
    names: Vec<usize>,
    printer: Printer,
    given: Given,
    suggestions: HashMap<String, Option<Suggestion>>,
    tally: Tally,
}

impl<'a> Taking<'a> {
    fn new(plan: &'a Plan<'a>) -> Self {
        let kept = plan.layout.columns.iter().filter(|column| is_kept(column.reads));
        let mut printed: Vec<_> = kept.map(|column| (column.reads, column.place)).collect();
        printed.sort_unstable();
        let places_of = |reads: &[ColumnUse]| {
            let columns = plan.layout.columns.iter().filter(|column| reads.contains(&column.reads));
            columns.map(|column| column.place).collect()
        };
        Self {
            plan,
            columns: Columns::new(plan),
            printed: printed.into_iter().map(|(_, place)| place).collect(),
            labels: places_of(&[
                ColumnUse::Variety,
                ColumnUse::Plot,
                ColumnUse::Day,
                ColumnUse::GrowOut,
                ColumnUse::Lot,
            ]),
            names: places_of(&[ColumnUse::Variety, ColumnUse::Plot, ColumnUse::Lot]),
            printer: Printer::default(),
            given: Given::default(),
            suggestions: HashMap::new(),
            tally: Tally::default(),
        }
    }

    fn row(&mut self, row: &Row<'_>, each: &mut dyn FnMut(Taken) -> ControlFlow<()>) -> ControlFlow<()> {
        self.tally.rows += 1;
        if let Some(broken) = row.broken {
            return self.reject(row, RowFault::Broken(broken).into(), each);
        }
        if self.passes_over(row) {
            return ControlFlow::Continue(());
        }
        self.given.entries.clear();
        match self.columns.read(row, self.plan, &mut self.given) {
            Ok(()) => self.hand_on(row, each),
            Err(fault) => self.reject(row, fault, each),
        }
    }

    fn hand_on(&mut self, row: &Row<'_>, each: &mut dyn FnMut(Taken) -> ControlFlow<()>) -> ControlFlow<()> {
        if self.given.entries.is_empty() {
            self.tally.unfilled += 1;
            return ControlFlow::Continue(());
        }
        self.tally.taken += 1;
        let kind = std::iter::once(self.plan.layout.kind.name());
        let fingerprint = self.printer.of(kind.chain(self.printed.iter().map(|place| row.cell(*place).text)));
        for (entry, doubts) in self.given.entries.drain(..) {
            self.tally.entries += 1;
            self.tally.doubted += u64::from(!doubts.is_empty());
            each(Taken::Entry { row: row.number, fingerprint, entry, doubts })?;
        }
        ControlFlow::Continue(())
    }

    /// Counts and passes over rows that hold nothing, totals, or the headings again.
    fn passes_over(&mut self, row: &Row<'_>) -> bool {
        let counted = match () {
            () if row.is_blank() => &mut self.tally.blank,
            () if self.is_total(row) => &mut self.tally.totals,
            () if self.is_heading(row) => &mut self.tally.repeated_headings,
            () => return false,
        };
        *counted += 1;
        true
    }

    /// Whether the row is one of totals or means: a subject cell is a word for them, or the first cell that
    /// holds anything begins with one and no variety or plot is named.
    fn is_total(&self, row: &Row<'_>) -> bool {
        let mut labels = self.labels.iter().map(|place| row.cell(*place).text);
        let first = row.cells().map(|cell| cell.text).find(|text| !text.is_empty()).unwrap_or_default();
        let mut names = self.names.iter().map(|place| row.cell(*place).text);
        let mut nameless = || names.all(|text| text.is_empty() || text == first);
        labels.any(is_total_word) || is_total_word(first) || (begins_with_total(first) && nameless())
    }

    fn is_heading(&self, row: &Row<'_>) -> bool {
        let mut same = self.plan.layout.columns.iter().filter(|column| !column.heading.is_empty());
        same.all(|column| row.cell(column.place).text.eq_ignore_ascii_case(&column.heading))
    }

    fn reject(
        &mut self,
        row: &Row<'_>,
        fault: CellFault,
        each: &mut dyn FnMut(Taken) -> ControlFlow<()>,
    ) -> ControlFlow<()> {
        self.tally.rejected += 1;
        let CellFault { place, fault } = fault;
        let column =
            place.and_then(|place| self.plan.layout.columns.iter().find(|column| column.place == place));
        let suggestion = self.suggestion(&fault);
        each(Taken::Rejected(Rejection {
            row: row.number,
            column: column.map(|column| column.heading.clone()),
            value: place.map_or_else(String::new, |place| shown(row.cell(place).text)),
            remedy: remedy(&fault, suggestion.as_ref()),
            fault,
            suggestion,
            cells: self.typed_cells(row),
        }))
    }

    fn suggestion(&mut self, fault: &RowFault) -> Option<Suggestion> {
        let RowFault::UnknownVariety(name) = fault else { return None };
        if let Some(found) = self.suggestions.get(name) {
            return found.clone();
        }
        if MOST_SUGGESTIONS <= self.suggestions.len() {
            return None;
        }
        let found = self.plan.roster.nearest(name);
        self.suggestions.insert(name.clone(), found.clone());
        found
    }

    /// The row's cells as they would be typed; a workbook's bare day numbers as days.
    fn typed_cells(&self, row: &Row<'_>) -> Vec<String> {
        let day_at = |place: usize| {
            let mut columns = self.plan.layout.columns.iter();
            columns.any(|column| column.place == place && column.reads.holds_days())
        };
        let typed = |(place, text): (usize, &str)| match day_at(place) {
            true => ColumnReader::at(place, self.plan.day_zero()).typed(row),
            false => shown(text),
        };
        row.cells().map(|cell| cell.text).enumerate().map(typed).collect()
    }
}

/// Most bytes of a rejected cell that are kept to be shown and mended.
const MOST_SHOWN: usize = 16 * 1024;

/// The beginning of a cell, short enough to be kept.
fn shown(text: &str) -> String {
    let end = (0..=MOST_SHOWN.min(text.len())).rev().find(|end| text.is_char_boundary(*end));
    text.get(..end.unwrap_or_default()).unwrap_or_default().to_owned()
}

fn remedy(fault: &RowFault, suggestion: Option<&Suggestion>) -> String {
    match suggestion {
        Some(suggestion) => format!("if {:?} is meant, accept it as another name", suggestion.nearest),
        None => fault.remedy(),
    }
}

fn is_kept(reads: ColumnUse) -> bool {
    !matches!(reads, ColumnUse::Ignored | ColumnUse::Quarantine)
}

/// Whether a text is a word for a total and what it is the total of, such as `Total plants`. A variety may
/// be named so too, so this is asked only of rows that name nothing else.
fn begins_with_total(text: &str) -> bool {
    let totalled = |word: &str| {
        let number = word.bytes().all(|byte| byte.is_ascii_digit());
        number || day::month_named(word).is_some() || TOTALLED.contains(&word.to_lowercase().as_str())
    };
    let mut words = text.split(' ');
    words.next().is_some_and(is_total_word) && words.all(totalled)
}

/// Words that may follow a word for a total.
const TOTALLED: [&str; 14] = [
    "plants", "plant", "fruit", "fruits", "plots", "picks", "weight", "wt", "of", "for", "all", "count",
    "culls", "day",
];

/// Words that begin a row of totals or means.
const TOTAL_WORDS: [&str; 14] = [
    "total",
    "totals",
    "grand total",
    "subtotal",
    "sub-total",
    "sub total",
    "sum",
    "sums",
    "average",
    "averages",
    "avg",
    "mean",
    "means",
    "overall",
];

fn is_total_word(text: &str) -> bool {
    /// No total word has more bytes; a longer text is not compared with each.
    const LONGEST: usize = 13;
    // Asked of every row, so a first letter that no total word has settles it.
    if !text.starts_with(['t', 'T', 'g', 'G', 's', 'S', 'a', 'A', 'm', 'M', 'o', 'O']) {
        return false;
    }
    let word = text.trim_end_matches([':', '.', '=', ' ']);
    word.len() <= LONGEST && TOTAL_WORDS.iter().any(|total| total.eq_ignore_ascii_case(word))
}
