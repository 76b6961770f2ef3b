//! Claims beside the evidence, each with the records that it hangs on.

use crate::records::table::day;
use house::claims::Standing;
use house::doubts::Recorded;
use house::show::{Shown, ShownClaim};
use maud::{Markup, html};
use record::language::{Units, counted};
use record::telling::note;
use record::variety::ClaimSubject;

/// Most records that one claim lists; the table of records has them all. A choice of the page.
const MOST_LISTED: usize = 24;

/// The claims of a variety.
pub(super) fn section(shown: &Shown, units: Units) -> Markup {
    html! {
        @if !shown.claims.is_empty() {
            section aria-labelledby="claims" {
                h2 #claims { "Claims beside the evidence" }
                dl.claims {
                    @for claim in &shown.claims {
                        div {
                            dt { (subject(claim.beside.claim.about)) }
                            dd {
                                q { (claim.beside.claim.words) } ": " (standing(&claim.beside.standing, units))
                                (behind(claim, &shown.records, units))
                            }
                        }
                    }
                }
            }
        }
    }
}

/// The records that a claim hangs on, each linked; the first of them where there are many.
fn behind(claim: &ShownClaim, records: &[Recorded], units: Units) -> Markup {
    let own: Vec<&Recorded> =
        records.iter().filter(|recorded| claim.records.contains(&recorded.id)).collect();
    let more = own.len().saturating_sub(MOST_LISTED);
    html! {
        @if !own.is_empty() {
            details.behind {
                summary { (counted(own.len() as u64, "record", "records")) }
                ul {
                    @for recorded in own.iter().take(MOST_LISTED) {
                        li {
                            a href=(format!("/record/{}", recorded.id)) { (note(&recorded.note, units)) }
                            ", " (day(recorded))
                        }
                    }
                }
                @if 0 < more {
                    p { (counted(more as u64, "more stands", "more stand")) " " a href="#records" { "in the table below" } "." }
                }
            }
        }
    }
}

fn subject(about: ClaimSubject) -> &'static str {
    match about {
        ClaimSubject::Habit => "Habit",
        ClaimSubject::FruitClass => "Fruit class",
        ClaimSubject::Colour => "Colour",
        ClaimSubject::FruitWeight => "Weight of a fruit",
        ClaimSubject::DaysToMaturity => "Days to ripe fruit",
        ClaimSubject::Purpose => "Good for",
        ClaimSubject::Other => "Other",
    }
}

fn standing(standing: &Standing, units: Units) -> Markup {
    let instead = standing.instead(units);
    html! {
        @match standing {
            Standing::Upheld => span.standing { "upheld by the evidence" },
            Standing::Unmeasured => span.standing { "not enough evidence to say" },
            Standing::NotJudged => span.standing { "nothing that is measured here" },
            Standing::MeasuredAs(_) | Standing::Contradicted { .. } => {
                strong.standing { "contradicted, the evidence says " (instead.unwrap_or_default()) }
            }
        }
    }
}
