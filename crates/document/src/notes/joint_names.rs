//! Names of joints as a sentence takes them.

/// With its article: `the screws`, but `glue line 1`.
pub(super) fn definite(name: &str) -> String {
    let has_article = name.starts_with("the ");
    let numbered = name.ends_with(|letter: char| letter.is_ascii_digit());
    if has_article || numbered { name.to_owned() } else { format!("the {name}") }
}

/// Whether a name speaks of several things: `screws`, `nails 2`, but not `glue line 1`.
pub(super) fn is_plural(name: &str) -> bool {
    let word = name.trim_end_matches(|letter: char| letter.is_ascii_digit() || letter == ' ');
    word.ends_with('s') && !word.ends_with("ss")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fasteners_are_many_and_have_an_article() {
        assert!(is_plural("bolts") && is_plural("nails 2"));
        assert!(!is_plural("glue line 1") && !is_plural("cross"));
        assert_eq!(["bolts", "nails 2", "the weld"].map(definite), ["the bolts", "nails 2", "the weld"]);
    }
}
