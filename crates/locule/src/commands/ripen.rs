//! `locule ripen`: when a variety ripens, from the house's own picks.

use super::Failure;
use super::forecast::{WeatherTold, place, weather};
use super::frost::said;
use super::reference::{Shape, shape};
use super::warmth::{ClockTold, clock};
use crate::answer::Answer;
use crate::arguments::ripen::Ripen;
use crate::columns::columns;
use house::folder::House;
use house::ripen::{
    self, Asked, ByWeather, ByYears, Counted, LastPick, PlotTold, PlotWarmth, Point, Ripening, SHARES, Stood,
    law_named, share_named,
};
use house::warmth;
use jiff::civil::Date;
use record::language::{self, Units, counted};
use record::mass::Grams;
use record::temperature::Celsius;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// When a variety ripens.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Ripens {
    /// Its name.
    variety: String,
    /// What its times are counted in, with the method, base and ceiling of degree-days.
    counted_in: String,
    /// What degree-days are counted with; none where times are days.
    clock: Option<ClockTold>,
    /// Time from transplanting to each share ripe.
    ripe: Vec<RipeTold>,
    /// The law of the curve.
    law: &'static str,
    /// The next best law, and how much less likely it makes each plot, in logarithms.
    next_best: Option<(&'static str, f64)>,
    /// Plots that the curve is fitted to.
    plots_fitted: usize,
    /// Plots whose picks tell no law.
    plots_not_told: usize,
    /// Varieties of the house that the scatter of plots and seasons comes from.
    varieties: usize,
    /// Seasons of the house that it comes from.
    seasons: usize,
    /// Every plot's picks.
    plots: Vec<PlotRow>,
    /// Days to maturity from transplanting: what the years of the gardens where its plots stood make of it, and of the weather
    /// that was asked by last.
    places: Vec<YearsTold>,
    /// The drawing that was written.
    plot: Option<String>,
    #[serde(skip)]
    units: Units,
}

/// Time to a share ripe.
#[derive(Debug, Serialize, JsonSchema)]
struct RipeTold {
    /// The share, in 100.
    in_100: f64,
    /// Days or degree-days from transplanting.
    time: Option<f64>,
    /// Between what times 90 of 100 other plots of the same seasons would lie.
    another_plot: Option<(f64, f64)>,
    /// Between what times 90 of 100 plots of other seasons would lie.
    another_season: Option<(f64, f64)>,
}

/// One plot's picks.
#[derive(Debug, Serialize, JsonSchema)]
struct PlotRow {
    /// The season.
    season: i16,
    /// The label on its stake.
    plot: String,
    /// The day its plants went out.
    transplanted: String,
    /// Days of picking.
    picks: usize,
    /// Days from transplanting to the first pick.
    first: Option<i32>,
    /// Days to the picks with which 10, 50 and 90 in 100 had been taken.
    taken: Vec<Option<i32>>,
    /// Whether the last pick took so much that the plot must have been cleared, green fruit and all.
    cleared: bool,
    /// Grams of sound fruit a plant.
    grams_a_plant: Option<f64>,
    /// Grams of a fruit in the first half of those counted and weighed, and in the second.
    fruit_grams: Option<(f64, f64)>,
    /// The warmth of its season, where somebody's weather tells it.
    warmth: Option<WarmthRow>,
}

/// The warmth of a plot's season.
#[derive(Debug, Serialize, JsonSchema)]
struct WarmthRow {
    /// Whose weather.
    weather: String,
    /// Whether it is its own season's; else a middling one stands in.
    measured: bool,
    /// Degrees Celsius of nights and of days, on average from transplanting to the last pick.
    mean_c: Option<(f64, f64)>,
    /// Degree-days to the first and to the last pick.
    degree_days: (Option<f64>, Option<f64>),
}

/// What the years of somebody's weather make of a variety.
#[derive(Debug, Serialize, JsonSchema)]
struct YearsTold {
    /// Whose weather.
    weather: WeatherTold,
    /// What degree-days are counted with.
    clock: ClockTold,
    /// Month and day on which plants go out.
    transplanted: String,
    /// Each share's days.
    ripe: Vec<YearsRow>,
    /// Years whose season has a gap too long to fill, or breaks off.
    left_out: Vec<i16>,
}

/// Days to one share ripe, over the years of a record.
#[derive(Debug, Serialize, JsonSchema)]
struct YearsRow {
    /// The share, in 100.
    in_100: f64,
    /// Years that were asked.
    years: usize,
    /// Years too cold for it.
    too_cold: usize,
    /// Days that 10, 50 and 90 in 100 years stay within; none where too many were too cold.
    days: Vec<Option<i32>>,
}

pub(crate) fn run(house: &House, typed: &Ripen) -> Result<Ripens, Failure> {
    let is_asked = typed.weather.is_some() || typed.garden.is_some();
    let says_how = typed.warmth.is_said() || typed.transplant.is_some() || typed.home.is_some();
    if !is_asked && says_how {
        return Err(Failure::Typed {
            message: "without somebody's weather nothing is counted in warmth".to_owned(),
            help: "name it with --weather or --garden, or leave out what says how and from when warmth is counted".to_owned(),
        });
    }
    let by = is_asked.then(|| {
        Ok::<_, Failure>(ByWeather {
            place: place(typed.garden.as_ref(), typed.weather.as_ref()),
            home: typed.home.clone(),
            said: said(typed.scale, typed.station.as_ref()),
            clock: clock(&typed.warmth)?,
            out: typed.transplant.as_deref().map(month_and_day).transpose()?,
        })
    });
    let found = ripen::ripen(house, &Asked { variety: typed.variety.clone(), by: by.transpose()? })?;
    let plot = typed.plot.as_ref().map(|file| ripen::write(&found, file)).transpose()?;
    Ok(Ripens {
        plot: plot.map(|plot| plot.file.display().to_string()),
        ..told(&found, house.settings.units)
    })
}

pub(super) fn month_and_day(text: &str) -> Result<(i8, i8), Failure> {
    // Of a year with 29 February.
    let day = format!("2000-{}", text.trim()).parse::<Date>();
    day.map(|day| (day.month(), day.day())).map_err(|_| Failure::Typed {
        message: format!("--transplant {text:?} is no day of a year"),
        help: "write month and day, such as 05-20".to_owned(),
    })
}

fn told(found: &Ripening, units: Units) -> Ripens {
    let ripe = SHARES.iter().zip(&found.points).map(|(share, point)| RipeTold {
        in_100: share * 100.0,
        time: point.map(|point: Point| point.time),
        another_plot: point.and_then(|point| point.another_plot),
        another_season: point.and_then(|point| point.another_season),
    });
    let next = found.curves.next_best;
    let clock = match &found.curves.counted {
        Counted::InDays => None,
        Counted::InWarmth(clock) => Some(clock),
    };
    Ripens {
        variety: found.variety.clone(),
        counted_in: clock.map_or_else(|| "days".to_owned(), warmth::named),
        clock: clock.map(ClockTold::of),
        ripe: ripe.collect(),
        law: law_named(found.curves.law),
        next_best: next.map(|(next, less)| (law_named(next), less)),
        plots_fitted: found.curves.plots.len(),
        plots_not_told: found.curves.not_told,
        varieties: found.varieties,
        seasons: found.seasons,
        plots: found.plots.iter().map(plot).collect(),
        places: found.years.iter().map(years).collect(),
        plot: None,
        units,
    }
}

fn plot(found: &PlotTold) -> PlotRow {
    PlotRow {
        season: found.season.year(),
        plot: found.label.clone(),
        transplanted: found.transplanted.to_string(),
        picks: found.picks,
        first: found.first,
        taken: found.taken_by.to_vec(),
        cleared: found.last_pick == LastPick::ClearOut,
        grams_a_plant: found.a_plant.map(Grams::get),
        fruit_grams: found.fruit.map(|(early, late)| (early.get(), late.get())),
        warmth: found.warmth.as_ref().map(warmth_row),
    }
}

fn warmth_row(found: &PlotWarmth) -> WarmthRow {
    WarmthRow {
        weather: found.weather.clone(),
        measured: found.stood == Stood::Measured,
        mean_c: found.summer.map(|summer| (summer.lowest, summer.highest)),
        degree_days: (found.first, found.last),
    }
}

fn years(found: &ByYears) -> YearsTold {
    let ripe = SHARES.iter().enumerate().zip(&found.years.days).map(|((share, part), days)| YearsRow {
        in_100: part * 100.0,
        years: days.len(),
        too_cold: days.iter().filter(|(_, days)| days.is_none()).count(),
        days: SHARES.iter().map(|part| found.years.within(share, *part)).collect(),
    });
    YearsTold {
        weather: weather(&found.weather),
        clock: ClockTold::of(&found.clock),
        transplanted: format!("{:02}-{:02}", found.out.0, found.out.1),
        ripe: ripe.collect(),
        left_out: found.years.left_out.clone(),
    }
}

impl Answer for Ripens {
    const SHAPE: &'static str = "ripen/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let plots = counted(self.plots_fitted as u64, "plot", "plots");
        writeln!(to, "{}: {plots}, in {} from transplanting\n", self.variety, self.counted_in)?;
        let range = |range: Option<(f64, f64)>| {
            range.map_or_else(|| "not known".to_owned(), |(low, high)| format!("{low:.0} to {high:.0}"))
        };
        let heading =
            ["", "ripe by", "90 of 100 other plots", "in other seasons"].map(str::to_owned).to_vec();
        let rows = self.ripe.iter().map(|ripe| {
            let time = ripe.time.map_or_else(|| "not known".to_owned(), |time| format!("{time:.0}"));
            vec![
                share_named(ripe.in_100 / 100.0).to_owned(),
                time,
                range(ripe.another_plot),
                range(ripe.another_season),
            ]
        });
        columns(to, &std::iter::once(heading).chain(rows).collect::<Vec<_>>())?;
        let varieties = counted(self.varieties as u64, "variety", "varieties");
        let seasons = counted(self.seasons as u64, "season", "seasons");
        writeln!(
            to,
            "\nHow far plots and seasons scatter comes from {varieties} in {seasons} of the house."
        )?;
        if self.ripe.iter().all(|ripe| ripe.another_season.is_none()) {
            writeln!(to, "No variety has plots in two seasons: how far another would move it is not known.")?;
        }
        write!(to, "The curve is {}", self.law)?;
        match self.next_best {
            Some((next, less)) => {
                writeln!(to, "; {next} comes next ({less:.3} less for each plot, in log-likelihood).")?
            }
            None => writeln!(to, ".")?,
        }
        writeln!(to)?;
        self.tell_plots(to)?;
        self.tell_warmth(to)?;
        for years in &self.places {
            years.tell(to)?;
        }
        match (&self.clock, self.places.as_slice()) {
            (None, []) => writeln!(
                to,
                "\nDays hold for these summers. Days to maturity elsewhere: --weather STATION or --garden NAME."
            )?,
            (None, _) => writeln!(
                to,
                "\nThe curve's days hold for these summers. Days to maturity elsewhere: --weather STATION or --garden NAME."
            )?,
            (Some(_), _) => {}
        }
        match &self.plot {
            Some(file) => writeln!(to, "Written: {file}"),
            None => Ok(()),
        }
    }
}

impl Ripens {
    fn tell_plots(&self, to: &mut dyn Write) -> io::Result<()> {
        let heading = ["Season", "Plot", "Out", "Picks", "First", "10/50/90 taken by", "A plant", "Fruit"];
        let day = |day: &Option<i32>| day.map_or_else(|| "-".to_owned(), |day| day.to_string());
        let mass = |grams: f64| Grams::new(grams).map(|grams| language::mass_briefly(grams, self.units));
        let rows = self.plots.iter().map(|plot| {
            let taken: Vec<String> = plot.taken.iter().map(day).collect();
            let cleared = if plot.cleared { ", cleared" } else { "" };
            let fruit = plot
                .fruit_grams
                .and_then(|(early, late)| Some(format!("{}, then {}", mass(early)?, mass(late)?)));
            vec![
                plot.season.to_string(),
                plot.plot.clone(),
                plot.transplanted.clone(),
                plot.picks.to_string(),
                day(&plot.first),
                format!("{}{cleared}", taken.join("/")),
                plot.grams_a_plant.and_then(mass).unwrap_or_default(),
                fruit.unwrap_or_default(),
            ]
        });
        columns(to, &std::iter::once(heading.map(str::to_owned).to_vec()).chain(rows).collect::<Vec<_>>())
    }
}

impl Ripens {
    /// The warmth of each plot's season, where it is told.
    fn tell_warmth(&self, to: &mut dyn Write) -> io::Result<()> {
        let rows: Vec<Vec<String>> = self.plots.iter().filter_map(|plot| self.warmth_told(plot)).collect();
        if rows.is_empty() {
            return Ok(());
        }
        let usual = warmth::named(&warmth::USUAL);
        let counted_in = if self.clock.is_some() { &self.counted_in } else { &usual };
        writeln!(to, "\nThe warmth behind them, in {counted_in}:\n")?;
        let heading = ["Season", "Plot", "Weather of", "Nights, days", "First pick", "Last"];
        columns(to, &std::iter::once(heading.map(str::to_owned).to_vec()).chain(rows).collect::<Vec<_>>())
    }

    fn warmth_told(&self, plot: &PlotRow) -> Option<Vec<String>> {
        let warmth = plot.warmth.as_ref()?;
        let degrees = |celsius: f64| Celsius::new(celsius).map(|own| language::temperature(own, self.units));
        let mean =
            warmth.mean_c.and_then(|(low, high)| Some(format!("{}, {}", degrees(low)?, degrees(high)?)));
        let sum = |sum: Option<f64>| sum.map_or_else(|| "-".to_owned(), |sum| format!("{sum:.0}"));
        let stood = if warmth.measured { "" } else { ", a middling season" };
        Some(vec![
            plot.season.to_string(),
            plot.plot.clone(),
            format!("{}{stood}", warmth.weather),
            mean.unwrap_or_default(),
            sum(warmth.degree_days.0),
            sum(warmth.degree_days.1),
        ])
    }
}

impl YearsTold {
    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let (name, from) = (&self.weather.name, self.weather.whence());
        writeln!(
            to,
            "\nDays to maturity from transplanting, in the weather of {name} ({from}), plants out on {}:\n",
            self.transplanted
        )?;
        if self.ripe.iter().all(|row| row.years == 0) {
            return writeln!(to, "No year of it is known to the end of a season.");
        }
        let heading = ["", "1 year in 10 by day", "5 in 10", "9 in 10", "years", "too cold"];
        let rows = self.ripe.iter().map(|row| {
            let days =
                row.days.iter().map(|days| days.map_or_else(|| "never".to_owned(), |days| days.to_string()));
            let ends = [row.years.to_string(), row.too_cold.to_string()];
            std::iter::once(share_named(row.in_100 / 100.0).to_owned()).chain(days).chain(ends).collect()
        });
        columns(to, &std::iter::once(heading.map(str::to_owned).to_vec()).chain(rows).collect::<Vec<_>>())?;
        if !self.left_out.is_empty() {
            let years: Vec<String> = self.left_out.iter().map(i16::to_string).collect();
            writeln!(
                to,
                "\nLeft out, as some day up to the end of the season is not known: {}.",
                years.join(", ")
            )?;
        }
        let filled = self.weather.filled;
        if 0 < filled {
            let filled = counted(filled as u64, "temperature", "temperatures");
            writeln!(
                to,
                "Missing for three days or fewer and drawn along a line: {filled} of the whole record."
            )?;
        }
        Ok(())
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Ripens>()]
}
