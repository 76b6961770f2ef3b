//! Where things stand in the folder: the address of every page and picture, and the shelves of the list.
//!
//! Start at [`Places::of`]. Addresses are relative to the top of the folder; a page inside one of its folders
//! goes up first ([`Depth`]).

use crate::pages::address::addresses;
use crate::pages::{WebEntry, WebList};
use drawing::look::FruitLook;
use drawing::portrait::portrait;
use drawing::scale::Scale;
use drawing::svg::Svg;
use record::language::Units;

/// The folders of the folder.
pub(super) const VARIETIES: &str = "varieties";
const CLASSES: &str = "classes";
const HABITS: &str = "habits";
const PICTURES: &str = "pictures";

/// Varieties on one page beyond which a list is told in several. A page of so many is about 300 kB.
/// A choice of the pages.
pub(super) const MOST_ON_A_PAGE: usize = 400;

/// Pixels a millimetre on the bench: a beefsteak of 100 mm with its cut face takes 125. A choice of the pages.
pub(super) const BENCH_SCALE: f64 = 0.6;

/// How deep in the folder a page stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Depth {
    /// At the top.
    Top,
    /// In one of its folders.
    Inner,
}

impl Depth {
    /// An address as it is written on a page of this depth.
    pub(super) fn to(self, address: &str) -> String {
        match self {
            Self::Top => address.to_owned(),
            Self::Inner => format!("../{address}"),
        }
    }
}

/// The varieties of one class, or of none.
#[derive(Clone, Debug)]
pub(super) struct Shelf {
    /// What it is called on a page.
    pub(super) name: String,
    /// Which of the guide's classes; `None` for those that no class takes and those never measured.
    pub(super) class: Option<usize>,
    /// What is said of those without a class.
    pub(super) about: &'static str,
    /// Its varieties, which of the list's.
    pub(super) entries: Vec<usize>,
    address: String,
}

/// The place of everything.
#[derive(Clone, Debug)]
pub(super) struct Places {
    /// Classes from small to large, then what no class takes, then what was never measured; empty ones of the last
    /// two are left out.
    pub(super) shelves: Vec<Shelf>,
    varieties: Vec<String>,
    habits: Vec<String>,
}

/// Varieties that no class takes, and those of which no fruit was measured: name and words.
const BETWEEN: (&str, &str) = ("between classes", "Measured, and on no class's side of the guide's limits.");
const UNMEASURED: (&str, &str) = ("not yet measured", "No fruit of these has been weighed or measured.");

impl Places {
    pub(super) fn of(list: &WebList) -> Self {
        let names = list.classes.iter().map(|class| class.name.as_str()).chain([BETWEEN.0, UNMEASURED.0]);
        let mut shelf_addresses = addresses(names).into_iter();
        let mut shelf = |name: &str, class, about, entries| {
            let address = shelf_addresses.next().unwrap_or_default();
            Shelf { name: name.to_owned(), class, about, entries, address }
        };
        let mut shelves: Vec<Shelf> = Vec::new();
        for (index, class) in list.classes.iter().enumerate() {
            let own = which(list, |entry| entry.class == Some(index));
            shelves.push(shelf(&class.name, Some(index), "", own));
        }
        let between = which(list, |entry| entry.class.is_none() && is_measured(entry));
        let unmeasured = which(list, |entry| entry.class.is_none() && !is_measured(entry));
        for ((name, about), own) in [(BETWEEN, between), (UNMEASURED, unmeasured)] {
            let shelf = shelf(name, None, about, own);
            if !shelf.entries.is_empty() {
                shelves.push(shelf);
            }
        }
        Self {
            shelves,
            varieties: addresses(list.entries.iter().map(|entry| entry.told.name.as_str())),
            habits: addresses(list.habits.iter().map(|habit| habit.name.as_str())),
        }
    }

    /// The file name of a variety, without folder and ending.
    pub(super) fn file_name(&self, entry: usize) -> &str {
        self.varieties.get(entry).map_or("", String::as_str)
    }

    /// The page of a variety.
    pub(super) fn variety(&self, entry: usize) -> String {
        format!("{VARIETIES}/{}.html", self.file_name(entry))
    }

    /// The portrait that all pages show to one scale.
    pub(super) fn small_picture(&self, entry: usize) -> String {
        format!("{PICTURES}/small/{}.svg", self.file_name(entry))
    }

    /// The portrait of the variety's own page.
    pub(super) fn large_picture(&self, entry: usize) -> String {
        format!("{PICTURES}/large/{}.svg", self.file_name(entry))
    }

    /// A page of a shelf, the first being 0.
    pub(super) fn shelf(&self, shelf: &Shelf, page: usize) -> String {
        numbered(&format!("{CLASSES}/{}", shelf.address), page)
    }

    /// A page of a habit, the first being 0.
    pub(super) fn habit(&self, habit: usize, page: usize) -> String {
        numbered(&format!("{HABITS}/{}", self.habits.get(habit).map_or("", String::as_str)), page)
    }

    /// The shelf on which a variety stands.
    pub(super) fn shelf_of(&self, entry: usize) -> Option<&Shelf> {
        self.shelves.iter().find(|shelf| shelf.entries.binary_search(&entry).is_ok())
    }
}

/// An address of several pages: the first has no number.
pub(super) fn numbered(stem: &str, page: usize) -> String {
    match page {
        0 => format!("{stem}.html"),
        later => format!("{stem}-{}.html", later + 1),
    }
}

/// Whether any fruit was measured.
pub(super) fn is_measured(entry: &WebEntry) -> bool {
    !entry.told.fruit_class.verdicts.is_empty()
}

fn which(list: &WebList, holds: impl Fn(&WebEntry) -> bool) -> Vec<usize> {
    let entries = list.entries.iter().enumerate();
    entries.filter(|(_, entry)| holds(entry)).map(|(index, _)| index).collect()
}

/// The portrait of the bench.
pub(super) fn small(look: &FruitLook, units: Units) -> Svg {
    portrait(look, Scale::new(BENCH_SCALE).unwrap_or(Scale::LIFE_SIZE), units)
}
