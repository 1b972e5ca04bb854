//! Which share of its marks an answer earns.

use std::collections::BTreeMap;

/// Which share of its marks an answer earns by what it is found to be, each from 0 to 1.
#[derive(Clone, Debug, PartialEq)]
pub struct Shares {
    /// Right with the student's own earlier values.
    pub follow_through: f64,
    /// Rounded too early.
    pub rounded_early: f64,
    /// Right but for the sign.
    pub sign: f64,
    /// Right but for a power of ten, or a unit taken for another of its kind.
    pub power_of_ten: f64,
    /// What is left where the unit is missing or of another kind; once in a question.
    pub unit: f64,
    /// One known mistake.
    pub known_mistake: f64,
    /// Two known mistakes, or one and a slip.
    pub two_mistakes: f64,
    /// Other shares for mistakes of these ids.
    pub mistakes: BTreeMap<String, f64>,
}

impl Default for Shares {
    /// Usual in open assessment tools: an error costs once, right but for a sign or a unit keeps half, a known mistake earns
    /// nothing (common practice, no source for the sizes).
    fn default() -> Self {
        Self {
            follow_through: 1.0,
            rounded_early: 0.5,
            sign: 0.5,
            power_of_ten: 0.5,
            unit: 0.5,
            known_mistake: 0.0,
            two_mistakes: 0.0,
            mistakes: BTreeMap::new(),
        }
    }
}
