//! When two spellings are one name.

use unicode_normalization::UnicodeNormalization;

/// The form of a name by which it is found: case, spaces and look-alike code points do not count, so
/// that `Early  Plum`, `EARLY PLUM` and `EarlyPlum` are one name.
#[must_use]
pub fn key(name: &str) -> String {
    name.nfkc().filter(|c| !c.is_whitespace() && *c != '\0').flat_map(char::to_lowercase).collect()
}

/// The form of a stake's label or a grow-out's name: as a name's, but a space between two words counts,
/// because plot `1 2` is not plot `12`.
#[must_use]
pub fn label_key(label: &str) -> String {
    label.split_whitespace().map(key).collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn case_and_spaces_do_not_count() {
        for spelling in ["Early Plum", " EARLY\u{a0}PLUM ", "early  plum", "EarlyPlum"] {
            assert_eq!(key(spelling), "earlyplum", "{spelling:?}");
        }
        assert_eq!(key("Pe\u{301}pin"), key("P\u{e9}pin"));
    }

    #[test]
    fn a_space_within_a_label_counts() {
        assert_eq!(label_key(" A  12 "), label_key("a 12"));
        assert_ne!(label_key("1 2"), label_key("12"));
    }
}
