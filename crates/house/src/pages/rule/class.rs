//! How a fruit class is called: the guide's ways and borders, the house's spread, and a fixed set of chances; and
//! handfuls of fruit with the science's own answers.

use identity::call::Action;
use identity::guide::fruit::measure::MEASURES;
use identity::guide::fruit::{Band, FruitGuide};
use identity::spread::Spread;
use identity::sums::Trait;
use identity::unknown::shares::{Chances, class_looks, class_shares};
use publish::pages::what::rule::{ClassRule, RuleBand, RuleWay, TraitSpread, Trial};
use record::growout::PlantNumber;
use record::length::Millimetres;
use record::mass::Grams;
use record::season::Season;
use record::share::Percent;
use record::unknown::FruitSeen;

/// Rows of chances: a share is steady to about two in a hundred. A choice of the pages: more would be more to load.
const ROWS: usize = 256;

/// Traits with the names that `what.js` gives them.
const TRAITS: [(Trait, &str); 10] = [
    (Trait::Weight, "weight"),
    (Trait::Width, "width"),
    (Trait::Length, "length"),
    (Trait::Shape, "shape"),
    (Trait::Neck, "neck"),
    (Trait::Fullness, "fullness"),
    (Trait::Locules, "locules"),
    (Trait::Lobes, "lobes"),
    (Trait::SolubleSolids, "solids"),
    (Trait::DryMatter, "dry"),
];

/// The rule of this guide and house.
pub(super) fn of(guide: &FruitGuide, spread: &Spread) -> ClassRule {
    let chances = Chances::new(ROWS);
    let classes = guide.classes.iter().enumerate();
    let ways = classes.flat_map(|(into, class)| {
        class
            .ways
            .iter()
            .map(move |way| RuleWay { into, bands: way.bands.iter().map(|band| ends(guide, band)).collect() })
    });
    let traits = TRAITS.iter().filter_map(|(of, name)| {
        let variances = spread.of(*of)?;
        let (season, plant, fruit) = (variances.season(), variances.plant(), variances.fruit());
        Some(TraitSpread { of: name, season, plant, fruit })
    });
    ClassRule {
        ways: ways.collect(),
        softness: MEASURES.map(|measure| guide.softness_of(measure)).to_vec(),
        spread: traits.collect(),
        chances: chances.rows().map(<[f64]>::to_vec).collect(),
        trials: TRIALS.iter().filter_map(|fruits| trial(fruits, guide, spread, &chances)).collect(),
    }
}

fn ends(guide: &FruitGuide, band: &Band) -> RuleBand {
    let (from, below) = guide.borders_of(band);
    RuleBand {
        measure: band.measure as usize,
        from: from.map(identity::guide::fruit::Border::log),
        below: below.map(identity::guide::fruit::Border::log),
    }
}

/// What was measured of one fruit, by the names of `what.js`.
type Measured = &'static [(&'static str, f64)];

/// Handfuls that go every way through the sum: each set of measures, small and large, near borders and far from them,
/// of one plant and of several.
const TRIALS: [&[Measured]; 21] = [
    &[&[("weight", 58.0), ("length", 61.0), ("width", 38.0)]],
    &[&[("weight", 58.0), ("length", 61.0), ("width", 38.0), ("neck", 20.0), ("locules", 2.0), ("dry", 6.5)]],
    &[&[("weight", 3.0)]],
    &[&[("weight", 28.0)]],
    &[&[("weight", 250.0), ("locules", 5.0)]],
    &[&[("weight", 330.0), ("locules", 9.0), ("solids", 4.1)]],
    &[&[("width", 10.0)]],
    &[&[("width", 25.0)]],
    &[&[("length", 55.0)]],
    &[&[("length", 82.0), ("width", 44.0)]],
    &[&[("length", 42.0), ("width", 24.0), ("neck", 14.0)]],
    &[&[("weight", 100.0), ("width", 40.0)]],
    &[&[("weight", 100.0), ("length", 90.0)]],
    &[&[("weight", 180.0), ("length", 95.0), ("width", 60.0), ("dry", 5.6)]],
    &[&[("weight", 180.0), ("length", 95.0), ("width", 60.0), ("solids", 3.8), ("dry", 5.4)]],
    &[&[("weight", 16.0), ("length", 30.0), ("width", 29.5), ("solids", 8.2), ("locules", 2.0)]],
    &[&[("weight", 64.0)], &[("weight", 81.0)], &[("length", 66.0), ("width", 40.0)]],
    &[
        &[("weight", 71.0), ("plant", 1.0)],
        &[("weight", 93.0), ("lobes", 3.0), ("plant", 2.0)],
        &[("weight", 84.0), ("plant", 2.0)],
        &[("weight", 77.0), ("length", 58.0), ("plant", 3.0)],
    ],
    &[
        &[("width", 71.0), ("locules", 7.0), ("plant", 4.0)],
        &[("width", 84.0), ("locules", 11.0), ("plant", 9.0)],
        &[("length", 52.0), ("plant", 9.0)],
    ],
    &[&[("locules", 2.0)]],
    &[
        &[("weight", 412.0), ("length", 68.0), ("width", 99.0), ("locules", 12.0), ("plant", 1.0)],
        &[("weight", 388.0), ("length", 70.0), ("width", 97.0), ("lobes", 6.0), ("plant", 2.0)],
    ],
];

fn trial(fruits: &[Measured], guide: &FruitGuide, spread: &Spread, chances: &Chances) -> Option<Trial> {
    let seen = |measured: &Measured| {
        measured.iter().fold(FruitSeen::default(), |fruit, (of, value)| with(fruit, of, *value))
    };
    let handful: Vec<FruitSeen> = fruits.iter().map(seen).collect();
    // The season only sorts fruits, and there is one.
    let season = Season::new(2000)?;
    let answer = class_shares(&handful, season, spread, guide, chances);
    let shares = answer.map(|answer| answer.shares.iter().map(|(_, share)| share.get()).collect());
    let looks = class_looks(&handful, season, spread, guide, chances).into_iter();
    let mut looks: Vec<(&'static str, f64)> =
        looks.filter_map(|step| Some((name(step.action)?, step.expected.get()))).collect();
    looks.sort_by(|one, other| other.1.total_cmp(&one.1));
    Some(Trial {
        fruits: fruits.iter().map(|own| own.to_vec()).collect(),
        shares: shares.unwrap_or_default(),
        looks,
    })
}

/// A look, as `class_looks.js` names it.
fn name(action: Action) -> Option<&'static str> {
    match action {
        Action::WeighFruits(_) => Some("weigh"),
        Action::MeasureSizes(_) => Some("sizes"),
        Action::MeasureNecks(_) => Some("necks"),
        Action::CutFruits(_) => Some("cut"),
        Action::ReadRefractometer(_) => Some("juice"),
        Action::MoreFruits(_) => Some("fruits"),
        Action::MorePlants { .. } => Some("plants"),
        _ => None,
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "small whole counts written above"
)]
fn with(fruit: FruitSeen, of: &str, value: f64) -> FruitSeen {
    match of {
        "weight" => FruitSeen { weight: Grams::new(value), ..fruit },
        "length" => FruitSeen { length: Millimetres::new(value), ..fruit },
        "width" => FruitSeen { width: Millimetres::new(value), ..fruit },
        "neck" => FruitSeen { neck_width: Millimetres::new(value), ..fruit },
        "locules" => FruitSeen { locules: Some(value as u32), ..fruit },
        "lobes" => FruitSeen { lobes: Some(value as u32), ..fruit },
        "plant" => FruitSeen { plant: Some(PlantNumber(value as u32)), ..fruit },
        "solids" => FruitSeen { soluble_solids: Percent::new(value), ..fruit },
        _ => FruitSeen { dry_matter: Percent::new(value), ..fruit },
    }
}
