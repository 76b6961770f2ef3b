//! Which links a drawing follows: those of the page itself and of the web, and no other.

/// Whether a link is relative, or leads to `http`, `https` or `mailto`. A link that could run a script
/// is left out of the drawing.
pub(crate) fn is_safe(link: &str) -> bool {
    if link.is_empty() || link.chars().any(char::is_control) || link.starts_with(char::is_whitespace) {
        return false;
    }
    let scheme = link.split(['/', '?', '#']).next().and_then(|start| start.split_once(':'));
    scheme.is_none_or(|(scheme, _)| {
        ["http", "https", "mailto"].iter().any(|safe| scheme.eq_ignore_ascii_case(safe))
    })
}

#[cfg(test)]
mod tests {
    use super::is_safe;

    #[test]
    fn scripts_are_not_followed() {
        for link in
            ["javascript:alert(1)", "JavaScript:x", " javascript:x", "java\nscript:x", "data:text/html,x", ""]
        {
            assert!(!is_safe(link), "{link:?}");
        }
        for link in ["/variety/7", "marl.html#calls", "https://example.org/a:b", "?name=a:b", "#x:y"] {
            assert!(is_safe(link), "{link:?}");
        }
    }
}
