//! What the page reckons with: what each variety would bear in the house's regions, and what buyers grow tomatoes for.

use jiff::civil::Date;

/// Kitchen days that can be chosen: one, two and so on up to this.
pub const MOST_DAYS: usize = 4;

/// Everything that the page reckons with. Fruit is counted in tens of grams.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Gardens {
    /// Regions that the house sells to.
    pub regions: Vec<Region>,
    /// What buyers grow tomatoes for.
    pub purposes: Vec<Purpose>,
    /// What has to be said wherever jars are spoken of: heading and words.
    pub cautions: Vec<(String, String)>,
}

/// A region, by the station whose weather stands for it.
#[derive(Clone, Debug, PartialEq)]
pub struct Region {
    /// The station.
    pub name: String,
    /// Where its weather comes from, in words.
    pub weather: String,
    /// The day on which plants go out by its calendar, of a common year: the first day of week 0.
    pub plants_out: Date,
    /// Weeks of a sampled year.
    pub weeks: usize,
    /// Of each variety of the list what one plant bears, the weeks of a sampled year lying together; `None` where no picks
    /// tell.
    pub bearings: Vec<Option<Vec<u32>>>,
    /// Wishes with the answers that the science gives, by which a test holds the page to it.
    pub trials: Vec<Trial>,
}

/// A wish with the science's own answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Trial {
    /// One variety of the list, or two.
    pub entries: Vec<usize>,
    /// In all for kitchen days, a week for the table.
    pub tens: u32,
    /// Kitchen days and what each takes; nothing for the table.
    pub days: Option<(usize, u32)>,
    /// First and last week.
    pub weeks: [usize; 2],
    /// In so many of the sampled years.
    pub years: usize,
    /// Plants of each; nothing where they do not do it.
    pub plants: Option<Vec<u64>>,
}

/// What fruit is grown for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Purpose {
    /// In words: `crushed tomatoes, in quarts`.
    pub words: String,
    /// The use, in the guide's word, that a variety must be good for; any variety will do without it.
    pub suits: Option<String>,
    /// How it is used up.
    pub used: Used,
    /// How much can be asked for, from little to much.
    pub amounts: Vec<Amount>,
}

/// How fruit is used up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Used {
    /// Week by week, at the table.
    EachWeek,
    /// On kitchen days, into jars: what has to be said of jars is said.
    InJars,
    /// On kitchen days, dried or frozen.
    WithoutJars,
}

/// An amount that can be asked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Amount {
    /// In words: `14 quarts, 2 canner loads`.
    pub words: String,
    /// Fruit in all, or a week.
    pub tens: u32,
    /// What each of one, two, three .. kitchen days takes.
    pub a_day: [u32; MOST_DAYS],
}
