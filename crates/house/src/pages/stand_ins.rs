//! What to take instead of each variety, for a list that is not too long to hold each against each.

use crate::alike::{profiles, words};
use crate::fault::HouseFault;
use crate::guides::Guides;
use crate::list::Listed;
use assortment::standins::{Assortment, Known};
use publish::pages::StandIn;
use rayon::prelude::{IntoParallelIterator, ParallelIterator};

/// Stand-ins that are told. A choice of the pages: a buyer looks at few.
const MOST_TOLD: usize = 4;

/// Varieties up to which stand-ins are looked for: the work grows with the square of the list, and this is some
/// seconds of it. A choice of ours.
const MOST_VARIETIES: usize = 10_000;

/// The stand-ins of every variety, in the order of the list; none of a list that is too long.
pub(super) fn of(all: &[Listed], guides: &Guides) -> Result<Vec<Vec<StandIn>>, HouseFault> {
    if MOST_VARIETIES < all.len() {
        return Ok(vec![Vec::new(); all.len()]);
    }
    let words = words(guides);
    let profiles = profiles(all, &words);
    let assortment = Assortment::new(&profiles, &words)?;
    let near = |place| {
        let found = assortment.nearest(place, MOST_TOLD).into_iter();
        let alike = found.filter(|found| found.known == Known::Enough);
        alike.map(|found| StandIn { entry: found.place, why: found.reasons.to_string() }).collect()
    };
    Ok((0..all.len()).into_par_iter().map(near).collect())
}
