//! The fields of a form that was sent: names and values in the order of the page, names repeated where
//! several boxes were ticked.

use axum::Form;

/// What a form sends.
pub(crate) type Sent = Form<Fields>;

/// Names and values.
#[derive(Debug, Default, serde::Deserialize)]
#[serde(transparent)]
pub(crate) struct Fields(Vec<(String, String)>);

impl Fields {
    /// The first value of that name, without spaces round it; nothing where it is empty.
    pub(crate) fn get(&self, name: &str) -> Option<&str> {
        let found = self.0.iter().find(|(field, _)| field == name);
        found.map(|(_, value)| value.trim()).filter(|value| !value.is_empty())
    }

    /// The first value of that name as it was sent.
    pub(crate) fn whole(&self, name: &str) -> Option<&str> {
        self.0.iter().find(|(field, _)| field == name).map(|(_, value)| value.as_str())
    }

    /// Every value of that name.
    pub(crate) fn every<'a>(&'a self, name: &'a str) -> impl Iterator<Item = &'a str> {
        self.0.iter().filter(move |(field, _)| field == name).map(|(_, value)| value.as_str())
    }
}

/// What was typed in a field of an address, without spaces round it; nothing where it is empty.
pub(crate) fn said(field: Option<&String>) -> Option<&str> {
    field.map(|words| words.trim()).filter(|words| !words.is_empty())
}
