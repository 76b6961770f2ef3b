//! The words that screens and papers tell a lot in, so that all of them say the same.

mod cautions;
mod crossing;
pub mod keepsakes;
pub mod numbers;

pub use cautions::{CAUTIONS, TREATED};
pub use crossing::isolation;
pub(crate) use crossing::known_by;

use super::{
    Account, Ageing, Class, ClassFault, HermeticFault, LawSays, LotSeen, LotState, OfMinimum, RangeVerdict,
    Shortfall, Standing, TestJudged, TrueToType, TypeVerdict, Warmth, Yardstick,
};
use jiff::civil::Date;
use record::germination::Made;
use record::language::{Units, counted, distance, rough_count, temperature};
use record::lot::{LotKeeping, LotNote, Packing};
use record::mass::Milligrams;
use record::share::{Share, WholePercent};
use record::stock::{Movement, Place};
use seedroom::account::parentage::Parentage;
use seedroom::germination::SURE;
use seedroom::germination::claim::fewest_to_be_sure;
use seedroom::germination::counted::add_up;
use seedroom::increase::weight::WeightVerdict;

/// What every screen of lots says beside its verdicts.
pub const NOTICE: &str = "Judged by the figures of the rule named here, as far as its text was seen. Your state, country and \
    plant-health office decide. Not legal advice.";

/// Seed in grams from a gram on, and in milligrams below.
#[must_use]
pub fn mass(mass: Milligrams) -> String {
    if mass < Milligrams::new(1000) {
        format!("{} mg", mass.get())
    } else {
        format!("{:.1} g", mass.to_grams().get())
    }
}

/// About how many seeds, with no more digits than the weighing allows.
#[must_use]
pub fn seeds((about, ends): (f64, (f64, f64))) -> String {
    let (about, (low, high)) = rough_count(about, ends);
    format!("about {about} seeds ({low} to {high})")
}

/// The same in a narrow column.
#[must_use]
pub fn seeds_briefly((about, ends): (f64, (f64, f64))) -> String {
    format!("about {} seeds", rough_count(about, ends).0)
}

/// A place.
#[must_use]
pub fn place(place: Place) -> String {
    match place {
        Place::Origin => "outside".to_owned(),
        Place::Jar => "in the jar".to_owned(),
        Place::Packets(fill) => format!("in packets of {}", mass(fill.each())),
        Place::FileSample => "file sample".to_owned(),
        Place::Sold => "sold or given away".to_owned(),
        Place::Sown => "sown".to_owned(),
        Place::Tested => "used in tests".to_owned(),
        Place::Lost => "lost".to_owned(),
    }
}

/// What is in a place; packets are counted.
#[must_use]
pub fn held(at: Place, held: Milligrams) -> String {
    let packets = match at {
        Place::Packets(fill) => fill.packets(held),
        _ => None,
    };
    match packets {
        Some(packets) => {
            format!("{} {}", counted(packets, "packet", "packets"), place(at).replacen("in packets ", "", 1))
        }
        None => format!("{} {}", mass(held), place(at)),
    }
}

/// When the next test is due, or since when it has been.
#[must_use]
pub fn due(due: Date, today: Date) -> String {
    if due < today {
        format!("the next test has been due since {due}")
    } else if due == today {
        "lay the next test out now".to_owned()
    } else {
        format!("lay the next test out by {due}")
    }
}

/// A movement.
#[must_use]
pub fn movement(moved: &Movement) -> String {
    match (moved.from, moved.to) {
        (Place::Origin, Place::Jar) => format!("{} came in", mass(moved.mass)),
        (Place::Jar, Place::Packets(_)) => format!("packed: {}", held(moved.to, moved.mass)),
        (from @ Place::Packets(_), to) => format!("{}: {}", place(to), held(from, moved.mass)),
        (from, to) => format!("{} from {} to {}", mass(moved.mass), place(from), place(to)),
    }
}

/// What may be done with a lot.
#[must_use]
pub fn state(state: LotState) -> String {
    match state {
        LotState::Gone => "all gone".to_owned(),
        LotState::Untested => "never tested".to_owned(),
        LotState::TestAgain => "test again: its replicates lie too far apart".to_owned(),
        LotState::Fit { until } => format!("may be shipped until {until}"),
        LotState::Below { until } => {
            format!("below the law's standard: only with those words, until {until}")
        }
        LotState::UnderHouse { until } => {
            format!("under the house's own minimum; the law lets it go without words until {until}")
        }
        LotState::TooOld { until } => format!("its test is too old since {until}"),
    }
}

/// A test's germination with its month and maker.
#[must_use]
pub fn germination(judged: &TestJudged) -> String {
    let counted = judged.verdict.counted;
    let made = match judged.test.made {
        Made::InHouse => "in-house test",
        Made::Laboratory => "laboratory",
    };
    let month = judged.test.counted_on.strftime("%B %Y");
    format!("{}% of {} seeds, {month}, {made}", counted.germination().get(), counted.sown)
}

/// Chances and shares to whole per cent, small ones to a tenth.
#[must_use]
pub fn in_100(share: Share) -> String {
    let percent = 100.0 * share.get();
    match percent {
        _ if percent < 0.05 => "under 0.1 in 100".to_owned(),
        _ if 99.5 <= percent => "over 99 in 100".to_owned(),
        _ if percent < 10.0 => format!("{percent:.1} in 100"),
        _ => format!("{percent:.0} in 100"),
    }
}

/// Whether replicates agree, and by which yardstick.
#[must_use]
pub fn replicates(judged: &TestJudged) -> String {
    let agreement = match &judged.verdict.replicates {
        Err(fault) => return fault.to_string(),
        Ok(agreement) => agreement,
    };
    let verdict = match agreement.verdict {
        RangeVerdict::Within => "within",
        RangeVerdict::TooWide => "more than",
    };
    let chance = in_100(agreement.chance_of_as_wide);
    match agreement.by {
        Yardstick::LegalTable(points) => format!(
            "{:.0} points between replicates, {verdict} the {points} of 7 CFR 201.55; as wide by chance {chance}",
            agreement.range
        ),
        Yardstick::NoLegalTable => format!(
            "{:.0} points between replicates; no legal table is for such replicates; as wide by chance {chance}",
            agreement.range
        ),
    }
}

/// Where a lot comes from and how it was made, a part at a time.
#[must_use]
pub fn origin(seen: &LotSeen, units: Units) -> Vec<String> {
    let origin = &seen.lot.origin;
    [
        origin.harvested_on.map(|day| format!("harvested {day}")),
        seen.plot.as_ref().map(|plot| format!("plot {plot}")),
        seen.sown_from.as_ref().map(|lot| format!("parents sown from {lot}")),
        origin.parents.map(|plants| format!("fruit of {plants} plants")),
        origin.isolation.map(|away| format!("{} from other varieties", distance(away, units))),
        origin.extraction.as_ref().map(|words| format!("extraction: {words}")),
        origin.drying.as_ref().map(|words| format!("drying: {words}")),
        origin.treatment.as_ref().map(|words| format!("treated: {words}")),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// Where a test puts the lot, beside a minimum.
#[must_use]
pub fn standing(judged: &TestJudged, minimum: WholePercent) -> String {
    let minimum = minimum.get();
    match judged.verdict.standing {
        Standing::Reached => format!("at the minimum of {minimum}% or above"),
        Standing::TestAgain => {
            "its replicates lie too far apart for their mean to count: test again".to_owned()
        }
        Standing::Missed { short, beside_a_claim } => {
            let short = counted(u64::from(short), "point", "points");
            let claim = match beside_a_claim {
                LawSays::Within(points) => {
                    format!(
                        ", within the {points} that 7 CFR 201.63 allows a control test beside a label that claims it"
                    )
                }
                LawSays::Apart(points) => {
                    format!(
                        ", beyond the {points} that 7 CFR 201.63 allows a control test beside a label that claims it"
                    )
                }
                LawSays::NoTable => String::new(),
            };
            format!("{short} under the minimum of {minimum}%{claim}")
        }
    }
}

/// What a test can honestly promise of the lot; nothing where its replicates lie too far apart.
#[must_use]
pub fn promise(judged: &TestJudged, minimum: WholePercent) -> String {
    if judged.says_nothing() {
        return "nothing can be promised by this test".to_owned();
    }
    let sure = &judged.verdict.sureness;
    let interval = format!(
        "{:.1} to {:.1}% by the exact 95% interval",
        100.0 * sure.interval.low.get(),
        100.0 * sure.interval.high.get()
    );
    let (minimum, share) = (minimum.get(), minimum.share());
    let claim = match sure.of_minimum() {
        OfMinimum::SurelyReached => format!("at least {minimum}% with 95 in 100"),
        OfMinimum::NotSure => {
            let sown = judged.verdict.counted.sown;
            let fewest = fewest_to_be_sure(sown, share, SURE.share());
            let fewest =
                fewest.map(|fewest| format!(", which {fewest} of {sown} would make it")).unwrap_or_default();
            format!("whether it reaches {minimum}% is not sure at 95 in 100{fewest}")
        }
        OfMinimum::SurelyMissed => format!("under {minimum}% with 95 in 100"),
    };
    format!("{interval}; {claim}; at least {:.1}% can be promised", 100.0 * sure.at_least.get())
}

/// In what a test falls short of the one that the law describes.
#[must_use]
pub fn shortfall(shortfall: Shortfall) -> String {
    match shortfall {
        Shortfall::FewSeeds { sown } => format!("{sown} seeds, where 7 CFR 201.54 asks for 400"),
        Shortfall::CrowdedReplicate { sown } => {
            format!("{sown} seeds in a replicate, where 100 may stand together")
        }
        Shortfall::CountedEarly { days } => {
            format!(
                "counted after {}, where 7 CFR 201.58 counts on the 14th",
                counted(days.unsigned_abs().into(), "day", "days")
            )
        }
        Shortfall::InHouse => "an in-house test, not an official one".to_owned(),
    }
}

/// A test beside the one before it; nothing where the law has a table and they lie within it.
#[must_use]
pub fn beside_last(judged: &TestJudged) -> Option<String> {
    let comparison = judged.beside_last.as_ref()?;
    let law = match comparison.law {
        LawSays::Within(points) => format!("within the {points} points of 7 CFR 201.63"),
        LawSays::Apart(points) => format!("more than the {points} points of 7 CFR 201.63"),
        LawSays::NoTable => "too few seeds for the table of 7 CFR 201.63".to_owned(),
    };
    Some(format!(
        "{} from the test before, {law}; seed of one quality parts so far {}",
        counted(u64::from(comparison.apart), "point", "points"),
        in_100(comparison.chance)
    ))
}

/// When a lot is expected to fall under the minimum.
#[must_use]
pub fn ageing(ageing: &Ageing, units: Units) -> String {
    let month = |day: Date| day.strftime("%B %Y").to_string();
    let warmth = match ageing.warmth {
        Warmth::CarriedTo(warm) => format!("kept at {}", temperature(warm, units)),
        Warmth::NotTold => "how warm it is kept is not told".to_owned(),
    };
    format!(
        "expected to fall under the minimum about {} (80 in 100: {} to {}); {warmth}. For planning tests, never for a label",
        month(ageing.about),
        month(ageing.between.0),
        month(ageing.between.1)
    )
}

/// How true the plants were, as a limit and never as a promise.
#[must_use]
pub fn true_to_type(found: &TrueToType) -> String {
    let off: u64 = found.off_types.iter().map(|kind| u64::from(kind.plants)).sum();
    let verdict = match found.verdict {
        TypeVerdict::Within => "within",
        TypeVerdict::Beyond => "beyond",
    };
    format!(
        "{} among {}: at most {} off-types with 95 in 100; {verdict} the {} that 1 in 100 lets stand; a lot of 5 in 100 \
         passes so {}",
        counted(off, "off-type", "off-types"),
        counted(u64::from(found.plants), "plant", "plants"),
        in_100(found.at_most),
        found.accepted,
        in_100(found.poor_passes)
    )
}

/// What a lot's parents keep of what is rare in its variety.
#[must_use]
pub fn parentage(of: &Parentage) -> String {
    let enough = if of.plants < of.enough {
        format!("; {} would keep it with 95 in 100", counted(u64::from(of.enough), "plant", "plants"))
    } else {
        String::new()
    };
    format!(
        "fruit of {}: what 1 plant in 20 carries is in its seed with {}{enough}",
        counted(u64::from(of.plants), "plant", "plants"),
        in_100(of.kept)
    )
}

/// A certified class, and what keeps a lot's known figures from it.
#[must_use]
pub fn class(class: Class, faults: &[ClassFault]) -> String {
    let name = match class {
        Class::Foundation => "foundation",
        Class::Registered => "registered",
        Class::Certified => "certified",
    };
    if faults.is_empty() {
        return format!(
            "{name}: nothing known is against its figures (7 CFR 201.76), which certifies nothing"
        );
    }
    let faults: Vec<&str> = faults.iter().map(|fault| class_fault(*fault)).collect();
    format!("{name}: not by its figures (7 CFR 201.76): {}", faults.join(", "))
}

fn class_fault(fault: ClassFault) -> &'static str {
    match fault {
        ClassFault::TooNear => "too near to another variety",
        ClassFault::OffTypes => "too many off-types, or too few plants looked at",
        ClassFault::InSeed => "too much else in the seed",
    }
}

/// What keeps seed from counting as hermetically sealed.
#[must_use]
pub fn sealing_fault(fault: HermeticFault) -> &'static str {
    match fault {
        HermeticFault::SealedLate => "sealed later than nine months after harvest, or the days are not known",
        HermeticFault::Vapour => "the packet lets too much vapour through, or nobody told",
        HermeticFault::Moisture => "moister than 5.5% when sealed, or never read",
        HermeticFault::Germination => "under the standard when sealed, or not tested before",
        HermeticFault::Label => "the label does not say it",
    }
}

/// How a lot is kept.
#[must_use]
pub fn kept(keeping: &LotKeeping, units: Units) -> String {
    let warm =
        keeping.temperature.map(|warm| format!(" at {}", temperature(warm, units))).unwrap_or_default();
    let packing = match keeping.packing {
        Packing::Open => "",
        Packing::Hermetic => ", hermetically sealed",
    };
    let at = keeping.location.as_ref().map(|at| format!(", {at}")).unwrap_or_default();
    format!("kept{warm}{packing}{at} since {}", keeping.since)
}

/// What an entry says; of the founding one, that it founded the lot.
#[must_use]
pub fn note(note: Option<&LotNote>, units: Units) -> String {
    match note {
        None => "lot founded".to_owned(),
        Some(LotNote::Origin(_)) => "where it comes from".to_owned(),
        Some(LotNote::Keeping(keeping)) => kept(keeping, units),
        Some(LotNote::Movement(moved)) => format!("{}: {}", moved.on, movement(moved)),
        Some(LotNote::Weighing(weighing)) => {
            let replicates = u64::try_from(weighing.masses.len()).unwrap_or(u64::MAX);
            let replicates = counted(replicates, "replicate", "replicates");
            format!("{}: {replicates} of {} seeds weighed", weighing.on, weighing.seeds_each)
        }
        Some(LotNote::Moisture(reading)) => format!("{}: moisture {}%", reading.on, reading.moisture.get()),
        Some(LotNote::Germination(test)) => {
            let found = add_up(&test.replicates)
                .map(|all| format!(", {}% of {} seeds", all.germination().get(), all.sown));
            format!("{}: germination test{}", test.counted_on, found.unwrap_or_default())
        }
        Some(LotNote::Inspection(inspection)) => {
            let plants = counted(u64::from(inspection.plants), "plant", "plants");
            format!("{}: {plants} looked at", inspection.on)
        }
    }
}

/// The thousand-seed weight, with what the rule of weighings makes of it.
#[must_use]
pub fn seed_weight(account: &Account) -> Option<String> {
    let weight = account.seed_weight.as_ref()?;
    let rule = match weight.verdict {
        WeightVerdict::Stands => "within the 4% that weighings may vary",
        WeightVerdict::WeighAgain => "more than the 4% that weighings may vary: weigh as many again",
        WeightVerdict::NotByTheRule => "fewer or other replicates than the rule's eight of 100 seeds",
    };
    let (low, high) = weight.between;
    Some(format!(
        "a thousand seeds weigh {:.2} g ({:.2} to {:.2}); weighings vary by {:.1}%, {rule}",
        weight.thousand.get(),
        low.get(),
        high.get(),
        weight.variation_percent
    ))
}
