//! Why an expression cannot be evaluated.

use crate::dimension::Dimension;
use std::fmt;

/// Why an expression cannot be evaluated. Each names the formula by its working.
#[derive(Clone, Debug, PartialEq)]
pub enum EvaluationError {
    /// Terms of a sum differ in dimension.
    TermsDiffer {
        /// The working whose formula it is.
        working: String,
        /// Dimension of the first term.
        first: Dimension,
        /// Dimension of the term that differs.
        other: Dimension,
    },
    /// A root of a quantity whose powers are not even.
    OddRoot {
        /// The working whose formula it is.
        working: String,
        /// Dimension under the root.
        under: Dimension,
    },
    /// A power of a dimension beyond what can be held.
    PowerTooHigh {
        /// The working whose formula it is.
        working: String,
    },
    /// The formula replaces a working of another dimension.
    WrongKind {
        /// The working whose formula it is.
        working: String,
        /// The dimension that it should have.
        expected: Dimension,
        /// The dimension that it has.
        found: Dimension,
    },
    /// It holds a symbol, words, an integral or a limit.
    NotComputable {
        /// The working whose formula it is.
        working: String,
    },
    /// It reads a working that the graph does not have.
    UnknownWorking {
        /// The working whose formula it is.
        working: String,
    },
    /// The value is infinite or not a number.
    NotFinite {
        /// The working whose value it is.
        working: String,
    },
    /// Two workings have one name.
    NameTwice {
        /// The name.
        working: String,
    },
}

impl fmt::Display for EvaluationError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TermsDiffer { working, .. } => {
                write!(f, "{working}: the terms of a sum differ in dimension")
            }
            Self::OddRoot { working, .. } => write!(f, "{working}: a root of a dimension with odd powers"),
            Self::PowerTooHigh { working } => write!(f, "{working}: a power too high to hold"),
            Self::WrongKind { working, .. } => write!(f, "{working}: the formula has another dimension"),
            Self::NotComputable { working } => write!(f, "{working}: the formula holds what has no value"),
            Self::UnknownWorking { working } => write!(f, "{working}: the formula reads an unknown working"),
            Self::NotFinite { working } => write!(f, "{working}: the value is not finite"),
            Self::NameTwice { working } => write!(f, "{working}: two workings have this name"),
        }
    }
}

impl std::error::Error for EvaluationError {}
