//! From the balance of the piece to the formula.

use super::author::Author;
use super::line;
use lesson::{Scene, When};

impl Author<'_> {
    pub(crate) fn derivation(&mut self) {
        self.chapter("From the balance to the formula");
        self.own_words(Scene::Derivation, When::Before);
        self.say(line![
            "Each step stands first in symbols, for any beam, then with the numbers of this one."
        ]);
        self.own_words(Scene::Derivation, When::After);
    }
}
