//! The frame of every page: its head, the ways through the folder, and its foot.

use crate::pages::places::Depth;
use crate::pages::{File, Folder};
use maud::{DOCTYPE, Markup, PreEscaped, html};

/// What a page may load: its own style, scripts and pictures, and nothing else from anywhere.
/// Source: W3C, "Content Security Policy Level 3".
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; base-uri 'none'; \
     form-action 'none'";

/// Where a page belongs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Place {
    /// The list.
    List,
    /// The index by name.
    Names,
    /// For your garden.
    Garden,
    /// Side by side.
    Beside,
    /// What is it?
    What,
    /// How we know.
    Know,
    /// None of these.
    Elsewhere,
}

/// The ways through the folder.
const WAYS: [(Place, &str, &str); 6] = [
    (Place::List, "index.html", "The list"),
    (Place::Names, "names.html", "By name"),
    (Place::Garden, "for-your-garden.html", "For your garden"),
    (Place::Beside, "side-by-side.html", "Side by side"),
    (Place::What, "what-is-it.html", "What is it?"),
    (Place::Know, "how-we-know.html", "How we know"),
];

/// A page before it is framed.
pub(super) struct Page<'a> {
    /// Its address inside the folder.
    pub(super) path: String,
    /// Its title, beside the house's name.
    pub(super) title: &'a str,
    /// What it holds, in a sentence, for those who list pages.
    pub(super) about: &'a str,
    /// Where it belongs.
    pub(super) place: Place,
    /// What else stands in its head: data, scripts.
    pub(super) head: Markup,
    /// What it shows.
    pub(super) body: Markup,
}

impl Page<'_> {
    fn depth(&self) -> Depth {
        if self.path.contains('/') { Depth::Inner } else { Depth::Top }
    }

    /// The page in its frame.
    pub(super) fn framed(self, folder: &Folder) -> File {
        let depth = self.depth();
        let house = &folder.list.house;
        let markup = html! {
            (DOCTYPE)
            html lang="en" {
                head {
                    meta charset="utf-8";
                    meta http-equiv="Content-Security-Policy" content=(POLICY);
                    meta name="referrer" content="no-referrer";
                    meta name="viewport" content="width=device-width, initial-scale=1";
                    meta name="color-scheme" content="light dark";
                    title { (self.title) " · " (house) }
                    meta name="description" content=(self.about);
                    link rel="icon" type="image/svg+xml" href=(depth.to("mark.svg"));
                    link rel="stylesheet" href=(depth.to("style.css"));
                    script src=(depth.to("script/first.js")) {}
                    (self.head)
                }
                body {
                    a.skip href="#content" { "Skip to the content" }
                    header.house {
                        p.name { a href=(depth.to("index.html")) { bdi { (house) } } }
                        nav aria-label="These pages" { (ways(depth, self.place)) }
                    }
                    main #content tabindex="-1" { (self.body) }
                    (foot(folder))
                }
            }
        };
        File { path: self.path, bytes: markup.into_string().into_bytes() }
    }
}

fn ways(depth: Depth, here: Place) -> Markup {
    html! {
        ul {
            @for (place, address, words) in WAYS {
                li { a href=(depth.to(address)) aria-current=[(place == here).then_some("true")] { (words) } }
            }
        }
    }
}

fn foot(folder: &Folder) -> Markup {
    html! {
        footer.house {
            p {
                "Made " (folder.list.made_on.strftime("%-d %B %Y")) " with locule from the house's own grow-outs. "
                "These pages keep no cookies and send nothing anywhere."
            }
        }
    }
}

/// The scripts that a page needs beside the first, in the order that they need each other.
pub(super) fn scripts(depth: Depth, names: &[&str]) -> Markup {
    html! { @for name in names { script src=(depth.to(name)) defer {} } }
}

/// A drawing, set in the page as it is: beside [`crate::pages::linked`] the only markup that is not written by maud.
pub(super) fn drawn(svg: &drawing::svg::Svg) -> Markup {
    PreEscaped(svg.markup().to_owned())
}

/// The ways between the pages of a long list.
pub(super) fn pager(depth: Depth, here: usize, pages: usize, address: impl Fn(usize) -> String) -> Markup {
    html! {
        @if 1 < pages {
            nav.pager aria-label="Pages of this list" {
                ul {
                    @for page in 0..pages {
                        li {
                            a href=(depth.to(&address(page))) aria-current=[(page == here).then_some("page")] {
                                (page + 1)
                            }
                        }
                    }
                }
            }
        }
    }
}

/// A count for words.
pub(super) fn count(of: usize) -> u64 {
    u64::try_from(of).unwrap_or(u64::MAX)
}
