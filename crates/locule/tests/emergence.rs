//! `locule emergence` through the command line: the published table, what lies between, and what is no temperature.

mod program;

use program::{answer, locule, refused};

/// Harrington and Minges 1954, as reprinted in Knott's Handbook: days at 50 to 95 F, none at 41 and 104 F.
#[test]
fn the_table_is_told_and_interpolated_in_rate() {
    let folder = tempfile::tempdir().unwrap();
    let days = |typed: &[&str]| {
        let told = answer(folder.path(), &[&["emergence"], typed].concat());
        let rows = told["soil"].as_array().unwrap().clone();
        rows.iter()
            .map(|row| row["days"].as_f64().map(|days| (days * 100.0).round() / 100.0))
            .collect::<Vec<_>>()
    };
    let published = [None, Some(43.0), Some(14.0), Some(8.0), Some(6.0), Some(6.0), Some(9.0), None];
    assert_eq!(days(&[]), published);
    // Halfway between 43 and 14 days: 1 / ((1/43 + 1/14) / 2).
    assert_eq!(days(&["12.5C", "54.5F", "54.5 °f"]), [Some(21.12); 3]);
    let said = locule(folder.path(), &["emergence", "15C"]);
    let text = String::from_utf8(said.stdout).unwrap();
    assert!(text.contains("59 °F (15 °C)") && text.contains("14") && text.contains("Harrington"), "{text}");
    for odd in ["15", "warm", "-400C", "1e999C", "NaNC", ""] {
        refused(folder.path(), &["emergence", "--", odd], "is no temperature with its scale");
    }
}
