//! `locule call`: what varieties are.

use super::calls_told::{Brief, brief, words};
use super::reference::{Shape, shape};
use super::{Failure, bars, reading};
use crate::answer::Answer;
use crate::arguments::Call;
use house::calls::{self, AllCalls, CallSubject, VarietyCalls};
use house::evidence::Seasons;
use house::folder::House;
use house::{guides, list};
use record::language::counted;
use record::variety::Variety;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// What varieties are.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Called {
    /// The varieties asked for, by name.
    pub(crate) varieties: Vec<CalledVariety>,
    /// Whether the calls were kept.
    pub(crate) kept: bool,
    /// Guide files that were edited and not accepted, so that they did not decide.
    pub(crate) edited_guides: Vec<String>,
    /// Whether single varieties were asked for.
    #[serde(skip)]
    chosen: bool,
}

/// What one variety is.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct CalledVariety {
    /// Its name.
    pub(crate) name: String,
    /// Habit, fruit class, colour.
    pub(super) calls: Vec<Brief>,
}

pub(crate) fn run(house: &House, typed: &Call) -> Result<Called, Failure> {
    let (called, kept) = call(house, typed)?;
    let names = list::names(house)?;
    let mut wanted = Vec::new();
    for name in &typed.varieties {
        wanted.push(list::find(house, name)?.id);
    }
    let is_wanted = |variety: &&Variety| wanted.is_empty() || wanted.contains(&variety.id);
    let varieties = names.iter().filter(is_wanted);
    Ok(Called {
        varieties: varieties.filter_map(|variety| Some(told(variety, called.get(&variety.id)?))).collect(),
        kept,
        edited_guides: list::edited_guides(house)?,
        chosen: !wanted.is_empty(),
    })
}

fn call(house: &House, typed: &Call) -> Result<(AllCalls, bool), Failure> {
    let seasons = match typed.since {
        Some(year) => Seasons::Since(reading::season(year)?),
        None => Seasons::All,
    };
    if typed.guide.is_none() && seasons == Seasons::All {
        return Ok((calls::call_all(house, &bars())?, true));
    }
    let texts = guides::texts(house, typed.guide.as_deref())?;
    Ok((calls::call_otherwise(house, &texts, seasons, &bars())?, false))
}

fn told(variety: &Variety, calls: &VarietyCalls) -> CalledVariety {
    CalledVariety {
        name: variety.name.clone(),
        calls: vec![
            brief(CallSubject::Habit, &calls.habit.call),
            brief(CallSubject::FruitClass, &calls.fruit.call),
            brief(CallSubject::Colour, &calls.colour.exterior),
        ],
    }
}

impl Called {
    /// Varieties with a contested call.
    pub(crate) fn contested(&self) -> impl Iterator<Item = &CalledVariety> {
        self.varieties.iter().filter(|variety| variety.calls.iter().any(|call| call.contested))
    }
}

impl Answer for Called {
    const SHAPE: &'static str = "call/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        if self.chosen {
            for variety in &self.varieties {
                tell_variety(to, variety)?;
            }
        } else {
            tell_summary(to, self)?;
        }
        for guide in &self.edited_guides {
            writeln!(
                to,
                "guides/{guide} was edited and does not count yet: locule guide preview guides/{guide}"
            )?;
        }
        if !self.kept {
            writeln!(to, "These calls were not kept.")?;
        }
        Ok(())
    }
}

fn tell_variety(to: &mut dyn Write, variety: &CalledVariety) -> io::Result<()> {
    writeln!(to, "{}", variety.name)?;
    for call in &variety.calls {
        writeln!(to, "  {}: {}", call.about, words(call))?;
        if let Some(settle) = &call.settle {
            writeln!(to, "    To settle it: {settle}")?;
        }
    }
    Ok(())
}

fn tell_summary(to: &mut dyn Write, called: &Called) -> io::Result<()> {
    writeln!(to, "{} called.", counted(called.varieties.len() as u64, "variety", "varieties"))?;
    for (place, about) in ["habit", "fruit class", "colour"].into_iter().enumerate() {
        let calls = || called.varieties.iter().filter_map(|variety| variety.calls.get(place));
        let measured = calls().filter(|call| call.probability.is_some()).count();
        let contested = calls().filter(|call| call.contested).count();
        let unmeasured = calls().count() - measured;
        writeln!(
            to,
            "  {about}: {measured} called, {contested} of them contested, {unmeasured} not measured"
        )?;
    }
    called.contested().try_for_each(|variety| tell_contested(to, variety))
}

/// Tells a variety's contested calls and what would settle each.
pub(super) fn tell_contested(to: &mut dyn Write, variety: &CalledVariety) -> io::Result<()> {
    for call in variety.calls.iter().filter(|call| call.contested) {
        writeln!(to, "  {}, {}: {}", variety.name, call.about, words(call))?;
        if let Some(settle) = &call.settle {
            writeln!(to, "    To settle it: {settle}")?;
        }
    }
    Ok(())
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Called>()]
}
