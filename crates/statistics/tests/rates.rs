//! Rates of many alike things, against SciPy 1.17.1 (`scipy.stats.betanbinom`, `scipy.optimize.minimize`, `scipy.integrate.quad`).

use record::share::Share;
use statistics::rates::{Counted, Family, Seen, fit, log_likelihood};

/// Twelve things in up to three stretches, as typed into SciPy.
fn things() -> Vec<Vec<Counted>> {
    let (first, second, third) = (1.0, 1.2, 0.4);
    let whole = [
        (12, 15, 3),
        (80, 61, 30),
        (5, 9, 0),
        (33, 50, 14),
        (140, 101, 77),
        (1, 0, 0),
        (47, 29, 20),
        (9, 25, 2),
        (64, 90, 25),
        (28, 30, 12),
    ];
    let counted = |count, exposure| Counted { count, exposure };
    let own = |(one, two, three)| vec![counted(one, first), counted(two, second), counted(three, third)];
    let late = [vec![counted(22, second), counted(11, third)], vec![counted(18, third)]];
    whole.into_iter().map(own).chain(late).collect()
}

const FAMILY: Family = Family { mean: 40.0, shape: 2.0, size: 10.0 };
const SEEN: Seen = Seen { count: 57, exposure: 1.5 };

#[track_caller]
fn agrees(ours: f64, theirs: f64, within: f64) {
    assert!((ours - theirs).abs() <= within, "{ours} is not {theirs}");
}

/// `betanbinom(n, b, a)` with n = 10, a = 2 + 57, b = 1 + 10 * 2 / 40 + 10 * 1.5.
#[test]
fn what_is_to_come_is_beta_negative_binomial() {
    let outlook = FAMILY.outlook(SEEN, 1.0, 0.0);
    agrees(outlook.mean(), 38.064_516_129_032_256, 1e-9);
    for (count, below) in [(30, 0.385_723_47), (40, 0.628_142_93), (60, 0.893_970_2)] {
        agrees(outlook.at_most(count).get(), below, 5e-9);
    }
    let at = |chance| outlook.at(Share::new(chance).unwrap());
    assert_eq!((at(0.1), at(0.5), at(0.9)), (19, 35, 61));
    agrees(outlook.beyond(50), 3.167_711_381_304_806, 1e-5);
    agrees(outlook.beyond(0), outlook.mean(), 1e-12);
}

/// The least of the negative log-likelihood by SciPy's Nelder and Mead, and its value there by numeric integration.
#[test]
fn the_family_is_the_likeliest() {
    let family = fit(&things()).unwrap();
    agrees(family.mean, 53.237_776_64, 2e-3);
    agrees(family.shape, 1.602_590_55, 2e-4);
    agrees(family.size, 24.550_591_78, 2e-3);
    let scipy = Family { mean: 53.237_776_64, shape: 1.602_590_55, size: 24.550_591_78 };
    agrees(log_likelihood(&things(), &scipy), -127.460_752_814_8, 1e-7);
    assert!(log_likelihood(&things(), &scipy) - 1e-8 <= log_likelihood(&things(), &family));
}

/// A long record speaks for itself; none at all is the family's.
#[test]
fn few_counts_are_drawn_towards_the_family() {
    agrees(FAMILY.rate(Seen::default()), 40.0, 1e-9);
    agrees(FAMILY.rate(Seen { count: 100_000, exposure: 1000.0 }), 100.0, 0.2);
    let one_winter = FAMILY.rate(Seen { count: 100, exposure: 1.0 });
    assert!(40.0 < one_winter && one_winter < 100.0);
}

/// An unsure level leaves the mean where it is and widens what is to come.
#[test]
fn an_unsure_level_widens() {
    let (sure, unsure) = (FAMILY.outlook(SEEN, 1.0, 0.0), FAMILY.outlook(SEEN, 1.0, 0.4));
    agrees(sure.mean(), unsure.mean(), 1e-9);
    let high = |outlook: &statistics::rates::Outlook| outlook.at(Share::new(0.9).unwrap());
    assert!(high(&sure) < high(&unsure));
    assert!(sure.beyond(60) < unsure.beyond(60));
}

#[test]
fn nothing_counted_makes_no_family() {
    let none = Counted { count: 0, exposure: 1.0 };
    assert_eq!(fit(&[vec![none], vec![none]]), None);
    assert_eq!(fit(&[vec![Counted { count: 3, exposure: 1.0 }]]), None);
    assert_eq!(FAMILY.outlook(SEEN, 0.0, 0.0).at(Share::new(0.9).unwrap()), 0);
}
