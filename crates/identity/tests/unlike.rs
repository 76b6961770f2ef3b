//! Plants and plots that do not fit: found where they are few, told where they are many.

mod fruit;

use fruit::{Fruits, told};
use identity::spread::Spread;
use identity::sums::FruitSums;
use identity::unlike::unlike;
use record::language::Units;
use statistics::draws::{normal, stream};

/// Three seasons of a small cherry, in the third of which the plot was really sown with a slicer.
fn mislabelled() -> FruitSums {
    let cherry = Fruits::weighing(14.0).shape(1.0).neck(0.87);
    let slicer = Fruits::weighing(190.0).shape(0.85);
    let mut sums = cherry.grown(2, 4, 6);
    sums.merge(&fruit::sums(
        (0..3)
            .flat_map(|fruit| (0..2).map(move |plant| slicer.sample(7, plant, 1.0 + 0.1 * f64::from(fruit))))
            .collect::<Vec<_>>()
            .iter(),
    ));
    sums
}

#[test]
fn a_mislabelled_plot_is_found_as_a_plot() {
    let found = unlike(&mislabelled(), &Spread::beforehand(), Units::METRIC);
    let [plot] = found.as_slice() else { panic!("one plot: {found:?}") };
    assert_eq!((plot.key.season.year(), plot.key.plant, plot.fruits), (2037, None, 6));
    assert!(
        plot.words.starts_with("weight 208 g (7.4 oz) where the variety has 14 g (0.49 oz)"),
        "{}",
        plot.words
    );
}

#[test]
fn it_does_not_move_the_call() {
    let called = told(&mislabelled());
    assert_eq!(called.verdict.unwrap().as_str(), "cherry");
    assert_eq!(called.used.set_aside, 6);
    assert_eq!(called.used.fruits, 48);
    assert_eq!(called.used.seasons, 2);
}

/// One plant of twelve differs in shape alone: an off-type, told as a plant.
#[test]
fn an_off_type_is_found_as_a_plant() {
    let mut sums = Fruits::weighing(60.0).shape(1.5).grown(1, 11, 5);
    sums.merge(&fruit::sums(
        (0..5).map(|_| Fruits::weighing(60.0).shape(1.0).sample(0, 40, 1.0)).collect::<Vec<_>>().iter(),
    ));
    let found = unlike(&sums, &Spread::beforehand(), Units::METRIC);
    let [plant] = found.as_slice() else { panic!("one plant: {found:?}") };
    assert_eq!(plant.key.plant.map(|number| number.0), Some(40));
    assert!(plant.words.starts_with("length over width 1.00 where the variety has 1.50"), "{}", plant.words);
}

/// Half of one kind and half of another: no call may choose between them by leaving one out.
#[test]
fn two_kinds_under_one_name_are_not_set_aside() {
    let mut sums = Fruits::weighing(14.0).shape(1.0).grown(1, 4, 6);
    let others: Vec<_> = (10..14)
        .flat_map(|plant| (0..6).map(move |_| Fruits::weighing(190.0).shape(1.0).sample(0, plant, 1.0)))
        .collect();
    sums.merge(&fruit::sums(others.iter()));
    let called = told(&sums);
    assert_eq!(called.used.set_aside, 0);
    assert!(called.used.fruits == 48);
}

/// Varieties that are what they are, spread as plants and seasons spread: hardly any plant is told.
#[test]
fn true_varieties_are_seldom_doubted() {
    let mut chance = stream(&["true varieties"]);
    let mut told = 0;
    let varieties = 300;
    for _ in 0..varieties {
        let mut samples = Vec::new();
        for season in 0..2 {
            let in_season = 0.19 * normal(&mut chance);
            for plant in 0..4 {
                let of_plant = in_season + 0.21 * normal(&mut chance);
                for _ in 0..5 {
                    let factor = (of_plant + 0.31 * normal(&mut chance)).exp();
                    samples.push(Fruits::weighing(80.0).sample(season, plant, factor));
                }
            }
        }
        told += unlike(&fruit::sums(samples.iter()), &Spread::beforehand(), Units::METRIC).len();
    }
    // 2400 plants at one in 16 000 each; ten would be a rule gone wrong.
    assert!(told < 10, "{told} plants of {varieties} true varieties");
}
