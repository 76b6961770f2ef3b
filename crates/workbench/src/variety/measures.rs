//! What was measured of the fruit and the plants: usual values, the range of most, and how many they rest on.

use crate::page;
use house::kept::{KeptFruit, KeptMeasure};
use maud::{Markup, html};
use record::language::{self, Units, counted};
use record::length::Millimetres;
use record::mass::Grams;

/// The table of measures.
pub(super) fn section(fruit: Option<&KeptFruit>, units: Units) -> Markup {
    let Some(facts) = fruit.map(|fruit| fruit.facts) else { return html! {} };
    let mass = |grams: f64| Grams::new(grams).map(|grams| language::mass(grams, units));
    let length = |long: f64| Millimetres::new(long).map(|long| language::length(long, units));
    let plain = |digits: usize, unit: &'static str| move |value: f64| Some(format!("{value:.digits$}{unit}"));
    let rows = [
        told("Weight", facts.weight_g, &mass),
        told("Length", facts.length_mm, &length),
        told("Width", facts.width_mm, &length),
        told("Neck over width", facts.neck, &plain(2, "")),
        told("Locules", facts.locules, &plain(0, "")),
        told("Lobes", facts.lobes, &plain(0, "")),
        told("Soluble solids", facts.soluble_solids_pct, &plain(1, " %")),
        told("Dry matter", facts.dry_matter_pct, &plain(1, " %")),
    ];
    let plots = [
        told("Days to the first ripe fruit", facts.days_to_ripe, &plain(0, " days")),
        told("Height of the plant", facts.plant_height_mm, &length),
    ];
    let fruit = rows_of(rows, ("fruit", "fruits"));
    let plots = rows_of(plots, ("plot", "plots"));
    html! {
        @if !(fruit.is_empty() && plots.is_empty()) {
            section aria-labelledby="measures" {
                h2 #measures { "Measured" }
                (table("Measures of one fruit", &["Of one fruit", "Usual", "Eight in ten", "Rests on"], &fruit))
                (table("Measures of whole plots", &["Of a plot", "Usual", "From, to", "Rests on"], &plots))
            }
        }
    }
}

fn table(caption: &str, heads: &[&str; 4], rows: &[[String; 4]]) -> Markup {
    let table = html! {
        table.measures {
            caption.unseen { (caption) }
            (page::heads(heads))
            tbody {
                @for [what, usual, range, count] in rows {
                    tr { th scope="row" { (what) } td { (usual) } td { (range) } td { (count) } }
                }
            }
        }
    };
    html! { @if !rows.is_empty() { (page::scrolling(caption, &table)) } }
}

/// The rows that were measured, each with how many it rests on.
fn rows_of(rows: impl IntoIterator<Item = Option<Row>>, (one, many): (&str, &str)) -> Vec<[String; 4]> {
    let rows = rows.into_iter().flatten();
    rows.map(|row| [row.what, row.usual, row.range, counted(row.count, one, many)]).collect()
}

struct Row {
    what: String,
    usual: String,
    range: String,
    count: u64,
}

fn told(what: &str, measure: Option<KeptMeasure>, write: &dyn Fn(f64) -> Option<String>) -> Option<Row> {
    let measure = measure?;
    let range = format!("{} to {}", write(measure.low)?, write(measure.high)?);
    Some(Row { what: what.to_owned(), usual: write(measure.usual)?, range, count: measure.fruits })
}
