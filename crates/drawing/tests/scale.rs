//! Drawn sizes: a millimetre is as many pixels as the scale says, read back by another library.

#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test that cannot make its input should stop"
)]

mod reading;

use drawing::look::{FruitLook, Shoulder, Tip};
use drawing::portrait::{fitted, portrait};
use drawing::scale::{Pixels, Scale};
use record::colour::{ColourSeen, TradeColour};
use record::language::Units;
use record::length::Millimetres;
use record::share::Share;
use usvg::{Group, Node, Tree};

/// The groups directly inside the drawing: in a portrait the whole fruit, then its cut face.
fn groups(tree: &Tree) -> Vec<&Group> {
    let groups = tree.root().children().iter().filter_map(|node| match node {
        Node::Group(group) => Some(group.as_ref()),
        _ => None,
    });
    groups.collect()
}

fn look(length: f64, width: f64) -> FruitLook {
    FruitLook {
        length: Millimetres::new(length),
        width: Millimetres::new(width),
        locules: Some(4),
        exterior: Some(ColourSeen::Word(TradeColour::Red)),
        ..FruitLook::named("Marl")
    }
}

/// Half a pixel, or five parts in a thousand of a large fruit: less than a pencil's width.
#[track_caller]
fn agrees(look: &FruitLook, scale: f64) {
    let svg = portrait(look, Scale::new(scale).unwrap(), Units::US);
    let tree = reading::tree(&svg);
    let groups = groups(&tree);
    let (body, face) = (reading::path_bounds(groups[0])[0], reading::path_bounds(groups[1])[0]);
    let [length, width] = [look.length, look.width].map(|size| size.unwrap().get() * scale);
    let across = face.width().max(face.height());
    let measured = [(body.height(), length), (body.width(), width), (across, width)];
    for (drawn, wanted) in measured {
        let off = (f64::from(drawn) - wanted).abs();
        assert!(off <= (wanted * 0.005).max(0.5), "{} at {scale}: {drawn} drawn, {wanted} wanted", look.name);
    }
}

#[test]
fn fruit_is_drawn_as_large_as_its_traits() {
    for scale in [0.6, 1.0, 3.78] {
        for (length, width) in [(11.0, 12.0), (24.0, 26.0), (62.0, 40.0), (118.0, 46.0), (92.0, 134.0)] {
            agrees(&look(length, width), scale);
        }
    }
}

#[test]
fn no_shape_changes_the_size() {
    let shoulders = [Shoulder::Indented, Shoulder::Flat, Shoulder::Rounded, Shoulder::Tapered];
    let tips = [Tip::Flat, Tip::Rounded, Tip::Pointed, Tip::Nippled];
    for shoulder in shoulders {
        for tip in tips {
            for (neck, lobes) in [(0.5, 0), (0.62, 3), (0.88, 7), (0.97, 12), (1.0, 0)] {
                let look = FruitLook {
                    shoulder: Some(shoulder),
                    tip: Some(tip),
                    neck: Share::new(neck),
                    lobes: Some(lobes),
                    ..look(80.0, 75.0)
                };
                agrees(&look, 2.0);
            }
        }
    }
}

/// The largest side of a fitted portrait fills its room; the other stays inside.
#[test]
fn a_fitted_portrait_fills_its_room() {
    for (length, width) in [(11.0, 12.0), (118.0, 46.0), (92.0, 134.0)] {
        let svg = fitted(&look(length, width), Pixels::from(160), Pixels::from(90), Units::US);
        let (wide, high) = (svg.width().get(), svg.height().get());
        assert!(wide <= 160.01 && high <= 90.01, "{wide} by {high}");
        assert!(wide > 159.0 || high > 89.0, "{wide} by {high}");
    }
}
