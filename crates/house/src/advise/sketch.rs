//! Where a plan's plants stand: each variety's together, those that grow tallest in the first rows, so that with these to the
//! north they shade no other.
//!
//! Start at [`sketch`].

use super::planned::Line;
use super::request::Garden;
use advice::planner::supply::Room;
use drawing::planted_beds::{PlantedBed, PlantedBeds, PlantedPlace};
use identity::habit::Habit;
use record::language::counted;

/// What is said beside the sketch.
pub const BESIDE: &str = "Each letter is a plant; what stands tallest comes first, so put the first row to the north. Dots are places that stay free.";

/// The letter of a plan's line, by its place: A to Z, then AA, AB and so on.
#[must_use]
pub fn letter(place: usize) -> String {
    let of = |place: usize| char::from(b'A' + u8::try_from(place % LETTERS).unwrap_or(0));
    match place.checked_sub(LETTERS) {
        None => of(place).to_string(),
        Some(further) => format!("{}{}", of(further / LETTERS), of(further)),
    }
}

/// Letters of the alphabet.
const LETTERS: usize = 26;

/// Puts a plan's plants into the beds and containers of its garden.
#[must_use]
pub fn sketch(lines: &[Line], garden: &Garden) -> PlantedBeds {
    let mut in_beds = standing(lines, |room| matches!(room, Room::Bed(_))).into_iter();
    let containers = standing(lines, |room| room == Room::Container);
    let bed = |bed: &advice::space::Bed| {
        let spots = bed.spots(garden.spacing).into_iter();
        PlantedBed {
            length: bed.length,
            width: bed.width,
            closest: if garden.spacing.plants.get() < garden.spacing.rows.get() {
                garden.spacing.plants
            } else {
                garden.spacing.rows
            },
            places: spots
                .map(|spot| PlantedPlace { along: spot.along, across: spot.across, letter: in_beds.next() })
                .collect(),
        }
    };
    let beds: Vec<PlantedBed> = garden.beds.iter().map(bed).collect();
    let told = |(place, line): (usize, &Line)| {
        format!(
            "{}: {} of {}",
            letter(place),
            counted(u64::from(line.plants), "plant", "plants"),
            line.variety
        )
    };
    let words: Vec<String> = lines.iter().enumerate().map(told).collect();
    PlantedBeds { words: format!("The beds to scale. {}", words.join("; ")), beds, containers }
}

/// A letter for every plant that stands in such a room, the tallest first and each variety's together.
fn standing(lines: &[Line], is_there: impl Fn(Room) -> bool) -> Vec<String> {
    let mut own: Vec<(usize, &Line)> =
        lines.iter().enumerate().filter(|(_, line)| is_there(line.room)).collect();
    own.sort_by_key(|(place, line)| (height(line), *place));
    let each = own.into_iter().flat_map(|(place, line)| (0..line.plants).map(move |_| letter(place)));
    each.collect()
}

/// Which row a habit comes in: what is not called is taken to grow on.
fn height(line: &Line) -> u8 {
    let is = |habit: Habit| line.habit.as_deref() == Some(habit.to_string().as_str());
    if is(Habit::Dwarf) || is(Habit::MicroDwarf) {
        3
    } else if is(Habit::Determinate) {
        2
    } else if is(Habit::SemiDeterminate) {
        1
    } else {
        0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_go_on_after_z() {
        assert_eq!([0, 25, 26, 51, 52].map(letter), ["A", "Z", "AA", "AZ", "BA"]);
    }
}
