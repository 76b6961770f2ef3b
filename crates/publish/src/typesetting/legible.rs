//! Text that can be printed: every character has a picture, and every line can be broken.
//!
//! Names come from packets, spreadsheets and old mail, so they may hold anything. What no font can
//! draw is written out as its code (`[U+1F345]`), which a reader can look up and nobody mistakes for a
//! name. A house that needs a script gives a font for it.

use crate::typesetting::Fonts;
use unicode_normalization::char::is_combining_mark;

/// Characters without a space after which a line may be broken anywhere; longer than any word in a
/// language that is written with spaces. Common practice, no source.
const LONGEST_WORD: usize = 24;
/// Marks on one letter beyond which they run into the lines around. Common practice, no source: Vietnamese
/// needs two, pointed Hebrew three.
const MOST_MARKS: usize = 4;
/// Where a line may be broken without a hyphen.
const BREAK: char = '\u{200b}';

impl Fonts {
    /// Makes text fit to print: no control characters, single spaces, codes for what no font can draw,
    /// and a place to break every long run of letters.
    pub(crate) fn legible(&self, text: &str) -> String {
        let mut line = Line { text: String::with_capacity(text.len()), run: 0, marks: 0 };
        for character in text.chars() {
            match character {
                space if space.is_whitespace() || space.is_control() => line.space(),
                steering if steers_direction(steering) => {}
                unseen if is_invisible(unseen) && !self.cover(unseen) => {}
                mark if is_combining_mark(mark) => line.mark(mark, self.cover(mark)),
                seen if self.cover(seen) => line.letter(seen),
                unseen => line.code(unseen),
            }
        }
        line.text.truncate(line.text.trim_end().len());
        line.text
    }
}

/// A line as it is being written.
struct Line {
    text: String,
    /// Characters since the last place where the line may be broken.
    run: usize,
    /// Marks on the last letter.
    marks: usize,
}

impl Line {
    fn space(&mut self) {
        if !self.text.is_empty() && !self.text.ends_with(' ') {
            self.text.push(' ');
        }
        self.run = 0;
        self.marks = 0;
    }

    fn letter(&mut self, letter: char) {
        if LONGEST_WORD <= self.run {
            self.text.push(BREAK);
            self.run = 0;
        }
        self.text.push(letter);
        self.run += 1;
        self.marks = 0;
    }

    fn mark(&mut self, mark: char, covered: bool) {
        self.marks += 1;
        match covered {
            true if self.marks <= MOST_MARKS => self.text.push(mark),
            true => {}
            false => self.code(mark),
        }
    }

    fn code(&mut self, unseen: char) {
        for letter in format!("[U+{:04X}]", u32::from(unseen)).chars() {
            self.letter(letter);
        }
    }
}

/// Marks that turn the direction of the text round them: a name that holds one could turn its neighbours.
fn steers_direction(character: char) -> bool {
    matches!(character, '\u{200e}' | '\u{200f}' | '\u{061c}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// Characters that have no picture by design.
fn is_invisible(character: char) -> bool {
    matches!(character,
        '\u{00ad}' | '\u{200b}'..='\u{200d}' | '\u{2060}'..='\u{2064}' | '\u{feff}'
        | '\u{fe00}'..='\u{fe0f}' | '\u{e0000}'..='\u{e0fff}')
}

#[cfg(test)]
mod tests {
    use crate::typesetting::Fonts;

    #[track_caller]
    fn agrees(text: &str, printed: &str) {
        assert_eq!(Fonts::with(&[]).unwrap().legible(text), printed);
    }

    #[test]
    fn plain_names_are_left_alone() {
        agrees("Cooper's Half", "Cooper's Half");
        agrees("Žlutá Świerczek №5", "Žlutá Świerczek №5");
        agrees("עגבניה", "עגבניה");
    }

    #[test]
    fn what_cannot_be_drawn_is_written_as_its_code() {
        agrees("Lamp \u{1f345}\u{fe0f}", "Lamp [U+1F345]");
        agrees("a\0b\u{7}c", "a b c");
        agrees("  a \r\n\t b  ", "a b");
        agrees("a\u{202e}b", "ab");
    }

    #[test]
    fn a_long_run_can_be_broken() {
        let printed = Fonts::with(&[]).unwrap().legible(&"x".repeat(100));
        assert_eq!(printed.replace('\u{200b}', ""), "x".repeat(100));
        assert!(printed.split('\u{200b}').all(|run| run.len() <= super::LONGEST_WORD));
    }
}
