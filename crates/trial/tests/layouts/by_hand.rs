//! Changes by hand: there and back, and never a gain on a layout that was searched to its end.

use crate::made::{candidates, checks, garden, planting, tried};
use std::ops::ControlFlow;
use trial::ground::Garden;
use trial::layout::by_hand::{At, move_plot, swap};
use trial::layout::{Choice, Entry, Kind, Layout, Request, USUAL_VARIETY_RATIO, lay_out};

fn searched(entries: &[Entry], gardens: &[Garden]) -> Layout {
    let planting = planting();
    let request = Request {
        entries,
        gardens,
        planting: &planting,
        kind: Choice::Best,
        block_size: None,
        variety_ratio: USUAL_VARIETY_RATIO,
        seed: "by hand",
    };
    lay_out(&request, |_| ControlFlow::Continue(())).unwrap()
}

fn labels(layout: &Layout) -> Vec<(String, u32)> {
    let planted = layout.plots.iter().filter_map(|plot| plot.planted.as_ref());
    planted.map(|own| (own.label.clone(), own.replicate)).collect()
}

/// In a searched layout no exchange within a replicate is a gain: the search ends only where none is.
#[test]
fn no_exchange_gains_on_a_searched_layout() {
    let layout = searched(&candidates(12, 3), &[garden("Home", &[18.0, 18.0, 18.0])]);
    assert_eq!(layout.kind, Kind::IncompleteBlocks);
    let labels = labels(&layout);
    let mut tried = 0;
    for (at, (left, replicate)) in labels.iter().enumerate() {
        for (right, _) in labels.iter().skip(at + 1).filter(|(_, own)| own == replicate) {
            let changed = swap(&layout, left, right).unwrap();
            assert!(-1e-6 < changed.cost.sum, "{left} and {right}: {:?}", changed.cost);
            tried += 1;
        }
    }
    assert_eq!(tried, 3 * 12 * 11 / 2);
}

/// Exchanging twice is as before, and costs what it gained.
#[test]
fn exchanging_back_restores() {
    let layout = searched(&candidates(10, 3), &[garden("Home", &[30.0, 30.0])]);
    let (left, right) = ("101", "305");
    let there = swap(&layout, left, right).unwrap();
    let back = swap(&there.layout, right, left).unwrap();
    assert_eq!(back.layout, layout);
    assert!((there.cost.sum + back.cost.sum).abs() < 1e-9);
}

/// Two plots of one variety in one replicate tell less: the exchange across replicates costs information.
#[test]
fn an_exchange_across_replicates_is_told_as_a_loss() {
    let layout = searched(&candidates(6, 2), &[garden("Home", &[18.0])]);
    assert_eq!(layout.kind, Kind::CompleteBlocks);
    let variety_of = |label: &str| {
        let planted = layout.plots.iter().filter_map(|plot| plot.planted.as_ref());
        planted.clone().find(|own| own.label == label).map(|own| own.entry).unwrap()
    };
    let other =
        (201..207).map(|label| label.to_string()).find(|label| variety_of(label) != variety_of("101"));
    let changed = swap(&layout, "101", &other.unwrap()).unwrap();
    assert!(0.01 < changed.cost.information, "{:?}", changed.cost);
    let told = changed.cost.told();
    assert!(told.starts_with("This costs ") && told.contains("plots were missing"), "{told}");
}

/// A move takes stake and variety along, leaves a spare plot, and can be taken back.
#[test]
fn a_moved_plot_can_be_moved_back() {
    let entries: Vec<Entry> = candidates(6, 2).into_iter().chain(checks(1, 2)).collect();
    let layout = tried(&entries, &[garden("Home", &[18.0, 18.0])], Choice::Best, "moves").unwrap();
    let spare = layout.plots.iter().find(|plot| plot.planted.is_none()).unwrap().place.clone();
    let to = At { garden: spare.garden, row: spare.row, position: spare.position };
    let was =
        layout.plots.iter().find(|plot| plot.planted.as_ref().is_some_and(|own| own.label == "103")).unwrap();
    let from = At { garden: was.place.garden, row: was.place.row, position: was.place.position };
    let moved = move_plot(&layout, "103", to).unwrap();
    let now =
        moved.layout.plots.iter().find(|plot| plot.planted.as_ref().is_some_and(|own| own.label == "103"));
    assert_eq!(now.map(|plot| (plot.place.row, plot.place.position)), Some((spare.row, spare.position)));
    assert_eq!(moved.layout.variety(now.unwrap()), layout.variety(was));
    assert_eq!(move_plot(&moved.layout, "103", from).unwrap().layout, layout);
    assert!(move_plot(&layout, "103", from).is_err(), "its own place is not free");
}
