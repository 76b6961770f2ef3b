//! From a picture to measures: the whole way, and every reason to refuse.
//!
//! Start at [`measure`].

use crate::camera::Camera;
use crate::card::Card;
use crate::change::{Change, Numbered, numbered};
use crate::code::Code;
use crate::colour::Lab;
use crate::company::{Companion, Stem, lies_across};
use crate::decode::Picture;
use crate::edge::refined;
use crate::exposure::{self, NoColour};
use crate::face::{self, Face, Light};
use crate::ground;
use crate::lobes::{Lobes, lobes};
use crate::outline::{Point, hull, moments};
use crate::part::{Parted, fruit};
use crate::pattern::{Patterned, pattern};
use crate::placed::{Placed, placed};
use crate::plane::Plane;
use crate::pose::Pose;
use crate::refusal::Refusal;
use crate::region::{Region, border, relabel};
use crate::sheet::{self, Sheet};
use crate::solid::{Solid, Standing, THICK, Told, lying, standing};
use crate::spread::{Spread, spread};
use crate::stem::green_end;
use crate::surface;
use record::length::Millimetres;
use record::mass::Grams;
use std::collections::BTreeMap;

/// Grams of a cubic centimetre of fruit until a house has weighed its own (common practice, no source).
pub const DENSITY: f64 = 0.97;
/// Longest side that is measured on, px: larger pictures are made smaller by whole steps.
const LONGEST_SIDE: usize = 2400;
/// Length that the line on a card should have, mm.
const LINE: f64 = 70.0;
/// Refused where less of the variance than this lies between fruit and sheet.
const LEAST_APART: f64 = 0.6;
/// Of its convex hull a fruit covers at least this share; a ribbed one 0.95, a pear 0.96 (the made pictures).
const LEAST_SOLID: f64 = 0.9;
/// The outline of a fruit is at most so many times as long as its hull's: a shadow's is frayed (found on the made pictures).
const MOST_FRAYED: f64 = 1.15;
/// A fruit ends at least so plainly; a piece of shadow 0.2, the least plain of fruit 0.4 (the made pictures).
const LEAST_PLAIN: f64 = 0.28;
/// Smaller parts are crumbs, mm across.
const SMALLEST: f64 = 11.0;

/// What is asked of a picture.
#[derive(Clone, Debug)]
pub struct Wishes<'a> {
    /// The cards that may lie in it.
    pub cards: &'a [Card],
    /// How long the line is, on the printed card, that should be 70 mm.
    pub line: Millimetres,
    /// What somebody who looked says of fruits' stems, by the fruit's number.
    pub stems: &'a BTreeMap<u32, Told>,
    /// What somebody who looked says of how the parts hang together.
    pub changes: &'a [Change],
}

/// A fruit of the picture.
#[derive(Clone, Debug)]
pub struct Fruit {
    /// Its number: parts are counted as one reads, in bands from the top and from the left, whether they are fruit or not.
    pub number: u32,
    /// Its number in [`Measured::parted`].
    pub label: u32,
    /// Its outline in pixels of the measured picture.
    pub outline: Vec<Point>,
    /// How it lies, and what is seen of it so.
    pub form: Form,
    /// How well its measures are known, where it lies on its side.
    pub spread: Option<Spread>,
    /// Outlines of the locules of a cut face, in pixels of the measured picture, in the order of the way round.
    pub chambers: Vec<Vec<Point>>,
    /// The skin's colour relative to the card's paper, where enough of it is seen and the card's greys are told apart.
    pub colour: Option<Lab>,
    /// The skin's pattern, where enough of it is seen.
    pub pattern: Option<Patterned>,
}

/// How a fruit lies.
#[derive(Clone, Copy, Debug)]
pub enum Form {
    /// On its side.
    Lying(Solid),
    /// On its blossom end or its stem, so that it is seen along its axis.
    Standing {
        /// What is seen of it.
        solid: Standing,
        /// How many lobes it has; 0 is smooth.
        lobes: u32,
    },
    /// Cut across, its face up.
    Cut(Face),
}

impl Fruit {
    /// The weight at the usual density, of a fruit whose volume is seen.
    #[must_use]
    pub fn weight(&self) -> Option<Grams> {
        match self.form {
            Form::Lying(solid) => Grams::new(DENSITY * solid.volume),
            Form::Standing { .. } | Form::Cut(_) => None,
        }
    }
}

/// A part of the picture that is no fruit that is measured.
#[derive(Clone, Debug)]
pub struct LeftOut {
    /// Its number: fruit and what is none are counted together.
    pub number: u32,
    /// Its outline in pixels of the measured picture.
    pub outline: Vec<Point>,
    /// Why.
    pub why: Reason,
}

/// Why a part of the picture is no fruit that is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reason {
    /// It runs out of the picture.
    Cropped,
    /// It goes over the edge of the sheet.
    OffSheet,
    /// Its outline encloses nothing.
    NotClosed,
    /// It bends inwards more than a fruit does: a shadow, or several fruit that were not parted.
    Bent,
}

/// What a picture says.
#[derive(Clone, Debug)]
pub struct Measured {
    /// The card that lies in it.
    pub card: Card,
    /// What its code strip says, where it has one that can be read.
    pub code: Option<Code>,
    /// Where the camera stood, and how sharp the card is.
    pub pose: Pose,
    /// By how many times the picture was made smaller before measuring.
    pub reduced: usize,
    /// The picture as it was measured.
    pub pixels: Plane<[u8; 3]>,
    /// The parts of the picture.
    pub parted: Parted,
    /// The fruit, by number.
    pub fruit: Vec<Fruit>,
    /// Parts that were dropped.
    pub left_out: Vec<LeftOut>,
    /// Why nothing is said of colours, where nothing is.
    pub no_colour: Option<NoColour>,
}

/// Measures the fruit of one picture beside a card.
///
/// # Errors
/// [`Refusal`] with what is wrong with the picture; its [`Refusal::remedy`] says what to do.
pub fn measure(picture: &Picture, wishes: &Wishes<'_>) -> Result<Measured, Refusal> {
    let (pixels, reduced) = at_working_size(picture);
    let Placed { card, code, pose } = placed(&pixels, picture.focal_on_film, wishes.cards)?;
    let dim = exposure::judged(&pixels, &pose.camera, &card)?;
    let sheet = sheet::read(&pixels, &pose.camera, &card).ok_or(Refusal::OneColour)?;
    let unlike = sheet::unlike(&pixels, &sheet, &pose.camera, &card);
    let middle = [pixels.width() as f64 / 2.0, pixels.height() as f64 / 2.0];
    let smallest = SMALLEST * pose.camera.pixels_a_millimetre(middle);
    let ground = ground::of(&unlike);
    let least_area = (0.7 * smallest * smallest) as usize;
    let mut parted = fruit(&unlike, &ground, least_area);
    if parted.apart < LEAST_APART {
        return Err(if is_bare(&unlike, &ground) { Refusal::NoFruit } else { Refusal::OneColour });
    }
    let parts = numbered(&mut parted, wishes.changes, least_area).map_err(Refusal::Change)?;
    let (mut outlined, mut left_out) = (Vec::new(), Vec::new());
    for Numbered { number, part } in parts {
        match outline((&pixels, &sheet), (&parted.labels, &ground), &part) {
            Ok(outline) => {
                relabel(&mut parted.labels, part.label, &outline);
                outlined.push((number, part, outline));
            }
            Err((outline, why)) => left_out.push(LeftOut { number, outline, why }),
        }
    }
    let tone = surface::tone(&pixels, &pose.camera, &card, &sheet);
    let greys = surface::greys(&pixels, &pose.camera, &card);
    let no_colour = dim.or_else(|| exposure::of_greys(tone.as_ref()?, &greys));
    let (mut fruit, mut stems): (Vec<Fruit>, Vec<Stem>) = (Vec::new(), Vec::new());
    for (number, part, outline) in outlined {
        let told = wishes.stems.get(&number).copied().unwrap_or_default();
        let green = tone.as_ref().and_then(|tone| green_end(&pixels, (&sheet, tone), &parted.labels, &part));
        let scale = wishes.line.get() / LINE;
        let light = Light { pixels: &pixels, sheet: &sheet, tone: tone.as_ref() };
        let (form, chambers) = match as_cut(&pose.camera, &outline, &light, told) {
            Some(seen) => (Some(Form::Cut(seen.face.scaled(scale))), seen.chambers),
            None => (form(&pose.camera, &outline, green, told, scale), Vec::new()),
        };
        let Some(form) = form else {
            left_out.push(LeftOut { number, outline, why: Reason::NotClosed });
            continue;
        };
        let of_skin = || skin(&light, &parted.labels, &part);
        let (spread, (colour, pattern)) = match form {
            Form::Lying(solid) => (Some(spread(&pose, &card, &solid)), of_skin()),
            Form::Standing { .. } => (None, of_skin()),
            Form::Cut(_) => (None, (None, None)),
        };
        stems.push(if green.is_some() { Stem::Sure } else { Stem::Guessed });
        fruit.push(Fruit { number, label: part.label, outline, form, spread, chambers, colour, pattern });
    }
    turned_as_their_company(&mut fruit, &stems, (&pose, &card), wishes);
    faces_as_high_as_their_company(&mut fruit, &pose.camera);
    if fruit.is_empty() {
        let heaped = !left_out.is_empty() && left_out.iter().all(|part| part.why == Reason::Bent);
        return Err(if heaped { Refusal::Heaped } else { Refusal::NoFruit });
    }
    if no_colour.is_some() {
        fruit.iter_mut().for_each(without_colour);
    }
    Ok(Measured { card, code, pose, reduced, pixels, parted, fruit, left_out, no_colour })
}

/// Colour and pattern of a whole fruit's skin, where the card's greys are told apart.
fn skin(light: &Light<'_>, labels: &Plane<u32>, part: &Region) -> (Option<Lab>, Option<Patterned>) {
    let Some(tone) = light.tone else { return (None, None) };
    let colour = surface::colour(light.pixels, labels, part, light.sheet, tone);
    (colour, pattern(light.pixels, labels, part, (light.sheet, tone)))
}

/// Steps of CIELAB that hardly any of a bare sheet's pixels reach, and the share of them that are let.
const BARE: (f32, f64) = (12.0, 0.002);

/// Whether there is nothing on the sheet: fruit of its colour still throw shadows and shine.
fn is_bare(unlike: &Plane<f32>, ground: &Plane<bool>) -> bool {
    let smooth = unlike.box_mean(1);
    let on_sheet = smooth.cells().iter().zip(ground.cells()).filter(|(_, on_sheet)| **on_sheet);
    let (plain, all) = on_sheet.fold((0.0, 0.0), |(plain, all), (step, _)| {
        (plain + if BARE.0 < *step { 1.0 } else { 0.0 }, all + 1.0)
    });
    plain < BARE.1 * all
}

/// A fruit of a picture that says nothing of colours.
fn without_colour(fruit: &mut Fruit) {
    (fruit.colour, fruit.pattern) = (None, None);
    if let Form::Cut(face) = &mut fruit.form {
        face.colours = None;
    }
}

/// The cut face that an outline is: as somebody said, else where it looks like one.
fn as_cut(camera: &Camera, outline: &[Point], light: &Light<'_>, told: Told) -> Option<face::Seen> {
    let cut = match told {
        Told::Cut => true,
        Told::Nothing => face::is_cut(camera, outline, light),
        Told::AsDrawn | Told::Across | Told::Standing => false,
    };
    if cut { face::cut_face(camera, outline, light) } else { None }
}

/// Lays cut faces as high as half the whole fruit beside them are long.
fn faces_as_high_as_their_company(fruit: &mut [Fruit], camera: &Camera) {
    let length = |fruit: &Fruit| match fruit.form {
        Form::Lying(solid) => Some(solid.length),
        Form::Standing { .. } | Form::Cut(_) => None,
    };
    let Some(level) = face::level_by(&fruit.iter().filter_map(length).collect::<Vec<_>>()) else { return };
    for fruit in fruit {
        if let Form::Cut(face) = fruit.form {
            fruit.form = Form::Cut(face.on_level(camera, level));
        }
    }
}

/// Turns fruit whose stems are only guessed as those like them lie. What somebody who looked said is said of the fruit so turned,
/// for so they saw it drawn.
fn turned_as_their_company(
    fruit: &mut [Fruit],
    stems: &[Stem],
    (pose, card): (&Pose, &Card),
    wishes: &Wishes<'_>,
) {
    let told = |fruit: &Fruit| wishes.stems.get(&fruit.number).copied().unwrap_or_default();
    let own: Vec<Option<Companion>> =
        fruit.iter().zip(stems).map(|(fruit, stem)| companion(fruit, *stem, told(fruit))).collect();
    let all: Vec<Companion> = own.iter().flatten().copied().collect();
    for (fruit, own) in fruit.iter_mut().zip(own) {
        let turned = if told(fruit) == Told::Across { Told::AsDrawn } else { Told::Across };
        if own.is_some_and(|own| lies_across(own, &all))
            && let Some(solid) = lying(&pose.camera, &fruit.outline, None, turned)
        {
            let solid = solid.scaled(wishes.line.get() / LINE);
            fruit.spread = Some(spread(pose, card, &solid));
            fruit.form = Form::Lying(solid);
        }
    }
}

/// A fruit as its neighbours see it, whatever was said of it; `None` where it stands.
fn companion(fruit: &Fruit, stem: Stem, told: Told) -> Option<Companion> {
    let Form::Lying(solid) = fruit.form else { return None };
    let stem = if THICK < solid.length.min(solid.width) { Stem::Sure } else { stem };
    let measured = solid.length / solid.width.max(f64::MIN_POSITIVE);
    let ratio = if told == Told::Across { 1.0 / measured } else { measured };
    Some(Companion { ratio, colour: fruit.colour, stem })
}

/// Green nearer to the middle of an outline than this share of its mean radius is seen on a fruit that stands.
const GREEN_ON_TOP: f64 = 0.4;
/// So many lobes, and so deep, are seen only along the axis: from the side a ribbed fruit shows few.
const PLAINLY_LOBED: Lobes = Lobes { count: 5, depth: 0.015 };

/// How a fruit lies: as somebody said, else standing where its green end is on top or it is plainly lobed, else on its side.
fn form(camera: &Camera, outline: &[Point], green: Option<Point>, told: Told, scale: f64) -> Option<Form> {
    let seen = moments(outline)?;
    let lobes = lobes(outline);
    let on_top = green.is_some_and(|[x, y]| {
        let far = (x - seen.centroid[0]).hypot(y - seen.centroid[1]);
        far < GREEN_ON_TOP * (seen.area / std::f64::consts::PI).sqrt()
    });
    let lobed = lobes.is_some_and(|own| PLAINLY_LOBED.count <= own.count && PLAINLY_LOBED.depth <= own.depth);
    let stands = match told {
        Told::Standing => true,
        Told::Nothing => on_top || lobed,
        Told::AsDrawn | Told::Across | Told::Cut => false,
    };
    if stands {
        let solid = standing(camera, outline)?;
        let solid = Standing { width: scale * solid.width, ..solid };
        return Some(Form::Standing { solid, lobes: lobes.map_or(0, |lobes| lobes.count) });
    }
    lying(camera, outline, green, told).map(|solid| Form::Lying(solid.scaled(scale)))
}

/// The picture at the size that it is measured at, and by how many times it was made smaller for that.
#[must_use]
pub fn at_working_size(picture: &Picture) -> (Plane<[u8; 3]>, usize) {
    let longest = picture.pixels.width().max(picture.pixels.height());
    let reduced = longest.div_ceil(LONGEST_SIDE).max(1);
    (smaller(&picture.pixels, reduced), reduced)
}

/// The outline of a part, or why it is none of a fruit.
fn outline(
    (pixels, sheet): (&Plane<[u8; 3]>, &Sheet),
    (labels, ground): (&Plane<u32>, &Plane<bool>),
    part: &Region,
) -> Result<Vec<Point>, (Vec<Point>, Reason)> {
    let rim = border(labels, part);
    if cropped(part, pixels) {
        return Err((rim, Reason::Cropped));
    }
    if over_the_edge(&rim, ground) {
        return Err((rim, Reason::OffSheet));
    }
    let (outline, plainness) = refined(pixels, labels, part, sheet);
    if solid(&outline) && LEAST_PLAIN < plainness { Ok(outline) } else { Err((outline, Reason::Bent)) }
}

fn solid(outline: &[Point]) -> bool {
    let area = |points: &[Point]| moments(points).map_or(0.0, |found| found.area);
    let hull = hull(outline);
    LEAST_SOLID * area(&hull) < area(outline) && length_round(outline) < MOST_FRAYED * length_round(&hull)
}

fn length_round(points: &[Point]) -> f64 {
    let sides = points.iter().zip(points.iter().cycle().skip(1));
    sides.map(|(p, q)| (p[0] - q[0]).hypot(p[1] - q[1])).sum()
}

/// Whether a rim runs along the edge of the sheet for more than a touch.
fn over_the_edge(rim: &[Point], ground: &Plane<bool>) -> bool {
    const NEAR: f64 = 3.0;
    let beyond = |[x, y]: Point| {
        let off = |dx: f64, dy: f64| !ground.at((x + dx) as isize, (y + dy) as isize);
        off(NEAR, 0.0) || off(-NEAR, 0.0) || off(0.0, NEAR) || off(0.0, -NEAR)
    };
    rim.len() < TOUCH * rim.iter().filter(|place| beyond(**place)).count()
}

/// A rim of which more than one part in this many lies on the sheet's edge goes over it.
const TOUCH: usize = 25;

/// Pixels from the frame within which a part runs out of the picture: the sheet's rim is taken in by two.
const FRAME: usize = 3;

fn cropped(part: &Region, pixels: &Plane<[u8; 3]>) -> bool {
    let [left, top, right, bottom] = part.bounds;
    left.min(top) <= FRAME || pixels.width() <= right + FRAME || pixels.height() <= bottom + FRAME
}

/// The picture with squares of `step` pixels made one, by their mean.
fn smaller(pixels: &Plane<[u8; 3]>, step: usize) -> Plane<[u8; 3]> {
    if step <= 1 {
        return pixels.clone();
    }
    let mut small = Plane::filled(pixels.width() / step, pixels.height() / step, [0_u8; 3]);
    let (from, to) = (pixels.width().max(1), small.width().max(1));
    let count = u32::try_from(step * step).unwrap_or(1);
    let mut sums = vec![[0_u32; 3]; to];
    for (rows, row) in pixels.cells().chunks(step * from).zip(small.cells_mut().chunks_mut(to)) {
        sums.fill([0; 3]);
        for (square, sum) in rows.chunks(from).flat_map(|row| row.chunks_exact(step).zip(0..to)) {
            let Some(sum) = sums.get_mut(sum) else { continue };
            for bytes in square {
                sum.iter_mut().zip(bytes).for_each(|(sum, byte)| *sum += u32::from(*byte));
            }
        }
        for (cell, sums) in row.iter_mut().zip(&sums) {
            *cell = sums.map(|sum| u8::try_from((sum + count / 2) / count).unwrap_or(u8::MAX));
        }
    }
    small
}
