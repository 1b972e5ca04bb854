//! Reading text as a quantity: `12 ft 6 in`, `3.5 kip/ft`, `L/2 - 10 mm`.

use crate::dimension::Dimension;
use crate::quantity::Quantity;
use std::collections::BTreeMap;
use std::ops::Range;

/// The named values that an expression may use.
pub type Names = BTreeMap<String, Quantity>;

/// What is wrong with a text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FaultKind {
    /// Nothing is written.
    Empty,
    /// The text does not read as a value.
    Unreadable,
    /// A unit is unknown.
    UnknownUnit,
    /// A name is unknown.
    UnknownName,
    /// A plain number where a unit is needed.
    MissingUnit,
    /// The value is of another kind than wanted, or unlike kinds are added.
    WrongDimension,
    /// A name of the lesson is also a unit, and either could be meant.
    Ambiguous,
    /// The value is not a finite number.
    NotFinite,
    /// A divisor is zero.
    DivisionByZero,
    /// A root that does not exist.
    NoRoot,
    /// The text is too long or too deeply nested.
    TooDeep,
}

/// One fault of a text, with its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// Bytes of the text that are wrong.
    pub range: Range<usize>,
    /// What sort of fault, for programs.
    pub kind: FaultKind,
    /// What is wrong, in the lecturer's words.
    pub what: String,
    /// What would be right.
    pub mend: String,
}

/// A text that reads as a value, not yet evaluated.
#[derive(Clone, Debug, PartialEq)]
pub struct Parsed {}

/// Reads a text; what it names is looked up only when it is evaluated.
///
/// # Errors
/// All faults that can be seen without the named values; never an empty list.
pub fn parse(text: &str) -> Result<Parsed, Vec<Fault>> {
    todo!()
}

impl Parsed {
    /// The names that it uses, each with its place, in the order of the text.
    pub fn names(&self) -> Vec<(&str, Range<usize>)> {
        todo!()
    }

    /// Its value.
    ///
    /// # Errors
    /// All faults; never an empty list.
    pub fn evaluate(&self, names: &Names) -> Result<Quantity, Vec<Fault>> {
        todo!()
    }

    /// Its value, which must be of the wanted dimension. A plain zero is taken as zero of any dimension.
    ///
    /// `example` is a value of the right kind in the course's unit, such as `3 kN`; faults offer it.
    ///
    /// # Errors
    /// All faults; never an empty list.
    pub fn evaluate_as(
        &self,
        wanted: Dimension,
        example: &str,
        names: &Names,
    ) -> Result<Quantity, Vec<Fault>> {
        todo!()
    }
}

/// [`parse`] and [`Parsed::evaluate_as`] in one.
///
/// # Errors
/// All faults; never an empty list.
pub fn read(text: &str, wanted: Dimension, example: &str, names: &Names) -> Result<Quantity, Vec<Fault>> {
    parse(text)?.evaluate_as(wanted, example, names)
}

/// Whether a word is read as a unit, so that it cannot serve as a name after a number (`m`, `kN`, `t`).
pub fn is_unit(word: &str) -> bool {
    todo!()
}

/// The word of `words` nearest to `word`, where one is near enough to be what was meant.
pub fn nearest<'a>(word: &str, words: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    todo!()
}
