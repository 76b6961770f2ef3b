//! Adding notes: the part that must be fast.

use crate::fault::LedgerFault;
use crate::kept::pick::CULLS;
use crate::kept::print::Print;
use crate::kept::values::Values;
use crate::kept::words::Word;
use crate::kept::{Kept, note_number, pick, shared};
use crate::records::Noun;
use crate::store::session::{Copied, Table};
use crate::store::value::{Value, whole};
use crate::writer::{Standing, Writer};
use record::doubt::Doubt;
use record::note::Note;
use record::pick::Cull;

static DOUBTS: Table =
    Table { name: "doubt", columns: &["record", "noun", "place", "kind", "words"], copied: Copied::Then };

/// Columns that are known only after the print is: id, batch, source row and the print itself.
const HELD_OPEN: usize = 4;

/// What became of a note, and its number if it is new.
pub(crate) enum Noted {
    /// It is new.
    Added(i64),
    /// An earlier version of the file had it.
    AlreadyThere,
}

impl Writer<'_> {
    /// Adds one note with the doubts about it, unless an earlier version of this file brought it.
    ///
    /// The n-th equal note of a file is held against the n-th equal note of its earlier versions, so two
    /// fruits of one weight stay two fruits, and a file taken again with three new rows adds three.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchVariety`], [`LedgerFault::NoSuchPlot`], or what the disk or server refuses.
    pub fn add_note(&mut self, row: u64, note: &Note, doubts: &[Doubt]) -> Result<Standing, LedgerFault> {
        Ok(match self.note(row, note, doubts)? {
            Noted::Added(_) => Standing::Added,
            Noted::AlreadyThere => Standing::AlreadyThere,
        })
    }

    /// Adds one note and tells its number.
    pub(crate) fn note(&mut self, row: u64, note: &Note, doubts: &[Doubt]) -> Result<Noted, LedgerFault> {
        match note {
            Note::Fruit(fruit) => self.add_kept(row, fruit, doubts),
            Note::Pick(pick) => self.add_kept(row, pick, doubts),
            Note::Height(height) => self.add_kept(row, height, doubts),
            Note::Stage(stage) => self.add_kept(row, stage, doubts),
            Note::Colour(colour) => self.add_kept(row, colour, doubts),
        }
    }

    fn add_kept<K: Kept>(&mut self, row: u64, kept: &K, doubts: &[Doubt]) -> Result<Noted, LedgerFault> {
        let subject = kept.subject();
        let variety = self.roster.variety(subject.variety)?;
        let plot = subject.plot.map(|plot| self.roster.plot(plot)).transpose()?;

        let mut values = Values::new();
        (0..HELD_OPEN).for_each(|_| values.push(Value::Nothing));
        shared(&mut values, subject, variety.number, plot.map(|plot| plot.number));
        kept.own(&mut values);
        let print = print::<K>(values.from(HELD_OPEN), kept.culls());
        if self.earlier.take_note(print) {
            self.already_there += 1;
            return Ok(Noted::AlreadyThere);
        }

        let number = self.next_place()?;
        values.set(0, number);
        values.set(1, self.batch);
        values.set(2, whole(row));
        values.set(3, print);
        self.session.add(K::TABLE, values.all())?;
        self.add_culls(number, kept.culls())?;
        self.add_doubts(number, K::NOUN, doubts)?;

        self.rest_on(variety.batch);
        if let Some(plot) = plot {
            self.rest_on(plot.batch);
        }
        self.touched.add(variety.number, K::NOUN, number);
        self.count(K::NOUN, doubts);
        Ok(Noted::Added(number))
    }

    fn next_place(&mut self) -> Result<i64, LedgerFault> {
        let place = self.place.checked_add(1);
        self.place = place.ok_or(LedgerFault::TooLarge)?;
        Ok(note_number(self.batch, self.place))
    }

    fn add_culls(&mut self, pick: i64, culls: &[Cull]) -> Result<(), LedgerFault> {
        for (place, cull) in (0_i64..).zip(culls) {
            let mut values = Values::new();
            values.push(pick);
            values.push(place);
            pick::cull(cull, &mut values);
            self.session.add(&CULLS, values.all())?;
        }
        Ok(())
    }

    fn add_doubts(&mut self, number: i64, noun: Noun, doubts: &[Doubt]) -> Result<(), LedgerFault> {
        for (place, doubt) in (0_i64..).zip(doubts) {
            let values = [
                number.into(),
                noun.word().into(),
                place.into(),
                doubt.kind.word().into(),
                doubt.words.as_str().into(),
            ];
            self.session.add(&DOUBTS, &values)?;
        }
        Ok(())
    }

    fn count(&mut self, noun: Noun, doubts: &[Doubt]) {
        *match noun {
            Noun::FruitSample => &mut self.added.fruit_samples,
            Noun::Pick => &mut self.added.picks,
            Noun::HeightReading => &mut self.added.heights,
            Noun::StageNote => &mut self.added.stages,
            Noun::ColourReading => &mut self.added.colours,
        } += 1;
        self.added.doubted += u64::from(!doubts.is_empty());
    }
}

/// The print of a note: its noun, what it is about, its own values and its culls.
pub(crate) fn print<K: Kept>(values: &[Value<'_>], culls: &[Cull]) -> i64 {
    let of_note = Print::new().add(&[K::NOUN.word().into()]).add(values);
    let of_all = culls.iter().fold(of_note, |print, cull| {
        let mut values = Values::new();
        pick::cull(cull, &mut values);
        print.add(values.all())
    });
    of_all.done()
}
