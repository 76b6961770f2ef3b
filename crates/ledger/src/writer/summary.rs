//! What became of a batch: counted while it comes in, written down when it is committed.

use crate::batch::BatchSummary;
use crate::fault::LedgerFault;
use crate::records::Noun;
use crate::store::session::{Copied, Table};
use crate::store::value::{Value, whole};
use crate::writer::Writer;

static TOUCHED: Table = Table {
    name: "touched",
    columns: &[
        "variety",
        "batch",
        "fruit_samples",
        "picks",
        "heights",
        "stages",
        "colours",
        "first_note",
        "last_note",
    ],
    copied: Copied::First,
};

static SUMMARY: Table = Table {
    name: "batch_summary",
    columns: &[
        "batch",
        "varieties",
        "aliases",
        "claims",
        "grow_outs",
        "plots",
        "plants",
        "fruit_samples",
        "picks",
        "heights",
        "stages",
        "colours",
        "doubted",
        "confirmed",
        "withdrawn",
        "corrected",
        "already_there",
        "gone",
        "quarantined",
    ],
    copied: Copied::First,
};

/// What a batch did to each variety, by the variety's number.
#[derive(Debug, Default)]
pub(crate) struct Touched(Vec<Option<Touch>>);

/// What a batch did to one variety: how many notes of each noun it added, and which are its first and last.
#[derive(Clone, Copy, Debug, Default)]
struct Touch {
    notes: [u32; 5],
    between: Option<(i64, i64)>,
}

impl Touched {
    /// Counts one more note.
    pub(crate) fn add(&mut self, variety: i64, noun: Noun, number: i64) {
        let touch = self.of(variety);
        touch.between = Some((touch.between.map_or(number, |(first, _)| first), number));
        if let Some(count) = touch.notes.get_mut(noun as usize) {
            *count += 1;
        }
    }

    /// Remembers that something was done to a variety's notes.
    pub(crate) fn touch(&mut self, variety: i64) {
        self.of(variety);
    }

    fn of(&mut self, variety: i64) -> &mut Touch {
        let place = usize::try_from(variety).unwrap_or(0);
        if self.0.len() <= place {
            self.0.resize(place + 1, None);
        }
        // The line above has made room for this place.
        #[expect(clippy::indexing_slicing, reason = "resized to hold this place just above")]
        self.0[place].get_or_insert_default()
    }

    fn all(&self) -> impl Iterator<Item = (i64, Touch)> {
        (0_i64..).zip(&self.0).filter_map(|(variety, touch)| touch.map(|touch| (variety, touch)))
    }
}

impl Writer<'_> {
    /// Writes down what became of the batch.
    pub(super) fn write_summary(&mut self) -> Result<BatchSummary, LedgerFault> {
        let solved = self.solve_those_gone()?;
        self.write_touched()?;
        self.write_resting()?;
        let summary = BatchSummary {
            batch: self.batch(),
            added: self.added,
            already_there: self.already_there,
            gone: self.earlier.notes_gone(),
            quarantined: self.quarantined,
            solved,
        };
        self.write_counts(&summary)?;
        Ok(summary)
    }

    fn write_touched(&mut self) -> Result<(), LedgerFault> {
        for (variety, touch) in self.touched.all() {
            let [fruit, picks, heights, stages, colours] = touch.notes;
            let values = [
                variety.into(),
                self.batch.into(),
                fruit.into(),
                picks.into(),
                heights.into(),
                stages.into(),
                colours.into(),
                touch.between.map(|(first, _)| first).into(),
                touch.between.map(|(_, last)| last).into(),
            ];
            self.session.add(&TOUCHED, &values)?;
        }
        Ok(())
    }

    fn write_resting(&mut self) -> Result<(), LedgerFault> {
        let versions: Vec<i64> = self.earlier.rested_on().to_vec();
        self.rests_on.extend(versions);
        for other in &self.rests_on {
            let values = [self.batch.into(), (*other).into()];
            self.session.execute("INSERT INTO resting (batch, rests_on) VALUES ($1, $2)", &values)?;
        }
        Ok(())
    }

    fn write_counts(&mut self, summary: &BatchSummary) -> Result<(), LedgerFault> {
        let added = &summary.added;
        let counts = [
            added.varieties,
            added.aliases,
            added.claims,
            added.grow_outs,
            added.plots,
            added.plants,
            added.fruit_samples,
            added.picks,
            added.heights,
            added.stages,
            added.colours,
            added.doubted,
            added.confirmed,
            added.withdrawn,
            added.corrected,
            summary.already_there,
            summary.gone,
            summary.quarantined,
        ];
        let mut values = vec![self.batch.into()];
        values.extend(counts.map(whole).map(Value::Whole));
        self.session.add(&SUMMARY, &values)
    }
}
