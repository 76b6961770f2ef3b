//! The choice of whose law seed falls under, wherever a page asks for it.

use house::lots::law::Law;
use maud::{Markup, html};

/// Every law, that which stands chosen.
pub(crate) fn choice(asked: &str, stands: Law) -> Markup {
    html! {
        label {
            span { (asked) }
            select name="law" {
                @for (law, word, words) in Law::ALL { option value=(word) selected[law == stands] { (words) } }
            }
        }
    }
}
