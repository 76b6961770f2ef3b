//! What people type of seed: masses down to the milligram, places, warmth, distances, replicates.

use super::fault::SeedRoomFault;
use intake::unit;
use record::germination::{GerminationTest, Replicate, ReplicateFault, Seedlings};
use record::length::Millimetres;
use record::lot::OffType;
use record::mass::{Grams, Milligrams};
use record::share::Percent;
use record::stock::{Fill, Place};
use record::temperature::Celsius;

const DECIMAL: Option<intake::number::DecimalMark> = Some(intake::number::DecimalMark::Point);

fn not_read(value: &str, reason: impl ToString, remedy: impl Into<String>) -> SeedRoomFault {
    SeedRoomFault::NotRead { value: value.to_owned(), reason: reason.to_string(), remedy: remedy.into() }
}

/// Reads a mass of seed: `12.5 g`, `90 mg`, `0.5 oz`.
///
/// # Errors
/// [`SeedRoomFault::NotRead`].
pub fn mass(text: &str) -> Result<Milligrams, SeedRoomFault> {
    let help = "write a number and its unit, such as 12.5 g, 90 mg or 0.5 oz";
    if let Some(number) = text.trim().strip_suffix("mg") {
        let milligrams =
            intake::number::number(number, DECIMAL).map_err(|fault| not_read(text, fault, help))?;
        let grams = Grams::new(milligrams).ok_or_else(|| not_read(text, "no mass", help))?;
        return whole_milligrams(grams).ok_or_else(|| not_read(text, "not whole milligrams", help));
    }
    let grams = unit::mass(text, None, DECIMAL).map_err(|fault| not_read(text, &fault, fault.remedy()))?;
    grams.to_milligrams().ok_or_else(|| not_read(text, "more seed than can be counted", help))
}

/// Milligrams that were read as if they were grams.
fn whole_milligrams(read: Grams) -> Option<Milligrams> {
    let thousandfold = read.to_milligrams()?.get();
    (thousandfold % 1000 == 0).then(|| Milligrams::new(thousandfold / 1000))
}

/// Reads a distance: `30 m`, `100 ft`.
///
/// # Errors
/// [`SeedRoomFault::NotRead`].
pub fn distance(text: &str) -> Result<Millimetres, SeedRoomFault> {
    unit::length(text, None, DECIMAL).map_err(|fault| not_read(text, &fault, fault.remedy()))
}

/// Reads a moisture in per cent.
///
/// # Errors
/// [`SeedRoomFault::NotRead`].
pub fn percent(text: &str) -> Result<Percent, SeedRoomFault> {
    unit::percent(text, DECIMAL).map_err(|fault| not_read(text, &fault, fault.remedy()))
}

/// Reads how warm it is: `5 C`, `41 F`.
///
/// # Errors
/// [`SeedRoomFault::NotRead`].
pub fn warmth(text: &str) -> Result<Celsius, SeedRoomFault> {
    let none = || {
        not_read(text, "no temperature with its scale", "write degrees and their scale, such as 5 C or 41 F")
    };
    Celsius::written(text).ok_or_else(none)
}

/// The words of the places, packets left out.
pub const PLACES: [(&str, Place); 7] = [
    ("origin", Place::Origin),
    ("jar", Place::Jar),
    ("file-sample", Place::FileSample),
    ("sold", Place::Sold),
    ("sown", Place::Sown),
    ("tested", Place::Tested),
    ("lost", Place::Lost),
];

/// Reads a place: one of [`PLACES`], or packets of so much each, `100 mg`.
///
/// # Errors
/// [`SeedRoomFault::NotRead`].
pub fn place(text: &str) -> Result<Place, SeedRoomFault> {
    let word = text.trim().to_lowercase().replace(' ', "-");
    if let Some((_, place)) = PLACES.iter().find(|(known, _)| *known == word) {
        return Ok(*place);
    }
    let help =
        "write origin, jar, file-sample, sold, sown, tested, lost, or the seed in a packet, such as 100 mg";
    let each = mass(text).map_err(|_| not_read(text, "no place of seed", help))?;
    fill(each).map(Place::Packets).map_err(|_| not_read(text, "no place of seed", help))
}

/// Takes the seed of one packet.
///
/// # Errors
/// [`SeedRoomFault::NotRead`] of an empty one.
pub fn fill(each: Milligrams) -> Result<Fill, SeedRoomFault> {
    Fill::new(each)
        .ok_or_else(|| not_read("0 mg", "an empty packet", "write the seed in a packet, such as 100 mg"))
}

/// Reads how much is moved: a mass, or whole packets of the place that holds them.
///
/// # Errors
/// [`SeedRoomFault::NotRead`].
pub fn amount(text: &str, from: Place, to: Place) -> Result<Milligrams, SeedRoomFault> {
    let word = text.trim().to_lowercase();
    let count = word.strip_suffix("packets").or_else(|| word.strip_suffix("packet"));
    let Some(count) = count else { return mass(text) };
    let help = "write the packets, such as 3 packets, moved from or to packets of one size";
    let fill = match (from, to) {
        (Place::Packets(fill), _) | (_, Place::Packets(fill)) => fill,
        _ => return Err(not_read(text, "neither place holds packets", help)),
    };
    let count = intake::number::count(count, DECIMAL).map_err(|fault| not_read(text, fault, help))?;
    packets(count, fill)
}

/// The seed in so many packets.
///
/// # Errors
/// [`SeedRoomFault::NotRead`] beyond all counting.
pub fn packets(count: u32, fill: Fill) -> Result<Milligrams, SeedRoomFault> {
    let beyond = || not_read(&count.to_string(), "more seed than can be counted", "write fewer packets");
    fill.of(count).ok_or_else(beyond)
}

/// Reads off-types of one kind: `potato leaf=2`.
///
/// # Errors
/// [`SeedRoomFault::NotRead`].
pub fn off_type(text: &str) -> Result<OffType, SeedRoomFault> {
    let fault = || not_read(text, "tells no off-types", "write KIND=PLANTS, such as \"potato leaf=2\"");
    let (kind, plants) = text.rsplit_once('=').ok_or_else(fault)?;
    let plants: u32 = plants.trim().parse().ok().filter(|plants| 0 < *plants).ok_or_else(fault)?;
    let kind = kind.trim();
    if kind.is_empty() { Err(fault()) } else { Ok(OffType { kind: kind.to_owned(), plants }) }
}

/// Reads the water vapour through a packet, in grams a day and 100 square inches.
///
/// # Errors
/// [`SeedRoomFault::NotRead`].
pub fn vapour(text: &str) -> Result<f64, SeedRoomFault> {
    let read = text.trim().parse().ok().filter(|grams: &f64| grams.is_finite() && 0.0 <= *grams);
    read.ok_or_else(|| not_read(text, "no vapour", "write grams a day and 100 square inches, such as 0.03"))
}

/// Refuses a test that was counted before it was laid out.
///
/// # Errors
/// [`SeedRoomFault::NotRead`].
pub fn in_order(test: GerminationTest) -> Result<GerminationTest, SeedRoomFault> {
    let first = test.first_counted_on.unwrap_or(test.counted_on);
    if first < test.begun_on || test.counted_on < first {
        let reason = "the days of laying out and of counting are not in order";
        return Err(not_read(&test.counted_on.to_string(), reason, "look at the days of the test again"));
    }
    Ok(test)
}

/// What was counted in the replicates of a test, each list as long as `normal` or empty.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Counts {
    /// Seeds of each replicate.
    pub seeds_each: u32,
    /// Normal seedlings.
    pub normal: Vec<u32>,
    /// Abnormal seedlings; none where empty.
    pub abnormal: Vec<u32>,
    /// Hard seeds; none where empty.
    pub hard: Vec<u32>,
    /// Normal seedlings at the first count, where there was one.
    pub first: Vec<u32>,
}

/// Makes replicates of counts; what was neither normal, abnormal nor hard was dead.
///
/// # Errors
/// [`SeedRoomFault::NotRead`] with the replicate that does not add up.
pub fn replicates(counts: &Counts) -> Result<Vec<Replicate>, SeedRoomFault> {
    let lists = [("abnormal", &counts.abnormal), ("hard", &counts.hard), ("first count", &counts.first)];
    for (name, list) in lists {
        if !list.is_empty() && list.len() != counts.normal.len() {
            let reason = format!("{} numbers for {} replicates", list.len(), counts.normal.len());
            return Err(not_read(name, reason, "write one number for each replicate, in the same order"));
        }
    }
    let of = |list: &[u32], at: usize| list.get(at).copied();
    let replicate = |(at, normal): (usize, &u32)| {
        let (abnormal, hard) = (of(&counts.abnormal, at).unwrap_or(0), of(&counts.hard, at).unwrap_or(0));
        let seen = normal.saturating_add(abnormal).saturating_add(hard);
        let dead = counts.seeds_each.saturating_sub(seen);
        let seedlings = Seedlings { normal: *normal, abnormal, hard, dead };
        Replicate::new(counts.seeds_each, seedlings, of(&counts.first, at))
            .map_err(|fault| unsound(at, fault))
    };
    let made: Vec<Replicate> = counts.normal.iter().enumerate().map(replicate).collect::<Result<_, _>>()?;
    if made.is_empty() {
        return Err(not_read(
            "",
            "a test without a replicate",
            "write the normal seedlings of each replicate",
        ));
    }
    Ok(made)
}

fn unsound(at: usize, fault: ReplicateFault) -> SeedRoomFault {
    let reason = match fault {
        ReplicateFault::NoSeeds => "no seed was laid out".to_owned(),
        ReplicateFault::NotAllCounted { sown, counted } => {
            format!("{counted} seedlings and seeds were counted of {sown} laid out")
        }
        ReplicateFault::FirstCountAboveFinal { first, normal } => {
            format!("{first} normal seedlings at the first count, and {normal} in all")
        }
    };
    not_read(
        &format!("replicate {}", at.saturating_add(1)),
        reason,
        "look at the count of that replicate again",
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn masses_are_read_down_to_the_milligram() {
        let read = |text| mass(text).ok().map(Milligrams::get);
        assert_eq!(read("90 mg"), Some(90));
        assert_eq!(read("12.5 g"), Some(12_500));
        assert_eq!(read("1 oz"), Some(28_350));
        assert_eq!(read("12.5 mg"), None);
        assert_eq!(read("12.5"), None);
    }

    #[test]
    fn what_was_not_counted_was_dead() {
        let counts =
            Counts { seeds_each: 50, normal: vec![44, 50], abnormal: vec![2, 0], ..Counts::default() };
        let dead: Vec<u32> =
            replicates(&counts).unwrap_or_default().iter().map(|made| made.seedlings().dead).collect();
        assert_eq!(dead, [4, 0]);
        assert!(replicates(&Counts { normal: vec![51], ..counts.clone() }).is_err());
        assert!(replicates(&Counts { abnormal: vec![1], ..counts }).is_err());
    }
}
