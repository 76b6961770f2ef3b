//! Plants of one lot or variety that fall into two kinds: mixed seed, or two varieties under one name.
//!
//! A lot of two kinds hides from the search for single strangers, as those of one kind make each other look usual. Start at
//! [`two_kinds`]. Two groups are told where one population hardly parts so well by chance; sick ground at one end of a bed parts
//! plants too, so that the plants are looked at and not only believed.

use super::plot::{Measured, PlantOf, PlotFault, logarithms};
use record::share::Share;
use statistics::two_groups::{Chance, FEWEST_ROWS, parted};
use std::collections::BTreeMap;

/// Samples that a chance is drawn from: enough to tell 1 in 100 from 1 in 1000.
const SAMPLES: u32 = 1999;

/// Chances that were drawn, kept for the next plants of the same number.
#[derive(Debug, Default)]
pub struct Drawn(BTreeMap<(usize, usize), Option<Chance>>);

/// Plants of two kinds.
#[derive(Clone, Debug, PartialEq)]
pub struct TwoKinds {
    /// The plants of the smaller group.
    pub fewer: Vec<PlantOf>,
    /// The middle of each measure in the smaller group and in the rest, in the order of the measures.
    pub middles: Vec<(f64, f64)>,
    /// How often plants of one kind part as well by chance.
    pub chance: Share,
}

/// Says whether plants are of two kinds; `None` where they are not, or too few to tell.
///
/// Measures are compared by their logarithms, as fruit differs by parts and not by grams.
///
/// # Shape
/// `plants`: of one or two measures each, in any order. Fewer than six are too few to tell.
///
/// # Errors
/// [`PlotFault::Measures`] for plants with unlike measures.
pub fn two_kinds(
    plants: &[Measured],
    seldom: Share,
    drawn: &mut Drawn,
) -> Result<Option<TwoKinds>, PlotFault> {
    let rows = logarithms(plants)?;
    if rows.len() < FEWEST_ROWS {
        return Ok(None);
    }
    let measures = rows.first().map_or(0, Vec::len);
    let chance = drawn.0.entry((rows.len(), measures));
    let chance = chance.or_insert_with(|| Chance::drawn(rows.len(), measures, SAMPLES));
    let found = chance.as_ref().and_then(|chance| parted(&rows, chance));
    let Some(found) = found.filter(|found| found.chance <= seldom) else { return Ok(None) };
    let is_fewer = |place: usize| found.smaller.contains(&place);
    let middle = |measure: usize, fewer: bool| {
        let own = rows.iter().enumerate().filter(|(place, _)| is_fewer(*place) == fewer);
        let own: Vec<f64> = own.filter_map(|(_, row)| row.get(measure).copied()).collect();
        (own.iter().sum::<f64>() / f64::from(u32::try_from(own.len()).unwrap_or(u32::MAX))).exp()
    };
    let fewer = plants.iter().enumerate().filter(|(place, _)| is_fewer(*place));
    Ok(Some(TwoKinds {
        fewer: fewer.map(|(_, plant)| plant.plant).collect(),
        middles: (0..measures).map(|measure| (middle(measure, true), middle(measure, false))).collect(),
        chance: found.chance,
    }))
}
