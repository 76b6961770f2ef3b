//! What was read of one variety's colour, counted up by plot and season.
//!
//! Words are only counted and measured colours kept, so that a variety with a thousand fruits stays small
//! and the order of notes cannot change a call. Start at [`ColourEvidence::note`].

use crate::habit::evidence::PatchKey;
use record::colour::{ColourReading, ColourSeen, FruitPart, Lab, Pattern, Skin, TradeColour};
use record::fruit::FruitSample;
use record::note::Note;
use record::subject::Subject;
use std::collections::BTreeMap;

/// Everything read of one variety's colour.
#[derive(Clone, Debug, Default)]
pub struct ColourEvidence {
    pub(crate) patches: BTreeMap<PatchKey, PatchColours>,
    pub(crate) records: u64,
}

/// What was read in one plot and season.
#[derive(Clone, Debug, Default)]
pub(crate) struct PatchColours {
    /// Words for the outside, by place in [`TradeColour::ALL`].
    pub(crate) exterior: [u32; TradeColour::ALL.len()],
    /// Words for the flesh.
    pub(crate) flesh: [u32; TradeColour::ALL.len()],
    /// Words for the peeled skin, by place in [`Skin::ALL`].
    pub(crate) skin: [u32; Skin::ALL.len()],
    /// Words for the pattern, by place in [`Pattern::ALL`].
    pub(crate) pattern: [u32; Pattern::ALL.len()],
    /// Measured outsides.
    pub(crate) measured_exterior: Vec<Lab>,
    /// Measured flesh.
    pub(crate) measured_flesh: Vec<Lab>,
}

impl ColourEvidence {
    /// Gathers the notes of one variety; notes without a colour are passed over.
    #[must_use]
    pub fn gather<'a>(notes: impl IntoIterator<Item = &'a Note>) -> Self {
        let mut evidence = Self::default();
        notes.into_iter().for_each(|note| evidence.note(note));
        evidence
    }

    /// Adds one note. Its variety is not looked at: that is the caller's sorting.
    pub fn note(&mut self, note: &Note) {
        match note {
            Note::Fruit(sample) => self.fruit(sample),
            Note::Colour(reading) => self.reading(reading),
            Note::Pick(_) | Note::Height(_) | Note::Stage(_) => {}
        }
    }

    /// Adds the colour words of a fruit sample, if it has any.
    pub fn fruit(&mut self, sample: &FruitSample) {
        if sample.exterior.is_none() && sample.flesh.is_none() && sample.skin.is_none() {
            return;
        }
        let patch = self.patch(&sample.subject);
        count(&mut patch.exterior, sample.exterior.map(|colour| colour as usize));
        count(&mut patch.flesh, sample.flesh.map(|colour| colour as usize));
        count(&mut patch.skin, sample.skin.map(|skin| skin as usize));
    }

    /// Adds a colour reading. Readings of the jelly are kept in the ledger and not called from.
    pub fn reading(&mut self, reading: &ColourReading) {
        let patch = self.patch(&reading.subject);
        match (reading.part, reading.seen) {
            (FruitPart::Exterior, ColourSeen::Word(word)) => count(&mut patch.exterior, Some(word as usize)),
            (FruitPart::Flesh, ColourSeen::Word(word)) => count(&mut patch.flesh, Some(word as usize)),
            (FruitPart::Exterior, ColourSeen::Measured(lab)) => patch.measured_exterior.push(lab),
            (FruitPart::Flesh, ColourSeen::Measured(lab)) => patch.measured_flesh.push(lab),
            (FruitPart::Gel, _) => {}
        }
        count(&mut patch.pattern, reading.pattern.map(|pattern| pattern as usize));
        count(&mut patch.skin, reading.skin.map(|skin| skin as usize));
    }

    /// Adds a pattern that was seen with no colour beside it.
    pub fn pattern(&mut self, subject: &Subject, seen: Pattern) {
        count(&mut self.patch(subject).pattern, Some(seen as usize));
    }

    /// All plots' counts and readings together, for words and tables.
    pub(crate) fn together(&self) -> PatchColours {
        let mut all = PatchColours::default();
        self.patches.values().for_each(|patch| all.merge(patch.clone()));
        all
    }

    /// Adds what other notes of the same variety said.
    pub fn merge(&mut self, other: Self) {
        self.records += other.records;
        for (key, colours) in other.patches {
            self.patches.entry(key).or_default().merge(colours);
        }
    }

    fn patch(&mut self, subject: &Subject) -> &mut PatchColours {
        self.records += 1;
        self.patches.entry(PatchKey { season: subject.season, plot: subject.plot }).or_default()
    }
}

impl PatchColours {
    /// Words and measures of outside, flesh and skin.
    pub(crate) fn colours_read(&self) -> u64 {
        let words = sum(&self.exterior) + sum(&self.flesh) + sum(&self.skin);
        words + count_of(&self.measured_exterior) + count_of(&self.measured_flesh)
    }

    /// Words for the pattern.
    pub(crate) fn patterns_read(&self) -> u64 {
        sum(&self.pattern)
    }

    /// Fruits whose outside, flesh, skin or pattern was read, as far as can be told.
    pub(crate) fn fruits(&self) -> u64 {
        let outside = sum(&self.exterior) + count_of(&self.measured_exterior);
        let flesh = sum(&self.flesh) + count_of(&self.measured_flesh);
        outside.max(flesh).max(sum(&self.skin)).max(sum(&self.pattern))
    }

    fn merge(&mut self, other: Self) {
        add(&mut self.exterior, &other.exterior);
        add(&mut self.flesh, &other.flesh);
        add(&mut self.skin, &other.skin);
        add(&mut self.pattern, &other.pattern);
        self.measured_exterior.extend(other.measured_exterior);
        self.measured_flesh.extend(other.measured_flesh);
    }
}

fn sum(counts: &[u32]) -> u64 {
    counts.iter().map(|count| u64::from(*count)).sum()
}

fn count_of(readings: &[Lab]) -> u64 {
    u64::try_from(readings.len()).unwrap_or(u64::MAX)
}

fn add(counts: &mut [u32], more: &[u32]) {
    for (count, more) in counts.iter_mut().zip(more) {
        *count = count.saturating_add(*more);
    }
}

fn count(counts: &mut [u32], place: Option<usize>) {
    if let Some(count) = place.and_then(|place| counts.get_mut(place)) {
        *count = count.saturating_add(1);
    }
}
