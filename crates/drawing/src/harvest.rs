//! The harvest of a plan: for each week a bar from a poor to a good year with the middling one across it, against what is
//! eaten.
//!
//! Start at [`harvest`].

use crate::lettering::{Anchor, Hand};
use crate::paint::{HAIR, INK, THIN_INK, WASH};
use crate::path::{Path, Point};
use crate::svg::{Canvas, Role, Svg};
use record::language::{self, Units};
use record::mass::Grams;

/// Width of the drawing, in pixels.
const WIDTH: f64 = 680.0;
/// Height of its plot, in pixels.
const PLOT: f64 = 150.0;
/// Room for weights at the left, in pixels.
const LEFT: f64 = 58.0;
/// Room above the plot, for the top weight's letters.
const TOP: f64 = 10.0;
/// Room below, for days.
const FOOT: f64 = 24.0;
/// Share of a week that its bar takes.
const BAR: f64 = 0.62;
/// Rules across the plot, the lowest being nothing. A choice of the drawing.
const RULES: u32 = 4;
const LABEL: Hand = Hand { class: "tick", size: 12.0, ink: INK, anchor: Anchor::Middle, slanted: false };

/// A harvest, week by week.
#[derive(Clone, Debug, PartialEq)]
pub struct Harvest {
    /// What it says, in words, for those who cannot see it.
    pub words: String,
    /// Its weeks, one after another.
    pub weeks: Vec<WeekOfHarvest>,
}

/// A week.
#[derive(Clone, Debug, PartialEq)]
pub struct WeekOfHarvest {
    /// Its first day.
    pub of: String,
    /// Kilograms in poor, middling and good years.
    pub range: [f64; 3],
    /// Kilograms that are wanted of it; nothing where none are.
    pub wanted: f64,
}

/// Draws a harvest.
#[must_use]
pub fn harvest(harvest: &Harvest, units: Units) -> Svg {
    let mut canvas = Canvas::new("h", &harvest.words);
    let tops = harvest.weeks.iter().map(|week| week.range.into_iter().fold(week.wanted, f64::max));
    let most = tops.fold(f64::MIN_POSITIVE, f64::max);
    let foot = TOP + PLOT;
    let at = |kilograms: f64| foot - PLOT * (kilograms / most).clamp(0.0, 1.0);
    for rule in 0..=RULES {
        let kilograms = most * f64::from(rule) / f64::from(RULES);
        let ink = if rule == 0 { THIN_INK } else { HAIR };
        line(&mut canvas, (LEFT, at(kilograms)), (WIDTH, at(kilograms)), ink, 1.0);
        let words = Grams::of_kilograms(kilograms).filter(|_| 0 < rule);
        let words = words.map_or_else(|| "0".to_owned(), |grams| language::mass_briefly(grams, units));
        LABEL.anchored(Anchor::End).set(&mut canvas, &words, Point::new(LEFT - 6.0, at(kilograms) + 4.0));
    }
    let count = u32::try_from(harvest.weeks.len().max(1)).map_or(1.0, f64::from);
    let week_width = (WIDTH - LEFT) / count;
    let mut free = LEFT - LABEL.width("0");
    for (week, place) in harvest.weeks.iter().zip((0_u32..).map(f64::from)) {
        let (left, middle) = (LEFT + place * week_width, LEFT + (place + 0.5) * week_width);
        let [poor, middling, good] = week.range;
        let bar = canvas.element("rect").at("x", middle - week_width * BAR / 2.0).at("y", at(good));
        bar.at("width", week_width * BAR).at("height", at(poor) - at(good)).set("fill", WASH).end();
        let half = week_width * BAR / 2.0;
        line(&mut canvas, (middle - half, at(middling)), (middle + half, at(middling)), INK, 2.0);
        if 0.0 < week.wanted {
            let over = (left, at(week.wanted));
            dashed(&mut canvas, over, (left + week_width, at(week.wanted)));
        }
        let half = LABEL.width(&week.of) / 2.0;
        if free < middle - half && middle + half < WIDTH {
            LABEL.set(&mut canvas, &week.of, Point::new(middle, foot + 17.0));
            free = middle + half + 8.0;
        }
    }
    canvas.finish("harvest", Role::Picture, &harvest.words, WIDTH, foot + FOOT)
}

fn straight(from: (f64, f64), to: (f64, f64)) -> Path {
    let mut path = Path::sized(0.0);
    path.move_to(Point::new(from.0, from.1));
    path.line_to(Point::new(to.0, to.1));
    path
}

fn line(canvas: &mut Canvas, from: (f64, f64), to: (f64, f64), ink: &str, width: f64) {
    let path = straight(from, to);
    canvas
        .element("path")
        .set("fill", "none")
        .set("stroke", ink)
        .at("stroke-width", width)
        .along(&path)
        .end();
}

fn dashed(canvas: &mut Canvas, from: (f64, f64), to: (f64, f64)) {
    let path = straight(from, to);
    let drawn = canvas.element("path").set("fill", "none").set("stroke", INK).at("stroke-width", 1.2);
    drawn.set("stroke-dasharray", "4 3").along(&path).end();
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_week_is_a_bar_from_poor_to_good() {
        let week = |range, wanted| WeekOfHarvest { of: "1 Aug".to_owned(), range, wanted };
        let weeks = vec![week([1.0, 2.0, 4.0], 1.5), week([0.0, 0.0, 0.0], 0.0)];
        let drawn = harvest(&Harvest { words: "Two weeks".to_owned(), weeks }, Units::METRIC);
        let markup = drawn.markup();
        // Of 150 pixels for 4 kg the bar from 1 to 4 kg has three quarters, from the top of the plot.
        assert!(markup.contains("y=\"10\" width=\"192.82\" height=\"112.5\""), "{markup}");
        assert!(markup.contains("<title>Two weeks</title>"), "{markup}");
        assert_eq!(markup.matches("stroke-dasharray").count(), 1);
        assert!(markup.contains("4.0 kg"), "{markup}");
    }
}
