//! Words as the shelf is searched by: small letters without marks, so that `Rösli` is found by `rosli`.

use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

/// Letters of a word that are kept. Both servers bound the length of a word; common practice, no source.
const LONGEST_WORD: usize = 60;

/// The words of a text, in small letters without marks, parted by single spaces.
#[must_use]
pub fn plain_words(text: &str) -> String {
    let plain: String =
        text.nfkd().filter(|sign| !is_combining_mark(*sign)).flat_map(char::to_lowercase).collect();
    let words = plain.split(|sign: char| !sign.is_alphanumeric()).filter(|word| !word.is_empty());
    words.map(shortened).collect::<Vec<_>>().join(" ")
}

fn shortened(word: &str) -> &str {
    word.char_indices().nth(LONGEST_WORD).and_then(|(end, _)| word.get(..end)).unwrap_or(word)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_case_and_signs_do_not_count() {
        assert_eq!(plain_words("Rösli's \"58 g\" PLUM-shaped"), "rosli s 58 g plum shaped");
        assert_eq!(plain_words(" - "), "");
        assert_eq!(plain_words(&"x".repeat(200)).len(), LONGEST_WORD);
    }
}
