//! Cut faces that are drawn here, two to twelve locules, uneven and of six colours, and what is measured of them.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

mod made;

use made::face::{KINDS, TrueFace};
use made::{Scene, TrueFruit, photograph};
use photo::card::KNOWN;
use photo::code::Code;
use photo::decode::decode;
use photo::face::{Face, ToldBy};
use photo::measure::{Form, Measured, Wishes, measure};
use photo::solid::Told;
use photo::spread::NINE_IN_TEN;
use record::length::Millimetres;
use std::collections::BTreeMap;
use std::sync::LazyLock;

const CODE: Code = Code { version: 1, tag: 0 };
/// Where ten faces lie round the card.
const PLACES: [[f64; 2]; 10] = [
    [245.0, 20.0],
    [355.0, 25.0],
    [245.0, 130.0],
    [355.0, 135.0],
    [35.0, 190.0],
    [140.0, 195.0],
    [245.0, 240.0],
    [355.0, 245.0],
    [40.0, 288.0],
    [140.0, 292.0],
];

/// Ten faces of colours that differ, with locules from 2 to 12.
fn faces(seed: u64) -> Vec<TrueFace> {
    let face = |(at, middle): (usize, [f64; 2])| {
        let place = seed * 10 + at as u64;
        let count = 2 + u32::try_from((place * 7) % 11).unwrap_or(0);
        let kind = KINDS.iter().cycle().nth((place % 6) as usize).copied().unwrap();
        TrueFace::drawn(count, middle, kind, 1000 + place)
    };
    PLACES.into_iter().enumerate().map(face).collect()
}

fn scene(seed: u64) -> Scene {
    Scene { faces: faces(seed), stands: [175.0, 130.0, 460.0], size: [1600, 1200], ..Scene::plain(CODE) }
}

fn measured(scene: &Scene) -> Measured {
    let stems = BTreeMap::new();
    let wishes = Wishes { cards: &KNOWN, line: Millimetres::new(70.0).unwrap(), stems: &stems, changes: &[] };
    measure(&decode(&photograph(scene)).unwrap(), &wishes).unwrap()
}

/// The measured face nearest to a drawn one.
fn of<'a>(measured: &'a Measured, drawn: &TrueFace) -> Option<&'a Face> {
    let far = |face: &Face| (face.middle[0] - drawn.middle[0]).hypot(face.middle[1] - drawn.middle[1]);
    let faces = measured.fruit.iter().filter_map(|fruit| match &fruit.form {
        Form::Cut(face) => Some(face),
        Form::Lying(_) | Form::Standing { .. } => None,
    });
    faces.filter(|face| far(face) < 10.0).min_by(|p, q| far(p).total_cmp(&far(q)))
}

/// Straight from above and sharp, tilted, noisy and slightly smeared: ten faces each, measured once for all tests.
static SCENES: LazyLock<Vec<(&'static str, Scene, Measured)>> = LazyLock::new(|| {
    let tilted = Scene { stands: [175.0, 340.0, 470.0], looks_at: [190.0, 140.0], ..scene(3) };
    let scenes = [
        ("plain", scene(1)),
        ("noisy", Scene { noise: 0.03, ..scene(2) }),
        ("tilted", tilted),
        ("smeared", Scene { smear: 1, ..scene(4) }),
        ("dim", Scene { exposure: 0.35, noise: 0.01, ..scene(5) }),
    ];
    std::thread::scope(|threads| {
        let one = |(name, scene): (&'static str, Scene)| {
            let measured = measured(&scene);
            (name, scene, measured)
        };
        let running: Vec<_> = scenes.into_iter().map(|scene| threads.spawn(move || one(scene))).collect();
        running.into_iter().map(|one| one.join().unwrap()).collect()
    })
});

fn pairs() -> Vec<(&'static str, &'static TrueFace, Option<&'static Face>)> {
    let of_scene = |(name, scene, measured): &'static (&'static str, Scene, Measured)| {
        scene.faces.iter().map(move |drawn| (*name, drawn, of(measured, drawn)))
    };
    SCENES.iter().flat_map(of_scene).collect()
}

#[test]
fn every_cut_face_is_known_for_one() {
    let missed: Vec<_> = pairs()
        .into_iter()
        .filter(|(_, _, face)| face.is_none())
        .map(|(name, drawn, _)| (name, drawn.locules.len(), drawn.middle))
        .collect();
    let left_out: Vec<_> =
        SCENES.iter().flat_map(|(_, _, measured)| &measured.left_out).map(|part| part.why).collect();
    assert!(missed.is_empty(), "{missed:?}, left out: {left_out:?}");
}

/// The targets of facts/photo.md, section 9: 85 of 100 exact, within one always; and where both ways of counting agree the count is
/// right.
#[test]
fn locules_are_counted() {
    let (mut exact, mut all, mut agreed) = (0, 0, 0);
    let mut off = Vec::new();
    for (name, drawn, face) in pairs() {
        let Some(face) = face else { continue };
        let (ours, told) = (face.locules.likely, drawn.locules.len());
        agreed += usize::from(face.locules.agrees());
        println!(
            "{name}: {told} drawn, {} by sectors, {} by patches {:.2?}, wall {:.1?} against {:.1}, gel {:.2} against {:.2}, width {:.1} \
             against {:.1}",
            face.locules.sectors,
            face.locules.patches,
            face.locules.chances,
            face.wall.map(|wall| wall[0]),
            drawn.wall(),
            face.gel_share,
            drawn.gel_share(),
            face.width,
            drawn.width()
        );
        all += 1;
        exact += usize::from(ours as usize == told);
        if 1 < (ours as usize).abs_diff(told) || face.locules.agrees() && ours as usize != told {
            off.push((name, told, face.locules));
        }
    }
    println!("{exact} of {all} exact, {agreed} agreed");
    assert!(80 * all <= 100 * agreed, "{agreed} of {all} agreed");
    assert!(85 * all <= 100 * exact, "{exact} of {all}");
    assert!(off.is_empty(), "{off:?}");
}

/// Share of values that a test holds true.
fn share(of: impl Iterator<Item = bool>) -> f64 {
    let (held, all) = of.fold((0.0, 0.0), |(held, all), is| (held + f64::from(u8::from(is)), all + 1.0));
    held / all
}

fn mean(of: impl Iterator<Item = f64>) -> f64 {
    let (sum, all) = of.fold((0.0, 0.0), |(sum, all), one| (sum + one, all + 1.0));
    sum / all
}

/// Faces alone lie on a guessed level; their heights are drawn within 15% of a rule that is not the one they are guessed by. Nine in
/// ten intervals should hold the truth; 50 faces tell 85 from 70 in a hundred.
#[test]
fn widths_walls_and_gel_are_measured() {
    let found: Vec<(&TrueFace, &Face)> =
        pairs().into_iter().filter_map(|(_, drawn, face)| Some((drawn, face?))).collect();
    let off = |(drawn, face): &(&TrueFace, &Face)| face.width - drawn.width();
    let width = mean(found.iter().map(|pair| off(pair).abs()));
    let held = share(found.iter().map(|pair| off(pair).abs() <= NINE_IN_TEN * pair.1.width_sd));
    let walls: Vec<(f64, [f64; 2])> =
        found.iter().filter_map(|(drawn, face)| Some((drawn.wall(), face.wall?))).collect();
    let wall = mean(walls.iter().map(|(drawn, [wall, _])| (wall - drawn).abs()));
    let wall_held = share(walls.iter().map(|(drawn, [wall, sd])| (wall - drawn).abs() <= NINE_IN_TEN * sd));
    let gel = mean(found.iter().map(|(drawn, face)| (face.gel_share - drawn.gel_share()).abs()));
    println!(
        "width {width:.2} mm, held {held:.2}; wall {wall:.2} mm, held {wall_held:.2}; gel share {gel:.3}"
    );
    assert!(width < 1.2 && 0.8 <= held, "{width} {held}");
    assert!(wall < 0.5 && 0.8 <= wall_held, "{wall} {wall_held}");
    assert!(gel < 0.05, "{gel}");
    assert_eq!(walls.len(), found.len());
}

fn told(stems: &BTreeMap<u32, Told>, scene: &Scene) -> Measured {
    let wishes = Wishes { cards: &KNOWN, line: Millimetres::new(70.0).unwrap(), stems, changes: &[] };
    measure(&decode(&photograph(scene)).unwrap(), &wishes).unwrap()
}

/// Beside whole fruit of 80 mm a face of one lies 40 mm high, whatever its width; and what somebody says is believed.
#[test]
fn whole_fruit_tell_how_high_a_face_lies_and_the_eye_tells_what_is_one() {
    let face = TrueFace { height: 40.0, radius: 20.0, ..TrueFace::drawn(3, [245.0, 130.0], KINDS[0], 7) };
    let fruit =
        |middle| TrueFruit { middle, length: 80.0, width: 40.0, turned: 20.0, skin: [0.42, 0.05, 0.03] };
    let scene = Scene {
        faces: vec![face.clone()],
        fruit: vec![fruit([250.0, 30.0]), fruit([60.0, 180.0])],
        ..Scene::plain(CODE)
    };
    let alone = measured(&Scene { fruit: Vec::new(), ..scene.clone() });
    let (beside, alone) = (measured(&scene), of(&alone, &face).copied().unwrap());
    let own = of(&beside, &face).copied().unwrap();
    assert_eq!((own.level.told_by, alone.level.told_by), (ToldBy::WholeFruit, ToldBy::Width));
    assert!((own.level.height - 40.0).abs() < 1.0, "{own:?}");
    assert!(
        (own.width - face.width()).abs() < 0.6 && 1.0 < (alone.width - face.width()).abs(),
        "{own:?} {alone:?}"
    );
    let number = beside.fruit.iter().find(|fruit| matches!(fruit.form, Form::Cut(_))).unwrap().number;
    let whole = told(&BTreeMap::from([(number, Told::Standing)]), &scene);
    assert!(whole.fruit.iter().all(|fruit| !matches!(fruit.form, Form::Cut(_))));
    let cut = told(&BTreeMap::from([(number, Told::AsDrawn), (1, Told::Cut)]), &scene);
    let is_cut =
        |number| matches!(cut.fruit.iter().find(|fruit| fruit.number == number).unwrap().form, Form::Cut(_));
    assert!(is_cut(1) && !is_cut(number));
}
