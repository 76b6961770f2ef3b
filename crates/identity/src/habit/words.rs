//! The lines of a habit call in words: what was seen, and how hard it pulls.
//!
//! A line's pull is measured by itself: how many times likelier it makes the verdict than the runner-up.
//! Start at [`told`].

use crate::call::{EvidenceLine, Pull};
use crate::habit::belief::{Belief, Line, PatchOdds, PatchReadings, Weights};
use crate::habit::patch::{Patch, PlantFate};
use crate::habit::{Habit, HabitModel};
use record::language::{Units, length};
use record::length::Millimetres;
use record::share::Share;
use record::unknown::LeavesSeen;
use record::unknown::{GrowthSeen, RipeningSeen};

/// What a call says where nobody has noted anything.
pub(crate) const NOTHING_NOTED: &str =
    "Nothing has been noted yet of its stems, leaves, heights or picks, so its habit is not called.";

/// A pull weaker than this is no reason. e^0.2 is odds of 11 to 9. Common practice, no source.
const NO_PULL: f64 = 0.2;

/// Every line in words, and which of them decided.
pub(crate) struct Told {
    pub(crate) lines: Vec<EvidenceLine>,
    /// The sentence that says what decided.
    pub(crate) rule: String,
}

/// Tells every line, with its pull between the first two of `shares`.
pub(crate) fn told(
    (patches, readings): (&[Patch], &[PatchReadings]),
    odds: &[PatchOdds],
    weights: Weights,
    shares: &[(Habit, Share)],
    model: &HabitModel,
    units: Units,
) -> Told {
    let said: Vec<(EvidenceLine, f64)> = Line::ALL
        .into_iter()
        .map(|line| match words(line, patches, readings, units) {
            Some(words) => {
                let alone = alone(line, odds, weights, model);
                let pull = Pull::LogOdds(pull(&alone, shares, model));
                (EvidenceLine { about: about(line).to_owned(), words, pull }, lift(&alone, shares, model))
            }
            None => {
                let words = missing(line).to_owned();
                (EvidenceLine { about: about(line).to_owned(), words, pull: Pull::Missing }, 0.0)
            }
        })
        .collect();
    let rule = rule(shares.first().map(|(verdict, _)| *verdict), &said);
    Told { lines: said.into_iter().map(|(line, _)| line).collect(), rule }
}

fn rule(verdict: Option<Habit>, said: &[(EvidenceLine, f64)]) -> String {
    let Some(verdict) = verdict else { return NOTHING_NOTED.to_owned() };
    let strongest = said.iter().max_by(|one, other| one.1.total_cmp(&other.1));
    match strongest.filter(|(_, lift)| NO_PULL < *lift) {
        Some((line, _)) => format!("Called {verdict} mostly for its {}. {}", line.about, line.words),
        None => format!(
            "Nothing that was noted tells the habits apart; {verdict} is what the guide finds most often."
        ),
    }
}

fn about(line: Line) -> &'static str {
    match line {
        Line::Stems => "main stems",
        Line::Leaves => "leaves between trusses",
        Line::HeightCurve => "height curve",
        Line::Ripening => "ripening",
        Line::FinalHeight => "height",
        Line::DwarfLeaves => "dwarf leaves",
    }
}

fn missing(line: Line) -> &'static str {
    match line {
        Line::Stems => "Nobody noted whether the main stems end.",
        Line::Leaves => "Nobody counted the leaves between trusses.",
        Line::HeightCurve => "Heights were measured too seldom to see whether they level off.",
        Line::Ripening => "There were too few picks to see how long the fruit takes to ripen.",
        Line::FinalHeight => "Nobody measured heights.",
        Line::DwarfLeaves => "Nobody walked the plots closely enough to note a dwarf's leaves.",
    }
}

/// Belief in each habit from one line alone.
fn alone(line: Line, odds: &[PatchOdds], weights: Weights, model: &HabitModel) -> [f64; Habit::ALL.len()] {
    let heard: Vec<PatchOdds> = odds.iter().filter(|odds| odds.has(line)).cloned().collect();
    Belief::of(&heard, weights.only(line), model).habits()
}

/// How many times likelier a line alone makes the first habit than the second, as a logarithm.
fn pull(alone: &[f64], shares: &[(Habit, Share)], model: &HabitModel) -> f64 {
    let prior = model.prior.habits();
    let lift = |habit: Habit| (of(alone, habit) / of(&prior, habit)).ln();
    match shares {
        [(first, _), (second, _), ..] => plainly(lift(*first) - lift(*second)),
        _ => 0.0,
    }
}

/// How much a line alone raises the odds of the first habit against all others, as a logarithm.
fn lift(alone: &[f64], shares: &[(Habit, Share)], model: &HabitModel) -> f64 {
    let log_odds = |share: f64| (share / (1.0 - share).max(f64::MIN_POSITIVE)).ln();
    let raised = |habit| log_odds(of(alone, habit)) - log_odds(of(&model.prior.habits(), habit));
    shares.first().map_or(0.0, |(first, _)| raised(*first))
}

fn of(shares: &[f64], habit: Habit) -> f64 {
    shares.get(habit as usize).copied().unwrap_or_default().max(f64::MIN_POSITIVE)
}

/// Nothing rather than a rounding error's minus nothing.
fn plainly(pull: f64) -> f64 {
    if pull.abs() < 1e-9 { 0.0 } else { pull }
}

/// What a line said; `None` where it was not looked at.
fn words(line: Line, patches: &[Patch], readings: &[PatchReadings], units: Units) -> Option<String> {
    match line {
        Line::Stems => stems(patches),
        Line::Leaves => leaf_counts(patches),
        Line::HeightCurve => said_growth(patches).or_else(|| height_curves(readings)),
        Line::Ripening => said_ripening(patches).or_else(|| ripening_days(readings)),
        Line::FinalHeight => tallest(readings, units),
        Line::DwarfLeaves => dwarf_leaves(patches),
    }
}

fn stems(patches: &[Patch]) -> Option<String> {
    let fates = || patches.iter().flat_map(|patch| &patch.fates);
    let plants = fates().count();
    let ended: Vec<u32> = fates()
        .filter_map(|fate| if let PlantFate::EndedAfter(n) = fate { Some(*n) } else { None })
        .collect();
    let uncounted = fates().filter(|fate| matches!(fate, PlantFate::EndedBeyond(_))).count();
    let growing: Vec<u32> = fates()
        .filter_map(|fate| if let PlantFate::GrowingAfter(n) = fate { Some(*n) } else { None })
        .collect();
    let mut said = Vec::new();
    if !ended.is_empty() {
        said.push(format!(
            "ended in a truss on {} of {}, after {}",
            ended.len(),
            plural(plants, "plant"),
            trusses(&ended)
        ));
    }
    if 0 < uncounted {
        said.push(format!(
            "ended on {uncounted} of {}, nobody counted after how many trusses",
            plural(plants, "plant")
        ));
    }
    if !growing.is_empty() {
        said.push(format!(
            "still grew on {} of {}, after {}",
            growing.len(),
            plural(plants, "plant"),
            trusses(&growing)
        ));
    }
    (0 < plants).then(|| format!("The main stem {}.", said.join("; it ")))
}

/// `4 trusses` or `3 to 5 trusses`.
fn trusses(counts: &[u32]) -> String {
    let (least, most) =
        (counts.iter().min().copied().unwrap_or(0), counts.iter().max().copied().unwrap_or(0));
    match (least, most) {
        (1, 1) => "1 truss".to_owned(),
        (least, most) if least == most => format!("{most} trusses"),
        (least, most) => format!("{least} to {most} trusses"),
    }
}

fn plural(count: usize, noun: &str) -> String {
    if count == 1 { format!("1 {noun}") } else { format!("{count} {noun}s") }
}

fn leaf_counts(patches: &[Patch]) -> Option<String> {
    let counts = patches.iter().filter_map(|patch| patch.leaves);
    let (plants, sum) = counts.fold((0, 0.0), |(plants, sum), leaves| {
        (plants + leaves.plants, sum + leaves.mean * f64::from(leaves.plants))
    });
    let falls: Vec<f64> = patches.iter().filter_map(|patch| patch.leaf_fall).map(|fall| fall.mean).collect();
    let fell = average(&falls).filter(|fall| 0.05 < fall.abs()).map_or(String::new(), |fall| {
        let way = if 0.0 < fall { "fewer" } else { "more" };
        format!(", {:.1} {way} at the last count than at the first", fall.abs())
    });
    let (mean, plants) = (sum / f64::from(plants), (0 < plants).then_some(plants)?);
    Some(format!(
        "{mean:.1} leaves between trusses, the mean of {}{fell}.",
        plural(usize::try_from(plants).ok()?, "plant")
    ))
}

fn average(values: &[f64]) -> Option<f64> {
    let count = u32::try_from(values.len()).ok().filter(|count| 0 < *count)?;
    Some(values.iter().sum::<f64>() / f64::from(count))
}

fn height_curves(readings: &[PatchReadings]) -> Option<String> {
    let judged: Vec<(f64, u32)> = readings.iter().filter_map(|plot| plot.levelling).collect();
    let weight = average(&judged.iter().map(|(weight, _)| *weight).collect::<Vec<_>>())?;
    let series = judged.iter().map(|(_, series)| usize::try_from(*series).unwrap_or(0)).sum();
    let said = match weight {
        levels if 0.8 < levels => "level off",
        grows if grows < 0.2 => "keep on growing",
        _ => "do not show whether they level off",
    };
    Some(format!(
        "Heights {said}: {:.0} in 100 for a curve that stops, over {} of readings.",
        (weight * 100.0).clamp(1.0, 99.0),
        plural_series(series)
    ))
}

/// Where nobody kept readings and a grower says it as a whole.
fn said_growth(patches: &[Patch]) -> Option<String> {
    let unread = patches.iter().all(|patch| patch.heights.iter().all(|series| series.len() < 2));
    let growth = patches.iter().find_map(|patch| patch.told.growth).filter(|_| unread)?;
    Some(match growth {
        GrowthSeen::LevelsOff => "Its height is said to have levelled off.".to_owned(),
        GrowthSeen::KeepsGrowing => "It is said to keep on growing.".to_owned(),
    })
}

fn said_ripening(patches: &[Patch]) -> Option<String> {
    let unread = patches.iter().all(|patch| patch.picks.is_empty());
    let ripening = patches.iter().find_map(|patch| patch.told.ripening).filter(|_| unread)?;
    let days = |days: u16| plural(usize::from(days), "day");
    Some(match ripening {
        RipeningSeen::Within(within) => format!("Its fruit is said to ripen within {}.", days(within)),
        RipeningSeen::LongerThan(longer) => {
            format!("It is said to have been bearing still after {}.", days(longer))
        }
    })
}

fn plural_series(count: usize) -> String {
    format!("{count} series")
}

fn ripening_days(readings: &[PatchReadings]) -> Option<String> {
    let spreads: Vec<_> = readings.iter().filter_map(|plot| plot.ripening).collect();
    let days = average(&spreads.iter().map(|spread| spread.days).collect::<Vec<_>>())?;
    let bearing = spreads.iter().filter(|spread| spread.still_bearing).count();
    let plots = plural(spreads.len(), "plot");
    let limit = match bearing {
        0 => "the plants had done bearing".to_owned(),
        all if all == spreads.len() => {
            "they still bore when picking ended, so it is a lower limit".to_owned()
        }
        some => format!("in {some} they still bore when picking ended"),
    };
    Some(format!("{days:.0} days from a tenth to nine tenths of the fruit, over {plots}; {limit}."))
}

fn tallest(readings: &[PatchReadings], units: Units) -> Option<String> {
    let tops: Vec<_> = readings.iter().filter_map(|plot| plot.tallest).collect();
    let mean = average(&tops.iter().map(|top| top.height).collect::<Vec<_>>())?;
    Some(format!(
        "{} at the tallest reading, the mean of {}.",
        length(Millimetres::new(mean)?, units),
        plural(tops.len(), "plot")
    ))
}

fn dwarf_leaves(patches: &[Patch]) -> Option<String> {
    let plots = patches.iter().filter(|patch| patch.dwarf_leaves).count();
    let walked = patches.iter().filter(|patch| patch.was_walked()).count();
    let ordinary = patches.iter().any(|patch| patch.told.leaves == Some(LeavesSeen::Ordinary));
    match (plots, walked) {
        (0, _) if ordinary => Some("Its stem and leaves are said to be no dwarf's.".to_owned()),
        (0, 0) => None,
        (0, walked) => {
            Some(format!("Nobody noted a dwarf's stem and leaves while walking {}.", plural(walked, "plot")))
        }
        (plots, _) => Some(format!(
            "Short, sturdy stems and dark crinkled leaves were noted in {}.",
            plural(plots, "plot")
        )),
    }
}
