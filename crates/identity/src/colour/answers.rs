//! What each word about one fruit tells of its variety's colour, as tables with which the call can be made
//! elsewhere.
//!
//! The published web pages call a colour without a program behind them. Start at [`ColourAnswers::new`].
//!
//! # The arithmetic
//! The belief starts as `prior` over the colours outside and, beneath each, over the pairs of flesh and skin (skin
//! running fastest). A word multiplies the likelihood of each true colour by the chance of writing it there; words
//! of outside, flesh and skin multiply. Each belief is multiplied by (1 - r) L + r S, where L is its likelihood, r
//! the `stray_rate` and S the mean of L over the prior; the whole is then made 1. The pattern goes by itself, the
//! same way.

use crate::colour::ColourModel;
use crate::colour::belief::ColourBelief;
use crate::unknown::{Unknown, evidence};
use record::colour::{Pattern, Skin, TradeColour};
use record::season::Season;
use record::unknown::FruitSeen;

/// Everything that the colour call of one fruit needs.
#[derive(Clone, Debug)]
pub struct ColourAnswers<'a> {
    model: &'a ColourModel,
}

/// Belief in each answer.
#[derive(Clone, Debug, PartialEq)]
pub struct ColourShares {
    /// In each colour outside, in the order of [`TradeColour::ALL`].
    pub exterior: [f64; TradeColour::ALL.len()],
    /// In each pattern, in the order of [`Pattern::ALL`].
    pub pattern: [f64; Pattern::ALL.len()],
}

impl<'a> ColourAnswers<'a> {
    /// The answers by this guide.
    #[must_use]
    pub fn new(model: &'a ColourModel) -> Self {
        Self { model }
    }

    /// The belief before anything is read: by colour outside, then by flesh and skin beneath it.
    #[must_use]
    pub fn prior(&self) -> Vec<Vec<f64>> {
        self.model.tables.prior.0.iter().map(|beneath| beneath.to_vec()).collect()
    }

    /// The same for the patterns.
    #[must_use]
    pub fn pattern_prior(&self) -> [f64; Pattern::ALL.len()] {
        self.model.tables.pattern_prior
    }

    /// How often what is read is of a stray of another variety.
    #[must_use]
    pub fn stray_rate(&self) -> f64 {
        self.model.guide.words.stray_plot_rate.number
    }

    /// The chance of each colour word, by true colour.
    #[must_use]
    pub fn words(&self) -> [[f64; TradeColour::ALL.len()]; TradeColour::ALL.len()] {
        TradeColour::ALL.map(|truth| self.model.tables.colour_chances(truth as usize))
    }

    /// The chance of each skin word, by true skin.
    #[must_use]
    pub fn skins(&self) -> [[f64; Skin::ALL.len()]; Skin::ALL.len()] {
        Skin::ALL.map(|truth| self.model.tables.skin_chances(truth as usize))
    }

    /// The chance of each pattern word, by true pattern.
    #[must_use]
    pub fn patterns(&self) -> [[f64; Pattern::ALL.len()]; Pattern::ALL.len()] {
        Pattern::ALL.map(|truth| self.model.tables.pattern_chances(truth as usize))
    }

    /// Belief after the words about one fruit.
    #[must_use]
    pub fn shares(&self, fruit: &FruitSeen) -> Option<ColourShares> {
        // The season only sorts fruits, and there is one.
        let season = Season::new(2000)?;
        let unknown = Unknown { fruits: vec![fruit.clone()], ..Unknown::nothing_seen(season) };
        let belief = ColourBelief::of(&evidence(&unknown).colour, &self.model.tables, &self.model.guide);
        Some(ColourShares { exterior: belief.triples.exterior(), pattern: belief.pattern })
    }
}
