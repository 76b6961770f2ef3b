//! What the page "What is it?" reckons with: the guides, the house's spread, and what is known of the list; each with
//! answers that the science gives, by which a test holds the page to it.

mod class;
mod colour;
mod likeness;
mod plant;

use crate::fault::HouseFault;
use crate::guides::Guides;
use crate::list::Listed;
use identity::spread::Spread;
use publish::pages::what::rule::WhatRule;
use record::language::Units;

/// Everything that the page reckons with.
///
/// # Errors
/// None that a list can bring about; a fault of the comparison would be a slip of this program.
pub(super) fn of(
    guides: &Guides,
    spread: &Spread,
    all: &[Listed],
    units: Units,
) -> Result<WhatRule, HouseFault> {
    Ok(WhatRule {
        class: class::of(&guides.fruit, spread),
        plant: plant::of(&guides.habit, units),
        colour: colour::of(&guides.colour),
        likeness: likeness::of(all, guides)?,
    })
}
