//! Increase: how many plants and fruits so many packets of a variety take, by what the house's own lots and picks gave.

pub mod telling;

use crate::fault::HouseFault;
use crate::folder::House;
use crate::lots::{self, EntryState, LotSeen, isolation, law};
use crate::next::fault::NextFault;
use crate::next::flowers::Isolation;
use crate::{list, names};
use ledger::evidence::Whose;
use ledger::ledger::Ledger;
use record::growout::{Plot, PlotRole};
use record::id::Id;
use record::length::Millimetres;
use record::mass::Grams;
use record::share::Share;
use record::variety::Variety;
use seedroom::increase::harvest::{Crop, expected_seed, plan};
pub use seedroom::increase::harvest::{FruitKind, Planned, Wanted};
pub use seedroom::increase::own::RestsOn;
use seedroom::increase::own::{
    LotGave, PlotGave, bed_m2, packets_of_a_plant, seed_of_a_plant, seeds_of_a_plant,
};
pub use seedroom::trueness::classes::{CLASSES, Class, Neighbour};
use sowing::stock::usual_thousand;
use std::collections::HashMap;
use std::ops::ControlFlow;

/// What is asked.
#[derive(Clone, Debug, PartialEq)]
pub struct Asked {
    /// The variety, by name or alias.
    pub variety: String,
    /// Packets and seeds wanted.
    pub wanted: Wanted,
    /// Distance between plants, and between their rows.
    pub spacing: (Millimetres, Millimetres),
}

/// What an increase takes.
#[derive(Clone, Debug, PartialEq)]
pub struct Increase {
    /// The variety.
    pub variety: String,
    /// What was wanted.
    pub wanted: Wanted,
    /// Fruits and plants.
    pub planned: Planned,
    /// What that rests on.
    pub rests_on: RestsOn,
    /// Its fruit class, where called.
    pub class: Option<String>,
    /// Seeds of a plant: the middle, and ends that hold 80 in 100.
    pub seeds_a_plant: (f64, (f64, f64)),
    /// The seed that so many plants are expected to give: the middle, and ends that hold 80 in 100.
    pub seed: Option<(Grams, (Grams, Grams))>,
    /// The thousand-seed weight that this goes by, and whether it was weighed.
    pub thousand: (Grams, Weighed),
    /// Square metres of bed.
    pub bed_m2: f64,
    /// How far its seed must stand from other tomatoes; `None` where the guide tells of no flower.
    pub isolation: Option<Isolation>,
}

impl Increase {
    /// Fruits to save; `None` where what is known is a plant's seed and not a fruit's.
    #[must_use]
    pub fn fruits(&self) -> Option<u64> {
        match self.rests_on {
            RestsOn::OwnLots(_) => None,
            RestsOn::OwnPicks(_) | RestsOn::Usual => Some(self.planned.fruits),
        }
    }
}

/// Whether a thousand-seed weight was weighed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weighed {
    /// Of a lot of this variety.
    OwnLot,
    /// The usual one was taken.
    No,
}

/// Plans an increase.
///
/// # Errors
/// [`HouseFault::NoSuchVariety`]; [`NextFault::NoIncrease`] where no number of plants would do; what the ledger refuses.
pub fn of(house: &House, asked: &Asked, lots: law::Asked) -> Result<Increase, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let variety = names::find(&mut ledger, &asked.variety)?;
    let listed = list::everyone(&mut ledger)?.into_iter().find(|listed| listed.variety.id == variety.id);
    let class = listed.and_then(|listed| listed.fruit).and_then(|fruit| fruit.call.verdict);
    let seed_room = lots::all(house, lots)?.lots;
    let own: Vec<&LotSeen> = seed_room.iter().filter(|seen| seen.lot.variety == variety.id).collect();
    let plots = fruit_of_plots(&mut ledger)?.remove(&variety.id).unwrap_or_default();
    let none = || NextFault::NoIncrease(variety.name.clone());
    let (crop, rests_on) = crop_of(class.as_deref(), &own, &plots).ok_or_else(none)?;
    let planned = plan(asked.wanted, &crop).ok_or_else(none)?;
    let thousand = thousand_of(&own);
    let plants = u32::try_from(planned.plants).map_err(|_| none())?;
    let of_a_plant = seeds_of_a_plant(&crop).ok_or_else(none)?;
    Ok(Increase {
        variety: variety.name.clone(),
        wanted: asked.wanted,
        planned,
        rests_on,
        seeds_a_plant: of_a_plant,
        seed: expected_seed(plants, &crop, thousand.0),
        thousand,
        bed_m2: bed_m2(plants, asked.spacing),
        isolation: Isolation::by(&isolation::guide(house)?, &variety.name, class.as_deref()),
        class,
    })
}

/// What a plant's seed comes to.
pub(crate) fn crop_of(class: Option<&str>, lots: &[&LotSeen], plots: &[PlotGave]) -> Option<(Crop, RestsOn)> {
    let gave = |seen: &&LotSeen| {
        let standing = seen.entries.iter().filter(|entry| entry.state == EntryState::Standing);
        LotGave::of(&seen.lot, standing.filter_map(|entry| entry.note.as_ref()), &seen.account.seed_weight?)
    };
    let gave: Vec<LotGave> = lots.iter().filter_map(gave).collect();
    seed_of_a_plant(FruitKind::of_class(class.unwrap_or_default()), &gave, plots)
}

/// Packets of so many seeds that one plant makes.
pub(crate) fn packets_a_plant(crop: &Crop, seeds_each: u32) -> Option<f64> {
    packets_of_a_plant(crop, seeds_each)
}

fn thousand_of(lots: &[&LotSeen]) -> (Grams, Weighed) {
    let newest = lots.iter().filter_map(|seen| Some((seen.lot.season, seen.account.seed_weight?.thousand)));
    let newest = newest.max_by_key(|(season, _)| *season);
    newest.map_or((usual_thousand(), Weighed::No), |(_, thousand)| (thousand, Weighed::OwnLot))
}

/// Sound fruits picked of every plot whose fruits were counted, by variety.
pub(crate) fn fruit_of_plots(ledger: &mut Ledger) -> Result<HashMap<Id<Variety>, Vec<PlotGave>>, HouseFault> {
    let mut sums: HashMap<Id<Plot>, u32> = HashMap::new();
    ledger.picks_by_variety(Whose::Everyones, &mut |gathered| {
        for pick in gathered.records {
            if let (Some(plot), Some(count)) = (pick.subject.plot, pick.fruit_count) {
                let sum = sums.entry(plot).or_default();
                *sum = sum.saturating_add(count);
            }
        }
        ControlFlow::Continue(())
    })?;
    let mut all: HashMap<Id<Variety>, Vec<PlotGave>> = HashMap::new();
    for plot in ledger.plots()?.into_iter().filter(|plot| plot.layout.role != Some(PlotRole::Guard)) {
        if let (Some(fruits), Some(plants)) = (sums.get(&plot.id), plot.plant_count) {
            all.entry(plot.variety).or_default().push(PlotGave { fruits: *fruits, plants });
        }
    }
    Ok(all)
}

/// How sure an increase is to suffice where nobody says: 9 in 10. A choice of ours.
#[must_use]
pub fn usual_sure() -> Share {
    Share::of(9, 10).unwrap_or(Share::NONE)
}
