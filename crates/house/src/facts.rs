//! What was measured of a variety's fruit, and how its portrait looks.

use crate::evidence::Evidence;
use crate::kept::{KeptColour, KeptFacts, KeptFruit, KeptMark, KeptMeasure};
use drawing::look::{FruitLook, Shoulder, Tip};
use identity::facts::usual;
use identity::first_ripe::Transplanted;
use identity::over_plots::OverPlots;
use identity::plant_height::tallest;
use identity::spread::Spread;
use identity::sums::Trait;
use identity::unlike::fitting;
use record::colour::{ColourSeen, Pattern, TradeColour};
use record::length::Millimetres;
use record::mass::Grams;
use record::share::Share;

/// The measures of a variety's fruit and plants.
pub(crate) fn facts(evidence: &Evidence, transplanted: &Transplanted, spread: &Spread) -> KeptFacts {
    // A page must not tell the weight of a plot that the call beside it set aside.
    let fruit = fitting(&evidence.fruit, spread);
    let measure = |of| {
        usual(&fruit, spread, of).map(|range| KeptMeasure {
            usual: range.usual,
            low: range.low,
            high: range.high,
            fruits: range.fruits,
        })
    };
    KeptFacts {
        weight_g: measure(Trait::Weight).or_else(|| measure(Trait::SizedWeight)),
        length_mm: measure(Trait::Length),
        width_mm: measure(Trait::Width),
        neck: measure(Trait::Neck),
        locules: measure(Trait::Locules),
        lobes: measure(Trait::Lobes),
        soluble_solids_pct: measure(Trait::SolubleSolids),
        dry_matter_pct: measure(Trait::DryMatter),
        days_to_ripe: evidence.ripe.days(transplanted).map(of_plots),
        plant_height_mm: tallest(&evidence.habit).map(of_plots),
    }
}

fn of_plots(plots: OverPlots) -> KeptMeasure {
    KeptMeasure { usual: plots.usual, low: plots.low, high: plots.high, fruits: plots.plots }
}

/// Neck ratio under which a fruit tapers to its stem as a pear does. A choice of the drawing.
const TAPERED_UNDER: f64 = 0.62;
/// Share from which a mark is drawn. A choice of the drawing.
const DRAWN_FROM: f64 = 0.5;

/// How a variety's portrait looks, from what is kept of its calls.
#[must_use]
pub fn look(name: &str, fruit: Option<&KeptFruit>, colour: Option<&KeptColour>) -> FruitLook {
    let facts = fruit.map(|fruit| fruit.facts).unwrap_or_default();
    let marks = fruit.map(|fruit| fruit.marks.as_slice()).unwrap_or_default();
    let usual = |measure: Option<KeptMeasure>| measure.map(|measure| measure.usual);
    let neck = usual(facts.neck).and_then(|neck| Share::new(neck.clamp(0.0, 1.0)));
    let tapered = neck.is_some_and(|neck| neck.get() < TAPERED_UNDER);
    FruitLook {
        weight: usual(facts.weight_g).and_then(Grams::new),
        length: usual(facts.length_mm).and_then(Millimetres::new),
        width: usual(facts.width_mm).and_then(Millimetres::new),
        neck,
        shoulder: tapered.then_some(Shoulder::Tapered),
        tip: carries(marks, "heart").then_some(Tip::Pointed),
        lobes: usual(facts.lobes).map(whole),
        locules: usual(facts.locules).map(whole),
        exterior: colour.and_then(|colour| seen(colour.exterior.verdict.as_deref())),
        flesh: colour.and_then(|colour| seen(colour.flesh.verdict.as_deref())),
        pattern: colour.and_then(|colour| pattern(colour.pattern.verdict.as_deref())),
        ..FruitLook::named(name)
    }
}

fn carries(marks: &[KeptMark], name: &str) -> bool {
    marks.iter().any(|mark| mark.mark == name && mark.share.is_some_and(|share| DRAWN_FROM <= share))
}

fn seen(word: Option<&str>) -> Option<ColourSeen> {
    colour_of(word?).map(ColourSeen::Word)
}

/// The colour of a trade word.
#[must_use]
pub fn colour_of(word: &str) -> Option<TradeColour> {
    TradeColour::ALL.into_iter().find(|colour| colour.name() == word)
}

fn pattern(word: Option<&str>) -> Option<Pattern> {
    let word = word?;
    Pattern::ALL.into_iter().find(|pattern| pattern.name() == word)
}

/// A count from its mean: chambers and lobes are drawn whole.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to what a u32 holds")]
pub(crate) fn whole(mean: f64) -> u32 {
    mean.round().clamp(0.0, 1000.0) as u32
}
