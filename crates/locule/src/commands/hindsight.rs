//! `locule hindsight`: forecasts of the house's own past seasons, held to what was picked.

use super::Failure;
use super::frost::scale;
use super::reference::{Shape, shape};
use super::warmth::{ClockTold, clock};
use crate::answer::Answer;
use crate::arguments::hindsight::Hindsight as Typed;
use crate::columns::columns;
use house::folder::House;
use house::forecast::hindsight::{Asked, Held, Hindsight, SeasonHeld, hindsight};
use house::warmth;
use record::language::counted;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// How forecasts of past seasons came out.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Looked {
    /// How warmth is counted.
    counted_in: String,
    /// The same as data.
    clock: ClockTold,
    /// Varieties with one crop, those that bear until frost, those that stood in no other season, and all.
    crops: Vec<CropHeld>,
    /// Season by season and garden by garden.
    seasons: Vec<SeasonRow>,
    /// Plots left out, for nobody measured the weather of their season.
    not_measured: usize,
    /// Plots left out, for there is no other season to forecast theirs from.
    alone: usize,
}

/// Varieties whose crops go on alike.
#[derive(Debug, Serialize, JsonSchema)]
struct CropHeld {
    /// `one crop`, `until frost`, `in no other season` or `all`.
    crop: &'static str,
    /// How they came out.
    held: HeldTold,
}

/// One season in one garden.
#[derive(Debug, Serialize, JsonSchema)]
struct SeasonRow {
    /// The season.
    season: i16,
    /// The garden.
    garden: String,
    /// Whose weather it had.
    weather: String,
    /// How its plots came out.
    held: HeldTold,
}

/// Forecasts held to what came.
#[derive(Debug, Serialize, JsonSchema)]
struct HeldTold {
    /// Plots whose harvest was held to its forecast.
    plots: u32,
    /// Part of them whose harvest lay between the poor and the good season told; 0.8 is promised.
    within: Option<f64>,
    /// Kilograms that came for each kilogram of the middling season told, a geometric mean.
    came_for_one: Option<f64>,
    /// Plots whose first ripe fruit was held to its day.
    firsts: u32,
    /// Part of them whose first fruit came between the early and the late day told; 0.8 is promised.
    first_within: Option<f64>,
    /// Days by which the first fruit came later than the middling day told, on average.
    days_late: Option<f64>,
}

pub(crate) fn run(house: &House, typed: &Typed) -> Result<Looked, Failure> {
    let asked =
        Asked { home: typed.home.clone(), scale: typed.scale.map(scale), clock: clock(&typed.warmth)? };
    Ok(told(&hindsight(house, &asked)?))
}

fn told(found: &Hindsight) -> Looked {
    let crops = [
        ("one crop", found.one_crop),
        ("until frost", found.until_frost),
        ("in no other season", found.strangers),
        ("all", found.all()),
    ];
    Looked {
        counted_in: warmth::named(&found.clock),
        clock: ClockTold::of(&found.clock),
        crops: crops.map(|(crop, own)| CropHeld { crop, held: held(&own) }).into(),
        seasons: found.seasons.iter().map(season).collect(),
        not_measured: found.not_measured,
        alone: found.alone,
    }
}

fn season(found: &SeasonHeld) -> SeasonRow {
    let SeasonHeld { season, garden, weather, held: own } = found;
    let (garden, weather) = (garden.clone(), weather.clone());
    SeasonRow { season: season.year(), garden, weather, held: held(own) }
}

fn held(found: &Held) -> HeldTold {
    HeldTold {
        plots: found.plots(),
        within: found.within(),
        came_for_one: found.came_for_one(),
        firsts: found.firsts(),
        first_within: found.first_within(),
        days_late: found.days_late(),
    }
}

impl HeldTold {
    /// The figures as they are told.
    fn cells(&self) -> [String; 6] {
        let in_100 =
            |part: Option<f64>| part.map_or_else(|| "-".to_owned(), |part| format!("{:.0}", 100.0 * part));
        [
            self.plots.to_string(),
            in_100(self.within),
            self.came_for_one.map_or_else(|| "-".to_owned(), |came| format!("{came:.2} kg")),
            self.firsts.to_string(),
            in_100(self.first_within),
            self.days_late.map_or_else(|| "-".to_owned(), |days| format!("{days:+.1}")),
        ]
    }
}

/// Headings of those figures.
const HEADS: [&str; 6] = [
    "plots",
    "weight within, of 100",
    "came for 1 kg told",
    "first fruits",
    "first within, of 100",
    "days late",
];

impl Answer for Looked {
    const SHAPE: &'static str = "hindsight/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(
            to,
            "Each season forecast from the others, with its own weather: 80 of 100 should lie within.\n"
        )?;
        let heads =
            |before: &[&str]| before.iter().chain(&HEADS).map(|head| (*head).to_owned()).collect::<Vec<_>>();
        let row =
            |before: Vec<String>, held: &HeldTold| before.into_iter().chain(held.cells()).collect::<Vec<_>>();
        let crops = self.crops.iter().map(|own| row(vec![own.crop.to_owned()], &own.held));
        columns(to, &std::iter::once(heads(&[""])).chain(crops).collect::<Vec<_>>())?;
        writeln!(to)?;
        let seasons = self
            .seasons
            .iter()
            .map(|own| row(vec![own.season.to_string(), own.garden.clone(), own.weather.clone()], &own.held));
        let heading = heads(&["season", "garden", "weather of"]);
        columns(to, &std::iter::once(heading).chain(seasons).collect::<Vec<_>>())?;
        writeln!(to, "\nCounted in {}.", self.counted_in)?;
        if 0 < self.not_measured {
            let plots = counted(self.not_measured as u64, "plot", "plots");
            writeln!(to, "Left out, for nobody measured the weather of their season: {plots}.")?;
        }
        if 0 < self.alone {
            let plots = counted(self.alone as u64, "plot", "plots");
            writeln!(to, "Left out, for there is no other season to forecast them from: {plots}.")?;
        }
        Ok(())
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Looked>()]
}
