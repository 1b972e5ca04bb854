//! Workings that the engine finds: how each is found again when what it reads is replaced.

use crate::working::Id;

/// A question to the engine, asked again when what it reads is replaced.
#[derive(Clone, Debug, PartialEq)]
pub enum Call {
    /// The value does not depend on any other working: the outline of a part is given as it is.
    Fixed,
}

impl Call {
    /// The value from the present values of what it reads, SI; not a number where the engine refuses.
    pub(crate) fn evaluate(&self, _reads: &[Id], _values: &[f64]) -> f64 {
        match self {
            Self::Fixed => f64::NAN,
        }
    }
}
