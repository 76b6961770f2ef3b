//! The weather that the house's own plots stood in.

use super::{Climates, PlaceFault, Weather, garden, weather};
use crate::fault::HouseFault;
use crate::weather::Said;
use ledger::ledger::Ledger;
use ledger::names::label_key;
use record::place::Place;
use std::collections::HashMap;
use std::path::Path;

/// The weather that the house's own plots stood in.
pub(crate) struct Homes {
    /// Of gardens whose weather has been told, by the key of their name.
    told: HashMap<String, Weather>,
    /// Of all others; `None` where nobody's was asked by.
    other: Option<Weather>,
}

impl Homes {
    /// One weather for all of them where one is named; else each garden's own where it has been told, and the asked one's.
    pub(crate) fn found(
        ledger: &mut Ledger,
        named: Option<&Path>,
        said: &Said,
        asked: Option<&Weather>,
    ) -> Result<Self, HouseFault> {
        if let Some(named) = named {
            return Ok(Self { told: HashMap::new(), other: Some(weather(ledger, named, said)?) });
        }
        let mut told = HashMap::new();
        let gardens = ledger.gardens()?;
        for own in
            gardens.iter().filter(|garden| garden.weather.is_some() || garden.place != Place::default())
        {
            match garden(ledger, &own.name, &Said::default()) {
                Ok((weather, _)) => drop(told.insert(label_key(&own.name), weather)),
                // Nobody lies near enough to tell: the plots go with the others.
                Err(HouseFault::Place(PlaceFault::NoWeather(_))) => {}
                Err(fault) => return Err(fault),
            }
        }
        Ok(Self { told, other: asked.cloned() })
    }

    /// The weather of a garden's plots, where it was told or another's was asked by.
    pub(crate) fn of(&self, garden: &str) -> Option<&Weather> {
        self.told.get(&label_key(garden)).or(self.other.as_ref())
    }

    /// Those that are other than the asked one, each once, by name.
    pub(crate) fn beside(&self, asked: &Climates) -> Vec<Climates> {
        let all = self.told.values().chain(&self.other).map(|weather| weather.climates.clone());
        let mut others: Vec<Climates> = all.filter(|own| own.name != asked.name).collect();
        others.sort_by(|one, other| one.name.cmp(&other.name));
        others.dedup_by(|one, other| one.name == other.name);
        others
    }
}
