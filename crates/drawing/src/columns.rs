//! The columns of a bench: how its width is shared out so that the whole stands as low as it can.
//!
//! Every column first gets the room of its widest entry. What is left goes, piece by piece, to the
//! column where a pixel saves most height. It is a climb, not a proof: good, quick, always the same.

use crate::shelf::{self, HEADROOM, Item, Row};
use crate::svg::Canvas;

/// Pixels by which a column is tried wider. A choice of the drawing.
const STEP: f64 = 12.0;
/// Weight of all columns' own heights beside the height of the whole, so that two equally tall columns
/// are both widened although neither alone makes the whole lower.
const OWN_HEIGHT: f64 = 0.08;
/// Room kept free between the columns, in pixels.
const BETWEEN: f64 = 4.0;

/// Width shared out, and every entry set on its shelf.
pub(crate) struct Columns<'a> {
    widths: Vec<f64>,
    /// By habit, then by shelf, then by column.
    rows: Vec<Vec<Shelf<'a>>>,
}

/// One shelf across all columns: what stands on it, with the left edge and the width of its column.
pub(crate) struct Shelf<'a> {
    parts: Vec<(f64, f64, Row<'a>)>,
}

/// Heights of a shelf in one column: of the fruit above it, of the labels below.
type Heights = (f64, f64);

/// One width tried for a column, and the shelves it leads to, by habit.
struct Trial {
    width: f64,
    shelves: Vec<Vec<Heights>>,
}

/// Shares out `width` among columns of cells, none narrower than its heading; `None` where they do
/// not fit.
pub(crate) fn share<'a>(cells: Vec<Vec<Vec<Item<'a>>>>, headings: &[f64], width: f64) -> Option<Columns<'a>> {
    let least: Vec<f64> =
        cells.iter().zip(headings).map(|(cells, heading)| least(cells).max(*heading)).collect();
    let spare = width - least.iter().sum::<f64>();
    if spare < 0.0 {
        return None;
    }
    let trials: Vec<Vec<Trial>> =
        cells.iter().zip(&least).map(|(cells, least)| trials(cells, *least, spare)).collect();
    let mut widths = climb(&trials, spare);
    #[expect(clippy::cast_precision_loss, reason = "a handful of columns")]
    let rest = (width - widths.iter().sum::<f64>()) / widths.len().max(1) as f64;
    widths.iter_mut().for_each(|width| *width += rest);
    Some(set(cells, widths))
}

fn least(cells: &[Vec<Item<'_>>]) -> f64 {
    cells.iter().flatten().map(Item::width).fold(0.0, f64::max) + BETWEEN
}

/// The widths worth trying for a column: those at which its shelves change.
fn trials(cells: &[Vec<Item<'_>>], least: f64, spare: f64) -> Vec<Trial> {
    let mut trials: Vec<Trial> = Vec::new();
    let mut extra = 0.0;
    while extra <= spare {
        let width = least + extra;
        let shelves: Vec<Vec<Heights>> =
            cells.iter().map(|items| shelf::heights(items, width - BETWEEN)).collect();
        let settled = shelves.iter().all(|shelves| shelves.len() <= 1);
        if trials.last().is_none_or(|last| last.shelves != shelves) {
            trials.push(Trial { width, shelves });
        }
        if settled {
            break;
        }
        extra += STEP;
    }
    trials
}

/// Widens columns one at a time, always the one where a pixel saves most, until nothing saves.
fn climb(trials: &[Vec<Trial>], mut spare: f64) -> Vec<f64> {
    let mut chosen: Vec<&Trial> = trials.iter().filter_map(|trials| trials.first()).collect();
    loop {
        let now = cost(&chosen);
        let mut best: Option<(f64, usize, &Trial)> = None;
        for (column, trials) in trials.iter().enumerate() {
            let Some(current) = chosen.get(column).copied() else { continue };
            for trial in trials
                .iter()
                .filter(|trial| trial.width > current.width && trial.width - current.width <= spare)
            {
                let saved = now - cost_with(&mut chosen, column, trial);
                let rate = saved / (trial.width - current.width);
                if saved > 0.0 && best.is_none_or(|(best, ..)| rate > best) {
                    best = Some((rate, column, trial));
                }
            }
        }
        let Some((_, column, trial)) = best else { break };
        if let Some(place) = chosen.get_mut(column) {
            spare -= trial.width - place.width;
            *place = trial;
        }
    }
    chosen.iter().map(|trial| trial.width).collect()
}

fn cost_with<'t>(chosen: &mut [&'t Trial], column: usize, trial: &'t Trial) -> f64 {
    let Some(place) = chosen.get_mut(column) else { return f64::INFINITY };
    let before = std::mem::replace(place, trial);
    let cost = cost(chosen);
    if let Some(place) = chosen.get_mut(column) {
        *place = before;
    }
    cost
}

/// The height of the whole, and a little of every column's own.
fn cost(chosen: &[&Trial]) -> f64 {
    let rows = chosen.iter().map(|trial| trial.shelves.len()).max().unwrap_or(0);
    (0..rows).map(|row| row_cost(chosen, row)).sum()
}

fn row_cost(chosen: &[&Trial], row: usize) -> f64 {
    let mut tallest: Vec<Heights> = Vec::new();
    let mut own = 0.0;
    for shelves in chosen.iter().filter_map(|trial| trial.shelves.get(row)) {
        for (index, (fruit, labels)) in shelves.iter().enumerate() {
            own += fruit + labels + HEADROOM;
            match tallest.get_mut(index) {
                Some(most) => *most = (most.0.max(*fruit), most.1.max(*labels)),
                None => tallest.push((*fruit, *labels)),
            }
        }
    }
    tallest.iter().map(|(fruit, labels)| fruit + labels + HEADROOM).sum::<f64>() + OWN_HEIGHT * own
}

/// Sets every entry on its shelf.
fn set(cells: Vec<Vec<Vec<Item<'_>>>>, widths: Vec<f64>) -> Columns<'_> {
    let mut rows: Vec<Vec<Shelf<'_>>> = Vec::new();
    let mut left = 0.0;
    for (cells, width) in cells.into_iter().zip(&widths) {
        rows.resize_with(rows.len().max(cells.len()), Vec::new);
        for (shelves, items) in rows.iter_mut().zip(cells) {
            let packed = shelf::packed(items, width - BETWEEN);
            shelves.resize_with(shelves.len().max(packed.len()), || Shelf { parts: Vec::new() });
            for (shelf, row) in shelves.iter_mut().zip(packed) {
                shelf.parts.push((left, *width, row));
            }
        }
        left += width;
    }
    Columns { widths, rows }
}

impl<'a> Columns<'a> {
    /// The left edge and the width of every column.
    pub(crate) fn places(&self) -> impl Iterator<Item = (f64, f64)> {
        let mut left = 0.0;
        self.widths.iter().map(move |width| {
            left += width;
            (left - width, *width)
        })
    }

    /// The shelves of one habit, from the top down.
    pub(crate) fn shelves(&self, row: usize) -> &[Shelf<'a>] {
        self.rows.get(row).map_or(&[], Vec::as_slice)
    }
}

impl Shelf<'_> {
    pub(crate) fn height(&self) -> f64 {
        self.parts.iter().map(|(.., row)| row.height()).fold(0.0, f64::max)
    }

    pub(crate) fn labels(&self) -> f64 {
        self.parts.iter().map(|(.., row)| row.labels()).fold(0.0, f64::max)
    }

    /// Draws everything on the shelf, whose left end is at `x`.
    pub(crate) fn draw(&self, canvas: &mut Canvas, x: f64, floor: f64) {
        for (left, width, row) in &self.parts {
            row.draw(canvas, (x + left, *width), floor);
        }
    }
}
