//! What is wanted of the list, and in which order: plain values that both servers and memory read alike.

/// What a variety is called in one word.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CalledAs {
    /// Habit.
    Habit,
    /// Fruit class.
    Class,
    /// Colour.
    Colour,
    /// How the colour is laid out.
    Pattern,
}

/// Of what a variety may have several words.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Several {
    /// What it is good for.
    Uses,
    /// Shape marks.
    Marks,
    /// Seasons of its evidence, such as `2031`.
    Seasons,
}

/// A usual measure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// Weight of a fruit, grams.
    Weight,
    /// Length of a fruit, millimetres.
    Length,
    /// Width of a fruit, millimetres.
    Width,
    /// Seed chambers.
    Locules,
    /// Soluble solids, per cent by mass.
    Solids,
    /// Days from transplanting to the first ripe fruit.
    Days,
    /// Height of a plant, millimetres.
    Height,
}

/// What is so of a variety or is not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Plight {
    /// A call that has evidence is contested.
    Contested,
    /// The evidence contradicts a claim.
    Contradicted,
    /// A call has no evidence.
    Unmeasured,
}

/// Whether something is sought or shunned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Taste {
    /// Only varieties of which it is so.
    Sought,
    /// Only varieties of which it is not known to be so.
    Shunned,
}

/// One thing that is wanted. Several are wanted all at once.
#[derive(Clone, Debug, PartialEq)]
pub enum Want {
    /// Called one of these words.
    Called(CalledAs, Taste, Vec<String>),
    /// Having one of these words.
    Has(Several, Taste, Vec<String>),
    /// Measured, and within one of these.
    Within(Measure, Vec<Within>),
    /// In one of these plights.
    In(Taste, Vec<Plight>),
    /// Having these letters in its name or another name; case does not count.
    Letters(String),
    /// Having a word that begins with each of these words, in its names, claims or calls.
    Words(Taste, String),
}

/// From the least to the most, both included; nothing where it is open.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Within {
    /// The least.
    pub least: Option<f64>,
    /// The most.
    pub most: Option<f64>,
}

impl Within {
    /// Whether a measure is within it.
    #[must_use]
    pub fn holds(self, measure: f64) -> bool {
        self.least.is_none_or(|least| least <= measure) && self.most.is_none_or(|most| measure <= most)
    }
}

/// What the list is sorted by. What is not known comes last, whichever way.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum SortedBy {
    /// Name.
    #[default]
    Name,
    /// Weight of a fruit.
    Weight,
    /// Fruit class, small to large.
    Class,
    /// Habit.
    Habit,
    /// Colour.
    Colour,
    /// Days to the first ripe fruit.
    Days,
    /// How sure the least sure call is.
    Sureness,
    /// The newest season of its evidence.
    Newest,
}

/// Which way it is sorted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Way {
    /// From the least, the first letter, the oldest.
    #[default]
    Rising,
    /// The other way.
    Falling,
}

/// Which part of the list to hand out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// All of it.
    Whole,
    /// So many rows after so many.
    Rows {
        /// Rows to hand out.
        most: u32,
        /// Rows before them.
        after: u32,
    },
}
