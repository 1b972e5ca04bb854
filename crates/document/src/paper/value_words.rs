//! Values of a paper in the unit of their answer.

use crate::notes::line;
use crate::tree::Inline;
use assessment::set::{Along, AnswerUnit, Part, PlacePart, ValuePart};
use workings::dimension::Dimension;
use workings::expression::Expression;
use workings::quantity::Quantity;
use workings::role::Role;
use workings::solved::Solved;

/// A value that is not rounded, as the answer of a part is shown: its dimension and role are those of the working.
pub(crate) fn exact(value: f64, working: &str, solved: &Solved) -> Inline {
    let found = solved.workings().get(working);
    let (dimension, role) =
        found.map_or((Dimension::NONE, Role::Ratio), |found| (found.value.dimension, found.symbol.role));
    Inline::Given(Quantity::new(value, dimension), role)
}

/// A value rounded as the course rounds.
pub(crate) fn rounded(value: f64, working: &str, solved: &Solved) -> Inline {
    match exact(value, working, solved) {
        Inline::Given(quantity, role) => Inline::Quantity(quantity, role),
        other => other,
    }
}

/// A value rounded, in the unit of another that is larger or smaller: for values that are compared.
pub(crate) fn beside(value: f64, part: &ValuePart, solved: &Solved) -> Inline {
    let (style, found) = (solved.style(), solved.workings().get(&part.working));
    let Some(found) = found else { return "".into() };
    let quantity = Quantity::new(value, found.value.dimension);
    style.show_beside(quantity, found.symbol.role, part.right).text().into()
}

/// A length along the beam or over the depth, exact.
pub(crate) fn place(value: f64, along: Along) -> Inline {
    Inline::Given(Quantity::new(value, Dimension::LENGTH), place_role(along))
}

pub(crate) fn place_role(along: Along) -> Role {
    match along {
        Along::Beam => Role::Station,
        Along::Depth => Role::CutHeight,
    }
}

/// `V =`
pub(crate) fn symbol_equals(part: &ValuePart) -> Vec<Inline> {
    line![Inline::Math(Expression::Symbol(part.symbol.clone())), " ="]
}

/// What stands before the box of a place.
pub(crate) fn place_equals(part: &PlacePart) -> &'static str {
    match part.along {
        Along::Beam => "from the left end:",
        Along::Depth => "above the lowest fibre:",
    }
}

/// A unit behind a box.
pub(crate) fn unit(unit: &AnswerUnit) -> Vec<Inline> {
    vec![unit.text().into()]
}

/// `in kilonewtons`, after a comma; nothing for a plain number.
pub(crate) fn spoken_unit(unit: &AnswerUnit) -> String {
    let words = unit.in_words();
    if words.is_empty() { words } else { format!(", in {words}") }
}

/// The name of a working in a sentence and in the words of the course; of a place with what it is counted from, and without a word that
/// points to what stands elsewhere.
pub(crate) fn name(working: &str, solved: &Solved) -> String {
    let name = solved.style().notation.in_its_words(&solved.in_a_sentence(working));
    if name.starts_with("place of ") && name.ends_with(" to the right") {
        return format!("{name} of the leftmost fibre");
    }
    if working.ends_with("centroid height") || working.starts_with("centroid height of ") {
        return format!("{name}, {}", above_what(solved));
    }
    if working == "distance of the shear centre from the web" {
        return format!("{name}, from its middle line");
    }
    name.replace("of that torque", "of the torque that a load over the centroid makes")
}

/// What heights of the section are measured from.
fn above_what(solved: &Solved) -> &'static str {
    let properties = solved.section().properties();
    match properties.bottom.abs() <= 1e-9 * properties.height() {
        true => "above the lowest fibre",
        false => "above the base line, from which the lesson counts heights",
    }
}

/// What a part is called in a question of several: the name of its working, or that of its place.
pub(crate) fn part_name(part: &Part, solved: &Solved) -> String {
    use assessment::set::Ask;
    match &part.ask {
        Ask::Value(value) => name(&value.working, solved),
        Ask::Choice(choice) => name(&choice.value.working, solved),
        Ask::Place(place) => match place.along {
            Along::Beam => "station where it occurs".to_owned(),
            Along::Depth => "height at which it occurs".to_owned(),
        },
        Ask::Sketch { sketch } => sketch.written().to_owned(),
    }
}
