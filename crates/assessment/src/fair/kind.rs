//! What a value is small beside.

use workings::role::Role;
use workings::solved::Solved;
use workings::working::{Chapter, Id, Working};

/// Values smaller than this part of the largest of their kind are near zero: their band no longer shrinks with them.
///
/// Common practice, no source: with 1 % of tolerance the band of a shear force never falls below a thousandth of the largest
/// one, about what a reader can tell in the diagram.
const NEAR_ZERO: f64 = 0.1;

/// Values that one scale fits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Force,
    Moment,
    /// Heights and distances over the depth.
    OverDepth,
    /// Stations and distances along the beam.
    Along,
    Other(Role),
}

impl Kind {
    fn of(role: Role) -> Self {
        match role {
            Role::ShearForce | Role::Reaction => Self::Force,
            Role::BendingMoment | Role::ReactionCouple => Self::Moment,
            Role::CutDistance
            | Role::CutHeight
            | Role::CentroidBeyond
            | Role::CentroidHeight
            | Role::ExtremeDistance => Self::OverDepth,
            Role::Station | Role::Distance => Self::Along,
            Role::ShearStress | Role::MeanShearStress => Self::Other(Role::ShearStress),
            Role::ForceOnCut | Role::StressResultant => Self::Other(Role::ForceOnCut),
            other => Self::Other(other),
        }
    }
}

/// Whether a value is what a material may bear, or how far a beam may bend: nothing that the beam does.
fn is_allowed(working: &Working) -> bool {
    let of_a_limit =
        matches!(working.symbol.role, Role::BendingStress | Role::ShearStress | Role::Deflection);
    working.chapter == Chapter::Given && of_a_limit
}

/// What values of a working's kind are not small beside, SI: a part of the largest of them (the largest V, M or sigma, the
/// depth of the section, the length of the beam).
pub(crate) fn least_size(solved: &Solved, id: Id) -> f64 {
    let own = solved.workings().working(id);
    let kind = Kind::of(own.symbol.role);
    let largest = match kind {
        Kind::OverDepth => solved.section().properties().height(),
        Kind::Along => solved.problem().beam.length,
        _ => {
            let like = solved.workings().in_order().filter(|(_, other)| {
                let alike =
                    Kind::of(other.symbol.role) == kind && other.value.dimension == own.value.dimension;
                alike && !is_allowed(other)
            });
            like.map(|(_, other)| other.value.value.abs()).fold(0.0, f64::max)
        }
    };
    NEAR_ZERO * largest
}
