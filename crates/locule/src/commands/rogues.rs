//! `locule rogues`: plants that do not fit their variety, with the lots of seed that they concern.

use super::reference::{Shape, shape};
use super::{Failure, answer};
use crate::answer::{Answer, Ending, Form};
use crate::arguments::lots::Rogues as Typed;
use house::folder::House;
use house::rogues::{self, Suspect, Why, telling};
use record::language::counted;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

pub(crate) fn run(house: &House, typed: &Typed, form: Form) -> Result<Ending, Failure> {
    let found = match &typed.lot {
        None => rogues::list(house)?,
        Some(number) => rogues::of_lot(house, number)?,
    };
    answer(&RogueList { plants: found.iter().map(told).collect(), notice: telling::NOTICE }, form)
}

/// Plants that do not fit their variety.
#[derive(Debug, Serialize, JsonSchema)]
struct RogueList {
    /// The newest season first, then by variety.
    plants: Vec<SuspectTold>,
    /// What every such list goes with.
    notice: &'static str,
}

/// Plants of one place that do not fit.
#[derive(Debug, Serialize, JsonSchema)]
struct SuspectTold {
    /// The variety whose name they carry.
    variety: String,
    /// The season.
    season: i16,
    /// Which plants, and where.
    place: String,
    /// What told it: seen, unlike its variety, unlike its neighbours, two kinds.
    by: &'static str,
    /// Why they stand here.
    why: String,
    /// Lots whose seed was taken from their plots.
    gave: Vec<String>,
    /// Lots whose seed was sown there.
    grew_from: Vec<String>,
    #[serde(skip)]
    lots: Option<String>,
}

fn told(suspect: &Suspect) -> SuspectTold {
    SuspectTold {
        variety: suspect.variety.clone(),
        season: suspect.season.year(),
        place: telling::place(suspect),
        by: match suspect.why {
            Why::Seen { .. } => "seen",
            Why::UnlikeVariety(_) => "unlike its variety",
            Why::Stranger { .. } => "unlike its neighbours",
            Why::TwoKinds { .. } => "two kinds",
        },
        why: telling::why(suspect),
        gave: suspect.gave.clone(),
        grew_from: suspect.grew_from.clone(),
        lots: telling::lots(suspect),
    }
}

impl Answer for RogueList {
    const SHAPE: &'static str = "rogues/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        if self.plants.is_empty() {
            return writeln!(to, "No plant was seen or measured that does not fit its variety.");
        }
        for plant in &self.plants {
            writeln!(to, "{}: {}", plant.variety, plant.place)?;
            writeln!(to, "  {}", plant.why)?;
            plant.lots.iter().try_for_each(|lots| writeln!(to, "  {lots}"))?;
        }
        let found = u64::try_from(self.plants.len()).unwrap_or(u64::MAX);
        writeln!(to, "\n{}. {}", counted(found, "place to look at", "places to look at"), self.notice)
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<RogueList>()]
}
