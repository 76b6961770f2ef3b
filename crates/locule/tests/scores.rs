//! The demo house's calls held against the hidden truth that its files were made from.
//!
//! Prints the confusion of every call and how well its probabilities are calibrated; `./test` shows them.

#![expect(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]
#![expect(clippy::print_stdout, reason = "the scores are there to be read")]

mod program;

use program::{answer, demo, truth};
use serde_json::Value;
use std::collections::BTreeMap;

struct Truth {
    habit: String,
    class: String,
    colour: String,
    edge: bool,
}

struct Call {
    verdict: Option<String>,
    probability: f64,
    contested: bool,
}

fn truths() -> BTreeMap<String, Truth> {
    let (headings, rows) = truth("truth.csv");
    let place = |name: &str| headings.iter().position(|heading| heading == name).unwrap();
    let (variety, habit, class) = (place("variety"), place("habit"), place("class"));
    let (colour, edge, build) = (place("colour"), place("edge"), place("build"));
    let one = |row: csv::StringRecord| {
        // A dwarf is sold as a dwarf whatever its stem does.
        let habit = if &row[build] == "standard" { &row[habit] } else { &row[build] };
        let edge = !row[edge].is_empty();
        let (class, colour) = (row[class].to_owned(), row[colour].to_owned());
        (row[variety].to_owned(), Truth { habit: habit.to_owned(), class, colour, edge })
    };
    rows.into_iter().map(one).collect()
}

fn calls() -> BTreeMap<String, BTreeMap<String, Call>> {
    let (_folder, house, _) = demo();
    let list = answer(&house, &["list", "--all"]);
    let varieties = list["varieties"].as_array().unwrap();
    varieties.iter().map(|variety| (variety["name"].as_str().unwrap().to_owned(), own(variety))).collect()
}

fn own(variety: &Value) -> BTreeMap<String, Call> {
    let call = |call: &Value| {
        let verdict = call["verdict"].as_str().map(str::to_owned);
        let (probability, contested) = (call["probability"].as_f64()?, call["contested"].as_bool()?);
        Some((call["about"].as_str()?.to_owned(), Call { verdict, probability, contested }))
    };
    variety["calls"].as_array().unwrap().iter().filter_map(call).collect()
}

/// One call beside the truth.
struct Scored<'a> {
    variety: &'a str,
    truth: &'a str,
    call: &'a Call,
    edge: bool,
}

impl Scored<'_> {
    fn is_right(&self) -> bool {
        self.call.verdict.as_deref() == Some(self.truth)
    }
}

fn print_confusion(about: &str, scored: &[Scored<'_>]) {
    let mut confusion: BTreeMap<(&str, &str), u32> = BTreeMap::new();
    for one in scored {
        *confusion.entry((one.truth, one.call.verdict.as_deref().unwrap_or("between"))).or_default() += 1;
    }
    println!("\n{about}: truth, called, how many");
    for ((truth, called), count) in confusion {
        let mark = if truth == called { "" } else { "  <- wrong" };
        println!("  {truth:<18} {called:<18} {count:>4}{mark}");
    }
    for wrong in scored.iter().filter(|one| !one.is_right()) {
        let Call { verdict, probability, contested } = wrong.call;
        let edge = if wrong.edge { ", made on a class edge" } else { "" };
        println!(
            "  {}: {} called {verdict:?} {probability:.2}, contested {contested}{edge}",
            wrong.variety, wrong.truth
        );
    }
}

/// Prints how often calls of each probability are right, and gives the mean probability and the share right.
fn print_calibration(scored: &[Scored<'_>]) -> (f64, f64) {
    println!("  probability   calls   told   right");
    for (low, high) in [(0.0, 0.6), (0.6, 0.8), (0.8, 0.95), (0.95, 1.01)] {
        let within: Vec<&Scored<'_>> =
            scored.iter().filter(|one| (low..high).contains(&one.call.probability)).collect();
        if !within.is_empty() {
            let told = within.iter().map(|one| one.call.probability).sum::<f64>() / within.len() as f64;
            let right = within.iter().filter(|one| one.is_right()).count() as f64 / within.len() as f64;
            println!("  {low:.2} to {high:.2}  {:>5}   {told:.2}   {right:.2}", within.len());
        }
    }
    let count = scored.len() as f64;
    let told = scored.iter().map(|one| one.call.probability).sum::<f64>() / count;
    let right = scored.iter().filter(|one| one.is_right()).count() as f64 / count;
    println!("  all           {:>5}   {told:.3}   {right:.3}", scored.len());
    (told, right)
}

/// Three standard errors of a share right, so that luck alone fails one run in four hundred.
fn three_standard_errors(share: f64, count: usize) -> f64 {
    3.0 * (share * (1.0 - share) / count as f64).sqrt()
}

/// What truly is, of one thing that is called.
type TrueWord = fn(&Truth) -> &str;

#[test]
fn the_demo_houses_calls_agree_with_the_truth_and_know_how_sure_they_are() {
    let (truths, calls) = (truths(), calls());
    assert_eq!(truths.len(), 130);
    let about: [(&str, TrueWord); 3] = [
        ("habit", |truth| &truth.habit),
        ("fruit class", |truth| &truth.class),
        ("colour", |truth| &truth.colour),
    ];
    for (about, truth_of) in about {
        let scored: Vec<Scored<'_>> = truths
            .iter()
            .filter_map(|(variety, truth)| {
                let call = calls.get(variety)?.get(about)?;
                Some(Scored { variety, truth: truth_of(truth), call, edge: truth.edge })
            })
            .collect();
        print_confusion(about, &scored);
        let (told, right) = print_calibration(&scored);
        assert!(100 < scored.len(), "{about}: only {} were called", scored.len());
        let slack = three_standard_errors(told, scored.len());
        assert!(
            (told - right).abs() <= slack,
            "{about}: told {told:.3} but {right:.3} are right (± {slack:.3})"
        );
        let settled: Vec<&Scored<'_>> = scored.iter().filter(|one| !one.call.contested).collect();
        let right = settled.iter().filter(|one| one.is_right()).count() as f64 / settled.len() as f64;
        println!("  not contested {:>5}          {right:.3}", settled.len());
        assert!(0.9 <= right, "{about}: of calls that are not contested only {right:.3} are right");
    }
}
