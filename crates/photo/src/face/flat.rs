//! A face laid flat: its outline on its own level, and a raster on which every cell says how much it is gel.
//!
//! Flesh is the colour of the outer wall; gel is what differs from it inside, the same way everywhere. Seeds and shine are paler than
//! both and are passed over. Start at [`Flat::of`].

use super::Gel;
use crate::camera::Camera;
use crate::colour::Lab;
use crate::lobes::WAYS;
use crate::outline::{Point, hull, moments};
use crate::plane::Plane;
use crate::ring::radii;
use crate::sheet::Sheet;
use crate::surface::{Tone, light_between};
use std::f64::consts::TAU;

/// What a face is read from.
#[derive(Clone, Copy, Debug)]
pub struct Light<'a> {
    /// The picture.
    pub pixels: &'a Plane<[u8; 3]>,
    /// The light of the sheet.
    pub sheet: &'a Sheet,
    /// The picture's tone curve, where the card tells it.
    pub tone: Option<&'a Tone>,
}

impl Light<'_> {
    fn at(&self, pixel: Point) -> Lab {
        let written = light_between(self.pixels, pixel);
        match self.tone {
            Some(tone) => tone.surface(written, self.sheet.light(pixel)),
            None => self.sheet.relative(pixel, written),
        }
    }
}

/// A face laid flat.
#[derive(Clone, Debug)]
pub(super) struct Flat {
    /// Its outline on its level, mm on the sheet.
    pub(super) outline: Vec<Point>,
    /// Its middle, mm on the sheet.
    pub(super) middle: Point,
    /// From its middle to the outline in each of 360 directions, mm.
    pub(super) radii: Vec<f64>,
    /// What its cells say.
    pub(super) gel: Gel,
    /// Steps of colour between flesh and gel.
    pub(super) apart: f64,
    /// Colours of flesh and gel, where they are those of surfaces.
    pub(super) colours: Option<[Lab; 2]>,
    /// Half the side of the raster, mm.
    half: f64,
}

/// The raster is so much wider than the face.
const MARGIN: f64 = 1.04;
/// Where the outer wall is read, over the way to the outline: farther out lies the skin, farther in the gel.
const WALL: (f64, f64) = (0.87, 0.95);
/// Where gel is looked for.
const INSIDE: (f64, f64) = (0.28, 0.82);

impl Flat {
    /// Lays the face within an outline flat on a level, with so many cells across.
    pub(super) fn of(
        camera: &Camera,
        outline: &[Point],
        height: f64,
        cells: usize,
        light: &Light<'_>,
    ) -> Option<Self> {
        let laid: Vec<Point> = outline.iter().map(|pixel| camera.on_level(*pixel, height)).collect();
        let outline = without_side(camera, &laid, height)?;
        let middle = moments(&outline)?.centroid;
        let radii = radii(&outline, middle, WAYS);
        let half = MARGIN * radii.iter().copied().fold(0.0, f64::max);
        let frame = Frame { middle, half, cells };
        let mut out = Plane::filled(cells, cells, f32::MAX);
        let mut seen = Vec::new();
        for y in 0..cells {
            for x in 0..cells {
                let [u, v] = frame.place([x as f64 + 0.5, y as f64 + 0.5]);
                let far = share_out(&radii, [u - middle[0], v - middle[1]]);
                out.set(x, y, far as f32);
                if far < 1.0 {
                    seen.push((x, y, far, light.at(camera.sees([u, v, -height]))));
                }
            }
        }
        let told = Told::of(&seen)?;
        let colours = light.tone.map(|_| [told.flesh, told.gel]);
        let cell = 2.0 * half / cells as f64;
        let reach = SEED.min(SEED_SHARE * half) / cell;
        let share = closed(&told.shares(&seen, cells, (SEED_RIM / cell).round() as usize), reach);
        Some(Self { outline, middle, radii, apart: told.apart(), colours, half, gel: Gel { share, out } })
    }

    /// The place on the level of a cell's place on the raster, mm.
    pub(super) fn place(&self, cell: Point) -> Point {
        Frame { middle: self.middle, half: self.half, cells: self.gel.out.width() }.place(cell)
    }

    /// The two places of the outline that lie farthest apart, mm.
    pub(super) fn widest(&self) -> [Point; 2] {
        let corners = hull(&self.outline);
        let pairs = corners.iter().flat_map(|p| corners.iter().map(move |q| [*p, *q]));
        let far = |[p, q]: &[Point; 2]| (p[0] - q[0]).hypot(p[1] - q[1]);
        pairs.max_by(|one, other| far(one).total_cmp(&far(other))).unwrap_or([self.middle; 2])
    }

    /// Share of the face that is gel.
    pub(super) fn gel_share(&self) -> f64 {
        let cells = self.gel.share.cells().iter().zip(self.gel.out.cells()).filter(|(_, out)| **out < 1.0);
        let (gel, all) = cells.fold((0.0, 0.0), |(gel, all), (share, _)| {
            (gel + if HALF < *share { 1.0 } else { 0.0 }, all + 1.0)
        });
        gel / f64::max(all, 1.0)
    }

    /// How far off the middle its gel lies: the mean of the directions in which its cells lie, 0 where they lie all round.
    pub(super) fn off_middle(&self) -> f64 {
        let width = self.gel.out.width();
        let half = width as f64 / 2.0;
        let cells = self.gel.share.cells().iter().zip(self.gel.out.cells()).enumerate();
        let gel = cells.filter(|(_, (share, out))| HALF < **share && **out < 1.0);
        let (across, down, count) = gel.fold((0.0, 0.0, 0.0), |(across, down, count), (at, _)| {
            let (x, y) = ((at % width) as f64 + 0.5 - half, (at / width) as f64 + 0.5 - half);
            let far = x.hypot(y).max(1e-9);
            (across + x / far, down + y / far, count + 1.0)
        });
        f64::hypot(across, down) / f64::max(count, 1.0)
    }

    /// Share of the outer wall that is flesh.
    pub(super) fn wall_round(&self) -> f64 {
        let cells = self.gel.share.cells().iter().zip(self.gel.out.cells());
        let wall = cells.filter(|(_, out)| (WALL.0..WALL.1).contains(&f64::from(**out)));
        let (flesh, all) = wall.fold((0.0, 0.0), |(flesh, all), (share, _)| {
            (flesh + if *share < HALF { 1.0 } else { 0.0 }, all + 1.0)
        });
        flesh / f64::max(all, 1.0)
    }
}

/// Half the width of a seed in its jelly, mm, and no more than this share of the face's radius: what is paler in gel and no wider is
/// gel with a seed on it, whatever its colour; septa are wider (common practice, no source).
const SEED: f64 = 0.9;
const SEED_SHARE: f64 = 0.05;

/// The shares with every dip filled that is narrower than twice a reach in cells.
fn closed(shares: &Plane<f32>, reach: f64) -> Plane<f32> {
    let most = reach.ceil() as isize;
    let steps: Vec<(isize, isize)> = (-most..=most)
        .flat_map(|down| (-most..=most).map(move |across| (across, down)))
        .filter(|(across, down)| (*across as f64).hypot(*down as f64) <= reach)
        .collect();
    let widened = |from: &Plane<f32>, choose: fn(f32, f32) -> f32| {
        let mut to = from.clone();
        for y in 0..from.height() {
            for x in 0..from.width() {
                let at = |(across, down): &(isize, isize)| {
                    from.at(x.cast_signed() + across, y.cast_signed() + down)
                };
                to.set(x, y, steps.iter().map(at).fold(from.at(x.cast_signed(), y.cast_signed()), choose));
            }
        }
        to
    };
    widened(&widened(shares, f32::max), f32::min)
}

/// Halfway from flesh to gel.
pub(super) const HALF: f32 = 0.5;

struct Frame {
    middle: Point,
    half: f64,
    cells: usize,
}

impl Frame {
    fn place(&self, [x, y]: Point) -> Point {
        let scale = 2.0 * self.half / self.cells as f64;
        [self.middle[0] + scale * x - self.half, self.middle[1] + scale * y - self.half]
    }
}

/// How far out a place lies, over the way to the outline.
fn share_out(radii: &[f64], [x, y]: Point) -> f64 {
    let way = y.atan2(x).rem_euclid(TAU) / TAU * radii.len() as f64 - 0.5;
    let (low, share) = (way.floor(), way - way.floor());
    let radius =
        |way: f64| radii.get(way.rem_euclid(radii.len() as f64) as usize).copied().unwrap_or(1.0).max(1e-9);
    x.hypot(y) / (radius(low) * (1.0 - share) + radius(low + 1.0) * share)
}

/// The outline without the fruit's side, which a camera that looks slantwise sees below the face on the side towards its foot: the
/// half fruit below is taken for half an ellipsoid.
fn without_side(camera: &Camera, laid: &[Point], height: f64) -> Option<Vec<Point>> {
    let found = moments(laid)?;
    let radius = (found.area / std::f64::consts::PI).sqrt().max(1e-9);
    let stood = camera.stood();
    let off = [stood[0] - found.centroid[0], stood[1] - found.centroid[1]];
    let far = off[0].hypot(off[1]);
    let slant = far / (camera.height() - height).max(1e-9);
    let way = off.map(|part| part / far.max(1e-9));
    let moved = laid.iter().map(|place| {
        let from = [place[0] - found.centroid[0], place[1] - found.centroid[1]];
        let towards = ((from[0] * way[0] + from[1] * way[1]) / from[0].hypot(from[1]).max(1e-9)).max(0.0);
        let shrunk = 1.0 / (1.0 + (height * slant * towards / radius).powi(2)).sqrt();
        [found.centroid[0] + shrunk * from[0], found.centroid[1] + shrunk * from[1]]
    });
    Some(moved.collect())
}

/// What lightness counts beside hue: a face is flat, but wet.
const LIGHTNESS: f64 = 0.5;
/// Steps of lightness above flesh and gel from which a cell is a seed or shine.
const PALER: f64 = 7.0;
/// Steps of colour beside the way from flesh to gel from which a cell is one, at least and over the length of the way (found on the
/// faces that the tests draw).
const BESIDE: f64 = 8.0;
const BESIDE_SHARE: f64 = 0.4;
/// And over the usual noise of the wall.
const BESIDE_NOISE: f64 = 3.0;
/// The rim of a seed is half gel and looks like flesh: so far round it nothing is told, mm.
const SEED_RIM: f64 = 0.35;
/// Rounds of parting flesh from gel.
const ROUNDS: usize = 8;

/// The colours of flesh and gel.
struct Told {
    flesh: Lab,
    gel: Lab,
    /// Steps beside the way from flesh to gel from which a colour is neither.
    beside: f64,
}

type Cell = (usize, usize, f64, Lab);

fn parts(lab: Lab) -> [f64; 3] {
    [LIGHTNESS * lab.l, lab.a, lab.b]
}

fn minus(one: Lab, other: Lab) -> [f64; 3] {
    let (one, other) = (parts(one), parts(other));
    [one[0] - other[0], one[1] - other[1], one[2] - other[2]]
}

fn length(of: [f64; 3]) -> f64 {
    of.iter().map(|part| part * part).sum::<f64>().sqrt()
}

impl Told {
    fn of(seen: &[Cell]) -> Option<Self> {
        let within = |(low, high): (f64, f64)| seen.iter().filter(move |cell| (low..high).contains(&cell.2));
        let flesh = median(within(WALL).map(|cell| cell.3))?;
        let inside: Vec<Lab> =
            within(INSIDE).map(|cell| cell.3).filter(|lab| lab.l < flesh.l + PALER).collect();
        let mut by_step: Vec<(f64, Lab)> =
            inside.iter().map(|lab| (length(minus(*lab, flesh)), *lab)).collect();
        by_step.sort_by(|p, q| q.0.total_cmp(&p.0));
        let far = by_step.iter().take(by_step.len() / 4).map(|(_, lab)| *lab);
        let mut told = Self { flesh, gel: median(far)?, beside: f64::MAX };
        for _ in 0..ROUNDS {
            let own = inside.iter().copied().filter(|lab| f64::from(HALF) < told.share(*lab));
            let Some(gel) = median(own) else { break };
            told.gel = gel;
        }
        let mut noise: Vec<f64> = within(WALL).map(|cell| told.beside(cell.3)).collect();
        let middle = noise.len() / 2;
        let noise = *noise.select_nth_unstable_by(middle, f64::total_cmp).1;
        told.beside = BESIDE.max(BESIDE_SHARE * told.apart()).max(BESIDE_NOISE * noise);
        Some(told)
    }

    fn apart(&self) -> f64 {
        length(minus(self.gel, self.flesh))
    }

    /// How far a colour lies from flesh to gel.
    fn share(&self, lab: Lab) -> f64 {
        let way = minus(self.gel, self.flesh);
        let own = minus(lab, self.flesh);
        let along: f64 = own.iter().zip(way).map(|(p, q)| p * q).sum();
        along / way.iter().map(|part| part * part).sum::<f64>().max(1e-9)
    }

    /// How far a colour lies beside the way from flesh to gel.
    fn beside(&self, lab: Lab) -> f64 {
        let (way, own, share) = (minus(self.gel, self.flesh), minus(lab, self.flesh), self.share(lab));
        length([own[0] - share * way[0], own[1] - share * way[1], own[2] - share * way[2]])
    }

    /// Whether a colour is neither flesh nor gel nor between them: a seed, or shine.
    fn is_other(&self, lab: Lab) -> bool {
        self.flesh.l.max(self.gel.l) + PALER < lab.l || self.beside < self.beside(lab)
    }

    /// Shares on the raster, each the mean of its near cells that are neither seed nor shine.
    fn shares(&self, seen: &[Cell], cells: usize, rim: usize) -> Plane<f32> {
        let mut others = Plane::filled(cells, cells, 0.0_f32);
        seen.iter().filter(|cell| self.is_other(cell.3)).for_each(|(x, y, _, _)| others.set(*x, *y, 1.0));
        let others = others.box_mean(rim);
        let is_told = |(x, y, _, _): &&Cell| others.at(x.cast_signed(), y.cast_signed()) < LONE_OTHER;
        let (mut sums, mut counts) =
            (Plane::filled(cells, cells, 0.0_f32), Plane::filled(cells, cells, 0.0_f32));
        for (x, y, _, lab) in seen.iter().filter(is_told) {
            sums.set(*x, *y, self.share(*lab).clamp(-0.5, 1.5) as f32);
            counts.set(*x, *y, 1.0);
        }
        let near = 1.max(cells / 80);
        let means = |reach: usize| (sums.box_mean(reach), counts.box_mean(reach));
        let (close, wide) = (means(near), means(4 * near));
        let mean = |at: usize| {
            let of = |(sums, counts): &(Plane<f32>, Plane<f32>)| {
                let (sum, count) = (*sums.cells().get(at)?, *counts.cells().get(at)?);
                (LEAST_KNOWN < count).then(|| sum / count)
            };
            of(&close).or_else(|| of(&wide)).unwrap_or(0.0)
        };
        Plane::of_cells(cells, cells, (0..cells * cells).map(mean).collect()).unwrap_or(sums)
    }
}

/// Where fewer of the cells within the rim are others they are noise.
const LONE_OTHER: f32 = 0.2;
/// Fewer of the near cells than this share say nothing.
const LEAST_KNOWN: f32 = 0.2;

/// The middle of colours, part by part.
fn median(of: impl Iterator<Item = Lab>) -> Option<Lab> {
    let (mut l, mut a, mut b) = (Vec::new(), Vec::new(), Vec::new());
    for lab in of {
        l.push(lab.l);
        a.push(lab.a);
        b.push(lab.b);
    }
    let middle = |mut values: Vec<f64>| {
        let at = values.len() / 2;
        (!values.is_empty()).then(|| *values.select_nth_unstable_by(at, f64::total_cmp).1)
    };
    Some(Lab { l: middle(l)?, a: middle(a)?, b: middle(b)? })
}
