//! Belief: Bayes over outside, flesh and skin together, plot by plot, and over the pattern beside them.
//!
//! A variety is one of 162 triples of outside, flesh and skin. The guide's table of skin and flesh makes
//! most of them rare, so that what is read on one part tells of the others. Each plot may be a stray of
//! another variety. Start at [`ColourBelief::of`].

use crate::colour::evidence::{ColourEvidence, PatchColours};
use crate::colour::likelihood::{Words, colour_words, measured_odds, pattern_words, skin_words};
use crate::guide::colour::ColourGuide;
use record::colour::{Pattern, Skin, TradeColour};

const COLOUR_COUNT: usize = TradeColour::ALL.len();
const SKIN_COUNT: usize = Skin::ALL.len();
const PATTERN_COUNT: usize = Pattern::ALL.len();

/// Everything about colour that depends on the guide only.
#[derive(Clone, Debug)]
pub(crate) struct Tables {
    words: Words<COLOUR_COUNT>,
    skins: Words<SKIN_COUNT>,
    patterns: Words<PATTERN_COUNT>,
    pub(crate) prior: Triples,
    pub(crate) pattern_prior: [f64; PATTERN_COUNT],
}

/// Shares by outside, then by flesh and skin beneath it (skin running fastest); the whole is 1.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Triples(pub(crate) [[f64; BENEATH]; COLOUR_COUNT]);

/// Pairs of flesh and skin that may lie beneath one colour outside.
const BENEATH: usize = COLOUR_COUNT * SKIN_COUNT;

/// A line of evidence on colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Line {
    Words,
    Measured,
    Flesh,
    Skin,
}

impl Line {
    pub(crate) const ALL: [Self; 4] = [Self::Words, Self::Measured, Self::Flesh, Self::Skin];
}

/// The log-likelihoods of what was read in one plot; nothing read is nothing but zeros.
#[derive(Clone, Debug, Default)]
pub(crate) struct PlotOdds {
    pub(crate) words: [f64; COLOUR_COUNT],
    pub(crate) measured: [f64; COLOUR_COUNT],
    pub(crate) flesh: [f64; COLOUR_COUNT],
    pub(crate) skin: [f64; SKIN_COUNT],
    pub(crate) pattern: [f64; PATTERN_COUNT],
}

impl Tables {
    pub(crate) fn new(guide: &ColourGuide) -> Self {
        let shares: f64 = guide.pattern.iter().map(|(_, share)| share.number).sum();
        let mut pattern_prior = [0.0; PATTERN_COUNT];
        for (prior, (_, share)) in pattern_prior.iter_mut().zip(&guide.pattern) {
            *prior = share.number / shares;
        }
        Self {
            words: Words::new(colour_words(guide), guide),
            skins: Words::new(skin_words(guide), guide),
            patterns: Words::new(pattern_words(guide), guide),
            prior: Triples::prior(guide),
            pattern_prior,
        }
    }

    /// What one plot's readings say.
    pub(crate) fn odds(&self, patch: &PatchColours, guide: &ColourGuide) -> PlotOdds {
        let measured = |readings| measured_odds(readings, guide).unwrap_or_default();
        let mut flesh = self.colour_words(&patch.flesh);
        flesh.iter_mut().zip(measured(&patch.measured_flesh)).for_each(|(sum, log)| *sum += log);
        PlotOdds {
            words: self.colour_words(&patch.exterior),
            measured: measured(&patch.measured_exterior),
            flesh,
            skin: self.skin_words(&patch.skin),
            pattern: self.pattern_words(&patch.pattern),
        }
    }

    pub(crate) fn colour_words(&self, counts: &[u32; COLOUR_COUNT]) -> [f64; COLOUR_COUNT] {
        self.words.odds(counts)
    }

    pub(crate) fn skin_words(&self, counts: &[u32; SKIN_COUNT]) -> [f64; SKIN_COUNT] {
        self.skins.odds(counts)
    }

    pub(crate) fn pattern_words(&self, counts: &[u32; PATTERN_COUNT]) -> [f64; PATTERN_COUNT] {
        self.patterns.odds(counts)
    }

    /// Chance of each colour word where the truth stands at this place of [`TradeColour::ALL`].
    pub(crate) fn colour_chances(&self, truth: usize) -> [f64; COLOUR_COUNT] {
        self.words.chances(truth)
    }

    /// Chance of each skin word where the truth stands at this place of [`Skin::ALL`].
    pub(crate) fn skin_chances(&self, truth: usize) -> [f64; SKIN_COUNT] {
        self.skins.chances(truth)
    }

    /// Chance of each pattern word where the truth stands at this place of [`Pattern::ALL`].
    pub(crate) fn pattern_chances(&self, truth: usize) -> [f64; PATTERN_COUNT] {
        self.patterns.chances(truth)
    }
}

impl PlotOdds {
    /// How likely what was read of flesh and skin is for each pair of them; the likeliest is 1.
    fn beneath(&self) -> [f64; BENEATH] {
        let (flesh, skin) = (risen(&self.flesh), risen(&self.skin));
        let mut beneath = [1.0; BENEATH];
        for (skins, flesh) in beneath.as_chunks_mut::<SKIN_COUNT>().0.iter_mut().zip(flesh) {
            skins.iter_mut().zip(skin).for_each(|(odds, skin)| *odds = flesh * skin);
        }
        beneath
    }

    /// The same with nothing but one line read.
    pub(crate) fn only(&self, line: Line) -> Self {
        let nothing = Self::default();
        match line {
            Line::Words => Self { words: self.words, ..nothing },
            Line::Measured => Self { measured: self.measured, ..nothing },
            Line::Flesh => Self { flesh: self.flesh, ..nothing },
            Line::Skin => Self { skin: self.skin, ..nothing },
        }
    }
}

impl Triples {
    /// The guide's colours outside; below each, its rows of skin and flesh alike, and exceptions over all.
    fn prior(guide: &ColourGuide) -> Self {
        let exceptions = guide.exception_rate.number;
        let mut shares = [[0.0; BENEATH]; COLOUR_COUNT];
        for (beneath, (outside, share)) in shares.iter_mut().zip(&guide.colour) {
            let rows: Vec<_> = guide.skin_and_flesh.iter().filter(|row| row.outside == *outside).collect();
            let each = (1.0 - exceptions) / count(rows.len());
            for (place, cell) in beneath.iter_mut().enumerate() {
                let listed = rows.iter().any(|row| beneath_place(row.flesh, row.skin) == place);
                *cell = share.number * (exceptions / count(BENEATH) + if listed { each } else { 0.0 });
            }
        }
        let mut prior = Self(shares);
        prior.scale();
        prior
    }

    /// Belief after all plots.
    pub(crate) fn after(&self, odds: &[PlotOdds], stray_rate: f64) -> Self {
        let mut belief = self.clone();
        odds.iter().for_each(|odds| belief.take(odds, self, stray_rate));
        belief
    }

    /// Takes in one more plot, which may be a stray drawn from `prior`.
    pub(crate) fn take(&mut self, odds: &PlotOdds, prior: &Self, stray_rate: f64) {
        let mut outside = odds.words;
        outside.iter_mut().zip(odds.measured).for_each(|(sum, log)| *sum += log);
        let (outside, beneath) = (risen(&outside), odds.beneath());
        let of_row =
            |row: &[f64; BENEATH]| row.iter().zip(beneath).map(|(share, odds)| share * odds).sum::<f64>();
        let stray: f64 = prior.0.iter().zip(outside).map(|(row, outside)| outside * of_row(row)).sum();
        let floor = (stray_rate * stray).max(LEAST_ODDS);
        for (row, outside) in self.0.iter_mut().zip(outside) {
            let factor = (1.0 - stray_rate) * outside;
            row.iter_mut().zip(beneath).for_each(|(belief, odds)| *belief *= factor * odds + floor);
        }
        self.scale();
    }

    fn scale(&mut self) {
        let whole: f64 = self.exterior().iter().sum();
        self.0.iter_mut().flatten().for_each(|cell| *cell /= whole);
    }

    /// Shares of each colour outside.
    pub(crate) fn exterior(&self) -> [f64; COLOUR_COUNT] {
        self.0.map(|beneath| beneath.iter().sum())
    }

    /// Shares of each colour of the flesh.
    pub(crate) fn flesh(&self) -> [f64; COLOUR_COUNT] {
        let mut shares = [0.0; COLOUR_COUNT];
        for beneath in &self.0 {
            let by_flesh = beneath.as_chunks::<SKIN_COUNT>().0;
            shares.iter_mut().zip(by_flesh).for_each(|(share, skins)| *share += skins.iter().sum::<f64>());
        }
        shares
    }

    /// Shares of each skin.
    pub(crate) fn skin(&self) -> [f64; SKIN_COUNT] {
        let mut shares = [0.0; SKIN_COUNT];
        for skins in self.0.iter().flat_map(|beneath| beneath.as_chunks::<SKIN_COUNT>().0) {
            shares.iter_mut().zip(skins).for_each(|(share, cell)| *share += cell);
        }
        shares
    }
}

/// Where a flesh and a skin stand beneath a colour outside.
fn beneath_place(flesh: TradeColour, skin: Skin) -> usize {
    flesh as usize * SKIN_COUNT + skin as usize
}

#[expect(clippy::cast_precision_loss, reason = "there are at most 18 rows")]
fn count(rows: usize) -> f64 {
    rows.max(1) as f64
}

/// No plot is less likely than this anywhere, so that no belief can vanish in the arithmetic.
const LEAST_ODDS: f64 = 1e-200;

/// Likelihoods from logs, the likeliest 1.
fn risen<const N: usize>(logs: &[f64; N]) -> [f64; N] {
    let top = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    logs.map(|log| (log - top).exp())
}

/// What is believed of one variety.
#[derive(Clone, Debug)]
pub(crate) struct ColourBelief {
    pub(crate) triples: Triples,
    pub(crate) pattern: [f64; PATTERN_COUNT],
    pub(crate) odds: Vec<PlotOdds>,
}

impl ColourBelief {
    pub(crate) fn of(evidence: &ColourEvidence, tables: &Tables, guide: &ColourGuide) -> Self {
        let odds: Vec<PlotOdds> = evidence.patches.values().map(|patch| tables.odds(patch, guide)).collect();
        let stray_rate = guide.words.stray_plot_rate.number;
        let triples = tables.prior.after(&odds, stray_rate);
        let pattern = odds.iter().fold(tables.pattern_prior, |belief, odds| {
            pattern_after(&belief, &odds.pattern, &tables.pattern_prior, stray_rate)
        });
        Self { triples, pattern, odds }
    }
}

/// Belief in each pattern after one more plot.
pub(crate) fn pattern_after(
    belief: &[f64; PATTERN_COUNT],
    odds: &[f64; PATTERN_COUNT],
    prior: &[f64; PATTERN_COUNT],
    stray_rate: f64,
) -> [f64; PATTERN_COUNT] {
    let likelihood = risen(odds);
    let stray: f64 = prior.iter().zip(likelihood).map(|(share, odds)| share * odds).sum();
    let mut after = *belief;
    for (share, likelihood) in after.iter_mut().zip(likelihood) {
        *share *= (1.0 - stray_rate) * likelihood + stray_rate * stray;
    }
    let sum: f64 = after.iter().sum();
    after.map(|share| share / sum)
}
