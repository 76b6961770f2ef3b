//! Process times against the printed guide, what is withheld, what is refused, and what no edit of the guide may break.

#![expect(clippy::unwrap_used, reason = "the shipped guide reads")]

use advice::jars::Jar;
use advice::preserving::acid::{Acid, acid};
use advice::preserving::altitude::Feet;
use advice::preserving::guide::{Edition, PreservingGuide, SHIPPED, Status, read};
use advice::preserving::process::{Answer, Process, Question, Refusal, answers};
use advice::preserving::{Gauge, Product, Way};
use proptest::prelude::*;

fn guide() -> PreservingGuide {
    read("preserving.toml", SHIPPED).unwrap()
}

fn question(product: Product, jar: Jar, way: Way, feet: f64) -> Question {
    Question { product, jar, way, altitude: Feet::new(feet).unwrap() }
}

#[track_caller]
fn takes(product: Product, jar: Jar, feet: f64, minutes: u32) {
    let guide = guide();
    let found = answers(&guide, question(product, jar, Way::BoilingWater, feet));
    assert!(matches!(found[..], [Answer::Process(Process { minutes: m, .. })] if m == minutes), "{found:?}");
}

#[track_caller]
fn refuses(product: Product, jar: Jar, way: Way, feet: f64, refusal: Refusal) {
    assert_eq!(answers(&guide(), question(product, jar, way, feet)), [Answer::Refused(refusal)]);
}

#[track_caller]
fn defers(product: Product, jar: Jar, way: Way, feet: f64) {
    let guide = guide();
    let found = answers(&guide, question(product, jar, way, feet));
    assert!(!found.is_empty());
    assert!(found.iter().all(|answer| matches!(answer, Answer::SeeThePublishedGuide(_))), "{found:?}");
}

/// Complete Guide to Home Canning, U.S. Department of Agriculture, 2015, Guide 3: boiling-water minutes by altitude band.
#[test]
fn boiling_water_agrees_with_the_guide() {
    let bands = [1000.0, 3000.0, 6000.0, 9000.0];
    for (product, pints, quarts) in [
        (Product::Juice, [35, 40, 45, 50], [40, 45, 50, 55]),
        (Product::JuiceBlend, [35, 40, 45, 50], [40, 45, 50, 55]),
        (Product::Sauce, [35, 40, 45, 50], [40, 45, 50, 55]),
        (Product::InWater, [40, 45, 50, 55], [45, 50, 55, 60]),
        (Product::InJuice, [85, 90, 95, 100], [85, 90, 95, 100]),
    ] {
        for (place, feet) in bands.into_iter().enumerate() {
            takes(product, Jar::Pint, feet, pints[place]);
            takes(product, Jar::Quart, feet, quarts[place]);
        }
    }
    takes(Product::Sauce, Jar::Quart, 2500.0, 45);
    takes(Product::Ketchup, Jar::Pint, 5000.0, 20);
    takes(Product::SalsaWithPaste, Jar::Pint, 6001.0, 25);
}

/// The same guide: bands end at 1,000 ft, and the next begins at 1,001; 304 m are 997 ft, 305 m are 1,001 ft.
#[test]
fn altitude_goes_up_to_the_next_band() {
    takes(Product::InWater, Jar::Pint, 1000.0, 40);
    takes(Product::InWater, Jar::Pint, 1000.1, 45);
    takes(Product::InWater, Jar::Pint, 1001.0, 45);
    takes(Product::InWater, Jar::Pint, Feet::from_metres(304.0).unwrap().get(), 40);
    takes(Product::InWater, Jar::Pint, Feet::from_metres(305.0).unwrap().get(), 45);
}

/// National Center for Home Food Preservation: spaghetti sauce without meat, whole tomatoes in water (weighted), sauce
/// (weighted); the 2015 guide: whole tomatoes in water (dial). Minutes and pounds.
#[test]
fn pressure_agrees_with_the_centre() {
    let guide = guide();
    for (product, jar, gauge, feet, printed) in [
        (Product::SpaghettiSauce, Jar::Quart, Gauge::Dial, 3000.0, vec![(25, 12)]),
        (Product::SpaghettiSauce, Jar::Pint, Gauge::Weighted, 1000.0, vec![(20, 10)]),
        (Product::InWater, Jar::Pint, Gauge::Dial, 2001.0, vec![(15, 7), (10, 12)]),
        (Product::InWater, Jar::Quart, Gauge::Weighted, 900.0, vec![(15, 5), (10, 10), (1, 15)]),
        (Product::Sauce, Jar::Quart, Gauge::Weighted, 900.0, vec![(20, 5), (15, 10), (10, 15)]),
    ] {
        let found: Vec<(u32, u32)> = answers(&guide, question(product, jar, Way::Pressure(gauge), feet))
            .into_iter()
            .filter_map(|answer| match answer {
                Answer::Process(process) => Some((process.minutes, process.pressure?.pounds)),
                _ => None,
            })
            .collect();
        assert_eq!(found, printed, "{product:?}");
    }
}

/// The centre's sauce: 15 pounds by weight is not recommended above 1,000 ft.
#[test]
fn what_is_not_recommended_is_refused() {
    let guide = guide();
    let way = Way::Pressure(Gauge::Weighted);
    let found = answers(&guide, question(Product::Sauce, Jar::Pint, way, 1500.0));
    assert_eq!(found.last(), Some(&Answer::Refused(Refusal::NotRecommended)));
    assert_eq!(found.len(), 3);
}

/// Read in older copies or on pages of no standing, or from memory: no number, though the file holds one.
#[test]
fn what_was_not_read_in_the_guide_is_not_told() {
    defers(Product::Raw, Jar::Pint, Way::BoilingWater, 6500.0);
    defers(Product::Crushed, Jar::Quart, Way::BoilingWater, 500.0);
    defers(Product::Crushed, Jar::Quart, Way::Steam, 2000.0);
    defers(Product::SalsaOfPasteTypes, Jar::Pint, Way::BoilingWater, 500.0);
    defers(Product::Raw, Jar::Quart, Way::Pressure(Gauge::Dial), 4500.0);
    defers(Product::Juice, Jar::Quart, Way::Pressure(Gauge::Weighted), 500.0);
}

#[test]
fn outside_the_printed_cells_there_is_a_reason() {
    refuses(Product::Ketchup, Jar::Quart, Way::BoilingWater, 500.0, Refusal::JarNotTested);
    refuses(Product::SpaghettiSauce, Jar::Quart, Way::BoilingWater, 500.0, Refusal::NoSuchProcess);
    refuses(Product::Ketchup, Jar::Pint, Way::Pressure(Gauge::Dial), 500.0, Refusal::NoSuchProcess);
    refuses(Product::Juice, Jar::Pint, Way::BoilingWater, -100.0, Refusal::OutsideTheTable);
    let dial = Way::Pressure(Gauge::Dial);
    refuses(Product::SpaghettiSauce, Jar::Quart, dial, 8500.0, Refusal::OutsideTheTable);
}

/// The centre: the same times, up to 45 minutes with the altitude step.
#[test]
fn steam_canners_stop_at_their_limit() {
    let guide = guide();
    let found = answers(&guide, question(Product::InWater, Jar::Quart, Way::Steam, 1000.0));
    assert!(matches!(found[..], [Answer::Process(Process { minutes: 45, .. })]), "{found:?}");
    let too_long = Refusal::TooLongForSteam { limit: 45 };
    refuses(Product::InWater, Jar::Quart, Way::Steam, 1001.0, too_long);
    refuses(Product::InJuice, Jar::Pint, Way::Steam, 0.0, too_long);
}

/// The guide: 2 tablespoons of bottled lemon juice, half a teaspoon of citric acid or 4 tablespoons of vinegar a quart, half
/// as much a pint.
#[test]
fn acid_agrees_with_the_guide() {
    let guide = guide();
    let all = |jar, jars| match acid(&guide, Product::Raw, jar, jars) {
        Acid::PerJar(doses) => doses.iter().map(|dose| dose.all.teaspoons()).collect::<Vec<f64>>(),
        Acid::InTheRecipe => Vec::new(),
    };
    assert_eq!(all(Jar::Quart, 7), [14.0 * 3.0, 3.5, 28.0 * 3.0]);
    assert_eq!(all(Jar::Pint, 9), [9.0 * 3.0, 2.25, 18.0 * 3.0]);
}

/// Neither variety nor colour nor pH can be told to it, and every pack has its acid: by the jar or in its recipe.
#[test]
fn every_pack_has_its_acid() {
    let guide = guide();
    for product in Product::ALL {
        let recipe = matches!(
            product,
            Product::Ketchup | Product::SalsaWithPaste | Product::SalsaOfPasteTypes | Product::SpaghettiSauce
        );
        assert_eq!(acid(&guide, product, Jar::Quart, 1) == Acid::InTheRecipe, recipe, "{product:?}");
    }
    let always = guide.cautions.iter().find(|caution| caution.name == "acid always").unwrap();
    assert!(always.words.contains("whatever the variety and colour"));
    assert!(always.words.contains("No reading of pH waives it"));
}

#[test]
fn every_caution_has_its_source() {
    let guide = guide();
    assert!(14 <= guide.cautions.len());
    for caution in &guide.cautions {
        assert!(!caution.cited.source.title.is_empty());
        assert!(caution.cited.status == Status::Read || caution.cited.source.edition == Edition::Other);
    }
}

/// What stands there, what is written instead, and the fault.
const SLIPS: [[&str; 3]; 10] = [
    ["minutes = 40, status", "minutes = 400, status", "the number is out of range"],
    // Pints of juice in band B, then quarts below pints.
    ["minutes = 40, status", "minutes = 34, status", "a higher band takes less than a lower one"],
    ["jar = \"quart\"\ncells", "jar = \"gallon\"\ncells", "the jar is not known"],
    ["product = \"sauce\"", "product = \"juice\"", "the row stands twice"],
    ["up-to-ft = 3000", "up-to-ft = 1000", "the bands do not rise"],
    ["edition = \"2015 guide\"", "edition = \"2016 guide\"", "the edition is not known"],
    ["longest-minutes = 45", "longest-minutes = 60", "the number is out of range"],
    [
        "status = \"read\"\nsource = \"guide-1994\"",
        "status = \"red\"\nsource = \"guide-1994\"",
        "the status is not known",
    ],
    ["source = \"guide-1994\"", "source = \"guide-1894\"", "the source is not known"],
    ["pint = \"1 Tbsp\"", "pint = \"15 ml\"", "no amount by the spoon"],
];

#[test]
fn slips_of_the_pen_are_told() {
    for [from, to, fault] in SLIPS {
        assert!(SHIPPED.contains(from), "{from} stands in the shipped guide");
        let found = read("preserving.toml", &SHIPPED.replacen(from, to, 1)).unwrap_err();
        assert_eq!(&*found.fault, fault, "{from}");
        assert!(1 < found.line);
    }
}

/// The printed options taken for pints and quarts, as flattened copies have them: quarts would take less.
#[test]
fn a_flattened_copy_is_not_read() {
    let from = "jar = \"quart\"\ngauge = \"dial\"\nminutes = 25\n";
    let to = "jar = \"quart\"\ngauge = \"dial\"\nminutes = 15\n";
    // The quarts of spaghetti sauce are the last row of 25 minutes.
    let at = SHIPPED.rfind(from).unwrap();
    let flattened = format!("{}{to}{}", &SHIPPED[..at], &SHIPPED[at + from.len()..]);
    let found = read("preserving.toml", &flattened).unwrap_err();
    assert_eq!(&*found.fault, "at one pressure a quart takes less than its pint");
    let water = SHIPPED.replacen("minutes = 40, status", "minutes = 50, status", 1);
    let water = water.replacen("minutes = 45, status", "minutes = 50, status", 1);
    let found = read("preserving.toml", &water).unwrap_err();
    assert_eq!(&*found.fault, "a quart takes less than its pint");
}

proptest! {
    /// At one altitude a quart never takes less than its pint, and a higher kitchen never less than a lower one.
    #[test]
    fn quarts_and_heights_never_take_less(low in 0.0..12_000.0, rise in 0.0..9000.0) {
        let guide = guide();
        for product in Product::ALL {
            let minutes = |jar, feet| match answers(&guide, question(product, jar, Way::BoilingWater, feet))[..] {
                [Answer::Process(Process { minutes, .. })] => Some(minutes),
                _ => None,
            };
            if let (Some(pint), Some(quart)) = (minutes(Jar::Pint, low), minutes(Jar::Quart, low)) {
                prop_assert!(pint <= quart);
            }
            for jar in Jar::ALL {
                prop_assert!(minutes(jar, low) <= minutes(jar, low + rise));
            }
        }
    }

    /// At equal pressure and altitude a quart never takes less than its pint.
    #[test]
    fn quarts_under_pressure_never_take_less(feet in 0.0..8000.0) {
        let guide = guide();
        for product in Product::ALL {
            for gauge in Gauge::ALL {
                let printed = |jar| -> Vec<(u32, u32)> {
                    answers(&guide, question(product, jar, Way::Pressure(gauge), feet))
                        .into_iter()
                        .filter_map(|answer| match answer {
                            Answer::Process(process) => Some((process.pressure?.pounds, process.minutes)),
                            _ => None,
                        })
                        .collect()
                };
                for (pounds, quart) in printed(Jar::Quart) {
                    for (_, pint) in printed(Jar::Pint).into_iter().filter(|pint| pint.0 == pounds) {
                        prop_assert!(pint <= quart);
                    }
                }
            }
        }
    }

    /// A steam canner is never told more than its limit.
    #[test]
    fn steam_never_runs_dry(feet in -500.0..12_000.0) {
        let guide = guide();
        for product in Product::ALL {
            for jar in Jar::ALL {
                for answer in answers(&guide, question(product, jar, Way::Steam, feet)) {
                    let long = matches!(answer, Answer::Process(Process { minutes, .. }) if 45 < minutes);
prop_assert!(!long);
                }
            }
        }
    }

    /// No text stops the reader, whatever was cut out of the guide.
    #[test]
    fn no_text_breaks_the_reader(from in 0..SHIPPED.len(), long in 0usize..400) {
        let cut: String = SHIPPED.chars().take(from).chain(SHIPPED.chars().skip(from + long)).collect();
        if let Err(fault) = read("preserving.toml", &cut) {
            prop_assert!(!fault.help.is_empty());
        }
    }
}
