//! What a mixed model is made of: groupings, measured covariates, and the terms built from them.
//!
//! A term is a product of variables: one factor is a main effect, two an interaction, none at all the
//! intercept. Fixed terms are coded by `design`; random terms become a column for every combination of
//! levels that was seen. Start at [`Factor`] and [`Fixed`].

use std::collections::BTreeMap;

/// A grouping of the rows: variety, block, site.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Factor {
    name: String,
    levels: Vec<String>,
    codes: Vec<usize>,
}

impl Factor {
    /// Groups rows by what is written beside them; levels are put in alphabetical order.
    ///
    /// # Shape
    /// `labels`: one a row.
    ///
    /// # Examples
    /// ```
    /// let block = statistics::mixed::terms::Factor::from_labels("block", &["b", "a", "b"]);
    /// assert_eq!(block.levels(), ["a", "b"]);
    /// assert_eq!(block.codes(), [1, 0, 1]);
    /// ```
    #[must_use]
    pub fn from_labels<S: AsRef<str>>(name: &str, labels: &[S]) -> Self {
        let mut numbers: BTreeMap<&str, usize> = labels.iter().map(|label| (label.as_ref(), 0)).collect();
        for (number, place) in numbers.values_mut().enumerate() {
            *place = number;
        }
        let codes = labels.iter().filter_map(|label| numbers.get(label.as_ref()).copied()).collect();
        let levels = numbers.keys().map(|label| (*label).to_owned()).collect();
        Self { name: name.to_owned(), levels, codes }
    }

    /// Takes levels in an order of the caller's and each row's place in it; `None` where a place is not there.
    ///
    /// A level that no row has is kept: its mean will be said not to be estimable.
    #[must_use]
    pub fn from_codes(name: &str, levels: Vec<String>, codes: Vec<usize>) -> Option<Self> {
        let known = codes.iter().all(|code| *code < levels.len());
        known.then(|| Self { name: name.to_owned(), levels, codes })
    }

    /// What the grouping is called.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The levels, in order.
    #[must_use]
    pub fn levels(&self) -> &[String] {
        &self.levels
    }

    /// Each row's level, as a place in [`Factor::levels`].
    #[must_use]
    pub fn codes(&self) -> &[usize] {
        &self.codes
    }
}

/// A measured number of every row: position in the bed, days since sowing.
#[derive(Clone, Debug, PartialEq)]
pub struct Covariate {
    /// What it is called.
    pub name: String,
    /// One number a row.
    pub values: Vec<f64>,
}

/// One variable of a term.
#[derive(Clone, Debug, PartialEq)]
pub enum Variable {
    /// A grouping.
    Factor(Factor),
    /// A number.
    Covariate(Covariate),
}

impl Variable {
    /// What it is called.
    #[must_use]
    pub fn name(&self) -> &str {
        match self {
            Self::Factor(factor) => factor.name(),
            Self::Covariate(covariate) => &covariate.name,
        }
    }

    /// How many rows it covers.
    pub(super) fn rows(&self) -> usize {
        match self {
            Self::Factor(factor) => factor.codes.len(),
            Self::Covariate(covariate) => covariate.values.len(),
        }
    }
}

impl From<&Factor> for Variable {
    fn from(factor: &Factor) -> Self {
        Self::Factor(factor.clone())
    }
}

impl From<&Covariate> for Variable {
    fn from(covariate: &Covariate) -> Self {
        Self::Covariate(covariate.clone())
    }
}

/// A fixed term: the product of its variables. No variable at all is the intercept.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Fixed {
    /// The variables.
    pub variables: Vec<Variable>,
}

impl Fixed {
    /// The intercept: a one in every row.
    #[must_use]
    pub fn intercept() -> Self {
        Self::default()
    }

    /// A main effect (one variable) or an interaction (several).
    #[must_use]
    pub fn of<const N: usize>(variables: [Variable; N]) -> Self {
        Self { variables: variables.into() }
    }

    /// What it is called, such as `variety x site`.
    #[must_use]
    pub fn name(&self) -> String {
        joined(&self.variables)
    }
}

/// A random term: independent effects with one variance of their own.
#[derive(Clone, Debug, PartialEq)]
pub struct Random {
    /// What it is called.
    pub name: String,
    /// Its columns.
    pub columns: RandomColumns,
}

/// The columns of a random term.
#[derive(Clone, Debug, PartialEq)]
pub enum RandomColumns {
    /// One column for every combination of levels that was seen; covariates among the variables are
    /// multiplied in, which makes random slopes.
    Product(Vec<Variable>),
    /// Columns worked out elsewhere: spline bases, relationship roots.
    Given {
        /// One label a column.
        labels: Vec<String>,
        /// For every row, its columns and the numbers there; columns left out hold zero.
        rows: Vec<Vec<(usize, f64)>>,
    },
}

impl Random {
    /// Effects of one factor (one variable) or of an interaction (several), named after them.
    #[must_use]
    pub fn of<const N: usize>(variables: [Variable; N]) -> Self {
        let variables: Vec<Variable> = variables.into();
        Self { name: joined(&variables), columns: RandomColumns::Product(variables) }
    }

    /// Effects with columns of the caller's. Effects with a covariance K enter as the columns Z L, K = L L'.
    ///
    /// # Shape
    /// `labels`: one a column. `rows`: one list of (column, number) a row.
    #[must_use]
    pub fn given(name: &str, labels: Vec<String>, rows: Vec<Vec<(usize, f64)>>) -> Self {
        Self { name: name.to_owned(), columns: RandomColumns::Given { labels, rows } }
    }
}

/// Names of variables, joined as a product.
fn joined(variables: &[Variable]) -> String {
    if variables.is_empty() {
        return "intercept".to_owned();
    }
    variables.iter().map(Variable::name).collect::<Vec<_>>().join(" x ")
}
