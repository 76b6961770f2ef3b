//! The same facts for programs that read pages: schema.org's words, as JSON-LD.
//!
//! Only what was measured is told, a call with its chance in the description, and no price or offer is invented.
//!
//! # Source
//! schema.org, types Product, PropertyValue and ItemList; W3C, "JSON-LD 1.1", section 7 (embedding in HTML).

use crate::catalogue::{Measured, Standing};
use crate::chance;
use crate::pages::places::MOST_ON_A_PAGE;
use crate::pages::{Folder, WebEntry};
use maud::{Markup, PreEscaped, html};
use record::language::counted;
use serde_json::{Value, json};

/// Codes of units. Source: UN/CEFACT Recommendation 20; GRM, MMT and DAY as in the measurement-unit code list of the
/// Publications Office of the European Union, P1 (per cent) and C62 (one) from memory, unverified.
mod unit {
    pub(super) const GRAM: &str = "GRM";
    pub(super) const MILLIMETRE: &str = "MMT";
    pub(super) const DAY: &str = "DAY";
    pub(super) const PER_CENT: &str = "P1";
    pub(super) const ONE: &str = "C62";
}

/// A variety's facts, for the head of its page.
///
/// # Errors
/// What JSON cannot hold, which would be a fault in this program.
pub(super) fn variety(folder: &Folder, index: usize, entry: &WebEntry) -> Result<Markup, serde_json::Error> {
    let told = &entry.told;
    let mut product = json!({
        "@context": "https://schema.org",
        "@type": "Product",
        "name": told.name,
        "category": "Tomato",
        "description": description(entry),
        "additionalProperty": measures(entry),
    });
    let mut add =
        |key: &str, value: Value| product.as_object_mut().map(|fields| fields.insert(key.to_owned(), value));
    if !told.aliases.is_empty() {
        add("alternateName", json!(told.aliases));
    }
    if let Some((colour, _)) = chance::likeliest(&told.colour.verdicts).filter(|_| !told.colour.contested) {
        add("color", json!(colour));
    }
    if entry.look.is_some() {
        add("image", json!(address(folder, &folder.places.large_picture(index))));
    }
    if let Some(site) = &folder.list.site {
        add("url", json!(format!("{}{}", site.as_str(), folder.places.variety(index))));
    }
    data(&product)
}

/// The list, for the head of the first page; of a long list its beginning.
pub(super) fn list(folder: &Folder) -> Markup {
    let site = folder.list.site.as_ref().map_or("", |site| site.as_str());
    let item = |(index, entry): (usize, &WebEntry)| {
        let url = format!("{site}{}", folder.places.variety(index));
        json!({ "@type": "ListItem", "position": index + 1, "name": entry.told.name, "url": url })
    };
    let items: Vec<Value> = folder.list.entries.iter().enumerate().take(MOST_ON_A_PAGE).map(item).collect();
    let list = json!({
        "@context": "https://schema.org",
        "@type": "ItemList",
        "name": folder.list.house,
        "numberOfItems": folder.len(),
        "itemListElement": items,
    });
    data(&list).unwrap_or_default()
}

/// A picture's address, from a page in one of the folders.
fn address(folder: &Folder, picture: &str) -> String {
    match &folder.list.site {
        Some(site) => format!("{}{picture}", site.as_str()),
        None => format!("../{picture}"),
    }
}

/// The calls in words with their chances, then how they stand with what is said of it.
fn description(entry: &WebEntry) -> String {
    let told = &entry.told;
    let calls = [("Habit", &told.habit), ("Fruit class", &told.fruit_class), ("Colour", &told.colour)];
    let mut sentences: Vec<String> = calls
        .iter()
        .map(|(about, told)| match chance::told(&told.verdicts) {
            Some(words) if told.contested => format!("{about} contested: {words}."),
            Some(words) => format!("{about}: {words}."),
            None => format!("{about}: not yet measured."),
        })
        .collect();
    for claim in &told.claims {
        if let Standing::Contradicted(against) = &claim.standing {
            sentences.push(format!(
                "Claimed \"{}\"; contradicted: {}.",
                claim.words,
                against.trim_end_matches('.')
            ));
        }
    }
    let (fruits, seasons) = (told.evidence.fruit_count, told.evidence.season_count);
    sentences.push(match fruits {
        0 => "No fruit was measured.".to_owned(),
        fruits => format!(
            "Rests on {} over {}.",
            counted(fruits, "fruit", "fruits"),
            counted(seasons, "season", "seasons")
        ),
    });
    sentences.join(" ")
}

fn measures(entry: &WebEntry) -> Vec<Value> {
    let facts = &entry.told.facts;
    let whole = f64::from;
    let told = [
        facts.weight.map(|own| property("Weight of one fruit", unit::GRAM, &own, |grams| grams.get())),
        facts.length.map(|own| property("Length of one fruit", unit::MILLIMETRE, &own, |long| long.get())),
        facts.width.map(|own| property("Width of one fruit", unit::MILLIMETRE, &own, |wide| wide.get())),
        facts.locules.map(|own| property("Locules", unit::ONE, &own, whole)),
        facts.soluble_solids.map(|own| property("Soluble solids", unit::PER_CENT, &own, |share| share.get())),
        facts.dry_matter.map(|own| property("Dry matter", unit::PER_CENT, &own, |share| share.get())),
        facts.plant_height.map(|own| property("Plant height", unit::MILLIMETRE, &own, |high| high.get())),
        facts
            .days_to_ripe
            .map(|own| property("Days from transplanting to first ripe fruit", unit::DAY, &own, whole)),
    ];
    told.into_iter().flatten().collect()
}

fn property<T: Copy>(name: &str, unit: &str, measured: &Measured<T>, number: impl Fn(T) -> f64) -> Value {
    let value = |of: T| json!(rounded(number(of)));
    let mut property =
        json!({ "@type": "PropertyValue", "name": name, "value": value(measured.usual), "unitCode": unit });
    if let (Some((low, high)), Some(fields)) = (measured.most, property.as_object_mut()) {
        fields.insert("minValue".to_owned(), value(low));
        fields.insert("maxValue".to_owned(), value(high));
    }
    property
}

/// Three figures at most: no more was measured.
pub(super) fn rounded(value: f64) -> f64 {
    match value.abs() {
        large if 100.0 <= large => value.round(),
        middle if 10.0 <= middle => (value * 10.0).round() / 10.0,
        _ => (value * 100.0).round() / 100.0,
    }
}

/// Data in a page: signs that could end the element, or that old scripts took for line ends, are escaped.
fn data(value: &Value) -> Result<Markup, serde_json::Error> {
    let text = harmless(&serde_json::to_string(value)?);
    Ok(html! { script type="application/ld+json" { (PreEscaped(text)) } })
}

/// JSON that is harmless inside a `script` element and as a script.
pub(super) fn harmless(json: &str) -> String {
    let mut text = String::with_capacity(json.len());
    for sign in json.chars() {
        match sign {
            '<' => text.push_str("\\u003c"),
            '>' => text.push_str("\\u003e"),
            '&' => text.push_str("\\u0026"),
            '\u{2028}' => text.push_str("\\u2028"),
            '\u{2029}' => text.push_str("\\u2029"),
            plain => text.push(plain),
        }
    }
    text
}
