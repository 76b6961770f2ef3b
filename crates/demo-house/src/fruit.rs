//! Fruit as it truly grew: every sampled fruit, drawn round its plant, its season and its variety.
//!
//! log weight = variety + season and garden + variety in that season + plant + fruit; the shape is far
//! steadier than the weight; the scale then differs by 5 % from the ellipsoid. Start at [`sample`].

use crate::chance::{between, factor, happens, normal, stream, whole};
use crate::garden::{Plant, Plot};
use crate::hue;
use crate::ripening;
use crate::roll::{Mark, Missing};
use crate::truth::{Shape, TrueVariety};
use jiff::civil::Date;
use rand_chacha::ChaCha8Rng;
use record::colour::{Skin, TradeColour};
use record::fruit::Severity;
use record::length::Millimetres;
use record::mass::Grams;
use record::share::Percent;

/// One fruit as it truly was on the bench. What its keeper wrote of it is another matter.
#[derive(Clone, Debug)]
pub struct BenchFruit {
    /// The day.
    pub day: Date,
    /// The plant's number in its plot.
    pub plant: u32,
    /// How many were weighed together; 1 but for the smallest.
    pub together: u32,
    /// Weight of one.
    pub weight: Option<Grams>,
    /// Stem end to blossom end.
    pub length: Option<Millimetres>,
    /// Greatest width.
    pub width: Option<Millimetres>,
    /// Width a quarter down.
    pub neck_width: Option<Millimetres>,
    /// Seed chambers.
    pub locules: Option<u32>,
    /// Degrees Brix.
    pub soluble_solids: Option<Percent>,
    /// Dry matter.
    pub dry_matter: Option<Percent>,
    /// Lobes.
    pub lobes: u32,
    /// Cracks.
    pub cracking: Severity,
    /// Catfacing.
    pub catfacing: Severity,
    /// Outside colour.
    pub exterior: TradeColour,
    /// Flesh colour.
    pub flesh: TradeColour,
    /// Peeled skin, where peeled.
    pub skin: Option<Skin>,
    /// True where the plant is not what the label says.
    pub stranger: bool,
}

/// Spreads on the log scale. Source: identity facts, section 5 (fruit within plant .30 to .33 in mostly
/// wild and cherry types, taken lower for bred fruit; length over width .042; solids .124; dry matter
/// .13), and 5 % of the scale about the ellipsoid. Variety within a season: common practice, no source.
const VARIETY_IN_SEASON: f64 = 0.09;
const BETWEEN_FRUITS: f64 = 0.22;
const SHAPE_BETWEEN_FRUITS: f64 = 0.042;
const SHAPE_BETWEEN_PLANTS: f64 = 0.02;
const SCALE_ABOUT_ELLIPSOID: f64 = 0.05;
const SOLIDS_BETWEEN_FRUITS: f64 = 0.124;
const SOLIDS_BETWEEN_PLANTS: f64 = 0.1;
const DRY_MATTER_BETWEEN_FRUITS: f64 = 0.13;
const NECK_BETWEEN_FRUITS: f64 = 0.03;
const LOCULES_BETWEEN_FRUITS: f64 = 0.13;

/// A neck is never wider than the fruit; a heart comes near. Common practice, no source.
const WIDEST_NECK: f64 = 0.985;

/// Fruits taken from one plant, and how many plants of a plot are sampled.
const FRUITS_OF_A_PLANT: u32 = 6;
const PLANTS_SAMPLED: usize = 4;

/// Draws the fruit that came to the bench from one plot.
#[must_use]
pub fn sample(seed: u64, truth: &[TrueVariety], plot: &Plot) -> Vec<BenchFruit> {
    let draws = &mut stream(seed, &["fruit", &plot.full_label()]);
    let in_season = normal(draws, VARIETY_IN_SEASON);
    let standing = plot.plants.iter().filter(|plant| plant.lost.is_none());
    let sampled: Vec<&Plant> = standing.take(PLANTS_SAMPLED).collect();
    sampled.into_iter().flat_map(|plant| of_plant(draws, truth, plot, plant, in_season)).collect()
}

fn of_plant(
    draws: &mut ChaCha8Rng,
    truth: &[TrueVariety],
    plot: &Plot,
    plant: &Plant,
    in_season: f64,
) -> Vec<BenchFruit> {
    let Some(variety) = truth.get(plant.truly.0) else { return Vec::new() };
    let missing = plot.label_of(truth).and_then(|label| label.entry.missing);
    let on_plant = OnPlant {
        variety,
        stranger: plant.truly != plot.labelled,
        missing,
        number: plant.number,
        heavier: plot.grow_out.heavier + in_season + plant.heavier,
        shape: normal(draws, SHAPE_BETWEEN_PLANTS),
        solids: normal(draws, SOLIDS_BETWEEN_PLANTS),
    };
    let days = ripening::sampling_days(draws, plot, variety, FRUITS_OF_A_PLANT);
    days.into_iter().filter_map(|day| on_plant.fruit(draws, day)).collect()
}

/// What the fruits of one plant share.
struct OnPlant<'a> {
    variety: &'a TrueVariety,
    stranger: bool,
    missing: Option<Missing>,
    number: u32,
    heavier: f64,
    shape: f64,
    solids: f64,
}

impl OnPlant<'_> {
    fn fruit(&self, draws: &mut ChaCha8Rng, day: Date) -> Option<BenchFruit> {
        let shape = self.shape(draws)?;
        let cut = happens(draws, 0.45) && self.missing != Some(Missing::Uncut);
        let measured = happens(draws, 0.8) && self.missing != Some(Missing::Unweighed);
        let scale = factor(draws, SCALE_ABOUT_ELLIPSOID);
        let weighed = self.missing != Some(Missing::Unweighed);
        let locules = self.locules(draws);
        let solids = self.solids(draws)?;
        let dry_matter = self.dry_matter(draws)?;
        let colour = self.variety.entry.colour;
        let neck = (shape.neck * factor(draws, NECK_BETWEEN_FRUITS)).min(WIDEST_NECK);
        let neck_width = shape.width.get() * neck;
        let long = 1.15 <= shape.length_over_width() || happens(draws, 0.1);
        Some(BenchFruit {
            day,
            plant: self.number,
            together: if shape.weight.get() < 1.0 { 20 } else { 1 },
            weight: Grams::new(shape.weight.get() * scale).filter(|_| weighed),
            length: Some(shape.length).filter(|_| measured),
            width: Some(shape.width).filter(|_| measured),
            neck_width: Millimetres::new(neck_width).filter(|_| measured && long),
            locules: Some(locules).filter(|_| cut),
            soluble_solids: Some(solids).filter(|_| cut && happens(draws, 0.45)),
            dry_matter: Some(dry_matter).filter(|_| cut && happens(draws, 0.15)),
            lobes: self.variety.shape.lobes,
            cracking: severity(draws, crack_chance(self.variety)),
            catfacing: severity(draws, catface_chance(self.variety)),
            exterior: colour,
            flesh: hue::flesh(colour),
            skin: happens(draws, 0.1).then(|| hue::skin(colour)),
            stranger: self.stranger,
        })
    }

    fn shape(&self, draws: &mut ChaCha8Rng) -> Option<Shape> {
        let typical = &self.variety.shape;
        let weight = typical.weight.get() * (self.heavier + normal(draws, BETWEEN_FRUITS)).exp();
        let ratio = typical.length_over_width() * (self.shape + normal(draws, SHAPE_BETWEEN_FRUITS)).exp();
        typical.scaled(weight, ratio)
    }

    fn locules(&self, draws: &mut ChaCha8Rng) -> u32 {
        let mean = self.variety.inside.locules;
        // Fruits of two-chambered sorts are steady; many-chambered ones vary.
        let drawn = if mean < 2.7 { mean } else { mean * factor(draws, LOCULES_BETWEEN_FRUITS) };
        whole(draws, drawn).max(2)
    }

    fn solids(&self, draws: &mut ChaCha8Rng) -> Option<Percent> {
        let off = (self.solids + normal(draws, SOLIDS_BETWEEN_FRUITS)).exp();
        Percent::new(self.variety.inside.soluble_solids.get() * off)
    }

    fn dry_matter(&self, draws: &mut ChaCha8Rng) -> Option<Percent> {
        let off = (self.solids + normal(draws, DRY_MATTER_BETWEEN_FRUITS)).exp();
        Percent::new(self.variety.inside.dry_matter.get() * off)
    }
}

/// Chance of catfacing: rises with size, and with ribs. Source: identity facts, section 5: big fruit
/// worse, cherry, grape and most paste seldom; the numbers are common practice, no source.
fn catface_chance(variety: &TrueVariety) -> f64 {
    let ribbed = if variety.entry.mark == Some(Mark::Ribbed) { 0.15 } else { 0.0 };
    let size = (variety.shape.weight.get() / 150.0).powf(1.5) * 0.08;
    (size + ribbed).min(0.6)
}

/// Chance of cracks: more in thin-skinned cherries and in big fruit. Common practice, no source.
fn crack_chance(variety: &TrueVariety) -> f64 {
    match variety.shape.weight.get() {
        small if small < 10.0 => 0.18,
        middle if middle < 150.0 => 0.06,
        _ => 0.15,
    }
}

fn severity(draws: &mut ChaCha8Rng, chance: f64) -> Severity {
    match between(draws, (0.0, 1.0)) / chance.max(1e-6) {
        least if 1.0 <= least => Severity::Absent,
        slight if 0.5 <= slight => Severity::Slight,
        moderate if 0.15 <= moderate => Severity::Moderate,
        _ => Severity::Severe,
    }
}
