//! Text that can be printed: every character has a picture, and every line can be broken.
//!
//! Names come from packets, spreadsheets and old mail, so they may hold anything. What no font can
//! draw is written out as its code (`[U+1F345]`), which a reader can look up and nobody mistakes for a
//! name. A house that needs a script gives a font for it.

use crate::typesetting::Fonts;
use unicode_normalization::char::is_combining_mark;

/// Letters in a row beyond which a word may be broken anywhere: so many of the widest letter still fit the
/// narrowest column, and few words of any language are longer. Common practice, no source.
const LONGEST_WORD: usize = 16;
/// Letters between two such breaks.
const BREAK_EVERY: usize = 8;
/// Marks on one letter beyond which they run into the lines around. Common practice, no source: Vietnamese
/// needs two, pointed Hebrew three.
const MOST_MARKS: usize = 4;
/// Where a line may be broken without a hyphen.
const BREAK: char = '\u{200b}';

impl Fonts {
    /// Makes text fit to print: no control characters, single spaces, codes for what no font can draw,
    /// and a place to break every long run of letters.
    pub(crate) fn legible(&self, text: &str) -> String {
        let mut line = Line { fonts: self, text: String::with_capacity(text.len()), letter: String::new() };
        for character in text.chars() {
            match character {
                space if space.is_whitespace() || space.is_control() => line.space(),
                unseen if is_invisible(unseen) => {}
                mark if is_combining_mark(mark) => line.letter.push(mark),
                letter => line.begin(letter),
            }
        }
        line.finish();
        breakable(line.text.trim_end())
    }

    /// Whether a text holds a sign that no font can draw, so that its code would be printed.
    pub(crate) fn lacks_any(&self, text: &str) -> bool {
        let is_seen = |sign: &char| {
            !sign.is_whitespace() && !sign.is_control() && !is_invisible(*sign) && !is_combining_mark(*sign)
        };
        text.chars().filter(is_seen).any(|sign| !self.cover(sign.encode_utf8(&mut [0; 4])))
    }
}

/// A line as it is being written.
struct Line<'a> {
    fonts: &'a Fonts,
    text: String,
    /// The last letter and its marks, not yet written.
    letter: String,
}

impl Line<'_> {
    fn space(&mut self) {
        self.finish();
        if !self.text.is_empty() && !self.text.ends_with(' ') {
            self.text.push(' ');
        }
    }

    fn begin(&mut self, letter: char) {
        self.finish();
        self.letter.push(letter);
    }

    /// Writes the last letter: with its marks where one font has them all, else piece by piece.
    fn finish(&mut self) {
        let letter: String = std::mem::take(&mut self.letter).chars().take(1 + MOST_MARKS).collect();
        if self.fonts.cover(&letter) && !letter.starts_with(is_combining_mark) {
            self.text.push_str(&letter);
        } else {
            letter.chars().for_each(|part| self.piece(part));
        }
    }

    fn piece(&mut self, part: char) {
        if self.fonts.cover(part.encode_utf8(&mut [0; 4])) && !is_combining_mark(part) {
            self.text.push(part);
        } else {
            self.text.push_str(&format!("[U+{:04X}]", u32::from(part)));
        }
    }
}

/// Puts places to break into words that are too long for a line.
fn breakable(text: &str) -> String {
    text.split_inclusive([' ', '-']).map(breakable_word).collect()
}

fn breakable_word(word: &str) -> String {
    if word.chars().count() <= LONGEST_WORD {
        return word.to_owned();
    }
    let mut broken = String::with_capacity(word.len() * 2);
    let mut letters = 0;
    for character in word.chars() {
        if !is_combining_mark(character) {
            if BREAK_EVERY <= letters {
                broken.push(BREAK);
                letters = 0;
            }
            letters += 1;
        }
        broken.push(character);
    }
    broken
}

/// Characters that have no picture by design, and those that turn the direction of the text round them: a
/// name that held one of these could turn its neighbours.
fn is_invisible(character: char) -> bool {
    matches!(character,
        '\u{00ad}' | '\u{034f}' | '\u{061c}' | '\u{115f}'..='\u{1160}' | '\u{17b4}'..='\u{17b5}' | '\u{180b}'..='\u{180f}'
        | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{3164}' | '\u{feff}'
        | '\u{fe00}'..='\u{fe0f}' | '\u{ffa0}' | '\u{fff0}'..='\u{fff8}' | '\u{e0000}'..='\u{e0fff}')
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
