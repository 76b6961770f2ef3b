//! What could be planted, and what a plant of it would bear in each of the sampled years.
//!
//! Start at [`Supply::new`].

/// Room for a plant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Room {
    /// In a bed, so many square metres.
    Bed(f64),
    /// A container of its own.
    Container,
}

/// A variety set out in one wave.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// The variety.
    pub variety: String,
    /// The transplanting wave, from 0.
    pub wave: u32,
    /// Its fruit class, or whatever word wishes go by.
    pub class: String,
    /// The room that a plant takes.
    pub room: Room,
}

/// A choice with what a plant of it bears in its own weeks.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    /// The choice.
    pub choice: Choice,
    /// The week of the plan in which its own first week lies: plants of a later wave go out later.
    pub from_week: usize,
    /// Kilograms a plant: the weeks of a year lie together, one year after another.
    pub kilograms: Vec<f64>,
}

/// Choices, and kilograms a plant of each in every week of every sampled year.
#[derive(Clone, Debug, PartialEq)]
pub struct Supply {
    choices: Vec<Choice>,
    weeks: usize,
    years: usize,
    kilograms: Vec<f64>,
}

/// Why there is no such supply.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum SupplyFault {
    /// No choice, no week or no year.
    #[error("there is nothing to choose from, or no week, or no year")]
    Empty,
    /// The columns do not fit.
    #[error("{found} numbers for {wanted} places")]
    Columns {
        /// Choices x weeks x years.
        wanted: usize,
        /// Numbers given.
        found: usize,
    },
    /// A plant bears less than nothing, or no number.
    #[error("year {year}, choice {choice}, week {week}: no weight")]
    NoWeight {
        /// From 0.
        year: usize,
        /// From 0.
        choice: usize,
        /// From 0.
        week: usize,
    },
    /// A plant takes no room in its bed.
    #[error("choice {0} takes no room")]
    NoRoom(usize),
}

impl Supply {
    /// Takes columns as they come.
    ///
    /// # Shape
    /// `kilograms`: the weeks of a choice lie together, then the choices of a year, then the years:
    /// `[(year * choices + choice) * weeks + week]`.
    ///
    /// # Errors
    /// [`SupplyFault`] for columns that do not fit, and numbers that are no weight or no room.
    pub fn new(choices: Vec<Choice>, weeks: usize, kilograms: Vec<f64>) -> Result<Self, SupplyFault> {
        let a_year = choices.len().saturating_mul(weeks);
        if a_year == 0 || kilograms.is_empty() {
            return Err(SupplyFault::Empty);
        }
        let years = kilograms.len().div_ceil(a_year);
        if years * a_year != kilograms.len() {
            return Err(SupplyFault::Columns { wanted: years * a_year, found: kilograms.len() });
        }
        if let Some(place) = kilograms.iter().position(|weight| !(weight.is_finite() && 0.0 <= *weight)) {
            let (year, in_year) = (place / a_year, place % a_year);
            return Err(SupplyFault::NoWeight { year, choice: in_year / weeks, week: in_year % weeks });
        }
        let no_room =
            |choice: &Choice| matches!(choice.room, Room::Bed(area) if !(area.is_finite() && 0.0 < area));
        match choices.iter().position(no_room) {
            Some(choice) => Err(SupplyFault::NoRoom(choice)),
            None => Ok(Self { choices, weeks, years, kilograms }),
        }
    }

    /// Puts choices together, each moved to the weeks in which it stands.
    ///
    /// # Shape
    /// Every choice has the same number of years. The plan's weeks run to the end of the last choice's.
    ///
    /// # Errors
    /// [`SupplyFault`] for columns that do not fit, and numbers that are no weight or no room.
    pub fn of_columns(columns: Vec<Column>, years: usize) -> Result<Self, SupplyFault> {
        let own_weeks = |column: &Column| column.kilograms.len().checked_div(years).unwrap_or(0);
        let weeks = columns.iter().map(|column| column.from_week + own_weeks(column)).max().unwrap_or(0);
        let (choices, a_year) = (columns.len(), columns.len() * weeks);
        let mut kilograms = vec![0.0; years * a_year];
        for (choice, column) in columns.iter().enumerate() {
            let own = own_weeks(column);
            if own == 0 || own * years != column.kilograms.len() {
                return Err(SupplyFault::Columns { wanted: own * years, found: column.kilograms.len() });
            }
            for (year, borne) in column.kilograms.chunks_exact(own).enumerate() {
                let from = (year * choices + choice) * weeks + column.from_week;
                if let Some(place) = kilograms.get_mut(from..from + own) {
                    place.copy_from_slice(borne);
                }
            }
        }
        Self::new(columns.into_iter().map(|column| column.choice).collect(), weeks, kilograms)
    }

    /// What may be chosen.
    #[must_use]
    pub fn choices(&self) -> &[Choice] {
        &self.choices
    }

    /// How many weeks a year has.
    #[must_use]
    pub fn weeks(&self) -> usize {
        self.weeks
    }

    /// How many years were sampled.
    #[must_use]
    pub fn years(&self) -> usize {
        self.years
    }

    /// Kilograms a plant; nothing outside the columns.
    #[must_use]
    pub fn kilograms(&self, year: usize, choice: usize, week: usize) -> f64 {
        let place = (year * self.choices.len() + choice) * self.weeks + week;
        let inside = choice < self.choices.len() && week < self.weeks;
        if inside { self.kilograms.get(place).copied().unwrap_or(0.0) } else { 0.0 }
    }

    /// Kilograms a plant in every week of a year; none outside the columns.
    #[must_use]
    pub fn in_year(&self, year: usize, choice: usize) -> &[f64] {
        let place = (year * self.choices.len() + choice) * self.weeks;
        let inside = choice < self.choices.len();
        self.kilograms.get(place..place + self.weeks).filter(|_| inside).unwrap_or_default()
    }

    /// One of the years alone.
    #[must_use]
    pub(crate) fn of_year(&self, year: usize) -> Self {
        let a_year = self.choices.len() * self.weeks;
        let own = self.kilograms.get(year * a_year..(year + 1) * a_year).unwrap_or_default().to_vec();
        Self { choices: self.choices.clone(), weeks: self.weeks, years: 1, kilograms: own }
    }

    /// The choices of one class alone.
    #[must_use]
    pub(crate) fn of_class(&self, class: &str) -> Self {
        let own: Vec<usize> = (0..)
            .zip(&self.choices)
            .filter(|(_, choice)| choice.class == class)
            .map(|(place, _)| place)
            .collect();
        let choices = own.iter().filter_map(|place| self.choices.get(*place)).cloned().collect();
        let years =
            (0..self.years).flat_map(|year| own.iter().flat_map(move |place| self.in_year(year, *place)));
        Self { choices, weeks: self.weeks, years: self.years, kilograms: years.copied().collect() }
    }

    /// The same where one choice bears nothing.
    #[must_use]
    pub(crate) fn without(&self, choice: usize) -> Self {
        let mut rest = self.clone();
        for (place, weight) in rest.kilograms.iter_mut().enumerate() {
            if place / self.weeks % self.choices.len() == choice {
                *weight = 0.0;
            }
        }
        rest
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_later_wave_bears_in_later_weeks_of_the_same_year() {
        let choice = |wave| Choice {
            variety: "a".to_owned(),
            wave,
            class: "slicer".to_owned(),
            room: Room::Container,
        };
        let column = |wave, from_week, kilograms: &[f64]| Column {
            choice: choice(wave),
            from_week,
            kilograms: kilograms.to_vec(),
        };
        let supply = Supply::of_columns(
            vec![column(0, 0, &[0.0, 1.0, 2.0, 3.0]), column(1, 1, &[4.0, 5.0, 6.0, 7.0])],
            2,
        )
        .unwrap();
        assert_eq!((supply.weeks(), supply.years()), (3, 2));
        assert_eq!(supply.in_year(0, 0), [0.0, 1.0, 0.0]);
        assert_eq!(supply.in_year(1, 0), [2.0, 3.0, 0.0]);
        assert_eq!(supply.in_year(0, 1), [0.0, 4.0, 5.0]);
        assert_eq!(supply.in_year(1, 1), [0.0, 6.0, 7.0]);
        assert!(Supply::of_columns(vec![column(0, 0, &[1.0, 2.0, 3.0])], 2).is_err());
        assert!(Supply::of_columns(Vec::new(), 2).is_err());
    }
}
