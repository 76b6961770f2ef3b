//! Encodings of text files: which one a file is in, and its text as UTF-8.
//!
//! A byte-order mark decides. Without one, UTF-16 shows itself by a NUL in every other byte; bytes
//! that are valid UTF-8 throughout are that, and anything else is read as Windows-1252, in which
//! every byte means something. Start at [`detect`]; [`Decoding`] then reads.

use encoding_rs::{CoderResult, Decoder, Encoding, UTF_8, UTF_16BE, UTF_16LE, WINDOWS_1252};
use std::io::{self, Read};

/// Bytes looked at for a byte-order mark and for UTF-16 without one.
pub(crate) const SAMPLE: usize = 64 * 1024;

/// Share of NULs in every other byte above which a file is UTF-16: text in Latin letters has nearly
/// all, and text with some other signs still most. Common practice, no source.
const UTF16_NULS: f64 = 0.4;

/// Share of stray NULs above which a file is not text at all. Common practice, no source.
const BINARY_NULS: f64 = 0.02;

/// Fewer NULs than this are slips in a text; their rows are refused, not the file.
const LEAST_NULS: usize = 16;

/// The encoding that a text file is read in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum TextEncoding {
    Utf8,
    Utf16Le,
    Utf16Be,
    Windows1252,
}

impl TextEncoding {
    /// Its name for people.
    pub(crate) fn name(self) -> &'static str {
        match self {
            Self::Utf8 => "UTF-8",
            Self::Utf16Le => "UTF-16 (little-endian)",
            Self::Utf16Be => "UTF-16 (big-endian)",
            Self::Windows1252 => "Windows-1252",
        }
    }

    fn decoder(self) -> Decoder {
        let encoding: &'static Encoding = match self {
            Self::Utf8 => UTF_8,
            Self::Utf16Le => UTF_16LE,
            Self::Utf16Be => UTF_16BE,
            Self::Windows1252 => WINDOWS_1252,
        };
        encoding.new_decoder_with_bom_removal()
    }
}

/// Finds the encoding of a text file by reading it once, or `None` where it is not text.
pub(crate) fn detect(reader: &mut dyn Read) -> io::Result<Option<TextEncoding>> {
    let mut sample = Vec::with_capacity(SAMPLE);
    reader.take(SAMPLE as u64).read_to_end(&mut sample)?;
    if let Some(encoding) = marked(&sample).or_else(|| unmarked_utf16(&sample)) {
        return Ok(Some(encoding));
    }
    if is_binary(&sample) {
        return Ok(None);
    }
    let utf8 = all_utf8(sample, reader)?;
    Ok(Some(if utf8 { TextEncoding::Utf8 } else { TextEncoding::Windows1252 }))
}

fn marked(sample: &[u8]) -> Option<TextEncoding> {
    let (encoding, _) = Encoding::for_bom(sample)?;
    [TextEncoding::Utf8, TextEncoding::Utf16Le, TextEncoding::Utf16Be]
        .into_iter()
        .find(|ours| ours.decoder().encoding() == encoding)
}

fn unmarked_utf16(sample: &[u8]) -> Option<TextEncoding> {
    let pairs = (sample.len() / 2).max(1) as f64;
    let nuls = |first: usize| sample.iter().skip(first).step_by(2).filter(|byte| **byte == 0).count() as f64;
    let (even, odd) = (nuls(0) / pairs, nuls(1) / pairs);
    match () {
        () if UTF16_NULS < odd && even < BINARY_NULS => Some(TextEncoding::Utf16Le),
        () if UTF16_NULS < even && odd < BINARY_NULS => Some(TextEncoding::Utf16Be),
        () => None,
    }
}

fn is_binary(sample: &[u8]) -> bool {
    let nuls = memchr::memchr_iter(0, sample).count();
    LEAST_NULS <= nuls && BINARY_NULS * sample.len() as f64 <= nuls as f64
}

/// Whether `carried` and all that is still to be read are valid UTF-8.
fn all_utf8(mut carried: Vec<u8>, reader: &mut dyn Read) -> io::Result<bool> {
    loop {
        let valid = Encoding::utf8_valid_up_to(&carried);
        carried.drain(..valid);
        // A whole character never takes more than four bytes, so four that are not valid never will be.
        if 4 <= carried.len() {
            return Ok(false);
        }
        if reader.take(SAMPLE as u64).read_to_end(&mut carried)? == 0 {
            return Ok(carried.is_empty());
        }
    }
}

/// A reader of any encoding as UTF-8, without the byte-order mark.
pub(crate) struct Decoding<R> {
    source: R,
    decoder: Decoder,
    raw: Vec<u8>,
    raw_start: usize,
    raw_end: usize,
    source_ended: bool,
    finished: bool,
}

impl<R: Read> Decoding<R> {
    pub(crate) fn new(source: R, encoding: TextEncoding) -> Self {
        Self {
            source,
            decoder: encoding.decoder(),
            raw: vec![0; SAMPLE],
            raw_start: 0,
            raw_end: 0,
            source_ended: false,
            finished: false,
        }
    }

    fn refill(&mut self) -> io::Result<()> {
        if self.raw_start == self.raw_end && !self.source_ended {
            self.raw_start = 0;
            self.raw_end = self.source.read(&mut self.raw)?;
            self.source_ended = self.raw_end == 0;
        }
        Ok(())
    }
}

/// Room that a decoder needs for certain to make progress: one character and what a mark holds back.
pub(crate) const LEAST_ROOM: usize = 16;

impl<R: Read> Read for Decoding<R> {
    fn read(&mut self, to: &mut [u8]) -> io::Result<usize> {
        if to.len() < LEAST_ROOM {
            return Err(io::Error::new(io::ErrorKind::InvalidInput, "the buffer is too small"));
        }
        while !self.finished {
            self.refill()?;
            let raw = self.raw.get(self.raw_start..self.raw_end).unwrap_or_default();
            let (result, read, written, _) = self.decoder.decode_to_utf8(raw, to, self.source_ended);
            self.raw_start += read;
            self.finished = self.source_ended && matches!(result, CoderResult::InputEmpty);
            if 0 < written {
                return Ok(written);
            }
        }
        Ok(0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn read_back(bytes: &[u8]) -> Option<(TextEncoding, String)> {
        let encoding = detect(&mut &*bytes).unwrap()?;
        let mut buffer = vec![0; 4096];
        let mut text = Vec::new();
        let mut decoding = Decoding::new(bytes, encoding);
        loop {
            match decoding.read(&mut buffer).unwrap() {
                0 => break,
                read => text.extend_from_slice(&buffer[..read]),
            }
        }
        Some((encoding, String::from_utf8(text).unwrap()))
    }

    #[track_caller]
    fn agrees(bytes: &[u8], encoding: TextEncoding, text: &str) {
        assert_eq!(read_back(bytes), Some((encoding, text.to_owned())));
    }

    fn utf16(text: &str, mark: Option<u16>, order: fn(u16) -> [u8; 2]) -> Vec<u8> {
        mark.into_iter().chain(text.encode_utf16()).flat_map(order).collect()
    }

    #[test]
    fn each_encoding_is_told_apart() {
        let text = "variety;poids\r\nCrème 12;6,3\r\n";
        agrees(text.as_bytes(), TextEncoding::Utf8, text);
        agrees(format!("\u{feff}{text}").as_bytes(), TextEncoding::Utf8, text);
        for mark in [Some(0xFEFF), None] {
            agrees(&utf16(text, mark, u16::to_le_bytes), TextEncoding::Utf16Le, text);
            agrees(&utf16(text, mark, u16::to_be_bytes), TextEncoding::Utf16Be, text);
        }
        agrees(
            b"variety,note\nCr\xe8me,\x93late\x94\n",
            TextEncoding::Windows1252,
            "variety,note\nCrème,“late”\n",
        );
    }

    /// A character cut in two by the end of a piece is still one character.
    #[test]
    fn a_late_accent_does_not_turn_the_file() {
        let text = format!("{}é\n", "a".repeat(SAMPLE - 1));
        agrees(text.as_bytes(), TextEncoding::Utf8, &text);
    }

    #[test]
    fn bytes_full_of_nuls_are_no_text() {
        let bytes: Vec<u8> = (0..4096).map(|at| if at % 7 == 0 { 0 } else { 200 }).collect();
        assert_eq!(read_back(&bytes), None);
    }

    proptest! {
        /// Whatever the bytes, what comes out is text, and no more than three times as long.
        #[test]
        fn any_bytes_are_refused_or_read(bytes in proptest::collection::vec(any::<u8>(), 0..2000)) {
            if let Some((_, text)) = read_back(&bytes) {
                prop_assert!(text.len() <= 3 * bytes.len() + 3);
            }
        }
    }
}
