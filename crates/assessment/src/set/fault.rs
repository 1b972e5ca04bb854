//! Why a question cannot be set.

use crate::fair::NotAsked;
use std::fmt;

/// A question that cannot be set as it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct SetFault {
    /// The number of the question, from 1.
    pub question: usize,
    /// What is wrong.
    pub why: Why,
}

/// What is wrong with a question.
#[derive(Clone, Debug, PartialEq)]
pub enum Why {
    /// Its value cannot be judged.
    NotAsked(NotAsked),
    /// There are not enough mistakes whose values are well apart.
    TooFewMistakes {
        /// What is asked for.
        working: String,
        /// How many values there were to be to choose from, the right one among them.
        wanted: u32,
        /// How many there can be.
        found: u32,
    },
    /// Its value holds at no place.
    NoPlace {
        /// What is asked for.
        working: String,
    },
    /// Rounding on the way may lead anywhere, so that no answer is wrong.
    AnyAnswer {
        /// What is asked for.
        working: String,
    },
}

impl From<NotAsked> for Why {
    fn from(fault: NotAsked) -> Self {
        Self::NotAsked(fault)
    }
}

impl fmt::Display for SetFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "question {}: ", self.question)?;
        match &self.why {
            Why::NotAsked(fault) => fault.fmt(f),
            Why::TooFewMistakes { working, wanted, found: 0 | 1 } => write!(
                f,
                "{wanted} values to choose from are wanted for {working}, but with these numbers no known mistake gives a \
                 value well apart from the right one; ask for the value itself, or change the numbers"
            ),
            Why::TooFewMistakes { working, wanted, found } => write!(
                f,
                "{wanted} values to choose from are wanted for {working}, but with these numbers known mistakes give only \
                 {found} that are well apart, the right one among them; write choose = {found}, or change the numbers"
            ),
            Why::NoPlace { working } => {
                write!(f, "{working} holds at no place along the beam or over the depth; take `place` out")
            }
            Why::AnyAnswer { working } => write!(
                f,
                "with these numbers rounding on the way leads anywhere for {working}, so that no answer could be called \
                 wrong; change the numbers"
            ),
        }
    }
}

impl std::error::Error for SetFault {}
