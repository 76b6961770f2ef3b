//! The laws that counts follow: log-likelihood of a row, its slopes and curvature on the model's scale.

use super::Family;
use statrs::function::gamma::ln_gamma;

/// The scale that effects add up on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Scale {
    /// Logarithm of the mean.
    Log,
    /// Logarithm of the odds.
    LogOdds,
}

impl Scale {
    /// The mean of a place on the scale.
    pub(super) fn mean(self, place: f64) -> f64 {
        match self {
            Self::Log => place.exp(),
            Self::LogOdds => 1.0 / (1.0 + (-place).exp()),
        }
    }
}

/// A law, its shape included.
#[derive(Clone, Debug)]
pub(super) enum Law {
    Poisson,
    Binomial,
    NegativeBinomial(ShapeSums),
}

/// A shape and the sums over whole numbers below a count that its gamma functions come to; exact for large shapes,
/// where differences of gamma functions are not.
#[derive(Clone, Debug)]
pub(super) struct ShapeSums {
    pub(super) shape: f64,
    /// `sum ln(1 + j / shape)`, `sum 1 / (shape + j)` and `sum 1 / (shape + j)^2` over j below each count.
    below: Vec<[f64; 3]>,
}

/// A row's log-likelihood and derivatives by its place on the scale.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Row {
    pub(super) log_likelihood: f64,
    pub(super) slope: f64,
    /// Minus the second derivative: never negative.
    pub(super) weight: f64,
    /// Derivative of the weight.
    pub(super) bend: f64,
    /// The curvature that is expected at this mean, whatever was seen.
    pub(super) expected_weight: f64,
}

/// Derivatives by the logarithm of the shape.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct ByShape {
    pub(super) log_likelihood: f64,
    pub(super) slope: f64,
    pub(super) weight: f64,
}

impl Law {
    /// The law of a family without a shape.
    pub(super) fn of(family: Family<'_>) -> Self {
        match family {
            Family::Binomial { .. } => Self::Binomial,
            Family::Poisson | Family::NegativeBinomial => Self::Poisson,
        }
    }

    /// Negative binomial counts up to `most`.
    pub(super) fn with_shape(shape: f64, most: f64) -> Self {
        let mut below = vec![[0.0; 3]];
        let (mut sums, mut j) = ([0.0; 3], 0.0);
        while j < most {
            let inverse = 1.0 / (shape + j);
            sums = [sums[0] + (j / shape).ln_1p(), sums[1] + inverse, sums[2] + inverse * inverse];
            below.push(sums);
            j += 1.0;
        }
        Self::NegativeBinomial(ShapeSums { shape, below })
    }

    pub(super) fn scale(&self) -> Scale {
        if matches!(self, Self::Binomial) { Scale::LogOdds } else { Scale::Log }
    }

    /// A row of `seen` out of `looked_at` at a place on the scale.
    pub(super) fn row(&self, seen: f64, looked_at: f64, place: f64) -> Row {
        match self {
            Self::Poisson => {
                let mean = place.exp();
                let log_likelihood = seen * place - mean - ln_gamma(seen + 1.0);
                Row { log_likelihood, slope: seen - mean, weight: mean, bend: mean, expected_weight: mean }
            }
            Self::Binomial => binomial(seen, looked_at, place),
            Self::NegativeBinomial(sums) => sums.row(seen, place),
        }
    }

    /// What the log of the shape does to a row; nothing without a shape.
    pub(super) fn by_shape(&self, seen: f64, place: f64) -> ByShape {
        match self {
            Self::NegativeBinomial(sums) => sums.by_shape(seen, place),
            _ => ByShape::default(),
        }
    }

    /// Variance of what is seen at a place.
    pub(super) fn variance(&self, looked_at: f64, place: f64) -> f64 {
        let mean = self.scale().mean(place);
        match self {
            Self::Poisson => mean,
            Self::Binomial => looked_at * mean * self.scale().mean(-place),
            Self::NegativeBinomial(sums) => mean * (1.0 + mean / sums.shape),
        }
    }

    /// The log-likelihood of a row whose mean is what was seen.
    pub(super) fn saturated(&self, seen: f64, looked_at: f64) -> f64 {
        let product = |count: f64, whole: f64| if count > 0.0 { count * (count / whole).ln() } else { 0.0 };
        match self {
            Self::Poisson => product(seen, 1.0) - seen - ln_gamma(seen + 1.0),
            Self::Binomial => {
                log_ways(seen, looked_at) + product(seen, looked_at) + product(looked_at - seen, looked_at)
            }
            Self::NegativeBinomial(sums) => {
                let spread = (seen + sums.shape) * (seen / sums.shape).ln_1p();
                sums.at(seen)[0] + product(seen, 1.0) - spread - ln_gamma(seen + 1.0)
            }
        }
    }
}

fn binomial(seen: f64, looked_at: f64, place: f64) -> Row {
    let (share, rest) = (Scale::LogOdds.mean(place), Scale::LogOdds.mean(-place));
    // ln(1 + e^place) without overflow.
    let log_rest = if 0.0 < place { place + (-place).exp().ln_1p() } else { place.exp().ln_1p() };
    let weight = looked_at * share * rest;
    Row {
        log_likelihood: log_ways(seen, looked_at) + seen * place - looked_at * log_rest,
        slope: seen * rest - (looked_at - seen) * share,
        weight,
        bend: weight * (rest - share),
        expected_weight: weight,
    }
}

/// Logarithm of the number of ways to choose.
fn log_ways(seen: f64, looked_at: f64) -> f64 {
    ln_gamma(looked_at + 1.0) - ln_gamma(seen + 1.0) - ln_gamma(looked_at - seen + 1.0)
}

impl ShapeSums {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "counts are whole numbers that fit 32 bits"
    )]
    fn at(&self, seen: f64) -> [f64; 3] {
        self.below.get(seen as usize).copied().unwrap_or_default()
    }

    fn row(&self, seen: f64, place: f64) -> Row {
        let (mean, shape) = (place.exp(), self.shape);
        let whole = mean + shape;
        // Shares of the whole, so that neither a large mean nor a large shape overflows.
        let (of_mean, of_shape) = (mean / whole, shape / whole);
        let weight = (seen + shape) * of_mean * of_shape;
        Row {
            log_likelihood: self.at(seen)[0] - ln_gamma(seen + 1.0) + seen * place
                - (seen + shape) * (mean / shape).ln_1p(),
            slope: of_shape * (seen - mean),
            weight,
            bend: weight * (of_shape - of_mean),
            expected_weight: mean * of_shape,
        }
    }

    fn by_shape(&self, seen: f64, place: f64) -> ByShape {
        let (mean, shape) = (place.exp(), self.shape);
        let whole = mean + shape;
        let (of_mean, of_shape) = (mean / whole, shape / whole);
        let along = self.at(seen)[1] - (mean / shape).ln_1p() + (mean - seen) / whole;
        let weight = of_mean * ((seen + 2.0 * shape) - 2.0 * of_shape * (seen + shape)) / whole;
        ByShape {
            log_likelihood: shape * along,
            slope: of_shape * of_mean * (seen - mean),
            weight: shape * weight,
        }
    }

    /// Minus the second derivative of a row's log-likelihood by the shape itself, means taken as known.
    pub(super) fn shape_information(&self, seen: f64, place: f64) -> f64 {
        let mean = place.exp();
        let whole = mean + self.shape;
        self.at(seen)[2] - 1.0 / self.shape + 2.0 / whole - (seen + self.shape) / (whole * whole)
    }
}
