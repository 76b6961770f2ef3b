//! Fingerprints: stable 64-bit numbers by which headings and rows are known again.
//!
//! XXH3-64 over the texts with a unit separator behind each, so that `ab|c` and `a|bc` differ. The number
//! is stored in ledgers, so it must never change: `tests/fingerprint.rs` pins it.

use xxhash_rust::xxh3::xxh3_64;

/// Parts one text from the next. Source: ECMA-48, 8.3: unit separator.
const PARTER: u8 = 0x1F;

/// Builds the fingerprint of one row after the other in one buffer.
#[derive(Default)]
pub(crate) struct Printer {
    buffer: Vec<u8>,
}

impl Printer {
    /// The fingerprint of texts in order.
    pub(crate) fn of<'a>(&mut self, texts: impl Iterator<Item = &'a str>) -> u64 {
        self.buffer.clear();
        for text in texts {
            self.buffer.extend_from_slice(text.as_bytes());
            self.buffer.push(PARTER);
        }
        xxh3_64(&self.buffer)
    }
}

/// The fingerprint of a heading row.
pub(crate) fn of_headings<'a>(headings: impl Iterator<Item = &'a str>) -> u64 {
    Printer::default().of(headings)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// XXH3 of the empty input with seed 0. Source: xxHash test vectors, XXH3_64bits.
    #[test]
    fn the_number_is_the_published_one() {
        assert_eq!(xxh3_64(b""), 0x2D06_8005_38D3_94C2);
    }

    #[test]
    fn where_texts_part_matters() {
        let of = |texts: &[&str]| Printer::default().of(texts.iter().copied());
        assert_ne!(of(&["ab", "c"]), of(&["a", "bc"]));
        assert_eq!(of(&["58 g"]), of(&["58 g"]));
    }
}
