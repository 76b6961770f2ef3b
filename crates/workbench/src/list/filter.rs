//! What the address asks of the list, and the form that asks it: every view has an address of its own.

use crate::telling::encoded;
use crate::trouble::Trouble;
use house::list::List;
use house::list::filter::{Earliness, Filter, Showing, SortedBy, Way, Which};
use maud::{Markup, html};
use record::season::Season;
use serde::Deserialize;

/// What the address asks for.
#[derive(Clone, Debug, Default, Deserialize)]
pub(crate) struct Asked {
    q: Option<String>,
    find: Option<String>,
    habit: Option<String>,
    class: Option<String>,
    colour: Option<String>,
    #[serde(rename = "for")]
    purpose: Option<String>,
    season: Option<String>,
    ripens: Option<String>,
    contested: Option<String>,
    contradicted: Option<String>,
    unmeasured: Option<String>,
    sort: Option<String>,
    way: Option<String>,
    view: Option<String>,
    page: Option<u32>,
    shelves: Option<String>,
    /// How many varieties were just called.
    pub(crate) called: Option<u64>,
}

/// What can be sorted by: the word of the address, its name, and what it sorts by.
pub(crate) const SORTS: [(&str, &str, SortedBy); 8] = [
    ("name", "Name", SortedBy::Name),
    ("weight", "Weight", SortedBy::Weight),
    ("class", "Fruit class", SortedBy::Class),
    ("habit", "Habit", SortedBy::Habit),
    ("colour", "Colour", SortedBy::Colour),
    ("days", "Days to ripe", SortedBy::Days),
    ("sureness", "How sure", SortedBy::Sureness),
    ("newest", "Newest evidence", SortedBy::Newest),
];

/// What may be so of some varieties only: the word of the address and its name.
const PLIGHTS: [(&str, &str); 3] = [
    ("contested", "Contested"),
    ("contradicted", "Claim contradicted"),
    ("unmeasured", "Something not measured"),
];

/// What a box that is ticked sends.
const ONLY: &str = "only";

impl Asked {
    /// The filter of the house; empty fields ask for nothing.
    pub(crate) fn filter(&self) -> Result<Filter, Trouble> {
        let which = |field: &Option<String>| if is_only(field) { Which::Only } else { Which::Any };
        let ripens = said(&self.ripens);
        Ok(Filter {
            words: said(&self.q),
            habit: said(&self.habit),
            class: said(&self.class),
            colour: said(&self.colour),
            purpose: said(&self.purpose),
            season: said(&self.season).map(|year| season(&year)).transpose()?,
            ripens: Earliness::ALL.into_iter().find(|one| Some(one.name()) == ripens.as_deref()),
            contested: which(&self.contested),
            contradicted: which(&self.contradicted),
            unmeasured: which(&self.unmeasured),
            find: said(&self.find),
            sorted_by: self.sorted_by(),
            way: self.way(),
            showing: Showing::Page(self.page.unwrap_or(1)),
        })
    }

    /// Whether the bench is wanted with its shelves stacked, as for a phone.
    pub(crate) fn is_stacked(&self) -> bool {
        self.shelves.as_deref() == Some("stacked")
    }

    /// Whether the rows are wanted as a plain table.
    pub(crate) fn is_table(&self) -> bool {
        self.view.as_deref() == Some("table")
    }

    /// What is sorted by.
    pub(crate) fn sorted_by(&self) -> SortedBy {
        let known = SORTS.iter().find(|(word, ..)| Some(*word) == self.sort.as_deref());
        known.map(|(.., by)| *by).unwrap_or_default()
    }

    /// Which way.
    pub(crate) fn way(&self) -> Way {
        if self.way.as_deref() == Some("down") { Way::Falling } else { Way::Rising }
    }

    /// The same varieties as another view, page or order; what is `None` is left out.
    pub(crate) fn address_with(&self, path: &str, more: &[(&'static str, String)]) -> String {
        let replaced = |name: &str| more.iter().any(|(other, _)| *other == name);
        let mut asked = self.wanted();
        asked.extend(self.order());
        asked.extend(self.view.as_ref().filter(|_| path == "/").map(|view| ("view", view.clone())));
        asked.retain(|(name, _)| !replaced(name));
        asked.extend(more.iter().filter(|(_, value)| !value.is_empty()).cloned());
        let asked = joined(&asked);
        if asked.is_empty() { path.to_owned() } else { format!("{path}?{asked}") }
    }

    /// Whether anything is wanted but the whole list.
    pub(crate) fn is_whole(&self) -> bool {
        self.wanted().is_empty()
    }

    /// Whether anything of the folded filters is chosen.
    fn is_filtered(&self) -> bool {
        self.wanted().iter().any(|(name, _)| *name != "q") || !self.order().is_empty()
    }

    fn wanted(&self) -> Vec<(&'static str, String)> {
        let fields = [
            ("q", &self.q),
            ("find", &self.find),
            ("habit", &self.habit),
            ("class", &self.class),
            ("colour", &self.colour),
            ("for", &self.purpose),
            ("season", &self.season),
            ("ripens", &self.ripens),
            ("contested", &self.contested),
            ("contradicted", &self.contradicted),
            ("unmeasured", &self.unmeasured),
        ];
        fields.into_iter().filter_map(|(name, value)| Some((name, said(value)?))).collect()
    }

    fn order(&self) -> Vec<(&'static str, String)> {
        let sort =
            self.sort.clone().filter(|_| self.sorted_by() != SortedBy::Name).map(|sort| ("sort", sort));
        let way = (self.way() == Way::Falling).then(|| ("way", "down".to_owned()));
        sort.into_iter().chain(way).collect()
    }

    fn plight(&self, name: &str) -> &Option<String> {
        match name {
            "contested" => &self.contested,
            "contradicted" => &self.contradicted,
            _ => &self.unmeasured,
        }
    }
}

fn joined(asked: &[(&'static str, String)]) -> String {
    asked.iter().map(|(name, value)| format!("{name}={}", encoded(value))).collect::<Vec<_>>().join("&")
}

fn season(year: &str) -> Result<Season, Trouble> {
    let season = year.parse().ok().and_then(Season::new);
    season.ok_or_else(|| Trouble::user(format!("{year:?} is no season"), "write a year, such as 2031"))
}

fn said(field: &Option<String>) -> Option<String> {
    field.as_ref().map(|word| word.trim().to_owned()).filter(|word| !word.is_empty())
}

fn is_only(field: &Option<String>) -> bool {
    field.as_deref() == Some(ONLY)
}

/// The form: one field for plain words, and the rest folded away until something in it is chosen.
pub(crate) fn form(asked: &Asked, list: &List) -> Markup {
    html! {
        form.ask method="get" action="/" role="search" aria-label="Ask the list" {
            label.words {
                span { "Ask in plain words" }
                input #find type="search" name="q" value=[asked.q.as_deref()] maxlength="200" autocomplete="off"
                    aria-keyshortcuts="/" placeholder="early red paste under 4 oz" ;
            }
            button { "Show" }
            @if !asked.is_whole() { a.clear href="/" { "Show all" } }
            @if let Some(view) = &asked.view { input type="hidden" name="view" value=(view); }
            details open[asked.is_filtered()] {
                summary { "Choose instead" }
                div.filter {
                    (choices(asked, list))
                    (boxes(asked))
                    (sorting(asked))
                }
            }
        }
        (reading(list))
    }
}

fn choices(asked: &Asked, list: &List) -> Markup {
    let ripens = Earliness::ALL.map(|one| one.name().to_owned());
    html! {
        (choice("habit", "Habit", "any habit", &list.habits, asked.habit.as_deref()))
        (choice("class", "Fruit class", "any class", &list.classes, asked.class.as_deref()))
        (choice("colour", "Colour", "any colour", &list.colours, asked.colour.as_deref()))
        (choice("for", "Good for", "anything", &list.purposes, asked.purpose.as_deref()))
        (choice("ripens", "Ripens", "any time", &ripens, asked.ripens.as_deref()))
        label {
            span { "Evidence of season" }
            input type="number" name="season" min="1900" max="2199" value=[asked.season.as_deref()];
        }
        label {
            span { "Letters in the name" }
            input type="text" name="find" value=[asked.find.as_deref()] maxlength="200" autocomplete="off";
        }
    }
}

fn boxes(asked: &Asked) -> Markup {
    html! {
        @for (name, words) in PLIGHTS {
            label.tick {
                input type="checkbox" name=(name) value=(ONLY) checked[is_only(asked.plight(name))];
                span { (words) }
            }
        }
    }
}

fn sorting(asked: &Asked) -> Markup {
    html! {
        label {
            span { "Sorted by" }
            select name="sort" {
                @for (word, words, by) in SORTS {
                    option value=(if by == SortedBy::Name { "" } else { word }) selected[by == asked.sorted_by()] {
                        (words)
                    }
                }
            }
        }
        label.tick {
            input type="checkbox" name="way" value="down" checked[asked.way() == Way::Falling];
            span { "Backwards" }
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

/// How the plain words were read, each piece with what it means here.
fn reading(list: &List) -> Markup {
    html! {
        @if !list.reading.is_empty() {
            section.reading aria-labelledby="reading" {
                h2 #reading { "Read as" }
                dl {
                    @for part in &list.reading {
                        div {
                            dt { (part.said) }
                            dd {
                                (part.meant)
                                @if let Some(mended) = &part.mended { " " em { "taken for \"" (mended) "\"" } }
                            }
                        }
                    }
                }
            }
        }
    }
}
