//! Tables of days as they come: other words, other dates, other signs; all of them the same two days.

use jiff::civil::date;
use ripening::weather::Reading;
use ripening::weather::table::{Scale, headings_of_days, read};

/// 20 May 9.4 and 21.1 degrees Celsius, 21 May without its night.
#[track_caller]
fn agrees(text: &str) {
    let heading = text.lines().next().unwrap_or_default();
    assert!(headings_of_days(text).is_some(), "told for weather: {heading}");
    let found = read(text, None).map(|table| table.days);
    let Ok(days) = found else { panic!("{heading}: {found:?}") };
    let near = |found: Option<f64>, wanted: f64| found.is_some_and(|found| (found - wanted).abs() < 0.05);
    let Reading { lowest, highest } = days.reading(date(2031, 5, 20));
    assert!(near(lowest, 9.4) && near(highest, 21.1), "{heading}: {lowest:?} {highest:?}");
    let Reading { lowest, highest } = days.reading(date(2031, 5, 21));
    assert!(lowest.is_none() && near(highest, 22.0), "{heading}: {lowest:?} {highest:?}");
}

#[test]
fn headings_and_dates_in_other_words() {
    agrees("date,tmin_c,tmax_c\n2031-05-20,9.4,21.1\n2031-05-21,,22.0\n");
    agrees("Date,Min Temp (\u{b0}C),Max Temp (\u{b0}C)\n20310520,9.4,21.1\n20310521,NA,22.0\n");
    agrees(
        "Date;Minimum temperature \u{ba}C;Maximum temperature \u{ba}C\n2031-05-20;9,4;21,1\n2031-05-21;;22,0\n",
    );
    agrees("DATE\tLow (F)\tHigh (F)\n5/20/2031\t48.9\t70.0\n5/21/2031\tM\t71.6\n");
    agrees("Observation date,TN (C),TX (C)\n20/05/2031 08:00,9.4,21.1\n21/05/2031 08:00,-9999,22.0\n");
    agrees("Year,Month,Day,Lowest temp C,Highest temp C\n2031,5,20,9.4,21.1\n2031,05,21,null,22.0\n");
    agrees(
        "year,month,day,date,TMAX F,TMIN F\n2031,05,20,2031-05-20,70.0,48.9\n2031,05,21,2031-05-21,71.6,NA\n",
    );
}

/// No row tells which of 5/6 is the month, and no month is guessed; nor are degrees.
#[test]
fn what_could_be_either_is_asked() {
    let told = |text: &str, scale| read(text, scale).map(|_| ()).map_err(|fault| fault.to_string());
    let either = told("date,tmin_c,tmax_c\n5/6/2031,9.4,21.1\n", None);
    let apart = "is no date whose day and month the rows tell apart; write 2031-05-20";
    assert_eq!(either.unwrap_err(), format!("row 2: date: \"5/6/2031\" {apart}"));
    let both = told("date,tmin_c,tmax_c\n5/20/2031,9.4,21.1\n20/5/2031,9.4,21.1\n", None);
    assert_eq!(both.unwrap_err(), format!("row 2: date: \"5/20/2031\" {apart}"));
    let degrees = told("date,tmin,tmax\n2031-05-20,94,211\n", None);
    assert_eq!(degrees.unwrap_err(), "nothing says whether its degrees are Celsius or Fahrenheit");
    assert!(told("date,tmin,tmax\n2031-05-20,94,211\n", Some(Scale::Tenths)).is_ok());
}
