//! Laying out a new grow-out: a form, what it would be, and keeping it.

use super::{grow_out_address, today};
use crate::desk::{Desk, act};
use crate::fields::{Fields, Sent};
use crate::page::{self, Place, scrolling};
use crate::trouble::Trouble;
use axum::Form;
use axum::extract::State;
use axum::response::{IntoResponse, Redirect, Response};
use house::folder::House;
use house::layout::file::form::{self, BedFields};
use house::layout::{self, Kept, Proposed, file};
use house::progress::Unwatched;
use maud::{Markup, html};

/// Beds that the form has room for. A choice of ours: a house with more lays them out from a file.
const BEDS: usize = 8;

/// What came of a form.
enum Came {
    /// It cannot be laid out so: why, and what to do.
    Refused(String, Option<String>),
    /// It was laid out, and is not kept.
    Proposed(Box<Proposed>),
    /// It is kept.
    Kept(Kept),
}

/// Shows the empty form.
pub(crate) async fn begin(State(desk): State<Desk>) -> Result<Markup, Trouble> {
    let house = desk.house().await?;
    let fields = usual(&house);
    Ok(page::page(&house, Place::GrowOuts, "Lay out a grow-out", body(&fields, 1, None)))
}

/// Lays out what the form says; keeps it where that was asked.
pub(crate) async fn decide(State(desk): State<Desk>, Form(sent): Sent) -> Result<Response, Trouble> {
    let fields = read(&sent);
    let before: u32 = sent.get("attempt").and_then(|attempt| attempt.parse().ok()).unwrap_or(1);
    let pressed = if sent.get("act") == Some("keep") { Pressed::Keep } else { Pressed::Show };
    let attempt = if sent.get("act") == Some("another") { before.saturating_add(1) } else { before };
    let typed = fields.clone();
    let (house, came) = desk.ask(move |house| Ok(come(house, &typed, attempt, pressed))).await?;
    if let Came::Kept(kept) = &came {
        let name = kept.grow_outs.first().map(String::as_str).unwrap_or_default();
        let did = format!("Kept as batch {}; it can be undone in the history.", kept.batch);
        let address = format!("{}?did={}", grow_out_address(name), crate::telling::encoded(&did));
        return Ok(Redirect::to(&address).into_response());
    }
    let page = page::page(&house, Place::GrowOuts, "Lay out a grow-out", body(&fields, attempt, Some(&came)));
    Ok(page.into_response())
}

/// What the pressed button asks.
#[derive(Clone, Copy)]
enum Pressed {
    Show,
    Keep,
}

fn come(house: &House, fields: &form::Fields, attempt: u32, pressed: Pressed) -> Came {
    let laid = file::read("the form", &form::write(fields))
        .and_then(|wanted| layout::propose(house, &wanted, attempt, &Unwatched))
        .and_then(|proposed| match pressed {
            Pressed::Keep => layout::keep(house, &proposed, &act(house, None)).map(Came::Kept),
            Pressed::Show => Ok(Came::Proposed(Box::new(proposed))),
        });
    laid.unwrap_or_else(|fault| Came::Refused(fault.to_string(), fault.help()))
}

/// What a new form starts with.
fn usual(house: &House) -> form::Fields {
    let (plants, rows) = house.settings.units.either(("18 in", "24 in"), ("45 cm", "60 cm"));
    form::Fields {
        season: today().year().to_string(),
        kind: file::BEST.to_owned(),
        replicates: "3".to_owned(),
        plants: "6".to_owned(),
        between_plants: plants.to_owned(),
        between_rows: rows.to_owned(),
        rows_per_plot: "1".to_owned(),
        guard_plants: "1".to_owned(),
        guard_rows: "0".to_owned(),
        ..form::Fields::default()
    }
}

fn read(sent: &Fields) -> form::Fields {
    let text = |name: &str| sent.get(name).unwrap_or_default().to_owned();
    let bed = |number: usize| {
        let own = |field: &str| text(&format!("bed-{number}-{field}"));
        BedFields {
            garden: own("garden"),
            name: own("name"),
            length: own("length"),
            width: own("width"),
            path: own("path"),
            from: own("from"),
            to: own("to"),
            why: own("why"),
        }
    };
    form::Fields {
        name: text("name"),
        season: text("season"),
        kind: text("kind"),
        replicates: text("replicates"),
        block_size: text("block-size"),
        varieties: text("varieties"),
        filter: text("filter"),
        checks: text("checks"),
        plants: text("plants"),
        between_plants: text("between-plants"),
        between_rows: text("between-rows"),
        rows_per_plot: text("rows-per-plot"),
        guard_plants: text("guard-plants"),
        guard_rows: text("guard-rows"),
        own: text("own"),
        beds: (1..=BEDS).map(bed).collect(),
    }
}

fn body(fields: &form::Fields, attempt: u32, came: Option<&Came>) -> Markup {
    html! {
        p.back { a href="/grow-outs" { "All grow-outs" } }
        h1 { "Lay out a grow-out" }
        p {
            "Say what is to be compared and on what ground. You see the beds, and what so many plots can tell apart, "
            "before anything is kept."
        }
        form.lay-out method="post" action="/grow-outs/new" {
            @match came {
                Some(Came::Refused(fault, help)) => {
                    div.fault role="alert" { p { (fault) } @if let Some(help) = help { p.help { (help) } } }
                }
                Some(Came::Proposed(proposed)) => { (preview(proposed)) }
                Some(Came::Kept(_)) | None => {}
            }
            input type="hidden" name="attempt" value=(attempt);
            (what(fields))
            (planting(fields))
            (beds(fields))
            p.acts { button.strong name="act" value="preview" { "Lay it out" } }
        }
    }
}

fn preview(proposed: &Proposed) -> Markup {
    let map = page::drawn(&drawing::bed_map::bed_map(&proposed.map));
    html! {
        section.preview aria-labelledby="would-be" {
            h2 #would-be { (proposed.wanted.name) ", not kept yet" }
            (scrolling("Bed map", &map))
            ul.words { @for sentence in &proposed.words { li { (sentence) } } }
            p.acts {
                button.strong name="act" value="keep" { "Keep it" }
                button name="act" value="another" { "Try another arrangement" }
            }
        }
    }
}

fn field(name: &str, label: &str, value: &str) -> Markup {
    html! { label { span { (label) } input name=(name) value=(value) autocomplete="off"; } }
}

fn number(name: &str, label: &str, value: &str) -> Markup {
    html! { label { span { (label) } input name=(name) value=(value) inputmode="numeric" autocomplete="off"; } }
}

fn what(fields: &form::Fields) -> Markup {
    html! {
        fieldset {
            legend { "What is compared" }
            div.cells {
                (field("name", "Name of the grow-out", &fields.name))
                (number("season", "Season, the year of harvest", &fields.season))
                label { span { "Kind of layout" }
                    select name="kind" {
                        @for kind in file::kinds() {
                            option value=(kind) selected[kind == fields.kind] {
                                @if kind == file::BEST { "the one that suits best" } @else { (kind) }
                            }
                        }
                    }
                }
                (number("replicates", "Plots of each variety", &fields.replicates))
                (number("block-size", "Plots in a block, if you want a size", &fields.block_size))
                (field("filter", "Varieties by words of the list, such as large red slicer", &fields.filter))
                label { span { "Or varieties by name, one a line" }
                    textarea name="varieties" rows="6" { (fields.varieties) }
                }
                label { span { "Checks, one a line" } textarea name="checks" rows="6" { (fields.checks) } }
                label { span { "Plots of their own, one a line, such as Quince Rose = 2" }
                    textarea name="own" rows="6" { (fields.own) }
                }
            }
        }
    }
}

fn planting(fields: &form::Fields) -> Markup {
    html! {
        fieldset {
            legend { "How plots are planted" }
            div.cells {
                (number("plants", "Plants in a plot", &fields.plants))
                (field("between-plants", "Between plants, with its unit", &fields.between_plants))
                (field("between-rows", "Between rows, with its unit", &fields.between_rows))
                (number("rows-per-plot", "Rows of plants that a plot takes", &fields.rows_per_plot))
                (number("guard-plants", "Guard plants at either end of a bed", &fields.guard_plants))
                (number("guard-rows", "Guard rows along the garden's edges", &fields.guard_rows))
            }
        }
    }
}

fn beds(fields: &form::Fields) -> Markup {
    html! {
        fieldset {
            legend { "Beds, in the order in which they lie" }
            p { "Every length with its unit, such as 12 m or 40 ft. What stays empty is no bed." }
            @for number in 1..=BEDS {
                (bed(number, &fields.beds.get(number - 1).cloned().unwrap_or_default()))
            }
        }
    }
}

fn bed(number: usize, bed: &BedFields) -> Markup {
    let own = |of: &str, label: &str, value: &str| field(&format!("bed-{number}-{of}"), label, value);
    html! {
        fieldset.bed {
            legend { "Bed " (number) }
            div.cells {
                (own("garden", "Garden, if it is another", &bed.garden))
                (own("name", "Name", &bed.name))
                (own("length", "Length", &bed.length))
                (own("width", "Width", &bed.width))
                (own("path", "Path after it", &bed.path))
            }
            details open[!bed.from.is_empty() || !bed.to.is_empty()] {
                summary { "A stretch that is no use" }
                div.cells {
                    (own("from", "From", &bed.from))
                    (own("to", "To", &bed.to))
                    (own("why", "Why", &bed.why))
                }
            }
        }
    }
}
