//! Style and script of the pages: the same for every house.

use crate::pages::File;

/// The pages' own style, after that of all pages of a house.
const OWN_STYLE: [&str; 5] = [
    include_str!("assets/style/frame.css"),
    include_str!("assets/style/bench.css"),
    include_str!("assets/style/search.css"),
    include_str!("assets/style/variety.css"),
    include_str!("assets/style/beside.css"),
];

const FILES: [(&str, &str); 20] = [
    ("mark.svg", stationery::MARK),
    ("script/first.js", include_str!("assets/script/first.js")),
    ("script/tokens.js", include_str!("assets/script/tokens.js")),
    ("script/amounts.js", include_str!("assets/script/amounts.js")),
    ("script/reading.js", include_str!("assets/script/reading.js")),
    ("script/telling.js", include_str!("assets/script/telling.js")),
    ("script/elements.js", include_str!("assets/script/elements.js")),
    ("script/finding.js", include_str!("assets/script/finding.js")),
    ("script/list.js", include_str!("assets/script/list.js")),
    ("script/what.js", include_str!("assets/script/what.js")),
    ("script/class_looks.js", include_str!("assets/script/class_looks.js")),
    ("script/plant.js", include_str!("assets/script/plant.js")),
    ("script/colour.js", include_str!("assets/script/colour.js")),
    ("script/likeness.js", include_str!("assets/script/likeness.js")),
    ("script/what_form.js", include_str!("assets/script/what_form.js")),
    ("script/what_page.js", include_str!("assets/script/what_page.js")),
    ("script/bearing.js", include_str!("assets/script/bearing.js")),
    ("script/gardens_answer.js", include_str!("assets/script/gardens_answer.js")),
    ("script/gardens_page.js", include_str!("assets/script/gardens_page.js")),
    ("script/side_by_side.js", include_str!("assets/script/side_by_side.js")),
];

/// The files as they stand in the folder.
pub(super) fn files() -> Vec<File> {
    let file = |(path, text): (&str, &str)| File { path: path.to_owned(), bytes: text.as_bytes().to_vec() };
    let style = stationery::style(&OWN_STYLE);
    std::iter::once(("style.css", style.as_str())).chain(FILES).map(file).collect()
}
