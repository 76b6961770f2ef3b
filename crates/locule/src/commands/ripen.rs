//! `locule ripen`: when a variety ripens, from the house's own picks.

use super::Failure;
use super::frost::scale;
use super::reference::{Shape, shape};
use super::warmth::{ClockTold, clock, clock_told};
use crate::answer::Answer;
use crate::arguments::ripen::Ripen;
use crate::columns::columns;
use house::folder::House;
use house::ripen::{
    self, Asked, ByWeather, ByYears, LastPick, PlotTold, Point, Ripening, SHARES, law_named, share_named,
};
use jiff::civil::Date;
use record::language::{self, Units, counted};
use record::mass::Grams;
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
    /// What a station's years make of it.
    years: Option<YearsTold>,
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
}

/// What a station's years make of a variety.
#[derive(Debug, Serialize, JsonSchema)]
struct YearsTold {
    /// The station, where the file names one.
    station: Option<String>,
    /// Month and day on which plants go out.
    transplanted: String,
    /// Each share's days.
    ripe: Vec<YearsRow>,
    /// Years whose season has a gap too long to fill, or breaks off.
    left_out: Vec<i16>,
    /// Temperatures that were missing for a few days and are filled along a line.
    filled: usize,
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
    if typed.weather.is_none() && typed.warmth.is_said() {
        return Err(Failure::Typed {
            message: "without a station's days nothing is counted in warmth".to_owned(),
            help: "name them with --weather, or leave out what says how warmth is counted".to_owned(),
        });
    }
    let by = typed.weather.as_ref().map(|file| {
        Ok::<_, Failure>(ByWeather {
            file: file.clone(),
            scale: typed.scale.map(scale),
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
    Ripens {
        variety: found.variety.clone(),
        counted_in: found.years.as_ref().map_or_else(|| "days".to_owned(), |years| clock_told(&years.clock)),
        clock: found.years.as_ref().map(|years| ClockTold::of(&years.clock)),
        ripe: ripe.collect(),
        law: law_named(found.curves.law),
        next_best: next.map(|(next, less)| (law_named(next), less)),
        plots_fitted: found.curves.plots.len(),
        plots_not_told: found.curves.not_told,
        varieties: found.varieties,
        seasons: found.seasons,
        plots: found.plots.iter().map(plot).collect(),
        years: found.years.as_ref().map(years),
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
        station: found.station.clone(),
        transplanted: format!("{:02}-{:02}", found.out.0, found.out.1),
        ripe: ripe.collect(),
        left_out: found.years.left_out.clone(),
        filled: found.filled,
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
        match &self.years {
            Some(years) => years.tell(to)?,
            None => writeln!(to, "\nDays hold for these summers; --weather FILE counts warmth instead.")?,
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

impl YearsTold {
    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let station = self.station.as_deref().unwrap_or("the record");
        writeln!(to, "\nIn the years of {station}, plants out on {}:\n", self.transplanted)?;
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
            writeln!(to, "\nLeft out for days that nobody read: {}.", years.join(", "))?;
        }
        if 0 < self.filled {
            let filled = counted(self.filled as u64, "temperature", "temperatures");
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
