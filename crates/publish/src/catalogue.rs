//! The printed catalogue: a cover, how to read it, contents by class, an entry a variety, an index.
//!
//! Fill a [`Catalogue`] and hand it to [`catalogue`]. Numbers arrive as measures and are worded here,
//! the house's own units first; sentences that the science has already worded arrive as text. Text is
//! never read as markup, whatever it holds.

mod copy;
pub(crate) mod entry;
pub(crate) mod index;
pub(crate) mod scale;

pub(crate) use copy::evidence as evidence_words;

pub use crate::typesetting::TypesettingFault;

use drawing::scale::{Pixels, Scale};
use drawing::svg::Svg;
use jiff::civil::Date;
use record::language::Units;
use record::length::Millimetres;
use record::mass::Grams;
use record::season::Season;
use record::share::{Percent, Share};

use crate::typesetting::{self, Fonts, Job, Template};

/// The sheet that a document is printed on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Paper {
    /// 210 mm by 297 mm.
    #[default]
    A4,
    /// 8.5 in by 11 in.
    UsLetter,
}

impl Paper {
    /// What the templates' typesetter calls it.
    pub(crate) fn typst_name(self) -> &'static str {
        match self {
            Self::A4 => "a4",
            Self::UsLetter => "us-letter",
        }
    }
}

/// Everything that a printed catalogue says.
#[derive(Clone, Debug)]
pub struct Catalogue {
    /// The house's name, as on the cover.
    pub house: String,
    /// The first and last season of the evidence; `None` where there is none yet.
    pub seasons: Option<(Season, Season)>,
    /// The day it is printed. The same input and the same day give the same bytes.
    pub printed_on: Date,
    /// The units that come first.
    pub units: Units,
    /// The guides that the calls rest on, as their owner names them: `fruit guide 3, of 4 May 2031`.
    pub guides: Vec<String>,
    /// The entries by class, from small fruit to large: the order of the book.
    pub sections: Vec<Section>,
    /// Font files of the house's own, for names in writing that the shipped fonts lack.
    pub house_fonts: Vec<Vec<u8>>,
}

/// Varieties that stand together in the book.
#[derive(Clone, Debug)]
pub struct Section {
    /// What they have in common.
    pub of: Together,
    /// The class in the plural, as a heading: `Plums`.
    pub heading: String,
    /// What the guide means by it: `50 to 75 mm long, 1 to 3 oz`.
    pub about: Option<String>,
    /// Its varieties, in the order of the book.
    pub entries: Vec<Entry>,
}

/// What the varieties of a section have in common.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Together {
    /// They are of one fruit class.
    Class,
    /// No class takes them, or none was measured.
    NoClass,
}

/// One variety.
#[derive(Clone, Debug)]
pub struct Entry {
    /// The name that the house sells it by.
    pub name: String,
    /// Other names it goes by.
    pub aliases: Vec<String>,
    /// Its portrait; `None` where too little is measured to draw one.
    pub portrait: Option<Portrait>,
    /// Plant habit, in verdicts such as `determinate`.
    pub habit: Told,
    /// Fruit class, in verdicts such as `a plum`.
    pub fruit_class: Told,
    /// Fruit colour, in verdicts such as `red`.
    pub colour: Told,
    /// Measured facts.
    pub facts: Facts,
    /// What the calls and facts rest on.
    pub evidence: Evidence,
    /// What packets and old catalogues say of it, beside the evidence.
    pub claims: Vec<ClaimBeside>,
    /// What trials told of it beside a check, a sentence each: `2 trials of 2031, 8 plots: 0.90 kg a plant more than
    /// Hop Pole (95% interval 0.30 kg to 1.50 kg)`.
    pub trials: Vec<String>,
    /// What would settle a contested call, cheapest first: `weigh 6 more fruits`.
    pub settle: Vec<String>,
}

/// A picture of a fruit.
#[derive(Clone, Debug)]
pub struct Portrait {
    /// The picture as an SVG document without text or outside references.
    pub svg: String,
    /// The width of the whole picture if it were printed at life size.
    pub life_width: Millimetres,
    /// The height of the whole picture if it were printed at life size.
    pub life_height: Millimetres,
}

impl Portrait {
    /// Takes a portrait that was drawn to `scale`; `None` only where its size overflows.
    #[must_use]
    pub fn drawn(svg: &Svg, scale: Scale) -> Option<Self> {
        let life = |pixels: Pixels| Millimetres::new(pixels.get() / scale.pixels_per_millimetre());
        let (life_width, life_height) = (life(svg.width())?, life(svg.height())?);
        Some(Self { svg: svg.markup().to_owned(), life_width, life_height })
    }
}

/// A call, ready to be told: verdicts and how likely each is.
#[derive(Clone, Debug, Default)]
pub struct Told {
    /// Verdicts as they stand in a sentence (`a plum`, `semi-determinate`), each with its chance, in any order.
    /// Empty where there is no evidence.
    pub verdicts: Vec<(String, Share)>,
    /// Whether it is contested, by the guide's limit.
    pub contested: bool,
    /// The sentence that decided it, if the catalogue should say so.
    pub rule: Option<String>,
}

/// A measured trait: what is usual, and the range that most fruit falls in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured<T> {
    /// The usual value.
    pub usual: T,
    /// The values that most of the fruit falls between, where enough was measured to say.
    pub most: Option<(T, T)>,
}

/// What was measured. `None` is told as not yet measured.
#[derive(Clone, Debug, Default)]
pub struct Facts {
    /// Weight of a fruit.
    pub weight: Option<Measured<Grams>>,
    /// Stem end to blossom end.
    pub length: Option<Measured<Millimetres>>,
    /// Greatest width.
    pub width: Option<Measured<Millimetres>>,
    /// Seed chambers.
    pub locules: Option<Measured<u32>>,
    /// Soluble solids (degrees Brix).
    pub soluble_solids: Option<Measured<Percent>>,
    /// Dry matter. Told only where measured: few houses do.
    pub dry_matter: Option<Measured<Percent>>,
    /// Height of a grown plant. Told only where measured.
    pub plant_height: Option<Measured<Millimetres>>,
    /// Days from transplanting to the first ripe fruit. Told only where noted.
    pub days_to_ripe: Option<Measured<u32>>,
}

/// How much was looked at.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Evidence {
    /// Fruits sampled.
    pub fruit_count: u64,
    /// Plants watched.
    pub plant_count: u64,
    /// Seasons grown.
    pub season_count: u64,
}

/// A claim beside the evidence.
#[derive(Clone, Debug)]
pub struct ClaimBeside {
    /// The claim in its own words: `semi-determinate, 4 to 6 oz`.
    pub words: String,
    /// How it stands.
    pub standing: Standing,
}

/// How a claim stands beside the evidence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Standing {
    /// The evidence agrees.
    Upheld,
    /// The evidence speaks against it, in these words.
    Contradicted(String),
    /// Nothing, or not enough, was measured that speaks to it.
    Unmeasured,
}

/// Sets the catalogue and returns it as a tagged PDF.
///
/// The same `catalogue` and `paper` give the same bytes on every machine.
///
/// # Errors
/// [`TypesettingFault::UnreadableFont`] where a house font is no font; every other variant is a
/// fault in this program and not in what was asked.
pub fn catalogue(catalogue: &Catalogue, paper: Paper) -> Result<Vec<u8>, TypesettingFault> {
    let fonts = Fonts::with(&catalogue.house_fonts)?;
    let copy = copy::copy(catalogue, paper, &fonts);
    let data = serde_json::to_vec(&copy).map_err(TypesettingFault::Data)?;
    typesetting::typeset(&Job { template: Template::Catalogue, data, identity: copy.identity() }, &fonts)
}
