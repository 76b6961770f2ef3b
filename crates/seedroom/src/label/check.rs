//! A packet put to a guide: what its label leaves out, prints too small or tells too late, each with its rule.
//!
//! Start at [`check`]; an empty answer means that no demand of that guide was found unmet, and nothing more.

use super::guide::{Asked, Guide, Rule};
use super::{Item, Packet, Says, Tested, Trait};
use jiff::civil::Date;
use record::lot::Packing;
use record::share::WholePercent;

/// One demand that a packet does not meet.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// What is wrong.
    pub fault: LabelFault,
    /// Where the demand stands.
    pub rule: Rule,
}

/// What is wrong with a packet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LabelFault {
    /// None of the ways to meet a demand is there; each is told by the items it lacks.
    Missing(Vec<Vec<Item>>),
    /// An item is printed too small.
    TooSmall {
        /// The item.
        item: Item,
        /// The size it has, in points.
        points: u8,
        /// The size it must have.
        least: u8,
    },
    /// The seed was never tested, so nobody knows whether it is below the standard.
    Untested,
    /// The test is too old on the day of shipment, or was made after it.
    TestOutOfDate {
        /// The last day on which it might be shipped.
        last: Date,
    },
    /// The year that it was packed for is over.
    PackedForIsOver {
        /// The year.
        year: i16,
    },
    /// The label tells more than the test found.
    MoreThanTested {
        /// What it tells.
        item: Item,
        /// In per cent.
        printed: WholePercent,
        /// What was found.
        tested: WholePercent,
    },
}

/// Puts a packet that is shipped on a day to a guide.
#[must_use]
pub fn check(packet: &Packet, guide: &Guide, shipped: Date) -> Vec<Finding> {
    let asked = asked(packet, guide).into_iter();
    let mut findings: Vec<Finding> = asked.flat_map(|asked| unmet(asked, packet)).collect();
    findings.extend(test_findings(packet, guide, shipped));
    findings.extend(year_finding(packet, guide, shipped));
    findings
}

/// The demands of a guide that hold for a packet.
pub(super) fn asked<'g>(packet: &Packet, guide: &'g Guide) -> Vec<&'g Asked> {
    let traits = traits(packet, guide);
    guide.asked.iter().filter(|asked| holds(asked, packet, &traits)).collect()
}

/// What a packet below the standard must say of its germination, or `None` where it need not.
///
/// # Examples
/// `Below Standard. Germination 74 %, hard seed 0 %.`
#[must_use]
pub fn below_standard_words(tested: &Tested, standard: WholePercent) -> Option<String> {
    let (germination, hard) = (tested.germination.get(), tested.hard.get());
    (tested.towards_standard < standard)
        .then(|| format!("Below Standard. Germination {germination} %, hard seed {hard} %."))
}

/// What is true of the seed, with what its test and its label add.
fn traits(packet: &Packet, guide: &Guide) -> Vec<Trait> {
    let standard = guide.standard.as_ref().map(|(standard, _)| *standard);
    let below = packet.tested.zip(standard).is_some_and(|(tested, least)| tested.towards_standard < least);
    let told = packet.label.iter().any(|printed| printed.says.item() == Item::Germination);
    let worked_out = [(below, Trait::BelowStandard), (told, Trait::GerminationTold)];
    let worked_out = worked_out.into_iter().filter(|(holds, _)| *holds).map(|(_, of)| of);
    packet.traits.iter().copied().chain(worked_out).collect()
}

fn holds(asked: &Asked, packet: &Packet, traits: &[Trait]) -> bool {
    asked.over.is_none_or(|over| over < packet.holds)
        && asked.up_to.is_none_or(|most| packet.holds <= most)
        && asked.of.iter().all(|of| traits.contains(of))
}

fn unmet(asked: &Asked, packet: &Packet) -> Vec<Finding> {
    let printed = |item: &Item| packet.label.iter().find(|printed| printed.says.item() == *item);
    let lacking = |way: &Vec<Item>| -> Vec<Item> {
        way.iter().filter(|item| printed(item).is_none()).copied().collect()
    };
    let missing: Vec<Vec<Item>> = asked.ways.iter().map(lacking).collect();
    let finding = |fault| Finding { fault, rule: asked.rule.clone() };
    let Some(way) = asked.ways.iter().zip(&missing).find(|(_, lacks)| lacks.is_empty()).map(|(way, _)| way)
    else {
        return vec![finding(LabelFault::Missing(missing))];
    };
    let Some(least) = asked.points else { return Vec::new() };
    let small = way.iter().filter_map(printed).filter(|printed| printed.points < least);
    small
        .map(|printed| {
            let (item, points) = (printed.says.item(), printed.points);
            finding(LabelFault::TooSmall { item, points, least })
        })
        .collect()
}

fn test_findings(packet: &Packet, guide: &Guide, shipped: Date) -> Vec<Finding> {
    let mut findings = Vec::new();
    if let Some((_, rule)) = &guide.standard {
        match &packet.tested {
            None => findings.push(Finding { fault: LabelFault::Untested, rule: rule.clone() }),
            Some(tested) => {
                findings.extend(too_much(packet, tested).map(|fault| Finding { fault, rule: rule.clone() }))
            }
        }
    }
    let printed = packet.label.iter().find_map(|printed| match printed.says {
        Says::TestMonth(month) => Some(month),
        _ => None,
    });
    // The law counts from the test that the label tells, and where it tells none from the one that there is.
    let month = printed.or(packet.tested.map(|tested| tested.month));
    if let Some(((months, rule), month)) = guide.test_months.as_ref().zip(month) {
        let old = match packet.packing() {
            Packing::Open => months.open,
            Packing::Hermetic => months.sealed,
        };
        let last = month.end_after(old);
        if last < shipped || shipped < month.end_after(0).first_of_month() {
            findings.push(Finding { fault: LabelFault::TestOutOfDate { last }, rule: rule.clone() });
        }
    }
    findings
}

/// Germination that the label tells above what the test found.
fn too_much(packet: &Packet, tested: &Tested) -> impl Iterator<Item = LabelFault> {
    let found = tested.germination;
    packet.label.iter().filter_map(move |told| match told.says {
        Says::Germination(printed) if found < printed => {
            Some(LabelFault::MoreThanTested { item: Item::Germination, printed, tested: found })
        }
        _ => None,
    })
}

/// A year that is over, where the guide asks for one.
fn year_finding(packet: &Packet, guide: &Guide, shipped: Date) -> Option<Finding> {
    let year = packet.label.iter().find_map(|printed| match printed.says {
        Says::PackedFor(year) => Some(year),
        _ => None,
    });
    let asked =
        guide.asked.iter().find(|asked| asked.ways.iter().flatten().any(|item| *item == Item::PackedFor));
    let (year, asked) = year.filter(|year| *year < shipped.year()).zip(asked)?;
    Some(Finding { fault: LabelFault::PackedForIsOver { year }, rule: asked.rule.clone() })
}
