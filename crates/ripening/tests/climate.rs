//! Drawn weather, held to the days of five stations.
//!
//! Days are read in place from the oracles folder (`LOCULE_ORACLES`, else `shared/oracles` beside the checkout); a test whose
//! file is missing says so and leaves.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

mod oracles;

use jiff::civil::date;
use ripening::climate::normals::{self, MeansOf};
use ripening::climate::shipped::frosts::Frosts;
use ripening::climate::{Climate, shipped};
use ripening::frost::{self, Frost, Hemisphere, TOLD_AT};
use ripening::thermal::{Clock, Method};
use ripening::weather::{Days, quality, table};

/// Degree-days above 10, by the simple mean, from May to September of every whole year.
fn seasons(days: &Days) -> Vec<f64> {
    let clock = Clock { method: Method::Average, base: 10.0, ceiling: None };
    let season = |year| {
        let (from, to) = (date(year, 5, 1), date(year, 9, 30));
        clock.sums(days, from).find(|(day, _)| *day == to).map(|(_, sum)| sum)
    };
    days.years().filter_map(season).collect()
}

fn spread(numbers: &[f64]) -> (f64, f64) {
    let count = f64::from(u32::try_from(numbers.len()).unwrap());
    let mean = numbers.iter().sum::<f64>() / count;
    let squares: f64 = numbers.iter().map(|number| (number - mean).powi(2)).sum();
    (mean, (squares / (count - 1.0)).sqrt())
}

/// The stations whose days are at hand, as they stand in the oracles folder, and how far their May-to-September sums
/// strayed in 1986 to 2015 (worked out with numpy from the same files).
const STATIONS: [(&str, &str); 5] = [
    ("USC00323621", "USC00323621_grand_forks_nd"),
    ("USW00014839", "USW00014839_milwaukee_wi"),
    ("USC00317202", "USC00317202_reidsville_nc"),
    ("USW00093209", "USW00093209_paso_robles_ca"),
    ("USC00179151", "USC00179151_waterville_me"),
];

fn days(name: &str) -> Option<Days> {
    let text = oracles::text(&format!("weather/daily/{name}.csv"))?;
    quality::checked(table::read(&text, None).unwrap().days).0.within(1986, 2015)
}

/// Thirty seasons tell their own deviation to 13 in 100 and no better; drawn ones stay within one such error, where the
/// plain generator is a third too tame at two of the stations.
#[test]
fn drawn_seasons_stray_as_the_stations_own_do() {
    for (_, name) in STATIONS {
        let Some(days) = days(name) else { return };
        let climate = Climate::of(&days).unwrap();
        let (own_mean, own) = spread(&seasons(&quality::filled(days).0));
        let (drawn_mean, drawn) = spread(&seasons(&climate.years(2000, name)));
        assert!((drawn_mean / own_mean - 1.0).abs() < 0.011, "{name}: {drawn_mean} {own_mean}");
        assert!((drawn / own - 1.0).abs() < 0.13, "{name}: {drawn} {own}");
    }
    let days = days("USC00323621_grand_forks_nd").unwrap();
    let plain = Climate { season: 0.0, ..Climate::of(&days).unwrap() };
    // 105.1 where 162.1 was observed: the plain generator as another program had it.
    let (_, tame) = spread(&seasons(&plain.years(2000, "plain")));
    assert!((tame / 105.1 - 1.0).abs() < 0.04, "{tame}");
}

/// What is shipped of a station is what its own days give: seasons to the thousandth; means and deviations but for the
/// slips in the days, which the shipped table, another program's, was worked out with (a false 12 degrees in a month of
/// thirty years moves its mean by 0.01, its deviation by 0.1).
#[test]
fn shipped_climates_are_worked_out_of_days() {
    for (identifier, name) in STATIONS {
        let Some(days) = days(name) else { return };
        let worked = Climate::of(&days).unwrap();
        let shipped = shipped::stations().iter().find(|one| one.identifier == identifier).unwrap().climate();
        assert!((worked.season - shipped.season).abs() < 0.001, "{name}: {}", worked.season);
        for (one, other) in worked.months.iter().zip(&shipped.months) {
            assert!((one.highest.mean - other.highest.mean).abs() < 0.05, "{name}: {one:?} {other:?}");
            assert!((one.lowest.mean - other.lowest.mean).abs() < 0.05, "{name}: {one:?} {other:?}");
            assert!(
                (one.highest.deviation - other.highest.deviation).abs() < 0.1,
                "{name}: {one:?} {other:?}"
            );
            assert!((one.lowest.deviation - other.lowest.deviation).abs() < 0.1, "{name}: {one:?} {other:?}");
        }
    }
}

/// Nights are never warmer than their days, and one key draws one run of years.
#[test]
fn drawn_days_are_possible_and_the_same_again() {
    for station in shipped::stations() {
        let years = station.climate().years(30, "once");
        assert!(years.lowest().iter().zip(years.highest()).all(|(lowest, highest)| lowest <= highest));
        assert_eq!(years.lowest(), station.climate().years(30, "once").lowest());
        assert_ne!(years.lowest(), station.climate().years(30, "again").lowest());
        assert_eq!(years.years(), 2001..=2030);
    }
}

/// A degree-day total of monthly means is too low: Lebanon, New Hampshire, 1991-2020 normals, base 50 F; 2363.7 published,
/// 2190.6 counted from the published monthly means. Drawn days must not fall into that trap: of Grand Forks, whose own
/// days gave 1211 in May to September, means alone give less.
#[test]
fn means_alone_count_too_little() {
    let station = shipped::stations().iter().find(|one| one.identifier == "USC00323621").unwrap();
    let mut calm = station.climate();
    for month in &mut calm.months {
        month.highest.deviation = 0.0;
        month.lowest.deviation = 0.0;
    }
    calm.season = 0.0;
    let (of_means, _) = spread(&seasons(&calm.years(20, "calm")));
    let (of_days, _) = spread(&seasons(&station.climate().years(1000, "days")));
    assert!(of_means < 0.97 * of_days, "{of_means} {of_days}");
    assert!((of_days / 1211.0 - 1.0).abs() < 0.011, "{of_days}");
}

fn lebanon(file: &str) -> Option<normals::MeanNormals> {
    let text = oracles::text(&format!("weather/normals/{file}"))?;
    Some(normals::read(&text, None).unwrap())
}

const MONTHLY: &str = "normals_monthly_1991-2020_USW00094765.csv";
const DAILY: &str = "normals_daily_1991-2020_USW00094765_temps.csv";

/// NOAA, U.S. Climate Normals 1991-2020, Lebanon NH: January 30.3 and 9.3 F, July 82.7 and 57.8 F, as printed in the monthly file;
/// the daily file's days make the same months to half a tenth of a degree.
#[test]
fn published_means_are_read_in_fahrenheit() {
    let (Some(monthly), Some(daily)) = (lebanon(MONTHLY), lebanon(DAILY)) else { return };
    assert_eq!((monthly.of, daily.of), (MeansOf::Months, MeansOf::Days));
    assert_eq!((monthly.station.as_deref(), daily.station), (Some("USW00094765"), None));
    assert!((monthly.place.elevation.unwrap().get() - 182.3).abs() < 0.05);
    let fahrenheit = |celsius: f64| celsius * 1.8 + 32.0;
    for (month, highest, lowest) in [(0, 30.3, 9.3), (6, 82.7, 57.8)] {
        let found = monthly.climate.months[month];
        assert!((fahrenheit(found.highest.mean) - highest).abs() < 1e-9, "{found:?}");
        assert!((fahrenheit(found.lowest.mean) - lowest).abs() < 1e-9, "{found:?}");
    }
    for (one, other) in monthly.climate.months.iter().zip(&daily.climate.months) {
        assert!((one.highest.mean - other.highest.mean).abs() < 0.1, "{one:?} {other:?}");
        assert!((one.lowest.mean - other.lowest.mean).abs() < 0.1, "{one:?} {other:?}");
    }
}

/// How far days stray is worked back from how far months do, and comes out small at this station: by 13 in 100 over the year for
/// one of the two, and by a third in single months (thirty years tell a month's deviation to 13 in 100). The daily normals publish
/// what is meant.
#[test]
fn days_of_monthly_normals_stray_about_as_those_of_daily_ones() {
    let (Some(monthly), Some(daily)) = (lebanon(MONTHLY), lebanon(DAILY)) else { return };
    for of in
        [|month: &ripening::climate::Month| month.highest, |month: &ripening::climate::Month| month.lowest]
    {
        let pairs = monthly.climate.months.iter().zip(&daily.climate.months);
        let ratios: Vec<f64> = pairs.map(|(one, other)| of(one).deviation / of(other).deviation).collect();
        assert!(ratios.iter().all(|ratio| (0.65..1.35).contains(ratio)), "{ratios:?}");
        let mean = ratios.iter().sum::<f64>() / 12.0;
        assert!((mean - 1.0).abs() < 0.15, "{mean} {ratios:?}");
    }
}

/// Lebanon's published annual degree-days over 50 F are 2363.7; its monthly normals alone give 2190.6 and its daily ones 2220.8.
/// Years drawn from either come nearer than the means they are drawn from: within 4 in 100.
#[test]
fn degree_days_of_years_drawn_from_normals() {
    let (Some(monthly), Some(daily)) = (lebanon(MONTHLY), lebanon(DAILY)) else { return };
    let clock = Clock { method: Method::Average, base: 10.0, ceiling: None };
    for read in [monthly, daily] {
        let days = read.climate.years(400, "Lebanon");
        let year = |year| clock.sums(&days, date(year, 1, 1)).nth(364).map(|(_, sum)| sum * 1.8);
        let (mean, _) = spread(&days.years().filter_map(year).collect::<Vec<_>>());
        assert!((mean / 2363.7 - 1.0).abs() < 0.04, "{mean}");
    }
}

/// What is no climate is refused with what is missing.
#[test]
fn normals_that_lack_something_are_refused() {
    let row = |month: usize| format!("A,{month},30.0,10.0,20.0,9.0\n");
    let heading = "STATION,month,DLY-TMAX-NORMAL,DLY-TMAX-STDDEV,DLY-TMIN-NORMAL,DLY-TMIN-STDDEV\n";
    let rows =
        |months: std::ops::RangeInclusive<usize>| heading.to_owned() + &months.map(row).collect::<String>();
    let fault = |text: String| normals::read(&text, None).unwrap_err().to_string();
    assert_eq!(fault(rows(1..=11)), "month 12: no DLY-TMAX-NORMAL in it");
    assert_eq!(fault(rows(1..=12).replace("DLY-TMIN-STDDEV", "x")), "no column DLY-TMIN-STDDEV");
    assert_eq!(fault(rows(1..=12) + "B,1,30,10,20,9\n"), "row 14: station B, after rows of station A");
    assert!(fault(rows(1..=12).replace("20.0", "-9999")).starts_with("month 1: no DLY-TMIN-NORMAL"));
    let hot = rows(1..=12).replace("30.0", "140.0");
    assert!(fault(hot).contains("neither in Fahrenheit nor in Celsius"));
    assert!(normals::read(&rows(1..=12), None).is_ok());
}

/// The years that are shipped of five stations are what their days give, once what cannot be is taken out.
#[test]
fn shipped_frosts_are_worked_out_of_days() {
    for (identifier, name) in STATIONS {
        let station = shipped::stations().iter().find(|one| one.identifier == identifier).unwrap();
        let Some(Frosts::Years(shipped)) = station.frosts() else { panic!("{name}: no years") };
        let (from, to) = (shipped[0].first().unwrap().year, shipped[0].last().unwrap().year);
        assert_eq!(usize::try_from(to - from + 1).unwrap(), shipped[0].len(), "{name}");
        let Some(text) = oracles::text(&format!("weather/daily/{name}.csv")) else { continue };
        let days = quality::checked(table::read(&text, None).unwrap().days).0;
        for (at, shipped) in TOLD_AT.iter().zip(&shipped) {
            let worked = frost::years(&days, *at, Hemisphere::North);
            let worked: Vec<_> = worked.into_iter().filter(|year| (from..=to).contains(&year.year)).collect();
            // How many nights are missing of a year that is not known is not shipped.
            let known = |frost: Frost| (!matches!(frost, Frost::NotKnown { .. })).then_some(frost);
            for (one, other) in worked.iter().zip(shipped) {
                let year = one.is_known().then(|| (known(one.last), known(one.first)));
                let own = other.is_known().then(|| (known(other.last), known(other.first)));
                assert_eq!((one.year, year), (other.year, own), "{name} at {at}");
            }
        }
    }
}

/// Lebanon's climate is that of its daily normals, its freeze dates those of its annual ones; Seattle's is of its four years.
#[test]
fn shipped_normals_are_those_published() {
    let named = |name: &str| shipped::stations().iter().find(|one| one.name.starts_with(name)).unwrap();
    let near = |shipped: &Climate, worked: &Climate| {
        for (one, other) in shipped.months.iter().zip(&worked.months) {
            for (one, other) in [(one.highest, other.highest), (one.lowest, other.lowest)] {
                assert!((one.mean - other.mean).abs() < 0.0051, "{one:?} {other:?}");
                assert!((one.deviation - other.deviation).abs() < 0.0051, "{one:?} {other:?}");
            }
        }
    };
    if let Some(daily) = lebanon(DAILY) {
        near(&named("Lebanon").climate(), &daily.climate);
    }
    if let Some(text) = oracles::text("weather/normals/normals_annualseasonal_1991-2020_USW00094765.csv") {
        let read = ripening::weather::normals::read(&text).unwrap();
        let Some(Frosts::Published(shipped)) = named("Lebanon").frosts() else { panic!("none shipped") };
        assert_eq!(shipped.at, read.at);
    }
    if let Some(text) = oracles::text("weather/daily/seattle_wa_2012_2015.csv") {
        let days = quality::checked(table::read(&text, None).unwrap().days).0;
        let months = named("Seattle").climate().months;
        let july: Vec<f64> =
            days.known().filter(|(day, _)| day.month() == 7).filter_map(|(_, read)| read.highest).collect();
        let (mean, deviation) = spread(&july);
        assert!(
            (months[6].highest.mean - mean).abs() < 0.0051
                && (months[6].highest.deviation - deviation).abs() < 0.0051
        );
    }
    for station in shipped::stations() {
        assert!(station.climate().years(2, "any").len() >= 730, "{}", station.name);
    }
}
