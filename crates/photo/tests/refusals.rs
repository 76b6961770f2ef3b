//! Every reason to refuse: a picture that is drawn to be refused for that very reason, and one like it that is measured.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

mod made;

use made::{Scene, TrueFruit, photograph};
use photo::card::KNOWN;
use photo::code::Code;
use photo::decode::decode;
use photo::exposure::NoColour;
use photo::measure::{Measured, Reason, Wishes, measure};
use photo::refusal::Refusal;
use record::length::Millimetres;
use std::collections::BTreeMap;

const RED: [f64; 3] = [0.42, 0.05, 0.03];
const GREEN: [f64; 3] = [0.16, 0.26, 0.06];

fn fruit(middle: [f64; 2], skin: [f64; 3]) -> TrueFruit {
    TrueFruit { middle, length: 60.0, width: 42.0, turned: 20.0, skin }
}

/// Three fruit beside the card, in a picture of which little is beside them.
fn scene() -> Scene {
    Scene {
        fruit: vec![fruit([240.0, 40.0], RED), fruit([240.0, 120.0], RED), fruit([60.0, 170.0], RED)],
        size: [1000, 750],
        ..Scene::plain(Code { version: 1, tag: 0 })
    }
}

fn measured(scene: &Scene) -> Result<Measured, Refusal> {
    let stems = BTreeMap::new();
    let wishes = Wishes { cards: &KNOWN, line: Millimetres::new(70.0).unwrap(), stems: &stems, changes: &[] };
    measure(&decode(&photograph(scene)).unwrap(), &wishes)
}

#[track_caller]
fn refused(scene: &Scene, is_the_reason: fn(&Refusal) -> bool) {
    let refusal = measured(scene).err();
    assert!(refusal.as_ref().is_some_and(is_the_reason), "{refusal:?}");
    assert!(refusal.is_some_and(|refusal| !refusal.remedy().is_empty()));
}

/// All its fruit are measured, 60 by 42 mm within 1 mm.
#[track_caller]
fn measures(scene: &Scene) -> Measured {
    let found = measured(scene).unwrap();
    assert_eq!(
        found.fruit.len(),
        scene.fruit.len(),
        "{:?}",
        found.left_out.iter().map(|part| part.why).collect::<Vec<_>>()
    );
    for fruit in &found.fruit {
        let photo::measure::Form::Lying(solid) = fruit.form else { panic!("{:?} does not lie", fruit.form) };
        assert!((solid.length - 60.0).abs() < 1.0 && (solid.width - 42.0).abs() < 1.0, "{solid:?}");
    }
    found
}

/// White paper at 35 of 255 is refused; at 44 sizes are told and no colours.
#[test]
fn too_dark() {
    let dim = |exposure: f64| Scene { exposure, noise: 0.002 * exposure, ..scene() };
    refused(&dim(0.02), |refusal| matches!(refusal, Refusal::Dark { white } if *white < 40.0));
    let near = measures(&dim(0.032));
    assert_eq!(near.no_colour, Some(NoColour::Dark));
    assert!(near.fruit.iter().all(|fruit| fruit.colour.is_none()));
    assert_eq!(measures(&dim(0.35)).no_colour, None);
}

/// Where paper is burnt out sizes are told and no colours; where a grey is as white as the paper nothing is.
#[test]
fn too_bright() {
    let bright = |exposure: f64| Scene { exposure, ..scene() };
    refused(&bright(2.6), |refusal| *refusal == Refusal::Bright);
    let near = measures(&bright(1.3));
    assert_eq!(near.no_colour, Some(NoColour::BurntOut));
    assert!(near.fruit.iter().all(|fruit| fruit.colour.is_none()));
    assert!(measures(&scene()).fruit.iter().all(|fruit| fruit.colour.is_some()));
}

#[test]
fn steeper_than_forty_degrees() {
    let tilted = |degrees: f64| {
        let off = 500.0 * degrees.to_radians().sin();
        let stands = [150.0, 90.0 - off, 500.0 * degrees.to_radians().cos()];
        Scene { stands, looks_at: [150.0, 90.0], size: [1400, 1050], ..scene() }
    };
    refused(
        &tilted(44.0),
        |refusal| matches!(refusal, Refusal::Steep { degrees } if (43.0..45.0).contains(degrees)),
    );
    assert!((measured(&tilted(36.0)).unwrap().pose.camera.tilt() - 36.0).abs() < 0.7);
}

#[test]
fn under_one_and_a_fifth_pixels_to_a_millimetre() {
    let wide =
        |width: usize| Scene { size: [width, width * 3 / 4], stands: [175.0, 130.0, 420.0], ..scene() };
    refused(&wide(620), |refusal| matches!(refusal, Refusal::Coarse { pixels } if *pixels < 1.2));
    assert_eq!(measured(&wide(760)).unwrap().fruit.len(), 3);
}

#[test]
fn blurred() {
    refused(&Scene { smear: 4, ..scene() }, |refusal| matches!(refusal, Refusal::Blurred { .. }));
    measures(&Scene { smear: 1, size: [1400, 1050], ..scene() });
}

/// Fruit of the cloth's own colour; and green ones on a cloth of a green that is plainly another.
#[test]
fn fruit_and_cloth_of_one_colour() {
    let green = |sheet: [f64; 3]| Scene {
        sheet,
        fruit: scene().fruit.iter().map(|own| TrueFruit { skin: GREEN, ..*own }).collect(),
        ..scene()
    };
    refused(&green(GREEN.map(|part| 0.75 * part)), |refusal| *refusal == Refusal::OneColour);
    assert_eq!(measured(&green([0.45, 0.62, 0.40])).unwrap().fruit.len(), 3);
}

#[test]
fn no_fruit() {
    refused(&Scene { fruit: Vec::new(), ..scene() }, |refusal| *refusal == Refusal::NoFruit);
    assert_eq!(measures(&Scene { fruit: vec![fruit([240.0, 120.0], RED)], ..scene() }).fruit.len(), 1);
}

/// A fruit on a marker, and a card whose corner is out of the picture; the same fruit beside the card.
#[test]
fn part_of_the_card_hidden() {
    let also = |middle| Scene { fruit: [scene().fruit, vec![fruit(middle, RED)]].concat(), ..scene() };
    let hidden = |refusal: &Refusal| *refusal == Refusal::CardHidden { seen: 3 };
    refused(&also([150.0, 102.0]), hidden);
    measures(&also([150.0, 175.0]));
    let aside =
        |by: f64| Scene { stands: [175.0 + by, 130.0, 400.0], looks_at: [165.0 + by, 128.0], ..scene() };
    refused(&aside(200.0), |refusal| *refusal == Refusal::CardHidden { seen: 2 });
    assert!(measured(&aside(60.0)).is_ok());
}

#[test]
fn no_card_at_all() {
    let aside =
        |by: f64| Scene { stands: [175.0 + by, 130.0, 400.0], looks_at: [165.0 + by, 128.0], ..scene() };
    refused(&aside(700.0), |refusal| *refusal == Refusal::NoCard);
}

/// One long fruit lies across another: neither has an outline of its own. Beside a fruit that lies free both are left out.
#[test]
fn heaped() {
    let across = |turned| TrueFruit { length: 95.0, width: 30.0, turned, ..fruit([245.0, 90.0], RED) };
    let heap = vec![across(10.0), across(100.0)];
    refused(&Scene { fruit: heap.clone(), ..scene() }, |refusal| *refusal == Refusal::Heaped);
    let found =
        measured(&Scene { fruit: [heap, vec![fruit([60.0, 170.0], RED)]].concat(), ..scene() }).unwrap();
    assert_eq!(found.fruit.len(), 1);
    assert!(!found.left_out.is_empty() && found.left_out.iter().all(|part| part.why == Reason::Bent));
}
