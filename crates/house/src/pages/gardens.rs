//! What the page "For your garden" reckons with: each region's weather, and what the varieties would bear in it.
//!
//! Start at [`of`]. [`purposes`] is what buyers grow tomatoes for, [`trials`] wishes answered here as well.

mod purposes;
mod trials;

use crate::advise::kitchen;
use crate::calendar::planted;
use crate::fault::HouseFault;
use crate::folder::House;
use crate::forecast::crops::{Crops, crops};
use crate::forecast::place::{self, Climates, Homes, Source, Weather};
use crate::forecast::{Place, Risk};
use crate::list::Listed;
use crate::ripen;
use crate::warmth::USUAL;
use crate::weather::Said;
use advice::by_itself::borne;
use jiff::civil::Date;
use ledger::ledger::Ledger;
use publish::pages::gardens::told::{Gardens, Region};
use rayon::prelude::{IntoParallelRefIterator, ParallelIterator};
use record::mass::Grams;
use ripening::forecast::Seasons;
use ripening::forecast::sampled::sampled;
use ripening::grown::WEEKS;
use std::path::PathBuf;

/// Sampled years of a region: every one of its drawn years once.
const SAMPLED: usize = 40;
/// The year that days are told in: a common one, for what is told holds for any.
const YEAR: i16 = 2001;
/// Varieties up to which crops are told: a region's file grows with them. A choice of ours.
const MOST_VARIETIES: usize = 1_000;

/// Everything that the page reckons with; no regions where no picks tell what a plant bears, or the list is too long.
pub(super) fn of(house: &House, ledger: &mut Ledger, all: &[Listed]) -> Result<Gardens, HouseFault> {
    let plots = ripen::everyones(ledger)?;
    if plots.is_empty() || MOST_VARIETIES < all.len() {
        return Ok(Gardens::default());
    }
    let mut regions = Vec::new();
    for name in names(house) {
        let weather = weather(ledger, &name)?;
        let homes = Homes::found(ledger, None, &Said::default(), Some(&weather))?;
        let crops = crops(all, &plots, &homes, USUAL);
        regions.extend(region(all, &crops, &weather));
    }
    let guide = kitchen::guide()?;
    let cautions = guide.cautions.into_iter().map(|caution| (caution.name, caution.words)).collect();
    Ok(Gardens { regions, purposes: purposes::all(house.settings.units), cautions })
}

/// The regions that the house sells to: those it says, else all that are known without a file.
fn names(house: &House) -> Vec<String> {
    let known = || place::known().into_iter().map(str::to_owned).collect();
    house.settings.sells_to.clone().unwrap_or_else(known)
}

fn weather(ledger: &mut Ledger, name: &str) -> Result<Weather, HouseFault> {
    place::of(ledger, &Place::Station(PathBuf::from(name)), &Said::default()).map(|(weather, _)| weather)
}

/// Refuses regions that nobody knows.
pub(super) fn refuse_unknown(house: &House, ledger: &mut Ledger) -> Result<(), HouseFault> {
    names(house).iter().try_for_each(|name| weather(ledger, name).map(drop))
}

/// A region; nothing where no frost tells when to plant out, or no year of it is known to its end.
fn region(all: &[Listed], crops: &Crops, weather: &Weather) -> Option<Region> {
    let (month, day) = planted(weather, Risk::default(), None).ok()?;
    let seasons = Seasons::of(&weather.days, USUAL, (month, day));
    let plants_out = Date::new(YEAR, month, day).ok()?;
    if seasons.is_empty() {
        return None;
    }
    let bearing = |one: &Listed| -> Option<Vec<u32>> {
        crops.own.get(&one.variety.id)?;
        let kilograms = sampled(&seasons, &crops.belief(one.variety.id)?, SAMPLED, &one.variety.name)?;
        Some(kilograms.into_iter().map(|kilograms| Grams::of_kilograms(kilograms).map_or(0, borne)).collect())
    };
    let bearings: Vec<Option<Vec<u32>>> = all.par_iter().map(bearing).collect();
    let trials = trials::of(&bearings, WEEKS);
    Some(Region {
        name: weather.climates.name.clone(),
        weather: told(&weather.climates),
        plants_out,
        weeks: WEEKS,
        bearings,
        trials,
    })
}

fn told(climates: &Climates) -> String {
    match climates.source {
        Source::Measured { from, to, .. } => {
            format!("Weather measured at {} from {} to {}.", climates.name, from.year(), to.year())
        }
        Source::Drawn { years, .. } => {
            format!(
                "{years} years of weather drawn from the climate of {}, none of them measured.",
                climates.name
            )
        }
    }
}
