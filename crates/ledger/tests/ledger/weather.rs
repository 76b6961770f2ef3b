//! Weather records and gardens: kept, read back, withdrawn, restored, and brought up from the form before.

use crate::ground::{act, add_plots, add_varieties, new_file, on_both};
use jiff::ToSpan;
use jiff::civil::{Date, date};
use ledger::batch::Sha256;
use ledger::fault::LedgerFault;
use ledger::gardens::Garden;
use ledger::keep::put_back;
use ledger::ledger::Ledger;
use ledger::weather::{
    DayRead, Holds, Normals, ScaleTaken, ScaleToldBy, Station, WeatherFile, WeatherNumber, WeatherState,
};
use record::place::{Elevation, Latitude, Longitude, Place};
use record::temperature::Celsius;
use rusqlite::Connection;
use tempfile::TempDir;

fn place(latitude: f64, longitude: f64, elevation: Option<f64>) -> Place {
    Place {
        latitude: Latitude::new(latitude),
        longitude: Longitude::new(longitude),
        elevation: elevation.and_then(Elevation::new),
    }
}

fn station() -> Station {
    Station {
        identifier: "XX000000001".to_owned(),
        name: Some("Mill, upper \u{1F345}\\N\t".to_owned()),
        place: place(44.5, -93.25, None),
    }
}

fn file(content: u8) -> WeatherFile {
    let scale = Some((ScaleTaken::Fahrenheit, ScaleToldBy::Summers));
    WeatherFile { name: format!("mill-{content}.csv"), sha256: Sha256([content; 32]), scale }
}

/// Days from one on; each third lacks its highest, each fifth its lowest temperature, a fifteenth day both.
fn days(from: Date, count: i32) -> Vec<DayRead> {
    let read = |at: i32| DayRead {
        day: from.checked_add(at.days()).unwrap(),
        lowest: (at % 5 != 4).then(|| Celsius::new(f64::from(at) / 1000.0 - 20.0).unwrap()),
        highest: (at % 3 != 2).then(|| Celsius::new((f64::from(at) - 32.0) / 1.8 / 100.0).unwrap()),
    };
    (0..count).map(read).filter(|day| day.lowest.is_some() || day.highest.is_some()).collect()
}

#[test]
fn a_record_is_read_back_as_it_was_kept() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        // More rows than are held back for one copy.
        let kept = days(date(1991, 1, 1), 9000);
        let number = ledger.keep_weather(&act(1), &file(1), &station(), &kept).unwrap();
        assert_eq!(ledger.weather_days(number).unwrap(), kept);
        let records = ledger.weather_records().unwrap();
        let record = &records[0];
        assert_eq!((&record.station, &record.file), (&station(), &file(1)));
        let whole = kept.iter().filter(|day| day.lowest.is_some() && day.highest.is_some()).count() as u64;
        let holds = Holds::Days { first: kept[0].day, last: kept[kept.len() - 1].day, whole };
        assert_eq!((&record.holds, &record.state), (&holds, &WeatherState::Standing));
        assert_eq!((&record.brought.who, record.brought.at), (&act(1).who, act(1).at));
        assert!(ledger.verify().unwrap().is_sound());
    });
}

#[test]
fn a_file_is_taken_once_and_the_newest_of_a_station_can_be_withdrawn() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let first = ledger.keep_weather(&act(1), &file(1), &station(), &days(date(2030, 1, 1), 5)).unwrap();
        let again = ledger.keep_weather(&act(2), &file(1), &station(), &days(date(2030, 1, 1), 5));
        assert!(matches!(again, Err(LedgerFault::WeatherTakenAlready(by)) if by == first), "{again:?}");
        assert_eq!(ledger.weather_taken(Sha256([1; 32])).unwrap(), Some(first));
        let second = ledger.keep_weather(&act(3), &file(2), &station(), &days(date(2030, 1, 1), 9)).unwrap();

        assert_eq!(ledger.withdraw_weather(" xx000000001", &act(4)).unwrap(), second, "the newest first");
        assert_eq!(ledger.weather_taken(Sha256([2; 32])).unwrap(), None);
        let states: Vec<_> = ledger.weather_records().unwrap().into_iter().map(|one| one.state).collect();
        assert_eq!(states, [WeatherState::Standing, WeatherState::Withdrawn(act(4))]);
        assert_eq!(ledger.withdraw_weather("XX000000001", &act(5)).unwrap(), first);
        let none = ledger.withdraw_weather("XX000000001", &act(6));
        assert!(matches!(none, Err(LedgerFault::NoSuchStation(_))), "{none:?}");

        assert_eq!(
            ledger.restore_weather("XX000000001", &act(7)).unwrap(),
            first,
            "the last withdrawn first"
        );
        // The other file is taken anew meanwhile, so its old record stays where it is.
        let third = ledger.keep_weather(&act(8), &file(2), &station(), &days(date(2030, 1, 1), 9)).unwrap();
        let twice = ledger.restore_weather("XX000000001", &act(9));
        assert!(matches!(twice, Err(LedgerFault::WeatherTakenAlready(by)) if by == third), "{twice:?}");
        let nothing = ledger.restore_weather("another", &act(9));
        assert!(matches!(nothing, Err(LedgerFault::NothingWithdrawn(_))), "{nothing:?}");
        assert_eq!(third, WeatherNumber(3));
        assert!(ledger.verify().unwrap().is_sound());
    });
}

#[test]
fn what_is_said_of_a_station_goes_before_its_file() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        ledger.keep_weather(&act(1), &file(1), &station(), &days(date(2030, 1, 1), 5)).unwrap();
        let told = Station { name: None, place: place(45.0, -93.0, Some(251.5)), ..station() };
        ledger.place_station(&told, &act(2)).unwrap();
        let found = ledger.weather_records().unwrap().remove(0).station;
        assert_eq!((found.name, found.place), (station().name, told.place));
        let unknown = Station { identifier: "another".to_owned(), ..told };
        let fault = ledger.place_station(&unknown, &act(3));
        assert!(matches!(fault, Err(LedgerFault::NoSuchStation(_))), "{fault:?}");
        assert!(ledger.verify().unwrap().is_sound());
    });
}

/// Normals are kept word for word beside the days of their station, withdrawn like them, and a change in them is found.
#[test]
fn normals_are_kept_word_for_word() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let text = "\"STATION\",\"MLY-TMAX-NORMAL\"\n\"XX000000001\", \u{1F345} 30.3\\N\n";
        let days = ledger.keep_weather(&act(1), &file(1), &station(), &days(date(2030, 1, 1), 5)).unwrap();
        let months = ledger.keep_normals(&act(2), &file(2), &station(), (Normals::Months, text)).unwrap();
        let again = ledger.keep_normals(&act(3), &file(2), &station(), (Normals::Months, text));
        assert!(matches!(again, Err(LedgerFault::WeatherTakenAlready(by)) if by == months), "{again:?}");
        let empty = ledger.keep_normals(&act(3), &file(3), &station(), (Normals::Freezes, ""));
        assert!(matches!(empty, Err(LedgerFault::Nameless)), "{empty:?}");
        let holds: Vec<Holds> = ledger.weather_records().unwrap().into_iter().map(|one| one.holds).collect();
        assert_eq!(holds.get(1), Some(&Holds::Normals(Normals::Months)));
        assert_eq!(ledger.normals_text(months).unwrap().as_deref(), Some(text));
        assert_eq!(
            (ledger.normals_text(days).unwrap(), ledger.weather_days(months).unwrap()),
            (None, Vec::new())
        );
        assert!(ledger.verify().unwrap().is_sound());
        assert_eq!(ledger.withdraw_weather("XX000000001", &act(4)).unwrap(), months, "brought last");
        assert_eq!(ledger.weather_taken(Sha256([1; 32])).unwrap(), Some(days));
    });
}

#[test]
fn what_has_no_station_or_day_is_no_record() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let nameless = Station { identifier: " \t".to_owned(), ..station() };
        for (station, days) in [(nameless, days(date(2030, 1, 1), 5)), (station(), Vec::new())] {
            let fault = ledger.keep_weather(&act(1), &file(1), &station, &days);
            assert!(matches!(fault, Err(LedgerFault::Nameless)), "{fault:?}");
        }
        assert_eq!(ledger.weather_records().unwrap(), []);
    });
}

#[test]
fn gardens_are_those_told_of_and_those_of_grow_outs() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let varieties = add_varieties(&mut ledger, &["Amber Lantern"]);
        add_plots(&mut ledger, &varieties);
        let home = Garden { name: "Home".to_owned(), ..Garden::default() };
        assert_eq!(ledger.gardens().unwrap(), std::slice::from_ref(&home));
        let far = Garden { name: "Far field".to_owned(), frost_risk_in_100: Some(10), ..Garden::default() };
        ledger.tell_of_garden(&far, &act(1)).unwrap();
        let placed = Garden {
            name: "home".to_owned(),
            place: place(44.0, -93.0, None),
            weather: Some("mill".to_owned()),
            ..far
        };
        ledger.tell_of_garden(&home, &act(2)).unwrap();
        ledger.tell_of_garden(&placed, &act(3)).unwrap();
        let far =
            Garden { name: "Far field".to_owned(), place: Place::default(), weather: None, ..placed.clone() };
        assert_eq!(ledger.gardens().unwrap(), [far, placed]);
        let fault = ledger.tell_of_garden(&Garden::default(), &act(4));
        assert!(matches!(fault, Err(LedgerFault::Nameless)), "{fault:?}");
        assert!(ledger.verify().unwrap().is_sound());
    });
}

/// A ledger of the form before gains the new tables, and its plots are there still.
#[test]
fn a_ledger_of_the_form_before_is_brought_up() {
    let folder = TempDir::new().unwrap();
    let location = new_file(&folder);
    let ids = add_varieties(&mut Ledger::open(&location).unwrap(), &["Amber Lantern", "Brindle"]);
    add_plots(&mut Ledger::open(&location).unwrap(), &ids);
    let file = Connection::open(folder.path().join("ledger.db")).unwrap();
    file.execute_batch(crate::WITHOUT_SALES).unwrap();
    file.execute_batch(crate::WITHOUT_THE_SEED_ROOM).unwrap();
    file.execute_batch(
        "DROP VIEW standing_weather; DROP TABLE weather_undoing; DROP TABLE weather_day; DROP TABLE weather_record;
         DROP TABLE station_detail; DROP TABLE garden_detail; DELETE FROM form WHERE number >= 4;",
    )
    .unwrap();
    drop(file);
    let mut ledger = Ledger::open(&location).unwrap();
    assert_eq!((ledger.plots().unwrap().len(), ledger.weather_records().unwrap().len()), (2, 0));
    assert!(ledger.verify().unwrap().is_sound());
}

/// A ledger with one record, one word on its station and one garden.
fn filled(folder: &TempDir) -> Ledger {
    let mut ledger = Ledger::open(&new_file(folder)).unwrap();
    ledger.keep_weather(&act(1), &file(1), &station(), &days(date(2030, 1, 1), 5)).unwrap();
    ledger.place_station(&station(), &act(2)).unwrap();
    ledger.keep_normals(&act(2), &file(2), &station(), (Normals::Freezes, "05/24")).unwrap();
    let garden = Garden { name: "Home".to_owned(), place: place(44.0, -93.0, None), ..Garden::default() };
    ledger.tell_of_garden(&garden, &act(3)).unwrap();
    ledger
}

#[test]
fn verifying_finds_weather_that_was_changed() {
    let damages = [
        ("UPDATE weather_day SET lowest_c = -3.5 WHERE day = 20300102", "weather record 1 was changed"),
        ("DELETE FROM weather_day WHERE day = 20300102", "weather record 1 was changed"),
        ("UPDATE weather_record SET scale = 'celsius' WHERE number = 1", "weather record 1 was changed"),
        ("UPDATE weather_record SET body = '05/23' WHERE number = 2", "weather record 2 was changed"),
        ("UPDATE weather_record SET station = 'XX000000002' WHERE number = 1", "\"XX000000002\" was changed"),
        ("UPDATE station_detail SET longitude = 93.25", "was changed afterwards"),
        ("UPDATE garden_detail SET latitude = -44.0", "garden \"Home\" was changed afterwards"),
    ];
    for (damage, finding) in damages {
        let folder = TempDir::new().unwrap();
        let mut ledger = filled(&folder);
        let file = Connection::open(folder.path().join("ledger.db")).unwrap();
        let refused = file.execute_batch(damage).unwrap_err().to_string();
        assert!(refused.contains("only ever added to"), "{damage}: {refused}");
        for table in ["weather_day", "weather_record", "station_detail", "garden_detail"] {
            file.execute_batch(&format!("DROP TRIGGER {table}_no_UPDATE; DROP TRIGGER {table}_no_DELETE;"))
                .unwrap();
        }
        assert!(ledger.verify().unwrap().is_sound());
        file.execute_batch(damage).unwrap();
        let verified = ledger.verify().unwrap();
        let found: Vec<_> = verified.checks.iter().flat_map(|check| &check.findings).collect();
        assert!(found.iter().any(|found| found.contains(finding)), "{damage}: {found:?}");
    }
}

#[test]
fn a_backup_holds_the_weather() {
    let folder = TempDir::new().unwrap();
    let mut ledger = filled(&folder);
    let backup = folder.path().join("backup.db");
    ledger.back_up_to(&backup).unwrap();
    ledger.withdraw_weather("XX000000001", &act(9)).unwrap();
    let location = ledger.location().clone();
    drop(ledger);
    put_back(&backup, &folder.path().join("ledger.db")).unwrap();
    let mut ledger = Ledger::open(&location).unwrap();
    assert_eq!(ledger.weather_records().unwrap()[0].state, WeatherState::Standing);
    assert_eq!(ledger.weather_days(WeatherNumber(1)).unwrap(), days(date(2030, 1, 1), 5));
}
