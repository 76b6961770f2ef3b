//! Days that the law counts: how long a test may be told, when the next is due, how long records and samples are kept.
//!
//! A test's age is counted from the last day of its month, whatever the day of the count. Start at [`last_shipping_day`].

use crate::germination::{FINAL_COUNT_DAYS, TOMATO_STANDARD};
use jiff::civil::Date;
use jiff::{Span, ToSpan};
use record::lot::Packing;
use record::share::{Percent, WholePercent};

/// Calendar months that a test may be old at shipment. Source: 7 CFR 201.30a (2026).
pub const TEST_MONTHS: i16 = 5;

/// Calendar months likewise for seed in hermetically sealed packets. Source: 7 CFR 201.30a (2026).
pub const HERMETIC_MONTHS: i16 = 24;

/// Years for which the record of a lot is kept. Source: 7 CFR 201.4 (2015).
pub const RECORD_YEARS: i16 = 3;

/// Years for which its file sample is kept after the last of it is gone. Source: 7 CFR 201.4 (2015).
pub const SAMPLE_YEARS: i16 = 1;

/// Fewest seeds of a file sample of vegetable seed. Source: 7 CFR 201.4 (2015).
pub const SAMPLE_SEEDS: u32 = 400;

/// A calendar month of one year, as a label tells it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Month {
    first: Date,
}

impl Month {
    /// The month of a day.
    #[must_use]
    pub fn of(day: Date) -> Self {
        Self { first: day.first_of_month() }
    }

    /// Takes a year and a month from 1 to 12.
    #[must_use]
    pub fn new(year: i16, month: i8) -> Option<Self> {
        Date::new(year, month, 1).ok().map(|first| Self { first })
    }

    /// The year.
    #[must_use]
    pub fn year(self) -> i16 {
        self.first.year()
    }

    /// The month, from 1 to 12.
    #[must_use]
    pub fn month(self) -> i8 {
        self.first.month()
    }

    /// The last day of the month that comes `months` later; the last of all days where the calendar ends.
    #[must_use]
    pub fn end_after(self, months: i16) -> Date {
        later(self.first, i32::from(months).months()).last_of_month()
    }
}

/// A day later by a span; the last of all days where the calendar ends.
fn later(day: Date, span: Span) -> Date {
    day.checked_add(span).unwrap_or(Date::MAX)
}

/// Calendar months that a test may be old.
#[must_use]
pub fn months(packing: Packing) -> i16 {
    match packing {
        Packing::Open => TEST_MONTHS,
        Packing::Hermetic => HERMETIC_MONTHS,
    }
}

/// The last day on which seed may be shipped on a test of a month.
///
/// # Examples
/// Tested in March 2026: 31 August 2026, or 31 March 2028 hermetically sealed.
#[must_use]
pub fn last_shipping_day(tested: Month, packing: Packing) -> Date {
    tested.end_after(months(packing))
}

/// Whether seed may be shipped on a day on a test of a month; a test of a later month says nothing yet.
#[must_use]
pub fn may_ship(on: Date, tested: Month, packing: Packing) -> bool {
    tested.first <= on && on <= last_shipping_day(tested, packing)
}

/// The last day on which the next test can be laid out, so that it is counted before the present one is too old.
///
/// `spare_days`: days that the house wants to spare, for seed that is slow and for the post.
#[must_use]
pub fn next_test_due(tested: Month, packing: Packing, spare_days: u16) -> Date {
    let days = FINAL_COUNT_DAYS.saturating_add(i32::from(spare_days));
    last_shipping_day(tested, packing).checked_sub(days.days()).unwrap_or(Date::MIN)
}

/// How long a lot's record and file sample are kept after the last of it is gone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Kept {
    /// The first day on which the file sample may go.
    pub sample_may_go: Date,
    /// The first day on which the record may go.
    pub record_may_go: Date,
}

/// Says how long to keep what belongs to a lot.
///
/// The record's three years are counted from the same day, the careful reading of 7 CFR 201.4.
#[must_use]
pub fn kept(last_gone: Date) -> Kept {
    Kept {
        sample_may_go: later(last_gone, i32::from(SAMPLE_YEARS).years()),
        record_may_go: later(last_gone, i32::from(RECORD_YEARS).years()),
    }
}

/// Calendar months after harvest within which seed is sealed. Source: 7 CFR 201.36c (to September 2024).
pub const SEALED_WITHIN_MONTHS: i16 = 9;

/// Most moisture of tomato seed when sealed, wet basis. Source: 7 CFR 201.36c (to September 2024).
pub const SEALED_MOISTURE_PERCENT: f64 = 5.5;

/// Most water vapour through the packet in grams a day and 100 square inches, at 100 F from 90 per cent to dry air.
/// Source: 7 CFR 201.36c (to September 2024).
pub const SEALED_VAPOUR_G: f64 = 0.05;

/// What is known of seed that is to count as hermetically sealed; what is not known counts as not so.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Sealing {
    /// The day of harvest.
    pub harvested_on: Option<Date>,
    /// The day of sealing.
    pub sealed_on: Option<Date>,
    /// Water vapour through the packet, in grams a day and 100 square inches.
    pub vapour_g: Option<f64>,
    /// Moisture of the seed when sealed, wet basis.
    pub moisture: Option<Percent>,
    /// Germination when sealed, hard seed with it.
    pub germination: Option<WholePercent>,
    /// What the packet says of it.
    pub label: Option<SealedLabel>,
}

/// A label that says that the packet is hermetically sealed and its seed pre-conditioned as to moisture, in 8 point or more,
/// with the month of the test.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SealedLabel;

/// Why seed does not count as hermetically sealed. Each stands in 7 CFR 201.36c.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HermeticFault {
    /// Sealed later than nine months after harvest, or nobody knows.
    SealedLate,
    /// The packet lets too much vapour through, or nobody knows.
    Vapour,
    /// The seed was moister than 5.5 per cent, or nobody knows.
    Moisture,
    /// The seed was under the standard when sealed, or nobody knows.
    Germination,
    /// The label does not say it.
    Label,
}

/// All that keeps seed from counting as hermetically sealed; empty where nothing does.
#[must_use]
pub fn hermetic_faults(sealing: &Sealing) -> Vec<HermeticFault> {
    let in_time = sealing.harvested_on.zip(sealing.sealed_on).is_some_and(|(harvested, sealed)| {
        harvested <= sealed && sealed <= later(harvested, i32::from(SEALED_WITHIN_MONTHS).months())
    });
    let checks = [
        (in_time, HermeticFault::SealedLate),
        (
            sealing.vapour_g.is_some_and(|grams| (0.0..=SEALED_VAPOUR_G).contains(&grams)),
            HermeticFault::Vapour,
        ),
        (
            sealing.moisture.is_some_and(|moisture| moisture.get() <= SEALED_MOISTURE_PERCENT),
            HermeticFault::Moisture,
        ),
        (sealing.germination.is_some_and(|share| TOMATO_STANDARD <= share), HermeticFault::Germination),
        (sealing.label.is_some(), HermeticFault::Label),
    ];
    checks.into_iter().filter(|(holds, _)| !holds).map(|(_, fault)| fault).collect()
}
