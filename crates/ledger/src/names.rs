//! When two spellings are one name.

/// The form of a name by which it is found: case, spaces and look-alike code points do not count.
#[must_use]
pub fn key(name: &str) -> String {
    name.split_whitespace().flat_map(str::chars).flat_map(char::to_lowercase).collect()
}
