//! Chance in words: a probability as a grower would say it.
//!
//! For every printed page. The words are ours and few; the number beside them is what counts.
//! Start at [`told`].

use record::language;
use record::share::Share;

/// From here on a verdict is "almost surely" so. Common practice, no source.
const ALMOST_SURE: f64 = 0.95;
/// From here on a verdict is "very probably" so: the limit under which a call is contested.
/// The house's own rule (a call is contested under 80 in 100).
const VERY_PROBABLE: f64 = 0.80;
/// From here on a verdict is "probably" so: it is likelier than all others together.
const PROBABLE: f64 = 0.50;
/// A verdict less likely than this is not worth its ink. Common practice, no source.
const WORTH_TELLING: f64 = 0.10;
/// At most so many other verdicts are told. Common practice, no source.
const MOST_OTHERS: usize = 2;

/// Tells verdicts with their chances: `probably a plum (62 in 100), perhaps a grape`.
///
/// The likeliest leads, with its chance in 100. Up to two others of at least 10 in 100 follow, unless the
/// first is almost sure. `None` where there is no verdict to tell.
///
/// # Shape
/// `verdicts`: any number, in any order; equal chances are told in the order of the alphabet.
#[must_use]
pub fn told(verdicts: &[(String, Share)]) -> Option<String> {
    let ranked = ranked(verdicts);
    let ((verdict, share), others) = ranked.split_first()?;
    let first = format!("{} {verdict} ({})", likelihood(*share), language::chance(*share));
    let others = if ALMOST_SURE <= share.get() { Vec::new() } else { worth_telling(others) };
    Some(if others.is_empty() { first } else { format!("{first}, perhaps {}", others.join(" or ")) })
}

/// The likeliest verdict and its chance; of equal ones, the first in the alphabet.
#[must_use]
pub fn likeliest(verdicts: &[(String, Share)]) -> Option<&(String, Share)> {
    ranked(verdicts).first().copied()
}

fn ranked(verdicts: &[(String, Share)]) -> Vec<&(String, Share)> {
    let mut ranked: Vec<_> = verdicts.iter().collect();
    ranked.sort_by(|left, right| right.1.get().total_cmp(&left.1.get()).then_with(|| left.0.cmp(&right.0)));
    ranked
}

fn likelihood(share: Share) -> &'static str {
    match share.get() {
        sure if ALMOST_SURE <= sure => "almost surely",
        high if VERY_PROBABLE <= high => "very probably",
        more if PROBABLE <= more => "probably",
        _ => "perhaps",
    }
}

fn worth_telling<'a>(others: &[&'a (String, Share)]) -> Vec<&'a str> {
    let worthy = others.iter().filter(|(_, share)| WORTH_TELLING <= share.get());
    worthy.take(MOST_OTHERS).map(|(verdict, _)| verdict.as_str()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn agrees(verdicts: &[(&str, f64)], words: &str) {
        let verdicts: Vec<_> = verdicts
            .iter()
            .map(|(verdict, share)| ((*verdict).to_owned(), Share::new(*share).unwrap()))
            .collect();
        assert_eq!(told(&verdicts).as_deref(), Some(words));
    }

    #[test]
    fn chances_are_told_as_growers_say_them() {
        agrees(
            &[("a grape", 0.30), ("a plum", 0.62), ("a cherry", 0.08)],
            "probably a plum (62 in 100), perhaps a grape",
        );
        agrees(&[("determinate", 1.0)], "almost surely determinate (over 99 in 100)");
        agrees(&[("red", 0.97), ("pink", 0.03)], "almost surely red (97 in 100)");
        agrees(&[("red", 0.85), ("pink", 0.15)], "very probably red (85 in 100), perhaps pink");
        agrees(&[("b", 0.34), ("a", 0.34), ("c", 0.32)], "perhaps a (34 in 100), perhaps b or c");
    }

    #[test]
    fn nothing_is_told_of_nothing() {
        assert_eq!(told(&[]), None);
    }
}
