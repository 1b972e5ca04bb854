//! What the material may be asked to bear.

use super::node::Table;
use crate::finding::Report;
use mechanics::section::Section;
use workings::problem::Allowable;

/// Reads the table; tells where nothing could be found from it.
pub(super) fn read(lesson: &Table, section: &Section, report: &mut Report) -> Allowable {
    let Some(table) = lesson.table("allowable") else { return Allowable::default() };
    let allowable = stated(table);
    let place = || table.span.clone();
    let several = section.parts().iter().any(|part| part.modular_ratio != 1.0);
    let any_stress = allowable != Allowable { deflection: allowable.deflection, ..Allowable::default() };
    if any_stress && several && section.parts().iter().all(|part| part.modular_ratio != 1.0) {
        report
            .add(place(), "these are stresses of the material under [material], of which no part of this section is made")
            .mend("give each part an `allowable` of its own");
    }
    allowable
}

/// What a table states that may be borne.
pub(super) fn stated(table: &Table) -> Allowable {
    let size = |word: &str| table.value(word).map(|given| given.value);
    Allowable {
        bending: size("bending-stress"),
        tension: size("tension"),
        compression: size("compression"),
        shear: size("shear-stress"),
        deflection: size("deflection"),
    }
}
