//! Days as an iCalendar file, for the calendars that people keep anyway.
//!
//! Whole days only, one event each, and the same identifier every time for the same garden, year and event, so that a file
//! brought in again changes events and doubles none. Start at [`icalendar`].
//!
//! # Source
//! RFC 5545, Internet Calendaring and Scheduling Core Object Specification, IETF 2009: sections 3.1 (lines of 75 octets,
//! folded), 3.3.11 (escaped text), 3.6.1 (events).

use jiff::Timestamp;
use jiff::civil::Date;

/// An event of one day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DayEvent {
    /// What it is told apart by: the same for the same thing.
    pub identifier: String,
    /// The day.
    pub on: Date,
    /// What it says.
    pub summary: String,
    /// More about it.
    pub description: String,
}

/// Octets of a line before it is folded.
const LINE: usize = 75;

/// Writes events as one calendar. `made` is when, as every event must say.
#[must_use]
pub fn icalendar(events: &[DayEvent], made: Timestamp) -> String {
    let mut text = String::new();
    let made = made.strftime("%Y%m%dT%H%M%SZ").to_string();
    for line in ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//locule//calendar//EN"] {
        folded(&mut text, line);
    }
    for event in events {
        let next = event.on.tomorrow().unwrap_or(event.on);
        for line in [
            "BEGIN:VEVENT".to_owned(),
            format!("UID:{}", escaped(&event.identifier)),
            format!("DTSTAMP:{made}"),
            format!("DTSTART;VALUE=DATE:{}", event.on.strftime("%Y%m%d")),
            format!("DTEND;VALUE=DATE:{}", next.strftime("%Y%m%d")),
            format!("SUMMARY:{}", escaped(&event.summary)),
            format!("DESCRIPTION:{}", escaped(&event.description)),
            "TRANSP:TRANSPARENT".to_owned(),
            "END:VEVENT".to_owned(),
        ] {
            folded(&mut text, &line);
        }
    }
    folded(&mut text, "END:VCALENDAR");
    text
}

/// Text as a property holds it.
fn escaped(words: &str) -> String {
    let mut text = String::with_capacity(words.len());
    for sign in words.chars() {
        match sign {
            '\\' | ';' | ',' => {
                text.push('\\');
                text.push(sign);
            }
            '\n' => text.push_str("\\n"),
            sign if sign.is_control() => {}
            sign => text.push(sign),
        }
    }
    text
}

/// A line, cut where it is too long, between letters and never within one.
fn folded(text: &mut String, line: &str) {
    let mut taken = 0;
    for sign in line.chars() {
        if LINE < taken + sign.len_utf8() {
            text.push_str("\r\n ");
            taken = 1;
        }
        text.push(sign);
        taken += sign.len_utf8();
    }
    text.push_str("\r\n");
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    #[test]
    fn lines_are_folded_and_text_is_escaped() {
        let event = DayEvent {
            identifier: "home-2027-sow".to_owned(),
            on: date(2027, 12, 31),
            summary: "Sow; beds 1, 2 and 3\nthen water".to_owned(),
            description: "é".repeat(100),
        };
        let text = icalendar(&[event], Timestamp::UNIX_EPOCH);
        assert!(text.lines().all(|line| line.len() <= 75), "{text}");
        assert!(text.split_inclusive('\n').all(|line| line.ends_with("\r\n")), "{text:?}");
        assert!(text.contains("SUMMARY:Sow\\; beds 1\\, 2 and 3\\nthen water\r\n"), "{text}");
        assert!(text.contains("DTSTART;VALUE=DATE:20271231\r\nDTEND;VALUE=DATE:20280101\r\n"), "{text}");
        assert!(text.contains("DTSTAMP:19700101T000000Z"), "{text}");
        let unfolded = text.replace("\r\n ", "");
        assert!(unfolded.contains(&format!("DESCRIPTION:{}", "é".repeat(100))), "{text}");
    }
}
