//! When two spellings are one name.

use record::variety::name_key;
use unicode_normalization::UnicodeNormalization;

/// The form of a variety's name or alias by which it is found, as everywhere in the house: see
/// [`record::variety::name_key`].
#[must_use]
pub fn key(name: &str) -> String {
    name_key(name)
}

/// The form of a stake's label or a grow-out's name: case, look-alike code points and the width of a space do
/// not count, everything else does, because plot `1 2` is not plot `12` and bed `A-1` is not bed `A1`.
#[must_use]
pub fn label_key(label: &str) -> String {
    let word = |word: &str| word.nfkc().flat_map(char::to_lowercase).collect::<String>();
    label.split_whitespace().map(word).collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_space_within_a_label_counts() {
        assert_eq!(label_key(" A  12 "), label_key("a 12"));
        assert_ne!(label_key("1 2"), label_key("12"));
        assert_ne!(label_key("1-2"), label_key("12"));
        assert_ne!(label_key("A-1"), label_key("A1"));
    }
}
