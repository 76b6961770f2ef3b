//! Writes strips, gauges and a bench of invented varieties, to be looked at: `cargo run --release -p
//! drawing --example evidence_sheet 1280 > sheet.html`.

#![expect(
    clippy::indexing_slicing,
    clippy::expect_used,
    reason = "a sheet of invented fruit, with indices taken modulo"
)]

use drawing::bench::{Bench, BenchEntry, bench};
use drawing::gauge::{Gauge, VerdictShare, gauge, rule};
use drawing::look::{FruitLook, Tip};
use drawing::scale::Pixels;
use drawing::strip::{Band, Border, Dot, MeanInterval, Measured, Reading, Strip, strip};
use record::colour::{ColourSeen, Pattern, TradeColour};
use record::language::Units;
use record::length::Millimetres;
use record::share::Share;
use std::io::Write;

/// Classes of the sketch with the size of fruit in each: length over width, least and most width.
const CLASSES: [(&str, f64, f64, f64); 10] = [
    ("Currant", 0.95, 7.0, 13.0),
    ("Cherry", 0.93, 16.0, 30.0),
    ("Pear", 1.5, 22.0, 32.0),
    ("Grape", 1.5, 22.0, 32.0),
    ("Plum", 1.45, 36.0, 48.0),
    ("Paste", 2.1, 40.0, 52.0),
    ("Saladette", 0.9, 42.0, 58.0),
    ("Slicer", 0.82, 62.0, 84.0),
    ("Oxheart", 1.1, 70.0, 95.0),
    ("Beefsteak", 0.7, 92.0, 140.0),
];
const COLOURS: [TradeColour; 9] = [
    TradeColour::Red,
    TradeColour::Pink,
    TradeColour::Orange,
    TradeColour::Yellow,
    TradeColour::White,
    TradeColour::Green,
    TradeColour::Brown,
    TradeColour::Black,
    TradeColour::Bicolour,
];
const FIRST: [&str; 13] = [
    "Marl", "Quarry", "Candle", "Anvil", "Old", "Long", "Barrow", "Weir", "Tallow", "Cooper's", "Green",
    "Bell", "Kitti",
];
const SECOND: [&str; 10] =
    ["Hill", "Dusk", "Rose", "Ferryman", "Acre", "Gold", "Street", "Lamp", "Half", "Finch"];

/// The bands drawn as called.
const CALLED: [&str; 3] = ["plum", "elongated", "middling"];

/// A number from 0 to 1, the same for the same index.
fn chance(index: u64) -> f64 {
    let mut mixed = index.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ 0x5851_f42d_4c95_7f2d;
    mixed = (mixed ^ (mixed >> 29)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    mixed ^= mixed >> 32;
    f64::from(u32::try_from(mixed & 0xffff_ffff).unwrap_or(0)) / f64::from(u32::MAX)
}

fn entry(index: usize) -> BenchEntry {
    let at = |salt: u64| chance(u64::try_from(index).unwrap_or(0) * 32 + salt);
    let choose = |salt: u64, count: usize| (at(salt) * count as f64) as usize % count;
    let column = choose(1, 10);
    let (_, ratio, least, most) = CLASSES[column];
    let width = least + (most - least) * at(2);
    let length = width * ratio * (0.92 + 0.16 * at(3));
    let large = width > 60.0;
    let look = FruitLook {
        length: Millimetres::new(length),
        width: Millimetres::new(width).filter(|_| at(4) > 0.04),
        neck: if column == 2 { Share::new(0.52 + 0.1 * at(5)) } else { None },
        tip: if column == 8 { Some(Tip::Pointed) } else { None },
        lobes: (column == 9 || (large && at(6) > 0.6)).then(|| 5 + choose(7, 7) as u32),
        locules: (at(8) > 0.12)
            .then(|| if large { 4 + (width / 12.0) as u32 } else { 2 + choose(9, 2) as u32 }),
        wall: if column == 5 { Share::new(0.24) } else { None },
        gel: if column == 5 { Share::new(0.16) } else { None },
        exterior: (at(10) > 0.03).then(|| ColourSeen::Word(COLOURS[choose(11, 9)])),
        pattern: match at(12) {
            low if low < 0.1 => Some(Pattern::Striped),
            low if low < 0.15 => Some(Pattern::Marbled),
            low if low < 0.22 => Some(Pattern::DarkShouldered),
            _ => None,
        },
        ..FruitLook::named(format!("{} {}", FIRST[index % 13], SECOND[index / 13 % 10]))
    };
    let certainty = 0.55 + 0.45 * at(13).sqrt();
    BenchEntry {
        look,
        column: (at(15) > 0.02).then_some(column),
        row: Some(choose(14, 3)),
        certainty: Share::new(certainty),
        contested: certainty < 0.8,
        link: Some(format!("/variety/{index}")),
    }
}

fn reading(value: f64) -> Reading {
    Reading::new(value).expect("a finite number")
}

fn band(name: &str, low: Option<(f64, f64)>, high: Option<(f64, f64)>) -> Band {
    let border =
        |border: Option<(f64, f64)>| border.map(|(from, to)| Border { from: reading(from), to: reading(to) });
    Band { name: name.into(), low: border(low), high: border(high), called: CALLED.contains(&name) }
}

fn weight(units: Units, fruits: usize) -> Strip {
    let dots = (0..fruits as u64).map(|fruit| {
        let bell: f64 = (0..6).map(|part| chance(fruit * 8 + part)).sum::<f64>() - 3.0;
        Dot { reading: reading(58.0 * (0.33 * bell).exp()), counted: chance(fruit * 8 + 7) > 0.06 }
    });
    Strip {
        title: "Weight of one fruit".into(),
        measured: Measured::Weight,
        dots: dots.collect(),
        bands: vec![
            band("currant", None, Some((4.0, 6.0))),
            band("cherry", Some((4.0, 6.0)), Some((26.0, 31.0))),
            band("pear", Some((6.0, 10.0)), Some((26.0, 31.0))),
            band("grape", Some((14.0, 28.0)), Some((50.0, 60.0))),
            band("plum", Some((25.0, 31.0)), Some((78.0, 92.0))),
            band("paste", Some((78.0, 92.0)), Some((134.0, 150.0))),
            band("saladette", Some((28.0, 34.0)), Some((120.0, 145.0))),
            band("slicer", Some((134.0, 150.0)), Some((215.0, 240.0))),
            band("beefsteak", Some((215.0, 240.0)), Some((880.0, 940.0))),
        ],
        mean: Some(MeanInterval { low: reading(51.0), mean: reading(58.0), high: reading(66.0) }),
        units,
    }
}

fn ratio() -> Strip {
    let dots =
        (0..24).map(|fruit| Dot { reading: reading(1.45 + 0.25 * (chance(fruit) - 0.5)), counted: true });
    Strip {
        title: "Length over width".into(),
        measured: Measured::Ratio,
        dots: dots.collect(),
        bands: vec![
            band("flattened", None, Some((0.8, 0.86))),
            band("round", Some((0.8, 0.86)), Some((1.12, 1.2))),
            band("elongated", Some((1.12, 1.2)), None),
        ],
        mean: Some(MeanInterval { low: reading(1.41), mean: reading(1.45), high: reading(1.48) }),
        units: Units::US,
    }
}

fn locules() -> Strip {
    let dots =
        (0..30).map(|fruit| Dot { reading: reading((2.0 + 3.4 * chance(fruit)).floor()), counted: true });
    Strip {
        title: "Locules".into(),
        measured: Measured::Count,
        dots: dots.collect(),
        bands: vec![
            band("few", None, Some((3.0, 4.0))),
            band("middling", Some((3.0, 4.0)), Some((6.0, 7.0))),
            band("many", Some((6.0, 7.0)), None),
        ],
        mean: None,
        units: Units::US,
    }
}

fn length() -> Strip {
    Strip { title: "Length".into(), measured: Measured::Length, ..weight(Units::US, 12) }
}

fn main() -> std::io::Result<()> {
    let width = std::env::args().nth(1).and_then(|width| width.parse::<u16>().ok()).unwrap_or(1280);
    let narrow = Pixels::from(width.min(900));
    let entries: Vec<BenchEntry> = (0..130).map(entry).collect();
    let names = |names: &[&str]| names.iter().map(ToString::to_string).collect::<Vec<String>>();
    let whole = Bench {
        title: "130 varieties, all to one scale".into(),
        columns: CLASSES.iter().map(|class| class.0.to_string()).collect(),
        rows: names(&["Determinate", "Semi-determinate", "Indeterminate"]),
        entries,
        units: Units::US,
    };
    let shares =
        [("plum", 0.62), ("saladette", 0.27), ("grape", 0.106), ("paste", 0.004)].map(|(verdict, share)| {
            VerdictShare { verdict: verdict.into(), share: Share::new(share).unwrap_or(Share::NONE) }
        });
    let verdicts = Gauge { verdicts: shares.to_vec(), contested: true };
    let mut out = std::io::stdout().lock();
    write!(out, "<!doctype html><meta charset=utf-8><body style='background:#fdfcf8;margin:0'>")?;
    let picture = bench(&whole, Pixels::from(width));
    write!(out, "{picture}<hr>{}<hr>{}<hr>", gauge(&verdicts, narrow), rule(&verdicts, Pixels::from(120)))?;
    for picture in [weight(Units::US, 40), weight(Units::METRIC, 400), ratio(), locules(), length()] {
        write!(out, "<div>{}</div><hr>", strip(&picture, narrow))?;
    }
    Ok(())
}
