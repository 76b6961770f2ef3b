//! Choices against every choice there is, and what more ground is worth.

use proptest::prelude::*;
use sowing::choice::{Candidate, ChoiceFault, Ground, Must, Way, choose, with_more};

fn way(plots: u32, apart: u32, worth: f64) -> Way {
    Way { plots, plants: 6 * plots, apart, worth, seed: 0.0 }
}

fn candidate(ways: Vec<Way>) -> Candidate {
    Candidate { ways, must: Must::IfWorthIt }
}

/// The most that any choice is worth, by trying them all.
fn most(candidates: &[Candidate], ground: Ground) -> Option<f64> {
    let Some((own, rest)) = candidates.split_first() else { return Some(0.0) };
    let without = if own.must == Must::Stand { None } else { most(rest, ground) };
    let with = own.ways.iter().filter_map(|way| {
        let left = Ground {
            plots: ground.plots.checked_sub(way.plots)?,
            plants: match ground.plants {
                Some(plants) => Some(plants.checked_sub(way.plants)?),
                None => None,
            },
            apart: ground.apart.checked_sub(way.apart)?,
        };
        most(rest, left).map(|worth| worth + way.worth)
    });
    with.chain(without).max_by(f64::total_cmp)
}

fn candidates() -> impl Strategy<Value = Vec<Candidate>> {
    let way = (1_u32..4, 0_u32..2, 1_u32..60);
    let ways = prop::collection::vec(way, 0..4).prop_map(|ways| {
        ways.into_iter().map(|(plots, apart, worth)| self::way(plots, apart, worth.into())).collect()
    });
    let must = prop::bool::weighted(0.15).prop_map(|must| if must { Must::Stand } else { Must::IfWorthIt });
    prop::collection::vec((ways, must).prop_map(|(ways, must)| Candidate { ways, must }), 1..7)
}

proptest! {
    /// No choice of all there are is worth more than what is found and its proof allow, and it keeps to the ground.
    #[test]
    fn no_choice_is_better(candidates in candidates(), plots in 0_u32..9, plants in prop::option::of(0_u32..60), apart in 0_u32..3) {
        let ground = Ground { plots, plants, apart };
        match (choose(&candidates, ground), most(&candidates, ground)) {
            (Err(ChoiceFault::NoRoom), None) => {}
            (Ok(chosen), Some(best)) => {
                prop_assert!(chosen.worth <= best + 1e-6 && best <= chosen.bound + 1e-6);
                prop_assert!(0.994 * best - 1e-6 <= chosen.worth, "{} of {best}", chosen.worth);
                let grown: Vec<&Way> =
                    candidates.iter().zip(&chosen.ways).filter_map(|(own, way)| own.ways.get((*way)?)).collect();
                prop_assert!(grown.iter().map(|way| way.plots).sum::<u32>() <= plots);
                prop_assert!(grown.iter().map(|way| way.apart).sum::<u32>() <= apart);
                prop_assert!(plants.is_none_or(|plants| grown.iter().map(|way| way.plants).sum::<u32>() <= plants));
                for (own, way) in candidates.iter().zip(&chosen.ways) {
                    prop_assert!(own.must == Must::IfWorthIt || way.is_some());
                }
            }
            (found, best) => prop_assert!(false, "{found:?} where the best is {best:?}"),
        }
    }

    /// A plot more is never worth less.
    #[test]
    fn more_ground_never_costs(candidates in candidates(), plots in 0_u32..6) {
        let ground = Ground { plots, plants: None, apart: 2 };
        if let (Ok(now), Ok(more)) = (choose(&candidates, ground), with_more(&candidates, ground, 1)) {
            prop_assert!(now.worth - 1e-6 <= more.chosen.bound);
            prop_assert!(0.99 * now.worth - 1e-6 <= more.worth);
        }
    }
}

/// By hand: of four plots, two go to the variety that is worth 50, one to each of those worth 20 and 18; the fifth plot brings 9.
#[test]
fn four_plots_by_hand() {
    let candidates = [
        candidate(vec![way(1, 0, 12.0), way(2, 0, 50.0)]),
        candidate(vec![way(1, 0, 20.0), way(2, 0, 29.0)]),
        candidate(vec![way(1, 0, 18.0)]),
        candidate(vec![way(1, 1, 40.0)]),
    ];
    let ground = Ground { plots: 4, plants: None, apart: 0 };
    let chosen = choose(&candidates, ground).unwrap();
    assert_eq!(chosen.ways, [Some(1), Some(0), Some(0), None]);
    assert!((chosen.worth - 88.0).abs() < 1e-9);
    let more = with_more(&candidates, ground, 1).unwrap();
    assert!((more.worth - 97.0).abs() < 1e-9);
    // A place apart is what the fourth waits for.
    let apart = choose(&candidates, Ground { apart: 1, ..ground }).unwrap();
    assert_eq!(apart.ways, [Some(1), Some(0), None, Some(0)]);
}
