//! How many: plants to look at and to save seed from, and a germination test in small steps.

use super::ways;
use crate::desk::Desk;
use crate::page::{self, Place, scrolling};
use crate::trouble::Trouble;
use axum::extract::{Query, State};
use house::lots::fault::SeedRoomFault;
use house::lots::numbers::{self, Asked, Numbers};
use house::lots::steps::{self, Steps};
use house::lots::telling;
use maud::{Markup, html};
use record::share::WholePercent;
use serde::Deserialize;

/// What stands in the forms.
#[derive(Debug, Default, Deserialize)]
pub(crate) struct Asking {
    share: Option<String>,
    sure: Option<String>,
    plants: Option<String>,
    good: Option<String>,
    poor: Option<String>,
    seeds: Option<String>,
    most: Option<String>,
}

/// Shows the numbers.
pub(crate) async fn show(State(desk): State<Desk>, Query(asking): Query<Asking>) -> Result<Markup, Trouble> {
    let house = desk.house().await?;
    let body = html! {
        (ways("/seed-room/how-many"))
        h1 { "How many" }
        (plants(&asking))
        (small_steps(&asking))
    };
    Ok(page::page(&house, Place::SeedRoom, "How many", body))
}

fn field(words: &str, name: &str, value: &str) -> Markup {
    html! {
        label {
            span { (words) }
            input name=(name) value=(value) inputmode="decimal" maxlength="8" autocomplete="off";
        }
    }
}

fn said<'a>(typed: Option<&'a String>, else_: &'a str) -> &'a str {
    typed.map(|typed| typed.trim()).filter(|typed| !typed.is_empty()).unwrap_or(else_)
}

fn fault(fault: &SeedRoomFault) -> Markup {
    html! { div.fault role="alert" { p { (fault) } p.help { (fault.help()) } } }
}

fn plants(asking: &Asking) -> Markup {
    let (share, sure) = (said(asking.share.as_ref(), "1"), said(asking.sure.as_ref(), "95"));
    let plants = said(asking.plants.as_ref(), "60");
    let found = counted_plants(share, sure, plants);
    html! {
        h2 { "Plants to look at, and to save seed from" }
        form.cells method="get" action="/seed-room/how-many" {
            (field("Off-types, or plants that carry what is to be kept, in per cent", "share", share))
            (field("How sure, in per cent", "sure", sure))
            (field("Plants that there are", "plants", plants))
            div.acts { button.strong { "Count" } }
        }
        @match found {
            Err(wrong) => (fault(&wrong)),
            Ok((asked, found)) => ul { @for line in telling::numbers::lines(asked, &found) { li { (line) } } },
        }
        p.help {
            "A lot is never told as true: so many plants without an off-type give a limit. The standard of 1 in 100 for tomato is that of "
            "the UPOV test guidelines (from memory, unverified); a tomato carries about one independent copy of a gene, so that as many "
            "plants keep what is rare as see it."
        }
    }
}

fn counted_plants(share: &str, sure: &str, plants: &str) -> Result<(Asked, Numbers), SeedRoomFault> {
    let sure = per_cent(sure)?;
    let plants = Some(whole(plants)?);
    let asked = Asked { share: numbers::share(share)?, sure, plants };
    Ok((asked, numbers::numbers(asked)?))
}

fn per_cent(typed: &str) -> Result<WholePercent, SeedRoomFault> {
    let percent = typed.trim_end_matches('%').trim().parse().ok().and_then(WholePercent::new);
    percent.ok_or_else(|| not_read(typed, "no whole per cent", "write 1 to 99"))
}

fn whole(typed: &str) -> Result<u32, SeedRoomFault> {
    typed.parse().map_err(|_| not_read(typed, "no whole number", "write a whole number, such as 60"))
}

fn not_read(value: &str, reason: &str, remedy: &str) -> SeedRoomFault {
    SeedRoomFault::NotRead { value: value.to_owned(), reason: reason.to_owned(), remedy: remedy.to_owned() }
}

fn small_steps(asking: &Asking) -> Markup {
    let (good, poor) = (said(asking.good.as_ref(), "90"), said(asking.poor.as_ref(), "75"));
    let (seeds, most) = (said(asking.seeds.as_ref(), "25"), said(asking.most.as_ref(), "8"));
    let planned = || {
        let (good, poor) = (per_cent(good)?, per_cent(poor)?);
        steps::steps(steps::Asked { good, poor, at_once: whole(seeds)?, most: whole(most)? })
    };
    html! {
        h2 { "A germination test in small steps" }
        p { "For small lots: a few seeds at a time, and it stops as soon as the seed has told. It is no official test, which takes 400 seeds." }
        form.cells method="get" action="/seed-room/how-many" {
            (field("A lot that should pass sprouts, in per cent", "good", good))
            (field("A lot that should not sprouts, in per cent", "poor", poor))
            (field("Seeds laid out in each step", "seeds", seeds))
            (field("Most steps", "most", most))
            div.acts { button.strong { "Plan the steps" } }
        }
        @match planned() {
            Err(wrong) => (fault(&wrong)),
            Ok(steps) => (told(&steps)),
        }
    }
}

fn told(steps: &Steps) -> Markup {
    let so_far = steps.plan.steps().iter().scan(0_u32, |so_far, step| {
        *so_far = so_far.saturating_add(step.more);
        Some((*so_far, step))
    });
    let rows = html! {
        table {
            caption.unseen { "Steps" }
            (page::heads(&["Seeds so far", "Pass at", "Fail at"]))
            tbody {
                @for (so_far, step) in so_far {
                    tr {
                        th scope="row" { (so_far) }
                        td { @match step.accept_at { Some(most) => (format!("{most} dead or fewer")), None => "cannot pass yet" } }
                        td { (step.reject_at) " dead or more" }
                    }
                }
            }
        }
    };
    let ends = html! {
        table {
            caption.unseen { "How often it ends so" }
            (page::heads(&["True germination", "Passes", "Fails", "Seeds on the mean"]))
            tbody {
                @for (truly, ends) in &steps.ends {
                    tr {
                        th scope="row" { (truly.get()) "%" }
                        td { (telling::in_100(ends.accepted)) }
                        td { (telling::in_100(ends.rejected)) }
                        td { (format!("{:.0}", ends.looked_at)) }
                    }
                }
            }
        }
    };
    html! {
        (scrolling("Steps", &rows))
        h3 { "How often it ends so" }
        (scrolling("How often it ends so", &ends))
    }
}
