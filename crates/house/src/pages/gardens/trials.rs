//! Wishes that the science answers when the pages are written, by which a test holds the page's script to it.

use advice::by_itself::{Bearing, Want, of_one, of_two};
use publish::pages::gardens::told::Trial;

/// Varieties that wishes are tried on.
const TRIED: usize = 5;

/// Some wishes of a table and of a kitchen, of each of a few varieties and of two together.
pub(super) fn of(bearings: &[Option<Vec<u32>>], weeks: usize) -> Vec<Trial> {
    let told = bearings.iter().enumerate();
    let told = told.filter_map(|(place, own)| Some((place, Bearing::new(weeks, own.clone()?)?)));
    let tried: Vec<(usize, Bearing)> = told.take(TRIED).collect();
    let wants = [
        Want::EachWeek { tens: 90, weeks: 10..=14 },
        Want::EachWeek { tens: 227, weeks: 8..=15 },
        Want::OnDays { tens: 2_000, a_day: 1_000, days: 2, weeks: 0..=weeks.saturating_sub(1) },
        Want::OnDays { tens: 998, a_day: 998, days: 1, weeks: 0..=weeks.saturating_sub(1) },
    ];
    wants.iter().flat_map(|want| each(&tried, want)).collect()
}

fn each(tried: &[(usize, Bearing)], want: &Want) -> Vec<Trial> {
    let enough = |bearing: &Bearing| bearing.years().count() * 8 / 10;
    let alone = tried.iter().map(|(place, own)| {
        let years = enough(own);
        trial(vec![*place], want, years, of_one(own, want, years).map(|plants| vec![plants]))
    });
    let pairs = tried.windows(2).filter_map(|pair| match pair {
        [(first, one), (second, other)] => {
            let years = enough(one);
            let plants = of_two(one, other, want, years).map(Vec::from);
            Some(trial(vec![*first, *second], want, years, plants))
        }
        _ => None,
    });
    alone.chain(pairs).collect()
}

fn trial(entries: Vec<usize>, want: &Want, years: usize, plants: Option<Vec<u64>>) -> Trial {
    let (tens, days, weeks) = match want {
        Want::EachWeek { tens, weeks } => (*tens, None, weeks),
        Want::OnDays { tens, a_day, days, weeks } => (*tens, Some((*days, *a_day)), weeks),
    };
    Trial { entries, tens, days, weeks: [*weeks.start(), *weeks.end()], years, plants }
}
