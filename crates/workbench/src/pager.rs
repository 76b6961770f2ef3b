//! Pages of a long table: which rows to show, and the links to the others.

use maud::{Markup, html};

/// Rows of one page. A choice of the page: about two screens.
const ROWS: usize = 50;

/// One page of a long table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Pager {
    page: usize,
    pages: usize,
}

impl Pager {
    /// The page that was asked for, counted from 1, as far as there is one.
    pub(crate) fn of(asked: Option<usize>, rows: usize) -> Self {
        let pages = rows.div_ceil(ROWS).max(1);
        Self { page: asked.unwrap_or(1).clamp(1, pages), pages }
    }

    /// The rows to show.
    pub(crate) fn rows<'a, T>(&self, all: &'a [T]) -> &'a [T] {
        let first = (self.page - 1) * ROWS;
        all.get(first..).map(|rest| rest.get(..ROWS).unwrap_or(rest)).unwrap_or_default()
    }

    /// Links to the pages, each at the address that `address` gives for its number.
    pub(crate) fn links(&self, what: &str, address: impl Fn(usize) -> String) -> Markup {
        links(what, self.page, self.pages, address)
    }
}

/// Links to the pages before and after one of several.
pub(crate) fn links(what: &str, page: usize, pages: usize, address: impl Fn(usize) -> String) -> Markup {
    html! {
        @if 1 < pages {
            nav.pager aria-label=(format!("Pages of {what}")) {
                @if 1 < page { a rel="prev" href=(address(page - 1)) { "Previous page" } }
                span { "Page " (page) " of " (pages) }
                @if page < pages { a rel="next" href=(address(page + 1)) { "Next page" } }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_is_on_one_page() {
        let all: Vec<usize> = (0..120).collect();
        let shown: Vec<usize> =
            (1..=3).flat_map(|page| Pager::of(Some(page), 120).rows(&all).to_vec()).collect();
        assert_eq!(shown, all);
        assert_eq!(Pager::of(Some(99), 120), Pager::of(Some(3), 120));
        assert!(Pager::of(None, 0).rows::<usize>(&[]).is_empty());
    }
}
