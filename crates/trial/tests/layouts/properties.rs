//! What must hold of any layout.

use crate::made::{candidates, checks, garden, tried};
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use trial::layout::report::{Spread, report};
use trial::layout::{Choice, Entry, Kind, Layout, Role};

/// A wish and ground that is large enough for it.
fn any_wish() -> impl Strategy<Value = (Vec<Entry>, Vec<f64>, Choice)> {
    let kinds = prop_oneof![
        Just(Choice::Best),
        Just(Choice::Asked(Kind::CompleteBlocks)),
        Just(Choice::Asked(Kind::IncompleteBlocks)),
        Just(Choice::Asked(Kind::PartlyReplicated)),
        Just(Choice::Asked(Kind::Augmented)),
    ];
    let lengths = proptest::collection::vec(9.0..40.0_f64, 3..6);
    (4_usize..20, 2_u32..4, 0_usize..4, kinds, lengths).prop_map(|(count, plots, short, kind, lengths)| {
        let mut entries = candidates(count, plots);
        entries.iter_mut().take(short.min(count / 4)).for_each(|entry| entry.plots = plots - 1);
        if kind == Choice::Asked(Kind::Augmented) {
            entries.iter_mut().for_each(|entry| entry.plots = 1);
        }
        entries.extend(checks(2, plots));
        (entries, lengths, kind)
    })
}

/// Plots of each entry.
fn counted(layout: &Layout) -> BTreeMap<usize, u32> {
    let mut counts = BTreeMap::new();
    for planted in layout.plots.iter().filter_map(|plot| plot.planted.as_ref()) {
        *counts.entry(planted.entry).or_insert(0) += 1;
    }
    counts
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    /// Every variety gets its plots, every plot one stake of its own, and the same wish the same layout.
    #[test]
    fn every_variety_gets_its_plots((entries, lengths, kind) in any_wish()) {
        let gardens = [garden("Home", &lengths), garden("Hill", &[24.0, 24.0, 24.0])];
        let Ok(layout) = tried(&entries, &gardens, kind, "seed") else { return Ok(()) };
        let counts = counted(&layout);
        for (at, entry) in entries.iter().enumerate() {
            let blocks = layout.plots.iter().filter_map(|plot| plot.planted.as_ref().map(|own| own.block)).max();
            let wanted = match (layout.kind, entry.role) {
                (Kind::Augmented, Role::Check) => blocks.unwrap(),
                _ => entry.plots,
            };
            prop_assert_eq!(counts.get(&at).copied(), Some(wanted), "{}", &entry.variety);
        }
        let labels: Vec<&str> =
            layout.plots.iter().filter_map(|plot| plot.planted.as_ref().map(|own| own.label.as_str())).collect();
        prop_assert_eq!(labels.iter().collect::<BTreeSet<_>>().len(), labels.len());
        let places: BTreeSet<_> =
            layout.plots.iter().map(|plot| (plot.place.garden, plot.place.row, plot.place.position)).collect();
        prop_assert_eq!(places.len(), layout.plots.len());
        prop_assert_eq!(tried(&entries, &gardens, kind, "seed").unwrap(), layout);
    }

    /// Blocks stay in one bed but for those that are told of, and a variety comes twice in a replicate only if it must.
    #[test]
    fn blocks_keep_to_a_bed((entries, lengths, kind) in any_wish()) {
        let gardens = [garden("Home", &lengths), garden("Hill", &[24.0, 24.0, 24.0])];
        let Ok(layout) = tried(&entries, &gardens, kind, "seed") else { return Ok(()) };
        let mut beds: BTreeMap<u32, BTreeSet<(usize, usize)>> = BTreeMap::new();
        let mut inside: BTreeMap<(u32, usize), usize> = BTreeMap::new();
        for plot in &layout.plots {
            if let Some(planted) = &plot.planted {
                beds.entry(planted.block).or_default().insert((plot.place.garden, plot.place.bed));
                *inside.entry((planted.replicate, planted.entry)).or_default() += 1;
            }
        }
        let across = beds.values().filter(|beds| 1 < beds.len()).count();
        prop_assert!(across <= layout.blocks_across_a_path, "{across} blocks, told {}", layout.blocks_across_a_path);
        if layout.kind != Kind::Augmented {
            prop_assert!(inside.values().all(|count| *count == 1));
        }
    }

    /// Efficiency stays below its bound, errors in order, and half the spread is half the error.
    #[test]
    fn reports_make_sense((entries, lengths, kind) in any_wish()) {
        let gardens = [garden("Home", &lengths), garden("Hill", &[24.0, 24.0, 24.0])];
        let Ok(layout) = tried(&entries, &gardens, kind, "seed") else { return Ok(()) };
        let spread = Spread::usual_yield();
        let whole = report(&layout, &spread).unwrap();
        prop_assert!(whole.efficiency <= whole.bound.unwrap_or(1.0) + 1e-9);
        prop_assert!(whole.errors.0 <= whole.error_of_difference && whole.error_of_difference <= whole.errors.1);
        // Blocks cost something: no pair is better compared than in a trial without any.
        let most = counted(&layout).values().copied().max().unwrap();
        prop_assert!(spread.plots * (2.0 / f64::from(most)).sqrt() <= whole.errors.0 + 1e-9);
        let halved = Spread { plots: spread.plots / 2.0, blocks: spread.blocks / 2.0, ..spread };
        let half = report(&layout, &halved).unwrap();
        prop_assert!((2.0 * half.error_of_difference - whole.error_of_difference).abs() < 1e-9);
        if let (Some(half), Some(found)) = (half.found, whole.found) {
            prop_assert!((2.0 * half - found).abs() < 1e-6 * found);
        }
        for needed in &whole.needed {
            prop_assert!(needed.plots.is_none_or(|plots| whole.plots_each.floor() <= f64::from(plots)));
        }
    }
}

/// Spare plots are left so that three replicates of 12 lie one in each bed of 14.
#[test]
fn replicates_lie_in_one_bed_where_they_fit() {
    let layout =
        tried(&candidates(12, 3), &[garden("Home", &[21.0, 21.0, 21.0])], Choice::Best, "seed").unwrap();
    for plot in &layout.plots {
        if let Some(planted) = &plot.planted {
            assert_eq!(planted.replicate as usize, plot.place.bed + 1);
        }
    }
    assert_eq!(layout.blocks_across_a_path, 0);
}

/// Two gardens take two replicates each: none lies in both.
#[test]
fn gardens_take_whole_replicates() {
    let gardens = [garden("Home", &[30.0, 30.0]), garden("Hill", &[30.0, 30.0])];
    let layout = tried(&candidates(18, 4), &gardens, Choice::Best, "seed").unwrap();
    let mut homes: BTreeMap<u32, BTreeSet<usize>> = BTreeMap::new();
    for plot in &layout.plots {
        if let Some(planted) = &plot.planted {
            homes.entry(planted.replicate).or_default().insert(plot.place.garden);
        }
    }
    assert_eq!(homes.values().map(BTreeSet::len).collect::<Vec<_>>(), [1, 1, 1, 1]);
    assert_eq!(layout.replicates_across_gardens, 0);
}

/// Rows and columns: a field of 4 rows by 6 columns a replicate keeps every variety in it once, and is connected.
#[test]
fn rows_and_columns_are_taken_out() {
    let gardens = [garden("Home", &[18.0, 18.0, 18.0, 18.0, 18.0, 18.0])];
    let kind = Choice::Asked(Kind::RowsAndColumns);
    let layout = tried(&candidates(24, 3), &gardens, kind, "seed").unwrap();
    let report = report(&layout, &Spread::usual_yield()).unwrap();
    assert!(0.4 < report.efficiency && report.efficiency < 1.0, "{}", report.efficiency);
    assert!(counted(&layout).values().all(|count| *count == 3));
}
