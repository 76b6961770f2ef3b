//! Advice: what it would rest on, and how much of that the house knows.

use crate::desk::Desk;
use crate::page::{self, Place};
use crate::telling::count;
use crate::trouble::Trouble;
use axum::extract::State;
use house::list::filter::Filter;
use house::list::{self, Listed};
use maud::{Markup, html};
use record::language::counted;

/// Shows what advice would rest on.
pub(crate) async fn show(State(desk): State<Desk>) -> Result<Markup, Trouble> {
    let (house, list) = desk.ask(|house| list::list(house, &Filter::default())).await?;
    Ok(page::page(&house, Place::Advice, "Advice", body(&list.varieties)))
}

fn body(varieties: &[Listed]) -> Markup {
    let of = |has: fn(&Listed) -> bool| count(varieties.iter().filter(|listed| has(listed)).count());
    let all = counted(count(varieties.len()), "variety", "varieties");
    let picked = of(|listed| listed.evidence.is_some_and(|evidence| 0 < evidence.amount.picks));
    let weighed = of(|listed| listed.fruit.as_ref().is_some_and(|fruit| fruit.facts.weight_g.is_some()));
    let solids =
        of(|listed| listed.fruit.as_ref().is_some_and(|fruit| fruit.facts.soluble_solids_pct.is_some()));
    let sure = of(|listed| !listed.is_contested() && listed.calls().any(|(_, call)| call.measured));
    html! {
        (page::advice_ways("/advice"))
        h1 { "Advice" }
        p {
            "Which ones, how many and when, for one garden and one purpose: that answer rests on the garden's "
            "weather (last and first frost, and some years of daily warmth), on how each variety ripens, and on "
            "what the fruit is wanted for. What each variety would bring week by week is in the "
            a href="/forecast" { "forecast" } ", by the stations that are kept under " a href="/weather" { "Weather" }
            "; plant counts for a purpose are not given here yet."
        }
        h2 { "What the house knows towards it" }
        dl.about {
            div { dt { "Picks, which a ripening curve is drawn from" } dd { (picked) " of " (all) } }
            div { dt { "Weight of a fruit" } dd { (weighed) " of " (all) } }
            div { dt { "Soluble solids, for boiling down" } dd { (solids) " of " (all) } }
            div { dt { "Calls that are sure" } dd { (sure) " of " (all) } }
        }
        p { "To choose by habit, class or colour now, use the filters of " a href="/" { "the list" } "." }
    }
}
