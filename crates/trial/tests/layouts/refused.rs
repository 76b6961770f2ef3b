//! Wishes that cannot be met, and the words for it.

use crate::made::{briefly, candidates, checks, garden, planting, tried};
use trial::layout::fault::LayoutFault;
use trial::layout::{Choice, Entry, Kind, Request, Role, USUAL_VARIETY_RATIO, lay_out};

#[track_caller]
fn refused(entries: &[Entry], kind: Choice, message: &str, help: &str) {
    let fault = tried(entries, &[garden("Home", &[18.0, 18.0])], kind, "refused").unwrap_err();
    assert_eq!((fault.to_string().as_str(), fault.help().as_str()), (message, help));
}

#[test]
fn wishes_beyond_reason_are_refused_in_words() {
    refused(
        &candidates(10, 3),
        Choice::Best,
        "30 plots are wanted, and the ground has room for 24",
        "take fewer plots or varieties, plant fewer plants in a plot, or add a bed",
    );
    let mut twice = candidates(4, 2);
    twice[3].variety = "trial-2".to_owned();
    refused(
        &twice,
        Choice::Best,
        "\"trial-2\" is named twice",
        "name each variety once and say how many plots it should have",
    );
    refused(
        &candidates(8, 1),
        Choice::Asked(Kind::Augmented),
        "augmented blocks need at least two checks, and there are 0",
        "mark at least two varieties as checks, or give varieties more plots",
    );
    refused(
        &candidates(8, 1),
        Choice::Best,
        "no variety has a second plot, so nothing tells a variety from its ground",
        "give varieties two plots, or mark at least two varieties as checks",
    );
    let mut short = candidates(5, 3);
    short[1].plants = Some(14);
    refused(
        &short,
        Choice::Best,
        "\"Trial 2\": seed for 14 plants, but 3 plots take 18",
        "give it 2 plots, or plant fewer plants in a plot",
    );
    refused(
        &candidates(1, 3),
        Choice::Best,
        "1 varieties leave nothing to compare",
        "name at least two varieties",
    );
}

/// A check that has seed for fewer plots than there are augmented blocks.
#[test]
fn checks_need_seed_for_every_block() {
    let mut entries = candidates(10, 1);
    let scarce = Entry { variety: "Scarce".to_owned(), plots: 1, role: Role::Check, plants: Some(12) };
    entries.extend([checks(1, 1).remove(0), scarce]);
    let fault = tried(&entries, &[garden("Home", &[30.0, 30.0])], Choice::Best, "checks").unwrap_err();
    assert!(matches!(fault, LayoutFault::Seed { variety, enough_for: 2, .. } if variety == "Scarce"));
}

/// Blocks that no chain joins are told of by the varieties that they leave out.
#[test]
fn blocks_that_cut_the_trial_apart_are_refused() {
    let entries = candidates(9, 2);
    let planting = planting();
    let gardens = [garden("Home", &[27.0])];
    let request = Request {
        entries: &entries,
        gardens: &gardens,
        planting: &planting,
        kind: Choice::Asked(Kind::IncompleteBlocks),
        block_size: Some(1),
        variety_ratio: USUAL_VARIETY_RATIO,
        seed: "apart",
    };
    let fault = lay_out(&request, briefly).unwrap_err();
    assert_eq!(fault.to_string(), "blocks of 1 plots do not suit: they must hold at least 2 and at most 9");
    let whole = lay_out(&Request { block_size: Some(9), ..request }, briefly);
    assert!(whole.is_ok(), "{whole:?}");
    // Ten plots in blocks of two make five comparisons, and nine varieties need eight.
    let mut once = candidates(9, 1);
    once[0].plots = 2;
    let apart = lay_out(&Request { entries: &once, block_size: Some(2), ..request }, briefly).unwrap_err();
    assert!(matches!(&apart, LayoutFault::Disconnected(_)), "{apart:?}");
    assert!(
        apart
            .to_string()
            .ends_with("cannot be compared with the other varieties: no chain of blocks joins them")
    );
}
