//! What somebody who looked at a picture says of its parts: that one is two fruit, or that two are one.
//!
//! Every part has a number, whether it turns out a fruit or not. A change never renumbers what it does not touch, so that a later
//! word about fruit 5 still means the same fruit: a part that is cut keeps its number on the piece that is read first, the other
//! piece takes the next free number, and parts that are joined bear the lesser of theirs. Start at [`numbered`].

use crate::outline::Point;
use crate::part::Parted;
use crate::plane::Plane;
use crate::region::{Region, border, labelled, regions};

/// A change of the parts that were found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Change {
    /// A part is two fruit that touch, and is cut straight between them.
    Cut {
        /// Its number.
        part: u32,
        /// Where.
        along: Along,
    },
    /// Two parts that touch are one fruit.
    Join {
        /// Their numbers.
        parts: [u32; 2],
    },
}

/// Where a part is cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Along {
    /// At its narrowest place between two sizeable pieces.
    Narrowest,
    /// Along the line between two places of the measured picture, in pixels; it may end a little short of the part's border.
    Line([Point; 2]),
}

/// Why a change could not be made.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Undone {
    /// No part has the number.
    #[error("there is no part {0} in the picture")]
    NoSuchPart(u32),
    /// The line leaves the part whole, or no cut gives two sizeable pieces.
    #[error("part {0} does not come apart there")]
    NotParted(u32),
    /// The parts lie away from each other.
    #[error("parts {0} and {1} do not touch")]
    Apart(u32, u32),
}

/// A part of the picture and its number.
#[derive(Clone, Copy, Debug)]
pub struct Numbered {
    /// Its number, from 1 on.
    pub number: u32,
    /// What its pixels say.
    pub part: Region,
}

/// Numbers the parts as one reads, in bands of an eighth of the picture from the top and from the left in each, then makes the
/// changes in their order.
///
/// # Shape
/// Returns the parts by number. The labels and parts of `parted` are changed with them. A piece smaller than `least_area` pixels is
/// none.
///
/// # Errors
/// The first change that cannot be made, and why.
pub fn numbered(parted: &mut Parted, changes: &[Change], least_area: usize) -> Result<Vec<Numbered>, Undone> {
    let height = parted.labels.height();
    let sorted = as_read(&parted.parts, height);
    let mut all: Vec<Numbered> = (1..).zip(sorted).map(|(number, part)| Numbered { number, part }).collect();
    for change in changes {
        match *change {
            Change::Cut { part, along } => cut(&mut parted.labels, &mut all, (part, along), least_area)?,
            Change::Join { parts } => join(&mut parted.labels, &mut all, parts)?,
        }
    }
    parted.parts = all.iter().map(|numbered| numbered.part).collect();
    Ok(all)
}

fn as_read(parts: &[Region], height: usize) -> Vec<Region> {
    let band = |part: &Region| (8.0 * part.centroid[1] / height.max(1) as f64) as u32;
    let mut sorted = parts.to_vec();
    sorted.sort_by(|p, q| band(p).cmp(&band(q)).then(p.centroid[0].total_cmp(&q.centroid[0])));
    sorted
}

fn find(all: &[Numbered], number: u32) -> Result<Numbered, Undone> {
    all.iter().find(|own| own.number == number).copied().ok_or(Undone::NoSuchPart(number))
}

fn cut(
    labels: &mut Plane<u32>,
    all: &mut Vec<Numbered>,
    (number, along): (u32, Along),
    least_area: usize,
) -> Result<(), Undone> {
    let whole = find(all, number)?.part;
    let line = match along {
        Along::Line(line) => Some(line),
        Along::Narrowest => narrowest(&border(labels, &whole)),
    };
    let pieces = line.and_then(|line| cut_along(labels, &whole, line, least_area));
    let [first, second] = pieces.ok_or(Undone::NotParted(number))?;
    let free = all.iter().map(|own| own.number).max().unwrap_or(0).saturating_add(1);
    all.iter_mut().filter(|own| own.number == number).for_each(|own| own.part = first);
    all.push(Numbered { number: free, part: second });
    Ok(())
}

/// By how many times its own length a line is drawn out at either end until it parts what it was drawn across.
const DRAWN_OUT: [f64; 4] = [0.0, 0.1, 0.2, 0.4];

/// Cuts a part along a line and gives both pieces, the one that is read first before the other.
fn cut_along(
    labels: &mut Plane<u32>,
    whole: &Region,
    [from, to]: [Point; 2],
    least_area: usize,
) -> Option<[Region; 2]> {
    let longer = |share: f64| {
        let out = [share * (to[0] - from[0]), share * (to[1] - from[1])];
        [[from[0] - out[0], from[1] - out[1]], [to[0] + out[0], to[1] + out[1]]]
    };
    DRAWN_OUT.iter().find_map(|share| slit(labels, whole, longer(*share), least_area))
}

/// Half the width of the slit, px: no two pixels on its sides touch along an edge.
const HALF_SLIT: f64 = 0.75;
/// How far from the slit's middle its sides' pixels are asked which piece they are, px.
const BESIDE: f64 = 2.0;

fn slit(labels: &mut Plane<u32>, whole: &Region, line: [Point; 2], least_area: usize) -> Option<[Region; 2]> {
    let [left, top, right, bottom] = whole.bounds;
    let mut open = Plane::filled(right - left, bottom - top, 0_u32);
    let mut slit = Vec::new();
    for y in top..bottom {
        for x in left..right {
            if labels.at(x.cast_signed(), y.cast_signed()) != whole.label {
                continue;
            }
            match side(line, [x as f64 + 0.5, y as f64 + 0.5]) {
                Some(side) if side.abs() <= HALF_SLIT => slit.push((x, y, side)),
                _ => open.set(x - left, y - top, 1),
            }
        }
    }
    let pieces = labelled(&open);
    let large: Vec<Region> = as_read(&regions(&pieces), bottom - top)
        .into_iter()
        .filter(|piece| least_area <= piece.area)
        .collect();
    let [first, second] = large.as_slice() else { return None };
    let free = labels.cells().iter().max().copied().unwrap_or(0).saturating_add(1);
    let label = |piece: u32| if piece == second.label { free } else { whole.label };
    for y in 0..pieces.height() {
        for x in 0..pieces.width() {
            let piece = pieces.at(x.cast_signed(), y.cast_signed());
            let crumb = 0 < piece && piece != first.label && piece != second.label;
            if crumb {
                labels.set(x + left, y + top, 0);
            } else if 0 < piece {
                labels.set(x + left, y + top, label(piece));
            }
        }
    }
    let out = square_to(line);
    for (x, y, side) in slit {
        let beside = |way: f64| {
            let place =
                [x as f64 - left as f64 + 0.5 + way * out[0], y as f64 - top as f64 + 0.5 + way * out[1]];
            let piece = pieces.at(place[0].floor() as isize, place[1].floor() as isize);
            [first.label, second.label].contains(&piece).then(|| label(piece))
        };
        let own = beside(BESIDE.copysign(side)).or_else(|| beside(-BESIDE.copysign(side)));
        labels.set(x, y, own.unwrap_or(0));
    }
    let own = regions(labels);
    let of = |label: u32| own.iter().find(|region| region.label == label).copied();
    Some([of(whole.label)?, of(free)?])
}

fn square_to([from, to]: [Point; 2]) -> Point {
    let length = (to[0] - from[0]).hypot(to[1] - from[1]).max(f64::MIN_POSITIVE);
    [(from[1] - to[1]) / length, (to[0] - from[0]) / length]
}

/// How far beside a line a place lies, and on which side; `None` beyond its ends.
fn side(line: [Point; 2], at: Point) -> Option<f64> {
    let [from, to] = line;
    let out = square_to(line);
    let off = [at[0] - from[0], at[1] - from[1]];
    let along = off[0] * out[1] - off[1] * out[0];
    let length = (to[0] - from[0]).hypot(to[1] - from[1]);
    (0.0..=length).contains(&along).then(|| off[0] * out[0] + off[1] * out[1])
}

/// Places of a border among which the narrowest cut is looked for.
const PLACES: usize = 240;
/// The lesser of two pieces is at least this share of the whole.
const LEAST_PIECE: f64 = 0.1;

/// The chord of a border that is shortest beside what it cuts off: length over the root of the lesser piece's area.
fn narrowest(rim: &[Point]) -> Option<[Point; 2]> {
    let step = rim.len().div_ceil(PLACES).max(1);
    let places: Vec<Point> = rim.iter().step_by(step).copied().collect();
    // Twice the area between the origin and the border from its first place on, so that a piece's area is two differences.
    let mut swept = vec![0.0];
    for (p, q) in places.iter().zip(places.iter().skip(1)) {
        swept.push(swept.last().copied().unwrap_or(0.0) + p[0] * q[1] - p[1] * q[0]);
    }
    let (first, last) = (places.first()?, places.last()?);
    let whole = swept.last()? + last[0] * first[1] - last[1] * first[0];
    let mut best: Option<(f64, [Point; 2])> = None;
    for (i, (p, from)) in places.iter().zip(&swept).enumerate() {
        for (q, to) in places.iter().zip(&swept).skip(i + 1) {
            let piece = (to - from + q[0] * p[1] - q[1] * p[0]) / whole;
            let lesser = piece.min(1.0 - piece);
            if lesser < LEAST_PIECE {
                continue;
            }
            let narrow = (p[0] - q[0]).hypot(p[1] - q[1]) / lesser.sqrt();
            if best.is_none_or(|(least, _)| narrow < least) {
                best = Some((narrow, [*p, *q]));
            }
        }
    }
    best.map(|(_, line)| line)
}

fn join(labels: &mut Plane<u32>, all: &mut Vec<Numbered>, numbers: [u32; 2]) -> Result<(), Undone> {
    let [kept, gone] = [numbers[0].min(numbers[1]), numbers[0].max(numbers[1])];
    let apart = Undone::Apart(kept, gone);
    let (one, other) = (find(all, kept)?.part, find(all, gone)?.part);
    if kept == gone {
        return Err(apart);
    }
    let joined = |label: u32| label == one.label || label == other.label;
    let [left, top] = [one.bounds[0].min(other.bounds[0]), one.bounds[1].min(other.bounds[1])];
    let [right, bottom] = [one.bounds[2].max(other.bounds[2]), one.bounds[3].max(other.bounds[3])];
    let mut both = Plane::filled(right - left, bottom - top, 0_u32);
    for y in top..bottom {
        for x in left..right {
            if joined(labels.at(x.cast_signed(), y.cast_signed())) {
                both.set(x - left, y - top, 1);
            }
        }
    }
    let pieces = regions(&labelled(&both));
    if pieces.iter().map(|piece| piece.area).max().unwrap_or(0) < one.area.max(other.area) + 1 {
        return Err(apart);
    }
    *labels = labels.map(|label| if label == other.label { one.label } else { label });
    let part = regions(labels).into_iter().find(|part| part.label == one.label).ok_or(apart)?;
    all.retain(|own| own.number != gone);
    all.iter_mut().filter(|own| own.number == kept).for_each(|own| own.part = part);
    Ok(())
}
