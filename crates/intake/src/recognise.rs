//! Recognising a table: its heading row, its kind and its columns. What the cells of each column agree on
//! is found by `survey`. Start at [`recognise`].

use crate::column::ColumnUse;
use crate::fingerprint;
use crate::headings;
use crate::kind::Kind;
use crate::layout::{Answers, Column, Layout, SavedMapping};
use crate::survey;
use crate::table::{Broken, ReadFault, Row, Table};
use record::season::Season;
use record::variety::ClaimSubject;
use std::ops::ControlFlow;

/// Why a table could not be recognised.
#[derive(Debug, thiserror::Error)]
pub enum RecogniseFault {
    /// No row with anything in it.
    #[error("the table is empty")]
    Empty,
    /// No row could be split into cells.
    #[error("row {row}: {broken}")]
    Broken {
        /// The first that could not.
        row: u64,
        /// Why.
        broken: Broken,
    },
    /// No row reads like headings.
    #[error("no row of headings was found; the first row reads {first_row:?}")]
    NoHeadings {
        /// The first row, its cells parted by bars.
        first_row: String,
    },
    /// Headings that could be of several kinds.
    #[error("the headings fit {}", either(.kinds))]
    SeveralKinds {
        /// The kinds they fit.
        kinds: Vec<Kind>,
    },
    /// Headings that lack what the kind needs.
    #[error("a table of {} needs a column for {missing}", .kind.name())]
    Lacking {
        /// The kind.
        kind: Kind,
        /// What is missing, in words.
        missing: &'static str,
    },
    /// The file could not be read to its end.
    #[error(transparent)]
    Read(#[from] ReadFault),
}

impl RecogniseFault {
    /// What the grower can do about it, in lower case with no full stop.
    #[must_use]
    pub fn remedy(&self) -> String {
        match self {
            Self::Empty => "choose a sheet with rows in it".to_owned(),
            Self::Broken { broken, .. } => broken.remedy().to_owned(),
            Self::NoHeadings { .. } => {
                "give the columns headings such as variety, date, weight (g)".to_owned()
            }
            Self::SeveralKinds { .. } => "say which it is".to_owned(),
            Self::Lacking { missing, .. } => format!("add a column for {missing}, or say which column it is"),
            Self::Read(_) => "check that the file is still there".to_owned(),
        }
    }
}

fn either(kinds: &[Kind]) -> String {
    kinds.iter().map(|kind| kind.name()).collect::<Vec<_>>().join(" or ")
}

/// Recognises what a table is and what its columns hold.
///
/// What the user says (`answers`) goes before a saved mapping with the same headings, and that
/// before what the headings and cells say. Reads the whole table once.
///
/// # Errors
/// [`RecogniseFault`] when no heading row or no single kind can be made out.
pub fn recognise(table: &Table, saved: &[SavedMapping], answers: &Answers) -> Result<Layout, RecogniseFault> {
    let top = top_rows(table, answers.heading_row)?;
    let (at, mapping) = heading_row(&top, saved, answers)?;
    let heading = top.get(at).ok_or(RecogniseFault::Empty)?;
    let exported = headings::exported(&heading.cells);
    let answers = match mapping {
        Some(mapping) => answers.over(&mapping.answers.beside(&exported)),
        None => answers.clone(),
    };
    let titles: Vec<String> = top.iter().take(at).map(TopRow::words).collect();
    let kind = match answers.kind {
        Some(kind) => kind,
        None => choose_kind(table, heading, &titles)?,
    };
    let columns = read_columns(heading, kind, &answers);
    lacks_nothing(kind, &columns)?;
    let mut layout = Layout {
        kind,
        heading_row: heading.number,
        heading_fingerprint: heading.fingerprint(),
        columns,
        season: answers.season,
        grow_out: answers.grow_out.clone(),
        titles,
        row_count: 0,
        notes: Vec::new(),
        questions: Vec::new(),
        mapping: mapping.map(|mapping| mapping.name.clone()),
    };
    season_from_titles(&mut layout, table.sheet());
    survey::survey(table, &mut layout, &answers)?;
    Ok(layout)
}

/// Whether headings are of notes: whether they speak of varieties, grow-outs, plots or plants or of something that is
/// measured on them, or a mapping was saved for them.
#[must_use]
pub fn is_of_notes(headings: &[String], saved: &[SavedMapping]) -> bool {
    let reads = |heading: &String| {
        Kind::ALL.into_iter().filter_map(|kind| headings::meaning(heading, kind)).any(|meaning| {
            use ColumnUse::{Aliases, GrowOut, Lot, Plant, Plot, Variety};
            let named = matches!(meaning.reads, Variety | Aliases | GrowOut | Plot | Plant | Lot);
            named || meaning.reads.measure().is_some()
        })
    };
    let row = TopRow { number: 1, cells: headings.to_vec() };
    headings.iter().any(reads) || saved.iter().any(|mapping| mapping.heading_fingerprint == row.fingerprint())
}

/// Rows from the top among which the headings are looked for.
const TOP_ROWS: usize = 50;

/// One row near the top of a table.
struct TopRow {
    number: u64,
    cells: Vec<String>,
}

impl TopRow {
    fn of(row: &Row<'_>) -> Self {
        let mut cells: Vec<String> = row.cells().map(|cell| cell.text.to_owned()).collect();
        let filled = cells.iter().rposition(|cell| !cell.is_empty()).map_or(0, |last| last + 1);
        cells.truncate(filled);
        Self { number: row.number, cells }
    }

    fn words(&self) -> String {
        let filled: Vec<&str> =
            self.cells.iter().map(String::as_str).filter(|cell| !cell.is_empty()).collect();
        filled.join(" | ")
    }

    /// A stable number made of the headings; columns that our own exports add do not count.
    fn fingerprint(&self) -> u64 {
        let exported = headings::exported(&self.cells);
        let own = self.cells.iter().enumerate().filter(|(place, _)| !exported.contains(place));
        let folded: Vec<String> = own.map(|(_, cell)| headings::folded(cell)).collect();
        fingerprint::of_headings(folded.iter().map(String::as_str))
    }

    fn known(&self, kind: Kind) -> usize {
        let kept = |cell: &&String| {
            headings::meaning(cell, kind).is_some_and(|meaning| meaning.reads != ColumnUse::Ignored)
        };
        self.cells.iter().filter(kept).count()
    }

    fn most_known(&self) -> usize {
        Kind::ALL.into_iter().map(|kind| self.known(kind)).max().unwrap_or_default()
    }
}

/// The first rows with anything in them, up to the row that was named as the headings.
fn top_rows(table: &Table, named: Option<u64>) -> Result<Vec<TopRow>, RecogniseFault> {
    let (mut top, mut first_broken) = (Vec::new(), None);
    table.walk(&mut |row| {
        first_broken = first_broken.or(row.broken.map(|broken| (row.number, broken)));
        let readable = row.broken.is_none() && !row.is_blank();
        if readable && (top.len() < TOP_ROWS || named == Some(row.number)) {
            top.push(TopRow::of(&row));
        }
        let enough = TOP_ROWS <= top.len() && named.is_none_or(|named| named <= row.number);
        if enough { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
    })?;
    match first_broken {
        Some((row, broken)) if top.is_empty() => Err(RecogniseFault::Broken { row, broken }),
        _ => Ok(top),
    }
}

/// Headings that must be known in a row for it to be the heading row, unless it has only one cell.
const LEAST_KNOWN: usize = 2;

/// Finds the heading row: the one named, the one of a saved mapping, or the one with most known headings.
fn heading_row<'a>(
    top: &[TopRow],
    saved: &'a [SavedMapping],
    answers: &Answers,
) -> Result<(usize, Option<&'a SavedMapping>), RecogniseFault> {
    let mapping_of =
        |row: &TopRow| saved.iter().find(|mapping| mapping.heading_fingerprint == row.fingerprint());
    if let Some(named) = answers.heading_row {
        let at = top.iter().position(|row| row.number == named).ok_or(RecogniseFault::Empty)?;
        return Ok((at, top.get(at).and_then(mapping_of)));
    }
    let mapped = top.iter().enumerate().find_map(|(at, row)| Some((at, mapping_of(row)?)));
    if let Some((at, mapping)) = mapped {
        return Ok((at, Some(mapping)));
    }
    let first = top.first().ok_or(RecogniseFault::Empty)?;
    let scored = top.iter().enumerate().rev().map(|(at, row)| (row.most_known(), at, row.cells.len()));
    match scored.max_by_key(|(known, ..)| *known) {
        Some((known, at, width)) if LEAST_KNOWN.min(width) <= known => Ok((at, None)),
        // The user says what the columns are, so the first row may read as it likes.
        _ if answers.kind.is_some() && !answers.columns.is_empty() => Ok((0, None)),
        _ => Err(RecogniseFault::NoHeadings { first_row: first.words() }),
    }
}

/// The kind whose headings most of the row are; between equals, the one that the names of file and sheet
/// or the titles speak of.
fn choose_kind(table: &Table, heading: &TopRow, titles: &[String]) -> Result<Kind, RecogniseFault> {
    let columns_as = |kind: Kind| read_columns(heading, kind, &Answers::default());
    let fit = |kind: &Kind| {
        let columns = columns_as(*kind);
        lacks_nothing(*kind, &columns).is_ok() && (*kind != Kind::Varieties || is_a_list(&columns))
    };
    let known =
        |kind: Kind| columns_as(kind).iter().filter(|column| column.reads != ColumnUse::Ignored).count();
    let most = Kind::ALL.into_iter().filter(fit).map(known).max();
    let Some(most) = most else { return Err(nearest_lack(heading)) };
    let best: Vec<Kind> = Kind::ALL.into_iter().filter(fit).filter(|kind| known(*kind) == most).collect();
    let told: Vec<Kind> = best.iter().copied().filter(|kind| is_told(*kind, table, titles)).collect();
    match (best.as_slice(), told.as_slice()) {
        ([kind], _) | (_, [kind]) => Ok(*kind),
        _ => Err(RecogniseFault::SeveralKinds { kinds: best }),
    }
}

/// Whether a table lists varieties: colour and weight alone stand over samples too, so something else must
/// be claimed, or nothing at all.
fn is_a_list(columns: &[Column]) -> bool {
    let shared = [ColumnUse::Claim(ClaimSubject::Colour), ColumnUse::Claim(ClaimSubject::FruitWeight)];
    let claims = columns.iter().map(|column| column.reads).filter(|reads| !shared.contains(reads));
    let own = claims.filter(|reads| matches!(reads, ColumnUse::Aliases | ColumnUse::Claim(_))).count();
    0 < own || columns.len() == 1
}

/// What the kind that most headings speak for lacks.
fn nearest_lack(heading: &TopRow) -> RecogniseFault {
    let nearest = Kind::ALL.into_iter().rev().max_by_key(|kind| heading.known(*kind));
    let columns = nearest.map(|kind| (kind, read_columns(heading, kind, &Answers::default())));
    let lack = columns.and_then(|(kind, columns)| lacks_nothing(kind, &columns).err());
    lack.unwrap_or_else(|| RecogniseFault::NoHeadings { first_row: heading.words() })
}

/// Words in the names of files and sheets and in titles that tell a kind.
const TELLING: [(Kind, &[&str]); 10] = [
    (Kind::Varieties, &["varieties", "variety list", "the list", "catalogue"]),
    (Kind::GrowOut, &["plots", "growout", "grow-out", "planting", "bed map", "plan"]),
    (Kind::FruitSamples, &["sample", "measure", "fruit bench"]),
    (Kind::Picks, &["pick", "harvest", "yield"]),
    (Kind::Heights, &["height"]),
    (Kind::Stages, &["stage", "walk"]),
    (Kind::Colours, &["colour", "color"]),
    (Kind::Lots, &["lots", "seed room", "jars"]),
    (Kind::SeedWeighings, &["weighing", "seed weight", "thousand"]),
    (Kind::GerminationTests, &["germination"]),
];

fn is_told(kind: Kind, table: &Table, titles: &[String]) -> bool {
    let words = TELLING.iter().filter(|(told, _)| *told == kind).flat_map(|(_, words)| *words);
    let names = [Some(table.file_name()), table.sheet()].into_iter().flatten();
    let texts: Vec<String> = names.chain(titles.iter().map(String::as_str)).map(str::to_lowercase).collect();
    words.into_iter().any(|word| texts.iter().any(|text| text.contains(word)))
}

/// What each heading means in tables of `kind`, the user's word first.
fn read_columns(heading: &TopRow, kind: Kind, answers: &Answers) -> Vec<Column> {
    let mut columns: Vec<Column> = heading
        .cells
        .iter()
        .enumerate()
        .map(|(place, text)| read_column(place, text, kind, answers))
        .collect();
    let answered = |place: usize| answers.column(place).is_some_and(|answer| answer.reads.is_some());
    let order: Vec<usize> = (0..columns.len()).filter(|at| answered(*at)).collect();
    let others = (0..columns.len()).filter(|at| !answered(*at));
    for place in headings::exported(&heading.cells) {
        if let Some(column) = columns.get_mut(place) {
            column.reads = ColumnUse::Quarantine;
            (column.understood, column.unit) = (true, None);
        }
    }
    let mut taken = Vec::new();
    for at in order.into_iter().chain(others) {
        if let Some(column) = columns.get_mut(at) {
            yield_if_taken(column, &mut taken);
        }
    }
    columns
}

fn read_column(place: usize, heading: &str, kind: Kind, answers: &Answers) -> Column {
    let meaning = headings::meaning(heading, kind);
    let answer = answers.column(place);
    let said = answer.and_then(|answer| answer.reads);
    let reads = said.or(meaning.map(|meaning| meaning.reads)).unwrap_or(ColumnUse::Ignored);
    let unit = answer.and_then(|answer| answer.unit).or(meaning.and_then(|meaning| meaning.unit));
    let unit_note = unit.map(|unit| format!("in {}", unit.symbol()));
    Column {
        place,
        heading: heading.to_owned(),
        reads,
        understood: said.is_some() || meaning.is_some(),
        unit,
        decimal_mark: answer.and_then(|answer| answer.decimal_mark),
        date_order: answer.and_then(|answer| answer.date_order),
        samples: Vec::new(),
        notes: unit_note.into_iter().collect(),
    }
}

/// Of two columns that hold the same thing, one is read.
fn yield_if_taken(column: &mut Column, taken: &mut Vec<ColumnUse>) {
    let many_may = matches!(column.reads, ColumnUse::Ignored | ColumnUse::Quarantine);
    if !many_may && taken.contains(&column.reads) {
        column.notes = vec![format!("passed over: another column is read as {}", column.reads.name())];
        column.reads = ColumnUse::Ignored;
        column.unit = None;
    }
    taken.push(column.reads);
}

/// One need of a kind: any of these columns, and how the lack of all is told.
type Need = (&'static [ColumnUse], &'static str);

const SUBJECT: Need = (&[ColumnUse::Variety, ColumnUse::Plot], "the variety or the plot");
const ON_A_DAY: Need = (&[ColumnUse::Day], "the date");

const OF_A_LOT: Need = (&[ColumnUse::Lot], "the lot");

/// What tells the season of a lot.
const OF_ITS_HARVEST: &[ColumnUse] = &[ColumnUse::Season, ColumnUse::Harvested];

/// What makes a table one of seed weighings.
const OF_WEIGHINGS: &[ColumnUse] = &[ColumnUse::ReplicateMasses, ColumnUse::ReplicateMass(1)];

/// What makes a table one of germination tests.
const OF_SEEDLINGS: &[ColumnUse] = &[ColumnUse::Normal, ColumnUse::NormalOf(1)];

/// What makes a table one of plots.
const OF_A_PLOT: &[ColumnUse] = &[
    ColumnUse::Block,
    ColumnUse::Replicate,
    ColumnUse::Bed,
    ColumnUse::BedRow,
    ColumnUse::Position,
    ColumnUse::Transplanted,
    ColumnUse::PlantCount,
    ColumnUse::Plant,
    ColumnUse::GrowOut,
];

/// What makes a table one of fruit samples.
const OF_A_FRUIT: &[ColumnUse] = &[
    ColumnUse::Weight,
    ColumnUse::TotalWeight,
    ColumnUse::Length,
    ColumnUse::Width,
    ColumnUse::NeckWidth,
    ColumnUse::Locules,
    ColumnUse::SolubleSolids,
    ColumnUse::DryMatter,
    ColumnUse::Lobes,
    ColumnUse::Cracking,
    ColumnUse::Catfacing,
];

/// What makes a table one of stages.
const OF_A_WALK: &[ColumnUse] = &[
    ColumnUse::FirstFlower,
    ColumnUse::FirstRipe,
    ColumnUse::StemEnded,
    ColumnUse::LeavesBetween,
    ColumnUse::PlantCount,
    ColumnUse::OffTypes,
    ColumnUse::DwarfLeaves,
    ColumnUse::Stage,
];

/// What makes a table one of colours.
const OF_A_COLOUR: &[ColumnUse] =
    &[ColumnUse::Colour, ColumnUse::Lightness, ColumnUse::Exterior, ColumnUse::Flesh, ColumnUse::Gel];

/// What a table of each kind cannot do without.
fn needs(kind: Kind) -> &'static [Need] {
    use ColumnUse as Use;
    match kind {
        Kind::Varieties => &[(&[Use::Variety], "the variety")],
        Kind::GrowOut => &[
            (&[Use::Plot], "the plot"),
            (&[Use::Variety, Use::Plant], "the variety"),
            (OF_A_PLOT, "the place, the plants or the day they went out"),
        ],
        Kind::FruitSamples => &[SUBJECT, (OF_A_FRUIT, "a weight or another measure of the fruit")],
        Kind::Picks => {
            &[SUBJECT, ON_A_DAY, (&[Use::FruitCount, Use::Weight], "the count or weight of the fruit")]
        }
        Kind::Heights => &[SUBJECT, ON_A_DAY, (&[Use::Height], "the height")],
        Kind::Stages => &[SUBJECT, (OF_A_WALK, "something seen, such as first flower")],
        Kind::Colours => &[SUBJECT, (OF_A_COLOUR, "the colour")],
        Kind::Lots => &[
            OF_A_LOT,
            (&[Use::Variety], "the variety"),
            (OF_ITS_HARVEST, "the season or the day of harvest"),
        ],
        Kind::SeedWeighings => &[OF_A_LOT, ON_A_DAY, (OF_WEIGHINGS, "what the replicates weighed")],
        Kind::GerminationTests => &[
            OF_A_LOT,
            ON_A_DAY,
            (&[Use::LaidOut], "the day the seeds were laid out"),
            (OF_SEEDLINGS, "the normal seedlings of the replicates"),
        ],
    }
}

fn lacks_nothing(kind: Kind, columns: &[Column]) -> Result<(), RecogniseFault> {
    let has = |reads: &ColumnUse| columns.iter().any(|column| column.reads == *reads);
    match needs(kind).iter().find(|(any_of, _)| !any_of.iter().any(has)) {
        Some((_, missing)) => Err(RecogniseFault::Lacking { kind, missing }),
        None => Ok(()),
    }
}

/// Takes the season from the titles or the sheet's name where exactly one year stands there.
fn season_from_titles(layout: &mut Layout, sheet: Option<&str>) {
    let has_own = layout.columns.iter().any(|column| column.reads == ColumnUse::Season);
    if layout.season.is_some() || has_own || layout.kind == Kind::Varieties {
        return;
    }
    let mut years: Vec<i16> =
        layout.titles.iter().map(String::as_str).chain(sheet).flat_map(years_in).collect();
    years.sort_unstable();
    years.dedup();
    if let [year] = years.as_slice() {
        layout.season = Season::new(*year);
        layout.notes.push(format!("season {year} for rows that name none, from the title"));
    }
}

/// The years in a title: four figures that stand alone, not part of a date.
fn years_in(title: &str) -> impl Iterator<Item = i16> {
    let apart = title.split(|sign: char| sign.is_whitespace() || "|,;:()".contains(sign));
    apart
        .filter(|word| word.len() == 4)
        .filter_map(|word| word.parse().ok())
        .filter(|year| Season::new(*year).is_some())
}
