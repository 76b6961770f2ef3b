//! What a guide says that a class, a mark or a habit is good for. Start at [`Uses`].

use crate::guide::reading::{GuideFault, Text};
use record::purpose::Purpose;
use toml::Spanned;

/// What something is good for, and where that comes from. It is the guide's word, never a measurement.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Uses {
    /// What it is good for; empty in a guide that says nothing of it.
    pub purposes: Vec<Purpose>,
    /// Where that comes from.
    pub source: String,
}

/// Checks the uses at a key.
///
/// # Errors
/// [`GuideFault`] at a use that is not known, stands twice or names no source.
pub(crate) fn checked(
    text: &Text<'_>,
    key: &str,
    raw: &[Spanned<String>],
    source: &str,
) -> Result<Uses, GuideFault> {
    let mut purposes = Vec::with_capacity(raw.len());
    for word in raw {
        if source.trim().is_empty() {
            let help = "name the source beside the uses, or write \"common practice, no source\"";
            return Err(text.fault(key, &word.span(), "uses without a source", help));
        }
        let Some(purpose) = Purpose::named(word.get_ref()) else {
            let known = Purpose::ALL.map(Purpose::name).join(", ");
            return Err(text.fault(
                key,
                &word.span(),
                "the use is not known",
                &format!("write one of {known}"),
            ));
        };
        if purposes.contains(&purpose) {
            return Err(text.fault(key, &word.span(), "the use stands twice", "keep one of the two"));
        }
        purposes.push(purpose);
    }
    Ok(Uses { purposes, source: source.to_owned() })
}
