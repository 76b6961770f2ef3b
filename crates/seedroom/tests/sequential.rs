//! Tests in small steps beside Wald's formulas and beside counting every course out.

#![expect(clippy::unwrap_used, reason = "a test stops at what it cannot work out")]

use proptest::prelude::*;
use record::share::Share;
use seedroom::sequential::{Lines, Next, Plan, PlanFault, Step, Wanted, chances, plan_between};
use statistics::binomial::Binomial;

fn share(share: f64) -> Share {
    Share::new(share).unwrap()
}

fn wanted(good: f64, bad: f64, good_rejected: f64, bad_accepted: f64) -> Wanted {
    Wanted {
        good: share(good),
        bad: share(bad),
        good_rejected: share(good_rejected),
        bad_accepted: share(bad_accepted),
    }
}

/// Case 30, and section 3 of the facts: worked out apart from Wald's formulas.
#[test]
fn walds_lines_agree() {
    let lines = Lines::wald(wanted(0.01, 0.05, 0.05, 0.10)).unwrap();
    assert!((lines.slope - 0.024_985).abs() < 5e-7);
    assert!((lines.accept_from + 1.363_86).abs() < 5e-6);
    assert!((lines.reject_from - 1.751_02).abs() < 5e-6);
    assert_eq!((lines.accept_at(54), lines.accept_at(55)), (None, Some(0)));
    assert_eq!(lines.reject_at(1), 2);
}

#[test]
fn what_cannot_be_told_apart_is_refused() {
    for (good, bad) in [(0.05, 0.05), (0.05, 0.01), (0.0, 0.1), (0.1, 1.0)] {
        assert_eq!(Lines::wald(wanted(good, bad, 0.05, 0.05)), Err(PlanFault::NotApart));
    }
    assert_eq!(Lines::wald(wanted(0.1, 0.3, 0.5, 0.5)), Err(PlanFault::Errors));
    assert_eq!(Lines::wald(wanted(0.1, 0.3, 0.0, 0.5)), Err(PlanFault::Errors));
    assert_eq!(Plan::new(vec![]), Err(PlanFault::NoSteps));
}

/// Two steps of 25 seeds, at 25 in 100 that do not sprout: every course added up one by one.
#[test]
fn chances_agree_with_counting_courses_out() {
    let first = Step { more: 25, accept_at: Some(3), reject_at: 9 };
    let second = Step { more: 25, accept_at: Some(11), reject_at: 13 };
    let plan = Plan::new(vec![first, second]).unwrap();
    let one = Binomial { trials: 25, share: share(0.25) }.chances();
    let (mut accepted, mut rejected, mut undecided, mut looked_at) = (0.0, 0.0, 0.0, 25.0);
    for (a, chance) in one.iter().enumerate() {
        match a {
            0..=3 => accepted += chance,
            9.. => rejected += chance,
            _ => {
                looked_at += 25.0 * chance;
                for (b, then) in one.iter().enumerate() {
                    match a + b {
                        0..=11 => accepted += chance * then,
                        12 => undecided += chance * then,
                        _ => rejected += chance * then,
                    }
                }
            }
        }
    }
    let ends = chances(&plan, share(0.25));
    for (found, wanted) in [
        (ends.accepted.get(), accepted),
        (ends.rejected.get(), rejected),
        (ends.undecided.get(), undecided),
        (ends.looked_at, looked_at),
    ] {
        assert!((found - wanted).abs() < 1e-12, "{found} is not {wanted}");
    }
    assert_eq!(plan.after(&[]), Next::LookAt(25));
    assert_eq!(plan.after(&[3]), Next::Accept);
    assert_eq!(plan.after(&[9]), Next::Reject);
    assert_eq!(plan.after(&[5]), Next::LookAt(25));
    assert_eq!(plan.after(&[5, 6]), Next::Accept);
    assert_eq!(plan.after(&[5, 7]), Next::NoVerdict);
}

proptest! {
    /// Every course ends one way; a worse lot is accepted less often; a plan made between lines always decides.
    #[test]
    fn ends_make_a_whole(
        good in 0.01..0.2_f64, apart in 0.05..0.4_f64, steps in prop::collection::vec(1..40_u32, 1..5), at in 0.0..0.9_f64,
    ) {
        let plan = plan_between(wanted(good, good + apart, 0.05, 0.1), &steps).unwrap();
        let (now, worse) = (chances(&plan, share(at)), chances(&plan, share(at + 0.1)));
        let whole = now.accepted.get() + now.rejected.get() + now.undecided.get();
        prop_assert!((whole - 1.0).abs() < 1e-9);
        prop_assert!(now.undecided.get() < 1e-12);
        prop_assert!(worse.accepted.get() <= now.accepted.get() + 1e-12);
        let all = f64::from(steps.iter().sum::<u32>());
        prop_assert!(f64::from(steps.first().copied().unwrap()) - 1e-9 <= now.looked_at && now.looked_at <= all + 1e-9);
    }
}
