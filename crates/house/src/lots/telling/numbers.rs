//! How many plants, in words.

use super::in_100;
use crate::lots::numbers::{Asked, Numbers};
use record::language::counted;
use record::share::Share;

/// What the numbers say, a line at a time.
#[must_use]
pub fn lines(asked: Asked, found: &Numbers) -> Vec<String> {
    let plants = |count: u32| counted(u64::from(count), "plant", "plants");
    let (share, sure) = (as_typed(asked.share), asked.sure.get());
    let mut told = vec![
        format!(
            "To see at least one off-type where {share} are, {sure} in 100 sure, look at {}.",
            plants(found.to_see)
        ),
        format!(
            "To keep what {share} plants carry, {sure} in 100 sure, save seed from {}.",
            plants(found.to_keep)
        ),
    ];
    if let Some(those) = &found.of_those {
        told.push(format!(
            "Among {} at least one such plant is seen, or what it carries is kept, with {}.",
            plants(those.plants),
            in_100(those.seen)
        ));
        told.push(format!(
            "With {share} as the standard, up to {} may stand among {}.",
            counted(u64::from(those.accepted), "off-type", "off-types"),
            plants(those.plants)
        ));
        told.extend(those.passes.iter().map(|(poor, passes)| {
            format!("A lot with {} passes so all the same {}.", as_typed(*poor), in_100(*passes))
        }));
    }
    told
}

/// A share that was typed, with as many digits as it has.
fn as_typed(share: Share) -> String {
    let percent = format!("{:.2}", 100.0 * share.get());
    format!("{} in 100", percent.trim_end_matches('0').trim_end_matches('.'))
}
