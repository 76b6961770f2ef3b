//! Advice as data.

use crate::commands::forecast::{WeatherTold, weather};
use house::advise::for_seed::{ForSeed, Reach};
use house::advise::kitchen::Sheet;
use house::advise::planned::{Alternative, KitchenDay, Line, Planned, Room, Seed, Standing, Without};
use house::advise::wishes::Wished;
use house::advise::{Advice, Ended, Found, telling};
use record::language::Units;
use schemars::JsonSchema;
use serde::Serialize;

/// An answer to a request.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Advised {
    /// The garden's weather.
    pub(super) weather: WeatherTold,
    /// Days on which sets of plants go out, of any year.
    pub(super) plants_out: Vec<String>,
    /// In how many years of ten all must be had.
    pub(super) years_in_ten: u32,
    /// What was wished for.
    pub(super) wishes: Vec<WishTold>,
    /// The plan; nothing where there is none.
    pub(super) plan: Option<PlanTold>,
    /// Whether it is shown that there is no plan; without it and without a plan, none was found.
    pub(super) no_plan_shown: bool,
    /// Whether the search was stopped by Ctrl-C or its time before it had ended.
    pub(super) stopped: bool,
    /// Demands that cannot be had together, where there is no plan or none was found.
    pub(super) in_the_way: Vec<StandingTold>,
    /// What each thing that is put up takes.
    pub(super) kitchen: Vec<SheetTold>,
    /// What has to be said beside every jar.
    pub(super) cautions: Vec<String>,
    /// What was assumed.
    pub(super) assumed: Vec<String>,
    /// Files that were written.
    pub(super) written: Vec<String>,
    #[serde(skip)]
    pub(super) units: Units,
}

/// A wish.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct WishTold {
    /// What for and how much, in words.
    pub(super) words: String,
    /// Fruit in kilograms: in all for the kitchen, a week for the table.
    kilograms: f64,
    /// The first day of its first week.
    pub(super) from: String,
    /// The first day of its last week.
    pub(super) to: String,
}

/// A plan.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct PlanTold {
    /// How many plants, how much room and how near that is to the fewest, in words.
    #[serde(skip)]
    pub(super) size: String,
    /// Plants in all.
    plants: u32,
    /// No plan has fewer plants than this.
    at_least: u32,
    /// Square metres of bed.
    bed_m2: f64,
    /// Containers.
    containers: u32,
    /// Sampled years in which every wish is met.
    pub(super) years_met: usize,
    /// What is planted.
    pub(super) lines: Vec<LineTold>,
    /// Varieties that could stand in the place of one of them for at most a twentieth more plants.
    pub(super) alternatives: Vec<AlternativeTold>,
    /// Varieties that seed is saved of.
    pub(super) for_seed: Vec<ForSeedTold>,
    /// Kitchen days of what is put up.
    pub(super) kitchen: Vec<KitchenTold>,
    /// What each class brings.
    pub(super) harvests: Vec<Harvested>,
}

/// A variety that could stand in the place of another.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct AlternativeTold {
    /// The variety.
    variety: String,
    /// The one that goes.
    instead_of: String,
    /// Plants in all then.
    plants: u32,
    #[serde(skip)]
    pub(super) words: String,
}

/// A variety that seed is saved of.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct ForSeedTold {
    /// Its name.
    variety: String,
    /// The other varieties of the plan.
    others: Vec<String>,
    /// Metres that it would stand from them.
    away_m: f64,
    /// Whether the longest bed has room for that.
    within_a_bed: bool,
    /// The same in words.
    pub(super) words: String,
}

/// A variety that is planted.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct LineTold {
    /// The day it goes out.
    pub(super) out: String,
    /// Its name.
    pub(super) variety: String,
    /// Plants.
    pub(super) plants: u32,
    /// Whether they stand in containers.
    in_containers: bool,
    /// Its classes in the plan.
    pub(super) class: String,
    /// Its habit, where it is called.
    pub(super) habit: Option<String>,
    /// Its colour, where it is called.
    pub(super) colour: Option<String>,
    /// Kilograms a plant over the season, in poor, middling and good years.
    pub(super) kilograms: [f64; 3],
    /// Kilograms that its plants bring towards each wish in a middling year.
    bears: Vec<f64>,
    /// The same in words: plants, what a plan without it comes to, seed.
    #[serde(skip)]
    pub(super) words: LineWords,
    /// Plants that a plan without it has.
    without: Option<u32>,
    /// Whether there is no plan without it.
    without_impossible: bool,
    /// Plots that its crop rests on.
    plots: usize,
    /// Their seasons.
    seasons: usize,
    /// Part of what is believed of its weight that comes from others of its kind.
    pub(super) borrowed: f64,
    /// Seed of it.
    seed: SeedTold,
}

/// What is told of a line in words.
#[derive(Debug, Default)]
pub(super) struct LineWords {
    /// Plants.
    pub(super) plants: String,
    /// What a plan without it comes to.
    pub(super) without: String,
    /// Seed of it.
    pub(super) seed: String,
}

/// Seed of a variety.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum SeedTold {
    /// The house keeps no lots.
    NotKept,
    /// There is seed that may be sold.
    Held {
        /// Packets.
        packets: u64,
        /// Whether seed lies in a jar.
        loose: bool,
    },
    /// There is none.
    SoldOut {
        /// The variety most like it that has seed.
        instead: Option<String>,
        /// Why.
        because: Option<String>,
    },
}

/// Kitchen days of a wish.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct KitchenTold {
    /// What is put up.
    pub(super) of: String,
    /// Its days.
    pub(super) days: Vec<DayTold>,
}

/// A kitchen day.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct DayTold {
    /// The same in words.
    #[serde(skip)]
    pub(super) words: String,
    /// The first day of its week in an early, a middling and a late year.
    week_of: [String; 3],
    /// Kilograms put up, in poor, middling and good years.
    kilograms: [f64; 3],
    /// Sampled years that have it.
    years: usize,
}

/// What a class brings.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Harvested {
    /// The classes.
    pub(super) class: String,
    /// Its weeks.
    pub(super) weeks: Vec<WeekTold>,
}

/// A week of harvest.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct WeekTold {
    /// Its first day.
    pub(super) week_of: String,
    /// Kilograms in poor, middling and good years.
    pub(super) kilograms: [f64; 3],
    /// Kilograms that are eaten.
    pub(super) eaten: f64,
}

/// A demand that stands in the way.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct StandingTold {
    /// The demand.
    pub(super) demand: String,
    /// What frees the request.
    pub(super) way: String,
}

/// What one thing that is put up takes.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct SheetTold {
    /// What it is.
    pub(super) title: String,
    /// Its sums.
    pub(super) lines: Vec<String>,
    /// How jars are processed.
    pub(super) process: Vec<String>,
    /// Acid for every jar.
    pub(super) acid: Vec<String>,
}

pub(super) fn of(found: &Advice, units: Units) -> Advised {
    let told = |standing: &[Standing]| -> Vec<StandingTold> {
        let own = standing.iter();
        own.map(|one| StandingTold { demand: one.demand.clone(), way: one.way.clone() }).collect()
    };
    let (plan, no_plan_shown, in_the_way) = match &found.found {
        Found::Planned(planned) => (Some(plan(planned, &found.wishes, units)), false, Vec::new()),
        Found::Impossible(standing) => (None, true, told(standing)),
        Found::NotFound(standing) => (None, false, told(standing)),
        Found::Stopped => (None, false, Vec::new()),
    };
    let stopped = match &found.found {
        Found::Planned(planned) => planned.ended == Ended::Stopped,
        Found::Impossible(_) | Found::NotFound(_) => false,
        Found::Stopped => true,
    };
    let wish = |wished: &Wished| {
        let [from, to] = wished.days.map(telling::day);
        WishTold { words: telling::wish(wished, units), kilograms: wished.fruit.to_kilograms(), from, to }
    };
    Advised {
        weather: weather(&found.weather),
        plants_out: found.outs.iter().map(|out| telling::day(*out)).collect(),
        years_in_ten: found.years_in_ten,
        wishes: found.wishes.iter().map(wish).collect(),
        plan,
        no_plan_shown,
        stopped,
        in_the_way,
        kitchen: found.sheets.iter().map(|sheet| sheet_told(sheet, units)).collect(),
        cautions: found.cautions.iter().map(|caution| caution.words.clone()).collect(),
        assumed: telling::assumed(found),
        written: Vec::new(),
        units,
    }
}

fn plan(planned: &Planned, wishes: &[Wished], units: Units) -> PlanTold {
    let kitchen = wishes.iter().zip(&planned.kitchen_days).map(|(wish, days)| KitchenTold {
        of: telling::wish(wish, units),
        days: days.iter().map(|day| kitchen_day(day, units)).collect(),
    });
    let harvests = planned.harvests.iter().map(|own| Harvested {
        class: own.classes.clone(),
        weeks: own
            .weeks
            .iter()
            .zip(&own.eaten)
            .map(|((week, kilograms), eaten)| WeekTold {
                week_of: telling::day(*week),
                kilograms: *kilograms,
                eaten: *eaten,
            })
            .collect(),
    });
    PlanTold {
        size: telling::size(planned, units),
        plants: planned.total,
        at_least: planned.at_least,
        bed_m2: planned.bed_m2,
        containers: planned.containers,
        years_met: planned.years_met,
        lines: planned.lines.iter().map(line).collect(),
        alternatives: planned.alternatives.iter().map(alternative).collect(),
        for_seed: planned.for_seed.iter().map(|own| for_seed(own, units)).collect(),
        kitchen: kitchen.collect(),
        harvests: harvests.collect(),
    }
}

fn alternative(other: &Alternative) -> AlternativeTold {
    AlternativeTold {
        variety: other.variety.clone(),
        instead_of: other.instead_of.clone(),
        plants: other.total,
        words: telling::alternative(other),
    }
}

fn for_seed(own: &ForSeed, units: Units) -> ForSeedTold {
    ForSeedTold {
        variety: own.variety.clone(),
        others: own.others.clone(),
        away_m: own.apart.flower.away.get() / 1000.0,
        within_a_bed: own.apart.reach == Reach::WithinABed,
        words: telling::for_seed(own, units),
    }
}

fn kitchen_day(day: &KitchenDay, units: Units) -> DayTold {
    let words = telling::kitchen_day(*day, units);
    DayTold { words, week_of: day.week_of.map(telling::day), kilograms: day.kilograms, years: day.years }
}

fn line(line: &Line) -> LineTold {
    let seed = match &line.seed {
        Seed::NotKept => SeedTold::NotKept,
        Seed::Held { packets, loose } => SeedTold::Held { packets: *packets, loose: *loose },
        Seed::SoldOut { instead } => {
            let (instead, because) = instead.clone().unzip();
            SeedTold::SoldOut { instead, because }
        }
    };
    LineTold {
        out: telling::day(line.out),
        variety: line.variety.clone(),
        plants: line.plants,
        words: LineWords {
            plants: telling::plants(line),
            without: telling::without(line.without),
            seed: telling::seed(&line.seed),
        },
        in_containers: line.room == Room::Container,
        class: line.classes.clone(),
        habit: line.habit.clone(),
        colour: line.colour.clone(),
        kilograms: line.kilograms,
        bears: line.bears.clone(),
        without: match line.without {
            Without::Takes(plants) => Some(plants),
            Without::Impossible | Without::Unsettled | Without::NotTried => None,
        },
        without_impossible: line.without == Without::Impossible,
        plots: line.rests_on.0,
        seasons: line.rests_on.1,
        borrowed: line.borrowed,
        seed,
    }
}

fn sheet_told(sheet: &Sheet, units: Units) -> SheetTold {
    SheetTold {
        title: sheet.title(),
        lines: sheet.told(units),
        process: sheet.process.clone(),
        acid: sheet.acid.clone(),
    }
}
