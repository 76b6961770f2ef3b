//! How a habit is told: the guide's numbers in the words of a walk through the plot.

use identity::guide::habit::HabitGuide;
use identity::habit::{Habit, Stem};
use identity::typical::{self, TypicalPlant};
use publish::chart::Tell;
use record::language::{self, Units, counted};

/// What tells a habit, in the order in which a walk meets it.
pub(super) fn of(guide: &HabitGuide, habit: Habit, units: Units) -> Vec<Tell> {
    let Some(plant) = typical::plant(guide, habit) else { return Vec::new() };
    let is_tall = stands_tall(habit);
    let tells = [
        Some(if is_tall { main_stem(&plant) } else { any_stem() }),
        is_tall.then(|| leaves(guide, &plant)),
        Some(height(&plant, habit, units)),
        is_tall.then(|| ripening(&plant)),
    ];
    tells.into_iter().flatten().collect()
}

/// Whether the main stem decides how tall the plant grows.
fn stands_tall(habit: Habit) -> bool {
    !matches!(habit, Habit::Dwarf | Habit::MicroDwarf)
}

fn tell(about: &str, words: String) -> Tell {
    Tell { about: about.to_owned(), words }
}

fn main_stem(plant: &TypicalPlant) -> Tell {
    let trusses = counted(plant.trusses.into(), "truss", "trusses");
    let words = match plant.trusses_most {
        Some((low, high)) => format!("ends in a truss after about {trusses}, mostly {low:.0} to {high:.0}"),
        None => format!("does not end; about {trusses} before frost ends the watching"),
    };
    tell("Main stem", words)
}

fn any_stem() -> Tell {
    tell("Main stem", "ends or grows on: a dwarf is told by its stature and its leaves".to_owned())
}

fn leaves(guide: &HabitGuide, plant: &TypicalPlant) -> Tell {
    let (mean, fall) =
        (guide.leaves.mean.of(plant.stem).mean.number, guide.leaves.fall.of(plant.stem).number);
    let words = if 0.0 < fall {
        format!("about {mean} between two trusses, {fall} fewer at the last than at the first")
    } else {
        format!("about {mean} between two trusses, from the first to the last")
    };
    tell("Leaves", words)
}

fn height(plant: &TypicalPlant, habit: Habit, units: Units) -> Tell {
    let (low, high) = language::lengths_briefly(plant.height_most, units);
    let range = format!("about {}, mostly {low} to {high}", language::length(plant.height, units));
    let often = language::chance(plant.levels_off);
    let words = match plant.stem {
        _ if !stands_tall(habit) => range,
        Stem::Indeterminate => format!("{range}; still growing at the end but for {often}"),
        Stem::Determinate | Stem::SemiDeterminate => format!("{range}; levels off before the end in {often}"),
    };
    tell("Height", words)
}

fn ripening(plant: &TypicalPlant) -> Tell {
    let (days, (low, high)) = plant.ripening_days;
    let words =
        format!("a tenth to nine tenths of the fruit in about {days:.0} days, mostly {low:.0} to {high:.0}");
    tell("Ripening", words)
}
