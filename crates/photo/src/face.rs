//! A fruit cut across, its cut face up: how wide it is, how many locules it shows, how thick its wall is, how much of it is gel.
//!
//! The face is flat and lies as high above the sheet as half the fruit is long, which is not seen from above: it is told by the
//! whole fruit of the same photograph, else guessed from its width, and the doubt of it goes into every length. The locules are
//! counted in two ways that can err apart: as sectors on the way round ([`sectors`]) and as patches of gel ([`chambers`]); both are
//! told. Start at [`cut_face`].

mod chambers;
mod count;
mod flat;
mod sectors;
mod wall;

use crate::camera::Camera;
use crate::colour::Lab;
use crate::lobes::lobes;
use crate::outline::{Point, callipers, hull, moments};
use crate::plane::Plane;
use crate::spread::EDGES;
pub use count::Counted;
use flat::Flat;
pub use flat::Light;
use std::f64::consts::PI;
use wall::wall;

/// Cells across the face when it is only asked whether it is one, and when it is measured.
const COARSE: usize = 48;
const FINE: usize = 160;
/// Gel covers at least and at most these shares of a face (found on the made pictures: 0.3 to 0.6).
const GEL_SHARE: (f64, f64) = (0.08, 0.8);
/// The wall is flesh on at least this share of the way round: shade, stripes and blushes of a whole skin reach its rim.
const WALL_ROUND: f64 = 0.92;
/// How far off the middle the gel lies, 1 where all of it lies in one direction: a calyx on a fruit's side does, locules do not.
const MOST_OFF: f64 = 0.3;
/// Steps of colour that gel differs from flesh by, at the least: less is a skin's own unevenness (found on the made pictures).
const LEAST_APART: f64 = 7.0;
/// Relative error of the scale (as of whole fruit, at the far side of the sheet).
const SCALE: f64 = 0.004;

/// A cut face.
#[derive(Clone, Copy, Debug)]
pub struct Face {
    /// How high above the sheet it lies.
    pub level: Level,
    /// Greatest width, mm.
    pub width: f64,
    /// Least width, mm.
    pub least_width: f64,
    /// Standard deviation of either width, mm.
    pub width_sd: f64,
    /// Its locules.
    pub locules: Counted,
    /// Thickness of the outer wall beside the locules, mm, and its standard deviation; `None` where no gel is made out.
    pub wall: Option<[f64; 2]>,
    /// Share of the face that is gel with its seeds.
    pub gel_share: f64,
    /// Colours of flesh and gel relative to the card's paper, where the card's greys are told apart.
    pub colours: Option<[Lab; 2]>,
    /// Lobes of its outline; 0 is smooth.
    pub lobes: u32,
    /// Its middle on the sheet, mm.
    pub middle: Point,
    /// Where its greatest width lies in the picture, from side to side.
    pub across: [Point; 2],
}

/// How high above the sheet a face lies.
#[derive(Clone, Copy, Debug)]
pub struct Level {
    /// Millimetres.
    pub height: f64,
    /// Standard deviation, mm.
    pub sd: f64,
    /// What tells it.
    pub told_by: ToldBy,
}

/// What tells how high a face lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ToldBy {
    /// The lengths of whole fruit of the same photograph.
    WholeFruit,
    /// The face's own width: small fruit are about as long as wide, large ones flatter.
    Width,
}

/// A face and where its locules lie in the picture.
#[derive(Clone, Debug)]
pub struct Seen {
    /// What is measured.
    pub face: Face,
    /// The outline of every patch of gel, in the order of the way round.
    pub chambers: Vec<Vec<Point>>,
}

/// Whether an outline is that of a cut face rather than of a whole fruit.
#[must_use]
pub fn is_cut(camera: &Camera, outline: &[Point], light: &Light<'_>) -> bool {
    let looked = |cells: usize| {
        let level = guessed(camera, outline)?;
        let flat = Flat::of(camera, outline, level.height, cells, light)?;
        Some(is_face(&flat))
    };
    looked(COARSE) == Some(true) && looked(FINE) == Some(true)
}

fn is_face(flat: &Flat) -> bool {
    let share = flat.gel_share();
    LEAST_APART < flat.apart
        && (GEL_SHARE.0..GEL_SHARE.1).contains(&share)
        && WALL_ROUND < flat.wall_round()
        && flat.off_middle() < MOST_OFF
        && 2 <= chambers::counted(&flat.gel)
}

/// Measures the cut face that an outline is; `None` where it encloses nothing.
#[must_use]
pub fn cut_face(camera: &Camera, outline: &[Point], light: &Light<'_>) -> Option<Seen> {
    let level = guessed(camera, outline)?;
    let flat = Flat::of(camera, outline, level.height, FINE, light)?;
    let corners = hull(&flat.outline);
    let (width, least_width) = callipers(&corners);
    let middle = [flat.middle[0], flat.middle[1], 0.0];
    let pixels = camera.pixels_a_millimetre(camera.sees(middle));
    let (gel, patches) = (&flat.gel, chambers::patches(&flat.gel));
    let face = Face {
        level,
        width,
        least_width,
        width_sd: width_sd(camera, width, level, pixels),
        locules: count::counted(sectors::counts(gel), chambers::counts(gel)),
        wall: wall(gel, &flat.radii, pixels),
        gel_share: flat.gel_share(),
        colours: flat.colours,
        lobes: lobes(&flat.outline).map_or(0, |lobes| lobes.count),
        middle: flat.middle,
        across: flat.widest().map(|[x, y]| camera.sees([x, y, -level.height])),
    };
    let seen = |place: &Point| {
        let [x, y] = flat.place(*place);
        camera.sees([x, y, -level.height])
    };
    let chambers = patches.iter().map(|patch| patch.iter().map(seen).collect()).collect();
    Some(Seen { face, chambers })
}

fn width_sd(camera: &Camera, width: f64, level: Level, pixels: f64) -> f64 {
    let by_height = level.sd / (camera.height() - level.height).max(1.0);
    (EDGES / pixels.max(1e-6)).hypot(SCALE * width).hypot(by_height * width)
}

/// Half the length over the width of fruit as wide as this, mm, and the power by which wider ones are flatter (common practice, no
/// source; the made pictures' halves lie within a quarter of it), and the relative standard deviation of the guess.
const AS_LONG_AS_WIDE: f64 = 50.0;
const FLATTER: f64 = 0.7;
const GUESS_SD: f64 = 0.2;

/// The level of a face by its width: its area on the level that is guessed before, three times.
fn guessed(camera: &Camera, outline: &[Point]) -> Option<Level> {
    let mut height = 0.0;
    for _ in 0..3 {
        let flat: Vec<Point> = outline.iter().map(|pixel| camera.on_level(*pixel, height)).collect();
        let width = 2.0 * (moments(&flat)?.area / PI).sqrt();
        height = 0.5 * width * (AS_LONG_AS_WIDE / width.max(AS_LONG_AS_WIDE)).powf(FLATTER);
    }
    Some(Level { height, sd: GUESS_SD * height, told_by: ToldBy::Width })
}

impl Face {
    /// The face where it lies on another level: it is as much smaller as it lies nearer to the camera.
    #[must_use]
    pub fn on_level(self, camera: &Camera, level: Level) -> Self {
        let below = |level: Level| (camera.height() - level.height).max(1.0);
        let nearer = below(level) / below(self.level);
        let pixels = camera.pixels_a_millimetre(camera.sees([self.middle[0], self.middle[1], 0.0]));
        let at = Self { level, ..self.scaled(nearer) };
        Self { width_sd: width_sd(camera, at.width, level, pixels), ..at }
    }

    /// The face where everything on the card is `factor` times as long as it should be.
    #[must_use]
    pub fn scaled(self, factor: f64) -> Self {
        Self {
            width: factor * self.width,
            least_width: factor * self.least_width,
            width_sd: factor * self.width_sd,
            wall: self.wall.map(|wall| wall.map(|part| factor * part)),
            ..self
        }
    }
}

/// The level that whole fruit of the same photograph tell, from their lengths in mm; `None` where there are none.
///
/// A face is cut somewhere near the middle, and no fruit is as long as the next: a tenth of doubt is the least.
#[must_use]
pub fn level_by(lengths: &[f64]) -> Option<Level> {
    const LEAST_DOUBT: f64 = 0.1;
    let count = lengths.len() as f64;
    let mean = lengths.iter().sum::<f64>() / count;
    let spread = (lengths.iter().map(|length| (length - mean).powi(2)).sum::<f64>() / count).sqrt();
    let height = mean / 2.0;
    (!lengths.is_empty()).then_some(Level {
        height,
        sd: (spread / 2.0).hypot(LEAST_DOUBT * height),
        told_by: ToldBy::WholeFruit,
    })
}

/// How far every cell of a face is from flesh (0) to gel (1), and how far from its middle, over the way to the outline.
#[derive(Clone, Debug)]
pub(crate) struct Gel {
    /// From flesh to gel.
    pub(crate) share: Plane<f32>,
    /// From the middle to the outline; above 1 outside.
    pub(crate) out: Plane<f32>,
}
