//! How large the terms are that the values of a solution were added up from, and so what is nothing but rounding.

use super::segment::{Curve, Segment};
use super::{Hold, Support};

// Rounding leaves about 1e-16 of the terms that were added up, more where many were: this share of them is still far
// below every digit that anybody reads.
pub(super) const ROUNDING: f64 = 1e-13;

/// Gathers the sizes while the solution is swept from left to right.
pub(super) struct Sizes {
    length: f64,
    rigidity: f64,
    /// Sum of the changes of each curve along the beam.
    changes: [f64; 4],
    largest: [f64; 4],
    /// The largest bending moment that the imposed movements could make, whether they make one or not.
    imposed: f64,
    /// What the terms of the equations of one element amount to, however much they cancel: M, N m, and that times the
    /// element's length and its square.
    terms: [f64; 3],
    element: ElementSizes,
}

/// Of the element that is being swept.
#[derive(Default)]
struct ElementSizes {
    length: f64,
    forces: f64,
    bending_moment: f64,
}

impl Sizes {
    pub(super) fn new(length: f64, rigidity: f64) -> Self {
        Self {
            length,
            rigidity,
            changes: [0.0; 4],
            largest: [0.0; 4],
            imposed: 0.0,
            terms: [0.0; 3],
            element: ElementSizes::default(),
        }
    }

    /// A point load, or a reaction.
    pub(super) fn act(&mut self, force: f64, couple: f64) {
        self.changes[Curve::Shear as usize] += force.abs();
        self.changes[Curve::BendingMoment as usize] += couple.abs();
    }

    /// A point load between nodes.
    pub(super) fn act_on_element(&mut self, force: f64, couple: f64) {
        self.act(force, couple);
        self.element.forces += force.abs();
        self.element.bending_moment += couple.abs();
    }

    /// A node with what holds it, the force on it from loads and reaction, and the element that begins there:
    /// its length, V at its beginning, and the larger moment of its two ends.
    pub(super) fn node(&mut self, support: Option<&Support>, force: f64, next: [f64; 3]) {
        let (transverse, rotation) =
            support.map_or((Hold::Free, Hold::Free), |support| (support.transverse, support.rotation));
        let [length, shear, moment] = next;
        // Where the node may move, the forces on it enter the equations even if a spring takes all of them, and
        // so do the moments of a short element beside it that balance each other.
        let force = if matches!(transverse, Hold::Rigid { .. }) {
            0.0
        } else {
            let steep = |moment: f64, length: f64| if length > 0.0 { moment / length } else { 0.0 };
            force + steep(self.element.bending_moment, self.element.length) + steep(moment, length)
        };
        self.element.forces += force;
        self.end_element();
        self.element = ElementSizes { length, forces: shear.abs() + force, bending_moment: 0.0 };
        let moved = |hold| match hold {
            Hold::Rigid { moved } => f64::abs(moved),
            Hold::Free | Hold::Spring { .. } => 0.0,
        };
        let curvature = (moved(transverse) / self.length + moved(rotation)) / self.length;
        self.imposed = self.imposed.max(curvature * self.rigidity);
    }

    fn end_element(&mut self) {
        let ElementSizes { length, forces, bending_moment } = self.element;
        // M of a force on a simple beam is at most F l / 4.
        let mut term = bending_moment + forces * length / 4.0;
        for largest in &mut self.terms {
            *largest = largest.max(term);
            term *= length;
        }
    }

    /// Takes in a segment, and gives the curves' values at its right end.
    pub(super) fn segment(&mut self, segment: &Segment) -> [f64; 4] {
        self.element.bending_moment = self.element.bending_moment.max(segment.bending_moment_at_start.abs());
        let starts = [
            segment.shear_at_start,
            segment.bending_moment_at_start,
            segment.slope_at_start,
            segment.deflection_at_start,
        ];
        let mut ends = [0.0; 4];
        for curve in Curve::ALL {
            let at = curve as usize;
            let (end, change) = segment.end_and_change(curve);
            self.changes[at] += change;
            self.largest[at] = self.largest[at].max(starts[at].abs());
            if curve == Curve::Shear {
                self.element.forces += change;
            }
            ends[at] = end;
        }
        ends
    }

    /// The size of each curve's terms, by `Curve as usize`, in its unit.
    pub(super) fn scales(mut self) -> [f64; 4] {
        self.end_element();
        let [shear, bending_moment, slope, deflection] =
            [0, 1, 2, 3].map(|at| self.changes[at] + self.largest[at]);
        let bending_moment = bending_moment + self.imposed + self.terms[0];
        // Moments turn the ends of a simple beam by up to M l / (3 E I) and bend it by up to M l² / (8 E I).
        let deflection = deflection + self.terms[2] / (8.0 * self.rigidity);
        let slope = slope + self.terms[1] / (3.0 * self.rigidity) + deflection / self.length;
        [shear + bending_moment / self.length, bending_moment, slope, deflection]
    }
}
