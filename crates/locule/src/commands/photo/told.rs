//! What photographs said, as it is told.

use crate::answer::{Answer, Ending};
use crate::columns::columns;
use crate::commands::take::{TableIn, table_in, table_words};
use house::photo::{Axis, CutFace, Seen, SeenFruit, Side, Standing, ToldBy};
use house::portraits::Picture;
use house::take::TableTaken;
use record::colour::Lab;
use record::language::{Units, counted, length_and_give, length_briefly, mass_briefly};
use record::length::Millimetres;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// What photographs said.
#[derive(Debug, Default, Serialize, JsonSchema)]
pub(crate) struct Photographs {
    /// Those that were measured.
    photographs: Vec<Photograph>,
    /// Those that were taken before, and so were not measured again.
    taken_before: Vec<Before>,
    /// Those that were not.
    pub(super) refused: Vec<Refused>,
}

/// What became of one photograph.
pub(super) enum Became {
    /// It was measured.
    Measured(Box<Photograph>),
    /// It was taken before.
    Before(Before),
}

/// A photograph that was taken before.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Before {
    /// The file's name.
    pub(super) file: String,
    /// The batch that took it.
    pub(super) batch: u32,
}

impl Photographs {
    /// Puts what became of one photograph with the others.
    pub(super) fn put(&mut self, became: Became) {
        match became {
            Became::Measured(photograph) => self.photographs.push(*photograph),
            Became::Before(before) => self.taken_before.push(before),
        }
    }
}

/// A photograph that was measured.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Photograph {
    /// The file's name.
    file: String,
    /// The card in it.
    card: String,
    /// The plot that the card was printed for, where it says one that the house has.
    plot: Option<PlotTold>,
    /// The day that the camera wrote.
    taken_on: Option<String>,
    /// Degrees between the way the camera looked and straight down.
    tilt_degrees: f64,
    /// How high above the sheet the camera stood.
    camera_height_mm: f64,
    /// Its fruit, by number.
    fruit: Vec<FruitTold>,
    /// Parts of the picture that are no fruit that is measured.
    left_out: Vec<LeftOut>,
    /// Why nothing is said of colours, where nothing is.
    no_colour: Option<NoColourTold>,
    /// The file of the drawing.
    overlay: Option<String>,
    /// What was taken.
    taken: Vec<TableIn>,
    #[serde(skip)]
    rows: Vec<Vec<String>>,
}

/// By how much the truth may lie on either side of a measure, nine times in ten.
#[derive(Debug, Serialize, JsonSchema)]
struct GiveTold {
    /// Of the weight.
    weight_g: f64,
    /// Of the length.
    length_mm: f64,
    /// Of the width.
    width_mm: f64,
}

/// A plot.
#[derive(Debug, Serialize, JsonSchema)]
struct PlotTold {
    /// Its grow-out.
    grow_out: Option<String>,
    /// Its label.
    label: String,
}

/// A fruit.
#[derive(Debug, Serialize, JsonSchema)]
struct FruitTold {
    /// Its number on the drawing.
    number: u32,
    /// How it lies: `on its side`, `standing` or `cut`; of standing and cut fruit length and weight are not seen.
    lies: String,
    /// Its weight, from its volume and a usual density.
    weight_g: Option<f64>,
    /// Along the stem.
    length_mm: Option<f64>,
    /// Greatest width across it.
    width_mm: f64,
    /// By how much the truth may lie on either side of weight, length and width, nine times in ten.
    give: Option<GiveTold>,
    /// Width a quarter down from the stem's end, over the greatest; from the narrower end where the stem's is not seen.
    neck: Option<f64>,
    /// Lobes, of a fruit that stands or is cut; 0 is smooth.
    lobes: Option<u32>,
    /// What is seen of it cut across.
    cut: Option<CutTold>,
    /// Whether it is known which of the two is the length.
    stem_known: bool,
    /// The skin's colour relative to the card's paper: L*, a*, b*.
    colour: Option<[f64; 3]>,
    /// The skin's pattern, where one is seen: `striped` or `marbled`.
    pattern: Option<String>,
    /// Whether it counts, or somebody left it out.
    counts: bool,
}

/// A cut face.
#[derive(Debug, Serialize, JsonSchema)]
struct CutTold {
    /// Its locules that are filed: as somebody counted them, else where both ways of counting agree.
    locules: Option<u32>,
    /// The likeliest count.
    likely_locules: u32,
    /// Locules counted on the way round.
    locules_by_sectors: u32,
    /// Locules counted as patches of gel.
    locules_by_patches: u32,
    /// Chances that there are one fewer than the likeliest count, so many, one more; what is missing to 1 lies farther off.
    chances: [f64; 3],
    /// Least width of the face; `width_mm` is its greatest.
    least_width_mm: f64,
    /// By how much the truth may lie on either side of the widths, nine times in ten.
    width_give_mm: f64,
    /// Thickness of the outer wall beside the locules.
    wall_mm: Option<f64>,
    /// By how much the truth may lie on either side of it, nine times in ten.
    wall_give_mm: Option<f64>,
    /// Share of the face that is gel with its seeds, per cent.
    gel_percent: f64,
    /// Colour of the flesh relative to the card's paper: L*, a*, b*.
    flesh: Option<[f64; 3]>,
    /// Colour of the gel.
    gel: Option<[f64; 3]>,
    /// How high above the sheet the face is taken to lie.
    face_height_mm: f64,
    /// What tells that height: `whole fruit` of the photograph, or the face's own `width`.
    face_height_by: String,
}

/// Parts of a picture that are no fruit that is measured.
#[derive(Debug, Serialize, JsonSchema)]
struct LeftOut {
    /// Why.
    why: String,
    /// How many.
    parts: usize,
    /// Their numbers on the drawing.
    numbers: Vec<u32>,
}

/// Why a photograph says nothing of colours.
#[derive(Debug, Serialize, JsonSchema)]
struct NoColourTold {
    /// Why.
    reason: String,
    /// What to do.
    remedy: String,
}

/// A photograph that was not measured, or not taken.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Refused {
    /// The file's name.
    pub(super) file: String,
    /// Why.
    pub(super) reason: String,
    /// What to do.
    pub(super) remedy: Option<String>,
}

/// Tells what one photograph said.
pub(super) fn photograph(
    seen: &Seen,
    drawn: Option<Picture>,
    taken: &[TableTaken],
    units: Units,
) -> Photograph {
    let part = |(why, numbers): &(&str, Vec<u32>)| LeftOut {
        why: (*why).to_owned(),
        parts: numbers.len(),
        numbers: numbers.clone(),
    };
    Photograph {
        file: seen.name.clone(),
        card: seen.card.to_owned(),
        plot: seen.plot.clone().map(|plot| PlotTold { grow_out: plot.grow_out, label: plot.label }),
        taken_on: seen.taken_on.map(|day| day.to_string()),
        tilt_degrees: rounded(seen.tilt, 10.0),
        camera_height_mm: rounded(seen.height.get(), 1.0),
        fruit: seen.fruit.iter().map(fruit).collect(),
        left_out: seen.left_out.iter().map(part).collect(),
        no_colour: seen
            .no_colour
            .map(|why| NoColourTold { reason: why.to_string(), remedy: why.remedy().to_owned() }),
        overlay: drawn.map(|drawn| drawn.file.display().to_string()),
        taken: taken.iter().map(table_in).collect(),
        rows: seen.fruit.iter().map(|fruit| row(fruit, units)).collect(),
    }
}

fn rounded(number: f64, parts: f64) -> f64 {
    (number * parts).round() / parts
}

fn fruit(seen: &SeenFruit) -> FruitTold {
    let tenth = |number: f64| rounded(number, 10.0);
    let side = seen.side();
    FruitTold {
        number: seen.number,
        lies: match (side, seen.cut()) {
            (Some(_), _) => "on its side",
            (None, Some(_)) => "cut",
            (None, None) => "standing",
        }
        .to_owned(),
        weight_g: side.map(|side| tenth(side.weight.get())),
        length_mm: side.map(|side| tenth(side.length.get())),
        width_mm: tenth(seen.width.get()),
        give: side.map(|side| GiveTold {
            weight_g: tenth(side.give.weight.get()),
            length_mm: tenth(side.give.length.get()),
            width_mm: tenth(side.give.width.get()),
        }),
        neck: side
            .map(|side| rounded(side.neck_width.get() / seen.width.get().max(f64::MIN_POSITIVE), 100.0)),
        lobes: seen.lobes(),
        cut: seen.cut().as_ref().map(cut),
        stem_known: side.is_none_or(|side| side.axis == Axis::Known),
        colour: seen.colour.map(colour),
        pattern: seen.pattern.map(|pattern| pattern.name().to_owned()),
        counts: seen.standing == Standing::Counts,
    }
}

fn colour(lab: Lab) -> [f64; 3] {
    [lab.lightness(), lab.a(), lab.b()].map(|part| rounded(part, 10.0))
}

fn cut(face: &CutFace) -> CutTold {
    let tenth = |length: Millimetres| rounded(length.get(), 10.0);
    CutTold {
        locules: face.locules(),
        likely_locules: face.counted.likely,
        locules_by_sectors: face.counted.sectors,
        locules_by_patches: face.counted.patches,
        chances: face.counted.chances.map(|chance| rounded(chance, 100.0)),
        least_width_mm: tenth(face.least_width),
        width_give_mm: tenth(face.give),
        wall_mm: face.wall.map(|[wall, _]| tenth(wall)),
        wall_give_mm: face.wall.map(|[_, give]| tenth(give)),
        gel_percent: rounded(face.gel.get(), 1.0),
        flesh: face.flesh.map(colour),
        gel: face.jelly.map(colour),
        face_height_mm: tenth(face.height),
        face_height_by: match face.height_by {
            ToldBy::WholeFruit => "whole fruit",
            ToldBy::Width => "width",
        }
        .to_owned(),
    }
}

/// A cut face's locules, wall and gel.
fn of_cut(face: &CutFace, units: Units) -> String {
    let wall = face.wall.map(|[wall, give]| format!(", wall {}", length_and_give(wall, give, units)));
    format!("cut: {}{}, {:.0} % gel", locules(face), wall.unwrap_or_default(), face.gel.get())
}

fn locules(face: &CutFace) -> String {
    let many = |count: u32| counted(count.into(), "locule", "locules");
    let counts = face.counted;
    match (face.told, face.locules()) {
        (Some(told), _) => format!("{} as you counted", many(told)),
        (None, Some(found)) => format!("{} ({:.0} in 100)", many(found), 100.0 * counts.chances[1]),
        (None, None) if counts.sectors == counts.patches => {
            format!("perhaps {}, look yourself", many(counts.likely))
        }
        (None, None) => {
            format!("{} or {}, look yourself", counts.sectors, many(counts.patches))
        }
    }
}

/// A weight and by how much the truth may lie on either side of it.
fn weight(side: &Side, units: Units) -> String {
    format!("{} ± {}", mass_briefly(side.weight, units), mass_briefly(side.give.weight, units))
}

const HEADINGS: [&str; 6] = ["fruit", "weight", "length", "width", "colour L* a* b*", "remark"];

fn row(fruit: &SeenFruit, units: Units) -> Vec<String> {
    let pattern = fruit.pattern.map_or_else(String::new, |pattern| format!(", {}", pattern.name()));
    let colour =
        fruit.colour.map(|lab| format!("{:.0} {:.0} {:.0}{pattern}", lab.lightness(), lab.a(), lab.b()));
    let remark = match (fruit.standing, fruit.lobes()) {
        (Standing::LeftOut, _) => "left out".to_owned(),
        (Standing::Counts, _) if fruit.cut().is_some() => {
            fruit.cut().map(|face| of_cut(&face, units)).unwrap_or_default()
        }
        (Standing::Counts, Some(0)) => "stands".to_owned(),
        (Standing::Counts, Some(lobes)) => format!("stands, {}", counted(lobes.into(), "lobe", "lobes")),
        (Standing::Counts, None) if fruit.is_shape_known() => String::new(),
        (Standing::Counts, None) => "length and width may be the other way round".to_owned(),
    };
    let side = fruit.side();
    vec![
        fruit.number.to_string(),
        side.map(|side| weight(&side, units)).unwrap_or_default(),
        side.map(|side| length_and_give(side.length, side.give.length, units)).unwrap_or_default(),
        side.map_or_else(
            || match fruit.cut() {
                Some(face) => length_and_give(fruit.width, face.give, units),
                None => length_briefly(fruit.width, units),
            },
            |side| length_and_give(fruit.width, side.give.width, units),
        ),
        colour.unwrap_or_default(),
        remark,
    ]
}

impl Answer for Photographs {
    const SHAPE: &'static str = "photo/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        self.photographs.iter().try_for_each(|photograph| photograph.tell(to))?;
        for Before { file, batch } in &self.taken_before {
            writeln!(to, "{file}: this very photograph was taken before, as batch {batch}; nothing added")?;
        }
        for refused in &self.refused {
            writeln!(to, "Not measured: {}", refused.reason)?;
            if let Some(remedy) = &refused.remedy {
                writeln!(to, "  help: {remedy}")?;
            }
        }
        Ok(())
    }

    fn ending(&self) -> Ending {
        if self.refused.is_empty() { Ending::Done } else { Ending::BadInput }
    }
}

impl Photographs {
    /// Tells each in a line.
    ///
    /// # Errors
    /// What the terminal or pipe refuses.
    pub(crate) fn tell_briefly(&self, to: &mut dyn Write) -> io::Result<()> {
        for photograph in &self.photographs {
            photograph.tell_head(to)?;
            for table in &photograph.taken {
                writeln!(to, "  {}: {}", table.table, table_words(table))?;
            }
        }
        Ok(())
    }
}

impl Photograph {
    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        self.tell_head(to)?;
        if let Some(PlotTold { grow_out: Some(grow_out), label }) = &self.plot {
            writeln!(to, "The card says that they are of plot {label} of {grow_out}.")?;
        }
        let headings = HEADINGS.map(str::to_owned).to_vec();
        columns(to, &std::iter::once(headings).chain(self.rows.iter().cloned()).collect::<Vec<_>>())?;
        for part in &self.left_out {
            for number in &part.numbers {
                writeln!(to, "Not measured: part {number} {}", part.why)?;
            }
        }
        if let Some(why) = &self.no_colour {
            writeln!(to, "No colours, sizes only: {}\n  help: {}", why.reason, why.remedy)?;
        }
        if let Some(overlay) = &self.overlay {
            writeln!(to, "{overlay} written.")?;
        }
        for table in &self.taken {
            writeln!(to, "{}: {}", table.table, table_words(table))?;
        }
        if self.taken.is_empty() {
            writeln!(to, "Nothing was kept; --take keeps them as fruit samples.")?;
        }
        Ok(())
    }

    fn tell_head(&self, to: &mut dyn Write) -> io::Result<()> {
        let fruit = counted(self.fruit.len() as u64, "fruit", "fruit");
        writeln!(
            to,
            "{}: {fruit} beside {}, seen from {} mm up and {} degrees from straight above.",
            self.file, self.card, self.camera_height_mm, self.tilt_degrees
        )
    }
}
