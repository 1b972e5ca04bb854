//! A paper that was marked.

use super::decision::Decision;
use super::verdict::{UnitFault, Verdict};
use serde::Serialize;
use std::fmt;

/// The answers of one paper, marked.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Marked {
    /// One for each part, in the order of the paper.
    pub parts: Vec<Judged>,
}

/// One answer, marked.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Judged {
    /// The label of the part: `3b`.
    pub part: String,
    /// What a right answer earns.
    pub most: f64,
    /// What it is found to be.
    #[serde(flatten)]
    pub verdict: Verdict,
    /// What is wrong with its unit.
    pub unit: Option<UnitFault>,
    /// What it earns by the verdict; nothing where it waits for a person.
    pub earned: Option<f64>,
    /// What a person decided about it.
    pub decided: Option<Decision>,
}

impl Judged {
    /// What it earns: as a person decided, else by its verdict; nothing where it waits for a person.
    pub fn marks(&self) -> Option<f64> {
        self.decided.as_ref().map(|decided| decided.marks).or(self.earned)
    }
}

impl Marked {
    /// What the paper earns, with nothing for what waits for a person.
    pub fn marks(&self) -> f64 {
        self.parts.iter().filter_map(Judged::marks).sum()
    }

    /// Whether some of it waits for a person.
    pub fn waits(&self) -> bool {
        self.parts.iter().any(|judged| judged.marks().is_none())
    }

    /// The part of this label.
    pub fn part(&self, label: &str) -> Option<&Judged> {
        self.parts.iter().find(|judged| judged.part == label)
    }
}

/// Why answers cannot be marked: none of them is dropped in silence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum MarkFault {
    /// The paper has no part of this label.
    NoPart(String),
    /// Two answers are given to the part of this label.
    Twice(String),
}

impl fmt::Display for MarkFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoPart(label) => write!(f, "this paper has no part {label}"),
            Self::Twice(label) => write!(f, "part {label} is answered twice"),
        }
    }
}

impl std::error::Error for MarkFault {}
