//! File names for names: what a variety's page is called on any disk and web server.
//!
//! A file name is made of small Latin letters, figures and hyphens only, so that it is one file where case does
//! not count, where accents are kept in two ways, and in an address without escapes. What is lost of the name on the
//! way is made good by a fingerprint of the whole name, so that an address stays when other varieties come and go.
//! Start at [`addresses`].

use std::collections::HashMap;
use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

/// Longest part of a name that is kept, in bytes; with its fingerprint and ending it stays far under the 200 bytes
/// that we promise and the 255 that file systems take. Common practice, no source.
const LONGEST: usize = 80;

/// Names that one family of systems keeps for devices, whatever their ending, beside `com` and `lpt` with a figure.
/// Source: Microsoft, "Naming Files, Paths, and Namespaces", from memory, unverified.
const RESERVED: [&str; 4] = ["con", "prn", "aux", "nul"];

/// File names without ending for `names`, all different; the same name gets the same file name in any company,
/// unless two names come to the same letters.
pub(super) fn addresses<'a>(names: impl Iterator<Item = &'a str>) -> Vec<String> {
    let names: Vec<(&str, String)> = names.map(|name| (name, address(name))).collect();
    let mut uses: HashMap<&str, usize> = HashMap::new();
    for (_, address) in &names {
        *uses.entry(address).or_default() += 1;
    }
    let is_shared = |address: &str| uses.get(address).is_some_and(|uses| 1 < *uses);
    let mut taken: HashMap<String, u32> = HashMap::new();
    let mut free = |wanted: String| {
        let times = taken.entry(wanted.clone()).or_default();
        *times += 1;
        if *times == 1 { wanted } else { format!("{wanted}-{times}") }
    };
    let told_apart = |(name, address): &(&str, String)| {
        free(if is_shared(address) { marked(address, name) } else { address.clone() })
    };
    names.iter().map(told_apart).collect()
}

fn address(name: &str) -> String {
    let (mut address, mut is_whole) = (String::new(), true);
    for sign in name.nfkd().filter(|sign| !is_combining_mark(*sign) && !is_quote(*sign)) {
        match sign.to_ascii_lowercase() {
            plain if plain.is_ascii_alphanumeric() => address.push(plain),
            other => {
                is_whole &= !other.is_alphanumeric();
                if !address.is_empty() && !address.ends_with('-') {
                    address.push('-');
                }
            }
        }
        if LONGEST <= address.len() {
            is_whole = false;
            break;
        }
    }
    let address = address.trim_end_matches('-');
    if is_whole && !address.is_empty() && !is_reserved(address) {
        address.to_owned()
    } else {
        marked(address, name)
    }
}

fn is_quote(sign: char) -> bool {
    matches!(sign, '\'' | '"' | '`' | '\u{2018}'..='\u{201f}' | '\u{2bc}')
}

fn is_reserved(address: &str) -> bool {
    let is_port = |name: &str| {
        address.strip_prefix(name).is_some_and(|figure| matches!(figure.as_bytes(), [b'0'..=b'9']))
    };
    RESERVED.contains(&address) || is_port("com") || is_port("lpt")
}

fn marked(address: &str, name: &str) -> String {
    let joint = if address.is_empty() { "" } else { "-" };
    format!("{address}{joint}x{:08x}", fingerprint(name) >> 32)
}

/// FNV-1a, 64 bits. Source: Fowler, Noll, Vo and Eastlake, draft-eastlake-fnv, "The FNV Non-Cryptographic Hash
/// Algorithm".
fn fingerprint(name: &str) -> u64 {
    const BASIS: u64 = 0xcbf2_9ce4_8422_2325;
    const PRIME: u64 = 0x0000_0100_0000_01b3;
    name.bytes().fold(BASIS, |sum, byte| (sum ^ u64::from(byte)).wrapping_mul(PRIME))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use std::collections::HashSet;

    #[track_caller]
    fn agrees(name: &str, expected: &str) {
        assert_eq!(addresses(std::iter::once(name)), [expected]);
    }

    #[test]
    fn names_become_plain_file_names() {
        agrees("Cooper's Half", "coopers-half");
        agrees("Émigré No. 2", "emigre-no-2");
        agrees("  --Dusk / Dawn--  ", "dusk-dawn");
        agrees("NUL", "nul-x369eba19");
    }

    /// Offset basis, and the 64-bit hash of "foobar", from the test vectors that its authors publish.
    #[test]
    fn fingerprints_agree_with_their_authors() {
        assert_eq!(fingerprint(""), 0xcbf2_9ce4_8422_2325);
        assert_eq!(fingerprint("foobar"), 0x8594_4171_f739_67e8);
    }

    #[test]
    fn an_address_stays_when_others_come() {
        let of = |names: &[&str]| addresses(names.iter().copied());
        let (alone, together) = (of(&["番茄"]), of(&["Dusk", "番茄", "紅番茄"]));
        assert_eq!(alone[0], together[1]);
        assert_eq!(of(&["Dusk"])[0], together[0]);
    }

    proptest! {
        /// Whatever the names, even where two are the same, no two files are.
        #[test]
        fn no_two_are_alike_and_all_are_harmless(names in prop::collection::vec("\\PC{0,12}|(?i)con|dusk'?|.{300}", 1..40)) {
            let made = addresses(names.iter().map(String::as_str));
            prop_assert_eq!(made.iter().collect::<HashSet<_>>().len(), names.len());
            for address in made {
                prop_assert!((1..=100).contains(&address.len()));
                prop_assert!(address.bytes().all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-'));
                prop_assert!(!is_reserved(&address) && !address.starts_with('-') && !address.ends_with('-'));
            }
        }
    }
}
