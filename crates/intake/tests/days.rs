//! Cells to days.

use intake::day::{self, DateOrder, DayFault, Evidence, SeasonCalendar};
use jiff::civil::{Date, date};
use record::season::Season;

const FIFTEENTH: Date = date(2031, 7, 15);

fn season() -> Option<(Season, SeasonCalendar)> {
    Season::new(2031).map(|season| (season, SeasonCalendar::CALENDAR_YEAR))
}

#[track_caller]
fn agrees(cell: &str, day: Date) {
    assert_eq!(day::day(cell, None, season()), Ok(day), "{cell}");
}

#[test]
fn days_are_read_as_growers_write_them() {
    for cell in [
        "2031-07-15",
        "2031-07-15T09:30:00Z",
        "2031-07-15 9:30",
        "2031/7/15",
        "2031.7.15",
        "20310715",
        "15/7/2031",
        "7/15/2031",
        "15.7.31",
        "15-07-31",
        "7/15/31 12:00 AM",
        "15/7",
        "7/15",
        "Jul 15",
        "July 15th",
        "15 Jul",
        "15-Jul",
        "15. July",
        "Jul 15, 2031",
        "July 15th, 2031",
        "15 July 2031",
        "15-Jul-31",
        "15-JUL-2031",
        "Tue 15 Jul",
        "Tuesday, July 15, 2031",
        "15th of July 2031",
        "Jul 15 '31",
        "2031 Jul 15",
    ] {
        agrees(cell, FIFTEENTH);
    }
    // Day and month alike: the order does not matter.
    agrees("7/7/31", date(2031, 7, 7));
    agrees("Sept 3", date(2031, 9, 3));
}

/// POSIX.1-2017, `strptime`, `%y`: 69 to 99 are 1969 to 1999, 00 to 68 are 2000 to 2068.
#[test]
fn two_digit_years_turn_where_posix_turns_them() {
    agrees("15/7/68", date(2068, 7, 15));
    agrees("15/7/69", date(1969, 7, 15));
    agrees("15/7/99", date(1999, 7, 15));
    agrees("15/7/00", date(2000, 7, 15));
}

#[track_caller]
fn refused(cell: &str, fault: fn(String) -> DayFault) {
    assert_eq!(day::day(cell, None, season()), Err(fault(cell.to_owned())));
}

#[test]
fn what_is_not_one_day_is_refused() {
    for cell in ["3/4/31", "3/4", "3.4.2031"] {
        refused(cell, DayFault::Undecided);
    }
    for cell in ["30 Feb", "31/6/2031", "2031-02-29", "13/13/2031", "2031-00-10", "0/7/2031"] {
        refused(cell, DayFault::Impossible);
    }
    for cell in ["yesterday", "14", "7 14", "7.14", "12:30", "45 oz", "week 28", "15 Juli"] {
        refused(cell, DayFault::NotADate);
    }
    for cell in ["2031", "Jul 2031", "July"] {
        refused(cell, DayFault::NoDay);
    }
    for cell in ["14-16 Jul 2031", "14/7/31-16/7/31", "Jul 14 & Jul 15"] {
        refused(cell, DayFault::Several);
    }
    refused("Jul-14", DayFault::DayOrYear);
    assert_eq!(day::day("Jul 15", None, None), Err(DayFault::NoYear("Jul 15".to_owned())));
}

#[test]
fn a_column_decides_what_a_cell_cannot() {
    let day_first = Some(DateOrder::DayFirst);
    let month_first = Some(DateOrder::MonthFirst);
    assert_eq!(day::day("3/4/31", day_first, None), Ok(date(2031, 4, 3)));
    assert_eq!(day::day("3/4/31", month_first, None), Ok(date(2031, 3, 4)));
    // A number above 12 is no month, whatever the column says.
    assert_eq!(day::day("15/7/31", month_first, None), Ok(FIFTEENTH));
    assert_eq!(day::evidence("15/7/31"), (Evidence::Only(DateOrder::DayFirst), false));
    assert_eq!(day::evidence("7/15"), (Evidence::Only(DateOrder::MonthFirst), true));
    assert_eq!(day::evidence("3/4/31"), (Evidence::Either, false));
    assert_eq!(day::evidence("2031-03-04"), (Evidence::Nothing, false));
}

/// South of the equator the season of 2031 begins in July 2030.
#[test]
fn a_season_may_cross_new_year() {
    let southern = SeasonCalendar::beginning_in(7);
    let season = Season::new(2031).map(|season| (season, southern));
    assert_eq!(day::day("20 Dec", None, season), Ok(date(2030, 12, 20)));
    assert_eq!(day::day("20 Jan", None, season), Ok(date(2031, 1, 20)));
    assert_eq!(southern.season_of(date(2030, 12, 20)), Season::new(2031));
    assert_eq!(southern.season_of(date(2031, 1, 20)), Season::new(2031));
}
