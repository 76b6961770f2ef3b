//! Text with one row a line: cells parted by commas, semicolons, tabs or bars, quoted or not.
//!
//! Written out rather than borrowed, because the usual readers grow without bound on an endless
//! line and cannot say where a quote was opened that never closes. Here a row has a limit, a quote
//! that runs away costs one row and not the file, and `tests/delimited.rs` holds the splitting to the
//! `csv` crate's wherever a file is well formed. Start at [`Lines::walk`]; [`sniff`] finds the delimiter.

use crate::encoding::LEAST_ROOM;
use crate::table::{Broken, CellKind, MOST_CELL_BYTES, MOST_COLUMNS, MOST_ROW_BYTES, Row, Span};
use std::io::{self, Read};
use std::ops::ControlFlow;

/// Bytes read at a time: large enough that rows cut by its end are few.
const PIECE: usize = 256 * 1024;

/// A reader of rows in flat memory.
pub(crate) struct Lines<R> {
    source: R,
    delimiter: u8,
    buffer: Vec<u8>,
    start: usize,
    end: usize,
    left: Left,
    row: u64,
    cells: Vec<Raw>,
    spans: Vec<Span>,
    begun: bool,
}

/// What the source may still give.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Left {
    More,
    Nothing,
}

/// A cell as found, before its quotes are taken away.
#[derive(Clone, Copy)]
struct Raw {
    start: usize,
    end: usize,
    /// Whether doubled quotes inside it stand for one.
    doubled: bool,
}

/// How the search for the end of a row came out.
enum Found {
    /// The row ends, line break and all, before `next`.
    Row { next: usize },
    /// The row has not ended yet.
    More { in_quote: bool },
}

impl<R: Read> Lines<R> {
    pub(crate) fn new(source: R, delimiter: u8) -> Self {
        Self {
            source,
            delimiter,
            buffer: vec![0; PIECE],
            start: 0,
            end: 0,
            left: Left::More,
            row: 0,
            cells: Vec::new(),
            spans: Vec::new(),
            begun: false,
        }
    }

    /// Hands every row to `each` until it breaks off.
    pub(crate) fn walk(mut self, each: &mut dyn FnMut(Row<'_>) -> ControlFlow<()>) -> io::Result<()> {
        self.refill()?;
        self.skip_mark();
        while self.start < self.end || self.left == Left::More {
            if self.next_row(each)?.is_break() {
                break;
            }
        }
        Ok(())
    }

    fn next_row(&mut self, each: &mut dyn FnMut(Row<'_>) -> ControlFlow<()>) -> io::Result<ControlFlow<()>> {
        loop {
            let bytes = self.buffer.get(self.start..self.end).unwrap_or_default();
            let over = MOST_ROW_BYTES < bytes.len();
            match find_row(bytes, self.delimiter, self.left, &mut self.cells) {
                Found::Row { next } if bytes.is_empty() && next == 0 => return Ok(ControlFlow::Continue(())),
                Found::Row { next } => return Ok(self.hand_on(next, each)),
                Found::More { in_quote: true } if self.left == Left::Nothing || over => {
                    return self.open_quote(each);
                }
                Found::More { .. } if over => return self.long_row(each),
                Found::More { .. } => self.refill()?,
            }
        }
    }

    fn hand_on(&mut self, next: usize, each: &mut dyn FnMut(Row<'_>) -> ControlFlow<()>) -> ControlFlow<()> {
        let bytes = self.buffer.get_mut(self.start..self.start + next).unwrap_or_default();
        let broken = fault_of(bytes, &self.cells);
        self.spans.clear();
        self.spans.extend(self.cells.iter().take(MOST_COLUMNS).map(|raw| raw.settle(bytes)));
        self.start += next;
        self.row += 1;
        // Decoding gave UTF-8, and a file read as UTF-8 was checked when it was opened; a file that was
        // changed since then gives a row without text.
        let text = std::str::from_utf8(bytes).unwrap_or_default();
        each(Row::new(self.row, broken, text, &self.spans))
    }

    /// Reports a quote that never closes, and goes on with the line after the one it opened in. No line
    /// is lost twice: between here and the place looked up to stands no single quote that could open.
    fn open_quote(
        &mut self,
        each: &mut dyn FnMut(Row<'_>) -> ControlFlow<()>,
    ) -> io::Result<ControlFlow<()>> {
        self.broken_line(Broken::OpenQuote, each)
    }

    fn long_row(&mut self, each: &mut dyn FnMut(Row<'_>) -> ControlFlow<()>) -> io::Result<ControlFlow<()>> {
        self.broken_line(Broken::LongRow, each)
    }

    fn broken_line(
        &mut self,
        broken: Broken,
        each: &mut dyn FnMut(Row<'_>) -> ControlFlow<()>,
    ) -> io::Result<ControlFlow<()>> {
        self.row += 1;
        let shown = self.beginning();
        let span = Span { start: 0, end: shown.len() as u32, kind: CellKind::Text };
        let flow = each(Row::new(self.row, Some(broken), &shown, &[span]));
        self.skip_line()?;
        Ok(flow)
    }

    /// The beginning of the line that could not be read, to be shown.
    fn beginning(&self) -> String {
        /// Bytes that fit a line of a message.
        const SHOWN: usize = 200;
        let bytes = self.buffer.get(self.start..self.end).unwrap_or_default();
        let line = bytes.split(|byte| matches!(byte, b'\n' | b'\r')).next().unwrap_or_default();
        String::from_utf8_lossy(line.get(..SHOWN).unwrap_or(line)).into_owned()
    }

    fn skip_line(&mut self) -> io::Result<()> {
        loop {
            let bytes = self.buffer.get(self.start..self.end).unwrap_or_default();
            match memchr::memchr2(b'\n', b'\r', bytes) {
                Some(at) if at + 1 < bytes.len() || self.left == Left::Nothing => {
                    self.start += at + line_break(bytes, at);
                    return Ok(());
                }
                Some(at) => self.start += at,
                None => self.start = self.end,
            }
            if self.left == Left::Nothing {
                return Ok(());
            }
            self.refill()?;
        }
    }

    /// Reads another piece behind what is still to be used, making room as needed.
    fn refill(&mut self) -> io::Result<()> {
        self.buffer.copy_within(self.start..self.end, 0);
        self.end -= self.start;
        self.start = 0;
        if self.buffer.len() < self.end + PIECE / 2 {
            self.buffer.resize(self.buffer.len() * 2, 0);
        }
        // All the room is filled, so that a long row is looked at a few times and not once a piece.
        while let Some(room) = self.buffer.get_mut(self.end..).filter(|room| LEAST_ROOM <= room.len()) {
            let read = self.source.read(room)?;
            if read == 0 {
                self.left = Left::Nothing;
                break;
            }
            self.end += read;
        }
        Ok(())
    }

    fn skip_mark(&mut self) {
        let begins = self.buffer.get(..self.end).unwrap_or_default();
        if !self.begun && begins.starts_with("\u{feff}".as_bytes()) {
            self.start = "\u{feff}".len();
        }
        self.begun = true;
    }
}

impl Raw {
    /// Turns doubled quotes into single ones, in place, and gives where the cell stands then.
    fn settle(self, bytes: &mut [u8]) -> Span {
        let end = if self.doubled { undouble(bytes, self.start, self.end) } else { self.end };
        Span { start: self.start as u32, end: end as u32, kind: CellKind::Text }
    }
}

fn undouble(bytes: &mut [u8], start: usize, end: usize) -> usize {
    let mut to = start;
    let mut from = start;
    while from < end {
        let Some(byte) = bytes.get(from).copied() else { break };
        if let Some(place) = bytes.get_mut(to) {
            *place = byte;
        }
        to += 1;
        from += if byte == b'"' { 2 } else { 1 };
    }
    // What is left over between the two ends is blanked, so that the row stays text.
    bytes.get_mut(to..end).unwrap_or_default().fill(b' ');
    to
}

fn fault_of(bytes: &[u8], cells: &[Raw]) -> Option<Broken> {
    match () {
        () if memchr::memchr(0, bytes).is_some() => Some(Broken::Nul),
        () if MOST_COLUMNS < cells.len() => Some(Broken::ManyCells),
        () if MOST_ROW_BYTES < bytes.len() => Some(Broken::LongRow),
        () if cells.iter().any(|cell| MOST_CELL_BYTES < cell.end - cell.start) => Some(Broken::LongCell),
        () => None,
    }
}

/// Splits the row at the beginning of `bytes` into `cells`.
fn find_row(bytes: &[u8], delimiter: u8, left: Left, cells: &mut Vec<Raw>) -> Found {
    cells.clear();
    let mut at = 0;
    loop {
        let (cell, stop) = match quote_at(bytes, at, delimiter) {
            Some(quote) => match quoted_cell(bytes, at, quote, delimiter) {
                Some(found) => found,
                None => return Found::More { in_quote: true },
            },
            None => {
                let stop = cell_end(bytes, at, delimiter);
                (Raw { start: at, end: stop, doubled: false }, stop)
            }
        };
        // A row of a thousand cells is broken already; the rest is not kept, only walked over.
        if cells.len() <= MOST_COLUMNS {
            cells.push(cell);
        }
        match bytes.get(stop) {
            Some(byte) if *byte == delimiter => at = stop + 1,
            // Whether a line feed follows a carriage return is not known yet.
            Some(b'\r') if stop + 1 == bytes.len() && left == Left::More => {
                return Found::More { in_quote: false };
            }
            Some(_) => return Found::Row { next: stop + line_break(bytes, stop) },
            None if left == Left::Nothing => return Found::Row { next: stop },
            None => return Found::More { in_quote: false },
        }
    }
}

/// How many bytes the line break at `at` takes.
fn line_break(bytes: &[u8], at: usize) -> usize {
    if bytes.get(at..).unwrap_or_default().starts_with(b"\r\n") { 2 } else { 1 }
}

/// The first delimiter or line break from `at` on, or the end.
fn cell_end(bytes: &[u8], at: usize, delimiter: u8) -> usize {
    let rest = bytes.get(at..).unwrap_or_default();
    let stops = |byte: &u8| *byte == delimiter || *byte == b'\n' || *byte == b'\r';
    rest.iter().position(stops).map_or(bytes.len(), |length| at + length)
}

/// The quote that opens the cell at `at`, blanks before it passed over.
fn quote_at(bytes: &[u8], at: usize, delimiter: u8) -> Option<usize> {
    match bytes.get(at)? {
        b'"' => Some(at),
        b' ' if delimiter != b' ' => {
            let rest = bytes.get(at..)?;
            let blanks = rest.iter().position(|byte| *byte != b' ')?;
            (rest.get(blanks) == Some(&b'"')).then_some(at + blanks)
        }
        _ => None,
    }
}

/// The quoted cell that begins at `quote` and where it stops, or `None` if the quote does not close.
/// Words that follow a closing quote, as in `"Amber" late`, make the quotes part of the cell.
fn quoted_cell(bytes: &[u8], at: usize, quote: usize, delimiter: u8) -> Option<(Raw, usize)> {
    let mut doubled = false;
    let mut from = quote + 1;
    loop {
        let close = from + memchr::memchr(b'"', bytes.get(from..)?)?;
        if bytes.get(close + 1) == Some(&b'"') {
            doubled = true;
            from = close + 2;
            continue;
        }
        let stop = cell_end(bytes, close + 1, delimiter);
        let after = bytes.get(close + 1..stop).unwrap_or_default();
        let clean = after.iter().all(|byte| *byte == b' ');
        let inside = Raw { start: quote + 1, end: close, doubled };
        let outside = Raw { start: at, end: stop, doubled: false };
        return Some((if clean { inside } else { outside }, stop));
    }
}

/// Delimiters that are looked for, the likeliest first.
pub(crate) const DELIMITERS: [u8; 4] = [b',', b';', b'\t', b'|'];

/// Rows from the top in which headings are looked for.
const HEADINGS_WITHIN: u64 = 50;

/// The name of a delimiter for people.
pub(crate) fn delimiter_name(delimiter: u8) -> &'static str {
    match delimiter {
        b';' => "semicolons",
        b'\t' => "tabs",
        b'|' => "bars",
        _ => "commas",
    }
}

/// Finds the delimiter from the beginning of a text.
///
/// A first line `sep=;`, as spreadsheets write it, decides. Otherwise it is the one under which
/// some row holds most headings that `headings_in` knows, and among equals the one that gives most rows
/// of one width.
pub(crate) fn sniff(sample: &[u8], headings_in: &dyn Fn(&Row<'_>) -> usize) -> u8 {
    if let Some(stated) = stated_delimiter(sample) {
        return stated;
    }
    let likeliest_last = DELIMITERS.into_iter().rev();
    likeliest_last.max_by_key(|delimiter| score(sample, *delimiter, headings_in)).unwrap_or(b',')
}

fn stated_delimiter(sample: &[u8]) -> Option<u8> {
    let stated = sample.strip_prefix("\u{feff}".as_bytes()).unwrap_or(sample).strip_prefix(b"sep=")?;
    stated.first().copied().filter(|byte| DELIMITERS.contains(byte))
}

/// Most headings in one row, rows of the commonest width, that width.
fn score(sample: &[u8], delimiter: u8, headings_in: &dyn Fn(&Row<'_>) -> usize) -> (usize, usize, usize) {
    let mut widths = std::collections::BTreeMap::<usize, usize>::new();
    let mut most_headings = 0;
    let walked = Lines::new(sample, delimiter).walk(&mut |row| {
        if 1 < row.width() {
            *widths.entry(row.width()).or_default() += 1;
        }
        if 1 < row.width() && row.number <= HEADINGS_WITHIN {
            most_headings = most_headings.max(headings_in(&row));
        }
        ControlFlow::Continue(())
    });
    debug_assert!(walked.is_ok(), "bytes in memory can always be read");
    let commonest = widths.into_iter().map(|(width, rows)| (rows, width)).max().unwrap_or_default();
    (most_headings, commonest.0, commonest.1)
}
