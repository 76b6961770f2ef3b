//! A layout read back from the ledger: the ground as it was laid out, and every plot where it stands now.

use crate::fault::HouseFault;
use crate::folder::House;
use ledger::layouts::{KeptBed, KeptStretch, LaidOut, OfGrowOut};
use ledger::ledger::Ledger;
use record::growout::{GrowOut, Plot as KeptPlot, PlotRole};
use record::variety::{Variety, name_key};
use trial::ground::{Bed, Garden, Place, Planting, Purpose, Stretch, places, walked};
use trial::layout::{Entry, Kind, Layout, Planted, Plot, Role, Why};

/// A layout that the ledger holds.
#[derive(Clone, Debug)]
pub struct KeptLayout {
    /// The grow-outs that were laid out as one, a garden each, in the order of the gardens.
    pub grow_outs: Vec<GrowOut>,
    /// The gardens.
    pub gardens: Vec<Garden>,
    /// How plots are planted.
    pub planting: Planting,
    /// The layout as it stands now.
    pub layout: Layout,
    /// The plots of the ledger.
    pub plots: Vec<KeptPlot>,
}

/// The grow-out of a name.
///
/// # Errors
/// [`HouseFault::NoSuchGrowOut`]; what the ledger refuses.
pub fn grow_out(ledger: &mut Ledger, name: &str) -> Result<GrowOut, HouseFault> {
    let all = ledger.grow_outs()?;
    let known = all.iter().map(|known| known.name.clone()).collect();
    let found = all.into_iter().find(|known| name_key(&known.name) == name_key(name));
    found.ok_or_else(|| HouseFault::NoSuchGrowOut { name: name.to_owned(), known })
}

/// The layout that a grow-out is part of.
///
/// # Errors
/// [`HouseFault::NoSuchGrowOut`]; [`HouseFault::NotLaidOut`] where its plots came from a file; what the ledger refuses.
pub fn layout_of(ledger: &mut Ledger, name: &str) -> Result<KeptLayout, HouseFault> {
    let grow_out = grow_out(ledger, name)?;
    let all = ledger.layouts()?;
    let own = all.iter().find(|laid_out| laid_out.grow_out == grow_out.id);
    let batch = own.ok_or_else(|| HouseFault::NotLaidOut(grow_out.name.clone()))?.batch;
    let together: Vec<OfGrowOut> = all.into_iter().filter(|laid_out| laid_out.batch == batch).collect();
    let known = ledger.grow_outs()?;
    let (mut grow_outs, mut gardens) = (Vec::new(), Vec::new());
    for laid_out in &together {
        if let Some(own) = known.iter().find(|known| known.id == laid_out.grow_out) {
            gardens.push(garden(own, &laid_out.laid_out));
            grow_outs.push(own.clone());
        }
    }
    let not_laid_out = || HouseFault::NotLaidOut(grow_out.name.clone());
    let first = &together.first().ok_or_else(not_laid_out)?.laid_out;
    let plots: Vec<KeptPlot> = ledger
        .plots()?
        .into_iter()
        .filter(|plot| grow_outs.iter().any(|own| own.id == plot.grow_out))
        .collect();
    let planting = planting(first);
    let ground = places(&gardens, &planting).map_err(trial::layout::fault::LayoutFault::from)?;
    let layout = layout(
        first,
        ground,
        &Stood { grow_outs: &grow_outs, gardens: &gardens, plots: &plots },
        &ledger.varieties()?,
    );
    Ok(KeptLayout { grow_outs, gardens, planting, layout, plots })
}

fn garden(grow_out: &GrowOut, laid_out: &LaidOut) -> Garden {
    Garden { name: grow_out.garden.clone(), beds: laid_out.beds.iter().map(bed).collect() }
}

fn bed(kept: &KeptBed) -> Bed {
    let stretch = |kept: &KeptStretch| Stretch { from: kept.from, to: kept.to, why: kept.why.clone() };
    Bed {
        name: kept.name.clone(),
        length: kept.length,
        width: kept.width,
        path_after: kept.path_after,
        unusable: kept.unusable.iter().map(stretch).collect(),
    }
}

fn planting(laid_out: &LaidOut) -> Planting {
    let kept = &laid_out.planting;
    Planting {
        plants_per_plot: kept.plants_per_plot,
        between_plants: kept.between_plants,
        between_rows: kept.between_rows,
        rows_per_plot: kept.rows_per_plot,
        guards_at_ends: kept.guards_at_ends,
        guard_rows: kept.guard_rows,
    }
}

/// What stands in the gardens.
struct Stood<'a> {
    grow_outs: &'a [GrowOut],
    gardens: &'a [Garden],
    plots: &'a [KeptPlot],
}

impl Stood<'_> {
    /// The plot that stands at a place.
    fn at(&self, place: &Place) -> Option<&KeptPlot> {
        let grow_out = self.grow_outs.get(place.garden)?;
        let bed = self.gardens.get(place.garden)?.beds.get(place.bed)?;
        self.plots.iter().find(|plot| {
            plot.grow_out == grow_out.id
                && plot.layout.bed.as_deref() == Some(bed.name.as_str())
                && (plot.row, plot.position) == (Some(place.row), Some(place.position))
        })
    }
}

fn layout(laid_out: &LaidOut, ground: Vec<Place>, stood: &Stood<'_>, varieties: &[Variety]) -> Layout {
    let (own, others): (Vec<Place>, Vec<Place>) =
        ground.into_iter().partition(|place| place.purpose == Purpose::Plot);
    let mut entries: Vec<Entry> = Vec::new();
    let mut plots = Vec::new();
    for place in walked(&own).into_iter().filter_map(|at| own.get(at).cloned()) {
        let planted = stood.at(&place).map(|plot| planted(plot, &mut entries, varieties));
        plots.push(Plot { place, planted });
    }
    let kind = Kind::ALL.into_iter().find(|kind| kind.name() == laid_out.kind);
    Layout {
        kind: kind.unwrap_or(Kind::PartlyReplicated),
        why: Why::Asked,
        entries,
        plots,
        others,
        blocks_across_a_path: 0,
        replicates_across_gardens: 0,
        variety_ratio: laid_out.variety_ratio,
    }
}

fn planted(plot: &KeptPlot, entries: &mut Vec<Entry>, varieties: &[Variety]) -> Planted {
    let variety = varieties.iter().find(|variety| variety.id == plot.variety);
    let name = variety.map(|variety| variety.name.clone()).unwrap_or_default();
    let role = if plot.layout.role == Some(PlotRole::Check) { Role::Check } else { Role::Candidate };
    let known = entries.iter().position(|entry| entry.variety == name);
    let entry = known.unwrap_or_else(|| {
        entries.push(Entry { variety: name, plots: 0, role, plants: None });
        entries.len() - 1
    });
    if let Some(own) = entries.get_mut(entry) {
        own.plots += 1;
    }
    Planted {
        entry,
        replicate: plot.layout.replicate.unwrap_or(1),
        block: plot.block.unwrap_or(1),
        label: plot.label.clone(),
    }
}

/// The name of the grow-out that was laid out last.
///
/// # Errors
/// [`HouseFault::NothingLaidOut`] where none was; what the ledger refuses.
pub fn newest(house: &House) -> Result<String, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let layouts = ledger.layouts()?;
    let newest = layouts.last().map(|laid_out| laid_out.grow_out).ok_or(HouseFault::NothingLaidOut)?;
    let found = ledger.grow_outs()?.into_iter().find(|grow_out| grow_out.id == newest);
    found.map(|grow_out| grow_out.name).ok_or(HouseFault::NothingLaidOut)
}
