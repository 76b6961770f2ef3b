//! The closed line round a fruit along which its colour ends: the way round that crosses most change of colour and bends least.
//!
//! A mask's border is drawn by one threshold; in the fruit's own shade and shadow it frays, and where fruit touch it is cut
//! straight. So the picture is read along rays from the fruit's middle, and the cheapest closed way through them is taken.
//! It is good to a pixel; [`crate::edge`] sharpens it. Start at [`contour`].

use crate::colour::Lab;
use crate::outline::Point;
use crate::plane::Plane;
use crate::region::{Region, border};
use crate::ring::{self, Ring};
use crate::sheet::Sheet;
use crate::surface::light_between;

/// Share of a fruit's radius on either side of its mask's smoothed border in which its edge is looked for, and the least, px.
const REACH: f64 = 0.2;
const LEAST_REACH: f64 = 8.0;
/// Pixels of a ray on either side of a place whose colours are held against each other.
const SIDE: usize = 3;
/// Rays on either side that are taken together, against noise.
const BAND: usize = 3;
/// Steps of CIELAB at which an edge counts half of what the plainest one does (found on the made pictures).
const HALF_PLAIN: f64 = 15.0;
/// Chroma beside the sheet's at which a place counts half of what the sheet does as the outer side of an edge.
const COLOURED: f64 = 20.0;
/// What growing darker and growing lighter outwards count beside a change of hue: a shadow's rim grows lighter.
const DARKER_OUTSIDE: f64 = 1.0;
const LIGHTER_OUTSIDE: f64 = 0.15;
/// What a pixel's step from ray to ray costs beside the plainest edge, squared, and what a pixel off the mask's border does.
const STEP: f64 = 0.12;
const AWAY: f64 = 0.000_8;
/// What an edge against another fruit counts: there are creases and shines there.
const AGAINST_ANOTHER: f64 = 0.5;

/// A contour, and how plainly the fruit ends along it where nothing lies against it: from 0 to 1.
pub(crate) struct Contour {
    pub(crate) points: Vec<Point>,
    pub(crate) plainness: f64,
}

/// The contour of one part of a mask, from ray to ray round its middle.
#[must_use]
pub(crate) fn contour(
    pixels: &Plane<[u8; 3]>,
    (labels, part): (&Plane<u32>, &Region),
    sheet: &Sheet,
) -> Contour {
    let rim = border(labels, part);
    let middle = part.centroid.map(|place| place + 0.5);
    let base = Ring::round(&rim, middle);
    let reach = (REACH * base.mean()).max(LEAST_REACH).ceil() as usize;
    let rays = Rays { pixels, labels, own: part.label, sheet, base: &base, reach };
    let plain = rays.plainness();
    let steps = cheapest_round(&plain);
    let radii: Vec<f64> =
        steps.iter().enumerate().map(|(way, step)| base.at(way) + *step as f64 - reach as f64).collect();
    let free: Vec<f64> = radii.iter().enumerate().map(|(way, radius)| rays.free(way, *radius)).collect();
    // Where another fruit lies against it, its line goes on as it came.
    let smooth = Ring::through(&radii, &free, middle);
    let cut = ring::radii(&rim, middle, base.ways());
    let mixed = radii.iter().zip(&free).zip(cut).enumerate().map(|(way, ((radius, free), cut))| {
        if *free < 1.0 { smooth.at(way).clamp(cut - BULGE, cut + BULGE) } else { *radius }
    });
    let points = mixed.enumerate().map(|(way, radius)| base.place(way, radius)).collect();
    let found = steps.iter().zip(&plain).map(|(step, ray)| ray.get(*step).copied().unwrap_or(0.0));
    let (sum, count) = found
        .zip(&free)
        .filter(|(_, free)| 1.0 <= **free)
        .fold((0.0, 0.0), |(sum, n), (own, _)| (sum + own, n + 1.0));
    // What lies between others all round was parted from them, and so is no shadow.
    let plainness = if count < 1.0 { 1.0 } else { sum / count };
    Contour { points, plainness }
}

/// The rays that a part's surroundings are read along: from `reach` within its base to `reach` beyond.
struct Rays<'a> {
    pixels: &'a Plane<[u8; 3]>,
    labels: &'a Plane<u32>,
    own: u32,
    sheet: &'a Sheet,
    base: &'a Ring,
    reach: usize,
}

impl Rays<'_> {
    /// Colours along one ray, beside the sheet's; [`SIDE`] more on either side than there are places.
    fn colours(&self, way: usize) -> Vec<Lab> {
        let ground = self.sheet.light(self.base.place(way, self.base.at(way)));
        let start = self.base.at(way) - (self.reach + SIDE) as f64;
        let places = (0..=2 * (self.reach + SIDE)).map(|step| self.base.place(way, start + step as f64));
        places.map(|place| Sheet::beside(ground, light_between(self.pixels, place))).collect()
    }

    /// For every ray and place on it, how plainly the fruit ends there: from 0 to 1.
    fn plainness(&self) -> Vec<Vec<f64>> {
        let rays: Vec<Vec<Lab>> = (0..self.base.ways()).map(|way| self.colours(way)).collect();
        (0..rays.len())
            .map(|way| {
                let near = near(&rays, way);
                (0..=2 * self.reach).map(|step| self.share_of_own(way, step) * plain(&near, step)).collect()
            })
            .collect()
    }

    fn share_of_own(&self, way: usize, step: usize) -> f64 {
        let radius = self.base.at(way) + step as f64 - self.reach as f64;
        if self.is_free(way, radius + SIDE as f64) { 1.0 } else { AGAINST_ANOTHER }
    }

    /// Whether a place shows no other part.
    fn is_free(&self, way: usize, radius: f64) -> bool {
        let [x, y] = self.base.place(way, radius).map(|part| part.floor() as isize);
        let label = self.labels.at(x, y);
        label == 0 || label == self.own
    }

    /// What an edge at a place of a ray counts: little where another part begins soon after it.
    fn free(&self, way: usize, radius: f64) -> f64 {
        if self.is_free(way, radius + CLEAR / 2.0) && self.is_free(way, radius + CLEAR) {
            1.0
        } else {
            COVERED
        }
    }
}

/// Pixels beyond an edge within which no other part may begin, and what the edge counts where one does.
const CLEAR: f64 = 6.0;
const COVERED: f64 = 0.1;
/// Pixels that a fruit bulges over the straight line along which it was cut from another, at most.
const BULGE: f64 = 2.0;

/// The colours of a ray and of its neighbours, taken together.
fn near(rays: &[Vec<Lab>], way: usize) -> Vec<Lab> {
    let window = 2 * BAND + 1;
    let places = rays.first().map_or(0, Vec::len);
    let mut sums = vec![Lab { l: 0.0, a: 0.0, b: 0.0 }; places];
    for ray in rays.iter().cycle().skip(way + rays.len() - BAND).take(window) {
        for (sum, lab) in sums.iter_mut().zip(ray) {
            *sum = Lab { l: sum.l + lab.l, a: sum.a + lab.a, b: sum.b + lab.b };
        }
    }
    let share = 1.0 / window as f64;
    sums.iter().map(|sum| Lab { l: share * sum.l, a: share * sum.a, b: share * sum.b }).collect()
}

/// How plainly the fruit ends at a step of a ray.
fn plain(ray: &[Lab], step: usize) -> f64 {
    let mean = |from: usize, part: fn(&Lab) -> f64| {
        ray.iter().skip(from).take(SIDE).map(part).sum::<f64>() / SIDE as f64
    };
    let change = |part: fn(&Lab) -> f64| mean(step, part) - mean(step + SIDE + 1, part);
    let (a, b, l) = (change(|lab| lab.a), change(|lab| lab.b), change(|lab| lab.l));
    let enters = change(|lab| lab.chroma()) < 0.0 && l < 0.0;
    let light = DARKER_OUTSIDE * l.max(0.0) + LIGHTER_OUTSIDE * (-l).max(0.0);
    let found = a.hypot(b).hypot(light);
    let beyond = mean(step + SIDE + 1, |lab| lab.chroma()) / COLOURED;
    if enters { 0.0 } else { found / (found + HALF_PLAIN) / (1.0 + beyond * beyond) }
}

/// The closed way through the rays, one place on each, that costs least.
fn cheapest_round(plain: &[Vec<f64>]) -> Vec<usize> {
    let (count, places) = (plain.len(), plain.first().map_or(0, Vec::len));
    let middle = places as f64 / 2.0;
    let mut costs = vec![0.0_f64; places];
    let mut from: Vec<Vec<usize>> = Vec::with_capacity(2 * count);
    // Twice round: what is kept is the half round the seam, where neither end is felt.
    for ray in plain.iter().chain(plain) {
        let mut next = Vec::with_capacity(places);
        let mut came = Vec::with_capacity(places);
        for (place, found) in ray.iter().enumerate() {
            let (cost, before) = cheapest_step(&costs, place);
            next.push(cost - found + AWAY * (place as f64 - middle).powi(2));
            came.push(before);
        }
        costs = next;
        from.push(came);
    }
    let last = costs.iter().enumerate().min_by(|p, q| p.1.total_cmp(q.1)).map_or(0, |(place, _)| place);
    let mut back = vec![last];
    for came in from.iter().rev() {
        let at = back.last().copied().unwrap_or(0);
        back.push(came.get(at).copied().unwrap_or(at));
    }
    back.reverse();
    let mut round: Vec<usize> = back.into_iter().skip(1 + count / 2).take(count).collect();
    round.rotate_right(count / 2);
    round
}

/// The cheapest place of the ray before to come from, and its cost with the step.
fn cheapest_step(costs: &[f64], place: usize) -> (f64, usize) {
    const WIDEST: usize = 3;
    let places = place.saturating_sub(WIDEST)..=(place + WIDEST).min(costs.len().saturating_sub(1));
    let stepped = places.map(|before| {
        let cost = costs.get(before).copied().unwrap_or(f64::MAX);
        (cost + STEP * (before as f64 - place as f64).powi(2), before)
    });
    stepped.min_by(|p, q| p.0.total_cmp(&q.0)).unwrap_or((0.0, place))
}
