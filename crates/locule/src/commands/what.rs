//! `locule what`: an unknown tomato, called as a variety is.

use super::Failure;
use super::instead::{NearTold, near, tell_near};
use super::reference::{Shape, shape};
use super::show::tell_call;
use crate::answer::{Answer, Ending};
use crate::arguments::UnitsWord;
use crate::arguments::what::{OneFruit, OnePlant, What};
use house::calls::CallSubject;
use house::folder::House;
use house::kept::{KeptCall, KeptColour, KeptFruit, KeptHabit, KeptStep, chance};
use house::opened::Given;
use house::what::{self, Asked, FruitField, PlantField, Refused, TypedFruit};
use jiff::ZonedDateTime;
use record::language::Units;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// What an unknown tomato may be.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct WhatItIs {
    /// Fruit class, shape marks and measures.
    fruit: KeptFruit,
    /// Habit.
    habit: KeptHabit,
    /// Colour.
    colour: KeptColour,
    /// How far what was measured speaks for the variety; nothing where no fruit was measured.
    how_far: Option<String>,
    /// What one more look would tell.
    looks: LooksTold,
    /// What is odd about what was given.
    doubts: Vec<String>,
    /// Rows that could not be read.
    refused: Vec<RefusedTold>,
    /// The varieties of the list most like it; nothing where there is no house.
    nearest: Option<Vec<NearTold>>,
    #[serde(skip)]
    units: Units,
}

/// What could be looked at next; of each call the most telling look first.
#[derive(Debug, Serialize, JsonSchema)]
struct LooksTold {
    /// For the fruit class.
    class: Vec<KeptStep>,
    /// For the habit.
    habit: Vec<KeptStep>,
    /// For the colour.
    colour: Vec<KeptStep>,
}

/// A row that could not be read.
#[derive(Debug, Serialize, JsonSchema)]
struct RefusedTold {
    /// File and sheet.
    table: String,
    /// The row.
    row: u64,
    /// The column.
    column: Option<String>,
    /// What is wrong.
    reason: String,
    /// What to do.
    remedy: String,
}

/// `house` is where one was found; without one, the rules that locule comes with decide.
pub(crate) fn run(house: Option<&House>, typed: What) -> Result<WhatItIs, Failure> {
    let own = house.map_or(Units::US, |house| house.settings.units);
    let units = match typed.units {
        Some(UnitsWord::Us) => Units::US,
        Some(UnitsWord::Metric) => Units::METRIC,
        None => own,
    };
    let answer = what::ask(house, &asked(typed), units, ZonedDateTime::now().date())?;
    Ok(WhatItIs {
        fruit: answer.calls.fruit,
        habit: answer.calls.habit,
        colour: answer.calls.colour,
        how_far: answer.how_far,
        looks: LooksTold {
            class: answer.looks.class,
            habit: answer.looks.habit,
            colour: answer.looks.colour,
        },
        doubts: answer.doubts,
        refused: answer.refused.into_iter().map(refused).collect(),
        nearest: answer.nearest.map(|nearest| nearest.iter().map(near).collect()),
        units,
    })
}

fn asked(typed: What) -> Asked {
    let mut fruits: Vec<TypedFruit> = typed.fruits.into_iter().map(TypedFruit::Line).collect();
    let own = fruit_fields(typed.fruit);
    if !own.is_empty() {
        fruits.insert(0, TypedFruit::Fields(own));
    }
    let tables = typed.tables.iter().map(|file| Given::at(file)).collect();
    Asked { fruits, plants: vec![plant_fields(typed.plant)], tables }
}

fn fruit_fields(typed: OneFruit) -> Vec<(FruitField, String)> {
    given([
        (FruitField::Weight, typed.weight),
        (FruitField::Length, typed.length),
        (FruitField::Width, typed.width),
        (FruitField::Neck, typed.neck),
        (FruitField::Locules, typed.locules),
        (FruitField::Lobes, typed.lobes),
        (FruitField::SolubleSolids, typed.solids),
        (FruitField::DryMatter, typed.dry_matter),
        (FruitField::Colour, typed.colour),
        (FruitField::Flesh, typed.flesh),
        (FruitField::Skin, typed.skin),
        (FruitField::Pattern, typed.pattern),
    ])
}

fn plant_fields(typed: OnePlant) -> Vec<(PlantField, String)> {
    given([
        (PlantField::StemEnded, typed.stem_ended),
        (PlantField::StemGrowing, typed.stem_growing),
        (PlantField::LeavesBetween, typed.leaves_between),
        (PlantField::Height, typed.height),
        (PlantField::LevelsOff, typed.levels_off),
        (PlantField::RipeWithin, typed.ripe_within),
        (PlantField::BearsFor, typed.bears_for),
        (PlantField::DwarfLeaves, typed.dwarf_leaves),
    ])
}

fn given<F, const N: usize>(fields: [(F, Option<String>); N]) -> Vec<(F, String)> {
    fields.into_iter().filter_map(|(field, text)| Some((field, text?))).collect()
}

fn refused(row: Refused) -> RefusedTold {
    let Refused { table, row, column, reason, remedy } = row;
    RefusedTold { table, row, column, reason, remedy }
}

impl Answer for WhatItIs {
    const SHAPE: &'static str = "what/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        for doubt in &self.doubts {
            writeln!(to, "Look again: {doubt}.")?;
        }
        tell_one(to, CallSubject::FruitClass, &self.fruit.call, &self.looks.class)?;
        if let Some(how_far) = self.how_far.as_ref().filter(|_| self.fruit.call.measured) {
            writeln!(to, "  {how_far}")?;
        }
        for mark in self.fruit.marks.iter().filter(|mark| mark.share.is_some_and(|share| MARKED <= share)) {
            let share = mark.share.map(chance).unwrap_or_default();
            writeln!(to, "  Shape mark: {} ({share}): {}", mark.mark, mark.words)?;
        }
        tell_one(to, CallSubject::Habit, &self.habit.call, &self.looks.habit)?;
        tell_one(to, CallSubject::Colour, &self.colour.exterior, &self.looks.colour)?;
        if let Some(clash) = &self.colour.clash {
            writeln!(to, "  {clash}")?;
        }
        tell_list(to, self.nearest.as_deref(), self.units)?;
        for row in &self.refused {
            let column = row.column.as_ref().map(|column| format!(", column {column:?}")).unwrap_or_default();
            writeln!(to, "Not read: {}, row {}{column}: {}", row.table, row.row, row.reason)?;
            writeln!(to, "  help: {}", row.remedy)?;
        }
        Ok(())
    }

    fn ending(&self) -> Ending {
        if self.refused.is_empty() { Ending::Done } else { Ending::BadInput }
    }
}

/// A shape mark less likely than this is not told. A choice of the telling.
const MARKED: f64 = 0.2;

/// One call with the looks that would lift it, instead of what would settle a variety of the house.
fn tell_one(to: &mut dyn Write, about: CallSubject, call: &KeptCall, looks: &[KeptStep]) -> io::Result<()> {
    if call.measured {
        tell_call(to, about, &KeptCall { settle: Vec::new(), ..call.clone() })?;
    } else {
        let about = house::calls::subject(about);
        writeln!(to, "\nIts {about}: nothing was told that speaks of it.")?;
    }
    for (place, look) in looks.iter().enumerate() {
        let lead = if place == 0 { "One more look" } else { "Or" };
        writeln!(to, "  {lead}: {} Expected then {}.", look.words, chance(look.expected))?;
    }
    Ok(())
}

fn tell_list(to: &mut dyn Write, nearest: Option<&[NearTold]>, units: Units) -> io::Result<()> {
    writeln!(to)?;
    match nearest {
        None => writeln!(to, "There is no house here, so there was no list to compare it with."),
        Some([]) => writeln!(to, "No variety of the list was measured in anything that was told of it."),
        Some(nearest) => {
            writeln!(to, "Nearest on the list:")?;
            tell_near(to, nearest, units)
        }
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<WhatItIs>()]
}
