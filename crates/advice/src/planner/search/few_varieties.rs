//! A garden of few varieties: planted as if there were no bound on them, and then done without one after the other, each time
//! the one that is least missed.
//!
//! Adding plants one by one keeps to the varieties that it began with, which suit the first weeks; this begins from what
//! suits all of them. Start at [`planted`].

use super::{Garden, Worth};
use std::collections::BTreeSet;

/// Plants a garden that keeps to the count of varieties, whatever else it lacks.
pub(super) fn planted<'a>(empty: &Garden<'a>) -> Garden<'a> {
    let mut free = Garden { most_varieties: usize::MAX, ..empty.clone() };
    free.put_in();
    while empty.most_varieties < names(&free).len() {
        let wanted = &empty.request.wanted;
        let may_go: Vec<&str> =
            names(&free).into_iter().filter(|name| !wanted.iter().any(|own| own == name)).collect();
        let without = may_go.into_iter().map(|name| without(&free, name));
        let Some((_, rest)) = without.min_by(|one, other| compared(one.0, other.0)) else { break };
        free = rest;
    }
    Garden { most_varieties: empty.most_varieties, ..free }
}

/// The same garden without a variety, filled up with those that it has.
fn without<'a>(garden: &Garden<'a>, name: &str) -> (Worth, Garden<'a>) {
    let mut rest = garden.clone();
    let choices = garden.supply.choices();
    for (choice, _) in choices.iter().enumerate().filter(|(_, choice)| choice.variety == name) {
        while rest.plants.get(choice).is_some_and(|plants| 0 < *plants) {
            rest.change(choice, -1);
        }
    }
    // As many as it has now are all that it may have.
    rest.most_varieties = names(&rest).len();
    rest.put_in();
    (rest.worth(), rest)
}

fn compared(one: Worth, other: Worth) -> std::cmp::Ordering {
    one.partial_cmp(&other).unwrap_or(std::cmp::Ordering::Equal)
}

/// Varieties that have plants.
fn names<'a>(garden: &Garden<'a>) -> BTreeSet<&'a str> {
    let all = garden.supply.choices().iter().zip(&garden.plants);
    all.filter(|(_, plants)| 0 < **plants).map(|(choice, _)| choice.variety.as_str()).collect()
}
