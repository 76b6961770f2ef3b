//! Worked values of thermal time, frost and emergence, and two stations' records beside what was published of them.
//!
//! The records are read in place from the oracles folder (`LOCULE_ORACLES`, else `shared/oracles` beside the checkout); a
//! test whose record is missing says so and leaves.

#![expect(clippy::print_stdout, reason = "what is left out is said in the report")]

use jiff::civil::{Date, date};
use ripening::emergence;
use ripening::frost::{Frost, Hemisphere, YearOfFrosts, chances, years};
use ripening::thermal::{Clock, Course, CutOff, Method, beta_response};
use ripening::weather::quality::{Fault, checked, filled};
use ripening::weather::table::{Scale, TableFault, ToldBy};
use ripening::weather::{Days, Reading, ghcn, normals, table};
use std::fs;
use std::path::Path;

fn record(name: &str) -> Option<String> {
    let beside = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../shared/oracles");
    let folder = std::env::var_os("LOCULE_ORACLES").map_or(beside, Into::into);
    let text = fs::read_to_string(folder.join("weather").join(name));
    if text.is_err() {
        println!("left out: weather record {name} is not here");
    }
    text.ok()
}

fn clock(method: Method) -> Clock {
    Clock { method, base: 10.0, ceiling: Some(30.0) }
}

fn near(got: f64, wanted: f64, within: f64) {
    assert!((got - wanted).abs() <= within, "{got} and {wanted}");
}

/// Computed with numpy, the sines also by numerical integration, to four decimals: lowest and highest temperature, then
/// average, capped, modified, sine with each cut-off, triangle.
#[test]
fn worked_days() {
    let rows: [(f64, f64, [f64; 7]); 5] = [
        (8.0, 24.0, [6.0, 6.0, 7.0, 6.3040, 6.3040, 6.3040, 6.1250]),
        (14.0, 36.0, [15.0, 12.0, 12.0, 13.6302, 12.2604, 6.6342, 14.1818]),
        (6.0, 35.0, [10.5, 8.0, 10.0, 10.2424, 9.3451, 4.7904, 10.3448]),
        (-2.0, 18.0, [0.0, 0.0, 4.0, 2.2470, 2.2470, 2.2470, 1.6000]),
        (31.0, 38.0, [24.5, 20.5, 20.0, 20.0, 15.5, 0.0, 20.0]),
    ];
    let sine = |cut_off| Method::Sine(Course::Single, cut_off);
    let methods = [
        Method::Average,
        Method::CappedAverage,
        Method::ModifiedAverage,
        sine(CutOff::Horizontal),
        sine(CutOff::Intermediate),
        sine(CutOff::Vertical),
        Method::Triangle(Course::Single, CutOff::Horizontal),
    ];
    for (lowest, highest, wanted) in rows {
        for (method, wanted) in methods.into_iter().zip(wanted) {
            // Capping the highest temperature only, as that method is defined, leaves a lowest above the ceiling.
            if method == Method::CappedAverage && 30.0 < lowest {
                continue;
            }
            near(clock(method).day(lowest, highest, None).unwrap(), wanted, 5e-5);
        }
    }
}

/// As printed with an R ecology package: 0.47 by sine and 0.29 by triangle, base 12, ceiling 33, of a day of 7 to 14.
#[test]
fn printed_day() {
    let of = |method| Clock { method, base: 12.0, ceiling: Some(33.0) }.day(7.0, 14.0, None).unwrap();
    near(of(Method::Sine(Course::Single, CutOff::Horizontal)), 0.4681, 5e-5);
    near(of(Method::Triangle(Course::Single, CutOff::Horizontal)), 0.2857, 5e-5);
}

/// Down to tomorrow's lowest temperature; a day without width; averages printed in Fahrenheit (base 50 F: 92 and 68 make
/// 30, 68 and 42 make 5, 66 and 34 none; University of Georgia).
#[test]
fn halves_and_edges() {
    let double = |day: (f64, f64, f64), method: fn(Course, CutOff) -> Method| {
        clock(method(Course::Double, CutOff::Horizontal)).day(day.0, day.1, Some(day.2)).unwrap()
    };
    near(double((8.0, 24.0, 12.0), Method::Sine), 7.1520, 5e-5);
    near(double((8.0, 24.0, 12.0), Method::Triangle), 7.0625, 5e-5);
    near(double((8.0, 34.0, 12.0), Method::Sine), 11.4114, 5e-5);
    near(double((8.0, 34.0, 12.0), Method::Triangle), 11.7028, 5e-5);
    for method in [
        Method::Average,
        Method::ModifiedAverage,
        Method::Sine(Course::Single, CutOff::Vertical),
        Method::Triangle(Course::Single, CutOff::Intermediate),
    ] {
        near(clock(method).day(20.0, 20.0, None).unwrap(), 10.0, 1e-12);
        assert_eq!(clock(method).day(20.0, 19.0, None), None, "a night warmer than its day");
    }
    let average = Clock { method: Method::Average, base: 10.0, ceiling: None };
    for (highest, lowest, wanted) in [(92.0, 68.0, 30.0), (68.0, 42.0, 5.0), (66.0, 34.0, 0.0)] {
        let celsius = |fahrenheit: f64| (fahrenheit - 32.0) / 1.8;
        near(1.8 * average.day(celsius(lowest), celsius(highest), None).unwrap(), wanted, 1e-9);
    }
}

#[test]
fn beta_and_emergence() {
    for (at, wanted) in
        [(10.0, 0.3777), (15.0, 0.6313), (20.0, 0.8449), (28.0, 1.0), (35.0, 0.8495), (40.0, 0.5292)]
    {
        near(beta_response(at, 28.0, 45.0), wanted, 5e-5);
    }
    assert_eq!((beta_response(0.0, 28.0, 45.0), beta_response(45.0, 28.0, 45.0)), (0.0, 0.0));
    // The same over a base of 10, as Yin's form has it; computed with numpy.
    let beta = Clock { method: Method::Beta { best: 28.0 }, base: 10.0, ceiling: Some(45.0) };
    for (at, wanted) in [(15.0, 0.4546), (20.0, 0.7892), (25.0, 0.9699), (28.0, 1.0), (35.0, 0.8329)] {
        near(beta.day(at - 4.0, at + 4.0, None).unwrap() / 18.0, wanted, 5e-5);
    }
    assert_eq!([(2.0, 18.0), (44.0, 46.0)].map(|(low, high)| beta.day(low, high, None)), [Some(0.0); 2]);
    assert_eq!(
        Clock { ceiling: None, ..beta }.day(15.0, 25.0, None),
        None,
        "without a ceiling it is no number"
    );
    // Harrington and Minges 1954, at the table's temperatures and between.
    for (at, wanted) in
        [(10.0, 43.0), (15.0, 14.0), (20.0, 8.0), (25.0, 6.0), (30.0, 6.0), (35.0, 9.0), (12.5, 21.12)]
    {
        near(emergence::days(at).unwrap(), wanted, 5e-3);
    }
    assert_eq!([0.0, 5.0, 40.0].map(emergence::days), [None; 3]);
}

/// Computed with pandas from the same record: sums from 1 May 2010 and from 1 June 2012, transplanting day counted.
#[test]
fn sums_of_two_seasons() {
    let seasons = [
        (
            "daily/USC00317202_reidsville_nc.csv",
            date(2010, 5, 1),
            date(2010, 8, 31),
            [1754.15, 1669.15, 1714.46],
        ),
        (
            "daily/USC00323621_grand_forks_nd.csv",
            date(2012, 6, 1),
            date(2012, 9, 15),
            [1131.45, 1130.90, 1133.94],
        ),
    ];
    for (name, from, to, wanted) in seasons {
        let Some(text) = record(name) else { return };
        let days = table::read(&text, None).unwrap().days;
        let methods =
            [Method::Average, Method::ModifiedAverage, Method::Sine(Course::Single, CutOff::Horizontal)];
        for (method, wanted) in methods.into_iter().zip(wanted) {
            let sums: Vec<_> = clock(method).sums(&days, from).collect();
            let end = sums.iter().find(|(date, _)| *date == to).unwrap().1;
            near(end, wanted, 6e-3);
        }
        let sums: Vec<_> = clock(Method::Average).sums(&days, from).collect();
        let reached = |target: f64| sums.iter().find(|(_, sum)| target <= *sum).unwrap().0;
        if from.year() == 2010 {
            assert_eq!(
                [500.0, 700.0, 1000.0].map(reached),
                [date(2010, 6, 14), date(2010, 6, 26), date(2010, 7, 15)]
            );
        }
    }
}

fn of_years(days: &Days, at: f64, from: i16, to: i16) -> Vec<YearOfFrosts> {
    years(days, at, Hemisphere::North).into_iter().filter(|year| (from..=to).contains(&year.year)).collect()
}

/// Computed with numpy (type 7) from the same record, 1991 to 2020: last freeze at 0 C on day 99.9, 113 and 124.6, first on
/// day 279, 296 and 312.2, season 181 days in the middle.
#[test]
fn milwaukee_freezes() {
    let Some(text) = record("daily/USW00014839_milwaukee_wi.csv") else { return };
    let (days, _) = checked(table::read(&text, None).unwrap().days);
    let told = chances(&of_years(&days, 0.0, 1991, 2020)).unwrap();
    assert_eq!(told.years.len(), 30);
    for (chance, wanted) in told.last.iter().zip([124.6, 113.0, 99.9]) {
        near(chance.day.unwrap(), wanted, 1e-9);
        let (low, high) = chance.sampled.unwrap();
        assert!(low <= wanted && wanted <= high && 1.0 < high - low, "{chance:?}");
    }
    for (chance, wanted) in told.first.iter().zip([279.0, 296.0, 312.2]) {
        near(chance.day.unwrap(), wanted, 1e-9);
    }
    near(told.season[1].day.unwrap(), 181.0, 1e-9);
}

/// Computed from the same record: two false freezes move the safe day of 1986 to 2015 from day 114.2 to 109.0; 2003 is
/// too full of gaps.
#[test]
fn false_freezes_are_taken_out() {
    let Some(text) = record("daily/USC00317202_reidsville_nc.csv") else { return };
    let raw = table::read(&text, None).unwrap().days;
    let safe = |days: &Days| {
        let told = chances(&of_years(days, 0.0, 1986, 2015)).unwrap();
        (told.years.len(), told.left_out.clone(), told.last[0].day.unwrap())
    };
    let (count, left_out, day) = safe(&raw);
    assert_eq!((count, left_out), (29, vec![2003]));
    near(day, 114.2, 1e-9);
    let (days, dropped) = checked(raw);
    near(safe(&days).2, 109.0, 1e-9);
    let freezes: Vec<Date> = dropped
        .iter()
        .filter(|one| {
            one.fault == Fault::ColdNight && (4..=5).contains(&one.on.month()) && 1986 <= one.on.year()
        })
        .map(|one| one.on)
        .collect();
    assert_eq!(freezes, [date(2006, 4, 24), date(2007, 5, 24)]);
    assert_eq!(dropped.iter().filter(|one| one.fault == Fault::LowestAboveHighest).count(), 6);
}

/// Of five stations' long records one day stands out by 25 degrees: Waterville's 15 January 1965, 26.7 between 0.6 and -1.1.
/// No true run of days with the same two temperatures is as long as a thermometer that stands still.
#[test]
fn one_false_maximum_and_no_true_one_is_taken_out() {
    let stations = [
        ("USC00179151_waterville_me", &[date(1965, 1, 15)][..]),
        ("USC00317202_reidsville_nc", &[]),
        ("USC00323621_grand_forks_nd", &[]),
        ("USW00014839_milwaukee_wi", &[]),
        ("USW00093209_paso_robles_ca", &[]),
        ("seattle_wa_2012_2015", &[]),
    ];
    for (name, wanted) in stations {
        let Some(text) = record(&format!("daily/{name}.csv")) else { return };
        let (days, dropped) = checked(table::read(&text, None).unwrap().days);
        let of =
            |fault| dropped.iter().filter(|one| one.fault == fault).map(|one| one.on).collect::<Vec<_>>();
        assert_eq!((of(Fault::HotDay), of(Fault::StoodStill)), (wanted.to_vec(), vec![]), "{name}");
        assert!(wanted.iter().all(|day| days.reading(*day).highest.is_none()));
    }
}

/// Five days with the same two temperatures are a thermometer that stood still, four may be weather.
#[test]
fn a_thermometer_that_stands_still_is_not_read() {
    let days = |still: i8| {
        let mut text = "date,tmin_c,tmax_c\n".to_owned();
        for day in 1..=20 {
            let lowest = if (6..6 + still).contains(&day) { 12 } else { day % 9 };
            text += &format!("2031-05-{day:02},{lowest},22\n");
        }
        checked(table::read(&text, None).unwrap().days)
    };
    assert_eq!(days(4).1, []);
    let (left, dropped) = days(5);
    let still: Vec<Date> = (6..11).map(|day| date(2031, 5, day)).collect();
    assert_eq!(dropped.iter().map(|one| one.on).collect::<Vec<_>>(), still);
    assert_eq!(
        (left.reading(still[4]), left.reading(date(2031, 5, 11)).lowest),
        (Reading::default(), Some(2.0))
    );
}

/// The sample in the network's own layout holds the very days of the table, 2010 to 2012.
#[test]
fn network_files_are_read() {
    let (Some(text), Some(own)) =
        (record("samples/sample_USC00317202_2010_2012.dly"), record("daily/USC00317202_reidsville_nc.csv"))
    else {
        return;
    };
    let (station, days) = ghcn::read(&text).unwrap();
    assert_eq!(station, "USC00317202");
    let own = table::read(&own, None).unwrap().days;
    let first = days.reading(date(2010, 1, 1));
    assert_eq!((first.highest, days.reading(date(2010, 1, 3)).highest), (Some(6.7), Some(-1.7)));
    assert_eq!(days.reading(date(2010, 1, 2)).lowest, Some(-5.6));
    for place in 0..days.len() {
        let on = days.date(place).unwrap();
        assert_eq!(days.reading(on), own.reading(on), "{on}");
    }
    // Trimmed lines read the same, a flagged value does not count, and a slip is told by its line.
    let trimmed: String = text.lines().map(|line| format!("{}\n", line.trim_end())).collect();
    let trimmed = ghcn::read(&trimmed).unwrap().1;
    assert!((0..days.len()).filter_map(|at| days.date(at)).all(|on| trimmed.reading(on) == days.reading(on)));
    let flagged = text.replacen("TMAX   67  7", "TMAX   67 S7", 1);
    assert_eq!(ghcn::read(&flagged).unwrap().1.reading(date(2010, 1, 1)).highest, None);
    let slip = text.replacen("TMAX   67  7", "TMAX  6x7  7", 1);
    assert_eq!(ghcn::read(&slip).unwrap_err().to_string(), "line 1: day 1: \"  6x7\" is no number");
}

#[test]
fn tables_of_any_heading_are_read() {
    let celsius = "date;Low (C);High (C)\n2031-05-01;-1.5;12\n2031-05-03;4;NA\n";
    let days = table::read(celsius, None).unwrap().days;
    assert_eq!(days.len(), 3);
    assert_eq!(days.reading(date(2031, 5, 1)).lowest, Some(-1.5));
    assert_eq!(days.reading(date(2031, 5, 3)).highest, None);
    let plain = "DATE,TMIN,TMAX\n20310501,35,43\n20310502,36,44\n";
    assert_eq!(table::read(plain, None).unwrap_err(), TableFault::WhichScale);
    let days = table::read(plain, Some(Scale::Fahrenheit)).unwrap().days;
    near(days.reading(date(2031, 5, 1)).lowest.unwrap(), 5.0 / 3.0, 1e-9);
    let fault = table::read("date,tmin_c,tmax_c\n2031-05-01,cold,12\n", None).unwrap_err();
    assert_eq!(fault.to_string(), "row 2: lowest temperature: \"cold\" is no number");
    assert_eq!(table::read("day,rain\n", None).unwrap_err(), TableFault::NoColumn("lowest temperatures"));
    let twice = table::read("date,tmin_c,tmax_c\n2031-05-01,1,12\n2031-05-01,2,12\n", None).unwrap_err();
    assert_eq!(twice, TableFault::Twice { row: 3, date: date(2031, 5, 1) });
}

/// The samples in the network's other layouts: values by station hold the days of the monthly lines; an old export in
/// Celsius and a wide one in Fahrenheit are known by their summers, and days of the month are not taken for dates.
#[test]
fn exports_are_read() {
    let names = ["by_station", "raw_cdo_old", "raw_fahrenheit_wide", "lines"];
    let file = |name: &str| match name {
        "by_station" => record("samples/sample_USC00317202_2010_2012_by_station.csv"),
        "raw_cdo_old" => record("samples/sample_raw_cdo_old_USC00317202.csv"),
        "raw_fahrenheit_wide" => record("samples/sample_raw_fahrenheit_wide_USW00014839.csv"),
        _ => record("samples/sample_USC00317202_2010_2012.dly"),
    };
    let [Some(values), Some(old), Some(wide), Some(lines)] = names.map(file) else { return };
    assert!(ghcn::is_of_values(&values) && !ghcn::is_of_values(&old) && !ghcn::is_of_values(&wide));
    let (station, days) = ghcn::read_values(&values).unwrap();
    let (_, by_month) = ghcn::read(&lines).unwrap();
    assert_eq!(station, "USC00317202");
    assert!(
        (0..days.len()).filter_map(|at| days.date(at)).all(|on| days.reading(on) == by_month.reading(on))
    );
    let flagged = values.replacen("TMAX,67,,,7", "TMAX,67,,S,7", 1);
    assert_eq!(ghcn::read_values(&flagged).unwrap().1.reading(date(2010, 1, 1)).highest, None);
    let old = table::read(&old, None).unwrap();
    assert_eq!((old.scale, old.told_by), (Scale::Celsius, ToldBy::Summers));
    assert_eq!(old.days.reading(date(1965, 1, 1)), Reading { lowest: Some(3.3), highest: Some(14.4) });
    let wide = table::read(&wide, None).unwrap();
    assert_eq!(wide.scale, Scale::Fahrenheit);
    near(wide.days.reading(date(1938, 4, 1)).highest.unwrap(), 2.2, 1e-9);
    let mut tenths = "date,tmin,tmax\n".to_owned();
    for day in date(2011, 1, 1).series(jiff::ToSpan::days(1)).take(400) {
        tenths += &format!("{day},{},{}\n", 120, if (6..=8).contains(&day.month()) { 310 } else { 180 });
    }
    let tenths = table::read(&tenths, None).unwrap();
    assert_eq!((tenths.scale, tenths.days.reading(date(2011, 7, 1)).highest), (Scale::Tenths, Some(31.0)));
}

/// A garden without frost, one where it comes in few years, and one south of the equator, whose summer crosses the year.
#[test]
fn places_of_other_kinds() {
    let made = |lowest: &dyn Fn(Date) -> f64| {
        let mut text = "date,tmin_c,tmax_c\n".to_owned();
        let mut day = date(2001, 1, 1);
        while day < date(2011, 1, 1) {
            text += &format!("{day},{:.1},40.0\n", lowest(day));
            day = day.tomorrow().unwrap();
        }
        table::read(&text, None).unwrap().days
    };
    let warm = chances(&years(&made(&|_| 5.0), 0.0, Hemisphere::North)).unwrap();
    assert_eq!((warm.with_frost, warm.last[0].day), ((0.0, 0.0), None));
    // Frost on 1 March in two years of ten: it comes on or after that day in 10 of 100 years, and never in 50.
    let rare = made(&|day| if day.month() == 3 && day.day() == 1 && day.year() < 2003 { -1.0 } else { 5.0 });
    let rare = chances(&years(&rare, 0.0, Hemisphere::North)).unwrap();
    assert_eq!((rare.with_frost.0, rare.last[0].day, rare.last[1].day), (0.2, Some(60.0), None));
    let south = made(&|day| if (6..=9).contains(&day.month()) { -2.0 } else { 8.0 });
    let south = years(&south, 0.0, Hemisphere::South);
    let known: Vec<&YearOfFrosts> = south.iter().filter(|year| year.is_known()).collect();
    assert_eq!(known.len(), 9);
    assert!(known.iter().all(|year| year.last == Frost::On(date(year.year, 9, 30))
        && year.first == Frost::On(date(year.year + 1, 6, 1))));
    // A record of one spring tells no year, and none can be made of it.
    let short =
        table::read("date,tmin_c,tmax_c\n2031-04-01,-1.0,9.0\n2031-05-01,2.0,12.0\n", None).unwrap().days;
    assert_eq!(chances(&years(&short, 0.0, Hemisphere::North)), None);
}

/// Lebanon, New Hampshire, climate normals 1991-2020 as NOAA published them (annual and seasonal file of USW00094765): last
/// freeze of 32 F on 24 May, 9 May and 27 April in 10, 50 and 90 years of 100, first on 23 September, 6 and 19 October,
/// seasons of 167, 148 and 128 days; last of 36 F 6 June, of 28 F 11 May.
#[test]
fn published_freezes_of_lebanon() {
    let Some(text) = record("normals/normals_annualseasonal_1991-2020_USW00094765.csv") else { return };
    assert!(normals::is_of_freezes(&text));
    let read = normals::read(&text).unwrap();
    assert_eq!((read.station.as_str(), read.name.as_str()), ("USW00094765", "LEBANON MUNI AP, NH US"));
    let of = |fahrenheit| read.at.iter().find(|at| at.fahrenheit == fahrenheit).unwrap();
    let day = |month, day| Some(f64::from(date(2001, month, day).day_of_year()));
    let freeze = of(32);
    assert_eq!(freeze.years, Some(22));
    assert_eq!(freeze.last, [day(5, 24), day(5, 9), day(4, 27)]);
    assert_eq!(freeze.first, [day(9, 23), day(10, 6), day(10, 19)]);
    assert_eq!(freeze.season, [Some(167.0), Some(148.0), Some(128.0)]);
    assert_eq!((of(36).last[0], of(28).last[0]), (day(6, 6), day(5, 11)));
}

/// Degree-days over 50 F of the same station, which NOAA publishes as 2363.7: the daily normals of that file add up to
/// 2220.8 by the same method, 6 in 100 less. So they are never counted from normals.
#[test]
fn degree_days_of_mean_days_come_out_low() {
    let Some(text) = record("normals/normals_daily_1991-2020_USW00094765_temps.csv") else { return };
    let fahrenheit = Clock { method: Method::Average, base: 50.0, ceiling: None };
    let days = text.lines().skip(1).filter_map(|line| {
        let cells: Vec<f64> = line.split(',').filter_map(|cell| cell.parse().ok()).collect();
        // 29 February is in the file and not in a year's sum.
        match cells.as_slice() {
            [month, day, ..] if (*month, *day) == (2.0, 29.0) => None,
            [_, _, highest, _, lowest, _] => fahrenheit.day(*lowest, *highest, None),
            _ => None,
        }
    });
    near(days.sum::<f64>(), 2220.8, 0.05);
}

/// A name with a comma within quotes is one cell: the network's access files have one before the temperatures.
#[test]
fn a_quoted_comma_parts_nothing() {
    let text = "\"STATION\",\"DATE\",\"NAME\",\"TMAX\",\"TMAX_ATTRIBUTES\",\"TMIN\",\"TMIN_ATTRIBUTES\"\n\
                \"X1\",\"2031-07-01\",\"MILL, UPPER\",\"  267\",\",,7\",\"  150\",\",,7\"\n";
    let read = table::read(text, Some(Scale::Tenths)).unwrap();
    assert_eq!(read.days.reading(date(2031, 7, 1)), Reading { lowest: Some(15.0), highest: Some(26.7) });
}

/// Three missing days are filled along a line; four are not, nor what lies before the first day that is known.
#[test]
fn short_gaps_are_filled() {
    let mut text = String::from("date,tmin_c,tmax_c\n2031-05-01,,20\n2031-05-02,10,20\n2031-05-06,14,24\n");
    text.extend((11..=30).map(|day| format!("2031-05-{day},9,19\n")));
    let (days, count) = filled(table::read(&text, None).unwrap().days);
    let low = |day| days.reading(date(2031, 5, day)).lowest;
    assert_eq!([1, 3, 4, 5, 7].map(low), [None, Some(11.0), Some(12.0), Some(13.0), None]);
    assert_eq!(count, 6);
}

/// A thermometer that is read every third day tells no season: two of three numbers would be made up.
#[test]
fn days_that_are_seldom_read_are_not_filled() {
    let rows = (1..=30).step_by(3).map(|day| format!("2031-05-{day:02},9,19\n"));
    let text: String = std::iter::once("date,tmin_c,tmax_c\n".to_owned()).chain(rows).collect();
    let (days, count) = filled(table::read(&text, None).unwrap().days);
    assert_eq!(days.reading(date(2031, 5, 2)).lowest, None);
    assert_eq!(count, 0);
}

/// The network's access files put a reading's flags beside it; what failed a check of the network's own is not read.
/// Layout: NOAA, readme of the daily network (flags), headings from memory, unverified.
#[test]
fn flags_of_access_files_are_heeded() {
    let text = "\"STATION\",\"DATE\",\"TMAX\",\"TMAX_ATTRIBUTES\",\"TMIN\",\"TMIN_ATTRIBUTES\"\n\
                \"USC00999999\",\"2031-07-01\",\"250\",\",,7\",\"120\",\",,7\"\n\
                \"USC00999999\",\"2031-07-02\",\"900\",\",X,7\",\"130\",\"H,,S\"\n";
    let read = table::read(text, Some(Scale::Tenths)).unwrap();
    let second = read.days.reading(date(2031, 7, 2));
    assert_eq!((second.lowest, second.highest), (Some(13.0), None));
    let first = read.days.reading(date(2031, 7, 1));
    assert_eq!((first.lowest, first.highest), (Some(12.0), Some(25.0)));
}
