//! The copy: what the chart's template is given to set, every word of it ready to print.

use crate::catalogue::Portrait;
use crate::catalogue::entry::unbroken;
use crate::catalogue::scale::{PrintedScale, largest};
use crate::chart::drawn;
use crate::chart::room::{self, Page};
use crate::chart::{Chart, ClassType, HabitType, MarkType, Sheet, Types};
use crate::typesetting::Fonts;
use drawing::look::FruitLook;
use drawing::scale::Pixels;
use drawing::span::span;
use record::language::Units;
use record::purpose::Purpose;
use serde::Serialize;

/// Room for the fruit beside its words in a booklet, in printed millimetres.
const BESIDE: (f64, f64) = (66.0, 52.0);
/// Room for a shape mark's fruit, on a poster and in a booklet, and for a colour's, in printed millimetres.
const MARK: (f64, f64) = (26.0, 35.0);
const COLOUR: (f64, f64) = (15.0, 23.0);
/// Tallest plant on a poster and in a booklet, in printed millimetres.
const PLANT: (f64, f64) = (54.0, 92.0);
/// Width of a poster's last column, for marks and colours, in millimetres.
const SIDE: f64 = 92.0;
/// Narrowest column in which a limit's bar stands beside its words and not under them, in printed millimetres.
const BESIDE_FROM: f64 = 62.0;
/// Pixels that a limit's bar is drawn wide; paper stretches it to its column.
const BAR: u16 = 160;

/// The whole chart.
#[derive(Serialize)]
pub(super) struct Copy {
    families: Vec<String>,
    width: f64,
    height: f64,
    margin: f64,
    poster: bool,
    gap: f64,
    side: f64,
    mark_width: f64,
    house: String,
    year: i16,
    month: i8,
    day: i8,
    printed: String,
    guides: Vec<String>,
    scale: &'static str,
    plant_scale: String,
    shelves: Vec<Shelf>,
    habits: Vec<HabitCopy>,
    marks: Vec<MarkCopy>,
    colours: Vec<Named>,
    patterns: Vec<Named>,
}

/// One shelf of a poster; a booklet's panels all stand on one.
#[derive(Serialize)]
struct Shelf {
    widths: Vec<f64>,
    bars_beside: bool,
    classes: Vec<ClassCopy>,
}

/// A picture at its printed size, in millimetres, and what it shows in words.
#[derive(Serialize)]
struct Picture {
    svg: String,
    width: f64,
    height: f64,
    words: String,
}

#[derive(Serialize)]
struct ClassCopy {
    name: String,
    picture: Option<Picture>,
    what: String,
    good_for: String,
    flesh: String,
    mistaken_for: String,
    limits: Vec<LimitCopy>,
    ways: Vec<String>,
    uses: Vec<String>,
}

#[derive(Serialize)]
struct LimitCopy {
    about: String,
    words: String,
    bar: String,
}

#[derive(Serialize)]
struct HabitCopy {
    name: String,
    picture: Option<Picture>,
    what: String,
    good_for: String,
    mistaken_for: String,
    tells: Vec<TellCopy>,
    uses: Vec<String>,
}

#[derive(Serialize)]
struct TellCopy {
    about: String,
    words: String,
}

#[derive(Serialize)]
struct MarkCopy {
    name: String,
    picture: Option<Picture>,
    words: String,
}

#[derive(Serialize)]
struct Named {
    name: String,
    picture: Picture,
}

/// Words a chart for its template.
pub(super) fn copy(chart: &Chart, sheet: Sheet, fonts: &Fonts) -> Copy {
    let (page, poster) = (Page::of(sheet), is_poster(sheet));
    let (types, units) = (&chart.types, chart.units);
    let fruit = |class: &ClassType| class.look.as_ref().and_then(|look| drawn::fruit(look, units));
    let fruit: Vec<Option<Portrait>> = types.classes.iter().map(fruit).collect();
    let stem = |habit: &HabitType| habit.look.as_ref().and_then(drawn::stem);
    let stems: Vec<Option<Portrait>> = types.habits.iter().map(stem).collect();
    let (scale, widths) = fruit_room(&fruit, page, sheet);
    let plant_room = if poster { page.inner() - SIDE } else { page.inner() };
    let plants: Vec<&Portrait> = stems.iter().flatten().collect();
    let plant_scale = room::plants(&plants, plant_room - 12.0, if poster { PLANT.0 } else { PLANT.1 });
    let small = |sizes: (f64, f64)| if poster { sizes.0 } else { sizes.1 };
    let worded =
        Worded { fonts, units, scale: scale.factor, plant_scale, mark: small(MARK), colour: small(COLOUR) };
    Copy {
        families: fonts.families().into_iter().map(str::to_owned).collect(),
        width: page.width,
        height: page.height,
        margin: page.margin,
        poster,
        gap: room::GAP,
        side: SIDE,
        mark_width: small(MARK),
        house: fonts.legible(&chart.house),
        year: chart.printed_on.year(),
        month: chart.printed_on.month(),
        day: chart.printed_on.day(),
        printed: format!("Printed {}", chart.printed_on.strftime("%-d %B %Y")),
        guides: worded.all(&types.guides),
        scale: scale.words,
        plant_scale: format!("1 to {plant_scale:.0}"),
        shelves: shelves(types, &fruit, &widths, &worded),
        habits: types
            .habits
            .iter()
            .zip(&stems)
            .map(|(habit, stem)| worded.habit(habit, stem.as_ref()))
            .collect(),
        marks: types.marks.iter().map(|mark| worded.mark(mark)).collect(),
        colours: types.colours.iter().filter_map(|colour| worded.named(colour)).collect(),
        patterns: types.patterns.iter().filter_map(|pattern| worded.named(pattern)).collect(),
    }
}

/// Whether the whole chart stands on one sheet.
fn is_poster(sheet: Sheet) -> bool {
    matches!(sheet, Sheet::A3 | Sheet::Tabloid)
}

fn fruit_room(portraits: &[Option<Portrait>], page: Page, sheet: Sheet) -> (PrintedScale, Vec<Vec<f64>>) {
    if is_poster(sheet) {
        let portraits: Vec<Option<&Portrait>> = portraits.iter().map(Option::as_ref).collect();
        return room::shelves(&portraits, page.inner());
    }
    let within = |portrait: &Portrait, factor: f64| {
        portrait.life_width.get() * factor <= BESIDE.0 && portrait.life_height.get() * factor <= BESIDE.1
    };
    let scale = largest(|factor| portraits.iter().flatten().all(|portrait| within(portrait, factor)));
    (scale, vec![vec![BESIDE.0; portraits.len()]])
}

fn shelves(
    types: &Types,
    fruit: &[Option<Portrait>],
    widths: &[Vec<f64>],
    worded: &Worded<'_>,
) -> Vec<Shelf> {
    let mut classes = types.classes.iter().zip(fruit);
    let mut class = |(class, fruit): (&ClassType, &Option<Portrait>)| worded.class(class, fruit.as_ref());
    let shelf = |widths: &Vec<f64>| Shelf {
        classes: classes.by_ref().take(widths.len()).map(&mut class).collect(),
        widths: widths.clone(),
        bars_beside: widths.iter().all(|width| BESIDE_FROM <= *width),
    };
    widths.iter().map(shelf).collect()
}

/// What words and pictures are made fit to print with.
struct Worded<'a> {
    fonts: &'a Fonts,
    units: Units,
    scale: f64,
    plant_scale: f64,
    /// Widths of a shape mark's fruit and of a colour's, in printed millimetres.
    mark: f64,
    colour: f64,
}

impl Worded<'_> {
    fn all(&self, texts: &[String]) -> Vec<String> {
        texts.iter().map(|text| self.fonts.legible(text)).filter(|text| !text.is_empty()).collect()
    }

    fn uses(&self, uses: &[Purpose]) -> Vec<String> {
        uses.iter().map(|purpose| self.fonts.legible(purpose.name())).collect()
    }

    fn class(&self, class: &ClassType, fruit: Option<&Portrait>) -> ClassCopy {
        let limit = |limit: &crate::chart::Limit| LimitCopy {
            about: self.fonts.legible(&limit.about),
            words: unbroken(&self.fonts.legible(&limit.words)),
            bar: span(&limit.span, Pixels::from(BAR)).markup().to_owned(),
        };
        ClassCopy {
            name: self.fonts.legible(&class.name),
            picture: fruit.map(|of| self.at(of, self.scale, "The fruit of", &class.name)),
            what: self.fonts.legible(&class.what),
            good_for: self.fonts.legible(&class.good_for),
            flesh: self.fonts.legible(&class.flesh),
            mistaken_for: self.fonts.legible(&class.mistaken_for),
            limits: class.limits.iter().map(limit).collect(),
            ways: self.all(&class.ways).iter().map(|way| unbroken(way)).collect(),
            uses: self.uses(&class.uses),
        }
    }

    fn habit(&self, habit: &HabitType, stem: Option<&Portrait>) -> HabitCopy {
        let tell = |tell: &crate::chart::Tell| TellCopy {
            about: self.fonts.legible(&tell.about),
            words: unbroken(&self.fonts.legible(&tell.words)),
        };
        HabitCopy {
            name: self.fonts.legible(&habit.name),
            picture: stem.map(|of| self.at(of, 1.0 / self.plant_scale, "A plant of", &habit.name)),
            what: self.fonts.legible(&habit.what),
            good_for: self.fonts.legible(&habit.good_for),
            mistaken_for: self.fonts.legible(&habit.mistaken_for),
            tells: habit.tells.iter().map(tell).collect(),
            uses: self.uses(&habit.uses),
        }
    }

    fn mark(&self, mark: &MarkType) -> MarkCopy {
        let words = format!("{} The guide's limit: {}.", mark.what, mark.limits.join("; or "));
        let look = mark.look.as_ref();
        MarkCopy {
            name: self.fonts.legible(&mark.name),
            picture: look.and_then(|look| self.within(look, self.mark, &mark.name)),
            words: self.fonts.legible(&words),
        }
    }

    fn named(&self, look: &FruitLook) -> Option<Named> {
        let picture = self.within(look, self.colour, &look.name)?;
        Some(Named { name: self.fonts.legible(&look.name), picture })
    }

    fn at(&self, of: &Portrait, factor: f64, lead: &str, name: &str) -> Picture {
        Picture {
            svg: of.svg.clone(),
            width: of.life_width.get() * factor,
            height: of.life_height.get() * factor,
            words: format!("{lead} {}", self.fonts.legible(name)),
        }
    }

    fn within(&self, look: &FruitLook, width: f64, name: &str) -> Option<Picture> {
        let of = drawn::fruit(look, self.units)?;
        Some(self.at(&of, width / of.life_width.get().max(1.0), "A fruit that is", name))
    }
}
