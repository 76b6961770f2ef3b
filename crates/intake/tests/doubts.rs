//! Doubts: records that are kept and flagged, and tomatoes that are not.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]

mod house;

use house::taken;
use record::doubt::DoubtKind;
use std::f64::consts::PI;

/// The doubts of the rows of a table of samples with the columns below.
fn doubts(rows: &[&str]) -> Vec<Vec<DoubtKind>> {
    let head =
        "plot,grow-out,variety,date,weight (g),length (mm),width (mm),neck (mm),brix,dry matter,locules\n";
    let outcome = taken("samples.csv", format!("{head}{}\n", rows.join("\n")));
    assert_eq!(outcome.reasons(), Vec::<String>::new(), "flagged, never dropped");
    outcome.entries.into_iter().map(|(_, _, doubts)| doubts).collect()
}

#[track_caller]
fn agrees(row: &str, expected: &[DoubtKind]) {
    assert_eq!(doubts(&[row]), [expected.to_vec()], "{row}");
}

/// Shared facts, identity, section 5: weight = 1.06 x pi/6 x width^2 x length, residual sd 5 %.
#[test]
fn weight_is_held_to_the_ellipsoid() {
    let expected = 1.06e-3 * PI / 6.0 * 60.0 * 60.0 * 55.0;
    let row = |share: f64| format!(",,Old Pike,2031-08-14,{:.1},55,60,,,,", expected * share);
    for share in [0.9, 1.0, 1.1, 1.2] {
        agrees(&row(share), &[]);
    }
    for share in [0.6, 1.4, 10.0] {
        agrees(&row(share), &[DoubtKind::WeightAgainstSize]);
    }
    // A large ribbed fruit may lie further from it.
    let large = 1.06e-3 * PI / 6.0 * 110.0 * 110.0 * 75.0;
    agrees(&format!("B1,2031 Hill,,2031-08-14,{:.0},75,110,,,,", large * 0.62), &[]);
    agrees(
        &format!("B1,2031 Hill,,2031-08-14,{:.0},75,110,,,,", large * 1.38),
        &[DoubtKind::WeightAgainstSize],
    );
}

#[test]
fn swapped_columns_are_seen() {
    // 128 g, 46 mm long, 71 mm wide, written with length and width, or weight and length, changed over.
    agrees(",,Old Pike,2031-08-14,128.7,46,71,,,,", &[]);
    agrees(",,Old Pike,2031-08-14,128.7,71,46,,,,", &[DoubtKind::SwappedColumns]);
    agrees(",,Old Pike,2031-08-14,46,128.7,71,,,,", &[DoubtKind::SwappedColumns]);
    agrees(",,Old Pike,2031-08-14,,60,50,62,,,", &[DoubtKind::SwappedColumns]);
}

#[test]
fn a_heavy_currant_is_unlike_its_variety() {
    agrees(",,Nan,2031-08-14,900,,,,,,", &[DoubtKind::UnlikeItsVariety]);
    agrees(",,Nan,2031-08-14,1.6,,,,,,", &[]);
    agrees(",,Great Lump,2031-08-14,900,,,,,,", &[]);
    // A claim may be wrong by a few classes; what was measured before may not be left so far behind.
    agrees(",,Nan,2031-08-14,20,,,,,,", &[]);
    agrees(",,Great Lump,2031-08-14,60,,,,,,", &[DoubtKind::UnlikeItsVariety]);
    // Nothing is known of Old Pike.
    agrees(",,Old Pike,2031-08-14,900,,,,,,", &[]);
}

#[test]
fn limits_are_flagged() {
    for row in [
        ",,Old Pike,2031-08-14,0,,,,,,",
        ",,Old Pike,2031-08-14,9000,,,,,,",
        ",,Old Pike,2031-08-14,,400,,,,,",
        ",,Old Pike,2031-08-14,,,,,45,,",
        ",,Old Pike,2031-08-14,,,,,,0.07,",
        ",,Old Pike,2031-08-14,,,,,,,75",
        ",,Old Pike,2031-08-14,,,,,,,0",
    ] {
        agrees(row, &[DoubtKind::BeyondLimit]);
    }
}

#[test]
fn days_are_held_to_the_plot_and_to_today() {
    agrees("B1,2031 Home,,2031-04-14,170,,,,,,", &[DoubtKind::BeforeTransplanting]);
    agrees("B1,2031 Home,,2031-08-14,170,,,,,,", &[]);
    agrees(",,Old Pike,2032-08-14,170,,,,,,", &[DoubtKind::InTheFuture]);
    let picks = taken(
        "picks.csv",
        "plot,grow-out,date,count,weight (g)\nB1,2031 Home,2031-05-01,10,1700\nB1,2031 Hill,2031-08-14,10,600\n",
    );
    let kinds: Vec<_> = picks.entries.into_iter().map(|entry| entry.2).collect();
    assert_eq!(kinds, [vec![DoubtKind::BeforeTransplanting], vec![DoubtKind::UnlikeItsVariety]]);
    let heights = taken("heights.csv", "variety,date,height\nNan,2031-07-01,20 m\nNan,2031-07-01,2 m\n");
    let kinds: Vec<_> = heights.entries.into_iter().map(|entry| entry.2).collect();
    assert_eq!(kinds, [vec![DoubtKind::BeyondLimit], vec![]]);
    let walk = taken("walk.csv", "plot,grow-out,first flower,first ripe\nB1,2031 Home,1 May,2 May\n");
    let kinds: Vec<_> = walk.entries.into_iter().map(|entry| entry.2).collect();
    assert_eq!(kinds, [vec![], vec![DoubtKind::BeforeTransplanting]]);
}
