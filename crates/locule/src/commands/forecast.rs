//! `locule forecast`: the harvest to expect in a garden.

mod told;

use super::Failure;
use super::frost::said;
use super::reference::{Shape, shape};
use super::ripen::month_and_day;
use super::warmth::clock;
use crate::answer::Answer;
use crate::arguments::forecast::{Forecast, RiskWord};
use crate::columns::columns;
use house::fault::HouseFault;
use house::folder::House;
use house::forecast::{self, Asked, Place, Range, Risk};
use house::warmth;
use house::weather::Said;
use record::language::{self, counted};
use record::mass::Grams;
use std::io::{self, Write};
use std::path::PathBuf;
pub(super) use told::{Harvests, WeatherTold, weather};
use told::{PoorSet, TOLD_FROM, Variety, day_after, told};

pub(crate) fn run(house: &House, typed: &Forecast) -> Result<Harvests, Failure> {
    let asked = Asked {
        varieties: typed.varieties.clone(),
        place: place(typed.garden.as_ref(), typed.weather.as_ref()),
        home: typed.home.clone(),
        said: said(typed.scale, typed.station.as_ref()),
        clock: clock(&typed.warmth)?,
        out: typed.transplant.as_deref().map(month_and_day).transpose()?,
        risk: typed.frost_risk.map(risk),
    };
    Ok(told(&forecast::forecast(house, &asked)?, house.settings.units))
}

/// Whose weather was asked for.
pub(super) fn place(garden: Option<&String>, weather: Option<&PathBuf>) -> Place {
    match garden {
        Some(garden) => Place::Garden(garden.clone()),
        None => Place::Station(weather.cloned().unwrap_or_default()),
    }
}

pub(super) fn risk(word: RiskWord) -> Risk {
    match word {
        RiskWord::One => Risk::OneInTen,
        RiskWord::Five => Risk::FiveInTen,
        RiskWord::Nine => Risk::NineInTen,
    }
}

/// The harvest of all varieties by one station, for the demo; none where the house has no picks.
pub(super) fn of_demo(house: &House, station: &str) -> Result<Option<Harvests>, Failure> {
    let place = Place::Station(station.into());
    let clock = warmth::USUAL;
    let said = Said::default();
    let asked = Asked { varieties: Vec::new(), place, home: None, said, clock, out: None, risk: None };
    match forecast::forecast(house, &asked) {
        Ok(found) => Ok(Some(told(&found, house.settings.units))),
        Err(HouseFault::NoPicks { .. }) => Ok(None),
        Err(fault) => Err(fault.into()),
    }
}

/// Fruits of a poor, a middling and a good season, whole ones.
fn fruits(range: &[f64; 3]) -> String {
    range.map(|fruits| format!("{fruits:.0}")).join("/")
}

/// Kilograms a plant that are not worth telling. Common practice, no source.
const NOTHING: f64 = 0.005;

impl Harvests {
    fn mass(&self, kilograms: f64) -> String {
        let grams = Grams::new(kilograms * 1000.0).filter(|_| NOTHING <= kilograms);
        grams.map_or_else(|| "-".to_owned(), |grams| language::mass_briefly(grams, self.units))
    }

    fn masses(&self, range: &Range) -> [String; 3] {
        range.map(|kilograms| self.mass(kilograms))
    }

    /// A day after planting, as a day of the year.
    fn day(&self, days: Option<i32>) -> String {
        let out = self
            .transplanted
            .split_once('-')
            .and_then(|(month, day)| Some((month.parse().ok()?, day.parse().ok()?)));
        let day = days.zip(out).and_then(|(days, out)| day_after(out, days));
        day.map_or_else(|| "never".to_owned(), |day| day.strftime("%-d %b").to_string())
    }
}

impl Answer for Harvests {
    const SHAPE: &'static str = "forecast/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(
            to,
            "Harvest to expect, plants out on {}, in {} of {}\n",
            self.transplanted,
            counted(self.years as u64, "year", "years"),
            self.weather.name
        )?;
        match self.varieties.as_slice() {
            [one] => self.tell_weeks(one, to)?,
            all => self.tell_all(all, to)?,
        }
        self.tell_plantings(to)?;
        self.tell_set(to)?;
        self.tell_sources(to)
    }
}

impl Harvests {
    /// Tells the earliest few, and how many more there are.
    pub(super) fn tell_earliest(&self, to: &mut dyn Write, most: usize) -> io::Result<()> {
        let few = self.varieties.get(..most.min(self.varieties.len())).unwrap_or_default();
        self.tell_all(few, to)?;
        if let Some(rest) = self.varieties.len().checked_sub(most).filter(|rest| 0 < *rest) {
            writeln!(to, "  and {rest} more: locule forecast --weather {:?}", self.weather.name)?;
        }
        Ok(())
    }

    fn tell_all(&self, all: &[Variety], to: &mut dyn Write) -> io::Result<()> {
        let heading = [
            "Variety",
            "Crop",
            "First ripe",
            "Last",
            "A plant, poor",
            "Middling",
            "Good",
            "Ripe before frost",
            "Plots",
        ];
        let rows = all.iter().map(|one| {
            let [poor, middling, good] = self.masses(&one.kilograms);
            let [_, first, _] = one.first_days;
            let [_, last, _] = one.last_days;
            let finished =
                one.finished.map_or_else(|| "-".to_owned(), |part| format!("{:.0} in 100", 100.0 * part));
            vec![
                one.name.clone(),
                one.crop.to_owned(),
                self.day(first),
                self.day(last),
                poor,
                middling,
                good,
                finished,
                one.plots.to_string(),
            ]
        });
        columns(to, &std::iter::once(heading.map(str::to_owned).to_vec()).chain(rows).collect::<Vec<_>>())
    }

    fn tell_weeks(&self, one: &Variety, to: &mut dyn Write) -> io::Result<()> {
        let heading = ["Week of", "A plant, poor", "Middling", "Good", "Fruit", "Ripe fruit in"]
            .map(str::to_owned)
            .to_vec();
        let rows = one.weeks.iter().map(|week| {
            let [poor, middling, good] = self.masses(&week.kilograms);
            vec![
                week.week_of.clone(),
                poor,
                middling,
                good,
                fruits(&week.fruits),
                format!("{:.0} years of 100", 100.0 * week.chance),
            ]
        });
        let [poor, middling, good] = self.masses(&one.kilograms);
        let total = vec!["Season".to_owned(), poor, middling, good, fruits(&one.fruits), String::new()];
        columns(to, &std::iter::once(heading).chain(rows).chain([total]).collect::<Vec<_>>())?;
        let days = |days: &[Option<i32>; 3]| days.map(|day| self.day(day)).join(", ");
        writeln!(
            to,
            "\n{} ({}): first ripe fruit on {} (early, middling, late season)",
            one.name,
            one.crop,
            days(&one.first_days)
        )?;
        writeln!(to, "and the last on {}.", days(&one.last_days))?;
        if let Some(finished) = one.finished {
            writeln!(to, "Nine tenths ripen before frost in {:.0} seasons of 100.", 100.0 * finished)?;
        }
        if 0.005 < one.nothing {
            writeln!(
                to,
                "Frost comes before anything is ripe in {:.0} seasons of 100.",
                100.0 * one.nothing
            )?;
        }
        let (plots, seasons) =
            (counted(one.plots as u64, "plot", "plots"), counted(one.seasons as u64, "season", "seasons"));
        writeln!(
            to,
            "It rests on {plots} in {seasons}; {:.0} in 100 of its weight is borrowed from varieties of its kind.",
            100.0 * one.borrowed
        )?;
        self.tell_alone(one, to)
    }

    fn tell_alone(&self, one: &Variety, to: &mut dyn Write) -> io::Result<()> {
        let Some(alone) = &one.alone else { return Ok(()) };
        writeln!(to, "\nIf nothing else were unsure, a plant would bring between poor and good seasons:")?;
        for (what, [poor, _, good]) in
            ["the weather", "what this variety is", "how plots and seasons differ"].iter().zip(alone)
        {
            writeln!(to, "  {what}: {} to {}", self.mass(*poor), self.mass(*good))?;
        }
        Ok(())
    }

    fn tell_plantings(&self, to: &mut dyn Write) -> io::Result<()> {
        if self.plantings.is_empty() {
            return Ok(());
        }
        writeln!(to, "\nPlanted out on other days:\n")?;
        let heading = ["Out", "A plant, poor", "Middling", "Good", "Killed by frost within six weeks", ""];
        let rows = self.plantings.iter().map(|planting| {
            let [poor, middling, good] = self.masses(&planting.kilograms);
            let best = if planting.as_good { "as good as the best" } else { "" };
            let killed = format!("{:.0} years of 100", 100.0 * planting.killed);
            vec![planting.out.clone(), poor, middling, good, killed, best.to_owned()]
        });
        columns(to, &std::iter::once(heading.map(str::to_owned).to_vec()).chain(rows).collect::<Vec<_>>())
    }

    fn tell_set(&self, to: &mut dyn Write) -> io::Result<()> {
        let told = |of: fn(&PoorSet) -> f64| {
            let weeks = self.poor_set.iter().filter(|week| TOLD_FROM <= of(week));
            weeks.map(|week| format!("{} ({:.0})", week.week_of, 100.0 * of(week))).collect::<Vec<_>>()
        };
        for (why, weeks) in [("cold", told(|week| week.cold)), ("heat", told(|week| week.heat))] {
            if !weeks.is_empty() {
                writeln!(
                    to,
                    "\nFlowers set poorly for {why} in the weeks of (years of 100): {}.",
                    weeks.join(", ")
                )?;
            }
        }
        Ok(())
    }

    fn tell_sources(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(
            to,
            "\nPoor: 1 season in 10 brings less; good: 1 in 10 brings more. Warmth: {}.",
            self.counted_in
        )?;
        for weather in std::iter::once(&self.weather).chain(&self.homes) {
            writeln!(to, "{}", weather.told())?;
        }
        if let Some(height) = self.weather.height() {
            writeln!(to, "{height}")?;
        }
        if 0 < self.plots_stood_in {
            writeln!(
                to,
                "Nobody has the weather of {} of {}: a middling season stands in for it.",
                counted(self.plots_stood_in as u64, "plot", "plots"),
                self.plots
            )?;
        }
        if !self.left_out.is_empty() {
            let years: Vec<String> = self.left_out.iter().map(i16::to_string).collect();
            writeln!(to, "Left out, not known from planting to frost: {}.", years.join(", "))?;
        }
        Ok(())
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Harvests>()]
}
