//! Weather files on the pages of Bring in: what they hold, and the degrees that they do not tell.

use crate::telling::count;
use house::asked::AskedTable;
use house::take::{WeatherOutcome, WeatherTaken};
use house::weather::kept::{DaysHeld, Held, Holds, StationKept, normals_named};
use house::weather::{Scale, ToldBy};
use maud::{Markup, html};
use record::language::{capitalised, counted};

/// The scales as a form names them and as they are told.
const SCALES: [(Scale, &str, &str); 3] = [
    (Scale::Celsius, "c", "degrees Celsius"),
    (Scale::Fahrenheit, "f", "degrees Fahrenheit"),
    (Scale::Tenths, "tenths", "tenths of a degree Celsius"),
];

/// The scale that a form names.
pub(super) fn named(word: &str) -> Option<Scale> {
    SCALES.iter().find(|(_, name, _)| *name == word).map(|(scale, ..)| *scale)
}

fn told(scale: Scale) -> &'static str {
    SCALES.iter().find(|(known, ..)| *known == scale).map_or("", |(.., words)| words)
}

/// How a weather file is read.
pub(super) fn looked(place: usize, taken: &WeatherTaken, asked: &[AskedTable]) -> Markup {
    let held = &taken.held;
    let id = format!("w{place}");
    html! {
        section.table-read aria-labelledby=(id) {
            h2 id=(id) { (taken.file) }
            p {
                @match &held.holds {
                    Held::Days(_) => "Days of the weather station ",
                    Held::Normals(normals) => { (capitalised(normals_named(*normals))) " of the weather station " }
                }
                b { (held.station.identifier) }
                @if let Some(name) = &held.station.name { " (" (name) ")" }
                @if let Held::Days(days) = &held.holds { ", " (days.days.0) " to " (days.days.1) }
                "."
            }
            @if let Held::Days(days) = &held.holds { (tallied(days)) }
            @if is_of_many(&taken.file, asked) { (station_asked(place, &taken.file, asked)) }
            @if let Some((scale, told_by)) = scale(held) {
                p {
                    "Taken for " (told(scale)) ", by "
                    @match told_by {
                        ToldBy::Bringer => "your word",
                        ToldBy::Headings => "its headings",
                        ToldBy::Summers => "how warm its summers are",
                    }
                    "."
                }
                (scale_asked(place, &taken.file, asked))
            }
            @match &taken.outcome {
                WeatherOutcome::TakenBefore => {
                    p.notice { "This very file was taken before. Taking it adds nothing." }
                }
                WeatherOutcome::Kept(Some(before)) => {
                    p {
                        "It would count in the place of " (before.file)
                        @if let Holds::Days { first, last, .. } = before.holds { ", " (first) " to " (last) }
                        "."
                    }
                }
                WeatherOutcome::Kept(None) => {}
            }
        }
    }
}

/// What a table's numbers were taken for, where it holds days.
fn scale(held: &StationKept) -> Option<(Scale, ToldBy)> {
    match &held.holds {
        Held::Days(days) => days.scale,
        Held::Normals(_) => None,
    }
}

fn tallied(held: &DaysHeld) -> Markup {
    let out = held.taken_out;
    let (warmer, colder) = (count(out.nights_above_days), count(out.cold_nights));
    html! {
        p {
            (counted(count(held.day_count), "day", "days")) ", " (held.missing)
            " missing the lowest or the highest temperature. Left out when they are used: "
            (counted(warmer, "day", "days")) " with a night warmer than the day, "
            (counted(colder, "night", "nights")) " far colder than those beside, "
            (counted(count(out.hot_days), "day", "days")) " far warmer, and "
            (counted(count(out.still_days), "day", "days")) " on which the thermometer stood still."
        }
    }
}

/// Asks which degrees a file is in.
pub(super) fn scale_asked(place: usize, file: &str, asked: &[AskedTable]) -> Markup {
    let said = asked.iter().find(|own| own.table == file).and_then(|own| own.scale);
    html! {
        div.whole-table {
            input type="hidden" name=(format!("w{place}.file")) value=(file);
            label {
                span { "Its degrees" }
                select name=(format!("w{place}.scale")) {
                    option value="" { "as it says itself" }
                    @for (scale, name, words) in SCALES {
                        option value=(name) selected[said == Some(scale)] { (words) }
                    }
                }
            }
        }
    }
}

/// Whether somebody said which station of a file is meant.
fn is_of_many(file: &str, asked: &[AskedTable]) -> bool {
    asked.iter().any(|own| own.table == file && own.station.is_some())
}

/// Asks which station of a file with many is meant.
pub(super) fn station_asked(place: usize, file: &str, asked: &[AskedTable]) -> Markup {
    let said = asked.iter().find(|own| own.table == file).and_then(|own| own.station.as_deref());
    html! {
        div.whole-table {
            input type="hidden" name=(format!("w{place}.file")) value=(file);
            label {
                span { "Its station, by its identifier" }
                input type="text" name=(format!("w{place}.station")) value=[said] placeholder="USC00317202" maxlength="60" autocomplete="off";
            }
        }
    }
}

/// What became of a weather file, in words that outlive the work.
#[derive(Debug)]
pub(crate) struct Became {
    file: String,
    station: String,
    days: String,
    /// Whether it was kept now.
    pub(super) is_new: bool,
}

/// Tells what became of a weather file.
pub(super) fn became(taken: &WeatherTaken) -> Became {
    let held = &taken.held;
    Became {
        file: taken.file.clone(),
        station: held.station.identifier.clone(),
        days: match &held.holds {
            Held::Days(days) => counted(count(days.day_count), "day", "days"),
            Held::Normals(normals) => normals_named(*normals).to_owned(),
        },
        is_new: matches!(taken.outcome, WeatherOutcome::Kept(_)),
    }
}

/// The line of a weather file.
pub(super) fn line(became: &Became) -> Markup {
    html! {
        b { (became.file) } ": "
        @if became.is_new { (became.days) " of " } @else { "this very file was taken before, as " }
        a href="/weather" { "weather" } " of " (became.station) "."
    }
}

/// The way on from weather.
pub(super) fn way_on() -> Markup {
    html! { li { a href="/weather" { "See the weather that is kept" } } }
}
