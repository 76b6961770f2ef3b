//! Pictures: as large as the drawing says, in the page, in the PDF and in the PNG alike.

#![expect(clippy::unwrap_used, reason = "a test stops at its first surprise")]

mod poppler;
mod sample_house;

use drawing::look::FruitLook;
use drawing::portrait::portrait;
use drawing::scale::Scale;
use publish::catalogue::{Paper, Portrait, catalogue};
use publish::picture::{Sharpness, png};
use record::colour::{ColourSeen, TradeColour};
use record::language::Units;
use record::length::Millimetres;
use resvg::tiny_skia::Pixmap;
use std::process::Command;

fn look(length: f64, width: f64) -> FruitLook {
    FruitLook {
        length: Millimetres::new(length),
        width: Millimetres::new(width),
        locules: Some(5),
        exterior: Some(ColourSeen::Word(TradeColour::Black)),
        ..FruitLook::named("Marl")
    }
}

/// Columns from the first to the last that hold anything but ground, and rows likewise.
fn inked(dots: &Pixmap, is_ink: impl Fn([u8; 4]) -> bool) -> (usize, usize) {
    let width = usize::try_from(dots.width()).unwrap();
    let marks: Vec<(usize, usize)> = dots
        .pixels()
        .iter()
        .enumerate()
        .filter(|(_, dot)| is_ink([dot.red(), dot.green(), dot.blue(), dot.alpha()]))
        .map(|(index, _)| (index % width, index / width))
        .collect();
    let reach = |of: fn(&(usize, usize)) -> usize| {
        marks.iter().map(of).max().unwrap() - marks.iter().map(of).min().unwrap() + 1
    };
    (reach(|mark| mark.0), reach(|mark| mark.1))
}

#[test]
fn a_picture_is_as_large_as_its_drawing() {
    for (length, width) in [(11.0, 12.0), (24.0, 26.0), (118.0, 46.0), (92.0, 134.0)] {
        let svg = portrait(&look(length, width), Scale::LIFE_SIZE, Units::US);
        for (sharpness, dots_a_pixel) in [(Sharpness::Plain, 1.0), (Sharpness::Sharp, 3.0)] {
            let dots = Pixmap::decode_png(&png(&svg, sharpness).unwrap()).unwrap();
            assert_eq!(f64::from(dots.width()), (svg.width().get() * dots_a_pixel).ceil());
            assert_eq!(f64::from(dots.height()), (svg.height().get() * dots_a_pixel).ceil());
            // The pair reaches from the left of the fruit to the right of its cut face: 2.07 widths.
            let (across, _) = inked(&dots, |[.., alpha]| alpha > 60);
            let wanted = width * 2.07 * Scale::LIFE_SIZE.pixels_per_millimetre() * dots_a_pixel;
            assert!((across as f64 - wanted).abs() < 3.0 * dots_a_pixel, "{across} dots, {wanted:.1} wanted");
        }
    }
}

#[test]
fn the_same_drawing_gives_the_same_bytes() {
    let svg = portrait(&look(60.0, 70.0), Scale::LIFE_SIZE, Units::US);
    assert!(png(&svg, Sharpness::Sharp).unwrap() == png(&svg, Sharpness::Sharp).unwrap());
}

/// A catalogue of one black fruit: its portrait, rasterised from the PDF by poppler, is as wide beside its
/// height as the picture file's.
#[test]
fn the_printed_portrait_has_the_pictures_shape() {
    let mut house = sample_house::house(1);
    let svg = portrait(&look(80.0, 60.0), Scale::LIFE_SIZE, Units::US);
    let entry = house.sections.iter_mut().flat_map(|section| &mut section.entries).next().unwrap();
    entry.portrait = Portrait::drawn(&svg, Scale::LIFE_SIZE);
    let pdf = catalogue(&house, Paper::A4).unwrap();
    let Some(cover) = first_page(&pdf) else { return };
    let is_fruit = |[red, green, blue, _]: [u8; 4]| red > green.saturating_add(12) && red > blue && red < 150;
    let (across, down) = inked(&cover, is_fruit);
    let picture = Pixmap::decode_png(&png(&svg, Sharpness::Sharp).unwrap()).unwrap();
    let (wide, high) =
        inked(&picture, |[red, green, blue, alpha]| alpha > 200 && is_fruit([red, green, blue, alpha]));
    let (printed, drawn) = (across as f64 / down as f64, wide as f64 / high as f64);
    assert!((printed / drawn - 1.0).abs() < 0.02, "{printed:.3} on paper, {drawn:.3} in the picture");
}

/// The cover as dots, or nothing where poppler is not installed.
fn first_page(pdf: &[u8]) -> Option<Pixmap> {
    let folder = tempfile::tempdir().unwrap();
    let (file, page) = (folder.path().join("book.pdf"), folder.path().join("page"));
    std::fs::write(&file, pdf).unwrap();
    poppler::facts(pdf)?;
    let drawn = Command::new("pdftoppm")
        .args(["-png", "-r", "150", "-f", "1", "-l", "1", "-singlefile"])
        .arg(&file)
        .arg(&page)
        .status();
    assert!(drawn.unwrap().success());
    Some(Pixmap::load_png(page.with_extension("png")).unwrap())
}
