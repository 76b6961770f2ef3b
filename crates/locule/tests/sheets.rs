//! The proof sheet, the type chart and the picture of a portrait, through the program.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

mod program;

use program::House;
use std::fs;
use std::path::Path;

/// Three varieties: one measured against its packet's word, one only named, one that no font can letter.
fn house() -> House {
    let house = House::new();
    let varieties = "Variety;Habit;Fruit weight\nMarl;;8 oz to 12 oz\nDrip Stone;indeterminate;\n番茄;;\n";
    let mut fruit = String::from("Variety,Date,Plant,Weight (g),Length (mm),Width (mm)\n");
    for plant in 1..=6 {
        for day in 1..=6 {
            fruit.push_str(&format!("Marl,2024-08-{day:02},{plant},{}.5,60,38\n", 44 + day + plant));
        }
    }
    house.ok(&["take", &house.write("varieties.csv", varieties), &house.write("fruit.csv", fruit)]);
    house.ok(&["call"]);
    house
}

fn starts_with(file: &str, bytes: &[u8]) -> bool {
    fs::read(file).unwrap().starts_with(bytes)
}

#[test]
fn the_proof_sheet_lists_what_the_catalogue_will_mark() {
    let house = house();
    let proof = house.ok(&["print", "proof", "--paper", "a4", "--to", &house.at("proof.pdf")]);
    assert!(starts_with(&house.at("proof.pdf"), b"%PDF"));
    let kinds = proof["kinds"].as_array().unwrap();
    let varieties = |kind: &str| {
        kinds.iter().find(|told| told["kind"] == kind).map_or(0, |told| told["varieties"].as_u64().unwrap())
    };
    assert_eq!(varieties("claim contradicted"), 1, "{proof}");
    assert_eq!(varieties("claim open"), 1, "{proof}");
    assert_eq!(varieties("portrait incomplete"), 1, "{proof}");
    assert_eq!(varieties("name not drawn"), 1, "{proof}");
    assert_eq!(varieties("unmeasured"), 3, "{proof}");
    let catalogue = house.ok(&["print", "catalogue", "--to", &house.at("catalogue.pdf")]);
    assert_eq!(catalogue["marks"], proof["marks"]);
}

#[test]
fn the_type_chart_is_printed_on_every_sheet_and_follows_the_guide() {
    let house = house();
    for paper in ["letter", "a4", "tabloid", "a3", "poster"] {
        let to = house.at(&format!("{paper}.pdf"));
        let chart = house.ok(&["print", "chart", "--paper", paper, "--to", &to]);
        assert_eq!((chart["classes"].as_u64(), chart["habits"].as_u64()), (Some(9), Some(5)));
        assert!(starts_with(&to, b"%PDF"));
    }
    let guide = house.at("house/guides/fruit.toml");
    let text = fs::read_to_string(&guide).unwrap();
    let grape = text.find("[[class]]\nname = \"pear\"").unwrap();
    let next = grape + text[grape..].find("[[class]]\nname = \"grape\"").unwrap();
    fs::write(&guide, format!("{}{}", &text[..grape], &text[next..])).unwrap();
    house.ok(&["guide", "accept", &guide]);
    let chart = house.ok(&["print", "chart", "--paper", "a3", "--to", &house.at("changed.pdf")]);
    assert_eq!(chart["classes"], 8);
}

#[test]
fn a_portrait_is_written_as_a_picture() {
    let house = house();
    house.ok(&["show", "Marl", "--picture", &house.at("marl.png")]);
    assert!(starts_with(&house.at("marl.png"), b"\x89PNG"));
    house.ok(&["show", "marl", "--picture", &house.at("marl.SVG")]);
    assert!(starts_with(&house.at("marl.SVG"), b"<svg"));
}

#[test]
fn what_cannot_be_printed_says_what_to_do() {
    let house = house();
    let cases = [
        (vec!["print", "catalogue", "--paper", "poster"], "write --paper letter or --paper a4"),
        (vec!["print", "proof", "--paper", "a3"], "write --paper letter or --paper a4"),
        (vec!["show", "Marl", "--picture", "marl.gif"], "write one of: png, svg"),
        (vec!["show", "Marll", "--picture", "marl.png"], "nearest: Marl"),
        (vec!["print", "chart", "--to", "/nowhere/at/all.pdf"], "/nowhere/at is not there"),
    ];
    for (arguments, told) in cases {
        let (code, _, error) = house.run(&arguments);
        assert_eq!(code, 2, "{arguments:?}: {error}");
        assert!(error.contains(told), "{arguments:?}: {error}");
    }
    assert!(!Path::new("marl.gif").exists());
}
