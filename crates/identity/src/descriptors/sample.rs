//! The sample behind a characteristic against what a standard asks for.

use crate::descriptors::Described;
use crate::guide::standards::{CodedFrom, Counted, Figure, SampleAsked, Standard};
use crate::habit::evidence::HabitEvidence;
use crate::sums::Trait;

/// What the evidence falls short of, each in one sentence.
pub(crate) fn shortfalls(
    standard: &Standard,
    asks: &[Counted],
    coding: &CodedFrom,
    described: &Described<'_>,
) -> Vec<String> {
    let asked = standard.samples.iter().filter(|sample| asks.contains(&sample.counted));
    asked
        .filter_map(|asked| shortfall(&standard.name, asked, seen(asked.counted, coding, described)))
        .collect()
}

fn shortfall(standard: &str, asked: &SampleAsked, seen: Option<u64>) -> Option<String> {
    let mark = asked.status.mark().map(|mark| format!(" ({mark})")).unwrap_or_default();
    let asks = format!("{standard} asks for {}{mark}", asked.words);
    match seen {
        None => Some(format!("{asks}; how many there were was not noted.")),
        Some(seen) if seen < asked.at_least => {
            Some(format!("{asks}; here there {}.", told(seen, asked.counted)))
        }
        Some(_) => None,
    }
}

fn told(seen: u64, counted: Counted) -> String {
    let (one, many) = match counted {
        Counted::Seasons => ("season", "seasons"),
        Counted::Standing | Counted::Plants => ("plant", "plants"),
        Counted::Plots => ("plot", "plots"),
        Counted::Fruits => ("fruit", "fruits"),
    };
    match seen {
        0 => format!("were no {many}"),
        1 => format!("was 1 {one}"),
        some => format!("were {some} {many}"),
    }
}

/// How many the evidence has; `None` where nobody noted it.
fn seen(counted: Counted, coding: &CodedFrom, described: &Described<'_>) -> Option<u64> {
    match counted {
        Counted::Standing => standing(described.walks),
        Counted::Plots => Some(most_plots(described)),
        Counted::Seasons => Some(used(coding, described).0),
        Counted::Plants => Some(used(coding, described).1),
        Counted::Fruits => Some(used(coding, described).2),
    }
}

/// Seasons, plants and fruits that a characteristic rests on.
fn used(coding: &CodedFrom, described: &Described<'_>) -> (u64, u64, u64) {
    let of_call = |used: crate::call::Used| (used.seasons, used.plants, used.fruits);
    match coding {
        CodedFrom::Stem(_) | CodedFrom::Habit(_) | CodedFrom::Nothing { .. } => {
            of_call(described.habit.habit.used)
        }
        CodedFrom::Outside(_) => of_call(described.colour.exterior.used),
        CodedFrom::Flesh(_) => of_call(described.colour.flesh.used),
        CodedFrom::Skin(_) => of_call(described.colour.skin.used),
        CodedFrom::Limits(figure, _) | CodedFrom::Figure(figure) => fruit_used(*figure, described),
    }
}

fn fruit_used(figure: Figure, described: &Described<'_>) -> (u64, u64, u64) {
    let Some(of) = trait_of(figure) else { return (0, 0, 0) };
    let plants = described.fruit.plants(of);
    let mut seasons: Vec<_> = plants.iter().map(|(key, _)| key.season).collect();
    seasons.dedup();
    let count = |counts: usize| u64::try_from(counts).unwrap_or(u64::MAX);
    (count(seasons.len()), count(plants.len()), described.fruit.fruits_with(of))
}

/// The summed trait behind a figure.
pub(crate) fn trait_of(figure: Figure) -> Option<Trait> {
    match figure {
        Figure::Trusses => None,
        Figure::Ratio => Some(Trait::Shape),
        Figure::Weight => Some(Trait::Weight),
        Figure::Length => Some(Trait::Length),
        Figure::Width => Some(Trait::Width),
        Figure::Locules => Some(Trait::Locules),
    }
}

/// Plants that stood in the fullest season, as counted on walks.
fn standing(walks: &HabitEvidence) -> Option<u64> {
    let counted = walks.stands_by_season();
    counted.values().copied().max()
}

/// Plots of the season that had most.
fn most_plots(described: &Described<'_>) -> u64 {
    let walked = described.walks.plots_by_season();
    let picked = described.fruit.keys().map(|key| (key.season, key.plot));
    let mut plots: Vec<_> = walked.chain(picked).collect();
    plots.sort_unstable();
    plots.dedup();
    let by_season = plots.chunk_by(|one, other| one.0 == other.0).map(<[_]>::len).max();
    u64::try_from(by_season.unwrap_or(0)).unwrap_or(u64::MAX)
}
