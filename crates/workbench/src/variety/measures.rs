//! What was measured of the fruit: usual values, the range of most fruits, and how many they rest on.

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
    let rows: Vec<[String; 4]> = rows.into_iter().flatten().collect();
    if rows.is_empty() {
        return html! {};
    }
    let table = html! {
        table.measures {
            caption.unseen { "Measures of one fruit" }
            (page::heads(&["Of one fruit", "Usual", "Eight in ten", "Rests on"]))
            tbody {
                @for [what, usual, range, fruits] in &rows {
                    tr { th scope="row" { (what) } td { (usual) } td { (range) } td { (fruits) } }
                }
            }
        }
    };
    html! {
        section aria-labelledby="measures" {
            h2 #measures { "Measured" }
            (page::scrolling("Measures of one fruit", &table))
        }
    }
}

fn told(
    what: &str,
    measure: Option<KeptMeasure>,
    write: &dyn Fn(f64) -> Option<String>,
) -> Option<[String; 4]> {
    let measure = measure?;
    let range = format!("{} to {}", write(measure.low)?, write(measure.high)?);
    Some([what.to_owned(), write(measure.usual)?, range, counted(measure.fruits, "fruit", "fruits")])
}
