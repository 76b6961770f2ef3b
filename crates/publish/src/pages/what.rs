//! What is it? A page that calls one unknown tomato by the guide's rule, without a program behind it.
//!
//! The sum is `assets/script/what.js`, which mirrors the science; what it needs of the guide and the house arrives
//! here as plain numbers and is written into `data/rule.js`.

use crate::pages::finding::script;
use crate::pages::frame::{Page, Place, capitalised, scripts};
use crate::pages::places::Depth;
use crate::pages::{File, Folder};
use maud::{Markup, html};
use serde_json::{Value, json};

/// The guide's rule and the house's spread, as the page reckons with them. Measures are numbered in the guide's order:
/// weight, width, length, shape, neck, fullness, locules, lobes, dry matter, soluble solids.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ClassRule {
    /// Ways into classes, in the order that they are tried.
    pub ways: Vec<RuleWay>,
    /// Standard deviation of each measure's borders, on the logarithm.
    pub softness: Vec<f64>,
    /// Variances between seasons, plants and fruits of each trait.
    pub spread: Vec<TraitSpread>,
    /// Rows of standard normal numbers: eight for the traits, then one a measure for its borders.
    pub chances: Vec<Vec<f64>>,
    /// Fruits with the answers that the science gives, by which a test holds the page to it.
    pub trials: Vec<Trial>,
}

/// One way into a class.
#[derive(Clone, Debug, PartialEq)]
pub struct RuleWay {
    /// Which class.
    pub into: usize,
    /// The bands that must all hold.
    pub bands: Vec<RuleBand>,
}

/// A range of one measure, on the logarithm; the lower end is included.
#[derive(Clone, Debug, PartialEq)]
pub struct RuleBand {
    /// Which measure.
    pub measure: usize,
    /// The lower end; `None` where it is open.
    pub from: Option<f64>,
    /// The upper end.
    pub below: Option<f64>,
}

/// How far a trait differs within one variety, on the logarithm.
#[derive(Clone, Debug, PartialEq)]
pub struct TraitSpread {
    /// The trait, as `what.js` names it.
    pub of: &'static str,
    /// Variance between seasons.
    pub season: f64,
    /// Variance between plants.
    pub plant: f64,
    /// Variance between fruits.
    pub fruit: f64,
}

/// A fruit and what the science calls it.
#[derive(Clone, Debug, PartialEq)]
pub struct Trial {
    /// What was measured, as `what.js` names it, in grams, millimetres, counts and per cent.
    pub measured: Vec<(&'static str, f64)>,
    /// The share of each class.
    pub shares: Vec<f64>,
}

/// The page and its data.
///
/// # Errors
/// What JSON cannot hold, which would be a fault in this program.
pub(super) fn files(folder: &Folder, rule: &ClassRule) -> Result<[File; 2], serde_json::Error> {
    let names = [
        "script/tokens.js",
        "script/amounts.js",
        "script/reading.js",
        "script/telling.js",
        "script/finding.js",
        "script/what.js",
        "data/list.js",
        "data/rule.js",
        "script/what_page.js",
    ];
    let page = Page {
        path: "what-is-it.html".to_owned(),
        title: "What is it?",
        about: "Weigh and measure one tomato and see which fruit class it may be, and how sure.",
        place: Place::What,
        head: scripts(Depth::Top, &names),
        body: body(folder),
    };
    Ok([page.framed(folder), script("data/rule.js", "rule", &data(folder, rule))?])
}

/// A thing to measure: name, words, how to take it, and an example.
type Measure = (&'static str, &'static str, &'static str, &'static str);

const MEASURES: [Measure; 7] = [
    ("weight", "Weight", "", "58 g or 2 oz"),
    ("length", "Length", "from stem end to blossom end", "61 mm or 2.4 in"),
    ("width", "Width", "where it is greatest", "38 mm or 1.5 in"),
    ("neck", "Width at the neck", "a quarter of the way down from the stem", "28 mm or 1.1 in"),
    ("locules", "Locules", "seed chambers, when it is cut across", "2"),
    ("solids", "Soluble solids, per cent", "degrees Brix, by refractometer", "5.2"),
    ("dry", "Dry matter, per cent", "weight after drying", "6.5"),
];

fn body(folder: &Folder) -> Markup {
    html! {
        h1 { "What is it?" }
        p.lead {
            "Weigh and measure one ripe tomato. The more you give, the surer the answer; weight, length and width go a long way."
        }
        form.measures.needs-script #measures novalidate {
            @for (name, words, how, such) in MEASURES {
                p {
                    label for=(name) { (words) @if !how.is_empty() { span.how { ", " (how) } } }
                    input id=(name) name=(name) autocomplete="off" placeholder=(such) data-such=(such);
                }
            }
            p { button.strong type="submit" { "What is it?" } }
        }
        div.needs-script #answer role="status" {}
        noscript { p { "This page reckons with a script, which your browser does not run. The guide's limits are below." } }
        section aria-labelledby="limits" {
            h2 #limits { "The guide's limits" }
            p { "The same guide calls the varieties of the list. A fruit that no class takes lies between classes." }
            @for shelf in folder.places.shelves.iter().filter(|shelf| shelf.class.is_some()) {
                @if let Some(class) = shelf.class.and_then(|class| folder.list.classes.get(class)) {
                    h3 { a href=(folder.places.shelf(shelf, 0)) { (capitalised(&class.name)) } }
                    @if !class.what.is_empty() { p { (class.what) } }
                    ul { @for limits in &class.limits { li { (limits) } } }
                }
            }
        }
    }
}

fn data(folder: &Folder, rule: &ClassRule) -> Value {
    let bands = |way: &RuleWay| -> Vec<Value> {
        way.bands.iter().map(|band| json!([band.measure, band.from, band.below])).collect()
    };
    let spread = rule.spread.iter().map(|own| (own.of.to_owned(), json!([own.season, own.plant, own.fruit])));
    let trials = rule.trials.iter().map(|trial| {
        let measured = trial.measured.iter().map(|(of, value)| ((*of).to_owned(), json!(value)));
        json!({ "measured": Value::Object(measured.collect()), "shares": trial.shares })
    });
    let (quantiles, order) = packed(&rule.chances);
    json!({
        "classes": classes(folder),
        "ways": rule.ways.iter().map(|way| json!({ "into": way.into, "bands": bands(way) })).collect::<Vec<_>>(),
        "softness": rule.softness,
        "spread": Value::Object(spread.collect()),
        "quantiles": quantiles,
        "order": order,
        "trials": trials.collect::<Vec<_>>(),
    })
}

fn classes(folder: &Folder) -> Vec<Value> {
    let shelves = folder.places.shelves.iter();
    let class = |shelf: &crate::pages::places::Shelf| {
        let class = folder.list.classes.get(shelf.class?)?;
        Some(json!({ "name": class.name, "page": folder.places.shelf(shelf, 0), "limits": class.limits }))
    };
    shelves.filter_map(class).collect()
}

/// Each column of the chances holds the same numbers in an order of its own, so they are sent once, and the order.
fn packed(chances: &[Vec<f64>]) -> (Vec<f64>, Vec<Vec<usize>>) {
    let mut quantiles: Vec<f64> = chances.iter().flatten().copied().collect();
    quantiles.sort_by(f64::total_cmp);
    quantiles.dedup();
    let place =
        |chance: &f64| quantiles.binary_search_by(|own| own.total_cmp(chance)).unwrap_or_else(|near| near);
    let order = chances.iter().map(|row| row.iter().map(place).collect()).collect();
    (quantiles, order)
}
