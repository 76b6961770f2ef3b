//! One shelf of a bench: fruit standing in a row, with their names and rules hung below the edge.

use crate::bench::BenchEntry;
use crate::lettering::{Anchor, Hand};
use crate::link;
use crate::paint::{INK, THIN_INK};
use crate::path::Point;
use crate::portrait::Pair;
use crate::rule;
use crate::scale::Scale;
use crate::svg::Canvas;
use crate::words;
use record::language::Units;
use record::share::Share;

/// Room kept free above the tallest fruit of a shelf, in pixels.
pub(crate) const HEADROOM: f64 = 12.0;
/// Room kept free at either side of an entry, in pixels.
const APART: f64 = 5.0;
/// Least room given to a name before it is broken or shortened, in pixels.
const NAME_ROOM: f64 = 78.0;
/// Height of one line of a name, in pixels.
const NAME_LINE: f64 = 13.0;
/// Length of a rule that stands for certainty, in pixels.
const RULE: f64 = 56.0;
/// Height taken by the rule, and by the words of a contested call, in pixels.
const RULE_ROOM: f64 = 8.0;
const NOTE_ROOM: f64 = 11.0;
const NAME: Hand = Hand { class: "name", size: 11.5, ink: INK, anchor: Anchor::Middle, slanted: false };
const NOTE: Hand =
    Hand { class: "contested", size: 9.5, ink: THIN_INK, anchor: Anchor::Middle, slanted: true };

/// A variety measured for its place on a shelf.
pub(crate) struct Item<'a> {
    entry: &'a BenchEntry,
    pair: Pair,
    name: Vec<String>,
    note: Option<String>,
    words: String,
    /// Room on the shelf, in pixels.
    width: f64,
}

impl<'a> Item<'a> {
    pub(crate) fn of(entry: &'a BenchEntry, scale: Scale, units: Units) -> Self {
        let pair = Pair::of(&entry.look, scale);
        let name = NAME.broken(&entry.look.name, pair.width().max(NAME_ROOM));
        let note = match (entry.certainty, entry.contested) {
            (Some(share), true) => Some(format!("contested {:.0} %", contested_percent(share))),
            (None, true) => Some(String::from("contested")),
            (None, false) => Some(String::from("not called")),
            (Some(_), false) => None,
        };
        let named = name.iter().map(|line| NAME.width(line));
        let noted = note.iter().map(|note| NOTE.width(note));
        let width = named.chain(noted).fold(pair.width().max(RULE), f64::max) + 2.0 * APART;
        Self { entry, pair, name, note, words: words::portrait(&entry.look, units), width }
    }

    pub(crate) fn name(&self) -> &str {
        &self.entry.look.name
    }

    /// What fruits are sorted by: their size as drawn.
    pub(crate) fn bulk(&self) -> f64 {
        self.pair.bulk()
    }

    pub(crate) fn portrait_width(&self) -> f64 {
        self.pair.width() + 2.0 * APART
    }

    /// Room on the shelf, in pixels.
    pub(crate) fn width(&self) -> f64 {
        self.width
    }

    pub(crate) fn height(&self) -> f64 {
        self.pair.height()
    }

    /// Height of what hangs below the shelf, in pixels.
    pub(crate) fn label_height(&self) -> f64 {
        let lines = f64::from(u32::try_from(self.name.len()).unwrap_or(2));
        4.0 + lines * NAME_LINE + RULE_ROOM + if self.note.is_some() { NOTE_ROOM } else { 0.0 }
    }

    /// Draws the entry with its middle at `middle`, standing on `floor`.
    fn draw(&self, canvas: &mut Canvas, middle: f64, floor: f64) {
        let link = self.entry.link.as_deref().filter(|link| link::is_safe(link));
        let element = canvas.element(if link.is_some() { "a" } else { "g" }).set("class", "entry");
        let element = match link {
            Some(link) => element.set("href", link),
            None => element,
        };
        element.holding(|canvas| {
            canvas.element("title").words(&self.words);
            self.reach(canvas, middle, floor);
            canvas
                .element("g")
                .moved(middle - self.pair.width() / 2.0, 0.0)
                .holding(|canvas| self.pair.draw(canvas, floor));
            self.label(canvas, middle, floor);
        });
    }

    /// An unseen shape over the whole entry, so that it can be pointed at anywhere and framed on focus.
    fn reach(&self, canvas: &mut Canvas, middle: f64, floor: f64) {
        let (width, top) = (self.width() - 2.0, floor - self.height() - 4.0);
        let shape = canvas.element("rect").set("class", "reach").at("x", middle - width / 2.0).at("y", top);
        let shape = shape.at("width", width).at("height", self.height() + 4.0 + self.label_height());
        shape.set("fill", "none").set("pointer-events", "all").end();
    }

    fn label(&self, canvas: &mut Canvas, middle: f64, floor: f64) {
        let mut foot = floor + 2.0;
        for line in &self.name {
            foot += NAME_LINE;
            NAME.set(canvas, line, Point::new(middle, foot));
        }
        if let Some(certainty) = self.entry.certainty {
            let call = (certainty, self.entry.contested);
            rule::draw(canvas, (middle - RULE / 2.0, foot + 5.5), RULE, 1.6, call);
        }
        if let Some(note) = &self.note {
            NOTE.set(canvas, note, Point::new(middle, foot + RULE_ROOM + NOTE_ROOM - 4.0));
        }
    }
}

/// The whole per cent that a contested call is told with: rounded down, so that 79.9 is not told as
/// the 80 that would settle it.
fn contested_percent(share: Share) -> f64 {
    // A ten-millionth is no evidence, but 0.58 times 100 comes to a little less than 58.
    (share.get() * 100.0 + 1e-7).floor()
}

/// Fruit that stands on one shelf, within one cell.
pub(crate) struct Row<'a> {
    items: Vec<Item<'a>>,
}

/// Sets items on as many rows as they need within `width`, in order.
pub(crate) fn packed(items: Vec<Item<'_>>, width: f64) -> Vec<Row<'_>> {
    let mut rows: Vec<Row<'_>> = Vec::new();
    let mut room = 0.0;
    for item in items {
        let wide = item.width();
        match rows.last_mut() {
            Some(row) if wide <= room => row.items.push(item),
            _ => {
                room = width;
                rows.push(Row { items: vec![item] });
            }
        }
        room -= wide;
    }
    rows
}

/// The heights that [`packed`] would give each row: of the fruit, and of the labels.
pub(crate) fn heights(items: &[Item<'_>], width: f64) -> Vec<(f64, f64)> {
    let mut rows: Vec<(f64, f64)> = Vec::new();
    let mut room = 0.0;
    for item in items {
        let wide = item.width();
        if rows.is_empty() || wide > room {
            room = width;
            rows.push((0.0, 0.0));
        }
        room -= wide;
        if let Some(row) = rows.last_mut() {
            *row = (row.0.max(item.height()), row.1.max(item.label_height()));
        }
    }
    rows
}

impl Row<'_> {
    pub(crate) fn height(&self) -> f64 {
        self.items.iter().map(Item::height).fold(0.0, f64::max)
    }

    pub(crate) fn labels(&self) -> f64 {
        self.items.iter().map(Item::label_height).fold(0.0, f64::max)
    }

    /// Draws the row on `floor`, spread evenly between `left` and `left + width`.
    pub(crate) fn draw(&self, canvas: &mut Canvas, (left, width): (f64, f64), floor: f64) {
        let taken: f64 = self.items.iter().map(Item::width).sum();
        let count = f64::from(u32::try_from(self.items.len()).unwrap_or(1));
        let space = (width - taken).max(0.0) / (count + 1.0);
        let mut x = left + space;
        for item in &self.items {
            item.draw(canvas, x + item.width() / 2.0, floor);
            x += item.width() + space;
        }
    }
}
