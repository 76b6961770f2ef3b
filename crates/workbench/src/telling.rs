//! Small words that several pages share: moments, addresses, the house's name.

use house::folder::House;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};

/// A length as a count.
pub(crate) fn count(length: usize) -> u64 {
    u64::try_from(length).unwrap_or(u64::MAX)
}

/// A moment by this machine's clock: `2031-07-14 16:05`.
pub(crate) fn moment(at: Timestamp) -> String {
    at.to_zoned_datetime(TimeZone::system()).strftime("%Y-%m-%d %H:%M").to_string()
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

/// The address of what may stand in for a variety.
pub(crate) fn instead_address(name: &str) -> String {
    variety_address(name).replacen("/variety/", "/instead/", 1)
}

/// Where a variety's ripening is told.
pub(crate) fn ripening_address(name: &str) -> String {
    variety_address(name).replacen("/variety/", "/ripening/", 1)
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
    fn names_are_safe_in_addresses() {
        assert_eq!(variety_address("Drip Stone"), "/variety/Drip%20Stone");
        assert_eq!(variety_address("a/b?c#d%\""), "/variety/a%2Fb%3Fc%23d%25%22");
    }
}
