//! The plan of one taking: the layout, the roster and the day, put together once for all rows.

use crate::cells::ColumnReader;
use crate::column::ColumnUse;
use crate::day::SeasonCalendar;
use crate::layout::Layout;
use crate::roster::Roster;
use crate::table::Table;
use jiff::civil::Date;
use record::growout::GrowOut;
use record::season::Season;

/// What every row of a table is read by.
pub(crate) struct Plan<'a> {
    pub(crate) layout: &'a Layout,
    pub(crate) roster: &'a Roster,
    pub(crate) today: Date,
    /// The known grow-out that a title or the sheet is named after, word for word.
    pub(crate) titled: Option<&'a GrowOut>,
    day_zero: Date,
}

impl<'a> Plan<'a> {
    pub(crate) fn new(table: &Table, layout: &'a Layout, roster: &'a Roster, today: Date) -> Self {
        let titles = layout.titles.iter().flat_map(|title| title.split(" | ")).chain(table.sheet());
        let titled = titles.filter_map(|title| roster.grow_out(title)).next();
        Self { layout, roster, today, titled, day_zero: table.day_zero() }
    }

    /// The reader of the column that holds `reads`; it reads nothing where the table has no such column.
    pub(crate) fn reader(&self, reads: ColumnUse) -> ColumnReader {
        ColumnReader::new(self.layout, self.day_zero, reads)
    }

    /// The season of the layout with the house's calendar, for days without a year.
    pub(crate) fn season(&self) -> Option<(Season, SeasonCalendar)> {
        self.layout.season.map(|season| (season, self.roster.calendar()))
    }

    /// The day that the table's workbook counts as 0.
    pub(crate) fn day_zero(&self) -> Date {
        self.day_zero
    }
}
