//! The ground of a comparison: its plots on their beds, shaded by what they came to, by what the ground gave and by
//! what is left unexplained.

use super::{Compared, PlotSeen};
use crate::fault::HouseFault;
use crate::folder::House;
use crate::layout::{kept, map};
use drawing::bed_map::{
    Area, BedMap, Edges, Mapped, MappedBed, MappedGarden, MappedPlace, MappedPlot, Shading, Standing,
};
use ledger::ledger::Ledger;
use record::growout::{GrowOut, Plot, PlotRole};
use record::language::Units;
use record::length::Millimetres;
use std::collections::{BTreeMap, HashMap};

/// What plots are shaded by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Layer {
    /// What they came to.
    Seen,
    /// What their ground gave or took: their blocks, gardens and seasons.
    Ground,
    /// What neither variety nor ground explains.
    LeftOver,
}

impl Layer {
    /// Every layer, in the order in which they are read.
    pub const ALL: [Self; 3] = [Self::Seen, Self::Ground, Self::LeftOver];

    /// What it is called.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Seen => "What the plots came to",
            Self::Ground => "What the ground gave",
            Self::LeftOver => "What is left over",
        }
    }
}

/// The beds of one grow-out, in every layer.
#[derive(Clone, Debug, PartialEq)]
pub struct ShadedBeds {
    /// The grow-out.
    pub grow_out: String,
    /// Its map in each layer.
    pub layers: Vec<(Layer, BedMap)>,
}

/// The beds of the grow-outs that were compared; none for one of which nobody said where its plots lie.
///
/// # Errors
/// What the ledger refuses.
pub fn beds(house: &House, compared: &Compared) -> Result<Vec<ShadedBeds>, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let units = house.settings.units;
    let mut beds = Vec::new();
    for grow_out in &compared.grow_outs {
        let Some(bare) = bare(&mut ledger, grow_out, compared)? else { continue };
        let layers = Layer::ALL.map(|layer| (layer, shaded(&bare, layer, grow_out, compared, units)));
        beds.push(ShadedBeds { grow_out: grow_out.name.clone(), layers: layers.to_vec() });
    }
    Ok(beds)
}

/// The map without shades.
fn bare(ledger: &mut Ledger, grow_out: &GrowOut, compared: &Compared) -> Result<Option<BedMap>, HouseFault> {
    match kept::layout_of(ledger, &grow_out.name) {
        Ok(kept) => {
            let mut whole = map::of(&grow_out.name, &kept.gardens, &kept.layout);
            let at = kept.grow_outs.iter().position(|one| one.id == grow_out.id);
            let garden = at.and_then(|at| (at < whole.gardens.len()).then(|| whole.gardens.swap_remove(at)));
            Ok(garden.map(|garden| BedMap { gardens: vec![garden], ..whole }))
        }
        Err(HouseFault::NotLaidOut(_)) => {
            let with = compared.plots.iter().map(|seen| (&seen.plot, seen.variety.as_str()));
            let without = compared.without.iter().map(|(plot, variety)| (plot, variety.as_str()));
            let all = with.chain(without).filter(|(plot, _)| plot.grow_out == grow_out.id);
            Ok(from_a_file(grow_out, all))
        }
        Err(fault) => Err(fault),
    }
}

/// Width that a row is drawn with where a file says only how far its plots run, in millimetres. A choice of the drawing.
const ROW: f64 = 1000.0;

/// The map of plots whose file says in which bed and row they lie and from where to where.
fn from_a_file<'a>(grow_out: &GrowOut, own: impl Iterator<Item = (&'a Plot, &'a str)>) -> Option<BedMap> {
    let mut rows: BTreeMap<(u32, String), Vec<MappedPlace>> = BTreeMap::new();
    for (plot, variety) in own {
        let (bed, row) = (plot.layout.bed.clone()?, plot.row?);
        let (from, to) = (plot.layout.from?, plot.layout.to?);
        let area = Area { from, to, near: Millimetres::NONE, far: Millimetres::NONE };
        let is_check = plot.layout.role == Some(PlotRole::Check);
        let what = Mapped::Plot(MappedPlot {
            label: plot.label.clone(),
            variety: variety.to_owned(),
            standing: if is_check { Standing::Check } else { Standing::Candidate },
            replicate: plot.layout.replicate.unwrap_or_default(),
            block: plot.block.unwrap_or_default(),
            value: None,
        });
        rows.entry((row, bed)).or_default().push(MappedPlace { area, what });
    }
    let garden = stacked(&grow_out.garden, rows);
    let edges = Edges::BlocksAndReplicates;
    Some(BedMap { title: grow_out.name.clone(), gardens: vec![garden], shading: None, edges })
}

/// Rows one beyond the other, those of one bed within it.
fn stacked(garden: &str, rows: BTreeMap<(u32, String), Vec<MappedPlace>>) -> MappedGarden {
    let across = |rows: f64| Millimetres::new(rows * ROW).unwrap_or(Millimetres::NONE);
    let (mut beds, mut places): (Vec<MappedBed>, Vec<MappedPlace>) = (Vec::new(), Vec::new());
    let mut near = 0.0;
    for ((_, name), row) in rows {
        let (begin, end) = (across(near), across(near + 1.0));
        let longest = row.iter().map(|place| place.area.to.get()).fold(0.0, f64::max);
        let to = Millimetres::new(longest).unwrap_or(Millimetres::NONE);
        places.extend(
            row.into_iter()
                .map(|place| MappedPlace { area: Area { near: begin, far: end, ..place.area }, ..place }),
        );
        match beds.last_mut().filter(|bed| bed.name == name) {
            Some(bed) => {
                bed.area.far = end;
                bed.area.to = if bed.area.to < to { to } else { bed.area.to };
            }
            None => {
                let area = Area { from: Millimetres::NONE, to, near: begin, far: end };
                beds.push(MappedBed { name, area });
            }
        }
        near += 1.0;
    }
    MappedGarden { name: garden.to_owned(), beds, places }
}

/// The map with every plot's number in one layer, in the house's units.
fn shaded(bare: &BedMap, layer: Layer, grow_out: &GrowOut, compared: &Compared, units: Units) -> BedMap {
    let found = &compared.comparison;
    let (per, unit) = found.of.axis(units);
    let means: HashMap<&str, f64> =
        found.outcomes.iter().filter_map(|own| Some((own.variety.as_str(), own.mean?.estimate))).collect();
    // What the ground gave is what is neither the variety's mean nor left over.
    let number = |seen: &PlotSeen, left_over: f64| match layer {
        Layer::Seen => Some(seen.value),
        Layer::LeftOver => Some(left_over),
        Layer::Ground => Some(seen.value - left_over - means.get(seen.variety.as_str())?),
    };
    let own =
        compared.plots.iter().zip(&found.left_over).filter(|(seen, _)| seen.plot.grow_out == grow_out.id);
    let numbers: HashMap<&str, f64> = own
        .filter_map(|(seen, left_over)| Some((seen.plot.label.as_str(), number(seen, *left_over)? / per)))
        .collect();
    let (least, most) = ends(layer, numbers.values().copied());
    let mut map = bare.clone();
    for place in map.gardens.iter_mut().flat_map(|garden| &mut garden.places) {
        if let Mapped::Plot(plot) = &mut place.what {
            plot.value = numbers.get(plot.label.as_str()).copied();
        }
    }
    map.shading = Some(Shading { words: format!("{}, {unit}", layer.name().to_lowercase()), least, most });
    map
}

/// The ends of the shades: as seen, or as far below nought as above it.
fn ends(layer: Layer, numbers: impl Iterator<Item = f64>) -> (f64, f64) {
    let (least, most) =
        numbers.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at), high.max(at)));
    match layer {
        _ if most < least => (0.0, 1.0),
        Layer::Seen => (least, most),
        Layer::Ground | Layer::LeftOver => {
            let reach = least.abs().max(most.abs());
            (-reach, reach)
        }
    }
}
