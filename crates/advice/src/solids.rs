//! Solids of tomato: what is dissolved and read by a refractometer, and all that is left when the water is gone.
//!
//! The two are kept apart by type, because a pulp of 5 % soluble solids holds about 6 % in all: a balance that takes
//! one for the other is wrong by a quarter. Start at [`Composition`]; [`Soluble`] and [`Total`] are the measures.

use record::share::{Percent, Share};

/// Soluble tomato solids, per cent of the mass: the reading of the filtered serum where no salt was added.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Soluble(f64);

/// All tomato solids, soluble or not, per cent of the mass: dry matter.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Total(f64);

/// A measure of strength that boiling down raises, as it takes water and leaves solids.
pub trait Strength: Copy {
    /// Per cent of the mass, above 0 and at most 100.
    fn percent(self) -> f64;
}

impl Soluble {
    /// Takes more than 0 and at most 100 %.
    #[must_use]
    pub fn new(percent: f64) -> Option<Self> {
        (0.0 < percent && percent <= 100.0).then_some(Self(percent))
    }
}

impl Total {
    /// Takes more than 0 and at most 100 %.
    #[must_use]
    pub fn new(percent: f64) -> Option<Self> {
        (0.0 < percent && percent <= 100.0).then_some(Self(percent))
    }
}

impl Strength for Soluble {
    fn percent(self) -> f64 {
        self.0
    }
}

impl Strength for Total {
    fn percent(self) -> f64 {
        self.0
    }
}

/// What the reading less its salt is multiplied by. Source: 21 CFR 156.3(b), same as 155.3(e).
const SALT_FACTOR: f64 = 1.016;

/// Soluble tomato solids of a product with salt: the reading less the salt, corrected.
///
/// `None` where nothing is left of the reading.
///
/// # Source
/// 21 CFR 156.3(b): (reading - per cent of sodium chloride) x 1.016.
#[must_use]
pub fn without_salt(reading: Percent, salt: Percent) -> Option<Soluble> {
    Soluble::new((reading.get() - salt.get()) * SALT_FACTOR)
}

/// What a fruit or its pulp is made of: soluble and insoluble solids in water.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Composition {
    soluble: f64,
    insoluble: f64,
}

/// The part of a fruit's insoluble solids that is skin and seed, and stays in the strainer: 0.25 of 1.44 % of the mass.
/// Source: "Factors affecting tomato solids", Tomato Day, Leamington 2018 (processing fruit, California).
const SKIN_AND_SEED: f64 = 0.25 / 1.44;

/// All solids over soluble ones, of whole fruit. Source: computed from the same table, (4.37 + 1.44) / 4.37.
const TOTAL_OVER_SOLUBLE: f64 = (4.37 + 1.44) / 4.37;

/// Soluble solids of processing fruit, in per cent. Source: the same table.
const PROCESSING_SOLUBLE: f64 = 4.37;

impl Composition {
    /// From both measures of the same fruit; `None` where more is dissolved than there is.
    #[must_use]
    pub fn measured(soluble: Soluble, total: Total) -> Option<Self> {
        let insoluble = total.0 - soluble.0;
        (0.0 <= insoluble).then_some(Self { soluble: soluble.0, insoluble })
    }

    /// From soluble solids alone, with as much that is not dissolved as processing fruit has.
    ///
    /// Published panels of whole fruit run from 1.30 to 1.58 of total over soluble, so a house that weighs dry matter
    /// knows better. `None` above the strength where nothing but solids would be left.
    #[must_use]
    pub fn usual(soluble: Soluble) -> Option<Self> {
        Self::measured(soluble, Total::new(soluble.0 * TOTAL_OVER_SOLUBLE)?)
    }

    /// What fruit is taken to be made of: the middle of what the house measured of it in soluble solids, else what its
    /// classes usually have, else processing fruit.
    #[must_use]
    pub fn expected(measured: &[f64], classes: &[String]) -> Option<Self> {
        let mut measured = measured.to_vec();
        measured.sort_by(f64::total_cmp);
        let usual = USUAL_SOLUBLE.iter().find(|usual| classes.iter().any(|class| class == usual.class));
        let middle = measured.get(measured.len() / 2).copied();
        let soluble = middle.or(usual.map(|usual| usual.mean)).unwrap_or(PROCESSING_SOLUBLE);
        Self::usual(Soluble::new(soluble)?)
    }

    /// The same without skin and seed, for the same mass of the rest.
    #[must_use]
    pub fn strained(self) -> Self {
        let left = self.insoluble * SKIN_AND_SEED;
        let kept = 100.0 - left;
        Self { soluble: 100.0 * self.soluble / kept, insoluble: 100.0 * (self.insoluble - left) / kept }
    }

    /// Its soluble solids.
    #[must_use]
    pub fn soluble(self) -> Soluble {
        Soluble(self.soluble)
    }

    /// All its solids.
    #[must_use]
    pub fn total(self) -> Total {
        Total(self.soluble + self.insoluble)
    }

    /// What a refractometer reads of its serum: solids over solids and water, without what is not dissolved.
    ///
    /// In juice it is the soluble solids to within a tenth; in paste one or two degrees more, so a cook who stops at
    /// 24 on the scale has less than 24 % in the pot. `None` where there is no serum.
    #[must_use]
    pub fn reading(self) -> Option<Percent> {
        Percent::new(100.0 * self.soluble / (100.0 - self.insoluble))
    }

    /// The soluble solids at which the serum of this pulp, boiled down, reads so much.
    #[must_use]
    pub fn soluble_at(self, reading: Percent) -> Option<Soluble> {
        // With k = insoluble / soluble kept by boiling, b = n / (1 - k n) and so n = b / (1 + k b).
        let body = self.insoluble / self.soluble;
        let serum = reading.get() / 100.0;
        Soluble::new(100.0 * serum / (1.0 + body * serum))
    }
}

/// What a fruit class usually has in soluble solids, until the house has measured its own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UsualSoluble {
    /// The fruit class, as the shipped guide names it.
    pub class: &'static str,
    /// The mean, in per cent.
    pub mean: f64,
    /// How far varieties of the class lie from it, one standard deviation in per cent.
    pub spread: f64,
}

/// Soluble solids by fruit class. Source: own working priors, between published loads, trusses and shop fruit; paste
/// types are not much sweeter than slicers, they boil down less for their body.
pub const USUAL_SOLUBLE: [UsualSoluble; 8] = [
    UsualSoluble { class: "slicer", mean: 4.5, spread: 0.6 },
    UsualSoluble { class: "beefsteak", mean: 4.6, spread: 0.7 },
    UsualSoluble { class: "paste", mean: 4.9, spread: 0.5 },
    UsualSoluble { class: "plum", mean: 4.9, spread: 0.5 },
    UsualSoluble { class: "saladette", mean: 5.0, spread: 0.6 },
    UsualSoluble { class: "grape", mean: 6.5, spread: 0.9 },
    UsualSoluble { class: "cherry", mean: 7.3, spread: 1.1 },
    UsualSoluble { class: "currant", mean: 7.5, spread: 1.2 },
];

/// Specific gravity of strained pulp at 20 °C against water of 20 °C.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Gravity {
    /// Between the weakest and the strongest pulp that were weighed.
    Weighed(f64),
    /// Outside them, by a mixing rule that nobody has held to a scale there.
    Reckoned(f64),
}

/// Total solids of the weakest and the strongest pulp in the tables, in per cent. Source: National Canners Association,
/// Research Laboratory Bulletin 21L (1923), Table 9.
const WEIGHED_PULP: std::ops::RangeInclusive<f64> = 2.79..=12.06;
/// Line through the tables' pulps, off by at most 0.0001. Source: own fit to Bulletin 21L, Tables 5 and 9.
const GRAVITY_AT_NOTHING: f64 = 1.0011;
/// The same line's rise a per cent of total solids.
const GRAVITY_A_PERCENT: f64 = 0.004_046;
/// Density of water at 20 °C in kilograms a cubic metre. From memory, unverified.
const WATER_DENSITY: f64 = 998.2;
/// Density of tomato solids in kilograms a cubic metre. Source: own fit, within 0.0012 of the tables below 12 %.
const SOLIDS_DENSITY: f64 = 1670.0;

impl Gravity {
    /// Of pulp with so much solids.
    #[must_use]
    pub fn of(total: Total) -> Self {
        if WEIGHED_PULP.contains(&total.0) {
            return Self::Weighed(GRAVITY_AT_NOTHING + GRAVITY_A_PERCENT * total.0);
        }
        let share = total.0 / 100.0;
        Self::Reckoned(1.0 / ((1.0 - share) + share * WATER_DENSITY / SOLIDS_DENSITY))
    }

    /// The number.
    #[must_use]
    pub fn get(self) -> f64 {
        let (Self::Weighed(gravity) | Self::Reckoned(gravity)) = self;
        gravity
    }
}

/// The volume left when pulp of one strength is boiled down to another, as a share of the first volume.
///
/// `None` where the second is the weaker by so much that the volume would grow.
///
/// # Source
/// Bulletin 21L (1923), Table 9: V2 / V1 = SG1 TS1 / (SG2 TS2).
#[must_use]
pub fn volume_left(from: Total, to: Total) -> Option<Share> {
    Share::new(Gravity::of(from).get() * from.0 / (Gravity::of(to).get() * to.0))
}
