//! The harvest to expect in a garden: the house's plots, put through every year of the garden's weather.
//!
//! Start at [`forecast`]. [`told`] puts it on the calendar, [`place`] is where weather comes from, [`hindsight`] holds forecasts of past seasons to what was picked, `crops` what the house's plots say of its varieties.

use crate::calendar;
use crate::fault::HouseFault;
use crate::folder::House;
use crate::list::filter::{Filter, Showing};
use crate::list::{self, Listed};
use crate::names;
use crate::ripen;
use crate::weather::Said;
use crops::{Crops, crops};
use ledger::ledger::Ledger;
use place::{Climates, Homes, Weather};
use record::variety::Variety;
use ripening::crop::Belief;
pub use ripening::crop::Shape;
pub use ripening::forecast::flowering::Flowering;
use ripening::forecast::flowering::flowering;
pub use ripening::forecast::window::Planting;
use ripening::forecast::{Drawn, Draws, Seasons, window};
pub use ripening::forecast::{Forecast, Range, TOLD};
pub use ripening::thermal::Clock;
use std::path::PathBuf;

pub(crate) mod crops;
pub mod hindsight;
pub mod place;
pub mod told;

/// What is asked.
#[derive(Clone, Debug)]
pub struct Asked {
    /// Varieties by name or alias; all that have picks where none are named.
    pub varieties: Vec<String>,
    /// Whose weather it is.
    pub place: Place,
    /// The weather of all the house's own plots; where none is named, that of their gardens where it has been told, else the same.
    pub home: Option<PathBuf>,
    /// What is said of the files beside them; its station is that of the garden's.
    pub said: Said,
    /// How warmth is counted: the house's plots and the garden's years by the same.
    pub clock: Clock,
    /// Month and day on which plants go out; by the garden's calendar if none.
    pub out: Option<(i8, i8)>,
    /// Frost that is risked after planting, where the calendar sets the day; the garden's own, or one year in ten, if none.
    pub risk: Option<Risk>,
}

/// Whose weather a forecast is for.
#[derive(Clone, Debug)]
pub enum Place {
    /// A garden that the house has told of, by name.
    Garden(String),
    /// A station's file, or a station that is kept or known, by identifier or name.
    Station(PathBuf),
}

/// In how many years of ten a frost after planting is risked.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Risk {
    /// One: the gardener's safe day.
    #[default]
    OneInTen,
    /// Five: the average day.
    FiveInTen,
    /// Nine.
    NineInTen,
}

impl Risk {
    /// The one that a number of years in 100 comes nearest to.
    fn nearest(in_100: u32) -> Self {
        match in_100 {
            0..=29 => Self::OneInTen,
            30..=69 => Self::FiveInTen,
            _ => Self::NineInTen,
        }
    }

    /// Its place among [`ripening::frost::TOLD`].
    pub(crate) fn place(self) -> usize {
        match self {
            Self::OneInTen => 0,
            Self::FiveInTen => 1,
            Self::NineInTen => 2,
        }
    }
}

/// The harvest to expect.
#[derive(Clone, Debug)]
pub struct Harvest {
    /// The garden's weather.
    pub weather: Climates,
    /// The weather of the house's own plots, where it is another: each once, by name.
    pub homes: Vec<Climates>,
    /// How warmth is counted.
    pub clock: Clock,
    /// Month and day on which plants go out.
    pub out: (i8, i8),
    /// Years that were put through.
    pub years: Vec<i16>,
    /// Years that were not known to their end.
    pub left_out: Vec<i16>,
    /// Plots whose own season's weather nobody has, of all: a middling season stands in for it.
    pub stood_in: (usize, usize),
    /// Weeks from planting to the killing frost of half the years; `None` where half have none in time.
    pub frost_week: Option<f64>,
    /// Week by week from planting, the parts of the years in which flowers set poorly.
    pub flowering: Vec<Flowering>,
    /// The varieties, those that ripen first first.
    pub varieties: Vec<Expected>,
    /// Days to plant out on, where one variety was asked for.
    pub plantings: Vec<Planting>,
}

/// What to expect of one variety.
#[derive(Clone, Debug)]
pub struct Expected {
    /// Its name.
    pub name: String,
    /// How its crop goes on.
    pub shape: Shape,
    /// Plots and seasons that it rests on.
    pub rests_on: (usize, usize),
    /// Part of what is believed of its weight that is borrowed from varieties of its kind.
    pub borrowed: f64,
    /// The harvest, by the plant.
    pub forecast: Forecast,
    /// Season's totals if only the weather were not known, only the variety, only how plots and seasons differ.
    pub alone: Option<[Range; 3]>,
}

/// Draws of each variety, put through every year.
const DRAWS: usize = 256;

/// Says what harvest to expect.
///
/// # Errors
/// [`HouseFault::NoSuchVariety`]; [`HouseFault::NoPicks`] where nothing of the house tells of a crop; a weather file's
/// fault, among them that no year of it is whole; what the ledger refuses.
pub fn forecast(house: &House, asked: &Asked) -> Result<Harvest, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let named: Vec<Variety> =
        asked.varieties.iter().map(|name| names::find(&mut ledger, name)).collect::<Result<_, _>>()?;
    let plots = ripen::everyones(&mut ledger)?;
    let (weather, risk) = place::of(&mut ledger, &asked.place, &asked.said)?;
    let of_home = Said { station: None, ..asked.said.clone() };
    let homes = Homes::found(&mut ledger, asked.home.as_deref(), &of_home, Some(&weather))?;
    drop(ledger);
    let risk = asked.risk.or(risk).unwrap_or_default();
    let out = asked.out.map_or_else(|| calendar::planted(&weather, risk, None), Ok)?;
    let seasons = Seasons::of(&weather.days, asked.clock, out);
    if seasons.is_empty() {
        return Err(place::PlaceFault::NoYear {
            name: weather.climates.name,
            left_out: seasons.left_out.len(),
        }
        .into());
    }
    let listed = list::list(house, &Filter { showing: Showing::Whole, ..Filter::default() })?.varieties;
    let crops = crops(&listed, &plots, &homes, asked.clock);
    if crops.own.is_empty() && plots.values().any(|plots| !plots.is_empty()) {
        let other = homes.beside(&weather.climates).into_iter().next().unwrap_or(weather.climates);
        return Err(place::PlaceFault::PlotsNotThere(other.name).into());
    }
    let expected = expected(&listed, &named, &crops, &seasons)?;
    let plantings = match (named.as_slice(), expected.as_slice()) {
        ([_], [one]) => plantings(&crops, &one.name, &weather, asked.clock, out),
        _ => Vec::new(),
    };
    Ok(Harvest {
        homes: homes.beside(&weather.climates),
        weather: weather.climates,
        clock: asked.clock,
        out,
        frost_week: seasons.frost_week(),
        flowering: flowering(&seasons),
        years: seasons.years,
        left_out: seasons.left_out,
        stood_in: crops.stood_in,
        varieties: expected,
        plantings,
    })
}

/// Puts every variety that was asked for through the seasons.
fn expected(
    listed: &[Listed],
    named: &[Variety],
    crops: &Crops,
    seasons: &Seasons,
) -> Result<Vec<Expected>, HouseFault> {
    let is_wanted = |one: &&Listed| match named {
        [] => crops.own.contains_key(&one.variety.id),
        named => named.iter().any(|wanted| wanted.id == one.variety.id),
    };
    use rayon::prelude::{IntoParallelIterator, ParallelIterator};
    let wanted: Vec<&Listed> = listed.iter().filter(is_wanted).collect();
    let is_alone = named.len() == 1;
    let told = wanted.into_par_iter().filter_map(|one| {
        let (belief, fruit) = crops.of(one.variety.id)?;
        let rests_on = crops.rests_on(one);
        let draws = Draws::of(&belief, DRAWS, Drawn::All, fruit);
        let forecast = Forecast::of(seasons, &draws)?;
        let (name, shape, borrowed) = (one.variety.name.clone(), belief.shape, belief.kilograms.borrowed);
        let alone = is_alone.then(|| alone(&belief, fruit, seasons)).flatten();
        Some(Expected { name, shape, rests_on, borrowed, forecast, alone })
    });
    let mut told: Vec<Expected> = told.collect();
    told.sort_by(|one, other| {
        let first = |one: &Expected| one.forecast.first.map(|day| day.unwrap_or(i32::MAX));
        let [(_, one_first, _), (_, other_first, _)] = [first(one), first(other)].map(|[a, b, c]| (a, b, c));
        (one_first, &one.name).cmp(&(other_first, &other.name))
    });
    if told.is_empty() {
        let variety = named.first().map_or_else(|| "any variety".to_owned(), |one| one.name.clone());
        return Err(HouseFault::NoPicks { variety, fewest: ripening::picked::FEWEST_PICKS });
    }
    Ok(told)
}

/// Totals when one thing alone is not known: the weather; the variety, in middling weather; its plots and seasons.
fn alone(belief: &Belief, fruit: f64, seasons: &Seasons) -> Option<[Range; 3]> {
    let draws = |drawn| Draws::of(belief, DRAWS, drawn, fruit);
    let weather = Forecast::total_of(seasons, &draws(Drawn::Nothing))?;
    let middling = seasons.middling(&draws(Drawn::Nothing))?;
    let variety = Forecast::total_of(&middling, &draws(Drawn::Variety))?;
    let plants = Forecast::total_of(&middling, &draws(Drawn::Plants))?;
    Some([weather, variety, plants])
}

fn plantings(crops: &Crops, name: &str, weather: &Weather, clock: Clock, out: (i8, i8)) -> Vec<Planting> {
    let own = crops.by_name(name);
    let draws = own.map(|(belief, fruit)| Draws::of(&belief, DRAWS, Drawn::All, fruit));
    draws.map(|draws| window::around(&weather.days, clock, out, &draws)).unwrap_or_default()
}
