//! What a kitchen makes of fruit, and what that takes: fruit as bought, jars, canner loads, water to boil off, hours.
//!
//! Start at [`PutUp::fruit_for`] and [`sums`]. Process times are not here: see [`crate::preserving`].

use crate::boiling::{Between, BoiledDown, boil_down, home_waste, pulp};
use crate::burner::{Burner, Heat, Hours, OPEN_POT, heat};
use crate::jars::{Filling, Jar, jars_filled, loads_for};
use crate::market::dried_share;
use crate::preserving::Product;
use crate::solids::{Composition, Gravity, Soluble, Strength, Total, volume_left};
use crate::standard::{self, Fruit, Name};
use record::mass::{GRAMS_PER_POUND, Grams};
use record::share::Share;
use record::temperature::Celsius;

/// What fruit is put up as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PutUp {
    /// Juice.
    Juice,
    /// Crushed, without added liquid.
    Crushed,
    /// Whole or halved, in water.
    InWater,
    /// Whole or halved, in tomato juice.
    InJuice,
    /// Whole or halved, raw, without added liquid.
    Raw,
    /// Sauce boiled down by about a third.
    ThinSauce,
    /// Sauce boiled down by about a half.
    ThickSauce,
    /// Paste of 24 % soluble solids.
    Paste,
    /// Ketchup.
    Ketchup,
    /// Spaghetti sauce without meat.
    SpaghettiSauce,
    /// Salsa of paste types.
    Salsa,
    /// Frozen.
    Frozen,
    /// Dried.
    Dried,
}

/// Pounds of fruit to a pint of ketchup: 24 lb make 6 to 7 pints. Source: Complete Guide to Home Canning (2015), Guide 3.
const KETCHUP_POUNDS: f64 = 24.0 / 6.0;
/// Pounds to a pint of spaghetti sauce: 30 lb make about 9 pints. Source: National Center for Home Food Preservation.
const SPAGHETTI_POUNDS: f64 = 30.0 / 9.0;
/// Pounds to a pint of salsa: 7 quarts peeled and chopped make 16 to 18 pints (a state extension), 2.5 cups chopped are a
/// pound (USDA Foods sheet 900215, 2012) and 0.87 of what is bought is left (Food Buying Guide). Computed from these.
const SALSA_POUNDS: f64 = 28.0 / 2.5 / 0.87 / 16.0;
/// Pounds to a quart frozen, the most of 2.5 to 3.5. Source: Colorado State Extension, freezing.
const FROZEN_POUNDS: f64 = 3.5;
/// Soluble solids of paste, in per cent. Source: 21 CFR 155.191(a).
const PASTE_SOLUBLE: f64 = standard::PASTE_FROM;
/// Part of the volume that is left of thin sauce. Source: National Center for Home Food Preservation.
const THIN_LEFT: f64 = 2.0 / 3.0;
/// Part of the volume that is left of thick sauce. Source: the same.
const THICK_LEFT: f64 = 0.5;
/// Water in dried fruit, per cent of its mass. Common practice, no source.
const DRIED_WATER: f64 = 0.10;
/// Part of the fruit that is dried, after trimming. Source: Food Buying Guide for Child Nutrition (cored and diced).
const TRIMMED: f64 = 0.87;
/// Fruit comes in at room warmth, in degrees Celsius. Common practice, no source.
const ROOM: f64 = 20.0;

impl PutUp {
    /// All of them.
    pub const ALL: [Self; 13] = [
        Self::Juice,
        Self::Crushed,
        Self::InWater,
        Self::InJuice,
        Self::Raw,
        Self::ThinSauce,
        Self::ThickSauce,
        Self::Paste,
        Self::Ketchup,
        Self::SpaghettiSauce,
        Self::Salsa,
        Self::Frozen,
        Self::Dried,
    ];

    /// Its name, as requests write it and people read it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Juice => "juice",
            Self::Crushed => "crushed",
            Self::InWater => "whole in water",
            Self::InJuice => "whole in tomato juice",
            Self::Raw => "whole without added liquid",
            Self::ThinSauce => "thin sauce",
            Self::ThickSauce => "thick sauce",
            Self::Paste => "paste",
            Self::Ketchup => "ketchup",
            Self::SpaghettiSauce => "spaghetti sauce without meat",
            Self::Salsa => "salsa of paste types",
            Self::Frozen => "frozen",
            Self::Dried => "dried",
        }
    }

    /// The product of this name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        let name = name.trim().to_lowercase();
        Self::ALL.into_iter().find(|put_up| put_up.name() == name)
    }

    /// The product that the published guide has a process for; nothing where it has none, and then it is frozen or dried.
    #[must_use]
    pub fn process(self) -> Option<Product> {
        match self {
            Self::Juice => Some(Product::Juice),
            Self::Crushed => Some(Product::Crushed),
            Self::InWater => Some(Product::InWater),
            Self::InJuice => Some(Product::InJuice),
            Self::Raw => Some(Product::Raw),
            Self::ThinSauce | Self::ThickSauce => Some(Product::Sauce),
            Self::Ketchup => Some(Product::Ketchup),
            Self::SpaghettiSauce => Some(Product::SpaghettiSauce),
            Self::Salsa => Some(Product::SalsaOfPasteTypes),
            Self::Paste | Self::Frozen | Self::Dried => None,
        }
    }

    fn filling(self) -> Option<Filling> {
        match self {
            Self::Juice => Some(Filling::Juice),
            Self::Crushed => Some(Filling::Crushed),
            Self::InWater => Some(Filling::InWater),
            Self::InJuice => Some(Filling::InJuice),
            Self::Raw => Some(Filling::Raw),
            Self::ThinSauce => Some(Filling::ThinSauce),
            Self::ThickSauce => Some(Filling::ThickSauce),
            _ => None,
        }
    }

    /// Pounds to a jar, where no load is printed; nothing for a jar that its recipe is not for.
    fn pounds(self, jar: Jar) -> Option<f64> {
        match (self, jar) {
            (Self::Ketchup, Jar::Pint) => Some(KETCHUP_POUNDS),
            (Self::Salsa, Jar::Pint) => Some(SALSA_POUNDS),
            (Self::SpaghettiSauce, Jar::Pint) => Some(SPAGHETTI_POUNDS),
            (Self::SpaghettiSauce, Jar::Quart) => Some(2.0 * SPAGHETTI_POUNDS),
            (Self::Frozen, Jar::Pint) => Some(FROZEN_POUNDS / 2.0),
            (Self::Frozen, Jar::Quart) => Some(FROZEN_POUNDS),
            _ => None,
        }
    }

    /// Fruit as bought for so many jars; `None` for a jar that it does not go into.
    #[must_use]
    pub fn fruit_for(self, jar: Jar, jars: u32, fruit: Composition) -> Option<Grams> {
        if let Some(filling) = self.filling() {
            return crate::jars::fruit_for(filling, jar, jars);
        }
        if self == Self::Paste {
            let (from, to) = (fruit.strained(), paste(fruit)?);
            let product = Gravity::of(to.total()).get() * jar.millilitres() * f64::from(jars);
            let waste = home_waste().high;
            return crate::boiling::fruit_for(Grams::new(product)?, waste, from.soluble(), to.soluble());
        }
        Grams::new(self.pounds(jar)? * GRAMS_PER_POUND * f64::from(jars))
    }

    /// Fruit as bought for a full canner load; `None` where it goes into no canner.
    #[must_use]
    pub fn load(self, jar: Jar) -> Option<Grams> {
        self.process()?;
        match self.filling() {
            Some(filling) => filling.load(jar),
            None => Grams::new(self.pounds(jar)? * GRAMS_PER_POUND * f64::from(jar.load())),
        }
    }

    /// Part of the pulp's volume that is left, of sauces.
    fn volume_left(self) -> Option<f64> {
        match self {
            Self::ThinSauce => Some(THIN_LEFT),
            Self::ThickSauce => Some(THICK_LEFT),
            _ => None,
        }
    }
}

/// Pulp boiled down to paste.
fn paste(fruit: Composition) -> Option<Composition> {
    let pulp = fruit.strained();
    stronger(pulp, (PASTE_SOLUBLE / pulp.soluble().percent()).max(1.0))
}

/// Pulp with so many times the solids.
fn stronger(pulp: Composition, times: f64) -> Option<Composition> {
    Composition::measured(
        Soluble::new(pulp.soluble().percent() * times)?,
        Total::new(pulp.total().percent() * times)?,
    )
}

/// What is put up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Asked {
    /// As what.
    pub put_up: PutUp,
    /// Fruit as bought.
    pub fruit: Grams,
    /// The jars, where it is measured in jars.
    pub jars: Option<(Jar, u32)>,
    /// What the fruit is made of.
    pub composition: Composition,
    /// The colour of the fruit, as far as names of products go by it.
    pub colour: Fruit,
    /// The burner, where one is told.
    pub burner: Option<Burner>,
}

/// What putting fruit up takes.
#[derive(Clone, Debug, PartialEq)]
pub struct Sums {
    /// Full canner loads and what is left over, as loads.
    pub loads: Option<u32>,
    /// What is boiled down, from least to most waste at the strainer; nothing where nothing is boiled down.
    pub boiled: Option<Between<BoiledDown>>,
    /// Soluble solids when it is done.
    pub soluble: Option<Soluble>,
    /// What it may be called then.
    pub name: Option<Name>,
    /// Heat that reaches the pot.
    pub heat: Option<Between<Heat>>,
    /// Hours at the burner.
    pub hours: Option<Between<Hours>>,
    /// Jars of paste that the fruit fills, from most to least waste.
    pub fills: Option<Between<u32>>,
    /// Mass that is left of dried fruit.
    pub dried: Option<Grams>,
}

/// Works out what putting fruit up takes.
#[must_use]
pub fn sums(asked: &Asked) -> Sums {
    let (boiled, done) = match asked.put_up {
        PutUp::Paste => paste_of(asked),
        _ => sauce_of(asked),
    };
    let room = Celsius::new(ROOM);
    let of = |boiled: BoiledDown| room.map(|room| heat(boiled, room, OPEN_POT));
    let heat = boiled.and_then(|boiled| Some(Between { low: of(boiled.low)?, high: of(boiled.high)? }));
    let hours = asked.burner.zip(boiled.zip(heat)).map(|(burner, (boiled, heat))| Between {
        low: burner.hours(boiled.low, heat.low).low,
        high: burner.hours(boiled.high, heat.high).high,
    });
    let jar = asked.jars.map_or(Jar::Pint, |(jar, _)| jar);
    let gravity = done.map(|done| Gravity::of(done.total()));
    let is_paste = asked.put_up == PutUp::Paste;
    let fills = boiled.zip(gravity).filter(|_| is_paste).map(|(boiled, gravity)| {
        let filled = |of: BoiledDown| jars_filled(of.product, gravity, jar);
        Between {
            low: filled(boiled.low).min(filled(boiled.high)),
            high: filled(boiled.low).max(filled(boiled.high)),
        }
    });
    let dried = (asked.put_up == PutUp::Dried).then(|| dried(asked)).flatten();
    Sums {
        loads: asked.put_up.process().and(asked.jars).map(|(jar, jars)| loads_for(jar, jars)),
        soluble: done.map(Composition::soluble),
        name: done.and_then(|done| standard::name(done.soluble(), asked.colour)),
        boiled,
        heat,
        hours,
        fills,
        dried,
    }
}

/// Paste by the fruit: least pulp from most waste.
fn paste_of(asked: &Asked) -> (Option<Between<BoiledDown>>, Option<Composition>) {
    let (from, done) = (asked.composition.strained(), paste(asked.composition));
    let boiled = done.map(|done| {
        let waste = home_waste();
        let of = |waste: Share| boil_down(pulp(asked.fruit, waste), from.soluble(), done.soluble());
        Between { low: of(waste.high), high: of(waste.low) }
    });
    (boiled, done)
}

/// Halvings of the way to the strength of a sauce: far below what a cook can read.
const HALVINGS: u32 = 50;

/// Sauce by its jars: the printed recipe tells the volume that is left, so the jars tell the pulp.
fn sauce_of(asked: &Asked) -> (Option<Between<BoiledDown>>, Option<Composition>) {
    let (Some(left), Some((jar, jars))) = (asked.put_up.volume_left(), asked.jars) else {
        return (None, None);
    };
    let from = asked.composition.strained();
    let (mut low, mut high) = (1.0, 2.0 / left);
    for _ in 0..HALVINGS {
        let times = 0.5 * (low + high);
        let share = stronger(from, times).and_then(|done| volume_left(from.total(), done.total()));
        if share.is_some_and(|share| left < share.get()) { low = times } else { high = times }
    }
    let Some(done) = stronger(from, 0.5 * (low + high)) else { return (None, None) };
    let product = Gravity::of(done.total()).get() * jar.millilitres() * f64::from(jars);
    let pulp = product * done.total().percent() / from.total().percent();
    let boiled = Grams::new(pulp).map(|pulp| boil_down(pulp, from.total(), done.total()));
    (boiled.map(|boiled| Between { low: boiled, high: boiled }), Some(done))
}

fn dried(asked: &Asked) -> Option<Grams> {
    let share = dried_share(Share::new(TRIMMED)?, asked.composition.total(), Share::new(DRIED_WATER)?)?;
    Grams::new(asked.fruit.get() * share.get())
}
