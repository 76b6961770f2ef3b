//! Gardens, varieties and layouts for the tests.

use record::length::Millimetres;
use statistics::design::search::Standing;
use std::ops::ControlFlow;
use trial::ground::{Bed, Garden, Planting};
use trial::layout::fault::LayoutFault;
use trial::layout::{Choice, Entry, Layout, Request, Role, USUAL_VARIETY_RATIO, lay_out};

pub(crate) fn metres(metres: f64) -> Millimetres {
    Millimetres::new(metres * 1000.0).unwrap()
}

/// A bed 1.2 m wide with a path of 0.6 m after it.
pub(crate) fn bed(name: &str, length: f64) -> Bed {
    let unusable = Vec::new();
    Bed {
        name: name.to_owned(),
        length: metres(length),
        width: metres(1.2),
        path_after: metres(0.6),
        unusable,
    }
}

/// A garden of beds, named by their number.
pub(crate) fn garden(name: &str, lengths: &[f64]) -> Garden {
    let beds = lengths.iter().enumerate().map(|(at, length)| bed(&format!("Bed {}", at + 1), *length));
    Garden { name: name.to_owned(), beds: beds.collect() }
}

/// Six plants half a metre apart in one row: a plot is 3 m long, a bed 1.2 m wide holds two rows.
pub(crate) fn planting() -> Planting {
    Planting {
        plants_per_plot: 6,
        between_plants: metres(0.5),
        between_rows: metres(0.6),
        rows_per_plot: 1,
        guards_at_ends: 0,
        guard_rows: 0,
    }
}

/// `count` candidates named by letters and numbers, with the same number of plots.
pub(crate) fn candidates(count: usize, plots: u32) -> Vec<Entry> {
    let entry = |at| Entry { variety: format!("Trial {at}"), plots, role: Role::Candidate, plants: None };
    (1..=count).map(entry).collect()
}

/// Checks named by number.
pub(crate) fn checks(count: usize, plots: u32) -> Vec<Entry> {
    let entry = |at| Entry { variety: format!("Check {at}"), plots, role: Role::Check, plants: None };
    (1..=count).map(entry).collect()
}

/// Asks for a layout and looks for a few descents only.
pub(crate) fn tried(
    entries: &[Entry],
    gardens: &[Garden],
    kind: Choice,
    seed: &str,
) -> Result<Layout, LayoutFault> {
    let planting = planting();
    let request = Request {
        entries,
        gardens,
        planting: &planting,
        kind,
        block_size: None,
        variety_ratio: USUAL_VARIETY_RATIO,
        seed,
    };
    lay_out(&request, briefly)
}

/// Ends a search after three descents.
pub(crate) fn briefly(standing: &Standing) -> ControlFlow<()> {
    if standing.descents < 3 { ControlFlow::Continue(()) } else { ControlFlow::Break(()) }
}
