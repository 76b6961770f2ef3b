//! What buyers grow tomatoes for, with the fruit that each amount of it takes.

use advice::by_itself::asked;
use advice::jars::Jar;
use advice::kitchen::PutUp;
use advice::solids::Composition;
use publish::pages::gardens::told::{Amount, MOST_DAYS, Purpose, Used};
use record::language::{Units, counted};
use record::mass::{GRAMS_PER_POUND, Grams};
use record::purpose::Purpose as Use;

/// Canner loads that can be asked for. A choice of the pages.
const LOADS: [u32; 5] = [1, 2, 3, 4, 6];
/// Fruit a week that can be asked for, in pounds and in kilograms. A choice of the pages.
const A_WEEK: [f64; 5] = [1.0, 2.0, 3.0, 5.0, 10.0];
/// Fruit to dry or freeze that can be asked for, in pounds and in kilograms. A choice of the pages.
const IN_ALL: [f64; 5] = [10.0, 20.0, 40.0, 60.0, 100.0];
/// Grams in half a kilogram: the metric step beside a pound.
const HALF_KILOGRAM: f64 = 500.0;

/// Everything that can be asked for.
pub(super) fn all(units: Units) -> Vec<Purpose> {
    let jarred = [
        (PutUp::Crushed, Jar::Quart, Use::Canning),
        (PutUp::InWater, Jar::Quart, Use::Canning),
        (PutUp::Juice, Jar::Quart, Use::Juice),
        (PutUp::ThinSauce, Jar::Pint, Use::Sauce),
        (PutUp::ThickSauce, Jar::Pint, Use::Sauce),
        (PutUp::Salsa, Jar::Pint, Use::Sauce),
    ];
    let fresh = [
        ("the table, any tomato", None),
        ("slices", Some(Use::Slicing)),
        ("salads", Some(Use::Salads)),
        ("eating out of hand", Some(Use::FreshEating)),
    ];
    let whole = [("drying", Some(Use::Drying)), ("freezing", None)];
    let fresh = fresh.into_iter().map(|(words, suits)| Purpose {
        words: words.to_owned(),
        suits: suits.map(|suits| suits.name().to_owned()),
        used: Used::EachWeek,
        amounts: A_WEEK.map(|steps| weighed(steps, units, " a week")).to_vec(),
    });
    let whole = whole.into_iter().map(|(words, suits)| Purpose {
        words: words.to_owned(),
        suits: suits.map(|suits| suits.name().to_owned()),
        used: Used::WithoutJars,
        amounts: IN_ALL.map(|steps| weighed(steps, units, "")).to_vec(),
    });
    fresh.chain(jarred.into_iter().map(jars)).chain(whole).collect()
}

/// So many pounds or half kilograms, which a kitchen day takes whole.
fn weighed(steps: f64, units: Units, after: &str) -> Amount {
    let grams = steps * units.either(GRAMS_PER_POUND, HALF_KILOGRAM);
    let (number, unit) = units.either((steps, "lb"), (steps / 2.0, "kg"));
    let tens = Grams::new(grams).map_or(0, asked);
    Amount { words: format!("{number} {unit}{after}"), tens, a_day: [tens; MOST_DAYS] }
}

/// Jars by the full canner load, and the loads shared out over the kitchen days.
fn jars((put_up, jar, suits): (PutUp, Jar, Use)) -> Purpose {
    let amount = |loads: &u32| -> Option<Amount> {
        let jars = jar.load() * loads;
        let fruit = put_up.fruit_for(jar, jars, Composition::expected(&[], &[])?)?;
        let load = put_up.load(jar)?;
        let days: [u32; MOST_DAYS] = std::array::from_fn(|day| {
            let loads_a_day = loads.div_ceil(u32::try_from(day + 1).unwrap_or(1));
            load.times(loads_a_day).map_or(0, asked)
        });
        let of_jars = counted(u64::from(jars), jar.name(), &format!("{}s", jar.name()));
        let of_loads = counted(u64::from(*loads), "canner load", "canner loads");
        Some(Amount { words: format!("{of_jars}, {of_loads}"), tens: asked(fruit), a_day: days })
    };
    Purpose {
        words: format!("{}, in {}s", put_up.name(), jar.name()),
        suits: Some(suits.name().to_owned()),
        used: Used::InJars,
        amounts: LOADS.iter().filter_map(amount).collect(),
    }
}
