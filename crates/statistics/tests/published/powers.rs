//! Chances before planting, held to R.

use record::share::Share;
use statistics::power::{Plan, noncentral_f_above, noncentral_t_above, plots_needed};
use statistics::students_t::Degrees;

fn degrees(n: f64) -> Degrees {
    Degrees::new(n).unwrap()
}

/// R 4.2.2: `pt(t, df, ncp)`, and `pt(.., lower = FALSE)` for the last three. R's own series ends near 1e-12.
#[test]
fn noncentral_t_agrees_with_r() {
    let below = [
        (2.0, 5.0, 1.0, 0.778_074_662_617_964_7),
        (3.0, 20.0, 2.5, 0.661_602_873_493_124_5),
        (-1.0, 8.0, 1.5, 0.008_179_331_096_159_426),
        (5.0, 3.0, 4.0, 0.586_262_542_101_720_2),
        (30.0, 10.0, 33.0, 0.280_655_899_711_518_2),
    ];
    for (t, n, shift, expected) in below {
        let found = noncentral_t_above(t, degrees(n), shift).rest().get();
        assert!((found - expected).abs() < 1e-10, "{t} {n} {shift}: {found}");
    }
    let above = [
        (2.0, 5.0, 1.0, 0.221_925_337_384_052_96),
        (3.0, 20.0, 2.5, 0.338_397_126_506_875_5),
        (5.0, 3.0, 10.0, 0.987_943_635_984_347_2),
    ];
    for (t, n, shift, expected) in above {
        let found = noncentral_t_above(t, degrees(n), shift).get();
        assert!((found - expected).abs() < 1e-10, "{t} {n} {shift}: {found}");
    }
}

/// R 4.2.2: `pf(f, df1, df2, ncp, lower = FALSE)`, whose series ends at an error of 1e-9.
#[test]
fn noncentral_f_agrees_with_r() {
    let printed = [
        (3.0, 3.0, 12.0, 2.0, 0.199_543_833_573_275_25),
        (2.5, 9.0, 40.0, 15.0, 0.536_086_422_734_229_1),
        (10.0, 1.0, 5.0, 20.0, 0.852_263_879_532_373_8),
    ];
    for (f, top, bottom, shift, expected) in printed {
        let found = noncentral_f_above(f, degrees(top), degrees(bottom), shift).get();
        assert!((found - expected).abs() < 1e-9, "{f} {top} {bottom} {shift}: {found}");
    }
}

/// R 4.2.2: `power.t.test(n = 12, delta = 1, sd = 1)$power` is 0.648634350616455 and the smallest n with power 0.9 is 23
/// (`ceiling(power.t.test(delta = 1, sd = 1, power = 0.9)$n)`).
#[test]
fn two_groups_agree_with_r() {
    let plan = Plan {
        plot_variance: 1.0,
        efficiency: Share::ALL,
        difference: 1.0,
        level: Share::new(0.95).unwrap(),
    };
    let freedom = |plots: u32| Degrees::new(2.0 * (f64::from(plots) - 1.0));
    let found = plan.power(12, freedom(12).unwrap()).get();
    assert!((found - 0.648_634_350_616_455).abs() < 1e-8, "{found}");
    assert_eq!(plots_needed(&plan, Share::new(0.9).unwrap(), 100, freedom), Some(23));
    let least = plan.least_difference(23, freedom(23).unwrap(), Share::new(0.9).unwrap()).unwrap();
    assert!(0.97 < least && least < 1.0, "{least}");
}
