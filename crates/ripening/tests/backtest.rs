//! Forecasts of made houses whose truth is known: each season left out in turn, forecast with its own weather from what the
//! others say, and held to what was picked. What is printed stands in docs/validation.md.

#![expect(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]
#![expect(clippy::print_stdout, reason = "its figures are copied into the documentation")]

use jiff::ToSpan;
use jiff::civil::{Date, date};
use rand_chacha::ChaCha8Rng;
use record::mass::Grams;
use record::season::Season;
use ripening::climate::shipped;
use ripening::crop::{Belief, Crop, Kind, PlotCrop, Shape, come, of_plot};
use ripening::forecast::held::{Came, Held};
use ripening::forecast::{Drawn, Draws, Forecast, Seasons};
use ripening::grown::Grown;
use ripening::picked::{Picked, Taken};
use ripening::thermal::{Clock, Course, CutOff, Method};
use ripening::truss::{Outline, Trusses};
use statistics::draws::{normal, stream};
use statistics::normal::chance_below;

const HOUSES: usize = 200;
const VARIETIES: usize = 8;
const SEASONS: i16 = 3;
const PLOTS: usize = 2;
/// Plants of a plot.
const PLANTS: f64 = 6.0;
const DRAWS: usize = 256;
/// A made fruit, in kilograms.
const FRUIT: f64 = 0.12;
const CLOCK: Clock =
    Clock { method: Method::Sine(Course::Single, CutOff::Horizontal), base: 10.0, ceiling: Some(30.0) };

/// One plot as it was, with what it gave.
struct Plot {
    /// Days from transplanting on which the first fruit of all was ripe.
    first: f64,
    /// Kilograms a plant.
    kilograms: f64,
    crop: Option<PlotCrop>,
}

/// So many fruits as so many are expected of.
fn poisson(expected: f64, draws: &mut ChaCha8Rng) -> f64 {
    let (mut fruits, mut left) = (0.0, (-expected).exp());
    let mut chance = left;
    let among = chance_below(normal(draws));
    while chance < among && fruits < 1000.0 {
        fruits += 1.0;
        left *= expected / fruits;
        chance += left;
    }
    fruits
}

/// Fruit of a plot, ripening one by one, picked every week.
fn plot(
    shape: Shape,
    season: Season,
    grown: &Grown,
    truth: [f64; 3],
    draws: &mut ChaCha8Rng,
) -> Option<Plot> {
    let [middle, spread, kilograms] = truth;
    let (mut before, mut waiting, mut picks, mut first) = (0.0, 0.0, Vec::new(), None);
    for (day, (heat, set)) in grown.heat.iter().zip(&grown.set).enumerate() {
        let now = come(shape, middle, spread, *heat);
        let fruits = poisson(PLANTS * kilograms / FRUIT * set * (now - before), draws);
        waiting += fruits;
        before = now;
        if 0.0 < fruits && first.is_none() {
            first = Some(day as f64);
        }
        if day % 7 == 6 {
            let on: Date = grown.out.checked_add(i64::try_from(day).unwrap().days()).unwrap();
            picks.push(Taken { on, amount: waiting });
            waiting = 0.0;
        }
    }
    let picked = Picked::new(grown.out, picks)?;
    let kilograms = FRUIT * picked.total() / PLANTS;
    let crop = of_plot(shape, season, &picked, grown, kilograms);
    Some(Plot { first: first?, kilograms, crop })
}

/// One house: its varieties grown in every season, and each season forecast from the others.
fn house(number: usize, shape: Shape, held: &mut Held) {
    let mut draws = stream(&["house", &number.to_string()]);
    let station = &shipped::stations()[number % 8];
    // Two deserts aside, whose summers let nothing set.
    let climate =
        if ["Daggett CA", "Merced CA"].contains(&station.name) { &shipped::stations()[0] } else { station };
    let weather = climate.climate().years(5, &format!("house {number}"));
    let grown: Vec<Grown> =
        (0..SEASONS).filter_map(|year| Grown::of(&weather, CLOCK, date(2001 + year, 5, 25))).collect();
    let grown: Vec<Grown> = grown.into_iter().filter(|grown| 80 < grown.heat.len()).collect();
    let seasons: Vec<[f64; 2]> =
        grown.iter().map(|_| [0.05, 0.35].map(|by| by * normal(&mut draws))).collect();
    let varieties: Vec<Vec<Vec<Plot>>> = (0..VARIETIES)
        .map(|_| {
            let (middle, kilograms) = (6.75 + 0.1 * normal(&mut draws), 0.35 * normal(&mut draws));
            let spread = 0.12 * (0.15 * normal(&mut draws)).exp();
            let usual = if shape == Shape::Hump { 4.0_f64 } else { 1.0 };
            let season = |(grown, moved): (&Grown, &[f64; 2])| {
                let own = [0.033, 0.19].map(|by| by * normal(&mut draws));
                let plots = (0..PLOTS).filter_map(|_| {
                    let plot_moved = [0.04, 0.2].map(|by| by * normal(&mut draws));
                    let truth = [
                        middle + moved[0] + own[0] + plot_moved[0],
                        spread,
                        usual * (kilograms + moved[1] + own[1] + plot_moved[1]).exp(),
                    ];
                    plot(shape, Season::new(grown.out.year()).unwrap(), grown, truth, &mut draws)
                });
                plots.collect::<Vec<_>>()
            };
            grown.iter().zip(&seasons).map(season).collect()
        })
        .collect();
    let trusses = Trusses::usual(Grams::new(1000.0 * FRUIT).unwrap(), Outline::Round);
    for left_out in 0..grown.len() {
        let crops: Vec<Crop> = varieties
            .iter()
            .map(|seasons| Crop { shape, trusses, plots: plots_but(seasons, left_out) })
            .collect();
        let Some(kind) = Kind::of(shape, &crops.iter().collect::<Vec<_>>()) else { continue };
        let mut one = Seasons::new(CLOCK);
        one.add(grown[left_out].out.year(), grown[left_out].clone());
        for (crop, plots) in crops.iter().zip(&varieties) {
            let belief = Belief::of(crop, &kind).unwrap();
            let forecast =
                Forecast::of(&one, &Draws::of(&belief, DRAWS, Drawn::All, FRUIT / PLANTS)).unwrap();
            for plot in &plots[left_out] {
                held.add(&forecast, &Came { kilograms: plot.kilograms, first: Some(plot.first) });
            }
        }
    }
}

fn plots_but(seasons: &[Vec<Plot>], left_out: usize) -> Vec<PlotCrop> {
    let others = seasons.iter().enumerate().filter(|(place, _)| *place != left_out);
    others.flat_map(|(_, plots)| plots.iter().filter_map(|plot| plot.crop)).collect()
}

/// Of the ranges told for 80 in 100, 75 to 88 hold, of the harvest and of the first ripe fruit: the houses are made with the
/// spreads that the model takes beforehand. Middling forecasts are off by less than 5 in 100, and less than a day.
#[track_caller]
fn agrees(shape: Shape) {
    let mut held = Held::default();
    (0..HOUSES).for_each(|number| house(number, shape, &mut held));
    let (within, first) = (held.within().unwrap(), held.first_within().unwrap());
    let (bias, late) = (held.came_for_one().unwrap().ln(), held.days_late().unwrap());
    println!("{shape:?}: {} plots of {HOUSES} houses ({SEASONS} seasons each)", held.plots());
    println!(
        "  kilograms: {:.1} in 100 within the 80; middling off by {:+.1} in 100",
        100.0 * within,
        100.0 * bias
    );
    println!("  first fruit: {:.1} in 100 within the 80; {late:+.1} days late", 100.0 * first);
    assert!((0.75..=0.88).contains(&within), "{within}");
    assert!((0.75..=0.88).contains(&first), "{first}");
    assert!(bias.abs() < 0.05, "{bias}");
    assert!(late.abs() < 1.0, "{late}");
}

#[test]
fn a_left_out_season_of_humps_is_forecast_from_the_others() {
    agrees(Shape::Hump);
}

#[test]
fn a_left_out_season_of_streams_is_forecast_from_the_others() {
    agrees(Shape::Stream);
}
