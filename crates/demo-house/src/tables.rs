//! The tidy tables beside the raw files: the truth, the plots as they truly stood, the slips made on
//! purpose, and the README.
//!
//! For the tests that score intake and calls. Start at [`varieties`].

use crate::faults::{Fate, Slip, Slips};
use crate::garden::Plot;
use crate::house::House;
use crate::hue;
use crate::paper::delimited;
use crate::paper::{Cell, Letters, Page, Sheaf};
use crate::ripening;
use crate::roll::{Build, Mark, Missing};
use crate::trial::TrialPlot;
use crate::truth::TrueVariety;
use record::colour::Pattern;

/// Columns of `truth.csv`.
const TRUTH_COLUMNS: [&str; 28] = [
    "variety",
    "habit",
    "build",
    "class",
    "edge",
    "mark",
    "colour",
    "flesh",
    "skin",
    "pattern",
    "weight_g",
    "length_mm",
    "width_mm",
    "length_over_width",
    "neck_over_width",
    "lobes",
    "locules",
    "soluble_solids_percent",
    "dry_matter_percent",
    "trusses_on_main_stem",
    "leaves_between_trusses",
    "height_mm",
    "days_to_ripe",
    "spread_days",
    "fruit_per_plant",
    "missing",
    "false_claim",
    "plots",
];

/// `truth.csv`: a line a variety.
#[must_use]
pub fn varieties(house: &House) -> Vec<u8> {
    let lines = house.truth.iter().map(|variety| truth_line(house, variety));
    csv(&TRUTH_COLUMNS, lines.collect())
}

/// `truth-trial.csv`: a line a plot of the trials, with what a plant bears on middling ground and what its own ground
/// adds on the log scale.
#[must_use]
pub fn trial(house: &House) -> Vec<u8> {
    let line = |own: &TrialPlot| -> Option<Vec<Cell>> {
        let variety = own.plot.label_of(&house.truth)?;
        let kilograms = ripening::expected_grams(variety, &own.plot) / 1000.0;
        Some(vec![
            own.grow_out().into(),
            own.plot.label.as_str().into(),
            variety.entry.name.as_str().into(),
            format!("{kilograms:.4}").into(),
            format!("{:.4}", own.ground).into(),
        ])
    };
    let columns = ["grow_out", "plot", "variety", "kilograms_a_plant", "ground_log"];
    csv(&columns, house.trial.iter().filter_map(line).collect())
}

fn truth_line(house: &House, variety: &TrueVariety) -> Vec<Cell> {
    let entry = &variety.entry;
    let plots = house.plots.iter().filter(|notes| {
        notes.plot.label_of(&house.truth).is_some_and(|label| label.entry.name == entry.name)
    });
    let identity = vec![
        entry.name.as_str().into(),
        entry.habit.word().into(),
        build(entry.build).into(),
        entry.class.sold_as().word().into(),
        entry.edge.clone().into(),
        entry.mark.map(mark).into(),
        entry.colour.name().into(),
        hue::flesh(entry.colour).name().into(),
        hue::skin(entry.colour).name().into(),
        pattern(entry.pattern).into(),
    ];
    let claim = entry.false_claim.as_ref().map(|(about, words)| format!("{about}: {words}"));
    let rest = [entry.missing.map(missing).into(), claim.into(), plots.count().to_string().into()];
    [identity, trait_cells(variety), rest.to_vec()].concat()
}

fn trait_cells(variety: &TrueVariety) -> Vec<Cell> {
    let (shape, inside, vine) = (&variety.shape, &variety.inside, &variety.vine);
    let written = |number: f64, decimals: usize| Cell::from(format!("{number:.decimals$}"));
    vec![
        written(shape.weight.get(), 2),
        written(shape.length.get(), 1),
        written(shape.width.get(), 1),
        written(shape.length_over_width(), 3),
        written(shape.neck, 3),
        shape.lobes.into(),
        written(inside.locules, 2),
        written(inside.soluble_solids.get(), 2),
        written(inside.dry_matter.get(), 2),
        vine.trusses.map(|trusses| written(trusses, 1)).into(),
        written(vine.leaves_between, 2),
        written(vine.height.get(), 0),
        written(vine.days_to_ripe, 1),
        written(vine.spread_days, 1),
        written(vine.fruit_per_plant, 1),
    ]
}

fn build(build: Build) -> &'static str {
    match build {
        Build::Standard => "standard",
        Build::Dwarf => "dwarf",
        Build::MicroDwarf => "micro-dwarf",
    }
}

fn mark(mark: Mark) -> &'static str {
    match mark {
        Mark::Heart => "heart",
        Mark::Hollow => "hollow",
        Mark::Ribbed => "ribbed",
    }
}

fn missing(missing: Missing) -> &'static str {
    match missing {
        Missing::Unweighed => "never weighed",
        Missing::Uncut => "never cut",
        Missing::NeverGrown => "never grown",
    }
}

/// The house's own words for a pattern.
#[must_use]
pub fn pattern(pattern: Pattern) -> &'static str {
    match pattern {
        Pattern::Plain => "plain",
        Pattern::Striped => "striped",
        Pattern::Marbled => "marbled",
        Pattern::DarkShouldered => "dark shoulders",
    }
}

/// `truth-plots.csv`: a line a plot, with what truly grew there.
#[must_use]
pub fn plots(house: &House) -> Vec<u8> {
    let columns =
        ["grow_out", "plot", "label_says", "truly", "mislabelled", "plants", "off_type_plants", "lost"];
    let lines = house.plots.iter().map(|notes| plot_line(house, &notes.plot));
    csv(&columns, lines.collect())
}

fn plot_line(house: &House, plot: &Plot) -> Vec<Cell> {
    let name =
        |place: crate::garden::Place| house.truth.get(place.0).map(|variety| variety.entry.name.clone());
    let off_types = plot.plants.iter().filter(|plant| plant.off_type);
    let numbers: Vec<String> = off_types.map(|plant| plant.number.to_string()).collect();
    vec![
        plot.grow_out.name().into(),
        plot.label.clone().into(),
        name(plot.labelled).into(),
        name(plot.stand()).into(),
        plot.is_mislabelled().then_some("yes").into(),
        plot.plants.len().to_string().into(),
        numbers.join(" ").into(),
        plot.plants.iter().filter(|plant| plant.lost.is_some()).count().to_string().into(),
    ]
}

/// `faults.csv`: a line a slip.
#[must_use]
pub fn faults(slips: &[Slip]) -> Vec<u8> {
    let columns = ["file", "sheet", "row", "column", "written", "expected", "reason", "truth"];
    let line = |slip: &Slip| {
        let row = if slip.spot.row == 0 { "all".to_owned() } else { slip.spot.row.to_string() };
        vec![
            slip.spot.file.clone().into(),
            slip.spot.sheet.clone().into(),
            row.into(),
            slip.column.clone().into(),
            slip.written.clone().into(),
            slip.fate.word().into(),
            slip.reason.into(),
            slip.truth.clone().into(),
        ]
    };
    csv(&columns, slips.iter().map(line).collect())
}

fn csv(columns: &[&str], lines: Vec<Vec<Cell>>) -> Vec<u8> {
    let mut page = Page::default();
    page.words(columns);
    page.rows.extend(lines);
    delimited::bytes(&[page], ',', Letters::Utf8, "\n")
}

const README_OPENING: &str = "# The demo house

Crookstile Seed House does not exist: the house, its 130 varieties, its keepers and its two gardens are
invented. Its files under `raw/` are in the state in which growers keep theirs. They are made, always the
same, by

    cargo run --release -p demo-house -- demo-house/

from a truth that the raw files never tell: `truth.csv` (what each variety is), `truth-plots.csv` (what
truly stood on each plot) and `faults.csv` (each slip made on purpose, where, and what should become of
it). Tests score the calls against it. Weights, lengths and widths in `truth.csv` are those of the typical
(median) fruit; days are those of a middling year in the Home Garden. Rows in `faults.csv` are numbered
as a spreadsheet numbers them: blank rows count, a line break inside quotes does not.

`weather/` holds twenty years of days of two thermometers, one in each garden, invented too: no place has this weather. In
the years of the grow-outs its summers are as warm as the picks say, and its frosts come when they came; the picks are
not made from it.

Folders are in the order in which the house came to them, and names sort so that beds come before fruit.

";

/// The README of the folder.
#[must_use]
pub fn readme(sheaves: &[Sheaf], sales: &[Sheaf], slips: &Slips) -> String {
    let rows: usize = sheaves.iter().map(Sheaf::rows).sum();
    let lines: String = sheaves.iter().map(readme_line).collect();
    let sales: String = sales.iter().map(readme_line).collect();
    let fates = [Fate::Quarantined, Fate::Doubted, Fate::PassedOver, Fate::Misleading];
    let told: String = fates.into_iter().map(|fate| fate_line(slips, fate)).collect();
    format!(
        "{README_OPENING}| file | rows | records | what it is |\n|---|---:|---:|---|\n{lines}\nIn all {} files and {rows} rows.\n\nBeside them the sales, taken with `locule sales take`:\n\n| file | rows | records | what it is |\n|---|---:|---:|---|\n{sales}\nSlips in `faults.csv`:\n\n{told}",
        sheaves.len()
    )
}

fn readme_line(sheaf: &Sheaf) -> String {
    format!("| `{}` | {} | {} | {} |\n", sheaf.path, sheaf.rows(), sheaf.records(), sheaf.about)
}

fn fate_line(slips: &Slips, fate: Fate) -> String {
    let count = slips.made().iter().filter(|slip| slip.fate == fate).count();
    format!("* {}: {count}\n", fate.word())
}
