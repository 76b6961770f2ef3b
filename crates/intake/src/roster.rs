//! The roster: what the house already knows, against which names, plots and seasons are checked.
//!
//! `house` builds it from the ledger with [`Roster::add_variety`], [`Roster::add_grow_out`] and
//! [`Roster::add_plot`]; grow-outs go in before their plots.

use crate::day::SeasonCalendar;
use crate::suggestion;
use record::growout::{GrowOut, Plot};
use record::id::Id;
use record::lot::Lot;
use record::mass::Grams;
use record::season::Season;
use record::variety::{ClaimSubject, Variety, name_key};
use std::collections::HashMap;

/// What the house already knows.
#[derive(Clone, Debug)]
pub struct Roster {
    calendar: SeasonCalendar,
    varieties: Vec<KnownVariety>,
    ids: HashMap<Id<Variety>, usize>,
    /// Names and aliases as written: most cells are found here without folding them.
    exact: HashMap<String, usize>,
    folded: HashMap<String, Named>,
    grow_outs: Vec<GrowOut>,
    grow_out_names: HashMap<String, usize>,
    plots: Vec<KnownPlot>,
    lots: HashMap<String, Id<Lot>>,
    labels: HashMap<String, Vec<usize>>,
}

#[derive(Clone, Debug)]
pub(crate) struct KnownVariety {
    pub(crate) id: Id<Variety>,
    pub(crate) name: String,
    pub(crate) typical: Option<Typical>,
}

/// What a fruit of a variety usually weighs, and how many times more or less leaves no doubt yet.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Typical {
    pub(crate) weight: Grams,
    pub(crate) factor: f64,
}

/// How many times heavier or lighter than its variety's fruit a fruit may be: four sd of log weight, of
/// fruit within plant (0.33), plant within accession (0.24) and site (0.27) together (shared facts,
/// identity, section 5).
const MEASURED_FACTOR: f64 = 7.0;
/// The same where only a class is claimed. A claim is no evidence and may be wrong by several classes, so
/// only what leaves it far behind is doubted: 50 times is from currant to plum. Common practice, no source.
const CLAIMED_FACTOR: f64 = 50.0;

/// A plot with its grow-out.
#[derive(Clone, Debug)]
pub(crate) struct KnownPlot {
    pub(crate) plot: Plot,
    pub(crate) season: Season,
}

/// The varieties that a folded name belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Named {
    One(usize),
    Several,
}

/// What came of looking a variety up by name.
#[derive(Clone, Copy, Debug)]
pub(crate) enum VarietyFound<'a> {
    Known(&'a KnownVariety),
    Unknown,
    /// The name or alias belongs to several varieties.
    Several,
}

impl Default for Roster {
    fn default() -> Self {
        Self::new()
    }
}

impl Roster {
    /// A roster that knows nothing yet; seasons run with the calendar year.
    #[must_use]
    pub fn new() -> Self {
        Self {
            calendar: SeasonCalendar::CALENDAR_YEAR,
            varieties: Vec::new(),
            ids: HashMap::new(),
            exact: HashMap::new(),
            folded: HashMap::new(),
            grow_outs: Vec::new(),
            grow_out_names: HashMap::new(),
            plots: Vec::new(),
            lots: HashMap::new(),
            labels: HashMap::new(),
        }
    }

    /// Seasons of this house begin in this month (1 to 12) and are named by the year in which they
    /// end: 7 for a house south of the equator. Other numbers are read as 1.
    #[must_use]
    pub fn seasons_begin_in(mut self, month: i8) -> Self {
        self.calendar = SeasonCalendar::beginning_in(month);
        self
    }

    /// Adds a variety with its other names; `typical_weight` is that of its fruit by earlier calls or
    /// samples. Without it, a claimed fruit class gives a rough one.
    pub fn add_variety(&mut self, variety: &Variety, typical_weight: Option<Grams>) {
        let at = self.varieties.len();
        self.ids.insert(variety.id, at);
        self.varieties.push(KnownVariety {
            id: variety.id,
            name: variety.name.clone(),
            typical: typical(variety, typical_weight),
        });
        for name in std::iter::once(&variety.name).chain(&variety.aliases) {
            self.name_variety(name, at);
        }
    }

    fn name_variety(&mut self, name: &str, at: usize) {
        let folded = name_key(name);
        let named = self.folded.entry(folded.clone()).or_insert(Named::One(at));
        if *named == Named::One(at) {
            self.exact.insert(name.to_owned(), at);
        } else {
            *named = Named::Several;
            self.exact.retain(|known, _| name_key(known) != folded);
        }
    }

    /// Adds a grow-out.
    pub fn add_grow_out(&mut self, grow_out: &GrowOut) {
        self.grow_out_names.insert(name_key(&grow_out.name), self.grow_outs.len());
        self.grow_outs.push(grow_out.clone());
    }

    /// Adds a plot. Its grow-out must have been added before; a plot without one is left out.
    pub fn add_plot(&mut self, plot: &Plot) {
        let grow_out = self.grow_outs.iter().rev().find(|grow_out| grow_out.id == plot.grow_out);
        let Some(season) = grow_out.map(|grow_out| grow_out.season) else { return };
        self.labels.entry(folded_label(&plot.label)).or_default().push(self.plots.len());
        self.plots.push(KnownPlot { plot: plot.clone(), season });
    }

    /// Adds a lot of seed.
    pub fn add_lot(&mut self, number: &str, lot: Id<Lot>) {
        self.lots.insert(folded_label(number), lot);
    }

    /// Looks a lot up by its number, in any case and with or without blanks.
    pub(crate) fn lot(&self, number: &str) -> Option<Id<Lot>> {
        self.lots.get(&folded_label(number)).copied()
    }

    pub(crate) fn calendar(&self) -> SeasonCalendar {
        self.calendar
    }

    /// Looks a variety up by name or alias. Case, blanks, hyphens, quotes and full stops do not matter;
    /// letters do.
    pub(crate) fn variety(&self, name: &str) -> VarietyFound<'_> {
        // `exact` holds only names whose folded form belongs to one variety.
        let exact = self.exact.get(name).map(|at| Named::One(*at));
        match exact.or_else(|| self.folded.get(&name_key(name)).copied()) {
            Some(Named::Several) => VarietyFound::Several,
            Some(Named::One(at)) => self.varieties.get(at).map_or(VarietyFound::Unknown, VarietyFound::Known),
            None => VarietyFound::Unknown,
        }
    }

    pub(crate) fn variety_with(&self, id: Id<Variety>) -> Option<&KnownVariety> {
        self.varieties.get(*self.ids.get(&id)?)
    }

    /// The known name nearest to an unknown one, if one alone is near enough.
    #[must_use]
    pub fn nearest(&self, name: &str) -> Option<suggestion::Suggestion> {
        let names =
            self.exact.iter().filter_map(|(known, at)| Some((known.as_str(), self.varieties.get(*at)?.id)));
        suggestion::nearest(name, names)
    }

    /// Looks a grow-out up by name.
    pub(crate) fn grow_out(&self, name: &str) -> Option<&GrowOut> {
        self.grow_outs.get(*self.grow_out_names.get(&name_key(name))?)
    }

    /// The plots with a label, of every grow-out.
    pub(crate) fn plots_labelled(&self, label: &str) -> impl Iterator<Item = &KnownPlot> {
        let found = with_folded_label(label, |folded| self.labels.get(folded));
        found.into_iter().flatten().filter_map(|at| self.plots.get(*at))
    }
}

/// Looks a label up folded, without making a text of it where it is short and plain.
fn with_folded_label<T>(label: &str, look_up: impl FnOnce(&str) -> T) -> T {
    let mut folded = [0_u8; 32];
    let plain = label.bytes().all(|byte| byte.is_ascii_graphic());
    let Some(short) = folded.get_mut(..label.len()).filter(|_| plain) else {
        return look_up(&folded_label(label));
    };
    short.copy_from_slice(label.as_bytes());
    short.make_ascii_lowercase();
    look_up(std::str::from_utf8(short).unwrap_or_default())
}

/// A plot's label folded: small letters without blanks. Hyphens stay, since `1-1` and `11` differ.
pub(crate) fn folded_label(label: &str) -> String {
    label.chars().filter(|sign| !sign.is_whitespace()).flat_map(char::to_lowercase).collect()
}

/// Rough weights in grams of the classes that varieties are claimed to be of: the middle of each class
/// of the shipped fruit guide, on a logarithmic scale. Common practice, no source.
const CLASS_WEIGHTS: [(&str, f64); 10] = [
    ("currant", 1.0),
    ("cherry", 15.0),
    ("grape", 35.0),
    ("saladette", 60.0),
    ("cocktail", 40.0),
    ("plum", 60.0),
    ("paste", 110.0),
    ("slicer", 180.0),
    ("beefsteak", 400.0),
    ("pear", 18.0),
];

fn typical(variety: &Variety, measured: Option<Grams>) -> Option<Typical> {
    let measured = measured.map(|weight| Typical { weight, factor: MEASURED_FACTOR });
    measured.or_else(|| Some(Typical { weight: claimed_weight(variety)?, factor: CLAIMED_FACTOR }))
}

/// The rough weight that a claimed class stands for.
fn claimed_weight(variety: &Variety) -> Option<Grams> {
    let class = variety.claims.iter().find(|claim| claim.about == ClaimSubject::FruitClass)?;
    let words = class.words.to_lowercase();
    let named = |(class, _): &&(&str, f64)| {
        words.split(|sign: char| !sign.is_alphabetic()).any(|word| word == *class)
    };
    CLASS_WEIGHTS.iter().find(|line| named(line)).and_then(|(_, grams)| Grams::new(*grams))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_fold_no_further_than_dress() {
        assert_eq!(name_key(" Amber-Bell  No. 2 "), "amberbellno2");
        assert_eq!(name_key("Aunt Hedda’s"), name_key("Aunt Heddas"));
        assert_eq!(name_key("Cre\u{300}me"), name_key("Crème"));
        assert_ne!(name_key("Ambre Bell"), name_key("Amber Bell"));
        assert_eq!(folded_label(" a - 12"), "a-12");
    }
}
