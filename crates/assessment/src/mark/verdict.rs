//! What an answer is found to be.

use serde::Serialize;

/// What an answer is found to be.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "verdict", rename_all = "kebab-case")]
pub enum Verdict {
    /// Right.
    Right,
    /// Right for whoever goes on from the student's own earlier answers, or from a mistake that was counted already.
    FollowThrough(Through),
    /// Wrong, and known why.
    Explained(Explanation),
    /// Wrong, and several explanations lead to this value; the likeliest first, at least two.
    Ambiguous {
        /// The explanations.
        candidates: Vec<Explanation>,
    },
    /// Wrong, and not known why.
    Unknown {
        /// What may have led to it, and may as well not: so many of their sort lead to so many values that chance alone would
        /// often give one of them. For the lecturer's eyes; the nearest first.
        perhaps: Vec<Explanation>,
    },
    /// Nothing was answered.
    Blank,
    /// Waits for a person: a drawing, or what cannot be read.
    ByHand,
}

/// On what a value follows.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Through {
    /// The labels of the student's own answers that were put in: the wrong ones that nothing of the student's own comes after, or
    /// where all of these are right, all.
    pub answers: Vec<String>,
    /// The labels of other answers of which each alone leads there as well, the others being right; the one that was gone on with
    /// is then not known.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub or: Vec<String>,
    /// The mistakes that were counted before, at other parts, and go on in this one.
    pub mistakes: Vec<Made>,
    /// What is right with these, SI.
    pub expected: f64,
}

/// Why an answer is wrong.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Explanation {
    /// What was done.
    #[serde(flatten)]
    pub cause: Cause,
    /// The labels of the student's own answers, wrong ones, from which that was done; none where they play no part.
    pub from: Vec<String>,
    /// Where it leads, SI.
    pub expected: f64,
}

/// What was done.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "cause", rename_all = "kebab-case")]
pub enum Cause {
    /// One mistake.
    Mistake {
        /// The mistake.
        mistake: Made,
    },
    /// A sign, a power of ten or a unit lost; all else is right, or follows.
    Slip {
        /// The slip.
        slip: Slipped,
    },
    /// Rounded so early on the way that the value is off, and no farther off than with one figure fewer.
    RoundedEarly,
    /// A mistake, and a slip after it.
    MistakeAndSlip {
        /// The mistake.
        mistake: Made,
        /// The slip.
        slip: Slipped,
    },
    /// Two mistakes.
    TwoMistakes {
        /// The two, the one that comes first in the solution first.
        mistakes: [Made; 2],
    },
}

/// A mistake, made at a working.
#[derive(Clone, Debug, PartialEq, Eq, Hash, Serialize)]
pub struct Made {
    /// The mistake's id: `q-to-the-cut`.
    pub mistake: String,
    /// The name of the working at which it is made.
    pub made_at: String,
}

/// A slip.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Slipped {
    /// Its stable name, see [`workings::mistake::slip::Slip`]: `power-of-ten`.
    pub slip: &'static str,
    /// The wrong value over the value that it befell.
    pub factor: f64,
}

/// What is wrong with the unit of an answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum UnitFault {
    /// None was written, where it had to be.
    Missing,
    /// That of another kind of quantity was written; the number was judged as if the right one stood there.
    OtherKind,
}

impl Verdict {
    /// Its stable name in lists of marks: `follow-through`, `two-mistakes`.
    pub fn word(&self) -> &'static str {
        match self {
            Self::Right => "right",
            Self::FollowThrough(_) => "follow-through",
            Self::Explained(explanation) => explanation.cause.word(),
            Self::Ambiguous { .. } => "ambiguous",
            Self::Unknown { .. } => "unknown",
            Self::Blank => "blank",
            Self::ByHand => "by-hand",
        }
    }

    /// All that may explain it, the likeliest first: what is claimed, not what is only perhaps.
    pub fn explanations(&self) -> &[Explanation] {
        match self {
            Self::Explained(explanation) => std::slice::from_ref(explanation),
            Self::Ambiguous { candidates } => candidates,
            _ => &[],
        }
    }

    /// What may have led to a value of which nothing is known.
    pub fn guesses(&self) -> &[Explanation] {
        match self {
            Self::Unknown { perhaps } => perhaps,
            _ => &[],
        }
    }
}

impl Cause {
    /// Its stable name in lists of marks.
    pub fn word(&self) -> &'static str {
        match self {
            Self::Mistake { .. } => "mistake",
            Self::Slip { .. } => "slip",
            Self::RoundedEarly => "rounded-early",
            Self::MistakeAndSlip { .. } => "mistake-and-slip",
            Self::TwoMistakes { .. } => "two-mistakes",
        }
    }

    /// The mistakes of it.
    pub fn mistakes(&self) -> &[Made] {
        match self {
            Self::Mistake { mistake } | Self::MistakeAndSlip { mistake, .. } => std::slice::from_ref(mistake),
            Self::TwoMistakes { mistakes } => mistakes,
            Self::Slip { .. } | Self::RoundedEarly => &[],
        }
    }
}
