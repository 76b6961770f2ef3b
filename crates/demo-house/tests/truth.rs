//! The truth is what it claims to be, and the notes were drawn round it.
#![expect(clippy::unwrap_used, reason = "a house that cannot be grown is a failed test")]

use demo_house::chance::DEMO_SEED;
use demo_house::class::{FruitClass, common_practice};
use demo_house::faults::{Fate, Slips};
use demo_house::files;
use demo_house::fruit::BenchFruit;
use demo_house::house::{House, grow};
use demo_house::roll::{Build, Habit, Mark, Missing};
use demo_house::truth::{TrueVariety, WEIGHT_OVER_ELLIPSOID};
use demo_house::vine::Stem;
use std::collections::{BTreeMap, HashSet};
use std::sync::LazyLock;

static HOUSE: LazyLock<House> = LazyLock::new(|| grow(DEMO_SEED).unwrap());

/// Fruit from plants that are what the label says, of one variety.
fn true_fruit(variety: &TrueVariety) -> impl Iterator<Item = &'static BenchFruit> {
    let name = variety.entry.name.clone();
    let plots = HOUSE
        .plots
        .iter()
        .filter(move |notes| notes.plot.label_of(&HOUSE.truth).is_some_and(|label| label.entry.name == name));
    plots.flat_map(|notes| &notes.fruits).filter(|fruit| !fruit.stranger)
}

#[test]
fn a_hundred_and_thirty_varieties_have_names_of_their_own() {
    assert_eq!(HOUSE.truth.len(), 130);
    let mut seen = HashSet::new();
    for variety in &HOUSE.truth {
        let names = [&variety.entry.name].into_iter().chain(&variety.entry.aliases);
        for name in names {
            assert!(seen.insert(name.to_lowercase()), "{name} stands twice");
        }
    }
}

#[test]
fn every_class_habit_and_build_is_there() {
    let count = |is: &dyn Fn(&TrueVariety) -> bool| HOUSE.truth.iter().filter(|variety| is(variety)).count();
    for class in FruitClass::ALL {
        assert!(3 <= count(&|variety| variety.entry.class == class), "{class:?}");
    }
    for habit in [Habit::Determinate, Habit::SemiDeterminate, Habit::Indeterminate] {
        assert!(15 <= count(&|variety| variety.entry.habit == habit), "{habit:?}");
    }
    assert!(5 <= count(&|variety| variety.entry.build == Build::Dwarf));
    assert!(3 <= count(&|variety| variety.entry.build == Build::MicroDwarf));
    assert!(10 <= count(&|variety| variety.entry.edge.is_some()));
    assert!(10 <= count(&|variety| variety.entry.false_claim.is_some()));
}

/// The class that the roll gives is the class that the trade's rule of thumb gives to the typical fruit.
#[test]
fn the_class_follows_from_the_typical_fruit() {
    for variety in &HOUSE.truth {
        assert_eq!(common_practice(&variety.shape), variety.entry.class, "{}", variety.entry.name);
    }
}

/// log weight of sampled fruit scatters about the truth by no more than seasons, plants and fruits do.
#[test]
fn fruit_weighs_what_the_truth_says() {
    for variety in &HOUSE.truth {
        let weights: Vec<f64> =
            true_fruit(variety).filter_map(|fruit| fruit.weight).map(|weight| weight.get().ln()).collect();
        if weights.is_empty() {
            continue;
        }
        let mean = weights.iter().sum::<f64>() / weights.len() as f64;
        let off = mean - variety.shape.weight.get().ln();
        assert!(off.abs() < 0.35, "{} is off by {off:.2}", variety.entry.name);
    }
}

/// Facts, section 5: weight is 1.06 times the ellipsoid of length and width, within 5 %.
#[test]
fn weight_keeps_to_the_ellipsoid() {
    let solid = HOUSE.truth.iter().filter(|variety| variety.entry.mark != Some(Mark::Hollow));
    let residuals: Vec<f64> = solid.flat_map(true_fruit).filter_map(residual).collect();
    let mean = residuals.iter().sum::<f64>() / residuals.len() as f64;
    let variance = residuals.iter().map(|one| (one - mean).powi(2)).sum::<f64>() / residuals.len() as f64;
    assert!(mean.abs() < 0.005, "mean {mean}");
    assert!((variance.sqrt() - 0.05).abs() < 0.005, "deviation {}", variance.sqrt());
}

fn residual(fruit: &BenchFruit) -> Option<f64> {
    let (weight, length, width) = (fruit.weight?.get(), fruit.length?.get(), fruit.width?.get());
    let ellipsoid = WEIGHT_OVER_ELLIPSOID * std::f64::consts::FRAC_PI_6 * width * width * length / 1000.0;
    Some((weight / ellipsoid).ln())
}

#[test]
fn stems_end_as_their_habit_says_or_frost_came_first() {
    let mut censored = 0;
    for notes in HOUSE.plots.iter().filter(|notes| !notes.plot.is_mislabelled()) {
        let habit = notes.plot.label_of(&HOUSE.truth).unwrap().entry.habit;
        let rogues: Vec<u32> =
            notes.plot.plants.iter().filter(|plant| plant.off_type).map(|plant| plant.number).collect();
        let last = notes.walks.iter().filter(|walk| walk.plant.is_some_and(|plant| !rogues.contains(&plant)));
        for stem in last.filter_map(|walk| walk.stem) {
            match (habit, stem) {
                (Habit::Indeterminate, Stem::Ended(_)) => panic!("{} ended", notes.plot.label),
                (Habit::Determinate, Stem::Ended(trusses)) => assert!((2..=8).contains(&trusses)),
                (Habit::SemiDeterminate, Stem::Ended(trusses)) => assert!((5..=14).contains(&trusses)),
                (Habit::SemiDeterminate, Stem::Growing(_)) if notes.plot.grow_out.year == 2025 => {
                    censored += 1
                }
                _ => {}
            }
        }
    }
    assert!(20 <= censored, "frost censored {censored} semi-determinate stems");
}

#[test]
fn what_was_never_done_is_missing() {
    for variety in &HOUSE.truth {
        let mut fruit = true_fruit(variety);
        match variety.entry.missing {
            Some(Missing::Unweighed) => {
                assert!(fruit.all(|fruit| fruit.weight.is_none() && fruit.length.is_none()))
            }
            Some(Missing::Uncut) => assert!(fruit.all(|fruit| fruit.locules.is_none())),
            Some(Missing::NeverGrown) => assert!(fruit.next().is_none()),
            None => assert!(fruit.any(|fruit| fruit.weight.is_some()), "{}", variety.entry.name),
        }
    }
}

#[test]
fn plots_are_mislabelled_and_off_types_stand() {
    let mislabelled = HOUSE.plots.iter().filter(|notes| notes.plot.is_mislabelled()).count();
    assert_eq!(mislabelled, 3);
    let off_types = HOUSE.plots.iter().flat_map(|notes| &notes.plot.plants).filter(|plant| plant.off_type);
    assert!(8 <= off_types.count());
}

/// Every slip stands where `faults.csv` says: the cell of that row holds what was written.
#[test]
fn slips_stand_where_they_are_said_to() {
    let mut slips = Slips::default();
    let sheaves = files::all(&HOUSE, &mut slips);
    let pages: BTreeMap<(&str, &str), _> = sheaves
        .iter()
        .flat_map(|sheaf| {
            sheaf.pages.iter().map(move |page| ((sheaf.path.as_str(), page.name.as_str()), page))
        })
        .collect();
    for slip in slips.made().iter().filter(|slip| slip.spot.row != 0) {
        let page = pages[&(slip.spot.file.as_str(), slip.spot.sheet.as_str())];
        let row = &page.rows[slip.spot.row as usize - 1];
        let shown: Vec<String> = row.iter().map(demo_house::paper::delimited::shown).collect();
        let named = slip.fate != Fate::Misleading || slip.reason == "false claim";
        assert!(!named || slip.written.is_empty() || shown.contains(&slip.written), "{slip:?} {shown:?}");
    }
}
