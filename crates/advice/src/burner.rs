//! Heat and hours at the stove: what boiling down costs, as a range on a given burner.
//!
//! Full power cannot be held once the pot thickens, so the slow end of the range slows down. Start at [`heat`] and
//! [`Burner::hours`].

use crate::boiling::{Between, BoiledDown};
use record::mass::Grams;
use record::share::Share;
use record::temperature::Celsius;

/// An amount of heat in kilojoules.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Kilojoules(f64);

/// Kilojoules in a kilowatt-hour, exactly: 3600 seconds of a kilojoule each.
const KILOJOULES_PER_KILOWATT_HOUR: f64 = 3600.0;
const SECONDS_PER_HOUR: f64 = 3600.0;
const GRAMS_PER_KILOGRAM: f64 = 1000.0;

impl Kilojoules {
    /// Takes zero or more.
    #[must_use]
    pub fn new(kilojoules: f64) -> Option<Self> {
        (kilojoules.is_finite() && 0.0 <= kilojoules).then_some(Self(kilojoules))
    }

    /// The number of kilojoules.
    #[must_use]
    pub fn get(self) -> f64 {
        self.0
    }

    /// The same in kilowatt-hours.
    #[must_use]
    pub fn to_kilowatt_hours(self) -> f64 {
        self.0 / KILOJOULES_PER_KILOWATT_HOUR
    }
}

/// A power in kilowatts, above zero.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Kilowatts(f64);

impl Kilowatts {
    /// Takes what is above zero.
    #[must_use]
    pub fn new(kilowatts: f64) -> Option<Self> {
        (kilowatts.is_finite() && 0.0 < kilowatts).then_some(Self(kilowatts))
    }
}

/// Hours at the stove, zero or more.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Hours(f64);

impl Hours {
    /// The number of hours.
    #[must_use]
    pub fn get(self) -> f64 {
        self.0
    }
}

/// Where water leaves the pot: at which temperature, and what a kilogram of steam takes with it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Boil {
    /// The temperature of boiling, in degrees Celsius.
    pub celsius: f64,
    /// Heat of a kilogram of steam, in kilojoules.
    pub latent_kj: f64,
}

/// An open pot at sea level. Higher up it boils cooler and takes a little less, under 1 % in the steam, so this errs to
/// more. 2257 kJ/kg at 100 °C: steam tables, from memory, unverified.
pub const OPEN_POT: Boil = Boil { celsius: 100.0, latent_kj: 2257.0 };

/// Heat that a kilogram of tomato pulp takes a degree, in kilojoules. Source: food-engineering appendix as used in the
/// worked evaporator example that the tests hold this to (3.98 kJ/kg °C).
const PULP_KJ_PER_KG_DEGREE: f64 = 3.98;

/// What boiling down takes: heat to bring the pulp to the boil, and heat that leaves with the steam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Heat {
    /// To bring it to the boil.
    pub warming: Kilojoules,
    /// To drive the water off.
    pub steam: Kilojoules,
}

impl Heat {
    /// Both together.
    #[must_use]
    pub fn whole(self) -> Kilojoules {
        Kilojoules(self.warming.0 + self.steam.0)
    }
}

/// Heat to boil pulp down: m c (Tb - T0) + W L.
///
/// Only what reaches the pulp; the burner burns more. Where no water has to leave the pulp is still brought to the boil.
#[must_use]
pub fn heat(boiled_down: BoiledDown, from: Celsius, boil: Boil) -> Heat {
    let pulp = kilograms(boiled_down.product) + kilograms(boiled_down.water);
    let rise = (boil.celsius - from.get()).max(0.0);
    let steam = kilograms(boiled_down.water) * boil.latent_kj;
    Heat { warming: Kilojoules(pulp * PULP_KJ_PER_KG_DEGREE * rise), steam: Kilojoules(steam) }
}

fn kilograms(mass: Grams) -> f64 {
    mass.get() / GRAMS_PER_KILOGRAM
}

/// A burner's kind, which tells how much of its heat reaches the pot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Induction.
    Induction,
    /// Coil or glass-ceramic.
    Electric,
    /// Gas.
    Gas,
}

impl Kind {
    /// Part of the heat that reaches the pot, from the worst to the best that was measured.
    ///
    /// # Source
    /// Best, and electric throughout: U.S. Department of Energy figures as quoted by a maker of glass-ceramic. Worst of
    /// induction and gas: a boil test, 317 BTU of use out of 430 and of 992.
    #[must_use]
    pub fn share(self) -> Between<f64> {
        match self {
            Self::Induction => Between { low: 0.737, high: 0.84 },
            Self::Electric => Between { low: 0.74, high: 0.80 },
            Self::Gas => Between { low: 0.32, high: 0.44 },
        }
    }
}

/// Part of a burner's heat that reached the pot in the cook's own test; `None` where it burned nothing, or less.
#[must_use]
pub fn share_reaching(useful: Kilojoules, burned: Kilojoules) -> Option<Share> {
    (0.0 < burned.0).then(|| useful.0 / burned.0).and_then(Share::new)
}

/// A burner: what it draws or burns, and what part of that reaches the pot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Burner {
    power: Kilowatts,
    share: Between<f64>,
}

/// Most power that a thick pot takes without catching, in kilowatts. Source: computed from a home paste recipe of 14 lb
/// whose volume halves in an hour and halves again in 2.5 to 3 hours. It is one pot's figure: a wide pan takes more.
const THICK_KILOWATTS: f64 = 0.3;

/// Part of the pulp's mass below which the pot is thick: the recipe slows down after the first halving.
const THICK_FROM: f64 = 0.5;

impl Burner {
    /// A burner of a kind.
    #[must_use]
    pub fn of(kind: Kind, power: Kilowatts) -> Self {
        Self { power, share: kind.share() }
    }

    /// A burner whose share the cook has measured; `None` where nothing reaches the pot.
    #[must_use]
    pub fn measured(power: Kilowatts, share: Share) -> Option<Self> {
        let share = share.get();
        (0.0 < share).then_some(Self { power, share: Between { low: share, high: share } })
    }

    /// Hours at the stove: at full power with the best share, and with the worst share slowing down in the thick.
    #[must_use]
    pub fn hours(self, boiled_down: BoiledDown, heat: Heat) -> Between<Hours> {
        let (fast, slow) = (self.power.0 * self.share.high, self.power.0 * self.share.low);
        let thick = heat.steam.0 * thick_part(boiled_down);
        let thin = heat.whole().0 - thick;
        let seconds = thin / slow + thick / slow.min(THICK_KILOWATTS);
        let hours = |seconds: f64| Hours(seconds / SECONDS_PER_HOUR);
        Between { low: hours(heat.whole().0 / fast), high: hours(seconds) }
    }
}

/// Part of the water that leaves after the pot has turned thick.
fn thick_part(BoiledDown { product, water }: BoiledDown) -> f64 {
    let pulp = product.get() + water.get();
    let late = (THICK_FROM * pulp - product.get()).max(0.0);
    if 0.0 < water.get() { late / water.get() } else { 0.0 }
}
