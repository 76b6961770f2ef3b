//! Writes a sheet of portraits of every kind as one SVG, to be looked at: `cargo run --release -p drawing
//! --example contact_sheet -- 1.2 paper > sheet.svg`, or `dark` for the ground of a dark page.

use drawing::look::{FruitLook, Shoulder, Tip};
use drawing::portrait::portrait;
use drawing::scale::Scale;
use record::colour::{ColourSeen, Lab, Pattern, TradeColour};
use record::language::Units;
use record::length::Millimetres;
use record::mass::Grams;
use record::share::Share;
use std::io::Write;

/// Width of the sheet, in pixels.
const SHEET: f64 = 1500.0;

fn look(name: &str, size: (f64, f64), colour: TradeColour, locules: u32) -> FruitLook {
    FruitLook {
        length: Millimetres::new(size.0),
        width: Millimetres::new(size.1),
        exterior: Some(ColourSeen::Word(colour)),
        locules: Some(locules),
        ..FruitLook::named(name)
    }
}

fn sizes() -> Vec<FruitLook> {
    use TradeColour::{Black, Brown, Orange, Pink, Red, White, Yellow};
    let heart = |look: FruitLook| FruitLook { tip: Some(Tip::Pointed), ..look };
    let lobed = |look: FruitLook, lobes| FruitLook { lobes: Some(lobes), ..look };
    let neck = |look: FruitLook, neck| FruitLook { neck: Share::new(neck), ..look };
    let dry = |look: FruitLook, wall, gel| FruitLook { wall: Share::new(wall), gel: Share::new(gel), ..look };
    vec![
        look("Currant 0.2 g", (6.0, 7.2), Yellow, 2),
        look("Currant 1 g", (11.5, 12.0), Red, 2),
        look("Cherry 5 g", (19.0, 21.0), Red, 2),
        look("Cherry 9 g", (24.0, 26.0), Orange, 2),
        look("White cherry", (26.0, 27.0), White, 2),
        look("Cherry black", (27.0, 28.0), Black, 3),
        neck(look("Pear", (44.0, 26.0), Yellow, 2), 0.55),
        FruitLook {
            shoulder: Some(Shoulder::Tapered),
            ..neck(look("Pear tapered", (46.0, 27.0), Red, 2), 0.52)
        },
        neck(look("Pear large", (85.0, 55.0), Red, 3), 0.62),
        look("Grape", (40.0, 25.0), Brown, 2),
        dry(look("Plum", (65.0, 42.0), Red, 2), 0.2, 0.22),
        FruitLook { tip: Some(Tip::Nippled), ..dry(look("Plum teat", (62.0, 44.0), Orange, 3), 0.2, 0.2) },
        dry(look("Paste", (110.0, 48.0), Red, 3), 0.24, 0.14),
        heart(neck(dry(look("Paste horn", (120.0, 45.0), Orange, 2), 0.24, 0.12), 0.9)),
        FruitLook { shoulder: Some(Shoulder::Rounded), ..look("Egg", (60.0, 48.0), White, 2) },
        look("Saladette", (48.0, 54.0), Orange, 3),
        look("Slicer", (62.0, 74.0), Red, 5),
        lobed(look("Slicer yellow", (60.0, 76.0), Yellow, 6), 6),
        heart(look("Heart small", (40.0, 36.0), Red, 3)),
        heart(look("Heart", (92.0, 82.0), Pink, 7)),
        heart(look("Heart yellow", (100.0, 84.0), Yellow, 8)),
        lobed(look("Ribbed", (55.0, 85.0), Red, 8), 14),
        lobed(look("Beefsteak", (78.0, 112.0), Pink, 12), 9),
        lobed(look("Beefsteak 900 g", (92.0, 134.0), Red, 16), 10),
        FruitLook {
            gel: Share::new(0.05),
            wall: Share::new(0.2),
            ..lobed(look("Stuffer", (70.0, 84.0), Yellow, 4), 4)
        },
    ]
}

fn colours() -> Vec<FruitLook> {
    let of = |colour: TradeColour, pattern: Pattern| FruitLook {
        pattern: Some(pattern),
        ..look(&format!("{} {pattern:?}", colour.name()), (58.0, 66.0), colour, 5)
    };
    let patterns = [Pattern::Plain, Pattern::Striped, Pattern::Marbled, Pattern::DarkShouldered];
    patterns.into_iter().flat_map(|pattern| TradeColour::ALL.map(|colour| of(colour, pattern))).collect()
}

fn unmeasured() -> Vec<FruitLook> {
    use TradeColour::{Bicolour, Black, Pink, Red, White};
    let weighed = |name: &str, grams| FruitLook { weight: Grams::new(grams), ..FruitLook::named(name) };
    let red = Some(ColourSeen::Word(Red));
    vec![
        FruitLook { locules: None, ..look("Uncut", (60.0, 70.0), Red, 1) },
        FruitLook { locules: None, ..look("Uncut black", (60.0, 70.0), Black, 1) },
        FruitLook { locules: None, ..look("Uncut white", (60.0, 70.0), White, 1) },
        FruitLook { locules: None, ..look("Uncut cherry", (22.0, 24.0), Red, 1) },
        FruitLook { locules: None, lobes: Some(8), ..look("Uncut ribbed", (60.0, 88.0), Bicolour, 1) },
        FruitLook { length: None, width: None, ..look("No size", (60.0, 70.0), Pink, 3) },
        FruitLook { exterior: None, ..look("No colour", (55.0, 66.0), Red, 4) },
        weighed("Only weighed 5 g", 5.0),
        weighed("Only weighed 140 g", 140.0),
        weighed("Only weighed 900 g", 900.0),
        FruitLook { exterior: red, ..weighed("Weighed, red", 60.0) },
        FruitLook::named("Nothing known"),
        FruitLook {
            exterior: Lab::new(58.0, 30.0, 40.0).map(ColourSeen::Measured),
            ..look("Measured colour", (55.0, 62.0), Red, 4)
        },
        FruitLook {
            flesh: Some(ColourSeen::Word(Red)),
            ..look("Yellow over red flesh", (66.0, 80.0), TradeColour::Yellow, 6)
        },
    ]
}

fn main() -> std::io::Result<()> {
    let mut typed = std::env::args().skip(1);
    let scale = typed.next().and_then(|scale| scale.parse().ok()).and_then(Scale::new);
    let ground = if typed.next().as_deref() == Some("dark") { "#1b1a17" } else { "#ffffff" };
    let (mut x, mut y, mut row) = (10.0, 10.0, 0.0_f64);
    let mut body = String::new();
    for looks in [sizes(), colours(), unmeasured()] {
        for look in looks {
            let svg = portrait(&look, scale.unwrap_or(Scale::LIFE_SIZE), Units::METRIC);
            let (wide, high) = (svg.width().get().max(90.0), svg.height().get());
            if SHEET < x + wide + 10.0 {
                (x, y, row) = (10.0, y + row + 26.0, 0.0);
            }
            body.push_str(&format!(
                "<g transform='translate({x} {y})'>{svg}<text y='{}'>{}</text></g>",
                high + 12.0,
                look.name
            ));
            (x, row) = (x + wide + 14.0, row.max(high));
        }
        (x, y, row) = (10.0, y + row + 34.0, 0.0);
    }
    write!(
        std::io::stdout().lock(),
        "<svg xmlns='http://www.w3.org/2000/svg' width='{SHEET}' height='{y}' font-size='10' fill='#888'>\
         <rect width='100%' height='100%' fill='{ground}'/>{body}</svg>"
    )
}
