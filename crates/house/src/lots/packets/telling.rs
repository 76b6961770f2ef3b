//! What stands in the way of a label, in words.

use seedroom::label::Item;
use seedroom::label::check::{Finding, LabelFault};
use seedroom::label::guide::Status;

/// A finding with its rule.
pub(super) fn finding(finding: &Finding) -> String {
    let unseen = match finding.rule.status {
        Status::Read => "",
        Status::Unverified => "; unverified",
    };
    format!("{} ({}{unseen})", fault(&finding.fault), finding.rule.source)
}

fn fault(fault: &LabelFault) -> String {
    match fault {
        LabelFault::Missing(ways) => {
            let ways: Vec<String> = ways.iter().map(|way| items(way)).collect();
            format!("it does not tell {}", ways.join(", or "))
        }
        LabelFault::TooSmall { item, points, least } => {
            format!("{} stands in {points} point, where {least} are asked", name(*item))
        }
        LabelFault::Untested => "it has no test that tells whether it is below the standard".to_owned(),
        LabelFault::TestOutOfDate { last } => {
            format!("its test may not be told on this day, and not after {last}")
        }
        LabelFault::PackedForIsOver { year } => format!("the year {year} that it is packed for is over"),
        LabelFault::MoreThanTested { item, printed, tested } => {
            format!("{} of {}%, where the test found {}%", name(*item), printed.get(), tested.get())
        }
    }
}

fn items(way: &[Item]) -> String {
    way.iter().map(|item| name(*item)).collect::<Vec<_>>().join(" and ")
}

fn name(item: Item) -> String {
    item.name().replace('-', " ")
}

/// What to do about the first thing that stands in the way.
pub(super) fn remedy(found: &[Finding]) -> &'static str {
    match found.first().map(|finding| &finding.fault) {
        Some(LabelFault::Missing(ways))
            if ways.iter().flatten().any(|item| *item == Item::NameAndAddress) =>
        {
            "tell the address on your packets: locule settings --address \"4 Ferry Road, Low Barn\""
        }
        Some(LabelFault::Missing(_) | LabelFault::TooSmall { .. }) => {
            "look at the guide in the house's folder guides, and at what is known of the lot"
        }
        Some(LabelFault::PackedForIsOver { .. }) => "write the year with --packed-for",
        _ => "test the lot again, and note it with locule germination note",
    }
}
