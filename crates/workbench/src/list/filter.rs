//! The filters of the list: a plain form that asks for the same page, so that every view has an address.

use crate::telling::encoded;
use house::list::{Contested, Filter, List};
use maud::{Markup, html};
use serde::Deserialize;

/// What the address asks for.
#[derive(Clone, Debug, Default, Deserialize)]
pub(crate) struct Asked {
    find: Option<String>,
    habit: Option<String>,
    class: Option<String>,
    colour: Option<String>,
    contested: Option<String>,
    shelves: Option<String>,
    /// How many varieties were just called.
    pub(crate) called: Option<u64>,
}

impl Asked {
    /// The filter of the house; empty fields ask for nothing.
    pub(crate) fn filter(&self) -> Filter {
        Filter {
            habit: said(&self.habit),
            class: said(&self.class),
            colour: said(&self.colour),
            contested: if self.contested() { Contested::Only } else { Contested::Any },
            find: said(&self.find),
        }
    }

    /// Whether the bench is wanted with its shelves stacked, as for a phone.
    pub(crate) fn is_stacked(&self) -> bool {
        self.shelves.as_deref() == Some("stacked")
    }

    fn contested(&self) -> bool {
        self.contested.as_deref() == Some("only")
    }

    /// What an address of the same view asks, such as `habit=determinate`; empty for the whole list.
    pub(crate) fn address(&self) -> String {
        let fields = [
            ("find", &self.find),
            ("habit", &self.habit),
            ("class", &self.class),
            ("colour", &self.colour),
            ("contested", &self.contested),
        ];
        let asked = fields.into_iter().filter_map(|(name, value)| Some((name, said(value)?)));
        asked.map(|(name, value)| format!("{name}={}", encoded(&value))).collect::<Vec<_>>().join("&")
    }
}

fn said(field: &Option<String>) -> Option<String> {
    field.as_ref().map(|word| word.trim().to_owned()).filter(|word| !word.is_empty())
}

/// The form.
pub(crate) fn form(asked: &Asked, list: &List) -> Markup {
    html! {
        form.filter method="get" action="/" role="search" aria-label="Filter the list" {
            label {
                span { "Find" }
                input #find type="search" name="find" value=[asked.find.as_deref()] maxlength="200"
                    autocomplete="off" aria-keyshortcuts="/";
            }
            (choice("habit", "Habit", "any habit", &list.habits, asked.habit.as_deref()))
            (choice("class", "Fruit class", "any class", &list.classes, asked.class.as_deref()))
            (choice("colour", "Colour", "any colour", &list.colours, asked.colour.as_deref()))
            label.tick {
                input type="checkbox" name="contested" value="only" checked[asked.contested()];
                span { "Contested only" }
            }
            button { "Show" }
            @if !asked.address().is_empty() { a.clear href="/" { "Show all" } }
        }
    }
}

fn choice(name: &str, label: &str, any: &str, words: &[String], chosen: Option<&str>) -> Markup {
    html! {
        label {
            span { (label) }
            select name=(name) {
                option value="" { (any) }
                @for word in words {
                    option value=(word) selected[chosen == Some(word.as_str())] { (word) }
                }
            }
        }
    }
}
