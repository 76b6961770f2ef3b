//! Parts that were wrongly parted are joined, and parts that are two fruit are cut, on pictures that are drawn here.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

mod made;

use made::{Scene, TrueFruit, photograph};
use photo::card::KNOWN;
use photo::change::{Along, Change, Undone};
use photo::code::Code;
use photo::decode::decode;
use photo::measure::{Form, Measured, Reason, Wishes, measure};
use photo::refusal::Refusal;
use photo::solid::Told;
use record::length::Millimetres;
use std::collections::BTreeMap;
use std::sync::LazyLock;

const CODE: Code = Code { version: 1, tag: 0x1234_5678 };
const RED: [f64; 3] = [0.42, 0.05, 0.03];

fn fruit(middle: [f64; 2], length: f64, width: f64, turned: f64) -> TrueFruit {
    TrueFruit { middle, length, width, turned, skin: RED }
}

/// Two that touch; one that runs out of the picture; a long one by itself; and two so deep in one another that they are seen as one.
fn drawn() -> Vec<TrueFruit> {
    vec![
        fruit([225.0, 40.0], 58.0, 40.0, 90.0),
        fruit([265.0, 40.0], 58.0, 40.0, 90.0),
        fruit([440.0, 120.0], 50.0, 50.0, 0.0),
        fruit([60.0, 175.0], 62.0, 41.0, 20.0),
        fruit([199.0, 180.0], 52.0, 44.0, 90.0),
        fruit([217.0, 180.0], 52.0, 44.0, 90.0),
    ]
}

static PICTURE: LazyLock<Vec<u8>> =
    LazyLock::new(|| photograph(&Scene { fruit: drawn(), ..Scene::plain(CODE) }));

fn with(changes: &[Change], stems: &BTreeMap<u32, Told>) -> Result<Measured, Refusal> {
    let line = Millimetres::new(70.0).unwrap();
    measure(&decode(&PICTURE).unwrap(), &Wishes { cards: &KNOWN, line, stems, changes })
}

fn changed(changes: &[Change]) -> Measured {
    with(changes, &BTreeMap::new()).unwrap()
}

/// The numbers of the fruit and of the parts that are none.
fn numbers(measured: &Measured) -> (Vec<u32>, Vec<u32>) {
    let fruit = measured.fruit.iter().map(|fruit| fruit.number).collect();
    (fruit, measured.left_out.iter().map(|part| part.number).collect())
}

fn width(measured: &Measured, number: u32) -> f64 {
    let fruit = measured.fruit.iter().find(|fruit| fruit.number == number).unwrap();
    match fruit.form {
        Form::Lying(solid) => solid.length.min(solid.width),
        Form::Standing { solid, .. } => solid.width,
        Form::Cut(face) => face.width,
    }
}

#[track_caller]
fn near(ours: f64, drawn: f64, within: f64) {
    assert!((ours - drawn).abs() <= within, "{ours} against {drawn}");
}

#[test]
fn a_part_that_is_no_fruit_is_numbered_among_them() {
    let measured = changed(&[]);
    assert_eq!(numbers(&measured), (vec![1, 2, 4, 5], vec![3]));
    assert_eq!(measured.left_out[0].why, Reason::Cropped);
}

#[test]
fn a_part_of_two_fruit_is_cut_at_its_narrowest() {
    let measured = changed(&[Change::Cut { part: 5, along: Along::Narrowest }]);
    assert_eq!(numbers(&measured), (vec![1, 2, 4, 5, 6], vec![3]));
    near(width(&measured, 5), width(&measured, 6), 1.0);
}

/// The line that somebody draws may end short of the border.
#[test]
fn a_part_is_cut_where_somebody_draws_the_line() {
    let whole = changed(&[]);
    let outline = &whole.fruit.iter().find(|fruit| fruit.number == 5).unwrap().outline;
    let share = |axis: usize, share: f64| {
        let (low, high) = outline
            .iter()
            .fold((f64::MAX, f64::MIN), |(low, high), at| (low.min(at[axis]), high.max(at[axis])));
        low + share * (high - low)
    };
    let [from, to] = [0.15, 0.9].map(|down| [share(0, 0.5), share(1, down)]);
    let measured = changed(&[Change::Cut { part: 5, along: Along::Line([from, to]) }]);
    assert_eq!(numbers(&measured), (vec![1, 2, 4, 5, 6], vec![3]));
    near(width(&measured, 5), width(&measured, 6), 1.0);
}

#[test]
fn parts_that_touch_are_joined_and_cut_again_as_they_were() {
    let (plain, join) = (changed(&[]), Change::Join { parts: [2, 1] });
    let joined = changed(&[join]);
    assert!(!numbers(&joined).0.contains(&2));
    let again = changed(&[join, Change::Cut { part: 1, along: Along::Narrowest }]);
    assert_eq!(numbers(&again).0, [1, 4, 5, 6], "the second piece takes the next free number");
    near(width(&again, 1), width(&plain, 1), 0.3);
    near(width(&again, 6), width(&plain, 2), 0.3);
}

#[test]
fn a_change_leaves_the_numbers_of_the_others_and_what_is_said_of_them() {
    let stems = BTreeMap::from([(4, Told::Across)]);
    let cut = Change::Cut { part: 1, along: Along::Narrowest };
    let length =
        |measured: &Measured| match measured.fruit.iter().find(|fruit| fruit.number == 4).unwrap().form {
            Form::Lying(solid) => solid.length,
            Form::Standing { .. } | Form::Cut(_) => panic!("it lies on its side"),
        };
    let (plain, changed) = (with(&[], &stems).unwrap(), with(&[cut], &stems).unwrap());
    near(length(&changed), length(&plain), 1e-9);
    assert!(length(&plain) < 50.0, "turned, as was said");
}

#[test]
fn what_cannot_be_done_is_told() {
    let refused = |change| with(&[change], &BTreeMap::new()).err().unwrap();
    let beside = Along::Line([[5.0, 5.0], [40.0, 5.0]]);
    let cases = [
        (Change::Cut { part: 9, along: Along::Narrowest }, Undone::NoSuchPart(9)),
        (Change::Cut { part: 4, along: beside }, Undone::NotParted(4)),
        (Change::Join { parts: [1, 4] }, Undone::Apart(1, 4)),
        (Change::Join { parts: [2, 2] }, Undone::Apart(2, 2)),
        (Change::Join { parts: [1, 40] }, Undone::NoSuchPart(40)),
    ];
    for (change, why) in cases {
        assert_eq!(refused(change), Refusal::Change(why));
    }
}
