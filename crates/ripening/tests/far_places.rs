//! Frosts of places at the edge: where it freezes all year, and on a day that most years do not have.

use jiff::civil::{Date, date};
use ripening::frost::{Frost, Hemisphere, chances, years};
use ripening::weather::quality::checked;
use ripening::weather::table;

/// Where it freezes in every month no day is safe and no season long: the last frost is the last day of July, the first the
/// first of August. A year's 29 February is a day like another.
#[test]
fn a_polar_station_and_a_leap_day() {
    let made = |lowest: &dyn Fn(Date) -> f64| {
        let mut text = "date,tmin_c,tmax_c\n".to_owned();
        for day in date(2001, 1, 1).series(jiff::ToSpan::days(1)).take_while(|day| day.year() < 2011) {
            text += &format!("{day},{:.1},{}\n", lowest(day), 30 + day.day() % 2);
        }
        checked(table::read(&text, None).unwrap().days).0
    };
    let polar = chances(&years(&made(&|_| -5.0), 0.0, Hemisphere::North)).unwrap();
    assert_eq!((polar.years.len(), polar.with_frost), (10, (1.0, 1.0)));
    let july = Some(f64::from(date(2001, 7, 31).day_of_year()));
    let within_a_day = |day: Option<f64>, wanted: Option<f64>| {
        (day.unwrap_or(f64::NAN) - wanted.unwrap_or(f64::NAN)).abs() <= 1.0
    };
    assert!(polar.last.iter().all(|chance| within_a_day(chance.day, july)), "{:?}", polar.last);
    assert!(polar.season.iter().all(|chance| chance.day == Some(0.0)), "{:?}", polar.season);
    let leap = made(&|day| if (day.month(), day.day()) == (2, 29) { -0.5 } else { 4.0 });
    let leap = years(&leap, 0.0, Hemisphere::North);
    let frosts: Vec<&Frost> =
        leap.iter().filter(|year| year.last != Frost::None).map(|year| &year.last).collect();
    assert_eq!(frosts, [&Frost::On(date(2004, 2, 29)), &Frost::On(date(2008, 2, 29))]);
}
