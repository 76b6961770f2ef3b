//! The print of a row: 64 bits that tell whether two rows say the same.
//!
//! It is stored with every note, so that a later version of a file adds only what is new in it, and
//! so that a note which was changed behind the ledger's back is found out. It must therefore never
//! change: a new way of printing would take every old row for a new one.

use crate::store::value::{Value, without_nul};

/// Where every print begins: the fractional part of the golden ratio in 64 bits, as is usual for mixing.
const SEED: u64 = 0x9e37_79b9_7f4a_7c15;
/// Odd multiplier with about half of its bits set; the fractional part of pi in 64 bits, made odd.
const MULTIPLIER: u64 = 0x243f_6a88_85a3_08d3;

/// Marks of the five kinds of value, so that nothing, 0, 0.0 and an empty text differ: the next five words
/// of pi's fractional part, which no measured number is likely to hit upon.
const NOTHING: u64 = 0x1319_8a2e_0370_7344;
const WHOLE: u64 = 0xa409_3822_299f_31d0;
const REAL: u64 = 0x082e_fa98_ec4e_6c89;
const TEXT: u64 = 0x4528_21e6_38d0_1377;
const BYTES: u64 = 0xbe54_66cf_34e9_0c6c;

/// A print in the making.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Print(u64);

impl Print {
    /// Begins a print.
    pub(crate) fn new() -> Self {
        Self(SEED)
    }

    /// Adds values.
    pub(crate) fn add(mut self, values: &[Value<'_>]) -> Self {
        for value in values {
            self = self.add_one(*value);
        }
        self
    }

    /// The finished print, as the servers keep whole numbers.
    pub(crate) fn done(self) -> i64 {
        self.0.cast_signed()
    }

    fn add_one(self, value: Value<'_>) -> Self {
        match value {
            Value::Nothing => self.mix(NOTHING),
            Value::Whole(whole) => self.mix(whole.cast_unsigned() ^ WHOLE),
            // Two zeros that compare equal must print equal.
            Value::Real(real) => self.mix((real + 0.0).to_bits() ^ REAL),
            Value::Text(text) => self.bytes(without_nul(text).as_bytes(), TEXT),
            Value::Bytes(bytes) => self.bytes(bytes, BYTES),
        }
    }

    fn bytes(self, bytes: &[u8], mark: u64) -> Self {
        let counted = self.mix(bytes.len() as u64 ^ mark);
        bytes.chunks(8).fold(counted, |print, chunk| {
            print.mix(chunk.iter().rev().fold(0, |word, byte| (word << 8) | u64::from(*byte)))
        })
    }

    /// Folds the 128-bit product, so that every bit of the word reaches every bit of the print.
    fn mix(self, word: u64) -> Self {
        let product = u128::from(self.0.rotate_left(29) ^ word ^ SEED) * u128::from(MULTIPLIER);
        let (high, low) = ((product >> 64) as u64, product as u64);
        Self(high ^ low ^ self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::HashSet;

    /// Kept so that a change of the print cannot slip in: stored prints depend on it.
    #[test]
    fn the_print_never_changes() {
        let values = [Value::Nothing, Value::Whole(-7), Value::Real(58.2), Value::Text("striped, early")];
        assert_eq!(Print::new().add(&values).done(), KNOWN);
    }
    const KNOWN: i64 = 4_449_651_874_716_198_715;

    #[test]
    fn what_differs_prints_differently() {
        let mut seen = HashSet::new();
        for whole in -50_000..50_000 {
            assert!(seen.insert(Print::new().add(&[Value::Whole(whole)]).done()));
            assert!(seen.insert(Print::new().add(&[Value::Whole(1), Value::Whole(whole)]).done()));
            assert!(seen.insert(Print::new().add(&[Value::Real(whole as f64 / 10.0)]).done()));
            assert!(seen.insert(Print::new().add(&[Value::Text(&whole.to_string())]).done()));
        }
        let nothings = [Value::Nothing, Value::Text(""), Value::Bytes(b""), Value::Text(" ")];
        assert!(nothings.iter().all(|value| seen.insert(Print::new().add(&[*value]).done())));
    }

    #[test]
    fn both_zeros_print_alike() {
        assert_eq!(
            Print::new().add(&[Value::Real(0.0)]).done(),
            Print::new().add(&[Value::Real(-0.0)]).done()
        );
    }
}
