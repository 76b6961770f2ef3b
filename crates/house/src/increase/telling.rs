//! The words that every screen tells an increase in.

use super::{Increase, RestsOn, Weighed};
use crate::next::telling::isolation;
use record::language::{System, Units, chance, counted, grouped, mass};

/// The answer in sentences, the number of plants first.
#[must_use]
pub fn words(found: &Increase, units: Units) -> Vec<String> {
    let mut words = vec![plants(found), seeds(found)];
    words.push(match found.rests_on {
        RestsOn::OwnLots(lots) => {
            format!("By {} of this variety, whose parents and seed were counted.", counted(lots as u64, "lot", "lots"))
        }
        RestsOn::OwnPicks(plots) => format!(
            "By fruit counted on {} of this variety, and the usual seeds of its kind of fruit: note parents and seed weight \
             of your lots to be surer.",
            counted(plots as u64, "plot", "plots")
        ),
        RestsOn::Usual => format!(
            "By what is usual of {}, as nobody has counted seed or fruit of this variety: note parents and seed weight of \
             your lots to be surer.",
            found.class.as_deref().map_or_else(|| "tomatoes".to_owned(), |class| format!("a {class}"))
        ),
    });
    if let Some((seed, (low, high))) = found.seed {
        let by = match found.thousand.1 {
            Weighed::OwnLot => "by the seed weight of your newest lot",
            Weighed::No => "by the usual seed weight, as no lot of it was weighed",
        };
        words.push(format!(
            "They are expected to give {} of seed; 8 times in 10 between {} and {}, {by}.",
            mass(seed, units),
            mass(low, units),
            mass(high, units)
        ));
    }
    words.push(format!("They take {} of bed.", area(found.bed_m2, units)));
    words.extend(found.isolation.as_ref().map(|own| format!("Isolation: {}.", isolation(own, units))));
    words
}

fn plants(found: &Increase) -> String {
    let plants = counted(found.planned.plants, "plant", "plants");
    let fruits = found.fruits().map(|fruits| format!(", saving {}", counted(fruits, "fruit", "fruits")));
    format!("{}: grow {plants}{}.", found.variety, fruits.unwrap_or_default())
}

fn seeds(found: &Increase) -> String {
    let (middle, (low, high)) = found.seeds_a_plant;
    let whole = |seeds: f64| {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "seeds of a plant")]
        grouped(seeds.round() as u64)
    };
    format!(
        "That is {} for {} of {} each and those besides, {} sure to suffice; a plant gives about {} ({} to {}).",
        counted(found.planned.seeds, "seed", "seeds"),
        counted(found.wanted.packets.into(), "packet", "packets"),
        counted(found.wanted.seeds_each.into(), "seed", "seeds"),
        chance(found.wanted.sure),
        whole(middle),
        whole(low),
        whole(high)
    )
}

/// Square feet of a square metre.
const SQUARE_FEET: f64 = 10.763_910_416_709_722;

fn area(m2: f64, units: Units) -> String {
    let (metric, us) = (format!("{m2:.1} m²"), format!("{:.0} sq ft", m2 * SQUARE_FEET));
    match units.first {
        System::Us => format!("{us} ({metric})"),
        System::Metric => format!("{metric} ({us})"),
    }
}
