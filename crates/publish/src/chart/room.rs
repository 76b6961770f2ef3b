//! Who gets how much room on a chart: the page, the columns of a shelf, and the scales.

use crate::catalogue::Portrait;
use crate::catalogue::scale::{PrintedScale, largest};
use crate::chart::Sheet;

/// A page, in printed millimetres.
#[derive(Clone, Copy, Debug)]
pub(super) struct Page {
    pub(super) width: f64,
    pub(super) height: f64,
    pub(super) margin: f64,
}

/// Margin of a poster and of a booklet, in millimetres: every printer prints within the first.
const POSTER_MARGIN: f64 = 14.0;
const BOOKLET_MARGIN: f64 = 18.0;
/// Room between two columns of a poster, in millimetres.
pub(super) const GAP: f64 = 4.5;
/// Narrowest column of a poster that its words can be read in, in millimetres.
const NARROWEST: f64 = 33.0;
/// Tallest fruit on a poster's shelf, in millimetres.
const TALLEST: f64 = 40.0;
/// Most shelves of one poster; a guide of more classes is printed smaller.
const MOST_SHELVES: usize = 4;

impl Page {
    pub(super) fn of(sheet: Sheet) -> Self {
        const INCH: f64 = record::length::MILLIMETRES_PER_INCH;
        let (width, height, margin) = match sheet {
            Sheet::A4 => (210.0, 297.0, BOOKLET_MARGIN),
            Sheet::UsLetter => (8.5 * INCH, 11.0 * INCH, BOOKLET_MARGIN),
            Sheet::A3 => (420.0, 297.0, POSTER_MARGIN),
            Sheet::Tabloid => (17.0 * INCH, 11.0 * INCH, POSTER_MARGIN),
        };
        Self { width, height, margin }
    }

    /// Width between the margins.
    pub(super) fn inner(self) -> f64 {
        self.width - 2.0 * self.margin
    }
}

/// The scale of a poster's fruit, and the widths of the columns of each shelf, in millimetres.
pub(super) fn shelves(portraits: &[Option<&Portrait>], inner: f64) -> (PrintedScale, Vec<Vec<f64>>) {
    let mut best: Option<(PrintedScale, usize)> = None;
    for count in 1..=MOST_SHELVES {
        let per = portraits.len().div_ceil(count).max(1);
        let scale = largest(|factor| fits(portraits, per, factor, inner));
        let is_better = best.is_none_or(|(found, _)| found.factor * 1.3 < scale.factor);
        // One shelf is best read; another is worth it where fruit is so much larger, or does not fit at all.
        if fits(portraits, per, scale.factor, inner) && is_better {
            best = Some((scale, per));
        }
    }
    let per = portraits.len().div_ceil(MOST_SHELVES).max(1);
    let (scale, per) = best.unwrap_or((largest(|_| false), per));
    let widths = portraits.chunks(per).map(|shelf| spread(&needs(shelf, scale.factor), inner)).collect();
    (scale, widths)
}

fn fits(portraits: &[Option<&Portrait>], per: usize, factor: f64, inner: f64) -> bool {
    let tall = |portrait: &Portrait| portrait.life_height.get() * factor <= TALLEST;
    portraits.iter().flatten().all(|portrait| tall(portrait))
        && portraits.chunks(per).all(|shelf| total(&needs(shelf, factor)) <= inner)
}

fn needs(shelf: &[Option<&Portrait>], factor: f64) -> Vec<f64> {
    let need = |portrait: &Option<&Portrait>| {
        portrait.map_or(NARROWEST, |portrait| (portrait.life_width.get() * factor).max(NARROWEST))
    };
    shelf.iter().map(need).collect()
}

fn total(widths: &[f64]) -> f64 {
    widths.iter().map(|width| width + GAP).sum::<f64>() - GAP
}

/// Gives what is left of the width to the narrow columns first, whose words need it most.
fn spread(needs: &[f64], inner: f64) -> Vec<f64> {
    let mut widths = needs.to_vec();
    let mut left = inner - total(needs);
    let least = |widths: &[f64]| widths.iter().copied().fold(f64::INFINITY, f64::min);
    while left > 0.5 {
        let narrowest = least(&widths);
        let among =
            widths.iter().filter(|width| **width < narrowest + 0.25).fold(0.0, |count, _| count + 1.0);
        let more = (left / among).min(0.25);
        for width in widths.iter_mut().filter(|width| **width < narrowest + 0.25) {
            *width += more;
        }
        left -= more * among;
    }
    widths
}

/// Plant scales that a reader can picture: one to so many.
const PLANT_SCALES: [f64; 9] = [20.0, 25.0, 30.0, 35.0, 40.0, 50.0, 60.0, 80.0, 100.0];

/// The scale at which all plants stand side by side within a width and under a height, as one to so many.
pub(super) fn plants(plants: &[&Portrait], width: f64, height: f64) -> f64 {
    let column = width / plants.iter().fold(0.0_f64, |count, _| count + 1.0).max(1.0);
    let has_room = |plant: &&&Portrait, scale: f64| {
        plant.life_width.get() / scale <= column && plant.life_height.get() / scale <= height
    };
    let fit = |scale: &&f64| plants.iter().all(|plant| has_room(&plant, **scale));
    PLANT_SCALES.iter().find(fit).copied().unwrap_or(150.0)
}
