//! The questions of advice.

use super::said::WISHES;
use super::{Asked, Offered};
use house::advise::request::form::{FreshFields, PutUpFields};
use house::advise::request::{PutUp, RowCover, canners};
use maud::{Markup, html};

/// The questions, with what was answered last.
pub(super) fn questions(asked: &Asked, offered: &Offered, words: &str) -> Markup {
    let one_by_one =
        if words.is_empty() { "/advice/questions".to_owned() } else { format!("/advice/questions?{words}") };
    html! {
        form.lay-out method="get" action="/advice" {
            h2 { "The questions" }
            p { "All at once; or " a href=(one_by_one) { "one at a time" } "." }
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
            div.cells { (place(asked, offered)) (days(asked)) (bed(asked)) (containers(asked)) (over_and_beside(asked)) }
        }
    }
}

/// Where it is.
pub(super) fn place(asked: &Asked, offered: &Offered) -> Markup {
    offered.places.select(Some(asked.weather.as_str()))
}

/// When plants go out.
pub(super) fn days(asked: &Asked) -> Markup {
    html! {
        (field("plants-out", "Plants out on, month-day; empty for the calendar's day", &asked.plants_out))
        (number("waves", "Sets of plants, two weeks apart", &asked.waves))
    }
}

/// How large its bed is.
pub(super) fn bed(asked: &Asked) -> Markup {
    html! {
        (field("bed-length", "Length of the bed, with its unit", &asked.bed_length))
        (field("bed-width", "Width of the bed", &asked.bed_width))
        (field("between-plants", "Between plants", &asked.between_plants))
        (field("between-rows", "Between rows", &asked.between_rows))
    }
}

/// Its containers.
pub(super) fn containers(asked: &Asked) -> Markup {
    html! {
        (number("containers", "Containers, one plant each", &asked.containers))
        (field("container-volume", "What a container holds, gal or l; empty for 5 gal", &asked.container_volume))
    }
}

/// What covers plants and what they are tied to.
pub(super) fn over_and_beside(asked: &Asked) -> Markup {
    html! {
        (row_cover(&asked.row_cover))
        (field("stake-height", "Height of stakes or cages; taller varieties are left out", &asked.stake_height))
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
    html! {
        fieldset {
            legend { "What is put up" }
            p { "Classes are " (offered.classes.join(", ")) "; several that will do with commas between. What has neither jars nor fruit is no wish." }
            @for number in 1..=WISHES {
                @let wish = asked.put_up.get(number - 1).cloned().unwrap_or_default();
                @if number == 1 { (put_up(number, &wish)) }
                @else { details open[!wish.is_blank()] { summary { "Something else to put up" } (put_up(number, &wish)) } }
            }
            div.cells { (canning(asked)) }
        }
    }
}

/// Where and in what jars are canned.
pub(super) fn canning(asked: &Asked) -> Markup {
    let canner = if asked.canner.is_empty() { "boiling water" } else { &asked.canner };
    html! {
        (field("altitude", "How high the kitchen lies, with its unit", &asked.altitude))
        (select("canner", "Canner", canner, canners()))
    }
}

fn put_up(place: usize, wish: &PutUpFields) -> Markup {
    html! {
        fieldset.bed {
            legend { "To put up, " (place) }
            div.cells { (put_up_cells(place, wish)) }
        }
    }
}

/// One wish for the kitchen.
pub(super) fn put_up_cells(place: usize, wish: &PutUpFields) -> Markup {
    let name = |of: &str| format!("put-up-{place}-{of}");
    html! {
                (select(&name("what"), "As", &wish.what, PutUp::ALL.iter().map(|put_up| put_up.name())))
                (field(&name("class"), "Of the class", &wish.class))
                (number(&name("jars"), "Jars", &wish.jars))
                (select(&name("jar"), "Their size", &wish.jar, ["quart", "pint"].into_iter()))
                (field(&name("fruit"), "Or so much fruit, with its unit", &wish.fruit))
                (number(&name("days"), "Kitchen days at most", &wish.days))
                (number(&name("loads-a-day"), "Canner loads a day", &wish.loads_a_day))
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
    html! {
        fieldset.bed {
            legend { "To eat, " (place) }
            div.cells { (fresh_cells(place, wish)) }
        }
    }
}

/// One wish for the table.
pub(super) fn fresh_cells(place: usize, wish: &FreshFields) -> Markup {
    let name = |of: &str| format!("fresh-{place}-{of}");
    html! {
                (field(&name("class"), "Of the class", &wish.class))
                (field(&name("a-week"), "So much a week, with its unit", &wish.a_week))
                (field(&name("from"), "From, month-day", &wish.from))
                (field(&name("to"), "To, month-day", &wish.to))
    }
}

fn choice(asked: &Asked) -> Markup {
    html! {
        fieldset {
            legend { "How sure, and which" }
            div.cells { (sure(asked)) (liked(asked)) }
        }
    }
}

/// How sure it must be.
pub(super) fn sure(asked: &Asked) -> Markup {
    html! {
        (number("years-in-ten", "Had in so many years of ten", &asked.years_in_ten))
        (number("most-varieties", "Varieties at most", &asked.most_varieties))
    }
}

/// Which varieties.
pub(super) fn liked(asked: &Asked) -> Markup {
    html! {
                (field("only", "Only what these words find, such as red, not tall", &asked.only))
                (field("wanted", "Wanted varieties, commas between", &asked.wanted))
                (field("barred", "Barred varieties", &asked.barred))
                (field("for-seed", "Seed is saved of, commas between", &asked.for_seed))
    }
}
