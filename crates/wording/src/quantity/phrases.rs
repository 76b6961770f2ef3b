//! The words round a number: units, limits, and which way a length is measured.

use crate::quantity::{Found, number};
use crate::tokens::Token;
use record::length::{INCHES_PER_FOOT, MILLIMETRES_PER_INCH};
use record::mass::{GRAMS_PER_OUNCE, GRAMS_PER_POUND};

/// What a number counts, with how many of the record's own unit one of it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Unit {
    /// A mass, in grams.
    Mass(f64),
    /// A length in millimetres, and what is measured by it where nothing else is said.
    Length(f64, Axis),
    /// Days.
    Days(f64),
    /// Seed chambers.
    Locules,
}

/// Which way a length is measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Axis {
    /// The fruit, from stem to blossom end.
    Long,
    /// The fruit, across.
    Wide,
    /// The plant.
    Tall,
}

/// What a word makes of the number behind or before it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Bound {
    Under,
    AtMost,
    Over,
    AtLeast,
    About,
    Between,
}

impl Unit {
    /// A number of it in the record's own unit.
    pub(super) fn scaled(self, number: f64) -> f64 {
        match self {
            Self::Mass(scale) | Self::Length(scale, _) | Self::Days(scale) => number * scale,
            Self::Locules => number,
        }
    }

    /// Whether both measure the same.
    pub(super) fn is_like(self, other: Self) -> bool {
        std::mem::discriminant(&self) == std::mem::discriminant(&other)
    }

    /// Whether a number may stand behind its name alone: "locules 2".
    pub(super) fn is_count(self) -> bool {
        matches!(self, Self::Days(_) | Self::Locules)
    }

    /// Which way it measures, for lengths.
    pub(super) fn axis(self) -> Option<Axis> {
        match self {
            Self::Length(_, axis) => Some(axis),
            _ => None,
        }
    }

    /// `1 lb 4 oz` in pounds; nothing where the second is no smaller unit of the same measure.
    pub(super) fn with_small(self, number: f64, small: Self, more: f64) -> Option<f64> {
        let (one, other) = (self.scaled(1.0), small.scaled(1.0));
        let is_part =
            matches!(self, Self::Mass(_) | Self::Length(..)) && self.is_like(small) && more * other < one;
        is_part.then(|| number + more * other / one)
    }
}

const INCH: Unit = Unit::Length(MILLIMETRES_PER_INCH, Axis::Wide);
const FOOT: Unit = Unit::Length(MILLIMETRES_PER_INCH * INCHES_PER_FOOT, Axis::Tall);

/// Units and the words for them, folded.
const UNITS: [(Unit, &[&str]); 11] = [
    (Unit::Mass(1.0), &["g", "gram", "grams", "gr", "gm", "gms", "gramme", "grammes"]),
    (Unit::Mass(1000.0), &["kg", "kilo", "kilos", "kgs", "kilogram", "kilograms"]),
    (Unit::Mass(GRAMS_PER_OUNCE), &["oz", "ounce", "ounces", "ozs"]),
    (Unit::Mass(GRAMS_PER_POUND), &["lb", "lbs", "pound", "pounds", "pounder", "pounders"]),
    (Unit::Length(1.0, Axis::Wide), &["mm", "millimetre", "millimetres", "millimeter", "millimeters"]),
    (Unit::Length(10.0, Axis::Wide), &["cm", "centimetre", "centimetres", "centimeter", "centimeters"]),
    (Unit::Length(1000.0, Axis::Tall), &["m", "metre", "metres", "meter", "meters"]),
    (INCH, &["in", "inch", "inches", "inchs"]),
    (FOOT, &["ft", "foot", "feet"]),
    (Unit::Days(1.0), &["day", "days"]),
    (Unit::Days(7.0), &["week", "weeks"]),
];

/// Words for seed chambers.
const LOCULES: [&str; 10] = [
    "locule",
    "locules",
    "locular",
    "chamber",
    "chambers",
    "chambered",
    "cavity",
    "cavities",
    "cells",
    "celled",
];

/// Limits that stand before a number.
const BEFORE: [(Bound, Option<Axis>, &[&str]); 9] = [
    (
        Bound::Under,
        None,
        &["under", "below", "lessthan", "smallerthan", "lighterthan", "before", "fewerthan"],
    ),
    (Bound::Under, Some(Axis::Long), &["shorterthan"]),
    (Bound::Under, Some(Axis::Wide), &["narrowerthan"]),
    (
        Bound::AtMost,
        None,
        &[
            "upto",
            "atmost",
            "nomorethan",
            "notmorethan",
            "notover",
            "nooverthan",
            "max",
            "maximum",
            "within",
            "nolongerthan",
            "nobiggerthan",
            "nolargerthan",
            "noheavierthan",
            "notabove",
            "inunder",
            "by",
        ],
    ),
    (
        Bound::Over,
        None,
        &["over", "above", "morethan", "biggerthan", "largerthan", "heavierthan", "after", "exceeding"],
    ),
    (Bound::Over, Some(Axis::Long), &["longerthan"]),
    (Bound::Over, Some(Axis::Wide), &["widerthan"]),
    (Bound::Over, Some(Axis::Tall), &["tallerthan"]),
    (
        Bound::AtLeast,
        None,
        &[
            "atleast",
            "from",
            "min",
            "minimum",
            "notunder",
            "notlessthan",
            "nolessthan",
            "nosmallerthan",
            "notbelow",
        ],
    ),
];

/// Words for "about" and "between", before a number.
const NEAR: [(Bound, &[&str]); 2] = [
    (
        Bound::About,
        &["about", "around", "roughly", "approximately", "approx", "circa", "ca", "nearly", "some"],
    ),
    (Bound::Between, &["between"]),
];

/// Limits that stand behind a number.
const BEHIND: [(Bound, &[&str]); 2] = [
    (
        Bound::AtMost,
        &[
            "orless",
            "orunder",
            "orfewer",
            "orlighter",
            "orsmaller",
            "orsooner",
            "orearlier",
            "orbelow",
            "max",
            "maximum",
            "atmost",
            "andunder",
            "andless",
            "orshorter",
            "tops",
        ],
    ),
    (
        Bound::AtLeast,
        &[
            "ormore",
            "orover",
            "orheavier",
            "orlarger",
            "orbigger",
            "orlonger",
            "orlater",
            "orabove",
            "plus",
            "andup",
            "andover",
            "andmore",
            "andabove",
            "minimum",
            "upwards",
            "orwider",
            "andlarger",
            "andheavier",
        ],
    ),
];

/// Words that say which way a length is measured, behind it or before it.
const AXES: [(Axis, &[&str]); 3] = [
    (Axis::Long, &["long", "length", "inlength", "lengthwise"]),
    (Axis::Wide, &["wide", "width", "inwidth", "across", "diameter", "indiameter"]),
    (Axis::Tall, &["tall", "height", "inheight", "high", "intheheight"]),
];

/// Most words in a phrase of this file.
const LONGEST: usize = 3;

/// The longest run of words at a token that `known` knows, joined.
fn longest<T>(tokens: &[Token], at: usize, known: impl Fn(&str) -> Option<T>) -> Found<T> {
    (1..=LONGEST).rev().find_map(|count| {
        let words: Option<Vec<&str>> = tokens.get(at..at + count)?.iter().map(Token::word).collect();
        Some((known(&words?.concat())?, at + count))
    })
}

fn listed<T: Copy>(table: &[(T, &[&str])], word: &str) -> Option<T> {
    table.iter().find(|(_, words)| words.contains(&word)).map(|(meaning, _)| *meaning)
}

/// A unit at a token; a hyphen may stand before it.
pub(super) fn unit(tokens: &[Token], at: usize) -> Found<Unit> {
    let at = at + usize::from(tokens.get(at)?.is_sign('-'));
    let token = tokens.get(at)?;
    if token.is_sign('"') {
        return Some((INCH, at + 1));
    }
    if token.is_sign('\'') {
        return Some((FOOT, at + 1));
    }
    let word = token.word()?;
    let locules = || LOCULES.contains(&word).then_some(Unit::Locules);
    listed(&UNITS, word).or_else(locules).map(|unit| (unit, at + 1))
}

/// Whether a unit follows, with a limit before it or not: "6 or more chambers".
pub(super) fn unit_behind_bound(tokens: &[Token], at: usize) -> bool {
    unit(tokens, bound_after(tokens, at).1).is_some()
}

/// A limit before a number, and the axis that it compares.
pub(super) fn bound_before(tokens: &[Token], at: usize) -> (Option<Bound>, Option<Axis>, usize) {
    let sign = |sign: char| tokens.get(at).is_some_and(|token| token.is_sign(sign));
    for (bound, signs) in [
        (Bound::Under, "<"),
        (Bound::AtMost, "≤"),
        (Bound::Over, ">"),
        (Bound::AtLeast, "≥"),
        (Bound::About, "~"),
    ] {
        if signs.chars().any(sign) {
            return (Some(bound), None, at + 1);
        }
    }
    let known = |word: &str| {
        let limit =
            BEFORE.iter().find(|(.., words)| words.contains(&word)).map(|(bound, axis, _)| (*bound, *axis));
        limit.or_else(|| listed(&NEAR, word).map(|bound| (bound, None)))
    };
    match longest(tokens, at, known) {
        Some(((bound, axis), behind)) => {
            // "at least about 4 oz", "from around 4 oz".
            let near = longest(tokens, behind, |word| listed(&NEAR, word));
            (Some(bound), axis, near.map_or(behind, |(_, behind)| behind))
        }
        None => (None, None, at),
    }
}

/// A limit behind a number.
pub(super) fn bound_after(tokens: &[Token], at: usize) -> (Option<Bound>, usize) {
    if tokens.get(at).is_some_and(|token| token.is_sign('+')) {
        return (Some(Bound::AtLeast), at + 1);
    }
    match longest(tokens, at, |word| listed(&BEHIND, word)) {
        // "Over 4 oz and under 8 oz": what a figure follows is the limit of that figure.
        Some((bound, behind)) if number::figures(tokens, behind).is_none() => (Some(bound), behind),
        _ => (None, at),
    }
}

/// What is named before a number: "length over 2 in", "locules 2". Only where a limit or a figure follows.
pub(super) fn axis_before(tokens: &[Token], at: usize) -> (Option<Unit>, usize) {
    let known = |word: &str| match word {
        "locules" | "chambers" => Some(Unit::Locules),
        "days" => Some(Unit::Days(1.0)),
        word => listed(&AXES, word).map(|axis| Unit::Length(1.0, axis)),
    };
    let Some((unit, mut behind)) = longest(tokens, at, known) else { return (None, at) };
    let passed = |token: &Token| token.is_sign(':') || matches!(token.word(), Some("of" | "is"));
    behind += usize::from(tokens.get(behind).is_some_and(passed));
    let follows = number::number(tokens, bound_before(tokens, behind).2).is_some();
    if follows { (Some(unit), behind) } else { (None, at) }
}

/// Which way a length is measured, behind it.
pub(super) fn axis_after(tokens: &[Token], at: usize) -> (Option<Axis>, usize) {
    longest(tokens, at, |word| listed(&AXES, word)).map_or((None, at), |(axis, at)| (Some(axis), at))
}

/// How many tokens join two numbers to a range: one, where they do.
pub(super) fn joins_range(token: &Token, bound: Option<Bound>) -> Option<usize> {
    let joins = token.is_sign('-')
        || match token.word() {
            Some("to" | "through" | "till") => {
                !matches!(bound, Some(Bound::Under | Bound::AtMost | Bound::Over))
            }
            Some("or") => bound.is_none(),
            Some("and") => bound == Some(Bound::Between),
            _ => false,
        };
    joins.then_some(1)
}
