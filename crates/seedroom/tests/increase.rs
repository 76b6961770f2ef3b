//! Increase beside R and the numeric cases of the seed-lot facts.

#![expect(clippy::unwrap_used, reason = "a test stops at what it cannot work out")]

use proptest::prelude::*;
use record::mass::{Grams, Ounces};
use record::share::Share;
use seedroom::increase::harvest::{
    Crop, FruitKind, Rough, Wanted, counted_seeds, expected_seed, plan, usual_seeds,
};
use seedroom::increase::packets::{Varies, counted, fill, seeds_to_sow};
use seedroom::increase::weight::{WeightVerdict, thousand_seed_weight};
use statistics::binomial::Binomial;

fn share(share: f64) -> Share {
    Share::new(share).unwrap()
}

fn grams(grams: f64) -> Grams {
    Grams::new(grams).unwrap()
}

#[track_caller]
fn near(found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "{found} is not {wanted}");
}

const EIGHT: [f64; 8] = [0.292, 0.301, 0.287, 0.296, 0.305, 0.290, 0.299, 0.294];

/// R 4.2.2: `x <- c(.292,.301,.287,.296,.305,.290,.299,.294)`; `mean(x)*10`,
/// `mean(x)*10 + c(-1,1)*qt(.975,7)*sd(x)/sqrt(8)*10`, `100*sd(x)/mean(x)`.
#[test]
fn weights_agree_with_r() {
    let weight = thousand_seed_weight(&EIGHT.map(grams), 100, share(0.95)).unwrap();
    near(weight.thousand.get(), 2.955, 1e-12);
    near(weight.between.0.get(), 2.905_038_194, 5e-10);
    near(weight.between.1.get(), 3.004_961_806, 5e-10);
    near(weight.variation_percent, 2.022_383_434, 5e-10);
    assert_eq!(weight.verdict, WeightVerdict::Stands);
    let (seeds, (low, high)) = weight.seeds_in(grams(2.955)).unwrap();
    near(seeds, 1000.0, 1e-9);
    assert!(low < seeds && seeds < high);
    let mut uneven = EIGHT.map(grams);
    uneven[0] = grams(0.35);
    assert_eq!(thousand_seed_weight(&uneven, 100, share(0.95)).unwrap().verdict, WeightVerdict::WeighAgain);
    let few = thousand_seed_weight(&EIGHT.map(grams)[..4], 100, share(0.95)).unwrap();
    assert_eq!(few.verdict, WeightVerdict::NotByTheRule);
    assert_eq!(thousand_seed_weight(&[grams(0.3)], 100, share(0.95)), None);
    assert_eq!(thousand_seed_weight(&[Grams::NONE; 8], 100, share(0.95)), None);
}

/// Case 29: 8000 to 12000 seeds an ounce are 282.2 to 423.3 a gram, thousand-seed weight 3.54 to 2.36 g.
#[test]
fn seeds_an_ounce_agree() {
    let ounce = Ounces::new(1.0).and_then(Ounces::to_grams).unwrap();
    for (thousand, an_ounce, a_gram) in [(3.54, 8_000.0, 282.2), (2.36, 12_000.0, 423.3)] {
        let weighings = [grams(thousand / 10.0); 8];
        let weight = thousand_seed_weight(&weighings, 100, share(0.95)).unwrap();
        near(weight.seeds_in(ounce).unwrap().0, an_ounce, 0.002 * an_ounce);
        near(weight.seeds_in(grams(1.0)).unwrap().0, a_gram, 0.002 * a_gram);
    }
}

/// Section 3 of the facts: seeds to sow for at least 12 seedlings, 95 in 100 sure.
#[test]
fn sowings_agree() {
    assert_eq!(seeds_to_sow(12, share(0.75), share(0.95)), Some(20));
    assert_eq!(seeds_to_sow(12, share(0.90), share(0.95)), Some(16));
    assert_eq!(seeds_to_sow(12, Share::NONE, share(0.95)), None);
    assert_eq!(seeds_to_sow(0, share(0.5), share(0.95)), Some(0));
}

/// R: `y <- c(42,55,61,38,70); l <- log(y)`, `exp(mean(l)+var(l)/2+c(-1,0,1)*qt(.9,4)*sd(l)/sqrt(5))`.
#[test]
fn counted_seeds_agree_with_r() {
    let counted = counted_seeds(&[42, 55, 61, 38, 70]).unwrap();
    let (low, high) = counted.ends().unwrap();
    near(low, 44.964_840_44, 5e-8);
    near(counted.middle(), 53.571_070_07, 5e-9);
    near(high, 63.824_524_24, 5e-8);
    assert!(counted_seeds(&[42]).is_none() && counted_seeds(&[42, 0]).is_none());
}

/// R: `a <- log(c(50,150)); b <- log(c(8,20)); z <- qnorm(.9)`, `m <- mean(a)+mean(b)`,
/// `s <- sqrt((diff(a)/2/z)^2+(diff(b)/2/z)^2)`, `exp(m)`, `exp(m-z*s)`, `exp(m+z*s)`.
#[test]
fn rough_quantities_multiply_as_in_r() {
    let seeds = usual_seeds(FruitKind::Slicer).unwrap().times(Rough::between(8.0, 20.0).unwrap());
    let (low, high) = seeds.ends().unwrap();
    near(seeds.middle(), 1_095.445_115, 5e-7);
    near(low, 535.729_735_7, 5e-7);
    near(high, 2_239.935_4, 5e-5);
    for kind in [FruitKind::Cherry, FruitKind::Plum, FruitKind::Beefsteak] {
        assert!(usual_seeds(kind).is_some());
    }
    assert!(Rough::between(0.0, 1.0).is_none() && Rough::between(2.0, 1.0).is_none());
}

/// By hand: 200 packets of 30 and 1000 besides are 7000 seeds; a fruit surely gives 50 (its lower end, 90 in 100), nine of
/// ten are kept: 7000 / 45 = 155.6.
#[test]
fn an_increase_is_planned() {
    let crop = Crop {
        seeds_per_fruit: Rough::between(50.0, 150.0).unwrap(),
        fruits_per_plant: Rough::between(10.0, 10.0).unwrap(),
        kept: share(0.9),
    };
    let wanted = Wanted { packets: 200, seeds_each: 30, seeds_besides: 1000, sure: share(0.9) };
    let planned = plan(wanted, &crop).unwrap();
    assert_eq!((planned.seeds, planned.fruits, planned.plants), (7000, 156, 16));
    assert_eq!(plan(Wanted { sure: Share::ALL, ..wanted }, &crop), None);
    assert_eq!(plan(wanted, &Crop { kept: Share::NONE, ..crop }), None);
    // 16 plants x 10 fruits x 86.6 seeds x 0.9 at 3 g a thousand.
    let (seed, (low, high)) = expected_seed(16, &crop, grams(3.0)).unwrap();
    near(seed.get(), 16.0 * 10.0 * 7500.0_f64.sqrt() * 0.9 * 0.003, 1e-9);
    assert!(low < seed && seed < high);
    assert_eq!(expected_seed(0, &crop, grams(3.0)), None);
}

/// R: `p <- c(31,34,29,33,36,30); cv <- sd(p)/mean(p); (30-.5)/(1-qnorm(.95)*cv)` is 34.10282, and with seeds that vary by
/// 0.15, `n <- 30:45; n[n-qnorm(.95)*.15*sqrt(n) >= 29.5][1]` is 31.
#[test]
fn packets_are_filled_for_more() {
    let varies = counted(&[31, 34, 29, 33, 36, 30]).unwrap();
    let Varies::ByCount { of_a_packet } = varies else { panic!("counted packets vary by count") };
    near(of_a_packet, 0.082_055_265_89, 5e-12);
    assert_eq!(fill(30, varies, share(0.95)).map(|filled| (filled.seeds, filled.over)), Some((35, 5)));
    let by_weight = Varies::ByWeight { of_a_seed: 0.15 };
    assert_eq!(fill(30, by_weight, share(0.95)).map(|filled| filled.seeds), Some(31));
    assert_eq!(fill(30, Varies::ByCount { of_a_packet: 0.9 }, share(0.95)), None);
    assert_eq!(counted(&[30]), None);
}

proptest! {
    /// As few seeds as are told suffice, and one fewer would not.
    #[test]
    fn sowings_are_the_fewest(seedlings in 1..60_u32, germination in 0.3..0.99_f64, sure in 0.5..0.99_f64) {
        let seeds = seeds_to_sow(seedlings, share(germination), share(sure)).unwrap();
        let enough = |trials| Binomial { trials, share: share(germination) }.at_least(seedlings).get();
        prop_assert!(sure <= enough(seeds) && enough(seeds - 1) < sure);
    }

    /// More packets never take fewer plants, and to be surer never fewer either.
    #[test]
    fn plans_grow_with_what_is_asked(packets in 1..2000_u32, low in 5.0..100.0_f64, wide in 1.0..4.0_f64, sure in 0.5..0.95_f64) {
        let crop = Crop {
            seeds_per_fruit: Rough::between(low, low * wide).unwrap(),
            fruits_per_plant: Rough::between(4.0, 4.0 * wide).unwrap(),
            kept: share(0.8),
        };
        let plants = |packets, sure| {
            let wanted = Wanted { packets, seeds_each: 30, seeds_besides: 0, sure: share(sure) };
            plan(wanted, &crop).unwrap().plants
        };
        prop_assert!(plants(packets, sure) <= plants(packets + 1, sure));
        prop_assert!(plants(packets, sure) <= plants(packets, sure + 0.04));
    }
}
