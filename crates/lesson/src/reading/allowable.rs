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
    let size = |word: &str| table.value(word).map(|given| given.value);
    let allowable = Allowable {
        bending: size("bending-stress"),
        tension: size("tension"),
        compression: size("compression"),
        shear: size("shear-stress"),
        deflection: size("deflection"),
    };
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
    if section.properties().bends_askew() {
        report
            .add(
                place(),
                "what this beam may carry is found by M y / I, which does not hold where a section bends askew, as this one does",
            )
            .mend("leave [allowable] out, or take a section with an axis of symmetry, upright or level");
    }
    let stresses = [allowable.bending, allowable.tension, allowable.compression, allowable.shear];
    let any_stress = stresses.iter().any(Option::is_some);
    if any_stress && section.parts().iter().any(|part| part.modular_ratio != 1.0) {
        report
            .add(
                place(),
                "these are the stresses of one material, and the parts of this section are of several",
            )
            .mend("leave [allowable] out, or make all parts of one material");
    }
    allowable
}
