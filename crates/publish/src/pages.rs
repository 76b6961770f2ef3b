//! The list as a folder of web pages: the bench, a page a variety, a class and a habit, an index, and how we know.
//!
//! Fill a [`WebList`], make a [`Folder`] of it, and write what [`Folder::common`] and [`Folder::variety`] hand
//! out. The pages work from a `file:` address as well as from any web server: they ask nothing of the network, keep
//! no cookies, and say everything without script; script adds searching, sorting and reckoning. Text is never read as
//! markup, whatever it holds. Files come one variety at a time, so that ten thousand need no more room than ten.

mod address;
mod assets;
mod bench;
mod beside;
mod feed;
pub mod finding;
mod frame;
pub mod gardens;
mod kind;
mod know;
mod linked;
mod list;
mod names;
mod places;
mod plain;
mod rows;
mod site;
mod variety;
pub mod what;

pub use site::SiteAddress;

use crate::catalogue::Entry;
use crate::tables::delimited::CsvFault;
use drawing::look::FruitLook;
use drawing::strip::Strip;
use finding::SearchWords;
use gardens::told::Gardens;
use jiff::civil::Date;
use places::Places;
use record::language::Units;
use record::season::Season;
use record::share::Share;
use what::rule::WhatRule;

/// Everything that the web pages say.
#[derive(Clone, Debug)]
pub struct WebList {
    /// The house's name.
    pub house: String,
    /// The day the pages are made. The same input and the same day give the same bytes.
    pub made_on: Date,
    /// The units that come first.
    pub units: Units,
    /// The first and last season of the evidence; `None` where there is none yet.
    pub seasons: Option<(Season, Season)>,
    /// The guides that the calls rest on, as their owner names them.
    pub guides: Vec<String>,
    /// Where the pages will stand on the web, if the house has said so: for the site map.
    pub site: Option<SiteAddress>,
    /// The guide's fruit classes, small to large.
    pub classes: Vec<Kind>,
    /// Habits, from the smallest plant to the largest.
    pub habits: Vec<Kind>,
    /// The varieties, by name.
    pub entries: Vec<WebEntry>,
    /// The words that wishes are read by.
    pub search: SearchWords,
}

/// What stands behind the whole list, and is known once all its fruit was read.
#[derive(Clone, Debug, Default)]
pub struct Behind {
    /// The rule that calls an unknown tomato.
    pub rule: WhatRule,
    /// The seasons that each variety's evidence is from, in the order of [`WebList::entries`].
    pub seasons: Vec<Vec<Season>>,
    /// What the varieties would bear in the regions that the house sells to.
    pub gardens: Gardens,
}

/// A class or a habit, as the guide tells it.
#[derive(Clone, Debug, Default)]
pub struct Kind {
    /// Its name: `plum`, `semi-determinate`.
    pub name: String,
    /// What it is, in a sentence; empty where the guide says nothing.
    pub what: String,
    /// What it is good for.
    pub good_for: String,
    /// How it is mistaken for its neighbours.
    pub mistaken_for: String,
    /// How juicy, gelly and seedy it is.
    pub flesh: String,
    /// The guide's limits, one way into the class a line.
    pub limits: Vec<String>,
}

/// One variety.
#[derive(Clone, Debug)]
pub struct WebEntry {
    /// What the catalogue says of it; its printed portrait is not used.
    pub told: Entry,
    /// How its portrait looks; `None` where too little is measured to draw one.
    pub look: Option<FruitLook>,
    /// Which of [`WebList::classes`] it is called.
    pub class: Option<usize>,
    /// Which of [`WebList::habits`] it is called.
    pub habit: Option<usize>,
    /// What its class and habit are good for, in the guide's word.
    pub uses: Vec<String>,
    /// Shape marks that its fruit probably carries, each with its chance.
    pub marks: Vec<(String, Share)>,
    /// How its colour is laid out, where that was called.
    pub pattern: Option<String>,
    /// What to take instead where it is sold out.
    pub stand_ins: Vec<StandIn>,
}

/// A variety that may stand in for another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StandIn {
    /// Which of [`WebList::entries`].
    pub entry: usize,
    /// What is alike and what is not, in words.
    pub why: String,
}

/// A file of the folder.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct File {
    /// Its path inside the folder, with `/` between the parts: letters, figures, hyphens and full stops only.
    pub path: String,
    /// What it holds.
    pub bytes: Vec<u8>,
}

/// Why the pages could not be made: a fault in this program and not in what was asked.
#[derive(Debug, thiserror::Error)]
pub enum PagesFault {
    /// The table could not be written.
    #[error("cannot write list.csv: {0}")]
    Table(#[from] CsvFault),
    /// The data could not be written.
    #[error("cannot write the data of the pages: {0}")]
    Data(#[from] serde_json::Error),
}

/// The address of every variety's page below the top of the folder, by the names of the whole list in its order.
#[must_use]
pub fn variety_addresses<'a>(names: impl Iterator<Item = &'a str>) -> Vec<String> {
    let addresses = address::addresses(names).into_iter();
    addresses.map(|name| format!("{}/{name}.html", places::VARIETIES)).collect()
}

/// The pages of one list, each variety with an address of its own.
#[derive(Debug)]
pub struct Folder {
    list: WebList,
    places: Places,
}

impl Folder {
    /// Gives every variety, class and habit its place.
    #[must_use]
    pub fn of(list: WebList) -> Self {
        let list = plain::cleaned(list);
        let places = Places::of(&list);
        Self { list, places }
    }

    /// The files that are there once: the list, the index, the classes and habits, style, script and data.
    ///
    /// # Errors
    /// [`PagesFault`], which is a fault in this program.
    pub fn common(&self, behind: &Behind) -> Result<Vec<File>, PagesFault> {
        let mut files = assets::files();
        files.extend(list::pages(self));
        files.extend(names::pages(self));
        files.extend(kind::pages(self));
        files.push(know::page(self));
        files.extend(what::files(self, &behind.rule)?);
        files.extend(gardens::files(self, &behind.gardens)?);
        files.push(beside::page(self));
        files.extend(finding::files(self, &behind.seasons)?);
        files.extend(feed::files(self)?);
        files.extend(site::map(self));
        Ok(files)
    }

    /// The files of one variety: its page and its portraits. `strips` are its fruits against the guide's bands.
    ///
    /// # Errors
    /// [`PagesFault`], which is a fault in this program.
    pub fn variety(&self, index: usize, strips: &[Strip]) -> Result<Vec<File>, PagesFault> {
        let Some(entry) = self.list.entries.get(index) else { return Ok(Vec::new()) };
        let (page, large) = variety::page(self, index, entry, strips)?;
        let small = entry.look.as_ref().map(|look| places::small(look, self.list.units));
        let small = small.map(|svg| picture(self.places.small_picture(index), &svg));
        let large = large.map(|svg| picture(self.places.large_picture(index), &svg));
        Ok(std::iter::once(page).chain(small).chain(large).collect())
    }

    /// How many varieties there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.list.entries.len()
    }

    /// Whether there are none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.list.entries.is_empty()
    }
}

fn picture(path: String, svg: &drawing::svg::Svg) -> File {
    File { path, bytes: svg.markup().as_bytes().to_vec() }
}
