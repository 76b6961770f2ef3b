//! The type chart: every class and habit of the house's guides, drawn from the guides alone.
//!
//! A changed guide changes the chart; no variety and no record is looked at. Start at [`types`] for a
//! page and at [`print`] for paper.

mod limits;
mod tells;

pub use publish::chart::{ClassType, HabitType, Limit, MarkType, Sheet, Tell, Types};

use crate::fault::HouseFault;
use crate::folder::{self, House};
use crate::guides::{self, Guides};
use crate::print::titles;
use crate::progress::Progress;
use drawing::look::{FruitLook, Tip};
use drawing::plant::{Build, PlantLook, StemTip};
use identity::guide::fruit::measure::Measure;
use identity::guide::fruit::{FruitClass, ShapeMark, Way};
use identity::habit::{Habit, Stem};
use identity::typical::{self, TypicalFruit};
use jiff::civil::Date;
use ledger::ledger::Ledger;
use publish::chart::Chart;
use record::colour::{ColourSeen, Pattern, TradeColour};
use record::language::Units;
use record::length::Millimetres;
use record::share::Share;
use std::path::{Path, PathBuf};

/// A chart that was printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PrintedChart {
    /// The file.
    pub file: PathBuf,
    /// Its size in bytes.
    pub bytes: u64,
    /// Fruit classes on it.
    pub classes: usize,
    /// Habits on it.
    pub habits: usize,
}

/// The types of the house's accepted guides.
///
/// # Errors
/// A guide's fault; what the ledger refuses.
pub fn types(house: &House) -> Result<Types, HouseFault> {
    let guides = guides::read(&guides::accepted(&mut Ledger::open(&house.ledger_location())?)?)?;
    Ok(of_guides(&guides, house.settings.units))
}

/// Prints the chart to `file`, whole or not at all.
///
/// # Errors
/// A guide's fault; what the ledger or the disk refuses; our own fault where it cannot be set.
pub fn print(
    house: &House,
    sheet: Sheet,
    today: Date,
    file: &Path,
    progress: &dyn Progress,
) -> Result<PrintedChart, HouseFault> {
    let types = types(house)?;
    progress.begin("setting the type chart", None);
    let (classes, habits) = (types.classes.len(), types.habits.len());
    let chart = Chart {
        house: house.settings.name.clone(),
        printed_on: today,
        types,
        units: house.settings.units,
        house_fonts: Vec::new(),
    };
    let pdf = publish::chart::chart(&chart, sheet)?;
    folder::write(file, &pdf)?;
    let bytes = u64::try_from(pdf.len()).unwrap_or(u64::MAX);
    Ok(PrintedChart { file: file.to_owned(), bytes, classes, habits })
}

/// The file that a chart goes to unless another is named.
#[must_use]
pub fn file(house: &House, sheet: Sheet) -> PathBuf {
    let paper = match sheet {
        Sheet::A4 => "a4",
        Sheet::UsLetter => "letter",
        Sheet::A3 => "a3",
        Sheet::Tabloid => "tabloid",
    };
    house.printed().join(format!("types-{paper}.pdf"))
}

/// What these guides describe.
pub(crate) fn of_guides(guides: &Guides, units: Units) -> Types {
    let colour = commonest(guides);
    Types {
        classes: guides.fruit.classes.iter().map(|class| class_type(guides, class, colour, units)).collect(),
        habits: Habit::ALL.into_iter().map(|habit| habit_type(guides, habit, units)).collect(),
        marks: guides.fruit.marks.iter().map(|mark| mark_type(guides, mark, colour, units)).collect(),
        colours: guides.colour.colour.iter().map(|(colour, _)| swatch(*colour, Pattern::Plain)).collect(),
        patterns: patterns(guides, colour),
        guides: titles(guides),
    }
}

/// The colour that the guide says is sold most.
fn commonest(guides: &Guides) -> TradeColour {
    let colours = guides.colour.colour.iter();
    let most = colours.max_by(|one, other| one.1.number.total_cmp(&other.1.number));
    most.map_or(TradeColour::Red, |(colour, _)| *colour)
}

fn class_type(guides: &Guides, class: &FruitClass, colour: TradeColour, units: Units) -> ClassType {
    let typical = typical::fruit(&guides.fruit, &class.ways, typical::SOLD);
    ClassType {
        name: class.name.to_string(),
        look: typical.map(|fruit| look(class.name.as_str(), fruit, colour)),
        what: class.words.what.clone(),
        good_for: class.words.good_for.clone(),
        flesh: class.words.flesh.clone(),
        mistaken_for: class.words.mistaken_for.clone(),
        limits: limits::all(&guides.fruit, &class.ways, units),
        ways: limits::ways(&guides.fruit, &class.ways, units),
        uses: class.uses.purposes.clone(),
    }
}

fn look(name: &str, fruit: TypicalFruit, colour: TradeColour) -> FruitLook {
    FruitLook {
        weight: Some(fruit.weight),
        length: Some(fruit.length),
        width: Some(fruit.width),
        neck: fruit.neck,
        locules: Some(fruit.locules),
        lobes: fruit.lobes,
        exterior: Some(ColourSeen::Word(colour)),
        pattern: Some(Pattern::Plain),
        ..FruitLook::named(name)
    }
}

fn mark_type(guides: &Guides, mark: &ShapeMark, colour: TradeColour, units: Units) -> MarkType {
    let typical = typical::fruit(&guides.fruit, &mark.ways, typical::MARKED);
    let plain = typical.map(|fruit| look(mark.name.as_str(), fruit, colour));
    // A heart ends in a point, which no border measures; a hollow fruit has hardly any gel.
    let tip = (mark.name.as_str() == "heart").then_some(Tip::Pointed);
    let gel = mark.ways.iter().any(|way| speaks_of(way, Measure::Fullness)).then(|| Share::new(HOLLOW_GEL));
    MarkType {
        name: mark.name.to_string(),
        look: plain.map(|look| FruitLook { tip, gel: gel.flatten(), ..look }),
        what: mark.what.clone(),
        limits: limits::in_full(&guides.fruit, &mark.ways, units),
    }
}

/// Gel in the cut face of a hollow fruit. A choice of the drawing.
const HOLLOW_GEL: f64 = 0.05;

fn speaks_of(way: &Way, measure: Measure) -> bool {
    way.bands.iter().any(|band| band.measure == measure)
}

fn habit_type(guides: &Guides, habit: Habit, units: Units) -> HabitType {
    let words = guides.habit.told.of(habit);
    let plant = typical::plant(&guides.habit, habit);
    HabitType {
        name: habit.to_string(),
        look: plant.map(|plant| PlantLook {
            words: format!("A plant of the habit {habit}, as the guide has it"),
            height: plant.height,
            tip: if plant.stem == Stem::Indeterminate { StemTip::GrowsOn } else { StemTip::Truss },
            trusses: plant.trusses,
            leaves_between: plant.leaves_between,
            build: if matches!(habit, Habit::Dwarf | Habit::MicroDwarf) {
                Build::Sturdy
            } else {
                Build::Slender
            },
            ripe: plant.ripe,
        }),
        what: words.what.clone(),
        good_for: words.good_for.clone(),
        mistaken_for: words.mistaken_for.clone(),
        tells: tells::of(&guides.habit, habit, units),
        uses: words.uses.purposes.clone(),
    }
}

fn patterns(guides: &Guides, plain: TradeColour) -> Vec<FruitLook> {
    let patterns = guides.colour.pattern.iter().map(|(pattern, _)| *pattern);
    patterns.filter(|pattern| *pattern != Pattern::Plain).map(|pattern| swatch(plain, pattern)).collect()
}

/// Size of the fruit that colours and patterns are shown on, in millimetres. A choice of the drawing.
const SWATCH: (f64, f64) = (50.0, 54.0);

fn swatch(colour: TradeColour, pattern: Pattern) -> FruitLook {
    let name = if pattern == Pattern::Plain { colour.name() } else { pattern.name() };
    FruitLook {
        length: Millimetres::new(SWATCH.0),
        width: Millimetres::new(SWATCH.1),
        locules: Some(3),
        exterior: Some(ColourSeen::Word(colour)),
        pattern: Some(pattern),
        ..FruitLook::named(name)
    }
}
