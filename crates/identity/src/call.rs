//! A call: what a variety is, how sure that is, what decided it, and what would settle it.
//!
//! Fruit class, habit and colour are all told in these words, so that a page, a table or a file can
//! show any of them alike. A call knows nothing of how it was reached beyond the sentences it carries.
//! Start at [`Call`].

use record::share::Share;

/// Under this share the verdict is contested: people who know it may fairly call it otherwise.
/// Source: the house's design (section 4); common practice, no source.
pub const CONTESTED_UNDER: f64 = 0.80;

/// A call is settled at this share. Source: the house's design (section 4); common practice, no source.
pub const SETTLED_AT: f64 = 0.95;

/// A look that is expected to lift a call by less than this is not worth telling. Common practice, no source.
pub(crate) const WORTH_A_LOOK: f64 = 0.005;

/// What a variety is in one respect, with its probability and everything that it rests on.
#[derive(Clone, Debug, PartialEq)]
pub struct Call<V> {
    /// The likeliest answer; `None` where that is "between classes" or where no evidence speaks.
    pub verdict: Option<V>,
    /// Every answer that the guide has, likeliest first. With `between` they make the whole.
    pub shares: Vec<(V, Share)>,
    /// The share that no answer takes: between classes, or the whole where no evidence speaks.
    pub between: Share,
    /// Whether the verdict, or the lack of one, holds less than [`CONTESTED_UNDER`].
    pub contested: bool,
    /// The sentence that says which rule decided.
    pub rule: String,
    /// What would settle it, cheapest first; empty where nothing needs settling.
    pub settle: Vec<Step>,
    /// What it rests on.
    pub used: Used,
    /// Each line of evidence and its weight.
    pub lines: Vec<EvidenceLine>,
}

/// What a call rests on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Used {
    /// Records read.
    pub records: u64,
    /// Fruits that those records speak of.
    pub fruits: u64,
    /// Plants they were taken from; records that name no plant count as one plant a plot and season.
    pub plants: u64,
    /// Seasons.
    pub seasons: u64,
    /// Records left out because they do not fit the variety.
    pub set_aside: u64,
}

/// One line of evidence, in words and as a weight.
#[derive(Clone, Debug, PartialEq)]
pub struct EvidenceLine {
    /// What was looked at, such as `weight` or `leaves between trusses`.
    pub about: String,
    /// What it said, with its numbers and their units.
    pub words: String,
    /// How hard it pulls.
    pub pull: Pull,
}

/// How hard a line of evidence pulls.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Pull {
    /// Natural logarithm of how many times likelier this line is under the verdict than under the
    /// runner-up; below 0 it speaks against the verdict.
    LogOdds(f64),
    /// How sure the verdict would be if this line had not been seen: the less, the more it decides.
    WithoutIt(Share),
    /// It was looked for and is missing, so the guide's or the trade's usual values stood in for it.
    Missing,
    /// Told for the record; it does not enter the call.
    Aside,
}

/// One thing to do in the garden or at the bench that would make a call surer.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What to do.
    pub action: Action,
    /// The same in words: `Cut 5 fruits across and count the locules.`
    pub words: String,
    /// How sure the call is expected to be afterwards.
    pub expected: Share,
    /// How likely it is that the call then stands at [`SETTLED_AT`] or above.
    pub settles: Share,
}

/// What to do next.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Action {
    /// Weigh fruits.
    WeighFruits(u32),
    /// Cut fruits across and count the locules.
    CutFruits(u32),
    /// Measure the neck of fruits.
    MeasureNecks(u32),
    /// Measure length and width of fruits.
    MeasureSizes(u32),
    /// Read the juice of fruits on a refractometer.
    ReadRefractometer(u32),
    /// Weigh and measure more fruits of plants that were measured before.
    MoreFruits(u32),
    /// Weigh and measure fruits of more plants in the same season.
    MorePlants {
        /// How many plants.
        plants: u32,
        /// Fruits of each.
        fruits_each: u32,
    },
    /// Grow it for more seasons, some plants and fruits in each.
    MoreSeasons {
        /// How many more.
        seasons: u32,
        /// Plants in each.
        plants: u32,
        /// Fruits of each plant.
        fruits_each: u32,
    },
    /// Follow the main stem until it ends in a truss or frost ends the season, on so many plants.
    FollowStems(u32),
    /// Count the leaves between trusses, on so many plants.
    CountLeaves(u32),
    /// Measure heights once a week, on so many plants.
    MeasureHeights(u32),
    /// Count the fruit of every pick until the end of the season, on so many plants.
    CountPicks(u32),
    /// Read the colour of ripe fruits.
    ReadColour(u32),
    /// Peel ripe fruits and hold the skin to the light.
    PeelSkin(u32),
    /// Nothing: it truly sits on the border, and no measurement will take it off.
    AcceptTheBorder,
}

impl<V: Clone> Call<V> {
    /// A call that nothing speaks for: no verdict, and `rule` says what is missing.
    ///
    /// # Shape
    /// `answers`: every answer that the guide has; each gets no share.
    #[must_use]
    pub fn without_evidence(answers: &[V], rule: String) -> Self {
        Self {
            verdict: None,
            shares: answers.iter().map(|answer| (answer.clone(), Share::NONE)).collect(),
            between: Share::ALL,
            contested: true,
            rule,
            settle: Vec::new(),
            used: Used::default(),
            lines: Vec::new(),
        }
    }

    /// The share of the verdict, or of "between classes" where there is none.
    #[must_use]
    pub fn probability(&self) -> Share {
        match (&self.verdict, self.shares.first()) {
            (Some(_), Some((_, share))) => *share,
            _ => self.between,
        }
    }
}

/// Whether a leading share leaves the call contested.
#[must_use]
pub fn is_contested(leading: Share) -> bool {
    leading.get() < CONTESTED_UNDER
}
