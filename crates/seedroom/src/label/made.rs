//! A label made: the statements that are known of a packet, in words, as large as its guides ask for.
//!
//! Start at [`made`], and put what it returns to [`check`](super::check::check): what is not known is not said, and found
//! missing there.

use super::check::{asked, below_standard_words};
use super::guide::{Asked, Guide};
use super::{Item, Packet, Printed, Says, Tested, Trait};
use crate::increase::filling::Filling;
use jiff::civil::Date;
use record::germination::Made;
use record::language::{Units, mass};
use record::lot::Packing;
use record::share::WholePercent;

/// Points of the smallest type that a label is set in. Common practice, no source.
pub const SMALLEST_POINTS: u8 = 6;

/// Months from which packets are packed for the next year. Common practice, no source.
const NEXT_YEAR_FROM: i8 = 9;

/// What is known of packets of one lot.
#[derive(Clone, Debug)]
pub struct Known {
    /// Who ships it, and where; `None` where nobody told the address.
    pub shipper: Option<String>,
    /// The variety.
    pub variety: String,
    /// The lot's number.
    pub lot: String,
    /// How each is filled.
    pub filling: Filling,
    /// The last test of its lot that says something.
    pub tested: Option<Tested>,
    /// Who made that test, and of how many seeds.
    pub made: Option<(Made, u32)>,
    /// How it is packed, as far as the age of its test goes.
    pub packing: Packing,
    /// What it was treated with.
    pub treatment: Option<String>,
    /// The year that it is packed for.
    pub packed_for: i16,
    /// The day of packing.
    pub packed_on: Date,
    /// The units that come first.
    pub units: Units,
}

/// A statement of a label.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Statement {
    /// What it says, for the law.
    pub says: Vec<Says>,
    /// The same in words.
    pub words: String,
    /// The least size of its type in points.
    pub points: u8,
}

/// The year that packets are packed for on a day: the next one from September on.
#[must_use]
pub fn packed_for(day: Date) -> i16 {
    if NEXT_YEAR_FROM <= day.month() { day.year().saturating_add(1) } else { day.year() }
}

/// Makes the statements of a label, in the order in which they stand on it; kind and variety come first.
///
/// # Shape
/// `guides`: those that the packet is put to, one or more. What they ask for by a size is said in the largest.
#[must_use]
pub fn made(known: &Known, guides: &[Guide]) -> Vec<Statement> {
    let other = |item: Item, words: String| (vec![Says::Other(item)], words);
    let asks = |item: Item| items(guides).any(|asked| asked == item);
    let mut said =
        vec![other(Item::Variety, known.variety.clone()), other(Item::Kind, "Tomato seed".to_owned())];
    let below = below_standard(known, guides);
    let is_told = below.is_some();
    said.extend(below);
    said.push(contents(known));
    said.push(other(Item::LotNumber, format!("Lot {}", known.lot)));
    // Below the standard the figures stand with those words already, in larger type.
    let of_test =
        |test: &Tested| if is_told { tested_in(test, known.made) } else { tested(test, known.made) };
    said.extend(known.tested.as_ref().map(of_test));
    said.push((vec![Says::PackedFor(known.packed_for)], format!("Packed for {}", known.packed_for)));
    if asks(Item::YearOfClosing) {
        said.push(other(Item::YearOfClosing, format!("Closed in {}", known.packed_on.year())));
    }
    if known.packing == Packing::Hermetic {
        let words = "Hermetically sealed; pre-conditioned as to moisture".to_owned();
        said.push(other(Item::Sealed, words));
    }
    said.extend(known.treatment.as_ref().map(|with| other(Item::Treatment, format!("Treated with {with}"))));
    let fixed = [(Item::Rules, "EU rules and standards"), (Item::Category, "Standard seed")];
    said.extend(
        fixed.into_iter().filter(|(item, _)| asks(*item)).map(|(item, words)| other(item, words.to_owned())),
    );
    said.extend(known.shipper.as_ref().map(|shipper| other(Item::NameAndAddress, shipper.clone())));
    let said = said.into_iter().map(|(says, words)| Statement { says, words, points: SMALLEST_POINTS });
    as_large_as_asked(known, said.collect(), guides)
}

/// Statements in the size that those demands ask for which hold for the packet.
fn as_large_as_asked(known: &Known, statements: Vec<Statement>, guides: &[Guide]) -> Vec<Statement> {
    let small = packet(known, &statements);
    let asked: Vec<&Asked> = guides.iter().flat_map(|guide| asked(&small, guide)).collect();
    let sized = |statement: Statement| {
        let of_it = |item: &Item| statement.says.iter().any(|says| says.item() == *item);
        let its = asked.iter().filter(|asked| asked.ways.iter().flatten().any(of_it));
        let points = its.filter_map(|asked| asked.points).max().unwrap_or(SMALLEST_POINTS);
        Statement { points: points.max(SMALLEST_POINTS), ..statement }
    };
    statements.into_iter().map(sized).collect()
}

/// The packet that carries such a label.
#[must_use]
pub fn packet(known: &Known, statements: &[Statement]) -> Packet {
    let traits =
        [(known.packing == Packing::Hermetic, Trait::Sealed), (known.treatment.is_some(), Trait::Treated)];
    let printed = |statement: &Statement| {
        let points = statement.points;
        statement.says.iter().map(|says| Printed { says: *says, points }).collect::<Vec<_>>()
    };
    Packet {
        holds: known.filling.fill.each().to_grams(),
        tested: known.tested,
        traits: traits.into_iter().filter(|(holds, _)| *holds).map(|(_, of)| of).collect(),
        label: statements.iter().flat_map(printed).collect(),
    }
}

fn items(guides: &[Guide]) -> impl Iterator<Item = Item> {
    guides.iter().flat_map(|guide| &guide.asked).flat_map(|asked| asked.ways.iter().flatten().copied())
}

type Said = (Vec<Says>, String);

/// The words that say that it is below the strictest standard of its guides; the test's own figures follow in [`tested`].
fn below_standard(known: &Known, guides: &[Guide]) -> Option<Said> {
    let standard: WholePercent =
        guides.iter().filter_map(|guide| guide.standard.as_ref()).map(|(at, _)| *at).max()?;
    let tested = known.tested.as_ref()?;
    let says = vec![
        Says::Other(Item::BelowStandard),
        Says::Germination(tested.germination),
        Says::HardSeed(tested.hard),
    ];
    below_standard_words(tested, standard).map(|words| (says, words))
}

/// Net contents, by count where it is known, and by weight both ways.
fn contents(known: &Known) -> Said {
    let weight = seed_mass(known);
    match known.filling.seeds {
        Some(seeds) => {
            let seeds_words = if seeds == 1 { "1 seed".to_owned() } else { format!("{seeds} seeds") };
            (
                vec![Says::Other(Item::SeedCount), Says::Other(Item::NetWeight)],
                format!("{seeds_words}, net {weight}"),
            )
        }
        None => (vec![Says::Other(Item::NetWeight)], format!("Net {weight}")),
    }
}

/// Milligrams told as such below a gram, and ounces with as many digits as seed needs.
fn seed_mass(known: &Known) -> String {
    /// From here on a mass is told in grams to a tenth, as everywhere.
    const GRAMS_TOLD: f64 = 10.0;
    let grams = known.filling.net.to_grams();
    if GRAMS_TOLD <= grams.get() {
        return mass(grams, known.units);
    }
    let metric = match known.filling.net.get() {
        below @ ..1000 => format!("{below} mg"),
        _ => format!("{:.2} g", grams.get()),
    };
    let us = format!("{:.4} oz", grams.to_ounces());
    let (first, second) = known.units.either((us.clone(), metric.clone()), (metric, us));
    format!("{first} ({second})")
}

/// An in-house count is no official test, and is told as what it is.
fn tested(tested: &Tested, made: Option<(Made, u32)>) -> Said {
    let (germination, hard) = (tested.germination, tested.hard);
    let when = when(tested, made);
    let words = format!("Germination {}%, hard seed {}%, tested {when}", germination.get(), hard.get());
    (vec![Says::Germination(germination), Says::HardSeed(hard), Says::TestMonth(tested.month)], words)
}

/// The month of the test alone.
fn tested_in(tested: &Tested, made: Option<(Made, u32)>) -> Said {
    (vec![Says::TestMonth(tested.month)], format!("Tested {}", when(tested, made)))
}

/// The month of a test, who made it, and of how many seeds.
fn when(tested: &Tested, made: Option<(Made, u32)>) -> String {
    let month = Date::new(tested.month.year(), tested.month.month(), 1)
        .map_or_else(|_| String::new(), |first| first.strftime("%B %Y").to_string());
    let by = made.map(|(made, seeds)| match made {
        Made::InHouse => format!(" (in-house, {seeds} seeds)"),
        Made::Laboratory => format!(" (laboratory, {seeds} seeds)"),
    });
    format!("{month}{}", by.unwrap_or_default())
}
