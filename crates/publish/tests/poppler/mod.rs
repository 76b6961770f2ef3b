//! A PDF as poppler's tools see it. Where they are not installed, each answer is `None` and says so.

#![expect(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a test stops at its first surprise and says what it left out"
)]
#![allow(dead_code, reason = "each test asks for what it needs of it")]

use std::io::Write;
use std::process::Command;

/// One page: its size in points, and its words with their places.
pub(crate) struct Page {
    pub(crate) width: f64,
    pub(crate) height: f64,
    pub(crate) words: Vec<PlacedWord>,
}

/// One word's place in points from the top left corner.
pub(crate) struct PlacedWord {
    pub(crate) word: String,
    pub(crate) left: f64,
    pub(crate) top: f64,
    pub(crate) right: f64,
    pub(crate) bottom: f64,
}

/// All text, in the order in which it was set.
pub(crate) fn text(pdf: &[u8]) -> Option<String> {
    run("pdftotext", &["-raw"], pdf, &["-"])
}

/// Title, page size and the like.
pub(crate) fn facts(pdf: &[u8]) -> Option<String> {
    run("pdfinfo", &[], pdf, &[])
}

/// Every page's words with their places.
pub(crate) fn words(pdf: &[u8]) -> Option<Vec<Page>> {
    let markup = run("pdftotext", &["-bbox"], pdf, &["-"])?;
    let mut pages = Vec::new();
    for line in markup.lines().map(str::trim) {
        let number =
            |name: &str| attribute(line, name).and_then(|value| value.parse().ok()).unwrap_or(f64::NAN);
        if line.starts_with("<page ") {
            pages.push(Page { width: number("width"), height: number("height"), words: Vec::new() });
        } else if line.starts_with("<word ") {
            let word = line.split('>').nth(1).and_then(|rest| rest.split('<').next()).unwrap_or_default();
            let place = PlacedWord {
                word: unescaped(word),
                left: number("xMin"),
                top: number("yMin"),
                right: number("xMax"),
                bottom: number("yMax"),
            };
            pages.last_mut()?.words.push(place);
        }
    }
    assert!(!pages.is_empty(), "no page in {markup}");
    Some(pages)
}

fn unescaped(word: &str) -> String {
    let entities =
        [("&lt;", "<"), ("&gt;", ">"), ("&quot;", "\""), ("&apos;", "'"), ("&#39;", "'"), ("&amp;", "&")];
    entities.into_iter().fold(word.to_owned(), |word, (entity, letter)| word.replace(entity, letter))
}

fn attribute<'a>(line: &'a str, name: &str) -> Option<&'a str> {
    line.split(&format!("{name}=\"")).nth(1)?.split('"').next()
}

fn run(tool: &str, before: &[&str], pdf: &[u8], after: &[&str]) -> Option<String> {
    let mut file = tempfile::NamedTempFile::new().unwrap();
    file.write_all(pdf).unwrap();
    let Ok(output) = Command::new(tool).args(before).arg(file.path()).args(after).output() else {
        println!("left out: {tool} is not installed");
        return None;
    };
    assert!(output.status.success(), "{tool}: {}", String::from_utf8_lossy(&output.stderr));
    Some(String::from_utf8_lossy(&output.stdout).into_owned())
}
