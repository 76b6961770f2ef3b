//! A cut fruit as it is drawn: a flat face with wedges of gel, seeds, septa, core and wall, on half a fruit that rounds off below.
//!
//! Locules are uneven: their septa are shifted, their ends lie nearer or farther out, some gel is wet and shines. Start at [`TrueFace`].

use super::Vector;
use std::f64::consts::TAU;

/// A cut face as it is drawn.
#[derive(Clone, Debug)]
pub(crate) struct TrueFace {
    /// Its middle on the sheet, mm from the card's top left corner.
    pub(crate) middle: [f64; 2],
    /// Mean radius and height above the sheet, mm.
    pub(crate) radius: f64,
    pub(crate) height: f64,
    /// Depth of the oval and of so many ribs, over the radius.
    pub(crate) oval: f64,
    pub(crate) ribs: (u32, f64),
    pub(crate) locules: Vec<TrueLocule>,
    pub(crate) seeds: Vec<[f64; 3]>,
    pub(crate) colours: Colours,
    /// Which noise its flesh has.
    pub(crate) grain: u64,
}

/// A locule: its middle's direction, half its angle, and from where to where it reaches over the way out.
#[derive(Clone, Copy, Debug)]
pub(crate) struct TrueLocule {
    pub(crate) turn: f64,
    pub(crate) half: f64,
    pub(crate) reach: [f64; 2],
    /// Whether it is wet and shines.
    pub(crate) wet: f64,
}

/// Linear light that skin, flesh, gel and core throw back.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Colours {
    pub(crate) skin: [f64; 3],
    pub(crate) flesh: [f64; 3],
    pub(crate) gel: [f64; 3],
}

/// Red, pink, yellow, orange, dark, and green when ripe.
pub(crate) const KINDS: [Colours; 6] = [
    Colours { skin: [0.40, 0.04, 0.03], flesh: [0.55, 0.12, 0.09], gel: [0.36, 0.14, 0.04] },
    Colours { skin: [0.45, 0.08, 0.09], flesh: [0.62, 0.20, 0.18], gel: [0.48, 0.22, 0.08] },
    Colours { skin: [0.66, 0.44, 0.04], flesh: [0.72, 0.52, 0.16], gel: [0.50, 0.40, 0.06] },
    Colours { skin: [0.62, 0.22, 0.02], flesh: [0.68, 0.30, 0.08], gel: [0.50, 0.27, 0.03] },
    Colours { skin: [0.12, 0.04, 0.03], flesh: [0.28, 0.09, 0.06], gel: [0.17, 0.12, 0.03] },
    Colours { skin: [0.30, 0.36, 0.06], flesh: [0.42, 0.46, 0.16], gel: [0.20, 0.30, 0.05] },
];

/// Numbers that look drawn, and are the same each time.
pub(crate) struct Draw(pub(crate) u64);

impl Draw {
    /// From 0 to 1.
    pub(crate) fn part(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((mixed ^ (mixed >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub(crate) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.part()
    }
}

impl TrueFace {
    /// A face with so many locules, all else drawn by lot.
    pub(crate) fn drawn(count: u32, middle: [f64; 2], colours: Colours, seed: u64) -> Self {
        let mut draw = Draw(seed);
        let radius = draw.between(0.88, 1.12) * (13.0 + 3.2 * f64::from(count));
        let flat = if 27.0 < radius { 0.68 } else { 1.05 };
        let wall = draw.between(0.12, 0.2) * radius;
        let locules = locules(count, 1.0 - wall / radius, &mut draw);
        let seeds = locules.iter().flat_map(|own| seeds(own, radius, &mut draw)).collect();
        Self {
            middle,
            radius,
            height: draw.between(0.85, 1.15) * flat * radius,
            oval: draw.between(0.0, 0.05),
            ribs: (5 + (draw.part() * 6.0) as u32, if 30.0 < radius { draw.between(0.0, 0.05) } else { 0.0 }),
            locules,
            seeds,
            colours,
            grain: seed,
        }
    }

    /// From its middle to its outline in a direction, mm.
    pub(crate) fn radius_at(&self, turn: f64) -> f64 {
        let (ribs, depth) = self.ribs;
        self.radius * (1.0 + self.oval * (2.0 * turn).cos() + depth * (f64::from(ribs) * turn + 0.7).cos())
    }

    /// Its greatest width, mm.
    pub(crate) fn width(&self) -> f64 {
        let at = |step: u32| {
            let turn = TAU * f64::from(step) / 360.0;
            [self.radius_at(turn) * turn.cos(), self.radius_at(turn) * turn.sin()]
        };
        let rim: Vec<[f64; 2]> = (0..360).map(at).collect();
        let far = |p: &[f64; 2], q: &[f64; 2]| (p[0] - q[0]).hypot(p[1] - q[1]);
        rim.iter().flat_map(|p| rim.iter().map(move |q| far(p, q))).fold(0.0, f64::max)
    }

    /// Thickness of the wall before the locules' middles, mm, mean.
    pub(crate) fn wall(&self) -> f64 {
        let walls = self.locules.iter().map(|own| self.radius_at(own.turn) * (1.0 - own.reach[1]));
        walls.sum::<f64>() / self.locules.len() as f64
    }

    /// Share of the face that is gel.
    pub(crate) fn gel_share(&self) -> f64 {
        let (mut gel, mut all) = (0.0, 0.0);
        for out in (0..200).map(|step| (f64::from(step) + 0.5) / 200.0) {
            for turn in (0..720).map(|step| TAU * f64::from(step) / 720.0) {
                let area = out * self.radius_at(turn).powi(2);
                all += area;
                gel += if self.locules.iter().any(|own| own.holds(out, turn).is_some()) { area } else { 0.0 };
            }
        }
        gel / all
    }

    /// What a ray meets of it: how far it goes, and the light there.
    pub(crate) fn struck(&self, from: Vector, ray: Vector) -> Option<(f64, [f64; 3])> {
        let at = |height: f64| {
            let far = (height - from[2]) / ray[2];
            (far, from[0] + far * ray[0] - self.middle[0], from[1] + far * ray[1] - self.middle[1])
        };
        let (far, x, y) = at(self.height);
        if 1.3 * self.radius + self.height < x.hypot(y) {
            return None;
        }
        let widest = self.radius * (1.0 + self.oval + self.ribs.1);
        let out = |x: f64, y: f64| {
            let far = x.hypot(y);
            if widest < far { f64::MAX } else { far / self.radius_at(y.atan2(x)) }
        };
        if out(x, y) < 1.0 {
            return Some((far, self.light(x, y, out(x, y))));
        }
        // Below the face the fruit rounds off to the sheet as half an ellipsoid does.
        (1..48).map(|step| self.height * (1.0 - f64::from(step) / 48.0)).find_map(|height| {
            let (far, x, y) = at(height);
            let below = (self.height - height) / self.height;
            (out(x, y) < (1.0 - below * below).sqrt())
                .then(|| (far, self.colours.skin.map(|part| part * (0.8 - 0.4 * below))))
        })
    }

    fn light(&self, x: f64, y: f64, out: f64) -> [f64; 3] {
        let Colours { skin, flesh, gel } = self.colours;
        if 0.985 < out {
            return skin;
        }
        let turn = y.atan2(x);
        let uneven = 1.0 + 0.07 * self.grained(x, y, 1.7) + 0.05 * self.grained(x, y, 5.0);
        let locule = self.locules.iter().find(|own| own.holds(out, turn).is_some());
        if let Some(locule) = locule {
            let seed = self.seeds.iter().any(|[u, v, turn]| {
                let (dx, dy) = (x - u, y - v);
                let (along, across) = (dx * turn.cos() + dy * turn.sin(), dy * turn.cos() - dx * turn.sin());
                (along / 1.7).powi(2) + (across / 0.9).powi(2) < 1.0
            });
            let shine = if 0.55 < self.grained(x, y, 0.8) { 0.35 * locule.wet } else { 0.0 };
            let ground = if seed { [0.62, 0.50, 0.28] } else { gel };
            return ground.map(|part| part * uneven + shine);
        }
        let core = if out < 0.16 { 0.5 * (1.0 - out / 0.16) } else { 0.0 };
        flesh.map(|part| part * uneven * (1.0 - core) + core * 0.6)
    }

    /// Smooth noise from -1 to 1 whose grains are so many mm wide.
    fn grained(&self, x: f64, y: f64, grain: f64) -> f64 {
        let (x, y) = (x / grain + 500.0, y / grain + 500.0);
        let (column, row) = (x.floor(), y.floor());
        let at = |dx: f64, dy: f64| {
            let cell =
                ((column + dx) as u64).wrapping_mul(0x1_0003) ^ ((row + dy) as u64).wrapping_mul(0x5_0021);
            2.0 * Draw(self.grain.wrapping_mul(977) ^ cell).part() - 1.0
        };
        let (right, down) = (x - column, y - row);
        let upper = at(0.0, 0.0) * (1.0 - right) + at(1.0, 0.0) * right;
        let lower = at(0.0, 1.0) * (1.0 - right) + at(1.0, 1.0) * right;
        upper * (1.0 - down) + lower * down
    }
}

impl TrueLocule {
    /// How deep inside of it a place lies, from 0 to 1; `None` outside.
    fn holds(&self, out: f64, turn: f64) -> Option<f64> {
        let off = (turn - self.turn + TAU / 2.0).rem_euclid(TAU) - TAU / 2.0;
        let middle = (self.reach[0] + self.reach[1]) / 2.0;
        let half = (self.reach[1] - self.reach[0]) / 2.0;
        let far = (off / self.half).abs().powf(2.8) + ((out - middle) / half).abs().powf(2.8);
        (far < 1.0).then_some(1.0 - far)
    }
}

/// Locules round the face: their shares of the way round differ by up to a third either way, the septa between them are a tenth to a
/// third of it.
fn locules(count: u32, rim: f64, draw: &mut Draw) -> Vec<TrueLocule> {
    let shares: Vec<f64> = (0..count).map(|_| draw.between(0.7, 1.3)).collect();
    let all: f64 = shares.iter().sum();
    let mut turn = draw.between(0.0, TAU);
    shares
        .iter()
        .map(|share| {
            let own = TAU * share / all;
            let middle = turn + own / 2.0;
            turn += own;
            let septum = draw.between(0.2, 0.4);
            let inner = draw.between(0.24, 0.36);
            TrueLocule {
                turn: middle,
                half: own * (1.0 - septum) / 2.0,
                reach: [inner, rim - draw.between(0.0, 0.03)],
                wet: if draw.part() < 0.3 { 1.0 } else { 0.0 },
            }
        })
        .collect()
}

/// Seeds of a locule: where they lie from the face's middle, mm, and how they are turned.
fn seeds(locule: &TrueLocule, radius: f64, draw: &mut Draw) -> Vec<[f64; 3]> {
    let count = 3 + (draw.part() * 5.0) as u32;
    (0..count)
        .map(|_| {
            let turn = locule.turn + 0.7 * locule.half * draw.between(-1.0, 1.0);
            let out = radius * draw.between(locule.reach[0] + 0.08, locule.reach[1] - 0.08);
            [out * turn.cos(), out * turn.sin(), draw.between(0.0, TAU)]
        })
        .collect()
}
