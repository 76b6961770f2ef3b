//! What can be printed, and on which papers.

use house::chart;
use house::fault::HouseFault;
use house::folder::House;
use house::print;
use house::progress::Unwatched;
use house::proof;
use jiff::civil::Date;
use record::language::Units;

/// Something that is printed.
#[derive(Clone, Copy)]
pub(super) struct Kind {
    /// Its word in forms and addresses.
    pub(super) word: &'static str,
    /// How the names of its files begin.
    pub(super) stem: &'static str,
    /// The papers it is printed on.
    pub(super) papers: &'static [Paper],
}

/// One paper of one kind.
#[derive(Clone, Copy)]
pub(super) struct Paper {
    /// Its word in forms.
    pub(super) word: &'static str,
    /// Its name.
    pub(super) words: &'static str,
    /// The units of a house whose usual paper it is.
    pub(super) usual: Option<Units>,
    /// Prints on it.
    pub(super) print: fn(&House, Date) -> Result<(), HouseFault>,
}

impl Kind {
    /// Its papers in words: `A4 or US Letter`.
    pub(super) fn choices(self) -> String {
        self.papers.iter().map(|paper| paper.words).collect::<Vec<_>>().join(" or ")
    }
}

const fn paper(
    word: &'static str,
    words: &'static str,
    usual: Option<Units>,
    print: fn(&House, Date) -> Result<(), HouseFault>,
) -> Paper {
    Paper { word, words, usual, print }
}

pub(super) const PROOF: Kind = Kind {
    word: "proof",
    stem: "proof",
    papers: &[
        paper("a4", "A4", Some(Units::METRIC), |house, today| proof_on(house, proof::Paper::A4, today)),
        paper("letter", "US Letter", Some(Units::US), |house, today| {
            proof_on(house, proof::Paper::UsLetter, today)
        }),
    ],
};

pub(super) const CATALOGUE: Kind = Kind {
    word: "catalogue",
    stem: "catalogue",
    papers: &[
        paper("a4", "A4", Some(Units::METRIC), |house, today| {
            catalogue_on(house, print::Paper::A4, today, "catalogue-a4.pdf")
        }),
        paper("letter", "US Letter", Some(Units::US), |house, today| {
            catalogue_on(house, print::Paper::UsLetter, today, "catalogue-letter.pdf")
        }),
    ],
};

pub(super) const CHART: Kind = Kind {
    word: "chart",
    stem: "types",
    papers: &[
        paper("a3", "A3 poster", Some(Units::METRIC), |house, today| {
            chart_on(house, chart::Sheet::A3, today)
        }),
        paper("tabloid", "Tabloid poster", Some(Units::US), |house, today| {
            chart_on(house, chart::Sheet::Tabloid, today)
        }),
        paper("a4", "A4 booklet", None, |house, today| chart_on(house, chart::Sheet::A4, today)),
        paper("letter", "US Letter booklet", None, |house, today| {
            chart_on(house, chart::Sheet::UsLetter, today)
        }),
    ],
};

/// The folder of web pages, which needs no paper.
pub(super) const PAGES: Kind = Kind { word: "pages", stem: "pages", papers: &[] };

fn proof_on(house: &House, paper: proof::Paper, today: Date) -> Result<(), HouseFault> {
    proof::print(house, paper, today, &proof::file(house), &Unwatched).map(|_| ())
}

fn catalogue_on(house: &House, paper: print::Paper, today: Date, name: &str) -> Result<(), HouseFault> {
    print::catalogue(house, paper, today, &house.printed().join(name), &Unwatched).map(|_| ())
}

fn chart_on(house: &House, sheet: chart::Sheet, today: Date) -> Result<(), HouseFault> {
    chart::print(house, sheet, today, &chart::file(house, sheet), &Unwatched).map(|_| ())
}
