//! A variance component: how much of the spread one level of grouping makes, and how far to trust it.
//!
//! Both mixed models ([`crate::nested`], [`crate::variety_means`]) answer in these words, and both take
//! a [`Prior`] in them. A component that the data cannot tell is said so by [`Standing`], never by NaN.

/// One variance component, in squared units of the measurement.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Component {
    /// The estimate; 0 where [`Standing`] says that there is none.
    pub variance: f64,
    /// What stands behind it.
    pub standing: Standing,
}

/// What stands behind a component's value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Standing {
    /// The data's own value, or the data's and a prior's together.
    Estimated {
        /// Standard error of the variance, from the average information.
        standard_error: f64,
    },
    /// The criterion is best at nothing: groups of this level differ no more than chance would make them.
    AtZero,
    /// The criterion is best at the largest or least value that the parameter may have: a correlation that climbs to
    /// one. The others stand with it held there.
    AtBound,
    /// The data say nothing of this level, so the prior stands alone.
    FromPrior {
        /// Standard error that the prior's degrees of freedom give it.
        standard_error: f64,
    },
    /// Neither data nor prior tell it; the value is 0 and must not be read as "no spread".
    NotEstimable(Why),
}

/// Why the data do not tell a component.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// No two groups of this level can be compared: each has a mean of its own to itself.
    NothingToCompare,
    /// This level never varies apart from another, whose component holds the sum of the two.
    NotSeparable,
}

/// What was known of a component beforehand: a variance as though seen on some degrees of freedom.
///
/// It enters the criterion as the likelihood of an independent estimate `variance` on `degrees`
/// degrees of freedom, that is `degrees * (ln v + variance / v)` on the deviance scale. In a balanced
/// table this pools sums of squares: `(SS + degrees * variance) / (df + degrees)`. So a house with
/// little data stays near the prior, and one with 100 times `degrees` hardly feels it. A component
/// with a prior is never exactly zero.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Prior {
    variance: f64,
    degrees: f64,
}

impl Prior {
    /// Takes a positive variance and positive degrees of freedom, both finite.
    #[must_use]
    pub fn new(variance: f64, degrees: f64) -> Option<Self> {
        let positive = |number: f64| number.is_finite() && 0.0 < number;
        (positive(variance) && positive(degrees)).then_some(Self { variance, degrees })
    }

    /// The variance that it points to.
    #[must_use]
    pub fn variance(self) -> f64 {
        self.variance
    }

    /// The degrees of freedom that it weighs.
    #[must_use]
    pub fn degrees(self) -> f64 {
        self.degrees
    }
}

impl Component {
    /// A component that nothing tells.
    pub(crate) fn untold(why: Why) -> Self {
        Self { variance: 0.0, standing: Standing::NotEstimable(why) }
    }

    /// Its square root: the standard deviation, in units of the measurement.
    #[must_use]
    pub fn standard_deviation(&self) -> f64 {
        self.variance.sqrt()
    }

    /// Whether data or prior tell it; `false` only for [`Standing::NotEstimable`].
    #[must_use]
    pub fn is_known(&self) -> bool {
        !matches!(self.standing, Standing::NotEstimable(_))
    }
}
