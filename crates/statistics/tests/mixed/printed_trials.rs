//! Three trials whose answers are printed: trends in the field as random polynomials, incomplete blocks within
//! random replicates, strips that cross. Data and source: `tests/data/printed_trials/SOURCE.md`.

use crate::oracles::{numbers, parse_table};
use crate::trial::{factor, main_effect, random, restricted};
use statistics::component::Standing;
use statistics::mixed::satterthwaite::Satterthwaite;
use statistics::mixed::terms::{Factor, Fixed, Random};
use statistics::mixed::{Fit, Model, tests};

/// Holds where a number is what is printed, to half a unit of the last of `digits` digits.
#[track_caller]
fn prints(what: &str, found: f64, printed: f64, digits: i32) {
    let unit = 10_f64.powi(printed.abs().log10().floor() as i32 + 1 - digits);
    assert!((found - printed).abs() <= 0.5 * unit * (1.0 + 1e-9), "{what}: found {found}, printed {printed}");
}

#[track_caller]
fn variance_prints(fit: &Fit, name: &str, printed: f64) {
    let mut all = fit.components.iter().chain(&fit.residual);
    let named = all.find(|named| named.name == name).unwrap();
    prints(name, named.component.variance, printed, 4);
}

/// Polynomials of rising degree over some places, each of length `length` and square to those before, without the
/// constant.
fn polynomials(places: &[f64], most: usize, length: f64) -> Vec<Vec<f64>> {
    let mean = places.iter().sum::<f64>() / places.len() as f64;
    let mut found = vec![vec![1.0 / (places.len() as f64).sqrt(); places.len()]];
    for degree in 0..most {
        let mut next: Vec<f64> =
            found[degree].iter().zip(places).map(|(own, at)| own * (at - mean)).collect();
        // Twice, so that roundings of the first pass are taken out too.
        for before in found.iter().chain(&found) {
            let part: f64 = next.iter().zip(before).map(|(a, b)| a * b).sum();
            next.iter_mut().zip(before).for_each(|(own, other)| *own -= part * other);
        }
        let norm = next.iter().map(|own| own * own).sum::<f64>().sqrt();
        found.push(next.iter().map(|own| own / norm).collect());
    }
    found.iter().skip(1).map(|column| column.iter().map(|own| own * length).collect()).collect()
}

/// One random coefficient of a column.
fn slope(name: &str, column: &[f64]) -> Random {
    Random::given(name, vec![name.to_owned()], column.iter().map(|own| vec![(0, *own)]).collect())
}

/// New lines and two checks down the diagonals, the field's trends as random polynomials.
#[test]
fn random_polynomials_print_as_published() {
    let table = parse_table(include_str!("../data/printed_trials/diagonal_checks.csv"), ',');
    let (row, column) = (numbers(&table["row"]), numbers(&table["col"]));
    let (rows, columns) = (polynomials(&row, 10, 12_f64.sqrt()), polynomials(&column, 10, 15_f64.sqrt()));
    let line = factor(&table, "gen");
    let kind = |label: &String| if label.as_str() < "G121" { "new".to_owned() } else { label.clone() };
    let kind = Factor::from_labels("kind", &table["gen"].iter().map(kind).collect::<Vec<_>>());
    let product = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| a * b).collect::<Vec<f64>>();
    let mut terms = vec![random([&line])];
    terms.extend([1, 2, 4, 8, 10].map(|degree| slope(&format!("r{degree}"), &rows[degree - 1])));
    terms.extend([1, 2, 3, 4, 6, 8].map(|degree| slope(&format!("c{degree}"), &columns[degree - 1])));
    terms.extend(
        [1, 2, 3].map(|degree| slope(&format!("r1c{degree}"), &product(&rows[0], &columns[degree - 1]))),
    );
    let fixed = vec![Fixed::intercept(), main_effect(&kind)];
    let fit = restricted(&Model::new(numbers(&table["yield"]), fixed, terms)).unwrap();
    let printed = [
        ("gen", 2869.0),
        ("r1", 9200.0),
        ("r2", 241.8),
        ("r4", 2269.0),
        ("r8", 1355.0),
        ("r10", 1133.0),
        ("c2", 5942.0),
        ("c3", 2549.0),
        ("c4", 1792.0),
        ("c6", 1400.0),
        ("c8", 6456.0),
        ("r1c1", 128_000.0),
        ("r1c2", 58_230.0),
        ("r1c3", 5532.0),
        ("residual", 4412.0),
    ];
    for (name, printed) in printed {
        variance_prints(&fit, name, printed);
    }
    let straight = fit.components.iter().find(|named| named.name == "c1").unwrap();
    assert_eq!(straight.component.standing, Standing::AtZero);
}

#[test]
fn incomplete_blocks_print_as_published() {
    let table = parse_table(include_str!("../data/printed_trials/incomplete_blocks.csv"), ',');
    let (variety, replicate, block) = (factor(&table, "gen"), factor(&table, "rep"), factor(&table, "block"));
    let fixed = vec![Fixed::intercept(), main_effect(&variety)];
    let terms = vec![random([&block]), random([&replicate])];
    let fit = restricted(&Model::new(numbers(&table["yield"]), fixed, terms)).unwrap();
    variance_prints(&fit, "block", 86_900.0);
    variance_prints(&fit, "rep", 200_900.0);
    variance_prints(&fit, "residual", 133_200.0);
}

/// Variety F 7.653 on 5 and 10, nitrogen 34.07 on 2 and 4, both together 5.801 on 10 and 20.
#[test]
fn strips_print_as_published() {
    let table = parse_table(include_str!("../data/printed_trials/strip_plot.csv"), ',');
    let (variety, replicate, nitrogen) =
        (factor(&table, "gen"), factor(&table, "rep"), factor(&table, "nitro"));
    let both = Fixed::of([(&variety).into(), (&nitrogen).into()]);
    let fixed = vec![Fixed::intercept(), main_effect(&variety), main_effect(&nitrogen), both];
    let terms = vec![random([&replicate]), random([&replicate, &variety]), random([&replicate, &nitrogen])];
    let fit = restricted(&Model::new(numbers(&table["yield"]), fixed, terms)).unwrap();
    let satterthwaite = Satterthwaite::new(&fit).unwrap();
    let lines: [(&[&str], f64, f64, f64); 3] =
        [(&["gen"], 7.653, 5.0, 10.0), (&["nitro"], 34.07, 2.0, 4.0), (&["gen", "nitro"], 5.801, 10.0, 20.0)];
    for (of, statistic, numerator, denominator) in lines {
        let test = satterthwaite.test(&tests::term(&fit, of).unwrap()).unwrap();
        prints(&format!("{of:?}"), test.statistic, statistic, 4);
        assert_eq!(test.numerator, numerator);
        assert!((test.denominator - denominator).abs() < 1e-4, "{of:?} {test:?}");
    }
}
