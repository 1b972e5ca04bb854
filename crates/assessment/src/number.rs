//! The number of a paper: what stands on it in the place of a name, with a check character that finds slips of the pen.

use crate::secret::{Secret, Stream};
use serde::{Deserialize, Serialize};
use std::fmt;

/// Characters that a number is made of: none that is easily taken for another (no I, L, O, U). All of them are in the
/// alphabet of the check.
const CHARACTERS: &[u8; 32] = b"0123456789ABCDEFGHJKMNPQRSTVWXYZ";

/// Characters before the check character: 35 bits, so that a number is not met by guessing and two papers of a course
/// seldom get the same one.
const LENGTH: usize = 7;

/// The number of a paper, such as `7K3Q-9MXD`; the last character checks the others.
///
/// It follows from the secret and the student, and without the secret tells nothing of the student.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct PaperNumber(String);

/// Why a text is no number of a paper.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NumberFault {
    /// It has too few or too many characters.
    Length {
        /// What was written.
        written: String,
        /// How many characters it has.
        characters: usize,
    },
    /// A character that no number has.
    Character {
        /// What was written.
        written: String,
        /// The character.
        character: char,
    },
    /// The check character does not fit the others.
    Check {
        /// What was written.
        written: String,
    },
}

impl fmt::Display for NumberFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Length { written, characters } => write!(
                f,
                "{written:?} is no paper number: it has {characters} characters, a paper number has {}",
                LENGTH + 1
            ),
            Self::Character { written, character } => {
                write!(f, "{written:?} is no paper number: {character:?} does not stand in one")
            }
            Self::Check { written } => write!(
                f,
                "{written:?} is no paper number: a character is wrong, or two have changed places; look at the paper again"
            ),
        }
    }
}

impl std::error::Error for NumberFault {}

impl PaperNumber {
    /// The number of a student's paper; `again` counts up from 0 where another paper has it already.
    pub fn of<S: Secret>(secret: &S, lesson: &str, student: &str, again: u64) -> Self {
        let mut stream = Stream::new(secret, &["paper number", lesson, student], again);
        let mut number = String::with_capacity(LENGTH + 1);
        for _ in 0..LENGTH {
            let at = stream.below(CHARACTERS.len() as u64).unwrap_or(0) as usize;
            number.push(char::from(CHARACTERS[at]));
        }
        number.extend(check_character(&number));
        Self(number)
    }

    /// Reads a number as it may have been written: small letters, spaces and hyphens do not matter.
    ///
    /// # Errors
    /// See [`NumberFault`].
    pub fn read(written: &str) -> Result<Self, NumberFault> {
        let plain: String = written
            .chars()
            .filter(|c| !c.is_whitespace() && !matches!(c, '-' | '\u{2010}'..='\u{2015}'))
            .map(|c| c.to_ascii_uppercase())
            .collect();
        if let Some(character) = plain.chars().find(|c| !c.is_ascii_alphanumeric()) {
            return Err(NumberFault::Character { written: written.to_owned(), character });
        }
        if plain.len() != LENGTH + 1 {
            return Err(NumberFault::Length { written: written.to_owned(), characters: plain.len() });
        }
        let (number, check) = plain.split_at(LENGTH);
        if check_character(number) != check.chars().next() {
            return Err(NumberFault::Check { written: written.to_owned() });
        }
        Ok(Self(plain))
    }
}

impl fmt::Display for PaperNumber {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (first, last) = self.0.split_at(self.0.len() / 2);
        write!(f, "{first}-{last}")
    }
}

impl From<PaperNumber> for String {
    fn from(number: PaperNumber) -> String {
        number.to_string()
    }
}

impl TryFrom<String> for PaperNumber {
    type Error = NumberFault;

    fn try_from(written: String) -> Result<Self, NumberFault> {
        Self::read(&written)
    }
}

/// The check character of a text of figures and capital letters; `None` where it has others.
///
/// It finds every single wrong character and nearly every exchange of two neighbours. Source: ISO 7064, the hybrid
/// system MOD 37,36, from memory of its description.
pub fn check_character(text: &str) -> Option<char> {
    let mut product = 36;
    for character in text.chars() {
        let value = character.to_digit(36).filter(|_| !character.is_ascii_lowercase())?;
        let sum = (product + value) % 36;
        product = (if sum == 0 { 36 } else { sum } * 2) % 37;
    }
    let check = (37 - product) % 36;
    char::from_digit(check, 36).map(|character| character.to_ascii_uppercase())
}
