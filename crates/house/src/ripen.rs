//! When a variety ripens: its picks as a curve, how far plots and seasons move it, and what the years of any garden make of it.
//!
//! Times are days from transplanting, or degree-days where somebody's weather is asked by: each plot's then by the weather
//! of the garden that it stood in. Either way the years of the house's own gardens, and of any other, are asked how many
//! days it takes there ([`ByYears`]). Start at [`ripen`]; [`drawn`] makes a drawing of it, and [`write`] a file of that.

use crate::fault::HouseFault;
use crate::folder::House;
use crate::forecast::Place;
use crate::forecast::place::{self, Climates, Homes, Weather};
use crate::names;
use crate::picture::{self, Picture};
use crate::warmth::USUAL;
use crate::weather::{Said, WeatherFault};
use behind::Behind;
pub use behind::{PlotWarmth, Stood};
use drawing::ripe_share::{RipePoint, RipeShare, ripe_share};
use drawing::scale::Pixels;
use jiff::civil::Date;
use ledger::ledger::Ledger;
pub(crate) use plots::{PlotPicks, everyones};
use record::id::Id;
use record::mass::Grams;
use record::season::Season;
use record::share::Share;
use record::variety::Variety;
use ripening::curve::{self, Curves, LAWS, PlotOf, Scatter};
pub use ripening::curve::{Law, Point, SHARES};
use ripening::picked::FEWEST_PICKS;
pub use ripening::picked::LastPick;
use ripening::thermal::Clock;
use ripening::timeline::Timeline;
pub use ripening::timeline::{Counted, Summer};
pub use ripening::years::Years;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

mod behind;
mod plots;

/// What is asked.
#[derive(Clone, Debug)]
pub struct Asked {
    /// The variety's name or alias.
    pub variety: String,
    /// Whose weather to count warmth by.
    pub by: Option<ByWeather>,
}

/// Whose weather to count warmth by.
#[derive(Clone, Debug)]
pub struct ByWeather {
    /// The garden or station whose years are asked.
    pub place: Place,
    /// The weather of all the house's own plots; where none is named, that of their gardens where it has been told, else the same.
    pub home: Option<PathBuf>,
    /// What is said of the files beside them; its station is that of the place.
    pub said: Said,
    /// How a day's warmth is counted.
    pub clock: Clock,
    /// Month and day on which plants go out in the years; the middle day of the variety's plots if none.
    pub out: Option<(i8, i8)>,
}

/// When a variety ripens.
#[derive(Clone, Debug)]
pub struct Ripening {
    /// Its name.
    pub variety: String,
    /// Its plots, season by season.
    pub plots: Vec<PlotTold>,
    /// The law, what it is counted in, and the plots that told it.
    pub curves: Curves,
    /// Time to a tenth, half and nine tenths ripe.
    pub points: [Option<Point>; 3],
    /// The whole curve: shares ripe, and the times to them.
    pub course: Vec<(Share, f64)>,
    /// What had been taken of each plot after each of its picks.
    pub steps: Vec<Vec<(f64, Share)>>,
    /// Varieties that the scatter of plots and seasons comes from.
    pub varieties: usize,
    /// Seasons of the house that it comes from.
    pub seasons: usize,
    /// What the years of the gardens in which its plots stood make of it, and those of the weather that was asked by last.
    pub years: Vec<ByYears>,
}

/// One plot's picks.
#[derive(Clone, Debug, PartialEq)]
pub struct PlotTold {
    /// The season.
    pub season: Season,
    /// The label on its stake.
    pub label: String,
    /// The day its plants went out.
    pub transplanted: Date,
    /// Days of picking.
    pub picks: usize,
    /// Days from transplanting to the first pick.
    pub first: Option<i32>,
    /// Days to the picks with which a tenth, half and nine tenths had been taken.
    pub taken_by: [Option<i32>; 3],
    /// Whether the last pick cleared it.
    pub last_pick: LastPick,
    /// Sound fruit a plant, where weighed and the plants are known.
    pub a_plant: Option<Grams>,
    /// Mean weight of a fruit in the first half of those counted and weighed, and in the second.
    pub fruit: Option<(Grams, Grams)>,
    /// The warmth of its season, where somebody's weather tells it.
    pub warmth: Option<PlotWarmth>,
}

/// What the years of somebody's weather make of a variety.
#[derive(Clone, Debug, PartialEq)]
pub struct ByYears {
    /// Whose weather.
    pub weather: Climates,
    /// How warmth is counted.
    pub clock: Clock,
    /// Month and day on which plants go out.
    pub out: (i8, i8),
    /// Days from transplanting, year by year.
    pub years: Years,
}

/// Says when a variety ripens.
///
/// # Errors
/// [`HouseFault::NoSuchVariety`]; [`HouseFault::NoPicks`]; a weather file's fault, among them that no year of it stands for
/// the days of the variety's own picks; what the ledger refuses.
pub fn ripen(house: &House, asked: &Asked) -> Result<Ripening, HouseFault> {
    let by = asked.by.as_ref();
    let Gathered { variety, all, weather, homes } = gathered(house, asked)?;
    let none = || HouseFault::NoPicks { variety: variety.name.clone(), fewest: FEWEST_PICKS };
    let own = all.get(&variety.id).filter(|plots| !plots.is_empty()).ok_or_else(none)?;
    let clock = by.map_or(USUAL, |by| by.clock);
    let mut behind = Behind::new(&homes, clock);
    let warm: Vec<Timed> = own.iter().map(|plot| behind.timeline(plot)).collect();
    if let (Some(weather), Some(plot)) = (&weather, own.first().filter(|_| warm.iter().all(Option::is_none)))
    {
        return Err(not_covered(plot, weather).into());
    }
    let mut timelines = |plots: &[PlotPicks]| -> Vec<Timed> {
        plots.iter().map(|plot| if by.is_some() { behind.timeline(plot) } else { Some(DAYS) }).collect()
    };
    let timelines: BTreeMap<Id<Variety>, Vec<Timed>> =
        all.iter().map(|(id, plots)| (*id, timelines(plots))).collect();
    let timed = |id: &Id<Variety>, plots| {
        timelines.get(id).map(|timelines| with_timelines(plots, timelines)).unwrap_or_default()
    };
    let fitted = all.iter().filter_map(|(id, plots)| {
        // How far plots scatter hardly depends on the law, so the others have the quickest to fit.
        let laws = if *id == variety.id { LAWS.as_slice() } else { &[Law::LogNormal] };
        Some((*id, curve::fit(laws, &timed(id, plots))?))
    });
    let fitted: BTreeMap<Id<Variety>, Curves> = fitted.collect();
    let curves = fitted.get(&variety.id).cloned().ok_or_else(none)?;
    let plots = timed(&variety.id, own);
    let everyone: Vec<&Curves> = fitted.values().collect();
    let out = by.and_then(|by| by.out).unwrap_or_else(|| plots::usual_day(own));
    let by_warmth = curve::fit(&LAWS, &with_timelines(own, &warm));
    let years = by_warmth.map(|curves| years(&curves, &places(own, &homes, weather.as_ref()), clock, out));
    Ok(Ripening {
        plots: own.iter().zip(&warm).map(|(plot, warm)| plot_told(plot, warm.as_ref(), &behind)).collect(),
        points: [0, 1, 2].map(|share| Point::of(&curves, share, Scatter::of(&everyone, share).as_ref())),
        course: curve::course(curves.law, &plots),
        steps: plots
            .iter()
            .filter_map(|(_, picked, line)| picked.steps(|day| line.time(picked, day)))
            .collect(),
        varieties: everyone.len(),
        seasons: seasons(&everyone),
        years: years.unwrap_or_default(),
        variety: variety.name,
        curves,
    })
}

/// What the ledger has of it.
struct Gathered {
    variety: Variety,
    all: BTreeMap<Id<Variety>, Vec<PlotPicks>>,
    /// The weather that is asked by.
    weather: Option<Weather>,
    homes: Homes,
}

fn gathered(house: &House, asked: &Asked) -> Result<Gathered, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let (variety, all) = ledger.at_one_moment(|ledger| {
        let variety = names::find(ledger, &asked.variety)?;
        Ok::<_, HouseFault>((variety, everyones(ledger)?))
    })?;
    let (weather, homes) = match &asked.by {
        None => (None, Homes::found(&mut ledger, None, &Said::default(), None)?),
        Some(by) => {
            let (weather, _) = place::of(&mut ledger, &by.place, &by.said)?;
            let of_home = Said { station: None, ..by.said.clone() };
            let homes = Homes::found(&mut ledger, by.home.as_deref(), &of_home, Some(&weather))?;
            (Some(weather), homes)
        }
    };
    Ok(Gathered { variety, all, weather, homes })
}

/// Seasons of all that was fitted.
fn seasons(everyone: &[&Curves]) -> usize {
    let all = everyone.iter().flat_map(|curves| curves.plots.iter().map(|plot| plot.season));
    all.collect::<BTreeSet<Season>>().len()
}

/// The times of a plot's days, and where they are from; `None` where nothing tells them.
type Timed = Option<(Timeline, Stood)>;

/// Days by the calendar, which are every plot's own.
const DAYS: (Timeline, Stood) = (Timeline::Days, Stood::Measured);

/// Plots with the times of their days, of those that have any.
fn with_timelines<'a>(plots: &'a [PlotPicks], timelines: &'a [Timed]) -> Vec<PlotOf<'a>> {
    let both = plots.iter().zip(timelines);
    both.filter_map(|(plot, timed)| Some((plot.season, &plot.picked, &timed.as_ref()?.0))).collect()
}

fn plot_told(plot: &PlotPicks, warm: Option<&(Timeline, Stood)>, behind: &Behind<'_>) -> PlotTold {
    let warmth = warm.and_then(|(timeline, stood)| behind.told(plot, timeline, *stood));
    PlotTold { warmth, ..plot.told() }
}

/// Whose years are asked: the weather of the gardens where the variety's plots stood, each once, then the one asked by.
fn places<'a>(plots: &[PlotPicks], homes: &'a Homes, asked: Option<&'a Weather>) -> Vec<&'a Weather> {
    let mut places: Vec<&Weather> = Vec::new();
    for home in plots.iter().filter_map(|plot| homes.of(&plot.garden)).chain(asked) {
        places.retain(|known| known.climates.name != home.climates.name);
        places.push(home);
    }
    places
}

fn years(curves: &Curves, places: &[&Weather], clock: Clock, out: (i8, i8)) -> Vec<ByYears> {
    let needed = [0, 1, 2].map(|share| Point::of(curves, share, None)?.needed());
    let of = |place: &&Weather| ByYears {
        weather: place.climates.clone(),
        clock,
        out,
        years: Years::of(needed, &place.days, out),
    };
    places.iter().map(of).collect()
}

/// Says that no day of some weather stands for those of a plot.
fn not_covered(plot: &PlotPicks, weather: &Weather) -> WeatherFault {
    let from = plot.picked.transplanted();
    let to = plot.picked.taken().last().map_or(from, |pick| pick.on);
    let file = PathBuf::from(&weather.climates.name);
    WeatherFault::NotCovered { file, plot: plot.told().label, from, to }
}

/// The curve with its points and the picks of its plots, to be drawn.
#[must_use]
pub fn drawn(found: &Ripening) -> RipeShare {
    let unit = match found.curves.counted {
        Counted::InDays => "days",
        Counted::InWarmth(_) => "degree-days",
    };
    let point = |(share, point): (&f64, &Option<Point>)| {
        let (share, point) = (Share::new(*share)?, (*point)?);
        let (plots, seasons) = (point.another_plot, point.another_season);
        Some(RipePoint { share, at: point.time, plots, seasons })
    };
    let points: Vec<RipePoint> = SHARES.iter().zip(&found.points).filter_map(point).collect();
    let told = points.iter().map(|point| format!("{} {:.0}", share_named(point.share.get()), point.at));
    let told = told.collect::<Vec<_>>().join(", ");
    RipeShare {
        words: format!("The share of {} that is ripe, by {unit} from transplanting: {told}", found.variety),
        axis: format!("{unit} from transplanting"),
        curve: found.course.iter().map(|(share, time)| (*time, *share)).collect(),
        plots: found.steps.clone(),
        points,
    }
}

/// Width of a drawing that is written as a file, in pixels.
const WRITTEN: u16 = 640;

/// Writes the drawing as a picture, by the file's ending.
///
/// # Errors
/// [`HouseFault::NotKnown`] for an ending that is no picture's; what the disk refuses.
pub fn write(found: &Ripening, file: &Path) -> Result<Picture, HouseFault> {
    picture::write(file, || Ok(ripe_share(&drawn(found), Pixels::from(WRITTEN))))
}

/// A law in words.
#[must_use]
pub fn law_named(law: Law) -> &'static str {
    match law {
        Law::LogNormal => "log-normal",
        Law::Weibull => "Weibull",
        Law::LogLogistic => "log-logistic",
        Law::Gamma => "gamma",
        Law::Normal => "normal",
    }
}

/// One of the [`SHARES`] in words.
#[must_use]
pub fn share_named(share: f64) -> &'static str {
    if share < 0.5 {
        "a tenth"
    } else if share <= 0.5 {
        "half"
    } else {
        "nine tenths"
    }
}
