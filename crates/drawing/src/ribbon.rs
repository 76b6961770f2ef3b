//! The season ribbon: one line a variety, a strip of ink whose depth is the chance of ripe fruit that week; frost at both
//! ends.
//!
//! Start at [`ribbon`], and [`months`] for the line above many of them. All ribbons of one width share one axis: weeks from
//! planting.

use crate::lettering::{Anchor, Hand};
use crate::paint::{HAIR, INK, THIN_INK};
use crate::path::{Path, Point};
use crate::scale::Pixels;
use crate::svg::{Canvas, Role, Svg};
use record::share::Share;

/// Height of a ribbon, in pixels.
const HEIGHT: f64 = 18.0;
/// Height of its ink, in pixels.
const STRIP: f64 = 12.0;
/// Height of the line of months, in pixels.
const MONTHS: f64 = 20.0;
const MONTH: Hand = Hand { class: "month", size: 12.0, ink: THIN_INK, anchor: Anchor::Start, slanted: false };
/// Least room that a month's name is written in, in letter heights.
const ROOM: f64 = 2.2;

/// A season's chances of ripe fruit.
#[derive(Clone, Debug, PartialEq)]
pub struct Ribbon {
    /// What it says, in words, for those who cannot see it.
    pub words: String,
    /// The chance of ripe fruit in each week from planting.
    pub weeks: Vec<Share>,
    /// The week in which frost has killed the plants in half of the years; nothing where it does not.
    pub frost: Option<f64>,
}

/// Draws a ribbon `width` pixels wide.
#[must_use]
pub fn ribbon(ribbon: &Ribbon, width: Pixels) -> Svg {
    let week = width.get() / weeks(ribbon.weeks.len());
    let mut canvas = Canvas::new("r", &ribbon.words);
    let top = (HEIGHT - STRIP) / 2.0;
    line(&mut canvas, (0.0, HEIGHT / 2.0), (width.get(), HEIGHT / 2.0), HAIR);
    let mut left = 0.0;
    for chance in &ribbon.weeks {
        if 0.0 < chance.get() {
            // A hair wider than a week, so that paper does not shine through between two.
            let strip = canvas.element("rect").at("x", left).at("y", top).at("width", week + 0.3);
            strip.at("height", STRIP).set("fill", INK).at("fill-opacity", chance.get()).end();
        }
        left += week;
    }
    for end in std::iter::once(0.0).chain(ribbon.frost.map(|frost| frost * week)) {
        let end = end.clamp(0.6, width.get() - 0.6);
        line(&mut canvas, (end, 0.0), (end, HEIGHT), THIN_INK);
    }
    canvas.finish("ribbon", Role::Picture, &ribbon.words, width.get(), HEIGHT)
}

/// Draws the months above ribbons of so many weeks: each name at the days from planting on which it begins.
#[must_use]
pub fn months(beginnings: &[(u16, &str)], week_count: usize, width: Pixels) -> Svg {
    let day = width.get() / weeks(week_count) / 7.0;
    let mut canvas = Canvas::new("r", "months");
    let ends = beginnings.iter().skip(1).map(|(days, _)| f64::from(*days) * day);
    for ((days, name), end) in beginnings.iter().zip(ends.chain([width.get()])) {
        let start = f64::from(*days) * day;
        line(&mut canvas, (start, 4.0), (start, MONTHS), HAIR);
        if ROOM * MONTH.size < end - start {
            MONTH.set(&mut canvas, name, Point::new(start + 3.0, MONTHS - 6.0));
        }
    }
    canvas.finish("months", Role::Picture, "Months from planting", width.get(), MONTHS)
}

fn weeks(count: usize) -> f64 {
    u32::try_from(count.max(1)).map_or(1.0, f64::from)
}

fn line(canvas: &mut Canvas, from: (f64, f64), to: (f64, f64), ink: &str) {
    let mut path = Path::sized(0.0);
    path.move_to(Point::new(from.0, from.1));
    path.line_to(Point::new(to.0, to.1));
    canvas.element("path").set("fill", "none").set("stroke", ink).at("stroke-width", 1.0).along(&path).end();
}
