//! The scale card that lies beside fruit on photographs: for fruit of any plot, or of one.

use super::seed::led_to;
use crate::desk::Desk;
use crate::fields::Sent;
use crate::trouble::Trouble;
use axum::Form;
use axum::extract::State;
use axum::response::Redirect;
use house::folder::House;
use house::photo::PlotSaid;
use house::photo::card::{self, Paper};
use jiff::ZonedDateTime;
use maud::{Markup, html};
use record::language::System;

/// How the names of printed cards begin.
pub(super) const STEM: &str = "scale-card";

/// The form of a card.
pub(super) fn form() -> Markup {
    html! {
        form.decide method="post" action="/print/card" {
            label {
                span { "For the fruit of this plot, as on its stake; of any, if empty" }
                input name="plot" autocomplete="off" maxlength="100";
            }
            label {
                span { "Its grow-out, if several have such a plot" }
                input name="grow-out" autocomplete="off" maxlength="200";
            }
            button.strong { "Print the card" }
        }
    }
}

/// Prints a card.
pub(crate) async fn print(State(desk): State<Desk>, Form(sent): Sent) -> Result<Redirect, Trouble> {
    let today = ZonedDateTime::now().date();
    let grow_out = sent.get("grow-out").map(str::to_owned);
    let plot = sent.get("plot").map(|label| PlotSaid { grow_out, label: label.to_owned() });
    let story = move |house: &House| {
        let paper = match house.settings.units.first {
            System::Us => Paper::UsLetter,
            System::Metric => Paper::A4,
        };
        let file = card::file(house, plot.as_ref());
        Ok(card::print(house, plot.as_ref(), paper, today, &file)?.file)
    };
    let (_, file) = desk.ask(story).await?;
    Ok(led_to(&file, "card", ""))
}
