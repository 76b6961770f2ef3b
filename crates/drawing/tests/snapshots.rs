//! A handful of drawings as text. Look at them (`cargo run --example contact_sheet`) before accepting
//! a change.

#![expect(clippy::unwrap_used, reason = "a test that cannot make its input should stop")]

use drawing::gauge::{Gauge, VerdictShare, gauge};
use drawing::look::{FruitLook, Shoulder, Tip};
use drawing::plant::{Build, PlantLook, StemTip, plant};
use drawing::portrait::portrait;
use drawing::scale::{Pixels, Scale};
use drawing::span::{Span, span};
use drawing::strip::{Band, Border, Dot, MeanInterval, Measured, Reading, Strip, strip};
use record::colour::{ColourSeen, Pattern, TradeColour};
use record::language::Units;
use record::length::Millimetres;
use record::mass::Grams;
use record::share::Share;

/// One element a line, so that a change can be read.
fn lines(markup: &str) -> String {
    markup.replace("><", ">\n<")
}

#[track_caller]
fn looks_as_before(name: &str, look: &FruitLook) {
    let svg = portrait(look, Scale::new(1.0).unwrap(), Units::US);
    insta::assert_snapshot!(name, lines(svg.markup()));
}

fn look(name: &str, length: f64, width: f64, colour: TradeColour) -> FruitLook {
    FruitLook {
        length: Millimetres::new(length),
        width: Millimetres::new(width),
        exterior: Some(ColourSeen::Word(colour)),
        ..FruitLook::named(name)
    }
}

#[test]
fn portraits() {
    looks_as_before(
        "currant",
        &FruitLook { locules: Some(2), ..look("Sandpiper", 11.5, 12.0, TradeColour::Red) },
    );
    let heart = FruitLook {
        tip: Some(Tip::Pointed),
        locules: Some(7),
        ..look("Anvil Rose", 92.0, 82.0, TradeColour::Pink)
    };
    looks_as_before("heart", &heart);
    let striped = Some(Pattern::Striped);
    looks_as_before(
        "striped_uncut",
        &FruitLook { pattern: striped, ..look("Greenfinch", 50.0, 56.0, TradeColour::Green) },
    );
    looks_as_before(
        "only_weighed",
        &FruitLook { weight: Grams::new(140.0), ..FruitLook::named("Halfpenny") },
    );
}

/// From the smallest currant to the largest beefsteak, every outline, pattern and gap once.
#[test]
fn portraits_of_every_size() {
    use TradeColour::{Bicolour, Black, Red, White, Yellow};
    let locules = |locules, look: FruitLook| FruitLook { locules: Some(locules), ..look };
    looks_as_before("g_0_2_currant", &locules(2, look("Currant 0.2 g", 6.0, 7.2, Yellow)));
    looks_as_before("g_5_cherry", &locules(2, look("Cherry 5 g", 19.0, 21.0, White)));
    let pear = locules(2, look("Pear 15 g", 44.0, 26.0, Yellow));
    looks_as_before(
        "g_15_pear",
        &FruitLook { neck: Share::new(0.55), shoulder: Some(Shoulder::Tapered), ..pear },
    );
    let plum = locules(2, look("Plum 60 g", 62.0, 42.0, Black));
    let pattern = Some(Pattern::DarkShouldered);
    looks_as_before("g_60_plum", &FruitLook { tip: Some(Tip::Nippled), pattern, ..plum });
    let slicer = locules(5, look("Slicer 180 g", 62.0, 74.0, Bicolour));
    looks_as_before("g_180_slicer", &FruitLook { pattern: Some(Pattern::Marbled), ..slicer });
    let beefsteak = locules(16, look("Beefsteak 900 g", 92.0, 134.0, Red));
    let gel = Share::new(0.24);
    looks_as_before("g_900_beefsteak", &FruitLook { lobes: Some(10), gel, ..beefsteak });
}

#[test]
fn plants_and_spans() {
    let look = PlantLook {
        words: "determinate, as the guide has it".into(),
        height: Millimetres::new(1000.0).unwrap(),
        tip: StemTip::Truss,
        trusses: 4,
        leaves_between: (2.0, 1.0),
        build: Build::Slender,
        ripe: Share::new(0.6).unwrap(),
    };
    let grows_on =
        PlantLook { tip: StemTip::GrowsOn, trusses: 7, leaves_between: (3.0, 3.0), ..look.clone() };
    let scale = Scale::new(0.12).unwrap();
    insta::assert_snapshot!("plant_that_ends", lines(plant(&look, scale).markup()));
    insta::assert_snapshot!("plant_that_grows_on", lines(plant(&grows_on, scale).markup()));
    let bar = Span {
        words: "weight: 1 oz to 2 oz".into(),
        measured: Measured::Weight,
        ends: (reading(0.5), reading(900.0)),
        borders: [28.0, 57.0, 85.0].map(reading).to_vec(),
        low: Some(Border { from: reading(26.0), to: reading(31.0) }),
        high: None,
    };
    insta::assert_snapshot!("span", lines(span(&bar, Pixels::from(120)).markup()));
}

fn reading(value: f64) -> Reading {
    Reading::new(value).unwrap()
}

#[test]
fn strips() {
    let border = |from, to| Some(Border { from: reading(from), to: reading(to) });
    let band = |name: &str, low, high, called| Band { name: name.into(), low, high, called };
    let dots = [44.0, 51.0, 52.0, 58.0, 61.0, 61.5, 96.0];
    let weight = Strip {
        title: "Weight of one fruit".into(),
        measured: Measured::Weight,
        dots: dots.map(|grams| Dot { reading: reading(grams), counted: grams < 90.0 }).to_vec(),
        bands: vec![
            band("cherry", border(4.0, 6.0), border(26.0, 31.0), false),
            band("grape", border(14.0, 28.0), border(50.0, 60.0), false),
            band("plum", border(25.0, 31.0), border(78.0, 92.0), true),
        ],
        mean: Some(MeanInterval { low: reading(49.0), mean: reading(54.0), high: reading(60.0) }),
        units: Units::US,
    };
    insta::assert_snapshot!("strip", lines(strip(&weight, Pixels::from(480)).markup()));
}

#[test]
fn gauges() {
    let verdicts = [("plum", 0.62), ("grape", 0.376), ("paste", 0.004)]
        .map(|(verdict, share)| VerdictShare { verdict: verdict.into(), share: Share::new(share).unwrap() });
    insta::assert_snapshot!(
        "gauge",
        lines(gauge(&Gauge { verdicts: verdicts.to_vec(), contested: true }, Pixels::from(320)).markup())
    );
}
