//! What is wished for, in the planner's words: kilograms of a class in weeks of the season.

use super::fault::AdviseFault;
use super::ground::{Candidate, Ground, group, solids};
use super::request::{ADay, Amount, Jar, Purpose, PutUp, Request, Wish};
use advice::planner::harvest::weeks_that_bear;
use advice::planner::request as planner;
use advice::solids::Composition;
use advice::space;
use jiff::civil::Date;
use record::mass::Grams;
use record::share::Share;
use std::ops::RangeInclusive;

/// How far a plan may be from the fewest plants.
const GAP: f64 = 0.01;
/// Kilograms that a few plants must bring for a kitchen day to be thought of. Common practice, no source.
const WORTH_PICKING: f64 = 0.5;
/// Varieties that a plan may have where nothing is said: as many as there are.
const ALL: u32 = 10_000;

/// A wish as the plan takes it.
#[derive(Clone, Debug)]
pub struct Wished {
    /// The wish.
    pub wish: Wish,
    /// Its classes in words.
    pub classes: String,
    /// Fruit: in all for the kitchen, a week for the table.
    pub fruit: Grams,
    /// Fruit that a kitchen day takes; nothing where it takes what there is.
    pub a_day: Option<Grams>,
    /// Its weeks, counted from the first planting.
    pub weeks: RangeInclusive<usize>,
    /// The first days of its first and last week, of a common year.
    pub days: [Date; 2],
    /// What its fruit is taken to be made of.
    pub composition: Option<Composition>,
}

pub(super) fn of(request: &Request, ground: &Ground) -> Result<(Vec<Wished>, planner::Request), AdviseFault> {
    let wished = request.wishes.iter().map(|wish| wished(wish, request, ground));
    let wished = wished.collect::<Result<Vec<Wished>, AdviseFault>>()?;
    let planned = planner::Request {
        wishes: wished.iter().map(in_kilograms).collect(),
        bed: space::room(&request.garden.beds, request.garden.spacing),
        containers: request.garden.containers,
        most_varieties: request.most_varieties.unwrap_or(ALL),
        wanted: ground.said.wanted.clone(),
        barred: ground.said.barred.clone(),
        favourites: ground.said.favourites.clone(),
        sure: request.sure,
        gap: Share::new(GAP).unwrap_or(Share::NONE),
    };
    Ok((wished, planned))
}

fn wished(wish: &Wish, request: &Request, ground: &Ground) -> Result<Wished, AdviseFault> {
    let classes = group(&wish.classes);
    let own: Vec<&Candidate> =
        ground.candidates.iter().filter(|candidate| candidate.group == classes).collect();
    let solids: Vec<f64> = own.iter().filter_map(|candidate| solids(&candidate.listed)).collect();
    let composition = Composition::expected(&solids, &wish.classes);
    let (fruit, a_day) = match &wish.purpose {
        Purpose::Fresh(a_week) => (*a_week, None),
        Purpose::PutUp { put_up, amount, a_day, .. } => {
            let none = || AdviseFault::NoFigure { line: wish.said_at, product: put_up.name() };
            fruit(*put_up, *amount, *a_day, composition).ok_or_else(none)?
        }
    };
    let weeks = weeks(wish, fruit, request, ground)?;
    let days = [*weeks.start(), *weeks.end()].map(|week| ground.weeks.begins(week).unwrap_or_default());
    Ok(Wished { wish: wish.clone(), classes, fruit, a_day, weeks, days, composition })
}

/// Fruit in all, and what a kitchen day takes.
fn fruit(
    put_up: PutUp,
    amount: Amount,
    a_day: ADay,
    composition: Option<Composition>,
) -> Option<(Grams, Option<Grams>)> {
    let jar = match amount {
        Amount::Jars(jar, _) => jar,
        Amount::Fruit(_) => Jar::Quart,
    };
    let fruit = match amount {
        Amount::Jars(jar, jars) => put_up.fruit_for(jar, jars, composition?)?,
        Amount::Fruit(fruit) => fruit,
    };
    let a_day = match a_day {
        ADay::Loads(loads) => Some(put_up.load(jar)?.times(loads)?),
        ADay::Fruit(fruit) => Some(fruit),
        ADay::All => None,
    };
    Some((fruit, a_day))
}

fn weeks(
    wish: &Wish,
    fruit: Grams,
    request: &Request,
    ground: &Ground,
) -> Result<RangeInclusive<usize>, AdviseFault> {
    let last = ground.weeks.count().saturating_sub(1);
    let kilograms = match wish.purpose {
        Purpose::PutUp { .. } => WORTH_PICKING,
        Purpose::Fresh(_) => fruit.to_kilograms(),
    };
    let bearing = weeks_that_bear(&ground.supply, &group(&wish.classes), request.sure, kilograms);
    let told = |week| ground.weeks.begins(week).map_or_else(String::new, super::telling::day);
    let no_window = || AdviseFault::NoWindow { line: wish.said_at, from: told(0), to: told(last) };
    let week = |day| ground.weeks.of(day).ok_or_else(no_window);
    let (from, to) = (wish.from.map(week).transpose()?, wish.to.map(week).transpose()?);
    let weeks = match (from, to, bearing) {
        (Some(from), Some(to), _) => from..=to,
        (from, to, Some(bearing)) => from.unwrap_or(*bearing.start())..=to.unwrap_or(*bearing.end()),
        (_, _, None) => {
            return Err(AdviseFault::NoWeek { line: wish.said_at, classes: group(&wish.classes) });
        }
    };
    if weeks.is_empty() { Err(no_window()) } else { Ok(weeks) }
}

fn in_kilograms(wished: &Wished) -> planner::Wish {
    let (class, kilograms) = (wished.classes.clone(), wished.fruit.to_kilograms());
    match &wished.wish.purpose {
        Purpose::Fresh(_) => planner::Wish::Fresh { class, kilograms, weeks: wished.weeks.clone() },
        Purpose::PutUp { days, keeps, .. } => planner::Wish::Kitchen {
            class,
            kilograms,
            window: wished.weeks.clone(),
            days: *days,
            a_day: wished.a_day.map_or(kilograms, Grams::to_kilograms),
            keeps: usize::try_from(*keeps).unwrap_or(0),
        },
    }
}
