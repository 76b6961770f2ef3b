//! Grow-outs: which there are, what stands in each, what was noted of it and what is due.

use crate::fault::HouseFault;
use crate::folder::House;
use crate::layout::{kept, map};
use crate::seen::{self, PlotSeen};
use crate::walks::all_due;
use jiff::civil::Date;
use ledger::ledger::Ledger;
pub use record::growout::{GrowOut, Plot};
use record::id::Id;
use record::variety::name_key;
use std::collections::BTreeSet;
use trial::due::{Due, due};

/// A grow-out with what stands in it.
#[derive(Clone, Debug, PartialEq)]
pub struct Planted {
    /// The grow-out.
    pub grow_out: GrowOut,
    /// Its plots, by the order of their stakes' labels, each with the name of its variety.
    pub plots: Vec<(Plot, String)>,
    /// How many varieties stand in it.
    pub variety_count: usize,
    /// Notes of its plots so far.
    pub notes: u64,
    /// What is due, in the order of a walk; nothing before its plants are out.
    pub due: Vec<&'static str>,
    /// Where its plots came from.
    pub ground: Ground,
}

/// Whether the ground of a grow-out is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ground {
    /// It was laid out here, on beds that are known.
    LaidOut,
    /// Its plots came from a file.
    FromAFile,
}

/// Every grow-out, the latest season first, with what is due on a day.
///
/// # Errors
/// What the ledger refuses.
pub fn grow_outs(house: &House, day: Date) -> Result<Vec<Planted>, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let seen = seen::of_plots(&mut ledger)?;
    let laid_out: Vec<Id<GrowOut>> =
        ledger.layouts()?.into_iter().map(|laid_out| laid_out.grow_out).collect();
    let varieties = ledger.varieties()?;
    let plots = ledger.plots()?;
    let mut all: Vec<Planted> = Vec::new();
    for grow_out in ledger.grow_outs()? {
        let mut own: Vec<(Plot, String)> = Vec::new();
        for plot in plots.iter().filter(|plot| plot.grow_out == grow_out.id) {
            let holds = varieties.iter().find(|variety| variety.id == plot.variety);
            own.push((plot.clone(), holds.map(|variety| variety.name.clone()).unwrap_or_default()));
        }
        own.sort_by(|(one, _), (other, _)| one.label.cmp(&other.label));
        let variety_count = own.iter().map(|(plot, _)| plot.variety).collect::<BTreeSet<_>>().len();
        let of_plots = || own.iter().filter_map(|(plot, _)| seen.get(&plot.id));
        let notes = of_plots().map(|seen| seen.notes).sum();
        let ground = if laid_out.contains(&grow_out.id) { Ground::LaidOut } else { Ground::FromAFile };
        let due = due_on(&grow_out, of_plots(), day);
        all.push(Planted { grow_out, notes, due, ground, plots: own, variety_count });
    }
    all.sort_by(|one, other| {
        let key =
            |planted: &Planted| (std::cmp::Reverse(planted.grow_out.season), planted.grow_out.name.clone());
        key(one).cmp(&key(other))
    });
    Ok(all)
}

/// What is due in a grow-out whose season it is and whose plants are out.
fn due_on<'a>(grow_out: &GrowOut, plots: impl Iterator<Item = &'a PlotSeen>, day: Date) -> Vec<&'static str> {
    if grow_out.season.year() != day.year() {
        return Vec::new();
    }
    let out = plots.filter(|plot| plot.seen.transplanted.is_some());
    let due: Vec<Vec<Due>> = out.map(|plot| due(&plot.seen, day)).collect();
    all_due(due.iter().map(Vec::as_slice)).into_iter().map(Due::name).collect()
}

/// One grow-out with the layout that it stands in.
#[derive(Clone, Debug)]
pub struct Shown {
    /// The grow-out with its plots.
    pub planted: Planted,
    /// Its beds, where it was laid out here.
    pub laid: Option<Laid>,
}

/// The beds of a grow-out as they stand now.
#[derive(Clone, Debug)]
pub struct Laid {
    /// The bed map.
    pub map: drawing::bed_map::BedMap,
    /// What the layout can tell, in sentences.
    pub words: Vec<String>,
    /// Spare places of its garden, by row and position.
    pub spare: Vec<(u32, u32)>,
}

/// One grow-out, with what is due on a day.
///
/// # Errors
/// [`HouseFault::NoSuchGrowOut`]; what the ledger refuses.
pub fn one(house: &House, name: &str, day: Date) -> Result<Shown, HouseFault> {
    let (planted, _) = parted(grow_outs(house, day)?, name)?;
    let laid = match planted.ground {
        Ground::LaidOut => Some(laid(house, &planted.grow_out)?),
        Ground::FromAFile => None,
    };
    Ok(Shown { planted, laid })
}

/// The grow-out of a name, and the others.
///
/// # Errors
/// [`HouseFault::NoSuchGrowOut`] with the names that there are.
pub fn parted(mut all: Vec<Planted>, name: &str) -> Result<(Planted, Vec<Planted>), HouseFault> {
    match all.iter().position(|planted| name_key(&planted.grow_out.name) == name_key(name)) {
        Some(at) => Ok((all.remove(at), all)),
        None => {
            let known = all.into_iter().map(|planted| planted.grow_out.name).collect();
            Err(HouseFault::NoSuchGrowOut { name: name.to_owned(), known })
        }
    }
}

fn laid(house: &House, grow_out: &GrowOut) -> Result<Laid, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let kept = kept::layout_of(&mut ledger, &grow_out.name)?;
    let own = crate::layout::own_spread(&mut ledger)?;
    let report = trial::layout::report::report(&kept.layout, &own.spread)?;
    // The first sentence says why the kind was chosen, which the ledger does not keep.
    let words = trial::layout::report::words(&report, &own.spread, &kept.layout).split_off(1);
    let garden = kept.grow_outs.iter().position(|one| one.id == grow_out.id);
    let spare = kept.layout.plots.iter().filter(|plot| plot.planted.is_none());
    let spare = spare.filter(|plot| Some(plot.place.garden) == garden);
    Ok(Laid {
        map: map::of(&grow_out.name, &kept.gardens, &kept.layout),
        words,
        spare: spare.map(|plot| (plot.place.row, plot.place.position)).collect(),
    })
}
