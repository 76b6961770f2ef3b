//! Ground cut into plots, worked out by hand on squared paper.

use crate::made::{bed, garden, metres, planting};
use proptest::prelude::*;
use trial::ground::{Garden, Place, Planting, Purpose, Stretch, neighbours, places, walked};

fn plots(gardens: &[Garden], planting: &Planting) -> Vec<Place> {
    let all = places(gardens, planting).unwrap();
    all.into_iter().filter(|place| place.purpose == Purpose::Plot).collect()
}

/// 12 m hold four plots of 3 m in each of two rows; a plant of guard at each end leaves 11 m and three plots; a tap at
/// 4 to 5 m leaves 3.5 m and 6.5 m, and one and two plots.
#[test]
fn a_bed_holds_what_fits() {
    let count = |garden: Garden, planting: Planting| plots(&[garden], &planting).len();
    assert_eq!(count(garden("Home", &[12.0]), planting()), 8);
    let guarded = Planting { guards_at_ends: 1, ..planting() };
    assert_eq!(count(garden("Home", &[12.0]), guarded), 6);
    let tap = Stretch { from: metres(4.0), to: metres(5.0), why: "tap".to_owned() };
    let beds = vec![trial::ground::Bed { unusable: vec![tap], ..bed("North", 12.0) }];
    assert_eq!(count(Garden { name: "Home".to_owned(), beds }, guarded), 6);
    // A guard row along both edges of a garden of two beds takes one of the two rows in each.
    assert_eq!(count(garden("Home", &[12.0, 12.0]), Planting { guard_rows: 1, ..planting() }), 8);
    // Both rows to a plot: six plants in two rows are 1.5 m.
    assert_eq!(count(garden("Home", &[12.0]), Planting { rows_per_plot: 2, ..planting() }), 8);
    assert_eq!(count(garden("Home", &[2.9]), planting()), 0);
}

/// Four plots in a row touch three times; two rows touch four times more; the next bed not at all.
#[test]
fn neighbours_share_an_edge_but_no_path() {
    assert_eq!(neighbours(&plots(&[garden("Home", &[12.0])], &planting())).len(), 3 + 3 + 4);
    assert_eq!(neighbours(&plots(&[garden("Home", &[12.0, 12.0])], &planting())).len(), 2 * (3 + 3 + 4));
}

/// Up the first row, down the second.
#[test]
fn one_walks_up_and_down() {
    let plots = plots(&[garden("Home", &[9.0])], &planting());
    let walk = walked(&plots).into_iter().map(|at| (plots[at].row, plots[at].position));
    assert_eq!(walk.collect::<Vec<_>>(), [(1, 1), (1, 2), (1, 3), (2, 3), (2, 2), (2, 1)]);
}

#[test]
fn senseless_ground_is_refused_in_words() {
    let told = |garden: Garden| places(&[garden], &planting()).unwrap_err().to_string();
    assert_eq!(told(garden("Home", &[])), "garden \"Home\" has no bed");
    let twice = Garden { name: "Home".to_owned(), beds: vec![bed("North", 9.0), bed("North", 9.0)] };
    assert_eq!(told(twice), "garden \"Home\" has two beds named \"North\"");
    let beyond = Stretch { from: metres(8.0), to: metres(9.5), why: "tap".to_owned() };
    let beds = vec![trial::ground::Bed { unusable: vec![beyond], ..bed("North", 9.0) }];
    let told = told(Garden { name: "Home".to_owned(), beds });
    assert_eq!(told, "bed \"North\": the stretch \"tap\" does not lie within the bed");
}

proptest! {
    /// Whatever the ground: no two places of one bed overlap, none leaves its bed, plots have one size.
    #[test]
    fn places_lie_side_by_side(
        lengths in proptest::collection::vec(0.5..20.0_f64, 1..4),
        from in 0.0..10.0_f64,
        long in 0.0..5.0_f64,
        guards in 0_u32..3,
        guard_rows in 0_u32..3,
        rows_per_plot in 1_u32..3,
    ) {
        let mut garden = garden("Home", &lengths);
        let first = &mut garden.beds[0];
        let end = first.length.get() / 1000.0;
        let (from, to) = (from.min(end), (from + long).min(end));
        first.unusable.push(Stretch { from: metres(from), to: metres(to), why: "wet".to_owned() });
        let planting = Planting { guards_at_ends: guards, guard_rows, rows_per_plot, ..planting() };
        let all = places(std::slice::from_ref(&garden), &planting).unwrap();
        for (at, own) in all.iter().enumerate() {
            prop_assert!(own.to.get() <= garden.beds[own.bed].length.get() + 1e-2);
            for other in all.iter().skip(at + 1).filter(|other| other.bed == own.bed) {
                let along = own.to.get().min(other.to.get()) - own.from.get().max(other.from.get());
                let across = own.far.get().min(other.far.get()) - own.near.get().max(other.near.get());
                prop_assert!(along < 1e-2 || across < 1e-2, "{own:?} over {other:?}");
            }
            if own.purpose == Purpose::Plot {
                let plants = 6_u32.div_ceil(rows_per_plot);
                prop_assert!((own.to.get() - own.from.get() - f64::from(plants) * 500.0).abs() < 1e-6);
            }
        }
    }
}
