//! A lot's account: all that its notes come to on one day.
//!
//! What is where, how many seeds that is, what its tests say and until when they may be told, how long it is expected to
//! keep, how true its plants have been, and what of it is kept for the law. Start at [`account`]. It knows no place where notes are kept, and no words.

pub mod ageing;
pub mod keepsakes;
pub mod parentage;
pub mod tested;
pub mod true_to_type;

use crate::dates::{HermeticFault, SealedLabel, Sealing, hermetic_faults, last_shipping_day, next_test_due};
use crate::germination::SURE;
use crate::germination::judge::Standing;
use crate::increase::weight::{SeedWeight, thousand_seed_weight};
use crate::stock::{Refused, balances};
use ageing::Ageing;
use jiff::civil::Date;
use keepsakes::Keepsakes;
use parentage::Parentage;
use record::lot::{Lot, LotKeeping, LotNote, MoistureReading, Packing, SeedWeighing};
use record::mass::{Grams, Milligrams};
use record::share::WholePercent;
use record::stock::{Movement, Place};
use tested::{TestJudged, judged};
use true_to_type::{TrueToType, true_to_type};

/// What an account goes by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct GoesBy {
    /// The day of the account.
    pub today: Date,
    /// Least germination, hard seed with it: the stricter of the law's and the house's own.
    pub minimum: WholePercent,
    /// Least germination that the law lets be sold without words.
    pub lawful: WholePercent,
    /// Days to spare when the next test is laid out, for slow seed and the post.
    pub spare_days: u16,
}

/// Days to spare unless the house says otherwise. Common practice, no source.
pub const SPARE_DAYS: u16 = 14;

/// A lot's account.
#[derive(Clone, Debug, PartialEq)]
pub struct Account {
    /// What the house holds of it, by place; no place is empty.
    pub held: Vec<(Place, Milligrams)>,
    /// What has gone out of the house, by where to, less what came back.
    pub gone: Vec<(Place, Milligrams)>,
    /// The thousand-seed weight of its newest weighing.
    pub seed_weight: Option<SeedWeight>,
    /// Seeds that the house holds, and the ends by the weighing; `None` of seed that was not weighed.
    pub seeds: Option<(f64, (f64, f64))>,
    /// Its newest moisture.
    pub moisture: Option<MoistureReading>,
    /// How it is kept now.
    pub keeping: Option<LotKeeping>,
    /// What keeps a lot that is said to be sealed from the longer age of its test.
    pub sealing_faults: Vec<HermeticFault>,
    /// Its tests, the oldest first.
    pub tests: Vec<TestJudged>,
    /// What may be done with it on that day.
    pub state: LotState,
    /// The last day on which the next test should be laid out: that very day where the newest one says nothing, and `None` of a
    /// lot that was never tested, or that is gone.
    pub test_due: Option<Date>,
    /// When it is expected to fall under the minimum.
    pub ageing: Option<Ageing>,
    /// How true its plants have been; `None` where none was looked at.
    pub true_to_type: Option<TrueToType>,
    /// What its parents keep of what is rare in the variety; `None` where nobody told how many there were.
    pub parentage: Option<Parentage>,
    /// Its file sample and its record, and how long the law has them kept.
    pub keepsakes: Keepsakes,
}

/// What may be done with a lot, by its newest test.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LotState {
    /// Nothing of it is held, but perhaps its file sample.
    Gone,
    /// Never tested.
    Untested,
    /// The replicates of its test lie too far apart.
    TestAgain,
    /// It may be shipped on this test until that day.
    Fit {
        /// The last day.
        until: Date,
    },
    /// It may be shipped until that day, with the words that say that it is below the law's standard.
    Below {
        /// The last day.
        until: Date,
    },
    /// The law lets it be shipped without words until that day, but it is under the house's own minimum.
    UnderHouse {
        /// The last day.
        until: Date,
    },
    /// Its test is too old since that day.
    TooOld {
        /// The last day on which it was not.
        until: Date,
    },
}

impl Account {
    /// All that the house holds of it.
    #[must_use]
    pub fn all_held(&self) -> Milligrams {
        sum(self.held.iter().map(|(_, mass)| *mass))
    }

    /// Whether nothing of it is held but perhaps its file sample.
    #[must_use]
    pub fn is_gone(&self) -> bool {
        self.held.iter().all(|(place, _)| *place == Place::FileSample)
    }

    /// What it is taken for packed as, where the age of its test is counted.
    #[must_use]
    pub fn packing(&self) -> Packing {
        let sealed = self.keeping.as_ref().is_some_and(|keeping| keeping.packing == Packing::Hermetic);
        if sealed && self.sealing_faults.is_empty() { Packing::Hermetic } else { Packing::Open }
    }
}

fn sum(masses: impl Iterator<Item = Milligrams>) -> Milligrams {
    masses.fold(Milligrams::NONE, |sum, mass| sum.plus(mass).unwrap_or(sum))
}

/// Makes the account of a lot, from what its notes tell of days up to that day.
///
/// # Shape
/// `notes`: those of the lot that stand, the oldest first.
///
/// # Errors
/// [`Refused`] where its movements cannot have been.
pub fn account(lot: &Lot, notes: &[LotNote], by: GoesBy) -> Result<Account, Refused> {
    let told = notes.iter().filter(|note| note.on().is_none_or(|on| on <= by.today));
    let notes: &[LotNote] = &told.cloned().collect::<Vec<_>>();
    let (held, gone) = places(lot, notes)?;
    let seed_weight = newest(notes, weighing).and_then(weight);
    let moisture = newest(notes, moisture);
    let keepings: Vec<&LotKeeping> = notes.iter().filter_map(keeping).collect();
    let keeping = keepings.iter().max_by_key(|keeping| keeping.since).copied().cloned();
    let tests = judged(notes, by.minimum);
    let mut account = Account {
        seeds: None,
        sealing_faults: sealing_faults(lot, keeping.as_ref(), notes, &tests),
        ageing: ageing::ageing(lot, &keepings, &tests, by),
        true_to_type: true_to_type(lot, notes),
        parentage: lot.origin.parents.and_then(parentage::parentage),
        keepsakes: keepsakes::keepsakes(notes, seed_weight.as_ref(), &held),
        state: LotState::Gone,
        test_due: None,
        held,
        gone,
        seed_weight,
        moisture,
        keeping,
        tests,
    };
    account.seeds = seed_weight.and_then(|weight| weight.seeds_in(account.all_held().to_grams()));
    account.state = state(&account, by);
    account.test_due = due(&account, by);
    Ok(account)
}

type ByPlace = Vec<(Place, Milligrams)>;

fn places(lot: &Lot, notes: &[LotNote]) -> Result<(ByPlace, ByPlace), Refused> {
    let movements: Vec<Movement> = notes.iter().filter_map(movement).collect();
    let balances = balances(&movements)?;
    let mut held = Vec::new();
    let mut gone = Vec::new();
    for (_, place, net) in balances.nets() {
        let mass = u64::try_from(net).map(Milligrams::new).unwrap_or_default();
        if place.is_held() && Milligrams::NONE < mass {
            held.push((place, balances.held(lot.id, place)));
        } else if Milligrams::NONE < mass {
            gone.push((place, mass));
        }
    }
    Ok((held, gone))
}

fn movement(note: &LotNote) -> Option<Movement> {
    match note {
        LotNote::Movement(movement) => Some(*movement),
        _ => None,
    }
}

fn keeping(note: &LotNote) -> Option<&LotKeeping> {
    match note {
        LotNote::Keeping(keeping) => Some(keeping),
        _ => None,
    }
}

fn weighing(note: &LotNote) -> Option<(Date, &SeedWeighing)> {
    match note {
        LotNote::Weighing(weighing) => Some((weighing.on, weighing)),
        _ => None,
    }
}

fn moisture(note: &LotNote) -> Option<(Date, MoistureReading)> {
    match note {
        LotNote::Moisture(reading) => Some((reading.on, *reading)),
        _ => None,
    }
}

/// The newest of a kind by its day; of one day, the one written last.
fn newest<'n, T>(notes: &'n [LotNote], of: impl Fn(&'n LotNote) -> Option<(Date, T)>) -> Option<T> {
    notes.iter().filter_map(of).max_by_key(|(on, _)| *on).map(|(_, found)| found)
}

fn weight(weighing: &SeedWeighing) -> Option<SeedWeight> {
    let masses: Vec<Grams> = weighing.masses.iter().map(|mass| mass.to_grams()).collect();
    thousand_seed_weight(&masses, weighing.seeds_each, SURE.share())
}

/// The label's own words are checked where labels are made, so they are taken for printed here.
fn sealing_faults(
    lot: &Lot,
    keeping: Option<&LotKeeping>,
    notes: &[LotNote],
    tests: &[TestJudged],
) -> Vec<HermeticFault> {
    let Some(keeping) = keeping.filter(|keeping| keeping.packing == Packing::Hermetic) else {
        return Vec::new();
    };
    let before = |note: &'_ &LotNote| note.on().is_some_and(|on| on <= keeping.since);
    let read = notes.iter().filter(before).filter_map(moisture).max_by_key(|(on, _)| *on);
    let at_sealing = tests.iter().rev().find(|judged| judged.test.counted_on <= keeping.since);
    hermetic_faults(&Sealing {
        harvested_on: lot.origin.harvested_on,
        sealed_on: Some(keeping.since),
        vapour_g: keeping.vapour_g,
        moisture: read.map(|(_, reading)| reading.moisture),
        germination: at_sealing.map(|judged| judged.verdict.counted.standard_percent()),
        label: Some(SealedLabel),
    })
}

fn state(account: &Account, by: GoesBy) -> LotState {
    if account.is_gone() {
        return LotState::Gone;
    }
    let Some(newest) = account.tests.last() else { return LotState::Untested };
    let until = last_shipping_day(newest.month(), account.packing());
    match newest.verdict.standing {
        Standing::TestAgain => LotState::TestAgain,
        _ if until < by.today => LotState::TooOld { until },
        Standing::Reached => LotState::Fit { until },
        Standing::Missed { .. } if by.lawful <= newest.verdict.counted.standard_percent() => {
            LotState::UnderHouse { until }
        }
        Standing::Missed { .. } => LotState::Below { until },
    }
}

fn due(account: &Account, by: GoesBy) -> Option<Date> {
    let newest = account.tests.last().filter(|_| !account.is_gone())?;
    if newest.says_nothing() {
        return Some(by.today);
    }
    Some(next_test_due(newest.month(), account.packing(), by.spare_days))
}
