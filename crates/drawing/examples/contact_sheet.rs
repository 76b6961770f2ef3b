//! Writes a sheet of portraits of every kind, to be looked at: `cargo run --release -p drawing
//! --example contact_sheet > sheet.svg`.

use drawing::look::{FruitLook, Shoulder, Tip};
use drawing::portrait::portrait;
use drawing::scale::Scale;
use record::colour::{ColourSeen, Pattern, TradeColour};
use record::language::Units;
use record::length::Millimetres;
use record::share::Share;
use std::io::Write;

fn look(name: &str, size: (f64, f64), colour: TradeColour, locules: u32) -> FruitLook {
    FruitLook {
        length: Millimetres::new(size.0),
        width: Millimetres::new(size.1),
        exterior: Some(ColourSeen::Word(colour)),
        locules: Some(locules),
        ..FruitLook::named(name)
    }
}

fn sheet() -> Vec<FruitLook> {
    use TradeColour::{Bicolour, Black, Brown, Green, Orange, Pink, Red, White, Yellow};
    let heart = |look: FruitLook| FruitLook { tip: Some(Tip::Pointed), ..look };
    let lobed = |look: FruitLook, lobes| FruitLook { lobes: Some(lobes), ..look };
    let pattern = |look: FruitLook, pattern| FruitLook { pattern: Some(pattern), ..look };
    let neck = |look: FruitLook, neck| FruitLook { neck: Share::new(neck), ..look };
    let dry = |look: FruitLook, wall, gel| FruitLook { wall: Share::new(wall), gel: Share::new(gel), ..look };
    vec![
        look("Currant 1 g", (11.5, 12.0), Red, 2),
        look("Currant 0.3 g", (6.0, 6.5), Yellow, 2),
        look("Cherry", (24.0, 26.0), Red, 2),
        look("White cherry", (26.0, 27.0), White, 2),
        look("Cherry black", (27.0, 28.0), Black, 3),
        neck(look("Pear", (44.0, 26.0), Yellow, 2), 0.55),
        neck(look("Pear large", (85.0, 55.0), Red, 3), 0.62),
        look("Grape", (40.0, 25.0), Brown, 2),
        dry(look("Plum", (65.0, 42.0), Red, 2), 0.2, 0.22),
        FruitLook { tip: Some(Tip::Nippled), ..dry(look("Plum teat", (62.0, 44.0), Orange, 3), 0.2, 0.2) },
        dry(look("Paste", (110.0, 48.0), Red, 3), 0.24, 0.14),
        heart(neck(dry(look("Paste horn", (120.0, 45.0), Orange, 2), 0.24, 0.12), 0.9)),
        look("Saladette", (48.0, 54.0), Orange, 3),
        pattern(look("Striped", (50.0, 56.0), Green, 4), Pattern::Striped),
        pattern(look("Striped red", (45.0, 48.0), Red, 3), Pattern::Striped),
        look("Slicer", (62.0, 74.0), Red, 5),
        lobed(look("Slicer yellow", (60.0, 76.0), Yellow, 6), 6),
        pattern(look("Slicer black", (63.0, 78.0), Black, 6), Pattern::DarkShouldered),
        pattern(look("Brown shoulders", (60.0, 75.0), Brown, 5), Pattern::DarkShouldered),
        pattern(look("Marbled", (66.0, 82.0), Orange, 7), Pattern::Marbled),
        heart(look("Heart", (92.0, 82.0), Pink, 7)),
        heart(look("Heart small", (40.0, 36.0), Red, 3)),
        heart(look("Heart yellow", (100.0, 84.0), Yellow, 8)),
        lobed(look("Beefsteak", (78.0, 112.0), Pink, 12), 9),
        lobed(look("Beefsteak 900 g", (92.0, 134.0), Red, 16), 10),
        lobed(look("Bicolour", (76.0, 108.0), Bicolour, 11), 8),
        lobed(look("Ribbed", (55.0, 85.0), Red, 8), 14),
        look("Green beef", (70.0, 96.0), Green, 9),
        look("White beef", (66.0, 90.0), White, 8),
        FruitLook {
            gel: Share::new(0.05),
            wall: Share::new(0.2),
            ..lobed(look("Stuffer", (70.0, 84.0), Yellow, 4), 4)
        },
        FruitLook { locules: None, ..look("Uncut", (60.0, 70.0), Red, 1) },
        FruitLook { length: None, width: None, ..look("No size", (60.0, 70.0), Pink, 3) },
        FruitLook { exterior: None, ..look("No colour", (55.0, 66.0), Red, 4) },
        FruitLook { weight: record::mass::Grams::new(140.0), ..FruitLook::named("Only weighed") },
        FruitLook { shoulder: Some(Shoulder::Rounded), ..look("Egg", (60.0, 48.0), White, 2) },
        FruitLook {
            exterior: record::colour::Lab::new(58.0, 30.0, 40.0).map(ColourSeen::Measured),
            ..look("Measured", (55.0, 62.0), Red, 4)
        },
    ]
}

fn main() -> std::io::Result<()> {
    let scale = std::env::args().nth(1).and_then(|scale| scale.parse().ok()).and_then(Scale::new);
    let mut out = std::io::stdout().lock();
    write!(out, "<!doctype html><body style='background:#fdfcf8;font:12px serif'>")?;
    for look in sheet() {
        let svg = portrait(&look, scale.unwrap_or(Scale::LIFE_SIZE), Units::Metric);
        write!(
            out,
            "<figure style='display:inline-block;margin:8px'>{svg}<figcaption>{} · {} bytes</figcaption></figure>",
            look.name,
            svg.markup().len()
        )?;
    }
    Ok(())
}
