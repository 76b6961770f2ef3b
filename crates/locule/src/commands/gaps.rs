//! `locule gaps`: what the list lacks and where it is crowded.

use super::Failure;
use super::reference::{Shape, shape};
use crate::answer::Answer;
use crate::arguments::what;
use crate::columns::columns;
use house::folder::House;
use house::gaps::{self, Crowd, Filled, Gap, Kind};
use record::language::counted;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// The list, counted by habit, fruit class and colour.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Counted {
    /// Habits, from the smallest plant to the largest.
    habits: Vec<String>,
    /// Fruit classes, small to large.
    classes: Vec<String>,
    /// Places that hold something.
    filled: Vec<FilledTold>,
    /// Empty places whose surroundings are filled, those with most round them first.
    gaps: Vec<GapTold>,
    /// Gaps in all.
    gap_count: usize,
    /// Places that hold many, fullest first.
    crowds: Vec<CrowdTold>,
    /// Crowds in all.
    crowd_count: usize,
    /// Varieties counted.
    counted: usize,
    /// Varieties of which habit, class or colour is not known.
    left_out: usize,
}

/// A place on the list.
#[derive(Debug, Serialize, JsonSchema)]
struct FilledTold {
    /// Its habit.
    habit: String,
    /// Its fruit class.
    class: String,
    /// Its colour.
    colour: String,
    /// Varieties expected there; contested ones count in parts.
    held: f64,
}

/// An empty place.
#[derive(Debug, Serialize, JsonSchema)]
struct GapTold {
    /// Its habit.
    habit: String,
    /// Its fruit class.
    class: String,
    /// Its colour.
    colour: String,
    /// Varieties of the same habit and class, whatever their colour.
    habit_and_class: f64,
    /// Varieties of the same habit and colour, whatever their class.
    habit_and_colour: f64,
    /// Varieties of the same class and colour, whatever their habit.
    class_and_colour: f64,
}

/// A crowded place.
#[derive(Debug, Serialize, JsonSchema)]
struct CrowdTold {
    /// Its habit.
    habit: String,
    /// Its fruit class.
    class: String,
    /// Its colour.
    colour: String,
    /// Varieties expected there.
    held: f64,
    /// The most alike of them, nearest first.
    pairs: Vec<PairTold>,
}

/// Two varieties that are much alike.
#[derive(Debug, Serialize, JsonSchema)]
struct PairTold {
    /// One.
    one: String,
    /// The other.
    other: String,
    /// How far they are apart, from 0 to 1.
    distance: f64,
}

/// Gaps and crowds told where not all are asked for. A choice of the telling.
const TOLD: usize = 12;

pub(crate) fn run(house: &House, typed: &what::Gaps) -> Result<Counted, Failure> {
    let found = gaps::of(house)?;
    let most = if typed.all { usize::MAX } else { TOLD };
    Ok(Counted {
        habits: found.habits,
        classes: found.classes,
        filled: found.filled.into_iter().map(filled).collect(),
        gap_count: found.gaps.len(),
        gaps: found.gaps.into_iter().take(most).map(gap).collect(),
        crowd_count: found.crowds.len(),
        crowds: found.crowds.into_iter().take(most).map(crowd).collect(),
        counted: found.counted,
        left_out: found.left_out,
    })
}

fn filled(cell: Filled) -> FilledTold {
    let Kind { habit, class, colour } = cell.kind;
    FilledTold { habit, class, colour, held: cell.held }
}

fn gap(gap: Gap) -> GapTold {
    let Kind { habit, class, colour } = gap.kind;
    let (habit_and_class, habit_and_colour) = (gap.habit_and_class, gap.habit_and_colour);
    GapTold {
        habit,
        class,
        colour,
        habit_and_class,
        habit_and_colour,
        class_and_colour: gap.class_and_colour,
    }
}

fn crowd(crowd: Crowd) -> CrowdTold {
    let Kind { habit, class, colour } = crowd.kind;
    let pair = |pair: gaps::Pair| PairTold { one: pair.one, other: pair.other, distance: pair.distance };
    CrowdTold { habit, class, colour, held: crowd.held, pairs: crowd.pairs.into_iter().map(pair).collect() }
}

impl Answer for Counted {
    const SHAPE: &'static str = "gaps/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        let varieties = counted(self.counted as u64, "variety", "varieties");
        writeln!(to, "{varieties} counted; of {} more, habit, class or colour is not known.", self.left_out)?;
        if self.counted == 0 {
            return Ok(());
        }
        writeln!(to)?;
        columns(to, &self.table())?;
        self.tell_gaps(to)?;
        self.tell_crowds(to)
    }
}

impl Counted {
    /// Habit by class, whatever the colour.
    fn table(&self) -> Vec<Vec<String>> {
        let mut heading = vec![String::new()];
        heading.extend(self.classes.iter().cloned());
        let mut rows = vec![heading];
        for habit in &self.habits {
            let mut row = vec![habit.clone()];
            row.extend(self.classes.iter().map(|class| told(self.held(habit, class))));
            rows.push(row);
        }
        rows
    }

    fn held(&self, habit: &str, class: &str) -> f64 {
        let own = self.filled.iter().filter(|cell| cell.habit == habit && cell.class == class);
        own.map(|cell| cell.held).sum()
    }

    fn tell_gaps(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(to, "\n{}, where all round it is filled:", counted(self.gap_count as u64, "gap", "gaps"))?;
        for gap in &self.gaps {
            let GapTold { habit, class, colour, .. } = gap;
            writeln!(
                to,
                "  {habit} {colour} {class}: there are {} {habit} {class}, {} {habit} {colour}, {} {colour} {class}",
                told(gap.habit_and_class),
                told(gap.habit_and_colour),
                told(gap.class_and_colour)
            )?;
        }
        left_out(to, self.gap_count - self.gaps.len())
    }

    fn tell_crowds(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(to, "\n{}:", counted(self.crowd_count as u64, "crowded place", "crowded places"))?;
        for crowd in &self.crowds {
            writeln!(to, "  {} {} {}: {}", crowd.habit, crowd.colour, crowd.class, told(crowd.held))?;
            for pair in &crowd.pairs {
                writeln!(to, "    {} and {}, {:.2} apart", pair.one, pair.other, pair.distance)?;
            }
        }
        left_out(to, self.crowd_count - self.crowds.len())
    }
}

fn left_out(to: &mut dyn Write, more: usize) -> io::Result<()> {
    if 0 < more { writeln!(to, "  and {more} more; see them with --all") } else { Ok(()) }
}

/// A count of varieties in parts: `3`, `1.6`, or nothing for none.
fn told(held: f64) -> String {
    match held {
        none if none < 0.05 => String::new(),
        whole if (whole - whole.round()).abs() < 0.05 => format!("{whole:.0}"),
        parts => format!("{parts:.1}"),
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Counted>()]
}
