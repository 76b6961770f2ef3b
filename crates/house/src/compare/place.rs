//! Where plots lie beside each other: row and column of each, by which a trend of the ground is told.

use record::growout::Plot;
use record::id::Id;
use record::length::Millimetres;
use std::collections::HashMap;
use trial::compare::Place;

/// The places of plots that say in which row they lie, and where along it.
///
/// A plot that says where it begins takes the column there, in steps of the usual length of a plot, so that plots side
/// by side have one column even where a row begins with a tap or a path; one that only has a number in its row takes
/// that.
pub(super) fn places<'a>(plots: impl Iterator<Item = &'a Plot> + Clone) -> HashMap<Id<Plot>, Place> {
    let length = usual_length(plots.clone());
    let place = |plot: &Plot| Some((plot.id, Place { row: plot.row?, column: column(plot, length)? }));
    plots.filter_map(place).collect()
}

/// The middle length of plots that say where they begin and end.
fn usual_length<'a>(plots: impl Iterator<Item = &'a Plot>) -> Option<f64> {
    let length = |plot: &Plot| Some(plot.layout.to?.get() - plot.layout.from?.get());
    let mut lengths: Vec<f64> = plots.filter_map(length).filter(|length| 0.0 < *length).collect();
    lengths.sort_by(f64::total_cmp);
    lengths.get(lengths.len() / 2).copied()
}

fn column(plot: &Plot, length: Option<f64>) -> Option<u32> {
    let begins = plot.layout.from.map(Millimetres::get).zip(length);
    match begins {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to 0 to 10,000")]
        Some((from, length)) => Some((from / length).round().clamp(0.0, 10_000.0) as u32 + 1),
        None => plot.position,
    }
}
