//! The small portraits beside the rows, all to one scale.
//!
//! A portrait is a few kilobytes of curves, so the rows name them as pictures that the browser fetches
//! when they come into sight, and keeps: their addresses hold a hash of the drawing.

use crate::assets::fingerprint;
use crate::desk::Desk;
use crate::telling::encoded;
use crate::trouble::Trouble;
use axum::extract::{Path, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use drawing::look::FruitLook;
use drawing::portrait::portrait;
use drawing::scale::Scale;
use drawing::svg::Svg;
use house::list::{self, Listed};
use maud::{Markup, html};
use record::language::Units;

/// Pixels a millimetre: a 100 mm beefsteak with its cut face takes 150. A choice of the page.
const SCALE: f64 = 0.72;

/// The portrait of one row.
pub(super) fn small(listed: &Listed, units: Units) -> Markup {
    let measured = listed.fruit.as_ref().is_some_and(|fruit| 0 < fruit.call.used.fruits);
    let drawing = measured.then(|| draw(&listed.look(), units)).flatten();
    let whole = |pixels: f64| format!("{pixels:.0}");
    html! {
        @match drawing {
            Some(svg) => img src=(address(&listed.variety.name, &svg)) alt="" loading="lazy" decoding="async"
                width=(whole(svg.width().get())) height=(whole(svg.height().get()));,
            None => span.unmeasured { "not measured" },
        }
    }
}

fn draw(look: &FruitLook, units: Units) -> Option<Svg> {
    Scale::new(SCALE).map(|scale| portrait(look, scale, units))
}

fn address(name: &str, svg: &Svg) -> String {
    format!("/portrait/{:016x}/{}", fingerprint(svg.markup()), encoded(name))
}

/// Serves a portrait as a picture of its own.
pub(crate) async fn serve(
    State(desk): State<Desk>,
    Path((_, name)): Path<(String, String)>,
) -> Result<Response, Trouble> {
    let (house, look) = desk.ask(move |house| list::look(house, &name)).await?;
    let svg =
        draw(&look, house.settings.units).ok_or_else(|| Trouble::missing("there is no such portrait"))?;
    let headers = [
        (header::CONTENT_TYPE, "image/svg+xml"),
        (header::CACHE_CONTROL, "private, max-age=31536000, immutable"),
    ];
    Ok((headers, svg.markup().to_owned()).into_response())
}
