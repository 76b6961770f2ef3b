//! What each answer about one plant tells of its habit, as tables with which the call can be made elsewhere.
//!
//! The published web pages ask about the plant without a program behind them. Whatever can be answered about
//! one plant is a word or a small count, so every answer goes through the very code that calls a variety, and
//! what it comes to is kept. Start at [`PlantAnswers::new`].
//!
//! # The arithmetic
//! The belief starts as `prior` over the cells (a stature and a stem each) and, within a cell, over the points at
//! which the stem may end; an endless stem has its whole belief in the first point. The answers about one plant
//! together make the likelihood of each point: e to the sum of the cell's logs, times what the stem says, which
//! is `ends` by point, and `endless` in the cells of an endless stem. Each belief is multiplied by
//! (1 - r) L + r S, where L is its likelihood, r the `stray_rate` and S the mean of L over the prior; the whole
//! is then made 1. A habit's share is the belief in its cells. Of a plant whose stem or leaves were looked at and
//! that nobody calls a dwarf, the silence counts too: [`PlantAnswers::silence`].

use crate::habit::belief::{Belief, CELLS, Line, PatchOdds, PatchReadings, Weights, indirect};
use crate::habit::patch::{PlantFate, patches};
use crate::habit::{Habit, HabitModel, Stem};
use crate::unknown::{Unknown, evidence};
use record::season::Season;
use record::unknown::{PlantSeen, StemSeen};

/// Cells of the belief: a stature and a stem each.
pub const CELL_COUNT: usize = CELLS.len();

/// A log-likelihood for each cell, tempered by the guide's trust in what was looked at.
pub type CellLogs = [f64; CELL_COUNT];

/// Everything that the call of one plant needs.
#[derive(Clone, Debug)]
pub struct PlantAnswers<'a> {
    model: &'a HabitModel,
}

/// What is asked of a plant, beside its stem.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Asked {
    /// How many leaves stand between one truss and the next.
    LeavesBetween,
    /// Whether its height has levelled off.
    Growth,
    /// How long its fruit takes to ripen.
    Ripening,
    /// How tall it is, which says more where it is known whether it still grows.
    Height,
    /// Whether its leaves are a dwarf's.
    DwarfLeaves,
}

/// How likely what a stem did is, on one scale for all answers.
#[derive(Clone, Debug, PartialEq)]
pub struct StemLikelihood {
    /// By point.
    pub ends: Vec<f64>,
    /// Of a stem that does not end.
    pub endless: f64,
}

impl<'a> PlantAnswers<'a> {
    /// The answers by this guide.
    #[must_use]
    pub fn new(model: &'a HabitModel) -> Self {
        Self { model }
    }

    /// The belief before anything is answered, by cell, then by point.
    #[must_use]
    pub fn prior(&self) -> Vec<Vec<f64>> {
        self.model.prior.cells().map(<[f64]>::to_vec).collect()
    }

    /// The habit of each cell, by its place in [`Habit::ALL`], and whether its stem is endless.
    #[must_use]
    pub fn cells(&self) -> [(usize, Ending); CELL_COUNT] {
        CELLS.map(|(stature, stem)| {
            let ending = if stem == Stem::Indeterminate { Ending::Endless } else { Ending::InATruss };
            (Habit::of(stem, stature) as usize, ending)
        })
    }

    /// How often a plant is a stray of another variety.
    #[must_use]
    pub fn stray_rate(&self) -> f64 {
        self.model.guide.mistakes.stray_plot_rate.number
    }

    /// Trusses up to which a stem is followed before frost: what following it can show.
    #[must_use]
    pub fn season_reach(&self) -> f64 {
        self.model.guide.trusses.season_reach.number
    }

    /// How far the guide trusts what is asked: the power to which its likelihood is taken.
    #[must_use]
    pub fn trust(&self, asked: Asked) -> f64 {
        let trust = &self.model.guide.trust;
        match asked {
            Asked::LeavesBetween => trust.leaves.number,
            Asked::Growth => trust.height_curve.number,
            Asked::Ripening => trust.ripening.number,
            Asked::Height => trust.final_height.number,
            Asked::DwarfLeaves => 1.0,
        }
    }

    /// What a stem that was seen to do this says. A stem that grows and has no truss yet says nothing.
    #[must_use]
    pub fn stem(&self, seen: StemSeen) -> Option<StemLikelihood> {
        let fate = match seen {
            StemSeen::Growing(0) => return None,
            StemSeen::Growing(trusses) => PlantFate::GrowingAfter(trusses),
            StemSeen::Ended(None) => PlantFate::EndedBeyond(0),
            StemSeen::Ended(Some(trusses)) => PlantFate::EndedAfter(trusses),
        };
        let odds = self.model.trusses.likelihood(fate)?;
        Some(StemLikelihood { ends: odds.ends.to_vec(), endless: odds.endless })
    }

    /// What one answer says of each cell; nothing but zeros where the plant was not asked about that.
    #[must_use]
    pub fn logs(&self, plant: &PlantSeen, asked: Asked) -> CellLogs {
        let line = match asked {
            Asked::LeavesBetween => Line::Leaves,
            Asked::Growth => Line::HeightCurve,
            Asked::Ripening => Line::Ripening,
            Asked::Height => Line::FinalHeight,
            Asked::DwarfLeaves => Line::DwarfLeaves,
        };
        let odds = self.odds(plant);
        let logs = odds
            .first()
            .map(|own| indirect(own, Weights::of(std::slice::from_ref(own), &self.model.guide).only(line)));
        let logs = logs.unwrap_or_default();
        CELLS.map(|(stature, stem)| {
            let row = logs.get(stature as usize);
            row.and_then(|row| row.get(stem as usize)).copied().unwrap_or_default()
        })
    }

    /// What it says of each cell that nobody called the plant a dwarf who looked at its stem or leaves.
    #[must_use]
    pub fn silence(&self) -> CellLogs {
        let walked = PlantSeen { stem: Some(StemSeen::Growing(1)), ..PlantSeen::default() };
        self.logs(&walked, Asked::DwarfLeaves)
    }

    /// Belief in each habit after all answers about one plant, in the order of [`Habit::ALL`].
    #[must_use]
    pub fn habits(&self, plant: &PlantSeen) -> [f64; Habit::ALL.len()] {
        let odds = self.odds(plant);
        Belief::of(&odds, Weights::of(&odds, &self.model.guide), self.model).habits()
    }

    fn odds(&self, plant: &PlantSeen) -> Vec<PatchOdds> {
        // The season only sorts plants, and there is one.
        let Some(season) = Season::new(2000) else { return Vec::new() };
        let unknown = Unknown { plants: vec![plant.clone()], ..Unknown::nothing_seen(season) };
        let patches = patches(&evidence(&unknown).habit);
        let odds = |patch| PatchOdds::new(patch, &PatchReadings::new(patch, &self.model.guide), self.model);
        patches.iter().map(odds).collect()
    }
}

/// What the stem of a cell does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ending {
    /// It ends in a truss.
    InATruss,
    /// It does not end.
    Endless,
}
