//! docs/headings.md tells every heading and word that is understood. This test writes the page from the
//! tables and holds the file to it; run it with `LOCULE_WRITE=1` to write the file anew.

#![allow(clippy::unwrap_used, reason = "what a test works with may stop it")]

use intake::column::ColumnUse;
use intake::kind::Kind;
use intake::synonyms::{HEADINGS, QUARANTINE_COLUMNS};
use intake::unit::SPELLINGS;
use intake::words::{self, Words};
use std::fmt::Write;

const HEAD: &str = "# Headings and words that are understood

This page is written from the program's own tables and a test keeps it true (`crates/intake/tests/headings_page.rs`).

A heading is read in any case, with any punctuation (`Fruit Wt.`, `fruit_wt`, `FRUIT WT`), in British or American
spelling (`colour`, `color`), with or without small words such as *fruit*, *average*, *mean*, *of*, *per*. A unit may
stand anywhere in it: `wt (oz)`, `Weight, g`, `length_mm`, `Len. [in]`. Of two columns that mean the same, the left one is
read and the other is named as passed over. A heading that is not on this page can be read once you have said what it
holds; the answer can be kept for every file with the same headings.

";

fn page() -> String {
    let mut page = HEAD.to_owned();
    for kind in Kind::ALL {
        kind_table(&mut page, kind);
    }
    units(&mut page);
    word_tables(&mut page);
    page
}

fn kind_table(page: &mut String, kind: Kind) {
    writeln!(page, "## A table of {}\n\n| holds | headings |\n|---|---|", kind.name()).unwrap();
    for (reads, name) in ColumnUse::all() {
        let lines = HEADINGS.iter().filter(|line| line.reads == reads && line.kinds.contains(&kind));
        let headings: Vec<&str> = lines.flat_map(|line| line.headings()).collect();
        let name = if reads == ColumnUse::Ignored { "known and passed over" } else { name };
        if !headings.is_empty() {
            writeln!(page, "| {name} | {} |", headings.join(", ")).unwrap();
        }
    }
    page.push('\n');
}

fn units(page: &mut String) {
    page.push_str("## Units\n\n| unit | spellings |\n|---|---|\n");
    for (unit, spellings) in SPELLINGS {
        writeln!(page, "| {} | {} |", unit.symbol(), spellings.join(", ")).unwrap();
    }
    page.push_str("\n`gr` is not read: it is the sign of the grain, and some write it for the gram.\n\n");
}

fn word_tables(page: &mut String) {
    page.push_str(
        "## Words in cells\n\nThe first word of each line is the one that the program itself uses.\n\n",
    );
    word_table(page, "Colour", words::COLOURS);
    page.push_str("`purple` is not read: old catalogues mean pink by it and newer ones black.\n\n");
    word_table(page, "Skin", words::SKINS);
    word_table(page, "Pattern", words::PATTERNS);
    word_table(page, "Part of the fruit", words::PARTS);
    word_table(page, "Cracking and catfacing", words::SEVERITIES);
    page.push_str("Figures above 0 are not read: houses score to 3, to 5 and to 9.\n\n");
    word_table(page, "What a plot is there for", words::PLOT_ROLES);
    word_table(page, "Cause of culling", words::CULL_CAUSES);
    word_table(page, "Stage", words::STAGES);
    word_table(page, "Yes and no", words::YES_OR_NO);
    writeln!(page, "### Left empty\n\n{}\n", words::MISSING.join("  ")).unwrap();
    writeln!(page, "## Columns of our own export\n\nThree or more of these side by side are known as the quarantine's own and passed over: {}.", QUARANTINE_COLUMNS.join(", ")).unwrap();
}

fn word_table<T>(page: &mut String, title: &str, table: &Words<T>) {
    writeln!(page, "### {title}\n").unwrap();
    for (_, spellings) in table {
        writeln!(page, "- {}", spellings.join(", ")).unwrap();
    }
    page.push('\n');
}

#[test]
fn the_page_tells_the_tables() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../docs/headings.md");
    if std::env::var_os("LOCULE_WRITE").is_some() {
        std::fs::write(path, page()).unwrap();
    }
    let written = std::fs::read_to_string(path).unwrap_or_default();
    assert!(written == page(), "docs/headings.md is behind the tables: run this test with LOCULE_WRITE=1");
}
