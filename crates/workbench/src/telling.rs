//! Small words that several pages share: counts, chances, moments, addresses.

use house::folder::House;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};

/// `1 row`, `12 rows`, `1,204 rows`.
pub(crate) fn counted(count: u64, one: &str, many: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{} {many}", grouped(count)) }
}

/// A length as a count.
pub(crate) fn count(length: usize) -> u64 {
    u64::try_from(length).unwrap_or(u64::MAX)
}

/// A count with its thousands parted.
pub(crate) fn grouped(count: u64) -> String {
    let digits = count.to_string();
    let mut parted = String::with_capacity(digits.len() + digits.len() / 3);
    for (place, digit) in digits.chars().enumerate() {
        if place > 0 && (digits.len() - place).is_multiple_of(3) {
            parted.push(',');
        }
        parted.push(digit);
    }
    parted
}

/// A probability as it is told: `62 in 100`; never quite 0 or 100, which no evidence gives.
pub(crate) fn chance(share: f64) -> String {
    match share {
        nearly if 0.995 <= nearly => "over 99 in 100".to_owned(),
        hardly if hardly < 0.005 => "under 1 in 100".to_owned(),
        share => format!("{:.0} in 100", share * 100.0),
    }
}

/// A moment by this machine's clock: `2031-07-14 16:05`.
pub(crate) fn moment(at: Timestamp) -> String {
    at.to_zoned_datetime(TimeZone::system()).strftime("%Y-%m-%d %H:%M").to_string()
}

/// A word with a capital first.
pub(crate) fn capitalised(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

/// What stands unescaped in a part of an address.
const PLAIN: AsciiSet = NON_ALPHANUMERIC.remove(b'-').remove(b'_').remove(b'.').remove(b'~');

/// A part of an address.
pub(crate) fn encoded(part: &str) -> String {
    utf8_percent_encode(part, &PLAIN).to_string()
}

/// The address of a variety's page. A name of only full stops would lead elsewhere, so its first is escaped.
pub(crate) fn variety_address(name: &str) -> String {
    let part = encoded(name);
    match part.strip_prefix('.') {
        Some(rest) => format!("/variety/%2E{rest}"),
        None => format!("/variety/{part}"),
    }
}

/// What is told of a house with no name yet.
pub(crate) fn house_name(house: &House) -> &str {
    Some(house.settings.name.trim())
        .filter(|name| !name.is_empty())
        .unwrap_or("A seed house without a name yet")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_and_chances_read_as_people_say_them() {
        assert_eq!(counted(1, "row", "rows"), "1 row");
        assert_eq!(counted(1_204_567, "row", "rows"), "1,204,567 rows");
        assert_eq!(chance(0.6204), "62 in 100");
        assert_eq!(chance(0.9999), "over 99 in 100");
        assert_eq!(chance(0.0), "under 1 in 100");
    }

    #[test]
    fn names_are_safe_in_addresses() {
        assert_eq!(variety_address("Drip Stone"), "/variety/Drip%20Stone");
        assert_eq!(variety_address("a/b?c#d%\""), "/variety/a%2Fb%3Fc%23d%25%22");
    }
}
