//! What is due on a walk: which notes a plot needs today, from its dates and what was seen of it so far.
//!
//! For walk sheets and for the list of grow-outs. Pure: the day is handed in. Start at [`due`]; the days and intervals
//! are this file's constants, each common practice without a source.

use jiff::civil::Date;

/// What was seen of a plot so far.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Seen {
    /// The day its plants went out.
    pub transplanted: Option<Date>,
    /// The last day plants were counted.
    pub counted: Option<Date>,
    /// Whether the first flower was noted.
    pub flowered: Noted,
    /// What is known of the main stem.
    pub stem: Stem,
    /// The last day a height was read.
    pub height: Option<Date>,
    /// The day of the first ripe fruit.
    pub ripe: Option<Date>,
    /// The last day fruit was picked.
    pub picked: Option<Date>,
    /// The last day off-types were noted.
    pub off_types: Option<Date>,
}

/// Whether something that is noted once was noted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Noted {
    /// Not yet.
    #[default]
    NotYet,
    /// It was.
    Noted,
}

/// What is known of the main stem.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Stem {
    /// Nothing.
    #[default]
    NotLookedAt,
    /// It still grew on this day.
    Growing(Option<Date>),
    /// It ended in a truss.
    Ended,
}

/// One note that is due.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Due {
    /// Count the plants that stand.
    PlantsStanding,
    /// Look for the first open flower.
    FirstFlower,
    /// Look whether the main stem has ended in a truss, and count trusses.
    StemEnded,
    /// Look for the first ripe fruit.
    FirstRipe,
    /// Look for plants that are not true.
    OffTypes,
    /// Read the height.
    Height,
    /// Pick, count, weigh, and sort out culls.
    Pick,
}

impl Due {
    /// Every note, in the order of a walk.
    pub const ALL: [Self; 7] = [
        Self::PlantsStanding,
        Self::FirstFlower,
        Self::StemEnded,
        Self::FirstRipe,
        Self::OffTypes,
        Self::Height,
        Self::Pick,
    ];

    /// What it is called.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::PlantsStanding => "plants standing",
            Self::FirstFlower => "first flower",
            Self::StemEnded => "stem ended, trusses",
            Self::FirstRipe => "first ripe",
            Self::OffTypes => "off-types",
            Self::Height => "heights",
            Self::Pick => "picks and culls",
        }
    }
}

/// Days after transplanting from which plants that died of the move can be told. Common practice, no source.
const COUNT_FROM: i32 = 7;
/// Days between two counts of plants. Common practice, no source.
const COUNT_EVERY: i32 = 42;
/// Days after transplanting from which the first flower may open. Common practice, no source.
const FLOWER_FROM: i32 = 7;
/// Days after transplanting after which a missed first flower is no longer looked for. Common practice, no source.
const FLOWER_UNTIL: i32 = 56;
/// Days after transplanting from which a main stem may end. Common practice, no source.
const STEM_FROM: i32 = 35;
/// Days between two looks at a stem that still grew. Common practice, no source.
const STEM_EVERY: i32 = 14;
/// Days after transplanting from which fruit may be ripe. Common practice, no source.
const RIPE_FROM: i32 = 42;
/// Days after transplanting from which off-types show. Common practice, no source.
const OFF_TYPES_FROM: i32 = 21;
/// Days between two looks for off-types. Common practice, no source.
const OFF_TYPES_EVERY: i32 = 21;
/// Days after transplanting from which heights tell habits apart. Common practice, no source.
const HEIGHT_FROM: i32 = 21;
/// Days between two readings of height. Common practice, no source.
const HEIGHT_EVERY: i32 = 14;
/// Days between two picks of one plot. Common practice, no source.
const PICK_EVERY: i32 = 4;

/// The notes that are due on `day`, in the order of a walk; none before the plants went out. Where that day is not
/// known, everything that was not noted yet is due.
#[must_use]
pub fn due(seen: &Seen, day: Date) -> Vec<Due> {
    if seen.transplanted.is_some_and(|out| day < out) {
        return Vec::new();
    }
    Due::ALL.into_iter().filter(|note| is_due(*note, seen, day)).collect()
}

fn is_due(note: Due, seen: &Seen, day: Date) -> bool {
    let since = |from: i32| seen.transplanted.is_none_or(|out| from <= days(out, day));
    let again = |last: Option<Date>, every: i32| last.is_none_or(|last| every <= days(last, day));
    match note {
        Due::PlantsStanding => since(COUNT_FROM) && again(seen.counted, COUNT_EVERY),
        Due::FirstFlower => {
            let over = seen.transplanted.is_some_and(|out| FLOWER_UNTIL < days(out, day));
            seen.flowered == Noted::NotYet && seen.ripe.is_none() && since(FLOWER_FROM) && !over
        }
        Due::StemEnded => match seen.stem {
            Stem::NotLookedAt => since(STEM_FROM),
            Stem::Growing(last) => again(last, STEM_EVERY),
            Stem::Ended => false,
        },
        Due::FirstRipe => seen.ripe.is_none() && seen.picked.is_none() && since(RIPE_FROM),
        Due::OffTypes => since(OFF_TYPES_FROM) && again(seen.off_types, OFF_TYPES_EVERY),
        Due::Height => since(HEIGHT_FROM) && again(seen.height, HEIGHT_EVERY),
        // Fruit may ripen on the day of the walk itself, so a pick is due as soon as ripe fruit is looked for.
        Due::Pick => since(RIPE_FROM) && again(seen.picked, PICK_EVERY),
    }
}

/// Days from one day to another; negative where the other is earlier.
fn days(from: Date, to: Date) -> i32 {
    (to - from).get_days()
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::ToSpan;
    use jiff::civil::date;
    use proptest::prelude::*;

    const OUT: Date = date(2031, 5, 12);

    fn after(days: i64) -> Date {
        OUT.saturating_add(days.days())
    }

    fn only_out() -> Seen {
        Seen { transplanted: Some(OUT), ..Seen::default() }
    }

    #[track_caller]
    fn agrees(seen: &Seen, days: i64, notes: &[Due]) {
        assert_eq!(due(seen, after(days)), notes);
    }

    #[test]
    fn a_season_asks_for_its_notes_in_turn() {
        agrees(&only_out(), -1, &[]);
        agrees(&only_out(), 0, &[]);
        agrees(&only_out(), 7, &[Due::PlantsStanding, Due::FirstFlower]);
        let counted = Seen { counted: Some(after(7)), ..only_out() };
        agrees(&counted, 21, &[Due::FirstFlower, Due::OffTypes, Due::Height]);
        let flowered =
            Seen { flowered: Noted::Noted, off_types: Some(after(21)), height: Some(after(21)), ..counted };
        agrees(&flowered, 34, &[]);
        agrees(&flowered, 35, &[Due::StemEnded, Due::Height]);
        agrees(&flowered, 42, &[Due::StemEnded, Due::FirstRipe, Due::OffTypes, Due::Height, Due::Pick]);
    }

    #[test]
    fn a_stem_that_ended_is_not_looked_at_again() {
        let ended = Seen { stem: Stem::Ended, ..only_out() };
        assert!(!due(&ended, after(60)).contains(&Due::StemEnded));
        let growing = Seen { stem: Stem::Growing(Some(after(50))), ..only_out() };
        assert!(!due(&growing, after(63)).contains(&Due::StemEnded));
        assert!(due(&growing, after(64)).contains(&Due::StemEnded));
    }

    #[test]
    fn a_plot_is_picked_every_few_days() {
        let picked = Seen { picked: Some(after(70)), ..only_out() };
        assert!(!due(&picked, after(73)).contains(&Due::Pick));
        assert!(due(&picked, after(74)).contains(&Due::Pick));
        assert!(!due(&picked, after(74)).contains(&Due::FirstRipe), "fruit that was picked was ripe");
    }

    #[test]
    fn a_plot_whose_day_is_not_known_is_asked_for_everything() {
        assert_eq!(due(&Seen::default(), OUT), Due::ALL);
    }

    proptest! {
        /// What was noted today is not due today.
        #[test]
        fn what_was_just_noted_is_not_due(days in 0_i64..200) {
            let day = after(days);
            let seen = Seen {
                counted: Some(day), flowered: Noted::Noted, stem: Stem::Growing(Some(day)), height: Some(day),
                ripe: Some(day), picked: Some(day), off_types: Some(day), ..only_out()
            };
            prop_assert_eq!(due(&seen, day), Vec::new());
        }
    }
}
