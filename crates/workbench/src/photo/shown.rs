//! The page of a photograph that was measured: the drawing over it, its fruit, and what they are filed under.

use super::asked::{Asked, locules_field, stem_field};
use crate::page::{self, drawn, heads, scrolling};
use crate::telling::count;
use house::photo::changes::{self, Along, Change};
use house::photo::{CutFace, Lies, Seen, SeenFruit, Standing, Told};
use maud::{Markup, html};
use record::language::{Units, counted, length, length_and_give, mass, mass_briefly};

/// The page.
pub(super) fn body(address: &str, seen: &Seen, asked: &Asked, grow_outs: &[String], units: Units) -> Markup {
    let fruit = counted(count(seen.fruit.len()), "fruit", "fruit");
    html! {
        (page::bring_in_ways("/photo"))
        h1 { "Measured" }
        p {
            b { (seen.name) } ": " (fruit) " beside " (seen.card) ", seen from " (length(seen.height, units)) " up and "
            (format!("{:.1}", seen.tilt)) " degrees from straight above."
        }
        @if !seen.left_out.is_empty() {
            p { "Not measured, drawn with broken lines: " (left_out(seen)) "." }
        }
        @if let Some(why) = seen.no_colour {
            p { "No colours, sizes only: " (why) ". To have them, " (why.remedy()) "." }
        }
        form.photo method="get" action=(format!("{address}#picture")) {
            figure.photograph #picture {
                img src=(format!("{address}/picture.jpg")) alt="" width=(seen.drawing.width().get()) height=(seen.drawing.height().get());
                (drawn(&seen.drawing))
            }
            div.acts { button { "Look again" } }
            p.help { "What follows ± is meant to hold the truth nine times in ten, if outline and stem are right. Press a fruit in the picture, or tick it below, to leave it out." }
            (scrolling("Fruit", &table(seen, asked, units)))
            @if seen.fruit.iter().any(|fruit| fruit.cut().is_some()) {
                h2 { "Cut faces" }
                p.help { "Locules are counted in two ways and numbered in the picture. Where the two differ none are taken until you write your own count." }
                (scrolling("Cut faces", &faces(seen, asked, units)))
            }
            (parts(asked))
            (under(seen, asked, grow_outs))
            div.acts {
                button.strong name="do" value="take" formmethod="post" { "Take the fruit" }
                button { "Look again" }
                button name="do" value="leave" formmethod="post" formnovalidate { "Let it go" }
            }
        }
    }
}

fn left_out(seen: &Seen) -> String {
    let told = seen
        .left_out
        .iter()
        .flat_map(|(why, parts)| parts.iter().map(move |part| format!("part {part} {why}")));
    told.collect::<Vec<_>>().join("; ")
}

/// What was said of how the parts hang together, each to be taken back by its box, and fields to say more.
fn parts(asked: &Asked) -> Markup {
    let number = |name: &str, words: &str| {
        html! {
            label { span { (words) } input name=(name) inputmode="numeric" autocomplete="off" maxlength="4"; }
        }
    };
    html! {
        fieldset.parts {
            legend { "Wrongly parted?" }
            @for change in &asked.said.changes {
                label.tick {
                    input type="checkbox" name="change" value=(changes::written(change)) checked;
                    span { (told(change)) }
                }
            }
            div.cells {
                (number("part", "Part"))
                button name="do" value="cut" formnovalidate { "is two fruit: cut it where it is narrowest" }
                (number("with", "or is one fruit with"))
                button name="do" value="join" formnovalidate { "Join them" }
            }
        }
    }
}

fn told(change: &Change) -> String {
    match change {
        Change::Cut { part, along: Along::Narrowest } => {
            format!("{part} is two fruit, cut where it is narrowest")
        }
        Change::Cut { part, along: Along::Line(_) } => {
            format!("{part} is two fruit, cut along the line that was drawn")
        }
        Change::Join { parts: [one, other] } => format!("{one} and {other} are one fruit"),
    }
}

fn table(seen: &Seen, asked: &Asked, units: Units) -> Markup {
    html! {
        table.fruit {
            (heads(&["Fruit", "Leave out", "Weight", "Length", "Width", "L*", "a*", "b*", "Stem"]))
            tbody { @for fruit in &seen.fruit { (row(fruit, asked, units)) } }
        }
    }
}

fn row(fruit: &SeenFruit, asked: &Asked, units: Units) -> Markup {
    let number = fruit.number;
    let told = asked.said.stems.get(&number);
    let found = match fruit.lies {
        Lies::Standing { lobes: 0 } => "stands".to_owned(),
        Lies::Standing { lobes } => format!("stands, {}", counted(lobes.into(), "lobe", "lobes")),
        Lies::Cut(_) => "cut".to_owned(),
        Lies::OnItsSide(_) if fruit.is_shape_known() => "as drawn".to_owned(),
        Lies::OnItsSide(_) => "as drawn, not sure".to_owned(),
    };
    html! {
        tr {
            th scope="row" {
                (number)
                @if let Some(pattern) = fruit.pattern { span.help { (pattern.name()) } }
            }
            td {
                input type="checkbox" name="leave" value=(number) aria-label=(format!("Leave fruit {number} out"))
                    checked[fruit.standing == Standing::LeftOut];
            }
            @match fruit.side() {
                Some(side) => {
                    td { (mass(side.weight, units)) span.give { " ± " (mass_briefly(side.give.weight, units)) } }
                    td { (length_and_give(side.length, side.give.length, units)) }
                    td { (length_and_give(fruit.width, side.give.width, units)) }
                }
                None => {
                    td { "not seen" }
                    td { "not seen" }
                    td {
                        @match fruit.cut() {
                            Some(face) => (length_and_give(fruit.width, face.give, units)),
                            None => (length(fruit.width, units)),
                        }
                    }
                }
            }
            @match fruit.colour {
                Some(colour) => {
                    @for part in [colour.lightness(), colour.a(), colour.b()] { td { (format!("{part:.0}")) } }
                }
                None => td colspan="3" { "not read" },
            }
            td {
                select name=(stem_field(number)) aria-label=(format!("Stem of fruit {number}")) {
                    option value="" selected[told.is_none()] { (found) }
                    option value="drawn" selected[told == Some(&Told::AsDrawn)] { "yes, as drawn" }
                    option value="across" selected[told == Some(&Told::Across)] { "the other way" }
                    option value="up" selected[told == Some(&Told::Standing)] { "it stands" }
                    option value="cut" selected[told == Some(&Told::Cut)] { "it is cut" }
                }
            }
        }
    }
}

/// What is seen of cut faces.
fn faces(seen: &Seen, asked: &Asked, units: Units) -> Markup {
    html! {
        table.faces {
            (heads(&["Fruit", "Round about", "As patches", "Chance", "Your count", "Wall", "Gel"]))
            tbody {
                @for fruit in &seen.fruit {
                    @if let Some(face) = fruit.cut() { (face_row(fruit.number, &face, asked, units)) }
                }
            }
        }
    }
}

fn face_row(number: u32, face: &CutFace, asked: &Asked, units: Units) -> Markup {
    let own = asked.said.locules.get(&number).map(u32::to_string);
    let field = locules_field(number);
    let [fewer, so_many, more] = face.counted.chances.map(|chance| format!("{:.0}", 100.0 * chance));
    html! {
        tr {
            th scope="row" { (number) }
            td { (counted(face.counted.sectors.into(), "locule", "locules")) }
            td { (counted(face.counted.patches.into(), "locule", "locules")) }
            td title=(format!("one fewer {fewer}, one more {more} in 100")) {
                (face.counted.likely) ": " (so_many) " in 100"
            }
            td {
                input name=(field) value=(own.unwrap_or_default()) size="4" inputmode="numeric" autocomplete="off" maxlength="2"
                    placeholder=(face.locules().map_or_else(|| "look".to_owned(), |count| count.to_string()))
                    aria-label=(format!("Locules of fruit {number}"));
            }
            td { @match face.wall { Some([wall, give]) => (length_and_give(wall, give, units)), None => "not seen" } }
            td { (format!("{:.0} %", face.gel.get())) }
        }
    }
}

/// What the fruit are filed under.
fn under(seen: &Seen, asked: &Asked, grow_outs: &[String]) -> Markup {
    let plot = asked.filing.plot.as_ref().or(seen.plot.as_ref());
    let grow_out = plot.and_then(|plot| plot.grow_out.as_ref());
    let day = asked.filing.day.or(seen.taken_on).map(|day| day.to_string());
    let plant = asked.filing.plant.map(|plant| plant.to_string());
    html! {
        fieldset {
            legend { "Where they grew" }
            @if seen.plot.is_some() { p.help { "The card says its plot." } }
            div.cells {
                label {
                    span { "Grow-out" }
                    select name="grow-out" {
                        option value="" { "The one with this plot" }
                        @for name in grow_outs { option selected[Some(name) == grow_out] { (name) } }
                    }
                }
                label {
                    span { "Plot, as on its stake" }
                    input name="plot" value=(plot.map_or("", |plot| &plot.label)) autocomplete="off" maxlength="100";
                }
                label {
                    span { "Plant, if it is known" }
                    input name="plant" value=(plant.unwrap_or_default()) inputmode="numeric" autocomplete="off" maxlength="6";
                }
                label { span { "Day" } input type="date" name="day" value=(day.unwrap_or_default()); }
                label {
                    span { "The card's line by a rule, mm" }
                    input name="line" value=(asked.line) placeholder="70" inputmode="decimal" autocomplete="off" maxlength="10";
                }
            }
        }
    }
}
