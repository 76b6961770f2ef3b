//! Fruit to test with: one kind of fruit, grown as often as a test asks.

#![allow(dead_code, reason = "each test file uses its own part of it")]
#![allow(clippy::unwrap_used, reason = "fruit written in tests is possible")]
#![allow(unreachable_pub, reason = "shared by several test files")]

use identity::call::Call;
use identity::ellipsoid;
use identity::fruit_class::{Draws, call};
use identity::guide::fruit::{ClassName, FruitGuide, SHIPPED, read};
use identity::spread::Spread;
use identity::sums::FruitSums;
use record::fruit::FruitSample;
use record::growout::PlantNumber;
use record::id::Id;
use record::language::Units;
use record::length::{Inches, Millimetres};
use record::mass::{Grams, Ounces};
use record::season::Season;
use record::share::Percent;
use record::subject::Subject;
use std::num::NonZeroU32;
use std::sync::OnceLock;

pub fn guide() -> &'static FruitGuide {
    static GUIDE: OnceLock<FruitGuide> = OnceLock::new();
    GUIDE.get_or_init(|| read("guides/fruit.toml", SHIPPED).unwrap())
}

pub fn draws() -> &'static Draws {
    static DRAWS: OnceLock<Draws> = OnceLock::new();
    DRAWS.get_or_init(Draws::new)
}

pub fn told(sums: &FruitSums) -> Call<ClassName> {
    call(sums, &Spread::beforehand(), guide(), draws(), Units::US)
}

pub fn sums<'a>(samples: impl Iterator<Item = &'a FruitSample>) -> FruitSums {
    let mut sums = FruitSums::default();
    samples.for_each(|sample| sums.take(sample));
    sums
}

/// An id that is the same for the same number.
pub fn id<Of>(number: u128) -> Id<Of> {
    // 16 bytes of a UUID, built without naming its crate's types.
    Id::from_uuid(uuid(number))
}

fn uuid(number: u128) -> uuid::Uuid {
    uuid::Uuid::from_u128(number)
}

/// One kind of fruit; what is `None` is not measured.
#[derive(Clone, Copy, Debug)]
pub struct Fruits {
    weight: Option<f64>,
    length: Option<f64>,
    width: Option<f64>,
    shape: Option<f64>,
    neck: Option<f64>,
    fullness: f64,
    locules: Option<u32>,
    lobes: Option<u32>,
    dry_matter: Option<f64>,
    ounces: bool,
}

const NOTHING: Fruits = Fruits {
    weight: None,
    length: None,
    width: None,
    shape: None,
    neck: None,
    fullness: 1.0,
    locules: None,
    lobes: None,
    dry_matter: None,
    ounces: false,
};

impl Fruits {
    pub fn weighing(grams: f64) -> Self {
        Self { weight: Some(grams), ..NOTHING }
    }
    pub fn sized(length: f64, width: f64) -> Self {
        Self { length: Some(length), width: Some(width), ..NOTHING }
    }
    pub fn wide(width: f64) -> Self {
        Self { width: Some(width), ..NOTHING }
    }
    pub fn shape(self, shape: f64) -> Self {
        Self { shape: Some(shape), ..self }
    }
    pub fn neck(self, neck: f64) -> Self {
        Self { neck: Some(neck), ..self }
    }
    pub fn fullness(self, fullness: f64) -> Self {
        Self { fullness, ..self }
    }
    pub fn locules(self, locules: u32) -> Self {
        Self { locules: Some(locules), ..self }
    }
    pub fn lobes(self, lobes: u32) -> Self {
        Self { lobes: Some(lobes), ..self }
    }
    pub fn dry_matter(self, percent: f64) -> Self {
        Self { dry_matter: Some(percent), ..self }
    }
    pub fn in_ounces(self) -> Self {
        Self { ounces: true, ..self }
    }

    /// One sample, `factor` times as heavy as the kind, its shape kept.
    pub fn sample(&self, season: i16, plant: u32, factor: f64) -> FruitSample {
        let weight = self.weight.map(|weight| weight * factor);
        let sized = weight.zip(self.shape).map(|(weight, shape)| {
            let width = ellipsoid::log_width(weight.ln(), shape.ln(), self.fullness.ln()).exp();
            (width * shape, width)
        });
        let stretch = factor.cbrt();
        let length = sized.map(|(length, _)| length).or(self.length.map(|length| length * stretch));
        let width = sized.map(|(_, width)| width).or(self.width.map(|width| width * stretch));
        FruitSample {
            subject: Subject {
                variety: id(1),
                season: Season::new(2030 + season).unwrap(),
                plot: Some(id(100 + season as u128)),
                plant: Some(PlantNumber(plant)),
            },
            sampled_on: None,
            fruit_count: NonZeroU32::MIN,
            weight: weight.map(|weight| self.grams(weight)),
            length: length.map(|length| self.millimetres(length)),
            width: width.map(|width| self.millimetres(width)),
            neck_width: self.neck.zip(width).map(|(neck, width)| self.millimetres(neck * width)),
            locules: self.locules,
            soluble_solids: None,
            dry_matter: self.dry_matter.and_then(Percent::new),
            lobes: self.lobes,
            cracking: None,
            catfacing: None,
            exterior: None,
            flesh: None,
            skin: None,
        }
    }

    fn grams(&self, grams: f64) -> Grams {
        let ounces = || Ounces::new(Grams::new(grams)?.to_ounces())?.to_grams();
        if self.ounces { ounces() } else { Grams::new(grams) }.unwrap()
    }

    fn millimetres(&self, long: f64) -> Millimetres {
        let inches = || Inches::new(Millimetres::new(long)?.to_inches())?.to_millimetres();
        if self.ounces { inches() } else { Millimetres::new(long) }.unwrap()
    }

    /// Many fruits, all alike.
    pub fn grown(&self, seasons: i16, plants: u32, fruits: u32) -> FruitSums {
        sums(self.all(seasons, plants, fruits, |_| 1.0).iter())
    }

    /// Many fruits that differ in weight.
    pub fn scattered(&self, seasons: i16, plants: u32, fruits: u32) -> Vec<FruitSample> {
        self.all(seasons, plants, fruits, |number| 1.0 + 0.3 * f64::from(number * 7 % 5) - 0.6 * 0.3)
    }

    fn all(&self, seasons: i16, plants: u32, fruits: u32, factor: impl Fn(u32) -> f64) -> Vec<FruitSample> {
        let mut samples = Vec::new();
        for season in 0..seasons {
            for plant in 0..plants {
                samples
                    .extend((0..fruits).map(|fruit| self.sample(season, plant, factor(fruit + 3 * plant))));
            }
        }
        samples
    }
}
