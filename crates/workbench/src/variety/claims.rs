//! Claims beside the evidence.

use house::claims::{ClaimBeside, Standing};
use maud::{Markup, html};
use record::language::{self, Units, mass};
use record::variety::ClaimSubject;

/// The claims of a variety.
pub(super) fn section(claims: &[ClaimBeside], units: Units) -> Markup {
    html! {
        @if !claims.is_empty() {
            section aria-labelledby="claims" {
                h2 #claims { "Claims beside the evidence" }
                dl.claims {
                    @for beside in claims {
                        div {
                            dt { (subject(beside.claim.about)) }
                            dd { q { (beside.claim.words) } ": " (standing(&beside.standing, units)) }
                        }
                    }
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
    html! {
        @match standing {
            Standing::Upheld => span.standing { "upheld by the evidence" },
            Standing::Unmeasured => span.standing { "not enough evidence to say" },
            Standing::MeasuredAs(usual) => {
                strong.standing { "measured, the usual fruit weighs " (mass(*usual, units)) }
            }
            Standing::Contradicted { verdict, share } => {
                strong.standing { "the evidence says " (verdict) ", " (language::chance(*share)) }
            }
        }
    }
}
