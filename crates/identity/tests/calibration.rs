//! Are 80 in 100 right 80 times in 100? Varieties are made up from the model, called, and counted.

#![expect(clippy::unwrap_used, reason = "made-up varieties are possible ones")]

mod fruit;

use fruit::{draws, guide};
use identity::call::CONTESTED_UNDER;
use identity::ellipsoid;
use identity::fruit_class::call;
use identity::guide::fruit::measure::{MEASURES, Measure};
use identity::guide::fruit::{Band, FruitGuide};
use identity::spread::Spread;
use identity::sums::FruitSums;
use identity::unknown::{Unknown, evidence};
use rand_chacha::ChaCha8Rng;
use record::fruit::FruitSample;
use record::growout::PlantNumber;
use record::language::Units;
use record::length::Millimetres;
use record::mass::Grams;
use record::season::Season;
use record::subject::Subject;
use record::unknown::FruitSeen;
use statistics::draws::{normal, stream};
use std::num::NonZeroU32;

/// How many varieties are made up.
const VARIETIES: usize = 3000;

/// A made-up variety: the logarithms of its true traits, and where its borders lie.
struct Truth {
    weight: f64,
    shape: f64,
    fullness: f64,
    neck: f64,
    locules: f64,
    dry_matter: f64,
    borders: [f64; 10],
}

/// What was done with a variety's fruit besides weighing and measuring.
#[derive(Clone, Copy)]
struct Care {
    cut: bool,
    necks: bool,
}

fn make_up(chance: &mut ChaCha8Rng) -> Truth {
    let weight = 3.912 + 1.3 * normal(chance);
    let shape = 0.33 * normal(chance);
    let fullness = 0.08 * normal(chance);
    let necked = 0.0953 <= shape && normal(chance) < -1.175;
    let egg = -0.1438 + 0.04 * normal(chance);
    Truth {
        weight,
        shape,
        fullness,
        neck: if necked { -0.51 } else { egg },
        locules: 1.7228 + 0.30 * (weight - 4.1589) + 0.3 * normal(chance),
        dry_matter: 1.778 - 0.212 * (weight - 4.1589) + 0.179 * normal(chance),
        borders: MEASURES.map(|measure| guide().softness_of(measure) * normal(chance)),
    }
}

impl Truth {
    fn log(&self, measure: Measure) -> f64 {
        let width = ellipsoid::log_width(self.weight, self.shape, self.fullness);
        match measure {
            Measure::Weight => self.weight,
            Measure::Width => width,
            Measure::Length => width + self.shape,
            Measure::Shape => self.shape,
            Measure::Neck => self.neck,
            Measure::Fullness => self.fullness,
            Measure::Locules => self.locules,
            Measure::DryMatter => self.dry_matter,
            Measure::Lobes | Measure::SolubleSolids => f64::NAN,
        }
    }

    fn within(&self, guide: &FruitGuide, band: &Band) -> bool {
        let (from, below) = guide.borders_of(band);
        let value = self.log(band.measure) - self.borders.get(band.measure as usize).unwrap();
        from.is_none_or(|from| from.log() <= value) && below.is_none_or(|below| value < below.log())
    }

    /// A slow, plain reading of the guide.
    fn class(&self, guide: &FruitGuide) -> Option<usize> {
        guide.classes.iter().position(|class| {
            class.ways.iter().any(|way| way.bands.iter().all(|band| self.within(guide, band)))
        })
    }

    /// Fruits of it, spread as the house's fruits are.
    fn fruits(&self, chance: &mut ChaCha8Rng, size: [u32; 3], care: Care) -> FruitSums {
        fruit::sums(self.samples(chance, size, care).iter())
    }

    fn samples(&self, chance: &mut ChaCha8Rng, size: [u32; 3], care: Care) -> Vec<FruitSample> {
        let [seasons, plants, fruits] = size;
        let mut samples = Vec::new();
        for season in 0..seasons {
            let [w, s, n, f, l] = moved(chance, [0.0; 5], [0.19, 0.02, 0.02, 0.02, 0.06]);
            for plant in 0..plants {
                let of_plant = moved(chance, [w, s, n, f, l], [0.21, 0.02, 0.025, 0.02, 0.08]);
                for _ in 0..fruits {
                    let one = moved(chance, of_plant, [0.31, 0.042, 0.05, 0.05, 0.20]);
                    samples.push(self.sample(season, plant, one, care));
                }
            }
        }
        samples
    }

    fn sample(&self, season: u32, plant: u32, moved: [f64; 5], care: Care) -> FruitSample {
        let [weight, shape, neck, fullness, locules] = moved;
        let (weight, shape) = (self.weight + weight, self.shape + shape);
        let width = ellipsoid::log_width(weight, shape, self.fullness + fullness);
        let mut sample = fruit::Fruits::weighing(1.0).sample(0, plant, 1.0);
        sample.subject = Subject {
            season: Season::new(2030 + season as i16).unwrap(),
            plant: Some(PlantNumber(plant)),
            ..sample.subject
        };
        sample.fruit_count = NonZeroU32::MIN;
        sample.weight = Grams::new(weight.exp());
        sample.length = Millimetres::new((width + shape).exp());
        sample.width = Millimetres::new(width.exp());
        sample.neck_width = care.necks.then(|| Millimetres::new((width + self.neck + neck).exp())).flatten();
        sample.locules = care.cut.then(|| (self.locules + locules).exp().round().max(1.0) as u32);
        sample
    }
}

fn moved(chance: &mut ChaCha8Rng, from: [f64; 5], by: [f64; 5]) -> [f64; 5] {
    let mut moved = from;
    moved.iter_mut().zip(by).for_each(|(value, by)| *value += by * normal(chance));
    moved
}

/// A bin of shares: how many, what they promised, how often they came true.
#[derive(Clone, Copy, Default)]
struct Bin {
    count: f64,
    promised: f64,
    kept: f64,
    variance: f64,
}

impl Bin {
    fn add(&mut self, (share, came_true): (f64, bool)) {
        self.count += 1.0;
        self.promised += share;
        self.kept += f64::from(u8::from(came_true));
        self.variance += share * (1.0 - share);
    }
}

/// Every share of every class is a promise. In ten bins, promises are kept as often as they say, within
/// four standard errors of counting and one draw in a hundred of sampling.
#[test]
fn promises_are_kept() {
    let mut chance = stream(&["calibration"]);
    let mut bins = [Bin::default(); 10];
    let mut verdicts = Bin::default();
    let mut sure = Bin::default();
    for number in 0..VARIETIES {
        let truth = make_up(&mut chance);
        let size = [1 + number as u32 % 3, 1 + number as u32 / 3 % 4, 1 + number as u32 / 12 % 8];
        let sums = truth.fruits(&mut chance, size, Care { cut: number % 2 == 0, necks: number % 5 != 0 });
        let called = call(&sums, &Spread::beforehand(), guide(), draws(), Units::US);
        let class = truth.class(guide()).map(|index| guide().classes[index].name.clone());
        let promises = called.shares.iter().map(|(name, share)| (share.get(), class.as_ref() == Some(name)));
        for (share, came_true) in promises.chain([(called.between.get(), class.is_none())]) {
            if 0.0 < share {
                bins[((share * 10.0) as usize).min(9)].add((share, came_true));
            }
        }
        let share = called.probability().get();
        verdicts.add((share, called.verdict == class));
        if CONTESTED_UNDER <= share {
            sure.add((share, called.verdict == class));
        }
    }
    println!("share of a class: promised, kept, how many");
    for bin in bins {
        println!("{:.3}  {:.3}  {}", bin.promised / bin.count, bin.kept / bin.count, bin.count);
        let slack = 4.0 * bin.variance.sqrt() + 0.01 * bin.count;
        assert!((bin.kept - bin.promised).abs() < slack, "{} promised, {} kept", bin.promised, bin.kept);
    }
    println!(
        "verdicts: {:.3} promised, {:.3} right of {}; uncontested: {:.3} promised, {:.3} right of {}",
        verdicts.promised / verdicts.count,
        verdicts.kept / verdicts.count,
        verdicts.count,
        sure.promised / sure.count,
        sure.kept / sure.count,
        sure.count
    );
    assert!(CONTESTED_UNDER < sure.kept / sure.count);
}

/// An unknown tomato is promised no more than it keeps, with one fruit in the hand, three of one plant, or ten
/// of ten plants: in bins of a tenth within four standard errors of counting and one draw in a hundred, and
/// the verdicts of each handful likewise.
#[test]
fn unknowns_are_promised_what_is_kept() {
    println!("fruits of plants: promised, right, uncontested of all");
    for (plants, fruits) in [(1, 1), (1, 3), (10, 1)] {
        let mut chance = stream(&["unknown", &plants.to_string(), &fruits.to_string()]);
        let (mut bins, mut verdicts, mut sure) = ([Bin::default(); 10], Bin::default(), 0);
        for number in 0..VARIETIES {
            let truth = make_up(&mut chance);
            let care = Care { cut: number % 2 == 0, necks: number % 5 != 0 };
            let samples = truth.samples(&mut chance, [1, plants, fruits], care);
            let called = call(&handful(&samples), &Spread::beforehand(), guide(), draws(), Units::US);
            let class = truth.class(guide()).map(|index| guide().classes[index].name.clone());
            let promises =
                called.shares.iter().map(|(name, share)| (share.get(), class.as_ref() == Some(name)));
            for (share, came_true) in promises.chain([(called.between.get(), class.is_none())]) {
                if 0.0 < share {
                    bins[((share * 10.0) as usize).min(9)].add((share, came_true));
                }
            }
            verdicts.add((called.probability().get(), called.verdict == class));
            sure += u32::from(!called.contested);
        }
        println!(
            "{} of {plants}: {:.3}, {:.3}, {sure}",
            plants * fruits,
            verdicts.promised / verdicts.count,
            verdicts.kept / verdicts.count
        );
        for bin in bins.into_iter().chain([verdicts]) {
            let slack = 4.0 * bin.variance.sqrt() + 0.01 * bin.count;
            assert!((bin.kept - bin.promised).abs() < slack, "{} promised, {} kept", bin.promised, bin.kept);
        }
    }
}

/// The same fruits as somebody who has no name for them would tell them.
fn handful(samples: &[FruitSample]) -> FruitSums {
    let seen = |sample: &FruitSample| FruitSeen {
        plant: sample.subject.plant,
        weight: sample.weight,
        length: sample.length,
        width: sample.width,
        neck_width: sample.neck_width,
        locules: sample.locules,
        ..FruitSeen::default()
    };
    let fruits = samples.iter().map(seen).collect();
    evidence(&Unknown { fruits, ..Unknown::nothing_seen(Season::new(2031).unwrap()) }).fruit
}
