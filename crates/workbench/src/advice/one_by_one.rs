//! The questions of advice one at a time, for who would rather be asked than fill in a form.
//!
//! What was answered goes along in the address, so that nothing is kept, the way back is the browser's own, and the last answer leads
//! to the plan that all questions at once would lead to. Start at [`show`].

use super::{Asked, Offered, form, offered, said};
use crate::desk::Desk;
use crate::fields::Fields;
use crate::page::{self, Place};
use crate::trouble::Trouble;
use axum::extract::{Query, State};
use maud::{Markup, html};

/// A question.
struct Question {
    asks: &'static str,
    help: &'static str,
    /// How the names of its fields begin.
    fields: &'static [&'static str],
    cells: fn(&Asked, &Offered) -> Markup,
}

/// The questions in their order: the garden, the kitchen, the table, and what is liked.
const QUESTIONS: [Question; 9] = [
    Question {
        asks: "Where is the garden?",
        help: "Its weather, or that of the nearest station, says when plants go out and when fruit ripen.",
        fields: &["weather"],
        cells: form::place,
    },
    Question {
        asks: "How large is the bed?",
        help: "With the room that each plant has. The usual is two feet (60 cm) along the row and four (120 cm) between rows.",
        fields: &["bed-", "between-"],
        cells: |asked, _| form::bed(asked),
    },
    Question {
        asks: "Are there containers too?",
        help: "One plant in each. Leave it empty where there are none.",
        fields: &["container"],
        cells: |asked, _| form::containers(asked),
    },
    Question {
        asks: "What covers the plants, and what are they tied to?",
        help: "A row cover lets plants out earlier. Stakes or cages leave out what grows taller than they are.",
        fields: &["row-cover", "stake-height"],
        cells: |asked, _| form::over_and_beside(asked),
    },
    Question {
        asks: "When do plants go out?",
        help: "Leave the day empty and the calendar says it. A second set two weeks later lengthens the harvest.",
        fields: &["plants-out", "waves"],
        cells: |asked, _| form::days(asked),
    },
    Question {
        asks: "What is put up?",
        help: "So many jars, or so much fruit, on so many kitchen days. Leave jars and fruit empty where nothing is.",
        fields: &["put-up-1-"],
        cells: |asked, _| form::put_up_cells(1, &asked.put_up.first().cloned().unwrap_or_default()),
    },
    Question {
        asks: "Where is it canned, and in what?",
        help: "Times and pressures go by how high the kitchen lies. Leave it empty where nothing is canned.",
        fields: &["altitude", "canner"],
        cells: |asked, _| form::canning(asked),
    },
    Question {
        asks: "What is eaten fresh?",
        help: "So much a week. Without days, from the first week in which a few plants bring so much to the last.",
        fields: &["fresh-1-"],
        cells: |asked, _| form::fresh_cells(1, &asked.fresh.first().cloned().unwrap_or_default()),
    },
    Question {
        asks: "How sure must it be, and what is liked?",
        help: "Eight years of ten is usual; ten takes many more plants. Name varieties that must stand, or must not.",
        fields: &["years-in-ten", "most-varieties", "only", "wanted", "barred", "for-seed"],
        cells: |asked, _| html! { (form::sure(asked)) (form::liked(asked)) },
    },
];

/// The field that says which question is asked, counted from 1.
const AT: &str = "question";

/// Asks one question, with what was answered before.
pub(crate) async fn show(State(desk): State<Desk>, Query(sent): Query<Fields>) -> Result<Markup, Trouble> {
    let (house, offered) = desk.ask(offered).await?;
    let asked = if sent.get("weather").is_some() { said::read(&sent) } else { said::usual(&house) };
    let at = sent.get(AT).and_then(|typed| typed.parse().ok()).unwrap_or(1).clamp(1, QUESTIONS.len());
    Ok(page::page(&house, Place::Advice, "Advice", body(at, &asked, &offered)))
}

fn body(at: usize, asked: &Asked, offered: &Offered) -> Markup {
    let own = QUESTIONS.get(at - 1);
    html! {
        (page::advice_ways("/advice"))
        h1 { "Advice" }
        @if let Some(own) = own {
            form.lay-out method="get" action="/advice/questions" {
                h2 #asked { (own.asks) }
                p.help { "Question " (at) " of " (QUESTIONS.len()) ". " (own.help) }
                @for (name, value) in said::written(asked) {
                    @if !own.fields.iter().any(|field| name.starts_with(field)) && !value.is_empty() {
                        input type="hidden" name=(name) value=(value);
                    }
                }
                div.cells { ((own.cells)(asked, offered)) }
                (ways(at))
            }
        }
    }
}

/// On, back, or straight to the plan. What is pressed by the enter key comes first.
fn ways(at: usize) -> Markup {
    let is_last = at == QUESTIONS.len();
    html! {
        p.acts {
            @if is_last {
                button.strong formaction="/advice" { "Plan it" }
            } @else {
                button.strong name=(AT) value=(at + 1) { "On to the next" }
            }
            @if 1 < at { button name=(AT) value=(at - 1) formnovalidate { "Back" } }
            @if !is_last { button formaction="/advice" { "Plan it now" } }
        }
    }
}
