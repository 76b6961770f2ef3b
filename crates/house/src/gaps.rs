//! The list's gaps and crowds: how many varieties there are of each habit, fruit class and colour.

use crate::alike::{profiles, words};
use crate::fault::HouseFault;
use crate::folder::House;
use crate::guides;
use crate::list;
use assortment::gaps::{Cell, Cells, cells};
use assortment::profile::Words;
use assortment::standins::Assortment;
use ledger::ledger::Ledger;

/// The list, counted.
#[derive(Debug)]
pub struct Gaps {
    /// Habits, from the smallest plant to the largest.
    pub habits: Vec<String>,
    /// Fruit classes, small to large.
    pub classes: Vec<String>,
    /// Colours.
    pub colours: Vec<String>,
    /// Every cell that holds something worth a word, habit by habit, class by class.
    pub filled: Vec<Filled>,
    /// Empty cells whose surroundings are filled, those with most round them first.
    pub gaps: Vec<Gap>,
    /// Cells that hold many, fullest first.
    pub crowds: Vec<Crowd>,
    /// Varieties counted.
    pub counted: usize,
    /// Varieties of which habit, class or colour is not known.
    pub left_out: usize,
}

/// A habit, a fruit class and a colour, in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Kind {
    /// The habit.
    pub habit: String,
    /// The fruit class.
    pub class: String,
    /// The colour.
    pub colour: String,
}

/// A cell with what it holds.
#[derive(Clone, Debug, PartialEq)]
pub struct Filled {
    /// The cell.
    pub kind: Kind,
    /// Varieties expected in it; contested ones count in parts.
    pub held: f64,
}

/// An empty cell whose surroundings are filled.
#[derive(Clone, Debug, PartialEq)]
pub struct Gap {
    /// The cell.
    pub kind: Kind,
    /// Varieties of the same habit and class, whatever their colour.
    pub habit_and_class: f64,
    /// Varieties of the same habit and colour, whatever their class.
    pub habit_and_colour: f64,
    /// Varieties of the same class and colour, whatever their habit.
    pub class_and_colour: f64,
}

/// A cell that holds many.
#[derive(Clone, Debug, PartialEq)]
pub struct Crowd {
    /// The cell.
    pub kind: Kind,
    /// Varieties expected in it.
    pub held: f64,
    /// The most alike of them, nearest first.
    pub pairs: Vec<Pair>,
}

/// Two varieties that are much alike.
#[derive(Clone, Debug, PartialEq)]
pub struct Pair {
    /// One.
    pub one: String,
    /// The other.
    pub other: String,
    /// How far they are apart.
    pub distance: f64,
}

/// A cell of less than this is not told among the filled: it is a possibility and no variety.
const WORTH_TELLING: f64 = 0.05;

/// Counts the list.
///
/// # Errors
/// A guide's fault; what the ledger refuses.
pub fn of(house: &House) -> Result<Gaps, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let (all, guides) = ledger.at_one_moment(|ledger| {
        let guides = guides::read(&guides::accepted(ledger)?)?;
        Ok::<_, HouseFault>((list::everyone(ledger)?, guides))
    })?;
    let words = words(&guides);
    let profiles = profiles(&all, &words);
    let assortment = Assortment::new(&profiles, &words)?;
    let cells = cells(&profiles, &words);
    let name = |place: usize| all.get(place).map_or_else(String::new, |listed| listed.variety.name.clone());
    let crowds = cells.crowds(&profiles, &assortment).into_iter().map(|crowd| Crowd {
        kind: kind(crowd.cell, &words),
        held: crowd.held,
        pairs: crowd
            .pairs
            .iter()
            .map(|pair| Pair { one: name(pair.one), other: name(pair.other), distance: pair.distance })
            .collect(),
    });
    Ok(Gaps {
        filled: filled(&cells, &words),
        gaps: gaps(&cells, &words),
        crowds: crowds.collect(),
        counted: cells.counted,
        left_out: cells.left_out,
        habits: words.habits.names,
        classes: words.classes.names,
        colours: words.colours.names,
    })
}

fn kind(cell: Cell, words: &Words) -> Kind {
    Kind {
        habit: words.habits.name(cell.habit).to_owned(),
        class: words.classes.name(cell.class).to_owned(),
        colour: words.colours.name(cell.colour).to_owned(),
    }
}

fn filled(cells: &Cells, words: &Words) -> Vec<Filled> {
    let each = cells.each().map(|cell| (cell, cells.held(cell)));
    let worth = each.filter(|(_, held)| WORTH_TELLING <= *held);
    worth.map(|(cell, held)| Filled { kind: kind(cell, words), held }).collect()
}

fn gaps(cells: &Cells, words: &Words) -> Vec<Gap> {
    let told = |gap: assortment::gaps::Gap| Gap {
        kind: kind(gap.cell, words),
        habit_and_class: gap.habit_and_class,
        habit_and_colour: gap.habit_and_colour,
        class_and_colour: gap.class_and_colour,
    };
    cells.gaps().into_iter().map(told).collect()
}
