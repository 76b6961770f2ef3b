//! Frosts that are told without days behind them, and go before those of drawn years.

use super::{FrostsOf, Weather};
use ripening::climate::shipped::frosts::Frosts;
use ripening::frost::dates::{Dates, between};
use ripening::frost::{self, FREEZE, TOLD_AT, YearOfFrosts};
use ripening::row_cover::RowCover;
use ripening::weather::Days;
use ripening::weather::normals::FreezeNormals;

/// Where a place's frosts come from, with what they are.
#[derive(Clone, Debug)]
pub(crate) enum Freezes {
    /// The days themselves.
    OfDays,
    /// Those of every year, at each of the temperatures of [`TOLD_AT`].
    Years([Vec<YearOfFrosts>; TOLD_AT.len()]),
    /// Published freeze dates.
    Published(FreezeNormals),
}

/// The days that a garden's calendar goes by.
pub(crate) struct Spring {
    pub(crate) days: Days,
    pub(crate) freezes: Option<Dates>,
}

impl Freezes {
    pub(super) fn of_shipped(frosts: Frosts) -> Self {
        match frosts {
            Frosts::Years(years) => Self::Years(years),
            Frosts::Published(published) => Self::Published(published),
        }
    }

    /// Where they come from.
    fn of(&self) -> FrostsOf {
        match self {
            Self::OfDays => FrostsOf::Days,
            Self::Years(years) => {
                let [years, ..] = years;
                let year = |year: Option<&YearOfFrosts>| year.map_or(0, |year| year.year);
                FrostsOf::Years(year(years.first()), year(years.last()))
            }
            Self::Published(_) => FrostsOf::Published,
        }
    }

    /// The dates of each temperature that is told, in degrees Celsius.
    fn dates(&self) -> Vec<(f64, Dates)> {
        match self {
            Self::OfDays => Vec::new(),
            Self::Years(years) => {
                let told = TOLD_AT.iter().zip(years);
                told.filter_map(|(at, years)| Some((*at, Dates::of(&frost::chances(years)?)))).collect()
            }
            Self::Published(published) => {
                published.at.iter().map(|at| (at.celsius(), Dates::of_published(at))).collect()
            }
        }
    }
}

impl Weather {
    /// The same with other frosts than its days have.
    pub(super) fn with_freezes(mut self, freezes: Freezes) -> Self {
        self.climates.frosts = freezes.of();
        self.freezes = freezes;
        self
    }

    /// Freezes by their chances: those that are told, as the garden's height has them; else those of the days.
    pub(crate) fn freezes(&self) -> Option<Dates> {
        self.dates_at(FREEZE).or_else(|| self.freezes_of(&self.frost_days))
    }

    fn freezes_of(&self, days: &Days) -> Option<Dates> {
        frost::chances(&frost::years(days, FREEZE, self.hemisphere)).map(|chances| Dates::of(&chances))
    }

    /// Spring as plants have it under what covers them, and autumn without it.
    ///
    /// A frost under a cover is a harder one beside it. Where nothing is told of one so hard, frosts are taken as they are.
    pub(crate) fn spring(&self, cover: Option<RowCover>) -> Spring {
        let open = self.freezes();
        let Some(cover) = cover else { return Spring { days: self.frost_days.clone(), freezes: open } };
        let days = cover.over_all(&self.frost_days);
        let under = match self.freezes {
            Freezes::OfDays => self.freezes_of(&days),
            Freezes::Years(_) | Freezes::Published(_) => self.dates_at(FREEZE - cover.warms_by()),
        };
        let freezes = open.map(|open| Dates { last: under.map_or(open.last, |under| under.last), ..open });
        Spring { days, freezes }
    }

    /// Frosts of a temperature that are told without days.
    pub(crate) fn dates_at(&self, celsius: f64) -> Option<Dates> {
        between(&self.freezes.dates(), celsius, self.warmer_by())
    }

    /// By how many degrees Celsius the garden is warmer than the station.
    pub(crate) fn warmer_by(&self) -> f64 {
        self.climates.lies.and_then(|lies| lies.warmer_by).unwrap_or_default()
    }
}
