//! The page's data as scripts: `data/gardens.js` of regions and purposes, and `data/gardens/…` of each region's crops.

use super::told::{Amount, Gardens, Purpose, Region, Trial, Used};
use crate::pages::File;
use crate::pages::address::addresses;
use crate::pages::finding::script;
use jiff::ToSpan;
use jiff::civil::Date;
use serde_json::{Value, json};

/// All files; none where there is no region.
///
/// # Errors
/// What JSON cannot hold, which would be a fault in this program.
pub(super) fn files(gardens: &Gardens) -> Result<Vec<File>, serde_json::Error> {
    let addresses = addresses(gardens.regions.iter().map(|region| region.name.as_str()));
    let regions = gardens.regions.iter().zip(&addresses);
    let common = json!({
        "regions": regions.clone().map(|(region, address)| json!([region.name, address])).collect::<Vec<_>>(),
        "purposes": gardens.purposes.iter().map(purpose).collect::<Vec<_>>(),
        "cautions": gardens.cautions,
    });
    let own = regions.map(|(region, address)| {
        script(&format!("data/gardens/{address}.js"), "garden", &crops(region, address))
    });
    std::iter::once(script("data/gardens.js", "gardens", &common)).chain(own).collect()
}

fn purpose(purpose: &Purpose) -> Value {
    let used = match purpose.used {
        Used::EachWeek => "each week",
        Used::InJars => "in jars",
        Used::WithoutJars => "without jars",
    };
    let amount = |own: &Amount| json!([own.words, own.tens, own.a_day]);
    json!({
        "words": purpose.words,
        "suits": purpose.suits,
        "used": used,
        "amounts": purpose.amounts.iter().map(amount).collect::<Vec<_>>(),
    })
}

fn crops(region: &Region, address: &str) -> Value {
    let weeks = (0..region.weeks).map(|week| day(region.plants_out, week)).collect::<Vec<_>>();
    json!({
        "address": address,
        "weather": region.weather,
        "out": day(region.plants_out, 0),
        "weeks": weeks,
        "bearings": region.bearings.iter().map(|own| own.as_ref().map(|own| packed(own, region.weeks))).collect::<Vec<_>>(),
        "trials": region.trials.iter().map(trial).collect::<Vec<_>>(),
    })
}

fn day(out: Date, week: usize) -> String {
    let days = i32::try_from(week).unwrap_or(0).saturating_mul(7);
    let day = out.checked_add(days.days()).unwrap_or(out);
    day.strftime("%-d %B").to_string()
}

fn trial(trial: &Trial) -> Value {
    json!([trial.entries, trial.tens, trial.days, trial.weeks, trial.years, trial.plants])
}

/// Two figures of base 64 tell up to 4095 tens of grams: far more than a plant bears in a week.
const FIGURES: &[u8; 64] = b"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz-_";
const MOST: u32 = 4095;

/// What a plant bears, written short: the first week that brings anything, how many weeks are told, and two figures a week,
/// one year after another.
fn packed(tens: &[u32], weeks: usize) -> Value {
    let years = || tens.chunks_exact(weeks.max(1));
    let brings = |week: &usize| years().any(|year| year.get(*week).is_some_and(|tens| 0 < *tens));
    let first = (0..weeks).find(brings).unwrap_or(0);
    let end = (0..weeks).rfind(brings).map_or(first, |last| last + 1);
    let told = years().flat_map(|year| year.get(first..end).unwrap_or_default());
    let figure =
        |of: u32| FIGURES.get(usize::try_from(of % 64).unwrap_or(0)).map_or('0', |byte| char::from(*byte));
    let written: String =
        told.map(|tens| (*tens).min(MOST)).flat_map(|tens| [figure(tens / 64), figure(tens)]).collect();
    json!([first, end - first, written])
}
