//! When a variety ripens: its picks as a curve, how far plots and seasons move it, and what a station's years make of it.
//!
//! Without a weather file times are days from transplanting; with one they are degree-days, and every year of the file is
//! asked when it would have come so far. Nothing of the file is kept. Start at [`ripen`].

use crate::fault::HouseFault;
use crate::folder::House;
use crate::names;
use crate::weather::{self, Record, Scale, WeatherFault};
use jiff::ToSpan;
use jiff::civil::Date;
use ledger::evidence::Whose;
use ledger::ledger::Ledger;
use record::growout::Plot;
use record::id::Id;
use record::mass::Grams;
use record::pick::Pick;
use record::season::Season;
use record::variety::Variety;
use ripening::curve::{self, Curves, LAWS, Scatter};
pub use ripening::curve::{Law, Point, SHARES};
pub use ripening::picked::LastPick;
use ripening::picked::{FEWEST_PICKS, Picked, Taken};
pub use ripening::thermal::{Clock, Course, CutOff, Method};
use ripening::weather::quality;
use std::collections::{BTreeMap, HashMap};
use std::ops::ControlFlow;
use std::path::PathBuf;

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
    /// The station's file.
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
    /// Varieties that the scatter of plots and seasons comes from.
    pub varieties: usize,
    /// Seasons of the house that it comes from.
    pub seasons: usize,
    /// What the years of a record make of it.
    pub years: Option<Years>,
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
pub struct Years {
    /// The station, where the file names one.
    pub station: Option<String>,
    /// How warmth is counted.
    pub clock: Clock,
    /// Month and day on which plants go out.
    pub out: (i8, i8),
    /// For each of the shares: days from transplanting, year by year; `None` in years that were too cold.
    pub days: [Vec<(i16, Option<i32>)>; 3],
    /// Years whose season has a gap too long to fill, or breaks off.
    pub left_out: Vec<i16>,
    /// Temperatures of the record that were missing for a few days and are filled along a line.
    pub filled: usize,
}

impl Years {
    /// The day count that a part of the years stay within, of one share; a year too cold for it is later than any.
    /// Quantile of type 1: a year that was.
    #[must_use]
    pub fn within(&self, share: usize, part: f64) -> Option<i32> {
        let mut days: Vec<i32> =
            self.days.get(share)?.iter().map(|(_, days)| days.unwrap_or(i32::MAX)).collect();
        days.sort_unstable();
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            clippy::cast_precision_loss,
            reason = "a place among a few hundred years"
        )]
        let place = ((part * days.len() as f64).ceil() as usize).saturating_sub(1);
        days.get(place).copied().filter(|days| *days < i32::MAX)
    }
}

/// Days after transplanting up to which a year of a record is asked: beyond them no season reaches. Common practice, no
/// source.
const LONGEST: i32 = 220;

/// Says when a variety ripens.
///
/// # Errors
/// [`HouseFault::NoSuchVariety`]; [`HouseFault::NoPicks`]; a weather file's fault, among them that it lacks the days of the
/// variety's own picks; what the ledger refuses.
pub fn ripen(house: &House, asked: &Asked) -> Result<Ripening, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let (variety, all) = ledger.at_one_moment(|ledger| {
        let variety = names::find(ledger, &asked.variety)?;
        let plots: HashMap<Id<Plot>, Plot> =
            ledger.plots()?.into_iter().map(|plot| (plot.id, plot)).collect();
        let mut all: BTreeMap<Id<Variety>, Vec<PlotPicks>> = BTreeMap::new();
        ledger.picks_by_variety(Whose::Everyones, &mut |picks| {
            all.insert(picks.variety, plot_by_plot(picks.records, &plots));
            ControlFlow::Continue(())
        })?;
        Ok::<_, HouseFault>((variety, all))
    })?;
    let record = asked.by.as_ref().map(|by| weather::read(&by.file, by.scale)).transpose()?;
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
            let sums: HashMap<Date, Vec<(Date, f64)>> =
                warmth.map(|(by, record)| sums_of(plots, by, record)).unwrap_or_default();
            // How far plots scatter hardly depends on the law, so the others have the quickest to fit.
            let laws = if *id == variety.id { LAWS.as_slice() } else { &[Law::LogNormal] };
            let curves = curve::fit(laws, &picked, |picked, day| match warmth {
                None => picked.transplanted().until(day).ok().map(|span| f64::from(span.get_days())),
                Some(_) => sum_on(sums.get(&picked.transplanted())?, day),
            });
            Some((*id, curves?))
        })
        .collect();
    let curves = fitted.get(&variety.id).cloned().ok_or_else(none)?;
    let everyone: Vec<&Curves> = fitted.values().collect();
    let points = [0, 1, 2].map(|share| Point::of(&curves, share, Scatter::of(&everyone, share).as_ref()));
    let seasons = everyone.iter().flat_map(|curves| curves.plots.iter().map(|plot| plot.season));
    let seasons = seasons.collect::<std::collections::BTreeSet<_>>().len();
    let years = warmth.map(|(by, record)| years(&points, own, by, (record, filled)));
    Ok(Ripening {
        variety: variety.name,
        plots: own.iter().map(PlotPicks::told).collect(),
        curves,
        points,
        varieties: everyone.len(),
        seasons,
        years,
    })
}

/// One plot's picks of a season, with what goes beside them.
struct PlotPicks {
    season: Season,
    label: String,
    plants: Option<u32>,
    picked: Picked,
    sound: Option<f64>,
    fruit: Option<(Grams, Grams)>,
}

fn plot_by_plot(picks: &[Pick], plots: &HashMap<Id<Plot>, Plot>) -> Vec<PlotPicks> {
    let mut by_plot: BTreeMap<(Season, Id<Plot>), Vec<&Pick>> = BTreeMap::new();
    for pick in picks {
        let Some(plot) = pick.subject.plot else { continue };
        by_plot.entry((pick.subject.season, plot)).or_default().push(pick);
    }
    let told = by_plot.into_iter().filter_map(|((season, id), mut picks)| {
        let plot = plots.get(&id)?;
        picks.sort_by_key(|pick| pick.picked_on);
        let measure = Measure::of(&picks);
        let taken =
            picks.iter().filter_map(|pick| Some(Taken { on: pick.picked_on, amount: measure.amount(pick)? }));
        let weights = picks.iter().map(|pick| pick.weight.map(Grams::get));
        Some(PlotPicks {
            season,
            label: plot.label.clone(),
            plants: plot.plant_count,
            picked: Picked::new(plot.transplanted?, taken)?,
            sound: weights.sum::<Option<f64>>(),
            fruit: fruit_weight(&picks),
        })
    });
    let mut told: Vec<PlotPicks> = told.collect();
    told.sort_by(|one, other| (one.season, &one.label).cmp(&(other.season, &other.label)));
    told
}

/// What a plot's picks are measured in: fruits where every pick was counted, else weight.
#[derive(Clone, Copy)]
enum Measure {
    Fruits,
    Weight,
}

impl Measure {
    fn of(picks: &[&Pick]) -> Self {
        if picks.iter().all(|pick| pick.fruit_count.is_some()) { Self::Fruits } else { Self::Weight }
    }

    /// How much ripened of a pick: culls too.
    fn amount(self, pick: &Pick) -> Option<f64> {
        match self {
            Self::Fruits => {
                let culled = pick.culls.iter().filter_map(|cull| cull.fruit_count);
                Some(f64::from(pick.fruit_count?) + culled.map(f64::from).sum::<f64>())
            }
            Self::Weight => {
                let culled = pick.culls.iter().filter_map(|cull| cull.weight);
                Some(pick.weight?.get() + culled.map(Grams::get).sum::<f64>())
            }
        }
    }
}

/// Mean weight of a fruit in the first half of the fruits that were counted and weighed, and in the second.
fn fruit_weight(picks: &[&Pick]) -> Option<(Grams, Grams)> {
    let both: Vec<(f64, f64)> = picks
        .iter()
        .filter_map(|pick| Some((f64::from(pick.fruit_count?), pick.weight?.get())))
        .filter(|(fruits, _)| 0.0 < *fruits)
        .collect();
    let half = both.iter().map(|(fruits, _)| fruits).sum::<f64>() / 2.0;
    let mut sum = 0.0;
    let (early, late): (Vec<_>, Vec<_>) = both.into_iter().partition(|(fruits, _)| {
        sum += fruits;
        sum <= half
    });
    let mean = |part: &[(f64, f64)]| {
        let (fruits, weight) = part.iter().fold((0.0, 0.0), |sum, pick| (sum.0 + pick.0, sum.1 + pick.1));
        (0.0 < fruits).then(|| Grams::new(weight / fruits)).flatten()
    };
    mean(&early).zip(mean(&late))
}

impl PlotPicks {
    fn told(&self) -> PlotTold {
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
        let reached =
            by.clock.sums(&record.days, from).take_while(|(day, _)| *day <= to).last().map(|(day, _)| day);
        if reached.is_none_or(|reached| reached < to) {
            let (file, plot) = (by.file.clone(), plot.label.clone());
            return Err(WeatherFault::NotCovered { file, plot, from, to }.into());
        }
    }
    Ok(())
}

/// Degree-days from every day on which a variety's plants went out.
fn sums_of(plots: &[PlotPicks], by: &ByWeather, record: &Record) -> HashMap<Date, Vec<(Date, f64)>> {
    let days = plots.iter().map(|plot| plot.picked.transplanted());
    let last = plots.iter().filter_map(|plot| plot.picked.taken().last()).map(|pick| pick.on).max();
    let season = |day: Date| {
        let until = last.unwrap_or(day);
        by.clock.sums(&record.days, day).take_while(|(day, _)| *day <= until).collect()
    };
    days.map(|day| (day, season(day))).collect()
}

fn sum_on(sums: &[(Date, f64)], day: Date) -> Option<f64> {
    let place = sums.binary_search_by_key(&day, |(day, _)| *day).ok()?;
    sums.get(place).map(|(_, sum)| *sum)
}

/// Asks every year of a record when a variety would have ripened. Years that are not whole are left out.
fn years(
    points: &[Option<Point>; 3],
    plots: &[PlotPicks],
    by: &ByWeather,
    (record, filled): (&Record, usize),
) -> Years {
    let out = by.out.unwrap_or_else(|| usual_day(plots));
    let mut days: [Vec<(i16, Option<i32>)>; 3] = Default::default();
    let mut left_out = Vec::new();
    for year in record.days.years() {
        let Ok(from) = Date::new(year, out.0, out.1) else { continue };
        let Ok(until) = from.checked_add(LONGEST.days()) else { continue };
        let sums: Vec<_> = by.clock.sums(&record.days, from).take_while(|(day, _)| *day <= until).collect();
        let whole = sums.last().is_some_and(|(day, _)| *day == until);
        // A year that breaks off counts for none: it would be counted only where it was early.
        if !whole {
            left_out.push(year);
            continue;
        }
        for (told, point) in days.iter_mut().zip(points) {
            let Some(point) = point else { continue };
            let reached = sums.iter().find(|(_, sum)| point.time <= *sum).map(|(day, _)| *day);
            told.push((year, reached.and_then(|day| from.until(day).ok()).map(|span| span.get_days())));
        }
    }
    Years { station: record.station.clone(), clock: by.clock, out, days, left_out, filled }
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
