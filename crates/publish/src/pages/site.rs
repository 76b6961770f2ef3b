//! Where the pages will stand on the web, and the map of them for those who gather the web.

use crate::pages::places::Depth;
use crate::pages::{File, Folder};

/// An address under which a folder of pages is served: `https://example.org/list/`, ending in a slash.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SiteAddress(String);

impl SiteAddress {
    /// Takes an `https://` or `http://` address of letters, figures and the signs `-._~/:`; a slash is added at the
    /// end where it lacks one.
    ///
    /// # Examples
    /// `SiteAddress::new("https://example.org/list")` is `https://example.org/list/`.
    #[must_use]
    pub fn new(address: &str) -> Option<Self> {
        let host = address.strip_prefix("https://").or_else(|| address.strip_prefix("http://"))?;
        let is_plain = |sign: char| sign.is_ascii_alphanumeric() || "-._~/:".contains(sign);
        let begins = host.starts_with(|sign: char| sign.is_ascii_alphanumeric());
        let slash = if address.ends_with('/') { "" } else { "/" };
        (begins && host.chars().all(is_plain)).then(|| Self(format!("{address}{slash}")))
    }

    /// The address, ending in a slash.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

/// The site map, where the house has said where the pages will stand.
///
/// # Source
/// sitemaps.org, "Sitemaps XML format" 0.9, which takes 50,000 addresses a file.
pub(super) fn map(folder: &Folder) -> Option<File> {
    /// Most addresses of one map. Source: as above.
    const MOST_ADDRESSES: usize = 50_000;
    let site = folder.list.site.as_ref()?;
    let places = &folder.places;
    let top = ["index.html", "names.html", "what-is-it.html", "how-we-know.html"].map(str::to_owned);
    let shelves = places.shelves.iter().map(|shelf| places.shelf(shelf, 0));
    let habits = (0..folder.list.habits.len()).map(|habit| places.habit(habit, 0));
    let varieties = (0..folder.len()).map(|entry| places.variety(entry));
    let pages = top.into_iter().chain(shelves).chain(habits).chain(varieties).take(MOST_ADDRESSES);
    let day = folder.list.made_on;
    let urls: String = pages
        .map(|page| {
            let address = Depth::Top.to(&page);
            format!("<url><loc>{}{address}</loc><lastmod>{day}</lastmod></url>\n", site.as_str())
        })
        .collect();
    let map = format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n\
         <urlset xmlns=\"http://www.sitemaps.org/schemas/sitemap/0.9\">\n{urls}</urlset>\n"
    );
    Some(File { path: "sitemap.xml".to_owned(), bytes: map.into_bytes() })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_plain_addresses_of_the_web_are_taken() {
        let taken = |address| SiteAddress::new(address).map(|site| site.as_str().to_owned());
        assert_eq!(taken("https://example.org/list").as_deref(), Some("https://example.org/list/"));
        assert_eq!(taken("http://localhost:8080/").as_deref(), Some("http://localhost:8080/"));
        for odd in [
            "",
            "example.org",
            "javascript:alert(1)",
            "https://",
            "https:///x",
            "https://a b",
            "https://a/<b>",
        ] {
            assert_eq!(taken(odd), None, "{odd:?}");
        }
    }
}
