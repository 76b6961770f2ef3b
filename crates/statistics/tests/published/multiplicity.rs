//! Multiple comparisons held to quadrature by other programs, and to a trial's p values.

use crate::oracles::golden;
use record::share::Share;
use serde_json::Value;
use statistics::multiplicity::check::{Family, Question, USUAL_ERROR};
use statistics::multiplicity::rectangle::{Correlation, inside};
use statistics::multiplicity::studentised::StudentisedRange;
use statistics::students_t::Degrees;

fn degrees(value: &Value) -> Degrees {
    value.as_f64().and_then(Degrees::new).unwrap_or(Degrees::ENDLESS)
}

fn level(share: f64) -> Share {
    Share::new(share).unwrap()
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

/// SciPy 1.17.1 `studentized_range`, by quadrature. Its documentation promises no digits: nine are asked of chances,
/// since ours rest on an error function good to ten, and eight of quantiles, which come from a root finder there.
#[test]
fn studentised_ranges_agree_with_scipy() {
    let Some(expected) = golden("stats/studentized_range.json") else { return };
    let entries = expected["values"].as_array().unwrap();
    assert_eq!(entries.len(), 49);
    for entry in entries {
        let range = StudentisedRange::new(number(&entry["k"]) as u32).unwrap();
        let n = degrees(&entry["df"]);
        let (quantile, above) = (number(&entry["q95"]), number(&entry["upper_p_at_4"]));
        let found = range.quantile(level(0.95), n).unwrap();
        assert!((found / quantile - 1.0).abs() < 1e-8, "{entry}: {found}");
        let chance = range.chance_above(4.0, n).get();
        assert!((chance / above - 1.0).abs() < 1e-9, "{entry}: {chance}");
    }
}

/// R 4.2.2 `qtukey`, documented as good to the fourth decimal place; where it is not (two means, two degrees) SciPy's
/// value above is the one that agrees with Student's t.
#[test]
fn studentised_ranges_agree_with_r_to_its_digits() {
    let Some(expected) = golden("stats/binomial_multiplicity.json") else { return };
    for entry in expected["studentized_range"].as_array().unwrap() {
        let few = number(&entry["k"]) < 2.5 && entry["df"].as_f64() == Some(2.0);
        let range = StudentisedRange::new(number(&entry["k"]) as u32).unwrap();
        let found = range.chance_above(4.0, degrees(&entry["df"])).get();
        let allowed = if few { 1e-4 } else { 5e-5 };
        assert!((found - number(&entry["p_at_4"])).abs() < allowed, "{entry}: {found}");
    }
}

/// k equally correlated differences.
fn equal_correlation(k: usize, r: f64) -> Vec<Vec<f64>> {
    (0..k).map(|row| (0..k).map(|column| if row == column { 1.0 } else { r }).collect()).collect()
}

/// Critical values by quadrature in R, correlation 1/2, one-sided and two-sided.
#[test]
fn critical_values_of_a_check_agree_with_quadrature() {
    let Some(expected) = golden("stats/binomial_multiplicity.json") else { return };
    let entries = expected["dunnett_equal_correlation_half"].as_array().unwrap();
    assert_eq!(entries.len(), 32);
    for entry in entries {
        let question = if entry["two"].as_bool().unwrap() { Question::Differs } else { Question::More };
        let family =
            Family::new(&equal_correlation(number(&entry["k"]) as usize, 0.5), question, USUAL_ERROR)
                .unwrap();
        let found = family.critical(level(0.95), degrees(&entry["df"])).unwrap();
        let critical = number(&entry["critical_95"]);
        assert!((found - critical).abs() < 1e-8, "{entry}: {found}");
    }
}

/// Two-sided 5 % points as printed: Dunnett 1964, Biometrics 20:482-491, table for two-sided comparisons, last
/// row (citation from memory, unverified).
#[test]
fn critical_values_of_a_check_agree_with_the_printed_table() {
    for (k, printed) in [(2, 2.21), (3, 2.35), (5, 2.51), (9, 2.69)] {
        let family = Family::new(&equal_correlation(k, 0.5), Question::Differs, USUAL_ERROR).unwrap();
        let found = family.critical(level(0.95), Degrees::ENDLESS).unwrap();
        assert!((found - printed).abs() < 0.005, "{k}: {found}");
    }
}

/// A made-up matrix of correlations that no shared part explains.
fn uneven() -> Vec<Vec<f64>> {
    vec![
        vec![1.0, 0.6, 0.2, 0.5, 0.1],
        vec![0.6, 1.0, 0.4, 0.3, 0.2],
        vec![0.2, 0.4, 1.0, 0.7, -0.1],
        vec![0.5, 0.3, 0.7, 1.0, 0.0],
        vec![0.1, 0.2, -0.1, 0.0, 1.0],
    ]
}

/// mvtnorm 1.1-3 (R 4.2.2), `1 - pmvt(-w..w)` and `1 - pmvt(-Inf..w)` of the matrix above with `abseps = 2e-9`,
/// `maxpts = 2e7`; it tells errors up to 6e-7 of its own.
#[test]
fn uneven_families_agree_with_mvtnorm() {
    let printed = [
        (1.0, None, 0.790_640_913_753, 0.467_990_031_206),
        (1.0, Some(4.0), 0.790_010_999_741, 0.502_674_716_833),
        (1.0, Some(12.0), 0.789_669_884_734, 0.480_262_769_293),
        (2.0, None, 0.179_854_577_845, 0.091_548_968_785_8),
        (2.0, Some(4.0), 0.327_844_990_38, 0.185_277_185_133),
        (2.0, Some(12.0), 0.239_355_433_826, 0.125_863_788_796),
        (2.5, Some(4.0), 0.200_132_569_464, 0.110_794_790_297),
        (2.5, Some(12.0), 0.106_139_952_206, 0.054_654_419_222_1),
        (3.5, None, 0.002_217_966_398_11, 0.001_109_199_280_34),
    ];
    let two_sided = Family::new(&uneven(), Question::Differs, 1e-5).unwrap();
    let one_sided = Family::new(&uneven(), Question::More, 1e-5).unwrap();
    let told = two_sided.error().max(one_sided.error());
    assert!(0.0 < told && told < 5e-5, "{told}");
    for (t, n, both, above) in printed {
        let degrees = n.and_then(Degrees::new).unwrap_or(Degrees::ENDLESS);
        for (family, expected) in [(&two_sided, both), (&one_sided, above)] {
            let found = family.chance(t, degrees).get();
            assert!((found - expected).abs() < family.error() + 1e-6, "{t} {n:?}: {found} {expected}");
        }
    }
}

/// The same chances by separation of variables with the spread as one more axis.
#[test]
fn rectangles_agree_with_mvtnorm() {
    let correlation = Correlation::new(&uneven()).unwrap();
    for (t, n, expected) in [(2.0, 4.0, 0.327_844_990_38), (2.5, 12.0, 0.106_139_952_206)] {
        let found = inside(&correlation, &[(-t, t); 5], Degrees::new(n).unwrap()).unwrap();
        let off = (found.chance.rest().get() - expected).abs();
        assert!(found.error < 5e-5 && off < found.error + 1e-6, "{t} {n}: {found:?} {off}");
    }
}

/// Kenward and Roger's p values of the spring oats, each pair judged by Tukey and Kramer's rule: emmeans 1.8.4-1
/// on lme4 1.1-31, which takes them from R's `ptukey`.
#[test]
fn pairs_of_a_trial_agree() {
    let Some(expected) = golden("stats/alpha_spring_oats.json") else { return };
    let range = StudentisedRange::new(24).unwrap();
    let pairs = expected["varieties_fixed"]["tukey_kenward_roger_20_smallest_p"].as_object().unwrap();
    assert_eq!(pairs.len(), 20);
    for (name, pair) in pairs {
        let found = range.chance_above(2.0_f64.sqrt() * number(&pair["t"]).abs(), degrees(&pair["df"])).get();
        assert!((found - number(&pair["p_adjusted"])).abs() < 1e-7, "{name}: {found} {pair}");
    }
}

/// `GenzBretz()` of mvtnorm 1.1-3: `abseps = 0.001`. emmeans 1.8.4-1 does not hand on what it is asked for.
const PROMISED_BY_MVTNORM: f64 = 1e-3;

/// Every variety of the spring oats against the first, Kenward and Roger's errors and degrees: emmeans 1.8.4-1 on
/// mvtnorm, on whole degrees (`floor(df + 0.25)`), correlations from the table's standard errors of differences.
#[test]
fn a_trial_against_its_check_agrees() {
    let Some(expected) = golden("stats/alpha_spring_oats.json") else { return };
    let expected = &expected["varieties_fixed"];
    let errors: Vec<Vec<f64>> = expected["sed"]["matrix"]
        .as_array()
        .unwrap()
        .iter()
        .map(|row| row.as_array().unwrap().iter().map(number).collect())
        .collect();
    let others = 1..errors.len();
    let correlation: Vec<Vec<f64>> = others
        .clone()
        .map(|i| {
            let with = |j: usize| {
                let shared = errors[i][0].powi(2) + errors[j][0].powi(2) - errors[i][j].powi(2);
                shared / (2.0 * errors[i][0] * errors[j][0])
            };
            others.clone().map(with).collect()
        })
        .collect();
    let family = Family::new(&correlation, Question::Differs, 3e-5).unwrap();
    assert!(0.0 < family.error() && family.error() < 3e-5, "{}", family.error());
    // mvtnorm 1.1-3 asked for more: `GenzBretz(maxpts = 4e6, abseps = 1e-8)`; it tells errors up to 2.5e-5.
    let closer = [
        ("G02 - G01", 0.276_754_563_5),
        ("G07 - G01", 0.008_481_299_574),
        ("G09 - G01", 9.621_031_338e-6),
        ("G11 - G01", 0.045_527_886_72),
        ("G17 - G01", 0.494_342_004_2),
    ];
    for (name, expected_chance) in closer {
        let row = &expected["dunnett_vs_G01_kenward_roger_mvt"][name];
        let degrees = Degrees::new((number(&row["df"]) + 0.25).floor()).unwrap();
        let found = family.chance(number(&row["t"]), degrees).get();
        assert!((found - expected_chance).abs() < 2.5e-5, "{name}: {found}");
    }
    for (name, row) in expected["dunnett_vs_G01_kenward_roger_mvt"].as_object().unwrap() {
        let degrees = Degrees::new((number(&row["df"]) + 0.25).floor()).unwrap();
        let found = family.chance(number(&row["t"]), degrees).get();
        let allowed = PROMISED_BY_MVTNORM.max(2.0 * family.error());
        assert!((found - number(&row["p_adjusted"])).abs() < allowed, "{name}: {found} {row}");
    }
}
