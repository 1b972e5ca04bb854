//! Values and symbols as the drawings of the slice and of the section write them.

use crate::scribe::Scribe;
use crate::text::Label;
use workings::dimension::Dimension;
use workings::quantity::Quantity;
use workings::role::{Role, Symbol};
use workings::style::Style;

/// Writes values and symbols as the course does.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Writer<'a> {
    scribe: Scribe<'a>,
}

impl<'a> Writer<'a> {
    /// The writer of a style.
    pub fn new(style: &'a Style) -> Self {
        Self { scribe: Scribe::new(style) }
    }

    /// How the course writes.
    pub fn style(self) -> &'a Style {
        self.scribe.style()
    }

    /// The symbol of a role.
    pub fn symbol(self, role: Role) -> Label {
        self.scribe.symbol(role, "")
    }

    /// A symbol beside an arrow that shows the direction: of a negative value it is the size, `|F|`.
    pub fn by_size(self, symbol: Label, value: f64) -> Label {
        if value < 0.0 { Label::words("|").followed_by(symbol).and_words("|") } else { symbol }
    }

    /// The symbol of a role with an index.
    pub fn symbol_indexed(self, role: Role, index: &str) -> Label {
        self.scribe.symbol(role, index)
    }

    /// A computed value (SI) with its unit, as text.
    pub fn text(self, value: f64, dimension: Dimension, role: Role) -> String {
        self.scribe.text(value, dimension, role)
    }

    /// A computed value (SI) in the unit of the largest value beside which it stands, as text.
    pub fn text_beside(self, value: f64, dimension: Dimension, role: Role, largest: f64) -> String {
        self.scribe.text_beside(value, dimension, role, largest)
    }

    /// A computed value in the unit of the largest value beside which it stands.
    pub fn value_beside(self, value: f64, dimension: Dimension, role: Role, largest: f64) -> Label {
        Label::words(self.text_beside(value, dimension, role, largest))
    }

    /// A computed value with its unit.
    pub fn value(self, value: f64, dimension: Dimension, role: Role) -> Label {
        self.scribe.value(value, dimension, role)
    }

    /// Symbol = computed value.
    pub fn named(self, role: Role, value: f64, dimension: Dimension) -> Label {
        self.symbol(role).equals(self.value(value, dimension, role))
    }

    /// A value (SI) that the lesson gives, as text.
    pub fn given_text(self, value: f64, dimension: Dimension, role: Role) -> String {
        self.scribe.given_text(value, dimension, role)
    }

    /// A given value with its unit.
    pub fn given(self, value: f64, dimension: Dimension, role: Role) -> Label {
        self.scribe.given(value, dimension, role)
    }

    /// Symbol = given value.
    pub fn named_given(self, role: Role, value: f64, dimension: Dimension) -> Label {
        self.symbol(role).equals(self.given(value, dimension, role))
    }

    /// The change of a quantity over the slice: `dM`, or `ΔM` where the course writes the length of the slice `Δx`.
    pub fn change(self, role: Role) -> Label {
        let length = self.scribe.style().symbol(&Symbol::plain(Role::SliceLength));
        let sign = if length.letters.iter().any(|letter| letter.difference) { "Δ" } else { "d" };
        Label::words(sign).followed_by(self.symbol(role))
    }

    /// A quantity on the right face of the slice: `M + ΔM`.
    pub fn grown(self, role: Role) -> Label {
        self.symbol(role).and_words("\u{a0}+\u{a0}").followed_by(self.change(role))
    }

    /// The number of a given value alone, and its unit.
    pub fn given_number(self, value: f64, dimension: Dimension, role: Role) -> (String, String) {
        let shown = self.scribe.style().show_given(Quantity::new(value, dimension), role);
        (shown.number_text().replace(' ', "\u{a0}"), shown.unit.text())
    }
}
