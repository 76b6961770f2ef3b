//! One season of a garden, and whether its flowers set: held to published times and to what is known of places.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

use jiff::ToSpan;
use jiff::civil::{Date, date};
use proptest::prelude::{prop_assert, proptest};
use ripening::climate::shipped;
use ripening::forecast::Seasons;
use ripening::forecast::flowering::flowering;
use ripening::grown::{FLOWER_TO_RIPE, Grown, Hindrance};
use ripening::set;
use ripening::thermal::{Clock, Course, CutOff, Method};
use ripening::weather::{Days, Reading};
use std::collections::BTreeMap;

const CLOCK: Clock =
    Clock { method: Method::Sine(Course::Single, CutOff::Horizontal), base: 10.0, ceiling: Some(30.0) };

fn days(from: Date, each: impl Fn(i64) -> (f64, f64), count: i64) -> Days {
    let readings: BTreeMap<Date, Reading> = (0..count)
        .map(|day| {
            let (lowest, highest) = each(day);
            let reading = Reading { lowest: Some(lowest), highest: Some(highest) };
            (from.checked_add(day.days()).unwrap(), reading)
        })
        .collect();
    Days::new(&readings).unwrap()
}

/// Days from flower to ripe fruit: Adams, Cockshull and Cave 2001, Annals of Botany 88:869-877: 95, 65, 46 and 42 days at
/// 14, 18, 22 and 26 degrees, to within three days.
#[test]
fn fruit_ripens_as_at_four_temperatures() {
    for (celsius, published) in [(14.0, 95.0), (18.0, 65.0), (22.0, 46.0), (26.0, 42.0)] {
        let each = FLOWER_TO_RIPE.clock().day(celsius, celsius, None).unwrap();
        let found = FLOWER_TO_RIPE.degree_days() / each;
        assert!((found - published).abs() <= 3.0, "{celsius}: {found}");
    }
}

/// Hot days after cold nights set: June at Paso Robles, whose nights are below 12.8 degrees on most of its summer's days (62.7
/// of 92 counted in 1986 to 2015), must not be condemned; a desert's July and a north-eastern May must.
#[test]
fn neither_night_nor_day_decides_alone() {
    let (paso_robles, _) = set::share(11.0, 32.0);
    assert!(0.9 < paso_robles, "{paso_robles}");
    let (night_alone, why) = set::share(9.0, 16.0);
    assert!(
        night_alone < 0.2 && why == Some(Hindrance::Cold),
        "a cold night without a warm day: {night_alone}"
    );
    let (desert, why) = set::share(26.0, 41.0);
    assert!(desert < 0.1 && why == Some(Hindrance::Heat), "{desert}");
    assert_eq!(set::share(17.0, 27.0), (1.0, None));
}

/// Weeks of poor set over years of weather: of July weeks at Daggett nearly all, at Paso Robles few.
#[test]
fn deserts_lose_their_summers_and_inland_valleys_keep_them() {
    let july = |name: &str| {
        let station = shipped::stations().iter().find(|one| one.name == name).unwrap();
        let seasons = Seasons::of(&station.climate().years(40, "set"), CLOCK, (5, 20));
        let weeks = flowering(&seasons);
        weeks.iter().skip(7).take(3).map(|week| week.cold + week.heat).sum::<f64>() / 3.0
    };
    let (daggett, paso_robles) = (july("Daggett CA"), july("Paso Robles CA"));
    assert!(0.9 < daggett, "{daggett}");
    assert!(paso_robles < 0.35, "{paso_robles}");
}

/// A season ends the day before a night of -2 degrees, and fruit that flowered in the cold has not set.
#[test]
fn frost_ends_a_season_and_cold_flowers_leave_no_fruit() {
    let from = date(2031, 5, 1);
    let weather = days(
        from,
        |day| {
            if day == 150 {
                (-2.0, 10.0)
            } else if day < 20 {
                (4.0, 12.0)
            } else {
                (16.0, 26.0)
            }
        },
        200,
    );
    let grown = Grown::of(&weather, CLOCK, from).unwrap();
    assert_eq!((grown.killed, grown.heat.len()), (Some(150), 150));
    // Fruit of the first weeks was in flower indoors; then comes what flowered in the cold, then what flowered in warmth.
    assert!((grown.set.first().unwrap() - 1.0).abs() < 1e-12);
    // 20 days at 2 degree-days and then 15 each: the 758th falls on day 67; flowers of day 10 are ripe with it.
    let of_the_cold = grown.set.get(68).unwrap();
    assert!(*of_the_cold < 0.01, "{of_the_cold}");
    assert!((grown.set.get(100).unwrap() - 1.0).abs() < 1e-12);
    assert_eq!(grown.heat_on(date(2031, 12, 24)), grown.heat.last().copied(), "nothing ripens after frost");
    assert_eq!(grown.heat_on(date(2031, 4, 30)), None);
}

/// A day that nobody read ends what is known, unless frost had ended the season before it.
#[test]
fn unknown_days_leave_a_season_untold() {
    let from = date(2031, 5, 1);
    let whole = days(from, |_| (16.0, 26.0), 120);
    assert_eq!(Grown::of(&whole, CLOCK, from), None, "it breaks off in summer");
    let frost = days(from, |day| if day == 100 { (-5.0, 5.0) } else { (16.0, 26.0) }, 120);
    assert!(Grown::of(&frost, CLOCK, from).is_some(), "frost came before it broke off");
    assert_eq!(Grown::of(&frost, CLOCK, date(2030, 5, 1)), None);
}

proptest! {
    /// Shares are shares, whatever the weather.
    #[test]
    fn a_share_of_flowers_is_a_share(lowest in -40.0..50.0_f64, range in 0.0..40.0_f64) {
        let (share, why) = set::share(lowest, lowest + range);
        prop_assert!((0.0..=1.0).contains(&share));
        prop_assert!(why.is_some() == (share < 1.0), "{share} {why:?}");
    }
}
