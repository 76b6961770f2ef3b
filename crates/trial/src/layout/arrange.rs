//! From ground and varieties to a layout: slots first, then the search over them.

use super::cut::{self, Spot};
use super::fault::{self, LayoutFault};
use super::{Kind, Layout, Planted, Plot, Request, Role, Why, deal, kind};
use crate::ground::{Place, Purpose, neighbours, walked};
use statistics::design::connection::components;
use statistics::design::search::{Effort, Ground, Standing, Weights, dealt, search};
use statistics::design::{BlockEffect, Blocking, Design, Treatments};
use statistics::draws::stream;
use std::ops::ControlFlow;

/// Exchanges looked at for each plot: 16 million, some seconds, for 400 plots. A choice; ten times as many gain less than a
/// thousandth part.
const LOOKS_PER_PLOT: u64 = 40_000;
/// Degrees of freedom for error that augmented blocks should leave. Common practice, no source.
const ENOUGH_DEGREES: usize = 10;
/// Rounds in which the number of augmented blocks may settle with the beds' lengths.
const SETTLING: usize = 8;
/// Varieties that a message names before it only counts.
const NAMED: usize = 5;

/// A plot that will be planted.
#[derive(Clone, Copy, Debug)]
struct Slot {
    plot: usize,
    replicate: usize,
    block: usize,
    entry: usize,
}

/// Where plots will be, before anything is searched.
#[derive(Clone, Debug)]
pub(super) struct Slots {
    slots: Vec<Slot>,
    across: usize,
    split: usize,
}

/// Chooses plots, replicates and blocks, and deals varieties to them.
pub(super) fn slots(request: &Request<'_>, kind: Kind, ground: &[Place]) -> Result<Slots, LayoutFault> {
    let gardens = spots(ground);
    match kind {
        Kind::Augmented => augmented(request, &gardens),
        _ => resolved(request, kind, &gardens),
    }
}

/// The plots of each garden, bed by bed, winding through the rows of each so that neighbours in the list are
/// neighbours on the ground.
fn spots(ground: &[Place]) -> Vec<Vec<Spot>> {
    let mut plots: Vec<(usize, &Place)> =
        ground.iter().filter(|place| place.purpose == Purpose::Plot).enumerate().collect();
    plots.sort_by_key(|(_, place)| {
        let across = i64::from(place.row);
        let winding = if place.column.is_multiple_of(2) { -across } else { across };
        (place.garden, place.bed, place.column, winding)
    });
    let gardens = plots.iter().map(|(_, place)| place.garden + 1).max().unwrap_or(0);
    let mut found = vec![Vec::new(); gardens];
    for (plot, place) in plots {
        if let Some(garden) = found.get_mut(place.garden) {
            garden.push(Spot { plot, garden: place.garden, bed: place.bed });
        }
    }
    found
}

fn resolved(request: &Request<'_>, kind: Kind, gardens: &[Vec<Spot>]) -> Result<Slots, LayoutFault> {
    let hands = deal::dealt(request.entries, kind::replicates(kind, request.entries));
    let sizes: Vec<usize> = hands.iter().map(Vec::len).collect();
    let largest = sizes.iter().copied().max().unwrap_or(0);
    let usual = || kind::usual_block(&sizes, request.entries.len());
    let size = request.block_size.map_or_else(usual, |size| size as usize);
    if let Some(size) = request.block_size {
        fault::check_block_size(kind, size, 0, largest)?;
    }
    let least = (size / 2).max(2);
    let room = gardens.iter().map(Vec::len).sum();
    let cut = cut::replicates(gardens, &sizes, least)
        .ok_or(LayoutFault::Room { wanted: sizes.iter().sum(), room })?;
    let mut found = Slots { slots: Vec::new(), across: 0, split: 0 };
    let mut block = 0;
    for (replicate, (spots, hand)) in cut.iter().zip(&hands).enumerate() {
        let blocks = match kind {
            Kind::CompleteBlocks => cut::whole(spots),
            _ => cut::blocks(spots, size, least),
        };
        let mut pairs = spots.iter().zip(hand);
        for own in &blocks.sizes {
            for (spot, entry) in pairs.by_ref().take(*own) {
                found.slots.push(Slot { plot: spot.plot, replicate, block, entry: *entry });
            }
            block += 1;
        }
        found.across += blocks.across;
        found.split +=
            usize::from(spots.iter().any(|spot| Some(spot.garden) != spots.first().map(|s| s.garden)));
    }
    Ok(found)
}

fn augmented(request: &Request<'_>, gardens: &[Vec<Spot>]) -> Result<Slots, LayoutFault> {
    let checks: Vec<usize> = kind::checks(request.entries).collect();
    let once: Vec<usize> = request
        .entries
        .iter()
        .enumerate()
        .filter(|(_, entry)| entry.role == Role::Candidate)
        .flat_map(|(at, entry)| std::iter::repeat_n(at, entry.plots as usize))
        .collect();
    let spots: Vec<Spot> = gardens.iter().flatten().copied().collect();
    let most = spots.len().saturating_sub(once.len()) / checks.len().max(1);
    let wanted = wanted_blocks(request, checks.len(), once.len())?;
    if most.min(once.len()) < 2 {
        return Err(LayoutFault::Room { wanted: once.len() + 2 * checks.len(), room: spots.len() });
    }
    let blocks = settled(&spots, (once.len(), checks.len()), wanted.clamp(2, most.min(once.len())));
    let count = u32::try_from(blocks.sizes.len()).unwrap_or(u32::MAX);
    checks.iter().try_for_each(|check| fault::check_seed(request, *check, count))?;
    let mut found = Slots { slots: Vec::new(), across: blocks.across, split: 0 };
    let (mut entries, mut spots) = (once.iter(), spots.iter());
    for (block, size) in blocks.sizes.iter().enumerate() {
        let new = entries.by_ref().take(size.saturating_sub(checks.len()));
        for (entry, spot) in checks.iter().chain(new).zip(spots.by_ref()) {
            found.slots.push(Slot { plot: spot.plot, replicate: 0, block, entry: *entry });
        }
    }
    Ok(found)
}

/// How many augmented blocks the owner's size makes, or how many leave enough degrees of freedom for error.
fn wanted_blocks(request: &Request<'_>, checks: usize, once: usize) -> Result<usize, LayoutFault> {
    match request.block_size {
        Some(size) => {
            fault::check_block_size(Kind::Augmented, size, checks, once + checks)?;
            Ok(once.div_ceil((size as usize).saturating_sub(checks).max(1)))
        }
        None => Ok(1 + ENOUGH_DEGREES.div_ceil(checks.saturating_sub(1).max(1))),
    }
}

/// Blocks whose number and whose plots agree, keeping to beds if the beds' lengths allow it.
fn settled(spots: &[Spot], (once, checks): (usize, usize), wanted: usize) -> cut::Blocks {
    let mut count = wanted;
    for _ in 0..SETTLING {
        let plots = once + checks * count;
        let Some(used) = spots.get(..plots) else { break };
        let found = cut::blocks(used, plots.div_ceil(count), checks + 1);
        if found.sizes.len() == count && found.sizes.iter().all(|size| checks < *size) {
            return found;
        }
        count = found.sizes.len().max(2);
    }
    let plots = once + checks * wanted;
    let sizes: Vec<usize> = cut::even(plots, wanted).collect();
    let mut start = 0;
    let mut across = 0;
    for size in &sizes {
        let own = spots.get(start..start + size).unwrap_or(&[]);
        across += cut::whole(own).across;
        start += size;
    }
    cut::Blocks { sizes, across }
}

/// Searches the best places for the varieties and finishes the layout.
pub(super) fn searched(
    request: &Request<'_>,
    (kind, why): (Kind, Why),
    ground: Vec<Place>,
    slots: Slots,
    watch: impl FnMut(&Standing) -> ControlFlow<()>,
) -> Result<Layout, LayoutFault> {
    let mut layout = planted(request, (kind, why), ground, &slots);
    let trial = Trial::of(&layout)?;
    let mut chance = stream(&["layout", request.seed]);
    let start = dealt(&trial.ground(&trial.design), &mut chance)?;
    let plots = start.plots().len() as u64;
    let effort = Effort { looks: LOOKS_PER_PLOT * plots };
    let found = search(&trial.ground(&start), effort, &mut chance, watch)?;
    let planted = layout.plots.iter_mut().filter_map(|plot| plot.planted.as_mut());
    planted.zip(found.design.plots()).for_each(|(planted, entry)| planted.entry = *entry);
    connected(&layout, &trial, &found.design)?;
    Ok(layout)
}

fn planted(request: &Request<'_>, (kind, why): (Kind, Why), ground: Vec<Place>, slots: &Slots) -> Layout {
    let (plots, others): (Vec<Place>, Vec<Place>) =
        ground.into_iter().partition(|place| place.purpose == Purpose::Plot);
    let replicates = slots.slots.iter().map(|slot| slot.replicate + 1).max().unwrap_or(1);
    let mut numbers = vec![0_usize; replicates];
    let base = label_base(slots, replicates);
    let order = walked(&plots);
    let walk = order.into_iter().filter_map(|at| plots.get(at).map(|place| (at, place.clone())));
    let plots = walk.map(|(at, place)| {
        let slot = slots.slots.iter().find(|slot| slot.plot == at);
        let planted = slot.map(|slot| {
            let number = numbers.get_mut(slot.replicate).map_or(0, |number| {
                *number += 1;
                *number
            });
            let label = match kind {
                Kind::Augmented => format!("{number:0width$}", width = digits(base).saturating_sub(1)),
                _ => ((slot.replicate + 1) * base + number).to_string(),
            };
            Planted {
                entry: slot.entry,
                replicate: counted(slot.replicate),
                block: counted(slot.block),
                label,
            }
        });
        Plot { place, planted }
    });
    Layout {
        kind,
        why,
        entries: request.entries.to_vec(),
        plots: plots.collect(),
        others,
        blocks_across_a_path: slots.across,
        replicates_across_gardens: slots.split,
        variety_ratio: request.variety_ratio,
    }
}

/// What a replicate's number is multiplied by on a stake: the power of ten above its plots, 100 at least.
fn label_base(slots: &Slots, replicates: usize) -> usize {
    let most = (0..replicates).map(|at| slots.slots.iter().filter(|slot| slot.replicate == at).count()).max();
    [100, 1_000, 10_000].into_iter().find(|base| most.unwrap_or(0) < *base).unwrap_or(100_000)
}

fn digits(number: usize) -> usize {
    number.to_string().len()
}

/// A number counted from 1.
fn counted(index: usize) -> u32 {
    u32::try_from(index).unwrap_or(u32::MAX).saturating_add(1)
}

/// Refuses a layout whose fixed blocks leave varieties without a comparison.
fn connected(layout: &Layout, trial: &Trial, design: &Design) -> Result<(), LayoutFault> {
    if trial.treatments != Treatments::Fixed {
        return Ok(());
    }
    let groups = components(design)?;
    let largest = groups.iter().map(Vec::len).max().unwrap_or(0);
    let apart: Vec<&str> = groups
        .iter()
        .filter(|group| {
            groups.len() > 1 && group.len() < largest
                || largest * 2 <= layout.entries.len() && groups.len() > 1
        })
        .flatten()
        .filter_map(|entry| layout.entries.get(*entry))
        .map(|entry| entry.variety.as_str())
        .collect();
    if apart.is_empty() {
        return Ok(());
    }
    let named = apart.iter().take(NAMED).copied().collect::<Vec<_>>().join(", ");
    let more = apart.len().saturating_sub(NAMED);
    Err(LayoutFault::Disconnected(if more == 0 { named } else { format!("{named} and {more} more") }))
}

/// A layout as the design that it is.
pub(super) struct Trial {
    pub(super) design: Design,
    pub(super) treatments: Treatments,
    regions: Vec<usize>,
    pens: Vec<usize>,
    penned: Vec<usize>,
    neighbours: Vec<(usize, usize)>,
    zones: Vec<Vec<usize>>,
}

impl Trial {
    /// Reads a layout, blocks taken as fixed.
    pub(super) fn of(layout: &Layout) -> Result<Self, LayoutFault> {
        let (places, planted): (Vec<Place>, Vec<&Planted>) = layout
            .plots
            .iter()
            .filter_map(|plot| plot.planted.as_ref().map(|planted| (plot.place.clone(), planted)))
            .unzip();
        let pens = numbered(planted.iter().map(|own| own.block));
        let regions = match layout.kind {
            Kind::Augmented => vec![0; planted.len()],
            _ => numbered(planted.iter().map(|own| own.replicate)),
        };
        let treatments = match layout.kind {
            Kind::Augmented | Kind::PartlyReplicated => Treatments::Random { ratio: layout.variety_ratio },
            _ => Treatments::Fixed,
        };
        let penned = match layout.kind {
            Kind::Augmented => kind::checks(&layout.entries).collect(),
            _ => Vec::new(),
        };
        let zones = vec![numbered(places.iter().map(|place| (place.garden, place.column)))];
        let neighbours = neighbours(&places);
        let design = design(layout, BlockEffect::Fixed)?;
        Ok(Self { design, treatments, regions, pens, penned, neighbours, zones })
    }

    /// What the search is told, starting from `start`.
    pub(super) fn ground<'a>(&'a self, start: &'a Design) -> Ground<'a> {
        Ground {
            start,
            treatments: self.treatments,
            regions: &self.regions,
            pens: &self.pens,
            penned: &self.penned,
            neighbours: &self.neighbours,
            zones: &self.zones,
            weights: Weights::default(),
        }
    }
}

/// The planted plots with their blockings; replicates are always fixed, what lies within them as told.
pub(super) fn design(layout: &Layout, within: BlockEffect) -> Result<Design, LayoutFault> {
    let planted: Vec<(&Place, &Planted)> =
        layout.plots.iter().filter_map(|plot| plot.planted.as_ref().map(|own| (&plot.place, own))).collect();
    let replicate = || Blocking::fixed(numbered(planted.iter().map(|(_, own)| own.replicate)));
    let inside = |levels: Vec<usize>| Blocking { levels, effect: within };
    let block = || inside(numbered(planted.iter().map(|(_, own)| own.block)));
    let blockings = match layout.kind {
        Kind::CompleteBlocks => vec![replicate()],
        Kind::Augmented => vec![block()],
        Kind::IncompleteBlocks | Kind::PartlyReplicated => vec![replicate(), block()],
        Kind::RowsAndColumns => vec![
            replicate(),
            inside(numbered(planted.iter().map(|(place, own)| (own.replicate, place.garden, place.row)))),
            inside(numbered(planted.iter().map(|(place, own)| (own.replicate, place.garden, place.column)))),
        ],
    };
    let entries = planted.iter().map(|(_, own)| own.entry).collect();
    Ok(Design::new(layout.entries.len(), entries, blockings)?)
}

/// Numbers keys from 0 in the order in which they first come.
fn numbered<K: PartialEq>(keys: impl Iterator<Item = K>) -> Vec<usize> {
    let mut known: Vec<K> = Vec::new();
    keys.map(|key| {
        known.iter().position(|own| *own == key).unwrap_or_else(|| {
            known.push(key);
            known.len() - 1
        })
    })
    .collect()
}
