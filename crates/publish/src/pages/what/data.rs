//! The page's data as scripts: `data/rule.js` of the guides and the house, `data/alike.js` of the list's varieties.

use super::rule::{
    Answer, ClassRule, ColourRule, Likeness, PlantRule, Question, RuleBand, RuleWay, Stem, Trial, WhatRule,
};
use crate::pages::finding::script;
use crate::pages::places::Shelf;
use crate::pages::{File, Folder};
use serde_json::{Map, Value, json};

/// Both files.
///
/// # Errors
/// What JSON cannot hold, which would be a fault in this program.
pub(super) fn files(folder: &Folder, rule: &WhatRule) -> Result<[File; 2], serde_json::Error> {
    let all = json!({
        "class": class(folder, &rule.class),
        "plant": plant(&rule.plant),
        "habits": habits(folder),
        "colour": colour(&rule.colour),
    });
    Ok([script("data/rule.js", "rule", &all)?, script("data/alike.js", "alike", &likeness(&rule.likeness))?])
}

fn class(folder: &Folder, rule: &ClassRule) -> Value {
    let (quantiles, order) = packed(&rule.chances);
    json!({
        "classes": classes(folder),
        "ways": rule.ways.iter().map(way).collect::<Vec<_>>(),
        "softness": rule.softness,
        "spread": object(rule.spread.iter().map(|own| (own.of, json!([own.season, own.plant, own.fruit])))),
        "quantiles": quantiles,
        "order": order,
        "trials": rule.trials.iter().map(trial).collect::<Vec<_>>(),
    })
}

fn way(way: &RuleWay) -> Value {
    let band = |band: &RuleBand| json!([band.measure, band.from, band.below]);
    json!({ "into": way.into, "bands": way.bands.iter().map(band).collect::<Vec<_>>() })
}

fn trial(trial: &Trial) -> Value {
    let fruit =
        |fruit: &Vec<(&'static str, f64)>| object(fruit.iter().map(|(of, value)| (*of, json!(value))));
    json!({
        "fruits": trial.fruits.iter().map(fruit).collect::<Vec<_>>(),
        "shares": trial.shares,
        "looks": trial.looks,
    })
}

fn classes(folder: &Folder) -> Vec<Value> {
    let shelves = folder.places.shelves.iter();
    let class = |shelf: &Shelf| {
        let class = folder.list.classes.get(shelf.class?)?;
        Some(json!({ "name": class.name, "page": folder.places.shelf(shelf, 0), "limits": class.limits }))
    };
    shelves.filter_map(class).collect()
}

fn habits(folder: &Folder) -> Vec<Value> {
    let habits = folder.list.habits.iter().enumerate();
    habits
        .map(|(place, habit)| json!({ "name": habit.name, "page": folder.places.habit(place, 0), "what": habit.what }))
        .collect()
}

fn plant(rule: &PlantRule) -> Value {
    let stems = |stems: &[Stem]| -> Vec<Value> {
        stems.iter().map(|stem| json!([rounded(&stem.ends), short(stem.endless)])).collect()
    };
    let questions = rule.questions.iter().map(|question| (question.of, asked(question)));
    let trials = rule.trials.iter().map(|trial| {
        let answers = object(trial.answers.iter().map(|(of, key)| (*of, json!(key))));
        json!({ "answers": answers, "shares": rounded(&trial.shares) })
    });
    json!({
        "prior": rule.prior.iter().map(|cell| rounded(cell)).collect::<Vec<_>>(),
        "cells": rule.cells.iter().map(|cell| json!([cell.habit, cell.stem == super::rule::CellStem::Endless]))
            .collect::<Vec<_>>(),
        "stray": rule.stray_rate,
        "reach": rule.season_reach,
        "ended": stems(&rule.ended),
        "growing": stems(&rule.growing),
        "questions": object(questions),
        "silence": rounded(&rule.silence),
        "trials": trials.collect::<Vec<_>>(),
    })
}

fn asked(question: &Question) -> Value {
    let logs = |answer: &Answer| answer.logs.iter().map(|row| rounded(row)).collect::<Vec<_>>();
    json!({
        "trust": question.trust,
        "answers": object(question.answers.iter().map(|answer| (answer.key.as_str(), json!(logs(answer))))),
    })
}

fn colour(rule: &ColourRule) -> Value {
    let rows = |rows: &[Vec<f64>]| rows.iter().map(|row| rounded(row)).collect::<Vec<_>>();
    let trials = rule.trials.iter().map(|trial| {
        let words = object(trial.words.iter().map(|(of, place)| (*of, json!(place))));
        json!({ "words": words, "outside": rounded(&trial.outside), "pattern": rounded(&trial.pattern) })
    });
    json!({
        "colours": rule.colours,
        "skins": rule.skins,
        "patterns": rule.patterns,
        "prior": rows(&rule.prior),
        "patternPrior": rounded(&rule.pattern_prior),
        "stray": rule.stray_rate,
        "colourWords": rows(&rule.colour_words),
        "skinWords": rows(&rule.skin_words),
        "patternWords": rows(&rule.pattern_words),
        "trials": trials.collect::<Vec<_>>(),
    })
}

fn likeness(likeness: &Likeness) -> Value {
    let numbers = likeness.numbers.iter().map(|own| {
        let values: Vec<Option<f32>> = own.values.iter().map(|value| value.map(short)).collect();
        json!({ "of": own.of, "weight": own.weight, "values": values })
    });
    let names = likeness.names.iter().map(|own| {
        let chances: Vec<Option<Vec<Value>>> =
            own.chances.iter().map(|chances| chances.as_deref().map(sparse)).collect();
        json!({
            "of": own.of,
            "weight": own.weight,
            "apart": own.apart.iter().map(|row| rounded(row)).collect::<Vec<_>>(),
            "chances": chances,
        })
    });
    json!({
        "numbers": numbers.collect::<Vec<_>>(),
        "names": names.collect::<Vec<_>>(),
        "trials": likeness.trials,
    })
}

/// A chance under this is left out: all of them together would not move a distance by the figures that are sent.
const LEFT_OUT_UNDER: f64 = 1e-7;

/// Place, chance, place, chance: nearly all chances of a called variety are next to nothing.
fn sparse(chances: &[f64]) -> Vec<Value> {
    let kept = chances.iter().enumerate().filter(|(_, chance)| LEFT_OUT_UNDER <= **chance);
    kept.flat_map(|(place, chance)| [json!(place), json!(short(*chance))]).collect()
}

/// To seven figures, which the shorter number writes in half the room.
#[expect(clippy::cast_possible_truncation, reason = "seven figures are kept, and that is meant")]
fn short(value: f64) -> f32 {
    value as f32
}

fn rounded(values: &[f64]) -> Vec<f32> {
    values.iter().copied().map(short).collect()
}

fn object<'a>(entries: impl Iterator<Item = (&'a str, Value)>) -> Value {
    Value::Object(entries.map(|(name, value)| (name.to_owned(), value)).collect::<Map<_, _>>())
}

/// Each column of the chances holds the same numbers in an order of its own, so they are sent once, and the order.
fn packed(chances: &[Vec<f64>]) -> (Vec<f64>, Vec<Vec<usize>>) {
    let mut quantiles: Vec<f64> = chances.iter().flatten().copied().collect();
    quantiles.sort_by(f64::total_cmp);
    quantiles.dedup();
    let place =
        |chance: &f64| quantiles.binary_search_by(|own| own.total_cmp(chance)).unwrap_or_else(|near| near);
    let order = chances.iter().map(|row| row.iter().map(place).collect()).collect();
    (quantiles, order)
}
