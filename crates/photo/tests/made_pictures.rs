//! Pictures that are drawn here, with a camera and solids of their own, and the measures held against what was drawn.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

mod made;

use made::{Scene, TrueFruit, photograph};
use photo::card::{HOUSE_CARD, KNOWN, POSTCARD};
use photo::code::Code;
use photo::decode::decode;
use photo::measure::{Form, Fruit, Measured, Reason, Wishes, measure};
use photo::refusal::Refusal;
use photo::solid::{Axis, Solid, Told};
use record::length::Millimetres;
use std::collections::BTreeMap;
use std::sync::LazyLock;

const RED: [f64; 3] = [0.42, 0.05, 0.03];
const YELLOW: [f64; 3] = [0.62, 0.42, 0.05];
const CODE: Code = Code { version: 1, tag: 0x1234_5678 };

fn fruit(middle: [f64; 2], length: f64, width: f64, turned: f64, skin: [f64; 3]) -> TrueFruit {
    TrueFruit { middle, length, width, turned, skin }
}

/// Five long fruit and a round one round the card.
fn spread() -> Vec<TrueFruit> {
    vec![
        fruit([230.0, 40.0], 62.0, 41.0, 20.0, RED),
        fruit([240.0, 110.0], 44.0, 25.0, 70.0, YELLOW),
        fruit([40.0, 170.0], 58.0, 43.0, 0.0, RED),
        fruit([120.0, 175.0], 31.0, 20.0, 135.0, YELLOW),
        fruit([190.0, 190.0], 66.0, 45.0, 90.0, RED),
        fruit([270.0, 190.0], 52.0, 52.0, 0.0, RED),
    ]
}

/// The spread on a plain sheet, drawn once for all tests that look at it.
static SPREAD: LazyLock<Vec<u8>> =
    LazyLock::new(|| photograph(&Scene { fruit: spread(), ..Scene::plain(CODE) }));

fn spread_out(line: f64, stems: &BTreeMap<u32, Told>) -> Measured {
    let wishes = Wishes { cards: &KNOWN, line: Millimetres::new(line).unwrap(), stems, changes: &[] };
    measure(&decode(&SPREAD).unwrap(), &wishes).unwrap()
}

fn measured(scene: &Scene, line: f64, stems: &BTreeMap<u32, Told>) -> Result<Measured, Refusal> {
    let picture = decode(&photograph(scene)).unwrap();
    measure(&picture, &Wishes { cards: &KNOWN, line: Millimetres::new(line).unwrap(), stems, changes: &[] })
}

fn plainly(scene: &Scene) -> Measured {
    measured(scene, 70.0, &BTreeMap::new()).unwrap()
}

fn solid(fruit: &Fruit) -> Solid {
    match fruit.form {
        Form::Lying(solid) => solid,
        Form::Standing { .. } | Form::Cut(_) => {
            panic!("fruit {} is taken for a standing or a cut one", fruit.number)
        }
    }
}

/// The measured fruit nearest to where one was drawn.
fn at(measured: &Measured, middle: [f64; 2]) -> &Fruit {
    let far = |fruit: &Fruit| (solid(fruit).middle[0] - middle[0]).hypot(solid(fruit).middle[1] - middle[1]);
    measured.fruit.iter().min_by(|p, q| far(p).total_cmp(&far(q))).unwrap()
}

#[track_caller]
fn near(ours: f64, drawn: f64, within: f64) {
    assert!((ours - drawn).abs() <= within, "{ours} against {drawn}");
}

/// The targets of facts/photo.md, section 9, for one picture: width within 0.6 mm, length within 1 mm, volume within 4%.
fn hold_to(measured: &Measured, drawn: &[TrueFruit]) {
    assert_eq!(measured.fruit.len(), drawn.len());
    for fruit in drawn {
        let solid = solid(at(measured, fruit.middle));
        let (long, wide) = (solid.length.max(solid.width), solid.length.min(solid.width));
        near(wide, fruit.width, 0.6);
        near(long, fruit.length, 1.0);
        let volume = std::f64::consts::PI / 6.0 * fruit.length * fruit.width * fruit.width / 1000.0;
        if solid.axis == Axis::Known {
            near(solid.volume / volume, 1.0, 0.04);
        }
    }
}

#[test]
fn fruit_beside_our_own_card_measure_as_they_were_drawn() {
    let measured = spread_out(70.0, &BTreeMap::new());
    assert_eq!(measured.card.name, HOUSE_CARD.name);
    assert_eq!(measured.code, Some(CODE));
    hold_to(&measured, &spread());
    assert_eq!(solid(at(&measured, [230.0, 40.0])).axis, Axis::Known);
}

/// A pair, a row of three and a large one with a small one, each touching its neighbour.
fn touching() -> Vec<TrueFruit> {
    vec![
        fruit([230.0, 40.0], 58.0, 40.0, 90.0, RED),
        fruit([270.0, 40.0], 58.0, 40.0, 90.0, RED),
        fruit([40.0, 165.0], 30.0, 30.0, 0.0, YELLOW),
        fruit([70.0, 165.0], 30.0, 30.0, 0.0, RED),
        fruit([99.0, 173.0], 30.0, 30.0, 0.0, YELLOW),
        fruit([190.0, 180.0], 64.0, 48.0, 0.0, RED),
        fruit([190.0, 216.0], 24.0, 24.0, 0.0, RED),
    ]
}

/// Every fruit is one part with its middle where it was drawn. Where one lies between two others its width is seen short by the
/// bulges that the straight cuts leave out, so widths are not held here.
#[test]
fn fruit_that_touch_are_parted() {
    let measured = plainly(&Scene { fruit: touching(), ..Scene::plain(CODE) });
    assert_eq!(measured.fruit.len(), touching().len());
    for drawn in touching() {
        let seen = solid(at(&measured, drawn.middle)).middle;
        near((seen[0] - drawn.middle[0]).hypot(seen[1] - drawn.middle[1]), 0.0, 1.5);
    }
}

/// A dark blue cloth: its light is a tenth of a fruit's.
#[test]
fn fruit_on_a_dark_cloth_are_no_fatter() {
    hold_to(&plainly(&Scene { fruit: spread(), sheet: [0.02, 0.05, 0.15], ..Scene::plain(CODE) }), &spread());
}

#[test]
fn the_second_layout_is_told_from_the_first() {
    let scene = Scene { card: POSTCARD, fruit: spread(), ..Scene::plain(CODE) };
    let measured = plainly(&scene);
    assert_eq!((measured.card.name, measured.code), (POSTCARD.name, None));
    hold_to(&measured, &scene.fruit);
}

#[test]
fn a_tilted_camera_changes_little() {
    let scene = Scene {
        fruit: spread(),
        stands: [175.0, 300.0, 420.0],
        looks_at: [170.0, 120.0],
        ..Scene::plain(CODE)
    };
    let measured = plainly(&scene);
    near(measured.pose.camera.tilt(), (180.0_f64.hypot(5.0) / 420.0).atan().to_degrees(), 0.5);
    hold_to(&measured, &scene.fruit);
}

#[test]
fn a_card_printed_too_small_makes_everything_smaller() {
    let stems = BTreeMap::new();
    let (plain, small) = (spread_out(70.0, &stems), spread_out(66.5, &stems));
    for (plain, small) in plain.fruit.iter().zip(&small.fruit) {
        let (small, plain) = (solid(small), solid(plain));
        near(small.length / plain.length, 0.95, 1e-9);
        near(small.width / plain.width, 0.95, 1e-9);
        near(small.volume / plain.volume, 0.95_f64.powi(3), 1e-9);
    }
}

#[test]
fn a_stem_that_was_told_is_believed() {
    let plain = spread_out(70.0, &BTreeMap::new());
    let first = &plain.fruit[0];
    let stems = BTreeMap::from([(first.number, Told::Across)]);
    let turned = spread_out(70.0, &stems);
    let (turned, first) = (solid(&turned.fruit[0]), solid(first));
    assert!(first.width < first.length && turned.length < turned.width, "{first:?} and {turned:?}");
    assert_eq!(turned.axis, Axis::Known);
}

#[test]
fn numbers_run_as_one_reads() {
    let measured = spread_out(70.0, &BTreeMap::new());
    let numbers: Vec<u32> = measured.fruit.iter().map(|fruit| fruit.number).collect();
    assert_eq!(numbers, (1..=6).collect::<Vec<_>>());
    assert_eq!(at(&measured, [230.0, 40.0]).number, 1);
}

#[test]
fn a_fruit_that_runs_out_of_the_picture_is_named() {
    let mut fruit = spread();
    fruit.push(self::fruit([440.0, 120.0], 50.0, 50.0, 0.0, RED));
    let measured = plainly(&Scene { fruit, ..Scene::plain(CODE) });
    assert_eq!(measured.fruit.len(), 6);
    assert_eq!(measured.left_out.iter().map(|part| part.why).collect::<Vec<_>>(), [Reason::Cropped]);
}

#[test]
fn a_sheet_without_fruit_and_a_sheet_without_a_card_are_refused() {
    let bare = Scene::plain(CODE);
    let refusal = measured(&bare, 70.0, &BTreeMap::new()).err().unwrap();
    assert!(matches!(refusal, Refusal::NoFruit | Refusal::OneColour), "{refusal}");
    let away = Scene { looks_at: [600.0, 600.0], stands: [610.0, 610.0, 400.0], fruit: spread(), ..bare };
    assert_eq!(measured(&away, 70.0, &BTreeMap::new()).err(), Some(Refusal::NoCard));
}

#[test]
fn the_day_and_the_lens_are_read_from_beside_the_picture() {
    let picture = decode(&photograph(&Scene::plain(CODE))).unwrap();
    assert_eq!(picture.taken_on.map(|day| day.to_string()).as_deref(), Some("2026-08-21"));
    assert_eq!(picture.focal_on_film, Some(26.0));
}
