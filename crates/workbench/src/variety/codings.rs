//! The same evidence in the states of the open descriptor standards.

use crate::page::{self, scrolling};
use house::show::{Coded, Coding};
use maud::{Markup, html};
use record::language;

/// A table a standard: first what is coded, then what is not and why.
pub(super) fn section(codings: &[Coding]) -> Markup {
    html! {
        @if !codings.is_empty() {
            section aria-labelledby="codings" {
                h2 #codings { "In the descriptor standards" }
                @for of_standard in codings.chunk_by(|one, next| one.standard == next.standard) {
                    (standard(of_standard))
                }
            }
        }
    }
}

fn standard(codings: &[Coding]) -> Markup {
    let name = codings.first().map(|coding| coding.standard.as_str()).unwrap_or_default();
    let is_coded = |coding: &&Coding| !matches!(coding.coded, Coded::NotCoded { .. });
    let coded: Vec<&Coding> = codings.iter().filter(is_coded).collect();
    let not: Vec<&Coding> = codings.iter().filter(|coding| !is_coded(coding)).collect();
    html! {
        h3 { (name) }
        @if coded.is_empty() {
            p { "Nothing is coded yet." }
        } @else {
            (scrolling(&format!("States of {name}"), &table(name, &coded)))
        }
        @if !not.is_empty() {
            details {
                summary { (not.len()) " not coded, and why" }
                dl.not-coded {
                    @for coding in not { (why_not(coding)) }
                }
            }
        }
    }
}

fn table(name: &str, coded: &[&Coding]) -> Markup {
    html! {
        table.codings {
            caption.unseen { "States of " (name) }
            (page::heads(&["Characteristic", "State", "Wording", "Remarks"]))
            tbody {
                @for coding in coded {
                    tr {
                        th scope="row" { (coding.characteristic) }
                        (state(&coding.coded))
                        td { (remarks(coding)) }
                    }
                }
            }
        }
    }
}

fn state(coded: &Coded) -> Markup {
    html! {
        @match coded {
            Coded::State { note, wording, share, basis, .. } => {
                td.number { (note) }
                td { (wording) " " span.chance { (language::chance(*share)) } br; span.basis { (basis) } }
            }
            Coded::Figure { words, .. } => { td {} td { (words) } }
            Coded::NotCoded { why } => { td {} td { (why) } }
        }
    }
}

fn remarks(coding: &Coding) -> Markup {
    let status = match &coding.coded {
        Coded::State { status, .. } | Coded::Figure { status, .. } => status.mark(),
        Coded::NotCoded { .. } => None,
    };
    html! {
        @if let Some(status) = status { em { (status) } }
        @if !coding.shortfalls.is_empty() {
            details {
                summary { "Falls short of what is asked" }
                ul { @for shortfall in &coding.shortfalls { li { (shortfall) } } }
            }
        }
    }
}

fn why_not(coding: &Coding) -> Markup {
    html! {
        div {
            dt { (coding.characteristic) }
            dd { @if let Coded::NotCoded { why } = &coding.coded { (why) } }
        }
    }
}
