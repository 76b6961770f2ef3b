//! Hindsight: every season of the house forecast from its other seasons, with that season's own weather, and held to what
//! was picked.
//!
//! What is left then is what is not known of plants and plots, so of 100 plots some 80 should lie between the poor and the
//! good season told. Start at [`hindsight`]. Two things are not left out: a variety's habit was called from all its notes,
//! and the weight of its fruit is that of all its picks; neither moves a date or a weight by much.

use super::crops::{Crops, SeasonsOfPlots, crops};
use super::place::{Homes, PlaceFault};
use super::{DRAWS, Shape};
use crate::fault::HouseFault;
use crate::folder::House;
use crate::list::filter::{Filter, Showing};
use crate::list::{self, Listed};
use crate::ripen::{self, PlotPicks};
use crate::weather::{Said, Scale};
use ledger::ledger::Ledger;
use rayon::prelude::{IntoParallelIterator, ParallelIterator};
use record::id::Id;
use record::season::Season;
use record::variety::Variety;
use ripening::forecast::held::Came;
pub use ripening::forecast::held::Held;
use ripening::forecast::{Drawn, Draws, Forecast, Seasons};
use ripening::grown::Grown;
use ripening::thermal::Clock;
use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;

/// What is asked.
#[derive(Clone, Debug)]
pub struct Asked {
    /// The weather of all the house's own plots; where none is named, that of their gardens where it has been told.
    pub home: Option<PathBuf>,
    /// The scale of its file, where it does not say.
    pub scale: Option<Scale>,
    /// How warmth is counted.
    pub clock: Clock,
}

/// How forecasts of the house's own seasons came out.
#[derive(Clone, Debug)]
pub struct Hindsight {
    /// How warmth is counted.
    pub clock: Clock,
    /// Season by season and garden by garden.
    pub seasons: Vec<SeasonHeld>,
    /// Varieties with one crop that other seasons know.
    pub one_crop: Held,
    /// Varieties that bear until frost and that other seasons know.
    pub until_frost: Held,
    /// Varieties that stood in no other season, forecast as their kind is.
    pub strangers: Held,
    /// Plots that were not held to anything, for nobody measured the weather of their season.
    pub not_measured: usize,
    /// Plots that were picked in a season beside which there is no other.
    pub alone: usize,
}

/// One season in one garden.
#[derive(Clone, Debug)]
pub struct SeasonHeld {
    /// The season.
    pub season: Season,
    /// The garden.
    pub garden: String,
    /// Whose weather it had.
    pub weather: String,
    /// How its plots came out.
    pub held: Held,
}

/// Holds every season to what the others say of it.
///
/// # Errors
/// [`HouseFault::NoPicks`] without picks; [`PlaceFault::NoSeasonMeasured`] where no plot's weather was measured; a weather
/// file's fault; what the ledger refuses.
pub fn hindsight(house: &House, asked: &Asked) -> Result<Hindsight, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let plots = ripen::everyones(&mut ledger)?;
    let said = Said { scale: asked.scale, station: None };
    let homes = Homes::found(&mut ledger, asked.home.as_deref(), &said, None)?;
    drop(ledger);
    let listed = list::list(house, &Filter { showing: Showing::Whole, ..Filter::default() })?.varieties;
    let seasons: BTreeSet<Season> = plots.values().flatten().map(|plot| plot.season).collect();
    if seasons.is_empty() {
        let (variety, fewest) = ("any variety".to_owned(), ripening::picked::FEWEST_PICKS);
        return Err(HouseFault::NoPicks { variety, fewest });
    }
    let mut told = Hindsight {
        clock: asked.clock,
        seasons: Vec::new(),
        one_crop: Held::default(),
        until_frost: Held::default(),
        strangers: Held::default(),
        not_measured: 0,
        alone: 0,
    };
    for season in &seasons {
        told.hold(*season, &listed, &plots, &homes);
    }
    if told.seasons.is_empty() && told.alone == 0 {
        return Err(PlaceFault::NoSeasonMeasured.into());
    }
    Ok(told)
}

/// A plot to be held to its forecast.
struct Trial<'a> {
    variety: Id<Variety>,
    plot: &'a PlotPicks,
    grown: Grown,
}

/// A plot that was.
struct Done<'a> {
    garden: &'a str,
    shape: Shape,
    is_known: bool,
    held: Held,
}

impl Hindsight {
    /// Forecasts one season from the others.
    fn hold(&mut self, season: Season, listed: &[Listed], plots: &Plots, homes: &Homes) {
        let others: Plots = plots.iter().map(|(id, plots)| (*id, but(plots, season))).collect();
        let crops = crops(listed, &others, homes, self.clock);
        let mut seasons = SeasonsOfPlots::new(homes, self.clock);
        let mut trials = Vec::new();
        for (id, plots) in plots {
            for plot in plots.iter().filter(|plot| plot.season == season) {
                match seasons.of(&plot.garden, plot.picked.transplanted()) {
                    Some((grown, true)) => trials.push(Trial { variety: *id, plot, grown: grown.clone() }),
                    _ => self.not_measured += 1,
                }
            }
        }
        let (clock, asked) = (self.clock, trials.len());
        let done: Vec<Done<'_>> =
            trials.into_par_iter().filter_map(|trial| one(&trial, &crops, clock)).collect();
        self.alone += if crops.own.is_empty() { asked } else { 0 };
        let mut gardens: BTreeMap<&str, Held> = BTreeMap::new();
        for one in done {
            let sum = match (one.is_known, one.shape) {
                (false, _) => &mut self.strangers,
                (true, Shape::Hump) => &mut self.one_crop,
                (true, Shape::Stream) => &mut self.until_frost,
            };
            *sum = sum.and(one.held);
            let garden = gardens.entry(one.garden).or_default();
            *garden = garden.and(one.held);
        }
        self.seasons.extend(gardens.into_iter().map(|(garden, held)| {
            let weather = homes.of(garden).map(|home| home.climates.name.clone()).unwrap_or_default();
            SeasonHeld { season, garden: garden.to_owned(), weather, held }
        }));
    }

    /// All plots together.
    #[must_use]
    pub fn all(&self) -> Held {
        self.one_crop.and(self.until_frost).and(self.strangers)
    }
}

type Plots = BTreeMap<Id<Variety>, Vec<PlotPicks>>;

/// A variety's plots but those of one season.
fn but(plots: &[PlotPicks], season: Season) -> Vec<PlotPicks> {
    plots.iter().filter(|plot| plot.season != season).cloned().collect()
}

/// Forecasts one plot's season, and holds it to what came.
fn one<'a>(trial: &Trial<'a>, crops: &Crops, clock: Clock) -> Option<Done<'a>> {
    let (belief, fruit) = crops.of(trial.variety)?;
    let plants = f64::from(trial.plot.plants.filter(|plants| 0 < *plants)?);
    let kilograms = trial.plot.kilograms()?;
    let mut season = Seasons::new(clock);
    season.add(trial.plot.season.year(), trial.grown.clone());
    // The first ripe fruit of a plot is the first of all its plants.
    let draws = Draws::of(&belief, DRAWS, Drawn::All, fruit / plants);
    let mut held = Held::default();
    held.add(&Forecast::of(&season, &draws)?, &Came::of(&trial.plot.picked, kilograms));
    let is_known = crops.own.contains_key(&trial.variety);
    Some(Done { garden: &trial.plot.garden, shape: belief.shape, is_known, held })
}
