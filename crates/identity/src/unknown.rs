//! What is it? One unknown tomato, or a handful of them, called by the same rules as a variety.
//!
//! Whoever holds a tomato has a fruit or two and perhaps the plant beside it. These become the very same
//! evidence that a grown variety has ([`evidence`]), so that [`crate::fruit_class`], [`crate::habit`] and
//! [`crate::colour`] call them by the same guides. A fruit stands for its variety with all that seasons,
//! plants and fruits of a variety differ by: one fruit of 58 g tells less than ten of ten plants, and
//! [`telling`] says how much less. What cannot be is refused first ([`impossible`]); what one more look
//! would tell is in [`looks`]; [`shares`] is the class alone, small enough to be reckoned elsewhere.

pub mod impossible;
pub mod looks;
pub mod shares;
pub mod telling;

use crate::colour::evidence::ColourEvidence;
use crate::habit::evidence::HabitEvidence;
use crate::sums::FruitSums;
use jiff::civil::Date;
use record::colour::{ColourReading, ColourSeen, FruitPart, Pattern};
use record::fruit::FruitSample;
use record::growout::PlantNumber;
use record::height::HeightReading;
use record::id::Id;
use record::note::Note;
use record::season::Season;
use record::stage::{StageNote, StageSeen};
use record::subject::Subject;
use record::unknown::{FruitSeen, LeavesSeen, PlantSeen, StemSeen};
use std::num::NonZeroU32;
use uuid::Uuid;

/// An unknown tomato: all that was measured and seen of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Unknown {
    /// The season in which it was grown.
    pub season: Season,
    /// Its fruits.
    pub fruits: Vec<FruitSeen>,
    /// The plants that bore them.
    pub plants: Vec<PlantSeen>,
    /// Notes of it that were kept in a table, whatever variety they name.
    pub notes: Vec<Note>,
}

/// The same as a variety's evidence.
#[derive(Clone, Debug, Default)]
pub struct Evidence {
    /// Its fruits, summed plant by plant.
    pub fruit: FruitSums,
    /// What speaks of its habit.
    pub habit: HabitEvidence,
    /// What was read of its colour.
    pub colour: ColourEvidence,
}

impl Unknown {
    /// Nothing seen yet.
    #[must_use]
    pub fn nothing_seen(season: Season) -> Self {
        Self { season, fruits: Vec::new(), plants: Vec::new(), notes: Vec::new() }
    }

    /// Whether there is nothing to call.
    #[must_use]
    pub fn is_blank(&self) -> bool {
        self.fruits.iter().all(FruitSeen::is_blank)
            && self.plants.iter().all(PlantSeen::is_blank)
            && self.notes.is_empty()
    }

    /// How many fruits there are to cut and measure; at least one, as a tomato is asked about.
    #[must_use]
    pub fn fruit_count(&self) -> u32 {
        let noted = self.notes.iter().map(|note| match note {
            Note::Fruit(sample) => sample.fruit_count.get(),
            _ => 0,
        });
        let seen = u32::try_from(self.fruits.len()).unwrap_or(u32::MAX);
        noted.fold(seen, u32::saturating_add).max(1)
    }

    /// Every fruit as a sample, those of notes last.
    #[must_use]
    pub fn samples(&self) -> Vec<FruitSample> {
        let own = self.fruits.iter().map(|fruit| sample(fruit, self.subject(fruit.plant)));
        let noted = self.notes.iter().filter_map(|note| match note {
            Note::Fruit(sample) => Some(sample.clone()),
            _ => None,
        });
        own.chain(noted).collect()
    }

    fn subject(&self, plant: Option<PlantNumber>) -> Subject {
        // It has no variety, that is what is asked; evidence does not look at it.
        Subject { variety: Id::from_uuid(Uuid::nil()), season: self.season, plot: None, plant }
    }
}

/// The day that a plant seen once is taken to have been seen on: only days between readings count, and
/// there is one reading.
const THE_DAY: Date = jiff::civil::date(2000, 1, 1);

/// The unknown as the evidence that a variety would have, ready for the same calls.
#[must_use]
pub fn evidence(unknown: &Unknown) -> Evidence {
    let mut evidence = Evidence::default();
    for note in &unknown.notes {
        evidence.note(note);
    }
    for fruit in &unknown.fruits {
        evidence.fruit(fruit, unknown.subject(fruit.plant));
    }
    // Plants are numbered in the order given, so that two plants are never taken for one seen twice.
    for (number, plant) in (1..).zip(&unknown.plants) {
        evidence.plant(plant, unknown.subject(Some(PlantNumber(number))));
    }
    evidence
}

impl Evidence {
    fn note(&mut self, note: &Note) {
        if let Note::Fruit(sample) = note {
            self.fruit.take(sample);
        }
        self.habit.note(note);
        self.colour.note(note);
    }

    fn fruit(&mut self, fruit: &FruitSeen, subject: Subject) {
        self.note(&Note::Fruit(sample(fruit, subject)));
        let measured = match fruit.exterior {
            Some(ColourSeen::Measured(_)) => fruit.exterior,
            _ => None,
        };
        if let Some(reading) = reading(measured, fruit.pattern, subject) {
            self.colour.reading(&reading);
        } else if let Some(pattern) = fruit.pattern {
            self.colour.pattern(&subject, pattern);
        }
    }

    fn plant(&mut self, plant: &PlantSeen, subject: Subject) {
        let stage = |seen| Note::Stage(StageNote { subject, noted_on: None, seen });
        let stem = plant.stem.map(|stem| match stem {
            StemSeen::Ended(trusses) => StageSeen::StemEnded { trusses },
            StemSeen::Growing(trusses) => StageSeen::StemGrowing { trusses },
        });
        let leaves = plant.leaves_between.map(StageSeen::LeavesBetweenTrusses);
        let dwarf = (plant.leaves == Some(LeavesSeen::Dwarf)).then_some(StageSeen::DwarfLeaves);
        let height =
            plant.height.map(|height| Note::Height(HeightReading { subject, read_on: THE_DAY, height }));
        let stages = [stem, leaves, dwarf].into_iter().flatten().map(stage);
        stages.chain(height).for_each(|note| self.habit.note(&note));
        self.habit.told(&subject, plant);
    }
}

/// A fruit of the unknown as a sample; a measured colour goes beside it.
fn sample(fruit: &FruitSeen, subject: Subject) -> FruitSample {
    FruitSample {
        subject,
        sampled_on: None,
        fruit_count: NonZeroU32::MIN,
        weight: fruit.weight,
        length: fruit.length,
        width: fruit.width,
        neck_width: fruit.neck_width,
        locules: fruit.locules,
        soluble_solids: fruit.soluble_solids,
        dry_matter: fruit.dry_matter,
        lobes: fruit.lobes,
        cracking: None,
        catfacing: None,
        exterior: match fruit.exterior {
            Some(ColourSeen::Word(word)) => Some(word),
            _ => None,
        },
        flesh: fruit.flesh,
        skin: fruit.skin,
    }
}

fn reading(seen: Option<ColourSeen>, pattern: Option<Pattern>, subject: Subject) -> Option<ColourReading> {
    let part = FruitPart::Exterior;
    Some(ColourReading { subject, read_on: None, part, seen: seen?, pattern, skin: None })
}
