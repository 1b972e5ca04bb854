//! What the lecturer's own names become in symbols and in words.

use crate::role::{Role, Symbol};
use crate::style::Style;

/// The index of the symbol of something that the lecturer names: `P2` is the P with index 2, `P` stands alone,
/// `crane` becomes the index itself, and so does a number.
///
/// `others` are the names of all things of the same role, in which no two may get one index.
pub(crate) fn index_of(name: &str, others: &[&str]) -> String {
    let index = shortened(name);
    let twins = others.iter().filter(|other| shortened(other) == index).count();
    if twins > 1 { name.to_owned() } else { index.to_owned() }
}

fn shortened(name: &str) -> &str {
    let mut letters = name.chars();
    let first_is_letter = letters.next().is_some_and(char::is_alphabetic);
    let rest = letters.as_str();
    let rest = rest.strip_prefix('_').unwrap_or(rest);
    if first_is_letter && rest.chars().all(|c| c.is_ascii_digit()) { rest } else { name }
}

/// The course's letters of forces and spread loads, to which indices are added.
pub(crate) struct LoadLetters {
    pub(crate) force: String,
    pub(crate) spread: String,
}

impl LoadLetters {
    pub(crate) fn of(style: &Style) -> Self {
        let letter = |role| {
            let text = style.symbol(&Symbol::plain(role)).plain();
            text.chars().take(1).collect()
        };
        Self { force: letter(Role::PointForce), spread: letter(Role::SpreadLoad) }
    }
}

/// The index that writes a spread load with something added below its letter: `w` and `start` become `w_start`,
/// `w1` becomes `w_1, start`; without a name the course's own letter is taken.
pub(crate) fn with_below(letter: &str, name: &str, below: &str) -> String {
    let mut letters = name.chars();
    let first = letters.next();
    let rest = letters.as_str();
    let rest = rest.strip_prefix('_').unwrap_or(rest);
    match first {
        None => format!("{letter}_{below}"),
        Some(first) if first.is_alphabetic() && rest.is_empty() => format!("{first}_{below}"),
        Some(first) if first.is_alphabetic() && rest.chars().all(|c| c.is_ascii_digit()) => {
            format!("{first}_{rest}, {below}")
        }
        Some(_) => format!("{letter}_{name}, {below}"),
    }
}

/// A part's or a joint's name in a sentence: `the top plank`. What is numbered, and what has its article already, has none.
pub(crate) fn with_article(name: &str) -> String {
    let numbered = name.ends_with(|last: char| last.is_ascii_digit());
    if numbered { name.to_owned() } else { with_the(name) }
}

/// With an article before it, where it has none.
pub(crate) fn with_the(name: &str) -> String {
    let has_one = ["the ", "The ", "a ", "an "].iter().any(|article| name.starts_with(article));
    if has_one { name.to_owned() } else { format!("the {name}") }
}

/// Whether a name is only a number that was made for it.
pub(crate) fn is_number(name: &str) -> bool {
    !name.is_empty() && name.bytes().all(|b| b.is_ascii_digit())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_letter_with_figures_gives_its_figures_as_the_index() {
        let names = ["P", "P2", "P_3", "crane", "4"];
        let indices: Vec<_> = names.iter().map(|name| index_of(name, &names)).collect();
        assert_eq!(indices, ["", "2", "3", "crane", "4"]);
    }

    #[test]
    fn what_is_added_goes_below_the_letter() {
        let cases = [("w", "w_start"), ("w1", "w_1, start"), ("", "q_start"), ("2", "q_2, start")];
        for (name, expected) in cases {
            assert_eq!(with_below("q", name, "start"), expected);
        }
        assert_eq!(with_below("q", "snow", "start"), "q_snow, start");
    }

    #[test]
    fn names_that_would_share_an_index_keep_their_own() {
        let names = ["P1", "F1"];
        assert_eq!(index_of("P1", &names), "P1");
        assert_eq!(index_of("F1", &names), "F1");
    }
}
