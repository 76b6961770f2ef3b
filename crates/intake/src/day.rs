//! Dates as growers write them.

/// Which of day and month comes first in a date of three numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DateOrder {
    /// 14/7/2031.
    DayFirst,
    /// 7/14/2031.
    MonthFirst,
}

impl DateOrder {
    /// Its name: `day first` or `month first`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::DayFirst => "day first",
            Self::MonthFirst => "month first",
        }
    }

    /// The order of this name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        [Self::DayFirst, Self::MonthFirst].into_iter().find(|order| order.name() == name)
    }
}
