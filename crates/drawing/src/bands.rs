//! The guide's bands on a strip: named bars that fade where their borders are soft, in as few lanes as
//! keep them apart.

use crate::axis::Axis;
use crate::lettering::{Anchor, Hand};
use crate::paint::{INK, THIN_INK, WASH};
use crate::path::Point;
use crate::strip::{Band, Border, Strip};
use crate::svg::{Canvas, Gradient};

/// Height of one lane, in pixels.
const LANE: f64 = 17.0;
const NAME: Hand = Hand { class: "band", size: 11.0, ink: THIN_INK, anchor: Anchor::Start, slanted: false };

/// Bands sorted into lanes.
pub(crate) struct Lanes<'a> {
    bars: Vec<Bar<'a>>,
    count: u32,
}

/// One band as it will be drawn: all places in pixels.
struct Bar<'a> {
    band: &'a Band,
    /// Where it begins to fade in, stands full, begins to fade out, and is gone.
    edges: [f64; 4],
    label: String,
    label_at: f64,
    lane: u32,
}

/// Sorts a strip's bands into lanes.
pub(crate) fn laid<'a>(strip: &'a Strip, axis: &Axis) -> Lanes<'a> {
    let mut bars: Vec<Bar<'a>> = strip.bands.iter().map(|band| bar(band, axis)).collect();
    bars.sort_by(|a, b| a.edges[0].total_cmp(&b.edges[0]).then(a.edges[3].total_cmp(&b.edges[3])));
    let mut taken: Vec<f64> = Vec::new();
    for bar in &mut bars {
        let (start, end) = bar.span();
        let lane = taken.iter().position(|free| *free <= start).unwrap_or(taken.len());
        match taken.get_mut(lane) {
            Some(free) => *free = end,
            None => taken.push(end),
        }
        bar.lane = u32::try_from(lane).unwrap_or(u32::MAX);
    }
    Lanes { bars, count: u32::try_from(taken.len()).unwrap_or(u32::MAX) }
}

fn bar<'a>(band: &'a Band, axis: &Axis) -> Bar<'a> {
    let places = |border: Option<Border>, open: f64| {
        border.map_or((open, open), |border| {
            let (from, to) = (axis.place(border.from.get()), axis.place(border.to.get()));
            (from.min(to), from.max(to))
        })
    };
    let (start, full) = places(band.low, axis.left);
    let (fading, end) = places(band.high, axis.right);
    let fading = fading.max(full.min(end));
    let label = NAME.shortened(&band.name, axis.right - axis.left);
    let wide = NAME.width(&label);
    let middle = f64::midpoint(f64::midpoint(start, full), f64::midpoint(fading, end));
    let label_at = (middle - wide / 2.0).clamp(axis.left, (axis.right - wide).max(axis.left));
    Bar { band, edges: [start, full, fading, end.max(start)], label, label_at, lane: 0 }
}

impl Bar<'_> {
    /// The room it takes in its lane: from the middle of one soft border to that of the other, so that
    /// neighbours may fade into each other, and all of its name.
    fn span(&self) -> (f64, f64) {
        let [start, full, fading, end] = self.edges;
        let name_end = self.label_at + NAME.width(&self.label) + 4.0;
        (f64::midpoint(start, full).min(self.label_at), f64::midpoint(fading, end).max(name_end))
    }

    /// The paint that fades with the band's borders, at most as strong as `strength`.
    fn wash(&self, canvas: &mut Canvas, strength: f64) -> String {
        let [start, full, fading, end] = self.edges;
        let share = |x: f64| (x - start) / (end - start).max(f64::MIN_POSITIVE);
        let edge = |soft: bool| if soft { 0.0 } else { strength };
        let stops = [
            (0.0, WASH, edge(full > start)),
            (share(full), WASH, strength),
            (share(fading), WASH, strength),
            (1.0, WASH, edge(end > fading)),
        ];
        canvas.gradient(&Gradient::Linear { from: (0.0, 0.0), to: (1.0, 0.0), stops: &stops })
    }

    fn rectangle(&self, canvas: &mut Canvas, fill: &str, (top, height): (f64, f64)) {
        let [start, .., end] = self.edges;
        let shape = canvas.element("rect").at("x", start).at("y", top).at("width", (end - start).max(0.8));
        shape.at("height", height).set("fill", fill).end();
    }
}

impl Lanes<'_> {
    pub(crate) fn height(&self) -> f64 {
        f64::from(self.count) * LANE
    }

    /// Draws the lanes from `top`, and the called band down to `floor` behind the dots.
    pub(crate) fn draw(&self, canvas: &mut Canvas, top: f64, floor: f64) {
        for bar in &self.bars {
            let lane_top = top + f64::from(bar.lane) * LANE;
            if bar.band.called {
                let fill = bar.wash(canvas, 0.3);
                bar.rectangle(
                    canvas,
                    &fill,
                    (lane_top + LANE - 2.0, (floor - lane_top - LANE + 2.0).max(0.0)),
                );
            }
            let fill = bar.wash(canvas, if bar.band.called { 0.85 } else { 0.42 });
            bar.rectangle(canvas, &fill, (lane_top, LANE - 2.0));
        }
        for bar in &self.bars {
            let foot = top + f64::from(bar.lane) * LANE + 11.5;
            let hand = if bar.band.called { Hand { ink: INK, class: "band called", ..NAME } } else { NAME };
            hand.set(canvas, &bar.label, Point::new(bar.label_at, foot));
            if bar.band.called {
                let y = foot + 2.2;
                let line = canvas.element("line").at("x1", bar.label_at).at("y1", y);
                let line = line.at("x2", bar.label_at + NAME.width(&bar.label) * 0.86).at("y2", y);
                line.set("stroke", INK).at("stroke-width", 1.0).end();
            }
        }
    }
}
