//! Varieties that a garden could have in the place of one that it has, for nearly as few plants.
//!
//! Start at [`alternatives`].

use super::request::Request;
use super::search::search_from;
use super::shortlist::best_overall;
use super::supply::Supply;
use super::watch::Watch;
use super::year::Wants;
use rayon::prelude::{IntoParallelIterator, ParallelIterator};
use std::collections::BTreeSet;

/// How many more plants a garden with the other variety may have: 5 in 100.
const NEARLY: f64 = 1.05;

/// A variety that could stand there in the place of another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Alternative {
    /// The variety.
    pub variety: String,
    /// The one that goes.
    pub instead_of: String,
    /// Plants in all then; perhaps fewer would do.
    pub total: u32,
}

/// Changes of one variety for another after which a garden still keeps every wish with at most a twentieth more plants, fewest
/// plants first; for each variety the best change; and all gardens that were found so.
///
/// Only varieties that bear most of their class are tried, each for every planted one of its class. What is found is a garden
/// that does it; that a variety is not listed proves nothing.
pub(super) fn alternatives(
    supply: &Supply,
    request: &Request,
    plants: &[u32],
    watch: &dyn Watch,
) -> (Vec<Alternative>, Vec<Vec<u32>>) {
    let wants = Wants::of(supply, request);
    let choices = supply.choices();
    let named =
        |place: &usize| choices.get(*place).map(|choice| (choice.variety.as_str(), choice.class.as_str()));
    let planted: BTreeSet<(&str, &str)> = (0..plants.len())
        .filter(|place| plants.get(*place).is_some_and(|own| 0 < *own))
        .filter_map(|place| named(&place))
        .collect();
    let others: BTreeSet<(&str, &str)> =
        best_overall(supply, request, &wants).iter().filter_map(named).collect();
    let may_come = |(name, _): &(&str, &str)| {
        !request.barred.iter().any(|barred| barred == name) && !planted.iter().any(|(own, _)| own == name)
    };
    let may_go = |name: &str| !request.wanted.iter().any(|wanted| wanted == name);
    let changes: Vec<(&str, &str)> = others
        .into_iter()
        .filter(may_come)
        .flat_map(|(name, class)| {
            let own = planted.iter().filter(move |(own, of)| *of == class && may_go(own));
            own.map(move |(own, _)| (name, *own))
        })
        .collect();
    let most = f64::from(plants.iter().sum::<u32>()) * NEARLY;
    let changed = changes
        .into_par_iter()
        .filter(|_| !watch.is_stopped())
        .filter_map(|change| changed(supply, request, plants, change));
    let (mut found, gardens): (Vec<Alternative>, Vec<Vec<u32>>) = changed.unzip();
    found.retain(|own| f64::from(own.total) <= most);
    found.sort_by(|one, other| {
        (one.total, &one.variety, &one.instead_of).cmp(&(other.total, &other.variety, &other.instead_of))
    });
    let mut seen = BTreeSet::new();
    found.retain(|own| seen.insert(own.variety.clone()));
    (found, gardens)
}

/// The garden with one variety in the place of another, as few plants as a short search finds.
fn changed(
    supply: &Supply,
    request: &Request,
    plants: &[u32],
    (comes, goes): (&str, &str),
) -> Option<(Alternative, Vec<u32>)> {
    let mut asked = request.clone();
    asked.wanted.push(comes.to_owned());
    asked.barred.push(goes.to_owned());
    let garden = search_from(supply, &asked, plants)?;
    let total = garden.iter().sum();
    Some((Alternative { variety: comes.to_owned(), instead_of: goes.to_owned(), total }, garden))
}
