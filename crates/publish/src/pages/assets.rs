//! Style and script of the pages: the same for every house.

use crate::pages::File;

const FILES: [(&str, &str); 3] = [
    ("style.css", include_str!("assets/style.css")),
    ("script/first.js", include_str!("assets/first.js")),
    ("mark.svg", include_str!("assets/mark.svg")),
];

/// The files as they stand in the folder.
pub(super) fn files() -> Vec<File> {
    let file = |(path, text): (&str, &str)| File { path: path.to_owned(), bytes: text.as_bytes().to_vec() };
    FILES.into_iter().map(file).collect()
}
