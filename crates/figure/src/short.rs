//! Sentences held to a length.

/// The longest short description, in characters.
pub(crate) const SHORT: usize = 250;

/// The text, cut at a word where it is longer than a short description may be.
pub(crate) fn at_most(text: &str) -> String {
    if text.chars().count() <= SHORT {
        return text.to_owned();
    }
    let head: String = text.chars().take(SHORT - 1).collect();
    let end = head.rfind(' ').unwrap_or(head.len());
    format!("{}…", &head[..end])
}
