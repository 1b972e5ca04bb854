//! The names of an item's variables.
//!
//! An item with one answer has the names that every example of the standard has: RESPONSE, SCORE, FEEDBACK. An item with
//! more has a set of them for each answer, so that each has its own feedback, and SCORE is their sum.

use super::identifier::Identifier;
use super::item::Item;

pub(super) struct Variables<'a> {
    item: &'a Item,
}

/// The whole mark of the item.
pub(super) const SCORE: &str = "SCORE";

impl<'a> Variables<'a> {
    pub fn of(item: &'a Item) -> Self {
        Self { item }
    }

    /// Whether the item's mark is a sum.
    pub fn several(&self) -> bool {
        self.item.answers.len() > 1
    }

    /// What the student wrote.
    pub fn response(&self, answer: &Identifier) -> String {
        self.name("RESPONSE", answer)
    }

    /// What the answer earns.
    pub fn score(&self, answer: &Identifier) -> String {
        self.name(SCORE, answer)
    }

    /// Which feedback the answer gets.
    pub fn feedback(&self, answer: &Identifier) -> String {
        self.name("FEEDBACK", answer)
    }

    fn name(&self, of: &str, answer: &Identifier) -> String {
        if self.several() { format!("{of}-{answer}") } else { of.to_owned() }
    }
}
