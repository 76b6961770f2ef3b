//! How long a list of 10,000 varieties takes: the nearest to one of them, and all its gaps and crowds.

#![expect(clippy::unwrap_used, reason = "a bench that cannot begin has nothing to measure")]

use assortment::gaps::cells;
use assortment::kinds::{Kinds, Mix};
use assortment::profile::{Profile, Words};
use assortment::standins::Assortment;
use record::mass::Grams;

const VARIETIES: usize = 10_000;

fn main() {
    divan::main();
}

fn names(count: usize) -> Kinds {
    Kinds::without_order((0..count).map(|place| format!("name {place}")).collect())
}

fn words() -> Words {
    Words { habits: names(5), classes: names(9), colours: names(9), patterns: names(4) }
}

/// Numbers from -1 to 1 that look like chance: multiples of the golden section, less their whole part.
struct Chance(u32);

impl Chance {
    fn next(&mut self) -> f64 {
        self.0 += 1;
        2.0 * (f64::from(self.0) * 0.618_033_988_749_895).fract() - 1.0
    }
}

fn list() -> Vec<Profile> {
    let mut chance = Chance(0);
    let mut mix = |count: usize| {
        let raw: Vec<f64> = (0..count).map(|_| (5.0 * chance.next()).exp()).collect();
        let whole: f64 = raw.iter().sum();
        Mix::new(raw.into_iter().map(|share| share / whole).collect())
    };
    let mut profiles: Vec<Profile> = (0..VARIETIES)
        .map(|_| Profile {
            habit: mix(5),
            class: mix(9),
            colour: mix(9),
            pattern: mix(4),
            ..Profile::default()
        })
        .collect();
    for (place, profile) in profiles.iter_mut().enumerate() {
        profile.name = format!("Variety {place}");
        let mut number = || chance.next();
        profile.weight = Grams::new((4.0 + number()).exp());
        profile.shape = Some((0.3 * number()).exp());
        profile.locules = Some((1.0 + 0.4 * number()).exp());
        profile.days_to_ripe = Some(75.0 + 8.0 * number());
    }
    profiles
}

#[divan::bench]
fn nearest_of_ten_thousand(bencher: divan::Bencher<'_, '_>) {
    let (profiles, words) = (list(), words());
    let assortment = Assortment::new(&profiles, &words).unwrap();
    bencher.bench_local(|| assortment.nearest(divan::black_box(17), 8));
}

#[divan::bench]
fn ready_to_be_asked(bencher: divan::Bencher<'_, '_>) {
    let (profiles, words) = (list(), words());
    bencher.bench_local(|| Assortment::new(&profiles, &words).unwrap().between(1, 2));
}

#[divan::bench]
fn gaps_and_crowds(bencher: divan::Bencher<'_, '_>) {
    let (profiles, words) = (list(), words());
    let assortment = Assortment::new(&profiles, &words).unwrap();
    bencher.bench_local(|| {
        let cells = cells(&profiles, &words);
        (cells.gaps(), cells.crowds(&profiles, &assortment))
    });
}
