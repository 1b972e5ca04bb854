//! Why an answer has to be read by a person.

/// What is in doubt.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum DoubtKind {
    /// Whether a comma or a point parts the decimals or the thousands.
    DecimalMark,
    /// Whether a power of ten is meant: the one that is printed behind the answer, or one whose exponent stands on the line.
    PowerOfTen,
    /// A percentage.
    Percent,
    /// From here to there.
    Range,
    /// More than one number.
    SeveralNumbers,
    /// Words, or signs that are no number.
    Words,
    /// A word that may be a unit, but is none that is known, or two units that differ.
    Unit,
    /// Which sign is meant.
    Sign,
    /// A computation, not its result.
    Computation,
    /// A number larger or smaller than anything of a beam can be.
    TooLarge,
    /// More figures than anybody writes.
    TooManyFigures,
    /// Which of the values to choose from is meant.
    Choice,
}

/// Why an answer has to be read by a person.
#[derive(Clone, Debug, PartialEq)]
pub struct Doubt {
    /// What is in doubt.
    pub kind: DoubtKind,
    /// The same in words; no full stop.
    pub what: String,
    /// What the answer could mean, each as it would be written plainly; may be empty.
    pub readings: Vec<String>,
}

impl Doubt {
    pub(super) fn new(kind: DoubtKind, what: impl Into<String>) -> Self {
        Self { kind, what: what.into(), readings: Vec::new() }
    }

    pub(super) fn between(kind: DoubtKind, what: impl Into<String>, readings: Vec<String>) -> Self {
        Self { kind, what: what.into(), readings }
    }
}
