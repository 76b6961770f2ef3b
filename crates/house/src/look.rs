//! Looking at files before they are taken: how each table is read, and what would happen. Stores nothing.

use crate::again;
use crate::corrected::{self, Corrected};
use crate::fault::HouseFault;
use crate::folder::House;
use crate::mapping;
use crate::opened::{self, Given, Opened, Unreadable, name_of};
use crate::quarantine::Mending;
use crate::roster;
use crate::take::Request;
use crate::weather::bring::{Intent, WeatherTaken};
use intake::entry::{Entry, NewPlot, NewVariety};
pub use intake::layout::{Column, Layout, Question};
pub use intake::rejection::Rejection;
use intake::roster::Roster;
use intake::take::{Taken, Tally};
use ledger::batch::BatchInfo;
use ledger::ledger::Ledger;
use record::growout::{GrowOut, Plot};
use record::id::Id;
use record::variety::Variety;
use std::collections::BTreeMap;
use std::ops::ControlFlow;
use uuid::Uuid;

/// What would happen to the files.
#[derive(Debug)]
pub struct Looked {
    /// One a table, in the order they would be taken.
    pub tables: Vec<TableLook>,
    /// One a weather file.
    pub weather: Vec<WeatherTaken>,
    /// What cannot be opened or recognised.
    pub unreadable: Vec<Unreadable>,
}

/// What would happen to one table.
#[derive(Debug)]
pub struct TableLook {
    /// File and sheet.
    pub table: String,
    /// What the file was read as.
    pub read_as: String,
    /// What each column was read as, and what must be answered.
    pub layout: Layout,
    /// What its rows would become.
    pub tally: Tally,
    /// Rows that would be quarantined, by reason, the commonest first: a reason's first row stands for it.
    pub rejections: Vec<Alike<Rejection>>,
    /// Doubts that would be noted, likewise.
    pub doubts: Vec<Alike<String>>,
    /// The batch that took this very file before.
    pub taken_before: Option<BatchInfo>,
}

/// How often one reason came up, with the first instance.
#[derive(Clone, Debug, PartialEq)]
pub struct Alike<T> {
    /// How often.
    pub count: u64,
    /// The first.
    pub first: T,
}

/// Looks at files as [`crate::take::take`] would take them.
///
/// # Errors
/// What the ledger refuses.
pub fn look(house: &House, files: &[Given], request: &Request) -> Result<Looked, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let saved = mapping::saved(&mut ledger)?;
    let mut opening = opened::open_all(files, &saved, &request.asked);
    let weather = opening.take_weather(&mut ledger, request, Intent::Look)?;
    let mut roster = roster::gather(&mut ledger)?;
    let mut imagined = Imagined::default();
    let mut tables = Vec::new();
    for opened in opening.tables {
        let taken_before = ledger.already_taken(opened.sha256, opened.table.sheet())?;
        tables.push(look_at(opened, &mut roster, &mut imagined, taken_before, request)?);
    }
    for corrected in &opening.corrected {
        tables.extend(look_at_corrected(&mut ledger, corrected, request)?);
    }
    Ok(Looked { tables, weather, unreadable: opening.unreadable })
}

/// Looks at corrected rows, each as its own table is read.
fn look_at_corrected(
    ledger: &mut Ledger,
    corrected: &Corrected,
    request: &Request,
) -> Result<Vec<TableLook>, HouseFault> {
    let mending = Mending { who: request.who.clone(), at: request.at, today: request.today };
    let mut looks = Vec::new();
    for rows in corrected::by_kind(ledger, corrected)?.into_values() {
        for of_batch in rows.chunk_by(|one, next| one.batch == next.batch) {
            let Some(first) = of_batch.first() else { continue };
            let read = again::read_again(ledger, first.batch, of_batch, &request.asked, &mending)?;
            let mut sight = Sight::default();
            read.taken.into_iter().for_each(|taken| sight.see(taken));
            looks.push(TableLook {
                table: format!("{}, rows of {}", corrected.table, read.from.file_name.unwrap_or_default()),
                read_as: corrected.read_as.clone(),
                layout: read.layout,
                tally: read.tally,
                rejections: commonest_first(sight.rejections),
                doubts: commonest_first(sight.doubts),
                taken_before: None,
            });
        }
    }
    Ok(looks)
}

fn look_at(
    opened: Opened,
    roster: &mut Roster,
    imagined: &mut Imagined,
    taken_before: Option<BatchInfo>,
    request: &Request,
) -> Result<TableLook, HouseFault> {
    let mut sight = Sight::default();
    let tally = intake::take::take(&opened.table, &opened.layout, roster, request.today, &mut |taken| {
        sight.see(taken);
        ControlFlow::Continue(())
    })
    .map_err(|fault| HouseFault::Read { file: opened.table.file_name().to_owned(), fault })?;
    imagined.add(roster, sight.varieties, sight.plots);
    Ok(TableLook {
        table: name_of(&opened.table),
        read_as: opened.table.read_as().to_owned(),
        layout: opened.layout,
        tally,
        rejections: commonest_first(sight.rejections),
        doubts: commonest_first(sight.doubts),
        taken_before,
    })
}

/// What was seen of one table.
#[derive(Default)]
struct Sight {
    rejections: BTreeMap<String, Alike<Rejection>>,
    doubts: BTreeMap<String, Alike<String>>,
    varieties: Vec<NewVariety>,
    plots: Vec<NewPlot>,
}

impl Sight {
    fn see(&mut self, taken: Taken) {
        match taken {
            Taken::Rejected(rejection) => {
                let reason = format!("{:?} {}", rejection.column, rejection.remedy);
                note(&mut self.rejections, reason, rejection);
            }
            Taken::Entry { entry, doubts, .. } => {
                for doubt in doubts {
                    note(&mut self.doubts, format!("{:?}", doubt.kind), doubt.words);
                }
                match entry {
                    Entry::Variety(new) if new.known.is_none() => self.varieties.push(new),
                    Entry::Plot(new) if new.known.is_none() => self.plots.push(new),
                    _ => {}
                }
            }
        }
    }
}

fn note<T>(alike: &mut BTreeMap<String, Alike<T>>, reason: String, first: T) {
    alike.entry(reason).or_insert(Alike { count: 0, first }).count += 1;
}

fn commonest_first<T>(alike: BTreeMap<String, Alike<T>>) -> Vec<Alike<T>> {
    let mut sorted: Vec<Alike<T>> = alike.into_values().collect();
    sorted.sort_by_key(|alike| std::cmp::Reverse(alike.count));
    sorted
}

/// Varieties and plots that earlier files of the same look would have made. Their identifiers exist
/// nowhere else.
#[derive(Default)]
struct Imagined {
    made: u128,
    grow_outs: BTreeMap<String, Id<GrowOut>>,
}

impl Imagined {
    fn add(&mut self, roster: &mut Roster, varieties: Vec<NewVariety>, plots: Vec<NewPlot>) {
        for NewVariety { name, aliases, claims, .. } in varieties {
            let id = self.next();
            roster.add_variety(&Variety { id, name, aliases, claims }, None);
        }
        for plot in plots {
            let grow_out = self.grow_out(roster, &plot);
            let id = self.next();
            let NewPlot { label, variety, block, row, position, transplanted, plant_count, layout, .. } =
                plot;
            roster.add_plot(&Plot {
                id,
                grow_out,
                label,
                variety,
                block,
                row,
                position,
                transplanted,
                plant_count,
                layout,
            });
        }
    }

    fn grow_out(&mut self, roster: &mut Roster, plot: &NewPlot) -> Id<GrowOut> {
        if let Some(known) = self.grow_outs.get(&plot.grow_out) {
            return *known;
        }
        let id = self.next();
        let (name, season, garden) = (plot.grow_out.clone(), plot.season, plot.garden.clone());
        roster.add_grow_out(&GrowOut { id, name: name.clone(), season, garden });
        self.grow_outs.insert(name, id);
        id
    }

    fn next<Of>(&mut self) -> Id<Of> {
        self.made += 1;
        Id::from_uuid(Uuid::from_u128(self.made))
    }
}
