//! Whether a skin has one colour or two, and whether two lie in stripes.
//!
//! The skin's pixels are parted into two groups by hue, for shade moves lightness and chroma and hardly hue; two groups that are hardly more apart than the
//! halves of one heap are one colour. Stripes are two hues with little between them, the lesser in several patches; colours that blend
//! into one another lie far apart in hue, the lesser in one patch or two. The green of calyx and shoulders is no pattern. Start at [`pattern`].

use crate::colour::{Lab, Linear, difference};
use crate::plane::Plane;
use crate::region::{Region, labelled, regions};
use crate::sheet::Sheet;
use crate::surface::{Tone, light_at};
use record::colour::Pattern;

/// What is seen of a skin's colours.
#[derive(Clone, Copy, Debug)]
pub struct Patterned {
    /// How they lie.
    pub pattern: Pattern,
    /// The greater group's colour and the lesser one's, relative to the card's paper.
    pub colours: [Lab; 2],
    /// The lesser group's share of the skin that was read.
    pub lesser: f64,
}

/// Share of the way from the middle to the rim that is read, of the ellipse with the part's second moments.
const INNER: f64 = 0.8;
/// Left out by rank of lightness: the rim's shade, and shine.
const RANKS: (f64, f64) = (0.05, 0.92);
/// Stripes differ from the skin between them by at least so many degrees of hue, and their middles are so many times as far apart as
/// the two groups are wide: the halves of one even heap are 1.9, those of a slope 2.4 (found on the made pictures: striped skins 12
/// degrees and 3.0 times, plain ones at most 2.3 times).
const STRIPES_HUE: f64 = 8.0;
const STRIPES_APART: f64 = 2.7;
/// Colours that blend differ by at least so many degrees of hue, and by this in CIEDE2000 (facts, section 7: 12).
const BLEND_HUE: f64 = 20.0;
const BLEND_APART: f64 = 12.0;
/// The lesser colour has at least this share (facts, section 7).
const LEAST_SHARE: f64 = 0.1;
/// Stripes are at least so many patches; a blend lies in no more than as many.
const STRIPES: usize = 2;
/// A patch has at least this share of the skin that is read.
const LEAST_PATCH: f64 = 0.01;
/// Hues of calyx and shoulders, degrees (facts, section 4).
const GREEN: (f64, f64) = (100.0, 150.0);
/// Fewer pixels say too little.
const FEWEST: usize = 60;
/// Rounds in which the groups are made; they settle in fewer.
const ROUNDS: usize = 12;

/// Reads the pattern of a fruit's skin; `None` where too little of it is seen.
#[must_use]
pub fn pattern(
    pixels: &Plane<[u8; 3]>,
    labels: &Plane<u32>,
    part: &Region,
    (sheet, tone): (&Sheet, &Tone),
) -> Option<Patterned> {
    let seen = skin(pixels, labels, part, (sheet, tone));
    let mut lightness: Vec<f64> = seen.iter().map(|(_, lab)| lab.l).collect();
    lightness.sort_by(f64::total_cmp);
    let rank = |share: f64| lightness.get((share * lightness.len() as f64) as usize).copied();
    let (dark, bright) = (rank(RANKS.0)?, rank(RANKS.1)?);
    let lit: Vec<([usize; 2], Lab)> =
        seen.into_iter().filter(|(_, lab)| dark < lab.l && lab.l < bright).collect();
    if lit.len() < FEWEST {
        return None;
    }
    let groups = Groups::of(&lit.iter().map(|(_, lab)| *lab).collect::<Vec<_>>())?;
    let patches = patches(&lit, &groups, part);
    Some(Patterned { pattern: told(&groups, patches), colours: groups.colours, lesser: groups.lesser })
}

fn told(groups: &Groups, patches: usize) -> Pattern {
    let [greater, lesser] = groups.colours;
    let is_green = |lab: Lab| (GREEN.0..GREEN.1).contains(&lab.hue());
    let turned = (greater.hue() - lesser.hue() + 180.0).rem_euclid(360.0) - 180.0;
    let is_calyx = is_green(lesser) && !is_green(greater);
    if groups.lesser < LEAST_SHARE || is_calyx {
        Pattern::Plain
    } else if STRIPES <= patches && STRIPES_APART <= groups.apart && STRIPES_HUE <= turned.abs() {
        Pattern::Striped
    } else if patches <= STRIPES && BLEND_HUE <= turned.abs() && BLEND_APART <= difference(greater, lesser) {
        Pattern::Marbled
    } else {
        Pattern::Plain
    }
}

/// Pixels are read in squares of so many on a side, so that noise does not count as colour.
const BLOCK: usize = 3;

/// Mean light of a block whose first pixel is given.
fn block_light(pixels: &Plane<[u8; 3]>, [x, y]: [usize; 2]) -> Linear {
    let mut sums = [0.0; 3];
    for at in 0..BLOCK * BLOCK {
        let place = [(x + at % BLOCK) as f64 + 0.5, (y + at / BLOCK) as f64 + 0.5];
        let light = light_at(pixels, place);
        sums.iter_mut().zip(light).for_each(|(sum, light)| *sum += light / (BLOCK * BLOCK) as f64);
    }
    sums
}

/// The blocks of the skin that faces the camera, by column and row within the part's bounds, and their colours.
fn skin(
    pixels: &Plane<[u8; 3]>,
    labels: &Plane<u32>,
    part: &Region,
    (sheet, tone): (&Sheet, &Tone),
) -> Vec<([usize; 2], Lab)> {
    let [left, top, right, bottom] = part.bounds;
    let [xx, xy, yy] = part.spread;
    let determinant = (xx * yy - xy * xy).max(f64::MIN_POSITIVE);
    // An ellipse's rim lies two standard deviations from its middle.
    let is_inner =
        |x: f64, y: f64| (yy * x * x - 2.0 * xy * x * y + xx * y * y) / determinant < (2.0 * INNER).powi(2);
    let mut seen = Vec::new();
    for y in (top..bottom).step_by(BLOCK) {
        for x in (left..right).step_by(BLOCK) {
            let off = [x as f64 - part.centroid[0], y as f64 - part.centroid[1]];
            if is_inner(off[0], off[1]) && labels.at(x.cast_signed(), y.cast_signed()) == part.label {
                let middle = [x as f64 + BLOCK as f64 / 2.0, y as f64 + BLOCK as f64 / 2.0];
                let block = [(x - left) / BLOCK, (y - top) / BLOCK];
                seen.push((block, tone.surface(block_light(pixels, [x, y]), sheet.light(middle))));
            }
        }
    }
    seen
}

/// Two groups of colours.
struct Groups {
    /// Middles of the hues, as ways from grey, of the greater and of the lesser.
    middles: [[f64; 2]; 2],
    colours: [Lab; 2],
    lesser: f64,
    /// Distance of the middles over the groups' own width.
    apart: f64,
}

impl Groups {
    /// Parts colours in two by their hues.
    fn of(colours: &[Lab]) -> Option<Self> {
        let chroma: Vec<[f64; 2]> = colours.iter().map(hue).collect();
        let mut middles = ends(&chroma)?;
        for _ in 0..ROUNDS {
            let next = [0, 1].map(|group| mean(chroma.iter().filter(|own| nearer(**own, &middles) == group)));
            let [Some(one), Some(other)] = next else { return None };
            if middles == [one, other] {
                break;
            }
            middles = [one, other];
        }
        let count = chroma.iter().filter(|own| nearer(**own, &middles) == 0).count();
        if 2 * count < chroma.len() {
            middles.swap(0, 1);
        }
        let within: f64 = [0, 1].map(|group| width_of(&chroma, &middles, group)).iter().sum();
        let [one, other] = middles;
        let colour = |group: usize| {
            let own: Vec<&Lab> = colours.iter().filter(|lab| nearer(hue(lab), &middles) == group).collect();
            let mean =
                |part: fn(&Lab) -> f64| own.iter().map(|lab| part(lab)).sum::<f64>() / own.len() as f64;
            Lab { l: mean(|lab| lab.l), a: mean(|lab| lab.a), b: mean(|lab| lab.b) }
        };
        Some(Self {
            middles,
            colours: [colour(0), colour(1)],
            lesser: count.min(chroma.len() - count) as f64 / chroma.len() as f64,
            apart: square_off(one, other).sqrt() / within.sqrt().max(1e-6),
        })
    }
}

/// The middles of what lies on either side of the mean, along the way in which the colours spread most.
fn ends(chroma: &[[f64; 2]]) -> Option<[[f64; 2]; 2]> {
    let middle = mean(chroma.iter())?;
    let [mut xx, mut xy, mut yy] = [0.0; 3];
    for [a, b] in chroma {
        let [x, y] = [a - middle[0], b - middle[1]];
        (xx, xy, yy) = (xx + x * x, xy + x * y, yy + y * y);
    }
    let turn = 0.5 * (2.0 * xy).atan2(xx - yy);
    let along = |own: &[f64; 2]| (own[0] - middle[0]) * turn.cos() + (own[1] - middle[1]) * turn.sin();
    let one = mean(chroma.iter().filter(|own| along(own) < 0.0))?;
    Some([one, mean(chroma.iter().filter(|own| 0.0 <= along(own)))?])
}

/// The way from grey in which a colour lies.
fn hue(lab: &Lab) -> [f64; 2] {
    let chroma = lab.chroma().max(f64::MIN_POSITIVE);
    [lab.a / chroma, lab.b / chroma]
}

fn mean<'a>(places: impl Iterator<Item = &'a [f64; 2]>) -> Option<[f64; 2]> {
    let (mut count, mut sums) = (0_u32, [0.0; 2]);
    for place in places {
        count += 1;
        sums = [sums[0] + place[0], sums[1] + place[1]];
    }
    (0 < count).then(|| sums.map(|sum| sum / f64::from(count)))
}

fn square_off(one: [f64; 2], other: [f64; 2]) -> f64 {
    (one[0] - other[0]).powi(2) + (one[1] - other[1]).powi(2)
}

fn nearer(own: [f64; 2], middles: &[[f64; 2]; 2]) -> usize {
    usize::from(square_off(own, middles[1]) < square_off(own, middles[0]))
}

/// Mean square distance of a group's colours from its middle.
fn width_of(chroma: &[[f64; 2]], middles: &[[f64; 2]; 2], group: usize) -> f64 {
    let middle = middles.get(group).copied().unwrap_or_default();
    let own = chroma.iter().filter(|own| nearer(**own, middles) == group);
    let (count, sum) =
        own.fold((0.0, 0.0), |(count, sum), own| (count + 1.0, sum + square_off(*own, middle)));
    sum / f64::max(count, 1.0)
}

/// Blocks on either side in which most must be of the lesser colour: noise is no stripe.
const CALM: usize = 1;

/// Patches of the lesser colour that are no crumbs.
fn patches(lit: &[([usize; 2], Lab)], groups: &Groups, part: &Region) -> usize {
    let [left, top, right, bottom] = part.bounds;
    let across = |pixels: usize| pixels.div_ceil(BLOCK).max(1);
    let mut lesser = Plane::filled(across(right - left), across(bottom - top), 0.0_f32);
    for ([x, y], lab) in lit {
        if nearer(hue(lab), &groups.middles) == 1 {
            lesser.set(*x, *y, 1.0);
        }
    }
    let calm = lesser.box_mean(CALM).map(|share| u32::from(0.5 < share));
    let least = (LEAST_PATCH * lit.len() as f64) as usize;
    regions(&labelled(&calm)).iter().filter(|patch| least < patch.area).count()
}
