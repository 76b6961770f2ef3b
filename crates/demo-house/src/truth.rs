//! The truth: what each invented variety really is, hidden from the raw files.
//!
//! Traits are drawn once, inside the bands of the variety's class, with the trends of fruit size that
//! the facts give; then every note is drawn round them. `truth.csv` prints them for the test that scores
//! the calls. Start at [`varieties`].

use crate::chance::{between, between_logs, normal, stream};
use crate::class::FruitClass;
use crate::roll::{Build, Entry, Habit, Mark};
use rand_chacha::ChaCha8Rng;
use record::length::Millimetres;
use record::mass::Grams;
use record::share::Percent;

/// Weight of a fruit over the ellipsoid of its length and width, grams per cubic centimetre. Source:
/// identity facts, section 5: 1.06 for cultivated and cherry fruit.
pub const WEIGHT_OVER_ELLIPSOID: f64 = 1.06;

/// One variety with its true traits.
#[derive(Clone, Debug)]
pub struct TrueVariety {
    /// Its line of the roll.
    pub entry: Entry,
    /// Its typical (median) fruit.
    pub shape: Shape,
    /// What the knife, the refractometer and the oven say of it.
    pub inside: Inside,
    /// How the plant grows and bears.
    pub vine: VineTraits,
}

/// The outside of a typical fruit.
#[derive(Clone, Copy, Debug)]
pub struct Shape {
    /// Weight.
    pub weight: Grams,
    /// Stem end to blossom end.
    pub length: Millimetres,
    /// Greatest width.
    pub width: Millimetres,
    /// Width a quarter down over greatest width; 0.87 for a ball.
    pub neck: f64,
    /// Lobes; 0 is smooth.
    pub lobes: u32,
    /// Weight against a solid fruit of the same size; 1 is solid, a stuffing fruit has less.
    pub fullness: f64,
}

impl Shape {
    /// Length over width.
    #[must_use]
    pub fn length_over_width(&self) -> f64 {
        self.length.get() / self.width.get()
    }

    /// A fruit like this one of another weight (g) and length over width, by the ellipsoid.
    #[must_use]
    pub fn scaled(&self, weight_g: f64, length_over_width: f64) -> Option<Self> {
        let cubic_mm = weight_g * 1000.0 / (WEIGHT_OVER_ELLIPSOID * self.fullness);
        let width = (cubic_mm * 6.0 / (std::f64::consts::PI * length_over_width)).cbrt();
        Some(Self {
            weight: Grams::new(weight_g)?,
            length: Millimetres::new(width * length_over_width)?,
            width: Millimetres::new(width)?,
            ..*self
        })
    }
}

/// The inside of a typical fruit.
#[derive(Clone, Copy, Debug)]
pub struct Inside {
    /// Mean locules.
    pub locules: f64,
    /// Soluble solids.
    pub soluble_solids: Percent,
    /// Dry matter.
    pub dry_matter: Percent,
}

/// How the plant grows and bears, in a middling year at home.
#[derive(Clone, Copy, Debug)]
pub struct VineTraits {
    /// Trusses on the main stem when it ends, the last included; `None` where only frost ends it.
    pub trusses: Option<f64>,
    /// Leaves between trusses.
    pub leaves_between: f64,
    /// Height at which a determinate stops, or that an indeterminate reaches by the usual frost.
    pub height: Millimetres,
    /// Days from transplanting to the first ripe fruit.
    pub days_to_ripe: f64,
    /// Days between a tenth and nine tenths of the fruit, were there no frost.
    pub spread_days: f64,
    /// Fruit on one plant.
    pub fruit_per_plant: f64,
}

/// Draws the true traits of every variety of the roll.
#[must_use]
pub fn varieties(seed: u64, roll: &[Entry]) -> Vec<TrueVariety> {
    roll.iter().filter_map(|entry| variety(seed, entry)).collect()
}

fn variety(seed: u64, entry: &Entry) -> Option<TrueVariety> {
    let draws = &mut stream(seed, &["truth", &entry.name]);
    let shape = shape(draws, entry)?;
    let inside = inside(draws, entry, shape.weight.get())?;
    let vine = vine(draws, entry, shape.weight.get())?;
    Some(TrueVariety { entry: entry.clone(), shape, inside, vine })
}

/// Bands inside a class from which a variety's traits are drawn, clear of the class's edges.
/// Common practice, no source.
struct Bands {
    weight_g: (f64, f64),
    length_over_width: (f64, f64),
    neck: (f64, f64),
    locules: (f64, f64),
}

fn bands(class: FruitClass) -> Bands {
    let of =
        |weight_g, length_over_width, neck, locules| Bands { weight_g, length_over_width, neck, locules };
    match class {
        FruitClass::Currant => of((0.16, 0.32), (0.93, 1.02), (0.84, 0.88), (2.0, 2.1)),
        FruitClass::Cherry => of((2.6, 17.0), (0.9, 1.04), (0.84, 0.89), (2.0, 2.4)),
        FruitClass::Pear => of((9.0, 22.0), (1.38, 1.65), (0.48, 0.6), (2.0, 2.2)),
        FruitClass::SmallElongated => of((8.0, 20.0), (1.4, 1.75), (0.82, 0.88), (2.0, 2.2)),
        FruitClass::Grape => of((30.5, 34.5), (1.3, 1.38), (0.82, 0.88), (2.0, 2.3)),
        FruitClass::Plum => of((56.0, 74.0), (1.34, 1.6), (0.82, 0.9), (2.0, 2.6)),
        FruitClass::Paste => of((95.0, 132.0), (1.85, 2.4), (0.78, 0.9), (2.0, 3.2)),
        FruitClass::Saladette => of((34.0, 118.0), (0.88, 1.05), (0.84, 0.9), (2.6, 4.2)),
        FruitClass::Slicer => of((158.0, 205.0), (0.78, 0.95), (0.85, 0.92), (4.5, 7.5)),
        FruitClass::Beefsteak => of((285.0, 640.0), (0.62, 0.78), (0.86, 0.93), (9.0, 17.0)),
    }
}

/// Shoulders of a heart: nearly at its widest a quarter down. Common practice, no source.
const HEART_NECK: (f64, f64) = (0.955, 0.98);
const HEART_LENGTH_OVER_WIDTH: (f64, f64) = (1.02, 1.16);
/// Weight of a stuffing fruit against a solid one of its size. Common practice, no source.
const HOLLOW_FULLNESS: f64 = 0.8;

fn shape(draws: &mut ChaCha8Rng, entry: &Entry) -> Option<Shape> {
    let bands = bands(entry.class);
    let heart = entry.mark == Some(Mark::Heart);
    let weight = entry.weight_g.unwrap_or_else(|| between_logs(draws, bands.weight_g));
    let ratios = if heart { HEART_LENGTH_OVER_WIDTH } else { bands.length_over_width };
    let ratio = entry.length_over_width.unwrap_or_else(|| between(draws, ratios));
    let neck = entry.neck.unwrap_or_else(|| between(draws, if heart { HEART_NECK } else { bands.neck }));
    let lobes = lobes(draws, entry);
    let fullness = if entry.mark == Some(Mark::Hollow) { HOLLOW_FULLNESS } else { 1.0 };
    let nothing = Millimetres::new(0.0)?;
    let like = Shape { weight: Grams::new(weight)?, length: nothing, width: nothing, neck, lobes, fullness };
    like.scaled(weight, ratio)
}

fn lobes(draws: &mut ChaCha8Rng, entry: &Entry) -> u32 {
    let drawn = match (entry.mark, entry.class) {
        (Some(Mark::Ribbed), _) => between(draws, (8.0, 12.0)),
        (Some(Mark::Hollow), _) => between(draws, (1.0, 2.9)),
        (None, FruitClass::Beefsteak) => between(draws, (0.0, 3.0)),
        _ => 0.0,
    };
    drawn as u32
}

/// Dry matter against weight: 12.03 - 3.26 log10 g per cent. Source: identity facts, section 5, about
/// 165 accessions, mostly under 90 g; held at its 90 g value above that.
fn dry_matter_trend(weight_g: f64) -> f64 {
    12.03 - 3.26 * weight_g.clamp(1.0, 90.0).log10()
}

/// Dry matter over soluble solids. Source: identity facts, section 5: 1.30 from the means of 96
/// cultivated accessions.
const DRY_MATTER_OVER_SOLIDS: f64 = 1.3;

/// How much drier than its weight says each class is, in per cent of dry matter: plum and paste dry,
/// slicer juicy, beefsteak meatier. Common practice, no source.
fn dryness(class: FruitClass) -> f64 {
    match class {
        FruitClass::Plum => 0.6,
        FruitClass::Paste => 1.5,
        FruitClass::Slicer => -0.4,
        FruitClass::Beefsteak => 0.5,
        _ => 0.0,
    }
}

fn inside(draws: &mut ChaCha8Rng, entry: &Entry, weight_g: f64) -> Option<Inside> {
    let dry_matter = dry_matter_trend(weight_g) + dryness(entry.class) + normal(draws, 0.3);
    let solids = dry_matter / DRY_MATTER_OVER_SOLIDS + normal(draws, 0.25);
    let locules = bands(entry.class).locules;
    let fewer = if entry.mark == Some(Mark::Heart) { 0.75 } else { 1.0 };
    Some(Inside {
        locules: between(draws, locules) * fewer,
        soluble_solids: Percent::new(solids)?,
        dry_matter: Percent::new(dry_matter)?,
    })
}

fn vine(draws: &mut ChaCha8Rng, entry: &Entry, weight_g: f64) -> Option<VineTraits> {
    // Trusses, leaves between them and spread of ripening by habit. Source: identity facts, section 4
    // (three leaves between trusses, fewer in self-pruning plants; truss counts a working prior only).
    let (trusses, leaves_between, spread, height) = match entry.habit {
        Habit::Determinate => (Some((3.2, 5.6)), (1.1, 1.9), (13.0, 23.0), (750.0, 1150.0)),
        Habit::SemiDeterminate => (Some((7.6, 11.0)), (2.0, 2.6), (28.0, 42.0), (1300.0, 1750.0)),
        Habit::Indeterminate => (None, (2.8, 3.15), (48.0, 66.0), (2000.0, 2700.0)),
    };
    let height = match entry.build {
        Build::Standard => height,
        Build::Dwarf => (650.0, 1050.0),
        Build::MicroDwarf => (170.0, 280.0),
    };
    Some(VineTraits {
        trusses: trusses.map(|band| between(draws, band)),
        leaves_between: between(draws, leaves_between),
        height: Millimetres::new(between(draws, height))?,
        days_to_ripe: days_to_ripe(draws, entry, weight_g),
        spread_days: between(draws, spread),
        fruit_per_plant: fruit_per_plant(draws, entry, weight_g),
    })
}

/// Days to the first ripe fruit: small fruit and determinate plants first. Source: phenology facts,
/// section (c): first picks 49 to 92 days after transplanting, cherry first, beefsteak last.
fn days_to_ripe(draws: &mut ChaCha8Rng, entry: &Entry, weight_g: f64) -> f64 {
    let early = if entry.habit == Habit::Determinate { -4.0 } else { 0.0 };
    54.0 + 8.5 * weight_g.max(1.0).log10() + early + normal(draws, 3.5)
}

/// Fruit on one plant from the weight that a plant bears. Source: phenology facts, section (c): 3 to 13
/// kg a plant, determinate about 60 % of that; a small plant bears little.
fn fruit_per_plant(draws: &mut ChaCha8Rng, entry: &Entry, weight_g: f64) -> f64 {
    let kilograms = match (entry.build, entry.habit) {
        (Build::MicroDwarf, _) => (0.25, 0.5),
        (Build::Dwarf, _) => (1.2, 2.2),
        (Build::Standard, Habit::Determinate) => (2.2, 3.8),
        (Build::Standard, Habit::SemiDeterminate) => (2.8, 5.0),
        (Build::Standard, Habit::Indeterminate) => (3.2, 6.5),
    };
    // A currant plant is picked until the picker tires, not until it is bare.
    (between(draws, kilograms) * 1000.0 / weight_g).min(900.0)
}
