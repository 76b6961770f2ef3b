//! How likely words and measured colours are under each true colour.
//!
//! Words of one plot and season repeat one person's eye: who calls one pink fruit red is apt to call all
//! of them red. So counts follow a Dirichlet-multinomial, whose `independence` says how fast further words
//! stop adding. Measured colours are compared with the guide's references by CIEDE2000.

use crate::ciede2000::colour_difference;
use crate::guide::colour::{ColourGuide, Reference};
use record::colour::{Lab, Pattern, Skin, TradeColour};
use statrs::function::gamma::ln_gamma;

/// Chance of each word under each true colour; rows sum to 1.
pub(crate) type Confusion<const N: usize> = [[f64; N]; N];

/// How colour words go wrong: the guide's likely slips, and other mistakes spread evenly over the rest.
pub(crate) fn colour_words(guide: &ColourGuide) -> Confusion<{ TradeColour::ALL.len() }> {
    TradeColour::ALL.map(|truth| {
        let slips = |word| {
            let slip = guide.slips.iter().find(|slip| slip.of == truth && slip.written_as == word);
            slip.map(|slip| slip.rate.number)
        };
        let others =
            TradeColour::ALL.iter().filter(|word| **word != truth && slips(**word).is_none()).count();
        let slipped: f64 = TradeColour::ALL.into_iter().filter_map(slips).sum();
        let mistaken = if others == 0 { 0.0 } else { guide.words.mistake_rate.number };
        let evenly = mistaken / f64::from(u32::try_from(others).unwrap_or(1).max(1));
        TradeColour::ALL.map(|word| match slips(word) {
            Some(rate) => rate,
            None if word == truth => 1.0 - slipped - mistaken,
            None => evenly,
        })
    })
}

/// How pattern words go wrong: mistakes spread evenly.
pub(crate) fn pattern_words(guide: &ColourGuide) -> Confusion<{ Pattern::ALL.len() }> {
    let rate = guide.words.pattern_mistake_rate.number;
    Pattern::ALL.map(|truth| Pattern::ALL.map(|word| if word == truth { 1.0 - rate } else { rate / 3.0 }))
}

/// How skin words go wrong.
pub(crate) fn skin_words(guide: &ColourGuide) -> Confusion<{ Skin::ALL.len() }> {
    Skin::ALL.map(|truth| {
        let wrong = match truth {
            Skin::Clear => guide.words.clear_skin_called_yellow.number,
            Skin::Yellow => guide.words.yellow_skin_called_clear.number,
        };
        Skin::ALL.map(|word| if word == truth { 1.0 - wrong } else { wrong })
    })
}

/// How likely counts of words are under each truth.
#[derive(Clone, Debug)]
pub(crate) struct Words<const N: usize> {
    chances: Confusion<N>,
    independence: f64,
    /// By truth, word and count: the log-likelihood of counts small enough to be kept.
    small: Vec<[[f64; KEPT_COUNTS]; N]>,
}

/// Counts whose log-likelihoods are kept; larger ones are worked out.
const KEPT_COUNTS: usize = 16;

impl<const N: usize> Words<N> {
    pub(crate) fn new(chances: Confusion<N>, guide: &ColourGuide) -> Self {
        let independence = guide.words.independence.number;
        let kept = |chance: f64| {
            let mut count = 0.0;
            [(); KEPT_COUNTS].map(|()| {
                let log = risen(independence * chance, count);
                count += 1.0;
                log
            })
        };
        Self { chances, independence, small: chances.iter().map(|chances| chances.map(kept)).collect() }
    }

    /// Log-likelihood of word counts under each truth; what all truths share is left out.
    pub(crate) fn odds(&self, counts: &[u32; N]) -> [f64; N] {
        let mut odds = [0.0; N];
        for (place, count) in counts.iter().enumerate().filter(|(_, count)| 0 < **count) {
            for ((sum, small), chances) in odds.iter_mut().zip(&self.small).zip(&self.chances) {
                let kept = small.get(place).and_then(|counts| counts.get(usize::try_from(*count).ok()?));
                let worked_out = || {
                    let chance = chances.get(place).copied().unwrap_or_default();
                    risen(self.independence * chance, f64::from(*count))
                };
                *sum += kept.copied().unwrap_or_else(worked_out);
            }
        }
        odds
    }

    /// Chance of each word under the truth at this place.
    pub(crate) fn chances(&self, truth: usize) -> [f64; N] {
        self.chances.get(truth).copied().unwrap_or([0.0; N])
    }
}

/// `ln (a (a + 1) .. (a + n - 1))`: what n words of one kind add in a Dirichlet-multinomial.
fn risen(a: f64, count: f64) -> f64 {
    ln_gamma(a + count) - ln_gamma(a)
}

/// Log-likelihood of measured colours under each true colour; `None` where nothing was measured.
pub(crate) fn measured_odds(readings: &[Lab], guide: &ColourGuide) -> Option<[f64; TradeColour::ALL.len()]> {
    let middle = middle(readings)?;
    let count = f64::from(u32::try_from(readings.len()).unwrap_or(u32::MAX));
    let reading_variance = guide.measured.reading_sd.number.powi(2) / count;
    Some(TradeColour::ALL.map(|colour| {
        let of_colour = guide.references.iter().filter(|reference| reference.colour == colour);
        let likeliest =
            of_colour.map(|reference| nearness(middle, reference, reading_variance)).fold(0.0, f64::max);
        let stray = guide.measured.stray_reading_rate.number;
        ((1.0 - stray) * likeliest + stray * ANY_COLOUR).ln()
    }))
}

/// How far apart ripe fruit of all colours lie, in CIEDE2000 units: a stray reading may fall anywhere
/// there. Own working value, about half the distance between the farthest of the shipped references.
const WHOLE_SPREAD: f64 = 25.0;
/// Chance density of a stray reading: that of a cloud as wide as all fruit colours.
const ANY_COLOUR: f64 = 1.0 / (WHOLE_SPREAD * WHOLE_SPREAD * WHOLE_SPREAD);

/// Density of a reading about one reference in the three dimensions of colour, less what all share.
fn nearness(reading: Lab, reference: &Reference, reading_variance: f64) -> f64 {
    let variance = reference.sd.powi(2) + reading_variance;
    let squared = colour_difference(reading, reference.lab).get().powi(2);
    (-0.5 * squared / variance).exp() / variance.powf(1.5)
}

/// The middle reading of each of L*, a* and b*, which a highlight or a leaf cannot drag away.
pub(crate) fn middle(readings: &[Lab]) -> Option<Lab> {
    let middle_of = |part: fn(Lab) -> f64| {
        let mut values: Vec<f64> = readings.iter().map(|reading| part(*reading)).collect();
        values.sort_by(f64::total_cmp);
        let (below, above) = ((values.len().saturating_sub(1)) / 2, values.len() / 2);
        Some((values.get(below)? + values.get(above)?) / 2.0)
    };
    Lab::new(middle_of(Lab::lightness)?, middle_of(Lab::a)?, middle_of(Lab::b)?)
}

/// The reference nearest to a reading, and how far off it is.
pub(crate) fn nearest(reading: Lab, guide: &ColourGuide) -> Option<(TradeColour, f64)> {
    let distance = |reference: &Reference| colour_difference(reading, reference.lab).get();
    let distances = guide.references.iter().map(|reference| (reference.colour, distance(reference)));
    distances.min_by(|one, other| one.1.total_cmp(&other.1))
}
