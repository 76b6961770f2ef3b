//! The questions of advice.

use super::{Asked, Offered};
use crate::fields::Fields;
use house::advise::request::form::{FreshFields, PutUpFields};
use house::advise::request::{Jar, PutUp, RowCover, canners};
use house::folder::House;
use maud::{Markup, html};

/// Wishes of each kind that the page has room for. A choice of ours: a file has room for more.
const WISHES: usize = 3;

/// What the questions begin with.
pub(super) fn usual(house: &House) -> Asked {
    let units = house.settings.units;
    let (length, width, plants, rows, a_week) =
        units.either(("40 ft", "12 ft", "2 ft", "4 ft", "2 lb"), ("12 m", "4 m", "60 cm", "120 cm", "1 kg"));
    Asked {
        bed_length: length.to_owned(),
        bed_width: width.to_owned(),
        between_plants: plants.to_owned(),
        between_rows: rows.to_owned(),
        waves: "1".to_owned(),
        years_in_ten: "8".to_owned(),
        put_up: vec![PutUpFields {
            what: PutUp::Crushed.name().to_owned(),
            class: "paste, plum".to_owned(),
            jar: Jar::Quart.name().to_owned(),
            jars: "7".to_owned(),
            days: "2".to_owned(),
            ..PutUpFields::default()
        }],
        fresh: vec![FreshFields {
            class: "slicer".to_owned(),
            a_week: a_week.to_owned(),
            ..FreshFields::default()
        }],
        ..Asked::default()
    }
}

/// Reads what was sent.
pub(super) fn read(sent: &Fields) -> Asked {
    let text = |name: &str| sent.get(name).unwrap_or_default().to_owned();
    let put_up = |number: usize| {
        let own = |of: &str| text(&format!("put-up-{number}-{of}"));
        PutUpFields {
            what: own("what"),
            class: own("class"),
            jars: own("jars"),
            jar: own("jar"),
            fruit: own("fruit"),
            days: own("days"),
            loads_a_day: own("loads-a-day"),
        }
    };
    let fresh = |number: usize| {
        let own = |of: &str| text(&format!("fresh-{number}-{of}"));
        FreshFields { class: own("class"), a_week: own("a-week"), from: own("from"), to: own("to") }
    };
    Asked {
        garden: String::new(),
        weather: text("weather"),
        plants_out: text("plants-out"),
        waves: text("waves"),
        bed_length: text("bed-length"),
        bed_width: text("bed-width"),
        between_plants: text("between-plants"),
        between_rows: text("between-rows"),
        containers: text("containers"),
        container_volume: text("container-volume"),
        row_cover: text("row-cover"),
        stake_height: text("stake-height"),
        years_in_ten: text("years-in-ten"),
        most_varieties: text("most-varieties"),
        only: text("only"),
        wanted: all(sent, "wanted"),
        barred: all(sent, "barred"),
        for_seed: text("for-seed"),
        altitude: text("altitude"),
        canner: text("canner"),
        put_up: (1..=WISHES).map(put_up).collect(),
        fresh: (1..=WISHES).map(fresh).collect(),
    }
}

/// Every value of a field that was sent more than once, as when a link adds to what was written.
fn all(sent: &Fields, name: &str) -> String {
    let said = sent.every(name).map(str::trim).filter(|words| !words.is_empty());
    said.collect::<Vec<_>>().join(", ")
}

/// The questions, with what was answered last.
pub(super) fn questions(asked: &Asked, offered: &Offered) -> Markup {
    html! {
        form.lay-out method="get" action="/advice" {
            h2 { "The questions" }
            (garden(asked, offered))
            (kitchen(asked, offered))
            (table(asked))
            (choice(asked))
            p.acts { button.strong type="submit" { "Plan it" } }
        }
    }
}

fn field(name: &str, label: &str, value: &str) -> Markup {
    html! { label { span { (label) } input name=(name) value=(value) autocomplete="off"; } }
}

fn number(name: &str, label: &str, value: &str) -> Markup {
    html! { label { span { (label) } input name=(name) value=(value) inputmode="numeric" autocomplete="off"; } }
}

fn select<'a>(name: &str, label: &str, value: &str, words: impl Iterator<Item = &'a str>) -> Markup {
    html! {
        label { span { (label) }
            select name=(name) {
                @for word in words { option value=(word) selected[word == value] { (word) } }
            }
        }
    }
}

fn garden(asked: &Asked, offered: &Offered) -> Markup {
    html! {
        fieldset {
            legend { "The garden" }
            div.cells {
                (offered.places.select(Some(asked.weather.as_str())))
                (field("plants-out", "Plants out on, month-day; empty for the calendar's day", &asked.plants_out))
                (number("waves", "Sets of plants, two weeks apart", &asked.waves))
                (field("bed-length", "Length of the bed, with its unit", &asked.bed_length))
                (field("bed-width", "Width of the bed", &asked.bed_width))
                (field("between-plants", "Between plants", &asked.between_plants))
                (field("between-rows", "Between rows", &asked.between_rows))
                (number("containers", "Containers, one plant each", &asked.containers))
                (field("container-volume", "What a container holds, gal or l; empty for 5 gal", &asked.container_volume))
                (row_cover(&asked.row_cover))
                (field("stake-height", "Height of stakes or cages; taller varieties are left out", &asked.stake_height))
            }
        }
    }
}

fn row_cover(chosen: &str) -> Markup {
    html! {
        label { span { "Row cover over young plants" }
            select name="row-cover" {
                option value="" { "none" }
                @for cover in RowCover::ALL {
                    option value=(cover.name()) selected[cover.name() == chosen] { (cover.name()) }
                }
            }
        }
    }
}

fn kitchen(asked: &Asked, offered: &Offered) -> Markup {
    let canner = if asked.canner.is_empty() { "boiling water" } else { &asked.canner };
    html! {
        fieldset {
            legend { "What is put up" }
            p { "Classes are " (offered.classes.join(", ")) "; several that will do with commas between. What has neither jars nor fruit is no wish." }
            @for number in 1..=WISHES {
                @let wish = asked.put_up.get(number - 1).cloned().unwrap_or_default();
                @if number == 1 { (put_up(number, &wish)) }
                @else { details open[!wish.is_blank()] { summary { "Something else to put up" } (put_up(number, &wish)) } }
            }
            div.cells {
                (field("altitude", "How high the kitchen lies, with its unit", &asked.altitude))
                (select("canner", "Canner", canner, canners()))
            }
        }
    }
}

fn put_up(place: usize, wish: &PutUpFields) -> Markup {
    let name = |of: &str| format!("put-up-{place}-{of}");
    html! {
        fieldset.bed {
            legend { "To put up, " (place) }
            div.cells {
                (select(&name("what"), "As", &wish.what, PutUp::ALL.iter().map(|put_up| put_up.name())))
                (field(&name("class"), "Of the class", &wish.class))
                (number(&name("jars"), "Jars", &wish.jars))
                (select(&name("jar"), "Their size", &wish.jar, ["quart", "pint"].into_iter()))
                (field(&name("fruit"), "Or so much fruit, with its unit", &wish.fruit))
                (number(&name("days"), "Kitchen days at most", &wish.days))
                (number(&name("loads-a-day"), "Canner loads a day", &wish.loads_a_day))
            }
        }
    }
}

fn table(asked: &Asked) -> Markup {
    html! {
        fieldset {
            legend { "What is eaten fresh" }
            p { "Without days, from the first week in which a few plants bring so much to the last." }
            @for number in 1..=WISHES {
                @let wish = asked.fresh.get(number - 1).cloned().unwrap_or_default();
                @if number == 1 { (fresh(number, &wish)) }
                @else { details open[!wish.is_blank()] { summary { "Something else to eat" } (fresh(number, &wish)) } }
            }
        }
    }
}

fn fresh(place: usize, wish: &FreshFields) -> Markup {
    let name = |of: &str| format!("fresh-{place}-{of}");
    html! {
        fieldset.bed {
            legend { "To eat, " (place) }
            div.cells {
                (field(&name("class"), "Of the class", &wish.class))
                (field(&name("a-week"), "So much a week, with its unit", &wish.a_week))
                (field(&name("from"), "From, month-day", &wish.from))
                (field(&name("to"), "To, month-day", &wish.to))
            }
        }
    }
}

fn choice(asked: &Asked) -> Markup {
    html! {
        fieldset {
            legend { "How sure, and which" }
            div.cells {
                (number("years-in-ten", "Had in so many years of ten", &asked.years_in_ten))
                (number("most-varieties", "Varieties at most", &asked.most_varieties))
                (field("only", "Only what these words find, such as red, not tall", &asked.only))
                (field("wanted", "Wanted varieties, commas between", &asked.wanted))
                (field("barred", "Barred varieties", &asked.barred))
                (field("for-seed", "Seed is saved of, commas between", &asked.for_seed))
            }
        }
    }
}
