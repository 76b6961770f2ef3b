//! The folder of web pages: whole, closed in itself, harmless whatever a name holds, and honest data beside it.

#![expect(clippy::unwrap_used, clippy::expect_used, reason = "what a test works with may stop it")]

mod sample_house;
mod sample_pages;

use publish::catalogue::{Facts, Told};
use publish::pages::{File, SiteAddress, WebEntry, WebList, variety_addresses};
use sample_pages::{files, web_list};
use serde_json::Value;
use std::collections::{HashMap, HashSet};

/// Names that have broken pages, file systems or scripts before.
const HOSTILE: [&str; 14] = [
    "<script>alert(1)</script>",
    "</script><script>alert(2)</script>",
    "\"><img src=x onerror=alert(3)>",
    "' onmouseover='alert(4)",
    "<!-- ]]> & &amp; <b>",
    "../../etc/passwd",
    "C:\\NUL",
    "con",
    "\u{202e}eman dlot ylkcab",
    "line\u{2028}break\u{0}and\u{1b}[31m",
    "=HYPERLINK(\"x\")",
    "番茄",
    "🍅",
    "javascript:alert(5)",
];

fn hostile() -> WebList {
    let mut list = web_list(HOSTILE.len() + 1);
    list.house = HOSTILE[1].to_owned();
    list.guides = vec![HOSTILE[0].to_owned()];
    for (entry, name) in list.entries.iter_mut().zip(HOSTILE) {
        entry.told.name = name.to_owned();
        entry.told.aliases = vec![name.repeat(40)];
        entry.told.settle = vec![name.to_owned()];
        entry.told.claims.iter_mut().for_each(|claim| claim.words = name.to_owned());
        entry.stand_ins.iter_mut().for_each(|stand_in| stand_in.why = name.to_owned());
        entry.uses = vec![name.to_owned()];
    }
    list
}

fn pages(files: &[File]) -> impl Iterator<Item = (&str, &str)> {
    let of = |file: &File| file.path.ends_with(".html");
    files
        .iter()
        .filter(move |file| of(file))
        .map(|file| (file.path.as_str(), std::str::from_utf8(&file.bytes).unwrap()))
}

/// The values of an attribute, as they stand in the markup.
fn values<'a>(markup: &'a str, attribute: &str) -> Vec<&'a str> {
    let begin = format!(" {attribute}=\"");
    markup
        .match_indices(&begin)
        .map(|(at, found)| markup[at + found.len()..].split('"').next().unwrap())
        .collect()
}

/// Where an address leads from a page, inside the folder.
fn resolved(page: &str, address: &str) -> String {
    let mut parts: Vec<&str> = page.split('/').collect();
    parts.pop();
    for part in address.split('#').next().unwrap().split('/') {
        match part {
            ".." => drop(parts.pop().expect("no address leads out of the folder")),
            part => parts.push(part),
        }
    }
    parts.join("/")
}

#[test]
fn every_address_leads_to_a_file_of_the_folder() {
    for list in [web_list(130), web_list(900), web_list(0), hostile()] {
        let files = files(list);
        let paths: HashSet<&str> = files.iter().map(|file| file.path.as_str()).collect();
        assert_eq!(paths.len(), files.len(), "two files have one path");
        let mut count = 0;
        for (page, markup) in pages(&files) {
            for attribute in ["href", "src"] {
                for address in
                    values(markup, attribute).into_iter().filter(|address| !address.starts_with('#'))
                {
                    count += 1;
                    assert!(paths.contains(resolved(page, address).as_str()), "{page}: {address}");
                    assert!(!address.contains(':') && !address.starts_with('/'), "{page}: {address}");
                }
            }
        }
        assert!(20 < count, "only {count} addresses");
    }
}

#[test]
fn paths_are_one_file_on_every_system() {
    let files = files(hostile());
    for file in &files {
        let is_plain =
            |sign: char| sign.is_ascii_lowercase() || sign.is_ascii_digit() || "-_./".contains(sign);
        assert!(file.path.chars().all(is_plain) && file.path.len() < 150, "{}", file.path);
        assert!(!file.path.contains("..") && !file.path.starts_with('/'), "{}", file.path);
    }
}

/// Every element that a page has. Whatever else stands between angle brackets came from a name.
const TAGS: &str = "html head meta title link script body a header p bdi nav ul li main h1 h2 h3 section div span em \
    strong table caption thead tr th tbody td footer img article dl dt dd figure figcaption q search form fieldset \
    legend select option datalist label input button noscript svg g path rect line circle ellipse text tspan defs desc linearGradient radialGradient stop clipPath";

/// Every attribute that a page has, but for those that hold data.
const ATTRIBUTES: &str = "lang list charset http-equiv content name rel type href src defer class id tabindex aria-label \
    aria-current aria-labelledby aria-describedby aria-hidden role scope alt loading decoding width height title hidden \
    for autocomplete maxlength value spellcheck placeholder novalidate viewBox xmlns fill fill-opacity fill-rule stroke stroke-width \
    stroke-opacity stroke-dasharray stroke-linecap stroke-linejoin opacity transform d x y x1 x2 y1 y2 cx cy r rx ry \
    offset stop-color stop-opacity font-family font-size font-style text-anchor gradientUnits clip-path preserveAspectRatio";

/// The elements that begin in a page, each with the names of its attributes.
fn tags(markup: &str) -> Vec<(&str, Vec<&str>)> {
    let begin = markup.match_indices('<').map(|(at, _)| &markup[at + 1..]);
    let open = begin.filter(|rest| !rest.starts_with(['/', '!']));
    open.map(|rest| {
        let tag = &rest[..rest.find('>').expect("a tag ends")];
        let name = tag.split([' ', '/']).next().unwrap();
        let pieces: Vec<&str> = tag[name.len()..].split('"').collect();
        // Every second piece is a value; names stand in the others.
        let names = pieces.iter().step_by(2).flat_map(|piece| piece.split_whitespace());
        (name, names.map(|name| name.trim_end_matches('=')).filter(|name| *name != "/").collect())
    })
    .collect()
}

fn knows(words: &str, word: &str) -> bool {
    words.split_whitespace().any(|known| known == word)
}

#[test]
fn no_name_becomes_markup() {
    let files = files(hostile());
    let mut scripts = 0;
    for (page, markup) in pages(&files) {
        for (at, _) in markup.match_indices("<script") {
            let tag = &markup[at..];
            let is_ours =
                tag.starts_with("<script src=\"") || tag.starts_with("<script type=\"application/ld+json\">");
            assert!(is_ours, "{page}: {}", &tag[..60]);
            scripts += 1;
        }
        for (tag, attributes) in tags(markup) {
            assert!(knows(TAGS, tag), "{page}: <{tag}>");
            for attribute in attributes {
                let is_known = knows(ATTRIBUTES, attribute) || attribute.starts_with("data-");
                assert!(is_known, "{page}: <{tag}> has {attribute}");
            }
        }
        for odd in ['\u{202e}', '\u{0}', '\u{1b}'] {
            assert!(!markup.contains(odd), "{page} holds {odd:?}");
        }
        assert!(
            markup.contains("http-equiv=\"Content-Security-Policy\" content=\"default-src 'none';"),
            "{page}"
        );
        assert!(!markup.contains(" style=") && !markup.contains("<style"), "{page}");
    }
    assert!(20 < scripts);
    for file in files.iter().filter(|file| file.path.starts_with("data/")) {
        let text = std::str::from_utf8(&file.bytes).unwrap();
        assert!(!text.contains('<') && !text.contains('\u{2028}'), "{}", file.path);
    }
}

fn linked(markup: &str) -> Value {
    let begin = "<script type=\"application/ld+json\">";
    let at = markup.find(begin).expect("data in the page") + begin.len();
    serde_json::from_str(markup[at..].split("</script>").next().unwrap()).unwrap()
}

fn page_of<'a>(files: &'a [File], path: &str) -> &'a str {
    pages(files).find(|(page, _)| *page == path).unwrap_or_else(|| panic!("no {path}")).1
}

/// schema.org, Product: what stands there is the name, what was measured with UN/CEFACT codes, and no offer.
#[test]
fn data_of_a_variety_tells_what_was_measured_and_no_more() {
    let mut list = web_list(130);
    list.entries[1].told.facts = Facts::default();
    list.entries[1].told.fruit_class = Told::default();
    list.entries[1].look = None;
    let names: Vec<String> = list.entries.iter().map(|entry| entry.told.name.clone()).collect();
    let files = files(list);
    let codes = ["GRM", "MMT", "DAY", "P1", "C62"];
    let mut told = HashMap::new();
    for (page, markup) in pages(&files).filter(|(page, _)| page.starts_with("varieties/")) {
        let product = linked(markup);
        assert_eq!(product["@context"], "https://schema.org", "{page}");
        assert_eq!(product["@type"], "Product", "{page}");
        for key in ["offers", "price", "review", "aggregateRating", "brand"] {
            assert!(product.get(key).is_none(), "{page}: {key} was made up");
        }
        for property in product["additionalProperty"].as_array().unwrap() {
            assert_eq!(property["@type"], "PropertyValue");
            assert!(property["value"].is_number() && property["name"].is_string(), "{property}");
            assert!(codes.contains(&property["unitCode"].as_str().unwrap()), "{property}");
        }
        told.insert(product["name"].as_str().unwrap().to_owned(), product);
    }
    assert_eq!(told.len(), names.len());
    let unmeasured = &told[&names[1]];
    assert_eq!(unmeasured["additionalProperty"].as_array().unwrap().len(), 0);
    assert!(unmeasured.get("image").is_none());
    assert!(unmeasured["description"].as_str().unwrap().contains("Fruit class: not yet measured."));
    let contested = told.values().filter(|own| own["description"].as_str().unwrap().contains("contested"));
    assert!(0 < contested.count(), "a contested call says so");
    let list = linked(page_of(&files, "index.html"));
    assert_eq!((&list["@type"], &list["numberOfItems"]), (&Value::from("ItemList"), &Value::from(130)));
}

#[test]
fn the_list_as_data_has_a_row_a_variety() {
    let files = files(web_list(130));
    let bytes = |path: &str| files.iter().find(|file| file.path == path).unwrap().bytes.as_slice();
    let json: Value = serde_json::from_slice(bytes("list.json")).unwrap();
    let varieties = json["varieties"].as_array().unwrap();
    assert_eq!(varieties.len(), 130);
    assert!(varieties.iter().all(|own| own["name"].is_string() && own["page"].is_string()));
    let mut csv = csv::Reader::from_reader(&bytes("list.csv")[3..]);
    let headings = csv.headers().unwrap().clone();
    assert!(headings.iter().any(|heading| heading == "weight_g"));
    assert_eq!(csv.records().filter(|record| record.is_ok()).count(), 130);
}

#[test]
fn a_long_list_is_told_in_several_pages() {
    let files = files(web_list(900));
    let paths: HashSet<&str> = files.iter().map(|file| file.path.as_str()).collect();
    assert!(paths.contains("names.html") && paths.contains("names-2.html"));
    let sizes = pages(&files).map(|(page, markup)| (markup.len(), page)).max().unwrap();
    assert!(sizes.0 < 600_000, "{} has {} bytes", sizes.1, sizes.0);
    assert!(page_of(&files, "index.html").len() < 100_000);
}

#[test]
fn a_site_map_stands_only_where_the_house_has_a_site() {
    let is_there = |list| files(list).iter().any(|file| file.path == "sitemap.xml");
    assert!(!is_there(web_list(3)));
    let site = SiteAddress::new("https://example.org/list");
    let files = files(WebList { site, ..web_list(3) });
    let map = files.iter().find(|file| file.path == "sitemap.xml").unwrap();
    let text = std::str::from_utf8(&map.bytes).unwrap();
    let map = roxmltree::Document::parse(text).unwrap();
    let paths: HashSet<&str> = files.iter().map(|file| file.path.as_str()).collect();
    let places = map.descendants().filter(|node| node.has_tag_name("loc"));
    let places: Vec<&str> = places.map(|node| node.text().unwrap()).collect();
    assert!(
        places.iter().all(|place| paths.contains(place.strip_prefix("https://example.org/list/").unwrap()))
    );
    assert!(3 + 11 < places.len());
}

/// A code on a packet leads where the page stands, also where names come to the same letters.
#[test]
fn addresses_of_varieties_are_those_of_their_pages() {
    let mut list = hostile();
    list.entries[3].told.name = "Drip Stone".to_owned();
    list.entries[4].told.name = "drip stone".to_owned();
    let names: Vec<String> = list.entries.iter().map(|entry| entry.told.name.clone()).collect();
    let addresses = variety_addresses(names.iter().map(String::as_str));
    let files = files(list);
    let paths: HashSet<&str> = files.iter().map(|file| file.path.as_str()).collect();
    assert!(addresses.iter().all(|address| paths.contains(address.as_str())), "{addresses:?}");
    assert_eq!(addresses.iter().collect::<HashSet<_>>().len(), names.len());
}

#[test]
fn the_same_list_gives_the_same_bytes() {
    assert_eq!(files(web_list(40)), files(web_list(40)));
}

/// Read by eye: the words and the order of a variety's page.
#[test]
fn a_variety_reads_well() {
    let list = web_list(130);
    let is_spoken_of = |entry: &&WebEntry| entry.told.claims.len() == 2 && !entry.told.aliases.is_empty();
    let name = list.entries.iter().find(is_spoken_of).unwrap().told.name.clone();
    let files = files(list);
    let (_, markup) = pages(&files)
        .find(|(page, markup)| page.starts_with("varieties/") && linked(markup)["name"] == name.as_str())
        .unwrap();
    insta::assert_snapshot!(text_of(markup));
}

/// The words of a page, a line each, with no markup or drawing.
fn text_of(markup: &str) -> String {
    let body = &markup[markup.find("<main").unwrap()..markup.find("</main>").unwrap()];
    let mut lines = vec![String::new()];
    let mut rest = body;
    while let Some(at) = rest.find('<') {
        lines.last_mut().unwrap().push_str(&rest[..at]);
        let tag = &rest[at..];
        let skipped = if tag.starts_with("<svg") {
            tag.find("</svg>").unwrap() + 6
        } else {
            tag.find('>').unwrap() + 1
        };
        let is_inline = [
            "<a", "</a", "<em", "</em", "<q", "</q", "<bdi", "</bdi", "<span", "</span", "<strong",
            "</strong", "<img",
        ];
        if !is_inline.iter().any(|inline| tag.starts_with(inline)) {
            lines.push(String::new());
        }
        rest = &tag[skipped..];
    }
    let lines = lines.iter().map(|line| line.trim()).filter(|line| !line.is_empty());
    lines.collect::<Vec<_>>().join("\n")
}
