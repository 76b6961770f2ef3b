//! Entries: what one row gives, typed and resolved against the roster.

use jiff::civil::Date;
use record::growout::{PlantNumber, Plot, PlotLayout};
use record::id::Id;
use record::lot::{Lot, LotNote};
use record::note::Note;
use record::season::Season;
use record::variety::{Claim, Variety};

/// One thing that a row gives. A row may give several.
#[derive(Clone, Debug, PartialEq)]
pub enum Entry {
    /// A variety, or more about a known one.
    Variety(NewVariety),
    /// A plot.
    Plot(NewPlot),
    /// A plant of a plot.
    Plant(NewPlant),
    /// Something seen or measured.
    Note(Note),
    /// A lot of seed.
    Lot(Box<NewLot>),
    /// Something noted of a lot.
    LotNote(LotNoted),
}

/// A lot of seed as a file tells it.
#[derive(Clone, Debug, PartialEq)]
pub struct NewLot {
    /// Its number.
    pub number: String,
    /// The variety.
    pub variety: Id<Variety>,
    /// The season of its harvest.
    pub season: Season,
    /// What else is told of it: where it comes from, seed that came in, how it is kept.
    pub notes: Vec<LotNote>,
}

/// Something noted of a lot, as a file tells it.
#[derive(Clone, Debug, PartialEq)]
pub struct LotNoted {
    /// The lot.
    pub lot: Id<Lot>,
    /// What is noted.
    pub note: LotNote,
}

/// A variety as a file tells it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NewVariety {
    /// The variety of this name or alias, where the house knows it already.
    pub known: Option<Id<Variety>>,
    /// Its name: the house's own for a variety that it knows.
    pub name: String,
    /// Its other names, spellings that differ from the name in dress only among them.
    pub aliases: Vec<String>,
    /// What is claimed of it.
    pub claims: Vec<Claim>,
}

/// A plot as a file tells it.
#[derive(Clone, Debug, PartialEq)]
pub struct NewPlot {
    /// The plot of this grow-out and label, where the house knows it already.
    pub known: Option<Id<Plot>>,
    /// Its grow-out's name; it may be a new grow-out.
    pub grow_out: String,
    /// The season.
    pub season: Season,
    /// The garden; empty where the file names none.
    pub garden: String,
    /// The label on its stake.
    pub label: String,
    /// What was planted there.
    pub variety: Id<Variety>,
    /// The strip of like ground it lies in.
    pub block: Option<u32>,
    /// Row of the bed map.
    pub row: Option<u32>,
    /// Place along the row.
    pub position: Option<u32>,
    /// The day its plants went out.
    pub transplanted: Option<Date>,
    /// How many plants went out.
    pub plant_count: Option<u32>,
    /// What the layout says of it.
    pub layout: PlotLayout,
}

/// A plant as a file tells it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NewPlant {
    /// The plot it stands in.
    pub plot: PlotNamed,
    /// Its number within the plot.
    pub number: PlantNumber,
    /// The day it went out, if not the plot's own.
    pub transplanted: Option<Date>,
    /// The day it was found dead or pulled out.
    pub lost: Option<Date>,
}

/// A plot that a plant stands in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PlotNamed {
    /// A plot that the house knows.
    Known(Id<Plot>),
    /// A plot that an earlier entry of the same file made.
    Earlier {
        /// Its grow-out.
        grow_out: String,
        /// Its label.
        label: String,
    },
}
