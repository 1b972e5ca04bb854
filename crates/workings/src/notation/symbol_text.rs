//! A symbol as it is written: letters with their marks and subscripts.

/// A mark at the upper right of a letter.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Mark {
    /// None.
    #[default]
    None,
    /// A prime: `A′`.
    Prime,
    /// A star: `A*`.
    Star,
}

/// One letter of a symbol.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Letter {
    /// Whether an upright Δ stands before it: `Δx`.
    pub difference: bool,
    /// The letter itself, Latin or Greek: `V`, `τ`; a whole word where the lecturer named a load so.
    pub base: String,
    /// Italic, as quantities are; a word is upright.
    pub italic: bool,
    /// A bar above it: `ȳ`.
    pub bar: bool,
    /// A prime or star.
    pub mark: Mark,
    /// What stands below at the right, left to right; the flag tells italic (an axis) from upright (a name).
    pub below: Vec<(String, bool)>,
}

/// A symbol as it is written, and what it is called.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SymbolText {
    /// One letter, or several that together are one symbol, such as `A ȳ` for a first moment.
    pub letters: Vec<Letter>,
    /// What it is called, with its index: `shear force`, `reaction at A`, `area of part 1`.
    pub words: String,
    /// How the written symbol is spoken: `V`, `tau`, `I sub y`, `A prime`.
    pub spoken: String,
}

/// Where a run of text stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RunLevel {
    /// On the line.
    Line,
    /// Below, as a subscript.
    Below,
}

/// A stretch of one face on one level, for drawings that set text themselves.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Run {
    /// The text: a bar is a combining macron or a precomposed letter, a prime is U+2032.
    pub text: String,
    /// Italic or upright.
    pub italic: bool,
    /// On the line or below.
    pub level: RunLevel,
}

impl SymbolText {
    /// As plain text in one line: `V`, `R_A`, `ȳ′`, `I_y`.
    pub fn plain(&self) -> String {
        todo!()
    }

    /// As runs of one face and level each.
    pub fn runs(&self) -> Vec<Run> {
        todo!()
    }
}
