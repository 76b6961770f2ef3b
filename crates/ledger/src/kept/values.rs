//! The values of one row on their way in, kept on the stack: a million rows must not ask for memory.

use crate::batch::Act;
use crate::store::value::Value;
use uuid::Uuid;

/// More columns than any table of notes has.
const MOST: usize = 24;

/// What every record begins with: its number and UUID, who kept it and when, and the print of what it holds.
pub(crate) fn record_head<'a>(number: i64, uuid: &'a Uuid, act: &'a Act, print: i64) -> [Value<'a>; 5] {
    [number.into(), Value::Bytes(uuid.as_bytes()), act.who.as_str().into(), act.at.into(), print.into()]
}

/// The values of one row.
#[derive(Debug)]
pub(crate) struct Values<'a> {
    all: [Value<'a>; MOST],
    count: usize,
}

impl<'a> Values<'a> {
    /// None yet.
    pub(crate) fn new() -> Self {
        Self { all: [Value::Nothing; MOST], count: 0 }
    }

    /// Adds the next value.
    pub(crate) fn push(&mut self, value: impl Into<Value<'a>>) {
        debug_assert!(self.count < MOST, "no table has more than {MOST} columns");
        if let Some(place) = self.all.get_mut(self.count) {
            *place = value.into();
            self.count += 1;
        }
    }

    /// Puts a value in the place of one that was only held open.
    pub(crate) fn set(&mut self, place: usize, value: impl Into<Value<'a>>) {
        if let Some(held_open) = self.all.get_mut(place) {
            *held_open = value.into();
        }
    }

    /// Those from `place` on.
    pub(crate) fn from(&self, place: usize) -> &[Value<'a>] {
        self.all.get(place..self.count).unwrap_or_default()
    }

    /// All of them.
    pub(crate) fn all(&self) -> &[Value<'a>] {
        self.all.get(..self.count).unwrap_or_default()
    }
}
