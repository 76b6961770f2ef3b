//! A variety coded in the open descriptor standards: the state's number and its wording.
//!
//! The same evidence that the calls rest on is told again in the words of the UPOV tomato guideline and
//! of the Bioversity (IPGRI) descriptors, so that other keepers and offices can read it. What the house
//! does not measure, or what a standard judges by example varieties, is said to be not coded, with the
//! reason. The table is a guide ([`crate::guide::standards`]); only its kinds of coding are known here.
//! Start at [`code`].

mod sample;

use crate::call::Call;
use crate::colour::ColourCall;
use crate::descriptors::sample::{shortfalls, trait_of};
use crate::guide::standards::{Characteristic, CodedFrom, Figure, Standards, State, Status};
use crate::habit::evidence::HabitEvidence;
use crate::habit::{HabitCall, Stem};
use crate::sums::FruitSums;
use record::language::{Units, length, mass};
use record::length::Millimetres;
use record::mass::Grams;
use record::share::Share;
use statistics::normal::chance_below;

/// What is known of one variety.
#[derive(Clone, Copy, Debug)]
pub struct Described<'a> {
    /// Its habit call.
    pub habit: &'a HabitCall,
    /// The evidence of the habit call, for plant counts and truss counts.
    pub walks: &'a HabitEvidence,
    /// Its colour call.
    pub colour: &'a ColourCall,
    /// Its fruits.
    pub fruit: &'a FruitSums,
}

/// One characteristic of one standard, coded or not.
#[derive(Clone, Debug, PartialEq)]
pub struct Coding {
    /// The standard, such as `UPOV TG/44`.
    pub standard: String,
    /// The characteristic in the standard's words.
    pub characteristic: String,
    /// The state, the figure, or why there is none.
    pub coded: Coded,
    /// What the standard asks for and the evidence falls short of, each in one sentence.
    pub shortfalls: Vec<String>,
}

/// How a characteristic came out.
#[derive(Clone, Debug, PartialEq)]
pub enum Coded {
    /// A state of the standard's own list.
    State {
        /// The state's number.
        note: u32,
        /// The state's wording.
        wording: String,
        /// How far number and wording were checked against the standard.
        status: Status,
        /// How sure the state is.
        share: Share,
        /// What it was coded from, in words.
        basis: String,
    },
    /// The standard asks for the figure itself.
    Figure {
        /// The figure with its unit.
        words: String,
        /// How far it was checked that the standard asks for this.
        status: Status,
    },
    /// Not coded.
    NotCoded {
        /// Why, in one sentence.
        why: String,
    },
}

/// Codes one variety in every characteristic of every standard, in the table's order.
#[must_use]
pub fn code(described: &Described<'_>, standards: &Standards) -> Vec<Coding> {
    let of_standard = standards.standards.iter().flat_map(|standard| {
        standard.characteristics.iter().map(move |characteristic| (standard, characteristic))
    });
    of_standard
        .map(|(standard, characteristic)| {
            let coded = coded(characteristic, described);
            let shortfalls = match coded {
                Coded::NotCoded { .. } => Vec::new(),
                _ => shortfalls(standard, &characteristic.asks, &characteristic.coding, described),
            };
            let (standard, characteristic) = (standard.name.clone(), characteristic.name.clone());
            Coding { standard, characteristic, coded, shortfalls }
        })
        .collect()
}

fn coded(characteristic: &Characteristic, described: &Described<'_>) -> Coded {
    let remark = characteristic.remark.as_deref();
    let colour = described.colour;
    match &characteristic.coding {
        CodedFrom::Stem(states) => by_stem(states, described.habit, remark),
        CodedFrom::Habit(states) => by_call(states, &described.habit.habit, "the habit call", remark),
        CodedFrom::Outside(states) => by_call(states, &colour.exterior, "the colour call", remark),
        CodedFrom::Flesh(states) => by_call(states, &colour.flesh, "the call of the flesh", remark),
        CodedFrom::Skin(states) => by_call(states, &colour.skin, "the call of the skin", remark),
        CodedFrom::Limits(figure, states) => by_limit(states, *figure, described, remark),
        CodedFrom::Figure(figure) => match told(*figure, described) {
            Some(words) => Coded::Figure { words, status: characteristic.status },
            None => Coded::NotCoded { why: NOT_MEASURED.to_owned() },
        },
        CodedFrom::Nothing { why, beside } => {
            let beside = beside.and_then(|figure| told(figure, described));
            let beside = beside.map(|words| format!("; here it is {words}")).unwrap_or_default();
            Coded::NotCoded { why: format!("{why}{beside}") }
        }
    }
}

/// Why a characteristic without a call is not coded.
const NOT_CALLED: &str = "nothing that tells it has been noted yet";
/// Why a characteristic without a figure is not coded.
const NOT_MEASURED: &str = "it has not been measured";

/// Stems are coded from their own shares; the habit's verdict only says whether anything was noted.
fn by_stem(states: &[State<Vec<Stem>>], habit: &HabitCall, remark: Option<&str>) -> Coded {
    match habit.habit.verdict {
        Some(_) => by_shares(states, &habit.stem, "the stem's shares beneath the habit call", remark),
        None => Coded::NotCoded { why: NOT_CALLED.to_owned() },
    }
}

fn by_call<V: PartialEq>(
    states: &[State<Vec<V>>],
    call: &Call<V>,
    basis: &str,
    remark: Option<&str>,
) -> Coded {
    match call.verdict {
        Some(_) => by_shares(states, &call.shares, basis, remark),
        None => Coded::NotCoded { why: NOT_CALLED.to_owned() },
    }
}

/// The state whose answers together hold most, unless answers that no state takes hold more.
fn by_shares<V: PartialEq>(
    states: &[State<Vec<V>>],
    shares: &[(V, Share)],
    basis: &str,
    remark: Option<&str>,
) -> Coded {
    let held = |state: &State<Vec<V>>| -> f64 {
        shares.iter().filter(|(answer, _)| state.is.contains(answer)).map(|(_, share)| share.get()).sum()
    };
    let without_state = 1.0 - states.iter().map(held).sum::<f64>();
    let best = states.iter().map(|state| (state, held(state))).max_by(|one, other| one.1.total_cmp(&other.1));
    match best {
        Some((state, share)) if without_state <= share => {
            state_of(state, share, &format!("Coded from {basis}."), remark)
        }
        _ => Coded::NotCoded { why: with_remark("no state as we know the list fits its call", remark) },
    }
}

fn state_of<Is>(state: &State<Is>, share: f64, basis: &str, remark: Option<&str>) -> Coded {
    Coded::State {
        note: state.note,
        wording: state.wording.clone(),
        status: state.status,
        share: Share::new(share.clamp(0.0, 1.0)).unwrap_or(Share::NONE),
        basis: with_remark(basis, remark),
    }
}

fn with_remark(basis: &str, remark: Option<&str>) -> String {
    remark.map_or_else(|| basis.to_owned(), |remark| format!("{basis} {remark}"))
}

/// Spread of one plant's mean about its variety's, on a logarithmic scale, where one plant is all there is.
/// Source: fruits measured one by one, log-weight between plants 0.19 to 0.24, which is wide for widths
/// and locules (identity facts, section 5).
const ONE_PLANT_SPREAD: f64 = 0.2;
/// No mean is known better than this on a logarithmic scale: seasons differ. Own working value.
const LEAST_SPREAD: f64 = 0.03;

/// The state between whose limits the usual value most likely lies.
fn by_limit(
    states: &[State<Option<f64>>],
    figure: Figure,
    described: &Described<'_>,
    remark: Option<&str>,
) -> Coded {
    let Some((mean, spread)) = log_mean(figure, described) else {
        return Coded::NotCoded { why: NOT_MEASURED.to_owned() };
    };
    let mut from = 0.0;
    let shares = states.iter().map(|state| {
        let below = state.is.map_or(1.0, |limit| chance_below((limit.ln() - mean) / spread));
        let share = below - from;
        from = below;
        (state, share)
    });
    let basis = format!("Coded from {}.", told(figure, described).unwrap_or_default());
    match shares.max_by(|one, other| one.1.total_cmp(&other.1)) {
        Some((state, share)) => state_of(state, share, &basis, remark),
        None => Coded::NotCoded { why: "the standard lists no states".to_owned() },
    }
}

/// Mean over plants of a trait's logarithm, and how well it is known.
fn log_mean(figure: Figure, described: &Described<'_>) -> Option<(f64, f64)> {
    let plants = described.fruit.plants(trait_of(figure)?);
    let count = f64::from(u32::try_from(plants.len()).ok().filter(|count| 0 < *count)?);
    let mean = plants.iter().map(|(_, sums)| sums.mean).sum::<f64>() / count;
    let squares: f64 = plants.iter().map(|(_, sums)| (sums.mean - mean).powi(2)).sum();
    let between = if plants.len() < 2 { ONE_PLANT_SPREAD } else { (squares / (count - 1.0)).sqrt() };
    Some((mean, (between / count.sqrt()).max(LEAST_SPREAD)))
}

/// A figure in words, metric first as in the standards; `None` where nobody measured it.
fn told(figure: Figure, described: &Described<'_>) -> Option<String> {
    if figure == Figure::Trusses {
        let (stems, mean) = described.walks.trusses_at_end()?;
        let plants = if stems == 1 { "1 plant".to_owned() } else { format!("{stems} plants") };
        return Some(format!("{mean:.1} trusses at the end of the stem on {plants}"));
    }
    let (usual, fruits) = described.fruit.typical(trait_of(figure)?)?;
    let words = match figure {
        Figure::Weight => mass(Grams::new(usual)?, Units::METRIC),
        Figure::Length | Figure::Width => length(Millimetres::new(usual)?, Units::METRIC),
        Figure::Ratio => format!("{usual:.2}"),
        Figure::Locules | Figure::Trusses => format!("{usual:.1} locules"),
    };
    let fruits = if fruits == 1 { "1 fruit".to_owned() } else { format!("{fruits} fruits") };
    Some(format!("{words}, the usual of {fruits}"))
}
