//! The rogue list in words.

use super::{Measures, Suspect, Why};
use crate::lots::telling::in_100;
use record::language::counted;
use std::collections::BTreeMap;

/// What every screen of the list says beside it.
pub const NOTICE: &str = "A plant that stands here may be an off-type, a sick plant, a wrong stake or a slip of the scale: look at it \
    before you pull it. One that does not stand here may still be an off-type. Rogue before flowering where you can; after it, \
    discard the trusses of neighbours that may have crossed too (common practice, no source).";

/// Which plants, and where.
#[must_use]
pub fn place(suspect: &Suspect) -> String {
    let mut by_plot: BTreeMap<Option<&str>, Vec<u32>> = BTreeMap::new();
    for spot in &suspect.spots {
        by_plot.entry(spot.plot.as_deref()).or_default().extend(spot.plant);
    }
    let told = by_plot.into_iter().map(|(plot, plants)| {
        let numbers: Vec<String> = plants.iter().map(u32::to_string).collect();
        let plants = match numbers.as_slice() {
            [] => None,
            [one] => Some(format!("plant {one}")),
            _ => Some(format!("plants {}", numbers.join(", "))),
        };
        match (plants, plot) {
            (Some(plants), Some(plot)) => format!("{plants} of plot {plot}"),
            (None, Some(plot)) => format!("plot {plot}"),
            (Some(plants), None) => format!("{plants} of a plot that was not told"),
            (None, None) => "no plot was told".to_owned(),
        }
    });
    let told = told.collect::<Vec<_>>().join("; ");
    match &suspect.grow_out {
        Some(grow_out) => format!("{told}, {grow_out}"),
        None => format!("{told}, season {}", suspect.season),
    }
}

/// Why they stand there.
#[must_use]
pub fn why(suspect: &Suspect) -> String {
    match &suspect.why {
        Why::Seen { plants, words, on } => {
            let plants = counted(u64::from(*plants), "off-type", "off-types");
            let on = on.map(|on| format!(" on {on}")).unwrap_or_default();
            let words = if words.is_empty() { String::new() } else { format!(": {words}") };
            format!("{plants} seen on a walk{on}{words}")
        }
        Why::UnlikeVariety(words) => format!("fruit unlike its variety: {words}"),
        Why::Stranger { chance, measures } => format!(
            "{} unlike the plants beside it; the farthest of so many like plants lies so far out {}",
            compared(*measures),
            in_100(*chance)
        ),
        Why::TwoKinds { kinds, measures } => {
            let grams = kinds.middles.first().map_or((0.0, 0.0), |middle| *middle);
            format!(
                "two kinds among the plants, by {}: {} with fruit of about {:.0} g, the others {:.0} g; plants of one kind part so well {}",
                compared(*measures),
                counted(u64::try_from(kinds.fewer.len()).unwrap_or(u64::MAX), "plant", "plants"),
                grams.0,
                grams.1,
                in_100(kinds.chance)
            )
        }
    }
}

fn compared(measures: Measures) -> &'static str {
    match measures {
        Measures::Weight => "weight of fruit",
        Measures::WeightAndShape => "weight and shape of fruit",
    }
}

/// The lots that they concern, and how; nothing where there are none.
#[must_use]
pub fn lots(suspect: &Suspect) -> Option<String> {
    let gave =
        (!suspect.gave.is_empty()).then(|| format!("seed taken there: lot {}", suspect.gave.join(", lot ")));
    let grew = (!suspect.grew_from.is_empty())
        .then(|| format!("sown there: lot {}", suspect.grew_from.join(", lot ")));
    let told: Vec<String> = gave.into_iter().chain(grew).collect();
    (!told.is_empty()).then(|| told.join("; "))
}
