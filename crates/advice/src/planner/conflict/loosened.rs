//! Requests with one demand loosened, for gardens that are too large for the integer program: what is found frees the request,
//! and nothing says that less would not.
//!
//! Start at [`way`].

use super::{Change, Way};
use crate::planner::request::{Demand, Request, Wish};
use crate::planner::search::search_quickly;
use crate::planner::supply::{Room, Supply};
use record::share::Share;
use std::collections::BTreeSet;

/// Halvings of the way to what can be had: to a sixteenth of what is asked.
const HALVINGS: u32 = 4;
/// Square metres that no garden has.
const BOUNDLESS: f64 = 1e6;

/// The request with none but these demands.
pub(super) fn held_to(request: &Request, held: &[Demand]) -> Request {
    let others = request.demands().into_iter().filter(|demand| !held.contains(demand));
    let gone: BTreeSet<Demand> = others.collect();
    let kept = |place: &usize| !gone.contains(&Demand::Wish(*place));
    let wishes = request.wishes.iter().enumerate().filter(|(place, _)| kept(place));
    let wanted =
        request.wanted.iter().enumerate().filter(|(place, _)| !gone.contains(&Demand::Wanted(*place)));
    Request {
        wishes: wishes.map(|(_, wish)| wish.clone()).collect(),
        wanted: wanted.map(|(_, name)| name.clone()).collect(),
        bed: if gone.contains(&Demand::Bed) { BOUNDLESS } else { request.bed },
        containers: if gone.contains(&Demand::Containers) { u32::MAX } else { request.containers },
        most_varieties: if gone.contains(&Demand::MostVarieties) { u32::MAX } else { request.most_varieties },
        sure: if gone.contains(&Demand::Sure) { Share::NONE } else { request.sure },
        ..request.clone()
    }
}

/// A change of one demand that was found to free the request.
pub(super) fn way(supply: &Supply, request: &Request, demand: Demand) -> Way {
    let rest: Vec<Demand> = request.demands().into_iter().filter(|other| *other != demand).collect();
    let change = match demand {
        Demand::Wish(place) => most_of_wish(supply, request, place).map(Change::Kilograms),
        Demand::Sure => most_years(supply, request).map(Change::Years),
        _ => search_quickly(supply, &held_to(request, &rest)).map(|plants| taken(supply, &plants, demand)),
    };
    change.map_or(Way::Unsettled, Way::Enough)
}

/// What a found garden takes of what a demand bounds.
fn taken(supply: &Supply, plants: &[u32], demand: Demand) -> Change {
    let standing = || supply.choices().iter().zip(plants).filter(|(_, plants)| 0 < **plants);
    match demand {
        Demand::Bed => Change::Bed(
            standing()
                .filter_map(|(choice, plants)| match choice.room {
                    Room::Bed(area) => Some(area * f64::from(*plants)),
                    Room::Container => None,
                })
                .sum(),
        ),
        Demand::Containers => Change::Containers(
            standing().filter(|(choice, _)| choice.room == Room::Container).map(|(_, plants)| *plants).sum(),
        ),
        Demand::MostVarieties => {
            let names: BTreeSet<&str> = standing().map(|(choice, _)| choice.variety.as_str()).collect();
            Change::Varieties(u32::try_from(names.len()).unwrap_or(u32::MAX))
        }
        Demand::Wanted(_) | Demand::Wish(_) | Demand::Sure => Change::DoWithout,
    }
}

/// Kilograms of a wish that were found to be had beside all else.
fn most_of_wish(supply: &Supply, request: &Request, place: usize) -> Option<f64> {
    let asked = request.wishes.get(place)?.kilograms();
    let (mut had, mut not_had) = (None, asked);
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(had.unwrap_or(0.0), not_had);
        let mut less = request.clone();
        if let Some(wish) = less.wishes.get_mut(place) {
            match wish {
                Wish::Kitchen { kilograms, .. } | Wish::Fresh { kilograms, .. } => *kilograms = middle,
            }
        }
        if search_quickly(supply, &less).is_some() {
            had = Some(middle);
        } else {
            not_had = middle;
        }
    }
    had
}

/// Sampled years in which all was found to be had.
fn most_years(supply: &Supply, request: &Request) -> Option<u32> {
    let all = u32::try_from(supply.years()).ok().filter(|all| 0 < *all)?;
    let (mut had, mut not_had) = (None, all);
    while 1 < not_had - had.unwrap_or(0) {
        let middle = had.unwrap_or(0).midpoint(not_had);
        let fewer = Request { sure: Share::new(f64::from(middle) / f64::from(all))?, ..request.clone() };
        if search_quickly(supply, &fewer).is_some() {
            had = Some(middle);
        } else {
            not_had = middle;
        }
    }
    had
}
