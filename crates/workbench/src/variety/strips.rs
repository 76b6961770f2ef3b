//! The evidence drawn: each fruit a dot against the guide's bands. Each strip is drawn twice, for a desk
//! and for a phone; the style sheet shows the one that fits.

use crate::page::drawn;
use drawing::scale::Pixels;
use drawing::strip::{Strip, strip};
use maud::{Markup, html};

/// Width on a desk, in pixels.
const WIDE: u16 = 596;
/// Width on a phone, in pixels.
const NARROW: u16 = 328;

/// The strips of a variety.
pub(crate) fn section(strips: &[Strip]) -> Markup {
    html! {
        @if !strips.is_empty() {
            section aria-labelledby="evidence" {
                h2 #evidence { "The fruit against the guide" }
                div.strips {
                    @for own in strips {
                        div {
                            div.wide { (drawn(&strip(own, Pixels::from(WIDE)))) }
                            div.narrow { (drawn(&strip(own, Pixels::from(NARROW)))) }
                        }
                    }
                }
            }
        }
    }
}
