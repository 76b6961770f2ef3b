//! `locule list`: every variety with its calls, as plain words and filters ask for it.

use super::Failure;
use super::calls_told::{BriefVariety, brief_variety, row};
use super::reference::{Shape, shape};
use crate::answer::Answer;
use crate::arguments::list::{List, RipensWord, SortWord};
use crate::columns::columns;
use house::folder::House;
use house::list;
use house::list::filter::{Earliness, Filter, Showing, SortedBy, Way, Which};
use jiff::ZonedDateTime;
use record::language::{Units, counted, grouped};
use record::season::Season;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// The list.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct TheList {
    /// The varieties of this page, in order.
    varieties: Vec<BriefVariety>,
    /// How many fit in all.
    fitting: u64,
    /// How many the house has.
    of: u64,
    /// Which page this is, counted from 1.
    page: u32,
    /// How many pages there are.
    pages: u32,
    /// How the plain words were read, piece by piece.
    reading: Vec<PartTold>,
    /// Where nothing fits: what to leave out, and how many would fit then.
    to_drop: Vec<DropTold>,
    /// The file that the list was written into.
    exported: Option<Exported>,
    /// Varieties of the house whose calls rest on older evidence or guides.
    old: u64,
    /// Varieties of the house that were never called.
    not_called: u64,
    /// Guide files that were edited and not accepted.
    edited_guides: Vec<String>,
    /// What to do next in a house that is only beginning.
    next_step: Option<NextStep>,
    #[serde(skip)]
    units: Units,
}

/// The next of the first steps.
#[derive(Debug, Serialize, JsonSchema)]
struct NextStep {
    /// What to do.
    what: String,
    /// The command that does it.
    command: String,
}

/// A piece of the plain words.
#[derive(Debug, Serialize, JsonSchema)]
struct PartTold {
    /// The piece as it was written.
    said: String,
    /// What it was read as.
    meant: String,
    /// The word that a slip of the pen was mended to.
    mended: Option<String>,
}

/// A want that stands in the way.
#[derive(Debug, Serialize, JsonSchema)]
struct DropTold {
    /// The want.
    want: String,
    /// How many varieties fit without it.
    fitting: u64,
}

/// A file that the list was written into.
#[derive(Debug, Serialize, JsonSchema)]
struct Exported {
    /// The file.
    file: String,
    /// How many varieties it holds.
    varieties: u64,
}

pub(crate) fn run(house: &House, typed: List) -> Result<TheList, Failure> {
    let (filter, file) = (filter(&typed)?, typed.export);
    let list = list::list(house, &filter)?;
    let exported = match file {
        Some(file) => Some(Exported {
            varieties: list::export_to(house, &filter, &file, ZonedDateTime::now().date())?,
            file: file.display().to_string(),
        }),
        None => None,
    };
    let part = |part: list::ReadPart| PartTold { said: part.said, meant: part.meant, mended: part.mended };
    Ok(TheList {
        varieties: list.varieties.iter().map(brief_variety).collect(),
        fitting: list.fitting,
        of: list.of,
        page: list.page,
        pages: list.pages,
        reading: list.reading.into_iter().map(part).collect(),
        to_drop: list
            .to_drop
            .into_iter()
            .map(|drop| DropTold { want: drop.want, fitting: drop.fitting })
            .collect(),
        exported,
        old: list.old,
        not_called: list.not_called,
        edited_guides: list.edited_guides,
        next_step: list
            .first_steps
            .and_then(|steps| steps.next())
            .map(|step| NextStep { what: step.what().to_owned(), command: step.command().to_owned() }),
        units: house.settings.units,
    })
}

fn filter(typed: &List) -> Result<Filter, Failure> {
    let which = |only| if only { Which::Only } else { Which::Any };
    let words = typed.words.join(" ");
    Ok(Filter {
        words: (!words.trim().is_empty()).then_some(words),
        habit: typed.habit.clone(),
        class: typed.class.clone(),
        colour: typed.colour.clone(),
        purpose: typed.purpose.clone(),
        season: typed.season.map(season).transpose()?,
        ripens: typed.ripens.map(ripens),
        contested: which(typed.contested),
        contradicted: which(typed.contradicted),
        unmeasured: which(typed.unmeasured),
        find: typed.find.clone(),
        sorted_by: sorted_by(typed.sort),
        way: if typed.reverse { Way::Falling } else { Way::Rising },
        showing: if typed.all { Showing::Whole } else { Showing::Page(typed.page) },
    })
}

fn season(year: i16) -> Result<Season, Failure> {
    Season::new(year).ok_or_else(|| Failure::Typed {
        message: format!("{year} is no season"),
        help: "write a year, such as 2031".to_owned(),
    })
}

fn ripens(typed: RipensWord) -> Earliness {
    match typed {
        RipensWord::Early => Earliness::Early,
        RipensWord::Mid => Earliness::Mid,
        RipensWord::Late => Earliness::Late,
    }
}

fn sorted_by(typed: SortWord) -> SortedBy {
    match typed {
        SortWord::Name => SortedBy::Name,
        SortWord::Weight => SortedBy::Weight,
        SortWord::Class => SortedBy::Class,
        SortWord::Habit => SortedBy::Habit,
        SortWord::Colour => SortedBy::Colour,
        SortWord::Days => SortedBy::Days,
        SortWord::Sureness => SortedBy::Sureness,
        SortWord::Newest => SortedBy::Newest,
    }
}

impl Answer for TheList {
    const SHAPE: &'static str = "list/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        for part in &self.reading {
            let mended = part.mended.as_ref().map(|word| format!(", taken for {word:?}")).unwrap_or_default();
            writeln!(to, "{:?}: {}{mended}", part.said, part.meant)?;
        }
        if let Some(exported) = &self.exported {
            let held = counted(exported.varieties, "variety", "varieties");
            return writeln!(to, "{} written, {held}.", exported.file);
        }
        if 0 < self.fitting {
            let heading = ["Variety", "Habit", "Fruit class", "Colour", "Weight"].map(str::to_owned).to_vec();
            let mut rows = vec![heading];
            rows.extend(self.varieties.iter().map(|variety| row(variety, self.units)));
            columns(to, &rows)?;
        }
        writeln!(
            to,
            "{} of {} shown.",
            grouped(self.varieties.len() as u64),
            counted(self.fitting, "variety", "varieties")
        )?;
        self.tell_what_next(to)
    }
}

impl TheList {
    fn tell_what_next(&self, to: &mut dyn Write) -> io::Result<()> {
        if 1 < self.pages {
            writeln!(to, "Page {} of {}: --page NUMBER, or --all.", self.page, self.pages)?;
        }
        if self.fitting < self.of {
            writeln!(to, "The house has {}.", counted(self.of, "variety", "varieties"))?;
        }
        for drop in &self.to_drop {
            let then = counted(drop.fitting, "variety fits", "varieties fit");
            writeln!(to, "Without {}: {then}.", drop.want)?;
        }
        if 0 < self.old + self.not_called {
            let (old, none) = (self.old, self.not_called);
            writeln!(to, "{old} rest on older evidence or guides, {none} were never called: locule call")?;
        }
        if let Some(step) = &self.next_step {
            writeln!(to, "Next: {}: {}", step.what, step.command)?;
        }
        Ok(())
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<TheList>()]
}
