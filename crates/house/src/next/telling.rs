//! The words that every screen tells the next grow-out in.

use super::flowers::{Flowers, Isolation};
use super::told::{Lasts, LeftFor, LotTold, More, Next};
use crate::increase::{Class, Neighbour};
use crate::lots::telling::known_by;
use record::language::{Units, counted, distance};
use record::length::Millimetres;
use sowing::need::Reason;
use std::collections::BTreeMap;

/// What one reason says.
#[must_use]
pub fn reason(reason: &Reason) -> String {
    let worth = packets(reason.packets());
    match reason {
        Reason::StockLow { .. } => format!("stock is low: {worth} would be missing"),
        Reason::SeedOld { .. } => format!("seed grows old: {worth} would be missing for it"),
        Reason::Later { .. } => format!("later years would want {worth}, counted at their part"),
        Reason::Contested { calls, .. } => {
            let calls = counted(*calls as u64, "call is contested", "calls are contested");
            format!("{calls}: worth {worth} to settle")
        }
        Reason::Thin { .. } => format!("evidence is thin: worth {worth} to have more"),
        Reason::Wished { .. } => format!("it was asked for: worth {worth}"),
        Reason::OnlyOne { .. } => {
            format!("it is the only one of its habit, class and colour, and may run out: worth {worth}")
        }
    }
}

/// A number of packets in whole ones, or fewer than one in words.
#[must_use]
pub fn packets(packets: f64) -> String {
    if packets < 1.0 {
        return "less than a packet".to_owned();
    }
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "above nothing and rounded")]
    counted(packets.round() as u64, "packet", "packets")
}

/// What a lot's seed says.
#[must_use]
pub fn lot(lot: &LotTold) -> String {
    let makes = counted(lot.packets.into(), "packet", "packets");
    match lot.lasts {
        Lasts::Yes => format!("lot {}: {makes}", lot.number),
        Lasts::Under => format!("lot {}: {makes}, under the minimum by its last test", lot.number),
        Lasts::FallsUnder(about) => format!(
            "lot {}: {makes}, expected to fall under the minimum about {}",
            lot.number,
            about.strftime("%B %Y")
        ),
        Lasts::NotKnown => {
            format!("lot {}: {makes}, of which nobody knows how long it keeps", lot.number)
        }
    }
}

/// Why a variety is left out.
#[must_use]
pub fn left_for(left: LeftFor) -> &'static str {
    match left {
        LeftFor::Ground => "others are worth more on this ground",
        LeftFor::Apart => "its flowers cross readily, and no more varieties can be kept apart",
    }
}

/// How far seed of a variety must stand from other tomatoes, and what the law asks of classed seed.
#[must_use]
pub fn isolation(of: &Isolation, units: Units) -> String {
    let class = match of.flowers {
        Flowers::Closed => Class::Certified,
        Flowers::Open => Class::Foundation,
    };
    let law = Millimetres::new(class.isolation_mm(Neighbour::OtherVariety));
    let law =
        law.map(|far| format!("; 7 CFR 201.76 asks {} of {} seed", distance(far, units), class_named(class)));
    let bagged = match of.flowers {
        Flowers::Closed => "",
        Flowers::Open => ", or its trusses bagged, as its flowers cross readily",
    };
    format!(
        "{} from other tomatoes{bagged} ({}, {}; guide isolation.toml){}",
        distance(of.away, units),
        of.flower,
        known_by(of.known_by),
        law.unwrap_or_default()
    )
}

/// The isolation of all that is grown for seed, each kind of it said once: of whom, and what [`isolation`] says. The kind that
/// most share comes last, as that of all others.
#[must_use]
pub fn isolations(next: &Next, units: Units) -> Vec<String> {
    let mut kinds: BTreeMap<String, Vec<&str>> = BTreeMap::new();
    for row in next.grown.iter().filter(|row| 0.0 < row.seed) {
        if let Some(own) = &row.isolation {
            kinds.entry(isolation(own, units)).or_default().push(&row.variety);
        }
    }
    let mut kinds: Vec<(String, Vec<&str>)> = kinds.into_iter().collect();
    kinds.sort_by_key(|(_, whose)| whose.len());
    let Some((most, _)) = kinds.pop() else { return Vec::new() };
    let others = if kinds.is_empty() { "All that is grown for seed" } else { "All others" };
    let told = kinds.into_iter().map(|(words, whose)| format!("{}: {words}", whose.join(", ")));
    told.chain([format!("{others}: {most}")]).collect()
}

fn class_named(class: Class) -> &'static str {
    match class {
        Class::Foundation => "foundation",
        Class::Registered => "registered",
        Class::Certified => "certified",
    }
}

/// What a bed more would bring.
#[must_use]
pub fn more(more: &More) -> String {
    let plots = counted(more.plots.into(), "plot", "plots");
    if more.brings.is_empty() {
        return format!("A bed more, of {plots}, would bring nothing.");
    }
    let brings: Vec<String> = more
        .brings
        .iter()
        .map(|(name, plots)| format!("{name} ({})", counted((*plots).into(), "plot", "plots")))
        .collect();
    format!("A bed more, of {plots}, would be worth {}: {}.", packets(more.packets), brings.join(", "))
}

/// How good the choice is.
#[must_use]
pub fn proof(next: &Next) -> String {
    let worth = packets(next.worth);
    let better = match next.bound - next.worth {
        none if none < SHOWS => "is worth more".to_owned(),
        little if little < 1.0 => "is worth a packet more".to_owned(),
        much => format!("is worth over {} more", packets(much)),
    };
    format!("All together is worth {worth}; no other choice on this ground {better}.")
}

/// A part of a packet that does not show.
const SHOWS: f64 = 1e-6;
