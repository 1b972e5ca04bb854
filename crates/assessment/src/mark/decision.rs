//! What a person decides about the marks of an answer.

use super::marked::Marked;
use serde::{Deserialize, Serialize};
use std::fmt;

/// A decision of a person: it stands over what the answer was found to be, and outlives any number of runs.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Decision {
    /// The number of the paper.
    pub paper: String,
    /// The label of the part: `3b`.
    pub part: String,
    /// What the answer earns.
    pub marks: f64,
    /// Why; for the student to read.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// Why a decision cannot stand.
#[derive(Clone, Debug, PartialEq)]
pub enum DecisionFault {
    /// The paper has no part of this label.
    NoPart {
        /// The decision.
        decision: Decision,
    },
    /// It gives less than nothing, or more than a right answer earns.
    Marks {
        /// The decision.
        decision: Decision,
        /// What a right answer earns.
        most: f64,
    },
}

impl fmt::Display for DecisionFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoPart { decision: Decision { paper, part, .. } } => {
                write!(f, "paper {paper} has no part {part}")
            }
            Self::Marks { decision: Decision { paper, part, marks, .. }, most } => {
                write!(f, "paper {paper}, part {part}: {marks} is no mark from 0 to {most}")
            }
        }
    }
}

impl std::error::Error for DecisionFault {}

impl Marked {
    /// Lets the decisions about one paper stand over its verdicts; those about other papers are passed over. Of several about one
    /// part the last stands.
    ///
    /// # Errors
    /// Every decision that cannot stand; the others do.
    pub fn decide(&mut self, paper: &str, decisions: &[Decision]) -> Result<(), Vec<DecisionFault>> {
        let mut faults = Vec::new();
        for decision in decisions.iter().filter(|decision| decision.paper == paper) {
            match self.parts.iter_mut().find(|judged| judged.part == decision.part) {
                None => faults.push(DecisionFault::NoPart { decision: decision.clone() }),
                Some(judged) if !(0.0..=judged.most).contains(&decision.marks) => {
                    faults.push(DecisionFault::Marks { decision: decision.clone(), most: judged.most });
                }
                Some(judged) => judged.decided = Some(decision.clone()),
            }
        }
        if faults.is_empty() { Ok(()) } else { Err(faults) }
    }
}
