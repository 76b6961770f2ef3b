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
use drawing::look::{FruitLook, Shoulder, Tip};
use drawing::portrait;
use drawing::scale::{Pixels, Scale};
use drawing::svg::Svg;
use house::list::{self, Listed};
use maud::{Markup, html};
use record::colour::{ColourSeen, Pattern, TradeColour};
use record::language::Units;
use record::mass::Grams;
use std::sync::LazyLock;

/// Pixels a millimetre: a 100 mm beefsteak with its cut face takes 150. A choice of the page.
const SCALE: f64 = 0.72;

/// The portrait of one row.
pub(super) fn small(listed: &Listed, units: Units) -> Markup {
    let measured = listed.fruit.as_ref().is_some_and(|fruit| 0 < fruit.call.used.fruits);
    let look = measured.then(|| listed.look());
    let sized = look.and_then(|look| Some((portrait::size(&look, Scale::new(SCALE)?)?, look)));
    let whole = |pixels: Pixels| format!("{:.0}", pixels.get());
    html! {
        @match sized {
            Some(((width, height), look)) => img src=(address(&look, units)) alt="" loading="lazy" decoding="async"
                width=(whole(width)) height=(whole(height));,
            None => span.unmeasured { "not measured" },
        }
    }
}

fn draw(look: &FruitLook, units: Units) -> Option<Svg> {
    Scale::new(SCALE).map(|scale| portrait::portrait(look, scale, units))
}

/// The address changes with the look, the units and the way of drawing, so that a browser may keep what it has.
fn address(look: &FruitLook, units: Units) -> String {
    let own = fingerprint(&format!("{look:?} {units:?} {:x}", *WAY_OF_DRAWING));
    format!("/portrait/{own:016x}/{}", encoded(&look.name))
}

/// A fingerprint of one portrait that shows all that can be drawn of one.
static WAY_OF_DRAWING: LazyLock<u64> = LazyLock::new(|| {
    let look = FruitLook {
        weight: Grams::new(300.0),
        lobes: Some(7),
        locules: Some(9),
        shoulder: Some(Shoulder::Indented),
        tip: Some(Tip::Nippled),
        exterior: Some(ColourSeen::Word(TradeColour::Bicolour)),
        flesh: Some(ColourSeen::Word(TradeColour::Yellow)),
        pattern: Some(Pattern::Striped),
        ..FruitLook::named("all that can be drawn")
    };
    draw(&look, Units::METRIC).map_or(0, |svg| fingerprint(svg.markup()))
});

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
