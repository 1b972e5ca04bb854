//! Values and symbols in the writing of the course, as labels and as plain text.

use crate::text::{Label, Level, Run};
use workings::dimension::Dimension;
use workings::notation::RunLevel;
use workings::quantity::Quantity;
use workings::role::{Role, Symbol};
use workings::style::Style;

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
        tied(&self.style.text(Quantity::new(value, dimension), role))
    }

    /// A value (SI) that the lesson gives, as text.
    pub fn given_text(self, value: f64, dimension: Dimension, role: Role) -> String {
        tied(&self.style.given_text(Quantity::new(value, dimension), role))
    }

    /// A length along the beam (m), as text: as given where that is short, rounded where it would run on.
    pub fn station_text(self, value: f64) -> String {
        let given = self.given_text(value, Dimension::LENGTH, Role::Station);
        let rounded = self.text(value, Dimension::LENGTH, Role::Station);
        if given.chars().count() <= rounded.chars().count() { given } else { rounded }
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

    /// A computed value as text beside an axis that names the unit: without the unit, unless it is another one.
    pub fn number_text(self, value: f64, dimension: Dimension, role: Role) -> String {
        let shown = self.style.show(Quantity::new(value, dimension), role);
        let axis_unit = self.style.unit(role, dimension);
        tied(&if shown.unit == axis_unit || shown.is_zero() { shown.number_text() } else { shown.text() })
    }

    /// The unit that an axis names, as text.
    pub fn unit_text(self, dimension: Dimension, role: Role) -> String {
        self.style.unit(role, dimension).text()
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
