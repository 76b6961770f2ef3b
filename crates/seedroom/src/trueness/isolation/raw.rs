//! The isolation guide as its text holds it, and the checks that make it one.

use super::{Flower, IsolationGuide};
use crate::label::guide::{PacketGuideFault, Rule, Status};
use record::length::{INCHES_PER_FOOT, MILLIMETRES_PER_INCH, Millimetres};
use serde::Deserialize;
use std::ops::Range;
use toml::Spanned;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawGuide {
    flower: Vec<Spanned<RawFlower>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawFlower {
    name: String,
    what: String,
    crosses_percent: Spanned<[f64; 2]>,
    away_ft: Spanned<f64>,
    #[serde(default)]
    fruit_classes: Vec<String>,
    #[serde(default)]
    varieties: Vec<String>,
    source: Spanned<String>,
    status: RawStatus,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum RawStatus {
    Read,
    Unverified,
}

/// Feet of a distance at most; six miles is a slip of the pen.
const MOST_FEET: f64 = 31_680.0;

pub(super) fn read(file: &str, text: &str) -> Result<IsolationGuide, PacketGuideFault> {
    let fault = |place: Option<Range<usize>>, fault: &str, help: &str| {
        let before = place.and_then(|place| text.as_bytes().get(..place.start)).unwrap_or_default();
        let line = before.iter().filter(|byte| **byte == b'\n').count() + 1;
        PacketGuideFault { file: file.into(), line, fault: fault.into(), help: help.into() }
    };
    let raw: RawGuide = toml::from_str(text).map_err(|wrong| {
        fault(wrong.span(), wrong.message(), "see the shipped guides/isolation.toml for a whole one")
    })?;
    if raw.flower.is_empty() {
        return Err(fault(None, "no flower is told", "write at least one [[flower]]"));
    }
    let flower = |flower: Spanned<RawFlower>| {
        let of = flower.into_inner();
        let [low, high] = *of.crosses_percent.get_ref();
        if !(0.0 <= low && low <= high && high <= 100.0) {
            let help = "write the least and the most seed in 100 that crosses, such as [0.5, 2.0]";
            return Err(fault(Some(of.crosses_percent.span()), "no shares of crossed seed", help));
        }
        let feet = *of.away_ft.get_ref();
        let far = Some(feet).filter(|feet| (0.0..=MOST_FEET).contains(feet));
        let away = far.and_then(|feet| Millimetres::new(feet * INCHES_PER_FOOT * MILLIMETRES_PER_INCH));
        let help = "write the feet to the next variety, such as 100.0";
        let away = away.ok_or_else(|| fault(Some(of.away_ft.span()), "no distance", help))?;
        if of.source.get_ref().trim().is_empty() {
            let help = "write where this stands, or \"common practice, no source\"";
            return Err(fault(Some(of.source.span()), "no source", help));
        }
        let status = match of.status {
            RawStatus::Read => Status::Read,
            RawStatus::Unverified => Status::Unverified,
        };
        Ok(Flower {
            name: of.name,
            words: of.what,
            crosses_percent: (low, high),
            away,
            fruit_classes: of.fruit_classes,
            varieties: of.varieties,
            rule: Rule { source: of.source.into_inner(), status },
        })
    };
    Ok(IsolationGuide { flowers: raw.flower.into_iter().map(flower).collect::<Result<_, _>>()? })
}
