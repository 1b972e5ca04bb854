//! How a course writes: its notation, its units, how many figures, which decimal mark.

use crate::notation::{Notation, SymbolText};
use crate::quantity::Quantity;
use crate::role::{Role, Symbol};
use crate::rounding::{Figures, RoundingRule};
use crate::shown::Shown;
use crate::unit::Unit;
use crate::unit_system::UnitSystem;

/// The mark between whole and part.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum DecimalMark {
    /// `12.5`
    #[default]
    Point,
    /// `12,5`
    Comma,
}

impl DecimalMark {
    /// The mark as a character.
    pub fn character(self) -> char {
        match self {
            Self::Point => '.',
            Self::Comma => ',',
        }
    }
}

/// What stands between the factors of a product of symbols. Between numbers there is always a dot.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Multiplication {
    /// A thin space: `V Q`.
    #[default]
    Space,
    /// A raised dot: `V · Q`.
    Dot,
}

/// Everything that a course decides about how values and formulas are written.
///
/// ```
/// use workings::{dimension::Dimension, quantity::Quantity, role::Role, style::Style};
///
/// let style = Style::default();                                        // kN, m, mm, MPa; three figures, four where the first is 1
/// let second_moment = Quantity::new(5.12e-6, Dimension::LENGTH_4);     // m⁴
/// let shown = style.show(second_moment, Role::SecondMoment);
/// assert_eq!((shown.number().as_str(), shown.power), ("5.12", 6));
/// assert_eq!(shown.text(), "5.12×10⁶\u{a0}mm⁴");
/// assert_eq!(shown.speech(), "5.12 million millimetres to the fourth");
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Style {
    /// Symbols and sign habits.
    pub notation: Notation,
    /// Units of the output.
    pub units: UnitSystem,
    /// How many figures a computed value shows.
    pub figures: Figures,
    /// What becomes of a half in the last place.
    pub rounding: RoundingRule,
    /// The decimal mark.
    pub decimal_mark: DecimalMark,
    /// The sign of multiplication.
    pub multiplication: Multiplication,
}

impl Style {
    /// A computed value, rounded to the course's figures, in the unit that the course uses for the role.
    ///
    /// Very small and very large values take a neighbouring unit (`N` for `kN`) or a power of ten.
    pub fn show(&self, quantity: Quantity, role: Role) -> Shown {
        Shown::rounded(self, quantity, role)
    }

    /// As [`Style::show`], but exactly zero where the value is within `noise` (SI, not negative) of zero.
    pub fn show_settled(&self, quantity: Quantity, role: Role, noise: f64) -> Shown {
        self.show(quantity.settled(noise), role)
    }

    /// As [`Style::show`], but in the unit in which `largest` (SI, of the same dimension) is shown: values that stand
    /// side by side on one axis or in one drawing are compared at a glance only in one unit.
    pub fn show_beside(&self, quantity: Quantity, role: Role, largest: f64) -> Shown {
        let unit = self.show(Quantity::new(largest, quantity.dimension), role).unit;
        Shown::rounded_in(self, quantity, unit)
    }

    /// As [`Style::show`], with so many significant figures, whatever the course's.
    pub(crate) fn show_with(&self, quantity: Quantity, role: Role, figures: u8) -> Shown {
        Shown::rounded_to(self, quantity, role, Figures::Significant(figures))
    }

    /// A value that the lesson gives: all its digits (up to six figures), none added. `12.5 kN` stays `12.5 kN`.
    pub fn show_given(&self, quantity: Quantity, role: Role) -> Shown {
        Shown::given(self, quantity, role)
    }

    /// [`Style::show`] as plain text: `11.3×10⁶ mm⁴`, `−3.50 kN·m`.
    pub fn text(&self, quantity: Quantity, role: Role) -> String {
        self.show(quantity, role).text()
    }

    /// [`Style::show_given`] as plain text: `12.5 kN`, `120 mm`.
    pub fn given_text(&self, quantity: Quantity, role: Role) -> String {
        self.show_given(quantity, role).text()
    }

    /// The unit in which a quantity of this role and dimension is shown, before any step to a neighbouring unit.
    pub fn unit(&self, role: Role, dimension: crate::dimension::Dimension) -> Unit {
        self.units.unit(role, dimension)
    }

    /// The symbol that the course gives to a role.
    pub fn symbol(&self, symbol: &Symbol) -> SymbolText {
        self.notation.symbol(symbol)
    }
}
