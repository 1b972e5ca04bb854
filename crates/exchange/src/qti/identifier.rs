//! Names by which other programs know items, answers and choices.

use std::fmt;

/// The longest identifier, in characters: QTI 2.1 advises writers to keep to 32 (from memory).
const LONGEST: usize = 32;

/// A name of letters, digits, `_` and `-` that begins with a letter: an NCName of XML in every reading, and the stem of a
/// file's name on every system.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Identifier(String);

impl Identifier {
    /// The name; `None` if it has other characters, begins with none of the letters or is longer than 32 characters.
    pub fn new(name: &str) -> Option<Self> {
        let plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, '_' | '-');
        let sound = name.starts_with(|c: char| c.is_ascii_alphabetic()) && name.chars().all(plain);
        (sound && name.len() <= LONGEST).then(|| Self(name.to_owned()))
    }

    /// The name.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for Identifier {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}
