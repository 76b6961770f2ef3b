//! How true the plants of one lot have been: off-types by kind, an upper limit, and what the numbers let pass.
//!
//! Never says "true": a count gives an upper limit. Start at [`true_to_type`].

use crate::germination::SURE;
use crate::trueness::classes::{CLASSES, Class, ClassFault, Field, Neighbour, faults};
use crate::trueness::off_types::{acceptance_number, passes, upper_limit};
use record::lot::{Lot, LotNote, OffType};
use record::share::Share;
use std::collections::BTreeMap;

/// Share of off-types that the population standard lets stand. Source: rule of the UPOV test guidelines for self-fertilised
/// crops, 1 per cent for tomato (TG/44), from memory, unverified.
const STANDARD: f64 = 0.01;

/// Share of off-types of the poor lot that the buyer's risk is told for. Common practice, no source.
const POOR: f64 = 0.05;

/// What inspections of a lot's plants say.
#[derive(Clone, Debug, PartialEq)]
pub struct TrueToType {
    /// Plants looked at in all.
    pub plants: u32,
    /// Off-types, the most frequent kind first.
    pub off_types: Vec<OffType>,
    /// The share of off-types that the lot has at most, 95 in 100 sure.
    pub at_most: Share,
    /// Off-types that the standard lets stand among so many plants.
    pub accepted: u32,
    /// What the standard makes of it.
    pub verdict: TypeVerdict,
    /// How often a lot of 5 off-types in 100 passes all the same.
    pub poor_passes: Share,
    /// The certified classes, with what known figures keep the lot from each.
    pub classes: Vec<(Class, Vec<ClassFault>)>,
}

/// What a population standard makes of a lot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TypeVerdict {
    /// No more off-types than the standard lets stand.
    Within,
    /// More: rogue, and look at more plants.
    Beyond,
}

/// Adds up the inspections among notes; `None` where no plant was looked at.
#[must_use]
pub fn true_to_type(lot: &Lot, notes: &[LotNote]) -> Option<TrueToType> {
    let mut plants = 0_u32;
    let mut by_kind: BTreeMap<&str, u32> = BTreeMap::new();
    for note in notes {
        let LotNote::Inspection(inspection) = note else { continue };
        plants = plants.saturating_add(inspection.plants);
        for off_type in &inspection.off_types {
            let so_far = by_kind.entry(&off_type.kind).or_default();
            *so_far = so_far.saturating_add(off_type.plants);
        }
    }
    let seen = by_kind.values().fold(0_u32, |sum, plants| sum.saturating_add(*plants)).min(plants);
    let (standard, poor) = (Share::new(STANDARD)?, Share::new(POOR)?);
    let accepted = acceptance_number(plants, standard, SURE.share());
    let mut off_types: Vec<OffType> =
        by_kind.into_iter().map(|(kind, plants)| OffType { kind: kind.to_owned(), plants }).collect();
    off_types.sort_by_key(|kind| std::cmp::Reverse(kind.plants));
    Some(TrueToType {
        plants,
        off_types,
        at_most: upper_limit(seen, plants, SURE.share())?,
        accepted,
        verdict: if seen <= accepted { TypeVerdict::Within } else { TypeVerdict::Beyond },
        poor_passes: passes(plants, accepted, poor),
        classes: classes(lot, seen, plants),
    })
}

fn classes(lot: &Lot, seen: u32, plants: u32) -> Vec<(Class, Vec<ClassFault>)> {
    let nearest = lot.origin.isolation.map(|away| (Neighbour::OtherVariety, away));
    let field = Field { nearest, off_types: Some((seen, plants)), in_seed: None };
    CLASSES.into_iter().map(|class| (class, faults(class, &field))).collect()
}
