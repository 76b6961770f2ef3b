//! The pen: names as keepers spell them, and slips remembered as they are made.
//!
//! Start at [`Pen`].

use crate::chance::{happens, one_of, stream};
use crate::class::FruitClass;
use crate::faults::{Fate, Slip, Slips, Spot};
use crate::house::{House, PlotNotes};
use crate::paper::{Cell, Page, delimited};
use crate::truth::TrueVariety;
use rand_chacha::ChaCha8Rng;

/// Spellings that this house's keepers fall into; none is an alias on the list.
const MISSPELT: [(&str, &str); 12] = [
    ("Harbour Master", "Harbor Maister"),
    ("Quarry Dusk", "Quary Dusk"),
    ("Glover's Stitch", "Glover Stich"),
    ("Chimney Corner", "Chimmney Corner"),
    ("Marl", "Marle"),
    ("Inkle", "Inkel"),
    ("Turnpike Gold", "Turnpick Gold"),
    ("Sluice Gate", "Sluise Gate"),
    ("Granary Step", "Grannary Step"),
    ("Weir Street", "Wier Street"),
    ("Drover's Halt", "Drovers Hault"),
    ("Bowling Crease", "Bowling Creese"),
];

/// Chance that a row of such a variety is misspelt, that a row uses an alias, and that the pen is
/// careless with capitals or spaces.
const MISSPELLS: f64 = 0.06;
const USES_ALIAS: f64 = 0.06;
const IS_CARELESS: f64 = 0.03;

/// One keeper writing one file.
#[derive(Debug)]
pub struct Pen<'a> {
    house: &'a House,
    slips: &'a mut Slips,
    draws: ChaCha8Rng,
    file: String,
    curly: bool,
}

impl<'a> Pen<'a> {
    /// Takes up the pen for one file.
    pub fn new(house: &'a House, slips: &'a mut Slips, file: &str) -> Self {
        let draws = stream(crate::chance::DEMO_SEED, &["pen", file]);
        Self { house, slips, draws, file: file.to_owned(), curly: false }
    }

    /// Draws as for another file, so that two versions of one file begin alike.
    #[must_use]
    pub fn as_for(self, name: &str) -> Self {
        Self { draws: stream(crate::chance::DEMO_SEED, &["pen", name]), ..self }
    }

    /// A machine that turns apostrophes into curly ones.
    #[must_use]
    pub fn with_curly_apostrophes(self) -> Self {
        Self { curly: true, ..self }
    }

    /// The house written about.
    #[must_use]
    pub fn house(&self) -> &'a House {
        self.house
    }

    /// Chance for this file.
    pub fn draws(&mut self) -> &mut ChaCha8Rng {
        &mut self.draws
    }

    /// True the first `times` that it is asked about `what` in this file.
    pub fn is_due(&mut self, what: &str, times: u32) -> bool {
        let in_file = format!("{}: {what}", self.file);
        self.slips.is_due(&in_file, times)
    }

    /// True where the keeper of this file is one to make this kind of slip: about half are.
    #[must_use]
    pub fn is_prone_to(&self, kind: &str) -> bool {
        happens(&mut self.habits(kind), 0.55)
    }

    /// The one of these words that this keeper would write.
    #[must_use]
    pub fn usual_one_of(&self, words: &[&'static str]) -> &'static str {
        one_of(&mut self.habits("words"), words).copied().unwrap_or_default()
    }

    /// A keeper's habits are the same in every version of a file.
    fn habits(&self, kind: &str) -> ChaCha8Rng {
        let name = self.file.rsplit('/').next().unwrap_or_default();
        stream(crate::chance::DEMO_SEED, &["habits", name, kind])
    }

    /// The next row of a page, as a spot.
    #[must_use]
    pub fn spot(&self, page: &Page) -> Spot {
        Spot { file: self.file.clone(), sheet: page.name.clone(), row: page.next_row() }
    }

    /// Remembers a slip in the next row of a page.
    pub fn slip(&mut self, page: &Page, column: &str, written: &str, meant: Meant) {
        let Meant { fate, reason, truth } = meant;
        let spot = self.spot(page);
        self.slips.note(Slip {
            spot,
            column: column.to_owned(),
            written: written.to_owned(),
            fate,
            reason,
            truth,
        });
    }

    /// Remembers a slip that runs through a whole column.
    pub fn slip_of_column(&mut self, page: &Page, column: &str, meant: Meant) {
        let Meant { fate, reason, truth } = meant;
        let spot = Spot { row: 0, ..self.spot(page) };
        let column = column.to_owned();
        self.slips.note(Slip { spot, column, written: String::new(), fate, reason, truth });
    }

    /// Writes the name on a plot's label, now and then by an alias, misspelt or carelessly.
    pub fn name(&mut self, page: &Page, column: &str, notes: &PlotNotes) -> String {
        let Some(variety) = notes.plot.label_of(&self.house.truth) else { return String::new() };
        if notes.plot.is_mislabelled() {
            let truth = self.house.truth.get(notes.plot.stand().0).map(|truly| truly.entry.name.clone());
            let meant = Meant::misleading("mislabelled plot", truth.unwrap_or_default());
            self.slip(page, column, &variety.entry.name, meant);
        }
        self.spell(page, column, variety)
    }

    /// The name on a plot's label as the list spells it.
    #[must_use]
    pub fn plain_name(&self, notes: &PlotNotes) -> String {
        notes.plot.label_of(&self.house.truth).map(|variety| variety.entry.name.clone()).unwrap_or_default()
    }

    /// The class of the variety on a plot's label.
    #[must_use]
    pub fn class(&self, notes: &PlotNotes) -> Option<FruitClass> {
        notes.plot.label_of(&self.house.truth).map(|variety| variety.entry.class)
    }

    /// Adds the headings again, as a new sheet of a pad begins.
    pub fn headings_again(&mut self, page: &mut Page, headings: &[&str]) {
        self.slip(
            page,
            "",
            headings.first().copied().unwrap_or_default(),
            Meant::passed_over("repeated headings"),
        );
        page.words(headings);
    }

    /// Adds a row that sums up others.
    pub fn total(&mut self, page: &mut Page, cells: Vec<Cell>) {
        let first = cells.iter().map(delimited::shown).find(|cell| !cell.is_empty());
        self.slip(page, "", &first.unwrap_or_default(), Meant::passed_over("total row"));
        page.rows.push(cells);
    }

    fn spell(&mut self, page: &Page, column: &str, variety: &TrueVariety) -> String {
        let name = variety.entry.name.as_str();
        let misspelt = MISSPELT.iter().find(|(right, _)| *right == name).map(|(_, wrong)| *wrong);
        if let Some(wrong) = misspelt.filter(|_| happens(&mut self.draws, MISSPELLS)) {
            self.slip(page, column, wrong, Meant::quarantined("unknown variety", name));
            return wrong.to_owned();
        }
        let alias = one_of(&mut self.draws, &variety.entry.aliases).cloned();
        let plain = alias.filter(|_| happens(&mut self.draws, USES_ALIAS)).unwrap_or_else(|| name.to_owned());
        self.carelessly(plain)
    }

    fn carelessly(&mut self, name: String) -> String {
        let name = if self.curly { name.replace('\'', "\u{2019}") } else { name };
        if !happens(&mut self.draws, IS_CARELESS) {
            return name;
        }
        match one_of(&mut self.draws, &[0, 1, 2]) {
            Some(0) => name.to_uppercase(),
            Some(1) => name.to_lowercase(),
            _ => format!("{name} "),
        }
    }

    /// What is written for a thing that was not measured.
    pub fn not_measured(&mut self) -> &'static str {
        one_of(&mut self.draws, &["", "", "", "", "", "", "?", "n/a", "-"]).copied().unwrap_or_default()
    }

    /// Writes a measure, or one of the marks for none.
    pub fn measure<T>(&mut self, measured: Option<T>, hand: impl Fn(T) -> String) -> String {
        measured.map_or_else(|| self.not_measured().to_owned(), hand)
    }
}

/// What is true behind a slip and what should become of it.
#[derive(Clone, Debug)]
pub struct Meant {
    fate: Fate,
    reason: &'static str,
    truth: String,
}

impl Meant {
    /// The row should go to the quarantine.
    #[must_use]
    pub fn quarantined(reason: &'static str, truth: &str) -> Self {
        Self { fate: Fate::Quarantined, reason, truth: truth.to_owned() }
    }

    /// The row should be kept and doubted.
    #[must_use]
    pub fn doubted(reason: &'static str, truth: &str) -> Self {
        Self { fate: Fate::Doubted, reason, truth: truth.to_owned() }
    }

    /// The row should be passed over.
    #[must_use]
    pub fn passed_over(reason: &'static str) -> Self {
        Self { fate: Fate::PassedOver, reason, truth: String::new() }
    }

    /// The row reads well and misleads.
    #[must_use]
    pub fn misleading(reason: &'static str, truth: String) -> Self {
        Self { fate: Fate::Misleading, reason, truth }
    }
}
