//! Weather that the house keeps, through the program: files are taken once, told from notes, named in place of a file.

#![expect(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]

mod program;

use program::House;
use serde_json::Value;
use std::fmt::Write;

/// Ten years, freezing from November to the middle of April, from the year given.
fn station(headings: &str, from: i16, row: impl Fn(jiff::civil::Date, f64) -> String) -> String {
    let mut text = format!("{headings}\n");
    let mut day = jiff::civil::date(from, 1, 1);
    while day.year() < from + 10 {
        let cold = day.month() > 10 || day.month() < 4 || (day.month() == 4 && day.day() <= 15);
        writeln!(text, "{}", row(day, if cold { -3.0 } else { 6.0 })).unwrap();
        day = day.tomorrow().unwrap();
    }
    text
}

/// Half a degree every other day, so that no thermometer stands still.
fn turn(day: jiff::civil::Date) -> f64 {
    0.5 * f64::from(day.day() % 2)
}

fn plain(from: i16) -> String {
    station("date,tmin_c,tmax_c", from, |day, lowest| format!("{day},{lowest},{:.1}", 20.0 + turn(day)))
}

/// An order of the network's, with the station in every row, in degrees Fahrenheit.
fn order() -> String {
    let headings =
        "\"STATION\",\"NAME\",\"LATITUDE\",\"LONGITUDE\",\"ELEVATION\",\"DATE\",\"PRCP\",\"TMAX\",\"TMIN\"";
    station(headings, 2011, |day, lowest| {
        let fahrenheit = lowest * 1.8 + 32.0;
        format!(
            "\"XX000000001\",\"MILL, UPPER\",\"44.5\",\"-93.25\",\"251.5\",\"{day}\",\"0.00\",\"{:.1}\",\"{fahrenheit:.1}\"",
            68.0 + turn(day)
        )
    })
}

/// A month of the network's file by station: 31 nights and days.
fn months() -> String {
    let line = |element: &str, tenths: i32| {
        let days: String = (0..31).map(|day| format!("{:>5}   ", tenths + day % 2)).collect();
        format!("XX000000002203107{element}{days}\n")
    };
    line("TMIN", 120) + &line("TMAX", 260) + &line("PRCP", 0)
}

fn values() -> &'static str {
    "XX000000003,20310701,TMIN,120,,,S,\nXX000000003,20310701,TMAX,260,,,S,\nXX000000003,20310703,TMIN,110,,,S,\n"
}

#[track_caller]
fn taken(house: &House, arguments: &[&str]) -> Value {
    house.ok(&[&["take"], arguments].concat())["weather"][0].clone()
}

#[test]
fn every_kind_of_weather_file_is_kept_and_named_in_place_of_it() {
    let house = House::new();
    let table = taken(&house, &[&house.write("garden.csv", plain(2011))]);
    assert_eq!((table["station"].as_str(), table["days"].as_u64()), (Some("garden"), Some(3653)), "{table}");
    assert_eq!((table["from"].as_str(), table["to"].as_str()), (Some("2011-01-01"), Some("2020-12-31")));
    assert_eq!(
        (table["taken_for"].as_str(), table["told_by"].as_str()),
        (Some("degrees Celsius"), Some("its headings"))
    );
    let order = taken(&house, &[&house.write("order.csv", order())]);
    assert_eq!(
        (order["station"].as_str(), order["name"].as_str()),
        (Some("XX000000001"), Some("MILL, UPPER"))
    );
    let place = (order["latitude"].as_f64(), order["longitude"].as_f64(), order["elevation_m"].as_f64());
    assert_eq!(place, (Some(44.5), Some(-93.25), Some(251.5)));
    assert_eq!(order["taken_for"].as_str(), Some("degrees Fahrenheit"));
    for name in ["XX000000002.dly", "renamed.txt"] {
        let months = house.ok(&["take", &house.write(name, months())])["weather"][0].clone();
        assert_eq!((months["station"].as_str(), months["days"].as_u64()), (Some("XX000000002"), Some(31)));
    }
    let values = taken(&house, &[&house.write("values.csv", values())]);
    assert_eq!(
        (values["days"].as_u64(), values["missing"].as_u64()),
        (Some(3), Some(2)),
        "a day is away, another has no highest"
    );

    // The file's own answer, though the file is gone and the house stands elsewhere.
    let of_file = house.ok(&["frost", &house.at("garden.csv")]);
    std::fs::remove_file(house.at("garden.csv")).unwrap();
    assert_eq!(house.ok(&["frost", "Garden"])["at"], of_file["at"]);
    assert_eq!(house.ok(&["frost", "mill, upper"])["at"][1]["with_spring_frost"].as_f64(), Some(1.0));
    let (code, _, told) = house.run(&["frost", "barn"]);
    assert!(
        code == 2 && told.contains("is neither a file nor a station that is known") && told.contains("help:"),
        "{told}"
    );
    assert_eq!(house.ok(&["verify"])["sound"], true);
}

#[test]
fn a_file_is_taken_once_and_a_newer_record_counts() {
    let house = House::new();
    let text = plain(2011);
    let first = house.write("garden.csv", &text);
    let looked = house.ok(&["take", &first, "--dry-run"])["weather"][0].clone();
    assert_eq!((looked["days"].as_u64(), looked["taken_before"].as_bool()), (Some(3653), Some(false)));
    assert_eq!(taken(&house, &[&first])["replaces"], Value::Null, "a look stores nothing");
    let again = taken(&house, &[&first]);
    assert_eq!((again["taken_before"].as_bool(), again["station"].as_str()), (Some(true), Some("garden")));
    let longer = taken(&house, &[&house.write("garden.csv", text + "2021-01-01,-1.0,2.0\n")]);
    assert_eq!(longer["replaces"]["to"].as_str(), Some("2020-12-31"), "{longer}");
    assert_eq!(house.ok(&["frost", "garden"])["to"].as_str(), Some("2021-01-01"));
}

#[test]
fn notes_are_never_taken_for_weather() {
    let house = House::new();
    house.ok(&["take", &house.write("list.csv", "Variety\nOld Pike\nAmber Bell\n")]);
    for (name, text) in [
        ("low-high.csv", "variety,date,weight (g),low,high\nOld Pike,2026-07-14,510,400,600\n"),
        ("by-plot.csv", "plot,date,min,max\n101,2026-07-14,4,6\n"),
        ("cuts.csv", "name,date,min,max,weight (g)\nOld Pike,2026-07-14,4,6,510\n"),
        ("heights.csv", "variety,date,height (cm),min,max\nOld Pike,2026-07-14,90,80,100\n"),
        ("bare.csv", "Amber Bell1,20260714,58.5\n"),
    ] {
        let (_, answer, told) = house.run(&["take", &house.write(name, text)]);
        assert_eq!(answer["weather"].as_array().map(Vec::len), Some(0), "{name}: {answer} {told}");
    }
    // Whoever says what a table holds has notes in hand.
    let file = house.write("days.csv", "date,low,high\n2026-07-14,4,6\n");
    let (_, answer, told) = house.run(&["take", &file, "--kind", "picks", "--column", "high=variety"]);
    assert_eq!(answer["weather"].as_array().map(Vec::len), Some(0), "{told}");
}

#[test]
fn weather_that_says_nothing_is_refused_and_nothing_is_kept() {
    let house = House::new();
    let two = order().replacen("XX000000001", "XX000000009", 2);
    let normals = "\"STATION\",\"NAME\",\"ANN-TMIN-PRBLST-T32FP10\"\n\"X1\",\"MILL\",\"-8888\"\n";
    let cases: [(&str, &str, &[&str], &str, &str); 9] = [
        ("scale.csv", "date,tmin,tmax\n2031-05-01,35,44\n", &[], "Celsius or Fahrenheit", "--scale"),
        (
            "wrong.csv",
            "date,tmin,tmax\n2031-05-01,35,94\n",
            &["--scale", "c"],
            "94.0 °C on 2031-05-01",
            "--scale",
        ),
        ("code.csv", "date,tmin_c,tmax_c\n2031-05-01,3,999.9\n", &[], "cannot have been read", "empty"),
        ("word.csv", "date,tmin_c,tmax_c\n2031-05-01,cold,9\n", &[], "row 2", "mend the row"),
        ("empty.csv", "date,tmin_c,tmax_c\n2031-05-01,,\n", &[], "no day with a temperature", ""),
        (
            "two.csv",
            &two,
            &[],
            "station XX000000001, after rows of station XX000000009",
            "--station IDENTIFIER",
        ),
        ("normals.csv", normals, &[], "no freeze dates of MILL", "one station"),
        ("far.csv", "date,tmin_c,tmax_c\n0001-01-01,1,9\n", &[], "cannot have been read", ""),
        ("short.dly", "XX0000000012031", &[], "too short", ""),
    ];
    for (name, text, more, reason, remedy) in cases {
        let file = house.write(name, text);
        let (code, answer, told) = house.run(&[&["take", &file], more].concat());
        assert_eq!(code, 2, "{name}: {told}");
        let unread = &answer["unreadable"][0];
        assert!(unread["reason"].as_str().unwrap().contains(reason), "{name}: {unread}");
        assert!(unread["remedy"].as_str().unwrap().contains(remedy), "{name}: {unread}");
    }
    let (code, answer, _) = house.run(&["take", &house.write("bytes.dly", b"\xff\xfe\x00\x01")]);
    assert_eq!((code, answer["unreadable"].as_array().unwrap().len()), (2, 1));
    let (code, _, _) = house.run(&["frost", "scale"]);
    assert_eq!(code, 2, "nothing was kept");
    assert_eq!(house.ok(&["verify"])["sound"], true);
}

#[test]
fn records_are_listed_withdrawn_restored_and_placed() {
    let house = House::new();
    assert_eq!(house.ok(&["weather"])["records"].as_array().unwrap().len(), 0);
    let text = plain(2011);
    house.ok(&["take", &house.write("garden.csv", &text)]);
    house.ok(&["take", &house.write("garden.csv", text + "2021-01-01,-1.0,2.0\n")]);
    let counts = |house: &House| {
        let records = house.ok(&["weather"])["records"].as_array().unwrap().clone();
        records.iter().map(|record| record["counts"].as_str().unwrap().to_owned()).collect::<Vec<_>>()
    };
    assert_eq!(counts(&house), ["yes", "replaced"]);
    let withdrawn = house.ok(&["weather", "withdraw", "GARDEN", "--why", "hung in the sun"]);
    assert_eq!(withdrawn["counts"]["to"].as_str(), Some("2020-12-31"), "{withdrawn}");
    assert_eq!(counts(&house), ["withdrawn", "yes"]);
    assert_eq!(house.ok(&["frost", "garden"])["to"].as_str(), Some("2020-12-31"));
    assert_eq!(house.ok(&["weather", "restore", "garden"])["stands"], true);
    assert_eq!(counts(&house), ["yes", "replaced"]);
    let (code, _, told) = house.run(&["weather", "restore", "garden"]);
    assert!(code == 2 && told.contains("no weather record of") && told.contains("help:"), "{told}");

    let place =
        ["weather", "place", "garden", "--latitude", "44.5", "--longitude", "-93.25", "--name", "Low field"];
    assert_eq!(house.ok(&place)["name"].as_str(), Some("Low field"));
    let placed = house.ok(&["weather", "place", "low field", "--elevation", "300"]);
    assert_eq!((placed["latitude"].as_f64(), placed["elevation_m"].as_f64()), (Some(44.5), Some(300.0)));
    assert_eq!(house.ok(&["frost", "Low field"])["station"].as_str(), Some("garden"));
    for (arguments, words) in [
        (&["frost", "garden", "--scale", "f"][..], "degrees were settled"),
        (&["weather", "withdraw", "barn"], "no weather of a station of that name"),
        (&["weather", "place", "garden", "--latitude", "91"], "91 is no latitude"),
        (&["weather", "place", "garden", "--longitude", "NaN"], "NaN is no longitude"),
        (&["weather", "near"], "is not known"),
        (&["weather", "near", "--garden", "Nowhere"], "no garden"),
        (&["garden", "--latitude", "44"], "which garden"),
    ] {
        let (code, _, told) = house.run(arguments);
        assert!(code == 2 && told.contains(words) && told.contains("help:"), "{arguments:?}: {told}");
    }
    assert_eq!(house.ok(&["verify"])["sound"], true);
}

#[test]
fn stations_near_a_garden_are_told_with_what_height_makes() {
    let house = House::new();
    house.ok(&["take", &house.write("order.csv", order())]);
    house.ok(&["take", &house.write("far.csv", plain(2011)), &house.write("lost.csv", plain(2012))]);
    house.ok(&["weather", "place", "far", "--latitude", "45.5", "--longitude", "-93.25"]);
    let told = house.ok(&[
        "garden",
        "Home",
        "--latitude",
        "44.5",
        "--longitude",
        "-93.25",
        "--elevation",
        "451.5",
        "--weather",
        "far",
        "--frost-risk",
        "10",
    ]);
    assert_eq!(told["gardens"][0]["frost_risk_in_100"].as_u64(), Some(10));
    house.ok(&["garden", "home", "--weather", "MILL, UPPER"]);
    let gardens = house.ok(&["garden"])["gardens"].as_array().unwrap().clone();
    assert_eq!(gardens.len(), 1, "{gardens:?}");
    assert_eq!(
        (gardens[0]["latitude"].as_f64(), gardens[0]["weather"].as_str()),
        (Some(44.5), Some("MILL, UPPER"))
    );
    let near = house.ok(&["weather", "near", "--garden", "HOME"]);
    let stations: Vec<_> =
        near["near"].as_array().unwrap().iter().map(|one| one["station"].as_str().unwrap()).collect();
    assert_eq!((&stations[..2], near["unplaced"][0].as_str()), (&["XX000000001", "far"][..], Some("lost")));
    // Those that are known without a file come too, Milwaukee first of them, 460 km away.
    assert_eq!((stations[2], near["near"][2]["had"].as_str()), ("USW00014839", Some("climate")));
    // 200 m above the station: 6.5 C a kilometre, ICAO standard atmosphere.
    assert!((near["near"][0]["warmer_by_c"].as_f64().unwrap() + 1.3).abs() < 1e-9, "{near}");
    assert_eq!(near["near"][1]["warmer_by_c"], Value::Null);
    // A degree of a meridian of a sphere of 6371.0088 km.
    assert!((near["near"][1]["kilometres"].as_f64().unwrap() - 111.195).abs() < 0.0005, "{near}");
}

/// A file by year holds every station of the world: one is picked by its identifier, and the next from the same file.
#[test]
fn one_station_is_picked_out_of_many() {
    let house = House::new();
    let year = "XX000000007,20310701,TMIN,120,,,S,\nXX000000008,20310701,TMIN,90,,,S,\n\"XX000000007\",20310701,TMAX,260,,,S,\n\
                XX000000008,20310701,TMAX,200,,,S,\nXX000000007,20310702,TMAX,270,,,S,\n";
    let file = house.write("2031.csv", year);
    let refused = |more: &[&str], reason: &str, remedy: &str| {
        let (code, answer, told) = house.run(&[&["take", &file], more].concat());
        let unread = &answer["unreadable"][0];
        assert_eq!(code, 2, "{told}");
        assert!(unread["reason"].as_str().unwrap().contains(reason), "{unread}");
        assert!(unread["remedy"].as_str().unwrap().contains(remedy), "{unread}");
    };
    refused(&[], "station XX000000008, after lines of station XX000000007", "--station IDENTIFIER");
    for (station, days) in [("XX000000007", 2), ("XX000000008", 1)] {
        let one = taken(&house, &[&file, "--station", station]);
        assert_eq!((one["station"].as_str(), one["days"].as_u64()), (Some(station), Some(days)));
    }
    assert_eq!(taken(&house, &[&file, "--station", "XX000000007"])["taken_before"], Value::Bool(true));
    refused(&["--station", "XX000000009"], "no line of station XX000000009", "list of stations");
}

/// A spreadsheet of one sheet is read as the table that it is, whether it is kept or only looked at.
#[test]
fn a_spreadsheet_of_days_is_weather() {
    let house = House::new();
    let mut book = rust_xlsxwriter::Workbook::new();
    let sheet = book.add_worksheet();
    for (row, line) in (0..).zip(plain(2011).lines()) {
        for (column, cell) in (0..).zip(line.split(',')) {
            match cell.parse::<f64>() {
                Ok(number) => sheet.write_number(row, column, number).unwrap(),
                Err(_) => sheet.write_string(row, column, cell).unwrap(),
            };
        }
    }
    let file = house.write("garden.xlsx", book.save_to_buffer().unwrap());
    let text = house.write("garden.csv", plain(2011));
    let at = |file: &str| house.ok(&["frost", file])["at"].clone();
    assert_eq!(at(&file), at(&text));
    let kept = taken(&house, &[&file, "--station", "Garden"]);
    assert_eq!((kept["station"].as_str(), kept["days"].as_u64()), (Some("Garden"), Some(3653)));
    assert_eq!(taken(&house, &[&file])["taken_before"], Value::Bool(true));
    assert_eq!(at("Garden"), at(&text));
    // A second sheet leaves it open which is meant.
    book.add_worksheet().write_string(0, 0, "rain").unwrap();
    let two = house.write("two.xlsx", book.save_to_buffer().unwrap());
    let (code, _, told) = house.run(&["frost", &two]);
    assert_eq!(code, 2, "{told}");
}

/// Twelve months of normals, in degrees Fahrenheit, as they are published of a cool station.
fn monthly(stations: &[&str]) -> String {
    let mut text =
        "\"STATION\",\"NAME\",\"LATITUDE\",\"LONGITUDE\",\"ELEVATION\",\"month\",\"MLY-TMAX-NORMAL\",\
        \"MLY-TMAX-STDDEV\",\"MLY-TMIN-NORMAL\",\"MLY-TMIN-STDDEV\"\n"
            .to_owned();
    for station in stations {
        for month in 1..=12 {
            let summer = 6.0 - f64::from(7_i32 - month).abs();
            let (high, low) = (30.0 + 8.7 * summer, 10.0 + 7.9 * summer);
            text +=
                &format!("\"{station}\",\"Mill, upper\",44.5,-93.2,251,{month},{high:.1},3.2,{low:.1},2.9\n");
        }
    }
    text
}

/// Freeze dates of normals, as they are published of the same station.
const FREEZES: &str = "\"STATION\",\"NAME\",\"ANN-TMIN-PRBLST-T36FP10\",\"ANN-TMIN-PRBLST-T32FP10\",\"ANN-TMIN-PRBLST-T28FP10\",\
    \"ANN-TMIN-PRBFST-T36FP10\",\"ANN-TMIN-PRBFST-T32FP10\",\"ANN-TMIN-PRBFST-T28FP10\"\n\
    \"XX000000005\",\"Mill, upper\",\"06/06\",\"05/24\",\"05/11\",\"09/12\",\"09/23\",\"10/03\"\n";

/// Means of months or days are nobody's days; they are a climate, by which a station's years are drawn, and its freeze dates go
/// before those of drawn years.
#[test]
fn normals_serve_as_a_climate() {
    let house = House::new();
    let file = house.write("monthly.csv", monthly(&["XX000000005", "XX000000006"]));
    let (code, answer, _) = house.run(&["take", &file]);
    assert_eq!(code, 2, "two stations: {answer}");
    let one = taken(&house, &[&file, "--station", "XX000000005"]);
    assert_eq!(
        (one["normals"].as_str(), one["days"].as_u64()),
        (Some("monthly climate normals"), Some(0)),
        "{one}"
    );
    assert_eq!(one["taken_for"].as_str(), None, "{one}");
    let drawn = house.ok(&["calendar", "--weather", "XX000000005", "--year", "2031"]);
    assert_eq!(drawn["weather"]["drawn_from"].as_str(), Some("its monthly normals"), "{drawn}");
    let in_place = house.ok(&["calendar", "--weather", &file, "--station", "XX000000005", "--year", "2031"]);
    assert_eq!((&drawn["days"], &drawn["frost_safe"]), (&in_place["days"], &in_place["frost_safe"]));

    let freezes = taken(&house, &[&house.write("annual.csv", FREEZES)]);
    assert_eq!(freezes["normals"].as_str(), Some("freeze dates of climate normals"), "{freezes}");
    let told = house.ok(&["calendar", "--weather", "mill, upper", "--year", "2031"]);
    assert_eq!(told["frost_safe"].as_str(), Some("05-25"), "the day after the published one: {told}");
    assert_ne!(drawn["frost_safe"], told["frost_safe"], "drawn years say otherwise");
    let frost = house.ok(&["frost", "XX000000005"]);
    assert_eq!(frost["at"][1]["last"][0]["day"].as_f64(), Some(144.0), "24 May as published: {frost}");

    // A garden 100 m higher is 0.65 degrees colder: 0.65 of 20/9 of the way from 24 May to 6 June.
    house.ok(&["garden", "Hill", "--latitude", "44.6", "--longitude", "-93.2", "--elevation", "351"]);
    let hill = house.ok(&["frost", "--garden", "Hill"]);
    let freeze = hill["at"].as_array().unwrap().iter().find(|at| at["fahrenheit"] == 32).unwrap();
    let day = freeze["last"][0]["day"].as_f64().unwrap();
    assert!((day - (144.0 + 13.0 * 0.65 * 9.0 / 20.0)).abs() < 1e-9, "{day} {hill}");

    let records = house.ok(&["weather"]);
    let kinds: Vec<_> =
        records["records"].as_array().unwrap().iter().map(|one| one["normals"].as_str()).collect();
    assert_eq!(kinds, [Some("freeze dates of climate normals"), Some("monthly climate normals")]);
    let (code, _, told) = house.run(&["frost", "XX000000005", "--years", "1991-2020"]);
    assert!(code == 2 && told.contains("told as published"), "{told}");
    house.ok(&["weather", "withdraw", "XX000000005"]);
    let again = house.ok(&["calendar", "--weather", "XX000000005", "--year", "2031"]);
    assert_eq!(again["frost_safe"], drawn["frost_safe"], "without the freeze dates, which were brought last");
    assert_eq!(house.ok(&["verify"])["sound"], true);
}

/// Freeze dates alone tell frosts and no warmth.
#[test]
fn freeze_dates_alone_are_no_climate() {
    let house = House::new();
    taken(&house, &[&house.write("annual.csv", FREEZES)]);
    assert_eq!(house.ok(&["frost", "XX000000005"])["at"][0]["last"][0]["day"].as_f64(), Some(157.0));
    let (code, _, told) = house.run(&["calendar", "--weather", "XX000000005"]);
    assert!(
        code == 2 && told.contains("only published freeze dates are kept") && told.contains("help:"),
        "{told}"
    );
    let (code, _, told) =
        house.run(&["frost", &house.write("monthly.csv", "STATION,month,MLY-TMAX-NORMAL\nX,1,30\n")]);
    assert!(code == 2 && told.contains("no column MLY-TMAX-STDDEV") && told.contains("help:"), "{told}");
}

/// One station of a file with many, in place: of the network's values, its months and an order of days.
#[test]
fn one_station_is_read_in_place_out_of_many() {
    let house = House::new();
    let order = order()
        + &order()
            .lines()
            .skip(1)
            .map(|row| row.replace("XX000000001", "XX000000009") + "\n")
            .collect::<String>();
    let values = |station: &str, lowest: i32| {
        let day = |day: jiff::civil::Date| {
            let own = if day.month() % 12 < 4 { -30 } else { lowest };
            // No two days alike, or the thermometer would have stood still.
            let (number, day) = (i32::from(day.day()), day.strftime("%Y%m%d"));
            format!("{station},{day},TMIN,{own},,,S,\n{station},{day},TMAX,{},,,S,\n", own + 90 + number)
        };
        let days = jiff::civil::date(2031, 1, 1).series(jiff::ToSpan::days(1)).take(365);
        days.map(day).collect::<String>()
    };
    let of_values = values("XX000000007", 61) + &values("XX000000008", 102);
    for (name, text, station, other) in [
        ("order.csv", &order, "XX000000009", "XX000000002"),
        ("2031.csv", &of_values, "XX000000008", "XX000000003"),
    ] {
        let file = house.write(name, text);
        let (code, _, told) = house.run(&["frost", &file]);
        assert!(code == 2 && told.contains("--station IDENTIFIER"), "{told}");
        assert_eq!(house.ok(&["frost", &file, "--station", station])["station"].as_str(), Some(station));
        let (code, _, told) = house.run(&["frost", &file, "--station", other]);
        assert!(code == 2 && told.contains(&format!("no line of station {other}")), "{told}");
    }
}
