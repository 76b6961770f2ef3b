//! What speaks for growing a variety, and what each number of plots of it is worth.
//!
//! Everything is told in packets. What would be missing for want of seed is expected from demand and stock; what a call still
//! contested, thin evidence or somebody's wish is worth in packets is for the house to say. Start at [`ways`].

use crate::choice::Way;
use record::share::Share;
use statistics::rates::Outlook;

/// What else than seed a variety is worth growing for, in packets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Worths {
    /// A call that nothing is known of; a contested one in proportion to what is not known.
    pub contested: f64,
    /// Evidence of no fruit and no season; less of it in proportion.
    pub thin: f64,
    /// A wish.
    pub wished: f64,
    /// The only variety of its kind, where its seed is sure to run out.
    pub only_one: f64,
    /// A packet that a later grow-out could still bring, as a part of one that it could not.
    pub later: f64,
}

impl Worths {
    /// What is taken where the house says nothing. Common practice, no source.
    pub const USUAL: Self = Self { contested: 20.0, thin: 15.0, wished: 100.0, only_one: 30.0, later: 0.25 };
}

/// Fruits and seasons from which on evidence is not thin. Common practice, no source.
const ENOUGH_FRUITS: u64 = 8;
const ENOUGH_SEASONS: u64 = 2;

/// What is asked of a grow-out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plots {
    /// Plants of a plot.
    pub plants: u32,
    /// Fewest plants that seed is saved from.
    pub fewest_parents: u32,
    /// Most plots of one variety.
    pub most: u32,
}

/// What is known of a variety.
#[derive(Clone, Debug, PartialEq)]
pub struct Subject {
    /// Sales until the seed of this grow-out is ready: it cannot help with those.
    pub before: Outlook,
    /// Sales from then until the seed of a grow-out a year later would be ready.
    pub soon: Outlook,
    /// Sales from then until the seed of this grow-out is used up or old.
    pub late: Outlook,
    /// Packets that can be made of the seed in the house.
    pub packets: u32,
    /// Of these, how many are of seed that is expected to stay above the minimum until a year later.
    pub lasting: u32,
    /// Packets that one plant's seed makes; `None` where nobody knows.
    pub packets_a_plant: Option<f64>,
    /// How sure each contested call is, from 0 to 1.
    pub contested: Vec<f64>,
    /// Fruits that its evidence rests on.
    pub fruits: u64,
    /// Seasons that it rests on.
    pub seasons: u64,
    /// Whether it is wished for.
    pub wished: Wished,
    /// Whether the list has another of its habit, class and colour.
    pub kind: KindHeld,
    /// Whether its flowers cross readily.
    pub flowers: Flowers,
}

/// Whether somebody wishes for a variety.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wished {
    /// Somebody does.
    Yes,
    /// Nobody said so.
    No,
}

/// Whether the list has others of a kind.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum KindHeld {
    /// It is the only one of its habit, class and colour.
    Alone,
    /// There are others, or nobody knows.
    WithOthers,
}

/// How flowers are pollinated.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Flowers {
    /// They mostly set by themselves.
    Closed,
    /// Stigmas stand out, and they cross readily.
    Open,
}

/// What speaks for growing a variety, each in packets; those worth nothing are left out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reason {
    /// Packets expected to be missing, were all its seed to stay good.
    StockLow {
        /// How many.
        packets: f64,
    },
    /// Packets missing besides, because seed is expected to fall under the minimum.
    SeedOld {
        /// How many.
        packets: f64,
    },
    /// Packets that a later grow-out could still bring, at their part.
    Later {
        /// How many, at their part.
        packets: f64,
    },
    /// Calls are contested.
    Contested {
        /// How many.
        calls: usize,
        /// What that is worth.
        packets: f64,
    },
    /// Evidence is thin.
    Thin {
        /// What that is worth.
        packets: f64,
    },
    /// It is wished for.
    Wished {
        /// What that is worth.
        packets: f64,
    },
    /// It is the only one of its kind, and its seed may run out.
    OnlyOne {
        /// What that is worth.
        packets: f64,
    },
}

impl Reason {
    /// What it is worth, in packets.
    #[must_use]
    pub fn packets(self) -> f64 {
        match self {
            Self::StockLow { packets }
            | Self::SeedOld { packets }
            | Self::Later { packets }
            | Self::Contested { packets, .. }
            | Self::Thin { packets }
            | Self::Wished { packets }
            | Self::OnlyOne { packets } => packets,
        }
    }

    /// Whether only seed saved from the plot answers it.
    fn is_of_seed(self) -> bool {
        matches!(
            self,
            Self::StockLow { .. } | Self::SeedOld { .. } | Self::Later { .. } | Self::OnlyOne { .. }
        )
    }
}

/// Less than so many packets is nothing: it would fill plots that nobody misses. Common practice, no source.
pub const LEAST: f64 = 0.5;

/// Packets that are left of so many when the seed of this grow-out is ready, were sales then the usual ones.
#[must_use]
pub fn left(subject: &Subject, packets: u32) -> u32 {
    packets.saturating_sub(Share::new(0.5).map_or(0, |half| subject.before.at(half)))
}

/// What speaks for growing a variety.
#[must_use]
pub fn reasons(subject: &Subject, worths: &Worths) -> Vec<Reason> {
    let lasting = left(subject, subject.lasting);
    let missing = subject.soon.beyond(lasting);
    let low = subject.soon.beyond(left(subject, subject.packets));
    let later = worths.later * (subject.late.beyond(lasting) - missing).max(0.0);
    let doubt: f64 = subject.contested.iter().map(|sure| (1.0 - sure).max(0.0)).sum();
    let runs_out = subject.soon.at_most(lasting).rest().get();
    let all = [
        Reason::StockLow { packets: low },
        Reason::SeedOld { packets: missing - low },
        Reason::Later { packets: later },
        Reason::Contested { calls: subject.contested.len(), packets: worths.contested * doubt },
        Reason::Thin { packets: worths.thin * lacking(subject) },
        Reason::Wished { packets: if subject.wished == Wished::Yes { worths.wished } else { 0.0 } },
        Reason::OnlyOne {
            packets: if subject.kind == KindHeld::Alone { worths.only_one * runs_out } else { 0.0 },
        },
    ];
    all.into_iter().filter(|reason| LEAST <= reason.packets()).collect()
}

/// How much evidence lacks, from nothing to 1.
fn lacking(subject: &Subject) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "small counts")]
    let part = |have: u64, enough: u64| have.min(enough) as f64 / enough as f64;
    1.0 - 0.5 * (part(subject.fruits, ENOUGH_FRUITS) + part(subject.seasons, ENOUGH_SEASONS))
}

/// What so many plots of a variety are worth, for each number that is worth more than the one before.
#[must_use]
pub fn ways(subject: &Subject, worths: &Worths, plots: &Plots) -> Vec<Way> {
    let reasons = reasons(subject, worths);
    let of_notes: f64 =
        reasons.iter().filter(|reason| !reason.is_of_seed()).map(|reason| reason.packets()).sum();
    let mut ways = Vec::new();
    if LEAST <= of_notes {
        ways.push(Way { plots: 1, plants: plots.plants, apart: 0, worth: of_notes, seed: 0.0 });
    }
    let mut best = of_notes;
    for count in fewest_plots(plots)..=plots.most {
        let plants = count.saturating_mul(plots.plants);
        let packets = f64::from(plants) * subject.packets_a_plant.unwrap_or(0.0);
        let worth = of_notes + saved(subject, worths, packets);
        if worth < best + LEAST {
            break;
        }
        let apart = u32::from(subject.flowers == Flowers::Open);
        ways.push(Way { plots: count, plants, apart, worth, seed: packets });
        best = worth;
    }
    ways
}

/// The same of a variety that must stand: one plot of it where nothing speaks for any.
#[must_use]
pub fn ways_to_stand(subject: &Subject, worths: &Worths, plots: &Plots) -> Vec<Way> {
    let ways = ways(subject, worths, plots);
    if ways.is_empty() {
        return vec![Way { plots: 1, plants: plots.plants, apart: 0, worth: 0.0, seed: 0.0 }];
    }
    ways
}

/// Plots that hold the fewest plants that seed is saved from.
fn fewest_plots(plots: &Plots) -> u32 {
    plots.fewest_parents.div_ceil(plots.plants.max(1)).max(1)
}

/// What so many packets of new seed save.
fn saved(subject: &Subject, worths: &Worths, packets: f64) -> f64 {
    let without = left(subject, subject.lasting);
    let with = without.saturating_add(whole(packets));
    let soon = subject.soon.beyond(without) - subject.soon.beyond(with);
    let late = subject.late.beyond(without) - subject.late.beyond(with);
    let alone = match subject.kind {
        KindHeld::Alone => {
            let runs_out = |packets| subject.soon.at_most(packets).rest().get();
            worths.only_one * (runs_out(without) - runs_out(with))
        }
        KindHeld::WithOthers => 0.0,
    };
    soon + worths.later * (late - soon).max(0.0) + alone
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "kept in reach")]
fn whole(packets: f64) -> u32 {
    packets.clamp(0.0, f64::from(u32::MAX)).floor() as u32
}
