//! The certified classes of tomato seed: how far from other varieties, how few off-types in field and seed.
//!
//! Start at [`faults`]. Keeping to these figures does not certify seed; only a certifying agency does.

use record::length::{INCHES_PER_FOOT, MILLIMETRES_PER_INCH, Millimetres};
use record::share::Share;

/// A class of certified seed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Class {
    /// Grown from breeder seed.
    Foundation,
    /// Grown from foundation seed.
    Registered,
    /// Grown from foundation or registered seed.
    Certified,
}

/// All classes, the strictest first.
pub const CLASSES: [Class; 3] = [Class::Foundation, Class::Registered, Class::Certified];

/// A distance this little short still counts, so that 30 ft typed in and turned to millimetres stays 30 ft.
const ROUNDING_MM: f64 = 0.001;

impl Class {
    /// The least distance to another variety, in feet. Source: 7 CFR 201.76 (2015), table 5, tomato and note 25.
    fn isolation_feet(self) -> f64 {
        match self {
            Self::Foundation => 200.0,
            Self::Registered => 100.0,
            Self::Certified => 30.0,
        }
    }

    /// The least distance to a neighbour, in millimetres; half between classes of one variety (note 25).
    #[must_use]
    pub fn isolation_mm(self, neighbour: Neighbour) -> f64 {
        let whole = self.isolation_feet() * INCHES_PER_FOOT * MILLIMETRES_PER_INCH;
        match neighbour {
            Neighbour::OtherVariety => whole,
            Neighbour::OtherClassOfVariety => 0.5 * whole,
        }
    }

    /// Plants among which the field may hold one off-type; `None` where it may hold none.
    /// Source: 7 CFR 201.76 (2015), table 5.
    #[must_use]
    pub fn plants_for_one_off_type(self) -> Option<u32> {
        match self {
            Self::Foundation => None,
            Self::Registered => Some(300),
            Self::Certified => Some(150),
        }
    }

    /// Most seed of other varieties and off-types, in per cent. Source: 7 CFR 201.76 (2015), table 5.
    #[must_use]
    pub fn most_in_seed_percent(self) -> f64 {
        match self {
            Self::Foundation => 0.0,
            Self::Registered => 0.5,
            Self::Certified => 1.0,
        }
    }
}

/// What stands next to a seed field.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Neighbour {
    /// Tomatoes of another variety.
    OtherVariety,
    /// The same variety in another class.
    OtherClassOfVariety,
}

/// What is known of a field and its seed; what is not known is not judged.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Field {
    /// The nearest tomatoes and how far they stand.
    pub nearest: Option<(Neighbour, Millimetres)>,
    /// Off-types seen, and plants looked at.
    pub off_types: Option<(u32, u32)>,
    /// Share of the seed that a grow-out of the lot showed to be something else.
    pub in_seed: Option<Share>,
}

/// What keeps a field from a class.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ClassFault {
    /// A neighbour stands too near.
    TooNear,
    /// Too many off-types in the field, or too few plants looked at to allow the ones seen.
    OffTypes,
    /// Too much else in the seed.
    InSeed,
}

/// All that keeps a field from a class; empty where nothing known does.
#[must_use]
pub fn faults(class: Class, field: &Field) -> Vec<ClassFault> {
    let near = field
        .nearest
        .is_some_and(|(neighbour, away)| away.get() + ROUNDING_MM < class.isolation_mm(neighbour));
    let off_types = field.off_types.is_some_and(|(seen, plants)| too_many(class, seen, plants));
    let in_seed = field.in_seed.is_some_and(|share| class.most_in_seed_percent() < 100.0 * share.get());
    let found =
        [(near, ClassFault::TooNear), (off_types, ClassFault::OffTypes), (in_seed, ClassFault::InSeed)];
    found.into_iter().filter(|(found, _)| *found).map(|(_, fault)| fault).collect()
}

fn too_many(class: Class, seen: u32, plants: u32) -> bool {
    match class.plants_for_one_off_type() {
        None => 0 < seen,
        Some(for_one) => u64::from(plants) < u64::from(seen) * u64::from(for_one),
    }
}
