//! What is said to a student or of one, in the symbols and units of the course.

use crate::dimension::Dimension;
use crate::role::{Role, Symbol};
use crate::style::Style;
use crate::unit::Unit;

/// A sentence whose symbols are those of the course.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Saying {
    /// Its pieces in order.
    pub pieces: Vec<Said>,
}

/// A piece of a sentence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Said {
    /// Words and signs.
    Words(String),
    /// A symbol, to be written as the course writes it.
    Symbol(Symbol),
}

/// What stands in braces in a text of ours, and the role whose symbol it becomes: `{V} jumps at a force.`
const SYMBOLS: [(&str, Role); 18] = [
    ("A", Role::Area),
    ("A'", Role::AreaBeyond),
    ("F", Role::ForceOnCut),
    ("I", Role::SecondMoment),
    ("M", Role::BendingMoment),
    ("Q", Role::FirstMoment),
    ("V", Role::ShearForce),
    ("b", Role::Breadth),
    ("dx", Role::SliceLength),
    ("h", Role::Height),
    ("n", Role::ModularRatio),
    ("q", Role::ShearFlow),
    ("sigma", Role::BendingStress),
    ("t", Role::WidthAtCut),
    ("tau", Role::ShearStress),
    ("w", Role::SpreadLoad),
    ("x", Role::Station),
    ("y", Role::Depth),
];

/// The quantities whose units a text of ours names: `{unit of I}`.
const UNITS: [(&str, Role, Dimension); 4] = [
    ("unit of I", Role::SecondMoment, Dimension::LENGTH_4),
    ("unit of Q", Role::FirstMoment, Dimension::LENGTH_3),
    ("unit of b", Role::Breadth, Dimension::LENGTH),
    ("unit of q", Role::ShearFlow, Dimension::FORCE_PER_LENGTH),
];

impl Saying {
    /// A text that is said as it is.
    pub(super) fn plain(text: &str) -> Self {
        Self { pieces: vec![Said::Words(text.to_owned())] }
    }

    /// A text of ours, its braces filled in.
    pub(crate) fn of(text: &str, style: &Style) -> Self {
        let mut pieces = Vec::new();
        let mut words = String::new();
        let mut rest = text;
        while let Some((before, (inside, after))) =
            rest.split_once('{').and_then(|(before, rest)| Some((before, rest.split_once('}')?)))
        {
            words.push_str(before);
            if let Some((_, role)) = SYMBOLS.iter().find(|(name, _)| *name == inside) {
                if !words.is_empty() {
                    pieces.push(Said::Words(style.notation.in_its_words(&words)));
                    words.clear();
                }
                pieces.push(Said::Symbol(Symbol::plain(*role)));
            } else {
                words.push_str(&unit(inside, style));
            }
            rest = after;
        }
        words.push_str(rest);
        if !words.is_empty() {
            pieces.push(Said::Words(style.notation.in_its_words(&words)));
        }
        Self { pieces }
    }

    /// The sentence as plain text.
    pub fn text(&self, style: &Style) -> String {
        let text = |piece: &Said| match piece {
            Said::Words(words) => words.clone(),
            Said::Symbol(symbol) => style.symbol(symbol).plain(),
        };
        self.pieces.iter().map(text).collect()
    }
}

/// The unit that stands in braces, as the course writes it; what is no unit stays as it is.
fn unit(inside: &str, style: &Style) -> String {
    if inside == "unit of force" {
        return force_in_section(style);
    }
    let found = UNITS.iter().find(|(name, ..)| *name == inside);
    found.map_or_else(|| format!("{{{inside}}}"), |&(_, role, dimension)| style.unit(role, dimension).text())
}

/// The unit of force that goes with the lengths of the section and the course's stress: N with mm and MPa.
fn force_in_section(style: &Style) -> String {
    let length = style.unit(Role::Breadth, Dimension::LENGTH).in_si();
    let force = style.unit(Role::ShearStress, Dimension::STRESS).in_si() * length * length;
    let goes = |unit: &Unit| (unit.in_si() - force).abs() <= 1e-9 * force;
    let units = ["N", "kN", "lb", "kip"].into_iter().filter_map(|name| Unit::read(name).ok());
    let own = style.unit(Role::PointForce, Dimension::FORCE);
    units.into_iter().find(goes).unwrap_or(own).text()
}
