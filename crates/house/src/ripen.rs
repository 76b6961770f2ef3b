//! When a variety ripens: its picks as a curve, how far plots and seasons move it, and what a station's years make of it.
//!
//! Without a station's record times are days from transplanting; with one they are degree-days, and every year of the file is
//! asked when it would have come so far. Start at [`ripen`]; [`drawn`] makes a drawing of it, and [`write`] a file of that.

use crate::fault::HouseFault;
use crate::folder::House;
use crate::names;
use crate::picture::{self, Picture};
use crate::weather::{self, Record, Scale, WeatherFault};
use drawing::ripe_share::{RipePoint, RipeShare, ripe_share};
use drawing::scale::Pixels;
use jiff::civil::Date;
use ledger::evidence::Whose;
use ledger::ledger::Ledger;
use record::growout::{GrowOut, Plot};
use record::id::Id;
use record::mass::Grams;
use record::pick::Pick;
use record::season::Season;
use record::share::Share;
use record::variety::Variety;
use ripening::curve::{self, Curves, LAWS, Scatter};
pub use ripening::curve::{Law, Point, SHARES};
pub use ripening::picked::LastPick;
use ripening::picked::{self, FEWEST_PICKS, Picked};
pub use ripening::thermal::{Clock, Course, CutOff, Method};
use ripening::weather::quality;
pub use ripening::years::Years;
use std::collections::{BTreeMap, HashMap};
use std::ops::ControlFlow;
use std::path::{Path, PathBuf};

/// What is asked.
#[derive(Clone, Debug)]
pub struct Asked {
    /// The variety's name or alias.
    pub variety: String,
    /// A station's record to count warmth by.
    pub by: Option<ByWeather>,
}

/// A station's record to count warmth by.
#[derive(Clone, Debug)]
pub struct ByWeather {
    /// The station's file, or the identifier or name of a station that the house keeps.
    pub file: PathBuf,
    /// Its scale, where the file does not say.
    pub scale: Option<Scale>,
    /// How a day's warmth is counted.
    pub clock: Clock,
    /// Month and day on which plants go out in the years of the record; the middle day of the variety's plots if none.
    pub out: Option<(i8, i8)>,
}

/// When a variety ripens.
#[derive(Clone, Debug)]
pub struct Ripening {
    /// Its name.
    pub variety: String,
    /// Its plots, season by season.
    pub plots: Vec<PlotTold>,
    /// The law, and the plots that told it.
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
    /// What the years of a record make of it.
    pub years: Option<ByYears>,
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
}

/// What the years of a station's record make of a variety.
#[derive(Clone, Debug, PartialEq)]
pub struct ByYears {
    /// The station, where the file names one.
    pub station: Option<String>,
    /// How warmth is counted.
    pub clock: Clock,
    /// Month and day on which plants go out.
    pub out: (i8, i8),
    /// Days from transplanting, year by year.
    pub years: Years,
    /// Temperatures of the record that were missing for a few days and are filled along a line.
    pub filled: usize,
}

/// Says when a variety ripens.
///
/// # Errors
/// [`HouseFault::NoSuchVariety`]; [`HouseFault::NoPicks`]; a weather file's fault, among them that it lacks the days of the
/// variety's own picks; what the ledger refuses.
pub fn ripen(house: &House, asked: &Asked) -> Result<Ripening, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let (variety, all) = ledger.at_one_moment(|ledger| {
        let variety = names::find(ledger, &asked.variety)?;
        Ok::<_, HouseFault>((variety, everyones(ledger)?))
    })?;
    let record = asked.by.as_ref().map(|by| weather::of(&mut ledger, &by.file, by.scale)).transpose()?;
    let (record, filled) = record.map_or((None, 0), |record| {
        let (days, filled) = quality::filled(record.days);
        (Some(Record { days, ..record }), filled)
    });
    let none = || HouseFault::NoPicks { variety: variety.name.clone(), fewest: FEWEST_PICKS };
    let own = all.get(&variety.id).filter(|plots| !plots.is_empty()).ok_or_else(none)?;
    let warmth = asked.by.as_ref().zip(record.as_ref());
    if let Some((by, record)) = warmth {
        covered(own, by, record)?;
    }
    let fitted: BTreeMap<Id<Variety>, Curves> = all
        .iter()
        .filter_map(|(id, plots)| {
            let picked: Vec<_> = plots.iter().map(|plot| (plot.season, &plot.picked)).collect();
            let sums = warmth.map(|(by, record)| sums_of(plots, by, record));
            // How far plots scatter hardly depends on the law, so the others have the quickest to fit.
            let laws = if *id == variety.id { LAWS.as_slice() } else { &[Law::LogNormal] };
            let curves = curve::fit(laws, &picked, |picked, day| time_of(sums.as_ref(), picked, day));
            Some((*id, curves?))
        })
        .collect();
    let curves = fitted.get(&variety.id).cloned().ok_or_else(none)?;
    let own_sums = warmth.map(|(by, record)| sums_of(own, by, record));
    let time = |picked: &Picked, day: Date| time_of(own_sums.as_ref(), picked, day);
    let picked: Vec<_> = own.iter().map(|plot| (plot.season, &plot.picked)).collect();
    let course = curve::course(curves.law, &picked, time);
    let steps = own.iter().filter_map(|plot| plot.picked.steps(|day| time(&plot.picked, day))).collect();
    let everyone: Vec<&Curves> = fitted.values().collect();
    let points = [0, 1, 2].map(|share| Point::of(&curves, share, Scatter::of(&everyone, share).as_ref()));
    let seasons = everyone.iter().flat_map(|curves| curves.plots.iter().map(|plot| plot.season));
    let seasons = seasons.collect::<std::collections::BTreeSet<_>>().len();
    let years = warmth.map(|(by, record)| {
        let out = by.out.unwrap_or_else(|| usual_day(own));
        let years = Years::of(points.map(|point| point.map(|point| point.time)), by.clock, &record.days, out);
        ByYears { station: record.station.clone(), clock: by.clock, out, years, filled }
    });
    Ok(Ripening {
        variety: variety.name,
        plots: own.iter().map(PlotPicks::told).collect(),
        curves,
        points,
        course,
        steps,
        varieties: everyone.len(),
        seasons,
        years,
    })
}

/// The curve with its points and the picks of its plots, to be drawn.
#[must_use]
pub fn drawn(found: &Ripening) -> RipeShare {
    let unit = if found.years.is_some() { "degree-days" } else { "days" };
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

/// Every variety's picks, plot by plot.
pub(crate) fn everyones(ledger: &mut Ledger) -> Result<BTreeMap<Id<Variety>, Vec<PlotPicks>>, HouseFault> {
    let plots: HashMap<Id<Plot>, Plot> = ledger.plots()?.into_iter().map(|plot| (plot.id, plot)).collect();
    let gardens: HashMap<Id<GrowOut>, String> =
        ledger.grow_outs()?.into_iter().map(|grow_out| (grow_out.id, grow_out.garden)).collect();
    let mut all: BTreeMap<Id<Variety>, Vec<PlotPicks>> = BTreeMap::new();
    ledger.picks_by_variety(Whose::Everyones, &mut |picks| {
        all.insert(picks.variety, plot_by_plot(picks.records, &plots, &gardens));
        ControlFlow::Continue(())
    })?;
    Ok(all)
}

/// One plot's picks of a season, with what goes beside them.
pub(crate) struct PlotPicks {
    pub(crate) season: Season,
    /// The garden that it stood in.
    pub(crate) garden: String,
    label: String,
    plants: Option<u32>,
    pub(crate) picked: Picked,
    sound: Option<f64>,
    fruit: Option<(Grams, Grams)>,
}

fn plot_by_plot(
    picks: &[Pick],
    plots: &HashMap<Id<Plot>, Plot>,
    gardens: &HashMap<Id<GrowOut>, String>,
) -> Vec<PlotPicks> {
    let mut by_plot: BTreeMap<(Season, Id<Plot>), Vec<&Pick>> = BTreeMap::new();
    for pick in picks {
        let Some(plot) = pick.subject.plot else { continue };
        by_plot.entry((pick.subject.season, plot)).or_default().push(pick);
    }
    let told = by_plot.into_iter().filter_map(|((season, id), mut picks)| {
        let plot = plots.get(&id)?;
        picks.sort_by_key(|pick| pick.picked_on);
        let weights = picks.iter().map(|pick| pick.weight.map(Grams::get));
        Some(PlotPicks {
            season,
            garden: gardens.get(&plot.grow_out).cloned().unwrap_or_default(),
            label: plot.label.clone(),
            plants: plot.plant_count,
            picked: Picked::of(plot.transplanted?, &picks)?,
            sound: weights.sum::<Option<f64>>(),
            fruit: picked::fruit_weight(&picks),
        })
    });
    let mut told: Vec<PlotPicks> = told.collect();
    told.sort_by(|one, other| (one.season, &one.label).cmp(&(other.season, &other.label)));
    told
}

impl PlotPicks {
    pub(crate) fn told(&self) -> PlotTold {
        let plants = self.plants.filter(|plants| 0 < *plants).map(f64::from);
        PlotTold {
            season: self.season,
            label: self.label.clone(),
            transplanted: self.picked.transplanted(),
            picks: self.picked.taken().len(),
            first: self.picked.first(),
            taken_by: SHARES.map(|share| self.picked.taken_by(share)),
            last_pick: self.picked.last_pick(),
            a_plant: self.sound.zip(plants).and_then(|(sound, plants)| Grams::new(sound / plants)),
            fruit: self.fruit,
        }
    }
}

/// Refuses a record that lacks days of the variety's own plots.
fn covered(plots: &[PlotPicks], by: &ByWeather, record: &Record) -> Result<(), HouseFault> {
    for plot in plots {
        let from = plot.picked.transplanted();
        let to = plot.picked.taken().last().map_or(from, |pick| pick.on);
        let reached = by.clock.season(&record.days, from).last().map(|(day, _)| *day);
        if reached.is_none_or(|reached| reached < to) {
            let (file, plot) = (by.file.clone(), plot.label.clone());
            return Err(WeatherFault::NotCovered { file, plot, from, to }.into());
        }
    }
    Ok(())
}

/// Degree-days from each of some days on, by the day that they begin.
type Sums = HashMap<Date, Vec<(Date, f64)>>;

/// The time of a day of a plot: degree-days where there are sums of them, else days.
fn time_of(sums: Option<&Sums>, picked: &Picked, day: Date) -> Option<f64> {
    match sums {
        None => picked.transplanted().until(day).ok().map(|span| f64::from(span.get_days())),
        Some(sums) => sum_on(sums.get(&picked.transplanted())?, day),
    }
}

/// Degree-days from every day on which a variety's plants went out.
fn sums_of(plots: &[PlotPicks], by: &ByWeather, record: &Record) -> Sums {
    let days = plots.iter().map(|plot| plot.picked.transplanted());
    days.map(|day| (day, by.clock.season(&record.days, day))).collect()
}

fn sum_on(sums: &[(Date, f64)], day: Date) -> Option<f64> {
    let place = sums.binary_search_by_key(&day, |(day, _)| *day).ok()?;
    sums.get(place).map(|(_, sum)| *sum)
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

/// The middle day of the year on which a variety's plots went out.
fn usual_day(plots: &[PlotPicks]) -> (i8, i8) {
    let mut days: Vec<(i8, i8)> =
        plots.iter().map(|plot| plot.picked.transplanted()).map(|day| (day.month(), day.day())).collect();
    days.sort_unstable();
    days.get(days.len() / 2).copied().unwrap_or((1, 1))
}
