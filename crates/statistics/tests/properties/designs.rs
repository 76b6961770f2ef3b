//! Designs: the kept sums against plain ones, and what must hold of any search.

use proptest::prelude::*;
use statistics::design::connection::components;
use statistics::design::constructions::{
    alpha, alpha_array, augmented, complete_blocks, long_columns, partially_replicated, rows_and_columns,
};
use statistics::design::differences::differences;
use statistics::design::efficiency::efficiency;
use statistics::design::search::{Effort, Found, Ground, Weights, judge, search};
use statistics::design::{BlockEffect, Blocking, Design, DesignFault, Treatments, bounds};
use statistics::draws::stream;
use std::ops::ControlFlow;

/// A design of up to twelve treatments in any blocks, with every treatment somewhere.
fn any_design() -> impl Strategy<Value = Design> {
    (2_usize..12, 0_usize..30, 1_usize..7).prop_flat_map(|(treatments, more, blocks)| {
        let plots = treatments + more;
        let chosen = proptest::collection::vec(0..treatments, more);
        let levels = proptest::collection::vec(0..blocks.min(plots), plots);
        (chosen, levels).prop_map(move |(chosen, levels)| {
            let all = (0..treatments).chain(chosen).collect();
            Design::new(treatments, all, vec![Blocking::fixed(levels)]).unwrap()
        })
    })
}

/// Pairwise comparisons by chains of common blocks, the plain way.
fn chained(design: &Design) -> Vec<usize> {
    let mut group: Vec<usize> = (0..design.treatments()).collect();
    let levels = &design.blockings()[0].levels;
    for (plot, treatment) in design.plots().iter().enumerate() {
        for (other, beside) in design.plots().iter().enumerate() {
            if levels[plot] == levels[other] {
                let (keep, drop) =
                    (group[*treatment].min(group[*beside]), group[*treatment].max(group[*beside]));
                group.iter_mut().filter(|own| **own == drop).for_each(|own| *own = keep);
            }
        }
    }
    group
}

fn looked(ground: &Ground<'_>, seed: &str, looks: u64) -> Found {
    let mut chance = stream(&["designs", seed]);
    search(ground, Effort { looks }, &mut chance, |_| ControlFlow::Continue(())).unwrap()
}

/// One region, nothing but efficiency.
fn plain<'a>(start: &'a Design, regions: &'a [usize], treatments: Treatments) -> Ground<'a> {
    Ground {
        start,
        treatments,
        regions,
        pens: regions,
        penned: &[],
        neighbours: &[],
        zones: &[],
        weights: Weights::default(),
    }
}

proptest! {
    /// With one-way blocks, treatments are comparable exactly where a chain of common blocks joins them.
    #[test]
    fn comparable_is_joined_by_blocks(design in any_design()) {
        let chained = chained(&design);
        let found = components(&design).unwrap();
        let between = differences(&design, Treatments::Fixed).unwrap();
        for group in &found {
            prop_assert!(group.iter().all(|treatment| chained[*treatment] == chained[group[0]]));
        }
        for left in 0..design.treatments() {
            for right in 0..design.treatments() {
                prop_assert_eq!(between.between(left, right).is_some(), chained[left] == chained[right]);
            }
        }
        let one = found.len() == 1;
        prop_assert_eq!(between.mean().is_some(), one);
        prop_assert_eq!(efficiency(&design).unwrap().average > 0.0, one);
    }

    /// Blocks never make a comparison better than no blocks: each difference is at least 1/r + 1/r'.
    #[test]
    fn blocks_cost_something(design in any_design()) {
        let between = differences(&design, Treatments::Fixed).unwrap();
        let plots = design.replication();
        for left in 0..design.treatments() {
            for right in left + 1..design.treatments() {
                let least = 1.0 / plots[left] as f64 + 1.0 / plots[right] as f64;
                prop_assert!(between.between(left, right).is_none_or(|found| least - 1e-9 < found));
            }
        }
    }

    /// Random blocks with a vast variance are fixed blocks; with almost none they are no blocks.
    #[test]
    fn random_blocks_lie_between_none_and_fixed(design in any_design()) {
        let mean = |effect: BlockEffect| {
            let levels = design.blockings()[0].levels.clone();
            let blockings = vec![Blocking { levels, effect }];
            let own = Design::new(design.treatments(), design.plots().to_vec(), blockings).unwrap();
            differences(&own, Treatments::Random { ratio: 1.0 }).unwrap().mean().unwrap()
        };
        let fixed = mean(BlockEffect::Fixed);
        let some = mean(BlockEffect::Random { ratio: 0.5 });
        let none = mean(BlockEffect::Random { ratio: 1e-9 });
        prop_assert!(none - 1e-9 <= some && some <= fixed + 1e-9, "{none} {some} {fixed}");
        let vast = mean(BlockEffect::Random { ratio: 1e7 });
        prop_assert!((vast - fixed).abs() < 1e-5);
    }

    /// A search keeps every plot of every treatment, never makes the sum worse, and says what it judged.
    #[test]
    fn a_search_keeps_the_plots(design in any_design(), ratio in 0.1..5.0) {
        let everywhere = vec![0; design.plots().len()];
        let neighbours: Vec<(usize, usize)> = (1..design.plots().len()).map(|plot| (plot - 1, plot)).collect();
        let ground = Ground { neighbours: &neighbours, ..plain(&design, &everywhere, Treatments::Random { ratio }) };
        let found = looked(&ground, "keeps", 3_000);
        prop_assert_eq!(found.design.replication(), design.replication());
        prop_assert!(found.sum <= judge(&ground).unwrap() + 1e-9);
        let again = judge(&Ground { start: &found.design, ..ground.clone() }).unwrap();
        prop_assert!((again - found.sum).abs() < 1e-7 * again.max(1.0), "{again} is not {}", found.sum);
    }

    /// A search ends where no chain of blocks can join all treatments: rounding never drives it round and round.
    #[test]
    fn a_search_of_what_cannot_be_joined_ends(pairs in 2_usize..8, more in 0_usize..3) {
        let treatments = 2 * pairs;
        let plots: Vec<usize> = (0..treatments).chain(0..2 * more.min(pairs)).collect();
        let levels = (0..plots.len()).map(|plot| plot / 2).collect();
        let design = Design::new(treatments, plots, vec![Blocking::fixed(levels)]).unwrap();
        let everywhere = vec![0; design.plots().len()];
        let found = looked(&plain(&design, &everywhere, Treatments::Fixed), "ends", 2_000);
        prop_assert!(components(&found.design).unwrap().len() <= components(&design).unwrap().len());
    }

    /// The searched sum without faults is the mean variance of a difference, on its own scale.
    #[test]
    fn the_sum_is_the_mean_variance(design in any_design(), ratio in 0.1..5.0) {
        let everywhere = vec![0; design.plots().len()];
        let treatments = Treatments::Random { ratio };
        let sum = judge(&plain(&design, &everywhere, treatments)).unwrap();
        let size = design.treatments() as f64;
        let alone: f64 = design.replication().iter().map(|count| (*count as f64 + ratio.recip()).recip()).sum();
        let mean = differences(&design, treatments).unwrap().mean().unwrap();
        prop_assert!((sum * 2.0 * alone / size - mean).abs() < 1e-8 * mean);
    }
}

/// A block design of 4 replicates: never above its bound, the same for the same seed, whole replicates.
#[test]
fn searched_replicates_stay_whole_below_the_bound() {
    let levels = |size: usize| (0..60).map(|plot| plot / size).collect::<Vec<usize>>();
    let plots = (0..60).map(|plot| plot % 15).collect();
    let start =
        Design::new(15, plots, vec![Blocking::fixed(levels(15)), Blocking::fixed(levels(5))]).unwrap();
    let regions = levels(15);
    let ground = plain(&start, &regions, Treatments::Fixed);
    let found = looked(&ground, "whole", 60_000);
    assert_eq!(found, looked(&ground, "whole", 60_000));
    let average = efficiency(&found.design).unwrap().average;
    assert!(average <= bounds::resolved(15, 4, 3).unwrap() + 1e-12);
    // A square lattice short of one variety; well above four alike replicates, which would not be connected.
    assert!(0.68 < average, "{average}");
    for replicate in found.design.plots().chunks(15) {
        let mut own = replicate.to_vec();
        own.sort_unstable();
        assert_eq!(own, (0..15).collect::<Vec<usize>>());
    }
}

/// Checks that are penned in their block stay there while entries move.
#[test]
fn penned_checks_stay_in_their_block() {
    let start = augmented(23, 2, 4).unwrap();
    let blocks = start.blockings()[0].levels.clone();
    let everywhere = vec![0; blocks.len()];
    let pens = Ground {
        pens: &blocks,
        penned: &[0, 1],
        ..plain(&start, &everywhere, Treatments::Random { ratio: 1.0 })
    };
    let found = looked(&pens, "penned", 20_000);
    for block in 0..4 {
        for check in [0, 1] {
            let own = found
                .design
                .plots()
                .iter()
                .zip(&blocks)
                .filter(|(plot, at)| **plot == check && **at == block);
            assert_eq!(own.count(), 1, "check {check} in block {block}");
        }
    }
}

/// Neighbour faults go where efficiency does not mind: complete blocks with every order equally efficient.
#[test]
fn repeated_neighbours_are_spread() {
    let start = complete_blocks(10, 4).unwrap();
    let regions = start.blockings()[0].levels.clone();
    let neighbours: Vec<(usize, usize)> =
        (1..40).filter(|plot| plot % 10 != 0).map(|plot| (plot - 1, plot)).collect();
    let zones = vec![(0..40).map(|plot| plot % 10 / 2).collect::<Vec<usize>>()];
    let ground =
        Ground { neighbours: &neighbours, zones: &zones, ..plain(&start, &regions, Treatments::Fixed) };
    let found = looked(&ground, "neighbours", 100_000);
    // 36 neighbour pairs among 45, and 4 plots over 5 zones: both can be met without fault.
    assert_eq!((found.itself, found.same_pair, found.same_zone), (0, 0, 0));
}

/// A search ends where its watcher says so, with what it has.
#[test]
fn a_watcher_ends_the_search() {
    let start = partially_replicated(&[2, 2, 1, 1, 1, 3], 2, 3).unwrap();
    let everywhere = vec![0; start.plots().len()];
    let ground = plain(&start, &everywhere, Treatments::Random { ratio: 1.0 });
    let mut told = 0;
    let found = search(&ground, Effort { looks: u64::MAX }, &mut stream(&["watched"]), |standing| {
        told = standing.descents;
        if standing.descents < 3 { ControlFlow::Continue(()) } else { ControlFlow::Break(()) }
    });
    assert_eq!((told, found.unwrap().standing.descents), (3, 3));
}

/// Rows and columns can lose comparisons that blocks alone keep: a 2 x 2 square compares its diagonals only.
#[test]
fn rows_and_columns_lose_what_a_chain_does_not_show() {
    let start = rows_and_columns(2, 2, 1).unwrap();
    assert_eq!(components(&start).unwrap().len(), 4);
    let searched = rows_and_columns(3, 4, 3).unwrap();
    let regions = searched.blockings()[0].levels.clone();
    let found = looked(&plain(&searched, &regions, Treatments::Fixed), "rows", 40_000);
    assert!(efficiency(&searched).unwrap().average <= efficiency(&found.design).unwrap().average);
    assert_eq!(components(&found.design).unwrap().len(), 1);
}

/// A drawn array's design has every treatment once a replicate, blocks that differ by one at most where treatments were
/// left out, and no more efficiency than its bound.
#[test]
fn drawn_arrays_make_resolved_designs() {
    let array = alpha_array(3, 4, 6, &mut stream(&["array"])).unwrap();
    let design = alpha(&array, 6, 22).unwrap();
    let levels = &design.blockings()[1].levels;
    let sizes: Vec<usize> = (0..18).map(|block| levels.iter().filter(|own| **own == block).count()).collect();
    assert_eq!((sizes.iter().min(), sizes.iter().max()), (Some(&3), Some(&4)));
    for replicate in design.plots().chunks(22) {
        let mut own = replicate.to_vec();
        own.sort_unstable();
        assert_eq!(own, (0..22).collect::<Vec<usize>>());
    }
    let whole = efficiency(&alpha(&array, 6, 24).unwrap()).unwrap().average;
    assert!(0.70 < whole && whole <= bounds::resolved(24, 3, 6).unwrap(), "{whole}");
    assert!(alpha(&array, 6, 18).is_err(), "a whole group would be left out");
}

/// Spread over long columns, no treatment stands in one column twice where there are columns enough.
#[test]
fn long_columns_spread_treatments() {
    let start = rows_and_columns(2, 6, 3).unwrap();
    let regions = start.blockings()[0].levels.clone();
    let zones = [long_columns(2, 6, 3)];
    let heavy = Weights { same_zone: 20.0, ..Weights::default() };
    let ground = Ground { zones: &zones, weights: heavy, ..plain(&start, &regions, Treatments::Fixed) };
    assert_eq!(looked(&ground, "long columns", 60_000).same_zone, 0);
}

#[test]
fn senseless_designs_are_refused() {
    let refused = |treatments, plots: &[usize], levels: &[usize]| {
        Design::new(treatments, plots.to_vec(), vec![Blocking::fixed(levels.to_vec())]).unwrap_err()
    };
    assert_eq!(refused(1, &[0], &[0]), DesignFault::TooFew(1));
    assert_eq!(refused(2, &[0, 2], &[0, 0]), DesignFault::Unknown { plot: 1, treatment: 2, treatments: 2 });
    assert_eq!(refused(3, &[0, 2], &[0, 0]), DesignFault::NoPlot(1));
    assert_eq!(refused(2, &[0, 1], &[0]), DesignFault::Lengths { plots: 2, other: 1 });
    assert_eq!(refused(2, &[0, 1], &[0, 7]), DesignFault::Numbering { highest: 7, plots: 2 });
}
