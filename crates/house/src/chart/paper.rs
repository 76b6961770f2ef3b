//! The types as a printed chart: looks drawn, words handed on.

use crate::chart::{ClassType, HabitType, MarkType, Types};
use crate::folder::House;
use drawing::look::FruitLook;
use drawing::plant::plant;
use drawing::portrait::portrait;
use drawing::scale::{Pixels, Scale};
use drawing::span::span;
use jiff::civil::Date;
use publish::chart::{Chart, ClassPanel, HabitPanel, Limit, MarkPanel, NamedPicture, Portrait, Tell};
use record::language::Units;
use record::purpose::Purpose;

/// Pixels a millimetre at which plants are drawn: two metres take 400. A choice of the drawing.
const PLANT_SCALE: f64 = 0.2;
/// Pixels that a bar is drawn wide; paper stretches it to its column.
const BAR: u16 = 160;

/// The chart of these types.
pub(super) fn chart(types: &Types, house: &House, today: Date) -> Chart {
    let units = house.settings.units;
    Chart {
        house: house.settings.name.clone(),
        printed_on: today,
        guides: types.guides.clone(),
        classes: types.classes.iter().map(|class| class_panel(class, units)).collect(),
        habits: types.habits.iter().map(habit_panel).collect(),
        marks: types.marks.iter().map(|mark| mark_panel(mark, units)).collect(),
        colours: types.colours.iter().filter_map(|look| named(look, units)).collect(),
        patterns: types.patterns.iter().filter_map(|look| named(look, units)).collect(),
        house_fonts: Vec::new(),
    }
}

fn drawn(look: &FruitLook, units: Units) -> Option<Portrait> {
    Portrait::drawn(&portrait(look, Scale::LIFE_SIZE, units), Scale::LIFE_SIZE)
}

fn named(look: &FruitLook, units: Units) -> Option<NamedPicture> {
    Some(NamedPicture { name: look.name.clone(), portrait: drawn(look, units)? })
}

fn class_panel(class: &ClassType, units: Units) -> ClassPanel {
    let limit = |limit: &crate::chart::Limit| Limit {
        about: limit.about.clone(),
        words: limit.words.clone(),
        bar: span(&limit.span, Pixels::from(BAR)).markup().to_owned(),
    };
    ClassPanel {
        name: class.name.clone(),
        portrait: class.look.as_ref().and_then(|look| drawn(look, units)),
        what: class.what.clone(),
        good_for: class.good_for.clone(),
        flesh: class.flesh.clone(),
        mistaken_for: class.mistaken_for.clone(),
        limits: class.limits.iter().map(limit).collect(),
        ways: class.ways.clone(),
        uses: uses(&class.uses),
    }
}

fn habit_panel(habit: &HabitType) -> HabitPanel {
    let drawn = habit.look.as_ref().and_then(|look| {
        let scale = Scale::new(PLANT_SCALE)?;
        Portrait::drawn(&plant(look, scale), scale)
    });
    let tell = |tell: &crate::chart::Tell| Tell { about: tell.about.clone(), words: tell.words.clone() };
    HabitPanel {
        name: habit.name.clone(),
        plant: drawn,
        what: habit.what.clone(),
        good_for: habit.good_for.clone(),
        mistaken_for: habit.mistaken_for.clone(),
        tells: habit.tells.iter().map(tell).collect(),
        uses: uses(&habit.uses),
    }
}

fn mark_panel(mark: &MarkType, units: Units) -> MarkPanel {
    MarkPanel {
        name: mark.name.clone(),
        portrait: mark.look.as_ref().and_then(|look| drawn(look, units)),
        words: format!("{} The guide's limit: {}.", mark.what, mark.limits.join("; or ")),
    }
}

fn uses(purposes: &[Purpose]) -> Vec<String> {
    purposes.iter().map(|purpose| purpose.name().to_owned()).collect()
}
