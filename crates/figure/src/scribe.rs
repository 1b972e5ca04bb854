//! Values and symbols in the writing of the course, as labels and as plain text.

use crate::text::{Label, Level, Run};
use workings::dimension::Dimension;
use workings::notation::RunLevel;
use workings::quantity::Quantity;
use workings::role::{Role, Symbol};
use workings::style::Style;
use workings::unit::Unit;

/// Writes values and symbols as the course does.
#[derive(Clone, Copy, Debug)]
pub struct Scribe<'a> {
    style: &'a Style,
}

impl<'a> Scribe<'a> {
    /// The scribe of a style.
    pub fn new(style: &'a Style) -> Self {
        Self { style }
    }

    /// The style.
    pub fn style(self) -> &'a Style {
        self.style
    }

    /// A computed value (SI) with its unit, as text.
    pub fn text(self, value: f64, dimension: Dimension, role: Role) -> String {
        let quantity = Quantity::new(value, dimension);
        tied(&self.style.show(quantity, role).whole(quantity).text())
    }

    /// A computed value (SI) with its unit, that of the largest value beside which it stands, as text.
    pub fn text_beside(self, value: f64, dimension: Dimension, role: Role, largest: f64) -> String {
        let quantity = Quantity::new(value, dimension);
        tied(&self.style.show_beside(quantity, role, largest).whole(quantity).text())
    }

    /// A value (SI) that the lesson gives, as text.
    pub fn given_text(self, value: f64, dimension: Dimension, role: Role) -> String {
        tied(&self.style.given_text(Quantity::new(value, dimension), role))
    }

    /// A length along the beam (m), as text.
    pub fn station_text(self, value: f64) -> String {
        self.terse_text(value, Dimension::LENGTH, Role::Station)
    }

    /// A value that follows from given ones without a rounding (a difference, a load at a place within), as text:
    /// with all its digits where they end, rounded as a computed value where they would run on.
    pub fn terse_text(self, value: f64, dimension: Dimension, role: Role) -> String {
        // a given value is written with six figures at most: one that fills them is cut off
        const FULL: usize = 6;
        let given = self.style.show_given(Quantity::new(value, dimension), role);
        let figures = given.digits.trim_start_matches(['0', '.']).bytes().filter(u8::is_ascii_digit).count();
        if given.digits.contains('.') && figures >= FULL {
            self.text(value, dimension, role)
        } else {
            tied(&given.text())
        }
    }

    /// `d` of something, as in `dx`.
    pub fn differential(self, of: Label) -> Label {
        Label::words("d").followed_by(of)
    }

    /// A symbol and the same with its growth: `V + dV`.
    pub fn grown(self, symbol: Label) -> Label {
        symbol.clone().and_words("\u{a0}+\u{a0}").followed_by(self.differential(symbol))
    }

    /// A computed value with its unit.
    pub fn value(self, value: f64, dimension: Dimension, role: Role) -> Label {
        Label::words(self.text(value, dimension, role))
    }

    /// A given value with its unit.
    pub fn given(self, value: f64, dimension: Dimension, role: Role) -> Label {
        Label::words(self.given_text(value, dimension, role))
    }

    /// The symbol of a role.
    pub fn symbol(self, role: Role, index: &str) -> Label {
        let text = self.style.symbol(&Symbol::indexed(role, index));
        let runs = text.runs().into_iter().map(|run| Run {
            text: run.text,
            italic: run.italic,
            level: match run.level {
                RunLevel::Line => Level::Base,
                RunLevel::Below => Level::Index,
            },
        });
        Label { runs: runs.collect() }
    }

    /// A computed value as text beside an axis that names the unit, that of its largest value: the number alone.
    pub fn number_text(self, value: f64, dimension: Dimension, role: Role, largest: f64) -> String {
        let quantity = Quantity::new(value, dimension);
        tied(&self.style.show_beside(quantity, role, largest).whole(quantity).number_text())
    }

    /// The unit that an axis names: that of the largest value on it.
    pub fn axis_unit(self, largest: f64, dimension: Dimension, role: Role) -> Unit {
        if largest == 0.0 {
            self.style.unit(role, dimension)
        } else {
            self.style.show(Quantity::new(largest, dimension), role).unit
        }
    }

    /// The symbol of a role as plain text: `R_A`.
    pub fn symbol_text(self, role: Role, index: &str) -> String {
        self.style.symbol(&Symbol::indexed(role, index)).plain()
    }
}

/// The text with its spaces made such that no line breaks at them.
fn tied(text: &str) -> String {
    text.replace(' ', "\u{a0}")
}
