//! The sentences that growers read.

use crate::{compared, plot};
use record::language::Units;
use trial::compare::verdict::sentence;
use trial::traits::Trait;

#[test]
fn differences_are_told_with_their_interval_and_what_would_tell_more() {
    // Three varieties in four blocks; plots of a variety differ by some 150 g.
    let rows = [
        ("Halfpenny", [2000.0, 2150.0, 1900.0, 2050.0]),
        ("Barrow Gold", [3900.0, 4200.0, 4000.0, 4050.0]),
        ("Cooper's Half", [2250.0, 2100.0, 2150.0, 2200.0]),
    ];
    let plots: Vec<_> = rows
        .iter()
        .flat_map(|(variety, values)| {
            (1..).zip(values).map(|(block, value)| plot(variety, "here", 1, block, *value))
        })
        .collect();
    let comparison = compared(&plots, Some("Halfpenny")).unwrap();
    let told: Vec<String> = comparison
        .outcomes
        .iter()
        .filter_map(|own| sentence(Trait::Yield, own, "Halfpenny", Units::METRIC))
        .collect();
    assert_eq!(comparison.outcomes[0].letters, "a");
    assert!(
        told[0].starts_with("Barrow Gold: 2.01 kg (4.4 lb) a plant more than Halfpenny (95% interval "),
        "{told:?}"
    );
    assert!(
        told[1].starts_with("Cooper's Half: cannot be told from Halfpenny with this evidence"),
        "{told:?}"
    );
    assert!(told[1].contains("more plots of each would"), "{told:?}");
}
