//! What is believed of a variety's crop before and after its picks: by its kind, by the size of its fruit, and only by the
//! clock that it was counted by.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

use jiff::civil::date;
use proptest::prelude::{any, prop_assert, proptest};
use record::mass::Grams;
use record::season::Season;
use ripening::climate::shipped;
use ripening::crop::{Belief, Crop, Kind, PlotCrop, Shape};
use ripening::forecast::held::{Came, Held};
use ripening::forecast::{Drawn, Draws, Forecast, Seasons, weekly};
use ripening::grown::Grown;
use ripening::picked::{Picked, Taken};
use ripening::thermal::{Clock, Course, CutOff, Method};
use ripening::truss::{Outline, Trusses};

const CLOCK: Clock =
    Clock { method: Method::Sine(Course::Single, CutOff::Horizontal), base: 10.0, ceiling: Some(30.0) };

fn trusses(grams: f64, outline: Outline) -> Trusses {
    Trusses::usual(Grams::new(grams).unwrap(), outline)
}

fn plot(clock: Clock, year: i16, kilograms: f64) -> PlotCrop {
    PlotCrop { season: Season::new(year).unwrap(), clock, middle: 6.7, spread: 0.14, kilograms }
}

fn crop(shape: Shape, grams: f64, plots: Vec<PlotCrop>) -> Crop {
    Crop { shape, trusses: trusses(grams, Outline::Round), plots }
}

/// Trusses picked a plant and week, greenhouse records of 12 plants a type, 20 March to 31 May 2019 (our figures from a public
/// file): big fruit of 117 g 0.75, long ones of 110 g 0.86, small ones of 45 g 1.09, cherries of 18 g 1.33.
#[test]
fn trusses_are_those_that_were_counted() {
    use Outline::{Long, Round};
    let counted = [(117.0, Round, 0.75), (110.0, Long, 0.86), (45.0, Round, 1.09), (18.0, Round, 1.33)];
    for (grams, outline, published) in counted {
        let found = trusses(grams, outline).a_week();
        assert!((found - published).abs() < 0.005, "{grams} g: {found}");
    }
    // Nothing smaller or bigger was counted.
    assert_eq!(trusses(2.0, Round), trusses(18.0, Round));
    assert_eq!(trusses(800.0, Round), trusses(117.0, Round));
}

/// Of a house that has only picked big fruit, a cherry is believed to bring as many more trusses as were counted, 1.33 for 0.75;
/// and so it is of a garden's own records (gardenR, 2020 and 2021, our sums): a cherry and a grape gave 14.1 kg a plant
/// (13.5 and 14.7), six slicers and twelve beefsteaks 7.6 (7.1 and 8.1), which is 1.9 times as much.
#[test]
fn a_stream_of_small_fruit_is_quicker_until_picks_say_otherwise() {
    let big: Vec<Crop> = [1.0, 1.2, 0.9]
        .map(|kilograms| {
            crop(Shape::Stream, 117.0, vec![plot(CLOCK, 2029, kilograms), plot(CLOCK, 2030, kilograms)])
        })
        .into();
    let kind = Kind::of(Shape::Stream, &big.iter().collect::<Vec<_>>()).unwrap();
    let believed = |own: &Crop| Belief::of(own, &kind).unwrap().kilograms.mean.exp();
    let (cherry, other) = (crop(Shape::Stream, 18.0, Vec::new()), crop(Shape::Stream, 117.0, Vec::new()));
    let ratio = believed(&cherry) / believed(&other);
    assert!((ratio - 1.33 / 0.75).abs() < 1e-9, "{ratio}");
    let garden = (13.5_f64 * 14.7).sqrt() / (7.1_f64.powi(6) * 8.1_f64.powi(12)).powf(1.0 / 18.0);
    assert!((ratio / garden).ln().abs() < 0.1, "{ratio} of the rates, {garden} of the garden");
    // Its own poor plots draw it down, below what is usual.
    let picked = crop(Shape::Stream, 18.0, (2027..2031).map(|year| plot(CLOCK, year, 0.5)).collect());
    let all: Vec<&Crop> = big.iter().chain([&picked]).collect();
    let kind = Kind::of(Shape::Stream, &all).unwrap();
    let [before, after] = [&cherry, &picked].map(|own| Belief::of(own, &kind).unwrap().kilograms.mean.exp());
    assert!((0.5..before).contains(&after), "{after} of {before}");
}

/// A hump is told by its whole crop: the size of its fruit says nothing of it.
#[test]
fn one_crop_goes_by_no_trusses() {
    let own: Vec<Crop> =
        [2.0, 3.0].map(|kilograms| crop(Shape::Hump, 117.0, vec![plot(CLOCK, 2030, kilograms)])).into();
    let kind = Kind::of(Shape::Hump, &own.iter().collect::<Vec<_>>()).unwrap();
    let [small, big] =
        [18.0, 117.0].map(|grams| Belief::of(&crop(Shape::Hump, grams, Vec::new()), &kind).unwrap());
    assert_eq!(small, big);
    assert_eq!(Belief::of(&crop(Shape::Stream, 18.0, Vec::new()), &kind), None, "another kind");
}

/// Crops counted by one clock are put through no season of another, believed beside no plots of another, and added to none.
#[test]
fn another_clock_is_refused() {
    let other = Clock { base: 8.0, ..CLOCK };
    let own = crop(Shape::Hump, 100.0, vec![plot(CLOCK, 2029, 4.0), plot(CLOCK, 2030, 4.0)]);
    let strange = crop(Shape::Hump, 100.0, vec![plot(other, 2030, 4.0)]);
    let kind = Kind::of(Shape::Hump, &[&own]).unwrap();
    assert_eq!(Kind::of(Shape::Hump, &[&own, &strange]), None);
    assert_eq!(Belief::of(&strange, &kind), None);
    let draws = Draws::of(&Belief::of(&own, &kind).unwrap(), 16, Drawn::All, 0.1);
    let days = shipped::stations()[0].climate().years(3, "another clock");
    let (same, another) = (Seasons::of(&days, CLOCK, (5, 20)), Seasons::of(&days, other, (5, 20)));
    assert!(Forecast::of(&same, &draws).is_some() && weekly(&same, &draws).is_some());
    assert!(Forecast::of(&another, &draws).is_none() && weekly(&another, &draws).is_none());
    let mut seasons = Seasons::new(CLOCK);
    seasons.add(2001, Grown::of(&days, other, date(2001, 5, 20)).unwrap());
    assert_eq!((seasons.len(), seasons.left_out.as_slice()), (0, [2001].as_slice()));
    let grown = [
        Grown::of(&days, CLOCK, date(2001, 5, 20)).unwrap(),
        Grown::of(&days, other, date(2001, 5, 20)).unwrap(),
    ];
    assert_eq!(Grown::usual(&grown, date(2002, 5, 20)), None);
}

/// Two plots within, one far over, counted by hand: 2, 4 and 16 kg where 1 to 8 were told and 4 middling; geometric mean of
/// a half, one and four is the cube root of two.
#[test]
fn what_came_is_held_to_what_was_told() {
    let forecast = Forecast {
        fruit: 0.1,
        weeks: Vec::new(),
        chance: Vec::new(),
        total: [1.0, 4.0, 8.0],
        first: [Some(60), Some(70), None],
        last: [None; 3],
        finished: None,
        nothing: 0.0,
    };
    let fruits = forecast.fruits(forecast.total);
    assert!((fruits[1] - 40.0).abs() < 1e-9, "4 kg of 100 g each: {fruits:?}");
    let mut held = Held::default();
    for (kilograms, first) in [(2.0, Some(59.5)), (4.0, Some(59.0)), (16.0, None)] {
        held.add(&forecast, &Came { kilograms, first });
    }
    held.add(&forecast, &Came { kilograms: 0.0, first: None });
    assert_eq!((held.plots(), held.firsts()), (3, 2));
    let near = |got: Option<f64>, wanted: f64| (got.unwrap() - wanted).abs() < 1e-12;
    assert!(near(held.within(), 2.0 / 3.0) && near(held.came_for_one(), 2.0_f64.cbrt()));
    assert!(near(held.first_within(), 0.5) && near(held.days_late(), -10.75));
    assert_eq!(Held::default().within(), None, "nothing was held to anything");
    let twice = held.and(held);
    assert!(twice.plots() == 6 && near(twice.within(), 2.0 / 3.0));
}

/// A first pick after a wait: picked on days 70, 77, 84 and 98, usually a week apart, its fruit ripened about day 66.5.
#[test]
fn a_first_pick_waited() {
    let out = date(2031, 5, 1);
    let taken = [70i64, 77, 84, 98]
        .map(|day| Taken { on: out.checked_add(jiff::Span::new().days(day)).unwrap(), amount: 1.0 });
    let picked = Picked::new(out, taken).unwrap();
    assert_eq!(Came::of(&picked, 2.0), Came { kilograms: 2.0, first: Some(66.5) });
}

proptest! {
    /// Heavier fruit never comes in more trusses.
    #[test]
    fn heavier_fruit_never_comes_in_more_trusses(grams in 0.5..1500.0_f64, more in 0.0..500.0_f64, long in any::<bool>()) {
        let outline = if long { Outline::Long } else { Outline::Round };
        let (light, heavy) = (trusses(grams, outline).a_week(), trusses(grams + more, outline).a_week());
        prop_assert!(heavy <= light && (0.75..=1.33).contains(&light), "{light} {heavy}");
    }
}
