//! What the material may be asked to bear.

use super::node::Table;
use crate::finding::Report;
use mechanics::beam::{Beam, Hold};
use mechanics::section::Section;
use workings::problem::Allowable;

/// Reads the table; tells where no load could be found from it.
pub(super) fn read(
    lesson: &Table,
    (beam, own_weight): (&Beam, bool),
    section: &Section,
    report: &mut Report,
) -> Allowable {
    let Some(table) = lesson.table("allowable") else { return Allowable::default() };
    let allowable = stated(table);
    let moved = |hold: &Hold| matches!(hold, Hold::Rigid { moved } if *moved != 0.0);
    let settles = beam.supports.iter().any(|support| moved(&support.transverse) || moved(&support.rotation));
    let place = || table.span.clone();
    if own_weight {
        report
            .add(place(), "how far the loads may grow is not told where the beam's own weight counts: it does not grow with them")
            .mend("take `self-weight` out, or leave [allowable] out");
    } else if settles {
        report
            .add(place(), "how far the loads may grow is not told where a support settles: that does not grow with them")
            .mend("take `settles` and `turns` out, or leave [allowable] out");
    }
    let several = section.parts().iter().any(|part| part.modular_ratio != 1.0);
    if section.properties().bends_askew() && several {
        report
            .add(
                place(),
                "what this beam may carry is not told where a section of several materials bends askew, as this one does",
            )
            .mend("leave [allowable] out, or take a section with an axis of symmetry, upright or level");
    }
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
