//! A packet guide as its text holds it, and the checks that make it one.

use super::{Asked, Guide, PacketGuideFault, Rule, Status, TestMonths};
use crate::label::{ITEMS, Item, TRAITS, Trait};
use record::mass::{Grams, OUNCES_PER_POUND, Ounces};
use record::share::WholePercent;
use serde::Deserialize;
use std::ops::Range;
use toml::Spanned;

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawGuide {
    jurisdiction: String,
    as_of: String,
    notice: String,
    standard: Option<RawStandard>,
    test_months: Option<RawMonths>,
    asked: Vec<RawAsked>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawStandard {
    percent: Spanned<u8>,
    source: Spanned<String>,
    status: RawStatus,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawMonths {
    open: Spanned<i16>,
    sealed: Spanned<i16>,
    source: Spanned<String>,
    status: RawStatus,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum RawStatus {
    Read,
    Unverified,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawAsked {
    ways: Spanned<Vec<Vec<Spanned<String>>>>,
    over_lb: Option<Spanned<f64>>,
    up_to_lb: Option<Spanned<f64>>,
    #[serde(default)]
    of: Vec<Spanned<String>>,
    points: Option<u8>,
    source: Spanned<String>,
    status: RawStatus,
}

/// A guide's text, to find lines by.
#[derive(Clone, Copy)]
struct Text<'a> {
    file: &'a str,
    text: &'a str,
}

impl Text<'_> {
    fn fault(self, place: Range<usize>, fault: &str, help: &str) -> PacketGuideFault {
        let before = self.text.as_bytes().get(..place.start).unwrap_or_default();
        let line = before.iter().filter(|byte| **byte == b'\n').count() + 1;
        PacketGuideFault { file: self.file.into(), line, fault: fault.into(), help: help.into() }
    }
}

/// Months that a test may be old at most; ten years is a slip of the pen.
const MOST_MONTHS: i16 = 120;
/// Pounds of a packet at most, likewise.
const MOST_POUNDS: f64 = 10_000.0;

pub(super) fn read(file: &str, text: &str) -> Result<Guide, PacketGuideFault> {
    let place = Text { file, text };
    let raw: RawGuide = toml::from_str(text).map_err(|error| {
        let fault = error.message().replace('`', "\"");
        place.fault(error.span().unwrap_or(0..0), &fault, "write the line as the shipped guides have it")
    })?;
    Ok(Guide {
        jurisdiction: raw.jurisdiction,
        as_of: raw.as_of,
        notice: raw.notice,
        standard: raw.standard.map(|standard| checked_standard(place, &standard)).transpose()?,
        test_months: raw.test_months.map(|months| checked_months(place, &months)).transpose()?,
        asked: raw.asked.iter().map(|asked| checked_asked(place, asked)).collect::<Result<_, _>>()?,
    })
}

fn checked_standard(text: Text<'_>, raw: &RawStandard) -> Result<(WholePercent, Rule), PacketGuideFault> {
    let percent = WholePercent::new(*raw.percent.get_ref());
    let fault = || text.fault(raw.percent.span(), "that is no per cent", "write a number from 0 to 100");
    Ok((percent.ok_or_else(fault)?, rule(text, &raw.source, raw.status)?))
}

fn checked_months(text: Text<'_>, raw: &RawMonths) -> Result<(TestMonths, Rule), PacketGuideFault> {
    for months in [&raw.open, &raw.sealed] {
        if !(1..=MOST_MONTHS).contains(months.get_ref()) {
            return Err(text.fault(months.span(), "no test is told so long", "write months from 1 to 120"));
        }
    }
    let months = TestMonths { open: *raw.open.get_ref(), sealed: *raw.sealed.get_ref() };
    Ok((months, rule(text, &raw.source, raw.status)?))
}

fn checked_asked(text: Text<'_>, raw: &RawAsked) -> Result<Asked, PacketGuideFault> {
    let ways = raw.ways.get_ref();
    if ways.is_empty() || ways.iter().any(Vec::is_empty) {
        let help = "name at least one item, such as ways = [[\"variety\"]]";
        return Err(text.fault(raw.ways.span(), "nothing is asked for", help));
    }
    let way = |way: &Vec<Spanned<String>>| way.iter().map(|name| item(text, name)).collect();
    let pounds = |pounds: &Option<Spanned<f64>>| pounds.as_ref().map(|pounds| mass(text, pounds)).transpose();
    Ok(Asked {
        ways: ways.iter().map(way).collect::<Result<_, _>>()?,
        over: pounds(&raw.over_lb)?,
        up_to: pounds(&raw.up_to_lb)?,
        of: raw.of.iter().map(|name| seed_trait(text, name)).collect::<Result<_, _>>()?,
        points: raw.points,
        rule: rule(text, &raw.source, raw.status)?,
    })
}

fn item(text: Text<'_>, name: &Spanned<String>) -> Result<Item, PacketGuideFault> {
    let known = || ITEMS.map(|(_, name)| name).join(", ");
    Item::named(name.get_ref())
        .ok_or_else(|| text.fault(name.span(), "no label shows that", &format!("write one of {}", known())))
}

fn seed_trait(text: Text<'_>, name: &Spanned<String>) -> Result<Trait, PacketGuideFault> {
    let found = TRAITS.iter().find(|(_, known)| known == name.get_ref()).map(|(found, _)| *found);
    let known = || TRAITS.map(|(_, name)| name).join(", ");
    found.ok_or_else(|| {
        text.fault(name.span(), "seed has no such trait", &format!("write one of {}", known()))
    })
}

fn mass(text: Text<'_>, pounds: &Spanned<f64>) -> Result<Grams, PacketGuideFault> {
    let reachable = Some(*pounds.get_ref()).filter(|pounds| (0.0..=MOST_POUNDS).contains(pounds));
    let grams =
        reachable.and_then(|pounds| Ounces::new(pounds * OUNCES_PER_POUND)).and_then(Ounces::to_grams);
    grams.ok_or_else(|| text.fault(pounds.span(), "no packet weighs that", "write pounds, such as 1.0"))
}

fn rule(text: Text<'_>, source: &Spanned<String>, status: RawStatus) -> Result<Rule, PacketGuideFault> {
    if source.get_ref().trim().is_empty() {
        return Err(text.fault(source.span(), "the demand has no source", "write where it stands"));
    }
    let status = match status {
        RawStatus::Read => Status::Read,
        RawStatus::Unverified => Status::Unverified,
    };
    Ok(Rule { source: source.get_ref().clone(), status })
}
