//! Reading text as a quantity: `12 ft 6 in`, `3.5 kip/ft`, `L/2 - 10 mm`.
//!
//! A value is a number with its unit, or an expression of such values and of the lesson's own names with `+ - * / ^`,
//! brackets, `sqrt(...)`, `abs(...)` and `pi`. What could be read in two ways is settled so:
//!
//! - A word straight after a number is a unit, a word anywhere else is a name: `3 m` is three metres, `3*m` three
//!   times what the lesson calls m.
//! - After a unit, `*` and `/` with another unit belong to it: `3 kN/m`, `3 kN*m`. Where the lesson has a value of
//!   that name the text is refused, for either could be meant; `(3 kN)/t` settles it.
//! - `lb` is a force and `lbm` a mass; `t` after a number is a tonne, `g` a gram.
//! - A fraction of whole numbers straight before a unit is one number: `1/2 in` and `1 1/2 in`; but `10 kN/2 m` is
//!   five kN/m.
//! - A power straight after a unit belongs to it: `20 mm^2` is an area; `(20 mm)^2` is another.
//! - The decimal mark is a point. Digits may stand in groups of three with spaces between: `12 000 N`.
//! - A minus may be a hyphen or U+2212, a space of any kind.

mod arithmetic;
mod faults;
mod formula;
mod nearest;
mod numbers;
mod parser;
#[cfg(test)]
mod tests;

pub use nearest::nearest;
pub use numbers::fraction;

use crate::dimension::Dimension;
use crate::quantity::Quantity;
use crate::unit::Unit;
use parser::Node;
use std::collections::BTreeMap;
use std::ops::Range;

/// The acceleration of gravity by which a weight per volume is turned into a density, m/s².
///
/// Source: the standard value, 3rd General Conference on Weights and Measures 1901.
pub const STANDARD_GRAVITY: f64 = 9.806_65;

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

/// A text that reads as a value or as a formula, not yet evaluated.
#[derive(Clone, Debug, PartialEq)]
pub struct Parsed {
    text: String,
    root: Node,
}

/// Reads a text; what it names is looked up only when it is evaluated.
///
/// # Errors
/// All faults that can be seen without the named values; never an empty list.
pub fn parse(text: &str) -> Result<Parsed, Vec<Fault>> {
    parser::parse(text, &[]).map(|root| Parsed { text: text.to_owned(), root })
}

/// As [`parse`], of a formula in which names of several words stand: `shear force at the slice / area`.
///
/// Of two names that stand at one place the longer is meant. Words that are no name count as one up to the next sign.
///
/// # Errors
/// As [`parse`].
pub fn parse_formula(text: &str, names: &[&str]) -> Result<Parsed, Vec<Fault>> {
    parser::parse(text, names).map(|root| Parsed { text: text.to_owned(), root })
}

impl Parsed {
    /// The names that it uses, each with its place, in the order of the text.
    pub fn names(&self) -> Vec<(&str, Range<usize>)> {
        let mut names = Vec::new();
        arithmetic::collect_names(&self.root, &mut names);
        names
    }

    /// Its value.
    ///
    /// # Errors
    /// All faults; never an empty list.
    pub fn evaluate(&self, names: &Names) -> Result<Quantity, Vec<Fault>> {
        arithmetic::evaluate(&self.text, &self.root, names)
    }

    /// Its value, which must be of the wanted dimension. A plain zero is taken as zero of any dimension, and a weight
    /// per volume (`150 pcf`, `24 kN/m^3`) as the density that has it under the standard gravity.
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
        let found = self.evaluate(names)?;
        match (wanted, found.dimension) {
            (wanted, dimension) if wanted == dimension => Ok(found),
            (_, Dimension::NONE) if found.value == 0.0 => Ok(Quantity::new(0.0, wanted)),
            (Dimension::DENSITY, Dimension::WEIGHT_PER_VOLUME) => {
                Ok(Quantity::new(found.value / STANDARD_GRAVITY, Dimension::DENSITY))
            }
            _ => Err(vec![faults::wrong_dimension(&self.text, &self.root, found, wanted, example)]),
        }
    }
}

/// [`parse`] and [`Parsed::evaluate_as`] in one.
///
/// ```
/// use workings::{dimension::Dimension, quantity::Quantity, reading::{Names, read}};
///
/// let names = Names::from([("L".to_owned(), Quantity::new(4.0, Dimension::LENGTH))]);
/// let half = read("L/2 - 10 mm", Dimension::LENGTH, "1 m", &names);
/// assert_eq!(half, Ok(Quantity::new(1.99, Dimension::LENGTH)));
///
/// let faults = read("12 kn", Dimension::FORCE, "3 kN", &names).unwrap_err();
/// assert_eq!((faults[0].range.clone(), faults[0].mend.as_str()), (3..5, "did you mean kN?"));
/// ```
///
/// # Errors
/// All faults; never an empty list.
pub fn read(text: &str, wanted: Dimension, example: &str, names: &Names) -> Result<Quantity, Vec<Fault>> {
    parse(text)?.evaluate_as(wanted, example, names)
}

/// Whether a word is read as a unit after a number (`m`, `kN`, `t`), so that as a name it would be misread there.
pub fn is_unit(word: &str) -> bool {
    Unit::read(word).is_ok()
}
