//! Laying out a grow-out: from a plain file of beds and varieties to plots that stand in the ledger.
//!
//! [`file`] reads what is wanted; [`propose`] lays it out and says what it will be able to tell; [`keep`] puts it
//! into the ledger as a batch of its own. [`kept`] reads a layout back, and [`moving`] exchanges its plots.

pub mod file;
pub mod kept;
pub mod map;
pub mod moving;
mod own;

pub(crate) use own::spread as own_spread;

use crate::fault::HouseFault;
use crate::folder::House;
use crate::list::filter::Filter;
use crate::names;
use crate::progress::Progress;
use file::{Varieties, Wanted};
use ledger::batch::{Act, BatchKind, BatchNumber, Source};
use ledger::layouts::{KeptBed, KeptPlanting, KeptStretch, LaidOut};
use ledger::ledger::Ledger;
use ledger::writer::{NewGrowOut, NewPlot, Writer};
use record::growout::{GrowOut, PlotLayout, PlotRole};
use record::id::Id;
use record::variety::{Variety, name_key};
use std::collections::HashMap;
use std::ops::ControlFlow;
use trial::ground::Garden;
pub use trial::layout::report::{Report, Source as SpreadFrom, Spread};
use trial::layout::{self, Entry, Layout, Plot, Request, Role};

/// Varieties by their names.
type Ids = HashMap<String, Id<Variety>>;

/// A layout that is not kept yet.
#[derive(Clone, Debug)]
pub struct Proposed {
    /// What was wanted.
    pub wanted: Wanted,
    /// Its plots, in the order in which one walks past them.
    pub plots: Vec<LaidPlot>,
    /// What it will be able to tell.
    pub report: Report,
    /// The same in sentences.
    pub words: Vec<String>,
    /// The unit of the report's errors and differences, such as `kg a plant`.
    pub unit: String,
    /// Its bed map.
    pub map: drawing::bed_map::BedMap,
    layout: Layout,
    varieties: Ids,
}

impl Proposed {
    /// The kind of layout, in words.
    #[must_use]
    pub fn kind(&self) -> &'static str {
        self.layout.kind.name()
    }
}

/// One plot of a layout.
#[derive(Clone, Debug, PartialEq)]
pub struct LaidPlot {
    /// The garden's name.
    pub garden: String,
    /// The bed's name.
    pub bed: String,
    /// Row through the garden, counted from 1.
    pub row: u32,
    /// Position along the row, counted from 1.
    pub position: u32,
    /// What stands there; nothing in a spare plot.
    pub stands: Option<Stands>,
}

/// What stands in a plot.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stands {
    /// What its stake says.
    pub label: String,
    /// Its variety.
    pub variety: String,
    /// Its replicate.
    pub replicate: u32,
    /// Its block.
    pub block: u32,
    /// What it is there for.
    pub role: PlotRole,
}

/// Lays out what is wanted, and stores nothing. `attempt` counts arrangements from 1: another one of the same wish is
/// another draw.
///
/// # Errors
/// [`HouseFault::Layout`] where the wish cannot be met; [`HouseFault::NoSuchVariety`]; what the ledger refuses.
pub fn propose(
    house: &House,
    wanted: &Wanted,
    attempt: u32,
    progress: &dyn Progress,
) -> Result<Proposed, HouseFault> {
    let (entries, varieties) = entries(house, wanted)?;
    let own = own_spread(&mut Ledger::open(&house.ledger_location())?)?;
    let seed = seeded(&wanted.seed, attempt);
    let request = Request {
        entries: &entries,
        gardens: &wanted.gardens,
        planting: &wanted.planting,
        kind: wanted.kind,
        block_size: wanted.block_size,
        variety_ratio: own.variety_ratio,
        seed: &seed,
    };
    progress.begin("laying out", None);
    let layout = layout::lay_out(&request, |_| {
        progress.advance(1);
        ControlFlow::Continue(())
    })?;
    let report = layout::report::report(&layout, &own.spread)?;
    let words = layout::report::words(&report, &own.spread, &layout);
    let map = map::of(&wanted.name, &wanted.gardens, &layout);
    let plots = told(&layout, &wanted.gardens);
    let wanted = Wanted { seed, ..wanted.clone() };
    let unit = own.spread.unit;
    Ok(Proposed { wanted, plots, report, words, unit, map, layout, varieties })
}

fn seeded(seed: &str, attempt: u32) -> String {
    if attempt <= 1 { seed.to_owned() } else { format!("{seed}, attempt {attempt}") }
}

/// The varieties that are wanted, by the names that the house has for them.
fn entries(house: &House, wanted: &Wanted) -> Result<(Vec<Entry>, Ids), HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let mut entries: Vec<Entry> = Vec::new();
    let mut ids = HashMap::new();
    for name in candidates(house, &wanted.varieties)? {
        let variety = names::find(&mut ledger, &name)?;
        entries.push(Entry {
            variety: variety.name.clone(),
            plots: wanted.replicates,
            role: Role::Candidate,
            plants: None,
        });
        ids.insert(variety.name, variety.id);
    }
    for name in &wanted.checks {
        let variety = names::find(&mut ledger, name)?;
        match entries.iter_mut().find(|entry| entry.variety == variety.name) {
            Some(entry) => entry.role = Role::Check,
            None => entries.push(Entry {
                variety: variety.name.clone(),
                plots: wanted.replicates,
                role: Role::Check,
                plants: None,
            }),
        }
        ids.insert(variety.name, variety.id);
    }
    for own in &wanted.own {
        let variety = names::find(&mut ledger, &own.name)?;
        let at = entries.iter().position(|entry| entry.variety == variety.name).unwrap_or(entries.len());
        if at == entries.len() {
            let (role, plots) = (Role::Candidate, wanted.replicates);
            entries.push(Entry { variety: variety.name.clone(), plots, role, plants: None });
        }
        if let Some(entry) = entries.get_mut(at) {
            entry.plots = own.plots.unwrap_or(entry.plots);
            entry.plants = own.plants.or(entry.plants);
        }
        ids.insert(variety.name, variety.id);
    }
    Ok((entries, ids))
}

fn candidates(house: &House, varieties: &Varieties) -> Result<Vec<String>, HouseFault> {
    match varieties {
        Varieties::Named(names) => Ok(names.clone()),
        Varieties::OfTheList(words) => {
            let filter = Filter { words: Some(words.clone()), ..Filter::default() };
            let list = crate::list::list(house, &filter)?;
            Ok(list.varieties.into_iter().map(|listed| listed.variety.name).collect())
        }
    }
}

/// The plots of a layout in words that need no layout.
pub(crate) fn told(layout: &Layout, gardens: &[Garden]) -> Vec<LaidPlot> {
    layout.plots.iter().map(|plot| laid_plot(layout, gardens, plot)).collect()
}

fn laid_plot(layout: &Layout, gardens: &[Garden], plot: &Plot) -> LaidPlot {
    let garden = gardens.get(plot.place.garden);
    let bed = garden.and_then(|garden| garden.beds.get(plot.place.bed));
    let stands = plot.planted.as_ref().and_then(|planted| {
        let entry = layout.entries.get(planted.entry)?;
        Some(Stands {
            label: planted.label.clone(),
            variety: entry.variety.clone(),
            replicate: planted.replicate,
            block: planted.block,
            role: role(entry.role),
        })
    });
    LaidPlot {
        garden: garden.map(|garden| garden.name.clone()).unwrap_or_default(),
        bed: bed.map(|bed| bed.name.clone()).unwrap_or_default(),
        row: plot.place.row,
        position: plot.place.position,
        stands,
    }
}

fn role(role: Role) -> PlotRole {
    match role {
        Role::Candidate => PlotRole::Candidate,
        Role::Check => PlotRole::Check,
    }
}

/// What a layout became in the ledger.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Kept {
    /// The batch, which undoes it as one.
    pub batch: BatchNumber,
    /// The grow-outs: one a garden that has plots.
    pub grow_outs: Vec<String>,
    /// Planted plots.
    pub plots: u64,
}

/// Keeps a proposed layout as one grow-out a garden, each with its ground and plots, in one batch.
///
/// # Errors
/// [`HouseFault::GrowOutThere`] where a grow-out has the name already; what the ledger refuses.
pub fn keep(house: &House, proposed: &Proposed, act: &Act) -> Result<Kept, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let gardens = &proposed.wanted.gardens;
    let names: Vec<String> = (0..gardens.len()).map(|at| grow_out_name(&proposed.wanted, at)).collect();
    for known in ledger.grow_outs()? {
        if names.iter().any(|name| name_key(name) == name_key(&known.name)) {
            return Err(HouseFault::GrowOutThere(known.name));
        }
    }
    let why = format!("laid out: {}", proposed.layout.kind.name());
    let mut writer = ledger.begin_mending(&by_hand(act, why))?;
    let mut grow_outs = Vec::new();
    for (at, name) in names.into_iter().enumerate() {
        if put_garden(&mut writer, proposed, at, &name)? {
            grow_outs.push(name);
        }
    }
    let summary = writer.commit()?;
    Ok(Kept { batch: summary.batch, grow_outs, plots: summary.added.plots })
}

/// The source of a batch of plots that comes from no file.
pub(crate) fn by_hand(act: &Act, why: String) -> Source {
    Source {
        who: act.who.clone(),
        at: act.at,
        kind: BatchKind::GrowOut,
        file_name: None,
        sheet: None,
        sha256: None,
        headings: Vec::new(),
        reading: None,
        why: Some(act.why.clone().unwrap_or(why)),
    }
}

/// A grow-out in one garden has the layout's name; of several, each has its garden's name behind it.
fn grow_out_name(wanted: &Wanted, garden: usize) -> String {
    match wanted.gardens.get(garden) {
        Some(own) if 1 < wanted.gardens.len() => format!("{} {}", wanted.name, own.name),
        _ => wanted.name.clone(),
    }
}

/// Puts one garden's part of the layout down, and tells whether it has a plot.
fn put_garden(
    writer: &mut Writer<'_>,
    proposed: &Proposed,
    at: usize,
    name: &str,
) -> Result<bool, HouseFault> {
    let Some(garden) = proposed.wanted.gardens.get(at) else { return Ok(false) };
    let own: Vec<&Plot> = proposed
        .layout
        .plots
        .iter()
        .filter(|plot| plot.place.garden == at && plot.planted.is_some())
        .collect();
    if own.is_empty() {
        return Ok(false);
    }
    let (season, garden_name) = (proposed.wanted.season, garden.name.clone());
    let grow_out =
        writer.add_grow_out(1, &NewGrowOut { name: name.to_owned(), season, garden: garden_name })?;
    writer.add_laid_out(grow_out.id, &laid_out(proposed, garden))?;
    for (row, plot) in (1..).zip(own) {
        if let Some(new) = new_plot(proposed, grow_out.id, plot) {
            writer.add_plot(row, &new)?;
        }
    }
    Ok(true)
}

fn new_plot(proposed: &Proposed, grow_out: Id<GrowOut>, plot: &Plot) -> Option<NewPlot> {
    let planted = plot.planted.as_ref()?;
    let entry = proposed.layout.entries.get(planted.entry)?;
    let garden = proposed.wanted.gardens.get(plot.place.garden)?;
    Some(NewPlot {
        grow_out,
        label: planted.label.clone(),
        variety: *proposed.varieties.get(&entry.variety)?,
        block: Some(planted.block),
        row: Some(plot.place.row),
        position: Some(plot.place.position),
        transplanted: None,
        plant_count: Some(proposed.wanted.planting.plants_per_plot),
        layout: PlotLayout {
            replicate: Some(planted.replicate),
            bed: garden.beds.get(plot.place.bed).map(|bed| bed.name.clone()),
            role: Some(role(entry.role)),
            from: Some(plot.place.from),
            to: Some(plot.place.to),
        },
    })
}

fn laid_out(proposed: &Proposed, garden: &Garden) -> LaidOut {
    let planting = &proposed.wanted.planting;
    LaidOut {
        kind: proposed.layout.kind.name().to_owned(),
        seed: proposed.wanted.seed.clone(),
        variety_ratio: proposed.layout.variety_ratio,
        planting: KeptPlanting {
            plants_per_plot: planting.plants_per_plot,
            between_plants: planting.between_plants,
            between_rows: planting.between_rows,
            rows_per_plot: planting.rows_per_plot,
            guards_at_ends: planting.guards_at_ends,
            guard_rows: planting.guard_rows,
        },
        beds: garden.beds.iter().map(kept_bed).collect(),
    }
}

fn kept_bed(bed: &trial::ground::Bed) -> KeptBed {
    let stretch = |stretch: &trial::ground::Stretch| KeptStretch {
        from: stretch.from,
        to: stretch.to,
        why: stretch.why.clone(),
    };
    KeptBed {
        name: bed.name.clone(),
        length: bed.length,
        width: bed.width,
        path_after: bed.path_after,
        unusable: bed.unusable.iter().map(stretch).collect(),
    }
}
