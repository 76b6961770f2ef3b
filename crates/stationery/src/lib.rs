//! The house's stationery: the paper, the ink and the mark that its workbench and its web pages share.
//!
//! Text alone. A page takes [`style`] with what is its own, and [`MARK`] as its icon.

/// The house's mark: an SVG document.
pub const MARK: &str = include_str!("../assets/mark.svg");

/// What all pages share, in the order that its parts need each other.
const SHARED: [&str; 7] = [
    include_str!("../assets/paper.css"),
    include_str!("../assets/page.css"),
    include_str!("../assets/ways.css"),
    include_str!("../assets/forms.css"),
    include_str!("../assets/tables.css"),
    include_str!("../assets/drawings.css"),
    include_str!("../assets/variety.css"),
];

/// The last word is that of the printer.
const PRINT: &str = include_str!("../assets/print.css");

/// A whole style sheet: what all pages share, then what a set of pages has of its own, then print.
#[must_use]
pub fn style(own: &[&str]) -> String {
    [&SHARED[..], own, &[PRINT]].concat().join("\n")
}
