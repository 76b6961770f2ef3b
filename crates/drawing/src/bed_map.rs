//! The bed map: beds to scale with their plots, the edges of blocks and replicates, checks and guards.
//!
//! For the page where a grow-out is laid out, for its walk sheets, and for its results: plots may be shaded by a value,
//! with a legend. Start at [`bed_map`]. Everything reads without colour: checks are framed and named in slanted
//! letters, guards are hatched, edges differ in weight. A map is as wide as its longest bed needs for readable labels;
//! a narrow page scrolls it.

mod edges;
mod shade;

use crate::lettering::{Anchor, Hand};
use crate::paint::{HAIR, INK, THIN_INK};
use crate::path::Point;
use crate::svg::{Canvas, Role, Svg};
use record::language;
use record::length::{INCHES_PER_FOOT, MILLIMETRES_PER_INCH, Millimetres};

/// What a map shows.
#[derive(Clone, Debug, PartialEq)]
pub struct BedMap {
    /// What the whole is called, such as `2031 Home`.
    pub title: String,
    /// The gardens, drawn one under the other.
    pub gardens: Vec<MappedGarden>,
    /// What shades mean, where plots are shaded.
    pub shading: Option<Shading>,
    /// Which edges are drawn heavy.
    pub edges: Edges,
}

/// One garden.
#[derive(Clone, Debug, PartialEq)]
pub struct MappedGarden {
    /// Its name.
    pub name: String,
    /// Its beds' names, and where each lies.
    pub beds: Vec<MappedBed>,
    /// Its places: plots, guards and what is no use.
    pub places: Vec<MappedPlace>,
}

/// One bed: a rectangle along and across the garden.
#[derive(Clone, Debug, PartialEq)]
pub struct MappedBed {
    /// Its name.
    pub name: String,
    /// Where it lies.
    pub area: Area,
}

/// A rectangle of ground, from the garden's corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Area {
    /// Where it begins along the beds.
    pub from: Millimetres,
    /// Where it ends along the beds.
    pub to: Millimetres,
    /// Its nearer edge across the garden.
    pub near: Millimetres,
    /// Its farther edge across the garden.
    pub far: Millimetres,
}

/// One place of a bed.
#[derive(Clone, Debug, PartialEq)]
pub struct MappedPlace {
    /// Where it lies.
    pub area: Area,
    /// What it is.
    pub what: Mapped,
}

/// What a place is.
#[derive(Clone, Debug, PartialEq)]
pub enum Mapped {
    /// A planted plot.
    Plot(MappedPlot),
    /// A plot that nothing stands in.
    Spare,
    /// Guard plants.
    Guard,
    /// No use, and why.
    Unusable(String),
}

/// A planted plot.
#[derive(Clone, Debug, PartialEq)]
pub struct MappedPlot {
    /// What its stake says.
    pub label: String,
    /// Its variety.
    pub variety: String,
    /// Whether it is a check.
    pub standing: Standing,
    /// Its replicate.
    pub replicate: u32,
    /// Its block.
    pub block: u32,
    /// Its value, if plots are shaded and it has one.
    pub value: Option<f64>,
}

/// What a variety is in the trial.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// To be compared.
    Candidate,
    /// To compare with.
    Check,
}

/// What shades mean.
#[derive(Clone, Debug, PartialEq)]
pub struct Shading {
    /// What the values are, with their unit, such as `kg a plant, fitted`.
    pub words: String,
    /// The value drawn lightest.
    pub least: f64,
    /// The value drawn darkest.
    pub most: f64,
}

/// Which edges are drawn heavy.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Edges {
    /// Of blocks, and heavier of replicates.
    BlocksAndReplicates,
    /// Of replicates only.
    Replicates,
    /// None.
    Plain,
}

/// Least width and height of a plot, in pixels, so that its two lines of words can be read. A choice of the drawing.
const LEAST_PLOT: (f64, f64) = (58.0, 34.0);
/// Width that a plot gains for its value. A choice of the drawing.
const VALUE_ROOM: f64 = 34.0;
/// Pixels a millimetre on a map without any plot. A choice of the drawing.
const WITHOUT_PLOTS: f64 = 0.02;
/// Height of a line of words above a bed or garden, in pixels.
const LINE: f64 = 18.0;
/// Room round the drawing, in pixels: half the heaviest edge, and a little.
const MARGIN: f64 = 3.0;
const TITLE: Hand = Hand { class: "garden", size: 14.0, ink: INK, anchor: Anchor::Start, slanted: false };
const BED: Hand = Hand { class: "bed", size: 11.5, ink: THIN_INK, anchor: Anchor::Start, slanted: false };
const LABEL: Hand = Hand { class: "stake", size: 11.5, ink: THIN_INK, anchor: Anchor::Start, slanted: false };
const VARIETY: Hand = Hand { class: "variety", size: 11.5, ink: INK, anchor: Anchor::Start, slanted: false };

/// Draws the map. Plots of one garden are to one scale along the bed and to another across it, as far as readable
/// labels ask for it.
#[must_use]
pub fn bed_map(map: &BedMap) -> Svg {
    let mut canvas = Canvas::new("m", &map.title);
    let scale = Measure::of(map);
    let mut top = MARGIN;
    let mut width = 0.0_f64;
    for garden in &map.gardens {
        top = drawn(&mut canvas, map, garden, scale, top);
        let ends = garden.beds.iter().map(|bed| scale.along(bed.area.to));
        width = ends.fold(width, f64::max);
    }
    if let Some(shading) = &map.shading {
        let (right, foot) = shade::legend(&mut canvas, shading, top + LINE / 2.0);
        (width, top) = (width.max(right), foot);
    }
    canvas.finish("bed-map", Role::Picture, &told(map), width + MARGIN, top + MARGIN)
}

/// Width of a plot that its value takes: none where plots are not shaded.
fn value_room(map: &BedMap) -> f64 {
    map.shading.as_ref().map_or(0.0, |_| VALUE_ROOM)
}

/// Pixels a millimetre along beds and across them.
#[derive(Clone, Copy)]
struct Measure {
    along: f64,
    across: f64,
}

impl Measure {
    fn of(map: &BedMap) -> Self {
        let plots = || {
            let places = map.gardens.iter().flat_map(|garden| &garden.places);
            places.filter(|place| matches!(place.what, Mapped::Plot(_) | Mapped::Spare))
        };
        let fitting = |size: fn(&Area) -> f64, pixels: f64| {
            let sizes = plots().map(|place| size(&place.area)).filter(|size| 0.0 < *size);
            sizes.reduce(f64::min).map_or(WITHOUT_PLOTS, |shortest| pixels / shortest)
        };
        Self {
            along: fitting(|area| area.to.get() - area.from.get(), LEAST_PLOT.0 + value_room(map)),
            across: fitting(|area| area.far.get() - area.near.get(), LEAST_PLOT.1),
        }
    }

    fn along(self, length: Millimetres) -> f64 {
        MARGIN + length.get() * self.along
    }
}

/// A rectangle on the sheet.
#[derive(Clone, Copy)]
struct Patch {
    left: f64,
    top: f64,
    right: f64,
    foot: f64,
}

/// Draws one garden from `top` and returns where it ends. Beds keep their order; each has a line for its name above
/// it, which also stands for the path.
fn drawn(canvas: &mut Canvas, map: &BedMap, garden: &MappedGarden, scale: Measure, top: f64) -> f64 {
    TITLE.set(canvas, &garden.name, Point::new(MARGIN, top + LINE * 0.7));
    let mut foot = top + LINE * 1.2;
    for bed in &garden.beds {
        BED.set(canvas, &bed_told(bed), Point::new(MARGIN, foot + LINE * 0.65));
        foot += LINE;
        let place = |area: &Area| Patch {
            left: scale.along(area.from),
            right: scale.along(area.to),
            top: foot + (area.near.get() - bed.area.near.get()) * scale.across,
            foot: foot + (area.far.get() - bed.area.near.get()) * scale.across,
        };
        let own: Vec<(&MappedPlace, Patch)> = garden
            .places
            .iter()
            .filter(|one| bed.area.near <= one.area.near && one.area.far <= bed.area.far)
            .map(|one| (one, place(&one.area)))
            .collect();
        rectangle(canvas, place(&bed.area)).set("fill", "none").set("stroke", HAIR).end();
        own.iter().for_each(|(one, at)| place_drawn(canvas, map, one, *at));
        edges::draw(canvas, map.edges, &own);
        foot += (bed.area.far.get() - bed.area.near.get()) * scale.across + LINE * 0.3;
    }
    foot
}

/// A bed's name and length: `North 2, 12 m (39 ft)`.
fn bed_told(bed: &MappedBed) -> String {
    let length = bed.area.to.get() - bed.area.from.get();
    let metres = (length / 100.0).round() / 10.0;
    let feet = length / MILLIMETRES_PER_INCH / INCHES_PER_FOOT;
    format!("{}, {metres} m ({feet:.0} ft)", bed.name)
}

fn rectangle(canvas: &mut Canvas, at: Patch) -> crate::svg::Element<'_> {
    let shape = canvas.element("rect").at("x", at.left).at("y", at.top);
    shape.at("width", at.right - at.left).at("height", at.foot - at.top)
}

fn place_drawn(canvas: &mut Canvas, map: &BedMap, place: &MappedPlace, at: Patch) {
    match &place.what {
        Mapped::Plot(plot) => plot_drawn(canvas, map, plot, at),
        Mapped::Spare => {
            let shape = rectangle(canvas, at).set("fill", "none").set("stroke", HAIR);
            shape.set("stroke-dasharray", "2 3").end();
        }
        Mapped::Guard => edges::hatched(canvas, at),
        Mapped::Unusable(why) => {
            rectangle(canvas, at).set("fill", HAIR).end();
            let words = BED.shortened(why, at.right - at.left - 4.0);
            BED.set(canvas, &words, Point::new(at.left + 3.0, f64::midpoint(at.top, at.foot) + 4.0));
        }
    }
}

fn plot_drawn(canvas: &mut Canvas, map: &BedMap, plot: &MappedPlot, at: Patch) {
    let shade = map.shading.as_ref().zip(plot.value).map(|(shading, value)| shade::of(shading, value));
    let fill = shade.as_ref().map_or("none", |shade| shade.fill.as_str());
    let ink = shade.as_ref().map_or(INK, |shade| shade.ink);
    let note = shade.as_ref().map_or(THIN_INK, |shade| shade.ink);
    rectangle(canvas, at).set("fill", fill).set("stroke", HAIR).end();
    if plot.standing == Standing::Check {
        edges::framed(canvas, at, ink);
    }
    let room = at.right - at.left - 10.0;
    let middle = f64::midpoint(at.top, at.foot);
    let label = Hand { ink: note, ..LABEL };
    let label_room = room - value_room(map);
    label.set(canvas, &label.shortened(&plot.label, label_room), Point::new(at.left + 5.0, middle - 2.5));
    if let Some(shading) = &map.shading {
        let value = Hand { anchor: Anchor::End, class: "value", ..label };
        let words = plot.value.map_or_else(|| "–".to_owned(), |value| shade::said(value, shading));
        value.set(canvas, &words, Point::new(at.right - 5.0, middle - 2.5));
    }
    let variety = Hand { ink, slanted: plot.standing == Standing::Check, ..VARIETY };
    variety.set(canvas, &variety.shortened(&plot.variety, room), Point::new(at.left + 5.0, middle + 11.0));
}

/// The whole map in words.
fn told(map: &BedMap) -> String {
    let counted = |wanted: fn(&Mapped) -> bool| {
        let places = map.gardens.iter().flat_map(|garden| &garden.places);
        places.filter(|place| wanted(&place.what)).count() as u64
    };
    let plots = counted(|what| matches!(what, Mapped::Plot(_)));
    let checks = counted(|what| matches!(what, Mapped::Plot(plot) if plot.standing == Standing::Check));
    let beds: usize = map.gardens.iter().map(|garden| garden.beds.len()).sum();
    let shaded =
        map.shading.as_ref().map_or_else(String::new, |shading| format!(", shaded by {}", shading.words));
    format!(
        "{}: {} in {}, {checks} of them checks{shaded}",
        map.title,
        language::counted(plots, "plot", "plots"),
        language::counted(beds as u64, "bed", "beds"),
    )
}
